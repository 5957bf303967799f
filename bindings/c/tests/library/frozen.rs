//! What programs were built against stays: every number of the header and the size of every structure
//! stands in `frozen.txt`. A line may be added; one that is there may never change.
#![allow(
    unsafe_code,
    reason = "the size of a structure is asked as C programs ask it"
)]

use lashwork_c::version::lw_struct_size;
use std::collections::BTreeSet;

const HEADER: &str = include_str!("../../include/lashwork.h");
const FROZEN: &str = include_str!("../frozen.txt");

/// `NAME number` for every enumerator, `sizeof name number` for every structure.
fn stated() -> BTreeSet<String> {
    let enumerators = HEADER
        .lines()
        .filter_map(|line| line.trim().strip_suffix(','))
        .filter_map(|line| line.split_once(" = "))
        .filter(|(name, _)| name.starts_with("LW_"))
        .map(|(name, number)| format!("{name} {number}"));
    let structures = HEADER
        .lines()
        .filter_map(|line| line.strip_prefix("} lw_")?.strip_suffix(';'))
        .map(|name| {
            let name = format!("lw_{name}");
            // SAFETY: the name is readable for its length.
            let size = unsafe { lw_struct_size(name.as_ptr().cast(), name.len()) };
            format!("sizeof {name} {size}")
        });
    enumerators.chain(structures).collect()
}

#[test]
fn what_is_frozen_is_what_the_header_states() {
    let (stated, frozen) = (
        stated(),
        FROZEN.lines().map(str::to_owned).collect::<BTreeSet<_>>(),
    );
    let changed: Vec<_> = frozen.difference(&stated).collect();
    assert!(changed.is_empty(), "gone or changed: {changed:?}");
    let new: Vec<_> = stated.difference(&frozen).collect();
    assert!(new.is_empty(), "add to frozen.txt: {new:?}");
    assert!(frozen.len() > 60, "only {} lines", frozen.len());
}

#[test]
fn every_structure_has_a_size() {
    let stated = stated();
    let mut structures = stated.iter().filter(|line| line.starts_with("sizeof "));
    assert!(structures.all(|line| !line.ends_with(" 0")));
}
