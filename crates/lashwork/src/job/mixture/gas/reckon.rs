//! From what the tester shows to lambda and to what can be judged.

use super::{Gas, GasReadAt};
use crate::job::assumptions::{Assumptions, TakenForGranted};
use crate::job::mixture::place::{GasField, MixturePlace};
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::mixture::gas::{
    AnalyserClass, ExhaustGas, Fuel, GasAssumption, GasCause, GasDoubt, GasError, GasUncertainty,
    HydrocarbonFactor, Hydrocarbons, co_without_air, lambda, lambda_from_co,
};
use crate::quantity::{Lambda, VolumeShare};
use crate::tolerance::{Estimate, ToleranceError, Uncertainty};
use alloc::vec::Vec;

/// The class that is taken where none is stated: the widest.
const WIDEST: AnalyserClass = AnalyserClass::ClassI;

/// What the readings came to.
pub(super) struct Reckoned {
    pub(super) lambda: Estimate<Lambda>,
    /// By what; the check beside it.
    pub(super) by: LambdaBy,
    pub(super) fuel_ratio: f64,
    pub(super) doubts: Vec<GasDoubt>,
    pub(super) co_without_air: Option<VolumeShare>,
    pub(super) co: Estimate<VolumeShare>,
    pub(super) hc: Option<Estimate<VolumeShare>>,
}

/// What lambda is from.
pub(super) enum LambdaBy {
    Gases { spindt: Option<Lambda> },
    CoAlone { burnt_out: Lambda },
}

/// Whether there is no reading at all.
pub(super) fn is_nothing_read(asked: &Gas) -> bool {
    let all = [asked.co, asked.co2, asked.o2, asked.hc, asked.no];
    all.iter().all(Option::is_none)
}

/// Refuses readings that another one must go with.
pub(super) fn missing(asked: &Gas, problems: &mut Vec<Problem>) {
    let mut lacks = |field: GasField, what: &str, hint: &str| {
        problems.push(Problem::new(
            Place::Mixture(MixturePlace::Gas(field)),
            "mixture.gas-not-read",
            what,
            hint,
        ));
    };
    if asked.co.is_none() {
        lacks(
            GasField::CarbonMonoxide,
            "carbon monoxide is not there",
            "give \"co\"; alone, or with \"co2\" and \"o2\"",
        );
    }
    let both = "give carbon dioxide and oxygen both, or carbon monoxide without either";
    match (asked.co2, asked.o2) {
        (Some(_), None) => lacks(GasField::Oxygen, "oxygen is not there", both),
        (None, Some(_)) => lacks(GasField::CarbonDioxide, "carbon dioxide is not there", both),
        (None, None) if asked.no.is_some() => lacks(
            GasField::NitricOxide,
            "nitric oxide is of no use without carbon dioxide and oxygen",
            "give \"co2\" and \"o2\", or leave it out",
        ),
        _ => {}
    }
    if uncertainties(asked).any(|(read, u)| read.is_none() && u.is_some()) {
        lacks(
            GasField::Uncertainty,
            "an uncertainty is stated of a gas that was not read",
            "give the reading, or leave its uncertainty out",
        );
    }
    if asked.hc.is_none() && asked.hc_shown_as.is_some() {
        lacks(
            GasField::Hydrocarbons,
            "what hydrocarbons are shown as is stated, but not how much",
            "give the reading, or leave it out",
        );
    }
}

