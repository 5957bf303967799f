"""Times of the same work with numpy and scipy, one line each: name, a tab, nanoseconds.

Written as a user of these packages would write it: whole arrays where the work is an array, the same
formulas, and no more than the kernel gives (probabilities; a correction with its uncertainty).
"""

import timeit

import numpy
import scipy.optimize
from scipy.special import erfcx, ndtr

LOW, HIGH = 0.15, 0.20


def integral(z):
    return z * ndtr(z) + numpy.exp(-z * z / 2) / numpy.sqrt(2 * numpy.pi)


def at_most(limit, a, b, u):
    return u / (b - a) * (integral((limit - a) / u) - integral((limit - b) / u))


def verdicts(a, b, u):
    tight = at_most(LOW, a, b, u)
    loose = 1 - at_most(HIGH, a, b, u)
    in_band = 1 - tight - loose
    return numpy.select([tight > 0.95, loose > 0.5, (tight < 0.05) & (loose <= 0.5)], [1, 2, 0], 3), tight, in_band, loose


def ramp(z):
    """The integral of the normal distribution function, without cancellation in the tail: the scaled error
    function keeps twelve digits as deep as these readings go."""
    x = numpy.abs(z)
    density = numpy.exp(-0.5 * x * x) / numpy.sqrt(2 * numpy.pi)
    tail = density * (1 - numpy.sqrt(numpy.pi / 2) * x * erfcx(x * numpy.sqrt(0.5)))
    return numpy.where(z > 0, z + tail, tail)


def needless(cases):
    """Looks for cases that need other formulas, as the kernel does; these readings have none."""
    if cases.any():
        raise ValueError("a narrow interval or band")


def sides(limit, a, b, u):
    """Chance to lie below and above, each from the small tail of the two."""
    width = (b - a) / u
    q, p = (limit - b) / u, (limit - a) / u
    flip = p + q > 0
    q, p = numpy.where(flip, -p, q), numpy.where(flip, -q, p)
    small = (ramp(p) - ramp(q)) / width
    needless(width * (1 + numpy.abs(p)) <= 1)
    large = 1 - small
    return numpy.where(flip, large, small), numpy.where(flip, small, large)


def probabilities(a, b, u, low=LOW, high=HIGH):
    tight, above_low = sides(low, a, b, u)
    below_high, loose = sides(high, a, b, u)
    outside = tight + loose
    depth = numpy.maximum(numpy.maximum(a - high, low - b) / u, 0)
    needless((outside > 0.5) & ((high - low) / u * (1 + depth) <= 1))
    difference = numpy.where(loose >= tight, below_high - tight, above_low - loose)
    return tight, numpy.where(outside <= 0.5, 1 - outside, numpy.maximum(difference, 0)), loose


def same_work(a, b, u):
    """What one column gives: the range of every number looked at, probabilities with safe tails, the
    verdict, and whether any reading of that spread could be accepted, asked once for each spread."""
    status = ~((a <= b) & (numpy.abs(a) <= 20) & (numpy.abs(b) <= 20) & (u >= 0) & (u <= 40))
    tight, in_band, loose = probabilities(a, b, u)
    accepted = (tight <= 0.05 + 1e-12) & (loose <= 0.5 + 1e-12)
    is_tight, is_loose = tight >= 0.5 - 1e-12, loose >= 0.5 - 1e-12
    codes = numpy.select([accepted, is_tight & ~is_loose, is_loose & ~is_tight], [1, 2, 3], 4)
    spreads, of_row = numpy.unique((b - a) / 2 + 1j * u, return_inverse=True)
    middle = (LOW + HIGH) / 2
    centre_tight, _, centre_loose = probabilities(middle - spreads.real, middle + spreads.real, spreads.imag)
    # Where even the centre fails the kernel searches on; these readings do not come to that.
    fits = (centre_tight <= 0.05 + 1e-12) & (centre_loose <= 0.5 + 1e-12)
    return codes.astype(numpy.uint8), accepted | fits[of_row], tight, in_band, loose, status.astype(numpy.uint32)


STARTS = 0.05 + 0.25 * numpy.arange(1000) / 1000
UNCERTAINTIES = numpy.full(1000, 0.005)
LENGTHS = numpy.array([200.0, 200.0])
SIGNS = numpy.array([1.0, -1.0])
COEFFICIENTS = numpy.array([21.5e-6, 11.7e-6])
RISE = 60.0


def correction():
    each = SIGNS * COEFFICIENTS * LENGTHS * RISE
    by_length = SIGNS * COEFFICIENTS * RISE * 0.5
    by_coefficient = LENGTHS * RISE * 0.5e-6
    by_temperature = (SIGNS * COEFFICIENTS * LENGTHS).sum() * 3.0
    return each.sum(), numpy.sqrt((by_length**2).sum() + (by_coefficient**2).sum() + by_temperature**2)


