"""What became of the changes, by area, with the interval of the share that the tests see."""

from collections import Counter, defaultdict
from math import sqrt


def interval(seen, of):
    """95 % for a share, by Wilson's score."""
    if of == 0:
        return 0.0, 1.0
    z = 1.959964
    middle = (seen + z * z / 2) / (of + z * z)
    half = z / (of + z * z) * sqrt(seen * (of - seen) / of + z * z / 4)
    return max(0.0, middle - half), min(1.0, middle + half)


def show(work, mutants, outcomes, sizes, area_of, seed):
    by_area = defaultdict(Counter)
    for mutant in mutants:
        by_area[area_of(mutant.said)][outcomes.get(mutant.number, "not tried")] += 1
    names = {mutant.number: mutant.name for mutant in mutants}
    lines = [f"{outcomes[number]}: {name}" for number, name in names.items() if number in outcomes]
    (work / "outcomes.txt").write_text("\n".join(sorted(lines)) + "\n")
    print(f"seed {seed}")
    print("| area | changes there are | tried | caught | endless | missed | share seen | 95 % interval | not tried |")
    print("|---|---|---|---|---|---|---|---|---|")
    for area, count in sorted(by_area.items()):
        missed = count["missed"] + count["not reached"]
        seen = count["caught"] + count["timed out"]
        tried = seen + missed
        low, high = interval(seen, tried)
        share = seen / tried if tried else 0.0
        print(
            f"| {area} | {sizes[area]} | {tried} | {count['caught']} | {count['timed out']} | {missed} "
            f"| {share:.1%} | {low:.1%} to {high:.1%} | {count['not woven'] + count['not compiled']} |"
        )
