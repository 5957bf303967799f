//! The order of work: each step leans on the ones before it, and takes their numbers when it is not settled.

use super::log::{LashMoves, Linked, ReadWhen, WorkDone, how_far, read_when};
use super::step::{Section, WorkStep};
use crate::job::page::wrap;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Whether a step that comes before was settled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Settled {
    /// It was, and nothing has been moved since.
    Yes,
    /// It was not.
    No,
}

impl Settled {
    /// What was stated of a step, or that nothing was.
    pub(in crate::job) fn stated(told: Option<Self>) -> (Standing, String) {
        match told {
            Some(Self::Yes) => (Standing::Settled, String::from("stated as settled")),
            Some(Self::No) => (Standing::NotSettled, String::from("stated as not settled")),
            None => (Standing::NotKnown, String::from("not stated")),
        }
    }
}

/// How far a step is settled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// As the book asks.
    Settled,
    /// Not as the book asks, or not decided by what was read.
    NotSettled,
    /// Nothing says.
    NotKnown,
}

/// Where a step stands.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct StepReport {
    /// The step.
    pub step: WorkStep,
    /// The same in words.
    pub name: &'static str,
    /// How far it is settled.
    pub standing: Standing,
    /// Why, in words.
    pub text: String,
}

/// Something to settle before the steps it concerns are acted on.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct WorkStopReport {
    /// What was found, and what to do about it.
    pub text: String,
    /// The steps whose numbers it takes back.
    pub concerns: Vec<WorkStep>,
}

/// What a step hears of those before it.
#[derive(Clone, Debug, Default, PartialEq)]
pub(in crate::job) struct Before {
    /// What to settle first; with it no amount is given.
    pub(in crate::job) settle: Option<String>,
    /// What to be sure of, because nothing says.
    pub(in crate::job) sure: Vec<String>,
}

/// The steps gone through so far, over all sections.
pub(in crate::job) struct Order {
    /// What was done, in the order it was done.
    log: Vec<WorkDone>,
    /// Steps to be read again by what a section says, and why.
    back: Vec<(WorkStep, String)>,
    linked: Linked,
    steps: Vec<StepReport>,
    pub(super) stops: Vec<WorkStopReport>,
    /// Steps that are not settled and keep nobody from the others.
    pub(super) may_wait: Vec<WorkStep>,
    /// A fault of the engine that the vacuum gauge settled on.
    fault: Option<&'static str>,
    /// How far lash moves what follows it, in words.
    lash_moves: Option<LashMoves>,
    /// Steps that do not lean on another by the way they were read: which, and on what not.
    free: Vec<(WorkStep, WorkStep)>,
}

impl Order {
    /// Nothing gone through; what was done in this service, and what says how far one step moves another.
    pub(in crate::job) const fn new(log: Vec<WorkDone>, linked: Linked) -> Self {
        Self {
            log,
            back: Vec::new(),
            linked,
            steps: Vec::new(),
            stops: Vec::new(),
            may_wait: Vec::new(),
            fault: None,
            lash_moves: None,
            free: Vec::new(),
        }
    }

    /// Notes where a step stands; not settled where what was read of it is stale.
    pub(in crate::job) fn note(&mut self, step: WorkStep, told: (Standing, String)) {
        let (standing, text) = match self.stale(step) {
            Some(why) => (Standing::NotSettled, why),
            None => told,
        };
        self.steps.push(StepReport {
            step,
            name: step.word(),
            standing,
            text,
        });
    }

    /// Notes what is stated of a step, if no section before said where it stands.
    pub(in crate::job) fn note_stated(&mut self, step: WorkStep, told: Option<Settled>) {
        if !self.steps.iter().any(|noted| noted.step == step) {
            self.note(step, Settled::stated(told));
        }
    }

    /// Takes back what was read of a step, before anything is noted of it: what came after moved it.
    pub(in crate::job) fn take_back(&mut self, step: WorkStep, why: &str) {
        self.back.push((step, String::from(why)));
    }

    /// Where a step stands, if anything was noted of it.
    pub(in crate::job) fn standing(&self, step: WorkStep) -> Option<Standing> {
        let noted = self.steps.iter().find(|noted| noted.step == step);
        noted.map(|noted| noted.standing)
    }

    /// Notes something that takes back the numbers of steps.
    pub(in crate::job) fn stop(&mut self, text: String, concerns: Vec<WorkStep>) {
        self.stops.push(WorkStopReport { text, concerns });
    }

    /// Notes that a step may stay as it is for now: others come next.
    pub(in crate::job) fn note_may_wait(&mut self, step: WorkStep) {
        self.may_wait.push(step);
    }

    /// Notes a fault of the engine that setting would hide, for the steps that are asked after it.
    pub(in crate::job) fn note_fault(&mut self, fault: Option<&'static str>) {
        self.fault = fault;
    }

    /// Notes that a step does not lean on another, by the way it was read.
    pub(in crate::job) fn note_free(&mut self, step: WorkStep, of: WorkStep) {
        self.free.push((step, of));
    }

    /// The steps that a step leans on as it was read.
    pub(super) fn leans_on(&self, step: WorkStep) -> impl Iterator<Item = WorkStep> {
        let all = step.leans_on().iter().copied();
        all.filter(move |on| !self.free.contains(&(step, *on)))
    }

