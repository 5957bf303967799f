//! The chain of parts whose lengths make the gap.

use super::link::{Effect, Follows, Link, Side};
use super::propagate::{Shares, Source};
use super::{Correction, PartTemperatures, ThermalError};
use crate::Whole;
use crate::engine::ASSUMED_ROCKER_RATIO;
use crate::quantity::{LashChange, Temperature, si};
use alloc::string::ToString;
use alloc::vec::Vec;
use serde::Serialize;

/// The parts between camshaft and valve seat, and the structure that holds them apart.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::quantity::{Length, Temperature, TemperatureDifference};
/// use lashwork::thermal::{Chain, Effect, Link, MetalTemperature, PartTemperatures, Side, material};
/// let link = |part: &str, of: &str, effect| -> Result<Link, Box<dyn std::error::Error>> {
///     Ok(Link {
///         part: part.into(),
///         material: material(of).ok_or("not in the table")?.clone(),
///         length: Length::from_mm(200.0)?,
///         length_uncertainty: Length::from_mm(0.5)?,
///         side: Side::Valve,
///         effect,
///         follows: "engine".into(),
///     })
/// };
/// let chain = Chain::new(
///     vec![
///         link("cylinder", "aluminium 356", Effect::Opens)?,
///         link("pushrod", "steel 1020", Effect::Closes)?,
///     ],
///     1.0,
/// )?;
/// let cold = Temperature::from_celsius(20.0)?;
/// let mut hot = PartTemperatures::new();
/// let known = MetalTemperature::known(
///     Temperature::from_celsius(100.0)?,
///     TemperatureDifference::from_kelvin(3.0)?,
/// );
/// hot.insert("engine".into(), known);
/// let correction = chain.correction(cold, &hot)?;
/// assert!((correction.change.mm() - 0.1568).abs() < 1e-12);
/// assert!(correction.standard_uncertainty_mm() > 0.0);
/// assert_eq!(Chain::new(vec![], 1.0).unwrap_err().code(), "thermal.no-links");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Chain {
    links: Vec<Link>,
    rocker_ratio: f64,
    #[serde(skip)]
    whole: Whole,
}

/// A part at its temperature.
struct State {
    celsius_between: Option<(f64, f64)>,
    temperature: Temperature,
}

impl Chain {
    /// Least rocker ratio accepted.
    pub const MIN_ROCKER_RATIO: f64 = 0.1;
    /// Greatest rocker ratio accepted.
    pub const MAX_ROCKER_RATIO: f64 = 10.0;

    /// Takes the links and the rocker ratio, valve lift over cam lift; [`ASSUMED_ROCKER_RATIO`] is
    /// taken, and to be listed, where it is not stated.
    ///
    /// # Errors
    /// [`ThermalError::LeftOut`] without the feature `whole`; [`ThermalError::NoLinks`]; [`ThermalError::RockerRatio`];
    /// [`ThermalError::BadMaterial`]; [`ThermalError::TwoMaterials`] if one name stands for two;
    /// [`ThermalError::Fraction`] and [`ThermalError::Uncertainty`] for a fraction between two
    /// temperatures that cannot be used.
    pub fn new(
        links: Vec<Link>,
        rocker_ratio: impl Into<Option<f64>>,
    ) -> Result<Self, ThermalError> {
        let whole = Whole::here()?;
        let rocker_ratio = rocker_ratio.into().unwrap_or(ASSUMED_ROCKER_RATIO);
        if links.is_empty() {
            return Err(ThermalError::NoLinks);
        }
        if !(Self::MIN_ROCKER_RATIO..=Self::MAX_ROCKER_RATIO).contains(&rocker_ratio) {
            return Err(ThermalError::RockerRatio {
                got: rocker_ratio,
                min: Self::MIN_ROCKER_RATIO,
                max: Self::MAX_ROCKER_RATIO,
            });
        }
        for link in &links {
            link.material.check()?;
            let mut materials = links.iter().map(|l| &l.material);
            let first = materials.find(|m| m.name == link.material.name);
            if first.is_some_and(|first| *first != link.material) {
                return Err(ThermalError::TwoMaterials {
                    material: link.material.name.to_string(),
                });
            }
            if let Follows::Between {
                fraction,
                fraction_u,
                ..
            } = link.follows
            {
                if !(0.0..=1.0).contains(&fraction) {
                    return Err(ThermalError::Fraction {
                        part: link.part.clone(),
                        got: fraction,
                    });
                }
                if !(fraction_u >= 0.0 && fraction_u.is_finite()) {
                    return Err(ThermalError::Uncertainty {
                        of: link.part.clone(),
                        got: fraction_u,
                    });
                }
            }
        }
        Ok(Self {
            links,
            rocker_ratio,
            whole,
        })
    }

