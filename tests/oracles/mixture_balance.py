"""Writes reference values of the balance of throttles beside this file: `cargo xtask oracles`.

Changes come from numpy's least squares over all screws at once, turns from differences of the whole
computation, the chance of a spread from scipy's quadrature and from drawn numbers, the next reading from
trying each, and shares of cylinders from differences of the nozzle formula.
"""

import numpy
import scipy.integrate
import scipy.stats
from generate import write

SOURCE = "tests/oracles/mixture_balance.py"
RANDOM = numpy.random.default_rng(20261126)


def texts(values):
    return [repr(float(v)) for v in values]


def oriented(count, reference, joints):
    """(joint, near, far) from the reference outwards, breadth first."""
    found, waiting, seen = [], [reference], set()
    while waiting:
        near = waiting.pop(0)
        for place, (a, b, kind) in enumerate(joints):
            if place in seen or near not in (a, b):
                continue
            far = b if a == near else a
            seen.add(place)
            found.append((place, near, far, kind))
            waiting.append(far)
    assert len(found) == count - 1
    return found


def beyond(branches, joint):
    far = next(f for p, _, f, _ in branches if p == joint)
    found = {far}
    for _, near, f, _ in branches:
        if near in found and f != far:
            found.add(f)
    return found


def changes(count, reference, joints, means, variances):
    """One weighted least squares over the common level and the change of every screw."""
    branches = oriented(count, reference, joints)
    screws = [p for p, _, _, kind in branches if kind == "screw"]
    design = numpy.ones((count, 1 + len(screws)))
    for column, joint in enumerate(screws):
        moved = beyond(branches, joint)
        # What the throttles would read at one level, less what the screws have still to add.
        design[:, 1 + column] = [-1.0 if t in moved else 0.0 for t in range(count)]
    root = numpy.diag(1 / numpy.sqrt(variances))
    solved, *_ = numpy.linalg.lstsq(root @ design, root @ means, rcond=None)
    cover = numpy.linalg.inv(design.T @ numpy.diag(1 / numpy.asarray(variances)) @ design)
    return screws, solved[1:], numpy.sqrt(numpy.diag(cover))[1:]


def line(trials, joint, single):
    own = [(turn, after - before) for j, turn, before, after in trials if j == joint]
    if not own:
        return None
    turn, change = numpy.array(own).T
    slope = numpy.linalg.lstsq(turn[:, None], change, rcond=None)[0][0]
    u = numpy.sqrt(2) * single
    if len(own) > 1:
        u = max(u, numpy.sqrt(numpy.sum((change - slope * turn) ** 2) / (len(own) - 1)))
    return slope, u / numpy.linalg.norm(turn)


def scatter(readings, stated):
    left = sum(numpy.sum((numpy.array(r) - numpy.mean(r)) ** 2) for r in readings)
    freedom = sum(len(r) - 1 for r in readings)
    pooled = numpy.sqrt(left / freedom) if freedom else 0.0
    return (max(stated, pooled), None) if stated else (pooled, freedom)


def within(means, sds, allowed):
    """The least one anywhere, the others above it by no more than allowed."""
    total = 0.0
    for least in range(len(means)):
        def at(x, least=least):
            p = scipy.stats.norm.pdf(x, means[least], sds[least])
            for other in range(len(means)):
                if other != least:
                    one = scipy.stats.norm(means[other], sds[other])
                    p *= one.cdf(x + allowed) - one.cdf(x)
            return p
        reach = 10 * sds[least]
        points = numpy.linspace(means[least] - reach, means[least] + reach, 41)
        total += sum(
            scipy.integrate.quad(at, a, b, epsabs=1e-13, epsrel=1e-11)[0]
            for a, b in zip(points, points[1:])
        )
    drawn = RANDOM.normal(means, sds, (400_000, len(means)))
    share = numpy.mean(numpy.ptp(drawn, axis=1) <= allowed)
    assert abs(share - total) < 5 * numpy.sqrt(total * (1 - total) / 400_000) + 1e-5
    return total


def turn_doubt(change, u, slope, u_slope):
    """By central differences of change over slope."""
    a, b = 1e-5 * max(abs(change), u), 1e-5 * abs(slope)
    by_change = ((change + a) / slope - (change - a) / slope) / (2 * a)
    by_slope = (change / (slope + b) - change / (slope - b)) / (2 * b)
    return numpy.hypot(by_change * u, by_slope * u_slope)


