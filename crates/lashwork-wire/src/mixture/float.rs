//! The fuel level in a document.

use super::lambda;
use crate::about::{about, pair};
use crate::band::band;
use crate::problem::{Problem, is_short, value};
use crate::quantity::Q;
use lashwork::job::mixture::{Float, FloatChamber, FloatField, FloatNozzle};
use lashwork::mixture::float::{FloatBody, FuelInUse};
use lashwork::mixture::gas::Fuel;
use lashwork::quantity::{Density, FuelLevel, GaugePressure, Lambda, Length, Marked, Mass, Vacuum};
use lashwork::tolerance::{Measurand, Uncertainty};

parts! {
    /// The fuel level in float chambers, the book's, and what else is known of the float and the fuel.
    FloatDoc {
        /// What was read in each float chamber.
        chambers: Vec<FloatChamberDoc>,
        /// Standard uncertainty of each level; 0.5 mm is assumed, and listed, if not stated.
        uncertainty: Option<Q<FuelLevel>>,
        /// The book's level over the mark; one end may be open.
        limits: FuelLevelLimitsDoc,
        /// The fuel the levels were read with; the one the engine burns is assumed, and listed, if not
        /// stated.
        read_with: Option<ReadWithDoc>,
        /// Density of the fuel the engine burns, that of the section; needed with `read_with`,
        /// `jet_under_mark` and `nozzle`.
        density: Option<Q<Density>>,
        /// Standard uncertainty of that; needed with `density`.
        density_uncertainty: Option<Q<Density>>,
        /// How deep the float sits in the fuel it was read with.
        immersion: Option<ImmersionDoc>,
        /// What weighs on the float, and how wide it is.
        body: Option<FloatBodyDoc>,
        /// How far the jet is under the mark.
        jet_under_mark: Option<Q<Length>>,
        /// The nozzle that is drawn on.
        nozzle: Option<FloatNozzleDoc>,
        /// Lambda with the fuel the levels were read with.
        lambda: Option<Q<Lambda>>,
        /// Standard uncertainty of that, in the same; needed with `lambda`.
        lambda_uncertainty: Option<f64>,
    }
    /// The fuel level in a float chamber.
    FloatChamberDoc {
        name: String,
        /// How high the fuel stands over the mark: the dot of a sight glass, the joint of the bowl. Negative
        /// under it. The height of a dry float is another measure.
        level: Q<FuelLevel>,
    }
    /// The book's level over the mark.
    FuelLevelLimitsDoc { from: Option<Q<Marked>>, to: Option<Q<Marked>> }
    /// A fuel and its density.
    ReadWithDoc {
        /// E0 to E100 by its ethanol, or a formula as in C8H18.
        fuel: String,
        density: Q<Density>,
        /// Standard uncertainty.
        uncertainty: Q<Density>,
    }
    /// How deep a float sits in its fuel when the needle is shut.
    ImmersionDoc {
        depth: Q<Length>,
        /// Standard uncertainty.
        uncertainty: Q<Length>,
    }
    /// What weighs on a float, and how wide it is.
    FloatBodyDoc {
        /// Of all that moves with the float.
        mass: Q<Mass>,
        /// Of a round float where the surface crosses it.
        diameter: Q<Length>,
        /// How many floats there are on one arm.
        floats: u8,
        /// Diameter of the needle's seat.
        seat: Q<Length>,
        /// At the needle: of a pump, or of the tank's height.
        fuel_pressure: Q<GaugePressure>,
        /// Arm of the needle over arm of the float.
        leverage: f64,
    }
    /// A nozzle over the fuel, drawn on by the air.
    FloatNozzleDoc {
        /// At the nozzle, under the air over the fuel.
        depression: Q<Vacuum>,
        /// How far its mouth is over the mark.
        over_mark: Q<Length>,
    }
}

const AT: &str = "/mixture/float";

/// The fuel level in typed values.
pub(super) fn float(doc: FloatDoc, problems: &mut Vec<Problem>) -> Option<Float> {
    let faults = problems.len();
    is_short(&doc.chambers, &format!("{AT}/chambers"), problems);
    let limits = band(
        doc.limits.from,
        doc.limits.to,
        format!("{AT}/limits"),
        problems,
    );
    let uncertainty = doc.uncertainty.and_then(|u| {
        let made = Uncertainty::from_number(u.0.number());
        value(problems, format!("{AT}/uncertainty"), made)
    });
    let read_with = doc.read_with.and_then(|doc| read_with(&doc, problems));
    let density = pair(
        doc.density,
        doc.density_uncertainty,
        "density_uncertainty",
        AT,
        problems,
    );
    let lambda = lambda(doc.lambda, doc.lambda_uncertainty, AT, problems);
    if problems.len() > faults {
        return None;
    }
    let chambers = doc.chambers.into_iter().map(|one| FloatChamber {
        name: one.name,
        level: one.level.0,
    });
    let mut made = Float::of(chambers.collect(), limits?);
    made.uncertainty = uncertainty;
    made.read_with = read_with;
    made.density = density;
    made.depth = doc.immersion.map(|doc| (doc.depth.0, doc.uncertainty.0));
    made.body = doc.body.map(|doc| FloatBody {
        mass: doc.mass.0,
        diameter: doc.diameter.0,
        floats: doc.floats,
        seat: doc.seat.0,
        fuel_pressure: doc.fuel_pressure.0,
        leverage: doc.leverage,
    });
    made.jet_under_mark = doc.jet_under_mark.map(|it| it.0);
    made.nozzle = doc.nozzle.map(|doc| FloatNozzle {
        depression: doc.depression.0,
        over_mark: doc.over_mark.0,
    });
    made.lambda = lambda;
    Some(made)
}

fn read_with(doc: &ReadWithDoc, problems: &mut Vec<Problem>) -> Option<FuelInUse> {
    let place = format!("{AT}/read_with");
    let fuel = value(problems, format!("{place}/fuel"), Fuel::named(&doc.fuel));
    let density = about(doc.density, doc.uncertainty, &place, problems);
    Some(FuelInUse {
        fuel: fuel?,
        density: density?,
    })
}

/// Where a field stands in the mixture section.
pub(super) fn pointer(field: FloatField) -> String {
    use FloatField as F;
    let rest = match field {
        F::Chambers => "/chambers".into(),
        F::Chamber(i) => format!("/chambers/{i}"),
        F::ReadWith => "/read_with".into(),
        F::Density => "/density".into(),
        F::Immersion => "/immersion".into(),
        F::Body => "/body".into(),
        F::JetUnderMark => "/jet_under_mark".into(),
        F::Nozzle => "/nozzle".into(),
        _ => String::new(),
    };
    format!("/float{rest}")
}