CURVE_RPM = numpy.array([600.0, 1600.0, 2600.0])
LEAST, MOST = numpy.array([0.0, 12.0, 20.0]), numpy.array([2.0, 14.0, 22.0])
STEEP = numpy.concatenate([[0], numpy.diff((LEAST + MOST) / 2) / numpy.diff(CURVE_RPM), [0]])
LATEST, EARLIEST, SPEED_U = 8.0, 12.0, 50.0
ROWS = numpy.arange(10_000)
RPM = 700 + 3000 * (ROWS * 37 % 10_000 / 10_000)
READ = 6 + 8 * (ROWS * 61 % 10_000 / 10_000) + numpy.interp(RPM, CURVE_RPM, (LEAST + MOST) / 2)
READ_U = numpy.full(10_000, 0.5)


def slope(rpm):
    """How steep the curve is; on a point the steeper of its two sides."""
    return numpy.maximum(*(STEEP[numpy.searchsorted(CURVE_RPM, rpm, side=side)] for side in ("left", "right")))


def timings(read, rpm, u):
    """What one column of strobe readings gives: each brought to the standing engine by the curve, with what its
    width and the speed leave uncertain, then judged as the other columns are, the early side guarded."""
    status = ~((numpy.abs(read) <= 60) & (rpm >= 0) & (rpm <= 30_000) & (u >= 0) & (u <= 90))
    least, most = numpy.interp(rpm, CURVE_RPM, LEAST), numpy.interp(rpm, CURVE_RPM, MOST)
    middle, half = read - (least + most) / 2, (most - least) / 2
    u = numpy.hypot(u, slope(rpm) * SPEED_U)
    a, b = middle - half, middle + half
    late, in_band, early = probabilities(a, b, u, LATEST, EARLIEST)
    accepted = (late <= 0.5 + 1e-12) & (early <= 0.05 + 1e-12)
    is_late, is_early = late >= 0.5 - 1e-12, early >= 0.5 - 1e-12
    codes = numpy.select([accepted, is_late & ~is_early, is_early & ~is_late], [1, 2, 3], 4)
    spreads, of_row = numpy.unique(numpy.round(half + 1j * u, 9), return_inverse=True)
    centre = (LATEST + EARLIEST) / 2
    ends = centre - spreads.real, centre + spreads.real
    centre_late, _, centre_early = probabilities(*ends, spreads.imag, LATEST, EARLIEST)
    fits = (centre_late <= 0.5 + 1e-12) & (centre_early <= 0.05 + 1e-12)
    return codes.astype(numpy.uint8), accepted | fits[of_row], late, in_band, early, a, b, u, status.astype(numpy.uint32)


FIT_RPM = numpy.array([650.0, 900, 1200, 1500, 2000, 2700, 3000])
FIT_OVER = numpy.array([9.1, 13.9, 18.2, 22.0, 27.3, 30.8, 31.2]) - 10
FIT_ENDS = FIT_RPM >= CURVE_RPM[-1]


def curve_fit():
    """Static point, scale of the curve and its end, with their covariance, from where the book has them."""
    table = numpy.interp(FIT_RPM, CURVE_RPM, (LEAST + MOST) / 2)
    u = numpy.hypot(0.5, slope(FIT_RPM) * SPEED_U)

    def off(p):
        return (FIT_OVER - p[0] - numpy.where(FIT_ENDS, p[2], numpy.minimum(p[1] * table, p[2]))) / u

    found = scipy.optimize.least_squares(off, [0.0, 1.0, 21.0])
    covariance = numpy.linalg.inv(found.jac.T @ found.jac)
    return found.x, covariance * max(2 * found.cost / (len(FIT_RPM) - 3), 1)


def nanoseconds(work):
    timer = timeit.Timer(work)
    count, _ = timer.autorange()
    return min(timer.repeat(repeat=5, number=count)) / count * 1e9


if __name__ == "__main__":
    for name, work in [
        ("one_verdict", lambda: verdicts(0.1333, 0.1833, 0.005)),
        ("thousand_verdicts", lambda: verdicts(STARTS, STARTS + 0.05, 0.005)),
        ("thousand_rows_same_work", lambda: same_work(STARTS, STARTS + 0.05, UNCERTAINTIES)),
        ("one_correction", correction),
        ("one_timing_verdict", lambda: timings(numpy.array([21.0]), numpy.array([1300.0]), numpy.array([0.5]))),
        ("one_curve_fit", curve_fit),
        ("ten_thousand_timings", lambda: timings(READ, RPM, READ_U)),
    ]:
        print(f"{name}\t{nanoseconds(work):.1f}")
