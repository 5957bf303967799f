//! What may have been found of an engine.

use super::CauseError;
use crate::mixture::gauge::GaugeCheck;
use crate::statistics::normal_cdf;
use crate::tolerance::Probabilities;
use serde::Serialize;

/// How sure a finding is, if not stated. This library's choice.
pub(super) const USUALLY_SURE: f64 = 0.98;

/// A list of what may be found; a finding stands for one or more of `OUTCOMES` outcomes.
pub(super) trait Sign: Copy {
    const OUTCOMES: usize;
    /// Whether it says this one.
    fn says(self, outcome: usize) -> bool;
}

/// Declares a list of what may be found, and after a bar what says less: one of several.
macro_rules! sign {
    ($(#[$doc:meta])* $name:ident, $count:literal { $($(#[$of:meta])* $one:ident = $at:literal),+ $(,)?
        $(; $(#[$any_of:meta])* $any:ident = not 0)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        #[serde(rename_all = "snake_case")]
        pub enum $name { $($(#[$of])* $one,)+ $($(#[$any_of])* $any)? }

        impl $name {
            /// Each that may be the case.
            pub const ALL: [Self; $count] = [$(Self::$one),+];
        }

        impl Sign for $name {
            const OUTCOMES: usize = $count;

            fn says(self, outcome: usize) -> bool {
                match self {
                    $(Self::$one => outcome == $at,)+
                    $(Self::$any => outcome != 0,)?
                }
            }
        }
    };
}

sign! {
    /// The clearances of a cylinder's valves, as found before anything is set.
    ///
    /// ```
    /// use lashwork::causes::LashSign;
    /// assert_eq!(LashSign::ALL.len(), 3);
    /// ```
    LashSign, 3 {
        /// All within their limits.
        InLimits = 0,
        /// One is too small.
        Tight = 1,
        /// None is too small, one is too large.
        Loose = 2,
    }
}

sign! {
    /// How the clearances of a cylinder's valves went since they were last set.
    ///
    /// ```
    /// use lashwork::causes::DriftSign;
    /// assert_eq!(DriftSign::ALL.len(), 3);
    /// ```
    DriftSign, 3 {
        /// As those of their mates.
        AsItsMates = 0,
        /// One closes unlike its mates.
        Closing = 1,
        /// One opens unlike its mates.
        Opening = 2,
    }
}

sign! {
    /// A cylinder's compression against its mates, dry, and if low with oil.
    ///
    /// ```
    /// use lashwork::causes::CompressionSign;
    /// assert_eq!(CompressionSign::ALL.len(), 3);
    /// ```
    CompressionSign, 3 {
        /// As its mates.
        AsItsMates = 0,
        /// Low, and up with a spoon of oil.
        LowOilHelps = 1,
        /// Low, and no better with oil.
        LowOilNoHelp = 2;
        /// Low; not tried with oil.
        Low = not 0
    }
}

sign! {
    /// Where a cylinder's leak is heard, with air let in at firing TDC.
    ///
    /// ```
    /// use lashwork::causes::LeakSign;
    /// assert_eq!(LeakSign::ALL.len(), 5);
    /// ```
    LeakSign, 5 {
        /// It leaks little.
        Small = 0,
        /// Much, out of the exhaust.
        AtExhaust = 1,
        /// Much, out of the carburettor.
        AtIntake = 2,
        /// Much, out of the breather.
        AtBreather = 3,
        /// Much, into a neighbour, the water or past the gasket.
        AtGasket = 4;
        /// Much; not listened for.
        Large = not 0
    }
}

sign! {
    /// A plug as seen.
    ///
    /// ```
    /// use lashwork::causes::PlugSign;
    /// assert_eq!(PlugSign::ALL.len(), 5);
    /// ```
    PlugSign, 5 {
        /// Brown or grey and dry.
        Normal = 0,
        /// Black and dry.
        Sooty = 1,
        /// White or blistered.
        White = 2,
        /// Oily.
        Oily = 3,
        /// Wet with fuel or water.
        Wet = 4,
    }
}

sign! {
    /// The compression of all cylinders against what this engine should show.
    ///
    /// ```
    /// use lashwork::causes::PressureSign;
    /// assert_eq!(PressureSign::ALL.len(), 3);
    /// ```
    PressureSign, 3 {
        /// As it should be.
        Right = 0,
        /// All low.
        AllLow = 1,
        /// All high.
        AllHigh = 2,
    }
}

sign! {
    /// Carbon monoxide in the exhaust at idle, against the book.
    ///
    /// ```
    /// use lashwork::causes::MonoxideSign;
    /// assert_eq!(MonoxideSign::ALL.len(), 3);
    /// ```
    MonoxideSign, 3 {
        /// As the book says.
        Right = 0,
        /// Too much.
        High = 1,
        /// Too little.
        Low = 2,
    }
}

sign! {
    /// Unburnt fuel in the exhaust at idle, against the book.
    ///
    /// ```
    /// use lashwork::causes::UnburntSign;
    /// assert_eq!(UnburntSign::ALL.len(), 2);
    /// ```
    UnburntSign, 2 {
        /// As the book says.
        Right = 0,
        /// Too much.
        High = 1,
    }
}

sign! {
    /// Oxygen in the exhaust at idle, against what the carbon monoxide lets expect.
    ///
    /// ```
    /// use lashwork::causes::OxygenSign;
    /// assert_eq!(OxygenSign::ALL.len(), 2);
    /// ```
    OxygenSign, 2 {
        /// As expected.
        Right = 0,
        /// Too much.
        High = 1,
    }
}

sign! {
    /// Lambda of the exhaust at idle.
    ///
    /// ```
    /// use lashwork::causes::LambdaSign;
    /// assert_eq!(LambdaSign::ALL.len(), 3);
    /// ```
    LambdaSign, 3 {
        /// Within its limits.
        Right = 0,
        /// Below them.
        Rich = 1,
        /// Above them.
        Lean = 2,
    }
}

sign! {
    /// Ignition timing.
    ///
    /// ```
    /// use lashwork::causes::TimingSign;
    /// assert_eq!(TimingSign::ALL.len(), 3);
    /// ```
    TimingSign, 3 {
        /// Within its limits.
        Right = 0,
        /// Too late.
        Late = 1,
        /// Too early.
        Early = 2,
    }
}

sign! {
    /// Dwell of the contacts.
    ///
    /// ```
    /// use lashwork::causes::DwellSign;
    /// assert_eq!(DwellSign::ALL.len(), 3);
    /// ```
    DwellSign, 3 {
        /// Within its limits.
        Right = 0,
        /// Too large: the gap has closed.
        Large = 1,
        /// Too small: the gap is too wide.
        Small = 2,
    }
}

/// A finding, and how sure it is.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::causes::{LashSign, Seen};
/// // The leaf says tight, and by its doubt is right with 80 %.
/// let lash = Seen::with_chance(LashSign::Tight, 0.8)?;
/// assert_eq!(lash.chance(), 0.8);
/// assert_eq!(Seen::from(LashSign::Tight).chance(), 0.98);
/// assert_eq!(Seen::with_chance(LashSign::Tight, 1.0).unwrap_err().code(), "causes.sure");
/// # Ok::<(), lashwork::causes::CauseError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Seen<T> {
    found: T,
    chance: f64,
    is_stated: bool,
}

impl<T: Copy> Seen<T> {
    /// A finding that is right with this chance; the rest is spread over what else it may be.
    ///
    /// # Errors
    /// [`CauseError::Sure`] if not from 0.5 up to, but not, 1.
    pub fn with_chance(found: T, chance: f64) -> Result<Self, CauseError> {
        if (0.5..1.0).contains(&chance) {
            Ok(Self {
                found,
                chance,
                is_stated: true,
            })
        } else {
            Err(CauseError::Sure { got: chance })
        }
    }

    /// What a judgement says: the side that is more probable than not, as surely as that, and never more surely
    /// than a finding whose doubt is not stated (0.98), because a judgement knows of no slip. None if no side is.
    ///
    /// ```
    /// use lashwork::causes::{LashSign, Seen};
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let lash = Lash::parse("0.14 mm")?;
    /// let found = Estimate::between(lash, lash, Uncertainty::from_mm(0.01)?)?;
    /// let p = found.probabilities(&"0.15 mm to 0.25 mm".parse()?);
    /// let seen = Seen::judged(&p, LashSign::Tight, LashSign::InLimits, LashSign::Loose).unwrap();
    /// assert!(seen.found() == LashSign::Tight && (seen.chance() - 0.841).abs() < 1e-3);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn judged(p: &Probabilities, below: T, in_band: T, above: T) -> Option<Self> {
        let sides = [
            (p.below.least, below),
            (p.in_band.least, in_band),
            (p.above.least, above),
        ];
        let (chance, found) = sides.into_iter().find(|(chance, _)| *chance >= 0.5)?;
        Some(Self {
            found,
            chance: chance.min(USUALLY_SURE),
            is_stated: true,
        })
    }

    /// What was found.
    #[must_use]
    pub const fn found(&self) -> T {
        self.found
    }

    /// The chance that it is right.
    #[must_use]
    pub const fn chance(&self) -> f64 {
        self.chance
    }

    pub(super) const fn is_stated(&self) -> bool {
        self.is_stated
    }
}

/// A cylinder that shows less of what its mates show is low. This library's choice: makers allow 70 to 75 % before
/// they ask for work, sound cylinders scatter by 3 or 4 %.
const LOW: f64 = 0.87;
/// Oil that brings back more of what is lost helps. This library's choice.
const HELPS: f64 = 0.25;

impl Seen<CompressionSign> {
    /// A cylinder's compression by the share of what its mates show, and what oil added to that share, each with
    /// its standard uncertainty. None if it is as likely low as not.
    ///
    /// ```
    /// use lashwork::causes::{CompressionSign, Seen};
    /// let seen = Seen::of_shares((0.60, 0.03), Some((0.25, 0.04))).unwrap();
    /// assert_eq!(seen.found(), CompressionSign::LowOilHelps);
    /// assert_eq!(Seen::of_shares((0.60, 0.03), None).unwrap().found(), CompressionSign::Low);
    /// ```
    #[must_use]
    pub fn of_shares(dry: (f64, f64), oil: Option<(f64, f64)>) -> Option<Self> {
        let under = |limit: f64, (value, u): (f64, f64)| {
            normal_cdf((limit - value) / u.max(f64::MIN_POSITIVE))
        };
        let low = under(LOW, dry);
        let (found, chance) = match oil {
            _ if low < 0.5 => (CompressionSign::AsItsMates, 1.0 - low),
            None => (CompressionSign::Low, low),
            Some((gain, u)) => {
                let (share, share_u) = dry;
                let enough = HELPS * (1.0 - share);
                let none = under(enough, (gain, libm::hypot(u, HELPS * share_u)));
                if none < 0.5 {
                    (CompressionSign::LowOilHelps, low * (1.0 - none))
                } else {
                    (CompressionSign::LowOilNoHelp, low * none)
                }
            }
        };
        (chance >= 0.5).then_some(Self {
            found,
            chance: chance.min(USUALLY_SURE),
            is_stated: true,
        })
    }
}

impl<T> From<T> for Seen<T> {
    fn from(found: T) -> Self {
        Self {
            found,
            chance: USUALLY_SURE,
            is_stated: false,
        }
    }
}

/// What was found of one cylinder; whatever is left out is not known.
///
/// ```
/// use lashwork::causes::{CylinderSigns, PlugSign};
/// let third = CylinderSigns { plug: Some(PlugSign::Oily.into()), ..CylinderSigns::default() };
/// assert!(third.lash.is_none());
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct CylinderSigns {
    /// Its clearances, as found.
    pub lash: Option<Seen<LashSign>>,
    /// How they went since they were set.
    pub drift: Option<Seen<DriftSign>>,
    /// Its compression.
    pub compression: Option<Seen<CompressionSign>>,
    /// Its leak.
    pub leak: Option<Seen<LeakSign>>,
    /// Its plug.
    pub plug: Option<Seen<PlugSign>>,
}

/// What was found of the engine as a whole; whatever is left out is not known.
///
/// ```
/// use lashwork::causes::{EngineSigns, TimingSign};
/// let signs = EngineSigns { timing: Some(TimingSign::Late.into()), ..EngineSigns::default() };
/// assert!(signs.gauge.is_none());
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct EngineSigns {
    /// Compression against what this engine should show.
    pub pressure: Option<Seen<PressureSign>>,
    /// What the vacuum gauge shows; findings other than the gauge's own are left out of it.
    pub gauge: Option<GaugeCheck>,
    /// Carbon monoxide.
    pub monoxide: Option<Seen<MonoxideSign>>,
    /// Unburnt fuel.
    pub unburnt: Option<Seen<UnburntSign>>,
    /// Oxygen.
    pub oxygen: Option<Seen<OxygenSign>>,
    /// Lambda; left out where carbon monoxide or oxygen is given, of which it is reckoned.
    pub lambda: Option<Seen<LambdaSign>>,
    /// Ignition timing.
    pub timing: Option<Seen<TimingSign>>,
    /// Dwell.
    pub dwell: Option<Seen<DwellSign>>,
}
