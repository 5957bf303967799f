//! What the tests of laws share.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use lashwork::causes::{
    Cause, CauseAnswer, CauseCheck, CompressionSign, DriftSign, LashSign, LeakSign, LikelyCause,
    MonoxideSign, PlugSign, TimingSign,
};
use lashwork::mixture::gauge::{GaugeCheck, Movement};

pub(super) fn cause(answer: &CauseAnswer, cause: Cause) -> &LikelyCause {
    answer.causes.iter().find(|own| own.cause == cause).unwrap()
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
