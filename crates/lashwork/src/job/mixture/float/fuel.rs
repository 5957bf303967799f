//! The levels with the fuel that is burnt, and what it does through the same jets.

use super::answer::FloatFuelReport;
use super::{Float, FloatChamber, FloatField, Refused, USUAL_LEVEL};
use crate::job::assumptions::Assumptions;
use crate::mixture::float::{
    FloatAssumption, FloatError, FuelInUse, Immersion, Nozzle, change_fuel,
};
use crate::mixture::gas::Fuel;
use crate::quantity::shown::level;
use crate::quantity::{FuelLevel, Lambda, Length};
use crate::tolerance::{Estimate, Uncertainty};
use alloc::format;
use alloc::string::String;

/// Standard uncertainty of a depth by the float's weight, as a part of it: of its weight, its diameter and the
/// pressure. Common practice, no source.
const BODY_SHARE: f64 = 0.05;
/// Lambda that changes by less is called the same.
const SAME: f64 = 0.005;

/// What was read, with the fuel that is burnt.
pub(super) struct Read {
    u: Uncertainty<FuelLevel>,
    /// With what it was read, how deep the float sits in it, and what is burnt.
    other: Option<(FuelInUse, Immersion, FuelInUse)>,
    /// How deep the float sits.
    pub(super) depth: Option<Length>,
    /// The middle of the book's band.
    pub(super) aim: Option<FuelLevel>,
    pub(super) fuel: Option<FuelChanged>,
}

/// What another fuel does.
pub(super) struct FuelChanged {
    rises: Estimate<FuelLevel>,
    needs: f64,
    /// Mass of fuel, and lambda over that before.
    through: Option<(f64, Estimate<Lambda>)>,
    is_lambda_known: bool,
}

impl Read {
    pub(super) fn of(
        asked: &Float,
        burnt: Option<Fuel>,
        assumptions: &mut Assumptions,
    ) -> Result<Self, Refused> {
        let all = |why: FloatError| (FloatField::Section, why);
        let u = if let Some(u) = asked.uncertainty {
            u
        } else {
            assumptions.bears_on_verdict(
                "mixture.float-level-uncertainty",
                format!("uncertainty of the fuel level not stated: {USUAL_LEVEL} mm taken; common practice, no source"),
            );
            Uncertainty::from_number(USUAL_LEVEL).map_err(|why| all(why.into()))?
        };
        let aim = match (asked.limits.lower(), asked.limits.upper()) {
            (Some(low), Some(high)) => {
                let middle = FuelLevel::from_mm(0.5 * (low.mm() + high.mm()));
                Some(middle.map_err(|why| all(why.into()))?)
            }
            _ => None,
        };
        let mut made = Self {
            u,
            other: None,
            depth: asked.depth.map(|(depth, _)| depth),
            aim,
            fuel: None,
        };
        let (Some(with), Some(fuel), Some(density)) = (asked.read_with, burnt, asked.density)
        else {
            assumptions.bears_on_verdict(
                "mixture.level-with-fuel-burnt",
                "the fuel the level was read with is not stated: taken as the one the engine burns",
            );
            return Ok(made);
        };
        let immersion = |why: FloatError| (FloatField::Immersion, why);
        let deep = match (asked.depth, asked.body) {
            (Some(deep), _) => Some(deep),
            (None, Some(body)) => {
                let centre = with.density.centre();
                let centre = centre.ok_or(all(FloatError::OneSided {
                    what: "the density",
                }))?;
                let deep = body.depth(centre).map_err(|why| (FloatField::Body, why))?;
                assumptions.bears_on_verdict(
                    "mixture.float-depth-uncertainty",
                    format!(
                        "how deep the float sits follows from its weight and is taken as known to {:.0} % (standard); common practice, no source",
                        100.0 * BODY_SHARE
                    ),
                );
                let u = Length::from_mm(BODY_SHARE * deep.mm());
                Some((deep, u.map_err(|why| all(why.into()))?))
            }
            (None, None) => None,
        };
        if let Some((deep, deep_u)) = deep {
            made.depth = Some(deep);
            let sits = Immersion::new(deep, deep_u, with.density).map_err(immersion)?;
            let burnt = FuelInUse { fuel, density };
            made.fuel = Some(changed(asked, &with, &sits, &burnt, aim, assumptions)?);
            made.other = Some((with, sits, burnt));
        }
        Ok(made)
    }

    /// A level with the fuel that is burnt.
    pub(super) fn level(&self, one: &FloatChamber) -> Result<Estimate<FuelLevel>, FloatError> {
        let read = Estimate::between(one.level, one.level, self.u)?;
        match &self.other {
            Some((_, sits, burnt)) => sits.level_with(&read, &burnt.density),
            None => Ok(read),
        }
    }

