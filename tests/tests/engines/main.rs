//! Engines and where they are stopped: published figures and laws.

mod engine_kinematics_published;
mod engine_laws;
mod engine_published;
mod engine_rods;
mod shim_route;
mod valve_events_at;
mod valve_fewest;
mod valve_laws;
mod valve_plans_published;
mod valve_published;
