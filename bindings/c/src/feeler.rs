//! What leaves say.

use crate::boundary::{Outcome, boundary};
use crate::error::lw_error;
use crate::judging::{AT_LEAST, AT_MOST, BETWEEN, lw_estimate};
use crate::pointers::record_place;
use crate::quantity::{choose, marked};
use crate::status::lw_status;
use lashwork::feeler::{GaugeUse, Leaf, Reading, Stack, assumed_hand, assumed_leaf_tolerance};

/// Half the width of the thickness tolerance that the kernel takes for a leaf of unknown make, in
/// nanometres. Any thread.
#[must_use]
#[unsafe(no_mangle)]
pub extern "C" fn lw_assumed_leaf_tolerance_nm() -> i64 {
    assumed_leaf_tolerance().nominal().nanometres()
}

/// The standard uncertainty that the kernel takes of the hand at each end of a reading where it is not
/// stated, in nanometres. Any thread.
#[must_use]
#[unsafe(no_mangle)]
pub extern "C" fn lw_assumed_hand_nm() -> i64 {
    assumed_hand().nominal().nanometres()
}

/// The estimate that one leaf which goes and one which does not stand for, or either alone.
///
/// `span` is of `lw_span`: `LW_SPAN_AT_LEAST` if only `goes_nm` was tried and went, `LW_SPAN_AT_MOST`
/// if `refuses_nm` is the thinnest and did not go. Marks in whole nanometres, above zero to 20 mm,
/// `goes_nm` below `refuses_nm`; the one that `span` leaves out is not looked at. `tolerance_nm` is
/// half the width of the leaves' thickness tolerance, 0 or more, taken as rectangular; `hand_nm` is the
/// standard uncertainty of the hand at each end, 0 or more. No memory is allocated. `error` may be NULL. Any thread.
///
/// # Safety
/// `estimate` states its size, or is NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_estimate_from_leaves(
    span: u32,
    goes_nm: i64,
    refuses_nm: i64,
    tolerance_nm: i64,
    hand_nm: i64,
    estimate: *mut lw_estimate,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let estimate = unsafe { record_place("estimate", estimate) }?;
        let leaf = |nm| -> Outcome<Stack> { Ok(Stack::of(Leaf::new(marked(nm)?))?) };
        let reading = match span {
            BETWEEN => Reading::between(leaf(goes_nm)?, leaf(refuses_nm)?)?,
            AT_LEAST => Reading::goes(leaf(goes_nm)?),
            AT_MOST => Reading::refuses(leaf(refuses_nm)?),
            other => return choose("span", other, &[]),
        };
        let used = GaugeUse {
            unstated: Some(marked(tolerance_nm)?),
            hand: Some(marked(hand_nm)?),
            ..GaugeUse::default()
        };
        let found = reading.estimate_with(&used, None)?;
        estimate.write(&lw_estimate::of(&found.estimate));
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
