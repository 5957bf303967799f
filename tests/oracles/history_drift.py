"""Writes reference values of drifts beside this file: `cargo xtask oracles`.

Readings without width: the linear model with dense matrices (Henderson's equations) and restricted likelihood (numpy), scatter
and spread summed over fine grids. Readings between leaves: sums over fine grids of level and slope (and scatter),
with the chance of each reading from scipy's normal distribution. Neither uses expectation propagation nor the
elimination of levels that the kernel has.
"""

import numpy
import scipy.optimize
import scipy.stats
from generate import write

SOURCE = "tests/oracles/history_drift.py"
RANDOM = numpy.random.default_rng(20261128)
SHARES = (0.025, 0.5, 0.975)


def texts(values):
    return [repr(float(v)) for v in values]


def stated(low, high, u):
    """Root mean square of what readings state of themselves."""
    return numpy.sqrt(numpy.mean((high - low) ** 2 / 12 + u**2))


def quantiles(weights, means, sds):
    def below(value):
        return numpy.sum(weights * scipy.stats.norm.cdf((value - means) / sds))

    ends = (means - 40 * sds).min(), (means + 40 * sds).max()
    return [scipy.optimize.brentq(lambda v: below(v) - share, *ends, xtol=1e-15) for share in SHARES]


def own_slopes(subjects):
    """Typical rate: root mean square of the slopes of the subjects' own lines, weighted by their reach."""
    xx, rate = 0.0, 0.0
    for stretches in subjects:
        sxx = sum(numpy.sum((x - x.mean()) ** 2) for x, _ in stretches)
        sxy = sum(numpy.sum((x - x.mean()) * (y - y.mean())) for x, y in stretches)
        if sxx > 0:
            xx, rate = xx + sxx, rate + sxy**2 / sxx
    return numpy.sqrt(rate / xx)


def pooled_case(subjects, u, at):
    """Subjects of stretches of (x, y); u of every reading; what is predicted at a time for each."""
    rows, y, own = [], [], []
    lines = sum(len(stretches) for stretches in subjects)
    line, last = 0, []
    for number, stretches in enumerate(subjects):
        for xs, ys in stretches:
            for x, value in zip(xs, ys):
                row = numpy.zeros(lines + 1)
                row[line], row[lines] = 1, x
                rows.append(row)
                y.append(value)
                own.append((number, x))
            line += 1
        last.append(line - 1)
    X, y = numpy.array(rows), numpy.array(y)
    X[:, lines] /= 100
    at = at / 100
    Z = numpy.zeros((len(y), len(subjects)))
    for row, (number, x) in enumerate(own):
        Z[row, number] = x / 100
    rate = own_slopes(subjects) * 100
    count = len(y) - lines
    whole = numpy.sqrt(sum(numpy.sum((b - b.mean()) ** 2) for s in subjects for _, b in s) / count)
    # Scatter from very small to very large, alike on the logarithm where it is large against u.
    unit = u if u > 0 else 1e-6 * whole
    ends = (0 if u > 0 else numpy.arcsinh(1e-3 * whole / unit), numpy.arcsinh(3e3 * whole / unit))
    t = numpy.linspace(*ends, 400)
    shares = (numpy.arange(100) + 0.5) / 100
    spreads = rate * numpy.tan(numpy.pi / 2 * shares) if len(subjects) > 1 else [0.0]
    found = []
    for place, scatter in zip(t, unit * numpy.sinh(t)):
        for spread in spreads:
            s2 = scatter**2 + u**2
            # Henderson's equations: levels, the common slope, and each subject's own less that.
            U = numpy.hstack([X, Z * spread])
            M = U.T @ U / s2
            M[lines + 1 :, lines + 1 :] += numpy.eye(len(subjects))
            C = numpy.linalg.inv(M)
            beta = C @ (U.T @ y) / s2
            r = y - U @ beta
            own_part = beta[lines + 1 :]
            ln = -0.5 * (len(y) * numpy.log(s2) + numpy.linalg.slogdet(M)[1] + r @ r / s2 + own_part @ own_part)
            if place == 0:
                ln -= numpy.log(2)
            row = [ln, scatter, beta[lines], C[lines, lines]]
            for number in range(len(subjects)):
                at_x = numpy.zeros(U.shape[1])
                at_x[last[number]], at_x[lines], at_x[lines + 1 + number] = 1, at, at * spread
                row += [at_x @ beta, at_x @ C @ at_x]
            found.append(row)
    found = numpy.array(found)
    weights = numpy.exp(found[:, 0] - found[:, 0].max())
    # What weighs nothing is left out.
    found, weights = found[weights > 1e-12], weights[weights > 1e-12]
    weights /= weights.sum()
    answer = {"rate": texts(numpy.array(quantiles(weights, found[:, 2], numpy.sqrt(found[:, 3]))) / 100)}
    lines_at, found_at = [], []
    for number in range(len(subjects)):
        mean, var = found[:, 4 + 2 * number], found[:, 5 + 2 * number]
        lines_at.append(texts(quantiles(weights, mean, numpy.sqrt(var))))
        found_at.append(texts(quantiles(weights, mean, numpy.sqrt(var + found[:, 1] ** 2))))
    return {
        "what": "pooled",
        "u": repr(float(u)),
        "at": repr(float(100 * at)),
        "subjects": [[{"x": texts(x), "y": texts(v)} for x, v in s] for s in subjects],
        "line": lines_at,
        "found": found_at,
    } | answer


