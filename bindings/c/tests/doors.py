"""Takes the shared documents and the direct calls through Python: answers to OUT, judged elsewhere."""

import math
import pathlib
import struct
import sys

# The package that is installed, or that of the source tree with the library that LASHWORK_LIBRARY names.
sys.path.append(str(pathlib.Path(__file__).resolve().parents[3] / "bindings/python/src"))
import lashwork as lw  # noqa: E402


def bits(x):
    return "0x7ff8000000000000" if x != x else "0x%016x" % struct.unpack("<Q", struct.pack("<d", x))[0]


def whole(text):
    return int(text)


def items(text, kind=float):
    return None if text == "-" else [kind(t) for t in text.split(",")]


def estimate(w):
    return lw.Estimate(int(w[0]), *map(float, w[1:4]))


def band(w):
    return lw.Limits(int(w[0]), int(w[1]), int(w[2]))


def rule(w):
    return (int(w[0]), float(w[1]), float(w[2]))


def engine(w):
    return lw.Engine(items(w[5], int), *map(int, w[:5]), *map(items, w[6:9]))


def fields(found):
    """Every field but the size: floats as bits, the rest whole."""
    return [bits(value) if isinstance(value, float) else value for value in (getattr(found, name) for name in found._given)]


def table(found):
    """Rows of columns in their order, without the status."""
    columns = (column for name, column in found.items() if name != "status")
    return [bits(value) if isinstance(value, float) else int(value) for row in zip(*columns) for value in row]


OWN = (
    "lower_mm", "upper_mm", "at_celsius", "at_uncertainty_kelvin", "reference_celsius", "mm_per_kelvin",
    "mm_per_kelvin_uncertainty")


def columns(w):
    span, low, high, u = w[6:10]
    span, low, high = items(span, int) or [1] * len(items(low)), items(low), items(high)
    # An end that is not there is infinite in a column.
    low = [-math.inf if which == 3 else end for which, end in zip(span, low)]
    high = [math.inf if which == 2 else end for which, end in zip(span, high)]
    # A column that may be left out; one number says the same of all rows.
    own = [found if found is None or len(found) > 1 else found[0] for found in map(items, w[10:17])]
    limits = None if w[0] == "0" else band(w)
    return table(lw.judge_columns(low, high, items(u), limits, rule(w[3:]), **dict(zip(OWN, own))))


def plan(w):
    at = dict(zip(("events_at_mm", "greatest_lift_mm", "running_intake_mm", "running_exhaust_mm"), map(float, w[17:21])))
    train = lw.ValveTrain(*map(float, w[9:14]), *map(int, w[14:17]), **at)
    found = engine(w).plan(train, *map(int, w[21:24]))
    if found is None:
        return [0]
    valve = lambda v: [v.cylinder, v.kind, v.number]  # noqa: E731
    out = [found.cost.stops, found.cost.walks, found.cost.unreachable, bits(found.cost.total_turn_deg)]
    for stop, cues, checks in found.stops:
        out += [bits(stop.position_deg), bits(stop.turn_deg), stop.firing_tdc_of, stop.overlap_tdc_of, stop.cues, stop.checks]
        for cue in cues:
            out += [cue.cylinder, cue.kind]
        for check in checks:
            out += [*valve(check), bits(check.margin_deg)]
    return out + [n for v in found.unreachable for n in valve(v)]


def mark(text):
    found = lw.length(text)
    return [found.nanometres, found.unit, found.decimals]


def turned(w):
    return fields(lw.turn_screw(lw.Screw(float(w[0]), float(w[1]), int(w[2]), int(w[3])), float(w[4])))


def chosen(w):
    return fields(lw.choose_shim(fit(w), lw.ShimSeries(*map(int, w[4:7])), int(w[7])))


def stops(w):
    slider = None if w[3] == "-" else lw.SliderCrank(*map(float, w[3:6]))
    return map(bits, lw.tdc_from_stops(*map(float, w[:3]), slider))


def slider(w):
    return lw.SliderCrank(*map(float, w[:3]))


def fit(w):
    return lw.ShimFit(*map(float, w[:4]))


def numbers(w):
    """Fields and inputs: whole where they are written so, for whole numbers serve as doubles as well."""
    return [float(t) if "." in t or "e" in t else int(t) for t in w]


def rim(w):
    along, side, uncertainty = lw.rim_at_point(*numbers(w))
    return [bits(along), side, bits(uncertainty)]


def curve(w):
    return None if w[0] == "-" else lw.AdvanceCurve(*map(items, w[:3]), int(w[3]))


