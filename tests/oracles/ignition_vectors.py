"""Writes `tests/vectors/ignition.json`: whole ignition documents and what their answers must hold.

Nothing here comes from the kernel. Probabilities are those of a normal, or of a rectangle with a normal error
summed over a fine grid; advance by `numpy.interp`; the curve's causes by dense covariances as in
`ignition_timing.py`; the first harmonic by `numpy.linalg.lstsq`; a piston by its slider-crank and a search; the
coil by its exponential with numeric derivatives.
"""

import numpy
from ignition_timing import ln_density, steps
from scipy import optimize, stats
from vectors import Vectors

MARK = 1 / numpy.sqrt(3)  # a mark read to one degree either way
SPEED_U = 50.0

VECTORS = Vectors(
    "ignition",
    {"valves": "settled", "distributor": {"rotor": "clockwise", "lobes": 4, "cam": "half_crank", "clamp": "30 mm"}},
    crank={"throw": "40 mm", "rod": "140 mm", "offset": "0 mm"},
    pulley_diameter="150 mm",
)
document, case, refused = VECTORS.document, VECTORS.case, VECTORS.refused


def sides(center, u, low, high, half=0.0):
    """Below, in and above a band: normal, or a rectangle of this half width with a normal error."""
    places = center + half * (2 * (numpy.arange(20_000) + 0.5) / 20_000 - 1) if half else numpy.array([center])
    below = float(stats.norm.cdf((low - places) / u).mean())
    above = float(stats.norm.sf((high - places) / u).mean())
    return {"below": below, "in_band": 1 - below - above, "above": above}


def judged(at, p, verdict):
    expect = {f"{at}/verdict": verdict}
    for side, value in p.items():
        expect[f"{at}/probabilities/{side}/least"] = value
        expect[f"{at}/probabilities/{side}/most"] = value
    return expect


NORMAL = "Normal distribution, JCGM 106:2012"
LINE = "tests/oracles/ignition_vectors.py"
AT = "/report/ignition"


def contacts():
    limits = {"from": "50 deg", "to": "54 deg"}
    case("a dwell above its band, a degree of the meter assumed", NORMAL,
         document({"contacts": {"dwell": {"shows": "56 deg"}, "dwell_limits": limits}}),
         judged(f"{AT}/contacts/dwell", sides(56, 1, 50, 54), "above"), 1e-9)
    case("per cent of a cam of four lobes: 58 % of 90 degrees", NORMAL,
         document({"contacts": {"dwell": {"shows": "58 %", "uncertainty": "0.5 deg"}, "dwell_limits": limits}}),
         judged(f"{AT}/contacts/dwell", sides(52.2, 0.5, 50, 54), "in_band"), 1e-9)
    case("a meter switched to six cylinders shows two thirds of the dwell", NORMAL,
         document({"contacts": {"dwell": {"shows": "34 deg", "scale": 6, "uncertainty": "0.8 deg"}, "dwell_limits": limits}}),
         judged(f"{AT}/contacts/dwell", sides(34 * 6 / 4, 0.8, 50, 54), "in_band"), 1e-9)


def steepness(speeds, columns, rpm):
    """Of the steeper column: a speed in doubt must not look better by a narrow one."""
    return max((numpy.interp(rpm + 1, speeds, c) - numpy.interp(rpm - 1, speeds, c)) / 2 for c in columns)


def timing():
    limits = {"from": "6 deg BTDC", "to": "9 deg BTDC"}
    case("a static point, the width of the mark assumed", NORMAL,
         document({"timing": {"limits": limits, "reading": {"read": "3 deg BTDC"}}}),
         judged(f"{AT}/timing/found", sides(3, MARK, 6, 9), "below"), 1e-9)
    rows = [(1000, 0, 1), (1800, 9, 13), (3200, 20, 24)]
    speeds, least, most = zip(*rows)
    curve = {"crank": [{"speed": f"{s} rpm", "least": f"{a} deg", "most": f"{b} deg"} for s, a, b in rows], "ends": True}
    for rpm, read, hose, verdict in [(1400, 13.2, "plugged", "cannot_say"), (2500, 29.0, "not_fitted", "above")]:
        low, high = numpy.interp(rpm, speeds, least), numpy.interp(rpm, speeds, most)
        slope = steepness(speeds, (least, most), rpm)
        p = sides(read - (low + high) / 2, numpy.hypot(MARK, slope * SPEED_U), 6, 9, (high - low) / 2)
        case(f"a lamp at {rpm} rpm, the table's width a rectangle", LINE,
             document({"timing": {"limits": limits, "centrifugal": curve,
                                  "reading": {"read": f"{read} deg BTDC", "running": {"speed": f"{rpm} rpm", "vacuum_hose": hose}}}}),
             judged(f"{AT}/timing/found", p, verdict), 1e-6)


