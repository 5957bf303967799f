//! Is the timing right, which way to turn the body and how far, and does the advance follow its curve?
//!
//! # Conventions
//! - Everything counts at the crank; tables printed at the distributor are multiplied by the
//!   [`Drive`](super::point::Drive) when they are taken.
//! - Advance in all = static + centrifugal + vacuum. No table is extended beyond what is printed.
//! - What the vacuum hose did is part of a running reading; there is no default.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | What does a reading at speed come to, and is it right? | [`PrintedTiming::found`] |
//! | What must I read at this speed? | [`PrintedTiming::must_read`] |
//! | Which way do I turn the body, how far, what reads then? | [`Body::turn`] |
//! | Which slip leaves such a number? | [`timing_slips`] |
//! | Springs, weights, stop: how does it follow the curve, and why not? | [`CurveFit`], [`CurveCauses`] |
//! | Book and fit as lines to draw? | [`PrintedTiming::band`], [`CurveFit::line`] |
//! | The same for ten thousand readings? | [`judge_strobe_columns`] |
//! | How late does the lamp flash, and what does a dial-back lamp show? | [`LampDelay`], [`dialled_back`] |

mod body;
mod book;
mod causes;
mod columns;
mod corners;
mod curve;
mod error;
mod fit;
mod lamp;
mod piecewise;
mod reading;
mod readings;
mod slips;

pub use body::{Body, BodyTurn, BodyWay};
pub use book::{EARLIEST_STATIC, LATEST_STATIC, MOST_TOTAL, PrintedTiming, TimingFound};
pub use causes::{CurveCause, CurveCauses, WeighedCause};
pub use columns::{StrobeColumns, TimingRow, judge_strobe_columns};
pub use corners::{BandCorner, LineCorner};
pub use curve::{
    AboveLast, AdvanceSpan, CentrifugalCurve, CrankPoint, DistributorPoint, DistributorVacuumPoint,
    VacuumCurve, VacuumPoint,
};
pub use error::TimingError;
pub use fit::{CurveFit, Fitted};
pub use lamp::{LampDelay, dialled_back};
pub use reading::{Hose, Running, Taken, TimingReading};
pub use readings::CurveReadings;
pub use slips::{TimingSlip, timing_slips};
