//! One ignition point said every way: crank and distributor degrees, rim, piston travel, rotor.
//!
//! # Conventions
//! - The point is an [`Advance`](crate::quantity::Advance): crank degrees before firing top dead centre.
//! - A mark for a point before top dead centre stands ahead of the TDC mark in the running direction, as
//!   [`PulleyArc`](crate::engine::PulleyArc) counts it.
//! - A rotor counts in its own running direction.
//! - What a tool adds is a standard uncertainty in crank degrees, so that all ways compare.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | How does each tool say it, and which is the surest? | [`every_way`] |
//! | How far is the piston down, and back? | [`Piston`], [`Dial`] |
//! | Where do I paint the mark? | [`RimMark`] |
//! | Degrees and speed of which shaft? | [`Drive`], [`DistributorLimits`] |
//! | Do the book's angle and travel agree, and if not, why? | [`pair_fits`] |
//! | Where does the lamp flash for each cylinder? | [`flashes`] |

mod dial;
mod drive;
mod error;
mod flashes;
mod mark;
mod pair;
mod piston;
mod printed;
mod ways;

pub use dial::Dial;
pub use drive::Drive;
pub use error::PointError;
pub use flashes::{Flash, Sparks, flashes};
pub use mark::{MarkSide, RimMark};
pub use pair::{PairFits, pair_fits};
pub use piston::Piston;
pub use printed::DistributorLimits;
pub use ways::{
    MARK_HALF_WIDTH, ROTOR_U, Said, TAPE_U_MM, Tools, WHEEL_U, WaySaid, every_way, rim_u,
};
