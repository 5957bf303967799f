//! The mixture section of a document.

mod balance;
mod columns;
mod float;
mod gas;
mod gauge;
mod idle;
mod jets;

pub use columns::{DENSITY_OUTPUTS, LAMBDA_OUTPUTS, density_columns, lambda_columns};

use crate::air::{AirDoc, air};
use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::section::Section;
use crate::word::W;
use balance::{BalanceDoc, balance};
use float::{FloatDoc, float};
use gas::{GasDoc, gas};
use gauge::{VacuumGaugeDoc, gauge};
use idle::{IdleDoc, idle};
use jets::{JetsDoc, jets};
use lashwork::job::Settled;
use lashwork::job::mixture::{Mixture, MixturePlace};
use lashwork::mixture::gas::Fuel;
use lashwork::quantity::Lambda;
use lashwork::tolerance::{Estimate, Uncertainty};

parts! {
    /// Mixture: the air and the fuel, and what was read.
    MixtureSectionDoc {
        /// Whether the valve clearances are settled; what the clearance section finds goes before it.
        valves: Option<W<Settled>>,
        /// Whether the timing is settled; what the ignition section finds goes before it.
        timing: Option<W<Settled>>,
        /// The air the engine breathes.
        #[cfg_attr(feature = "schema", schemars(default))]
        air: Option<AirDoc>,
        /// The fuel: E0 to E100 by its ethanol, LPG, or a formula as in C8H18.
        fuel: Option<String>,
        /// What the vacuum gauge showed.
        #[cfg_attr(feature = "schema", schemars(default))]
        gauge: Option<VacuumGaugeDoc>,
        /// The fuel level in the float chambers.
        #[cfg_attr(feature = "schema", schemars(default))]
        float: Option<FloatDoc>,
        /// Which jets go with that air.
        #[cfg_attr(feature = "schema", schemars(default))]
        jets: Option<JetsDoc>,
        /// How evenly carburettors or throttles share the work.
        #[cfg_attr(feature = "schema", schemars(default))]
        balance: Option<BalanceDoc>,
        /// Idle speed and mixture.
        #[cfg_attr(feature = "schema", schemars(default))]
        idle: Option<IdleDoc>,
        /// What the exhaust gas showed.
        #[cfg_attr(feature = "schema", schemars(default))]
        gas: Option<GasDoc>,
    }
}

/// The section in typed values.
pub(crate) fn mixture(
    Section(doc): Section<MixtureSectionDoc>,
    problems: &mut Vec<Problem>,
) -> Option<Mixture> {
    let mut made = Mixture::default();
    made.valves = doc.valves.map(|word| word.0);
    made.timing = doc.timing.map(|word| word.0);
    made.air = doc.air.as_ref().map(air);
    if let Some(name) = doc.fuel {
        made.fuel = Some(value(problems, "/mixture/fuel", Fuel::named(&name))?);
    }
    if let Some(doc) = doc.gauge {
        made.gauge = Some(gauge(&doc, problems)?);
    }
    if let Some(doc) = doc.float {
        made.float = Some(float(doc, problems)?);
    }
    if let Some(doc) = doc.jets {
        made.jets = Some(jets(doc, problems)?);
    }
    if let Some(doc) = doc.balance {
        made.balance = Some(balance(doc, problems)?);
    }
    if let Some(doc) = doc.idle {
        made.idle = Some(idle(doc, problems)?);
    }
    if let Some(doc) = doc.gas {
        made.gas = Some(gas(&doc, problems)?);
    }
    Some(made)
}

/// A lambda with its standard uncertainty, given together or not at all.
fn lambda(
    read: Option<Q<Lambda>>,
    u: Option<f64>,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<Estimate<Lambda>> {
    match (read, u) {
        (None, None) => None,
        (Some(read), Some(u)) => {
            let u = Uncertainty::from_number(u);
            let u = value(problems, format!("{place}/lambda_uncertainty"), u)?;
            let made = Estimate::between(read.0, read.0, u);
            value(problems, format!("{place}/lambda"), made)
        }
        _ => {
            problems.push(Problem::new(
                place,
                "document.missing-field",
                "a lambda and its uncertainty do not stand together",
                "give \"lambda\" and \"lambda_uncertainty\", or neither",
            ));
            None
        }
    }
}

/// Where a place of the section stands in it.
pub(crate) fn pointer(place: MixturePlace) -> String {
    match place {
        MixturePlace::Air => "/air".into(),
        MixturePlace::Float(field) => float::pointer(field),
        MixturePlace::Fuel => "/fuel".into(),
        MixturePlace::Jets(field) => jets::pointer(field),
        MixturePlace::Balance(field) => balance::pointer(field),
        MixturePlace::Idle(field) => idle::pointer(field),
        MixturePlace::Gauge(field) => gauge::pointer(field),
        MixturePlace::Gas(field) => gas::pointer(field),
        _ => String::new(),
    }
}
