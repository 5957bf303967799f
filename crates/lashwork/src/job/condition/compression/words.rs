//! Cranking compression in words.

use crate::condition::compression::{
    CompressionCause, CompressionLook, CompressionRule, ExponentDoubt,
};
use crate::job::condition::GaugeUnit;
use alloc::format;
use alloc::string::String;

/// A cause.
pub(super) const fn cause(cause: CompressionCause) -> &'static str {
    use CompressionCause as C;
    match cause {
        C::Sound => "sound",
        C::Rings => "rings, piston or bore",
        C::Valve => "a valve that does not close",
        C::Gasket => "the head gasket to a neighbour",
        C::SomethingElse => "something else",
    }
}

/// A rule as it is printed.
pub(super) fn rule(rule: &CompressionRule, unit: GaugeUnit) -> String {
    match rule {
        CompressionRule::Ratio { percent } => {
            format!("the lowest at least {percent} % of the highest")
        }
        CompressionRule::Difference { most } => format!(
            "at most {} from the lowest to the highest",
            unit.say(most.kilopascals())
        ),
        CompressionRule::Minimum { least } => {
            format!(
                "every cylinder at least {} at sea level",
                unit.shown(*least)
            )
        }
    }
}

/// An exponent that cannot be.
pub(super) const fn doubt(doubt: ExponentDoubt) -> &'static str {
    match doubt {
        ExponentDoubt::UnderIsothermal => {
            "that is less than any compression gives: even the best cylinders leak, or ratio, closing or cranking \
             are not as stated"
        }
        ExponentDoubt::OverAdiabatic => {
            "that is more than any compression gives: ratio, closing, air or gauge are not as stated, or carbon \
             fills the head"
        }
    }
}

/// A look; `low` are the cylinders that it is about.
pub(super) fn look(look: CompressionLook, low: &str) -> String {
    match look {
        CompressionLook::CrankAgain => String::from(
            "crank again as it should be: warm, throttle and choke open, all plugs out, a good battery, at least \
             four strokes a cylinder",
        ),
        CompressionLook::Clearances => String::from(
            "measure the valve clearances before anything is taken apart: a tight valve alone lowers a cylinder; \
             then crank again",
        ),
        CompressionLook::Oil => format!(
            "read {low} again with a little oil in each, a teaspoon (5 ml) and no more: oil that fills the room \
             over the piston breaks the engine"
        ),
        CompressionLook::LeakDown => format!(
            "leak-down of {low}: listen at intake, exhaust, breather and the plug holes beside, and look for \
             bubbles in the coolant"
        ),
        CompressionLook::ValveTiming => String::from(
            "all cylinders are low alike: the camshaft's marks at top dead centre, and the gauge and its hose \
             against another",
        ),
    }
}
