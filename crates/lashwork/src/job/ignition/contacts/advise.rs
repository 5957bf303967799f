//! What to do at the contacts, and what that does to the spark.

use super::answer::SparkShiftReport;
use super::read::Found;
use super::{Contacts, ContactsReport, is_off};
use crate::ignition::breaker::{
    Agreement, BreakerAssumption, BreakerError, Contacts as Look, DwellAim, DwellChange,
    LeafFinding, MeterScale, SecondPair, SparkShift, VariedBy, dwell_aim, gap_aim, spark_shift,
};
use crate::job::assumptions::Assumptions;
use crate::job::ignition::leaves::{said_gap, shown};
use crate::job::work::{Before, MeasuredReport, WorkAdvice};
use crate::quantity::LengthUnit;
use crate::tolerance::{Estimate, Uncertainty, Verdict};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

type Advised = (WorkAdvice, Option<SparkShiftReport>);

/// The advice for what was found.
pub(super) fn advise(
    asked: &Contacts,
    found: &Found,
    made: &ContactsReport,
    before: &Before,
    unit: LengthUnit,
    assumptions: &mut Assumptions,
) -> Result<Advised, BreakerError> {
    let alone = |advice| Ok((advice, None));
    if let Some(text) = &before.settle {
        let text = text.clone();
        return alone(WorkAdvice::SettleFirst { text });
    }
    if is_off(made.steady.as_ref()) {
        return alone(WorkAdvice::FindCause {
            text: String::from(
                "the dwell does not keep with speed: no setting of the contacts holds",
            ),
            causes: Vec::from([VariedBy::Speed.points_to().to_string()]),
        });
    }
    if let Some(other) = made.other_scales.first() {
        return alone(WorkAdvice::Measure {
            text: format!(
                "look at the switch of the meter before anything is set: {}; then read again",
                other.text
            ),
        });
    }
    let by_dwell = made.dwell.as_ref().map(MeasuredReport::shown);
    let by_gap = made.gap.as_ref().map(MeasuredReport::shown);
    match (by_dwell, by_gap) {
        (Some(Verdict::InBand), _) => {
            alone(leave("the dwell is as the book asks: leave the contacts"))
        }
        (Some(Verdict::Below | Verdict::Above), _) => {
            set_by_dwell(asked, found, before, unit, assumptions)
        }
        (None, Some(Verdict::InBand)) => alone(leave(
            "the gap is as the book asks: leave the contacts; a dwell meter would say it better",
        )),
        (None, Some(Verdict::Below | Verdict::Above)) => {
            set_by_gap(asked, found, before, unit, assumptions)
        }
        _ if asked.look == Some(Look::Pitted) => alone(WorkAdvice::Measure {
            text: String::from(
                "read the dwell, or dress or replace the contacts: between pitted ones a leaf rests on the peak, and the true gap is wider",
            ),
        }),
        _ => alone(WorkAdvice::Measure {
            text: String::from(
                "read the dwell, or which leaf goes between flat contacts and which does not, and give the book's limits",
            ),
        }),
    }
}

fn leave(text: &str) -> WorkAdvice {
    WorkAdvice::Leave {
        text: String::from(text),
    }
}

/// Set until the meter shows the aim; with a pair of gap and dwell also how far.
fn set_by_dwell(
    asked: &Contacts,
    found: &Found,
    before: &Before,
    unit: LengthUnit,
    assumptions: &mut Assumptions,
) -> Result<Advised, BreakerError> {
    let (Some(dwell), Some(limits)) = (found.dwell.as_ref(), found.dwell_limits.as_ref()) else {
        return Err(BreakerError::OneSided { what: "the dwell" });
    };
    let (Some(now), Some(u)) = (dwell.centre(), dwell.standard_uncertainty()) else {
        return Err(BreakerError::OneSided { what: "the dwell" });
    };
    let aim = dwell_aim(limits, u, asked.look, None)?;
    assumptions.add_all(&aim.assumptions);
    let change = aim.set_to - now;
    let which = if change.degrees() > 0.0 {
        "narrower"
    } else {
        "wider"
    };
    let mut text = format!("set the gap {which} until the meter shows the dwell below");
    if let Some(lobe) = &found.lobe {
        // A reading far from the pair may have no gap in the model; then the meter alone leads.
        if let (Ok(from), Ok(to)) = (lobe.gap_at(dwell), lobe.gap_of(aim.set_to))
            && let (Some(at), Some(gap_u)) = (from.centre(), from.standard_uncertainty())
        {
            text = format!(
                "{text}: about {} {which}, from {} to {} by the printed pair, u {}",
                shown((to.mm() - at.mm()).abs(), unit),
                shown(at.mm(), unit),
                shown(to.mm(), unit),
                shown(gap_u.number(), unit)
            );
            assumptions.add_all(&[BreakerAssumption::HalfCosineLobe]);
        }
    }
    let turned = Estimate::between(change, change, Uncertainty::from_number(u.number())?)?;
    let shift = spark_shift(&turned, found.cam.speed, asked.flanks)?;
    let scale = asked
        .dwell
        .map_or(MeterScale::Cylinders(found.cam.lobes), |read| {
            read.shown.scale(read.scale, found.cam.lobes)
        });
    let sure = format!("the meter stands on {scale}");
    Ok((
        WorkAdvice::Set {
            first: first(before, sure),
            text,
            then_reads: reads(&aim, found, scale),
        },
        Some(moved(&shift, assumptions)),
    ))
}

