//! Dwell and gap, and what a change of dwell does to the spark.

use super::super::contacts::DwellLimitsDoc;
use super::found::{Found, Judged, Taken, stated, take};
use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::ignition::breaker::{
    CamSpeed, Dwell, DwellChange, DwellShown, Flanks, GapAndDwell, GapSizes, LobeModel, Lobes,
    MeterScale, possible_scales, spark_shift,
};
use lashwork::quantity::{ContactGap, CrankAngle};
use lashwork::tolerance::{Estimate, HasLimits, Limits};
use serde::Serialize;

parts! {
    /// A dwell, and the gap that goes with it.
    DwellCheckDoc {
        /// Lobes of the breaker's cam.
        lobes: u8,
        /// What a meter shows.
        reading: Option<MeterDoc>,
        /// To say the reading on the scale for so many cylinders too.
        to_scale: Option<u8>,
        /// The book's dwell, in degrees or per cent.
        limits: Option<DwellLimitsDoc>,
        /// A gap and the dwell that goes with it, as printed; it leads from dwell to gap and back.
        pair: Option<PrintedPairDoc>,
        /// A gap, to be told the dwell that goes with it; needs `pair`.
        gap: Option<GapDoc>,
        /// Whether the book prints a gap outside 0.1 to 1.0 mm.
        gap_unusual: Option<bool>,
    }
    /// What a dwell meter shows.
    MeterDoc {
        /// In degrees or per cent.
        shows: Q<DwellShown>,
        /// For how many cylinders it is switched; for as many as the cam has lobes if not stated.
        scale: Option<u8>,
        /// Standard uncertainty of the dwell.
        uncertainty: Q<DwellChange>,
    }
    /// A printed gap and its dwell; both are right to their last digit where nothing else is stated: within
    /// 0.005 mm and half a degree, equally likely anywhere.
    PrintedPairDoc {
        gap: Q<ContactGap>,
        /// Standard uncertainty of the gap.
        gap_uncertainty: Option<Q<ContactGap>>,
        dwell: Q<DwellShown>,
        /// Standard uncertainty of the dwell.
        dwell_uncertainty: Option<Q<DwellChange>>,
    }
    /// A gap.
    GapDoc {
        is: Q<ContactGap>,
        /// Standard uncertainty.
        uncertainty: Q<ContactGap>,
    }
    /// A change of dwell.
    SparkShiftCheckDoc {
        /// More dwell is positive.
        dwell_change: Q<DwellChange>,
        /// Standard uncertainty.
        uncertainty: Q<DwellChange>,
        /// What turns the cam.
        cam: W<CamSpeed>,
        /// The share of it that falls on the flank which opens the contacts, 0 to 1; a half, and listed, if
        /// not stated.
        opening_share: Option<f64>,
    }
}

/// A dwell, and the gap that goes with it.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(crate) struct DwellFound {
    /// The dwell that was read, in degrees of the cam.
    reading: Option<Found<Dwell>>,
    /// The same in per cent.
    percent: Option<f64>,
    /// The same in degrees of the scale that was asked for.
    on_scale: Option<f64>,
    /// The reading against the book.
    judged: Option<Judged>,
    /// Scales on which the meter may have stood instead; a possibility, never corrected.
    other_scales: Vec<OtherScaleFound>,
    /// The gap that goes with the reading.
    gap: Option<Found<ContactGap>>,
    /// The dwell that goes with the gap that was given.
    at_gap: Option<Found<Dwell>>,
}

/// A scale on which the meter may have stood.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(crate) struct OtherScaleFound {
    /// Which scale, in words.
    scale: String,
    /// What the dwell would be.
    dwell: Found<Dwell>,
    /// How probable it is that such a dwell lies in the band.
    in_band: f64,
}

/// How far the spark moves.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(crate) struct SparkShiftFound {
    /// How much earlier it comes, in crank degrees; negative is later.
    earlier: CrankAngle,
    /// Standard uncertainty of that.
    uncertainty_deg: f64,
}

const AT: &str = "/dwell";

