"""Writes reference values of cranking compression beside this file: `cargo xtask oracles`.

Rules between cylinders by drawing; the expected pressure and the exponent by drawing; causes along a row by
listing every case, written apart from the kernel.
"""

import itertools

import numpy
import scipy.integrate
import scipy.stats
from generate import text, write

SOURCE = "tests/oracles/condition_compression.py"
DRAWS = 2_000_000


def rules():
    rng = numpy.random.default_rng(75)
    cases = []
    for shown, u, common, percent, most, least in [
        ([1034.2, 1000.0, 790.0, 1020.0], 15.0, 20.0, 75.0, 200.0, 800.0),
        ([1158.0, 1140.0, 1165.0, 868.0], 15.0, 20.0, 75.0, 290.0, 868.0),
        ([1034.0, 720.0], 10.0, 25.0, 70.0, 310.0, 690.0),
        ([950.0, 965.0, 940.0, 955.0, 860.0, 961.0], 20.0, 15.0, 90.0, 97.0, 850.0),
        ([690.0, 700.0, 695.0], 15.0, 30.0, 75.0, 138.0, 690.0),
    ]:
        x = numpy.array(shown)
        true = x + u * rng.standard_normal((DRAWS, len(x)))
        top, low = true.max(axis=1), true.min(axis=1)
        with_common = low + common * rng.standard_normal(DRAWS)

        def one(i, asked_inverse):
            """A cylinder against the others: by quadrature."""
            def density(z):
                own = x[i] + u * z
                others = numpy.delete(x, i)
                return scipy.stats.norm.pdf(z) * numpy.prod(scipy.stats.norm.cdf((asked_inverse(own) - others) / u))
            return scipy.integrate.quad(density, -10, 10, limit=400, epsabs=1e-13)[0]

        cases.append(
            {
                "id": f"rule-{len(cases) + 1:03}",
                "shown": [repr(v) for v in shown],
                "repeat": repr(u),
                "common": repr(common),
                "percent": repr(percent),
                "most": repr(most),
                "least": repr(least),
                "ratio": text(float(numpy.mean(low >= percent / 100 * top)), 6),
                "difference": text(float(numpy.mean(top - low <= most)), 6),
                "minimum": text(float(numpy.mean(with_common >= least)), 6),
                "ratio_each": [text(one(i, lambda v: v * 100 / percent), 12) for i in range(len(x))],
                "difference_each": [text(one(i, lambda v: v + most), 12) for i in range(len(x))],
            }
        )
    return cases


def effective(eps, stroke, rod, closes):
    """Piston travel from the triangle itself."""
    r = stroke / 2
    t = numpy.radians(180 + closes)
    drop = r + rod - (r * numpy.cos(t) + numpy.sqrt(rod**2 - (r * numpy.sin(t)) ** 2))
    return 1 + (eps - 1) * drop / stroke


def expected():
    rng = numpy.random.default_rng(8)
    cases = []
    for eps, eps_u, stroke, rod, closes, closes_u, air, air_u, low, high, shown, shown_u in [
        (8.0, 0.1, 90.0, 150.0, 60.0, 3.0, 101.325, 1.0, 1.2, 1.3, 980.0, 20.0),
        (9.0, 0.2, 90.0, 150.0, 50.0, 5.0, 84.3, 0.5, 1.15, 1.30, 900.0, 15.0),
        (10.0, 0.05, 58.0, 100.0, 40.0, 2.0, 99.0, 0.2, 1.25, 1.25, 1400.0, 30.0),
        (6.5, 0.1, 120.0, 240.0, 35.0, 4.0, 70.0, 0.7, 1.1, 1.2, 400.0, 15.0),
    ]:
        normal = lambda m, s: m + s * rng.standard_normal(DRAWS)
        e, c, a = normal(eps, eps_u), normal(closes, closes_u), normal(air, air_u)
        n = rng.uniform(low, high, DRAWS)
        p = a * (effective(e, stroke, rod, c) ** n - 1)
        read = normal(shown, shown_u)
        implied = numpy.log((a + read) / a) / numpy.log(effective(e, stroke, rod, c))
        at = lambda n: air * (effective(eps, stroke, rod, closes) ** n - 1)
        cases.append(
            {
                "id": f"expected-{len(cases) + 1:03}",
                **{k: repr(v) for k, v in dict(
                    ratio=eps, ratio_u=eps_u, stroke=stroke, rod=rod, closes=closes, closes_u=closes_u, air=air,
                    air_u=air_u, low=low, high=high, shown=shown, shown_u=shown_u).items()},
                "effective": text(float(effective(eps, stroke, rod, closes)), 15),
                "from": text(float(at(low)), 15),
                "to": text(float(at(high)), 15),
                "u": text(float(numpy.std(p)), 6),
                "exponent": text(float(numpy.log((air + shown) / air) / numpy.log(effective(eps, stroke, rod, closes))), 15),
                "exponent_u": text(float(numpy.std(implied)), 6),
            }
        )
    return cases


