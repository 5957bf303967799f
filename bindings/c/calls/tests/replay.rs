//! Every call of the header, with the arguments of the corpus and with drawn ones.

use lashwork_c_calls::{count, make};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// A small generator of bytes: the same on every run.
fn bytes(seed: u64, len: usize) -> Vec<u8> {
    let mut state = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1;
    let next = |_| {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        (state >> 32) as u8
    };
    (0..len).map(next).collect()
}

/// How often each call is drawn: under a tool that looks at every access, once.
const TIMES: u64 = if cfg!(miri) { 1 } else { 60 };

#[test]
fn every_call_keeps_the_rules_with_drawn_arguments() {
    assert!(count() > 70 && count() < 256, "{} calls", count());
    for call in 0..count() {
        for time in 0..TIMES {
            let mut asked = vec![call as u8];
            asked.extend(bytes(time << 8 | call as u64, 400));
            make(&asked);
        }
    }
}

/// Rules that hold of calls that are refused alone would say little.
#[test]
#[cfg_attr(miri, ignore = "it takes hours, and drawn arguments go the same ways")]
fn the_corpus_keeps_the_rules_and_has_most_calls_done() -> Result<(), std::io::Error> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fuzz/corpus/calls");
    let (mut seen, mut done) = (BTreeSet::new(), BTreeSet::new());
    for entry in fs::read_dir(folder)? {
        for (call, is_done) in make(&fs::read(entry?.path())?) {
            seen.insert(call);
            if is_done {
                done.insert(call);
            }
        }
    }
    let refused: Vec<_> = seen.difference(&done).collect();
    // What is left takes several structures that fit each other; the contract test and the shared calls have them done.
    assert!(
        done.len() * 4 > count() * 3,
        "of {} calls never done: {refused:?}",
        count()
    );
    Ok(())
}
