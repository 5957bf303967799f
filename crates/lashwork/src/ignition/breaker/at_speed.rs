//! Whether the dwell stays as it is when speed or vacuum changes.

use super::{BreakerError, Dwell, DwellChange};
use crate::tolerance::known::{known, normal};
use crate::tolerance::{Estimate, HasLimits, Judgement, Limits, judge};
use serde::Serialize;

/// What was changed between two readings of dwell.
///
/// ```
/// use lashwork::ignition::breaker::VariedBy;
/// assert!(VariedBy::Speed.points_to().contains("shaft"));
/// assert!(VariedBy::Vacuum.points_to().contains("plate"));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum VariedBy {
    /// The speed, from idle to about 1500 a minute, the vacuum disconnected.
    Speed,
    /// The vacuum, at one speed.
    Vacuum,
}

impl VariedBy {
    /// Where to look if the dwell varies too much.
    ///
    /// # Source
    /// Speed: common practice, no source. Vacuum: TM 9-4910-622-14-P, p. 18, for plates with a centre
    /// bearing; on a pivoted plate the dwell falls a little by itself as it advances (same, and a maker's
    /// manual).
    #[must_use]
    pub const fn points_to(self) -> &'static str {
        match self {
            Self::Speed => "the distributor's shaft and its bushes",
            Self::Vacuum => "the bushes of the breaker plate, or its flexible lead",
        }
    }
}

/// How much the dwell may vary either way, in degrees. Common practice, no source.
pub const USUAL_VARIATION: f64 = 2.0;

/// How the dwell varies.
///
/// ```
/// use lashwork::ignition::breaker::{Dwell, VariedBy, dwell_variation};
/// use lashwork::tolerance::{Estimate, Uncertainty, Verdict};
/// let read = |deg| {
///     let at = Dwell::from_degrees(deg).unwrap();
///     Estimate::between(at, at, Uncertainty::from_number(0.5).unwrap())
/// };
/// let worn = dwell_variation(&read(52.0)?, &read(47.5)?, VariedBy::Speed, None)?;
/// assert_eq!(worn.judgement.verdict, Verdict::Below);
/// let steady = dwell_variation(&read(52.0)?, &read(51.0)?, VariedBy::Speed, None)?;
/// assert_eq!(steady.judgement.verdict, Verdict::InBand);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct DwellVariation {
    /// The second reading less the first.
    pub change: Estimate<DwellChange>,
    /// How much it may be.
    pub limits: Limits<DwellChange>,
    /// Whether it is within that.
    pub judgement: Judgement,
    /// What was changed.
    pub by: VariedBy,
}

/// How the dwell varies from a first reading to a second, judged by simple acceptance against the book's
/// figure or, without one, [`USUAL_VARIATION`] either way.
///
/// # Errors
/// [`BreakerError::OneSided`].
pub fn dwell_variation(
    first: &Estimate<Dwell>,
    second: &Estimate<Dwell>,
    by: VariedBy,
    allowed: Option<DwellChange>,
) -> Result<DwellVariation, BreakerError> {
    let one_sided = BreakerError::OneSided { what: "the dwell" };
    let (Some((before, before_u)), Some((after, after_u))) = (known(first), known(second)) else {
        return Err(one_sided);
    };
    let change = normal(after - before, libm::hypot(before_u, after_u))?;
    let most = allowed.map_or(USUAL_VARIATION, |most| most.degrees().abs());
    let limits = Limits::between(
        DwellChange::from_degrees(-most)?,
        DwellChange::from_degrees(most)?,
    )?;
    Ok(DwellVariation {
        change,
        limits,
        judgement: judge(&change, &limits, &DwellChange::USUAL_RULE),
        by,
    })
}
