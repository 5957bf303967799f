//! Exhaust gas: how rich the engine runs, whether the gases can be believed, and what to turn.

mod advise;
mod answer;
mod of_idle;
mod reckon;
pub(super) mod sheet;
mod words;

pub(super) use of_idle::of_idle;

pub use answer::{GasCauseReport, GasDoubtReport, GasJudgedReport, GasLambdaReport, GasReport};

use super::place::{GasField, MixturePlace};
use crate::job::assumptions::Assumptions;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::work::{Before, MeasuredReport, Standing};
use crate::mixture::gas::{AnalyserClass, Fuel, GasError, HydrocarbonFactor};
use crate::mixture::idle::MixtureScrew;
use crate::quantity::{Lambda, VolumeShare};
use crate::tolerance::{Limits, Uncertainty, Verdict};
use alloc::string::String;
use alloc::vec::Vec;

/// How the engine ran while the gases were read.
///
/// ```
/// use lashwork::job::mixture::GasReadAt;
/// assert_ne!(GasReadAt::Idle, GasReadAt::RaisedSpeed);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GasReadAt {
    /// At idle, where the mixture screw reaches.
    Idle,
    /// Faster, where jets and needle meter.
    RaisedSpeed,
}

/// What the book prints.
///
/// ```
/// use lashwork::job::mixture::GasLimits;
/// let mut book = GasLimits::default();
/// book.co = Some("1.5 % to 2.5 %".parse()?);
/// assert!(book.lambda.is_none());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct GasLimits {
    /// Of lambda.
    pub lambda: Option<Limits<Lambda>>,
    /// Of carbon monoxide.
    pub co: Option<Limits<VolumeShare>>,
    /// Of hydrocarbons, as the tester shows them.
    pub hc: Option<Limits<VolumeShare>>,
}

/// Standard uncertainties that are stated; they go before those of the tester's class.
///
/// ```
/// use lashwork::job::mixture::StatedGasUncertainty;
/// use lashwork::tolerance::Uncertainty;
/// let mut stated = StatedGasUncertainty::default();
/// stated.co = Some(Uncertainty::from_number(0.2)?);
/// # Ok::<(), lashwork::tolerance::ToleranceError>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct StatedGasUncertainty {
    /// Of carbon dioxide.
    pub co2: Option<Uncertainty<VolumeShare>>,
    /// Of carbon monoxide.
    pub co: Option<Uncertainty<VolumeShare>>,
    /// Of oxygen.
    pub o2: Option<Uncertainty<VolumeShare>>,
    /// Of hydrocarbons, as read.
    pub hc: Option<Uncertainty<VolumeShare>>,
    /// Of nitric oxide.
    pub no: Option<Uncertainty<VolumeShare>>,
}

/// What an exhaust tester showed, and how it was read.
///
/// Carbon monoxide, with carbon dioxide and oxygen or without both; the rest where the tester shows it.
///
/// ```
/// use lashwork::job::mixture::Gas;
/// use lashwork::quantity::VolumeShare;
/// let mut asked = Gas::default();
/// asked.co = Some(VolumeShare::parse("3.5 %")?);
/// assert!(asked.co2.is_none(), "lambda from carbon monoxide alone");
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Gas {
    /// Carbon monoxide.
    pub co: Option<VolumeShare>,
    /// Carbon dioxide.
    pub co2: Option<VolumeShare>,
    /// Oxygen.
    pub o2: Option<VolumeShare>,
    /// Hydrocarbons, as shown.
    pub hc: Option<VolumeShare>,
    /// What a molecule of them counts for; hexane if not stated, as testers of garages show.
    pub hc_shown_as: Option<HydrocarbonFactor>,
    /// Nitric oxide.
    pub no: Option<VolumeShare>,
    /// The class on the tester's plate; the widest, and listed, if not stated.
    pub class: Option<AnalyserClass>,
    /// Uncertainties that are stated.
    pub uncertainty: StatedGasUncertainty,
    /// How the engine ran; at idle, and listed, if not stated.
    pub read_at: Option<GasReadAt>,
    /// Whether the engine was warm; taken so, and listed, if not stated.
    pub is_warm: Option<bool>,
    /// Whether the probe was as deep in the tail pipe as the tester asks.
    pub is_probe_deep: Option<bool>,
    /// Whether no air was blown or drawn into the exhaust by design: shut off, or not there.
    pub is_air_injection_off: Option<bool>,
    /// What the mixture screw does; as stated of the idle, if not stated here.
    pub screw: Option<MixtureScrew>,
    /// What the book prints.
    pub limits: GasLimits,
}

/// What the rest of the section says.
#[derive(Clone, Copy, Default)]
pub(super) struct Elsewhere {
    pub(super) fuel: Option<Fuel>,
    pub(super) screw: Option<MixtureScrew>,
    /// Whether the mixture screw stands where the speed wants it, or is left to the gas against the speed.
    pub(super) is_idle_left: bool,
}

/// Works it out.
pub(super) fn report(
    asked: &Gas,
    elsewhere: Elsewhere,
    before: &Before,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<GasReport> {
    if asked.co.is_none() && reckon::is_nothing_read(asked) {
        return Some(advise::not_read(before));
    }
    let faults = problems.len();
    reckon::missing(asked, problems);
    let fuel = elsewhere.fuel.or_else(|| {
        problems.push(Problem::new(
            Place::Mixture(MixturePlace::Fuel),
            "mixture.fuel-not-stated",
            "the fuel is not stated, and the air it needs hangs on it",
            "give \"fuel\", as on the pump: E0, E5, E10; or LPG, CNG, or a formula such as C8H18",
        ));
        None
    });
    if problems.len() > faults {
        return None;
    }
    let reckoned = reckon::reckoned(asked, &fuel?, assumptions);
    let reckoned = reckoned.map_err(|why| problems.push(Problem::at(place(&why), &why)));
    let found = advise::Found {
        asked,
        screw: asked.screw.or(elsewhere.screw),
        is_idle_left: elsewhere.is_idle_left,
        before,
        reckoned: reckoned.ok()?,
    };
    reckon::taken_for_granted(asked, assumptions);
    Some(found.told())
}

/// How far it is settled, for the order of work.
pub(super) fn standing(found: &GasReport) -> (Standing, String) {
    let judged = &found.judged;
    let all = [&judged.lambda, &judged.co, &judged.hc];
    let mut verdicts = all.into_iter().flatten().map(MeasuredReport::shown);
    let standing = if !found.contradictions.is_empty() {
        Standing::NotSettled
    } else if found.is_judged {
        if verdicts.all(|verdict| verdict == Verdict::InBand) {
            Standing::Settled
        } else {
            Standing::NotSettled
        }
    } else {
        Standing::NotKnown
    };
    (standing, found.verdict_text.clone())
}

/// Where a refusal belongs.
const fn place(why: &GasError) -> Place {
    use GasError as E;
    Place::Mixture(MixturePlace::Gas(match why {
        E::NoCarbonDioxide | E::TooMuchCarbonDioxide { .. } => GasField::CarbonDioxide,
        E::TooMuchCarbonMonoxide { .. } => GasField::CarbonMonoxide,
        E::TooMuchOxygen { .. } => GasField::Oxygen,
        E::Factor { .. } => GasField::HydrocarbonFactor,
        _ => GasField::Section,
    }))
}
