"""Writes `tests/vectors/mixture.json`: whole mixture documents and what their answers must hold.

Nothing here comes from the kernel. Density of moist air is that of `mixture_air.py` with numeric derivatives, the
standard atmosphere an integrated column; the balance is one dense weighted least squares over all screws and its
turns come from differences; the chance of a spread is scipy's quadrature; the idle curve is fitted in plain powers,
with its uncertainties from differences over the readings and Fieller's interval from roots; exhaust gas is burnt
forward from lambda as in `mixture_gas.py`.
"""

import copy

import numpy
from mixture_air import Plain, cipm, column
from mixture_gas import burnt, found
from scipy import integrate, optimize, stats
from vectors import Vectors

SCRIPT = "tests/oracles/mixture_vectors.py"
MMHG = 0.1333224  # as ISO 31-3 prints it
INHG = 3.386389
SEA_LEVEL = 1.225

VECTORS = Vectors("mixture", {"valves": "settled", "timing": "settled"})
AT = "/report/mixture"


def case(why, source, section, expect, within):
    VECTORS.case(why, source, VECTORS.document(section), expect, within)


def refused(why, section, place, code, times=1):
    VECTORS.refused(why, VECTORS.document(section), place, code, times)


# Air ------------------------------------------------------------------------------------------------

BAROMETER_U, THERMOMETER_U = 0.3, 1.0


def density(kpa, celsius, percent):
    return float(cipm(celsius, kpa, percent, m=Plain, exp=numpy.exp))


def density_u(kpa, celsius, percent):
    by_pressure = (density(kpa + 1e-4, celsius, percent) - density(kpa - 1e-4, celsius, percent)) / 2e-4
    by_warmth = (density(kpa, celsius + 1e-4, percent) - density(kpa, celsius - 1e-4, percent)) / 2e-4
    return numpy.hypot(by_pressure * BAROMETER_U, by_warmth * THERMOMETER_U)


def standard(metres):
    kpa = column(101.325, 0, metres) if metres else 101.325
    return kpa, 1000 * kpa / (287.05287 * (288.15 - 0.0065 * metres))


def as_high(value):
    """The height at which the standard column is as dense."""
    return optimize.brentq(lambda h: standard(h)[1] - value, -1500, 6000, xtol=1e-7)


def air():
    for why, shows, kpa, celsius, percent in [
        ("at about 1800 m", "612 mmHg", 612 * MMHG, 24.0, 35.0),
        ("hot and damp by the sea", "29.8 inHg", 29.8 * INHG, 34.0, 80.0),
        ("dry and cold", "1020 mbar", 102.0, -5.0, 20.0),
    ]:
        value = density(kpa, celsius, percent)
        case(f"air {why}: density with its uncertainty and the height as dense", f"CIPM-2007 and ISO 2533; {SCRIPT}",
             {"air": {"barometer": {"shows": shows, "set_to": "place"}, "temperature": f"{celsius} C",
                      "humidity": f"{percent} %"}},
             {f"{AT}/air/density/kg_per_m3": value, f"{AT}/air/density_u": density_u(kpa, celsius, percent),
              f"{AT}/air/pressure/kpa": kpa, f"{AT}/air/ratio": value / SEA_LEVEL}, 1e-6)
        case(f"air {why}: the height as dense", f"ISO 2533; {SCRIPT}",
             {"air": {"barometer": {"shows": shows, "set_to": "place"}, "temperature": f"{celsius} C",
                      "humidity": f"{percent} %"}},
             {f"{AT}/air/density_altitude/metres": as_high(value)}, 0.01)
    kpa, value = standard(1800)
    case("the height alone", f"ISO 2533, integrated; {SCRIPT}", {"air": {"altitude": "1800 m"}},
         {f"{AT}/air/density/kg_per_m3": value, f"{AT}/air/pressure/kpa": kpa}, 1e-5)
    refused("an air of humidity alone", {"air": {"humidity": "40 %"}}, "/mixture/air", "mixture.air-not-stated")


# Balance --------------------------------------------------------------------------------------------

