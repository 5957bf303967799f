"""Writes reference values of the idle curve beside this file: `cargo xtask oracles`.

The parabola comes from numpy's least squares on plain powers, uncertainties from differences over the
readings, Fieller's interval from the roots of the test whether the derivative at a place is nought, and the
cubic from a fit with one power more.
"""

import numpy
import scipy.optimize
import scipy.stats
from generate import write

SOURCE = "tests/oracles/mixture_idle.py"
RANDOM = numpy.random.default_rng(20261127)


def texts(values):
    return [repr(float(v)) for v in values]


def powers(x, degree):
    return numpy.vander(x, degree + 1, increasing=True)


def fit(x, y, degree=2):
    return numpy.linalg.lstsq(powers(x, degree), y, rcond=None)[0]


def figures(x, y, drop, way, place):
    a, b, c = fit(x, y)
    top = -b / (2 * c)
    peak = a + b * top + c * top**2
    return numpy.array([
        top, peak, top + way * numpy.sqrt(-drop / c),
        peak - (a + b * place + c * place**2), a + b * place + c * place**2,
    ])


def doubts(x, y, sigma, *rest):
    square = 0
    for at in range(len(y)):
        step = numpy.zeros(len(y))
        step[at] = 1e-3
        change = (figures(x, y + step, *rest) - figures(x, y - step, *rest)) / 2e-3
        square = square + (change * sigma) ** 2
    return numpy.sqrt(square)


def fieller(x, y, sigma, factor):
    """Where the derivative does not differ from nought; none where that has no end."""
    _, b, c = fit(x, y)
    cover = numpy.linalg.inv(powers(x, 2).T @ powers(x, 2)) * sigma**2

    def over(at):
        by = numpy.array([0, 1, 2 * at])
        return (b + 2 * c * at) ** 2 - factor**2 * by @ cover @ by

    if c**2 <= factor**2 * cover[2, 2]:
        return None
    top = -b / (2 * c)
    far = 1.0
    while over(top - far) < 0 or over(top + far) < 0:
        far *= 2
    return scipy.optimize.brentq(over, top - far, top, xtol=1e-13), scipy.optimize.brentq(
        over, top, top + far, xtol=1e-13
    )


def case(x, shape, noise, stated, screw, drop, side, place):
    x = numpy.array(x, float)
    y = numpy.round(shape(x) + noise * RANDOM.standard_normal(len(x)), 1)
    left = numpy.sum((y - powers(x, 2) @ fit(x, y)) ** 2)
    freedom = len(x) - 3
    seen = numpy.sqrt(left / freedom)
    sigma = max(stated, seen) if stated else seen
    factor = scipy.stats.norm.ppf(0.975) if stated else scipy.stats.t.ppf(0.975, freedom)
    out = (side == "lean") == (screw == "air")
    rest = (drop, 1 if out else -1, place)
    between = fieller(x, y, sigma, factor) if fit(x, y)[2] < 0 else None
    is_seen = between is not None and bool(between[0] >= x.min() and between[1] <= x.max())
    cubic = ""
    if len(set(x)) > 3 and (stated or freedom > 1):
        third = fit(x, y, 3)[3]
        cover = numpy.linalg.inv(powers(x, 3).T @ powers(x, 3))[3, 3]
        rest_left = numpy.sum((y - powers(x, 3) @ fit(x, y, 3)) ** 2)
        seen_then = numpy.sqrt(rest_left / (freedom - 1)) if freedom > 1 else 0.0
        scatter = max(stated, seen_then)
        cubic = repr(float(third / (scatter * numpy.sqrt(cover))))
    return {
        "places": texts(x), "speeds": texts(y), "stated": repr(float(stated)), "screw": screw,
        "drop": repr(float(drop)), "side": side, "place": repr(float(place)),
        "sigma": repr(float(sigma)), "factor": repr(float(factor)),
        "seen": is_seen, "between": texts(between) if is_seen else [],
        "figures": texts(figures(x, y, *rest)) if is_seen else [],
        "figures_u": texts(doubts(x, y, sigma, *rest)) if is_seen else [],
        "cubic": cubic,
    }


def hill(top, peak, bent):
    return lambda x: peak - bent * (x - top) ** 2


CASES = [
    case([0.5, 1.0, 1.5, 2.0, 2.5], hill(1.6, 850, 90), 3, 4, "fuel", 20, "lean", 2.25),
    case([0.5, 1.0, 1.5, 2.0, 2.5], hill(1.6, 850, 90), 3, 0, "fuel", 20, "rich", 1.0),
    case([1.0, 1.25, 1.5, 2.5], hill(1.7, 900, 120), 1, 0, "air", 30, "lean", 2.0),
    case([0.75, 1, 1.25, 1.5, 1.75, 2, 2.5, 3], hill(1.8, 780, 60), 5, 5, "air", 25, "rich", 3.0),
    case([1, 1, 1.5, 1.5, 2, 2, 2.5], hill(1.4, 1000, 80), 4, 0, "fuel", 15, "lean", 2.0),
    case([0.5, 0.75, 1.0, 1.25, 1.5], hill(2.5, 850, 60), 4, 4, "fuel", 20, "lean", 1.0),
    case([0.5, 1.0, 1.5, 2.0], lambda x: 700 + 0 * x, 4, 4, "fuel", 20, "lean", 1.0),
    case([0.5, 1, 1.5, 2, 2.5, 3], lambda x: 850 - 70 * (x - 1.7) ** 2 - 30 * (x - 1.7) ** 3, 2, 0,
         "fuel", 20, "lean", 2.5),
]
write("mixture_idle", "speed against the place of the mixture screw: top, interval, places beside it", CASES,
      ["numpy", "scipy"], SOURCE)
