//! Published rules of how much the speed should rise when the mixture is leaned out from idle.
//!
//! They disagree, so each is judged on its own.
//!
//! # Source
//! A handbook of an aviation authority, the manual of a maker of fuel metering, and a service page by height;
//! all are named in the tests. A single printed figure is taken to stand for half of its last step to either
//! side, which is this library's choice, and so is a straight line between two printed heights.

use crate::quantity::{Altitude, CrankSpeed, QuantityError};
use crate::tolerance::{Estimate, Judgement, Limits};
use alloc::vec::Vec;
use serde::Serialize;

/// Metres of a foot.
const FOOT: f64 = 0.3048;
/// Feet, least and greatest rise in rpm. The first is printed as 75, in steps of 5.
const BY_HEIGHT: [(f64, f64, f64); 5] = [
    (0.0, 72.5, 77.5),
    (1000.0, 60.0, 65.0),
    (2000.0, 45.0, 50.0),
    (3000.0, 30.0, 35.0),
    (4000.0, 20.0, 25.0),
];

/// A published rule.
///
/// ```
/// use lashwork::mixture::idle::RiseRule;
/// use lashwork::quantity::Altitude;
/// let sea = Altitude::from_metres(0.0)?;
/// let band = |rule: RiseRule| rule.band(sea).ok().flatten();
/// // At sea level the handbook and the page have nothing in common.
/// let (book, page) = (band(RiseRule::Handbook), band(RiseRule::ByHeight));
/// assert!(book.zip(page).is_some_and(|(book, page)| book.upper() < page.lower()));
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum RiseRule {
    /// The handbook: 25 to 50 rpm.
    Handbook,
    /// The maker of fuel metering: about 10 to 50 rpm.
    Metering,
    /// The service page: 75 rpm at sea level, down to 20 to 25 rpm at 4000 ft.
    ByHeight,
}

impl RiseRule {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Handbook, Self::Metering, Self::ByHeight];

    /// What it asks for at a height; none where it says nothing.
    ///
    /// # Errors
    /// None for the figures there are.
    pub fn band(self, height: Altitude) -> Result<Option<Limits<CrankSpeed>>, QuantityError> {
        let rise = match self {
            Self::Handbook => Some((25.0, 50.0)),
            Self::Metering => Some((10.0, 50.0)),
            Self::ByHeight => by_height(height.metres() / FOOT),
        };
        let Some((least, most)) = rise else {
            return Ok(None);
        };
        let (least, most) = (CrankSpeed::from_rpm(least)?, CrankSpeed::from_rpm(most)?);
        Ok(Limits::between(least, most).ok())
    }
}

fn by_height(feet: f64) -> Option<(f64, f64)> {
    let rows = BY_HEIGHT.iter().zip(BY_HEIGHT.iter().skip(1));
    let mut around = rows.filter(|(low, high)| feet >= low.0 - 1e-6 && feet <= high.0 + 1e-6);
    let (low, high) = around.next()?;
    let part = (feet - low.0) / (high.0 - low.0);
    let between = |a: f64, b: f64| a + part * (b - a);
    Some((between(low.1, high.1), between(low.2, high.2)))
}

/// A rise against one rule.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RiseJudged {
    /// The rule.
    pub rule: RiseRule,
    /// What it asks for here; none where it says nothing.
    pub band: Option<Limits<CrankSpeed>>,
    /// Below is too lean, above too rich.
    pub judgement: Option<Judgement>,
}

/// A rise against all published rules, side by side; none is chosen.
///
/// # Errors
/// As [`RiseRule::band`].
///
/// ```
/// use lashwork::mixture::idle::rise_by_the_rules;
/// use lashwork::quantity::{Altitude, CrankSpeed};
/// use lashwork::tolerance::{Estimate, Uncertainty, Verdict};
/// let rise = CrankSpeed::from_rpm(40.0)?;
/// let rise = Estimate::between(rise, rise, Uncertainty::from_number(3.0)?)?;
/// let found = rise_by_the_rules(&rise, Altitude::from_metres(0.0)?)?;
/// let verdicts: Vec<_> = found.iter().flat_map(|f| f.judgement).map(|j| j.verdict).collect();
/// assert_eq!(verdicts, [Verdict::InBand, Verdict::InBand, Verdict::Below]);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn rise_by_the_rules(
    rise: &Estimate<CrankSpeed>,
    height: Altitude,
) -> Result<Vec<RiseJudged>, QuantityError> {
    let judged = |rule: RiseRule| {
        let band = rule.band(height)?;
        Ok(RiseJudged {
            rule,
            band,
            judgement: band.map(|band| rise.judged_by(&band)),
        })
    };
    RiseRule::ALL.into_iter().map(judged).collect()
}
