"""One machine without an engine: the column calls, on one thread."""

import time

import lashwork as lw
import numpy
import pyarrow.parquet as parquet
from bands import BANDS, RULE
from lines import CHANCES, NEXT_SERVICE_HOURS, RATES, told

ENDS = ("low_mm", "high_mm", "uncertainty_mm")


def numbers(table, name):
    return table[name].to_numpy()


def whole(values, scale=1e9):
    """The sum of whole parts; what is no number counts nothing."""
    return int(numpy.floor(values[~numpy.isnan(values)] * scale + 0.5).astype(numpy.int64).sum())


def summed(kind, words, codes, columns):
    rows = []
    for code, word in enumerate(words):
        held = codes == code
        if held.any():
            rows.append((kind, word, int(held.sum()), *(whole(column[held], scale) for column, scale in columns)))
    return sorted(rows)


def answers(folder):
    """Lines of verdicts and of looks, how many valves are due, and how many rows a second were worked on."""
    table = parquet.read_table(folder)
    engine = table["engine"].combine_chunks().dictionary_encode().indices.to_numpy()
    last = numpy.zeros(engine.max() + 1)
    numpy.maximum.at(last, engine, numbers(table, "at_hours"))
    judged, looks, due, took = [], [], 0, {"judge": 0.0, "drift": 0.0}
    for kind in sorted(BANDS):
        held = numpy.asarray(table["kind"]) == kind
        some = table.filter(held)
        columns = [numbers(some, name) for name in ENDS]
        began = time.thread_time()
        found = lw.judge_columns(*columns, BANDS[kind], RULE)
        took["judge"] += time.thread_time() - began
        judged += summed(kind, lw.VERDICTS, found["verdict"], [(found[name], 1e9) for name in CHANCES])
        past, engines = ordered(some, engine[held], columns)
        began = time.thread_time()
        found = lw.drift_of_columns(past, len(engines), BANDS[kind], RULE)
        took["drift"] += time.thread_time() - began
        looks += summed(kind, lw.LOOKS, found["look"], [*((found[name], 1e9) for name in RATES), (found["look_at"], 1e3)])
        is_at = (found["look"] == lw.LOOKS.index("at")) & (found["look_at"] < last[engines] + NEXT_SERVICE_HOURS)
        due += int((is_at | (found["look"] == lw.LOOKS.index("now"))).sum())
    speeds = {name: table.num_rows / seconds for name, seconds in took.items()}
    return {"judged": told(judged), "looks": told(looks), "due": [str(due)]}, speeds


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


def refusals(folder, expected, rows):
    """The rows that were not written down or are no number are those that are refused, and no other."""
    table = parquet.read_table(folder)
    wrong = sum(int((numpy.isnan(numbers(table, name))).sum()) for name in ENDS)
    refused = [int(line.split(" refused ")[1].split()[0]) for line in expected["judged"] if " refused " in line]
    counted = sum(int(line.split()[-7]) for line in expected["judged"])
    if not 0 < wrong == sum(refused) or counted != rows:
        raise SystemExit(f"{wrong} rows are no readings, {refused} are refused, {counted} of {rows} rows are counted")
