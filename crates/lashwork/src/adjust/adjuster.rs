//! How a valve's lash is adjusted.

use super::{LockNut, ScrewSeat, ShimRounding, ShimSeries, ShimStock, Thread};
use crate::quantity::ShimThickness;
use crate::tolerance::Uncertainty;

/// How a valve's lash is adjusted.
///
/// ```
/// use lashwork::adjust::{Adjuster, ScrewSeat, Thread};
/// use lashwork::quantity::Length;
/// let screw = Adjuster::Screw {
///     thread: Thread::metric(Length::parse("1 mm")?)?,
///     seat: ScrewSeat::ValveSide,
///     inward_closes: None,
///     lock_nut: None,
/// };
/// assert!(screw.lock_nut().is_none() && !screw.shims_in_inches());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub enum Adjuster {
    /// Not stated: advice says how much, not how.
    #[default]
    Unstated,
    /// A screw with a lock nut, or the nut on a stud.
    Screw {
        /// Its thread.
        thread: Thread,
        /// Where on the rocker it sits.
        seat: ScrewSeat,
        /// Whether turning it in closes the gap; taken so, and listed, when not stated.
        inward_closes: Option<bool>,
        /// What locking it does to the gap; taken as nothing, and listed, when not known.
        lock_nut: Option<LockNut>,
    },
    /// An eccentric, such as a rocker shaft or bush that is turned: how far the gap follows depends on where
    /// it stands, so no angle is told.
    Eccentric,
    /// A shim of fixed thickness.
    Shim {
        /// Change of gap for one unit of shim: 1 on a bucket; see
        /// [`gap_per_shim`](super::gap_per_shim) for the factor that books print.
        ratio: f64,
        /// Sizes that can be bought.
        series: Option<ShimSeries>,
        /// Shims on hand.
        stock: ShimStock,
        /// How shims may be used.
        rules: ShimRules,
    },
}

impl Adjuster {
    /// The lock nut, if its shift is known at all.
    #[must_use]
    pub fn lock_nut(&self) -> Option<LockNut> {
        match self {
            Self::Screw { lock_nut, .. } => lock_nut.filter(|nut| nut.pairs() > 0),
            _ => None,
        }
    }

    /// Whether the shims are sold, or else kept, in inch sizes.
    #[must_use]
    pub fn shims_in_inches(&self) -> bool {
        let Self::Shim { series, stock, .. } = self else {
            return false;
        };
        let kept = || stock.shims().iter().any(|shim| shim.size.unit().is_inch());
        series
            .as_ref()
            .map_or_else(kept, |series| series.ends().0.unit().is_inch())
    }
}

/// Whose shims a plan may change or lend.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum SwapScope {
    /// Those of valves out of their band: what is good is not touched.
    OnlyOutOfBand,
    /// Any: a valve in its band may get another shim if that saves a purchase or helps another.
    Any,
}

/// Whether a shim that has run in one valve may be fitted to another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum UsedShims {
    /// It may.
    Allowed,
    /// The maker wants new ones: a fitted shim stays in its valve or is left over.
    Forbidden,
}

/// How shims may be used; what is not stated is taken as said, and listed.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ShimRules {
    /// Which of two sizes to take; every size is looked at if not stated.
    pub rounding: Option<ShimRounding>,
    /// Whose shims may be moved; only those of valves out of band if not stated.
    pub swap: Option<SwapScope>,
    /// Whether fitted shims may be moved at all; taken so if not stated.
    pub used: Option<UsedShims>,
    /// Standard uncertainty of a shim that states none of its own; none if not stated.
    pub size_uncertainty: Option<Uncertainty<ShimThickness>>,
}
