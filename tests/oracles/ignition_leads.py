"""Writes reference odds of faults of leads and distributor beside this file: `cargo xtask oracles`.

Each state is drawn as what it does, not as the kernel keeps it: a list of (plug, crank angle) of the sparks in
the order of the towers. Normal chances come from scipy, wrapped round the circle; the odds are a plain product
with numpy, without logarithms. The shares and spreads are those the kernel's documentation states.
"""

import numpy
import scipy.stats
from generate import write

SOURCE = "tests/oracles/ignition_leads.py"
RANDOM = numpy.random.default_rng(20261126)
PERCENT = {
    "as_it_should": 55, "teeth_out": 10, "half_turn_out": 10, "two_exchanged": 10, "all_shifted": 5,
    "against_rotor": 3, "moved_to_suit": 3, "something_else": 2,
}
ROTOR, SPARK_BEFORE, SPARK, NEAR = 8.0, 10.0, 12.0, 35.0


def states(places, teeth):
    """Kind, two numbers, share within its kind, rotor ahead, plug at each tower."""
    n, cap = len(places), numpy.array(places) / 2
    own = list(range(n))
    found = [("as_it_should", 0, 0, 1, 0.0, own), ("half_turn_out", 0, 0, 1, 180.0, own)]
    for out, share in ((1, 7), (2, 2), (3, 1)):
        found += [("teeth_out", s * out, 0, share, s * out * 360 / teeth, own) for s in (1, -1)]
    for a in own:
        for b in own[a + 1:]:
            plugs = own.copy()
            plugs[a], plugs[b] = b, a
            found.append(("two_exchanged", a, b, 1, 0.0, plugs))
    for by in range(1, n):
        share = 4 if by in (1, n - 1) else 1
        along = [own[(tower - by) % n] for tower in own]
        if n > 2:
            found.append(("all_shifted", by, 0, share, 0.0, along))
        turned = numpy.sort((cap + cap[by]) % 360)
        if numpy.allclose(turned, numpy.sort(cap)):
            found.append(("moved_to_suit", by, 0, share, cap[by], along))
    if n > 2:
        backwards = [own[-tower % n] for tower in own]
        found.append(("against_rotor", 0, 0, 1, 0.0, backwards))
    found.append(("something_else", 0, 0, 1, None, None))
    return found


def priors(found):
    share = numpy.array([PERCENT[s[0]] * s[3] / sum(o[3] for o in found if o[0] == s[0]) for s in found])
    return share / share.sum()


def round_a_circle(at, mean, spread, turn):
    """Density of the nearest of the normals round a circle, as one eye takes the shorter way."""
    off = min(abs(at - mean + k * turn) for k in range(-9, 10))
    return scipy.stats.norm.pdf(off, scale=spread)


def chance(look, state, places, wrong):
    kind, *what = look
    n, ahead, plugs = len(places), state[4], state[5]
    if kind == "lead":
        tower, plug = what
        if plugs is None:
            return 1 / n
        return 1 - wrong if plugs[tower] == plug else wrong / (n - 1)
    if kind == "rotor":
        crank, checked, points = what
        if plugs is None:
            return 1 / 360
        cranks = [crank] if checked else [crank, crank + 360]
        seen = [round_a_circle(points, c / 2 + ahead, ROTOR, 360) for c in cranks]
        return (1 - wrong) * numpy.mean(seen) + wrong / 360
    plug = what[0]
    spark = None if plugs is None else places[plugs.index(plug)] - 2 * ahead
    if kind == "spark":
        crank, checked = what[1:]
        turn = 720 if checked else 360
        if plugs is None:
            return 1 / turn
        return (1 - wrong) * round_a_circle(crank, spark - SPARK_BEFORE, SPARK, turn) + wrong / turn
    if plugs is None:
        return 1 / 4
    late = (spark - places[plug]) % 720
    if min(late, 720 - late) <= NEAR:
        ways = ["fires"]
    elif 360 <= late < 580:
        ways = ["spits_back", "dead"]
    elif 150 <= late < 360:
        ways = ["bangs_in_exhaust", "dead"]
    else:
        ways = ["dead"]
    return (1 - wrong) / len(ways) if what[1] in ways else wrong / (4 - len(ways))


def case(intervals, teeth, wrong, looks):
    places = numpy.concatenate([[0], numpy.cumsum(intervals)[:-1]]).tolist()
    found = states(places, teeth)
    odds = priors(found) * [
        numpy.prod([chance(look, state, places, wrong) for look in looks]) for state in found
    ]
    odds /= odds.sum()
    return {
        "intervals": [repr(float(i)) for i in intervals],
        "teeth": teeth,
        "wrong": repr(wrong),
        "looks": [
            [x if isinstance(x, (str, bool)) else repr(float(x)) for x in look] for look in looks
        ],
        "states": [
            {"kind": s[0], "first": s[1], "second": s[2], "probability": repr(float(p))}
            for s, p in zip(found, odds)
        ],
    }


def drawn(intervals):
    """A few looks of each kind, right and wrong alike; no two of which one must be wrong."""
    n = len(intervals)
    towers, plugs = RANDOM.permutation(n)[:2], RANDOM.permutation(n)[:2]
    looks = [("lead", int(t), int(p)) for t, p in zip(towers, plugs)][:RANDOM.integers(1, 3)]
    if RANDOM.random() < 0.7:
        looks.append(("rotor", 0.0, bool(RANDOM.integers(2)), round(float(RANDOM.uniform(0, 360)), 1)))
    if RANDOM.random() < 0.5:
        crank = round(float(RANDOM.uniform(0, 720)), 1)
        looks.append(("spark", int(RANDOM.integers(n)), crank, bool(RANDOM.integers(2))))
    if RANDOM.random() < 0.5:
        does = ["fires", "spits_back", "bangs_in_exhaust", "dead"][RANDOM.integers(4)]
        looks.append(("runs", int(RANDOM.integers(n)), does))
    return looks


if __name__ == "__main__":
    cases = []
    engines = [([180] * 4, 13), ([120] * 6, 11), ([90] * 8, 17), ([315, 405], 13), ([150, 90] * 3, 14)]
    for intervals, teeth in engines:
        for wrong in (0.03, 0.1):
            cases += [case(intervals, teeth, wrong, drawn(intervals)) for _ in range(4)]
    about = "Odds of the faults of leads and distributor: intervals between firings, misreadings, looks."
    write("ignition_leads", about, cases, ["numpy", "scipy"], SOURCE)
