"""One machine without an engine for data: the column calls, on one thread."""

import time

import lashwork as lw
import numpy
import pyarrow.compute as compute
import pyarrow.parquet as parquet
from bands import BANDS, RULE
from lines import CHANCES, NEXT_SERVICE_HOURS, RATES, told

ENDS = ("low_mm", "high_mm", "uncertainty_mm")
LIMITS = ("lower_mm", "upper_mm")


def numbers(table, name):
    return table[name].to_numpy()


def whole(values, scale=1e9):
    """The sum of whole parts; what is no number counts nothing."""
    return int(numpy.floor(values[~numpy.isnan(values)] * scale + 0.5).astype(numpy.int64).sum())


def now():
    return time.perf_counter(), time.thread_time()


def since(began, before):
    """What was taken before, and what was taken since then."""
    return tuple(held + at - first for held, at, first in zip(before, now(), began))


def summed(kind, words, codes, columns):
    rows = []
    for code, word in enumerate(words):
        held = codes == code
        if held.any():
            rows.append((kind, word, int(held.sum()), *(whole(column[held], scale) for column, scale in columns)))
    return sorted(rows)


def kinds(table):
    """The readings of each kind, and where they stand in the table."""
    for kind in sorted(BANDS):
        held = compute.equal(table["kind"], kind)
        yield kind, table.filter(held), held.to_numpy()


def judged(folder):
    """Lines of verdicts, and how long it took, by the clock and of the thread."""
    table = parquet.read_table(folder, columns=["kind", *ENDS, *LIMITS])
    columns, limits = [numbers(table, name) for name in ENDS], {name: numbers(table, name) for name in LIMITS}
    began = now()
    found = lw.judge_columns(*columns, None, RULE, **limits)
    took = since(began, (0.0, 0.0))
    lines = []
    for kind, _, held in kinds(table):
        lines += summed(kind, lw.VERDICTS, found["verdict"][held], [(found[name][held], 1e9) for name in CHANCES])
    return {"judged": told(lines)}, took


def looks(folder):
    """Lines of when to look next, how many valves are due, and how long it took, likewise."""
    table = parquet.read_table(folder)
    engine = table["engine"].combine_chunks().dictionary_encode().indices.to_numpy()
    last = numpy.zeros(engine.max() + 1)
    numpy.maximum.at(last, engine, numbers(table, "at_hours"))
    lines, due, took = [], 0, (0.0, 0.0)
    for kind, some, held in kinds(table):
        past, engines = ordered(some, engine[held], [numbers(some, name) for name in ENDS])
        began = now()
        found = lw.drift_of_columns(past, len(engines), BANDS[kind], RULE)
        took = since(began, took)
        lines += summed(kind, lw.LOOKS, found["look"], [*((found[name], 1e9) for name in RATES), (found["look_at"], 1e3)])
        is_at = (found["look"] == lw.LOOKS.index("at")) & (found["look_at"] < last[engines] + NEXT_SERVICE_HOURS)
        due += int((is_at | (found["look"] == lw.LOOKS.index("now"))).sum())
    return {"looks": told(lines), "due": [str(due)]}, took


def ordered(table, engine, columns):
    """Readings valve by valve in the order of time, and the engine of each valve."""
    valve, at, state = engine * 100 + numbers(table, "valve"), numbers(table, "at_hours"), numbers(table, "state")
    order = numpy.lexsort((state, at, valve))
    firsts = numpy.flatnonzero(numpy.diff(valve[order], prepend=-1))
    counted = numpy.zeros(len(order), dtype=numpy.uint32)
    counted[firsts[1:]] = 1
    past = lw.PastReadings(
        at[order], *(column[order] for column in columns), valve=counted.cumsum(dtype=numpy.uint32),
        state=state[order].astype(numpy.uint8), counted_by=lw.HOURS)
    return past, engine[order][firsts]


def refusals(folder, lines, rows):
    """The rows that were not written down or are no number are those that are refused, and no other."""
    table = parquet.read_table(folder)
    wrong = sum(int((numpy.isnan(numbers(table, name))).sum()) for name in ENDS)
    refused = [int(line.split(" refused ")[1].split()[0]) for line in lines if " refused " in line]
    counted = sum(int(line.split()[-7]) for line in lines)
    if not 0 < wrong == sum(refused) or counted != rows:
        raise SystemExit(f"{wrong} rows are no readings, {refused} are refused, {counted} of {rows} rows are counted")