def strobe(w):
    printed = lw.PrintedTiming(int(w[4]), *map(float, w[5:8]))
    how = {"speed_uncertainty_rpm": float(w[11]), "lamp_delay_us": float(w[12]), "hose": int(w[13])}
    return table(lw.judge_strobe_columns(*map(items, w[14:17]), printed, rule(w[8:]), curve(w), **how))


def fitted(w):
    printed = lw.PrintedTiming(int(w[4]), *map(float, w[5:8]))
    how = {"speed_uncertainty_rpm": float(w[8]), "lamp_delay_us": float(w[9]), "hose": int(w[10])}
    return fields(lw.fit_advance_curve(*map(items, w[11:14]), printed, curve(w), **how))


def weighed(w):
    printed = lw.PrintedTiming(int(w[4]), *map(float, w[5:8]))
    capsule = (float(w[10]), float(w[11])) if int(w[9]) == 1 else None
    how = {"speed_uncertainty_rpm": float(w[12]), "lamp_delay_us": float(w[13]), "hose": int(w[14])}
    found = lw.weigh_advance_curve(*map(items, w[15:18]), printed, curve(w), fault=float(w[8]), capsule=capsule, **how)
    return map(bits, found)


def gas(w):
    how = {"hydrocarbons": int(w[6]), "tester": int(w[7]), "hc_factor": float(w[4])}
    no_ppm = float(w[5]) if int(w[8]) == 1 else None
    return fields(lw.lambda_of_gas(*map(float, w[:4]), lw.Fuel(*map(float, w[9:])), no_ppm=no_ppm, **how))


def gas_columns(w):
    how = {"hc_factor": float(w[4]), "hydrocarbons": int(w[5]), "tester": int(w[6])}
    return table(lw.lambda_of_columns(*map(items, w[:4]), lw.Fuel(*map(float, w[7:])), **how))


def air(w):
    kpa, kpa_u, celsius, kelvin, percent, percent_u, metres = map(float, w[:7])
    return fields(lw.density_of_air(
        kpa, celsius, barometer=int(w[7]), pressure_uncertainty_kpa=kpa_u, uncertainty_kelvin=kelvin,
        humidity=(percent, percent_u) if int(w[9]) == 1 else None, altitude_m=metres if int(w[8]) == 1 else None))


def air_columns(w):
    names = ("pressure_uncertainty_kpa", "uncertainty_kelvin", "humidity_uncertainty_percent")
    return table(lw.density_of_columns(*map(items, w[:3]), **dict(zip(names, map(float, w[3:])))))


def balance(w):
    linkage = lw.Linkage(int(w[0]), int(w[1]), list(zip(*(items(t, int) for t in w[3:6]))), int(w[2]))
    columns = [found for found in map(items, w[14:20]) if found is not None]
    trials = [(int(joint), *rest) for joint, *rest in zip(*columns)]
    how = dict(zip(("scatter", "between_gauges", "allowed"), map(float, w[8:11])), gauge=int(w[12]))
    how["ambient_kpa"] = float(w[11]) if int(w[13]) == 1 else None
    found = lw.balance_throttles(linkage, items(w[6], int), items(w[7]), trials, rule(w[20:]) if w[20] != "0" else None, **how)
    whole, *tables = found
    return fields(whole) + [value for columns in tables for value in table(columns)]


def idle(w):
    return {"scatter_rpm": float(w[2]), "screw": int(w[3])}


def crank_if(known, w):
    return slider(w) if int(known) == 1 else None


def cranking(w):
    pairs = [tuple(map(float, w[at:at + 2])) for at in (0, 2, 4)]
    return lw.Cranking(pairs[0], *(pair if int(known) == 1 else None for pair, known in zip(pairs[1:], w[6:8])), crank_if(w[8], w[9:]))


def compressions(w):
    wet, rose, head = items(w[1]), items(w[2], int), items(w[3], int)
    how = {
        "rule": (int(w[10]), float(w[11])) if w[10] != "0" else None, "engine": cranking(w[13:]) if int(w[12]) == 1 else None,
        "air_kpa": float(w[4]) if int(w[7]) == 1 else None, "repeat_kpa": float(w[5]),
        "gauge_kpa": float(w[6]) if int(w[8]) == 1 else None, "clearances_good": int(w[9]) == 1}
    wet = wet and [math.inf if kpa < 0 else kpa for kpa in wet]
    verdict, found = lw.judge_compression(items(w[0]), wet, rose, head, **how)
    return fields(verdict) + table(found)


def tester(w):
    return lw.LeakTester(*map(float, w[:4]))


def leaks(w):
    u = {"shown_uncertainty_kpa": float(w[6]), "air_uncertainty_kpa": float(w[7])}
    return table(lw.leak_of_columns(tester(w), items(w[4]), items(w[5]), **u))