def advance():
    """Readings at five speeds; the table is a line, so that its middle is exact."""
    rows = [(1000, 0, 0), (1400, 6, 8), (2400, 18, 22)]
    speeds = numpy.array([800, 1200, 1600, 2000, 2600])
    x = [r[0] for r in rows]
    middle = lambda at: numpy.where(at < x[0], 0, numpy.interp(at, x, [(r[1] + r[2]) / 2 for r in rows]))
    halves = numpy.interp(speeds, x, [(r[2] - r[1]) / 2 for r in rows])
    m, most, u_read, u_speed, prior = middle(speeds), 20.0, 0.5, 10.0, 0.5
    columns = ([r[1] for r in rows], [r[2] for r in rows])
    slope = numpy.array([steepness(x, columns, s) if x[0] < s < x[-1] else 0.0 for s in speeds])
    u = numpy.hypot(u_read, slope * u_speed)
    sd0 = numpy.hypot(2 / numpy.sqrt(3), MARK)
    at_end = speeds >= 2400
    for why, off in [
        ("follows its curve", m + numpy.array([0.2, -0.3, 0.1, 0.3, -0.2])),
        ("weak springs", numpy.minimum(1.5 * m, most) + numpy.array([-0.2, 0.1, 0.2, -0.1, 0.3])),
        ("used up at idle", numpy.maximum(m, 8) - 8 + numpy.array([0.1, 0.2, -0.2, 0.1, -0.3])),
    ]:
        over = numpy.round(off, 2)
        at = lambda advance, late=0.0, sd=0.0, scatter=0.0: ln_density(
            over, u, advance, late, numpy.hypot(sd0, sd), scatter, halves)
        springs = lambda a, b: [at(numpy.minimum(t * m, most)) for t in steps(a, b)] + [
            at(middle(numpy.minimum(speeds * numpy.sqrt(t), x[-1]))) for t in steps(a, b)]
        ln = {
            "static_point_off": [at(m, 0, 6)],
            "springs_weak": springs(1.1, 2.0),
            "springs_strong": springs(0.3, 0.9),
            "weights_sticking": [at(m, 0, 0, s) for s in steps(2, 5)] + [
                at(numpy.where(m < s * most, 0, m)) for s in steps(0.2, 0.8)],
            "end_wrong": [at(numpy.minimum(m, most - b)) for b in steps(2, 10)] + [
                at(m + numpy.where(at_end, b, 0)) for b in steps(2, 10)],
            "used_up_at_idle": [at(numpy.maximum(m, d) - d) for d in steps(3, 16)],
            "set_with_vacuum": [at(m, 22, 7)],
            "set_at_speed": [at(m, s * most) for s in steps(0.3, 1)],
            "something_else": [at(m, 0, 10, 5)],
        }
        weight = {"sound": (1 - prior) * numpy.exp(at(m))}
        weight |= {name: prior / len(ln) * numpy.mean(numpy.exp(all_)) for name, all_ in ln.items()}
        total = sum(weight.values())
        sound = weight.pop("sound") / total
        best = sorted(weight, key=weight.get, reverse=True)
        expect = {f"{AT}/timing/curve/sound": sound}
        told = [name for name in best if weight[name] / total >= 0.05]
        expect[f"{AT}/timing/curve/causes/*/cause"] = told
        expect[f"{AT}/timing/curve/causes/*/probability"] = [float(weight[name] / total) for name in told]
        if not told:
            del expect[f"{AT}/timing/curve/causes/*/cause"], expect[f"{AT}/timing/curve/causes/*/probability"]
            expect[f"{AT}/timing/curve/causes"] = []
        readings = [
            {"read": f"{10 + o:.2f} deg BTDC", "uncertainty": "0.5 deg",
             "running": {"speed": f"{s} rpm", "speed_uncertainty": "10 rpm", "vacuum_hose": "plugged"}}
            for s, o in zip(speeds, over)]
        table = [{"speed": f"{s} rpm", "least": f"{a} deg", "most": f"{b} deg"} for s, a, b in rows]
        case(f"readings at five speeds: {why}", LINE,
             document({"timing": {"limits": {"from": "8 deg BTDC", "to": "12 deg BTDC"},
                                  "centrifugal": {"crank": table, "ends": True}, "curve": readings}}), expect, 1e-6)