    /// How far the lengths of the parts that open and close the gap may differ, in millimetres: the gap
    /// is what they leave over, and lengths are rarely measured better. This library's choice.
    pub const CLOSES_WITHIN_MM: f64 = 5.0;

    /// Whether the lengths on each side of the rocker add up, within [`Self::CLOSES_WITHIN_MM`] or three
    /// times their uncertainty, and every temperature is followed by a part.
    ///
    /// # Errors
    /// [`ThermalError::NotClosed`], with both sums; [`ThermalError::UnusedTemperature`].
    ///
    /// # Source
    /// Geometry: cam, train and valve fill what the structure holds apart, but for the gap.
    ///
    /// ```
    /// use lashwork::Refusal;
    /// use lashwork::quantity::Length;
    /// use lashwork::thermal::{Chain, Effect, Link, PartTemperatures, Side, material};
    /// let head = Link {
    ///     part: "head".into(),
    ///     material: material("aluminium 356").ok_or("not in the table")?.clone(),
    ///     length: Length::from_mm(95.0)?,
    ///     length_uncertainty: Length::from_mm(1.0)?,
    ///     side: Side::Valve,
    ///     effect: Effect::Opens,
    ///     follows: "head".into(),
    /// };
    /// let torn = Chain::new(vec![head], None)?.check(&PartTemperatures::new()).unwrap_err();
    /// assert_eq!(torn.code(), "thermal.not-closed");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn check(&self, temperatures: &PartTemperatures) -> Result<(), ThermalError> {
        for (side, word) in [(Side::Cam, "cam"), (Side::Valve, "valve")] {
            let (mut opens_mm, mut closes_mm, mut u) = (0.0, 0.0, 0.0);
            for link in self.links.iter().filter(|link| link.side == side) {
                match link.effect {
                    Effect::Opens => opens_mm += link.length.mm(),
                    Effect::Closes => closes_mm += link.length.mm(),
                }
                u = libm::hypot(u, link.length_uncertainty.mm());
            }
            let off: f64 = opens_mm - closes_mm;
            if off.abs() > Self::CLOSES_WITHIN_MM.max(3.0 * u) {
                return Err(ThermalError::NotClosed {
                    side: word,
                    opens_mm,
                    closes_mm,
                });
            }
        }
        for (name, _) in temperatures.iter() {
            let mut followed = self.links.iter().flat_map(|link| link.follows.names());
            if followed.all(|one| one != name) {
                return Err(ThermalError::UnusedTemperature { name: name.into() });
            }
        }
        Ok(())
    }

    /// The links as they were given.
    #[must_use]
    pub fn links(&self) -> &[Link] {
        &self.links
    }

    /// Valve lift over cam lift.
    #[must_use]
    pub const fn rocker_ratio(&self) -> f64 {
        self.rocker_ratio
    }

    /// Lash at the given temperatures minus lash with every part at the reference.
    ///
    /// # Errors
    /// [`ThermalError::NoTemperature`] if a link follows one that is not given;
    /// [`ThermalError::OutsideCurve`]; [`ThermalError::Quantity`] if the change is no possible one.
    ///
    /// # Source
    /// Geometry: sum of signed expansions, those on the cam's side times the rocker ratio.
    pub fn lash_change(
        &self,
        reference: Temperature,
        temperatures: &PartTemperatures,
    ) -> Result<LashChange, ThermalError> {
        let mut change = si::millimetres(0.0);
        for link in &self.links {
            let state = state(link, temperatures)?;
            let strain = si::plain(link.material.strain(reference, state.temperature)?);
            change += si::plain(self.reach(link)) * strain * link.length.si();
        }
        Ok(LashChange::of_si(change)?)
    }

    /// The change with its uncertainty from lengths, coefficients, temperatures and fractions.
    ///
    /// One temperature, one coefficient or one fraction that moves several parts is a single
    /// source: its shares are added with their signs before they are squared, so that a temperature
    /// common to head and pushrod cancels as far as it does in the engine.
    ///
    /// # Units
    /// The budget is in millimetres of lash.
    ///
    /// # Errors
    /// As [`Self::lash_change`]; [`ThermalError::Uncertainty`] if a temperature's is negative.
    ///
    /// # Source
    /// JCGM 100:2008, 5.1.2 and, for shared sources, 5.2.2 note 1 (correlation 1).
    pub fn correction(
        &self,
        reference: Temperature,
        temperatures: &PartTemperatures,
    ) -> Result<Correction, ThermalError> {
        let change = self.lash_change(reference, temperatures)?;
        let mut shares = Shares::default();
        for link in &self.links {
            let state = state(link, temperatures)?;
            let strain = link.material.strain(reference, state.temperature)?;
            let reach = self.reach(link);
            let length = link.length.mm();
            shares.own(
                alloc::format!("length of {}", link.part),
                link.length_uncertainty.mm(),
                reach * strain,
            );
            let (u, strain_by_coefficient) = link
                .material
                .coefficient_share(reference, state.temperature);
            shares.shared(
                Source::Coefficient(link.material.name.to_string()),
                u,
                reach * length * strain_by_coefficient,
            );
            let by_temperature = reach * length * link.material.instantaneous(state.temperature)?;
            match &link.follows {
                Follows::Named(name) => {
                    let (_, u) = given(link, name, temperatures)?;
                    shares.shared(Source::Temperature(name.clone()), u, by_temperature);
                }
                Follows::Between {
                    cold,
                    hot,
                    fraction,
                    fraction_u,
                } => {
                    let (_, cold_u) = given(link, cold, temperatures)?;
                    let (_, hot_u) = given(link, hot, temperatures)?;
                    shares.shared(
                        Source::Temperature(cold.clone()),
                        cold_u,
                        by_temperature * (1.0 - fraction),
                    );
                    shares.shared(
                        Source::Temperature(hot.clone()),
                        hot_u,
                        by_temperature * fraction,
                    );
                    let span = state.celsius_between.map_or(0.0, |(cold, hot)| hot - cold);
                    shares.shared(
                        Source::Fraction(alloc::format!("{fraction} between {cold} and {hot}")),
                        *fraction_u,
                        by_temperature * span,
                    );
                }
            }
        }
        Ok(Correction::new(change, shares.into_budget()?))
    }

    /// Change of the gap in millimetres when every part warms by a kelvin from there.
    ///
    /// # Errors
    /// [`ThermalError::OutsideCurve`].
    pub(super) fn change_for_a_kelvin(&self, at: Temperature) -> Result<f64, ThermalError> {
        let mut change = 0.0;
        for link in &self.links {
            change += self.reach(link) * link.length.mm() * link.material.instantaneous(at)?;
        }
        Ok(change)
    }

    /// Change of the gap for a millimetre of growth.
    const fn reach(&self, link: &Link) -> f64 {
        let size = match link.side {
            Side::Cam => self.rocker_ratio,
            Side::Valve => 1.0,
        };
        match link.effect {
            Effect::Opens => size,
            Effect::Closes => -size,
        }
    }
}