def slope(trials, single):
    """Change for a degree: each trial weighs by how many readings it took."""
    turn = numpy.array([t["turn"] for t in trials], float)
    change = numpy.array([t["after"] - t["before"] - t.get("drift", 0.0) for t in trials])
    weight = numpy.array([1 / (4 if "drift" in t else 2) for t in trials])
    root = numpy.sqrt(weight)
    fitted = numpy.linalg.lstsq((root * turn)[:, None], root * change, rcond=None)[0][0]
    left = numpy.sum(weight * (change - fitted * turn) ** 2)
    seen = left / (len(trials) - 1) if len(trials) > 1 else 0.0
    return fitted, numpy.sqrt(max(seen, single**2) / numpy.sum(weight * turn**2))


def spread_within(means, sds, allowed):
    total = 0.0
    for least in range(len(means)):
        def at(x, least=least):
            p = stats.norm.pdf(x, means[least], sds[least])
            for other in range(len(means)):
                if other != least:
                    p *= stats.norm.cdf(x + allowed, means[other], sds[other]) - stats.norm.cdf(x, means[other], sds[other])
            return p
        points = numpy.linspace(means[least] - 10 * sds[least], means[least] + 10 * sds[least], 81)
        total += sum(integrate.quad(at, a, b, epsabs=1e-13)[0] for a, b in zip(points, points[1:]))
    return total


def balance():
    """Four in a row, 2 the reference: one screw moves 1, one moves 3 with 4, one moves 4 alone."""
    names, reference = ["1", "2", "3", "4"], 1
    beyond = [("2", "1", [0]), ("2", "3", [2, 3]), ("3", "4", [3])]
    shows = [[341, 346, 344, 340], [337, 342, 339, 343], [366, 361, 368, 364], [343, 348, 345, 347]]
    trials = [
        ("2", "3", {"turn": 90, "before": 365, "after": 347, "drift": 1}), ("2", "3", {"turn": -90, "before": 347, "after": 366, "drift": -1}),
        ("3", "4", {"turn": 45, "before": 346, "after": 335, "drift": -1}), ("3", "4", {"turn": 60, "before": 346, "after": 333}),
    ]
    for why, stated, allowed, rule, verdict in [
        ("scatter from the readings", None, 15, None, "above"), ("scatter stated", 4.0, 27, "simple", "in_band"),
    ]:
        read = numpy.array(shows, float) * MMHG
        mean = read.mean(axis=1)
        freedom = sum(len(r) - 1 for r in shows)
        pooled = numpy.sqrt(numpy.sum((read - mean[:, None]) ** 2) / freedom)
        single = max(stated * MMHG, pooled) if stated else pooled
        few = 1.0 if stated else stats.t.ppf(0.975, freedom) / stats.norm.ppf(0.975)
        variance = numpy.full(4, single**2 / 4)
        design = numpy.ones((4, 4))
        for at, (_, _, moved) in enumerate(beyond):
            design[:, 1 + at] = [-1.0 if t in moved else 0.0 for t in range(4)]
        root = numpy.diag(1 / numpy.sqrt(variance))
        needed = numpy.linalg.lstsq(root @ design, root @ mean, rcond=None)[0][1:]
        cover = numpy.linalg.inv(design.T @ root @ root @ design)
        needed_u = numpy.sqrt(numpy.diag(cover))[1:]
        over = mean - mean[reference]
        u = numpy.where(numpy.arange(4) == reference, 0.0, numpy.sqrt(variance + variance[reference]))
        p = spread_within(mean, few * numpy.sqrt(variance), allowed * MMHG)
        doc = {
            "throttles": names, "reference": "2",
            "joints": [{"between": [a, b], "by": "screw"} for a, b, _ in beyond],
            "vacuum": {
                "readings": [{"throttle": n, "shows": [f"{v} mmHg" for v in r]} for n, r in zip(names, shows)],
                "trials": [
                    {"between": [a, b], "turn": f"{t['turn']} deg", "before": f"{t['before']} mmHg", "after": f"{t['after']} mmHg"}
                    | ({"unmoved_before": "340 mmHg", "unmoved_after": f"{340 + t['drift']} mmHg"} if "drift" in t else {})
                    for a, b, t in trials],
                "allowed": f"{allowed} mmHg",
            },
        }
        if stated:
            doc["vacuum"]["scatter"] = f"{stated} mmHg"
        if rule:
            doc["rule"] = rule
        expect = {
            f"{AT}/balance/throttles/*/reading": mean, f"{AT}/balance/throttles/*/over_reference": over,
            f"{AT}/balance/throttles/*/over_reference_u": u, f"{AT}/balance/greatest_less_least": mean.max() - mean.min(),
            f"{AT}/balance/spread/verdict": verdict, f"{AT}/balance/spread/probabilities/in_band/least": p,
            f"{AT}/balance/spread/probabilities/above/most": 1 - p,
        }
        if verdict == "above":
            turns, turns_u, firm = [], [], []
            for (a, b, _), change, change_u in zip(beyond, needed, needed_u):
                own = [{**t, "before": t["before"] * MMHG, "after": t["after"] * MMHG}
                       | ({"drift": t["drift"] * MMHG} if "drift" in t else {}) for c, d, t in trials if (c, d) == (a, b)]
                sure = stats.norm.cdf(abs(change) / (few * change_u))
                if sure < 0.95:
                    continue
                fitted, fitted_u = slope(own, single)
                step = 1e-6
                by_change = ((change + step) / fitted - (change - step) / fitted) / (2 * step)
                by_slope = (change / (fitted + step * 1e-3) - change / (fitted - step * 1e-3)) / (2e-3 * step)
                turns.append(change / fitted)
                turns_u.append(numpy.hypot(by_change * change_u, by_slope * fitted_u))
                firm.append(sure)
            assert len(turns) == 2
            expect |= {f"{AT}/balance/turns/*/degrees": turns, f"{AT}/balance/turns/*/degrees_u": turns_u,
                       f"{AT}/balance/turns/*/way_right": firm}
        else:
            expect[f"{AT}/balance/turns"] = []
        case(f"four throttles on a tree of screws: {why}", f"Least squares, JCGM 106:2012; {SCRIPT}", {"balance": doc}, expect, 1e-6)
    loop = copy.deepcopy(doc)
    loop["joints"].append({"between": ["4", "1"], "by": "screw"})
    refused("a linkage with a loop", {"balance": loop}, "/mixture/balance/joints/3", "mixture.linkage-loop")
    far = copy.deepcopy(doc)
    far["vacuum"]["readings"][2]["shows"][1] = "700 mmHg"
    refused("more vacuum than there is air", {"air": {"altitude": "1800 m"}, "balance": far},
            "/mixture/balance/vacuum/readings/2/shows/1", "mixture.vacuum-above-ambient")


