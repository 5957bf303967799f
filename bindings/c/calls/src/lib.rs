//! Every call of the C header with arguments made from bytes: within the contract's ranges and outside them, but
//! never a pointer that leads nowhere.
//!
//! What is held of every call: a status that the header knows and never a caught panic; an error if and only if
//! the call was not done; nothing written unless it was done; nothing written into what is only read; nothing
//! beyond the end of a column (which a sanitizer sees); and the same again when asked again.
#![allow(unsafe_code, reason = "what is tried here is an interface of pointers")]
#![allow(
    clippy::missing_panics_doc,
    clippy::panic,
    clippy::unreachable,
    reason = "a panic is how a finding is told"
)]

mod asked;
mod block;
mod made;
mod source;
mod table;
mod told;

use arbitrary::Unstructured;
use made::Made;
use table::CALLS;

/// Most calls in a row: an engine, a plan of it, and what is asked of the two.
const MOST: usize = 6;

/// Makes the calls that the bytes say, one after the other; gives their names, and whether each was done.
#[expect(
    clippy::must_use_candidate,
    reason = "what it holds is the point, not what it gives"
)]
pub fn make(bytes: &[u8]) -> Vec<(&'static str, bool)> {
    let mut source = Unstructured::new(bytes);
    let (mut made, mut told) = (Made::default(), Vec::new());
    while told.len() < MOST && !source.is_empty() {
        let which = source::below(&mut source, CALLS.len());
        if let Some(call) = CALLS.get(which) {
            told.push((call.name, made.call(call, &mut source)));
        }
    }
    told::of_nothing(&mut source);
    told
}

/// How many calls there are to make.
#[must_use]
pub fn count() -> usize {
    CALLS.len()
}
