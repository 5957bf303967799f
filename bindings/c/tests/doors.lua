-- Takes the shared documents and the direct calls through LuaJIT: answers to OUT, judged elsewhere.

local here = arg[0]:match("^(.*)/[^/]*$") or "."
package.path = here .. "/../../../examples/lua/?.lua;" .. package.path
local lw = require("lashwork")
local ffi = lw.ffi

local function whole(text)
  return tonumber(text)
end

local function bits(x)
  if x ~= x then
    return "0x7ff8000000000000"
  end
  local both = ffi.cast("uint32_t *", ffi.new("double[1]", x))
  return ("0x%08x%08x"):format(both[1], both[0])
end

-- A 64 bit number without the suffix Lua shows.
local function show(value)
  return (tostring(value):gsub("U?LL$", ""))
end

local function split(text, separator)
  local words = {}
  for word in (text .. separator):gmatch("(.-)" .. separator) do
    table.insert(words, word)
  end
  return words
end

-- A list as an array of C; nil for what is left out.
local function array(kind, text)
  if text == "-" then
    return nil, 0
  end
  local words = split(text, ",")
  local made = ffi.new(kind .. "[?]", #words)
  for i, word in ipairs(words) do
    made[i - 1] = tonumber(word)
  end
  return made, #words
end

-- Fills a structure from words.
local function filled(name, keys, words, from)
  local fields = {}
  for i, key in ipairs(keys) do
    fields[key] = tonumber(words[(from or 1) + i - 1])
  end
  return lw.new(name, fields)
end

local function slider(w, from)
  return filled("lw_slider_crank", { "crank_radius_mm", "rod_mm", "offset_mm" }, w, from)
end
local function estimate(w)
  return filled("lw_estimate", { "span", "low_mm", "high_mm", "uncertainty_mm" }, w)
end
local function limits(w, from)
  return filled("lw_limits", { "span", "lower_nm", "upper_nm" }, w, from)
end
local function rule(w, from)
  return filled("lw_rule", { "kind", "below_confidence", "above_confidence" }, w, from)
end
local function fit(w)
  return filled("lw_shim_fit", { "old_mm", "measured_mm", "target_mm", "ratio" }, w)
end

-- Keeps the arrays that parts point to until the engine is made.
local function engine(w)
  local order, count = array("uint32_t", w[6])
  local listed, bank, pin = array("double", w[7]), array("double", w[8]), array("double", w[9])
  local parts = filled("lw_engine_parts", { "cycle", "intervals", "sense", "seen_from", "numbering" }, w)
  parts.cylinders, parts.firing_order = count, order
  parts.intervals_deg, parts.bank_deg, parts.crankpin_deg = listed, bank, pin
  local made, refused = lw.engine(parts)
  assert(order ~= nil and (listed or bank or pin or true))
  return made, refused
end

-- Calls that give numbers with a fraction.
local function numbers(count, name, ...)
  local places, arguments = {}, { ... }
  local given = select("#", ...)
  for i = 1, count do
    places[i] = ffi.new("double[1]")
    arguments[given + i] = places[i]
  end
  local done, refused = lw.try(name, unpack(arguments, 1, given + count))
  if not done then
    return nil, refused
  end
  local out = {}
  for i = 1, count do
    out[i] = bits(places[i][0])
  end
  return out
end

-- Calls that give a structure.
local function structure(name, kind, tell, ...)
  local made = lw.new(kind)
  local arguments = { ... }
  table.insert(arguments, made)
  local done, refused = lw.try(name, unpack(arguments))
  if not done then
    return nil, refused
  end
  return tell(made)
end

local function estimated(e)
  return { e.span, bits(e.low_mm), bits(e.high_mm), bits(e.uncertainty_mm) }
end

local CHANCES = { "below_least", "below_most", "in_band_least", "in_band_most", "above_least", "above_most" }

local function judged(j)
  local out = { tonumber(j.verdict), j.provable }
  for _, key in ipairs(CHANCES) do
    table.insert(out, bits(j[key]))
  end
  return out
end

local function offsets(name)
  return function(w)
    local made, refused = engine(w)
    if not made then
      return nil, refused
    end
    local found, count = ffi.new("double[64]"), ffi.new("size_t[1]")
    lw.call(name, made, found, 64, count)
    local out = {}
    for i = 0, tonumber(count[0]) - 1 do
      table.insert(out, bits(found[i]))
    end
    return out
  end
end

-- Room for verdicts, and what stands in it after a call.
local function judgements(rows)
  local verdict, provable = ffi.new("uint8_t[?]", rows), ffi.new("uint8_t[?]", rows)
  local out = lw.new("lw_judgement_columns", { rows = rows, verdict = verdict, provable = provable })
  local chances = {}
  for i, key in ipairs(CHANCES) do
    chances[i] = ffi.new("double[?]", rows)
    out[key] = chances[i]
  end
  local function tell(told, row)
    table.insert(told, verdict[row])
    table.insert(told, provable[row])
    for i = 1, #CHANCES do
      table.insert(told, bits(chances[i][row]))
    end
  end
  return out, tell
end

-- The curve in words 1 to 4 and its columns, which must live as long; nil if there is none.
local function curve(w)
  local speeds, points = array("double", w[1])
  if speeds == nil then
    return nil
  end
  local least, most = array("double", w[2]), array("double", w[3])
  local fields = { points = points, speed_rpm = speeds, least_deg = least, most_deg = most, ends = whole(w[4]) }
  return lw.new("lw_advance_curve", fields), { speeds, least, most }
end

local POINT = { "low_btdc_deg", "high_btdc_deg", "uncertainty_deg" }

-- Readings from a place in the words on; what they hold must be kept.
local function strobes(w, from)
  local read, rows = array("double", w[from + 3])
  local rpm, uncertainty = array("double", w[from + 4]), array("double", w[from + 5])
  return lw.new("lw_strobe_columns", {
    rows = rows, read_btdc_deg = read, rpm = rpm, uncertainty_deg = uncertainty,
    speed_uncertainty_rpm = whole(w[from]), lamp_delay_us = whole(w[from + 1]), hose = whole(w[from + 2]),
  }), { read, rpm, uncertainty }, rows
end

local PRINTED = { "span", "lower_btdc_deg", "upper_btdc_deg", "printed_rpm" }
local FIT = { "static_btdc_deg", "static_uncertainty_deg", "scale", "scale_uncertainty", "end_deg", "end_uncertainty_deg", "scatter" }

local function fitted(w)
  local table_of_advance, kept = curve(w)
  local readings, held = strobes(w, 9)
  local tell = function(fit)
    local out = {}
    for i, key in ipairs(FIT) do
      out[i] = bits(fit[key])
    end
    table.insert(out, tonumber(fit.degrees_of_freedom))
    return out
  end
  local told, refused = structure(
    "fit_advance_curve", "lw_curve_fit", tell, readings, table_of_advance, filled("lw_printed_timing", PRINTED, w, 5))
  assert(kept and held)
  return told, refused
end

local function weighed(w)
  local table_of_advance, kept = curve(w)
  local readings, held = strobes(w, 13)
  local prior = filled("lw_curve_prior", { "fault", "capsule_known", "capsule_deg", "capsule_uncertainty_deg" }, w, 9)
  local capacity = tonumber(lw.C.LW_CURVE_CAUSE_SOMETHING_ELSE) + 1
  local found, count = ffi.new("double[?]", capacity), ffi.new("size_t[1]")
  local printed = filled("lw_printed_timing", PRINTED, w, 5)
  local done, refused = lw.try("weigh_advance_curve", readings, table_of_advance, printed, prior, found, capacity, count)
  assert(kept and held)
  if not done then
    return nil, refused
  end
  local out = {}
  for i = 1, tonumber(count[0]) do
    out[i] = bits(found[i - 1])
  end
  return out
end

local function strobe(w)
  local table_of_advance, kept = curve(w)
  local readings, held, rows = strobes(w, 12)
  local printed = filled("lw_printed_timing", PRINTED, w, 5)
  local out, tell = judgements(rows)
  local points, ends = lw.new("lw_point_columns", { rows = rows }), {}
  for i, key in ipairs(POINT) do
    ends[i] = ffi.new("double[?]", rows)
    points[key] = ends[i]
  end
  local done, refused = lw.try("judge_strobe_columns", readings, table_of_advance, printed, rule(w, 9), out, points)
  assert(held and (kept or not table_of_advance))
  if not done and refused.status ~= lw.C.LW_STATUS_ROWS_REFUSED then
    return nil, refused
  end
  local told = {}
  for row = 0, rows - 1 do
    tell(told, row)
    for i = 1, #POINT do
      table.insert(told, bits(ends[i][row]))
    end
  end
  return told
end

local OWN = {
  "lower_mm", "upper_mm", "at_celsius", "at_uncertainty_kelvin", "reference_celsius", "mm_per_kelvin",
  "mm_per_kelvin_uncertainty",
}
local ENDS = { "low_mm", "high_mm", "uncertainty_mm" }

-- A column that may be left out; one number says the same of all rows.
local function own_column(text, rows)
  local found, count = array("double", text)
  if found == nil or count == rows then
    return found
  end
  local all = ffi.new("double[?]", rows)
  for row = 0, rows - 1 do
    all[row] = found[0]
  end
  return all
end

local function columns(w)
  local low, rows = array("double", w[8])
  local high, uncertainty, span = array("double", w[9]), array("double", w[10]), array("uint8_t", w[7])
  -- An end that is not there is infinite in a column.
  for row = 0, span and rows - 1 or -1 do
    low[row] = span[row] == 3 and -math.huge or low[row]
    high[row] = span[row] == 2 and math.huge or high[row]
  end
  local readings = lw.new("lw_reading_columns", { rows = rows, low_mm = low, high_mm = high, uncertainty_mm = uncertainty })
  local kept = {}
  for i, key in ipairs(OWN) do
    kept[i] = own_column(w[10 + i], rows)
    readings[key] = kept[i]
  end
  local out, tell = judgements(rows)
  local ends, at_reference = {}, ffi.new("uint8_t[?]", rows)
  for i, key in ipairs(ENDS) do
    ends[i] = ffi.new("double[?]", rows)
    out[key] = ends[i]
  end
  out.at_reference = at_reference
  -- No limits of all rows where no span is stated.
  local of_all = w[1] ~= "0" and limits(w) or nil
  local done, refused = lw.try("judge_columns", readings, of_all, rule(w, 4), out)
  assert(kept)
  if not done and refused.status ~= lw.C.LW_STATUS_ROWS_REFUSED then
    return nil, refused
  end
  local told = {}
  for row = 0, rows - 1 do
    tell(told, row)
    for i = 1, #ENDS do
      table.insert(told, bits(ends[i][row]))
    end
    table.insert(told, at_reference[row])
  end
  return told
end

local function append(out, ...)
  for i = 1, select("#", ...) do
    table.insert(out, (select(i, ...)))
  end
end

local function plan(w)
  local made, refused = engine(w)
  if not made then
    return nil, refused
  end
  local train = filled("lw_valve_train", {
    "intake_opens_btdc_deg", "intake_closes_abdc_deg", "exhaust_opens_bbdc_deg", "exhaust_closes_atdc_deg",
    "guard_deg", "intake_per_cylinder", "exhaust_per_cylinder",
    "events_at", "events_at_mm", "greatest_lift_mm", "running_intake_mm", "running_exhaust_mm",
  }, w, 10)
  local found, why = lw.plan(made, train, whole(w[22]), whole(w[23]), whole(w[24]))
  if not found then
    if why then
      return nil, why
    end
    return { 0 }
  end
  local cost = lw.new("lw_plan_cost")
  lw.call("plan_total", found, cost)
  local out = { show(cost.stops), show(cost.walks), show(cost.unreachable), bits(cost.total_turn_deg) }
  local valve = lw.new("lw_valve_check")
  for i = 0, tonumber(cost.stops) - 1 do
    local stop = lw.new("lw_stop")
    lw.call("plan_stop", found, i, stop)
    append(out, bits(stop.position_deg), bits(stop.turn_deg), stop.firing_tdc_of, stop.overlap_tdc_of)
    append(out, show(stop.cues), show(stop.checks))
    for j = 0, tonumber(stop.cues) - 1 do
      lw.call("plan_cue", found, i, j, valve)
      append(out, valve.cylinder, tonumber(valve.kind))
    end
    for j = 0, tonumber(stop.checks) - 1 do
      lw.call("plan_check", found, i, j, valve)
      append(out, valve.cylinder, tonumber(valve.kind), valve.number, bits(valve.margin_deg))
    end
  end
  for i = 0, tonumber(cost.unreachable) - 1 do
    lw.call("plan_unreachable", found, i, valve)
    append(out, valve.cylinder, tonumber(valve.kind), valve.number)
  end
  return out
end

local PAIR = { "gap_mm", "gap_uncertainty_mm", "dwell_deg", "dwell_uncertainty_deg", "lobes", "unusual_gap" }
local DIAL = { "uncertainty_mm", "plug_hole_deg" }
local CIRCUIT = {
  "supply_v", "supply_uncertainty_v", "resistance_ohm", "resistance_uncertainty_ohm", "inductance_mh",
  "inductance_uncertainty_mh", "dwell_deg", "dwell_uncertainty_deg", "lobes", "cam",
}
local CHARGE = {
  "closed_ms", "current_a", "current_uncertainty_a", "energy_mj", "energy_uncertainty_mj", "share_of_current", "share_of_energy",
}

-- A call of plain numbers that gives numbers with a fraction.
local function plain(count, name)
  return function(w)
    local given = {}
    for i, word in ipairs(w) do
      given[i] = tonumber(word)
    end
    return numbers(count, name, unpack(given))
  end
end

local FUEL = { "hydrogen", "oxygen", "nitrogen" }
local GAS = { "co2_percent", "co_percent", "o2_percent", "hc_ppm", "hc_factor", "no_ppm", "hydrocarbons", "tester", "no_read" }
local AIR = {
  "barometer_kpa", "pressure_uncertainty_kpa", "celsius", "uncertainty_kelvin", "humidity_percent",
  "humidity_uncertainty_percent", "altitude_m", "barometer", "altitude_known", "humidity_read",
}

-- Tells the fields of a structure: numbers with a fraction, then whole ones.
local function telling(fractions, wholes)
  return function(made)
    local out = {}
    for i, key in ipairs(fractions) do
      out[i] = bits(made[key])
    end
    for _, key in ipairs(wholes or {}) do
      table.insert(out, tonumber(made[key]))
    end
    return out
  end
end

local lambda_told = telling(
  { "lambda", "uncertainty", "spindt", "air_fuel_ratio", "behind_air_low", "behind_air_high" }, { "contradictions", "cause" })
local density_told = telling(
  { "low_kg_m3", "high_kg_m3", "uncertainty_kg_m3", "ratio", "altitude_m", "station_kpa" }, { "doubt", "as_published" })
local crown_told = telling(
  { "best_turns", "best_uncertainty_turns", "from_turns", "to_turns", "speed_rpm", "speed_uncertainty_rpm", "lopsided" },
  { "clearly_lopsided", "seen", "rises_toward" })

local function range_told(found)
  local out = telling({ "low", "high", "uncertainty", "burnt_out", "co2_percent" })(found)
  table.insert(out, 1, tonumber(found.span))
  return out
end

-- Room for columns, which `keys` names with their kinds, and what tells so many rows of them.
local function filling_columns(kind, keys, rows)
  local out, made = lw.new(kind, { rows = rows }), {}
  for i, key in ipairs(keys) do
    made[i] = ffi.new(key[2] .. "[?]", rows)
    out[key[1]] = made[i]
  end
  return out, function(told, count)
    for row = 0, count - 1 do
      for i, key in ipairs(keys) do
        table.insert(told, key[2] == "double" and bits(made[i][row]) or tonumber(made[i][row]))
      end
    end
  end
end

-- A call that fills columns; refused rows are told like others.
local function filling(name, kind, keys, rows, ...)
  local out, tell = filling_columns(kind, keys, rows)
  local arguments = { ... }
  table.insert(arguments, out)
  local done, refused = lw.try(name, unpack(arguments))
  if not done and refused.status ~= lw.C.LW_STATUS_ROWS_REFUSED then
    return nil, refused
  end
  local told = {}
  tell(told, rows)
  return told
end

local function gas_columns(w)
  local kept, rows = {}, 0
  for i = 1, 4 do
    kept[i], rows = array("double", w[i])
  end
  local gas = lw.new("lw_gas_columns", {
    rows = rows, co2_percent = kept[1], co_percent = kept[2], o2_percent = kept[3], hc_ppm = kept[4],
    hc_factor = whole(w[5]), hydrocarbons = whole(w[6]), tester = whole(w[7]),
  })
  local keys = { { "lambda", "double" }, { "uncertainty", "double" }, { "contradiction", "uint8_t" } }
  local told, refused = filling("lambda_of_columns", "lw_lambda_columns", keys, rows, gas, filled("lw_fuel", FUEL, w, 8))
  assert(kept[4])
  return told, refused
end

local function air_columns(w)
  local kept, rows = {}, 0
  for i = 1, 3 do
    kept[i], rows = array("double", w[i])
  end
  local air = lw.new("lw_air_columns", {
    rows = rows, pressure_kpa = kept[1], celsius = kept[2], humidity_percent = kept[3],
    pressure_uncertainty_kpa = whole(w[4]), uncertainty_kelvin = whole(w[5]), humidity_uncertainty_percent = whole(w[6]),
  })
  local keys = { { "density_kg_m3", "double" }, { "uncertainty_kg_m3", "double" }, { "altitude_m", "double" } }
  local told, refused = filling("density_of_columns", "lw_density_columns", keys, rows, air)
  assert(kept[3])
  return told, refused
end

-- Readings of an idle in words 1 to 4, and what they hold.
local function idle(w)
  local turns, rows = array("double", w[1])
  local rpm = array("double", w[2])
  return lw.new("lw_idle_readings", {
    rows = rows, turns_out = turns, rpm = rpm, scatter_rpm = whole(w[3]), screw = whole(w[4]),
  }), { turns, rpm }
end

local STANDS = {
  { "reading", "double" }, { "uncertainty", "double" }, { "over_reference", "double" }, { "over_uncertainty", "double" },
  { "verdict", "uint8_t" },
}
local MOVES = {
  { "joint", "uint32_t" }, { "to_match", "uint32_t" }, { "change", "double" }, { "change_uncertainty", "double" },
  { "way", "uint32_t" }, { "way_right", "double" }, { "sense", "uint32_t" }, { "turn_deg", "double" },
  { "turn_uncertainty_deg", "double" }, { "per_turn", "double" }, { "per_turn_uncertainty", "double" },
}
local SHAFTS = {
  { "joint", "uint32_t" }, { "difference", "double" }, { "difference_uncertainty", "double" }, { "verdict", "uint8_t" },
}
local balance_told = telling({ "spread", "scatter", "degrees_of_freedom", "within", "doubt_deg", "then_deg" }, { "verdict", "next", "next_index", "shafts" })

local function balance(w)
  local one, joints = array("uint32_t", w[4])
  local other, by = array("uint32_t", w[5]), array("uint32_t", w[6])
  local linkage = lw.new("lw_linkage", {
    throttles = whole(w[1]), reference = whole(w[2]), screws_alike = whole(w[3]), joints = joints, one = one, other = other, joined_by = by,
  })
  local throttle, rows = array("uint32_t", w[7])
  local shown = array("double", w[8])
  local looks = lw.new("lw_throttle_looks", {
    rows = rows, throttle = throttle, shown = shown, scatter = whole(w[9]), between_gauges = whole(w[10]), allowed = whole(w[11]),
    ambient_kpa = whole(w[12]), gauge = whole(w[13]), ambient_known = whole(w[14]),
  })
  local screw, tried = array("uint32_t", w[15])
  local trials, kept = lw.new("lw_trial_turns", { rows = tried, joint = screw }), {}
  for i, key in ipairs({ "turn_deg", "before", "after", "unmoved_before", "unmoved_after" }) do
    kept[i] = array("double", w[15 + i])
    trials[key] = kept[i]
  end
  local held = { one, other, by, throttle, shown, screw, kept }
  local by_rule = w[21] ~= "0" and rule(w, 21) or nil
  local stands, stood = filling_columns("lw_throttle_columns", STANDS, whole(w[1]))
  local moves, moved = filling_columns("lw_move_columns", MOVES, joints)
  local shafts, paired = filling_columns("lw_shaft_columns", SHAFTS, joints)
  local found = lw.new("lw_balance")
  local done, refused = lw.try("balance_throttles", linkage, looks, trials, by_rule, found, stands, moves, shafts)
  assert(held)
  if not done then
    return nil, refused
  end
  local told = balance_told(found)
  table.insert(told, 1, tonumber(found.moves))
  stood(told, whole(w[1]))
  moved(told, tonumber(found.moves))
  paired(told, tonumber(found.shafts))
  return told
end

-- Structures and what they point to, kept until the call is made; read from words one after the other.
local function reader(w, from)
  local at = from or 1
  local r = { kept = {} }
  function r.word()
    at = at + 1
    return w[at - 1]
  end
  function r.number()
    return tonumber(r.word())
  end
  function r.fill(name, keys)
    local made = filled(name, keys, w, at)
    at = at + #keys
    table.insert(r.kept, made)
    return made
  end
  function r.array(kind)
    local made, count = array(kind, r.word())
    table.insert(r.kept, made or false)
    return made, count
  end
  return r
end

local SLIDER = { "crank_radius_mm", "rod_mm", "offset_mm" }
local ENGINE = {
  "ratio", "ratio_uncertainty", "intake_closes_abdc_deg", "closes_uncertainty_deg", "air_kpa", "air_uncertainty_kpa",
  "closes_known", "air_known",
}

local function crank_if(r, known)
  local crank = r.fill("lw_slider_crank", SLIDER)
  return known == 1 and crank or nil
end

local function cranking(r)
  local made = r.fill("lw_cranking", ENGINE)
  made.crank = crank_if(r, r.number())
  return made
end

local CYLINDERS = {
  { "share", "double" }, { "share_uncertainty", "double" }, { "expected_kpa", "double" }, { "expected_uncertainty_kpa", "double" },
  { "within", "double" }, { "verdict", "uint8_t" }, { "sound", "double" }, { "rings", "double" }, { "valve", "double" },
  { "gasket", "double" }, { "something_else", "double" },
}
local verdict_told = telling(
  { "limit_kpa", "within", "standard_kpa", "standard_uncertainty_kpa", "exponent", "exponent_uncertainty" }, { "verdict", "next" })

local function compressions(w)
  local r = reader(w)
  local dry, rows = r.array("double")
  local wet = r.array("double")
  for row = 0, wet and rows - 1 or -1 do
    wet[row] = wet[row] < 0 and math.huge or wet[row]
  end
  local readings = lw.new("lw_compression_readings", { rows = rows, dry_kpa = dry, wet_kpa = wet })
  readings.build_up, readings.head = r.array("uint32_t"), (r.array("uint32_t"))
  for _, key in ipairs({ "air_kpa", "repeat_kpa", "gauge_kpa", "air_known", "gauge_known", "clearances_good" }) do
    readings[key] = r.number()
  end
  local rule = r.fill("lw_compression_rule", { "kind", "number" })
  local engine = r.number() == 1 and cranking(r) or nil
  local verdict = lw.new("lw_compression_verdict")
  local found, tell = filling_columns("lw_cylinder_columns", CYLINDERS, rows)
  local done, refused = lw.try("judge_compression", readings, engine, rule.kind ~= 0 and rule or nil, verdict, found)
  assert(r.kept)
  if not done then
    return nil, refused
  end
  local told = verdict_told(verdict)
  tell(told, rows)
  return told
end

local TESTER = { "supply_kpa", "supply_uncertainty_kpa", "orifice_mm", "orifice_uncertainty_mm" }
local LEAKS = { { "area_mm2", "double" }, { "uncertainty_mm2", "double" }, { "hole_mm", "double" } }
local leak_told = telling(
  { "area_mm2", "uncertainty_mm2", "hole_mm", "over_orifice", "percent_lost" }, { "orifice_choked", "leak_choked" })
local ADAPTER = { "wrench_mm", "adapter_mm", "turned_deg" }
local preload_told = telling({ "least_kn", "middle_kn", "most_kn", "scatter_from_percent", "scatter_to_percent" })

local function leaks(w)
  local r = reader(w)
  local tester = r.fill("lw_leak_tester", TESTER)
  local shown, rows = r.array("double")
  local air = r.array("double")
  local readings = lw.new("lw_leak_reading_columns", {
    rows = rows, shown_kpa = shown, air_kpa = air, shown_uncertainty_kpa = r.number(), air_uncertainty_kpa = r.number(),
  })
  local told, refused = filling("leak_of_columns", "lw_leak_columns", LEAKS, rows, tester, readings)
  assert(r.kept)
  return told, refused
end

local FLANK = {
  "kind", "ramp_mm", "ramp_mm_per_deg", "flank_mm_per_deg", "thin_mm", "thick_mm", "apart_deg", "lift_mm", "duration_deg",
}

local function running(r)
  local made = r.fill("lw_running_valve", { "lash_mm", "lash_uncertainty_mm", "holds_at_mm", "rocker_ratio", "holds_at" })
  made.opening, made.closing = r.fill("lw_flank", FLANK), r.fill("lw_flank", FLANK)
  return made
end

local EVENTS = { { "low_deg", "double" }, { "high_deg", "double" }, { "uncertainty_deg", "double" }, { "printed_deg", "double" } }

local function valve_events(w)
  local r = reader(w)
  local printed = r.fill("lw_printed_events", {
    "intake_opens_btdc_deg", "intake_closes_abdc_deg", "exhaust_opens_bbdc_deg", "exhaust_closes_atdc_deg", "compression_ratio", "ratio_known",
  })
  printed.crank = crank_if(r, r.number())
  local intake, exhaust = running(r), running(r)
  local rows, ratio = tonumber(lw.C.LW_EVENT_ROW_OVERLAP) + 1, lw.new("lw_effective_ratio")
  local found, tell = filling_columns("lw_event_columns", EVENTS, rows)
  local done, refused = lw.try("events_at_lash", printed, intake, exhaust, found, ratio)
  assert(r.kept)
  if not done then
    return nil, refused
  end
  local told = {}
  tell(told, rows)
  append(told, bits(ratio.printed), bits(ratio.running), bits(ratio.uncertainty))
  return told
end

-- Readings of past services, and how many valves they are of.
local function past(r)
  local made, rows = lw.new("lw_past_readings"), 0
  local ends = {}
  for i, key in ipairs({ "at", "low_mm", "high_mm", "uncertainty_mm" }) do
    ends[i], rows = r.array("double")
    made[key] = ends[i]
  end
  made.rows = rows
  local span = r.array("uint8_t")
  for row = 0, span and rows - 1 or -1 do
    ends[2][row] = span[row] >= 3 and -math.huge or ends[2][row]
    ends[3][row] = (span[row] == 2 or span[row] == 4) and math.huge or ends[3][row]
  end
  made.valve, made.state = r.array("uint32_t"), (r.array("uint8_t"))
  for _, key in ipairs({ "counted_by", "bedding_in", "scatter_mm", "scatter_known" }) do
    made[key] = r.number()
  end
  return made, r.number()
end

local VALVE_DRIFTS = {
  { "rate", "double" }, { "rate_uncertainty", "double" }, { "rate_low", "double" }, { "rate_high", "double" }, { "look", "uint8_t" },
  { "look_at", "double" }, { "odd_evidence", "double" }, { "odd_needed", "double" },
}
local FORECASTS = {
  { "found_mm", "double" }, { "found_uncertainty_mm", "double" }, { "found_low_mm", "double" }, { "found_high_mm", "double" },
  { "line_mm", "double" }, { "line_uncertainty_mm", "double" },
}
local DEPARTURES = { { "at", "double" }, { "off", "double" }, { "above", "double" }, { "below", "double" } }
local DRIFTS = { { "rate", "double" }, { "rate_uncertainty", "double" }, { "look", "uint8_t" }, { "look_at", "double" } }
local LIMITS, RULE = { "span", "lower_nm", "upper_nm" }, { "kind", "below_confidence", "above_confidence" }
local drift_told = telling({ "rate", "rate_uncertainty", "rate_low", "rate_high", "scatter_mm", "spread" }, { "lacking" })

local function drift(w)
  local r = reader(w)
  local readings, valves = past(r)
  local limits_of, by, whole_of = r.fill("lw_limits", LIMITS), r.fill("lw_rule", RULE), lw.new("lw_drift")
  local found, tell = filling_columns("lw_valve_drift_columns", VALVE_DRIFTS, valves)
  local done, refused = lw.try("drift_of_record", readings, valves, limits_of, by, whole_of, found)
  assert(r.kept)
  if not done then
    return nil, refused
  end
  local told = drift_told(whole_of)
  tell(told, valves)
  return told
end

local function forecast(w)
  local r = reader(w)
  local readings, valves = past(r)
  local told, refused = filling("forecast_of_record", "lw_forecast_columns", FORECASTS, valves, readings, valves, r.number())
  assert(r.kept)
  return told, refused
end

local function departures(w)
  local r = reader(w)
  local readings, valves = past(r)
  local count = ffi.new("size_t[1]")
  local found, tell = filling_columns("lw_departure_columns", DEPARTURES, tonumber(readings.rows))
  local done, refused = lw.try("departures_of_record", readings, valves, r.number(), found, count)
  assert(r.kept)
  if not done then
    return nil, refused
  end
  local told = {}
  tell(told, tonumber(count[0]))
  return told
end

local function drifts(w)
  local r = reader(w)
  local readings, valves = past(r)
  local limits_of, by = r.fill("lw_limits", LIMITS), r.fill("lw_rule", RULE)
  local told, refused = filling("drift_of_columns", "lw_drift_columns", DRIFTS, valves, readings, valves, limits_of, by)
  assert(r.kept)
  return told, refused
end

local CALLS = {
  parse_length = function(w)
    local tell = function(m)
      return { show(m.nanometres), m.unit, m.decimals }
    end
    return structure("parse_length", "lw_mark", tell, w[1], #w[1])
  end,
  show_length = function(w)
    local mark = filled("lw_mark", { "nanometres", "unit", "decimals" }, w)
    local buffer, needed = ffi.new("char[64]"), ffi.new("size_t[1]")
    local done, refused = lw.try("show_length", mark, buffer, 64, needed)
    if not done then
      return nil, refused
    end
    return { ffi.string(buffer) }
  end,
  convert_length = function(w)
    return numbers(1, "convert_length", whole(w[1]), whole(w[2]), whole(w[3]))
  end,
  parse_temperature = function(w)
    return numbers(1, "parse_temperature", w[1], #w[1])
  end,
  convert_temperature = function(w)
    return numbers(1, "convert_temperature", whole(w[1]), whole(w[2]), whole(w[3]))
  end,
  parse_crank_angle = function(w)
    return numbers(1, "parse_crank_angle", w[1], #w[1])
  end,
  piston_drop = function(w)
    return numbers(1, "piston_drop", slider(w), whole(w[4]))
  end,
  angles_at_drop = function(w)
    return numbers(2, "angles_at_drop", slider(w), whole(w[4]))
  end,
  dead_centres = function(w)
    return numbers(3, "dead_centres", slider(w))
  end,
  tdc_from_stops = function(w)
    local given = w[4] ~= "-" and slider(w, 4) or nil
    return numbers(2, "tdc_from_stops", whole(w[1]), whole(w[2]), whole(w[3]), given)
  end,
  estimate_from_leaves = function(w)
    return structure("estimate_from_leaves", "lw_estimate", estimated, whole(w[1]), whole(w[2]), whole(w[3]), whole(w[4]), whole(w[5]))
  end,
  estimate_changed = function(w)
    return structure("estimate_changed", "lw_estimate", estimated, estimate(w), whole(w[5]), whole(w[6]))
  end,
  warmth_shift = function(w)
    local keys = { "mm_per_kelvin", "mm_per_kelvin_uncertainty", "at_celsius", "at_uncertainty_kelvin", "reference_celsius" }
    return numbers(2, "warmth_shift", filled("lw_warmth", keys, w))
  end,
  judge = function(w)
    return structure("judge", "lw_judgement", judged, estimate(w), limits(w, 5), rule(w, 8))
  end,
  judge_columns = columns,
  pitch_per_inch = function(w)
    return numbers(1, "pitch_per_inch", whole(w[1]))
  end,
  turn_screw = function(w)
    local tell = function(t)
      return { bits(t.angle_deg), bits(t.travel_mm), tonumber(t.direction) }
    end
    local screw = filled("lw_screw", { "pitch_mm", "rocker_ratio", "seat", "inward_closes" }, w)
    return structure("turn_screw", "lw_screw_turn", tell, screw, whole(w[5]))
  end,
  shim_wanted = function(w)
    local wanted = ffi.new("int64_t[1]")
    local done, refused = lw.try("shim_wanted", fit(w), wanted)
    if not done then
      return nil, refused
    end
    return { show(wanted[0]) }
  end,
  lash_with_shim = function(w)
    return numbers(1, "lash_with_shim", fit(w), whole(w[5]))
  end,
  choose_shim = function(w)
    local tell = function(c)
      return { show(c.size_nm), bits(c.predicted_lash_mm), bits(c.error_mm) }
    end
    local series = filled("lw_shim_series", { "first_nm", "last_nm", "step_nm" }, w, 5)
    return structure("choose_shim", "lw_shim_choice", tell, fit(w), series, whole(w[8]))
  end,
  dwell_of_reading = plain(1, "dwell_of_reading"),
  reading_of_dwell = plain(1, "reading_of_dwell"),
  dwell_at_gap = function(w)
    return numbers(2, "dwell_at_gap", filled("lw_gap_and_dwell", PAIR, w), whole(w[7]), whole(w[8]))
  end,
  gap_at_dwell = function(w)
    return numbers(2, "gap_at_dwell", filled("lw_gap_and_dwell", PAIR, w), whole(w[7]), whole(w[8]))
  end,
  spark_shift = plain(2, "spark_shift"),
  distributor_at_point = plain(2, "distributor_at_point"),
  point_at_distributor = plain(2, "point_at_distributor"),
  dial_at_point = function(w)
    return numbers(3, "dial_at_point", slider(w), filled("lw_dial", DIAL, w, 4), whole(w[6]))
  end,
  point_at_dial = function(w)
    return numbers(2, "point_at_dial", slider(w), filled("lw_dial", DIAL, w, 4), whole(w[6]), whole(w[7]))
  end,
  rim_at_point = function(w)
    local along, side, uncertainty = ffi.new("double[1]"), ffi.new("uint32_t[1]"), ffi.new("double[1]")
    local done, refused = lw.try("rim_at_point", whole(w[1]), whole(w[2]), whole(w[3]), along, side, uncertainty)
    if not done then
      return nil, refused
    end
    return { bits(along[0]), side[0], bits(uncertainty[0]) }
  end,
  point_at_rim = plain(2, "point_at_rim"),
  copper_resistance = plain(2, "copper_resistance"),
  charge_at_speed = function(w)
    local tell = function(c)
      local out = {}
      for i, key in ipairs(CHARGE) do
        out[i] = bits(c[key])
      end
      return out
    end
    return structure("charge_at_speed", "lw_charge", tell, filled("lw_primary_circuit", CIRCUIT, w), whole(w[11]))
  end,
  weak_from_speed = function(w)
    return numbers(2, "weak_from_speed", filled("lw_primary_circuit", CIRCUIT, w), whole(w[11]), whole(w[12]))
  end,
  advance_at_speed = function(w)
    local given, kept = curve(w)
    local told, refused = numbers(2, "advance_at_speed", given, whole(w[5]))
    assert(kept)
    return told, refused
  end,
  judge_strobe_columns = strobe,
  fit_advance_curve = fitted,
  weigh_advance_curve = weighed,
  parse_fuel = function(w)
    return structure("parse_fuel", "lw_fuel", telling(FUEL), w[1], #w[1])
  end,
  air_fuel_ratio = function(w)
    return numbers(1, "air_fuel_ratio", filled("lw_fuel", FUEL, w))
  end,
  lambda_of_gas = function(w)
    return structure("lambda_of_gas", "lw_lambda", lambda_told, filled("lw_exhaust_gas", GAS, w), filled("lw_fuel", FUEL, w, 10))
  end,
  lambda_of_co = function(w)
    return structure("lambda_of_co", "lw_lambda_range", range_told, whole(w[1]), whole(w[2]), filled("lw_fuel", FUEL, w, 3))
  end,
  lambda_of_columns = gas_columns,
  density_of_air = function(w)
    return structure("density_of_air", "lw_air_density", density_told, filled("lw_air", AIR, w))
  end,
  density_at_height = function(w)
    return structure("density_at_height", "lw_air_density", density_told, whole(w[1]))
  end,
  density_altitude = plain(1, "density_altitude"),
  density_of_columns = air_columns,
  fit_idle_curve = function(w)
    local readings, kept = idle(w)
    local told, refused = structure("fit_idle_curve", "lw_idle_crown", crown_told, readings)
    assert(kept)
    return told, refused
  end,
  idle_beside = function(w)
    local readings, kept = idle(w)
    local told, refused = numbers(2, "idle_beside", readings, whole(w[5]), whole(w[6]))
    assert(kept)
    return told, refused
  end,
  balance_throttles = balance,
  expected_compression = function(w)
    local r = reader(w)
    local told, refused = structure(
      "expected_compression", "lw_compression", telling({ "low_kpa", "high_kpa", "uncertainty_kpa", "effective_ratio" }),
      cranking(r), r.number(), r.number())
    assert(r.kept)
    return told, refused
  end,
  implied_exponent = function(w)
    local r = reader(w)
    local told, refused = numbers(2, "implied_exponent", cranking(r), r.number(), r.number())
    assert(r.kept)
    return told, refused
  end,
  compression_in_other_air = plain(1, "compression_in_other_air"),
  judge_compression = compressions,
  leak_area = function(w)
    local tester = filled("lw_leak_tester", TESTER, w)
    return structure("leak_area", "lw_leak", leak_told, tester, whole(w[5]), whole(w[6]), whole(w[7]), whole(w[8]))
  end,
  tester_would_show = function(w)
    return numbers(1, "tester_would_show", filled("lw_leak_tester", TESTER, w), whole(w[5]), whole(w[6]))
  end,
  leak_of_columns = leaks,
  wrench_setting = function(w)
    return numbers(1, "wrench_setting", filled("lw_adapter", ADAPTER, w), whole(w[4]))
  end,
  torque_at_bolt = function(w)
    return numbers(1, "torque_at_bolt", filled("lw_adapter", ADAPTER, w), whole(w[4]))
  end,
  wrench_uncertainty = plain(1, "wrench_uncertainty"),
  nut_factor = function(w)
    return numbers(1, "nut_factor", filled("lw_bolt_friction", { "diameter_mm", "pitch_mm", "bearing_mm", "thread", "head" }, w))
  end,
  preload_of_torque = function(w)
    return structure(
      "preload_of_torque", "lw_preload", preload_told, whole(w[1]), whole(w[2]), whole(w[3]), whole(w[4]), whole(w[5]))
  end,
  events_at_lash = valve_events,
  drift_of_record = drift,
  forecast_of_record = forecast,
  departures_of_record = departures,
  drift_of_columns = drifts,
  firing_offsets = offsets("firing_offsets"),
  tdc_offsets = offsets("tdc_offsets"),
  rotor_angles = offsets("rotor_angles"),
  companion = function(w)
    local made, refused = engine(w)
    if not made then
      return nil, refused
    end
    local found = ffi.new("uint32_t[1]")
    lw.call("companion", made, whole(w[10]), found)
    return { found[0] }
  end,
  plan = plan,
}

local function read(path)
  local file = assert(io.open(path, "rb"))
  local text = file:read("*a")
  file:close()
  return text
end

local function write(path, text)
  local file = assert(io.open(path, "wb"))
  file:write(text)
  file:close()
end

local requests, out = arg[1], arg[2]
for name in read(requests .. "/names.txt"):gmatch("[^\n]+") do
  local document = read(requests .. "/" .. name .. ".request")
  write(out .. "/" .. name .. ".answer", assert(lw.run(document)))
  local sheet, refused = lw.job_sheet(document)
  write(out .. "/" .. name .. ".sheet", sheet or refused.code)
  write(out .. "/" .. name .. ".full", lw.full_sheet(document) or refused.code)
end

local lines = {}
for line in read(requests .. "/direct.tsv"):gmatch("[^\n]+") do
  local words = split(line, "\t")
  local name, call = table.remove(words, 1), table.remove(words, 1)
  local told, refused = CALLS[call](words)
  if told then
    for i, value in ipairs(told) do
      told[i] = tostring(value)
    end
    table.insert(told, 1, "ok")
    table.insert(told, 1, name)
    table.insert(lines, table.concat(told, "\t"))
  else
    table.insert(lines, name .. "\t" .. refused.code)
  end
end
write(out .. "/direct.tsv", table.concat(lines, "\n") .. "\n")
print(("%s: %d calls"):format(jit.version, #lines))