    /// The steps that move what is read of a step.
    fn moved_by(&self, step: WorkStep) -> impl Iterator<Item = WorkStep> {
        self.leans_on(step)
            .chain(step.also_moved_by().iter().copied())
    }

    /// Whether a step is in the log.
    pub(super) fn is_logged(&self, step: WorkStep) -> bool {
        self.log.iter().any(|done| done.step() == step)
    }

    /// Whether anything was done.
    pub(super) const fn has_log(&self) -> bool {
        !self.log.is_empty()
    }

    /// Notes how far lash moves what follows it, in words.
    pub(in crate::job) fn note_lash_moves(&mut self, moves: Option<LashMoves>) {
        self.lash_moves = moves;
    }

    /// Why what was read of a step is to be read again: something that moves it was moved after it.
    pub(in crate::job) fn stale(&self, step: WorkStep) -> Option<String> {
        if let Some((_, why)) = self.back.iter().find(|(back, _)| *back == step) {
            return Some(why.clone());
        }
        let is_of = |done: &WorkDone| done.step() == step;
        let last = self.log.iter().rposition(is_of)?;
        let mut after = self.log.iter().skip(last);
        let moved =
            after.rfind(|done| done.moved() && self.moved_by(step).any(|on| on == done.step()))?;
        let far = how_far(moved, step, self.linked, self.lash_moves.as_ref());
        let (own, other) = (step.word(), moved.step().word());
        Some(format!(
            "read the {own} again: the {other} came after it and moved ({far})"
        ))
    }

    /// When a step was read, beside when it was set in this service.
    pub(in crate::job) fn read_when(&self, step: WorkStep) -> ReadWhen {
        read_when(&self.log, step)
    }

    /// What a step hears of those it leans on, and of a fault that it would hide.
    pub(in crate::job) fn before(&self, step: WorkStep) -> Before {
        let mut before = Before {
            settle: self.stale(step),
            sure: Vec::new(),
        };
        for leaned_on in self.leans_on(step) {
            let noted = self.steps.iter().find(|noted| noted.step == leaned_on);
            match noted.map(|noted| (noted.standing, &noted.text)) {
                Some((Standing::Settled, _)) => {}
                Some((Standing::NotSettled, why)) => {
                    let first = format!("settle the {} first: {why}", leaned_on.word());
                    before.settle.get_or_insert(first);
                }
                Some((Standing::NotKnown, _)) | None => before.sure.push(leaned_on.settled()),
            }
        }
        if let Some(fault) = self.fault.filter(|_| step.hides_a_fault()) {
            let first = match self.stale(WorkStep::Gauge) {
                Some(again) => format!("{again}; it showed {fault}"),
                None => format!("see to what the vacuum gauge shows first: {fault}"),
            };
            before.settle.get_or_insert(first);
        }
        before
    }

    /// The steps noted, in the order of work.
    pub(super) fn noted(&self) -> Vec<StepReport> {
        let mut steps = self.steps.clone();
        steps.sort_by_key(|noted| noted.step);
        steps
    }

    /// The stop-work lines of a section, and its steps with those they lean on, in the order of work. A
    /// step that is not settled takes back the numbers of those that were read and lean on it.
    pub(in crate::job) fn told(&self, of: Section) -> (Vec<WorkStopReport>, Vec<StepReport>) {
        let own = |step: &WorkStep| step.section() == of;
        let own_steps = || self.steps.iter().filter(|noted| own(&noted.step));
        let shown = |noted: &&StepReport| own(&noted.step) || of.leans_on(noted.step);
        let mut steps: Vec<StepReport> = self.steps.iter().filter(shown).cloned().collect();
        steps.sort_by_key(|noted| noted.step);
        let stated = self.stops.iter();
        let stated = stated.filter(|stop| stop.concerns.iter().any(own));
        let mut stops: Vec<WorkStopReport> = stated.cloned().collect();
        for noted in &steps {
            let leaning = own_steps().filter(|other| {
                self.leans_on(other.step).any(|on| on == noted.step)
                    && other.standing != Standing::NotKnown
            });
            let mut concerns: Vec<WorkStep> = leaning.map(|other| other.step).collect();
            concerns.sort_unstable();
            if noted.standing == Standing::NotSettled && !concerns.is_empty() {
                stops.push(WorkStopReport {
                    text: format!("settle the {} first: {}", noted.step.word(), noted.text),
                    concerns,
                });
            }
        }
        (stops, steps)
    }
}

/// Writes what comes before everything else in a section, on the sheet.
pub(in crate::job) fn write_stops(out: &mut String, stops: &[WorkStopReport]) {
    for one in stops {
        wrap::write(out, "STOP WORK: ", &one.text);
    }
}

/// Writes the order of work of a section, on the sheet.
pub(in crate::job) fn write_steps(out: &mut String, steps: &[StepReport]) {
    wrap::write(out, "", "Order of work:");
    for (i, step) in steps.iter().enumerate() {
        let mark = match step.standing {
            Standing::Settled => "x",
            Standing::NotSettled => " ",
            Standing::NotKnown => "?",
        };
        let lead = format!("{:2} [{mark}] ", i + 1);
        wrap::write(out, &lead, &format!("{}: {}", step.name, step.text));
    }
}
