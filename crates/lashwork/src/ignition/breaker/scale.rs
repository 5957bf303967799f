//! Scales of a dwell meter, and a reading taken on the wrong one.
//!
//! A meter measures which share of the time the contacts are closed, and shows it on a scale whose end is
//! the pitch of an engine of so many cylinders. On another engine the same share is another angle.

use super::{BreakerError, Dwell, Lobes};
use crate::tolerance::{DecisionRule, Estimate, Limits, Measurand, Uncertainty, Verdict, judge};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;
use serde::Serialize;

/// What the meter is switched to.
///
/// ```
/// use lashwork::ignition::breaker::{Lobes, MeterScale};
/// // A meter on its scale for six cylinders, on an engine of four.
/// let six = MeterScale::Cylinders(Lobes::new(6)?);
/// assert!((six.dwell(34.67, Lobes::new(4)?)?.degrees() - 52.0).abs() < 0.01);
/// assert!(six.dwell(60.0, Lobes::new(4)?).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Source
/// Full scale 90, 60 and 45 degrees for 4, 6 and 8 cylinders: TM 9-4910-700-14-P, p. 11.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum MeterScale {
    /// Degrees, for an engine of so many cylinders on one distributor.
    Cylinders(Lobes),
    /// Per cent.
    Percent,
}

impl MeterScale {
    /// Scales that meters are made with; beyond 4, 6 and 8 common practice, no source.
    const KNOWN: [Self; 7] = [
        Self::Cylinders(Lobes::of::<4>()),
        Self::Cylinders(Lobes::of::<6>()),
        Self::Cylinders(Lobes::of::<8>()),
        Self::Percent,
        Self::Cylinders(Lobes::of::<2>()),
        Self::Cylinders(Lobes::of::<3>()),
        Self::Cylinders(Lobes::of::<5>()),
    ];

    /// What it shows when the contacts never open: degrees, or 100.
    #[must_use]
    pub fn full(self) -> f64 {
        match self {
            Self::Cylinders(cylinders) => cylinders.pitch_degrees(),
            Self::Percent => 100.0,
        }
    }

    /// The dwell over so many lobes of what is shown on this scale: the reading times the cylinders of the
    /// scale over the lobes.
    ///
    /// # Errors
    /// [`BreakerError::Reading`] if not above 0 and below the end of the scale.
    pub fn dwell(self, shown: f64, lobes: Lobes) -> Result<Dwell, BreakerError> {
        if shown > 0.0 && shown < self.full() {
            Ok(Dwell::from_degrees(
                shown * lobes.pitch_degrees() / self.full(),
            )?)
        } else {
            Err(BreakerError::Reading {
                got: shown,
                scale: self,
            })
        }
    }

    /// What this scale shows for a dwell over so many lobes.
    ///
    /// # Errors
    /// As [`Lobes::check`].
    ///
    /// ```
    /// use lashwork::ignition::breaker::{Dwell, Lobes, MeterScale};
    /// let six = MeterScale::Cylinders(Lobes::new(6)?);
    /// let shown = six.shows(Dwell::from_degrees(52.0)?, Lobes::new(4)?)?;
    /// assert!((shown - 34.667).abs() < 0.001);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn shows(self, dwell: Dwell, lobes: Lobes) -> Result<f64, BreakerError> {
        Ok(lobes.check(dwell)?.degrees() * self.full() / lobes.pitch_degrees())
    }
}

impl fmt::Display for MeterScale {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Cylinders(cylinders) => write!(f, "the scale for {cylinders} cylinders"),
            Self::Percent => f.write_str("the per cent scale"),
        }
    }
}

