//! Whether what is said of shims can be meant so.

use crate::adjust::Adjuster;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::thermal::Metal;
use alloc::format;

/// A rocker ratio beside shims that nothing uses: a book that prints one means the shim by it.
pub(in crate::job) fn rocker_ratio<'m>(
    adjuster: &Adjuster,
    rocker_ratio: Option<f64>,
    metals: impl IntoIterator<Item = Option<&'m Metal>>,
) -> Result<(), Problem> {
    let (Adjuster::Shim { .. }, Some(got)) = (adjuster, rocker_ratio) else {
        return Ok(());
    };
    let mut metals = metals.into_iter().flatten();
    if metals.any(|metal| matches!(metal, Metal::Chain { .. })) {
        return Ok(());
    }
    Err(Problem::new(
        Place::RockerRatio,
        "adjust.ratio-unused",
        format!(
            "the rocker ratio {got} stands beside shims and does not say how the gap follows them"
        ),
        format!(
            "if the book multiplies the difference of gaps by it, new = old + (measured - wanted) x \
             {got}, give the shim \"shim_per_gap\": {got}; on a bucket give it \"gap_per_shim\": 1; \
             then leave the rocker ratio out"
        ),
    ))
}
