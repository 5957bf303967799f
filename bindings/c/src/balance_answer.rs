//! Where it goes what throttles that share the work come to: the whole, each throttle, each move, each shaft.

use crate::pointers::Record;

/// Which way throttles go.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_throttle_way {
    /// Further open.
    Open = 1,
    /// Further shut.
    Close = 2,
    /// Neither.
    Leave = 3,
}

/// What to read next; 0 stands for nothing that would tell more.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_next_reading {
    /// A throttle once more.
    Throttle = 1,
    /// The throttles before and after a known turn of a screw, without which there is no amount.
    Trial = 2,
    /// Such a trial once more.
    TrialAgain = 3,
}

/// What a balance comes to, as a whole. Readings and differences are in the unit of the gauge.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_balance {
    /// Size of this structure, `sizeof(lw_balance)`.
    pub struct_size: usize,
    /// How many moves were written.
    pub moves: usize,
    /// How far the greatest mean is over the least.
    pub spread: f64,
    /// Standard deviation of a single look, as it was taken.
    pub scatter: f64,
    /// On how many repeated looks that rests; NaN if it was stated.
    pub degrees_of_freedom: f64,
    /// The probability that greatest less least is within what is allowed; NaN if nothing was stated.
    pub within: f64,
    /// The doubt of all turns together now, in degrees; NaN if the next reading is none or a first trial.
    pub doubt_deg: f64,
    /// And after the next reading.
    pub then_deg: f64,
    /// The verdict on greatest less least: a value of `lw_verdict`; 0 if nothing was stated.
    pub verdict: u32,
    /// What to read next: a value of `lw_next_reading`, or 0.
    pub next: u32,
    /// The throttle to read, or the joint of the screw to try, from 0; 0 if it is nothing.
    pub next_index: u32,
    /// How many pairs of throttles on one shaft there are.
    pub shafts: u32,
}

/// Where the throttles go as they stand, one per row, in their order. Every column may be NULL.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_throttle_columns {
    /// Size of this structure, `sizeof(lw_throttle_columns)`.
    pub struct_size: usize,
    /// How many rows there is room for, in every column; not fewer than throttles.
    pub rows: usize,
    /// Mean readings.
    pub reading: *mut f64,
    /// Their standard uncertainties.
    pub uncertainty: *mut f64,
    /// How far each is over the reference.
    pub over_reference: *mut f64,
    /// Standard uncertainties of that; 0 for the reference itself.
    pub over_uncertainty: *mut f64,
    /// Whether that is within what is allowed: values of `lw_verdict`; 0 for the reference, or if nothing was stated.
    pub verdict: *mut u8,
}

/// Where it goes what each screw has to do, one per row, in the order of work: from the reference outwards. Every
/// column except `joint` may be NULL.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_move_columns {
    /// Size of this structure, `sizeof(lw_move_columns)`.
    pub struct_size: usize,
    /// How many rows there is room for, in every column; not fewer than joints.
    pub rows: usize,
    /// The screw, by its joint from 0.
    pub joint: *mut u32,
    /// The throttle to which it sets those beyond, from 0.
    pub to_match: *mut u32,
    /// By how much their readings have to change.
    pub change: *mut f64,
    /// Standard uncertainties of that.
    pub change_uncertainty: *mut f64,
    /// Which way the throttles go: values of `lw_throttle_way`.
    pub way: *mut u32,
    /// The probability that this way is the right one.
    pub way_right: *mut f64,
    /// Which way the screw goes: values of `lw_sense`; 0 where that is not known.
    pub sense: *mut u32,
    /// How far, in degrees, positive clockwise; NaN without clear trials.
    pub turn_deg: *mut f64,
    /// Standard uncertainties of that, in degrees.
    pub turn_uncertainty_deg: *mut f64,
    /// Change of the reading for a whole turn clockwise, from trials; NaN without.
    pub per_turn: *mut f64,
    /// Standard uncertainties of that.
    pub per_turn_uncertainty: *mut f64,
}

/// Where the pairs of throttles on one shaft go, one per row, from the reference outwards: no screw of the linkage
/// mends what they differ by. Every column except `joint` may be NULL.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_shaft_columns {
    /// Size of this structure, `sizeof(lw_shaft_columns)`.
    pub struct_size: usize,
    /// How many rows there is room for, in every column; not fewer than joints.
    pub rows: usize,
    /// Their joint, from 0.
    pub joint: *mut u32,
    /// How far the throttle that is further from the reference reads over the other.
    pub difference: *mut f64,
    /// Standard uncertainties of that.
    pub difference_uncertainty: *mut f64,
    /// Whether that is within what is allowed: values of `lw_verdict`; 0 if nothing was stated.
    pub verdict: *mut u8,
}

// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_balance {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_throttle_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_move_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}

// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_shaft_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}