def adapter(w):
    return lw.Adapter(*map(float, w[:3]))


def running(w):
    flanks = [lw.Flank(int(w[at]), *map(float, w[at + 1:at + 9])) for at in (5, 14)]
    return lw.RunningValve(float(w[0]), float(w[1]), int(w[4]), float(w[2]), *flanks, float(w[3]))


def valve_events(w):
    ratio = float(w[4]) if int(w[5]) == 1 else None
    how = {"compression_ratio": ratio, "crank": crank_if(w[6], w[7:])}
    found, effective = lw.events_at_lash(map(float, w[:4]), running(w[10:]), running(w[33:]), **how)
    return table(found) + fields(effective)


def past(w):
    at, low, high, u = map(items, w[:4])
    span, valve, state = (items(t, int) for t in w[4:7])
    for row, which in enumerate(span or []):
        low[row] = -math.inf if which >= 3 else low[row]
        high[row] = math.inf if which in (2, 4) else high[row]
    scatter = float(w[9]) if int(w[10]) == 1 else None
    return lw.PastReadings(at, low, high, u, valve, state, counted_by=int(w[7]), bedding_in=float(w[8]), scatter_mm=scatter)


def drift(w):
    whole, found = lw.drift_of_record(past(w), int(w[11]), band(w[12:]), rule(w[15:]))
    return fields(whole) + table(found)


def drifts(w):
    return table(lw.drift_of_columns(past(w), int(w[11]), band(w[12:]), rule(w[15:])))


