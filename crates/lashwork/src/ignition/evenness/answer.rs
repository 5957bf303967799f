//! Evenness from the readings of all cylinders.

use super::assumption::EvennessAssumption;
use super::cause::weigh;
use super::fit::{Figure, Fit};
use super::readings::Lobes;
use super::{
    CamSection, EvennessError, EvennessLook, FiringError, FirstHarmonic, LobeReadings, RunOut,
    UnevenGroup, UnevenVerdict,
};
use crate::engine::{CylinderIndex, Engine};
use crate::quantity::{CrankAngle, DistributorAngle};
use crate::tolerance::{Estimate, Judgement, Limits, Uncertainty};
use alloc::vec::Vec;
use serde::Serialize;

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub struct EvennessCheck {
    /// What was read.
    pub readings: LobeReadings,
    /// How far the book lets each spark be from its place, either way; 2 degrees of the distributor is a
    /// printed figure.
    pub tolerance: DistributorAngle,
    /// Where the follower runs on the cam, for the run-out in millimetres.
    pub cam: Option<CamSection>,
}

/// One lobe.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LobeFiring {
    /// The cylinder it fires.
    pub cylinder: CylinderIndex,
    /// Where it stands: how far the rotor turns to it from the first one.
    pub place: DistributorAngle,
    /// How late it is about the mean of all.
    pub error: FiringError,
    /// Its standard uncertainty.
    pub error_u: CrankAngle,
    /// Whether it is within the tolerance of its place.
    pub judgement: Judgement,
    /// What the harmonic leaves of the error; the error itself where there is none.
    pub residual: FiringError,
    /// Its standard uncertainty.
    pub residual_u: CrankAngle,
}

/// How late all are together: the static timing, compared with the book.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Mean {
    /// How late.
    pub error: FiringError,
    /// Its standard uncertainty.
    pub standard_uncertainty: CrankAngle,
    /// Whether it is within the tolerance.
    pub judgement: Judgement,
}

/// How evenly an engine fires.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Evenness {
    /// The lobes, along the firing order.
    pub lobes: Vec<LobeFiring>,
    /// All together against the book, if the book's point was stated.
    pub mean: Option<Mean>,
    /// The part that goes once round; none with fewer than four lobes.
    pub harmonic: Option<FirstHarmonic>,
    /// The run-out that would make it, if the cam section was stated.
    pub run_out: Option<RunOut>,
    /// How late the first, third and so on are about the mean, and the second, fourth and so on early by as
    /// much; none for an odd number of lobes and for dwell.
    pub every_other: Option<FiringError>,
    /// Its standard uncertainty.
    pub every_other_u: Option<CrankAngle>,
    /// From the earliest to the latest.
    pub spread: CrankAngle,
    /// How many independent figures the residuals are.
    pub residual_freedom: usize,
    /// The standard deviation of the residuals over their freedom; none without any.
    pub residual_sd: Option<CrankAngle>,
    /// What may be the matter, most likely first.
    pub groups: Vec<UnevenGroup>,
    /// What came out.
    pub verdict: UnevenVerdict,
    /// What would tell the explanations apart, the cheapest first; nothing where it is settled.
    pub looks: Vec<EvennessLook>,
    /// What was taken for granted.
    pub assumptions: Vec<EvennessAssumption>,
}