PRIOR = {"sound": 0.90, "rings": 0.04, "valve": 0.05, "other": 0.01}
DRY = {"rings": (0.30, 0.95), "valve": (0.0, 0.93), "gasket": (0.15, 0.85), "other": (0.0, 1.20)}
BACK = {"sound": (0.0, 0.3), "rings": (0.35, 1.0), "valve": (0.0, 0.15), "gasket": (0.0, 0.15), "other": (0.0, 1.0)}
RISE = {"sound": (0.93, 0.05, 0.02), "rings": (0.15, 0.75, 0.10), "valve": (0.07, 0.13, 0.80),
        "gasket": (0.07, 0.13, 0.80), "other": (1 / 3, 1 / 3, 1 / 3)}


def band(at, low, high, blur):
    """Density of uniform plus normal, by quadrature; no wider than a point: the normal's."""
    if high - low < 1e-3 * blur:
        return scipy.stats.norm.pdf(at, (low + high) / 2, blur)
    near = [min(max(at, low), high)]
    value, _ = scipy.integrate.quad(
        lambda t: scipy.stats.norm.pdf(at, t, blur), low, high, points=near, limit=400, epsabs=1e-14, epsrel=1e-10
    )
    return value / (high - low)


def beside(cause, one):
    """What oil and the rise of the gauge say."""
    p = 1.0
    if one["gain"] is not None:
        dry, (gain, u) = one["dry"][0], one["gain"]
        lost = max(0.0, 1 - dry)
        low, high = BACK[cause]
        p *= band(gain, low * lost + 0.0 * dry, high * lost + 0.08 * dry, max(u, 0.01))
    if one["rise"] is not None:
        p *= 0.95 * RISE[cause][one["rise"]] + 0.05 / 3
    return p


def own(cause, one):
    at, u = one["dry"]
    if cause == "sound":
        return scipy.stats.norm.pdf(at, 1, numpy.hypot(0.03, u)) * beside(cause, one)
    return band(at, *DRY[cause], max(u, 0.01)) * beside(cause, one)


def row():
    """Every case of a row listed."""
    cases = []
    for readings in [
        [(1000, 1030, None), (640, 655, None), (650, 660, None), (1010, 1035, None)],
        [(1000, None, 0), (640, None, 2), (1000, None, 0), (1010, None, 0)],
        [(1000, 1020, None), (600, 900, 1), (620, 930, 1), (1010, 1035, None)],
        [(1000, None, None), (700, None, None), (690, None, None), (710, None, None), (1010, None, None), (990, None, None)],
        [(1000, None, None), (960, None, None), (905, 925, None), (1010, None, None)],
        [(1100, None, None), (300, 320, 2)],
    ]:
        repeat, x = 15.0, [r[0] for r in readings]
        # The largest group within a tenth of its highest, of two as large the higher.
        groups = [[i for i, v in enumerate(x) if 0.9 * h <= v <= h] for h in sorted(x, reverse=True)]
        group = max(groups, key=len)
        seen = []
        for i, (dry, wet, rise) in enumerate(readings):
            others = [x[k] for k in group if k != i]
            mean = numpy.mean(others) if others else None
            if mean is None:
                seen.append(None)
                continue
            u = numpy.hypot(repeat, 0.03 * mean) / numpy.sqrt(len(others))
            share = dry / mean
            seen.append({
                "dry": (share, numpy.hypot(repeat / mean, share * u / mean)),
                "gain": None if wet is None else ((wet - dry) / mean, numpy.sqrt(2) * repeat / mean),
                "rise": rise,
            })
        n = len(readings)
        total, cylinders, gaskets = 0.0, numpy.zeros((n, 5)), numpy.zeros(n - 1)
        names = ["sound", "rings", "valve", "gasket", "other"]
        weights = [
            None if s is None else {c: PRIOR[c] * own(c, s) for c in PRIOR} for s in seen
        ]
        for leaks in itertools.product([0, 1], repeat=n - 1):
            base = numpy.prod([0.01 if g else 0.99 for g in leaks])
            options = []
            for i in range(n):
                left, right = i > 0 and leaks[i - 1], i < n - 1 and leaks[i]
                s = seen[i]
                if left or right:
                    if s is None:
                        options.append([("gasket", 1.0)])
                    elif left and seen[i - 1] is not None:
                        other, other_u = seen[i - 1]["dry"]
                        at, u = s["dry"]
                        blur = numpy.sqrt(0.08**2 + u**2 + other_u**2)
                        options.append([("gasket", scipy.stats.norm.pdf(at, other, blur) * beside("gasket", s))])
                    else:
                        options.append([("gasket", own("gasket", s))])
                elif s is None:
                    options.append(list(PRIOR.items()))
                else:
                    options.append(list(weights[i].items()))
            for case in itertools.product(*options):
                w = base * numpy.prod([p for _, p in case])
                total += w
                for i, (name, _) in enumerate(case):
                    cylinders[i, names.index(name)] += w
                gaskets += w * numpy.array(leaks)
        cases.append({
            "id": f"row-{len(cases) + 1:03}",
            "readings": [[None if v is None else repr(v) for v in r] for r in readings],
            "cylinders": [[text(float(v), 12) for v in c] for c in cylinders / total],
            "gaskets": [text(float(v), 12) for v in gaskets / total],
        })
    return cases


if __name__ == "__main__":
    write("condition_rules", "rules for cranking compression, drawn", rules(), ["numpy", "scipy"], SOURCE)
    write("condition_expected", "expected cranking compression, drawn", expected(), ["numpy", "scipy"], SOURCE)
    write("condition_row", "causes along a row, every case listed", row(), ["numpy", "scipy"], SOURCE)
