//! The magneto: right inside, right on the engine, and as good as the other one.
//!
//! # Conventions
//! - A magneto angle ([`MagnetoAngle`](crate::quantity::MagnetoAngle)) is that of its rotor; how fast it
//!   turns against the crank is always stated ([`MagnetoSpeed`]).
//! - The two conditions inside, the rotor's angle past neutral where the contacts open and their gap, are
//!   judged apart: one is no stand-in for the other.
//! - Of two magnetos one is `left`, one is `right`, as the switch names them.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | Do the contacts open where the magnet is strongest, and is their gap right? | [`InternalTiming`] |
//! | Is the magneto timed to the engine, both alike, and how far do I turn it? | [`ExternalTiming`], [`Pair`] |
//! | When does the spark come while cranking, when running? | [`ImpulseCoupling`] |
//! | What does the drop of speed on one magneto say? | [`DropTest`] |
//! | What must nobody forget beside it? | [`MagnetoCaution`] |
//!
//! # Not here
//! The coil and condenser inside (`electrics`), the words of the sheet (`job`).

mod caution;
mod drop;
mod error;
mod external;
mod impulse;
mod internal;
mod speed;

pub use caution::MagnetoCaution;
pub use drop::{Drop, DropAnswer, DropFinding, DropTest, SpeedDrop, Which};
pub use error::MagnetoError;
pub use external::{BodyTurn, ExternalAnswer, ExternalTiming, Pair, PairAnswer};
pub use impulse::ImpulseCoupling;
pub use internal::{ContactsAdvice, EGap, InternalAnswer, InternalTiming};
pub use speed::MagnetoSpeed;
