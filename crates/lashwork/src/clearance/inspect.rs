//! What to inspect where a gap is far from what it was set to.
//!
//! Common practice, no source: which faults close a gap and which open it follows from what each
//! does to the length between cam and valve. Nothing here is a finding.

use crate::adjust::Adjuster;
use crate::valve::ValveKind;
use alloc::vec::Vec;
use serde::Serialize;

/// A possible cause, with a name that never changes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Cause {
    /// Which it is.
    pub code: CauseCode,
    /// What to look at.
    pub text: &'static str,
}

/// A possible cause of a gap far from what it was set to.
///
/// ```
/// use lashwork::clearance::CauseCode;
/// assert_ne!(CauseCode::PushrodOut, CauseCode::SeatSunk);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum CauseCode {
    /// It was read with the valve off its seat, or not free.
    NotClosed,
    /// The lock nut is slack.
    LockNutSlack,
    /// The push rod is bent or out of its cup.
    PushrodOut,
    /// The rocker or what carries it is worn, loose or broken.
    Rocker,
    /// The valve does not come back to its seat.
    ValveStuck,
    /// The pad is worn hollow.
    PadHollow,
    /// The eccentric has moved.
    EccentricMoved,
    /// The shim is the wrong one, worn, or not seated.
    WrongShim,
    /// The cam lobe or its follower is worn.
    CamWorn,
    /// The seat has sunk or burnt, or the valve has stretched.
    SeatSunk,
    /// A part of another length is fitted.
    WrongPart,
    /// Dirt or carbon lies between the parts.
    Dirt,
}

/// What to look at where a gap is far too wide, or too narrow, the quickest first.
///
/// ```
/// use lashwork::adjust::Adjuster;
/// use lashwork::clearance::{CauseCode, causes};
/// let loose = causes(true, None, &Adjuster::Unstated);
/// assert_eq!(loose[0].code, CauseCode::NotClosed);
/// assert!(loose.iter().any(|cause| cause.code == CauseCode::PushrodOut));
/// assert!(causes(false, None, &Adjuster::Unstated).iter().any(|cause| cause.code == CauseCode::SeatSunk));
/// ```
#[must_use]
pub fn causes(looser: bool, kind: Option<ValveKind>, adjuster: &Adjuster) -> Vec<Cause> {
    let mut list: Vec<Cause> = Vec::new();
    let mut add = |code: CauseCode, text: &'static str| list.push(Cause { code, text });
    add(
        CauseCode::NotClosed,
        "read it again first, with the cam lobe well away from the follower",
    );
    let screw = matches!(adjuster, Adjuster::Unstated | Adjuster::Screw { .. });
    let shim = matches!(adjuster, Adjuster::Unstated | Adjuster::Shim { .. });
    if matches!(adjuster, Adjuster::Eccentric) {
        add(
            CauseCode::EccentricMoved,
            "eccentric or its clamp slack, so that it has moved",
        );
    }
    if looser {
        if screw {
            add(
                CauseCode::LockNutSlack,
                "lock nut slack, so that the screw has backed off",
            );
        }
        if !matches!(adjuster, Adjuster::Shim { .. }) {
            add(
                CauseCode::PushrodOut,
                "pushrod bent or out of its seat, where there is one",
            );
            add(
                CauseCode::Rocker,
                "rocker, its shaft or pedestal worn, loose or broken",
            );
            add(
                CauseCode::PadHollow,
                "valve tip or rocker pad worn hollow: a flat leaf reads less than the true gap",
            );
        }
        add(
            CauseCode::ValveStuck,
            "valve stuck or bent, so that it does not come back to its seat",
        );
        if shim {
            add(CauseCode::WrongShim, "wrong or worn shim");
        }
        add(CauseCode::CamWorn, "cam lobe or follower worn");
    } else {
        add(
            CauseCode::SeatSunk,
            match kind {
                Some(ValveKind::Intake) => {
                    "valve seat sinking: compare compression, and watch how fast the gap closes"
                }
                Some(ValveKind::Exhaust) | None => {
                    "valve seat sinking or burnt, or valve stretching: compare compression, and watch \
                     how fast the gap closes"
                }
            },
        );
        if screw {
            add(
                CauseCode::LockNutSlack,
                "lock nut slack, so that the screw has moved in",
            );
        }
        if shim {
            add(CauseCode::WrongShim, "shim too thick, or not fully seated");
        }
        add(
            CauseCode::WrongPart,
            "a part of another length fitted at the last work: valve, seat, pushrod or rocker",
        );
        add(
            CauseCode::Dirt,
            "dirt or carbon between the parts, or a valve that does not seat fully",
        );
    }
    list
}