def cylinders():
    """What a nozzle passes and what a cylinder draws, each against the median of the others."""
    air, k = 612 * MMHG, 1.4
    critical = (2 / (k + 1)) ** (k / (k - 1))

    def passes(r):
        of = lambda x: numpy.sqrt(max(x ** (2 / k) - x ** ((k + 1) / k), 0.0))
        return 1.0 if r <= critical else of(r) / of(critical)

    vacuum, flow, flow_u, scatter = [230.0, 226.0, 262.0, 231.0], [4.0, 4.02, 3.55, 3.99], 0.05, 2.0
    ln = lambda v, m: (numpy.log(m / passes(1 - v * MMHG / air)), numpy.log(m / (1 - v * MMHG / air)))

    def shares(vacuum, flow):
        both = numpy.array([ln(v, m) for v, m in zip(vacuum, flow)])
        others = lambda at: numpy.median(numpy.delete(both, at, axis=0), axis=0)
        return numpy.exp(numpy.array([both[at] - others(at) for at in range(4)])) - 1

    value = shares(vacuum, flow)
    doc = {
        "throttles": ["1", "2", "3", "4"], "reference": "1",
        "joints": [{"between": ["1", n], "by": "screw"} for n in "234"],
        "vacuum": {"readings": [{"throttle": n, "shows": [f"{v} mmHg"]} for n, v in zip("1234", vacuum)],
                   "scatter": f"{scatter} mmHg", "allowed": "15 mmHg"},
        "cylinders": {"flow": [{"throttle": n, "shows": f"{m} kg/h", "uncertainty": f"{flow_u} kg/h"} for n, m in zip("1234", flow)]},
    }
    case("openings and draw of four cylinders by vacuum and flow", f"St Venant and Wantzel; {SCRIPT}",
         {"air": {"barometer": {"shows": "612 mmHg", "set_to": "place"}, "temperature": "20 C", "humidity": "40 %"}, "balance": doc},
         {f"{AT}/balance/cylinders/*/opening": value[:, 0], f"{AT}/balance/cylinders/*/breathing": value[:, 1]}, 1e-9)


# Idle -----------------------------------------------------------------------------------------------

