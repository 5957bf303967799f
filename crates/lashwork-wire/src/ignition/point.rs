//! An ignition point in a document.

use crate::engine::cylinder;
use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::engine::Engine;
use lashwork::ignition::point::{Dial, Sparks};
use lashwork::job::ignition::IgnitionPoint;
use lashwork::quantity::{Advance, AxisAngle, Length, PistonTravel};

named!(Sparks as "SparksDoc" {
    /// When the cylinder fires.
    OnceACycle = "once_a_cycle",
    /// Also at overlap, for nothing: two plugs on one coil, or a magneto on the crank.
    OnceATurn = "once_a_turn",
});

parts! {
    /// One ignition point, to be said by every tool at hand.
    PointDoc {
        /// The point; where the timing is to be set if not stated.
        at: Option<Q<Advance>>,
        /// The cylinder of the dial gauge; the first of the firing order if not stated.
        cylinder: Option<String>,
        /// A dial gauge in its plug hole.
        dial: Option<DialDoc>,
        /// The piston travel that the book prints for the same point.
        book_travel: Option<Q<PistonTravel>>,
        /// Whether there is a degree wheel.
        wheel: Option<bool>,
        /// Whether the mark on the rim is laid off with a tape and not the maker's.
        by_tape: Option<bool>,
        /// How often a plug sparks; once a cycle if not stated.
        sparks: Option<W<Sparks>>,
    }
    /// A dial gauge in a plug hole.
    DialDoc {
        /// Its standard uncertainty; 0.05 mm is assumed, and listed, if not stated.
        uncertainty: Option<Q<Length>>,
        /// How far the plug hole leans from the bore; not at all if not stated.
        plug_hole: Option<Q<AxisAngle>>,
    }
}

const AT: &str = "/ignition/point";

/// The point in typed values.
pub(super) fn point(
    doc: PointDoc,
    engine: &Engine,
    problems: &mut Vec<Problem>,
) -> Option<IgnitionPoint> {
    let faults = problems.len();
    let mut made = IgnitionPoint::default();
    made.at = doc.at.map(|at| at.0);
    made.dial = doc.dial.and_then(|doc| {
        let u = doc.uncertainty.map(|u| u.0.mm());
        let lean = doc.plug_hole.map_or(0.0, |lean| lean.0.degrees());
        value(problems, format!("{AT}/dial"), Dial::new(u, lean))
    });
    made.book_travel = doc.book_travel.map(|travel| travel.0);
    made.wheel = doc.wheel.unwrap_or(false);
    made.by_tape = doc.by_tape.unwrap_or(false);
    made.sparks = doc.sparks.map(|word| word.0);
    if let Some(label) = doc.cylinder {
        let place = format!("{AT}/cylinder");
        made.cylinder = cylinder(engine, &label, &place, problems);
    }
    (problems.len() == faults).then_some(made)
}
