//! The cautions every job sheet shows. Usual workshop practice; the maker's manual comes first.

/// What can hurt someone or the engine during this job, in the order in which it matters.
pub(super) const CAUTIONS: &[&str] = &[
    "The engine maker's manual, local codes and licensed practice come first; this sheet only computes.",
    "Disable the ignition and remove the key before the crank is turned by hand: a hot or primed engine can fire.",
    "Gearbox in neutral, wheels chocked; a raised vehicle or engine rests on rated stands, never on a jack.",
    "Turn the crank in its running direction only, with plugs out where the manual allows it.",
    "Stay clear of fans, belts and propellers; treat a propeller as live at all times.",
    "Hot metal and oil burn: when an engine is measured warm, protect hands and keep fuel away.",
    "Feel every valve again after the lock nut is tight: tightening moves the screw.",
];
