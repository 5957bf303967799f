//! feeler
