//! Gases that do not fit together, and what may be behind them.

use super::atoms::Atoms;
use super::from_co::LEFT_OXYGEN;
use super::readings::OXYGEN_IN_AIR;
use super::{ExhaustGas, Fuel, GasError, GasUncertainty};
use crate::quantity::{Lambda, VolumeShare};
use alloc::vec::Vec;
use core::fmt;
use serde::Serialize;

/// From so much oxygen, in per cent, a cylinder did not use it or it came in behind the cylinders.
/// Common practice, no source.
const MUCH_OXYGEN: f64 = 1.5;
/// From so much carbon monoxide, in per cent, the mixture is rich in some cylinder. Common practice, no
/// source.
const RICH: f64 = 1.0;
/// The part of the oxygen that the unburnt fuel would have used, from which missed firing explains it, and
/// under which it does not. This library's choice.
const FIRED_NOT: f64 = 0.5;
const FIRED: f64 = 0.25;
/// Beyond this a spark engine misfires. Common practice, no source.
const FIRES_UP_TO: f64 = 1.3;
/// Where lambda is flagged as that of no running engine.
const RUNS: (f64, f64) = (0.6, 2.0);
/// Standard uncertainties by which the total may be off. This library's choice.
const TOTAL_OFF: f64 = 3.0;

/// What may be behind gases that do not fit together.
///
/// ```
/// use lashwork::mixture::gas::GasCause;
/// assert_eq!(GasCause::MissedFiring.code(), "mixture.missed-firing");
/// assert!(GasCause::AirAtProbe { low: None, high: None }.to_string().contains("leak"));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum GasCause {
    /// Air gets in between cylinder and probe; the mixture is then between these.
    AirAtProbe {
        /// With no oxygen left by the burn.
        low: Option<Lambda>,
        /// With as much as a good burn leaves.
        high: Option<Lambda>,
    },
    /// A cylinder does not fire and sends its charge through.
    MissedFiring,
    /// Some cylinders are rich, others lean.
    UnevenCylinders,
    /// The engine blows air into its exhaust by design.
    AirInjection,
    /// The tester is off.
    TesterOff,
    /// The fuel is another one than stated.
    OtherFuel,
}

impl GasCause {
    /// A short name that never changes.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::AirAtProbe { .. } => "mixture.air-at-probe",
            Self::MissedFiring => "mixture.missed-firing",
            Self::UnevenCylinders => "mixture.uneven-cylinders",
            Self::AirInjection => "mixture.air-injection",
            Self::TesterOff => "mixture.tester-off",
            Self::OtherFuel => "mixture.other-fuel",
        }
    }
}

impl fmt::Display for GasCause {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::AirAtProbe { low, high } => {
                f.write_str("a leak of the exhaust or a probe that is not deep enough lets air in")?;
                match (low, high) {
                    (Some(low), Some(high)) => write!(
                        f,
                        "; behind it the mixture has a lambda of {:.2} to {:.2}",
                        low.ratio(),
                        high.ratio()
                    ),
                    _ => Ok(()),
                }
            }
            Self::MissedFiring => f.write_str("a cylinder misses and sends its charge through unburnt"),
            Self::UnevenCylinders => f.write_str(
                "some cylinders run rich and others lean; lambda is that of all together and says nothing of one",
            ),
            Self::AirInjection => f.write_str(
                "air is blown or drawn into the exhaust by design; shut it off for this reading",
            ),
            Self::TesterOff => f.write_str("the tester wants zeroing, calibration or a dry filter"),
            Self::OtherFuel => f.write_str("the fuel is not the one that was stated"),
        }
    }
}

/// Gases that do not fit together. Lambda is then the number of the formula, not the engine's mixture.
///
/// ```
/// use lashwork::mixture::gas::GasContradiction;
/// let off = GasContradiction::BeyondRunning;
/// assert_eq!(off.code(), "mixture.beyond-running");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum GasContradiction {
    /// Oxygen beside carbon monoxide: one says lean, the other rich.
    OxygenWithCarbonMonoxide {
        /// The part of the oxygen that goes with unburnt fuel.
        unburnt: f64,
    },
    /// Oxygen beside unburnt fuel.
    OxygenWithHydrocarbons {
        /// The part of the oxygen that goes with it.
        unburnt: f64,
    },
    /// Leaner than a spark lights, and yet burnt.
    TooLeanToBurn,
    /// Lambda under 0.6 or over 2.
    BeyondRunning,
    /// The gases do not add up to 100 % with the nitrogen, hydrogen and oxygen that go with them.
    TotalOff {
        /// What they add up to, in per cent.
        total: f64,
        /// Its standard uncertainty.
        u: f64,
    },
}

