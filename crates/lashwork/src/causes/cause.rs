//! What may be the matter with an engine, and where.

use super::CauseError;
use serde::Serialize;

/// What may be the matter.
///
/// ```
/// use lashwork::causes::Cause;
/// assert_eq!(Cause::ALL.len(), 11);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(rename = "EngineCause"))]
#[serde(rename_all = "snake_case")]
pub enum Cause {
    /// A valve is burnt, or has sunk into its seat.
    ValveBurnt,
    /// A valve has too little clearance, and is sound otherwise.
    ValveTight,
    /// A cam lobe or its follower is worn.
    CamWorn,
    /// The camshaft stands a tooth out.
    CamToothOut,
    /// Piston rings are worn, stuck or broken.
    RingsWorn,
    /// The head gasket leaks.
    HeadGasket,
    /// Air comes in behind the throttle.
    IntakeLeak,
    /// The spark is weak or missing: plug, lead, contacts, condenser or coil.
    SparkWeak,
    /// The spark is late.
    SparkLate,
    /// The mixture is too rich.
    MixtureRich,
    /// The mixture is too lean.
    MixtureLean,
}

impl Cause {
    /// All of them.
    pub const ALL: [Self; 11] = [
        Self::ValveBurnt,
        Self::ValveTight,
        Self::CamWorn,
        Self::CamToothOut,
        Self::RingsWorn,
        Self::HeadGasket,
        Self::IntakeLeak,
        Self::SparkWeak,
        Self::SparkLate,
        Self::MixtureRich,
        Self::MixtureLean,
    ];
}

/// Where a cause sits. Cylinders count from 0, in the order their signs are given in.
///
/// ```
/// use lashwork::causes::Place;
/// assert!(Place::Between(0, 1).touches(1) && !Place::Cylinder(0).touches(1));
/// assert!(Place::Engine.touches(7));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Place {
    /// In all cylinders, or in what they share.
    Engine,
    /// In one cylinder.
    Cylinder(usize),
    /// Between two neighbours.
    Between(usize, usize),
}

impl Place {
    /// Whether a cylinder shows it.
    #[must_use]
    pub const fn touches(self, cylinder: usize) -> bool {
        match self {
            Self::Engine => true,
            Self::Cylinder(own) => own == cylinder,
            Self::Between(one, other) => one == cylinder || other == cylinder,
        }
    }
}

/// How often a cause is met, in percent of engines that are looked at.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::causes::{Cause, CausePriors};
/// let usual = CausePriors::assumed();
/// assert_eq!(usual.percent(Cause::RingsWorn), 6.0);
/// // An engine that was rebuilt last year.
/// let rebuilt = usual.with(Cause::RingsWorn, 0.5)?;
/// assert_eq!(rebuilt.percent(Cause::RingsWorn), 0.5);
/// assert_eq!(usual.with(Cause::RingsWorn, 100.0).unwrap_err().code(), "causes.prior");
/// # Ok::<(), lashwork::causes::CauseError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(transparent)]
pub struct CausePriors([(Cause, f64); 11]);

impl CausePriors {
    /// This library's choice, to be listed as an assumption.
    #[must_use]
    pub const fn assumed() -> Self {
        use Cause as C;
        Self([
            (C::ValveBurnt, 4.0),
            (C::ValveTight, 6.0),
            (C::CamWorn, 2.0),
            (C::CamToothOut, 1.0),
            (C::RingsWorn, 6.0),
            (C::HeadGasket, 2.0),
            (C::IntakeLeak, 6.0),
            (C::SparkWeak, 6.0),
            (C::SparkLate, 7.0),
            (C::MixtureRich, 6.0),
            (C::MixtureLean, 4.0),
        ])
    }

    /// With another share of one cause.
    ///
    /// # Errors
    /// [`CauseError::Prior`] if not from 0 up to, but not, 100.
    pub fn with(mut self, cause: Cause, percent: f64) -> Result<Self, CauseError> {
        if !(0.0..100.0).contains(&percent) {
            return Err(CauseError::Prior { got: percent });
        }
        for (own, share) in &mut self.0 {
            if *own == cause {
                *share = percent;
            }
        }
        Ok(self)
    }

    /// The share of one cause.
    #[must_use]
    pub fn percent(&self, cause: Cause) -> f64 {
        let found = self.0.iter().find(|(own, _)| *own == cause);
        found.map_or(0.0, |(_, percent)| *percent)
    }
}