impl EvennessCheck {
    /// Works out how evenly the engine fires.
    ///
    /// # Errors
    /// Every problem found ([`EvennessError`]): a cylinder without a reading or with two, an uncertainty
    /// of nought, a flash at another cylinder's place, a dwell that cannot be, a tolerance or a cam section
    /// of nought.
    ///
    /// ```
    /// use lashwork::Refusal;
    /// use lashwork::engine::Engine;
    /// use lashwork::ignition::evenness::{EvennessCheck, LobeReadings, UnevenCause};
    /// use lashwork::quantity::DistributorAngle;
    /// # fn example() -> Result<(), Box<dyn std::error::Error>> {
    /// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2])
    ///     .map_err(|problems| format!("{problems:?}"))?;
    /// let deg = DistributorAngle::from_degrees;
    /// let flashes = [0.0, 90.0, 180.0, 270.2].map(deg);
    /// let read: Vec<_> = engine.order().iter().copied().zip(flashes.into_iter().flatten()).collect();
    /// let mut check = EvennessCheck {
    ///     readings: LobeReadings::Ring { read, each: deg(0.3)? },
    ///     tolerance: deg(2.0)?,
    ///     cam: None,
    /// };
    /// let answer = check.worked_out(&engine).map_err(|problems| format!("{problems:?}"))?;
    /// assert_eq!(answer.groups[0].explanations[0].cause, UnevenCause::Even);
    /// let total: f64 = answer.lobes.iter().map(|lobe| lobe.error.degrees_late()).sum();
    /// assert!(total.abs() < 1e-12);
    ///
    /// if let LobeReadings::Ring { read, .. } = &mut check.readings {
    ///     read.pop();
    /// }
    /// let refused = check.worked_out(&engine).unwrap_err();
    /// assert_eq!(refused[0].to_string(), "cylinder 2 has no reading");
    /// assert_eq!(refused[0].code(), "ignition.reading-missing");
    /// # Ok(())
    /// # }
    /// # example().unwrap();
    /// ```
    pub fn worked_out(&self, engine: &Engine) -> Result<Evenness, Vec<EvennessError>> {
        let lobes = Lobes::of(engine, &self.readings)?;
        let cycle = engine.cycle();
        let alone = |problem| alloc::vec![problem];
        let spacing = CrankAngle::computed(lobes.spacing).at_distributor(cycle);
        let tolerance = self.tolerance.at_crank(cycle).degrees();
        if tolerance <= 0.0 || tolerance >= 0.5 * lobes.spacing {
            return Err(alone(EvennessError::Tolerance {
                got: self.tolerance,
                spacing,
            }));
        }
        let fit = Fit::of(&lobes, cycle);
        let run_out = match (&fit.harmonic, &self.cam) {
            (Some(harmonic), Some(cam)) => Some(harmonic.run_out(cam, cycle).map_err(alone)?),
            _ => None,
        };
        let mean = match lobes.book {
            Some(shared) => Some(mean(fit.mean, shared, tolerance).map_err(alone)?),
            None => None,
        };
        let (groups, verdict, looks) = weigh(&lobes, tolerance);
        let error = |figure: Figure| FiringError::computed(figure.value);
        let doubt = |figure: Figure| CrankAngle::computed(figure.u);
        let each = lobes.cylinders.iter().zip(&fit.errors).zip(&fit.residuals);
        let firings = each.map(|((cylinder, found), residual)| {
            Ok(LobeFiring {
                cylinder: *cylinder,
                place: engine.rotor_angle(*cylinder),
                error: error(*found),
                error_u: doubt(*found),
                judgement: judged(*found, tolerance)?,
                residual: error(*residual),
                residual_u: doubt(*residual),
            })
        });
        let firings: Result<Vec<LobeFiring>, EvennessError> = firings.collect();
        let ends = fit.errors.iter().map(|figure| figure.value);
        let latest = ends.clone().fold(f64::NEG_INFINITY, f64::max);
        let squares: f64 = fit.residuals.iter().map(|r| r.value * r.value).sum();
        let freedom = fit.freedom;
        Ok(Evenness {
            lobes: firings.map_err(alone)?,
            mean,
            assumptions: assumptions(&lobes, run_out),
            harmonic: fit.harmonic,
            run_out,
            every_other: fit.every_other.map(error),
            every_other_u: fit.every_other.map(doubt),
            spread: CrankAngle::computed(latest - ends.fold(f64::INFINITY, f64::min)),
            residual_freedom: freedom,
            residual_sd: (freedom > 0)
                .then(|| CrankAngle::computed(libm::sqrt(squares / freedom as f64))),
            groups,
            verdict,
            looks,
        })
    }
}

fn judged(figure: Figure, tolerance: f64) -> Result<Judgement, EvennessError> {
    let at = FiringError::computed(figure.value);
    let estimate = Estimate::between(at, at, Uncertainty::from_number(figure.u)?)?;
    let (low, high) = (-tolerance, tolerance);
    let band = Limits::between(FiringError::computed(low), FiringError::computed(high))?;
    Ok(estimate.judged_by(&band))
}

fn mean(figure: Figure, shared: f64, tolerance: f64) -> Result<Mean, EvennessError> {
    let figure = Figure {
        u: libm::hypot(figure.u, shared),
        ..figure
    };
    Ok(Mean {
        error: FiringError::computed(figure.value),
        standard_uncertainty: CrankAngle::computed(figure.u),
        judgement: judged(figure, tolerance)?,
    })
}

fn assumptions(lobes: &Lobes, run_out: Option<RunOut>) -> Vec<EvennessAssumption> {
    let mut found = Vec::new();
    if lobes.is_dwell {
        found.push(EvennessAssumption::SymmetricalLobes);
        if lobes.late.len().is_multiple_of(2) {
            found.push(EvennessAssumption::EveryOtherHidden);
        }
    }
    if run_out.is_some_and(|found| found.is_upper_bound) {
        found.push(EvennessAssumption::FlankNotStated);
    }
    found
}
