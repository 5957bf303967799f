//! wire
