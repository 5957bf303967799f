"""The functions for Arrow in engines of one process."""

import duckdb
import lashwork as lw
import polars as pl
import pyarrow as pa
from bands import BANDS, RULE
from lashwork import arrow
from lines import JUDGED_SQL, LOOKS_SQL, told

NAMED = "concat(engine, ' valve ', valve) AS name"
PAST = {"valve": "name", "at": "at_hours", "state": "state"}


def with_kind(reader, kind):
    """The answer of one kind, with the kind in it."""
    for batch in reader:
        if batch.num_rows:
            names = [name for name in batch.schema.names if name != "kind"]
            columns = [batch.column(name) for name in names]
            yield pa.RecordBatch.from_arrays([*columns, pa.array([kind] * batch.num_rows)], names=[*names, "kind"])


def in_duckdb(folder):
    reader, writer = duckdb.connect(), duckdb.connect()
    readings = f"FROM read_parquet('{folder}/*.parquet')"
    judged = arrow.judge(reader.sql(f"SELECT * {readings}"), None, RULE)
    lines = {"judged": told(writer.sql(JUDGED_SQL).fetchall())}
    tables = []
    for kind, band in BANDS.items():
        past = reader.sql(f"SELECT *, {NAMED} {readings} WHERE kind = '{kind}' ORDER BY name, at_hours, state")
        tables.append(pa.Table.from_batches(with_kind(arrow.drift(past, band, RULE, lw.HOURS, **PAST), kind)))
    looks = pa.concat_tables(tables)
    return {**lines, "looks": told(writer.sql(LOOKS_SQL).fetchall())}


def in_polars(folder):
    readings = pl.read_parquet(f"{folder}/*.parquet")
    named = readings.with_columns(name=pl.format("{} valve {}", "engine", "valve")).sort("name", "at_hours", "state")
    looks = []
    for kind, band in BANDS.items():
        found = pl.from_arrow(arrow.drift(named.filter(pl.col("kind") == kind), band, RULE, lw.HOURS, **PAST))
        looks.append(found.with_columns(kind=pl.lit(kind)))
    tables = {"judged": pl.from_arrow(arrow.judge(readings, None, RULE)), "looks": pl.concat(looks)}
    with pl.SQLContext(tables) as ask:
        return {
            "judged": told(ask.execute(JUDGED_SQL, eager=True).rows()), "looks": told(ask.execute(LOOKS_SQL, eager=True).rows())}
