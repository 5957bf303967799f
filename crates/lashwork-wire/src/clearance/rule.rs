//! The decision rule.

use lashwork::quantity::Lash;
use lashwork::tolerance::{DecisionRule, HasLimits};

words!(RuleDoc {
    /// 95 % certain not to be tight; loose by simple acceptance.
    GuardedTight = "guarded_tight",
    /// JCGM 106 simple acceptance on both sides.
    Simple = "simple",
    /// ISO 14253-1: 95 % conformance probability.
    Iso14253 = "iso_14253_1",
});

/// The rule of that name.
pub(crate) fn rule(doc: RuleDoc) -> DecisionRule {
    match doc {
        RuleDoc::GuardedTight => Lash::USUAL_RULE,
        RuleDoc::Simple => DecisionRule::simple(),
        RuleDoc::Iso14253 => DecisionRule::iso_14253_1(),
    }
}
