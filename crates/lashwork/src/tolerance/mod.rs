//! tolerance
