//! The contacts: gap and dwell against the book, what to set, and what that does to the timing.

mod advise;
mod answer;
mod read;
pub(super) mod sheet;

pub use answer::{ContactsReport, OtherScaleReport, SparkShiftReport};
pub(in crate::job) use read::dwell_read;

use super::cam::cam;
use super::leaves::{GAP_SIDES, said_gap};
use super::request::Distributor;
use super::{ContactsField, IgnitionPlace};
use crate::feeler::Reading;
use crate::ignition::breaker::{
    self, Dwell, DwellChange, DwellShown, Flanks, Lobes, VariedBy, dwell_variation, possible_scales,
};
use crate::job::assumptions::Assumptions;
use crate::job::known::Known;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::text::percent;
use crate::job::work::{Before, MeasuredReport, Sides, Standing, WorkAdvice, judged};
use crate::quantity::{ContactGap, LengthUnit};
use crate::tolerance::{Estimate, HasLimits, Limits, Verdict};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use read::Found;

/// The contacts: what was read of them, and what the book asks for.
///
/// ```
/// use lashwork::ignition::breaker::{Contacts as Look, DwellShown};
/// use lashwork::job::ignition::{Contacts, DwellRead};
/// let mut asked = Contacts::default();
/// asked.look = Some(Look::New);
/// asked.dwell = Some(DwellRead::of(DwellShown::parse("54 deg")?));
/// assert!(asked.dwell_limits.is_none());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Contacts {
    /// What their faces look like.
    pub look: Option<breaker::Contacts>,
    /// What the leaves said, on the highest point of a lobe.
    pub gap: Option<Reading>,
    /// The book's gap.
    pub gap_limits: Option<Limits<ContactGap>>,
    /// Whether the book is stated to print an unusual gap.
    pub gap_unusual: bool,
    /// What the meter showed at idle.
    pub dwell: Option<DwellRead>,
    /// The book's dwell, lower and upper limit.
    pub dwell_limits: Option<(DwellShown, DwellShown)>,
    /// What the meter showed at about 1500 a minute, the vacuum disconnected.
    pub dwell_faster: Option<DwellRead>,
    /// A gap and the dwell that goes with it, as printed; if not stated, the middles of the limits.
    pub pair: Option<PrintedPair>,
    /// Another such pair, which tests the first.
    pub second_pair: Option<PrintedPair>,
    /// How a change of dwell is shared between the flanks of a lobe; alike if not stated.
    pub flanks: Option<Flanks>,
}

/// What a dwell meter showed.
///
/// ```
/// use lashwork::ignition::breaker::{DwellShown, Lobes};
/// use lashwork::job::ignition::DwellRead;
/// let mut read = DwellRead::of(DwellShown::parse("35 deg")?);
/// read.scale = Some(Lobes::new(6)?);
/// assert!(read.uncertainty.is_none());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct DwellRead {
    /// What it showed.
    pub shown: DwellShown,
    /// For how many cylinders it is switched; for those of the engine if not stated.
    pub scale: Option<Lobes>,
    /// Standard uncertainty of the dwell; 1 degree is assumed, and listed, if not stated.
    pub uncertainty: Option<DwellChange>,
}

impl DwellRead {
    /// What it showed, the rest not stated.
    #[must_use]
    pub const fn of(shown: DwellShown) -> Self {
        Self {
            shown,
            scale: None,
            uncertainty: None,
        }
    }
}

/// A gap and the dwell that goes with it, as printed.
///
/// ```
/// use lashwork::ignition::breaker::DwellShown;
/// use lashwork::job::ignition::PrintedPair;
/// use lashwork::quantity::ContactGap;
/// let pair = PrintedPair {
///     gap: ContactGap::parse("0.40 mm")?,
///     dwell: DwellShown::parse("60 deg")?,
/// };
/// assert_eq!(pair.gap.mm(), 0.4);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PrintedPair {
    /// The gap.
    pub gap: ContactGap,
    /// Its dwell.
    pub dwell: DwellShown,
}

pub(super) const DWELL_SIDES: Sides = Sides {
    below: "too little dwell: the gap is too wide",
    above: "too much dwell: the gap is too narrow",
};
const CHANGE_SIDES: Sides = Sides {
    below: "falls too much with speed",
    above: "grows too much with speed",
};

