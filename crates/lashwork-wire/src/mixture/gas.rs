//! The exhaust gas in a document.

use crate::band::band;
use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::job::mixture::{Gas, GasField, GasLimits, GasReadAt, StatedGasUncertainty};
use lashwork::mixture::gas::{AnalyserClass, HydrocarbonFactor};
use lashwork::mixture::idle::MixtureScrew;
use lashwork::quantity::{Lambda, VolumeShare};
use lashwork::tolerance::{Measurand, Uncertainty};

named!(AnalyserClass as "AnalyserClassDoc" {
    /// Class 00 of OIML R 99.
    Class00 = "00",
    /// Class 0.
    Class0 = "0",
    /// Class I.
    ClassI = "I",
});

named!(HydrocarbonFactor as "HydrocarbonsShownAsDoc" {
    /// As hexane: 6 atoms of carbon.
    Hexane = "hexane",
    /// As hexane, and doubled, because such a tester sees about half of what petrol leaves.
    HexaneOfPetrol = "hexane_of_petrol",
    /// As propane: 3 atoms of carbon.
    Propane = "propane",
    /// As atoms of carbon.
    Carbon = "carbon",
});

named!(GasReadAt as "GasReadAtDoc" {
    /// At idle, where the mixture screw reaches.
    Idle = "idle",
    /// Faster, where jets and needle meter.
    RaisedSpeed = "raised_speed",
});

parts! {
    /// What an exhaust tester showed, as dry gas: carbon monoxide, with carbon dioxide and oxygen or without
    /// both.
    GasDoc {
        /// Carbon monoxide.
        co: Option<Q<VolumeShare>>,
        /// Carbon dioxide.
        co2: Option<Q<VolumeShare>>,
        /// Oxygen.
        o2: Option<Q<VolumeShare>>,
        /// Hydrocarbons.
        hc: Option<HydrocarbonsDoc>,
        /// Nitric oxide.
        no: Option<Q<VolumeShare>>,
        /// The class on the tester's plate; the widest is assumed, and listed, if not stated.
        class: Option<W<AnalyserClass>>,
        /// Standard uncertainties where they are known; they go before those of the class.
        uncertainty: Option<GasUncertaintyDoc>,
        /// How the engine ran; idle is assumed, and listed, if not stated.
        read_at: Option<W<GasReadAt>>,
        /// Whether the engine was warm.
        warm: Option<bool>,
        /// Whether the probe was as deep as the tester asks.
        probe_deep: Option<bool>,
        /// Whether no air was put into the exhaust by design: shut off, or not there.
        air_injection_off: Option<bool>,
        /// What the mixture screw does; as stated of the idle, if not stated here.
        screw: Option<W<MixtureScrew>>,
        /// What the book prints.
        limits: Option<GasLimitsDoc>,
    }
    /// Hydrocarbons, and what they are shown as.
    HydrocarbonsDoc {
        /// As shown.
        read: Q<VolumeShare>,
        /// What a molecule counts for; hexane is assumed, and listed, if nothing is stated.
        shown_as: Option<W<HydrocarbonFactor>>,
        /// The same as atoms of carbon, 1 to 20.
        carbon_atoms: Option<f64>,
    }
    /// Standard uncertainties of the gases.
    GasUncertaintyDoc {
        co: Option<Q<VolumeShare>>,
        co2: Option<Q<VolumeShare>>,
        o2: Option<Q<VolumeShare>>,
        hc: Option<Q<VolumeShare>>,
        no: Option<Q<VolumeShare>>,
    }
    /// The book's limits.
    GasLimitsDoc {
        /// Of lambda.
        lambda: Option<LambdaBandDoc>,
        /// Of carbon monoxide.
        co: Option<ShareBandDoc>,
        /// Of hydrocarbons, as the tester shows them.
        hc: Option<ShareBandDoc>,
    }
    /// Limits of lambda; one end may be open.
    LambdaBandDoc { from: Option<Q<Lambda>>, to: Option<Q<Lambda>> }
    /// Limits of a gas; one end may be open.
    ShareBandDoc { from: Option<Q<VolumeShare>>, to: Option<Q<VolumeShare>> }
}

