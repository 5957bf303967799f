//! One valve without an engine: limits and what was found in, a verdict and advice out.

use super::assumed::{band, pads, ratio, rule};
use super::readings::answer::JudgedReport;
use super::readings::{as_found, assume, check_shim, judged_report, locking};
use super::{books, shims, warmth, work};
use crate::adjust::Adjuster;
use crate::clearance::{AsFound, Setting, judge};
use crate::feeler::{GaugeUse, LeafSet};
use crate::job::assumptions::{Assumption, Assumptions};
use crate::job::cautions::{Facts, cautions};
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::units::{Shown, ShownLength, Units};
use crate::quantity::{Lash, Temperature};
use crate::thermal::{Metal, NotAtReference, Reference};
use crate::tolerance::DecisionRule;
use crate::valve::{Condition, ValveKind, ValveLimits};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use serde::Serialize;

/// What the limits are called where a whole job names a specification.
const LIMITS: &str = "limits";
/// The same in an assumption. The verb is that of a specification.
const WHOSE: &str = "the book of the limits";

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
    /// Which kind of valve it is, if that is said.
    pub kind: Option<ValveKind>,
    /// The temperature the limits hold at; for a cold engine 20 C is taken, and listed, when not stated.
    pub reference: Option<Temperature>,
    /// Whether the limits hold for a cold or a hot engine; cold is taken when not stated.
    pub condition: Option<Condition>,
    /// The leaves at hand; those of the reading when not stated.
    pub leaves: Option<LeafSet>,
    /// How the leaves are used; when not stated, worst case is taken in a stack, and listed where it
    /// matters.
    pub gauge_use: Option<GaugeUse>,
    /// How the lash is set.
    pub adjuster: Adjuster,
    /// Valve movement over cam movement.
    pub rocker_ratio: Option<f64>,
    /// How warm the metal is.
    pub metal: Metal,
    /// The decision rule; the default is listed as an assumption.
    pub rule: Option<DecisionRule>,
    /// In which units texts say lengths and temperatures.
    pub units: Units,
}

/// The answer for one valve.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct OneValveReport {
    /// The reading in words, as taken.
    pub reading: String,
    /// Whether its texts say the lash in inches: asked for, or the leaves are marked so.
    pub leaves_in_inches: bool,
    /// Lower end of the gap as felt.
    pub felt_low: Option<Lash>,
    /// Upper end of the gap as felt.
    pub felt_high: Option<Lash>,
    /// Standard uncertainty from leaves and feel, in millimetres.
    pub felt_uncertainty_mm: f64,
    /// The lash at the reference temperature, the verdict, how certain it is, and what to do.
    pub judged: JudgedReport,
    /// Why the reading cannot be held against the limits, if the metal is not at their temperature and
    /// nothing says how the lash follows.
    pub not_at_reference: Option<NotAtReference>,
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
            kind: None,
            reference: None,
            condition: None,
            leaves: None,
            gauge_use: None,
            adjuster: Adjuster::Unstated,
            rocker_ratio: None,
            metal: Metal::Unstated,
            rule: None,
            units: Units::default(),
        }
    }

    /// Judges it.
    ///
    /// # Errors
    /// The [`Problem`] found with the reading, the shim or the metal.
    pub fn judged(&self) -> Result<OneValveReport, Problem> {
        let mut found = self.found.clone();
        found.shown_in = self.units.length.map(ShownLength::unit).or(found.shown_in);
        let shown = Shown {
            inches: found.in_inches(),
            temperature: self.units.temperature.unit(),
        };
        let mut assumptions = Assumptions::default();
        self.assume(shown, &mut assumptions);
        let rule = rule(self.rule, &mut assumptions);
        check_shim(&self.adjuster, &self.found, &as_found(0))?;
        let metals = [Some(&self.metal)];
        shims::check::rocker_ratio(&self.adjuster, self.rocker_ratio, metals)?;
        let reference = self.holds_at();
        let checked = self.metal.check();
        checked.map_err(|e| Problem::at(Place::Metal, &e))?;
        let against = books::against(&self.metal, reference, shown)?;
        let (correction, off) = (against.correction, against.not_at_reference);
        if let Some(off) = &off {
            books::assume_off(off, WHOSE, shown, &mut assumptions);
        }
        let refused = |e| Problem::at(Place::Reading(0), &e);
        let leaves = match &self.leaves {
            Some(leaves) => leaves.clone(),
            None => self.found.reading.leaf_set().map_err(refused)?,
        };
        let gauge_use = self.gauge_use.unwrap_or_default();
        let felt = self.found.estimate(&gauge_use).map_err(refused)?;
        assume(core::iter::once(&felt), shown.inches, &mut assumptions);
        let setting = Setting {
            limits: &self.limits,
            correction: correction.as_ref(),
            not_at_reference: off.as_ref(),
            adjuster: &self.adjuster,
            kind: self.kind,
            rocker_ratio: self.rocker_ratio,
            leaves: &leaves,
            rule: &rule,
        };
        let judged = judge(&found, &felt, &setting);
        let judged = judged.map_err(|e| Problem::at(Place::Reading(0), &e))?;
        Ok(OneValveReport {
            reading: self.found.words(),
            leaves_in_inches: found.in_inches(),
            felt_low: felt.estimate.low(),
            felt_high: felt.estimate.high(),
            felt_uncertainty_mm: felt.estimate.normal_uncertainty().mm(),
            judged: judged_report(
                LIMITS,
                (correction.as_ref(), off.as_ref()),
                judged,
                shown.inches,
            ),
            not_at_reference: off,
            metal: warmth::metal_words(&self.metal, shown),
            rule: rule.name().to_string(),
            assumptions: assumptions.list(),
            cautions: cautions(Facts {
                valves: Some(work(
                    &self.adjuster,
                    &self.metal,
                    core::iter::once(&self.found),
                )),
                ..Facts::default()
            }),
        })
    }

    /// What is known of the temperature the limits hold at.
    fn holds_at(&self) -> Reference {
        books::reference(self.reference, self.condition.unwrap_or(Condition::Cold))
    }

    fn assume(&self, shown: Shown, assumptions: &mut Assumptions) {
        books::assume(self.holds_at(), WHOSE, shown, assumptions);
        if self.gauge_use.is_none() && self.found.reading.has_stack() {
            assumptions.bears_on_verdict(
                "feeler.stack",
                "how leaf tolerances add in a stack not stated: worst case taken",
            );
        }
        warmth::assume_metal(&self.metal, shown, assumptions);
        locking::assume(&self.adjuster, assumptions);
        shims::assume_fit(&self.adjuster, core::iter::once(&self.found), assumptions);
        ratio(self.rocker_ratio, &self.metal, assumptions);
        band(&self.limits, (WHOSE, ""), shown.length(), assumptions);
        pads(&self.adjuster, core::iter::once(&self.found), assumptions);
    }
}