def evenness():
    """Late about the mean, and what a line once round leaves, in the order of firing."""
    order = ["1", "3", "4", "2"]
    for why, read in [("one spark early", [10, 10, 13, 10]), ("once round", [12, 10, 8, 10])]:
        read = numpy.array(read, float)
        late = read.mean() - read
        turn = numpy.radians(90.0 * numpy.arange(4))
        design = numpy.column_stack([numpy.ones(4), numpy.cos(turn), numpy.sin(turn)])
        left = late - design @ numpy.linalg.lstsq(design, late, rcond=None)[0]
        readings = [{"cylinder": c, "reads": f"{r} deg BTDC"} for c, r in zip(order, read)]
        case(f"evenness by the lamp: {why}; together nought", LINE,
             document({"evenness": {"timing": {"readings": readings}}}),
             {f"{AT}/evenness/lobes/*/cylinder": order,
              f"{AT}/evenness/lobes/*/late_deg": [float(v) for v in late],
              f"{AT}/evenness/lobes/*/residual_deg": [float(v) for v in left],
              f"{AT}/evenness/lobes/*/uncertainty_deg": [float(0.5 * numpy.sqrt(3 / 4))] * 4,
              f"{AT}/evenness/spread/deg": float(read.max() - read.min())}, 1e-9)


def leads():
    order = ["1", "3", "4", "2"]
    swapped = {"3": "4", "4": "3"}
    looks = [{"lead": {"tower_of": c, "goes_to": swapped.get(c, c)}} for c in order]
    looks.append({"rotor": {"at_tdc_of": "1", "stroke_checked": True, "points_to": "1"}})
    case("every lead followed, two exchanged", "Counting along the order of firing", document({"leads": {"looks": looks}}),
         {f"{AT}/leads/explanations/0/states/0/fault": "two_exchanged"}, 0)
    looks = [{"lead": {"tower_of": c, "goes_to": c}} for c in order]
    looks.append({"rotor": {"at_tdc_of": "1", "stroke_checked": True, "points_to": "4"}})
    case("the rotor points to the companion: half a turn out", "Counting along the order of firing",
         document({"leads": {"looks": looks}}), {f"{AT}/leads/explanations/0/states/0/fault": "half_turn_out"}, 0)


def point():
    """Standard uncertainty in crank degrees by tool, the surest first."""
    throw, rod, u = 40.0, 140.0, 0.05
    down = lambda deg: throw * (1 - numpy.cos(numpy.radians(deg))) + rod - numpy.sqrt(
        rod**2 - (throw * numpy.sin(numpy.radians(deg))) ** 2)
    at = lambda travel: optimize.brentq(lambda deg: down(deg) - travel, 0, 90, xtol=1e-13)
    for degrees in (30, 12):
        by_dial = (at(down(degrees) + u) - at(down(degrees) - u)) / 2
        ways = sorted([by_dial, MARK, 2.0, 0.5])
        case(f"{degrees} degrees before by dial, rim, wheel and rotor", LINE,
             document({"point": {"at": f"{degrees} deg BTDC", "dial": {"uncertainty": f"{u} mm"}, "wheel": True}}),
             {f"{AT}/point/at/deg_btdc": degrees, f"{AT}/point/ways/*/uncertainty_deg": [float(w) for w in ways],
              f"{AT}/point/flashes/*/cylinder": ["1", "3", "4", "2"],
              f"{AT}/point/flashes/*/behind_first_mark_deg": [0, 180, 0, 180]}, 1e-9)
    tape = numpy.hypot(MARK, 0.5 / (numpy.pi * 150 / 360))
    case("a mark laid off with a tape", LINE, document({"point": {"at": "5 deg BTDC", "by_tape": True}}),
         {f"{AT}/point/ways/*/uncertainty_deg": [float(tape), 2.0]}, 1e-9)


