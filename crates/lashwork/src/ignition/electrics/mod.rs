//! Coil, condenser, plug and magneto: whether there is a spark, and how much to spare.
