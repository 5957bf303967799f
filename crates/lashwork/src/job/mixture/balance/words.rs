//! Balance in words.

use super::Balance;
use crate::mixture::balance::{CylinderCause, Joint, Linkage, Matter, NextReading, Way};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// What the words need to know.
pub(super) struct Words<'r> {
    names: &'r [String],
    pub(super) unit: &'static str,
    pub(super) say: &'r dyn Fn(f64) -> String,
}

impl<'r> Words<'r> {
    pub(super) fn of(
        asked: &'r Balance,
        unit: &'static str,
        say: &'r dyn Fn(f64) -> String,
    ) -> Self {
        Self {
            names: &asked.throttles,
            unit,
            say,
        }
    }

    /// A throttle's name.
    pub(super) fn name(&self, throttle: usize) -> String {
        self.names.get(throttle).cloned().unwrap_or_default()
    }

    pub(super) fn names(&self, throttles: &[usize]) -> Vec<String> {
        throttles.iter().map(|at| self.name(*at)).collect()
    }

    /// The throttles on either side of a joint.
    pub(super) fn between(&self, linkage: &Linkage, joint: usize) -> [String; 2] {
        let joint: Option<&Joint> = linkage.joints().get(joint);
        joint.map_or_else(Default::default, |joint| {
            joint.between.map(|at| self.name(at))
        })
    }

    /// A difference, with its sign in words.
    pub(super) fn beside(&self, value: f64) -> String {
        let side = if value < 0.0 { "under" } else { "over" };
        format!("{} {side}", (self.say)(value.abs()))
    }

    /// The same with its doubt.
    pub(super) fn over(&self, value: f64, u: f64) -> String {
        format!("{}, u {}", self.beside(value), (self.say)(u))
    }

    /// A reading that would tell more.
    pub(super) fn next(&self, linkage: &Linkage, next: NextReading) -> String {
        let trial = |joint: usize| {
            let [one, other] = self.between(linkage, joint);
            format!(
                "read, turn the screw between {one} and {other} by a known part of a turn, and read again, \
                 with a throttle that does not move besides"
            )
        };
        match next {
            NextReading::Again {
                throttle,
                doubt,
                then,
            } => format!(
                "read {} once more: the doubt of all turns goes from {doubt:.0} to {then:.0} deg",
                self.name(throttle)
            ),
            NextReading::Trial { joint } => trial(joint),
            NextReading::TrialAgain { joint, doubt, then } => format!(
                "once more: {}; the doubt of all turns goes from {doubt:.0} to {then:.0} deg",
                trial(joint)
            ),
        }
    }
}

pub(super) const fn way(way: Way) -> &'static str {
    match way {
        Way::Open => "further open",
        Way::Close => "further shut",
        Way::Leave => "as it is",
    }
}

/// A turn of a screw, as a hand makes it.
pub(super) fn turn(degrees: f64, u: f64) -> String {
    let side = if degrees < 0.0 {
        "anticlockwise"
    } else {
        "clockwise"
    };
    format!(
        "{:.2} turn {side} ({:.0} deg, u {u:.0} deg)",
        degrees.abs() / 360.0,
        degrees.abs()
    )
}

/// A decision rule.
pub(super) fn rule(name: &str) -> &'static str {
    match name {
        "iso_14253_1" => {
            "even, or uneven, when that is at least 95 % likely (ISO 14253-1); otherwise cannot say"
        }
        _ => {
            "simple acceptance (JCGM 106): even when that is at least 50 % likely, otherwise uneven"
        }
    }
}

/// What a difference is a matter of.
pub(super) const fn matter(matter: Matter) -> &'static str {
    match matter {
        Matter::Neither => "nothing that matters",
        Matter::Throttle => "a matter of the throttle",
        Matter::Cylinder => "a matter of the cylinder, not of the throttle",
        Matter::Both => "a matter of the throttle and of the cylinder",
        Matter::CannotSay => "cannot say whether of the throttle or of the cylinder",
    }
}

/// Why a cylinder draws less.
pub(super) const fn cause(cause: CylinderCause) -> &'static str {
    match cause {
        CylinderCause::Compression => "compression",
        CylinderCause::Lash => "valve clearances",
        CylinderCause::Leak => "air drawn in behind the throttle",
    }
}
