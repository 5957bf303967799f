//! Magnetos in a document.

use super::contacts::Felt;
use crate::band::band;
use crate::part::Part;
use crate::problem::{Problem, is_short, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::engine::Sense;
use lashwork::ignition::breaker::Contacts as Look;
use lashwork::ignition::magneto::{EGap, MagnetoError, MagnetoSpeed, SpeedDrop, Which};
use lashwork::job::ignition::{DropRead, Magneto, MagnetoField, OneMagneto};
use lashwork::quantity::{Advance, CrankAngle, CrankSpeed, MagnetoAngle, Marked};
use lashwork::tolerance::{Limits, Uncertainty};

named!(Which as "WhichMagnetoDoc" {
    /// The left one, as the switch names it.
    Left = "left",
    /// The right one.
    Right = "right",
});

parts! {
    /// Magnetos: what was read of each, and what the book asks for.
    MagnetoDoc {
        /// Each of them; one, or a left and a right one.
        #[cfg_attr(feature = "schema", schemars(default))]
        magnetos: Part<Vec<OneMagnetoDoc>>,
        /// The book's ignition point, both ends.
        limits: Option<MagnetoLimitsDoc>,
        /// How far apart the book lets two spark, either way.
        most_apart: Option<Q<CrankAngle>>,
        /// The book's angle of the rotor past neutral at which the contacts open; one end may be open.
        e_gap_limits: Option<EGapLimitsDoc>,
        /// The book's gap of the contacts; one end may be open.
        gap_limits: Option<MagnetoGapLimitsDoc>,
        /// The test of each magneto alone on the running engine.
        drop: Option<DropDoc>,
    }
    /// One magneto, as read.
    OneMagnetoDoc {
        /// Which of two; needed where there are two.
        which: Option<W<Which>>,
        /// Its turns for one turn of the crank, such as 0.5, 1 or 1.5.
        turns_per_crank_turn: Option<f64>,
        /// Sparks in one turn of its rotor, each cylinder served once a cycle; gives the speed too.
        sparks_per_turn: Option<u8>,
        /// Which way its rotor turns, facing the end from which its body is turned.
        rotor: Option<W<Sense>>,
        /// How far its rotor is past neutral where the contacts open, in degrees of the magneto.
        e_gap: Option<Q<MagnetoAngle>>,
        /// Standard uncertainty of that; 1 degree either way is assumed, and listed, if not stated.
        e_gap_uncertainty: Option<Q<MagnetoAngle>>,
        /// What the faces of its contacts look like.
        look: Option<W<Look>>,
        /// What the leaves said with the follower on top of a lobe, as in "0.30 mm goes, 0.35 mm does not".
        gap: Option<Felt>,
        /// Where it sparks, read at the crank.
        sparks_at: Option<Q<Advance>>,
        /// Standard uncertainty of that; 1 degree either way is assumed, and listed, if not stated.
        uncertainty: Option<Q<CrankAngle>>,
        /// The lag of its impulse coupling, in degrees of the magneto, as on its plate.
        impulse_lag: Option<Q<MagnetoAngle>>,
    }
    /// The book's ignition point.
    MagnetoLimitsDoc { from: Q<Advance>, to: Q<Advance> }
    /// The book's angle past neutral.
    EGapLimitsDoc { from: Option<Q<MagnetoAngle>>, to: Option<Q<MagnetoAngle>> }
    /// The book's gap.
    MagnetoGapLimitsDoc { from: Option<Q<Marked>>, to: Option<Q<Marked>> }
    /// Speeds of the crank in the test of each magneto alone.
    DropDoc {
        both: Q<CrankSpeed>,
        /// With the left one alone.
        left: Q<CrankSpeed>,
        /// With the right one alone.
        right: Q<CrankSpeed>,
        /// Standard uncertainty of each; 10 rpm is assumed, and listed, if not stated.
        uncertainty: Option<Q<CrankSpeed>>,
        /// The book's greatest drop on either, if it prints one.
        most_drop: Option<Q<CrankSpeed>>,
        /// The book's greatest difference between the two drops.
        most_difference: Q<CrankSpeed>,
    }
}

const PLACE: &str = "/ignition/magneto";

/// In typed values.
pub(super) fn magneto(doc: MagnetoDoc, problems: &mut Vec<Problem>) -> Option<Magneto> {
    let faults = problems.len();
    let mut made = Magneto::default();
    let list = doc.magnetos.take(None, problems).unwrap_or_default();
    if is_short(&list, &format!("{PLACE}/magnetos"), problems) {
        for (i, doc) in list.into_iter().enumerate() {
            made.magnetos.push(one(doc, i, problems));
        }
    }
    made.limits = doc.limits.and_then(|doc| {
        let place = format!("{PLACE}/limits");
        value(problems, place, Limits::between(doc.from.0, doc.to.0))
    });
    made.most_apart = doc.most_apart.map(|most| most.0);
    made.e_gap_limits = doc
        .e_gap_limits
        .and_then(|doc| e_gap_limits(&doc, problems));
    made.gap_limits = doc.gap_limits.and_then(|doc| {
        let place = format!("{PLACE}/gap_limits");
        band(doc.from, doc.to, place, problems)
    });
    made.drop = doc.drop.and_then(|doc| drop(&doc, problems));
    (problems.len() == faults).then_some(made)
}

fn one(doc: OneMagnetoDoc, i: usize, problems: &mut Vec<Problem>) -> OneMagneto {
    let place = |field: &str| format!("{PLACE}/magnetos/{i}/{field}");
    let mut made = OneMagneto::default();
    made.which = doc.which.map(|word| word.0);
    made.speed = doc.turns_per_crank_turn.and_then(|turns| {
        let place = place("turns_per_crank_turn");
        value(problems, place, MagnetoSpeed::new(turns))
    });
    made.sparks_per_turn = doc.sparks_per_turn;
    made.rotor = doc.rotor.map(|word| word.0);
    made.e_gap = doc
        .e_gap
        .and_then(|angle| value(problems, place("e_gap"), e_gap(angle)));
    made.e_gap_uncertainty = doc.e_gap_uncertainty.and_then(|u| {
        let u = Uncertainty::from_number(u.0.degrees());
        value(problems, place("e_gap_uncertainty"), u)
    });
    made.look = doc.look.map(|word| word.0);
    made.gap = doc.gap.map(|felt| felt.0);
    made.sparks_at = doc.sparks_at.map(|at| at.0);
    made.uncertainty = doc.uncertainty.and_then(|u| {
        let u = Uncertainty::from_number(u.0.degrees());
        value(problems, place("uncertainty"), u)
    });
    made.lag = doc.impulse_lag.map(|lag| lag.0);
    made
}

fn e_gap(angle: Q<MagnetoAngle>) -> Result<EGap, MagnetoError> {
    EGap::from_degrees(angle.0.degrees())
}

fn e_gap_limits(doc: &EGapLimitsDoc, problems: &mut Vec<Problem>) -> Option<Limits<EGap>> {
    let place = format!("{PLACE}/e_gap_limits");
    let mut end = |angle: Option<Q<MagnetoAngle>>, end: &str| match angle {
        None => Some(None),
        Some(angle) => value(problems, format!("{place}/{end}"), e_gap(angle)).map(Some),
    };
    match (end(doc.from, "from")?, end(doc.to, "to")?) {
        (Some(from), Some(to)) => value(problems, place, Limits::between(from, to)),
        (Some(from), None) => Some(Limits::at_least(from)),
        (None, Some(to)) => Some(Limits::at_most(to)),
        (None, None) => band::<EGap>(None, None, place, problems),
    }
}

fn drop(doc: &DropDoc, problems: &mut Vec<Problem>) -> Option<DropRead> {
    let mut allowed = |speed: Q<CrankSpeed>, field: &str| {
        let allowed = SpeedDrop::from_rpm(speed.0.rpm());
        value(problems, format!("{PLACE}/drop/{field}"), allowed)
    };
    let most_difference = allowed(doc.most_difference, "most_difference")?;
    let mut made = DropRead::of(doc.both.0, doc.left.0, doc.right.0, most_difference);
    made.uncertainty = doc.uncertainty.map(|u| u.0);
    if let Some(most) = doc.most_drop {
        made.most_drop = Some(allowed(most, "most_drop")?);
    }
    Some(made)
}

/// Where a field stands in the ignition section.
pub(super) fn pointer(field: MagnetoField) -> String {
    use MagnetoField as F;
    let rest = match field {
        F::Magneto(i) => format!("/magnetos/{i}"),
        F::Gap(i) => format!("/magnetos/{i}/gap"),
        F::Speed(i) => format!("/magnetos/{i}/sparks_per_turn"),
        F::Lag(i) => format!("/magnetos/{i}/impulse_lag"),
        F::Spark(i) => format!("/magnetos/{i}/sparks_at"),
        F::Apart => "/most_apart".into(),
        F::Drop => "/drop".into(),
        _ => String::new(),
    };
    format!("/magneto{rest}")
}
