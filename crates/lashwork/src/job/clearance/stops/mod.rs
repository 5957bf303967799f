//! Stop plans side by side, and which of them is recommended.

pub(in crate::job) mod answer;
pub(in crate::job) mod sheet;

use crate::Refusal;
use crate::engine::{CylinderIndex, Engine, Pulley};
use crate::job::assumptions::Assumptions;
use crate::job::text::ValveNames;
use crate::quantity::{CrankAngle, CyclePosition};
use crate::valve::{Method, Sign, Stop, StopPlan, StoppingPoints, ValveKind, ValveTrain};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use answer::{
    CheckReport, LastFired, NotOffered, PlanReport, Recommendation, StopReport, StopsReport,
    UnreachableReport,
};

/// Where the crank can be stopped, and where it is now.
///
/// ```
/// use lashwork::job::clearance::StopOptions;
/// use lashwork::quantity::{CrankAngle, Cycle};
/// use lashwork::valve::{StoppingPoints, present_position};
/// let from = present_position(Cycle::FourStroke, CrankAngle::from_degrees(35.0)?)?;
/// let choice = StopOptions { places: Some(StoppingPoints::AnyAngle), from: Some(from), start: None };
/// assert_ne!(choice, StopOptions::default());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StopOptions {
    /// Where it can be stopped; not stated, each cylinder's top dead centre, or any angle if those do
    /// not serve every valve that has a window. Which was taken is listed as an assumption.
    pub places: Option<StoppingPoints>,
    /// Where it is now, if the turning to the first stop is to count.
    pub from: Option<CyclePosition>,
    /// The cylinder to start with; free if not given.
    pub start: Option<CylinderIndex>,
}

/// What plans are made from.
#[derive(Clone, Copy)]
pub(in crate::job) struct Stops<'r> {
    pub(in crate::job) options: &'r StopOptions,
    pub(in crate::job) train: &'r ValveTrain<'r>,
    pub(in crate::job) pulley: Option<Pulley>,
    pub(in crate::job) names: ValveNames<'r>,
}

/// The plans of a job.
pub(in crate::job) fn plans(asked: Stops<'_>, listed: &mut Assumptions) -> StopsReport {
    let places = match &asked.options.places {
        Some(places) => places.clone(),
        None => assumed_places(asked.train, listed),
    };
    let mut offer = Offer {
        options: asked.options,
        train: asked.train,
        places: &places,
        plans: Vec::new(),
        not_offered: Vec::new(),
    };
    offer.cylinder_by_cylinder();
    offer.two_position();
    offer.fewest_stops();
    offer.opposite_valve();
    if let Some(text) = offer.start_taken() {
        listed.add("valve.start", text);
    }
    StopsReport {
        places: places_words(&places),
        recommended: recommend(&offer.plans),
        plans: offer
            .plans
            .iter()
            .map(|p| plan_report(asked, &places, p))
            .collect(),
        not_offered: offer.not_offered,
    }
}

/// Dead centres, unless there is a valve that only other angles serve.
fn assumed_places(train: &ValveTrain, listed: &mut Assumptions) -> StoppingPoints {
    let centres = StoppingPoints::DeadCentres.positions(train.engine());
    let served = train.valves().into_iter().all(|valve| {
        let none = train.window(valve.kind).is_none();
        none || centres.iter().any(|p| train.margin(valve, *p).is_some())
    });
    let (places, text) = if served {
        let text = "places where the crank can be stopped not stated: each cylinder's top dead \
                    centre taken";
        (StoppingPoints::DeadCentres, text)
    } else {
        let text = "places where the crank can be stopped not stated: any angle taken, with a \
                    degree wheel, as the dead centres do not serve every valve";
        (StoppingPoints::AnyAngle, text)
    };
    listed.add("valve.places", text);
    places
}

fn places_words(places: &StoppingPoints) -> String {
    match places {
        StoppingPoints::Marks(marks) => {
            let labels: Vec<String> = marks
                .list()
                .iter()
                .map(|m| format!("{:?} at {} deg", m.label(), m.at().degrees()))
                .collect();
            format!("the pulley's marks {}", labels.join(", "))
        }
        StoppingPoints::DeadCentres => "each cylinder's top dead centre".into(),
        StoppingPoints::AnyAngle => "any angle, with a degree wheel".into(),
    }
}

struct Offer<'r> {
    options: &'r StopOptions,
    train: &'r ValveTrain<'r>,
    places: &'r StoppingPoints,
    plans: Vec<StopPlan>,
    not_offered: Vec<NotOffered>,
}

