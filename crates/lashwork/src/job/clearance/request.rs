//! What the clearance step needs to know, in typed values.

use super::readings::ValveReading;
use super::stops::StopOptions;
use super::warmth::ask::WarmQuestions;
use crate::adjust::Adjuster;
use crate::diagnosis::Prior;
use crate::feeler::{GaugeUse, LeafSet};
use crate::quantity::CrankAngle;
use crate::rockers::CrankCheck;
use crate::thermal::Metal;
use crate::tolerance::DecisionRule;
use crate::valve::{CamEvents, Specification};
use alloc::vec::Vec;

/// Valve clearances: what is asked for, what was found, and what is at hand.
///
/// What is left out is assumed where the kernel can, and listed in
/// [`Report::assumptions`](crate::job::Report::assumptions).
///
/// ```
/// use lashwork::feeler::{Leaf, LeafSet};
/// use lashwork::job::clearance::Clearance;
/// use lashwork::quantity::Marked;
/// use lashwork::tolerance::DecisionRule;
/// let leaves = LeafSet::new(vec![Leaf::new(Marked::parse("0.10 mm")?)])?;
/// let asked = Clearance::new(vec![], leaves)
///     .with_valves(2, 2)
///     .judged_by(DecisionRule::simple());
/// assert_eq!(asked.intake_valves, 2);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Clearance {
    /// Intake valves per cylinder.
    pub intake_valves: u8,
    /// Exhaust valves per cylinder.
    pub exhaust_valves: u8,
    /// Cam events; assumed wide ones stand in when unknown.
    pub events: Option<CamEvents>,
    /// Guard at both ends of the base circle.
    pub guard: Option<CrankAngle>,
    /// Valve movement over cam movement; that without a rocker is taken when not stated.
    pub rocker_ratio: Option<f64>,
    /// How lash is adjusted.
    pub adjuster: Adjuster,
    /// Every specification at hand.
    pub specifications: Vec<Specification>,
    /// The leaves at hand.
    pub leaves: LeafSet,
    /// How the leaves are used: tolerances in a stack, hand.
    pub gauge_use: GaugeUse,
    /// How warm the metal is, and how the lash follows; of all valves, or of the intake valves.
    pub metal: Metal,
    /// The same of the exhaust valves, where it is stated for them by itself; one for both is listed as an
    /// assumption.
    pub exhaust_metal: Option<Metal>,
    /// What else is asked about temperature.
    pub warmth: WarmQuestions,
    /// The readings.
    pub readings: Vec<ValveReading>,
    /// The decision rule; the default is listed as an assumption.
    pub rule: Option<DecisionRule>,
    /// Where the crank can be stopped, and where it stands.
    pub stops: StopOptions,
    /// An assumed crank position and the rockers checked there.
    pub crank_check: Option<CrankCheck>,
    /// Probability of a systematic fault; the usual one is listed as an assumption.
    pub prior: Option<Prior>,
}

macro_rules! with {
    ($($(#[$doc:meta])* $name:ident: $field:ident: $type:ty = $value:expr;)*) => {$(
        $(#[$doc])*
        #[must_use]
        pub fn $name(self, $field: $type) -> Self {
            Self { $field: $value, ..self }
        }
    )*};
}

impl Clearance {
    /// One intake and one exhaust valve a cylinder, nothing read yet.
    #[must_use]
    pub fn new(specifications: Vec<Specification>, leaves: LeafSet) -> Self {
        Self {
            intake_valves: 1,
            exhaust_valves: 1,
            events: None,
            guard: None,
            rocker_ratio: None,
            adjuster: Adjuster::Unstated,
            specifications,
            leaves,
            gauge_use: GaugeUse::default(),
            metal: Metal::Unstated,
            exhaust_metal: None,
            warmth: WarmQuestions::default(),
            readings: Vec::new(),
            rule: None,
            stops: StopOptions::default(),
            crank_check: None,
            prior: None,
        }
    }

    /// With so many intake and exhaust valves in each cylinder.
    #[must_use]
    pub fn with_valves(self, intake: u8, exhaust: u8) -> Self {
        Self {
            intake_valves: intake,
            exhaust_valves: exhaust,
            ..self
        }
    }

    with! {
        /// With the cam's events.
        with_events: events: CamEvents = Some(events);
        /// With a guard at both ends of the base circle.
        with_guard: guard: CrankAngle = Some(guard);
        /// With valve movement over cam movement.
        with_rocker_ratio: rocker_ratio: f64 = Some(rocker_ratio);
        /// With what sets the lash.
        with_adjuster: adjuster: Adjuster = adjuster;
        /// With how the leaves are used.
        with_gauge_use: gauge_use: GaugeUse = gauge_use;
        /// With how warm the metal is.
        with_metal: metal: Metal = metal;
        /// With the metal of the exhaust valves by itself.
        with_exhaust_metal: exhaust_metal: Metal = Some(exhaust_metal);
        /// With more questions about temperature.
        with_warmth: warmth: WarmQuestions = warmth;
        /// With what was read.
        with_readings: readings: Vec<ValveReading> = readings;
        /// Judged by this rule.
        judged_by: rule: DecisionRule = Some(rule);
        /// With where the crank can be stopped.
        with_stops: stops: StopOptions = stops;
        /// With rockers checked at an assumed position.
        with_crank_check: crank_check: CrankCheck = Some(crank_check);
        /// With the probability of a systematic fault.
        with_prior: prior: Prior = Some(prior);
    }
}
