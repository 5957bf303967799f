//! A book's angle held against its piston travel: which slip makes the two agree.

use super::{Piston, PointError};
use crate::quantity::{Advance, PistonTravel};
use alloc::vec::Vec;
use serde::Serialize;

/// What makes an angle and a piston travel one point.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum PairFits {
    /// They are one point as they stand.
    AsGiven,
    /// They are with twice the stroke: half of it, the crank radius, was given as the stroke.
    RadiusGivenForStroke,
    /// They are with twice the angle: it counts at the distributor.
    DistributorDegrees,
    /// They are with half the angle: it was doubled, though it counted at the crank already.
    HalfTheAngle,
}

/// Which readings of an angle and a travel make them one point, within `u` millimetres of travel and `u`
/// degrees of angle at twice their standard uncertainty; the closest first, none where no slip does.
///
/// As they stand goes before any slip.
///
/// # Errors
/// [`PointError`] if the angle leaves its range.
///
/// ```
/// use lashwork::engine::{PinOffset, SliderCrank};
/// use lashwork::ignition::point::{PairFits, Piston, pair_fits};
/// use lashwork::quantity::{Advance, Length, PistonTravel};
/// let mm = |mm| Length::from_mm(mm);
/// // 27 mm is the radius of a crank of 54 mm stroke, given as if it were the stroke.
/// let slip = Piston::of_crank(SliderCrank::new(mm(13.5)?, mm(100.0)?, PinOffset::ZERO)?);
/// let (angle, travel) = (Advance::parse("22 deg BTDC")?, PistonTravel::parse("2.48 mm")?);
/// let fits = pair_fits(&slip, angle, travel, 0.5, 0.05)?;
/// assert_eq!(fits.first(), Some(&PairFits::RadiusGivenForStroke));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn pair_fits(
    piston: &Piston<'_>,
    angle: Advance,
    travel: PistonTravel,
    angle_u: f64,
    travel_u: f64,
) -> Result<Vec<PairFits>, PointError> {
    let at = |share: f64| Advance::from_degrees_before(angle.degrees_before() * share);
    let mut off = Vec::new();
    let mut weigh = |fits: PairFits, piston: &Piston<'_>, point: Advance, angle_u: f64| {
        let expected = piston.travel(point)?.mm();
        let Ok(further) = Advance::from_degrees_before(point.degrees_before() + angle_u) else {
            return Ok(());
        };
        let of_angle = piston.travel(further)?.mm() - expected;
        let u = libm::hypot(of_angle, travel_u).max(f64::MIN_POSITIVE);
        off.push((fits, (travel.mm() - expected).abs() / u));
        Ok::<(), PointError>(())
    };
    weigh(PairFits::AsGiven, piston, angle, angle_u)?;
    if let Some(twice) = piston.of_twice_the_stroke() {
        weigh(PairFits::RadiusGivenForStroke, &twice, angle, angle_u)?;
    }
    if let Ok(double) = at(2.0) {
        weigh(PairFits::DistributorDegrees, piston, double, 2.0 * angle_u)?;
    }
    weigh(PairFits::HalfTheAngle, piston, at(0.5)?, angle_u / 2.0)?;
    off.retain(|(_, off)| *off <= 2.0);
    off.sort_by(|(a, x), (b, y)| {
        let slip = |fits: &PairFits| *fits != PairFits::AsGiven;
        slip(a).cmp(&slip(b)).then(x.total_cmp(y))
    });
    Ok(off.into_iter().map(|(fits, _)| fits).collect())
}
