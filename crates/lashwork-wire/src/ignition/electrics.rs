//! Coil, condenser and plugs in a document.

use crate::about::{about, pair};
use crate::band::band;
use crate::part::Part;
use crate::problem::{Problem, is_short};
use crate::quantity::Q;
use crate::word::W;
use lashwork::ignition::breaker::{DwellChange, DwellShown};
use lashwork::ignition::electrics::{BuildUp, Conductor, Earth, Weak};
use lashwork::job::ignition::{
    Charge, Coil, Condenser, Electrics, ElectricsField, Plug, Pressure, Resistor,
};
use lashwork::quantity::{
    AbsolutePressure, Advance, Capacitance, CrankAngle, CrankSpeed, Current, Energy, Inductance,
    Marked, PlugGap, Resistance, Temperature, TemperatureDifference, Voltage,
};

named!(Conductor as "ConductorDoc" {
    /// Windings.
    Copper = "copper",
    /// A ballast resistor, or a lead of resistance wire.
    ResistanceWire = "resistance_wire",
    /// A lead with a carbon core.
    Carbon = "carbon",
});
named!(BuildUp as "BuildUpDoc" {
    /// On the moving arm.
    OnArm = "on_arm",
    /// On the fixed contact.
    OnFixed = "on_fixed",
});
named!(Earth as "EarthDoc" {
    /// The negative pole is at the frame.
    Negative = "negative",
    /// The positive pole is at the frame.
    Positive = "positive",
});

parts! {
    /// Coil, condenser and plugs: what was measured, and what the book asks for.
    ElectricsDoc {
        /// Windings, ballast and leads.
        #[cfg_attr(feature = "schema", schemars(default))]
        resistors: Part<Vec<ResistorDoc>>,
        /// The condenser.
        condenser: Option<CondenserDoc>,
        /// The coil at speed; its resistance is the sum of the resistors in the primary circuit.
        coil: Option<CoilDoc>,
        /// The plugs.
        plug: Option<PlugDoc>,
    }
    /// A winding, a ballast resistor or a lead.
    ResistorDoc {
        name: String,
        of: W<Conductor>,
        reads: Q<Resistance>,
        /// Standard uncertainty.
        uncertainty: Q<Resistance>,
        /// How warm it was; as in the book, and listed, if not stated.
        at: Option<Q<Temperature>>,
        /// Standard uncertainty of that; 3 K if not stated.
        within: Option<Q<TemperatureDifference>>,
        limits: Option<ResistanceLimitsDoc>,
        /// At which temperature the book's limits hold; 20 C if not stated.
        book_at: Option<Q<Temperature>>,
        /// Whether it is part of the primary circuit.
        primary: Option<bool>,
        /// How warm it runs; as it was measured, and listed, if not stated.
        runs_at: Option<Q<Temperature>>,
    }
    /// The book's resistance; one end may be open.
    ResistanceLimitsDoc { from: Option<Q<Resistance>>, to: Option<Q<Resistance>> }
    /// The condenser.
    CondenserDoc {
        reads: Option<Q<Capacitance>>,
        /// Standard uncertainty; needed with `reads`.
        uncertainty: Option<Q<Capacitance>>,
        limits: Option<CapacitanceLimitsDoc>,
        /// Which contact has grown a peak.
        build_up: Option<W<BuildUp>>,
        /// Which pole of the battery is at the frame.
        earth: Option<W<Earth>>,
    }
    /// The book's capacity; one end may be open.
    CapacitanceLimitsDoc { from: Option<Q<Capacitance>>, to: Option<Q<Capacitance>> }
    /// The coil at speed.
    CoilDoc {
        /// With the contacts closed.
        supply: Q<Voltage>,
        supply_uncertainty: Q<Voltage>,
        /// Of the primary winding, as it runs.
        inductance: Q<Inductance>,
        inductance_uncertainty: Q<Inductance>,
        dwell: Q<DwellShown>,
        /// Standard uncertainty of the dwell; 1 degree if not stated.
        dwell_uncertainty: Option<Q<DwellChange>>,
        speeds: Option<Vec<Q<CrankSpeed>>>,
        weak_below: Option<WeakDoc>,
    }
    /// From when the coil is called weak; one of them.
    WeakDoc {
        share_of_current: Option<f64>,
        share_of_energy: Option<f64>,
        current: Option<Q<Current>>,
        energy: Option<Q<Energy>>,
    }
    /// The plugs.
    PlugDoc {
        gap: Option<Q<PlugGap>>,
        /// Standard uncertainty; needed with `gap`.
        uncertainty: Option<Q<PlugGap>>,
        limits: Option<PlugLimitsDoc>,
        /// The pressure when the spark comes, the gas cold.
        pressure: Option<Q<AbsolutePressure>>,
        /// Standard uncertainty; needed with `pressure`.
        pressure_uncertainty: Option<Q<AbsolutePressure>>,
        /// The compression, in place of `pressure`.
        compression: Option<ChargeCompressionDoc>,
        /// The voltage there is at the plug.
        available: Option<Q<Voltage>>,
        /// Standard uncertainty; needed with `available`.
        available_uncertainty: Option<Q<Voltage>>,
    }
    /// The book's plug gap; one end may be open.
    PlugLimitsDoc { from: Option<Q<Marked>>, to: Option<Q<Marked>> }
    /// The charge and its compression.
    ChargeCompressionDoc {
        ratio: f64,
        spark: Q<Advance>,
        /// 1.3, and listed, if not stated.
        exponent: Option<f64>,
        /// Pressure when it begins; that of the air, and listed, if not stated.
        start: Option<Q<AbsolutePressure>>,
        /// Standard uncertainty; needed with `start`.
        start_uncertainty: Option<Q<AbsolutePressure>>,
        /// Temperature when it begins; the gas is taken as cold, and that is listed, if not stated.
        start_at: Option<Q<Temperature>>,
        /// Where the intake closes, after bottom dead centre.
        intake_closes: Option<Q<CrankAngle>>,
    }
}

