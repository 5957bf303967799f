"""Weighs what may be the matter with an engine, for the shared vectors of causes.

The figures of the model are the kernel's published choices, copied here by hand; how they are weighed is written anew and
plainly: every set of up to three of what may be there is a case of its own, slight or plain, and each finding is asked of
each of them.
"""

from itertools import combinations, product
from math import log10

# Percent of engines that have it, and its forms: the part of the cause, and where each sits.
CAUSES = {
    "valve_burnt": (4, {"burnt": (0.5, "one"), "sunk": (0.5, "one")}),
    "valve_tight": (6, {"tight": (0.6, "one"), "closed": (0.4, "one")}),
    "cam_worn": (2, {"nose": (0.4, "one"), "follower": (0.6, "one")}),
    "cam_tooth_out": (1, {"tooth": (1, "all")}),
    "rings_worn": (6, {"rings_all": (0.6, "all"), "rings_one": (0.4, "one")}),
    "head_gasket": (2, {"gasket_between": (0.7, "between"), "gasket_one": (0.3, "one")}),
    "intake_leak": (6, {"air_all": (0.6, "all"), "air_one": (0.4, "one")}),
    "spark_weak": (6, {"spark_all": (0.3, "all"), "spark_one": (0.7, "one")}),
    "spark_late": (7, {"late": (1, "all")}),
    "mixture_rich": (6, {"rich": (1, "all")}),
    "mixture_lean": (4, {"lean": (1, "all")}),
    None: (3, {"passing": (1, "one")}),
}
ELSE, ELSE_IN_ALL, AGAIN, SLIGHT, DOUBT, SURE, THREES = 0.03, 0.5, 0.2, 0.35, 0.03, 0.99, 17

# Percent of each outcome: sound first, then under each form that moves it.
VALVE, TIGHT, CAM, GASKET = ("burnt", "sunk"), ("tight", "closed"), ("nose", "follower"), ("gasket_between", "gasket_one")
SIGNS = {
    "lash": ([96.5, 0.4, 3.1], {
        ("sunk",): [33, 64, 3], TIGHT: [2, 97, 1], ("follower",): [10, 2, 88], ("else",): [86, 6, 8]}),
    "compression": ([98.2, 0.7, 1.1], {
        VALVE: [10, 8, 82], TIGHT: [66, 3, 31], CAM: [55, 5, 40], ("rings_one",): [8, 77, 15], ("rings_all",): [89, 8, 3],
        GASKET: [8, 6, 86], ("else",): [82, 7, 11], ("passing",): [25, 35, 40]}),
    "pressure": ([90, 7, 3], {("tooth",): [20, 75, 5], ("rings_all",): [22, 77, 1], ("else",): [78, 14, 8]}),
    "leak": ([96.5, 0.7, 0.7, 1.8, 0.3], {
        VALVE: [8, 68, 18, 3, 3], TIGHT: [62, 24, 10, 3, 1], ("rings_one",): [8, 2, 2, 86, 2], ("rings_all",): [20, 2, 2, 75, 1],
        GASKET: [8, 2, 3, 4, 83], ("else",): [80, 5, 5, 5, 5], ("passing",): [25, 18, 18, 37, 2]}),
    "plug": ([90, 4, 2.5, 2, 1.5], {
        VALVE: [42, 24, 6, 6, 22], TIGHT: [62, 14, 16, 2, 6], (*CAM, "tooth"): [70, 15, 6, 4, 5],
        ("rings_one",): [20, 8, 1, 68, 3], ("rings_all",): [45, 8, 2, 43, 2], GASKET: [40, 14, 13, 4, 29],
        ("air_all",): [22, 1, 66, 2, 9], ("air_one",): [25, 4, 52, 3, 16], ("spark_one",): [14, 26, 2, 6, 52],
        ("spark_all",): [31, 35, 1, 3, 30], ("late",): [72, 12, 10, 3, 3], ("rich",): [8, 82, 1, 3, 6],
        ("lean",): [20, 1, 68, 2, 9], ("passing",): [70, 6, 4, 17, 3], ("else",): [68, 10, 8, 7, 7]}),
    "monoxide": ([95, 2.5, 2.5], {
        ("rich",): [8, 91, 1], ("lean",): [12, 1, 87], ("air_all",): [14, 2, 84], ("air_one",): [55, 8, 37],
        ("spark_all", "spark_one"): [65, 15, 20], ("else",): [66, 17, 17]}),
    "unburnt": ([93, 7], {
        (*VALVE, *GASKET): [18, 82], ("air_one",): [30, 70], (*TIGHT, "tooth", "rings_all"): [48, 52],
        (*CAM, "rings_one", "else"): [60, 40], ("air_all", "lean"): [32, 68], ("rich",): [37, 63],
        ("spark_one",): [6, 94], ("spark_all",): [15, 85], ("passing",): [70, 30]}),
    "lambda": ([92, 4, 4], {
        ("rich",): [7, 92, 1], ("lean",): [8, 1, 91], ("air_all",): [20, 2, 78], ("air_one",): [40, 4, 56],
        ("spark_one", "spark_all"): [60, 8, 32], ("else",): [66, 17, 17]}),
    "timing": ([99.4, 0.4, 0.2], {("late",): [2, 97, 1], ("else",): [74, 13, 13]}),
    "dwell": ([94, 3, 3], {("late",): [50, 47, 3], ("spark_all",): [55, 12, 33], ("else",): [76, 12, 12]}),
}
# In these a cause shows at once, however slight.
AT_ONCE = {("lash", "tight"), ("lash", "closed"), ("timing", "late"), ("monoxide", "rich"), ("lambda", "rich")}

