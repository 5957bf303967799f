//! Valve events at the lash that was read, in a document.

use crate::problem::{Problem, value};
use crate::quantity::Q;
use lashwork::events::Flank;
use lashwork::job::condition::{Events, EventsField};
use lashwork::quantity::{CrankAngle, Lash, Length};

parts! {
    /// Valve events at the lash that was read: how steep the cam is where the lash is taken up. Printed events with
    /// the lash or lift at which they hold, and the readings, are those of the clearance section.
    EventsSectionDoc {
        /// Where the intake takes up its lash on opening; harmonic lift is taken, and listed, if not stated.
        intake: Option<ValveFlankDoc>,
        /// Where it comes back on closing; as on opening, if not stated.
        intake_closing: Option<ValveFlankDoc>,
        /// Where the exhaust takes up its lash on opening; harmonic lift is taken, and listed, if not stated.
        exhaust: Option<ValveFlankDoc>,
        /// Where it comes back on closing; as on opening, if not stated.
        exhaust_closing: Option<ValveFlankDoc>,
    }
    /// One side of a lobe: its ramp, or what two leaves measured.
    ValveFlankDoc {
        /// The ramp, at the follower.
        ramp: Option<RampDoc>,
        /// Measured at the valve.
        measured: Option<MeasuredFlankDoc>,
    }
    /// A ramp at the follower, and the flank beyond it.
    RampDoc {
        height: Q<Length>,
        /// How far the ramp rises in one degree of the cam; the crank turns two.
        rise_per_cam_degree: Q<Length>,
        /// How far the flank beyond it rises in one degree of the cam; without it a lash beyond the ramp gives one
        /// end only.
        beyond_per_cam_degree: Option<Q<Length>>,
    }
    /// Two leaves, each turned to until it is just gripped.
    MeasuredFlankDoc {
        thin: Q<Lash>,
        thick: Q<Lash>,
        /// Crank degrees between the two.
        apart: Q<CrankAngle>,
    }
}

const AT: &str = "/condition/events";

/// What is known of the cam, in typed values.
pub(super) fn events(doc: &EventsSectionDoc, problems: &mut Vec<Problem>) -> Option<Events> {
    let mut made = Events::default();
    let mut side = |doc: &Option<ValveFlankDoc>, field: &str| match doc {
        None => Ok(None),
        Some(doc) => flank(doc, &format!("{AT}/{field}"), problems)
            .map(Some)
            .ok_or(()),
    };
    let all = [
        side(&doc.intake, "intake"),
        side(&doc.intake_closing, "intake_closing"),
        side(&doc.exhaust, "exhaust"),
        side(&doc.exhaust_closing, "exhaust_closing"),
    ];
    let [intake, intake_closing, exhaust, exhaust_closing] = all;
    made.intake = intake.ok()?;
    made.intake_closing = intake_closing.ok()?;
    made.exhaust = exhaust.ok()?;
    made.exhaust_closing = exhaust_closing.ok()?;
    Some(made)
}

fn flank(doc: &ValveFlankDoc, place: &str, problems: &mut Vec<Problem>) -> Option<Flank> {
    match (&doc.ramp, &doc.measured) {
        (Some(ramp), None) => {
            let place = format!("{place}/ramp");
            let made = Flank::ramp(ramp.height.0, ramp.rise_per_cam_degree.0);
            let made = value(problems, place.clone(), made)?;
            match ramp.beyond_per_cam_degree {
                None => Some(made),
                Some(beyond) => {
                    let place = format!("{place}/beyond_per_cam_degree");
                    value(problems, place, made.then(beyond.0))
                }
            }
        }
        (None, Some(read)) => {
            let made = Flank::measured(read.thin.0, read.thick.0, read.apart.0);
            value(problems, format!("{place}/measured"), made)
        }
        _ => {
            problems.push(Problem::new(
                place,
                "condition.events-one-flank",
                "how the lash is taken up is stated in neither of two ways, or in both",
                "give one of ramp and measured",
            ));
            None
        }
    }
}

/// Where a field stands in the condition section.
pub(super) fn pointer(field: EventsField) -> String {
    use EventsField as F;
    let rest = match field {
        F::Intake => "/intake",
        F::IntakeClosing => "/intake_closing",
        F::Exhaust => "/exhaust",
        F::ExhaustClosing => "/exhaust_closing",
        _ => "",
    };
    format!("/events{rest}")
}