impl Offer<'_> {
    fn refuse(&mut self, method: Method, code: &str, text: impl Into<String>) {
        self.not_offered.push(NotOffered {
            method,
            code: code.into(),
            text: text.into(),
        });
    }

    /// Stops of a plan where the crank cannot be stopped. What was not stated is no obstacle.
    fn not_found(&self, plan: &StopPlan) -> usize {
        let stated = self.options.places.as_ref();
        let engine = self.train.engine();
        let lost = |s: &&Stop| stated.is_some_and(|p| !p.can_find(engine, s.position));
        plan.stops.iter().filter(lost).count()
    }

    fn cylinder_by_cylinder(&mut self) {
        let (start, from) = (self.options.start, self.options.from);
        let plan = self.train.cylinder_by_cylinder_from(start, from);
        match self.not_found(&plan) {
            0 => self.plans.push(plan),
            lost => {
                let text = format!(
                    "{lost} of its {} stops are at places that cannot be found",
                    plan.stops.len()
                );
                self.refuse(plan.method, "job.stops-not-found", text);
            }
        }
    }

    /// The table of the start, else of the cylinder the first plan begins with, else of the first in
    /// the order whose two positions can be found.
    fn two_position(&mut self) {
        let (start, from) = (self.options.start, self.options.from);
        let walk = self.plans.first();
        let head = walk
            .and_then(|w| w.stops.first())
            .and_then(|s| s.firing_tdc);
        let order = self.train.engine().order().iter().copied();
        let firsts: Vec<CylinderIndex> = match start {
            Some(start) => alloc::vec![start],
            None => head.into_iter().chain(order).collect(),
        };
        let tables = firsts.into_iter();
        let tables = tables.filter_map(|first| self.train.two_position_from(first, from));
        let tables: Vec<StopPlan> = tables.collect();
        let method = Method::TwoPosition;
        let Some(plan) = tables
            .iter()
            .find(|plan| self.not_found(plan) == 0)
            .cloned()
        else {
            let (code, text) = if tables.is_empty() {
                let text = "no two positions 360 degrees apart serve every valve, or a single position does";
                ("job.no-two-positions", text)
            } else {
                let text = "its stops are at places that cannot be found";
                ("job.stops-not-found", text)
            };
            self.refuse(method, code, text);
            return;
        };
        if self.plans.iter().any(|known| known.stops == plan.stops) {
            let text = "its stops are the same as cylinder by cylinder";
            self.refuse(method, "job.same-stops", text);
        } else {
            self.plans.push(plan);
        }
    }

    fn fewest_stops(&mut self) {
        let engine = self.train.engine();
        let start = self.options.start.map(|c| engine.dead_centre(c));
        let from = self.options.from.or(start);
        match self.train.fewest_stops(self.places, from) {
            Ok(plan) => self.plans.push(plan),
            Err(e) => self.refuse(Method::FewestStops, e.code(), format!("{e}; {}", e.hint())),
        }
    }

    /// What the fewest stops make of a cylinder to start with, where they do not start with it.
    fn start_taken(&self) -> Option<String> {
        let start = self.options.start?;
        let fewest = |p: &&StopPlan| p.method == Method::FewestStops;
        let first = self.plans.iter().find(fewest)?.stops.first()?;
        let centre = self.train.engine().dead_centre(start);
        let elsewhere = centre.forward_to(first.position).degrees() > 0.01
            && first.position.forward_to(centre).degrees() > 0.01;
        let label = self.train.engine().cylinder(start)?.label.clone();
        elsewhere.then(|| match self.options.from {
            Some(_) => format!(
                "the fewest stops are counted from where the crank is now and do not start with \
                 cylinder {label}"
            ),
            None => format!(
                "present crank position not stated: the fewest stops are counted from firing TDC \
                 of the cylinder to start with, {label}"
            ),
        })
    }

    fn opposite_valve(&mut self) {
        let (start, from) = (self.options.start, self.options.from);
        let plan = self.train.opposite_valve(start, from);
        if plan.stops.is_empty() {
            let text = "no valve is at rest where its opposite opens or closes";
            self.refuse(plan.method, "job.no-opposite-valve", text);
        } else {
            self.plans.push(plan);
        }
    }
}

/// A margin smaller than a crank can be set by hand is pointed out, in degrees. This library's choice.
const NEAR_EDGE: f64 = 2.0;

