//! What a past service read with a meter.

use super::leak::LeakShown;
use super::{WhenDoc, used};
use crate::band::band;
use crate::engine::cylinder;
use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::history::Reset;
use lashwork::ignition::breaker::Dwell;
use lashwork::job::Request;
use lashwork::job::history::{HistoryLimits, NumberRead, NumberVisit};
use lashwork::quantity::{
    Advance, Area, CrankAngle, DistributorAngle, GaugePressure, PressureDifference, QuantityError,
};
use lashwork::tolerance::{Limits, Uncertainty};

macro_rules! numbers {
    ($($make:ident: $type:ty, $visit:ident, $read:ident of $value:ty | $shows:ty as $of:expr, $doubt:ty as $number:expr;)+) => {$(
        parts! {
            /// What was found, done and left in one service.
            $visit {
                /// Its cylinder; the whole engine if not stated.
                cylinder: Option<String>,
                /// Before anything was done.
                found: Option<$read>,
                /// What was done; set, if there is a reading after it.
                done: Option<W<Reset>>,
                /// After it was done.
                left: Option<$read>,
                /// When that was read, if not at the service itself.
                left_at: Option<WhenDoc>,
            }
            /// What the meter showed.
            $read {
                shows: $shows,
                /// Its standard uncertainty; the usual one is assumed, and listed, if not stated.
                uncertainty: Option<Q<$doubt>>,
            }
        }

        pub(super) fn $make(
            list: Option<Vec<$visit>>,
            request: &Request,
            at: &str,
            problems: &mut Vec<Problem>,
        ) -> Vec<NumberVisit<$type>> {
            let of: fn($value) -> Result<$type, QuantityError> = $of;
            let number: fn($doubt) -> f64 = $number;
            let mut made = Vec::new();
            for (j, doc) in list.unwrap_or_default().into_iter().enumerate() {
                let at = format!("{at}/{}/{j}", stringify!($make));
                let mut visit = NumberVisit::default();
                if let Some(label) = &doc.cylinder {
                    visit.cylinder =
                        cylinder(&request.engine, label, &format!("{at}/cylinder"), problems);
                    if visit.cylinder.is_none() {
                        continue;
                    }
                }
                let mut read = |doc: Option<$read>, field: &str| {
                    let doc = doc?;
                    let shows = value(problems, format!("{at}/{field}/shows"), of(doc.shows.0))?;
                    let u = doc.uncertainty.map(|u| Uncertainty::from_number(number(u.0)));
                    let u = u.map(|u| value(problems, format!("{at}/{field}/uncertainty"), u));
                    Some(NumberRead { value: shows, uncertainty: u.flatten() })
                };
                visit.found = read(doc.found, "found");
                visit.left = read(doc.left, "left");
                visit.done = doc.done.map(|word| word.0);
                if let Some(doc) = doc.left_at {
                    visit.left_at = used(&doc, &format!("{at}/left_at"), problems);
                }
                made.push(visit);
            }
            made
        }
    )+};
}

numbers! {
    dwell: Dwell, DwellVisitDoc, PastDwellDoc of DistributorAngle | Q<DistributorAngle> as |it| Dwell::from_degrees(it.degrees()),
        DistributorAngle as |u| u.degrees();
    timing: Advance, TimingVisitDoc, PastTimingDoc of Advance | Q<Advance> as Ok, CrankAngle as |u| u.degrees();
    compression: GaugePressure, CompressionVisitDoc, PastCompressionDoc of GaugePressure | Q<GaugePressure> as Ok,
        PressureDifference as |u| u.kilopascals();
    leak_area: Area, LeakAreaVisitDoc, PastLeakAreaDoc of Area | LeakShown as Ok, Area as |u| u.square_millimetres();
}

parts! {
    /// What meters should show, for when to look next; the limits of the lash are those of the clearance
    /// section.
    HistoryLimitsDoc {
        /// The dwell, in degrees of the breaker's own shaft.
        dwell: Option<DwellBandDoc>,
        /// The ignition point.
        timing: Option<TimingBandDoc>,
        /// The compression shown.
        compression: Option<CompressionBandDoc>,
        /// The area of a leak.
        leak_area: Option<LeakAreaBandDoc>,
    }
    /// A dwell from, to, or both.
    DwellBandDoc { from: Option<Q<DistributorAngle>>, to: Option<Q<DistributorAngle>> }
    /// Ignition points from, to, or both.
    TimingBandDoc { from: Option<Q<Advance>>, to: Option<Q<Advance>> }
    /// Compressions from, to, or both.
    CompressionBandDoc { from: Option<Q<GaugePressure>>, to: Option<Q<GaugePressure>> }
    /// Areas from, to, or both.
    LeakAreaBandDoc { from: Option<Q<Area>>, to: Option<Q<Area>> }
}

pub(super) fn limits(
    doc: HistoryLimitsDoc,
    at: &str,
    problems: &mut Vec<Problem>,
) -> HistoryLimits {
    let mut made = HistoryLimits::default();
    if let Some(doc) = doc.dwell {
        made.dwell = dwell_limits(doc, &format!("{at}/dwell"), problems);
    }
    if let Some(TimingBandDoc { from, to }) = doc.timing {
        made.timing = band(from, to, format!("{at}/timing"), problems);
    }
    if let Some(CompressionBandDoc { from, to }) = doc.compression {
        made.compression = band(from, to, format!("{at}/compression"), problems);
    }
    if let Some(LeakAreaBandDoc { from, to }) = doc.leak_area {
        made.leak_area = band(from, to, format!("{at}/leak_area"), problems);
    }
    made
}

fn dwell_limits(
    DwellBandDoc { from, to }: DwellBandDoc,
    at: &str,
    problems: &mut Vec<Problem>,
) -> Option<Limits<Dwell>> {
    let mut end = |end: Option<Q<DistributorAngle>>, field: &str| match end {
        Some(angle) => {
            let dwell = Dwell::from_degrees(angle.0.degrees());
            value(problems, format!("{at}/{field}"), dwell).map(|dwell| Some(Q(dwell)))
        }
        None => Some(None),
    };
    let (from, to) = (end(from, "from")?, end(to, "to")?);
    band(from, to, at, problems)
}