def electrics():
    copper = 234.45  # 1 / 0.00393 - 20
    read, u, warm, within = 3.6, 0.05, 44.0, 3.0
    corrected = lambda r, t: r * (copper + 20) / (copper + t)
    by_read = (corrected(read + 1e-4, warm) - corrected(read - 1e-4, warm)) / 2e-4
    by_warmth = (corrected(read, warm + 1e-4) - corrected(read, warm - 1e-4)) / 2e-4
    cold_u = numpy.hypot(by_read * u, by_warmth * within)
    cold = corrected(read, warm)
    resistor = {"name": "coil primary", "of": "copper", "reads": "3.6 ohm", "uncertainty": "0.05 ohm", "at": "44 C",
                "limits": {"from": "3.0 ohm", "to": "3.5 ohm"}, "primary": True, "runs_at": "44 C"}
    expect = {f"{AT}/electrics/resistors/0/resistance/ohm": cold}
    expect |= judged(f"{AT}/electrics/resistors/0/judged", sides(cold, cold_u, 3.0, 3.5), "in_band")
    case("a warm winding that reads too much is right at 20 C", "IEC 60028, from memory", document({"electrics": {"resistors": [resistor]}}),
         expect, 1e-7)

    lobes = 4

    def coil(rpm):
        """Current and energy by supply, resistance, inductance and dwell."""
        def current(v, r, l, dwell):
            t = dwell / 360 / (rpm / 2 / 60)
            return v / r * (1 - numpy.exp(-t * r / (l * 1e-3)))
        energy = lambda *x: 0.5 * x[2] * current(*x) ** 2
        return current, energy
    value = (12.0, read, 9.0, 52.0)
    unsure = (0.2, numpy.hypot(u, 3.0 * read / (copper + warm)), 0.5, 1.0)

    def spread(f):
        total = 0.0
        for i, ui in enumerate(unsure):
            step = numpy.zeros(4)
            step[i] = 1e-5
            total += ((f(*(value + step)) - f(*(value - step))) / 2e-5 * ui) ** 2
        return float(numpy.sqrt(total))
    assert lobes * value[3] < 360
    speeds = [1500, 4000]
    current, energy = zip(*(coil(s) for s in speeds))
    charges = f"{AT}/electrics/charges/*"
    weak = 25.0
    weak_rpm = optimize.brentq(lambda rpm: coil(rpm)[1](*value) - weak, 500, 20_000, xtol=1e-9)
    case("what a coil holds at two speeds, and from when it holds less than 25 mJ", LINE,
         document({"electrics": {"resistors": [resistor], "coil": {
             "supply": "12 V", "supply_uncertainty": "0.2 V", "inductance": "9 mH", "inductance_uncertainty": "0.5 mH",
             "dwell": "52 deg", "speeds": [f"{s} rpm" for s in speeds], "weak_below": {"energy": "25 mJ"}}}}),
         {f"{charges}/current/amperes": [float(f(*value)) for f in current],
          f"{charges}/current_u": [spread(f) for f in current],
          f"{charges}/energy/millijoules": [float(f(*value)) for f in energy],
          f"{charges}/energy_u": [spread(f) for f in energy],
          f"{charges}/share_of_current": [float(f(*value)) / (value[0] / value[1]) for f in current],
          f"{AT}/electrics/weak/speed/rpm": float(weak_rpm)}, 1e-5)


def refusals():
    limits = {"from": "6 deg BTDC", "to": "9 deg BTDC"}
    contacts = lambda **doc: document({"contacts": doc})
    timing = lambda **doc: document({"timing": {"limits": limits} | doc})
    points = lambda *rows: [{"speed": f"{s} rpm", "least": f"{a} deg", "most": f"{a} deg"} for s, a in rows]
    refused("a dwell of the whole pitch", contacts(dwell={"shows": "90 deg"}), "/ignition/contacts/dwell", "ignition.dwell-beyond-pitch")
    refused("gap in hundredths of an inch", contacts(gap_limits={"from": "1.5 mm", "to": "1.6 mm"}),
            "/ignition/contacts/gap_limits", "ignition.gap-unusual")
    refused("a curve that falls", timing(centrifugal={"crank": points((1000, 9), (2000, 4)), "ends": True}),
            "/ignition/timing/centrifugal", "ignition.curve-falls")
    refused("columns of crank and distributor that are not two to one",
            timing(centrifugal={"crank": points((1000, 0), (2000, 10)), "distributor": points((500, 0), (1000, 10)), "ends": True}),
            "/ignition/timing/centrifugal", "ignition.not-double")
    refused("static and centrifugal advance over 60", timing(centrifugal={"crank": points((1000, 0), (3000, 55)), "ends": True}),
            "/ignition/timing/limits", "ignition.total-advance")
    refused("a lamp with no word of the hose", timing(reading={"read": "20 deg BTDC", "running": {"speed": "1800 rpm"}}),
            "/ignition/timing/reading/running", "document.missing-field")
    refused("evenness without a reading for each cylinder",
            document({"evenness": {"timing": {"readings": [{"cylinder": "1", "reads": "10 deg BTDC"}]}}}),
            "/ignition/evenness/timing/readings", "ignition.reading-missing", 3)
    refused("a resistance below nothing", document({"electrics": {"resistors": [
        {"name": "coil", "of": "copper", "reads": "-3 ohm", "uncertainty": "0.1 ohm"}]}}),
        "/ignition/electrics/resistors/0/reads", "quantity.out-of-range")
    refused("an ignition to set on a diesel", document({"contacts": {"dwell": {"shows": "52 deg"}}}, ignition="diesel"),
            "/ignition", "ignition.diesel")


if __name__ == "__main__":
    for part in (contacts, timing, advance, evenness, leads, point, electrics, refusals):
        part()
    VECTORS.write()
