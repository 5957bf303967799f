"""Writes reference values of firing evenness beside this file: `cargo xtask oracles`.

Even spacing goes through numpy's FFT, uneven spacing and dwell through numpy's least squares; uncertainties
are differences of those, not closed forms; probabilities come from scipy's normal densities of the readings,
and by quadrature where a size has one sign.
"""

import numpy
import scipy.integrate
import scipy.stats
from generate import write

SOURCE = "tests/oracles/ignition_evenness.py"
RANDOM = numpy.random.default_rng(20260611)
PERCENT = {
    "even": 80, "run_out": 6, "lobe_worn": 4, "misread": 5,
    "every_other": 2, "run_out_and_every_other": 1, "every_lobe": 2,
}


def texts(values):
    return [repr(float(v)) for v in values]


def wave(places):
    angles = numpy.radians(places)
    return numpy.array([numpy.cos(angles), numpy.sin(angles)]).T


def shown(kind, n):
    """What late sparks do to the readings."""
    own = numpy.eye(n)
    return own if kind == "flash" else own + numpy.roll(own, -1, axis=1)


def fit(kind, places, late):
    """Mean, cosine, sine, error of each lobe about the mean, residual of each."""
    n = len(late)
    columns = numpy.column_stack([numpy.ones(n), shown(kind, n) @ wave(places)])
    if n >= 4:
        _, a, b = numpy.linalg.lstsq(columns, late, rcond=None)[0]
    else:
        a = b = 0.0
    if kind == "flash" and n >= 4 and numpy.allclose(places, numpy.arange(n) * 360 / n):
        spectrum = numpy.fft.fft(late) / n
        assert abs(2 * spectrum[1].real - a) < 1e-12 and abs(-2 * spectrum[1].imag - b) < 1e-12
        a, b = 2 * spectrum[1].real, -2 * spectrum[1].imag
    about = late - late.mean()
    errors = numpy.linalg.pinv(shown(kind, n)) @ about
    harmonic = wave(places) @ [a, b]
    residuals = errors - (harmonic - harmonic.mean())
    return late.mean(), a, b, errors, residuals


def figures(kind, places, late):
    mean, a, b, errors, residuals = fit(kind, places, late)
    amplitude, phase = numpy.hypot(a, b), numpy.degrees(numpy.arctan2(b, a)) % 360
    return numpy.concatenate([[mean, amplitude, phase], errors, residuals])


def doubts(kind, places, late, u):
    """By central differences, one reading at a time."""
    step = 1e-4
    square = 0
    for reading in range(len(late)):
        move = numpy.zeros(len(late))
        move[reading] = step
        change = figures(kind, places, late + move) - figures(kind, places, late - move)
        change[2] = (change[2] + 180) % 360 - 180
        square = square + (change / (2 * step) * u) ** 2
    return numpy.sqrt(square)


def probabilities(kind, places, late, u, tolerance):
    n = len(late)
    late = late - late.mean()
    show = shown(kind, n)
    sound = u**2 * numpy.eye(n) + 180.0**2 * numpy.ones((n, n)) + (0.25 * tolerance) ** 2 * show @ show.T
    turns = numpy.where(numpy.arange(n) % 2 == 0, 1.0, -1.0)[:, None]
    waves = show @ wave(places)

    def ln(columns, size):
        cover = sound + (size * tolerance) ** 2 * columns @ columns.T
        return scipy.stats.multivariate_normal(cov=cover, allow_singular=False).logpdf(late)

    # What the integrand is measured in, so that it is of the order of one.
    unit = scipy.stats.multivariate_normal(cov=sound)

    def worn(lobe):
        column = show[:, lobe]
        inverse = numpy.linalg.inv(sound)
        doubt = 1 / (column @ inverse @ column + tolerance**-2)
        middle = doubt * (column @ inverse @ late)
        reach = [max(0.0, middle - 12 * doubt**0.5), max(0.0, middle) + 12 * doubt**0.5]
        top = max(0.0, middle)
        at = lambda w: unit.logpdf(late - w * column) + scipy.stats.halfnorm(scale=tolerance).logpdf(w)
        peak = at(top)
        area, _ = scipy.integrate.quad(
            lambda w: numpy.exp(at(w) - peak), *reach, epsabs=0, epsrel=1e-12, limit=400, points=[top]
        )
        return peak + numpy.log(area)

    none = numpy.zeros((n, 1))
    weighed = [("even", -1, 1.0, ln(none, 1)), ("run_out", -1, 1.0, ln(waves, 1))]
    for lobe in range(n):
        weighed.append(("lobe_worn", lobe, 1 / n, worn(lobe)))
        weighed.append(("misread", lobe, 1 / n, ln(numpy.eye(n)[:, [lobe]], 2)))
    if n % 2 == 0 and kind == "flash":
        weighed.append(("every_other", -1, 1.0, ln(turns, 1)))
        weighed.append(("run_out_and_every_other", -1, 1.0, ln(numpy.hstack([waves, turns]), 1)))
    weighed.append(("every_lobe", -1, 1.0, ln(show, 1)))
    logs = numpy.array([PERCENT[c] * share for c, _, share, _ in weighed])
    logs = numpy.log(logs) + numpy.array([w[3] for w in weighed])
    shares = numpy.exp(logs - logs.max())
    shares /= shares.sum()
    return [[c, lobe, repr(float(p))] for (c, lobe, _, _), p in zip(weighed, shares)]


