"""When to look at each valve again, in Polars: `python examples/fleet/polars_drift.py`. The readings are invented."""

import lashwork as lw
import polars as pl
from lashwork import arrow

services = pl.DataFrame({"km": [0.0, 6000.0, 12000.0, 18000.0]})
valves = pl.DataFrame({"valve": [f"engine {n // 8:04} valve {n % 8 + 1}" for n in range(8000)], "wear": [n % 90 / 4e7 for n in range(8000)]})
past = valves.join(services, how="cross").with_columns(low_mm=0.2 - pl.col("wear") * pl.col("km"), uncertainty_mm=pl.lit(0.005))

past = past.with_columns(high_mm=pl.col("low_mm") + 0.02).sort("valve", "km")
looks = pl.from_arrow(arrow.drift(past, lw.limits("0.15 mm", "0.25 mm"), lw.GUARDED_TIGHT, lw.DISTANCE, at="km"))
print(looks.group_by("look").agg(pl.len(), pl.col("look_at").min().alias("first_km")).sort("look"))