impl GasContradiction {
    /// A short name that never changes.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::OxygenWithCarbonMonoxide { .. } => "mixture.oxygen-with-co",
            Self::OxygenWithHydrocarbons { .. } => "mixture.oxygen-with-hc",
            Self::TooLeanToBurn => "mixture.too-lean-to-burn",
            Self::BeyondRunning => "mixture.beyond-running",
            Self::TotalOff { .. } => "mixture.total-off",
        }
    }
}

impl fmt::Display for GasContradiction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let part = |f: &mut fmt::Formatter<'_>, what: &str, unburnt: f64| {
            write!(
                f,
                "{what}; {:.0} % of the oxygen goes with unburnt fuel",
                100.0 * unburnt
            )
        };
        match self {
            Self::OxygenWithCarbonMonoxide { unburnt } => part(
                f,
                "much oxygen beside much carbon monoxide: one says lean, the other rich",
                *unburnt,
            ),
            Self::OxygenWithHydrocarbons { unburnt } => {
                part(f, "much oxygen beside unburnt fuel", *unburnt)
            }
            Self::TooLeanToBurn => {
                f.write_str("leaner than a spark lights, but hardly anything is left unburnt")
            }
            Self::BeyondRunning => {
                f.write_str("lambda is under 0.6 or over 2, where no spark engine runs")
            }
            Self::TotalOff { total, u } => write!(
                f,
                "the gases and what goes with them make {total:.1} % with a standard uncertainty of {u:.1} %, not 100 %"
            ),
        }
    }
}

/// A contradiction with its causes, the one the gases speak for most first.
///
/// ```
/// use lashwork::mixture::gas::{
///     AnalyserClass, ExhaustGas, Fuel, GasCause, GasContradiction, lambda,
/// };
/// use lashwork::quantity::VolumeShare;
/// let share = VolumeShare::from_percent;
/// // A rich idle with a leaking exhaust: the formula says lean.
/// let gas = ExhaustGas::new(share(12.7)?, share(3.3)?, share(2.6)?, None)?;
/// let found = lambda(&gas, &AnalyserClass::Class0.uncertainty(&gas)?, &Fuel::PETROL)?;
/// assert!(found.lambda.centre().unwrap().ratio() > 1.0);
/// let doubt = &found.contradictions[0];
/// assert!(matches!(doubt.what, GasContradiction::OxygenWithCarbonMonoxide { .. }));
/// let GasCause::AirAtProbe { high: Some(high), .. } = doubt.causes[0] else { panic!() };
/// assert!(high.ratio() < 0.96);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GasDoubt {
    /// What does not fit.
    pub what: GasContradiction,
    /// What may be behind it.
    pub causes: Vec<GasCause>,
}

/// What does not fit, without what may be behind it: the gases beside each other, lambda, the total.
///
/// A charge that is not burnt leaves fuel and oxygen in the proportion in which they burn; air that gets in
/// behind the cylinders leaves oxygen alone. That tells the two apart as far as the tester sees the fuel.
pub(super) fn what_does_not_fit(
    gas: &ExhaustGas,
    u: &GasUncertainty,
    fuel: &Fuel,
    lambda: f64,
) -> [Option<GasContradiction>; 3] {
    let (o2, co) = (gas.o2().percent(), gas.co().percent());
    let unburnt = if o2 > 0.0 {
        (gas.oxygen_of_unburnt(fuel) / o2).min(1.0)
    } else {
        0.0
    };
    let beside = if o2 >= MUCH_OXYGEN && co >= RICH {
        Some(GasContradiction::OxygenWithCarbonMonoxide { unburnt })
    } else if o2 >= MUCH_OXYGEN && unburnt > FIRED {
        Some(GasContradiction::OxygenWithHydrocarbons { unburnt })
    } else if lambda > FIRES_UP_TO && gas.hc().is_some() {
        Some(GasContradiction::TooLeanToBurn)
    } else {
        None
    };
    let runs = (RUNS.0..=RUNS.1).contains(&lambda);
    let total = Atoms::of(gas, fuel).total();
    let blur = total.uncertainty(u.numbers());
    let is_off = blur > 0.0 && (total.value - 100.0).abs() > TOTAL_OFF * blur;
    [
        beside,
        (!runs).then_some(GasContradiction::BeyondRunning),
        is_off.then_some(GasContradiction::TotalOff {
            total: total.value,
            u: blur,
        }),
    ]
}

