//! A timing mark read by eye.

use crate::job::assumptions::Assumptions;

/// Lists what a mark is taken to be read to.
pub(super) fn assume_mark(assumptions: &mut Assumptions) {
    assumptions.bears_on_verdict(
        "ignition.mark-uncertainty",
        "uncertainty of reading a timing mark not stated: anywhere within 1 crank degree either way taken",
    );
}
