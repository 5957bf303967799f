//! Condition against published values, laws and reference values.

mod compression_laws;
mod compression_oracles;
mod compression_published;
mod events_published;
mod head_published;
mod leak_columns;
mod leak_oracles;
mod leak_published;
mod read;