# The needle: percent of steady or rippling, small flick, regular drop, now and then, drift, swing; and what each form is there.
NEEDLE = {
    "sound": [94, 2, 0.5, 2, 1, 0.5], "late": [90, 2, 1, 3, 3, 1], "valves_late": [90, 2, 2, 2, 2, 2],
    "rings": [88, 3, 3, 3, 2, 1], "air": [72, 3, 6, 3, 6, 10], "misfire": [6, 14, 60, 14, 3, 3], "leaks": [5, 20, 65, 6, 2, 2],
    "tight": [20, 66, 8, 3, 2, 1], "sticks": [6, 4, 6, 80, 2, 2], "gasket": [5, 4, 82, 3, 2, 4], "springs": [15, 8, 8, 9, 2, 58],
    "guides": [12, 8, 8, 6, 4, 62], "mixture": [22, 3, 3, 18, 52, 2], "gaps": [25, 62, 4, 5, 3, 1],
    "exhaust": [88, 2, 2, 3, 3, 2], "other": [30, 14, 14, 14, 14, 14]}
ON_NEEDLE = {
    VALVE: {"leaks": 1}, TIGHT: {"tight": 0.8, "leaks": 0.2}, CAM: {"sound": 0.5, "misfire": 0.5}, ("tooth",): {"valves_late": 1},
    ("rings_all",): {"rings": 1}, ("rings_one",): {"sound": 0.4, "leaks": 0.6}, GASKET: {"gasket": 1},
    ("air_all",): {"air": 0.4, "mixture": 0.25, "sound": 0.35}, ("air_one",): {"air": 0.35, "misfire": 0.3, "sound": 0.35},
    ("spark_all",): {"misfire": 0.7, "gaps": 0.3}, ("spark_one",): {"misfire": 0.9, "gaps": 0.1}, ("late",): {"late": 1},
    ("rich",): {"mixture": 0.8, "sound": 0.2}, ("lean",): {"mixture": 0.55, "air": 0.15, "sound": 0.3},
    ("passing",): {"sound": 0.6, "leaks": 0.4},
    ("else",): {"sticks": 0.25, "springs": 2 / 12, "guides": 0.25, "exhaust": 2 / 12, "other": 2 / 12}}
MOVEMENTS = ["steady", "even_ripple", "small_flick", "regular_drop", "now_and_then", "slow_drift", "wide_swing"]


def row(table, form, usual):
    return next((found for forms, found in table.items() if form in forms), usual)


def moved(cause, movement, misread=0.05, of_four=0.5, taken=0.05):
    """The chance of a movement on a four with one of the needle's causes."""
    still, *others = [percent / 100 for percent in NEEDLE[cause]]
    all_of = [still * (1 - of_four), still * of_four + (1 - still) * taken] + [(1 - taken) * p for p in others]
    return (1 - misread) * all_of[MOVEMENTS.index(movement)] + misread / len(MOVEMENTS)


