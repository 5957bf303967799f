//! How far the spark moves when the dwell changes.
//!
//! # Method
//! More dwell comes off both flanks of the opening: on a symmetric lobe half of it closes the contacts
//! earlier and half opens them later, and the spark comes at opening. In crank degrees that is doubled
//! where the crank turns twice for one turn of the cam: one crank degree for each degree of dwell, not two
//! as is often said. Two would need all of the change on the opening flank.
//!
//! # Source
//! Geometry of a symmetric lobe.

use super::{BreakerAssumption, BreakerError, CamSpeed, DwellChange};
use crate::quantity::{Advance, CrankAngle};
use crate::tolerance::known::known;
use crate::tolerance::{Estimate, Uncertainty};
use alloc::vec::Vec;
use serde::Serialize;

/// How a change of dwell is shared between the two flanks of a lobe.
///
/// ```
/// use lashwork::ignition::breaker::Flanks;
/// assert_ne!(Flanks::Symmetric, Flanks::OpeningShare(0.6));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Flanks {
    /// Both flanks alike.
    Symmetric,
    /// So much of it, from 0 to 1, falls on the flank that opens the contacts.
    OpeningShare(f64),
}

impl Flanks {
    fn opening(self) -> Result<f64, BreakerError> {
        match self {
            Self::Symmetric => Ok(0.5),
            Self::OpeningShare(share) if (0.0..=1.0).contains(&share) => Ok(share),
            Self::OpeningShare(share) => Err(BreakerError::FlankShare { got: share }),
        }
    }
}

/// How far the spark moves, at the crank.
///
/// ```
/// use lashwork::ignition::breaker::{CamSpeed, DwellChange, Flanks, spark_shift};
/// use lashwork::quantity::Advance;
/// use lashwork::tolerance::{Estimate, Uncertainty};
/// let grown = DwellChange::from_degrees(3.0)?;
/// let grown = Estimate::between(grown, grown, Uncertainty::from_number(0.5)?)?;
/// let shift = spark_shift(&grown, CamSpeed::HalfCrank, Some(Flanks::Symmetric))?;
/// // Three degrees more dwell, three crank degrees later.
/// assert_eq!(Advance::parse("10 deg BTDC")? + shift.earlier, Advance::parse("7 deg BTDC")?);
/// assert_eq!(shift.uncertainty.number(), 0.5);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SparkShift {
    /// How much earlier the spark comes; negative is later. It is added to an [`Advance`].
    pub earlier: CrankAngle,
    /// Its standard uncertainty.
    pub uncertainty: Uncertainty<Advance>,
    /// What is taken for granted.
    pub assumptions: Vec<BreakerAssumption>,
}

/// How far the spark moves with a change of dwell; where the flanks are not stated they are taken alike,
/// and that is listed.
///
/// # Errors
/// [`BreakerError::OneSided`], [`BreakerError::FlankShare`].
pub fn spark_shift(
    change: &Estimate<DwellChange>,
    cam: CamSpeed,
    flanks: Option<Flanks>,
) -> Result<SparkShift, BreakerError> {
    let what = "the change of dwell";
    let (degrees, u) = known(change).ok_or(BreakerError::OneSided { what })?;
    shift(DwellChange::from_degrees(degrees)?, u, cam, flanks)
}

pub(super) fn shift(
    change: DwellChange,
    u: f64,
    cam: CamSpeed,
    flanks: Option<Flanks>,
) -> Result<SparkShift, BreakerError> {
    let assumed = flanks
        .is_none()
        .then_some(BreakerAssumption::FlanksSymmetric);
    let opening = flanks.unwrap_or(Flanks::Symmetric).opening()?;
    let each = opening * cam.crank_turns();
    Ok(SparkShift {
        earlier: CrankAngle::from_degrees(-each * change.degrees())?,
        uncertainty: Uncertainty::from_number(each * u)?,
        assumptions: assumed.into_iter().collect(),
    })
}
