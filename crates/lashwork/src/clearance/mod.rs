//! Tier 3: one valve's clearance, without an engine: what was found there, judged by what is asked for,
//! and what to do about it.
//!
//! The way of one reading: what the leaves said -> an estimate ([`AsFound::estimate`]) -> corrected to
//! the reference temperature -> judged against the limits -> advice ([`judge`]). Each is made once and
//! handed on; a whole job loops over it.
//!
//! # Words
//! Tight means below the band, loose above it.
//!
//! # Not here
//! Engine, stops and books (`job`); many readings weighed together (`diagnosis`).
//!
//! Uses `quantity`, `statistics`, `tolerance`, `engine`, `feeler`, `thermal`, `adjust` and `valve`.

mod advice;
mod aim;
mod as_found;
mod brought;
mod closer;
mod columns;
mod error;
mod far;
mod inspect;
mod judge;
mod lines;
pub(crate) mod locking;
mod mixed_rows;
mod next;
mod pair;
mod reading_rows;
mod reset;
mod said;
mod setting;
pub(crate) mod shim_aim;
mod side_by_side;
mod step;
mod target;
pub(crate) mod text;

pub use advice::{Advice, MeasureHow};
pub use as_found::AsFound;
pub use columns::{MetalColumns, ReadingColumns, judge_columns};
#[cfg(target_arch = "x86_64")]
pub use columns::{judge_columns_by_avx2, judge_columns_by_avx512};
pub use error::ClearanceError;
pub use inspect::{Cause, CauseCode, causes};
pub use judge::{Judged, judge};
pub use locking::{BeforeLocking, Landing};
pub use next::{NextTry, first_try};
pub use pair::LeavesToFind;
pub use reading_rows::{ROWS_AT_ONCE, ReadingRow, ReadingRows};
pub use reset::{By, Reset, ScrewStep, ShimAdvice};
pub use said::said;
pub use setting::Setting;
pub use step::{Step, StepCode};
