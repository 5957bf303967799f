//! Tier 2: where a valve's lash may be read, at which stops of the crank all valves get read, and what
//! makers print of it.
//!
//! # Conventions
//! - Own-cylinder phase: 0 firing TDC, 180 BDC after power, 360 overlap TDC, 540 BDC after intake.
//! - A window is the arc in which the follower rests on the base circle, less a guard on both sides
//!   for the ramps. It may pass through 0.
//! - The engine is only ever turned forward, in its running direction.
//!
//! # Not here
//! How the gap is measured (`feeler`), how it is judged (`tolerance`).
//!
//! # Sources
//! Geometry of rotation. Event values belong to the engine maker's manual and are never built in;
//! the ones assumed when none are stated are this library's choice and marked so.
//!
//! Uses `quantity`, `tolerance` and `engine`.

mod cylinder_by_cylinder;
mod error;
mod events;
mod events_at;
mod fewest;
mod fully_open;
mod limits;
mod opposite;
mod places;
mod plan;
mod sequence;
mod shim_place;
mod shim_route;
mod specification;
mod train;
mod two_position;
mod window;

pub use error::ValveError;
pub use events::{CamEvent, CamEvents, ValveKind};
pub(crate) use events_at::ASSUMED_LIFT_MM;
pub use events_at::{EVENTS_UNSTATED, EventsAt};
pub use limits::{Printed, ValveLimits, assumed_half_width};
pub use places::{Mark, Marks, StoppingPoints, present_position};
pub use plan::{Method, Movement, Sign, Stop, StopPlan, Unreachable, Unreached, ValveCheck};
pub use shim_place::{ASSUMED_AWAY, AWAY_SHARE, ShimArc};
pub use shim_route::{ShimGroup, ShimRoute, ShimStop, ShimVisit, ShimWork};
pub use specification::{
    Applicability, Condition, Disagreement, NumberRange, Provenance, Specification, disagreements,
};
pub use train::{ValveId, ValveTrain};
pub use window::{ASSUMED_GUARD, MayBeOff, Window};