def idle():
    x = numpy.array([1, 1.5, 2, 2.5, 3, 3.5])
    y = numpy.array([990, 1050, 1085, 1090, 1060, 1005], float)
    powers = numpy.vander(x, 3, increasing=True)
    fit = lambda y: numpy.linalg.lstsq(powers, y, rcond=None)[0]

    def figures(y):
        a, b, c = fit(y)
        top = -b / (2 * c)
        return numpy.array([top, a + b * top + c * top**2, top - numpy.sqrt(-20 / c)])

    seen = numpy.sqrt(numpy.sum((y - powers @ fit(y)) ** 2) / (len(x) - 3))
    for stated, beside in [(8.0, False), (None, False), (8.0, True)]:
        sigma = max(stated, seen) if stated else seen
        factor = stats.norm.ppf(0.975) if stated else stats.t.ppf(0.975, len(x) - 3)
        steps = numpy.eye(len(x)) * 1e-3
        u = numpy.sqrt(sum(((figures(y + s) - figures(y - s)) / 2e-3 * sigma) ** 2 for s in steps))
        top, peak, lean = figures(y)
        _, b, c = fit(y)
        cover = numpy.linalg.inv(powers.T @ powers) * sigma**2

        def over(at):
            by = numpy.array([0, 1, 2 * at])
            return (b + 2 * c * at) ** 2 - factor**2 * by @ cover @ by
        ends = [optimize.brentq(over, top - 2, top, xtol=1e-13), optimize.brentq(over, top, top + 2, xtol=1e-13)]
        doc = {
            "screw": "fuel", "wanted": {"from": "1000 rpm", "to": "1100 rpm"},
            "readings": [{"out": f"{p} turn", "speed": f"{v} rpm"} for p, v in zip(x, y)],
            "now": {"out": "3 turn", "speed": "1055 rpm"},
        }
        if stated:
            doc["uncertainty"] = f"{stated} rpm"
        target, target_u = (lean, u[2]) if beside else (top, u[0])
        if beside:
            doc["beside"] = {"side": "lean", "drop": "20 rpm"}
        crown = f"{AT}/idle/crown"
        case(f"six readings of the mixture screw, {'scatter stated' if stated else 'scatter from the curve'}"
             f"{', 20 rpm down on the lean side' if beside else ''}", f"Forsythe, Fieller; {SCRIPT}",
             {"idle": doc},
             {f"{crown}/best_turns": top, f"{crown}/best_turns_u": u[0], f"{crown}/from_turns": ends[0], f"{crown}/to_turns": ends[1],
              f"{crown}/rpm": peak, f"{crown}/rpm_u": u[1],
              f"{AT}/idle/turn/deg": 360 * (3 - target), f"{AT}/idle/turn_u": 360 * target_u,
              f"{AT}/idle/speed/verdict": "in_band"}, 1e-5)
    rise_of = lambda y: figures(y)[1] - numpy.polynomial.polynomial.polyval(3, fit(y))
    rise = rise_of(y)
    rise_u = numpy.sqrt(sum(((rise_of(y + s) - rise_of(y - s)) / 2e-3 * 8.0) ** 2 for s in numpy.eye(len(x)) * 1e-3))
    doc["uncertainty"] = "8 rpm"
    case("the rise on leaning by three published rules, at 3000 ft", f"The rules as printed; {SCRIPT}",
         {"air": {"altitude": "3000 ft"}, "idle": doc | {"rise": {}}},
         {f"{AT}/idle/rise/rise/rpm": rise, f"{AT}/idle/rise/rise_u": rise_u,
          f"{AT}/idle/rise/by_rules/*/rule": ["handbook", "metering", "by_height"],
          f"{AT}/idle/rise/by_rules/*/least/rpm": [25, 10, 30], f"{AT}/idle/rise/by_rules/*/most/rpm": [50, 50, 35],
          f"{AT}/idle/rise/by_rules/*/judged/probabilities/in_band/least": [
              stats.norm.cdf((b - rise) / rise_u) - stats.norm.cdf((a - rise) / rise_u) for a, b in [(25, 50), (10, 50), (30, 35)]]}, 1e-5)
    refused("an engine that stands still", {"idle": doc | {"readings": doc["readings"] + [{"out": "4 turn", "speed": "0 rpm"}]}},
            "/mixture/idle/readings/6", "mixture.idle-stalled")


# Float ----------------------------------------------------------------------------------------------