def case(count, reference, joints, readings, stated, between, trials, allowed):
    single, freedom = scatter(readings, stated)
    means = [numpy.mean(r) for r in readings]
    times = [len(r) for r in readings]

    def variances(times):
        return [single**2 / n + between**2 for n in times]

    few = 1.0
    if freedom:
        few = scipy.stats.t.ppf(0.975, freedom) / scipy.stats.norm.ppf(0.975)
    screws, change, u = changes(count, reference, joints, means, variances(times))
    slopes = [line(trials, joint, single) for joint in screws]
    # No amount from a slope that is not three times its uncertainty.
    slopes = [s if s and abs(s[0]) >= 3 * s[1] else None for s in slopes]
    turns = [c / s[0] if s else None for c, s in zip(change, slopes)]
    turn_u = [turn_doubt(c, v, *s) if s else None for c, v, s in zip(change, u, slopes)]
    following = ["trial", screws[[s is None for s in slopes].index(True)]] if None in slopes else None
    if following is None:
        best, now = None, sum(numpy.square(turn_u))
        for throttle in range(count):
            more = [n + (t == throttle) for t, n in enumerate(times)]
            _, c, v = changes(count, reference, joints, means, variances(more))
            then = sum(turn_doubt(a, b, *s) ** 2 for a, b, s in zip(c, v, slopes))
            if best is None or then < best[0] * (1 - 1e-6):
                best = (then, ["again", throttle])
        for place, joint in enumerate(screws):
            n = sum(1 for t in trials if t[0] == joint)
            shorter = [
                (s[0], s[1] * numpy.sqrt(n / (n + 1))) if at == place else s for at, s in enumerate(slopes)
            ]
            then = sum(turn_doubt(a, b, *s) ** 2 for a, b, s in zip(change, u, shorter))
            if then < best[0] * (1 - 1e-6):
                best = (then, ["trial_again", joint])
        following = best[1] + [repr(float(numpy.sqrt(now))), repr(float(numpy.sqrt(best[0])))]
    return {
        "count": count,
        "reference": reference,
        "joints": joints,
        "readings": [texts(r) for r in readings],
        "stated": repr(float(stated)),
        "between": repr(float(between)),
        "trials": [[j, repr(float(t)), repr(float(a)), repr(float(b))] for j, t, a, b in trials],
        "allowed": repr(float(allowed)),
        "single": repr(float(single)),
        "screws": screws,
        "changes": texts(change),
        "changes_u": texts(u),
        "turns": [repr(float(t)) if t is not None else "" for t in turns],
        "turns_u": [repr(float(t)) if t is not None else "" for t in turn_u],
        "within": repr(float(within(means, [few * numpy.sqrt(v) for v in variances(times)], allowed))),
        "next": following,
    }


def read(levels, scatter, times):
    return [list(numpy.round(RANDOM.normal(level, scatter, n), 2)) for level, n in zip(levels, times)]


PAIRS = [(0, 1, "screw"), (2, 3, "screw"), (1, 2, "screw")]
STAR = [(1, 0, "screw"), (1, 2, "screw")]
SIX = [(0, 1, "rigid"), (2, 3, "rigid"), (4, 5, "rigid"), (1, 2, "screw"), (4, 3, "screw")]
CHAIN = [(k, k + 1, "screw") for k in range(11)]
CASES = [
    case(4, 1, PAIRS, read([27.1, 26.0, 28.4, 25.2], 0.3, [3, 3, 3, 3]), 0, 0,
         [(0, 90, 27.0, 24.9), (1, -90, 25.0, 27.6), (2, 180, 28.5, 24.8)], 2.7),
    case(4, 1, PAIRS, read([27.1, 26.0, 28.4, 25.2], 0.3, [1, 2, 4, 3]), 0.4, 0.15,
         [(0, 90, 27.0, 24.9), (0, 45, 24.9, 23.8), (0, -90, 23.9, 26.2), (2, 90, 28.5, 26.8)], 3.0),
    case(3, 1, STAR, read([20.0, 21.0, 20.4], 0.2, [2, 2, 2]), 0.25, 0,
         [(0, 90, 20.0, 17.9), (1, 90, 20.4, 18.1)], 1.0),
    case(6, 2, SIX, read([24.0, 24.3, 26.0, 26.2, 25.1, 24.7], 0.2, [2, 3, 1, 2, 2, 5]), 0.3, 0,
         [(3, 60, 24.0, 22.4), (3, 60, 22.5, 20.7), (4, 60, 25.0, 23.1)], 2.0),
    case(12, 4, CHAIN, read(25 + numpy.linspace(-1, 1, 12), 0.4, [3] * 12), 0, 0, [], 3.5),
    case(2, 0, [(0, 1, "screw")], read([30.0, 30.5], 0.2, [2, 2]), 0, 0, [(0, 90, 30.5, 28.1)], 1.0),
]
write("mixture_balance", "balance of throttles: changes, turns, spread, next reading", CASES,
      ["numpy", "scipy"], SOURCE)

