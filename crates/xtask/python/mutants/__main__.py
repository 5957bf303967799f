"""Mutants by the thousand from one build: `mutants WORK LIST EACH SEED [AREA...]`.

cargo-mutants names the changes; a build for each would take days. Here a seeded sample of every area is woven into one
copy of the sources, where a number chooses at run time which change is there. A first run with none tells which test
reaches which change; then each change is tried with the tests that reach it, until one fails.
"""

import json
import random
import sys
from collections import defaultdict
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[3]


def area_of(mutant):
    """A folder of the core, or a crate."""
    _, crate, _, *inner = mutant["file"].split("/")
    return inner[0] if crate == "lashwork" and len(inner) > 1 else crate


def sample(found, each, seed, areas):
    """`each` changes of every area, the same for the same seed."""
    by_area = defaultdict(list)
    for mutant in sorted(found, key=lambda mutant: mutant["name"]):
        by_area[area_of(mutant)].append(mutant)
    unknown = [area for area in areas if area not in by_area]
    if unknown:
        raise SystemExit(f"no area {unknown[0]}: {' '.join(sorted(by_area))}")
    drawn = []
    for area in areas or sorted(by_area):
        of_area = by_area[area]
        drawn += random.Random(f"{seed}:{area}").sample(of_area, min(each, len(of_area)))
    return drawn, {area: len(by_area[area]) for area in areas or by_area}


def main(work, listed, each, seed, *areas):
    sys.path.insert(0, str(HERE))
    import build
    import kept
    import table
    import tried
    import weave

    work = Path(work).resolve()
    drawn, sizes = sample(json.loads(Path(listed).read_text()), int(each), seed, areas)
    mutants = weave.numbered(drawn)
    known = kept.Kept(work, [*build.fingerprints(), *(mutant.name for mutant in mutants)])
    programs, left = known.of("built") or known.add("built", build.programs(work, mutants))
    outcomes = {int(number): why for number, why in left.items()}
    outcomes |= tried.all_of(work, programs, [it for it in mutants if it.number not in outcomes], known)
    table.show(work, mutants, outcomes, sizes, area_of, seed)


if __name__ == "__main__":
    main(*sys.argv[1:])
