"""Times of the same work with numpy and scipy, one line each: name, a tab, nanoseconds.

Written as a user of these packages would write it: whole arrays where the work is an array, the same
formulas, and no more than the kernel gives (probabilities; a correction with its uncertainty).
"""

import timeit

import numpy
from scipy.optimize import linear_sum_assignment
from scipy.special import ndtr

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


def tail_ratio(x):
    """The continued fraction of the kernel, for x from 2, as many terms as the least x needs."""
    terms = int(10 + 240 / numpy.min(x) ** 2)
    numerator, denominator = 2.0, x + numpy.sqrt(x * x + 4 * (terms + 2))
    for n in range(terms, 0, -1):
        numerator, denominator = denominator, x * denominator + (n + 1) * numerator
    return numerator / denominator


def safe_integral(z):
    """G(z) without cancellation in the tail."""
    found = numpy.empty_like(z)
    deep = (z <= -2) & (z > -40)
    found[z <= -40] = 0
    if deep.any():
        found[deep] = tail_ratio(-z[deep]) * ndtr(z[deep])
    rest = z > -2
    found[rest] = integral(z[rest])
    return found


def safe_sides(limit, a, b, u):
    """Chance to lie below and above, each from the small tail of the two."""
    q, p = (limit - b) / u, (limit - a) / u
    flip = p + q > 0
    q, p = numpy.where(flip, -p, q), numpy.where(flip, -q, p)
    small = u / (b - a) * (safe_integral(p) - safe_integral(q))
    return numpy.where(flip, 1 - small, small), numpy.where(flip, small, 1 - small)


def same_work(a, b, u):
    """What one column gives: probabilities with safe tails, the verdict, and whether any reading of that
    spread could be accepted; the narrow cases, which these readings are not, are left out."""
    tight, above_low = safe_sides(LOW, a, b, u)
    below_high, loose = safe_sides(HIGH, a, b, u)
    difference = numpy.where(loose >= tight, below_high - tight, above_low - loose)
    in_band = numpy.where(tight + loose <= 0.5, 1 - (tight + loose), numpy.maximum(difference, 0))
    accepted = (tight <= 0.05 + 1e-12) & (loose <= 0.5 + 1e-12)
    is_tight, is_loose = tight >= 0.5 - 1e-12, loose >= 0.5 - 1e-12
    verdict = numpy.select([accepted, is_tight & ~is_loose, is_loose & ~is_tight], [0, 1, 2], 3)
    doubtful = ~accepted
    half, middle = (b - a)[doubtful] / 2, (LOW + HIGH) / 2
    centre_tight, _ = safe_sides(LOW, middle - half, middle + half, u[doubtful])
    _, centre_loose = safe_sides(HIGH, middle - half, middle + half, u[doubtful])
    provable = accepted.copy()
    provable[doubtful] = (centre_tight <= 0.05 + 1e-12) & (centre_loose <= 0.5 + 1e-12)
    # Where even the centre fails the kernel searches on; these readings do not come to that.
    return verdict, provable, tight, in_band, loose


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


def costs(rows, columns):
    state, made = 20, []
    for _ in range(rows * columns):
        state = (state * 1103515245 + 12345) % (1 << 31)
        made.append((state >> 8) % 1000)
    return numpy.array(made, dtype=float).reshape(rows, columns)


def assignment(rows, columns):
    made = costs(rows, columns)
    return lambda: linear_sum_assignment(made)


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
        ("assignment_16x16", assignment(16, 16)),
        ("assignment_64x64", assignment(64, 64)),
        ("assignment_64x256", assignment(64, 256)),
        ("assignment_64x64_i64", assignment(64, 64)),
        ("assignment_64x256_i64", assignment(64, 256)),
    ]:
        print(f"{name}\t{nanoseconds(work):.1f}")
