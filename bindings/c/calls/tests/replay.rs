//! Every call of the header, with the arguments of the corpus and with drawn ones.

use lashwork_c_calls::{count, make};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// How often each call is drawn: under a tool that looks at every access, once.
const TIMES: u64 = if cfg!(miri) { 1 } else { 60 };

#[test]
fn every_call_keeps_the_rules_with_drawn_arguments() {
    assert!(count() > 70 && count() < 256, "{} calls", count());
    for call in 0..count() {
        for time in 0..TIMES {
            let [which, ..] = call.to_le_bytes();
            let mut drawn = fastrand::Rng::with_seed(time << 8 | u64::from(which));
            let mut asked = vec![which];
            asked.extend((0..400).map(|_| drawn.u8(..)));
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