class There:
    """Something that may be there."""

    def __init__(self, cause, form, place, odds):
        self.cause, self.form, self.place, self.odds = cause, form, place, odds

    def shows_in(self, cylinder):
        return cylinder is None or self.place == "all" or cylinder in self.place


def suspects(cylinders, percents):
    places = {"one": [(c,) for c in range(cylinders)], "all": ["all"], "between": [(c, c + 1) for c in range(cylinders - 1)]}
    for cause, (percent, forms) in CAUSES.items():
        percent = percents.get(cause, percent)
        for form, (part, where) in forms.items() if percent else ():
            for place in places[where]:
                yield There(cause, form, place, part * percent / (100 - percent) / len(places[where]))


def is_twice(a, b):
    return a.form == b.form and len(a.place) == len(b.place) == 1


def odds_of(sets, cylinders):
    """Of a set among engines: strangers have the product; of one form twice the second follows the first."""
    if not sets:
        return 1.0
    if len(sets) == 1:
        # Of what sits in a cylinder, a part sits in another as well: that part is a set of its own.
        return sets[0].odds * (1 - AGAIN if len(sets[0].place) == 1 and cylinders > 1 else 1)
    twice = [(a, b) for a, b in combinations(sets, 2) if is_twice(a, b)]
    if len(twice) > 1 or any(a.cause == b.cause and not is_twice(a, b) for a, b in combinations(sets, 2)):
        return 0.0
    found = 1.0
    for one in sets:
        found *= one.odds
    for a, _ in twice:
        found *= 2 * AGAIN / (cylinders - 1) / a.odds
    return found


def outcomes(kind, states):
    """The chance of each outcome with what is there: any may show, and what several show is seen of one of them."""
    sound, table = SIGNS[kind]
    there = []
    for form, is_plain in states:
        own = row(table, form, sound)
        if own != sound:
            part = 1 if is_plain or (kind, form) in AT_ONCE else SLIGHT
            there.append([(part * a + (1 - part) * b) / 100 for a, b in zip(own, sound)])
    if not there:
        return [percent / 100 for percent in sound]
    found = [1.0] + [0.0] * (len(sound) - 1)
    for own in there:
        found[0] *= own[0]
    # Of those that show, each is as likely to be the one that is seen.
    for shows in product((False, True), repeat=len(there)):
        weight = 1.0
        for own, is_shown in zip(there, shows):
            weight *= 1 - own[0] if is_shown else own[0]
        for own, is_shown in zip(there, shows):
            if is_shown:
                for at in range(1, len(sound)):
                    found[at] += weight / sum(shows) * own[at] / (1 - own[0])
    return found


def seen(kind, states, said):
    at, sure = said
    each = outcomes(kind, states)
    return sum(p * (sure if k == at else (1 - sure) / (len(each) - 1)) for k, p in enumerate(each))


def on_needle(states, movement):
    def one(form, is_plain):
        part = 1 if is_plain else SLIGHT
        shown = sum(share * moved(cause, movement) for cause, share in row(ON_NEEDLE, form, {}).items())
        return part * shown + (1 - part) * moved("sound", movement)

    return sum(one(*state) for state in states) / len(states) if states else moved("sound", movement)


class Case:
    def __init__(self, there, plain, prior):
        self.there, self.plain, self.prior = there, plain, prior
        self.causes = {one.cause for one in there if one.cause}

    def states(self, cylinder=None):
        return tuple((one.form, p) for one, p in zip(self.there, self.plain) if one.shows_in(cylinder))

    def count(self):
        return sum(one.form != "passing" for one in self.there)

    def is_else(self):
        return any(one.form == "else" for one in self.there)


def graded(there, odds):
    every = list(product((False, True), repeat=len(there)))
    return [Case(there, plain, odds / len(every)) for plain in every]