/// All that does not fit, with its causes.
pub(super) fn contradictions(
    gas: &ExhaustGas,
    u: &GasUncertainty,
    fuel: &Fuel,
    lambda: f64,
) -> Vec<GasDoubt> {
    let (air, missed) = (air_at_probe(gas, fuel), GasCause::MissedFiring);
    let (uneven, blown) = (GasCause::UnevenCylinders, GasCause::AirInjection);
    let leak = GasCause::AirAtProbe {
        low: None,
        high: None,
    };
    let (off, other) = (GasCause::TesterOff, GasCause::OtherFuel);
    let found = what_does_not_fit(gas, u, fuel, lambda);
    found
        .into_iter()
        .flatten()
        .map(|what| match what {
            GasContradiction::OxygenWithCarbonMonoxide { unburnt } => {
                if gas.hc().is_some() && unburnt >= FIRED_NOT {
                    doubt(what, &[missed, uneven, air, blown])
                } else if gas.hc().is_some() && unburnt <= FIRED {
                    doubt(what, &[air, blown, uneven])
                } else {
                    doubt(what, &[air, missed, uneven, blown])
                }
            }
            GasContradiction::OxygenWithHydrocarbons { .. } => doubt(what, &[missed, uneven, leak]),
            GasContradiction::TooLeanToBurn => doubt(what, &[air, blown, off]),
            GasContradiction::BeyondRunning => doubt(what, &[air, off]),
            GasContradiction::TotalOff { .. } => doubt(what, &[off, other]),
        })
        .collect()
}

fn doubt(what: GasContradiction, causes: &[GasCause]) -> GasDoubt {
    GasDoubt {
        what,
        causes: causes.to_vec(),
    }
}

/// Lambda with so much air taken off as leaves from none to the most oxygen of a good burn; none where that comes
/// to no lambda, as without carbon dioxide and with much oxygen in the fuel.
fn air_at_probe(gas: &ExhaustGas, fuel: &Fuel) -> GasCause {
    let atoms = Atoms::of(gas, fuel);
    let with = |left: f64| {
        if atoms.o2 <= left {
            return None;
        }
        // Of the gas at the probe, so much is air; the other gases keep their proportion.
        let air = (atoms.o2 - left) / (OXYGEN_IN_AIR - left);
        let behind = Atoms {
            o2: (1.0 - air) * left,
            ..atoms
        };
        Lambda::from_ratio(behind.lambda().value).ok()
    };
    GasCause::AirAtProbe {
        low: with(0.0),
        high: with(LEFT_OXYGEN),
    }
}

/// How much carbon monoxide there is without the air: what was read, over the part that came through the
/// cylinders; for a stated limit of carbon monoxide behind a leak.
///
/// # Errors
/// [`GasError::Quantity`] never for a gas of [`ExhaustGas::new`].
///
/// ```
/// use lashwork::mixture::gas::{ExhaustGas, Fuel, co_without_air};
/// use lashwork::quantity::VolumeShare;
/// let share = VolumeShare::from_percent;
/// // Half exhaust gas, half air.
/// let gas = ExhaustGas::new(share(6.35)?, share(1.65)?, share(10.475)?, None)?;
/// assert!((co_without_air(&gas)?.percent() - 3.3).abs() < 1e-9);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn co_without_air(gas: &ExhaustGas) -> Result<VolumeShare, GasError> {
    let through = 1.0 - gas.o2().percent() / OXYGEN_IN_AIR;
    let co = if through > 0.0 {
        (gas.co().percent() / through).min(100.0)
    } else {
        gas.co().percent()
    };
    Ok(VolumeShare::from_percent(co)?)
}
