//! What the tests of laws share.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use lashwork::causes::{
    Cause, CauseAnswer, CauseCheck, CompressionSign, DriftSign, LashSign, LeakSign, LikelyCause,
    MonoxideSign, PlugSign, TimingSign, borne_out,
};
use lashwork::mixture::gauge::{GaugeCheck, Movement};

pub(super) fn cause(answer: &CauseAnswer, cause: Cause) -> &LikelyCause {
    answer.causes.iter().find(|own| own.cause == cause).unwrap()
}

/// What the model reckons of a cause before it is set beside what was met: [`borne_out`] turned round.
pub(super) fn reckoned(own: &LikelyCause) -> f64 {
    let decibans = |p: f64| 10.0 * f64::log10(p / (1.0 - p));
    let stated = decibans(own.probability) - decibans(own.prior);
    let (mut low, mut high) = (-200.0, 400.0);
    for _ in 0..100 {
        let middle = 0.5 * (low + high);
        if borne_out(middle) < stated {
            low = middle;
        } else {
            high = middle;
        }
    }
    let odds = f64::powf(10.0, 0.1 * (decibans(own.prior) + low));
    odds / (1.0 + odds)
}

/// An engine with something to see of every kind.
pub(super) fn busy() -> CauseCheck {
    let mut check = CauseCheck::in_line(4);
    check.cylinders[0].lash = Some(LashSign::InLimits.into());
    check.cylinders[1].lash = Some(LashSign::Tight.into());
    check.cylinders[1].drift = Some(DriftSign::Closing.into());
    check.cylinders[1].compression = Some(CompressionSign::Low.into());
    check.cylinders[3].compression = Some(CompressionSign::AsItsMates.into());
    check.cylinders[1].leak = Some(LeakSign::AtExhaust.into());
    check.cylinders[2].plug = Some(PlugSign::Sooty.into());
    check.engine.timing = Some(TimingSign::Late.into());
    check.engine.monoxide = Some(MonoxideSign::High.into());
    check.engine.gauge = Some(GaugeCheck {
        movement: Some(Movement::RegularDrop),
        ..GaugeCheck::default()
    });
    check
}

/// The same of nothing, which follows the likeliest cause.
pub(super) fn nothing_reckoned(answer: &CauseAnswer) -> f64 {
    let first = &answer.causes[0];
    answer.nothing * (1.0 - reckoned(first)) / (1.0 - first.probability)
}