def all_cases(looks, cylinders, percents):
    every = list(suspects(cylinders, percents))
    cases = []
    for count in (0, 1, 2):
        for there in combinations(every, count):
            if odds := odds_of(there, cylinders):
                cases += graded(there, odds)

    def with_rest(known):
        rest = sum(case.prior for case in known) * ELSE / (1 - ELSE)
        other = [("all", ELSE_IN_ALL * rest)] + [((c,), (1 - ELSE_IN_ALL) * rest / cylinders) for c in range(cylinders)]
        made = known + [Case((There(None, "else", place, 0.0),), (True,), prior) for place, prior in other]
        whole = sum(case.prior for case in made)
        for case in made:
            case.share = case.prior / whole
        return made

    # Three at once: those that by themselves explain most.
    first = with_rest(cases)
    weights = posterior(first, looks)[-1]
    alone = {}
    for case, weight in zip(first, weights):
        if len(case.there) == 1 and not case.is_else():
            alone[case.there[0]] = alone.get(case.there[0], 0.0) + weight
    order = sorted(alone, key=alone.get, reverse=True)
    least = alone[order[min(THREES, len(order)) - 1]] * (1 - 1e-9)
    most = [one for one in order if alone[one] > least]
    for there in combinations(most, 3):
        if odds := odds_of(there, cylinders):
            cases += graded(there, odds)
    return with_rest(cases)


def posterior(cases, looks):
    """After no look, after the first, and so on."""
    after = [[case.share for case in cases]]
    for chance in looks:
        found = likelihood(cases, chance)
        weights = [p * one for p, one in zip(after[-1], found)]
        whole = sum(weights)
        after.append([weight / whole for weight in weights])
    return after


def likelihood(cases, chance):
    known = {}
    found = [chance(case, known) for case in cases]
    mean = sum(case.share * p for case, p in zip(cases, found))
    return [(1 - DOUBT) * p + DOUBT * mean for p in found]


def decibans(cases, weights, cause):
    there = sum(p for case, p in zip(cases, weights) if cause in case.causes)
    return 10 * log10(there / sum(p for case, p in zip(cases, weights) if cause not in case.causes))


def answered(looks, at, cylinders, percents):
    """What the report must say, and where: each of the looks is a function of a case; `percents` says which causes are met
    otherwise than usual."""
    cases = all_cases(looks, cylinders, percents)
    after = posterior(cases, looks)
    told = []
    for cause in filter(None, CAUSES):
        if not any(cause in case.causes for case in cases):
            continue
        steps = [decibans(cases, weights, cause) for weights in after]
        chance = lambda db: 1 / (1 + 10 ** (-db / 10))
        places = {}
        for case, p in zip(cases, after[-1]):
            for one in case.there:
                if one.cause == cause:
                    places[one.place] = places.get(one.place, 0.0) + p
        told.append({
            "cause": cause, "prior": chance(steps[0]), "probability": chance(steps[-1]), "place": max(places.values()),
            "adds": [b - a for a, b in zip(steps, steps[1:])]})
    told.sort(key=lambda one: -one["probability"])
    sum_of = lambda holds: sum(p for case, p in zip(cases, after[-1]) if holds(case))
    worth = [one for one in told if one["probability"] >= 0.03
             and (one["probability"] > 1.2 * one["prior"] or one["probability"] >= 0.1)]
    return {
        f"{at}/causes/*/cause": [one["cause"] for one in worth],
        f"{at}/causes/*/prior": [one["prior"] for one in worth],
        f"{at}/causes/*/probability": [one["probability"] for one in worth],
        f"{at}/causes/*/places/0/probability": [one["place"] for one in worth],
        f"{at}/causes/*/speaks/*/adds_db": [one["adds"] for one in worth],
        f"{at}/nothing": sum_of(lambda case: case.count() == 0),
        f"{at}/passing": sum_of(lambda case: case.count() == 0 and len(case.there) > 0),
        f"{at}/something_else": sum_of(Case.is_else),
        f"{at}/several": sum_of(lambda case: len(case.causes) > 1),
    }


def in_place(case, known, cylinder, kinds):
    """The chance of what was said of one place: pairs of a kind and what was said."""
    key = case.states(cylinder), cylinder
    if key not in known:
        found = 1.0
        for kind, said in kinds:
            found *= seen(kind, key[0], said)
        known[key] = found
    return known[key]


def of_signs(engine=(), cylinders=None):
    """What a look found of the engine as a whole, and of each cylinder."""
    def chance(case, known):
        found = in_place(case, known, None, engine)
        for cylinder, kinds in (cylinders or {}).items():
            found *= in_place(case, known, cylinder, kinds)
        return found
    return chance


def of_needle(movement):
    def chance(case, known):
        states = case.states()
        if states not in known:
            known[states] = on_needle(states, movement)
        return known[states]
    return chance
