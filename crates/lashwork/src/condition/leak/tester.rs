//! A tester, and the leak behind it.

use super::{CHOKED_BELOW, LeakError, flow_function};
use crate::quantity::{AbsolutePressure, Area, GaugePressure, Length};
use crate::tolerance::known::{known, normal, together};
use crate::tolerance::{Estimate, Uncertainty};
use core::f64::consts::PI;
use serde::Serialize;

/// Supplies that are accepted, in kilopascals, and orifices in millimetres.
const SUPPLY: (f64, f64) = (100.0, 1_500.0);
const ORIFICE: (f64, f64) = (0.2, 6.0);
/// Air that engines run in, in kilopascals.
const AIR: (f64, f64) = (30.0, 110.0);
/// A cylinder that shows less of the supply holds nothing.
const NOTHING: f64 = 0.02;
/// Two supplies, and two areas, that differ by no more are one.
const SAME_SUPPLY: f64 = 0.01;
const SAME_AREA: f64 = 0.02;

/// A leak-down tester: a regulator, a gauge, an orifice, and a gauge on the cylinder.
///
/// ```
/// use lashwork::condition::leak::Tester;
/// use lashwork::quantity::{AbsolutePressure, GaugePressure, Length};
/// use lashwork::tolerance::{Estimate, Uncertainty};
/// let exact = |psi: f64| {
///     let p = GaugePressure::from_number(psi, "psi").unwrap();
///     Estimate::between(p, p, Uncertainty::ZERO).unwrap()
/// };
/// let air = AbsolutePressure::parse("1 atm")?;
/// let air = Estimate::between(air, air, Uncertainty::ZERO)?;
/// let tester = Tester::of_diameter(exact(80.0), Length::parse("0.040 in")?, Length::from_mm(0.01)?)?;
/// // 60 over 80 is a leak a little larger than the tester's own orifice.
/// let leak = tester.leak(&exact(60.0), &air)?;
/// assert!((leak.over_orifice - 1.0586).abs() < 5e-5);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Tester {
    supply: Estimate<GaugePressure>,
    orifice: Estimate<Area>,
}

/// How large a leak is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Leak {
    /// The area through which the cylinder leaks.
    pub area: Estimate<Area>,
    /// The diameter of one round hole as large.
    pub hole: Length,
    /// Area over that of the tester's orifice.
    pub over_orifice: f64,
    /// Part of the supply that the tester shows as lost, in percent; good for this tester only.
    pub percent_lost: f64,
    /// The flow through the tester's orifice is choked.
    pub orifice_choked: bool,
    /// The flow through the leak is choked.
    pub leak_choked: bool,
}

/// Pressures above nothing, in kilopascals.
#[derive(Clone, Copy)]
struct Across {
    supply: f64,
    cylinder: f64,
    air: f64,
}

impl Across {
    /// Area of the leak over that of the orifice.
    fn ratio(self) -> f64 {
        let Self {
            supply,
            cylinder,
            air,
        } = self;
        supply * flow_function(cylinder / supply) / (cylinder * flow_function(air / cylinder))
    }
}

/// The area of a round hole.
fn round(diameter: Length) -> f64 {
    let uom_diameter = uom::si::f64::Length::new::<uom::si::length::millimeter>(diameter.mm());
    let area: uom::si::f64::Area = PI / 4.0 * (uom_diameter * uom_diameter);
    area.get::<uom::si::area::square_millimeter>()
}

impl Tester {
    /// Takes the supply and the diameter of the orifice with its standard uncertainty.
    ///
    /// # Errors
    /// [`LeakError::Supply`] outside 100 to 1500 kPa; [`LeakError::Orifice`] outside 0.2 to 6 mm.
    pub fn of_diameter(
        supply: Estimate<GaugePressure>,
        diameter: Length,
        diameter_u: Length,
    ) -> Result<Self, LeakError> {
        let (min, max) = ORIFICE;
        if !(min..=max).contains(&diameter.mm()) {
            return Err(LeakError::Orifice { diameter, min, max });
        }
        let area = round(diameter);
        let orifice = normal(area, 2.0 * area * diameter_u.mm() / diameter.mm())?;
        Self::of(supply, orifice)
    }

