//! Mixture against published values, laws and reference values.
