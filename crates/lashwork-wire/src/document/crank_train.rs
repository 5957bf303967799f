//! Crank, rods and cam ring.

use crate::quantity::Q;
use lashwork::quantity::{AxisAngle, Length, PinOffset};
use schemars::JsonSchema;

words!(RingSenseDoc {
    /// With the crank.
    Same = "same",
    /// Against the crank.
    Opposite = "opposite",
});

parts! {
    /// Crank and rod.
    CrankDoc {
        /// From the crank's centre to the crankpin's: half the stroke without offset.
        throw: Q<Length>,
        /// The rod between centres.
        rod: Q<Length>,
        /// How far the piston pin's line misses the crank's centre; positive toward the side the
        /// crankpin moves to in the first half turn.
        offset: Q<PinOffset>,
    }
    /// Master and link rods, alike in all rows.
    LinkRodsDoc {
        throw: Q<Length>,
        master_rod: Q<Length>,
        /// From the crankpin's centre to a knuckle pin's.
        knuckle_radius: Q<Length>,
        link_rod: Q<Length>,
        /// One for each master rod.
        rows: Vec<RowDoc>,
        /// Link rods that differ, or whose knuckle pin is not at the bank angle.
        knuckles: Option<Vec<KnuckleDoc>>,
    }
    /// A master rod and what hangs on it.
    RowDoc {
        /// Label of the cylinder with the master rod.
        master: String,
        /// Labels of the cylinders with link rods; without it all others on the same crankpin.
        links: Option<Vec<String>>,
    }
    /// A link rod of its own.
    KnuckleDoc {
        cylinder: String,
        /// Direction of the knuckle pin from the crankpin, with the master at its top, on the scale
        /// of the bank angles.
        at: Option<Q<AxisAngle>>,
        radius: Option<Q<Length>>,
        link_rod: Option<Q<Length>>,
    }
    /// A cam ring.
    CamRingDoc {
        /// Lobes for one kind of valve.
        lobes: u8,
        crank_turns_per_ring_turn: f64,
        sense: RingSenseDoc,
    }
}
