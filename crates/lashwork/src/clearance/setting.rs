//! What a valve is judged by, and what it can be set with.

use crate::adjust::Adjuster;
use crate::feeler::LeafSet;
use crate::quantity::LashChange;
use crate::thermal::{Correction, NotAtReference};
use crate::tolerance::DecisionRule;
use crate::valve::{ValveKind, ValveLimits};

/// What a valve is judged by, and what it can be set with.
#[derive(Clone, Copy, Debug)]
pub struct Setting<'s> {
    /// What is asked for, at the reference temperature.
    pub limits: &'s ValveLimits,
    /// The thermal change from the reference to the metal's temperature; nothing if readings are
    /// judged uncorrected.
    pub correction: Option<&'s Correction>,
    /// Why the reading cannot be held against the limits, if the metal is not at their temperature and
    /// nothing says how the lash follows.
    pub not_at_reference: Option<&'s NotAtReference>,
    /// How the lash is set.
    pub adjuster: &'s Adjuster,
    /// Which kind of valve it is, if that is said.
    pub kind: Option<ValveKind>,
    /// Valve movement over cam movement; without it no turn is told of a screw that needs it.
    pub rocker_ratio: Option<f64>,
    /// The leaves at hand.
    pub leaves: &'s LeafSet,
    /// When a valve is called tight, loose or in its band.
    pub rule: &'s DecisionRule,
}

impl Setting<'_> {
    /// The thermal change of the lash; nothing without a model.
    #[must_use]
    pub fn warmth(&self) -> LashChange {
        self.correction.map_or(LashChange::ZERO, |c| c.change)
    }

    /// The standard uncertainty of that, in millimetres; of an unknown change too.
    pub(super) fn warmth_uncertainty_mm(&self) -> f64 {
        let unknown = self.not_at_reference.map_or(0.0, |off| off.uncertainty_mm);
        self.correction
            .map_or(unknown, Correction::standard_uncertainty_mm)
    }

    /// The next leaf above the value to set, as the lash at the reference temperature it stands for, in
    /// millimetres.
    pub(super) fn leaf_above_set_value(&self) -> Option<f64> {
        let warmth = self.warmth().mm();
        let lashes = self
            .leaves
            .leaves()
            .iter()
            .map(|leaf| leaf.mark.mm() - warmth);
        lashes
            .into_iter()
            .find(|lash| *lash > self.limits.set_to().mm())
    }
}
