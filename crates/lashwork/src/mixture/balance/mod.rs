//! Whether carburettors share the work, and which screw to turn how far.
//!
//! # Conventions
//! - Throttles, joints and trials are numbered from 0 in the order in which they are given.
//! - Every difference is a throttle's reading less that of the reference.
//! - A turn is positive clockwise; how it changes a reading is learned from trials, never taken from a
//!   thread.
//! - More opening lowers the vacuum behind a throttle and raises the flow through it.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | What moves what? | [`Linkage`], [`Joint`] |
//! | Which screw, which way, how far, and is it within the limit? | [`BalanceCheck`] |
//! | Is it a matter of the throttle at all? | [`CylinderCheck`] |
//! | What must be right beforehand? | [`Beforehand`] |
//!
//! # Method
//! - Reading `i` of `n` glances has the variance `s^2 / n`, with one scatter `s` for all throttles, and that
//!   between gauges where there are several.
//! - Throttles that are joined rigidly are one group, with a mean weighted by those variances. Least squares
//!   over all screws then comes apart: each screw has to bring its group to that of the reference, whatever
//!   the others do, so what is done first, from the reference outwards, is not disturbed.
//! - Turns: a straight line through nought and the trials of a screw, weighted least squares.
//! - Greatest less least of all throttles within the limit: the integral over the least one.
//!
//! # Sources
//! JCGM 100:2008 for uncertainties, JCGM 106:2012 for the verdict; St Venant and Wantzel for the flow through
//! a throttle. Published linkages and limits are named in the tests.
//!
//! # Not here
//! The mixture of each carburettor (`idle`), the words of the sheet (`job`).

mod answer;
mod assumption;
mod before;
mod check;
mod cylinder;
mod error;
mod joint;
mod linkage;
mod next;
mod nozzle;
mod readings;
mod response;
mod shown;
mod spread;

pub use answer::{BalanceAnswer, Move, RigidDifference, ThrottleStand, Turn, Way};
pub use assumption::BalanceAssumption;
pub use before::{Before, Beforehand, Stands};
pub use check::BalanceCheck;
pub(crate) use check::standard_ambient;
pub use cylinder::{
    CylinderAnswer, CylinderCause, CylinderCheck, CylinderFindings, CylinderStand, Matter, Opening,
    RelativeShare,
};
pub use error::BalanceError;
pub use joint::{JoinedBy, Joint};
pub use linkage::Linkage;
pub use next::NextReading;
pub use nozzle::{Choked, flow_of_drop, flow_share};
pub use readings::{Scatter, ThrottleReading, scatter_of_swing};
pub use response::{Response, TrialTurn};
pub use shown::Shown;
pub use spread::spread_within;