def float_level():
    """A level read with a normal error against the book's, and how far the surface has to go to the middle."""
    for level, verdict in [(0.4, "in_band"), (-1.2, "below")]:
        below, above = stats.norm.cdf((-0.5 - level) / 0.2), stats.norm.sf((0.5 - level) / 0.2)
        one = f"{AT}/float/chambers/0"
        expect = {f"{one}/judged/verdict": verdict}
        for side, p in [("below", below), ("in_band", 1 - below - above), ("above", above)]:
            expect |= {f"{one}/judged/probabilities/{side}/{end}": p for end in ("least", "most")}
        case(f"a fuel level of {level} mm where half a millimetre either way is allowed", "Normal distribution, JCGM 106:2012",
             {"fuel": "E0", "float": {"chambers": [{"name": "front", "level": f"{level} mm"}], "uncertainty": "0.2 mm",
                                      "limits": {"from": "-0.5 mm", "to": "0.5 mm"}}}, expect, 1e-9)


# Jets -----------------------------------------------------------------------------------------------

def jets():
    """Flow with the root of the density, and in proportion to it; a number that is a bore goes with the root of the flow."""
    low, high = (101.0, 18.0, 45.0), (81.6, 24.0, 35.0)
    ratio = density(*high) / density(*low)
    ratio_u = ratio * numpy.hypot(density_u(*high) / density(*high), density_u(*low) / density(*low))
    air_of = lambda kpa, celsius, percent: {
        "barometer": {"shows": f"{kpa} kPa", "set_to": "place"}, "temperature": f"{celsius} C", "humidity": f"{percent} %"}
    for numbering, power in [("flow", 1.0), ("diameter", 0.5)]:
        fitted = {"circuit": "main", "number": 120, "numbering": numbering, "sizes": [90 + 2.5 * i for i in range(13)]}
        case(f"a main jet of 120 by {numbering} from 101 kPa to 81.6 kPa", f"CIPM-2007; {SCRIPT}",
             {"air": air_of(*high), "jets": {"set_for": air_of(*low), "fitted": [fitted]}},
             {f"{AT}/jets/ratio": ratio, f"{AT}/jets/ratio_u": ratio_u,
              f"{AT}/jets/jets/0/rules/*/number": [120 * ratio ** (0.5 * power), 120 * ratio**power]}, 1e-5)


# Gas ------------------------------------------------------------------------------------------------

def gas():
    """Burnt forward from a known lambda, read as a tester of class 0 reads it, and back."""
    hydrogen, oxygen = 1.85, 0.0
    for lam, monoxide, unburnt in [(0.92, 0.22, 0.008), (1.0, 0.03, 0.004), (0.85, 0.40, 0.012)]:
        made = burnt(lam, hydrogen, oxygen, monoxide, unburnt, 6)
        x = numpy.round([made["co2"], made["co"], made["o2"], made["hc"], 0.0], 9)
        assert abs(found(x, hydrogen, oxygen, 6) - lam) < 1e-8
        least = numpy.array([0.5, 0.03, 0.1, 0.001, 0.0])
        u = numpy.maximum(least, 0.05 * x) / numpy.sqrt(3)
        square = 0.0
        for at in range(4):
            step = numpy.zeros(5)
            step[at] = 1e-5 * max(x[at], 1e-3)
            by = (found(x + step, hydrogen, oxygen, 6) - found(x - step, hydrogen, oxygen, 6)) / (2 * step[at])
            square += (by * u[at]) ** 2
        of = lambda value: f"{float(value)!r} %"
        doc = {"co2": of(x[0]), "co": of(x[1]), "o2": of(x[2]), "hc": {"read": of(x[3]), "shown_as": "hexane"}, "class": "0"}
        case(f"gas burnt forward from lambda {lam}", f"Brettschneider; {SCRIPT}", {"fuel": "E0", "gas": doc},
             {f"{AT}/gas/lambda/value/lambda": found(x, hydrogen, oxygen, 6), f"{AT}/gas/lambda/u": float(numpy.sqrt(square))}, 1e-6)
    refused("an engine that burns nothing", {"fuel": "E0", "gas": doc | {"co2": "0 %"}}, "/mixture/gas/co2", "mixture.no-carbon-dioxide")


if __name__ == "__main__":
    for part in (air, balance, cylinders, idle, float_level, jets, gas):
        part()
    VECTORS.write()
