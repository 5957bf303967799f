"""Judges readings in DuckDB, batch by batch: `python examples/fleet/duckdb_judge.py`. The readings are invented."""

import duckdb
import lashwork as lw
from lashwork import arrow

READINGS = "SELECT n AS valve, 0.1::DOUBLE + n % 150 / 1000 AS low_mm, low_mm + 0.02::DOUBLE AS high_mm, 0.005::DOUBLE AS uncertainty_mm"
COUNTS = "SELECT verdict, count(*) AS readings, avg(in_band_least) AS in_band FROM judged GROUP BY ALL ORDER BY ALL"

# What is read and what reads it are two connections: each has one result open at a time.
reader, writer = duckdb.connect(), duckdb.connect()
readings = reader.sql(f"{READINGS} FROM range(1000000) t(n)")
judged = arrow.judge(readings, lw.limits("0.15 mm", "0.20 mm"), lw.GUARDED_TIGHT)
print(writer.sql(COUNTS))