def weighted(values, weights):
    order = numpy.argsort(values)
    values, weights = values[order], weights[order]
    total = numpy.cumsum(weights) - 0.5 * weights
    return [float(numpy.interp(share, total / weights.sum(), values)) for share in SHARES]


def wide_case(x, low, high, u, at, scatters):
    """One line through readings between leaves; the scatter known, or summed over."""
    x, low, high = (numpy.array(v, float) for v in (x, low, high))
    finite = numpy.isfinite(low) & numpy.isfinite(high)
    middle = 0.5 * (low + high)
    slope, level = numpy.polyfit(x[finite], middle[finite], 1)
    centre = x.mean()
    size = stated(low[finite], high[finite], u)
    reach = 12 * size / numpy.sqrt(len(x))
    sizes = scatters is None
    n = 241 if sizes else 1201
    if sizes:
        unit = size
        t = numpy.linspace(0, numpy.arcsinh(20), 80)
        scatters = [(unit * numpy.sinh(v), 0.5 if v == 0 else 1.0) for v in t]
        reach *= 2.5
    else:
        scatters = [(scatters, 1.0)]
    levels = level + slope * centre + numpy.linspace(-reach, reach, n)
    slopes = slope + numpy.linspace(-reach, reach, n) / x.std()
    L, S = numpy.meshgrid(levels, slopes)
    total = numpy.zeros_like(L)
    found = {}
    pieces = []
    for scatter, share in scatters:
        s = numpy.hypot(u, scatter)
        ln = numpy.zeros_like(L)
        for xi, a, b in zip(x, low, high):
            mean = L + S * (xi - centre)
            upper = numpy.where((mean - a) > (b - mean), 1, 0)
            # Differences on the side where they keep their digits.
            one = scipy.stats.norm.cdf((b - mean) / s) - scipy.stats.norm.cdf((a - mean) / s)
            other = scipy.stats.norm.sf((a - mean) / s) - scipy.stats.norm.sf((b - mean) / s)
            with numpy.errstate(divide="ignore"):
                ln += numpy.log(numpy.maximum(numpy.where(upper == 1, one, other), 1e-300))
        pieces.append((scatter, share * numpy.exp(ln)))
        total += pieces[-1][1]
    line = (L + S * (at - centre)).ravel()
    weights = total.ravel()
    found["rate"] = texts(weighted(S.ravel(), weights))
    found["line"] = texts(weighted(line, weights))
    mean = numpy.sum(weights * S.ravel()) / weights.sum()
    found["rate_u"] = repr(float(numpy.sqrt(numpy.sum(weights * (S.ravel() - mean) ** 2) / weights.sum())))
    return {
        "what": "wide",
        "x": texts(x),
        "low": texts(low),
        "high": texts(high),
        "u": repr(float(u)),
        "at": repr(float(at)),
        "scatter": None if sizes else repr(float(scatters[0][0])),
    } | found


def drawn(subjects, services, rate, spread, scatter, sets):
    made = []
    for number in range(subjects):
        own = rate + spread * RANDOM.standard_normal()
        stretches, level, begin = [], 0.30, 0
        for stop in [*sets, services]:
            x = numpy.arange(begin, stop + 1) * 50.0 if stop < services else numpy.arange(begin, services) * 50.0
            y = level + own * (x - 50.0 * begin) + scatter * RANDOM.standard_normal(len(x))
            stretches.append((x, numpy.round(y, 4)))
            begin = stop
        made.append(stretches)
    return made


if __name__ == "__main__":
    cases = [
        pooled_case(drawn(1, 6, -4e-4, 0, 0.002, []), 0.0, 400.0),
        pooled_case(drawn(1, 4, -4e-4, 0, 0.002, []), 0.003, 300.0),
        pooled_case(drawn(4, 5, -4e-4, 1e-4, 0.002, []), 0.002, 350.0),
        pooled_case(drawn(4, 6, -4e-4, 4e-4, 0.002, [3]), 0.0, 350.0),
        pooled_case([[(numpy.array([0.0, 50.0, 100.0]), numpy.array([0.30, 0.28, 0.27]))],
                     [(numpy.array([0.0, 50.0]), numpy.array([0.30, 0.285]))],
                     [(numpy.array([100.0]), numpy.array([0.30]))]], 0.004, 200.0),
        wide_case([0, 5, 10, 15, 20], [0.28, 0.25, 0.25, 0.23, 0.20], [0.30, 0.28, 0.28, 0.25, 0.23], 0.005, 30, 0.0),
        wide_case([0, 5, 10, 15, 20], [0.28, 0.25, 0.25, 0.23, 0.20], [0.30, 0.28, 0.28, 0.25, 0.23], 0.001, 30, 0.0),
        wide_case([0, 5, 10, 15, 20, 25], [0.25, 0.25, 0.25, 0.20, 0.20, 0.20], [0.30, 0.30, 0.30, 0.25, 0.25, 0.25],
                  0.004, 40, None),
        wide_case([0, 5, 10, 15, 20, 25], [0.25, 0.25, 0.20, 0.20, 0.15, 0.15], [0.30, 0.30, 0.25, 0.25, 0.20, 0.20],
                  0.002, 40, 0.004),
        wide_case([0, 5, 10, 15], [0.25, 0.20, 0.15, -numpy.inf], [0.30, 0.25, 0.20, 0.15], 0.003, 20, 0.0),
    ]
    write("history_drift", "drift of readings over time: rates, lines and readings to come", cases, ["numpy", "scipy"], SOURCE)