    /// The tester with the orifice that AC 43.13-1B asks for by the bore, exact: 0.040 in under 5 in of bore,
    /// 0.060 in from there.
    ///
    /// # Errors
    /// As [`Self::of_diameter`].
    ///
    /// ```
    /// use lashwork::condition::leak::Tester;
    /// use lashwork::quantity::{GaugePressure, Length};
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let supply = GaugePressure::parse("80 psi")?;
    /// let supply = Estimate::between(supply, supply, Uncertainty::from_number(3.0)?)?;
    /// let tester = Tester::of_bore(supply, Length::parse("5.125 in")?)?;
    /// assert!((tester.orifice().centre().unwrap().square_millimetres() - 1.824).abs() < 1e-3);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn of_bore(supply: Estimate<GaugePressure>, bore: Length) -> Result<Self, LeakError> {
        let diameter = orifice_of_bore(bore)?;
        Self::of_diameter(supply, diameter, Length::from_mm(0.0)?)
    }

    /// The tester whose own orifice follows from what it shows of a hole of known size.
    ///
    /// # Errors
    /// As [`Self::leak`] and [`Self::of_diameter`].
    ///
    /// ```
    /// use lashwork::condition::leak::Tester;
    /// use lashwork::quantity::{AbsolutePressure, GaugePressure, Length};
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let gauge = |psi: f64| {
    ///     let p = GaugePressure::from_number(psi, "psi").unwrap();
    ///     Estimate::between(p, p, Uncertainty::from_number(2.0).unwrap()).unwrap()
    /// };
    /// let air = AbsolutePressure::parse("1 atm")?;
    /// let air = Estimate::between(air, air, Uncertainty::ZERO)?;
    /// let hole = Length::parse("1 mm")?;
    /// // A hole as large as the orifice shows 61.77 of 80 psi.
    /// let tester = Tester::by_master(gauge(80.0), hole, Length::from_mm(0.01)?, &gauge(61.77), &air)?;
    /// assert!((tester.orifice().centre().unwrap().square_millimetres() - 0.7854).abs() < 1e-3);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn by_master(
        supply: Estimate<GaugePressure>,
        diameter: Length,
        diameter_u: Length,
        shown: &Estimate<GaugePressure>,
        air: &Estimate<AbsolutePressure>,
    ) -> Result<Self, LeakError> {
        let known_hole = Self::of_diameter(supply, diameter, diameter_u)?;
        let (hole, hole_u) = area(&known_hole.orifice)?;
        let (ratio, ratio_u, _) = known_hole.ratio(shown, air)?;
        let orifice = hole / ratio;
        let u = orifice * libm::hypot(hole_u / hole, ratio_u / ratio);
        Self::of(supply, normal(orifice, u)?)
    }

    fn of(supply: Estimate<GaugePressure>, orifice: Estimate<Area>) -> Result<Self, LeakError> {
        let what = "the supply";
        let (kpa, _) = known(&supply).ok_or(LeakError::OneSided { what })?;
        let (min, max) = SUPPLY;
        if !(min..=max).contains(&kpa) {
            let supply = GaugePressure::from_kilopascals(kpa)?;
            return Err(LeakError::Supply { supply, min, max });
        }
        Ok(Self { supply, orifice })
    }

    /// What the regulator is set to.
    #[must_use]
    pub const fn supply(&self) -> Estimate<GaugePressure> {
        self.supply
    }

    /// The area of the orifice.
    #[must_use]
    pub const fn orifice(&self) -> Estimate<Area> {
        self.orifice
    }

    /// Whether what both show may be compared: supply and orifice are the same.
    ///
    /// ```
    /// use lashwork::condition::leak::Tester;
    /// use lashwork::quantity::{GaugePressure, Length};
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let supply = GaugePressure::parse("80 psi")?;
    /// let supply = Estimate::between(supply, supply, Uncertainty::ZERO)?;
    /// let of = |bore: &str| Tester::of_bore(supply, Length::parse(bore).unwrap()).unwrap();
    /// assert!(of("4 in").shows_as(&of("4.5 in")) && !of("4 in").shows_as(&of("5 in")));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn shows_as(&self, other: &Self) -> bool {
        let near = |a: Option<f64>, b: Option<f64>, part: f64| match (a, b) {
            (Some(a), Some(b)) => (a - b).abs() <= part * a.max(b),
            _ => false,
        };
        let supply = |t: &Self| t.supply.centre().map(GaugePressure::kilopascals);
        let orifice = |t: &Self| t.orifice.centre().map(Area::square_millimetres);
        near(supply(self), supply(other), SAME_SUPPLY)
            && near(orifice(self), orifice(other), SAME_AREA)
    }

    /// How large the leak is, by what the cylinder shows and the air around.
    ///
    /// # Errors
    /// [`LeakError::OverSupply`]; [`LeakError::HoldsNothing`] under 2 % of the supply; [`LeakError::Air`],
    /// [`LeakError::OneSided`].
    pub fn leak(
        &self,
        shown: &Estimate<GaugePressure>,
        air: &Estimate<AbsolutePressure>,
    ) -> Result<Leak, LeakError> {
        let (ratio, ratio_u, across) = self.ratio(shown, air)?;
        let (orifice, orifice_u) = area(&self.orifice)?;
        let leak = orifice * ratio;
        let lost = (across.supply - across.cylinder) / (across.supply - across.air);
        Ok(Leak {
            area: normal(leak, libm::hypot(orifice * ratio_u, ratio * orifice_u))?,
            hole: Length::from_mm(libm::sqrt(4.0 * leak / PI))?,
            over_orifice: ratio,
            percent_lost: 100.0 * lost,
            orifice_choked: across.cylinder / across.supply <= CHOKED_BELOW,
            leak_choked: across.air / across.cylinder <= CHOKED_BELOW,
        })
    }

    /// What this tester would show of a leak.
    ///
    /// # Errors
    /// [`LeakError::Air`], [`LeakError::OneSided`].
    ///
    /// ```
    /// use lashwork::condition::leak::Tester;
    /// use lashwork::quantity::{AbsolutePressure, Area, GaugePressure, Length};
    /// use lashwork::tolerance::{Estimate, Uncertainty};
    /// let supply = GaugePressure::parse("80 psi")?;
    /// let supply = Estimate::between(supply, supply, Uncertainty::ZERO)?;
    /// let tester = Tester::of_bore(supply, Length::parse("4 in")?)?;
    /// let as_large = tester.orifice().centre().unwrap();
    /// let shown = tester.would_show(as_large, AbsolutePressure::parse("1 atm")?)?;
    /// assert!((shown.kilopascals() / 6.894_757 - 61.77).abs() < 0.005);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn would_show(
        &self,
        leak: Area,
        air: AbsolutePressure,
    ) -> Result<GaugePressure, LeakError> {
        let air = checked(air.kilopascals())?;
        let what = "the supply";
        let (supply, _) = known(&self.supply).ok_or(LeakError::OneSided { what })?;
        let (orifice, _) = area(&self.orifice)?;
        let wanted = leak.square_millimetres() / orifice;
        // More in the cylinder is a smaller leak, from none at the supply to no end at the air.
        let (mut low, mut high) = (air, air + supply);
        for _ in 0..100 {
            let cylinder = 0.5 * (low + high);
            let across = Across {
                supply: air + supply,
                cylinder,
                air,
            };
            if across.ratio() > wanted {
                low = cylinder;
            } else {
                high = cylinder;
            }
        }
        Ok(GaugePressure::from_kilopascals(0.5 * (low + high) - air)?)
    }

    /// Area of the leak over that of the orifice, its standard uncertainty, and the pressures.
    fn ratio(
        &self,
        shown: &Estimate<GaugePressure>,
        air: &Estimate<AbsolutePressure>,
    ) -> Result<(f64, f64, Across), LeakError> {
        let one_sided = |what| LeakError::OneSided { what };
        let (supply, supply_u) = known(&self.supply).ok_or(one_sided("the supply"))?;
        let (shown, shown_u) = known(shown).ok_or(one_sided("the pressure in the cylinder"))?;
        let (air, air_u) = known(air).ok_or(one_sided("the pressure of the air"))?;
        checked(air)?;
        let both = || -> Result<_, LeakError> {
            Ok((
                GaugePressure::from_kilopascals(shown)?,
                GaugePressure::from_kilopascals(supply)?,
            ))
        };
        if shown > supply {
            let (shown, supply) = both()?;
            return Err(LeakError::OverSupply { shown, supply });
        }
        if shown < NOTHING * supply {
            let (shown, supply) = both()?;
            return Err(LeakError::HoldsNothing { shown, supply });
        }
        // Near the supply the area goes with a root: half of what it changes over two deviations, and not
        // past where there is no leak, or none that could be told; nor to a supply or an air of less than nothing.
        let least_supply = NOTHING * supply;
        let at = |supply: f64, shown: f64, air: f64| {
            let (supply, air) = (supply.max(least_supply), air.max(0.0));
            let shown = shown.clamp(NOTHING * supply, supply);
            let across = Across {
                supply: air + supply,
                cylinder: air + shown,
                air,
            };
            across.ratio()
        };
        let u = together([
            0.5 * (at(supply, shown - shown_u, air) - at(supply, shown + shown_u, air)),
            0.5 * (at(supply + supply_u, shown, air) - at(supply - supply_u, shown, air)),
            0.5 * (at(supply, shown, air + air_u) - at(supply, shown, air - air_u)),
        ]);
        let across = Across {
            supply: air + supply,
            cylinder: air + shown,
            air,
        };
        Ok((across.ratio(), u, across))
    }
}

