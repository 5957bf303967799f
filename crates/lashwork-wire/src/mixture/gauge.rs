//! The vacuum gauge in a document.

use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::job::mixture::{Gauge, GaugeField, VacuumUnit};
use lashwork::mixture::gauge::{
    Blip, CompressionFound, LashFound, Level, Movement, TimingFound, WithSpeed,
};
use lashwork::quantity::{PressureDifference, Vacuum};
use lashwork::tolerance::{Measurand, Uncertainty};

named!(Movement as "NeedleMovementDoc" {
    /// It stands.
    Steady = "steady",
    /// It trembles evenly.
    EvenRipple = "even_ripple",
    /// It flicks back a little, in step with the engine.
    SmallFlick = "small_flick",
    /// It drops by a clear amount, in step with the engine.
    RegularDrop = "regular_drop",
    /// It drops now and then.
    NowAndThen = "now_and_then",
    /// It floats slowly up and down.
    SlowDrift = "slow_drift",
    /// It swings widely and fast.
    WideSwing = "wide_swing",
});

named!(WithSpeed as "NeedleWithSpeedDoc" {
    /// It stays as it was.
    Same = "same",
    /// It steadies.
    Steadies = "steadies",
    /// It grows.
    Grows = "grows",
    /// It becomes smaller and faster.
    SmallerFaster = "smaller_faster",
    /// The needle comes up and then falls slowly.
    Falls = "falls",
});

named!(TimingFound as "TimingFoundDoc" {
    /// Within its limits.
    Right = "right",
    /// Too late.
    Late = "late",
    /// Too early.
    Early = "early",
});

named!(LashFound as "LashFoundDoc" {
    /// All within their limits.
    InLimits = "in_limits",
    /// One or more too small.
    TooSmall = "too_small",
    /// None too small, one or more too large.
    TooLarge = "too_large",
});

named!(CompressionFound as "CompressionFoundDoc" {
    /// Within limits and even.
    Even = "even",
    /// One cylinder low, or several that are no neighbours.
    OneLow = "one_low",
    /// Two neighbours low.
    NeighboursLow = "neighbours_low",
    /// All low.
    AllLow = "all_low",
});

parts! {
    /// What the vacuum gauge showed on the warm engine, and what else was found; what is left out is not
    /// known.
    VacuumGaugeDoc {
        /// Cylinders on the manifold.
        cylinders: Option<u8>,
        /// Whether the camshaft has much overlap.
        high_overlap: Option<bool>,
        /// The mean level at idle.
        level: Option<Q<Vacuum>>,
        /// Standard uncertainty of the gauge; 0.5 inHg is assumed, and listed, if not stated.
        uncertainty: Option<Q<PressureDifference>>,
        /// How the needle moves at idle.
        movement: Option<W<Movement>>,
        /// By how much.
        drop: Option<Q<Vacuum>>,
        /// What that does as the engine is run faster.
        with_speed: Option<W<WithSpeed>>,
        /// The throttle opened and shut quickly.
        blip: Option<BlipDoc>,
        /// What was found of the timing; right if its step is settled and nothing is stated.
        timing: Option<W<TimingFound>>,
        /// What was found of the valve clearances; in their limits if their step is settled and nothing is
        /// stated.
        lash: Option<W<LashFound>>,
        /// What was found of the compression.
        compression: Option<W<CompressionFound>>,
        /// The chance of a wrong look, above 0 and below 0.5; 0.05 is assumed, and listed, if not stated.
        wrong_look: Option<f64>,
        /// The unit in which vacuum is said; kPa if not stated.
        unit: Option<W<VacuumUnit>>,
    }
    /// The throttle opened and shut quickly.
    BlipDoc {
        /// What the gauge fell to.
        opened: Q<Vacuum>,
        /// What it rose to.
        shut: Q<Vacuum>,
    }
}

const AT: &str = "/mixture/gauge";

/// What was seen, in typed values.
pub(super) fn gauge(doc: &VacuumGaugeDoc, problems: &mut Vec<Problem>) -> Option<Gauge> {
    let u = match &doc.uncertainty {
        None => None,
        Some(u) => {
            let made = Uncertainty::from_number(u.0.number());
            Some(value(problems, format!("{AT}/uncertainty"), made)?)
        }
    };
    if doc.uncertainty.is_some() && doc.level.is_none() {
        problems.push(Problem::new(
            format!("{AT}/uncertainty"),
            "mixture.uncertainty-of-nothing",
            "an uncertainty is given without a level",
            "give the level at idle, or leave the uncertainty out",
        ));
        return None;
    }
    let mut made = Gauge::default();
    made.seen.cylinders = doc.cylinders.map(usize::from);
    made.seen.high_overlap = doc.high_overlap.unwrap_or(false);
    made.seen.level = doc.level.map(|level| Level {
        vacuum: level.0,
        standard_uncertainty: u,
    });
    made.seen.movement = doc.movement.map(|word| word.0);
    made.seen.drop = doc.drop.map(|drop| drop.0);
    made.seen.with_speed = doc.with_speed.map(|word| word.0);
    made.seen.blip = doc.blip.as_ref().map(|blip| Blip {
        opened: blip.opened.0,
        shut: blip.shut.0,
    });
    made.seen.timing = doc.timing.map(|word| word.0);
    made.seen.lash = doc.lash.map(|word| word.0);
    made.seen.compression = doc.compression.map(|word| word.0);
    made.seen.misread = doc.wrong_look;
    made.unit = doc.unit.map_or_else(VacuumUnit::default, |word| word.0);
    Some(made)
}

/// Where a field stands in the mixture section.
pub(super) fn pointer(field: GaugeField) -> String {
    use GaugeField as F;
    let rest = match field {
        F::Level => "/level",
        F::Drop => "/drop",
        F::Cylinders => "/cylinders",
        F::Misread => "/wrong_look",
        _ => "",
    };
    format!("/gauge{rest}")
}