/// Set by leaves; where a pair is known, with what it does to the spark.
fn set_by_gap(
    asked: &Contacts,
    found: &Found,
    before: &Before,
    unit: LengthUnit,
    assumptions: &mut Assumptions,
) -> Result<Advised, BreakerError> {
    let (Some(read), Some(limits)) = (found.gap.as_ref(), found.gap_limits.as_ref()) else {
        return Err(BreakerError::OneSided { what: "the gap" });
    };
    let u = read.gap.normal_uncertainty();
    let aim = gap_aim(limits, u, asked.look)?;
    let spark = match &found.lobe {
        Some(lobe) => {
            let to = Estimate::between(aim, aim, u)?;
            let shift = lobe.spark_shift(&read.gap, &to, found.cam.speed, asked.flanks);
            shift.ok().map(|shift| moved(&shift, assumptions))
        }
        None => None,
    };
    let why = match asked.look {
        Some(Look::New) => ", to the wide end because the block of new contacts wears in",
        _ => "",
    };
    let top = String::from("the rubbing block stands on the highest point of a lobe");
    Ok((
        WorkAdvice::Set {
            first: first(before, top),
            text: format!("set the gap to {}{why}", shown(aim.mm(), unit)),
            then_reads: format!(
                "{} by the leaves; then read the dwell",
                shown(aim.mm(), unit)
            ),
        },
        spark,
    ))
}

fn first(before: &Before, own: String) -> Vec<String> {
    before.sure.iter().cloned().chain([own]).collect()
}

/// What the meter shows then, on its own scale too where that is another.
fn reads(aim: &DwellAim, found: &Found, scale: MeterScale) -> String {
    let share = found.cam.lobes.percent(aim.set_to);
    let share = share.map_or_else(|_| String::new(), |share| format!(" ({share:.0} %)"));
    let mut text = format!("{:.1} deg of dwell{share}", aim.set_to.degrees());
    if scale != MeterScale::Cylinders(found.cam.lobes)
        && let Ok(shows) = scale.shows(aim.set_to, found.cam.lobes)
    {
        text = format!("{text}, which is {shows:.1} on {scale}");
    }
    if aim.room_to_wear.degrees() > 0.0 {
        text = format!(
            "{text}, with {:.1} deg left for wear",
            aim.room_to_wear.degrees()
        );
    }
    if !aim.kept {
        text += "; the band is narrow for this meter, so read it several times";
    }
    text
}

fn moved(shift: &SparkShift, assumptions: &mut Assumptions) -> SparkShiftReport {
    assumptions.add_all(&shift.assumptions);
    SparkShiftReport::new(shift.earlier, shift.uncertainty)
}

/// What leaf and dwell say together, where both and a pair are known.
pub(super) fn leaf_against_dwell(found: &Found, unit: LengthUnit) -> Option<String> {
    let (lobe, gap, dwell) = (
        found.lobe.as_ref()?,
        found.gap.as_ref()?,
        found.dwell.as_ref()?,
    );
    let both = lobe.leaf_against_dwell(&gap.gap, dwell).ok()?;
    let by_dwell = said_gap(&both.gap_by_dwell, unit);
    Some(match both.finding {
        LeafFinding::Agree => format!("leaf and dwell agree: by the dwell {by_dwell}"),
        LeafFinding::LeafShowsLess => format!(
            "the leaf shows less than the dwell, which stands for {by_dwell}: look for pitted contacts, then for uneven lobes"
        ),
        LeafFinding::LeafShowsMore => format!(
            "the leaf shows more than the dwell, which stands for {by_dwell}: look whether the block stood on the highest point of a lobe, at the shaft, and at the switch of the meter"
        ),
    })
}

/// What a second printed pair says of the first.
pub(super) fn second_pair(test: &SecondPair) -> String {
    let held = format!(
        "the second pair prints {:.1} deg where the first leads to {:.1} deg, u {:.1} deg",
        test.printed.degrees(),
        test.predicted.degrees(),
        test.uncertainty
    );
    match test.agreement {
        Agreement::Agrees => format!("{held}: they agree"),
        Agreement::Doubtful => {
            format!("{held}: doubtful; check both against the book")
        }
        Agreement::Contradicts => format!(
            "{held}: they contradict each other; believe neither, and set by the meter alone"
        ),
    }
}

/// A change of dwell in words.
pub(super) fn said_change(change: &Estimate<DwellChange>) -> String {
    let (Some(centre), Some(u)) = (change.centre(), change.standard_uncertainty()) else {
        return String::from("one end only");
    };
    format!("{:+.1} deg, u {:.1} deg", centre.degrees(), u.number())
}