const AT: &str = "/mixture/gas";

/// What was read, in typed values.
pub(super) fn gas(doc: &GasDoc, problems: &mut Vec<Problem>) -> Option<Gas> {
    let faults = problems.len();
    let mut made = Gas::default();
    made.co = doc.co.map(|it| it.0);
    made.co2 = doc.co2.map(|it| it.0);
    made.o2 = doc.o2.map(|it| it.0);
    made.no = doc.no.map(|it| it.0);
    if let Some(hc) = &doc.hc {
        made.hc = Some(hc.read.0);
        made.hc_shown_as = shown_as(hc, problems);
    }
    made.class = doc.class.map(|word| word.0);
    if let Some(doc) = &doc.uncertainty {
        made.uncertainty = uncertainty(doc, problems);
    }
    made.read_at = doc.read_at.map(|word| word.0);
    made.is_warm = doc.warm;
    made.is_probe_deep = doc.probe_deep;
    made.is_air_injection_off = doc.air_injection_off;
    made.screw = doc.screw.map(|word| word.0);
    if let Some(doc) = &doc.limits {
        made.limits = limits(doc, problems);
    }
    (problems.len() == faults).then_some(made)
}

fn shown_as(doc: &HydrocarbonsDoc, problems: &mut Vec<Problem>) -> Option<HydrocarbonFactor> {
    if doc.shown_as.is_some() && doc.carbon_atoms.is_some() {
        problems.push(Problem::new(
            format!("{AT}/hc/carbon_atoms"),
            "mixture.factor-twice",
            "what hydrocarbons are shown as is given twice",
            "keep \"shown_as\" or \"carbon_atoms\"",
        ));
    }
    let stated = doc.carbon_atoms.map(HydrocarbonFactor::Stated);
    doc.shown_as.map(|word| word.0).or(stated)
}

fn uncertainty(doc: &GasUncertaintyDoc, problems: &mut Vec<Problem>) -> StatedGasUncertainty {
    let mut of = |stated: Option<Q<VolumeShare>>, gas: &str| {
        let made = Uncertainty::from_number(stated?.0.number());
        value(problems, format!("{AT}/uncertainty/{gas}"), made)
    };
    let mut made = StatedGasUncertainty::default();
    made.co = of(doc.co, "co");
    made.co2 = of(doc.co2, "co2");
    made.o2 = of(doc.o2, "o2");
    made.hc = of(doc.hc, "hc");
    made.no = of(doc.no, "no");
    made
}

fn limits(doc: &GasLimitsDoc, problems: &mut Vec<Problem>) -> GasLimits {
    let mut made = GasLimits::default();
    let at = |gas: &str| format!("{AT}/limits/{gas}");
    if let Some(doc) = &doc.lambda {
        made.lambda = band(doc.from, doc.to, at("lambda"), problems);
    }
    if let Some(doc) = &doc.co {
        made.co = band(doc.from, doc.to, at("co"), problems);
    }
    if let Some(doc) = &doc.hc {
        made.hc = band(doc.from, doc.to, at("hc"), problems);
    }
    made
}

/// Where a field stands in the mixture section.
pub(super) fn pointer(field: GasField) -> String {
    use GasField as F;
    let rest = match field {
        F::CarbonMonoxide => "/co",
        F::CarbonDioxide => "/co2",
        F::Oxygen => "/o2",
        F::Hydrocarbons => "/hc",
        F::HydrocarbonFactor => "/hc/carbon_atoms",
        F::NitricOxide => "/no",
        F::Uncertainty => "/uncertainty",
        _ => "",
    };
    format!("/gas{rest}")
}
