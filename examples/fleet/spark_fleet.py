"""From a folder of readings in Parquet to the valves that want a look before the next service of their engine:
`spark-submit examples/fleet/spark_fleet.py READINGS HOURS`, where HOURS lie from one service to the next.

README.md beside this file says what the columns are and how lashwork reaches the workers.
"""

import sys
from functools import reduce

import lashwork as lw
from bands import BANDS, RULE
from lashwork import arrow
from pyspark.sql import DataFrame, SparkSession, functions as F
from pyspark.sql.pandas.types import from_arrow_schema, to_arrow_schema


def over(frame, function, *given, **named):
    """A function of `lashwork.arrow` over a frame. Columns of a wrong type are refused here, before a worker begins."""
    schema = function(to_arrow_schema(frame.schema).empty_table(), *given, **named).schema
    return frame.mapInArrow(arrow.shipped(function, *given, **named), from_arrow_schema(schema))


def judged(readings):
    """Every reading with its verdict, by the limits in its own row."""
    return over(readings, arrow.judge, None, RULE)


def looks(readings):
    """Every valve with its drift, and when to look at it next."""
    named = readings.withColumn("name", F.concat_ws(" valve ", "engine", "valve"))
    together = named.repartition("name").sortWithinPartitions("name", "at_hours", "state")
    given = {"valve": "name", "at": "at_hours", "state": "state"}

    def of(kind, band):
        some = together.filter(F.col("kind") == kind)
        return over(some, arrow.drift, band, RULE, lw.HOURS, **given).withColumn("kind", F.lit(kind))

    return reduce(DataFrame.union, [of(kind, band) for kind, band in BANDS.items()])


def due(readings, found, hours):
    """The valves that the rule may no longer accept when the next service comes."""
    last = readings.groupBy("engine").agg((F.max("at_hours") + hours).alias("next_service"))
    found = found.withColumn("engine", F.split("name", " valve ")[0]).join(last, "engine")
    return found.filter("look = 'now' OR look = 'at' AND look_at < next_service").drop("engine")


if __name__ == "__main__":
    spark = SparkSession.builder.appName("valves due").getOrCreate()
    readings = spark.read.parquet(sys.argv[1])
    found = looks(readings).cache()
    found.groupBy("look").count().orderBy("look").show()
    first = due(readings, found, float(sys.argv[2])).orderBy("look_at", "name")
    first.select("name", "kind", "look", "look_at", "next_service").show(20, truncate=False)
    spark.stop()
