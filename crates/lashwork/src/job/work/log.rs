//! What was done in a service, in the order in which it was done: what is set again takes back what was read
//! before it and leans on it.

use super::step::WorkStep;
use crate::ignition::breaker::{CamSpeed, DwellChange, Flanks, spark_shift};
use crate::quantity::{CrankAngle, LashChange};
use crate::tolerance::{Estimate, Uncertainty};
use alloc::format;
use alloc::string::String;

/// One thing that was done in a service.
///
/// ```
/// use lashwork::engine::Engine;
/// use lashwork::ignition::breaker::DwellChange;
/// use lashwork::job::{Request, ServiceState, Settled, WorkDone, WorkStep, ignition::Ignition, run};
/// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2]).map_err(|refused| format!("{refused:?}"))?;
/// let wider = DwellChange::from_degrees(1.0).map_err(|refused| refused.to_string())?;
/// let mut asked = Ignition::default();
/// asked.valves = Some(Settled::Yes);
/// let request = Request::new(engine).with_ignition(asked).done(vec![
///     WorkDone::Read(WorkStep::Valves),
///     WorkDone::Set(WorkStep::Head),
/// ]);
/// let report = run(&request).map_err(|problems| format!("{problems:?}"))?;
/// let valves = &report.service.ok_or("a log was given")?.steps[0];
/// assert_eq!((valves.step, valves.state), (WorkStep::Valves, ServiceState::Stale));
/// assert_eq!(WorkDone::DwellSet(wider).step(), WorkStep::Contacts);
/// # Ok::<(), String>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum WorkDone {
    /// A step was read, and nothing moved.
    Read(WorkStep),
    /// Something of a step was moved; by how much is not said.
    Set(WorkStep),
    /// Valve clearances were moved, by so much at most.
    LashSet(LashChange),
    /// The contacts were moved, by so much dwell.
    DwellSet(DwellChange),
    /// The spark was moved; positive is earlier.
    SparkSet(CrankAngle),
}

impl WorkDone {
    /// The step that it was.
    #[must_use]
    pub const fn step(&self) -> WorkStep {
        match self {
            Self::Read(step) | Self::Set(step) => *step,
            Self::LashSet(_) => WorkStep::Valves,
            Self::DwellSet(_) => WorkStep::Contacts,
            Self::SparkSet(_) => WorkStep::Timing,
        }
    }

    /// Whether anything was moved.
    pub(super) const fn moved(&self) -> bool {
        !matches!(self, Self::Read(_))
    }
}

/// When a step was read, beside when it was set in one service.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(in crate::job) enum ReadWhen {
    /// It was not set.
    NotSet,
    /// Before it was first set, and not again.
    BeforeSet,
    /// After it was last set.
    AfterSet,
    /// It was set, and nothing says.
    NotSaid,
}

/// By the log; a step that was read, set and read is told as it was left.
pub(super) fn read_when(log: &[WorkDone], step: WorkStep) -> ReadWhen {
    let own = || log.iter().filter(|done| done.step() == step);
    if !own().any(WorkDone::moved) {
        ReadWhen::NotSet
    } else if !own().next_back().is_some_and(WorkDone::moved) {
        ReadWhen::AfterSet
    } else if !own().next().is_some_and(WorkDone::moved) {
        ReadWhen::BeforeSet
    } else {
        ReadWhen::NotSaid
    }
}

/// What says how far one thing moves with another.
#[derive(Clone, Copy, Debug)]
pub(in crate::job) struct Linked {
    /// What turns the breaker's cam.
    pub(in crate::job) cam: CamSpeed,
    /// Where on its flanks the contacts open.
    pub(in crate::job) flanks: Option<Flanks>,
}

/// How far lash moves what follows it, in words.
pub(in crate::job) struct LashMoves {
    /// Where the intake closes, and the compression with it.
    pub(in crate::job) compression: String,
    /// How long both valves are open together.
    pub(in crate::job) overlap: String,
}

impl LashMoves {
    /// How far it moves what is read of a step. What overlap does to the vacuum is published without an amount.
    fn of(&self, step: WorkStep) -> String {
        match step {
            WorkStep::Compression => self.compression.clone(),
            WorkStep::Gauge | WorkStep::Balance | WorkStep::Idle => format!(
                "{}; how far that moves the vacuum is not known",
                self.overlap
            ),
            _ => unknown(step),
        }
    }
}

fn unknown(step: WorkStep) -> String {
    format!("how far that moves the {} is not known", step.word())
}

/// What was moved, and how far that may move what is read of a step which leans on it.
pub(super) fn how_far(
    done: &WorkDone,
    step: WorkStep,
    linked: Linked,
    lash_moves: Option<&LashMoves>,
) -> String {
    let unknown = match (done.step(), lash_moves) {
        (WorkStep::Valves, Some(moves)) => moves.of(step),
        _ => unknown(step),
    };
    let what = match done {
        WorkDone::Read(_) | WorkDone::Set(_) => return unknown,
        WorkDone::LashSet(change) => {
            let side = if change.mm() < 0.0 {
                "narrower"
            } else {
                "wider"
            };
            format!("lash {:.2} mm {side}", change.mm().abs())
        }
        WorkDone::DwellSet(change) => {
            let side = if change.degrees() < 0.0 {
                "less"
            } else {
                "more"
            };
            let what = format!("{:.1} deg {side} dwell", change.degrees().abs());
            return match earlier(*change, linked) {
                Some(earlier) => format!("{what}: the spark comes {}", when(earlier)),
                None => format!("{what}; {unknown}"),
            };
        }
        WorkDone::SparkSet(earlier) => format!("the spark comes {}", when(*earlier)),
    };
    format!("{what}; {unknown}")
}

fn earlier(change: DwellChange, linked: Linked) -> Option<CrankAngle> {
    let exactly = Uncertainty::from_number(0.0).ok()?;
    let change = Estimate::between(change, change, exactly).ok()?;
    let shift = spark_shift(&change, linked.cam, linked.flanks).ok()?;
    Some(shift.earlier)
}

fn when(earlier: CrankAngle) -> String {
    let side = if earlier.degrees() < 0.0 {
        "later"
    } else {
        "earlier"
    };
    format!("{:.1} crank deg {side}", earlier.degrees().abs())
}
