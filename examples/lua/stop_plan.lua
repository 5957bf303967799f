-- Prints where to stop the crank and which valves to check there, for the engine of a document.
--
--   luajit examples/lua/stop_plan.lua examples/data/inline-four.json
--
-- The cam events below are invented; take those of the maker's manual. Ignition off, gearbox in neutral,
-- and turn the engine forward only.

local here = arg[0]:match("^(.*)/[^/]*$") or "."
package.path = here .. "/?.lua;" .. package.path
local lw = require("lashwork")

local path = arg[1] or here .. "/../data/inline-four.json"
local file = assert(io.open(path, "rb"))
local document = file:read("*a")
file:close()

local engine = lw.engine_of_document(document)
local train = lw.new("lw_valve_train", {
  intake_opens_btdc_deg = 12,
  intake_closes_abdc_deg = 54,
  exhaust_opens_bbdc_deg = 54,
  exhaust_closes_atdc_deg = 12,
  guard_deg = 20,
  intake_per_cylinder = 1,
  exhaust_per_cylinder = 1,
  -- As printed beside them, and the lash to which the valves are set. Without it every valve is taken to be
  -- off its base circle 25 degrees longer.
  events_at = lw.C.LW_EVENTS_AT_LASH,
  events_at_mm = 0.5,
  running_intake_mm = 0.2,
  running_exhaust_mm = 0.3,
})

local plan, refused = lw.plan(engine, train, lw.C.LW_METHOD_FEWEST_STOPS, lw.C.LW_PLACES_DEAD_CENTRES)
if not plan then
  error(refused and refused.message or "no such plan")
end
local cost = lw.new("lw_plan_cost")
lw.call("plan_total", plan, cost)
print(("%s with invented cam events: %d stops, %g deg of turning, lashwork %s"):format(
  path:match("[^/]*$"), tonumber(cost.stops), cost.total_turn_deg, lw.version))
for i = 0, tonumber(cost.stops) - 1 do
  local stop = lw.new("lw_stop")
  lw.call("plan_stop", plan, i, stop)
  local at = ("%g deg after firing TDC of the first cylinder to fire"):format(stop.position_deg)
  if stop.firing_tdc_of > 0 then
    at = "firing TDC of cylinder " .. lw.label(engine, stop.firing_tdc_of)
  end
  print(("%2d. %s: %s"):format(i + 1, i == 0 and "start" or ("turn %g deg forward"):format(stop.turn_deg), at))
  for j = 0, tonumber(stop.checks) - 1 do
    local check = lw.new("lw_valve_check")
    lw.call("plan_check", plan, i, j, check)
    local kind = check.kind == lw.C.LW_VALVE_KIND_INTAKE and "intake" or "exhaust"
    print(("      [ ] cylinder %s %s (%.0f deg from the end of its arc)"):format(
      lw.label(engine, check.cylinder), kind, check.margin_deg))
  end
end