/// What makes a plan better, in words, and its cost.
type Criterion = (&'static str, fn(&StopPlan) -> f64);

/// The plan that leaves out the fewest valves; of equal ones the one with fewer stops, then less
/// turning, then fewer changes of side, then the larger smallest margin, then the one listed first.
fn recommend(plans: &[StopPlan]) -> Option<Recommendation> {
    let mut left: Vec<usize> = (0..plans.len()).collect();
    let plan = |i: &usize| plans.get(*i);
    let mut why = None;
    let criteria: [Criterion; 5] = [
        ("leaves out the fewest valves", |p| {
            p.unreachable.len() as f64
        }),
        ("has the fewest stops", |p| p.stops.len() as f64),
        ("turns the crank least", |p| p.total_turn.degrees()),
        ("has the fewest changes of side", |p| p.walks as f64),
        ("stays farthest inside the check windows", |p| {
            -p.smallest_margin.map_or(0.0, CrankAngle::degrees)
        }),
    ];
    for (i, (words, cost)) in criteria.into_iter().enumerate() {
        let costs = left.iter().filter_map(plan).map(cost);
        let least = costs.fold(f64::INFINITY, f64::min);
        let before = left.len();
        // Angles within a hundredth of a degree are equal.
        left.retain(|i| plan(i).is_some_and(|p| cost(p) <= least + 0.01));
        if left.len() < before {
            why = Some((i > 1, words));
            if left.len() == 1 {
                break;
            }
        }
    }
    let best = *left.first()?;
    let stops = plan(&best).map_or(0, |p| p.stops.len());
    let mut why = match why {
        Some((true, words)) => format!("of the plans with {stops} stops it {words}"),
        Some((false, words)) => format!("it {words}"),
        None if plans.len() > 1 => "no other plan costs less".into(),
        None => "it is the only one".into(),
    };
    let margin = plan(&best).and_then(|p| p.smallest_margin);
    if margin.is_some_and(|m| m.degrees() < NEAR_EDGE) {
        why.push_str(
            "; some of its stops lie at the edge of the check window, where only the guard keeps \
             clear of the ramps: do not turn past them",
        );
    }
    Some(Recommendation { plan: best, why })
}

fn plan_report(asked: Stops<'_>, places: &StoppingPoints, plan: &StopPlan) -> PlanReport {
    let unreachable_why: Vec<UnreachableReport> = plan
        .unreachable
        .iter()
        .map(|u| UnreachableReport {
            valve: asked.names.of(u.valve),
            why: u.why,
            text: u.why.words().into(),
        })
        .collect();
    PlanReport {
        method: plan.method,
        from: plan.from,
        stops: plan
            .stops
            .iter()
            .map(|s| stop_report(asked, places, s))
            .collect(),
        total_turn: plan.total_turn,
        walks: plan.walks,
        smallest_margin: plan.smallest_margin,
        unreachable: unreachable_why.iter().map(|u| u.valve.clone()).collect(),
        unreachable_why,
    }
}

fn stop_report(asked: Stops<'_>, places: &StoppingPoints, stop: &Stop) -> StopReport {
    let engine = asked.train.engine();
    let label = |c: CylinderIndex| engine.cylinder(c).map(|c| c.label.to_string());
    let start = CyclePosition::new(engine.cycle(), CrankAngle::ZERO);
    let from_first = start.forward_to(stop.position);
    let within_turn = from_first.degrees() % 360.0;
    let rim = CrankAngle::computed(within_turn);
    let check = stop.checks.iter().map(|c| {
        let cylinder = engine.cylinder(c.valve.cylinder);
        CheckReport {
            valve: asked.names.of(c.valve),
            cylinder: cylinder.map(|c| c.label.to_string()).unwrap_or_default(),
            side: cylinder.and_then(|c| c.side.clone()),
            kind: c.valve.kind,
            number: c.valve.number,
            margin: c.margin,
        }
    });
    StopReport {
        position: stop.position,
        turn: stop.turn,
        firing_tdc: stop.firing_tdc.and_then(label),
        overlap_tdc: stop.overlap_tdc.and_then(label),
        last_fired: last_fired(engine, stop),
        mark: places.mark_at(stop.position).map(String::from),
        watch: stop.signs.iter().map(|sign| watch(engine, *sign)).collect(),
        rotor: from_first.at_distributor(engine.cycle()),
        pulley_mark_mm: asked.pulley.map(|p| p.arc(rim).mm()),
        check: check.collect(),
    }
}

fn last_fired(engine: &Engine, stop: &Stop) -> LastFired {
    let since = |c: CylinderIndex| engine.dead_centre(c).forward_to(stop.position);
    // What stands at firing TDC has just been there, rounding apart.
    let last = stop.firing_tdc.map(|c| (c, CrankAngle::ZERO)).or_else(|| {
        let all = engine.order().iter().map(|c| (*c, since(*c)));
        all.min_by(|a, b| a.1.degrees().total_cmp(&b.1.degrees()))
    });
    let label = last.and_then(|(c, _)| engine.cylinder(c));
    LastFired {
        cylinder: label.map(|c| c.label.to_string()).unwrap_or_default(),
        turn: last.map_or(CrankAngle::ZERO, |(_, turn)| turn),
    }
}

fn watch(engine: &Engine, sign: Sign) -> String {
    let label = engine
        .cylinder(sign.cylinder)
        .map_or("?", |c| c.label.as_str());
    match sign.kind {
        ValveKind::Exhaust => format!("exhaust of {label} just begins to open"),
        ValveKind::Intake => format!("intake of {label} has just closed"),
    }
}
