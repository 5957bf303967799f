"""Writes the reference values beside this file: `cargo xtask oracles`.

Inputs are decimal texts. Where a formula takes them as f64, the reference takes the exact value of
that f64, so that only the kernel's own error is left. Numbers are stored as texts, because not every
JSON reader rounds correctly.
"""

import json
import platform
from fractions import Fraction
from importlib.metadata import version
from pathlib import Path

import mpmath
import numpy
import pint
import scipy.optimize
import scipy.stats
from mpmath import mp, mpf

HERE = Path(__file__).resolve().parent
mp.dps = 50


def text(value, digits=25):
    return mpmath.nstr(mpf(value), digits, strip_zeros=True, min_fixed=-4, max_fixed=6)


def exact(decimal):
    """The exact value of the f64 nearest to a decimal text."""
    return mpf(float(decimal))


def write(name, about, cases, packages, made_by="tests/oracles/generate.py"):
    document = {
        "about": about,
        "made_by": made_by,
        "versions": {"python": platform.python_version()} | {p: version(p) for p in packages},
        "cases": cases,
    }
    path = HERE / f"{name}.json"
    path.write_text(json.dumps(document, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    print(f"{path.name}: {len(cases)} cases")


# Units ----------------------------------------------------------------------------------------

MM = {"mm": Fraction(1), "in": Fraction(254, 10), "thou": Fraction(254, 10000), "um": Fraction(1, 1000)}
PINT_LENGTH = {"mm": "millimeter", "in": "inch", "thou": "thou", "um": "micrometer"}
PINT_POINT = {"C": "degC", "F": "degF", "K": "kelvin"}
PINT_AMOUNT = {"C": "delta_degC", "F": "delta_degF", "K": "kelvin"}


def kelvin_point(value, unit):
    zero = Fraction(27315, 100)
    return {"K": value, "C": value + zero, "F": (value - 32) * Fraction(5, 9) + zero}[unit]


def from_kelvin_point(kelvin, unit):
    celsius = kelvin - Fraction(27315, 100)
    return {"K": kelvin, "C": celsius, "F": celsius * Fraction(9, 5) + 32}[unit]


def units():
    registry = pint.UnitRegistry()
    cases = []

    def add(kind, number, source, target, value, by_pint):
        if abs(by_pint - float(value)) > 1e-11 * max(1.0, abs(float(value))):
            raise SystemExit(f"pint disagrees: {number} {source} -> {target}: {by_pint} {float(value)}")
        cases.append(
            {
                "id": f"{kind}-{len(cases) + 1:03}",
                "kind": kind,
                "text": f"{number} {source}",
                "to": target,
                "fraction": str(value),
                "value": text(mpf(value.numerator) / value.denominator),
                "pint": repr(float(by_pint)),
            }
        )

    lengths = [
        ("0.006", "in"), ("0.15", "mm"), ("1", "thou"), ("0.0015", "in"), ("0.0005", "in"), ("0.0001", "in"),
        ("4", "thou"), ("6", "thou"), ("8", "thou"), ("12", "thou"), ("2.5", "thou"), ("0.05", "mm"),
        ("0.10", "mm"), ("0.175", "mm"), ("0.20", "mm"), ("2.975", "mm"), ("38.1", "um"), ("1", "um"),
        ("8", "in"), ("7.5", "in"), ("39.37", "in"), ("0.625", "in"), ("203.2", "mm"),
    ]
    for number, source in lengths:
        for target in ("mm", "in", "thou", "um"):
            value = Fraction(number) * MM[source] / MM[target]
            by_pint = registry.Quantity(float(number), PINT_LENGTH[source]).to(PINT_LENGTH[target]).magnitude
            add("length", number, source, target, value, by_pint)
    points = [
        ("180", "F"), ("-40", "F"), ("98.6", "F"), ("20", "C"), ("0", "C"), ("100", "C"), ("-40", "C"),
        ("68", "F"), ("32", "F"), ("212", "F"), ("293.15", "K"), ("0", "K"), ("85.5", "C"), ("-459.67", "F"),
    ]
    for number, source in points:
        for target in ("C", "F", "K"):
            value = from_kelvin_point(kelvin_point(Fraction(number), source), target)
            by_pint = registry.Quantity(float(number), PINT_POINT[source]).to(PINT_POINT[target]).magnitude
            add("temperature", number, source, target, value, by_pint)
    for number, source in [("9", "F"), ("5", "K"), ("75", "C"), ("-18", "F"), ("0.5", "F"), ("1", "F"), ("0", "K")]:
        value = Fraction(number) * (Fraction(5, 9) if source == "F" else 1)
        by_pint = registry.Quantity(float(number), PINT_AMOUNT[source]).to("kelvin").magnitude
        add("difference", number, source, "K", value, by_pint)
    write("units", "Exact fractions, checked against pint to 1e-11.", cases, ["pint"])


# Rectangular plus normal ------------------------------------------------------------------------


def normal_integral(z):
    """Integral of the normal distribution function from minus infinity to z."""
    return z * mp.erfc(-z / mp.sqrt(2)) / 2 + mp.exp(-z * z / 2) / mp.sqrt(2 * mp.pi)


def probability_at_most(limit, a, b, u):
    if u == 0 and a == b:
        return mpf(1) if limit >= a else mpf(0)
    if u == 0:
        return min(max((limit - a) / (b - a), mpf(0)), mpf(1))
    if a == b:
        return mp.erfc(-(limit - a) / u / mp.sqrt(2)) / 2
    return u / (b - a) * (normal_integral((limit - a) / u) - normal_integral((limit - b) / u))


def rectangular_normal():
    rows = []
    # Feeler intervals round a band of 0.15 to 0.20 mm, usual uncertainties.
    for a, b in [("0.10", "0.15"), ("0.15", "0.20"), ("0.17", "0.18"), ("0.13", "0.18"), ("0.20", "0.25"), ("0.05", "0.10")]:
        for u in ["0.002", "0.005", "0.010"]:
            rows.append((a, b, u, "0.15", "0.20"))
    # Deep tails: a difference of two distribution values gives 0 here.
    for a, b, u in [
        ("0.30", "0.31", "0.01"), ("0.35", "0.36", "0.01"), ("0.40", "0.45", "0.01"), ("0.50", "0.51", "0.01"),
        ("0.02", "0.03", "0.01"), ("-0.05", "-0.04", "0.01"), ("-0.15", "-0.10", "0.01"), ("0.25", "0.26", "0.002"),
        ("0.22", "0.27", "0.001"), ("0.08", "0.13", "0.001"), ("0.171", "0.179", "0.002"), ("0.171", "0.179", "0.003"),
    ]:
        rows.append((a, b, u, "0.15", "0.20"))
    # Reading intervals far narrower than the normal part, where the closed form cancels.
    for b in ["0.176", "0.1751", "0.17501", "0.175001", "0.1750001", "0.175000001"]:
        rows.append(("0.175", b, "0.01", "0.15", "0.20"))
    for b in ["0.2501", "0.250001", "0.25000001"]:
        rows.append(("0.25", b, "0.01", "0.15", "0.20"))
    # Normal parts far narrower than the interval.
    for u in ["0.0001", "0.00001", "0.000001"]:
        rows.append(("0.13", "0.18", u, "0.15", "0.20"))
        rows.append(("0.18", "0.23", u, "0.15", "0.20"))
    # Narrow bands, wide uncertainty.
    for low, high in [("0.1749", "0.1751"), ("0.17499", "0.17501"), ("0.20", "0.2001")]:
        for u in ["0.005", "0.05"]:
            rows.append(("0.15", "0.20", u, low, high))
    # Exactly on the limit, and one part alone.
    rows += [
        ("0.15", "0.15", "0.005", "0.15", "0.20"), ("0.175", "0.175", "0.00637755", "0.15", "0.20"),
        ("0.19", "0.19", "0.01", "0.10", "0.20"), ("0.25", "0.25", "0.01", "0.10", "0.20"),
        ("0.13", "0.18", "0", "0.15", "0.20"), ("0.10", "0.15", "0", "0.15", "0.20"), ("0.16", "0.19", "0", "0.15", "0.20"),
    ]
    # All powers of two and their sums, so that no rounding of an input hides an error of the tail.
    for quarters in [0, 1, 2, 4, 6, 7, 8, 9, 10, 12, 16, 22, 32, 44, 60, 80, 104, 132, 148]:
        rows.append(("10", "12.5", "0.25", str(10 - quarters / 16), "18"))
    cases = []
    with mp.workdps(320):
        for a, b, u, low, high in rows:
            left, right, sd, bottom, top = (exact(x) for x in (a, b, u, low, high))
            below = probability_at_most(bottom, left, right, sd)
            # Mirrored, so that the tail above is computed as a tail.
            above = probability_at_most(-top, -right, -left, sd)
            within = probability_at_most(top, left, right, sd) - below
            assert abs(below + within + above - 1) < mpf(10) ** -80 or sd == 0
            # A second way, where plain quadrature can follow the integrand.
            if sd > 0 and right > left and right - left < 12 * sd:
                with mp.workdps(30):
                    # Scaled to about one, because quadrature stops at an absolute error.
                    scale = mp.erfc(-(bottom - left) / sd / mp.sqrt(2)) / 2
                    check = mp.quad(
                        lambda x: mp.erfc(-(bottom - x) / sd / mp.sqrt(2)) / 2 / scale,
                        mp.linspace(left, right, 9),
                    ) * scale / (right - left)
                assert abs(check - below) < mpf(10) ** -9 * below, (a, b, u, check, below)
            cases.append(
                {
                    "id": f"rectangular-normal-{len(cases) + 1:03}",
                    "from_mm": a,
                    "to_mm": b,
                    "normal_mm": u,
                    "low_mm": low,
                    "high_mm": high,
                    "below": text(tight),
                    "within": text(within),
                    "above": text(loose),
                }
            )
    write(
        "rectangular_normal",
        "A value spread evenly over an interval plus a normal deviation, against two limits; closed form at "
        "320 digits, checked by quadrature of the definition where the interval is under 12 standard deviations wide.",
        cases,
        ["mpmath"],
    )


# Student's t ------------------------------------------------------------------------------------


def student_below(t, freedom):
    tail = mp.betainc(freedom / 2, mpf(1) / 2, 0, freedom / (freedom + t * t), regularized=True) / 2
    return tail if t < 0 else 1 - tail


def student_t():
    cases = []
    for freedom in ["1", "2", "2.5", "3", "4", "5", "8", "10", "16", "16.7", "24", "30", "50", "100", "1000"]:
        for p in ["0.1", "0.5", "0.6827", "0.8", "0.9", "0.95", "0.9545", "0.98", "0.99", "0.999"]:
            start = float(scipy.stats.t.ppf((1 + float(p)) / 2, float(freedom)))
            root = mp.findroot(
                lambda t: 2 * student_below(t, exact(freedom)) - 1 - exact(p), mpf(start), tol=mpf(10) ** -60, maxsteps=60
            )
            assert abs(root - start) < 1e-9 * abs(start), (freedom, p, root, start)
            cases.append(
                {
                    "id": f"student-t-{len(cases) + 1:03}",
                    "freedom": freedom,
                    "coverage": p,
                    "factor": text(root),
                }
            )
    write(
        "student_t",
        "Coverage factors: Student's t lies between minus and plus the factor with this probability; by root finding on the incomplete beta function, checked against scipy to 1e-9.",
        cases,
        ["mpmath", "scipy"],
    )


# Slider-crank -----------------------------------------------------------------------------------


def slider_crank():
    cases = []
    engines = [
        ("29", "100", "0"), ("29", "100", "1.5"), ("29", "100", "-1.5"), ("45", "150", "0.8"), ("45", "150", "-12"),
        ("20", "38", "4"), ("70", "260", "0"), ("31.75", "114.3", "2"),
    ]
    angles = ["0", "1", "10", "20", "30", "60", "90", "120", "150", "180", "210", "240", "270", "300", "330", "350", "359"]
    for r_text, l_text, e_text in engines:
        r, l, e = exact(r_text), exact(l_text), exact(e_text)
        top = mp.sqrt((l + r) ** 2 - e * e)
        bottom = mp.sqrt((l - r) ** 2 - e * e)
        top_at = mp.degrees(mp.asin(e / (l + r)))
        bottom_at = 180 + mp.degrees(mp.asin(e / (l - r)))

        def drop(degrees):
            angle = mp.radians(degrees)
            return top - (r * mp.cos(angle) + mp.sqrt(l * l - (r * mp.sin(angle) - e) ** 2))

        stroke = top - bottom
        stops = []
        for share in ["0.001", "0.02", "0.1", "0.5", "0.9"]:
            travel = exact(text(exact(share) * stroke, 6))

            def angle_at(low, high):
                for _ in range(180):
                    middle = (low + high) / 2
                    low, high = (middle, high) if (drop(middle) < travel) == (drop(low) < travel) else (low, middle)
                return (low + high) / 2

            stops.append(
                {
                    "travel_mm": text(travel, 17),
                    "after_deg": text(angle_at(top_at, bottom_at)),
                    "before_deg": text(angle_at(bottom_at - 360, top_at)),
                }
            )
        cases.append(
            {
                "id": f"slider-crank-{len(cases) + 1:03}",
                "crank_radius_mm": r_text,
                "stroke_at_no_offset_mm": text(2 * r, 17),
                "rod_mm": l_text,
                "offset_mm": e_text,
                "tdc_deg": text(top_at),
                "bdc_deg": text(bottom_at),
                "stroke_mm": text(stroke),
                "drops": [{"deg": d, "drop_mm": text(drop(exact(d)))} for d in angles],
                "stops": stops,
            }
        )
    write(
        "slider_crank",
        "Piston travel from top dead centre. Angles from the line through the crank centre parallel to the bore; "
        "offset positive toward the side the pin moves to in the first half turn. `after_deg` and `before_deg`: the "
        "two crank angles at which the piston stands `travel_mm` below its top.",
        cases,
        ["mpmath"],
    )


# Articulated rods -------------------------------------------------------------------------------


def articulated_rod():
    """Complex numbers: the pins as points, the piston where its cylinder's line meets the link's circle."""
    engines = [
        ("3", "12", "3", "9"), ("75", "300", "75", "225"), ("60", "250", "50", "200"), ("82.55", "349.25", "63.5", "279.4"),
        ("40", "110", "35", "80"),
    ]
    cases = []
    for r_text, master_text, k_text, link_text in engines:
        r, master, k, link = (exact(x) for x in (r_text, master_text, k_text, link_text))
        for axis_text, knuckle_text in [
            ("0", "0"), ("40", "40"), ("72", "72"), ("80", "80"), ("120", "120"), ("160", "160"), ("200", "200"),
            ("320", "320"), ("80", "84"), ("160", "157.5"), ("60", "45"),
        ]:
            axis, knuckle = mp.radians(exact(axis_text)), mp.radians(exact(knuckle_text))

            def height(past):
                pin = r * mp.expj(axis + past)
                # Master piston on the real axis; the rod turns the knuckle pin with it.
                top = pin.real + mp.sqrt(master**2 - pin.imag**2)
                rod = (top - pin) / master
                seen = (pin + k * mp.expj(knuckle) * rod) * mp.expj(-axis)
                return seen.real + mp.sqrt(link**2 - seen.imag**2)

            def turning(near):
                return mp.findroot(lambda t: mp.diff(height, t), near, tol=mpf(10) ** -35)

            top, bottom = turning(mpf(0)), turning(mp.pi)
            for ours, sign, around in [(top, -1, 0.0), (bottom, 1, float(mp.pi))]:
                found = scipy.optimize.minimize_scalar(
                    lambda t: float(sign * height(mpf(t))), bounds=(around - 1.2, around + 1.2), method="bounded",
                    options={"xatol": 1e-9},
                )
                assert abs(found.x - ours) < 1e-6, (r_text, axis_text, found.x, ours)
            cases.append(
                {
                    "id": f"articulated-rod-{len(cases) + 1:03}",
                    "crank_radius_mm": r_text,
                    "master_rod_mm": master_text,
                    "knuckle_radius_mm": k_text,
                    "link_rod_mm": link_text,
                    "cylinder_deg": axis_text,
                    "knuckle_deg": knuckle_text,
                    "tdc_shift_deg": text(mp.degrees(top)),
                    "bdc_shift_deg": text(mp.degrees(bottom) - 180),
                    "stroke_mm": text(height(top) - height(bottom)),
                }
            )
    write(
        "articulated_rod",
        "Dead centres of a link rod's piston, in crank degrees past its cylinder's direction, and its stroke; root of "
        "the derivative at 50 digits, checked against scipy's bounded minimiser to 1e-6 rad.",
        cases,
        ["mpmath", "scipy"],
    )


# Crank position by rockers ------------------------------------------------------------------------


def rocker_state(kind, phase, events, guard):
    """Free, tight or neither ("ramp") at a whole degree of a cylinder's own cycle, by walking the degrees."""
    opens, closes = {
        "intake": (360 - events[0], 540 + events[1]),
        "exhaust": (180 - events[2], 360 + events[3]),
    }[kind]
    lifted = {d % 720 for d in range(opens, closes + 1)}
    near = {(d + g) % 720 for d in (opens, closes) for g in range(-guard + 1, guard)}
    if phase % 720 in near:
        return "ramp"
    return "tight" if phase % 720 in lifted else "free"


def crank_check():
    """Whole degrees and plain probabilities, each hypothesis as a table of firing positions."""
    generator = numpy.random.default_rng(20)
    cases = []
    for order in ["12", "132", "1342", "153624", "18436572", "15374826"]:
        for events, guard in [((6, 35, 38, 5), 20), ((20, 54, 65, 26), 25), ((40, 80, 80, 40), 20)]:
            for _ in range(3):
                n = len(order)
                step = 720 // n
                believed = order[generator.integers(n)]
                here = step * order.index(believed)
                own = {c: step * i for i, c in enumerate(order)}
                hypotheses = [("as_believed", here, own, 60), ("one_turn_out", here + 360, own, 20)]
                marks = sorted({(p + t) % 720 for p in own.values() for t in (0, 360)})
                forward = min((m - here) % 720 for m in marks if (m - here) % 720)
                back = min((here - m) % 720 for m in marks if (here - m) % 720)
                # The next marks, and the next firings where those are other places.
                beside = {(here + forward) % 720, (here - back) % 720, (here + step) % 720, (here - step) % 720}
                hypotheses += [("neighbouring_mark", mark, own, 10 / len(beside)) for mark in sorted(beside)]
                hypotheses.append(("counted_backwards", -here, own, 5))
                known, others = [order], []
                for slip in [order[::-1]] + [swap(order, i) for i in range(n)]:
                    slip = slip[slip.index(order[0]) :] + slip[: slip.index(order[0])]
                    if slip not in known:
                        known.append(slip)
                        others.append(slip)
                for slip in others:
                    fires = {c: step * i for i, c in enumerate(slip)}
                    hypotheses.append(("other_order", fires[believed], fires, 5 / len(others)))
                rockers = [(c, kind) for c in sorted(order) for kind in ("intake", "exhaust")]
                p = float(generator.choice([0.01, 0.05, 0.2]))
                truth = hypotheses[generator.integers(len(hypotheses))]
                picked = sorted(generator.choice(len(rockers), size=max(1, len(rockers) // 2), replace=False))
                patterns = [
                    [rocker_state(kind, at - fires[c], events, guard) for c, kind in rockers]
                    for _, at, fires, _ in hypotheses
                ]
                said = patterns[hypotheses.index(truth)]
                calls = {}
                for r in picked:
                    call = said[r] if said[r] != "ramp" else str(generator.choice(["free", "tight"]))
                    calls[int(r)] = {"free": "tight", "tight": "free"}[call] if generator.random() < p else call
                chance = lambda state, call: 0.5 if state == "ramp" else 1 - p if state == call else p
                weights = numpy.array(
                    [h[3] * numpy.prod([chance(s[r], c) for r, c in calls.items()]) for h, s in zip(hypotheses, patterns)]
                )
                weights /= weights.sum()
                wrong = [sum(s[r] not in ("ramp", c) for r, c in calls.items()) for s in patterns]
                sure = [sum(s[r] != "ramp" for r in calls) for s in patterns]
                tails = [float(scipy.stats.binom.sf(k - 1, m, p)) for k, m in zip(wrong, sure)]
                # What is learned is the mean divergence of the belief after a call from the belief before it.
                information = {}
                for r in set(range(len(rockers))) - set(calls):
                    bits = 0
                    for call in ("free", "tight"):
                        joint = weights * [chance(s[r], call) for s in patterns]
                        bits += joint.sum() * scipy.stats.entropy(joint, weights, base=2)
                    information[r] = bits
                best = max(information.values(), default=0)
                cases.append(
                    {
                        "id": f"crank-check-{len(cases) + 1:03}",
                        "order": list(order),
                        "believed": believed,
                        "events": [str(e) for e in events],
                        "guard": str(guard),
                        "wrong_call": repr(p),
                        "checks": [[rockers[r][0], rockers[r][1], c] for r, c in calls.items()],
                        "hypotheses": [
                            {
                                "cause": h[0],
                                "at_deg": str(h[1] % 720),
                                "first_other": "".join(sorted(h[2], key=h[2].get)) if h[0] == "other_order" else "",
                                "probability": text(w, 17),
                                "wrong_calls": str(k),
                                "chance_of_so_many": text(t, 17),
                            }
                            for h, w, k, t in zip(hypotheses, weights, wrong, tails)
                        ],
                        "best_bits": text(best, 17),
                    }
                )
    write(
        "crank_check",
        "Explanations of rockers felt free or tight, on even-firing engines: whole degrees, products of plain "
        "probabilities, scipy's binomial tail, and the information in the best rocker left as scipy's relative entropy.",
        cases,
        ["numpy", "scipy"],
    )


def swap(order, i):
    order = list(order)
    j = (i + 1) % len(order)
    order[i], order[j] = order[j], order[i]
    return "".join(order)


# Straight line ----------------------------------------------------------------------------------


def fit():
    series = [
        (["20", "60", "90"], ["0.150", "0.172", "0.190"], ["0.005", "0.005", "0.005"]),
        (["20", "60", "90"], ["0.150", "0.172", "0.190"], ["0.005", "0.010", "0.020"]),
        (["18", "74"], ["0.10", "0.18"], ["0.006", "0.006"]),
        (["15.5", "31", "48", "66.5", "88", "101"], ["0.148", "0.157", "0.171", "0.176", "0.193", "0.199"], ["0.003", "0.004", "0.003", "0.006", "0.005", "0.010"]),
        (["90", "60", "20", "20"], ["0.12", "0.16", "0.20", "0.21"], ["0.008", "0.008", "0.004", "0.004"]),
        (["20.0", "20.1", "20.2", "20.3"], ["0.1500", "0.1501", "0.1501", "0.1503"], ["0.001", "0.001", "0.001", "0.001"]),
        (["-10", "5", "40"], ["0.05", "0.0525", "0.0575"], ["0.002", "0.003", "0.002"]),
    ]
    cases = []
    for xs, ys, us in series:
        x, y, u = ([exact(value) for value in column] for column in (xs, ys, us))
        w = [1 / sd**2 for sd in u]
        s, sx, sy = mp.fsum(w), mp.fdot(w, x), mp.fdot(w, y)
        mean = sx / s
        spread = mp.fsum(wi * (xi - mean) ** 2 for wi, xi in zip(w, x))
        slope = mp.fsum(wi * (xi - mean) * yi for wi, xi, yi in zip(w, x, y)) / spread
        intercept = sy / s - slope * mean
        chi = mp.fsum(wi * (yi - intercept - slope * xi) ** 2 for wi, xi, yi in zip(w, x, y))
        sd_slope = 1 / mp.sqrt(spread)
        sd_intercept = mp.sqrt(1 / s + mean**2 / spread)
        columns = [numpy.array(column, dtype=float) for column in (xs, ys, us)]
        if len(xs) > 2:
            (np_slope, np_intercept), covariance = numpy.polyfit(
                columns[0], columns[1], 1, w=1 / columns[2], cov="unscaled"
            )
            for ours, theirs in [
                (slope, np_slope),
                (intercept, np_intercept),
                (sd_slope, covariance[0, 0] ** 0.5),
                (sd_intercept, covariance[1, 1] ** 0.5),
            ]:
                assert abs(ours - theirs) < 1e-8 * max(abs(ours), mpf("1e-4")), (xs, ours, theirs)
        cases.append(
            {
                "id": f"fit-{len(cases) + 1:03}",
                "celsius": xs,
                "lash_mm": ys,
                "normal_mm": us,
                "slope_mm_per_k": text(slope),
                "at_zero_celsius_mm": text(intercept),
                "at_20_celsius_mm": text(intercept + 20 * slope),
                "sd_slope": text(sd_slope),
                "sd_at_zero_celsius": text(sd_intercept),
                "sd_at_20_celsius": text(mp.sqrt(1 / s + (mean - 20) ** 2 / spread)),
                "covariance_at_zero_celsius": text(-mean / spread),
                "chi_square": text(chi),
            }
        )
    write(
        "fit",
        "Weighted least squares of lash on temperature, weights 1/u^2, uncertainties taken as known; checked against "
        "numpy.polyfit to 1e-8.",
        cases,
        ["mpmath", "numpy", "scipy"],
    )


# Assignment -------------------------------------------------------------------------------------


def assignment():
    """Costs in micrometres between thicknesses wanted and at hand, or plain random; one text a row, - is forbidden."""
    draw = numpy.random.default_rng(20)
    cases = []

    def add(kind, costs):
        rows, columns = costs.shape
        try:
            chosen = scipy.optimize.linear_sum_assignment(costs)
            cost = int(costs[chosen].sum())
        except ValueError as why:
            assert "infeasible" in str(why), why
            cost = None
        cases.append(
            {
                "id": f"assignment-{len(cases) + 1:03}",
                "kind": kind,
                "rows": rows,
                "columns": columns,
                "costs": [" ".join(str(int(c)) if numpy.isfinite(c) else "-" for c in row) for row in costs],
                "cost": cost,
            }
        )

    for rows, columns in [(1, 1), (1, 7), (3, 3), (4, 9), (8, 8), (12, 13), (16, 16), (16, 24), (24, 30), (32, 32)]:
        wanted = 2500 + draw.integers(0, 800, rows)
        at_hand = 2500 + 25 * draw.integers(0, 33, columns)
        thickness = numpy.abs(wanted[:, None] - at_hand[None, :]).astype(float)
        add("thickness", thickness)
        add("random", draw.integers(-1000, 1000, (rows, columns)).astype(float))
        add("ties", draw.integers(0, 3, (rows, columns)).astype(float))
        add("forbidden", numpy.where(draw.random((rows, columns)) < 0.4, numpy.inf, thickness))
        # Every column is wanted most by the same rows: long paths.
        add("products", numpy.outer(numpy.arange(1, rows + 1), numpy.arange(1, columns + 1)).astype(float))
    write(
        "assignment",
        "The least sum of costs with every row in a column of its own, by scipy.optimize.linear_sum_assignment; "
        "null where it finds none.",
        cases,
        ["scipy", "numpy"],
    )


# Cooling ----------------------------------------------------------------------------------------


def cooling():
    """Newton's law by scipy's curve_fit; the surroundings are a reading at the end of all time."""

    def law(minutes, air, above, rate):
        return air + above * numpy.exp(-rate * minutes)

    series = [
        (["0", "10"], ["180", "120"], "20", "0.5"),
        (["0", "30"], ["95", "61"], "20", "1"),
        (["0", "15", "30", "45"], ["90", "72.5", "58.6", "49.1"], "21", "1"),
        (["0", "5", "10", "20", "40"], ["110", "101.5", "92", "80.5", "62"], "18", "1.5"),
        (["5", "15", "30", "60", "90", "120"], ["88.2", "75.1", "60.4", "42.3", "33.0", "27.9"], None, "0.5"),
        (["0", "20", "40", "60", "80"], ["70", "60.2", "52.9", "47.3", "43.1"], None, "0.2"),
        (["0", "2", "4", "6"], ["95", "93.9", "92.7", "91.8"], "20", "0.3"),
        (["0", "60", "600"], ["85", "41", "20.6"], "20", "1"),
        (["0", "10", "20", "30"], ["80", "74", "61", "57"], "15", "0.5"),
    ]
    cases = []
    for minutes, celsius, air, u in series:
        x = numpy.array([float(m) - float(minutes[0]) for m in minutes])
        y = numpy.array([float(c) for c in celsius])
        start = float(air) if air else y[-1] - 5.0
        if air:
            x, y = numpy.append(x, 1e9), numpy.append(y, float(air))
        last = x[len(minutes) - 1]
        guess = [start, y[0] - start, numpy.log((y[0] - start) / (y[len(minutes) - 1] - start)) / last]
        found, covariance = scipy.optimize.curve_fit(
            law, x, y, p0=guess, sigma=numpy.full(len(x), float(u)), absolute_sigma=True,
            ftol=1e-15, xtol=1e-15, gtol=1e-15, maxfev=100000,
            jac=lambda t, a, d, k: numpy.column_stack([
                numpy.ones_like(t),
                numpy.exp(-k * t),
                -d * t * numpy.exp(-k * t),
            ]),
        )
        freedom = len(x) - 3
        chi = float(numpy.sum(((y - law(x, *found)) / float(u)) ** 2))
        scatter = (chi / freedom) ** 0.5 if freedom else None
        covariance = covariance * max(1.0, scatter or 1.0) ** 2
        # A quarter of the way from the surroundings to the last temperature.
        left = found[1] * numpy.exp(-found[2] * last) / 4
        until = numpy.log(found[1] / left) / found[2]
        by = numpy.array([1 / (found[2] * left), 1 / (found[2] * found[1]), -until / found[2]])
        cases.append(
            {
                "id": f"cooling-{len(cases) + 1:03}",
                "minutes": minutes,
                "celsius": celsius,
                "surroundings_celsius": air,
                "thermometer_kelvin": u,
                "fit": [repr(float(v)) for v in found],
                "covariance": [[repr(float(v)) for v in row] for row in covariance],
                "scatter": None if scatter is None else repr(scatter),
                "target_celsius": repr(float(found[0] + left)),
                "until_minutes": repr(float(until)),
                "until_u_minutes": repr(float((by @ covariance @ by) ** 0.5)),
            }
        )
    write(
        "cooling",
        "Newton's law T = Ta + D exp(-k t) by scipy.optimize.curve_fit, minute 0 at the first reading: Ta, D, k and "
        "their covariance, widened by the scatter of the readings where that is above 1; the surroundings, where "
        "given, are one more reading after 1e9 minutes. `until`: minutes to a quarter of the last difference, with "
        "its standard uncertainty by first-order propagation.",
        cases,
        ["numpy", "scipy"],
    )


# Locking ----------------------------------------------------------------------------------------


def locking():
    """The next gap after locking: Student's t plus a normal part, by quadrature over the normal part."""
    rows = [
        # shifts in mm, gap set before, uncertainty of one gap, other uncertainty, band
        (["0.02", "0.03"], "0.175", "0", "0", "0.15", "0.25"),
        (["0.02", "0.03"], "0.175", "0.01", "0", "0.15", "0.25"),
        (["0.02", "0.02", "0.02"], "0.18", "0.01", "0.005", "0.15", "0.25"),
        (["0.01", "0.02", "0.03"], "0.18", "0.005", "0", "0.18", "0.22"),
        (["0.01", "0.02", "0.03", "0.02"], "0.18", "0.002", "0.03", "0.18", "0.22"),
        (["0.015", "0.02", "0.018", "0.025", "0.021"], "0.13", "0.003", "0.002", "0.14", "0.16"),
        (["-0.02", "-0.01", "-0.03", "-0.02", "-0.015", "-0.022"], "0.22", "0.004", "0", "0.18", "0.22"),
        (["0.02", "0.025", "0.015"], "0.10", "0.0001", "0", "0.19", "0.21"),
        (["0.0201", "0.02", "0.0199"], "0.18", "0.02", "0.01", "0.18", "0.22"),
        (["0.02", "0.021"], "0.18", "0.00001", "0", "0.19", "0.21"),
        (["0.01", "0.012", "0.009", "0.011", "0.010", "0.013", "0.008", "0.011", "0.010", "0.012"], "0.19", "0.002", "0.001", "0.19", "0.21"),
    ]
    for many in (40, 90):
        drawn = [f"{0.02 + 0.001 * ((7 * i * i + 3 * i) % 11 - 5):.3f}" for i in range(many)]
        rows += [(drawn, "0.18", "0.0005", "0", "0.19", "0.21"), (drawn, "0.17", "0.003", "0.001", "0.19", "0.21")]
    cases = []
    for shifts, set_to, u, extra, low, high in rows:
        with mp.workdps(30):
            d = [mpf(s) for s in shifts]
            n = len(d)
            centre = mpf(set_to) + mp.fsum(d) / n
            mean = mp.fsum(d) / n
            sd = mp.sqrt(mp.fsum((x - mean) ** 2 for x in d) / (n - 1))
            scale = sd * mp.sqrt(1 + mpf(1) / n)
            normal = mp.sqrt(mpf(u) ** 2 * (1 + mpf(2) / n) + mpf(extra) ** 2)

            def below(distance):
                if scale < mpf(10) ** -20:
                    return mp.erfc(-distance / normal / mp.sqrt(2)) / 2
                if normal == 0:
                    return student_below(distance / scale, mpf(n - 1))
                edge = distance / normal
                width = scale / normal
                inside = [edge + k * width for k in (-8, -3, -1, 0, 1, 3, 8)]
                steps = sorted({mpf(x) for x in range(-12, 13, 2)} | {x for x in inside if -12 < x < 12})
                return mp.quad(
                    lambda z: mp.exp(-z * z / 2) / mp.sqrt(2 * mp.pi) * student_below((distance - normal * z) / scale, mpf(n - 1)),
                    steps,
                )

            tight, loose = below(mpf(low) - centre), below(centre - mpf(high))
            half = scipy.stats.t.ppf(0.975, n - 1) * float(scale)
        if normal == 0:
            by_scipy = scipy.stats.t.cdf(float((mpf(low) - centre) / scale), n - 1)
            assert abs(by_scipy - tight) < 1e-12, (shifts, by_scipy, tight)
        cases.append(
            {
                "id": f"locking-{len(cases) + 1:03}",
                "shifts_mm": shifts,
                "set_mm": set_to,
                "gap_u_mm": u,
                "extra_u_mm": extra,
                "low_mm": low,
                "high_mm": high,
                "mean_mm": text(mean),
                "spread_mm": text(sd),
                "half_width_95_mm": repr(float(half)),
                "below": text(tight),
                "in_band": text(1 - tight - loose),
                "above": text(loose),
            }
        )
    write(
        "locking",
        "The next gap after locking: set + mean + spread sqrt(1 + 1/n) t(n - 1) + normal, the normal part of "
        "u sqrt(1 + 2/n) and the extra uncertainty; chances against a band by quadrature at 30 digits over the normal "
        "part, checked against scipy.stats.t where there is none.",
        cases,
        ["mpmath", "scipy"],
    )


# Diagnosis over all readings --------------------------------------------------------------------


def diagnosis():
    """Bayes factors of whole engines by Gauss-Legendre panels on scipy's log_ndtr, in logarithms throughout.

    The model is the one the kernel documents; its constants are written out here once more. The kernel uses the
    trapezoid rule and a tail of its own; one integral is also checked with scipy.integrate.quad.
    """
    from scipy.integrate import quad
    from scipy.special import log_ndtr, logsumexp

    stray, drift, worn, times = 0.015, 0.025, 0.03, 2.0
    warmth, reach, shut, spared, widest = 0.1, 2.0, 0.02, 0.05, 0.3
    # How wide ordinary valves may spread, how many may be odd, with the priors of both.
    spreads = [(1.0, 0.55), (1.5, 0.25), (2.25, 0.14), (3.4, 0.06)]
    odd_shares, disarray = [(0.0, 0.97), (0.1, 0.03)], [(0.5, 1.0)]
    nodes, weights = numpy.polynomial.legendre.leggauss(40)

    def panels(edges):
        """Nodes and log weights over neighbouring edges."""
        parts = [((b - a) / 2 * nodes + (a + b) / 2, numpy.log((b - a) / 2 * weights)) for a, b in zip(edges, edges[1:])]
        return numpy.concatenate([x for x, _ in parts]), numpy.concatenate([w for _, w in parts])

    def log_density(z, spread):
        return -0.5 * (z / spread) ** 2 - numpy.log(spread) - 0.5 * numpy.log(2 * numpy.pi)

    def chance(low, high, u, mean, spread, factor=1.0):
        sigma = numpy.hypot(spread, u)
        if low is None:
            return log_ndtr((high - mean) / sigma)
        if high is None:
            return log_ndtr((mean - low) / sigma)
        if low == high:
            return numpy.log(factor) + log_density(low - mean, sigma)
        # On the small tail: mirrored where the bracket lies below the mean.
        above = low + high >= 2 * mean
        near = numpy.where(above, low - mean, mean - high) / sigma
        far = near + (high - low) / sigma
        tail = log_ndtr(-near)
        return tail + numpy.log(-numpy.expm1(log_ndtr(-far) - tail))

    def spread_of(half):
        return numpy.sqrt(half**2 / 3 + stray**2)

    def widened(kind, wider):
        """No wider than 30 % of the set value the valves are held against, or than the band says."""
        base = spread_of(kind[1])
        return max(min(wider * base, widest * kind[0]), base)

    def ordinary(reading, kind, d, wider, factor=1.0, width_of=None):
        low, high, u = [None if x is None else x * factor for x in reading]
        s = widened(width_of or kind, wider)
        return numpy.logaddexp(
            numpy.log(1 - worn) + chance(low, high, u, kind[0] + d, s, factor),
            numpy.log(worn) + chance(low, high, u, kind[0] + d, times * s, factor),
        )

    def odd(reading, kind):
        """As a valve that lies anywhere about its set value, wherever its kind has drifted."""
        return chance(*reading, kind[0], max(kind[0], 8 * spread_of(kind[1])))

    def mixed(ln, reading, kind, share):
        return numpy.logaddexp(numpy.log1p(-share) + ln, numpy.log(share) + odd(reading, kind)) if share else ln

    drifts, drift_weights = panels(numpy.linspace(-10, 10, 21) * drift)

    def over_drift(log_product, shift=0.0):
        return logsumexp(drift_weights + log_density(drifts, drift) + log_product(drifts + shift))

    def populations(shares):
        return [(wider, share, numpy.log(p) + numpy.log(q)) for wider, p in spreads for share, q in shares]

    def product(readings, kinds, terms, wider, share, shift=0.0):
        """Log marginal likelihood for one spread and one share of odd valves."""
        total = 0.0
        for kind in ("intake", "exhaust"):
            fs = []
            for i, (of, reading) in enumerate(readings):
                plain = lambda d, w, q, r=reading, k=of: mixed(ordinary(r, kinds[k], d, w), r, kinds[k], q)
                to, f = (terms or {}).get(i, (of, plain))
                if to == kind:
                    fs.append(f)
            log_product = lambda d, fs=fs: sum((f(d, wider, share) for f in fs), numpy.zeros_like(d))
            total += over_drift(log_product, shift)
        return total

    def engine(readings, kinds, terms=None, shares=odd_shares):
        """Log marginal likelihood; `terms` replaces a reading by (kind, log function of drift, spread and share)."""

        return logsumexp([prior + product(readings, kinds, terms, wider, share) for wider, share, prior in populations(shares)])

    def warm(readings, kinds, terms=None):
        """All lashes shifted alike; `terms` as for an engine."""
        shifts, shift_weights = panels(numpy.linspace(-reach, reach, 13) * warmth)
        inside = numpy.log(scipy.stats.norm.cdf(reach) - scipy.stats.norm.cdf(-reach))

        def one(wider, share):
            each = numpy.array([product(readings, kinds, terms, wider, share, x) for x in shifts])
            return logsumexp(shift_weights + log_density(shifts, warmth) - inside + each)

        return logsumexp([prior + one(wider, share) for wider, share, prior in populations(odd_shares)])

    def other(kind):
        return "exhaust" if kind == "intake" else "intake"

    cases = []
    documents = [
        # name, believed (set value, half band) of both kinds, another source, readings as (kind, low, high, u)
        (
            "healthy",
            {"intake": ("0.20", "0.05"), "exhaust": ("0.30", "0.05")},
            {"intake": ("0.15", "0.03"), "exhaust": ("0.25", "0.03")},
            [("intake", "0.18", "0.20"), ("exhaust", "0.28", "0.30"), ("intake", "0.20", "0.22"), ("exhaust", "0.25", "0.28")],
        ),
        (
            "exchanged",
            {"intake": ("0.20", "0.03"), "exhaust": ("0.30", "0.03")},
            {"intake": ("0.25", "0.03"), "exhaust": ("0.25", "0.03")},
            [("intake", "0.28", "0.30"), ("exhaust", "0.18", "0.20"), ("intake", "0.30", "0.32"), ("exhaust", "0.20", "0.22")],
        ),
        (
            "one-sided and dragging",
            {"intake": ("0.10", "0.02"), "exhaust": ("0.15", "0.02")},
            {"intake": ("0.20", "0.02"), "exhaust": ("0.25", "0.02")},
            [("intake", None, "0.05"), ("exhaust", "0.25", None), ("intake", "0.11", "0.11"), ("exhaust", "0.16", "0.16")],
        ),
    ]
    u = "0.003"
    number = lambda x: None if x is None else float(x)
    for name, believed, source, written in documents:
        kinds = {k: tuple(map(float, v)) for k, v in believed.items()}
        others = {k: tuple(map(float, v)) for k, v in source.items()}
        readings = [(k, (number(low), number(high), float(u))) for k, low, high in written]
        every = range(len(readings))
        nothing = engine(readings, kinds)

        def slip(i, factor):
            kind, r = readings[i]
            by = factor if r[0] is not None and r[1] is not None else 1
            return (kind, lambda d, w, q: mixed(ordinary(r, kinds[kind], d, w, by), r, kinds[kind], q))

        def set_so(i, by):
            kind, r = readings[i]
            wrong = (by * kinds[kind][0], kinds[kind][1])
            return (kind, lambda d, w, q: mixed(ordinary(r, wrong, d, w, width_of=kinds[kind]), r, kinds[kind], q))

        def swap(i):
            kind, r = readings[i]
            to = other(kind)
            return (to, lambda d, w, q: mixed(ordinary(r, kinds[to], d, w), r, kinds[kind], q))

        def lifted(i, of=None):
            kind, r = readings[i]
            to = of or kind
            return (
                to,
                lambda d, w, q: numpy.logaddexp(
                    numpy.log(1 - spared) + chance(*r, 0.0, shut),
                    numpy.log(spared) + mixed(ordinary(r, kinds[to], d, w), r, kinds[kind], q),
                ),
            )

        def shown(ln):
            return repr(float(ln / numpy.log(10)))

        def factor(terms):
            return shown(engine(readings, kinds, terms) - nothing)

        closed = [i for i in every if readings[i][1][0] is not None and readings[i][1][1] is not None]
        same, hundredths = 25.4, 2.54
        slips = {
            "same_number": [factor({i: slip(i, same)}) for i in closed],
            "thousandths_hundredths": [factor({i: slip(i, hundredths)}) for i in closed],
        }
        if name == "healthy":
            pair = [readings[i][1] for i in (0, 2)]
            log_product = lambda d: sum(ordinary(r, kinds["intake"], d, 1.5) for r in pair)
            f = lambda d: float(numpy.exp(log_density(d, drift) + log_product(numpy.float64(d))))
            by_scipy = quad(f, -0.25, 0.25, epsabs=0, epsrel=1e-11)[0]
            if abs(numpy.log(by_scipy) - over_drift(log_product)) > 1e-10:
                raise SystemExit(f"scipy disagrees: {by_scipy}")
        cases.append(
            {
                "id": name,
                "believed": {k: list(v) for k, v in believed.items()},
                "other": {k: list(v) for k, v in source.items()},
                "u_mm": u,
                "readings": [{"kind": k, "low": low, "high": high} for k, low, high in written],
                "log10_evidence": shown(nothing),
                "slip_one": slips,
                "slip_all": [factor({i: slip(i, f) for i in every}) for f in (same, hundredths)],
                "set_all": [factor({i: set_so(i, by) for i in every}) for by in (2.54, 1 / 2.54)],
                "swapped_all": factor({i: swap(i) for i in every}),
                "swapped_cylinder": [factor({i: swap(i) for i in pair}) for pair in ((0, 1), (2, 3))],
                # The other set values with the believed spreads.
                "other_specification": shown(
                    engine(readings, {k: (others[k][0], kinds[k][1]) for k in kinds}) - nothing
                ),
                "one_turn_out": factor({i: lifted(i) for i in every}),
                "not_cold": shown(warm(readings, kinds) - nothing),
                "several": {
                    "disarray": shown(engine(readings, kinds, shares=disarray) - nothing),
                    "swapped_and_turned": factor({i: lifted(i, other(readings[i][0])) for i in every}),
                    "swapped_and_shifted": shown(warm(readings, kinds, {i: swap(i) for i in every}) - nothing),
                    "turned_and_shifted": shown(warm(readings, kinds, {i: lifted(i) for i in every}) - nothing),
                },
            }
        )
    write(
        "diagnosis",
        "Logarithms to base 10 of Bayes factors against 'nothing special' for four readings of two cylinders, integrals "
        "over drift and shift by Gauss-Legendre panels on scipy.special.log_ndtr, one checked against scipy.integrate.quad.",
        cases,
        ["numpy", "scipy"],
    )


if __name__ == "__main__":
    units()
    rectangular_normal()
    student_t()
    slider_crank()
    articulated_rod()
    crank_check()
    fit()
    assignment()
    cooling()
    locking()
    diagnosis()
