//! One valve without an engine: limits and what was found in, a verdict and advice out.

use super::assumed::{ratio, rule};
use super::readings::answer::JudgedReport;
use super::readings::{assume, check_shim, judged_report, locking};
use super::{shims, warmth};
use crate::adjust::Adjuster;
use crate::clearance::{AsFound, Setting, judge};
use crate::feeler::{Combination, LeafSet};
use crate::job::assumptions::{Assumption, Assumptions};
use crate::job::cautions::cautions;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::quantity::{Lash, Temperature};
use crate::thermal::Metal;
use crate::tolerance::DecisionRule;
use crate::valve::ValveLimits;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use serde::Serialize;

/// What the limits are called where a whole job names a specification.
const LIMITS: &str = "limits";

/// One valve to judge, by limits that stand alone.
///
/// ```
/// use lashwork::clearance::AsFound;
/// use lashwork::feeler::{Leaf, Reading, Stack};
/// use lashwork::job::clearance::OneValve;
/// use lashwork::quantity::Marked;
/// use lashwork::tolerance::{Limits, Verdict};
/// use lashwork::valve::ValveLimits;
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// let mark = |text| Marked::parse(text);
/// let band = Limits::between(mark("0.15 mm")?, mark("0.25 mm")?)?;
/// let limits = ValveLimits::new(mark("0.20 mm")?, band, None)?;
/// let one = |text| Stack::new(vec![Leaf::new(Marked::parse(text).unwrap())]);
/// let found = AsFound::new(Reading::between(one("0.12 mm")?, one("0.15 mm")?)?);
/// let report = OneValve::new(found, limits).judged().map_err(|p| format!("{p:?}"))?;
/// assert_eq!(report.judged.verdict, Verdict::Below);
/// assert!(report.assumptions.iter().any(|a| a.code == "tolerance.reference"));
/// # Ok(())
/// # }
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct OneValve {
    /// What was found.
    pub found: AsFound,
    /// What is asked for.
    pub limits: ValveLimits,
    /// The temperature the limits hold at; 20 C is taken, and listed, when not stated.
    pub reference: Option<Temperature>,
    /// The leaves at hand; those of the reading when not stated.
    pub leaves: Option<LeafSet>,
    /// How leaf tolerances add in a stack; worst case is taken, and listed where it matters, when not
    /// stated.
    pub combination: Option<Combination>,
    /// How the lash is set.
    pub adjuster: Adjuster,
    /// Valve movement over cam movement.
    pub rocker_ratio: Option<f64>,
    /// How warm the metal is.
    pub metal: Metal,
    /// The decision rule; the default is listed as an assumption.
    pub rule: Option<DecisionRule>,
}

/// The answer for one valve.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct OneValveReport {
    /// The reading in words, as taken.
    pub reading: String,
    /// Whether the leaves are marked in inches.
    pub leaves_in_inches: bool,
    /// Lower end of the gap as felt.
    pub felt_low: Option<Lash>,
    /// Upper end of the gap as felt.
    pub felt_high: Option<Lash>,
    /// Standard uncertainty from leaves and feel, in millimetres.
    pub felt_uncertainty_mm: f64,
    /// The lash at the reference temperature, the verdict, how certain it is, and what to do.
    pub judged: JudgedReport,
    /// The metal temperature and how the lash follows, one line for each fact.
    pub metal: Vec<String>,
    /// The decision rule.
    pub rule: String,
    /// What had to be assumed.
    pub assumptions: Vec<Assumption>,
    /// What can hurt someone.
    pub cautions: Vec<&'static str>,
}

impl OneValve {
    /// What was found and what is asked for; the rest is not stated.
    #[must_use]
    pub fn new(found: AsFound, limits: ValveLimits) -> Self {
        Self {
            found,
            limits,
            reference: None,
            leaves: None,
            combination: None,
            adjuster: Adjuster::Unstated,
            rocker_ratio: None,
            metal: Metal::Unstated,
            rule: None,
        }
    }

    /// Judges it.
    ///
    /// # Errors
    /// The [`Problem`] found with the reading, the shim or the metal.
    pub fn judged(&self) -> Result<OneValveReport, Problem> {
        let mut assumptions = Assumptions::default();
        self.assume(&mut assumptions);
        let rule = rule(self.rule, &mut assumptions);
        check_shim(&self.adjuster, &self.found, 0)?;
        shims::check::rocker_ratio(&self.adjuster, self.rocker_ratio, &self.metal)?;
        let reference = self.reference.unwrap_or(Temperature::ISO_1);
        let refused = |e| Problem::at(Place::Metal, &e);
        let correction = self.metal.correction(reference).map_err(refused)?;
        let refused = |e| Problem::at(Place::Reading(0), &e);
        let leaves = match &self.leaves {
            Some(leaves) => leaves.clone(),
            None => self.found.reading.leaf_set().map_err(refused)?,
        };
        let combination = self.combination.unwrap_or(Combination::WorstCase);
        let felt = self.found.estimate(combination).map_err(refused)?;
        assume(core::iter::once(&felt), &mut assumptions);
        let setting = Setting {
            limits: &self.limits,
            correction: correction.as_ref(),
            adjuster: &self.adjuster,
            rocker_ratio: self.rocker_ratio,
            leaves: &leaves,
            rule: &rule,
        };
        let judged = judge(&self.found, &felt, &setting);
        let judged = judged.map_err(|e| Problem::at(Place::Reading(0), &e))?;
        Ok(OneValveReport {
            reading: self.found.words(),
            leaves_in_inches: self.found.in_inches(),
            felt_low: felt.estimate.low(),
            felt_high: felt.estimate.high(),
            felt_uncertainty_mm: felt.estimate.normal_uncertainty().mm(),
            judged: judged_report(LIMITS, &self.limits, correction.as_ref(), judged),
            metal: warmth::metal_words(&self.metal),
            rule: rule.name().to_string(),
            assumptions: assumptions.list(),
            cautions: cautions(true),
        })
    }

    fn assume(&self, assumptions: &mut Assumptions) {
        if self.reference.is_none() {
            assumptions.add(
                "tolerance.reference",
                "the limits state no reference temperature: 20 C taken (ISO 1)",
            );
        }
        if self.combination.is_none() && self.found.reading.has_stack() {
            assumptions.add(
                "feeler.stack",
                "how leaf tolerances add in a stack not stated: worst case taken",
            );
        }
        warmth::assume_metal(&self.metal, assumptions);
        locking::assume(&self.adjuster, assumptions);
        shims::assume_fit(&self.adjuster, core::iter::once(&self.found), assumptions);
        ratio(self.rocker_ratio, &self.adjuster, &self.metal, assumptions);
    }
}
