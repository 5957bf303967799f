"""Judges readings in Spark: `python examples/fleet/spark_judge.py [MASTER]`. The readings are invented.

The wheel, pyarrow and pandas must be there for the Python of every worker; `--py-files` carries no native code. A worker
with another lashwork refuses to work and says which one it has.
"""

import sys

import lashwork as lw
from lashwork import arrow
from pyspark.sql import SparkSession
from pyspark.sql.pandas.types import from_arrow_schema
from pyspark.sql.types import StructType

READINGS = ("id AS valve", "0.1D + id % 150 / 1000D AS low_mm", "low_mm + 0.02D AS high_mm", "0.005D AS uncertainty_mm")

spark = SparkSession.builder.master(sys.argv[1] if len(sys.argv) > 1 else "local[2]").appName("judge").getOrCreate()
readings = spark.range(1_000_000).selectExpr(*READINGS)
work = arrow.shipped(arrow.judge, lw.limits("0.15 mm", "0.20 mm"), lw.GUARDED_TIGHT)
schema = StructType([*readings.schema, *from_arrow_schema(arrow.JUDGED)])
readings.mapInArrow(work, schema).groupBy("verdict").count().orderBy("verdict").show()
spark.stop()
