"""Invented readings of a fleet, the same on every machine: whole numbers alone, drawn by a hash of where they stand."""

import numpy
import pyarrow as pa
import pyarrow.parquet as parquet

VALVES, ROWS_A_VALVE = 8, 20
KINDS = ("intake", "exhaust")
NEW_NM = {"intake": 175_000, "exhaust": 275_000}
# The limits of `bands.py`, as records have them.
LIMITS_MM = {"intake": (0.15, 0.2), "exhaust": (0.25, 0.3)}
INTERVAL_HOURS = 250
LEFT_SET_EVERY = 10
FOUND, LEFT_SET = 1, 2


def drawn(places, of, below):
    """Whole numbers from 0 to below, by the finaliser of SplitMix64."""
    z = (places.astype(numpy.uint64) + numpy.uint64(1)) * numpy.uint64(0x9E3779B97F4A7C15) + numpy.uint64(of)
    z = (z ^ (z >> numpy.uint64(30))) * numpy.uint64(0xBF58476D1CE4E5B9)
    z = (z ^ (z >> numpy.uint64(27))) * numpy.uint64(0x94D049BB133111EB)
    return ((z ^ (z >> numpy.uint64(31))) % numpy.uint64(below)).astype(numpy.int64)


def service(valves, row):
    """What was read of every valve at one service, or how it was left by the setting there."""
    valve = numpy.arange(valves)
    places = valve * ROWS_A_VALVE + row
    # A row that is left by a setting stands at the time of the one before it, and the lash begins anew from there.
    is_set = row % LEFT_SET_EVERY == LEFT_SET_EVERY - 1
    began = row - row % LEFT_SET_EVERY - 1
    at = hours(valve, row - 1 if is_set else row)
    since = numpy.zeros_like(at) if is_set else at - (hours(valve, began - 1) if began > 0 else 0)
    is_exhaust = valve % 2 == 1
    new = numpy.where(is_exhaust, NEW_NM["exhaust"], NEW_NM["intake"]) + drawn(valve, 1, 30_001) - 15_000
    lash = new - since * drawn(valve, 2, 15) + drawn(places, 3, 10_001) - 5_000
    low = lash // 10_000 * 10_000 / 1e6
    high = low + 0.02
    # One in five thousand was not written down, one in five thousand is no number.
    odd = drawn(places, 4, 5_000)
    high[odd == 0] = numpy.nan
    # A zero in its place would be a reading.
    low = pa.array(low, mask=odd == 1)
    names = numpy.array([f"engine {n:06}" for n in range(valves // VALVES)], dtype=object)
    return pa.table({
        "engine": pa.array(numpy.repeat(names, VALVES)),
        "valve": pa.array(valve % VALVES + 1, pa.int32()),
        "kind": pa.array(numpy.array(KINDS, dtype=object)[is_exhaust.astype(int)]),
        "at_hours": pa.array(at.astype(float)),
        "state": pa.array(numpy.full(valves, LEFT_SET if is_set else FOUND), pa.int32()),
        "low_mm": low, "high_mm": pa.array(high),
        "uncertainty_mm": pa.array((3_000 + drawn(places, 5, 4_000)) / 1e6),
        **{name: pa.array(numpy.where(is_exhaust, LIMITS_MM["exhaust"][end], LIMITS_MM["intake"][end]))
           for end, name in enumerate(("lower_mm", "upper_mm"))}})


def hours(valve, row):
    return row * INTERVAL_HOURS + drawn(valve * ROWS_A_VALVE + row, 6, 100)


def write(folder, rows):
    """A file a service, as records of years are kept; how many rows they are, a few less than asked."""
    valves = rows // ROWS_A_VALVE // VALVES * VALVES
    if not valves:
        raise SystemExit(f"at least {ROWS_A_VALVE * VALVES} rows: an engine has {VALVES} valves, each with {ROWS_A_VALVE}")
    folder.mkdir(parents=True, exist_ok=True)
    for row in range(ROWS_A_VALVE):
        parquet.write_table(service(valves, row), folder / f"service-{row:02}.parquet")
    return valves * ROWS_A_VALVE
