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
    where = f"FROM read_parquet('{folder}/*.parquet') WHERE kind ="

    def of_each_kind(select, order, function, *given, **named):
        tables = []
        for kind, band in BANDS.items():
            found = function(reader.sql(f"{select} {where} '{kind}' {order}"), band, RULE, *given, **named)
            tables.append(pa.Table.from_batches(with_kind(found, kind)))
        return pa.concat_tables(tables)

    judged = of_each_kind("SELECT *", "", arrow.judge)
    looks = of_each_kind(f"SELECT *, {NAMED}", "ORDER BY name, at_hours, state", arrow.drift, lw.HOURS, **PAST)
    return {
        "judged": told(writer.sql(JUDGED_SQL).fetchall()), "looks": told(writer.sql(LOOKS_SQL).fetchall())}


def in_polars(folder):
    readings = pl.read_parquet(f"{folder}/*.parquet")
    named = readings.with_columns(name=pl.format("{} valve {}", "engine", "valve")).sort("name", "at_hours", "state")

    def of_each_kind(frame, function, *given, **named):
        found = []
        for kind, band in BANDS.items():
            answer = pl.from_arrow(function(frame.filter(pl.col("kind") == kind), band, RULE, *given, **named))
            found.append(answer.with_columns(kind=pl.lit(kind)))
        return pl.concat(found)

    tables = {
        "judged": of_each_kind(readings, arrow.judge), "looks": of_each_kind(named, arrow.drift, lw.HOURS, **PAST)}
    with pl.SQLContext(tables) as ask:
        return {
            "judged": told(ask.execute(JUDGED_SQL, eager=True).rows()), "looks": told(ask.execute(LOOKS_SQL, eager=True).rows())}