CALLS = {
    "parse_length": lambda w: mark(w[0]),
    "show_length": lambda w: [str(lw.Length(*map(int, w)))],
    "convert_length": lambda w: [bits(lw.convert_length(float(w[0]), int(w[1]), int(w[2])))],
    "parse_temperature": lambda w: [bits(lw.temperature(w[0]))],
    "convert_temperature": lambda w: [bits(lw.convert_temperature(float(w[0]), int(w[1]), int(w[2])))],
    "parse_crank_angle": lambda w: [bits(lw.crank_angle(w[0]))],
    "piston_drop": lambda w: [bits(lw.piston_drop(slider(w), float(w[3])))],
    "angles_at_drop": lambda w: map(bits, lw.angles_at_drop(slider(w), float(w[3]))),
    "dead_centres": lambda w: map(bits, lw.dead_centres(slider(w))),
    "tdc_from_stops": stops,
    "estimate_from_leaves": lambda w: fields(lw.estimate_from_leaves(*map(int, w))),
    "estimate_changed": lambda w: fields(lw.changed(estimate(w), float(w[4]), float(w[5]))),
    "warmth_shift": lambda w: map(bits, lw.warmth_shift(lw.Warmth(*map(float, w)))),
    "judge": lambda w: fields(lw.judge(estimate(w), band(w[4:]), rule(w[7:]))),
    "judge_columns": columns,
    "pitch_per_inch": lambda w: [bits(lw.pitch_per_inch(float(w[0])))],
    "turn_screw": turned,
    "shim_wanted": lambda w: [lw.shim_wanted(fit(w))],
    "lash_with_shim": lambda w: [bits(lw.lash_with_shim(fit(w), int(w[4])))],
    "choose_shim": chosen,
    "dwell_of_reading": lambda w: [bits(lw.dwell_of_reading(*numbers(w)))],
    "reading_of_dwell": lambda w: [bits(lw.reading_of_dwell(*numbers(w)))],
    "dwell_at_gap": lambda w: map(bits, lw.dwell_at_gap(lw.GapAndDwell(*numbers(w[:6])), *numbers(w[6:]))),
    "gap_at_dwell": lambda w: map(bits, lw.gap_at_dwell(lw.GapAndDwell(*numbers(w[:6])), *numbers(w[6:]))),
    "spark_shift": lambda w: map(bits, lw.spark_shift(*numbers(w))),
    "distributor_at_point": lambda w: map(bits, lw.distributor_at_point(*numbers(w))),
    "point_at_distributor": lambda w: map(bits, lw.point_at_distributor(*numbers(w))),
    "dial_at_point": lambda w: map(bits, lw.dial_at_point(slider(w), lw.Dial(*numbers(w[3:5])), float(w[5]))),
    "point_at_dial": lambda w: map(bits, lw.point_at_dial(slider(w), lw.Dial(*numbers(w[3:5])), *numbers(w[5:]))),
    "rim_at_point": rim,
    "point_at_rim": lambda w: map(bits, lw.point_at_rim(*numbers(w))),
    "copper_resistance": lambda w: map(bits, lw.copper_resistance(*numbers(w))),
    "charge_at_speed": lambda w: fields(lw.charge_at_speed(lw.PrimaryCircuit(*numbers(w[:10])), float(w[10]))),
    "weak_from_speed": lambda w: map(bits, lw.weak_from_speed(lw.PrimaryCircuit(*numbers(w[:10])), *numbers(w[10:]))),
    "advance_at_speed": lambda w: map(bits, lw.advance_at_speed(curve(w), float(w[4]))),
    "judge_strobe_columns": strobe,
    "fit_advance_curve": fitted,
    "weigh_advance_curve": weighed,
    "parse_fuel": lambda w: fields(lw.fuel(w[0])),
    "air_fuel_ratio": lambda w: [bits(lw.air_fuel_ratio(lw.Fuel(*map(float, w))))],
    "lambda_of_gas": gas,
    "lambda_of_co": lambda w: fields(lw.lambda_of_co(float(w[0]), float(w[1]), lw.Fuel(*map(float, w[2:])))),
    "lambda_of_columns": gas_columns,
    "density_of_air": air,
    "density_at_height": lambda w: fields(lw.density_at_height(float(w[0]))),
    "density_altitude": lambda w: [bits(lw.density_altitude(float(w[0])))],
    "density_of_columns": air_columns,
    "fit_idle_curve": lambda w: fields(lw.fit_idle_curve(items(w[0]), items(w[1]), **idle(w))),
    "idle_beside": lambda w: map(bits, lw.idle_beside(items(w[0]), items(w[1]), int(w[4]), float(w[5]), **idle(w))),
    "balance_throttles": balance,
    "expected_compression": lambda w: fields(lw.expected_compression(cranking(w), *map(float, w[12:]))),
    "implied_exponent": lambda w: map(bits, lw.implied_exponent(cranking(w), *map(float, w[12:]))),
    "compression_in_other_air": lambda w: [bits(lw.compression_in_other_air(*map(float, w)))],
    "judge_compression": compressions,
    "leak_area": lambda w: fields(lw.leak_area(tester(w), *map(float, w[4:]))),
    "tester_would_show": lambda w: [bits(lw.tester_would_show(tester(w), *map(float, w[4:])))],
    "leak_of_columns": leaks,
    "wrench_setting": lambda w: [bits(lw.wrench_setting(adapter(w), float(w[3])))],
    "torque_at_bolt": lambda w: [bits(lw.torque_at_bolt(adapter(w), float(w[3])))],
    "wrench_uncertainty": lambda w: [bits(lw.wrench_uncertainty(*map(float, w)))],
    "nut_factor": lambda w: [bits(lw.nut_factor(lw.BoltFriction(*map(float, w))))],
    "preload_of_torque": lambda w: fields(lw.preload_of_torque(*map(float, w[:3]), int(w[3]), float(w[4]))),
    "events_at_lash": valve_events,
    "drift_of_record": drift,
    "forecast_of_record": lambda w: table(lw.forecast_of_record(past(w), int(w[11]), float(w[12]))),
    "departures_of_record": lambda w: table(lw.departures_of_record(past(w), int(w[11]), int(w[12]))),
    "drift_of_columns": drifts,
    "firing_offsets": lambda w: map(bits, engine(w).firing_offsets()),
    "tdc_offsets": lambda w: map(bits, engine(w).tdc_offsets()),
    "rotor_angles": lambda w: map(bits, engine(w).rotor_angles()),
    "companion": lambda w: [engine(w).companion(int(w[9]))],
    "plan": plan,
}


def main():
    requests, out = map(pathlib.Path, sys.argv[1:3])
    for name in (requests / "names.txt").read_text().split():
        document = (requests / f"{name}.request").read_bytes()
        (out / f"{name}.answer").write_bytes(lw.run(document))
        try:
            sheet, full = lw.job_sheet(document), lw.full_sheet(document)
        except lw.LashworkError as refused:
            sheet = full = refused.code
        (out / f"{name}.sheet").write_bytes(sheet.encode())
        (out / f"{name}.full").write_bytes(full.encode())
    lines = []
    for line in (requests / "direct.tsv").read_text().splitlines():
        name, call, *words = line.split("\t")
        try:
            lines.append([name, "ok", *map(str, CALLS[call](words))])
        except lw.LashworkError as refused:
            lines.append([name, refused.code])
    (out / "direct.tsv").write_text("".join("\t".join(line) + "\n" for line in lines))
    print(f"Python {sys.version.split()[0]}, numpy {getattr(sys.modules.get('numpy'), '__version__', 'absent')}: {len(lines)} calls")


main()
