//! What a gauge may be seen to do, and what else may have been found.

use crate::quantity::Vacuum;
use crate::tolerance::Uncertainty;
use serde::Serialize;

/// Declares a list of what may be found.
macro_rules! found {
    ($(#[$doc:meta])* $name:ident, $count:literal { $($(#[$of:meta])* $one:ident),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        #[serde(rename_all = "snake_case")]
        pub enum $name { $($(#[$of])* $one),+ }

        impl $name {
            /// All of them.
            pub const ALL: [Self; $count] = [$(Self::$one),+];
        }
    };
}

found! {
    /// How the needle moves at idle.
    ///
    /// ```
    /// use lashwork::mixture::gauge::Movement;
    /// assert_eq!(Movement::ALL.len(), 7);
    /// ```
    Movement, 7 {
        /// It stands.
        Steady,
        /// It trembles evenly: on four cylinders no fault by itself.
        EvenRipple,
        /// It flicks back a little, in step with the engine.
        SmallFlick,
        /// It drops by a clear amount, in step with the engine.
        RegularDrop,
        /// It drops now and then.
        NowAndThen,
        /// It floats slowly up and down.
        SlowDrift,
        /// It swings widely and fast.
        WideSwing,
    }
}

found! {
    /// What the movement does as the engine is run faster.
    ///
    /// ```
    /// use lashwork::mixture::gauge::WithSpeed;
    /// assert_eq!(WithSpeed::ALL.len(), 5);
    /// ```
    WithSpeed, 5 {
        /// It stays as it was.
        Same,
        /// It steadies.
        Steadies,
        /// It grows.
        Grows,
        /// It becomes smaller and faster.
        SmallerFaster,
        /// The needle comes up and then falls slowly.
        Falls,
    }
}

found! {
    /// What was found of the ignition timing.
    ///
    /// ```
    /// use lashwork::mixture::gauge::TimingFound;
    /// assert_eq!(TimingFound::ALL.len(), 3);
    /// ```
    TimingFound, 3 {
        /// Within its limits.
        Right,
        /// Too late.
        Late,
        /// Too early.
        Early,
    }
}

found! {
    /// What was found of the valve clearances.
    ///
    /// ```
    /// use lashwork::mixture::gauge::LashFound;
    /// assert_eq!(LashFound::ALL.len(), 3);
    /// ```
    LashFound, 3 {
        /// All within their limits.
        InLimits,
        /// One or more too small.
        TooSmall,
        /// None too small, one or more too large.
        TooLarge,
    }
}

found! {
    /// What was found of the compression.
    ///
    /// ```
    /// use lashwork::mixture::gauge::CompressionFound;
    /// assert_eq!(CompressionFound::ALL.len(), 4);
    /// ```
    CompressionFound, 4 {
        /// Within limits and even.
        Even,
        /// One cylinder low, or several that are no neighbours.
        OneLow,
        /// Two neighbours low.
        NeighboursLow,
        /// All low.
        AllLow,
    }
}

/// Throttle opened and shut again quickly.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Blip {
    /// What the gauge fell to as it was opened.
    pub opened: Vacuum,
    /// What it rose to as it was shut.
    pub shut: Vacuum,
}

/// The mean level at idle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Level {
    /// What the gauge showed.
    pub vacuum: Vacuum,
    /// Standard uncertainty; 0.5 inHg if not stated.
    pub standard_uncertainty: Option<Uncertainty<Vacuum>>,
}

/// Something to look at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum GaugeLook {
    /// The level at idle.
    Level,
    /// How the needle moves at idle.
    Movement,
    /// What that does as the engine is run faster.
    WithSpeed,
    /// The throttle opened and shut quickly.
    Blip,
    /// Ignition timing.
    Timing,
    /// Compression.
    Compression,
    /// Valve clearances.
    Lash,
}

impl GaugeLook {
    /// All of them, what costs least first.
    pub(super) const ALL: [Self; 7] = [
        Self::Level,
        Self::Movement,
        Self::WithSpeed,
        Self::Blip,
        Self::Timing,
        Self::Compression,
        Self::Lash,
    ];

    /// How much work it is, against a look at the gauge. This library's choice.
    pub(super) const fn effort(self) -> f64 {
        match self {
            Self::Level | Self::Movement | Self::WithSpeed | Self::Blip => 1.0,
            Self::Timing => 2.0,
            Self::Compression => 4.0,
            Self::Lash => 6.0,
        }
    }
}
