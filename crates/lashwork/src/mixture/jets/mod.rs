//! Which size of jet goes with a change of air.