# Spread alone: unequal means and standard deviations -----------------------------------------------

SPREADS = [
    ([20.0, 20.0], [1.0, 1.0], 1.0), ([20.0, 22.0, 21.0], [0.3, 0.6, 0.1], 2.0),
    ([25.0, 25.5, 24.0, 26.0], [0.5, 0.02, 0.5, 0.5], 2.0), ([10.0] * 6, [0.5] * 6, 1.0),
    ([10.0, 14.0], [0.5, 0.5], 1.0),
]
write(
    "mixture_balance_spread",
    "the chance that the greatest and the least of independent normals are within a limit",
    [{"means": texts(m), "sds": texts(s), "allowed": repr(float(a)), "within": repr(float(within(m, s, a)))}
     for m, s, a in SPREADS],
    ["numpy", "scipy"], SOURCE,
)

# Cylinders ------------------------------------------------------------------------------------------

K = 1.4


def psi(r):
    crit = (2 / (K + 1)) ** (K / (K - 1))
    top = numpy.sqrt(2 * K / (K - 1) * (crit ** (2 / K) - crit ** ((K + 1) / K)))
    r = max(r, crit)
    return numpy.sqrt(2 * K / (K - 1) * (r ** (2 / K) - r ** ((K + 1) / K))) / top


def shares(air, vacuum, flow, alike):
    rest = [(air - v) / air for v in vacuum]
    if flow is None:
        breathing = [numpy.log(a * psi(r) / r) for a, r in zip(alike, rest)]
        opening = None
    else:
        breathing = [numpy.log(f / r) for f, r in zip(flow, rest)]
        opening = [numpy.log(f / psi(r)) for f, r in zip(flow, rest)]

    def against(logs):
        others = [logs[:at] + logs[at + 1 :] for at in range(len(logs))]
        return numpy.array([numpy.exp(x - numpy.median(o)) - 1 for x, o in zip(logs, others)])

    return against(breathing), against(opening) if opening else numpy.zeros(len(vacuum))


def cylinder(air, vacuum, u_vacuum, flow, u_flow, share):
    n = len(vacuum)
    found = shares(air, vacuum, flow, [1.0] * n)
    square = [0.0, 0.0]
    inputs = [("vacuum", u) for u in u_vacuum]
    inputs += [("flow", u) for u in u_flow] if flow else [("alike", share)] * n
    for place, (what, u) in enumerate(inputs):
        at = place % n
        ends = []
        for sign in (1, -1):
            moved = {"vacuum": list(vacuum), "flow": list(flow) if flow else None, "alike": [1.0] * n}
            moved[what][at] += sign * 1e-5
            ends.append(shares(air, moved["vacuum"], moved["flow"], moved["alike"]))
        for k in range(2):
            square[k] = square[k] + ((ends[0][k] - ends[1][k]) / 2e-5 * u) ** 2
    return {
        "air": repr(float(air)), "vacuum": texts(vacuum), "vacuum_u": texts(u_vacuum),
        "flow": texts(flow or []), "flow_u": texts(u_flow or []), "share": repr(float(share)),
        "breathing": texts(found[0]), "breathing_u": texts(numpy.sqrt(square[0])),
        "opening": texts(found[1]), "opening_u": texts(numpy.sqrt(square[1])),
    }


write(
    "mixture_balance_cylinder",
    "openings and breathing against the median of the others, by the flow through a nozzle",
    [
        cylinder(101.325, [62.0, 61.0, 54.0, 62.5], [0.3, 0.3, 0.4, 0.2], None, None, 0.02),
        cylinder(101.325, [40.0, 38.0, 44.0], [0.5, 0.5, 0.5], None, None, 0.01),
        cylinder(84.3, [45.0, 44.0, 40.0, 46.0], [0.3] * 4, [5.0, 5.2, 5.1, 4.6], [0.1] * 4, 0),
        cylinder(101.325, [35.0, 30.0], [0.3, 0.4], [9.0, 9.8], [0.2, 0.1], 0),
    ],
    ["numpy"], SOURCE,
)