/// Works it out.
pub(super) fn report(
    asked: &Contacts,
    known: Known<'_>,
    distributor: &Distributor,
    before: &Before,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<ContactsReport> {
    let cam = cam(known, distributor, assumptions, problems)?;
    let faults = problems.len();
    let unit = known.shown.length();
    let inches = unit == LengthUnit::Inch;
    let found = read::all(asked, cam, inches, assumptions, problems);
    if problems.len() > faults {
        return None;
    }
    let dwell = found.dwell.as_ref().zip(found.dwell_limits.as_ref());
    let dwell = dwell.map(|(read, limits)| {
        let said = said_dwell(read, cam.lobes);
        judged(said, read, limits, &Dwell::USUAL_RULE, DWELL_SIDES)
    });
    let gap = found.gap.as_ref().zip(found.gap_limits.as_ref());
    let gap = gap.map(|(read, limits)| {
        let said = said_gap(&read.gap, unit);
        judged(said, &read.gap, limits, &ContactGap::USUAL_RULE, GAP_SIDES)
    });
    let mut refuse = |field, refused| {
        problems.push(Problem::at(place(field), &refused));
    };
    let other_scales = match other_scales(asked, &found) {
        Ok(scales) => scales,
        Err(refused) => {
            refuse(ContactsField::Dwell, refused);
            return None;
        }
    };
    let steady = found.dwell.as_ref().zip(found.faster.as_ref());
    let steady = steady.map(|(idle, fast)| dwell_variation(idle, fast, VariedBy::Speed, None));
    let steady = match steady.transpose() {
        Ok(varied) => varied.map(|varied| {
            let said = advise::said_change(&varied.change);
            let rule = DwellChange::USUAL_RULE;
            judged(said, &varied.change, &varied.limits, &rule, CHANGE_SIDES)
        }),
        Err(refused) => {
            refuse(ContactsField::DwellFaster, refused);
            return None;
        }
    };
    let mut made = ContactsReport {
        lobes: cam.lobes.number(),
        dwell,
        gap,
        other_scales,
        leaf_against_dwell: advise::leaf_against_dwell(&found, unit),
        steady,
        second_pair: found.test.as_ref().map(advise::second_pair),
        advice: WorkAdvice::Measure {
            text: String::new(),
        },
        spark: None,
    };
    match advise::advise(asked, &found, &made, before, unit, assumptions) {
        Ok((advice, spark)) => {
            made.advice = advice;
            made.spark = spark;
            Some(made)
        }
        Err(refused) => {
            refuse(ContactsField::Section, refused);
            None
        }
    }
}

/// How far it is settled, for the order of work.
pub(super) fn standing(found: &ContactsReport) -> (Standing, String) {
    let verdict = [&found.dwell, &found.gap].into_iter().flatten().next();
    let text = verdict.map_or("not judged", |one| one.verdict_text.as_str());
    let standing = match &found.advice {
        WorkAdvice::Leave { .. } => Standing::Settled,
        _ if verdict.is_none() => Standing::NotKnown,
        _ => Standing::NotSettled,
    };
    (standing, text.to_string())
}

/// Scales on which the reading would be in the band.
fn other_scales(
    asked: &Contacts,
    found: &Found,
) -> Result<Vec<OtherScaleReport>, breaker::BreakerError> {
    let (Some(read), Some(dwell), Some(limits)) = (&asked.dwell, &found.dwell, &found.dwell_limits)
    else {
        return Ok(Vec::new());
    };
    let taken = read.shown.scale(read.scale, found.cam.lobes);
    let scales = possible_scales(dwell, taken, found.cam.lobes, limits, &Dwell::USUAL_RULE)?;
    let said = scales.iter().filter_map(|other| {
        let dwell = other.dwell.centre()?;
        Some(OtherScaleReport {
            scale: other.scale.to_string(),
            dwell,
            in_band: other.in_band,
            text: format!(
                "were the meter on {}, this reading would be {:.1} deg, with {} in the band",
                other.scale,
                dwell.degrees(),
                percent(other.in_band)
            ),
        })
    });
    Ok(said.collect())
}

fn said_dwell(read: &Estimate<Dwell>, lobes: Lobes) -> String {
    let (Some(dwell), Some(u)) = (read.centre(), read.standard_uncertainty()) else {
        return String::from("one end only");
    };
    let share = lobes.percent(dwell).map(|share| format!(" ({share:.0} %)"));
    format!(
        "{:.1} deg{}, u {:.1} deg",
        dwell.degrees(),
        share.unwrap_or_default(),
        u.number()
    )
}

fn place(field: ContactsField) -> Place {
    Place::Ignition(IgnitionPlace::Contacts(field))
}

/// Whether a verdict was reached that the contacts are not as the book asks.
fn is_off(judged: Option<&MeasuredReport>) -> bool {
    judged.is_some_and(|one| matches!(one.verdict, Verdict::Below | Verdict::Above))
}
