"""Writes reference values of the contact breaker beside this file: `cargo xtask oracles`.

Nothing here uses the closed forms of the library: opening and closing are found as the roots of the lobe's
lift, the lobe's height by a search, the uncertainties by differences and by drawing.
"""

import numpy
import scipy.optimize
import scipy.stats
from generate import exact, text, write
from mpmath import mp, mpf

SOURCE = "tests/oracles/ignition_breaker.py"
DOUBT = 0.5  # the library's own: half the width of the doubt of a change away from the pair


def dwell_of(lobes, height, gap):
    """Pitch less the arc over which the lift is above height less gap, in degrees."""
    n, h, g = mpf(lobes), mpf(height), mpf(gap)
    lift = lambda t: h / 2 * (1 + mp.cos(n * t)) - (h - g)
    half = mp.findroot(lift, (mpf("1e-12"), mp.pi / n - mpf("1e-12")), solver="anderson", tol=mpf("1e-40"))
    return 360 / n - 2 * mp.degrees(half)


def height_of(lobes, gap, dwell):
    """The lift at which the pair's gap gives the pair's dwell."""
    over = lambda ratio: dwell_of(lobes, mpf(gap) * ratio, gap) - mpf(dwell)
    return mpf(gap) * mp.findroot(over, (mpf("1.0001"), mpf(4000)), solver="anderson", tol=mpf("1e-36"))


def number_height(lobes, gap, dwell):
    over = lambda ratio: 360 / lobes - 2 * numpy.degrees(numpy.arccos(1 - 2 / ratio) / lobes) - dwell
    return gap * scipy.optimize.brentq(over, 1 + 1e-9, 1e9, xtol=1e-15, rtol=1e-15)


def number_dwell(lobes, gap, dwell, at):
    height = number_height(lobes, gap, dwell)
    return 360 / lobes - 2 * numpy.degrees(numpy.arccos(1 - 2 * at / height) / lobes)


def lobe():
    cases = []
    for lobes, gap, dwell, at in [
        (4, "0.381", "60", "0.4064"),
        (4, "0.381", "60", "0.3556"),
        (6, "0.25", "38", "0.28"),
        (8, "0.4064", "30", "0.381"),
        (8, "0.381", "27", "0.4318"),
        (4, "0.4", "52", "0.55"),
        (1, "0.35", "210", "0.40"),
        (2, "0.35", "105", "0.30"),
        (12, "0.3", "18", "0.31"),
        (3, "0.45", "80", "0.40"),
    ]:
        h = height_of(lobes, exact(gap), exact(dwell))
        there = dwell_of(lobes, h, exact(at))
        slope = mp.diff(lambda g: dwell_of(lobes, h, g), exact(at), h=mpf("1e-12"))
        cases.append(
            {
                "id": f"lobe-{len(cases) + 1:03}",
                "lobes": lobes,
                "gap_mm": gap,
                "dwell_deg": dwell,
                "at_mm": at,
                "lift_mm": text(h),
                "dwell_there": text(there),
                "slope_deg_per_mm": text(slope, 15),
            }
        )
    return cases


def uncertainty():
    """Each input moved a little and all of them drawn; the doubt of the lobe's shape beside them."""
    cases = []
    for lobes, gap, gap_u, dwell, dwell_u, at, at_u in [
        (4, 0.40, 0.0144, 52.0, 1.0, 0.40, 0.02),
        (4, 0.40, 0.0144, 52.0, 1.0, 0.47, 0.01),
        (6, 0.35, 0.01, 38.0, 0.8, 0.30, 0.015),
        (8, 0.4064, 0.005, 30.0, 0.5, 0.45, 0.008),
    ]:
        f = lambda g, d, a: number_dwell(lobes, g, d, a)
        x, u = [gap, dwell, at], [gap_u, dwell_u, at_u]
        slopes = []
        for i in range(3):
            step = 1e-5 * x[i]
            up, down = list(x), list(x)
            up[i] += step
            down[i] -= step
            slopes.append((f(*up) - f(*down)) / (2 * step))
        shape = abs(f(*x) - dwell) * DOUBT / numpy.sqrt(3)
        combined = numpy.sqrt(sum((s * v) ** 2 for s, v in zip(slopes, u)) + shape**2)
        random = numpy.random.default_rng(20260101)
        draws = numpy.array(
            [f(*(random.normal(x, u))) for _ in range(4000)]
        ) + (f(*x) - dwell) * random.uniform(-DOUBT, DOUBT, 4000)
        cases.append(
            {
                "id": f"uncertainty-{len(cases) + 1:03}",
                "lobes": lobes,
                "gap": [repr(gap), repr(gap_u)],
                "dwell": [repr(dwell), repr(dwell_u)],
                "at": [repr(at), repr(at_u)],
                "dwell_there": text(f(*x), 15),
                "u": text(combined, 10),
                "drawn": text(draws.std(), 4),
            }
        )
    return cases


def aim():
    """The lowest setting that is below the band with 5 %, and what becomes of it."""
    cases = []
    for low, high, u, wear in [
        ("57", "63", "0.5", ("1", "2")),
        ("49", "55", "1.0", ("1", "2")),
        ("36", "40", "0.5", ("0", "1")),
        ("26", "28", "0.5", ("1", "2")),
    ]:
        lo, hi, sd, w = float(low), float(high), float(u), [float(v) for v in wear]
        at = scipy.optimize.brentq(lambda m: scipy.stats.norm.cdf(lo, m, sd) - 0.05, lo, lo + 10 * sd, xtol=1e-14)
        at = min(at, (lo + hi) / 2)
        inside = lambda m: scipy.stats.norm.cdf(hi, m, sd) - scipy.stats.norm.cdf(lo, m, sd)
        worn = lambda m: (
            scipy.integrate.quad(lambda x: inside(m + x), w[0], w[1], epsabs=1e-13)[0] / (w[1] - w[0])
        )
        kept = min(inside(at), worn(at)) >= 0.9
        if not kept:
            at = (lo + hi) / 2 - sum(w) / 4
        cases.append(
            {
                "id": f"aim-{len(cases) + 1:03}",
                "low": low,
                "high": high,
                "u": u,
                "wear": list(wear),
                "set_to": text(at, 15),
                "now": text(inside(at), 12),
                "worn_in": text(worn(at), 12),
                "kept": str(bool(kept)).lower(),
            }
        )
    return cases


if __name__ == "__main__":
    import scipy.integrate

    packages = ["numpy", "scipy", "mpmath"]
    about = "The contact breaker: "
    write("ignition_lobe", about + "gap and dwell by roots of the lobe's lift.", lobe(), packages, SOURCE)
    write("ignition_lobe_u", about + "uncertainty by differences and drawn.", uncertainty(), packages, SOURCE)
    write("ignition_aim", about + "where to set, by scipy's normal distribution.", aim(), packages, SOURCE)
