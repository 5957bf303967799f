//! adjust
