//! The arc of the cycle in which one valve's lash may be read.

use super::{CamEvents, ValveError, ValveKind};
use crate::quantity::{CrankAngle, Cycle, CyclePosition};
use serde::Serialize;

/// Guard on both sides of the base circle when none is stated, in crank degrees: room for opening
/// and closing ramps. This library's choice, to be listed as an assumption.
///
/// ```
/// use lashwork::valve::ASSUMED_GUARD;
/// assert_eq!(ASSUMED_GUARD.degrees(), 20.0);
/// ```
pub const ASSUMED_GUARD: CrankAngle = CrankAngle::of_degrees::<20>();

/// A phase this little past the closing edge lies on it, in degrees: the last bits of sums of thirds
/// and sevenths of a turn. The same slack as [`CyclePosition`] takes at the opening edge.
const EDGE_ROUNDING: f64 = 1e-9;

/// How far off a stop the crank may stand with every valve that is checked there on its base circle.
///
/// ```
/// use lashwork::quantity::CrankAngle;
/// use lashwork::valve::MayBeOff;
/// let d = |x| CrankAngle::from_degrees(x);
/// let off = MayBeOff { before: d(97.0)?, after: d(5.0)? };
/// assert_eq!(off.nearer().degrees(), 5.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct MayBeOff {
    /// Crank degrees it may still have to go to the stop.
    pub before: CrankAngle,
    /// Crank degrees it may have gone past the stop.
    pub after: CrankAngle,
}

impl MayBeOff {
    /// Nothing on either side.
    pub(super) const NONE: Self = Self {
        before: CrankAngle::ZERO,
        after: CrankAngle::ZERO,
    };

    /// The smaller of the two.
    #[must_use]
    pub fn nearer(self) -> CrankAngle {
        if self.after < self.before {
            self.after
        } else {
            self.before
        }
    }

    /// What is left on each side of two.
    pub(super) fn and(self, other: Self) -> Self {
        let less = |a: CrankAngle, b| if b < a { b } else { a };
        Self {
            before: less(self.before, other.before),
            after: less(self.after, other.after),
        }
    }

    /// So much less on each side, and nothing where that is more than there is.
    pub(super) fn less(self, before: CrankAngle, after: CrankAngle) -> Self {
        let rest = |from: CrankAngle, off: CrankAngle| {
            CrankAngle::computed((from - off).degrees().max(0.0))
        };
        Self {
            before: rest(self.before, before),
            after: rest(self.after, after),
        }
    }
}

/// A closed arc of own-cylinder phase in which the follower rests on the base circle.
///
/// ```
/// use lashwork::quantity::{CrankAngle, Cycle, CyclePosition};
/// use lashwork::valve::{CamEvents, ValveKind, Window};
/// let guard = CrankAngle::from_degrees(20.0)?;
/// let window = Window::of(ValveKind::Exhaust, &CamEvents::assumed(), guard)?.unwrap();
/// // Closes at 400, opens at 100 of the next cycle: from 420 to 80.
/// assert_eq!((window.from().degrees(), window.length().degrees()), (420.0, 380.0));
/// let tdc = CyclePosition::new(Cycle::FourStroke, CrankAngle::ZERO);
/// assert_eq!(window.margin(tdc).unwrap().degrees(), 80.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Geometry: from closing to the next opening, shortened by the guard at both ends.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Window {
    from: CyclePosition,
    length: CrankAngle,
}

impl Window {
    /// The window of a valve, or `None` when the guard leaves nothing of the base circle.
    ///
    /// # Errors
    /// [`ValveError::GuardOutOfRange`] for a guard outside 0 to 180 deg.
    pub fn of(
        kind: ValveKind,
        events: &CamEvents,
        guard: CrankAngle,
    ) -> Result<Option<Self>, ValveError> {
        let got = guard.degrees();
        if !(0.0..=180.0).contains(&got) {
            return Err(ValveError::GuardOutOfRange { got, max: 180.0 });
        }
        let off = events.duration(kind) + events.early(kind) + events.early(kind);
        let left = Cycle::FourStroke.degrees() - off.degrees() - 2.0 * got;
        if left <= 0.0 {
            return Ok(None);
        }
        Ok(Some(Self {
            from: events.back_on_base_circle(kind).turned(guard),
            length: CrankAngle::computed(left),
        }))
    }

    /// First phase at which a reading is good.
    #[must_use]
    pub const fn from(&self) -> CyclePosition {
        self.from
    }

    /// How long the window stays open.
    #[must_use]
    pub const fn length(&self) -> CrankAngle {
        self.length
    }

    /// The phase farthest from both edges.
    #[must_use]
    pub fn middle(&self) -> CyclePosition {
        let half = CrankAngle::computed(self.length.degrees() / 2.0);
        self.from.turned(half)
    }

    /// How far a phase lies inside, to the nearer edge; `None` outside. An edge belongs to the window.
    #[must_use]
    pub fn margin(&self, phase: CyclePosition) -> Option<CrankAngle> {
        self.room(phase).map(MayBeOff::nearer)
    }

    /// How far short of a phase and past it the crank may stand inside; `None` if the phase lies outside.
    #[must_use]
    pub fn room(&self, phase: CyclePosition) -> Option<MayBeOff> {
        let before = self.from.forward_to(phase);
        let rest = self.length - before;
        if rest.degrees() < -EDGE_ROUNDING {
            return None;
        }
        let after = CrankAngle::computed(rest.degrees().max(0.0));
        Some(MayBeOff { before, after })
    }

    /// Distance of a phase from the window's middle, the short way round.
    #[must_use]
    pub fn from_middle(&self, phase: CyclePosition) -> CrankAngle {
        let forward = self.middle().forward_to(phase);
        let back = phase.forward_to(self.middle());
        if back < forward { back } else { forward }
    }
}
