//! The gap of contacts as leaves feel it.

use super::place::IgnitionPlace;
use crate::feeler::{GaugeUse, Reading};
use crate::ignition::breaker::{BreakerError, Contacts as Look, GapEvidence, gap_evidence};
use crate::job::assumptions::Assumptions;
use crate::job::clearance::assume_leaves;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::work::Sides;
use crate::quantity::{ContactGap, Lash, LengthUnit};
use crate::tolerance::{Estimate, Uncertainty};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// The words for a gap out of its band.
pub(super) const GAP_SIDES: Sides = Sides {
    below: "too narrow",
    above: "too wide",
};

/// What leaves say of the gap, given the look of the contacts; a refusal is noted at its place.
pub(super) fn evidence(
    reading: &Reading,
    look: Option<Look>,
    inches: bool,
    place: IgnitionPlace,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<GapEvidence> {
    let place = Place::Ignition(place);
    let felt = match reading.estimate_with(&GaugeUse::default(), None) {
        Ok(felt) => felt,
        Err(refused) => {
            problems.push(Problem::at(place, &refused));
            return None;
        }
    };
    assume_leaves(core::iter::once(&felt), inches, assumptions);
    match contact_gap(&felt.estimate) {
        Ok(gap) => {
            let evidence = gap_evidence(&gap, look);
            assumptions.add_all(&evidence.assumptions);
            Some(evidence)
        }
        Err(refused) => {
            problems.push(Problem::at(place, &refused));
            None
        }
    }
}

/// A gap of leaves as one of contacts.
fn contact_gap(felt: &Estimate<Lash>) -> Result<Estimate<ContactGap>, BreakerError> {
    let end = |end: Option<Lash>| end.map(|lash| ContactGap::from_mm(lash.mm())).transpose();
    let u = Uncertainty::from_number(felt.normal_uncertainty().mm())?;
    Ok(Estimate::of(end(felt.low())?, end(felt.high())?, u)?)
}

/// A length of so many millimetres in the unit a person reads.
pub(super) fn shown(mm: f64, unit: LengthUnit) -> String {
    let decimals = if unit == LengthUnit::Inch { 4 } else { 2 };
    ContactGap::from_mm(mm).map_or_else(|_| format!("{mm:.2} mm"), |gap| gap.show(unit, decimals))
}

/// A gap in words.
pub(super) fn said_gap(gap: &Estimate<ContactGap>, unit: LengthUnit) -> String {
    let show = |gap: ContactGap| shown(gap.mm(), unit);
    let u = shown(gap.normal_uncertainty().number(), unit);
    match (gap.low(), gap.high()) {
        (Some(low), Some(high)) if low == high => format!("{}, u {u}", show(low)),
        (Some(low), Some(high)) => format!("{} to {}, u {u}", show(low), show(high)),
        (Some(low), None) => format!("at least {}, u {u}", show(low)),
        (None, Some(high)) => format!("at most {}, u {u}", show(high)),
        (None, None) => String::from("nothing"),
    }
}