pub(super) fn found(doc: &DwellCheckDoc, problems: &mut Vec<Problem>) -> Option<DwellFound> {
    let faults = problems.len();
    let lobes = value(problems, format!("{AT}/lobes"), Lobes::new(doc.lobes))?;
    let read = doc.reading.as_ref().map(|doc| meter(doc, lobes, problems));
    let limits = doc.limits.as_ref().map(|doc| limits(doc, lobes, problems));
    let lobe = doc.pair.as_ref().map(|pair| {
        let sizes = if doc.gap_unusual == Some(true) {
            GapSizes::StatedUnusual
        } else {
            GapSizes::Usual
        };
        lobe(pair, lobes, sizes, problems)
    });
    if let (None, Some(_)) = (&lobe, &doc.gap) {
        problems.push(Problem::new(
            format!("{AT}/pair"),
            "document.missing-field",
            "a gap is given, but no printed pair leads from it to a dwell",
            "give \"pair\" as the book prints it, or leave \"gap\" out",
        ));
    }
    if problems.len() > faults {
        return None;
    }
    let (read, limits, lobe) = (read.flatten(), limits.flatten(), lobe.flatten());
    let mut made = DwellFound {
        reading: read.as_ref().and_then(|(read, _)| Found::of(read)),
        percent: None,
        on_scale: None,
        judged: None,
        other_scales: Vec::new(),
        gap: None,
        at_gap: None,
    };
    if let Some((read, scale)) = &read {
        let dwell = read.centre()?;
        made.percent = lobes.percent(dwell).ok();
        if let Some(cylinders) = doc.to_scale {
            let place = format!("{AT}/to_scale");
            let asked = value(problems, &place, Lobes::new(cylinders))?;
            let shows = MeterScale::Cylinders(asked).shows(dwell, lobes);
            made.on_scale = value(problems, place, shows);
        }
        if let Some(limits) = &limits {
            made.judged = Some(Judged::of(read, limits));
            made.other_scales = others(read, *scale, lobes, limits, problems)?;
        }
        if let Some(lobe) = &lobe {
            let gap = lobe.gap_at(read);
            made.gap = Found::of(&value(problems, format!("{AT}/reading"), gap)?);
        }
    }
    if let (Some(lobe), Some(gap)) = (&lobe, &doc.gap) {
        let place = format!("{AT}/gap");
        let gap = stated(gap.is.0, gap.uncertainty.0.mm(), &place, problems)?;
        made.at_gap = Found::of(&value(problems, place, lobe.dwell_at(&gap))?);
    }
    Some(made)
}

/// The dwell of what is shown, and the scale it is shown on.
fn meter(
    doc: &MeterDoc,
    lobes: Lobes,
    problems: &mut Vec<Problem>,
) -> Option<(Estimate<Dwell>, MeterScale)> {
    let place = format!("{AT}/reading");
    let scale = match doc.scale {
        Some(cylinders) => Some(value(
            problems,
            format!("{place}/scale"),
            Lobes::new(cylinders),
        )?),
        None => None,
    };
    let dwell = value(problems, &place, doc.shows.0.dwell(scale, lobes))?;
    let read = stated(dwell, doc.uncertainty.0.degrees(), &place, problems)?;
    Some((read, doc.shows.0.scale(scale, lobes)))
}

fn limits(
    doc: &DwellLimitsDoc,
    lobes: Lobes,
    problems: &mut Vec<Problem>,
) -> Option<Limits<Dwell>> {
    let place = format!("{AT}/limits");
    let mut end = |shown: Q<DwellShown>, end: &str| {
        value(
            problems,
            format!("{place}/{end}"),
            shown.0.dwell(None, lobes),
        )
    };
    let (from, to) = (end(doc.from, "from"), end(doc.to, "to"));
    value(problems, place, Limits::between(from?, to?))
}

fn lobe(
    doc: &PrintedPairDoc,
    lobes: Lobes,
    sizes: GapSizes,
    problems: &mut Vec<Problem>,
) -> Option<LobeModel> {
    let place = format!("{AT}/pair");
    let dwell = value(problems, &place, doc.dwell.0.dwell(None, lobes))?;
    let mut pair = value(problems, &place, GapAndDwell::printed(doc.gap.0, dwell))?;
    if let Some(u) = doc.gap_uncertainty {
        pair.gap = stated(doc.gap.0, u.0.mm(), &place, problems)?;
    }
    if let Some(u) = doc.dwell_uncertainty {
        pair.dwell = stated(dwell, u.0.degrees(), &place, problems)?;
    }
    value(problems, place, LobeModel::from_pair(&pair, lobes, sizes))
}

fn others(
    read: &Estimate<Dwell>,
    scale: MeterScale,
    lobes: Lobes,
    limits: &Limits<Dwell>,
    problems: &mut Vec<Problem>,
) -> Option<Vec<OtherScaleFound>> {
    let others = possible_scales(read, scale, lobes, limits, &Dwell::USUAL_RULE);
    let others = value(problems, format!("{AT}/reading"), others)?;
    let told = others.iter().filter_map(|other| {
        Some(OtherScaleFound {
            scale: other.scale.to_string(),
            dwell: Found::of(&other.dwell)?,
            in_band: other.in_band,
        })
    });
    Some(told.collect())
}

pub(super) fn shift(
    doc: &SparkShiftCheckDoc,
    taken: &mut Vec<Taken>,
    problems: &mut Vec<Problem>,
) -> Option<SparkShiftFound> {
    let place = "/spark_shift";
    let (change, u) = (doc.dwell_change.0, doc.uncertainty.0.degrees());
    let change = stated(change, u, place, problems)?;
    let flanks = doc.opening_share.map(Flanks::OpeningShare);
    let found = value(problems, place, spark_shift(&change, doc.cam.0, flanks))?;
    for assumption in &found.assumptions {
        take(assumption.code(), assumption, taken);
    }
    Some(SparkShiftFound {
        earlier: found.earlier,
        uncertainty_deg: found.uncertainty.number(),
    })
}
