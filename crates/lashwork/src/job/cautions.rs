//! The cautions every job sheet shows. Usual workshop practice; the maker's manual comes first.

use alloc::vec::Vec;

/// What can hurt someone or the engine whenever a crank is turned, in the order in which it matters.
const TURNING: [&str; 5] = [
    "The engine maker's manual, local codes and licensed practice come first; this sheet only computes.",
    "Disable the ignition and remove the key before the crank is turned by hand: a hot or primed engine can fire.",
    "Gearbox in neutral, wheels chocked; a raised vehicle or engine rests on rated stands, never on a jack.",
    "Turn the crank in its running direction only, with plugs out where the manual allows it.",
    "Stay clear of fans, belts and propellers; treat a propeller as live at all times.",
];

/// What is added when valve clearances are measured and set.
const CLEARANCE: [&str; 2] = [
    "Hot metal and oil burn: when an engine is measured warm, protect hands and keep fuel away.",
    "Check every gap again after the lock nut is tight: tightening moves the screw.",
];

/// The cautions of a job.
pub(super) fn cautions(clearance: bool) -> Vec<&'static str> {
    let more: &[&str] = if clearance { &CLEARANCE } else { &[] };
    TURNING.iter().chain(more).copied().collect()
}
