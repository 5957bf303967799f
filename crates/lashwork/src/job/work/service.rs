//! The whole service: its steps in their order with their state, what each stands on, and what comes next.

use super::next::NextWorkReport;
use super::order::{Order, Standing, StepReport, WorkStopReport};
use super::step::{Section, WorkStep};
use crate::job::page::wrap;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// The state of a step in the whole service.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum ServiceState {
    /// As the book asks, and so is what it stands on.
    Done,
    /// Read, on ground that is not done itself.
    Provisional,
    /// Read before something that it leans on was moved: to be read again.
    Stale,
    /// Not as the book asks, or not decided by what was read.
    Open,
    /// Nothing says.
    NotKnown,
    /// Asked for with its section, and not begun.
    NotBegun,
}

impl ServiceState {
    /// The state in words.
    const fn word(self) -> &'static str {
        match self {
            Self::Done => "done",
            Self::Provisional => "provisional",
            Self::Stale => "to be read again",
            Self::Open => "open",
            Self::NotKnown => "not known",
            Self::NotBegun => "not begun",
        }
    }
}

/// A step of the whole service.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ServiceStepReport {
    /// The step.
    pub step: WorkStep,
    /// The same in words.
    pub name: &'static str,
    /// Its state.
    pub state: ServiceState,
    /// Why, in words.
    pub text: String,
    /// The steps that it stands on, of those anything is said of.
    pub stands_on: Vec<WorkStep>,
    /// Whether anything of it can be set; if not, it is only read.
    pub can_be_set: bool,
}

/// The whole service.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ServiceReport {
    /// The step that comes next over all sections; none if nothing is left.
    pub next: Option<NextWorkReport>,
    /// The steps, in the order of work.
    pub steps: Vec<ServiceStepReport>,
    /// Steps that were read and are not in the log.
    pub unlogged: Vec<WorkStep>,
    /// How they count beside what is in the log, in words; none without a log.
    pub unlogged_text: Option<String>,
}

impl Order {
    /// The whole service over the sections asked for; none where it would be one step.
    pub(in crate::job) fn service(&self, sections: &[Section]) -> Option<ServiceReport> {
        let noted = self.noted();
        let begun = |step| noted.iter().any(|one| one.step == step);
        let mut steps: Vec<ServiceStepReport> = Vec::new();
        for step in WorkStep::ALL {
            if let Some(one) = noted.iter().find(|one| one.step == step) {
                let told = self.told_of(one, &steps);
                steps.push(told);
            } else if sections.contains(&step.section())
                && sections.iter().any(|section| section.leans_on(step))
            {
                steps.push(ServiceStepReport {
                    step,
                    name: step.word(),
                    state: ServiceState::NotBegun,
                    text: String::from("not read yet"),
                    stands_on: self.leans_on(step).filter(|on| begun(*on)).collect(),
                    can_be_set: step.can_be_set(),
                });
            }
        }
        (steps.len() > 1).then(|| {
            let unlogged = self.unlogged(&steps);
            ServiceReport {
                next: self.next_of_all(sections),
                unlogged_text: unlogged_text(&unlogged).filter(|_| self.has_log()),
                unlogged,
                steps,
            }
        })
    }

    /// Steps that were read and are not in the log.
    fn unlogged(&self, steps: &[ServiceStepReport]) -> Vec<WorkStep> {
        let is_read = |one: &&ServiceStepReport| {
            !matches!(one.state, ServiceState::NotBegun | ServiceState::NotKnown)
        };
        let read = steps.iter().filter(is_read).map(|one| one.step);
        read.filter(|step| !self.is_logged(*step)).collect()
    }

    /// A step that was noted, by what is told of those before it.
    fn told_of(&self, noted: &StepReport, before: &[ServiceStepReport]) -> ServiceStepReport {
        let on: Vec<&ServiceStepReport> = self
            .leans_on(noted.step)
            .filter_map(|on| before.iter().find(|told| told.step == on))
            .collect();
        let shaky = on
            .iter()
            .find(|on| on.state != ServiceState::Done && on.state != ServiceState::NotBegun);
        let (state, text) = match (noted.standing, shaky) {
            (Standing::NotKnown, _) => (ServiceState::NotKnown, noted.text.clone()),
            _ if self.stale(noted.step).is_some() => (ServiceState::Stale, noted.text.clone()),
            (_, Some(on)) => {
                let text = format!(
                    "{}; it stands on the {}: {}",
                    noted.text,
                    on.name,
                    on.state.word()
                );
                (ServiceState::Provisional, text)
            }
            (Standing::Settled, None) => (ServiceState::Done, noted.text.clone()),
            (Standing::NotSettled, None) => (ServiceState::Open, noted.text.clone()),
        };
        ServiceStepReport {
            step: noted.step,
            name: noted.name,
            state,
            text,
            stands_on: on.iter().map(|on| on.step).collect(),
            can_be_set: noted.step.can_be_set(),
        }
    }
}

/// How steps that are not in the log count.
fn unlogged_text(steps: &[WorkStep]) -> Option<String> {
    let names: Vec<&str> = steps.iter().map(|step| step.word()).collect();
    (!names.is_empty()).then(|| {
        format!(
            "not in the log: {}; what is not in it counts as read after what it has, and before what is set from \
             now on",
            names.join(", ")
        )
    })
}

/// Writes what comes next in the whole service and the state of its steps, on top of the sheet; what stops the
/// work is told once, where it stands.
pub(in crate::job) fn write_service(
    out: &mut String,
    service: &ServiceReport,
    stops: &[&WorkStopReport],
) {
    if let Some(next) = &service.next {
        let is_stop = stops.iter().any(|stop| stop.text == next.text);
        let why = if is_stop {
            "see what stops the work"
        } else {
            &next.text
        };
        wrap::write(out, "NEXT: ", &format!("{}: {why}", next.name));
    }
    let states = [
        ServiceState::Done,
        ServiceState::Provisional,
        ServiceState::Stale,
        ServiceState::Open,
        ServiceState::NotKnown,
        ServiceState::NotBegun,
    ];
    let mut told: Vec<String> = Vec::new();
    for state in states {
        let of = service.steps.iter().filter(|one| one.state == state);
        let names: Vec<&str> = of.map(|one| one.name).collect();
        if !names.is_empty() {
            told.push(format!("{}: {}", state.word(), names.join(", ")));
        }
    }
    wrap::write(out, "Service: ", &told.join("; "));
}

/// Writes the steps of the whole service with what each stands on, on the full sheet.
pub(in crate::job) fn write_service_steps(out: &mut String, service: &ServiceReport) {
    for one in &service.steps {
        let state = one.state.word();
        wrap::write(out, "- ", &format!("{} ({state}): {}", one.name, one.text));
    }
    if let Some(text) = &service.unlogged_text {
        wrap::write(out, "", text);
    }
}
