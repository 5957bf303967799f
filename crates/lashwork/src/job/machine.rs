//! What the engine stands in and how it is started, so that the cautions fit.

use serde::Serialize;

/// What the engine stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum StandsIn {
    /// A car, a lorry, a motorcycle, a tractor.
    Vehicle,
    /// A boat.
    Boat,
    /// An aircraft.
    Aircraft,
    /// A bench, a frame, a pump or a generator set.
    Stationary,
}

/// What lights the charge.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum FiredBy {
    /// Battery, coil and contact breaker.
    Battery,
    /// Battery, coil and electronics.
    Electronic,
    /// A magneto.
    Magneto,
    /// The heat of compression.
    Diesel,
}

/// How it is started.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum StartedBy {
    /// An electric or other starter motor.
    Starter,
    /// A hand crank.
    HandCrank,
    /// A kick lever.
    Kick,
}

/// What is known of the machine; what is not stated gets the cautions that fit all.
///
/// ```
/// use lashwork::engine::Engine;
/// use lashwork::job::{FiredBy, Machine, Request, StandsIn, run};
/// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2]).map_err(|refused| format!("{refused:?}"))?;
/// let machine = Machine {
///     stands_in: Some(StandsIn::Boat),
///     ignition: Some(FiredBy::Diesel),
///     started_by: None,
/// };
/// let report = run(&Request::new(engine).standing_in(machine)).map_err(|p| format!("{p:?}"))?;
/// let said = report.cautions.join(" ");
/// assert!(said.contains("bilge") && said.contains("fuel") && !said.contains("wheels"));
/// # Ok::<(), String>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Machine {
    /// What it stands in.
    pub stands_in: Option<StandsIn>,
    /// What lights the charge.
    pub ignition: Option<FiredBy>,
    /// How it is started.
    pub started_by: Option<StartedBy>,
}
