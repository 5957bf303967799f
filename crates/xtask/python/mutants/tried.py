"""Tries every change with the tests that reach it, the quickest and most particular first."""

import os
import random
import subprocess
import time
from collections import Counter, defaultdict
from concurrent.futures import ThreadPoolExecutor, as_completed

#: Tests of one start, growing: most changes are seen by the first.
STARTS = [4, 16, 64, 256]
#: A test that takes longer, in seconds, is asked only when no other saw the change.
LONG = 3.0


def run(program, tests, folder, seconds, **told):
    """Whether tests of a program hold, started in the folder of their package; nothing when they come to no end."""
    try:
        ran = subprocess.run(
            [program, "--exact", "--test-threads=1", *tests],
            env=os.environ | told,
            cwd=folder,
            timeout=seconds,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
    except subprocess.TimeoutExpired:
        return None
    return ran.returncode == 0


class Tests:
    """Every test there is: how long it takes and which changes it reaches."""

    def __init__(self, work, programs, kept):
        self.work, self.folder = work, str(work / "tree/tests")
        self.seconds, self.reach = {}, defaultdict(list)
        for program, test, seconds, reached in kept.of("traces") or kept.add("traces", self.all_traced(programs)):
            self.seconds[program, test] = seconds
            for change in reached:
                self.reach[change].append((program, test))
        self.reached_by = Counter(test for tests in self.reach.values() for test in tests)

    def all_traced(self, programs):
        """Tests with their program, how long they take, and the changes they reach."""
        listed = [(program, test) for program in programs for test in self.names(program)]
        (self.work / "traces").mkdir(exist_ok=True)
        with ThreadPoolExecutor(os.cpu_count()) as pool:
            every = list(pool.map(self.traced, listed, range(len(listed))))
        for (_, test), held, _, _ in every:
            if not held:
                print(f"left out, does not hold without a change: {test}", flush=True)
        return [(*test, seconds, sorted(reached)) for test, held, seconds, reached in every if held]

    def names(self, program):
        listed = subprocess.run([program, "--list", "--format=terse"], capture_output=True, text=True, cwd=self.folder)
        ignored = subprocess.run(
            [program, "--list", "--format=terse", "--ignored"], capture_output=True, text=True, cwd=self.folder
        )
        every, left = (
            {line.removesuffix(": test") for line in it.stdout.splitlines() if line.endswith(": test")}
            for it in (listed, ignored)
        )
        return sorted(every - left)

    def traced(self, test, number):
        trace = self.work / f"traces/{number}"
        trace.unlink(missing_ok=True)
        begun = time.monotonic()
        held = run(test[0], [test[1]], self.folder, 600, MUTANT="trace", MUTANT_TRACE=str(trace))
        reached = {int(line) for line in trace.read_text().split()} if trace.exists() else set()
        return test, held, time.monotonic() - begun, reached

    def outcome(self, change, long):
        """`caught`, `timed out` or `missed`; the long tests alone, or those that are not."""
        tests = [it for it in self.reach[change] if (self.seconds[it] > LONG) == long]
        tests.sort(key=lambda it: (self.reached_by[it] * (self.seconds[it] + 0.01), it))
        sizes = iter(STARTS)
        while tests:
            size = next(sizes, len(tests))
            now, tests = tests[:size], tests[size:]
            by_program = defaultdict(list)
            for program, test in now:
                by_program[program].append(test)
            for program, names in by_program.items():
                least = sum(self.seconds[program, it] for it in names)
                held = run(program, names, self.folder, 10 + 5 * least, MUTANT=str(change))
                if not held:
                    return "timed out" if held is None else "caught"
        return "missed"


def all_of(work, programs, mutants, kept):
    """What became of each change."""
    begun = time.monotonic()
    tests = Tests(work, programs, kept)
    print(f"{len(tests.seconds)} tests, traced in {time.monotonic() - begun:.0f} s", flush=True)
    every = [mutant.number for mutant in mutants]
    outcomes = {}
    for long in (False, True):
        heading = "by all" if long else "by the quick ones"
        tried = {int(number): outcome for number, outcome in (kept.of(heading) or {}).items()}
        open_ones = [it for it in every if outcomes.get(it, "missed") == "missed" and it not in tried]
        # Of every area some at once: what an ended run has found is a sample too.
        random.Random(heading).shuffle(open_ones)
        with ThreadPoolExecutor(os.cpu_count()) as pool:
            asked = {pool.submit(tests.outcome, number, long): number for number in open_ones}
            for number, one in enumerate(as_completed(asked), 1):
                tried |= kept.add(heading, {asked[one]: one.result()})
                if number % 100 == 0:
                    print(f"{time.monotonic() - begun:.0f} s: {number} of {len(asked)} tried {heading}", flush=True)
        outcomes |= tried
    return {number: "not reached" if it == "missed" and not tests.reach[number] else it for number, it in outcomes.items()}