/// A named temperature and its standard uncertainty in kelvin.
fn given(
    link: &Link,
    name: &str,
    temperatures: &PartTemperatures,
) -> Result<(Temperature, f64), ThermalError> {
    let known = temperatures
        .get(name)
        .ok_or_else(|| ThermalError::NoTemperature {
            part: link.part.clone(),
            name: name.to_string(),
        })?;
    let u = known.standard_uncertainty();
    if u.kelvin() < 0.0 {
        return Err(ThermalError::Uncertainty {
            of: alloc::format!("temperature {name}"),
            got: u.kelvin(),
        });
    }
    Ok((known.is, u.kelvin()))
}

fn state(link: &Link, temperatures: &PartTemperatures) -> Result<State, ThermalError> {
    match &link.follows {
        Follows::Named(name) => Ok(State {
            celsius_between: None,
            temperature: given(link, name, temperatures)?.0,
        }),
        Follows::Between {
            cold,
            hot,
            fraction,
            ..
        } => {
            let cold = given(link, cold, temperatures)?.0.celsius();
            let hot = given(link, hot, temperatures)?.0.celsius();
            Ok(State {
                celsius_between: Some((cold, hot)),
                temperature: Temperature::from_celsius(cold + fraction * (hot - cold))?,
            })
        }
    }
}
