//! What was learned of the lock nut.

use crate::problem::{Problem, is_short, value};
use crate::quantity::Q;
use lashwork::adjust::{AdjustError, LockNut, LockingPair};
use lashwork::quantity::{Lash, Marked};
use lashwork::tolerance::Uncertainty;

parts! {
    /// A lock nut, learned from gaps measured before and after it was tightened.
    LockNutDoc {
        pairs: Vec<LockingPairDoc>,
        /// Standard uncertainty of one gap, leaves and hand together.
        uncertainty: Q<Marked>,
    }
    /// The gap at one valve with the screw set: nut loose, nut tight.
    LockingPairDoc { before: Q<Marked>, after: Q<Marked> }
}

/// What was learned of the lock nut.
pub(super) fn lock_nut(doc: &LockNutDoc, at: &str, problems: &mut Vec<Problem>) -> Option<LockNut> {
    let list = format!("{at}/pairs");
    if !is_short(&doc.pairs, &list, problems) {
        return None;
    }
    let mut pairs = Vec::new();
    for (i, pair) in doc.pairs.iter().enumerate() {
        let mut lash = |which: &str, gap: Marked| {
            let place = format!("{list}/{i}/{which}");
            value(problems, place, Lash::from_nominal(gap.nominal()))
        };
        let before = lash("before", pair.before.0);
        let after = lash("after", pair.after.0);
        pairs.push(LockingPair {
            before: before?,
            after: after?,
        });
    }
    let u = Uncertainty::from_mm(doc.uncertainty.0.mm());
    let u = value(problems, format!("{at}/uncertainty"), u)?;
    let nut = LockNut::learn(&pairs, u);
    let place = match &nut {
        Err(AdjustError::LockingPair { pair, .. }) => format!("{list}/{}", pair.saturating_sub(1)),
        _ => list,
    };
    value(problems, place, nut)
}