/// Reckons; what is missing was refused before.
pub(super) fn reckoned(
    asked: &Gas,
    fuel: &Fuel,
    assumptions: &mut Assumptions,
) -> Result<Reckoned, GasError> {
    let read = asked.co.unwrap_or(VolumeShare::from_percent(0.0)?);
    let class = class(asked, assumptions);
    let stated = asked.uncertainty;
    let co_u = stated.co.map_or_else(|| class.co_uncertainty(read), Ok)?;
    let hc = asked.hc.map(|hc| {
        let u = stated.hc.map_or_else(|| class.hc_uncertainty(hc), Ok)?;
        Ok::<_, GasError>(sharp(hc, u)?)
    });
    let (co, hc) = (sharp(read, co_u)?, hc.transpose()?);
    let fuel_ratio = fuel.air_fuel_ratio();
    let (Some(co2), Some(o2)) = (asked.co2, asked.o2) else {
        let found = lambda_from_co(read, co_u, fuel)?;
        granted(&found.assumptions, assumptions);
        return Ok(Reckoned {
            lambda: found.lambda,
            by: LambdaBy::CoAlone {
                burnt_out: found.burnt_out,
            },
            fuel_ratio,
            doubts: Vec::new(),
            co_without_air: None,
            co,
            hc,
        });
    };
    let shown = asked.hc.map(|read| Hydrocarbons {
        read,
        factor: asked.hc_shown_as.unwrap_or(HydrocarbonFactor::Hexane),
    });
    let mut gas = ExhaustGas::new(co2, read, o2, shown)?;
    if let Some(no) = asked.no {
        gas = gas.with_no(no);
    }
    let of_class = class.uncertainty(&gas)?;
    let u = GasUncertainty {
        co2: stated.co2.unwrap_or(of_class.co2),
        co: co_u,
        o2: stated.o2.unwrap_or(of_class.o2),
        hc: stated.hc.unwrap_or(of_class.hc),
        no: stated.no.unwrap_or(of_class.no),
    };
    let found = lambda(&gas, &u, fuel)?;
    granted(&found.assumptions, assumptions);
    let causes = found.contradictions.iter().flat_map(|one| &one.causes);
    let is_air = |cause: &GasCause| matches!(cause, GasCause::AirAtProbe { low: Some(_), .. });
    let is_leak = causes.into_iter().any(is_air);
    let without_air = is_leak.then(|| co_without_air(&gas)).transpose()?;
    Ok(Reckoned {
        lambda: found.lambda,
        by: LambdaBy::Gases {
            spindt: found.spindt,
        },
        fuel_ratio,
        doubts: found.contradictions,
        co_without_air: without_air,
        co,
        hc,
    })
}

fn sharp(
    read: VolumeShare,
    u: Uncertainty<VolumeShare>,
) -> Result<Estimate<VolumeShare>, ToleranceError> {
    Estimate::between(read, read, u)
}

/// The class, taken and listed where it is not stated and some gas needs it.
fn class(asked: &Gas, assumptions: &mut Assumptions) -> AnalyserClass {
    let needs = uncertainties(asked).any(|(read, u)| read.is_some() && u.is_none());
    asked.class.unwrap_or_else(|| {
        if needs {
            assumptions.bears_on_verdict(
                "mixture.gas-class-assumed",
                "the tester's class is not stated: class I of OIML R 99 taken, the widest; an old tester may be worse",
            );
        }
        WIDEST
    })
}

/// Each gas, and the uncertainty stated of it.
fn uncertainties(
    asked: &Gas,
) -> impl Iterator<Item = (Option<VolumeShare>, Option<Uncertainty<VolumeShare>>)> {
    let u = asked.uncertainty;
    [
        (asked.co, u.co),
        (asked.co2, u.co2),
        (asked.o2, u.o2),
        (asked.hc, u.hc),
        (asked.no, u.no),
    ]
    .into_iter()
}

fn granted(taken: &[GasAssumption], assumptions: &mut Assumptions) {
    for one in taken {
        assumptions.bears_on_verdict(one.short_name(), alloc::format!("{one}"));
    }
}

/// What is taken of the engine.
pub(super) fn taken_for_granted(asked: &Gas, assumptions: &mut Assumptions) {
    if asked.is_warm.is_none() {
        assumptions.bears_on_verdict(
            "mixture.gas-engine-warm",
            "whether the engine was warm is not stated: taken as warm, the choke off",
        );
    }
    if asked.read_at.is_none() {
        assumptions.add(
            "mixture.gas-at-idle",
            "how fast the engine ran for the gases is not stated: idle taken",
        );
    }
}

impl Gas {
    /// How the engine ran.
    pub(in crate::job::mixture) fn ran(&self) -> GasReadAt {
        self.read_at.unwrap_or(GasReadAt::Idle)
    }
}