    /// What would be read with the fuel it was read with, where the fuel that is burnt stands so high.
    pub(super) fn as_read(&self, level: FuelLevel) -> Option<FuelLevel> {
        let rises = self.fuel.as_ref()?.rises.centre()?;
        FuelLevel::from_mm(level.mm() - rises.mm()).ok()
    }
}

fn changed(
    asked: &Float,
    with: &FuelInUse,
    sits: &Immersion,
    burnt: &FuelInUse,
    aim: Option<FuelLevel>,
    assumptions: &mut Assumptions,
) -> Result<FuelChanged, Refused> {
    let rises = sits.level_change(&burnt.density);
    let rises = rises.map_err(|why| (FloatField::Density, why))?;
    let nozzle = |why: FloatError| (FloatField::Nozzle, why);
    let through = if let (Some(over), Some(aim)) = (asked.nozzle, aim) {
        let lift = Length::from_mm(over.over_mark.mm() - aim.mm());
        let drawn = Nozzle {
            depression: over.depression,
            lift: lift.map_err(|why| nozzle(why.into()))?,
        };
        let now = match asked.lambda {
            Some(lambda) => lambda,
            None => one().map_err(nozzle)?,
        };
        let change = change_fuel(with.fuel, sits, &drawn, &now, burnt).map_err(nozzle)?;
        assumptions.add_all(&change.assumptions);
        Some((change.mass_flow, change.lambda))
    } else {
        assumptions.add_all(&[FloatAssumption::EvenFloat, FloatAssumption::SameNeedle]);
        None
    };
    Ok(FuelChanged {
        rises,
        needs: burnt.fuel.air_fuel_ratio() / with.fuel.air_fuel_ratio(),
        through,
        is_lambda_known: asked.lambda.is_some(),
    })
}

/// A lambda of one: what follows is the change.
fn one() -> Result<Estimate<Lambda>, FloatError> {
    let one = Lambda::from_ratio(1.0)?;
    Ok(Estimate::between(one, one, Uncertainty::ZERO)?)
}

impl FuelChanged {
    pub(super) fn told(&self, asked: &Float, inches: bool) -> FloatFuelReport {
        let rises = self.rises.centre().map_or(0.0, FuelLevel::mm);
        let rises_by_u = self.rises.normal_uncertainty().number();
        let say = |mm: f64| level(mm, rises_by_u, inches);
        let (by, u) = (say(rises.abs()), say(rises_by_u));
        let stands = if by == say(0.0) {
            String::from("as high as")
        } else if rises < 0.0 {
            format!("{by} lower than")
        } else {
            format!("{by} higher than")
        };
        let stands = format!("the fuel it burns stands {stands} the one it was read with, u {u}");
        let lambda = self.through.as_ref().map(|(_, lambda)| {
            let u = lambda.normal_uncertainty().number();
            (lambda.centre().map_or(0.0, Lambda::ratio), u)
        });
        let before = asked.lambda.and_then(|lambda| lambda.centre());
        let leaner_by = lambda.map(|(lambda, _)| lambda / before.map_or(1.0, Lambda::ratio));
        let known = lambda.filter(|_| self.is_lambda_known);
        let jets = leaner_by.map(|leaner| {
            let (percent, at) = (
                100.0 * (leaner - 1.0).abs(),
                known.map(|(lambda, u)| format!(": lambda {lambda:.3}, u {u:.3}")),
            );
            let at = at.unwrap_or_default();
            if leaner > 1.0 + SAME {
                format!(
                    "; through the same jets it runs {percent:.1} % leaner{at}: see to the jets before the engine is \
                     loaded, lean at full load holes a piston"
                )
            } else if leaner < 1.0 - SAME {
                format!("; through the same jets it runs {percent:.1} % richer{at}")
            } else {
                format!("; through the same jets it runs as rich as before{at}")
            }
        });
        FloatFuelReport {
            rises_by: rises,
            rises_by_u,
            needs: self.needs,
            mass_flow: self.through.as_ref().map(|(flow, _)| *flow),
            leaner_by,
            lambda: known.and_then(|(lambda, _)| Lambda::from_ratio(lambda).ok()),
            lambda_u: known.map(|(_, u)| u),
            text: match jets {
                Some(jets) => stands + &jets,
                None => stands + &needs_text(self.needs),
            },
        }
    }
}

/// What a fuel needs where nothing is known of the nozzle.
fn needs_text(needs: f64) -> String {
    let percent = 100.0 * (1.0 - needs);
    if percent > 100.0 * SAME {
        format!(
            "; it burns with {percent:.1} % less air: about so much leaner through the same jets, see to them before \
             the engine is loaded"
        )
    } else {
        String::new()
    }
}
