//! The library from Rust: the documents of the fuzz corpus, and what may never change.

mod corpus;
mod frozen;
mod warmth;