/// A scale the meter may have been on instead.
///
/// ```
/// use lashwork::ignition::breaker::{Dwell, Lobes, MeterScale, possible_scales};
/// use lashwork::tolerance::{Estimate, HasLimits, Uncertainty};
/// let four = Lobes::new(4)?;
/// let read = Dwell::from_degrees(34.7)?;
/// let found = Estimate::between(read, read, Uncertainty::from_number(1.0)?)?;
/// let band = "49 deg to 55 deg".parse()?;
/// let other = possible_scales(&found, MeterScale::Cylinders(four), four, &band, &Dwell::USUAL_RULE)?;
/// let first = other.first().ok_or("none")?;
/// assert_eq!(first.scale, MeterScale::Cylinders(Lobes::new(6)?));
/// assert!(first.in_band > 0.9 && first.as_taken < 1e-9);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PossibleScale {
    /// That scale.
    pub scale: MeterScale,
    /// What the dwell would be.
    pub dwell: Estimate<Dwell>,
    /// How probable it is that such a dwell lies in the band.
    pub in_band: f64,
    /// How probable that is of the dwell as taken.
    pub as_taken: f64,
}

/// The dwell as taken must be less likely than this to be in the band.
const FAR_OUTSIDE: f64 = 0.05;
/// A scale is named from this probability of being in the band.
const WORTH_NAMING: f64 = 0.5;

/// Scales on which the same deflection would lie in the band, while the reading as taken is far outside;
/// the most probable first. Far outside is further than the band is wide: what is nearer is far more often
/// a breaker to be set (this library's choice, no source).
///
/// `found` is the dwell as it was understood, on the scale `taken_as`. It is never corrected here: a
/// breaker that is badly set gives the same number, and only a look at the meter's switch tells.
///
/// # Errors
/// [`BreakerError::OneSided`], and as [`Lobes::check`].
pub fn possible_scales(
    found: &Estimate<Dwell>,
    taken_as: MeterScale,
    lobes: Lobes,
    band: &Limits<Dwell>,
    rule: &DecisionRule,
) -> Result<Vec<PossibleScale>, BreakerError> {
    let one_sided = BreakerError::OneSided { what: "the dwell" };
    let centre = found.centre().ok_or(one_sided)?;
    lobes.check(centre)?;
    let taken = judge(found, band, rule);
    let as_taken = taken.probabilities.in_band.most;
    let mut possible = Vec::new();
    let is_far = match (band.lower(), band.upper()) {
        (Some(low), Some(high)) => {
            let off = (low - centre).degrees().max((centre - high).degrees());
            off > (high - low).degrees()
        }
        _ => false,
    };
    if taken.verdict == Verdict::InBand || as_taken >= FAR_OUTSIDE || !is_far {
        return Ok(possible);
    }
    for scale in MeterScale::KNOWN {
        let factor = taken_as.full() / scale.full();
        if scale == taken_as || lobes.pitch_degrees() <= factor * centre.degrees() {
            continue;
        }
        let dwell = scaled(found, factor)?;
        let in_band = judge(&dwell, band, rule).probabilities.in_band.least;
        if in_band >= WORTH_NAMING {
            possible.push(PossibleScale {
                scale,
                dwell,
                in_band,
                as_taken,
            });
        }
    }
    possible.sort_by(|a, b| b.in_band.total_cmp(&a.in_band));
    Ok(possible)
}

/// The estimate with everything multiplied.
fn scaled(found: &Estimate<Dwell>, factor: f64) -> Result<Estimate<Dwell>, BreakerError> {
    let end = |end: Option<Dwell>| {
        end.map(|end| Dwell::from_degrees(end.number() * factor))
            .transpose()
    };
    let u = Uncertainty::from_number(found.normal_uncertainty().number() * factor)?;
    Ok(Estimate::of(end(found.low())?, end(found.high())?, u)?)
}

/// What a dwell that these lobes cannot have would be on scales that can show it, in words.
pub(super) fn scales_that_show(shown: Dwell, lobes: Lobes) -> Option<String> {
    let would = MeterScale::KNOWN.into_iter().filter_map(|scale| {
        let dwell = scale.dwell(shown.degrees(), lobes).ok()?;
        let degrees = libm::round(dwell.degrees() * 10.0) / 10.0;
        let shown = match scale {
            MeterScale::Cylinders(_) => format!("{shown}"),
            MeterScale::Percent => format!("{} %", shown.degrees()),
        };
        Some(format!("reads {shown} on {scale} would be {degrees} deg"))
    });
    let texts: Vec<String> = would.take(3).collect();
    (!texts.is_empty()).then(|| texts.join(", "))
}
