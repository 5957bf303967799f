//! Causes and looks in words.

use crate::causes::{Cause, CauseLook};

/// A cause.
pub(super) const fn cause(cause: Cause) -> &'static str {
    match cause {
        Cause::ValveBurnt => "a valve is burnt, or has sunk into its seat",
        Cause::ValveTight => "a valve has too little clearance",
        Cause::CamWorn => "a cam lobe or its follower is worn",
        Cause::CamToothOut => "the camshaft stands a tooth out",
        Cause::RingsWorn => "rings are worn, stuck or broken",
        Cause::HeadGasket => "the head gasket leaks",
        Cause::IntakeLeak => "air comes in behind the throttle",
        Cause::SparkWeak => "the spark is weak or missing",
        Cause::SparkLate => "the spark is late",
        Cause::MixtureRich => "the mixture is too rich",
        Cause::MixtureLean => "the mixture is too lean",
    }
}

/// What was looked at.
pub(super) const fn looked(at: CauseLook) -> &'static str {
    match at {
        CauseLook::Clearances => "clearances",
        CauseLook::Records => "records",
        CauseLook::Compression | CauseLook::Oil => "compression",
        CauseLook::Leak | CauseLook::Listen => "leak-down",
        CauseLook::Plugs => "plugs",
        CauseLook::Dwell => "dwell",
        CauseLook::Timing => "timing",
        CauseLook::Gauge => "vacuum gauge",
        CauseLook::Gas => "exhaust gas",
    }
}

/// What to do to look there.
pub(super) const fn look(at: CauseLook) -> &'static str {
    match at {
        CauseLook::Clearances => "measure the valve clearances",
        CauseLook::Records => "look up what past services found of the clearances",
        CauseLook::Compression => "measure the compression",
        CauseLook::Oil => "compression again with a spoon of oil",
        CauseLook::Leak => "leak-down",
        CauseLook::Listen => "listen where the air of the leak-down comes out",
        CauseLook::Plugs => "look at the plug",
        CauseLook::Dwell => "measure the dwell",
        CauseLook::Timing => "measure the ignition timing",
        CauseLook::Gauge => "read a vacuum gauge at idle",
        CauseLook::Gas => "measure the exhaust gas at idle",
    }
}

/// What must be sure first. Common practice, no source.
pub(super) const fn first(at: CauseLook) -> Option<&'static str> {
    match at {
        CauseLook::Compression | CauseLook::Oil => {
            Some("coil dead or its lead on ground, fuel shut off, hands off what turns")
        }
        CauseLook::Leak | CauseLook::Listen => {
            Some("piston held at firing dead centre: the air turns the crank, hands and tools off")
        }
        CauseLook::Plugs => Some("engine stopped and cooled down"),
        CauseLook::Clearances => Some("engine stopped, and as warm as the book asks"),
        CauseLook::Timing | CauseLook::Dwell | CauseLook::Gauge => {
            Some("sleeves and hair off what turns")
        }
        CauseLook::Gas => Some("in the open: the gas kills"),
        CauseLook::Records => None,
    }
}

/// How far to trust it.
pub(super) const TRUST: &str = "known of simulated engines only. Of two kinds it was not set with, what is given 50 % and more was met as \
often as said, within 10 in 100; 10 % to 50 % is not calibrated: met more often, by 3 to 21 in 100. Of sound engines 1 to 5 \
in 100 got a cause at 50 % or more. Make sure by another way before anything is taken apart";