def case(kind, intervals, pattern, noise, u, tolerance):
    """All in crank degrees of a four-stroke."""
    places = numpy.concatenate([[0], numpy.cumsum(intervals)[:-1]]) / 2
    n = len(intervals)
    late = shown(kind, n) @ numpy.asarray(pattern, float) + noise * RANDOM.standard_normal(n)
    late = numpy.round(late, 3)
    found = figures(kind, places, late)
    by = doubts(kind, places, late, u)
    rank = max(0, n - 1 - (2 if n >= 4 else 0) - (1 if kind == "dwell" and n % 2 == 0 else 0))
    return {
        "kind": kind,
        "intervals": texts(intervals),
        "late": texts(late),
        "u": repr(float(u)),
        "tolerance": repr(float(tolerance)),
        "mean": repr(float(found[0])),
        "mean_u": repr(float(by[0])),
        "amplitude": repr(float(found[1])),
        "amplitude_u": repr(float(by[1])),
        "phase": repr(float(found[2])),
        "phase_u": repr(float(by[2])),
        "errors": texts(found[3 : 3 + n]),
        "errors_u": texts(by[3 : 3 + n]),
        "residuals": texts(found[3 + n :]),
        "residuals_u": texts(by[3 + n :]),
        "freedom": rank,
        "probabilities": probabilities(kind, places, late, u, tolerance),
    }


def even(n):
    return [720 / n] * n


def turned(n, size, at):
    return size * numpy.cos(2 * numpy.pi * (numpy.arange(n) - at) / n)


def spike(n, lobe, size):
    return size * numpy.eye(n)[lobe]


CASES = [
    case("flash", even(4), turned(4, 3.0, 0.4), 0.3, 0.5, 4.0),
    case("flash", even(4), spike(4, 2, 5.0), 0.2, 0.5, 4.0),
    case("flash", even(4), numpy.array([2.0, -2.0, 2.0, -2.0]), 0.3, 0.5, 4.0),
    case("flash", even(6), turned(6, 2.5, 3.3), 0.4, 0.6, 4.0),
    case("flash", even(8), spike(8, 3, 6.0), 0.4, 0.5, 4.0),
    case("flash", even(8), spike(8, 5, -6.0), 0.4, 0.5, 4.0),
    case("flash", even(5), turned(5, 4.0, 1.1), 0.3, 0.8, 4.0),
    case("flash", even(12), turned(12, 3.0, 7.0) + 1.5 * (-1.0) ** numpy.arange(12), 0.5, 0.7, 4.0),
    case("flash", even(3), spike(3, 1, 4.0), 0.2, 0.5, 4.0),
    case("flash", [90, 150, 90, 150, 90, 150], [1.0, -1.0, 2.0, 0.5, -1.5, -1.0], 0.3, 0.5, 4.0),
    case("flash", [270, 450], [2.0, -2.0], 0.2, 0.5, 4.0),
    case("flash", [180, 180, 90, 270], [3.0, 0.0, -1.0, 0.0], 0.2, 0.4, 4.0),
    case("dwell", even(4), turned(4, 2.0, 0.5), 0.3, 0.6, 4.0),
    case("dwell", even(6), turned(6, 2.0, 4.2), 0.3, 0.6, 4.0),
    case("dwell", even(5), spike(5, 2, 4.0), 0.3, 0.6, 4.0),
    case("dwell", even(8), spike(8, 2, 5.0), 0.3, 0.6, 4.0),
    case("dwell", [90, 150, 90, 150, 90, 150], spike(6, 4, 4.0), 0.3, 0.6, 4.0),
]

write(
    "ignition_evenness",
    "firing errors by lobe in crank degrees: fit, uncertainties, probabilities of explanations",
    CASES,
    ["numpy", "scipy"],
    SOURCE,
)
