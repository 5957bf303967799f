//! Whether carburettors share the work, and which screw to turn how far.
