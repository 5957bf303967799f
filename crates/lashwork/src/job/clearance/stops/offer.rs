//! Which ways round there are, and what was taken for granted to compare them.

use super::StopOptions;
use super::answer::NotOffered;
use crate::engine::CylinderIndex;
use crate::job::assumptions::Assumptions;
use crate::quantity::CyclePosition;
use crate::valve::{Method, Stop, StopPlan, StoppingPoints, ValveTrain};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// The plans that are possible, and those that are not.
pub(super) struct Offer<'r> {
    options: &'r StopOptions,
    train: &'r ValveTrain<'r>,
    /// Where the turning of every plan counts from: where the crank is, else firing top dead centre of
    /// the cylinder to start with. Without either each plan counts from its first stop.
    from: Option<CyclePosition>,
    pub(super) plans: Vec<StopPlan>,
    pub(super) not_offered: Vec<NotOffered>,
}

impl<'r> Offer<'r> {
    pub(super) fn made(
        options: &'r StopOptions,
        train: &'r ValveTrain<'r>,
        places: &'r StoppingPoints,
    ) -> Self {
        let start = options.start.map(|c| train.engine().dead_centre(c));
        let mut offer = Self {
            options,
            train,
            from: options.from.or(start),
            plans: Vec::new(),
            not_offered: Vec::new(),
        };
        offer.cylinder_by_cylinder();
        offer.two_position();
        let fewest = train.fewest_stops(places, offer.from);
        offer.plans.push(fewest);
        offer.opposite_valve();
        offer.fully_open_valve();
        offer
    }

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
        let start = self.options.start;
        let plan = self.train.cylinder_by_cylinder_from(start, self.from);
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

    /// The table of the start, else of the first in the order whose two positions can be found.
    fn two_position(&mut self) {
        let order = self.train.engine().order().iter().copied();
        let firsts: Vec<CylinderIndex> = match self.options.start {
            Some(start) => alloc::vec![start],
            None => order.collect(),
        };
        let tables = firsts.into_iter();
        let tables = tables.filter_map(|first| self.train.two_position_from(first, self.from));
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

    fn opposite_valve(&mut self) {
        let plan = self.train.opposite_valve(self.options.start, self.from);
        if plan.stops.is_empty() {
            let text = "no valve is at rest where its opposite opens or closes";
            self.refuse(plan.method, "job.no-opposite-valve", text);
        } else {
            self.plans.push(plan);
        }
    }

    fn fully_open_valve(&mut self) {
        let plan = self.train.fully_open_valve(self.options.start, self.from);
        if plan.stops.is_empty() {
            let text = "no valve is fully open while another is well inside its base circle";
            self.refuse(plan.method, "job.no-fully-open-valve", text);
        } else {
            self.plans.push(plan);
        }
    }

    /// Lists what was taken of the start and of the search.
    pub(super) fn assume(&self, listed: &mut Assumptions) {
        let start = match self.options.start {
            Some(start) => self.start_taken(start),
            None => self.start_chosen(),
        };
        if let Some(text) = start {
            listed.bears_on_place("valve.start", text);
        }
        if self.plans.iter().any(|plan| !plan.exact) {
            let text = "the search for the fewest stops was cut short: no plan has fewer stops, and of \
                        those none has more margin up to 30 deg, then none turns less; its changes of \
                        side are the fewest that were found";
            listed.add("valve.search-cut-short", text);
        }
    }

    fn label(&self, cylinder: CylinderIndex) -> &'r str {
        let found = self.train.engine().cylinder(cylinder);
        found.map_or("?", |c| c.label.as_str())
    }

    /// What plans at marks and dead centres make of a cylinder to start with, where they do not start
    /// with it. Stops that are found by watching a valve lie elsewhere anyway.
    fn start_taken(&self, start: CylinderIndex) -> Option<String> {
        let centre = self.train.engine().dead_centre(start);
        let elsewhere = |plan: &&StopPlan| {
            let first = plan.stops.first().map(|s| s.position);
            first.is_some_and(|first| {
                centre.forward_to(first).degrees() > 0.01
                    && first.forward_to(centre).degrees() > 0.01
            })
        };
        let fewest = |p: &&StopPlan| p.method == Method::FewestStops;
        let label = self.label(start);
        if self.options.from.is_some() {
            let apart = self.plans.iter().find(fewest).filter(elsewhere);
            return apart.map(|_| {
                format!(
                    "the fewest stops are counted from where the crank is now and do not start with \
                     cylinder {label}"
                )
            });
        }
        let mut at_places = self
            .plans
            .iter()
            .filter(|p| p.stops.iter().all(|s| s.signs.is_empty()));
        at_places.any(|p| elsewhere(&p)).then(|| {
            format!(
                "present crank position not stated: the turning of every plan is counted from \
                 firing TDC of the cylinder to start with, {label}"
            )
        })
    }

    /// The cylinder that cylinder by cylinder begins with, where it is not the first of the order.
    fn start_chosen(&self) -> Option<String> {
        if self.from.is_some() {
            return None;
        }
        let order = self.train.engine().order().first().copied()?;
        let mut plans = self.plans.iter();
        let plan = plans.find(|p| p.method == Method::CylinderByCylinder)?;
        let begins = plan.stops.first()?.firing_tdc?;
        let other = self.train.cylinder_by_cylinder(Some(order));
        let why = match other.walks.checked_sub(plan.walks) {
            Some(fewer) if fewer > 0 => format!("{fewer} fewer changes of side"),
            _ => format!(
                "{:.0} deg less turning",
                (other.total_turn - plan.total_turn).degrees()
            ),
        };
        (begins != order).then(|| {
            format!(
                "cylinder to start with not stated: cylinder by cylinder begins with {}, {why} than \
                 from {}",
                self.label(begins),
                self.label(order)
            )
        })
    }
}