/// The orifice that AC 43.13-1B asks for by the bore.
pub(super) fn orifice_of_bore(bore: Length) -> Result<Length, LeakError> {
    let five_inches = Length::from_mm(127.0)?;
    let mm = if bore < five_inches { 1.016 } else { 1.524 };
    Ok(Length::from_mm(mm)?)
}

/// The area of a round hole as a quantity.
pub(super) fn hole(diameter: Length) -> Result<Area, LeakError> {
    Ok(Area::from_square_millimetres(round(diameter))?)
}

fn area(estimate: &Estimate<Area>) -> Result<(f64, f64), LeakError> {
    let what = "the area of the orifice";
    known(estimate).ok_or(LeakError::OneSided { what })
}

/// The air of the place, if an engine can run in it.
pub(super) fn checked(got: f64) -> Result<f64, LeakError> {
    let (min, max) = AIR;
    if (min..=max).contains(&got) {
        Ok(got)
    } else {
        Err(LeakError::Air { got, min, max })
    }
}

/// A gauge's reading with its standard uncertainty.
pub(super) fn read(
    shown: GaugePressure,
    u: Uncertainty<GaugePressure>,
) -> Result<Estimate<GaugePressure>, LeakError> {
    Ok(Estimate::between(shown, shown, u)?)
}
