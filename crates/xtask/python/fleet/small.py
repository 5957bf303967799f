"""DuckDB and Polars, and what becomes of rows that are no readings."""

import engines
import plain
import readings
from lines import agree

ROWS = 8_000


def prove(work):
    folder = work / "small"
    rows = readings.write(folder, ROWS)
    (judged, _), (looks, _) = plain.judged(folder), plain.looks(folder)
    plain.refusals(folder, judged["judged"], rows)
    expected = {**judged, "looks": looks["looks"]}
    agree("DuckDB", engines.in_duckdb(folder), expected)
    agree("Polars", engines.in_polars(folder), expected)
