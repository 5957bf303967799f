//! The contact breaker: gap, dwell, and how they move the spark.