/// Where a field stands in the ignition section.
pub(super) fn pointer(field: ElectricsField) -> String {
    match field {
        ElectricsField::Resistor(i) => format!("/electrics/resistors/{i}"),
        ElectricsField::Coil => "/electrics/coil".into(),
        ElectricsField::Plug => "/electrics/plug".into(),
        _ => "/electrics".into(),
    }
}

const PLACE: &str = "/ignition/electrics";

/// In typed values.
pub(super) fn electrics(doc: ElectricsDoc, problems: &mut Vec<Problem>) -> Option<Electrics> {
    let before = problems.len();
    let mut made = Electrics::default();
    let list = doc.resistors.take(None, problems).unwrap_or_default();
    if is_short(&list, &format!("{PLACE}/resistors"), problems) {
        for (i, one) in list.into_iter().enumerate() {
            let place = format!("{PLACE}/resistors/{i}");
            made.resistors.extend(resistor(one, &place, problems));
        }
    }
    made.condenser = doc.condenser.map(|doc| condenser(&doc, problems));
    made.coil = doc.coil.and_then(|doc| coil(doc, problems));
    made.plug = doc.plug.map(|doc| plug(doc, problems));
    (problems.len() == before).then_some(made)
}

fn resistor(doc: ResistorDoc, place: &str, problems: &mut Vec<Problem>) -> Option<Resistor> {
    let read = about(doc.reads, doc.uncertainty, place, problems)?;
    let mut made = Resistor::new(&doc.name, doc.of.0, read);
    made.read_at = doc.at.map(|at| at.0);
    made.within = doc.within.map(|within| within.0);
    made.limits = doc
        .limits
        .and_then(|doc| band(doc.from, doc.to, format!("{place}/limits"), problems));
    made.book_at = doc.book_at.map(|at| at.0);
    made.in_primary = doc.primary.unwrap_or(false);
    made.runs_at = doc.runs_at.map(|at| at.0);
    Some(made)
}

