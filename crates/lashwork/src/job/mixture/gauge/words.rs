//! The vacuum gauge in words.

use crate::mixture::gauge::{CompressionFound, GaugeCause, GaugeLook, LashFound, TimingFound};

/// A cause; what was found by other means than the gauge is not called nothing.
pub(super) const fn cause(cause: GaugeCause, is_found_elsewhere: bool) -> &'static str {
    use GaugeCause as C;
    match cause {
        C::Sound if is_found_elsewhere => "nothing is wrong but what was found elsewhere",
        C::Sound => "nothing is wrong",
        C::SparkLate => "the spark comes late",
        C::ValvesLate => "the camshaft is late",
        C::RingsWorn => "all cylinders leak past their rings",
        C::IntakeLeak => "air comes in behind the throttle",
        C::Misfire => "a cylinder misses",
        C::ValveLeaks => "a valve leaks at its seat",
        C::ValveTight => "a valve has too little clearance",
        C::ValveSticks => "a valve sticks now and then",
        C::HeadGasket => "the head gasket leaks between cylinders",
        C::SpringsWeak => "valve springs are weak",
        C::GuidesWorn => "valve guides are worn",
        C::MixtureWrong => "the idle mixture is wrong",
        C::PlugGapsClose => "plug gaps are too close",
        C::ExhaustBlocked => "the exhaust is blocked",
        C::SomethingElse => "something else, or more than one of these",
    }
}

/// What to look at to see whether it is that, by another way than the gauge.
pub(super) const fn proof(cause: GaugeCause) -> &'static str {
    use GaugeCause as C;
    match cause {
        C::SparkLate => "the ignition point, with a lamp",
        C::ValvesLate => "the camshaft's marks, at top dead centre",
        C::RingsWorn => "the compression, dry and with a little oil",
        C::IntakeLeak => {
            "every joint behind the throttle, hoses and spindles included, the engine cold"
        }
        C::Misfire => {
            "the cylinders, their plug leads earthed one after another: the one that changes nothing misses"
        }
        C::ValveLeaks => "the leakage with the cylinder under air: listen at intake and exhaust",
        C::ValveTight => "the valve clearances",
        C::ValveSticks => {
            "the valve stems, a little thin oil down them: if it goes away for a while, they stick"
        }
        C::HeadGasket => "the compression of cylinders beside each other",
        C::SpringsWeak => "the valve springs, their length and force",
        C::GuidesWorn => "the play of the valve stems in their guides",
        C::MixtureWrong => "the idle speed against the mixture screw",
        C::PlugGapsClose => "the plug gaps",
        C::ExhaustBlocked => {
            "the pressure before the silencer, or the vacuum with the exhaust loosened"
        }
        C::Sound | C::SomethingElse => "the engine as a whole",
    }
}

/// What to look at where compression was found out of its limits.
pub(super) const LOW: &str = "the compression that was found low, before anything else";

/// A look that would tell.
pub(super) const fn look(look: GaugeLook) -> &'static str {
    match look {
        GaugeLook::Level => "read the mean level at idle",
        GaugeLook::Movement => "watch how the needle moves at idle, and by how much",
        GaugeLook::WithSpeed => "watch what the needle does as the engine is run faster, slowly",
        GaugeLook::Blip => {
            "open the throttle quickly and let it shut: what does it fall to and rise to"
        }
        GaugeLook::Timing => "read the ignition point",
        GaugeLook::Compression => "test the compression of all cylinders",
        GaugeLook::Lash => "measure the valve clearances",
    }
}

/// What was found of the timing.
pub(super) const fn timing(found: TimingFound) -> &'static str {
    match found {
        TimingFound::Right => "right",
        TimingFound::Late => "late",
        TimingFound::Early => "early",
    }
}

/// What was found of the clearances.
pub(super) const fn lash(found: LashFound) -> &'static str {
    match found {
        LashFound::InLimits => "within their limits",
        LashFound::TooSmall => "too small on one valve or more",
        LashFound::TooLarge => "too large on one valve or more",
    }
}

/// What was found of the compression.
pub(super) const fn compression(found: CompressionFound) -> &'static str {
    match found {
        CompressionFound::Even => "even and within its limits",
        CompressionFound::OneLow => "low on one cylinder or more",
        CompressionFound::NeighboursLow => "low on two neighbours",
        CompressionFound::AllLow => "low on all cylinders",
    }
}