fn condenser(doc: &CondenserDoc, problems: &mut Vec<Problem>) -> Condenser {
    let place = format!("{PLACE}/condenser");
    let mut made = Condenser::default();
    made.read = pair(doc.reads, doc.uncertainty, "uncertainty", &place, problems);
    made.limits = doc
        .limits
        .as_ref()
        .and_then(|doc| band(doc.from, doc.to, format!("{place}/limits"), problems));
    made.build_up = doc.build_up.map(|word| word.0);
    made.earth = doc.earth.map(|word| word.0);
    made
}

fn coil(doc: CoilDoc, problems: &mut Vec<Problem>) -> Option<Coil> {
    let place = format!("{PLACE}/coil");
    let supply = about(doc.supply, doc.supply_uncertainty, &place, problems);
    let inductance = about(doc.inductance, doc.inductance_uncertainty, &place, problems);
    let mut made = Coil::new(supply?, inductance?, doc.dwell.0);
    made.dwell_uncertainty = doc.dwell_uncertainty.map(|u| u.0);
    let speeds = doc.speeds.unwrap_or_default();
    if is_short(&speeds, &format!("{place}/speeds"), problems) {
        made.speeds = speeds.into_iter().map(|speed| speed.0).collect();
    }
    made.weak = match doc.weak_below {
        Some(weak) => Some(weak_below(&weak, &place, problems)?),
        None => None,
    };
    Some(made)
}

pub(super) fn weak_below(doc: &WeakDoc, place: &str, problems: &mut Vec<Problem>) -> Option<Weak> {
    let stated = [
        doc.share_of_current.map(Weak::BelowShareOfCurrent),
        doc.share_of_energy.map(Weak::BelowShareOfEnergy),
        doc.current.map(|current| Weak::BelowCurrent(current.0)),
        doc.energy.map(|energy| Weak::BelowEnergy(energy.0)),
    ];
    let mut stated = stated.into_iter().flatten();
    if let (Some(one), None) = (stated.next(), stated.next()) {
        return Some(one);
    }
    problems.push(Problem::new(
        format!("{place}/weak_below"),
        "ignition.weak-below",
        "not exactly one limit is given",
        "give \"share_of_current\", \"share_of_energy\", \"current\" or \"energy\"",
    ));
    None
}

fn plug(doc: PlugDoc, problems: &mut Vec<Problem>) -> Plug {
    let place = format!("{PLACE}/plug");
    let mut made = Plug::default();
    made.gap = pair(doc.gap, doc.uncertainty, "uncertainty", &place, problems);
    made.limits = doc
        .limits
        .and_then(|doc| band(doc.from, doc.to, format!("{place}/limits"), problems));
    let u = doc.pressure_uncertainty;
    let stated = pair(doc.pressure, u, "pressure_uncertainty", &place, problems);
    made.pressure = match (stated, doc.compression) {
        (Some(_), Some(_)) => {
            problems.push(Problem::new(
                format!("{place}/compression"),
                "ignition.two-pressures",
                "both a pressure and a compression are given",
                "keep the pressure if it was measured",
            ));
            None
        }
        (Some(pressure), None) => Some(Pressure::Stated(pressure)),
        (None, Some(doc)) => Some(Pressure::Compressed(charge(&doc, &place, problems))),
        (None, None) => None,
    };
    let u = doc.available_uncertainty;
    made.available = pair(doc.available, u, "available_uncertainty", &place, problems);
    made
}

fn charge(doc: &ChargeCompressionDoc, place: &str, problems: &mut Vec<Problem>) -> Charge {
    let place = format!("{place}/compression");
    let mut made = Charge::new(doc.ratio, doc.spark.0);
    made.exponent = doc.exponent;
    let u = doc.start_uncertainty;
    made.start = pair(doc.start, u, "start_uncertainty", &place, problems);
    made.start_at = doc.start_at.map(|at| at.0);
    made.intake_closes = doc.intake_closes.map(|at| at.0);
    made
}
