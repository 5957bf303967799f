//! Where each spark goes, and when, in one state of distributor and leads.
//!
//! # Method
//! With the rotor ahead by `a` against the cap, the contacts open for tower `k` when the crank is `a` (at
//! the distributor) before the firing place that tower `k` stands for. Whoever's lead is in that tower gets
//! the spark. A coil with two ends sparks in every turn of the crank.

use super::Delivery;
use crate::engine::{CylinderIndex, Engine};
use alloc::vec::Vec;

/// Angles nearer than this are one, in degrees.
const SAME: f64 = 1e-6;

/// One state.
#[derive(Clone, Debug)]
pub(super) struct Wiring {
    /// How far the rotor is ahead of its place, in distributor degrees.
    pub(super) ahead: f64,
    /// For each tower the place in the firing order of the cylinder whose lead it carries.
    pub(super) leads: Vec<usize>,
    /// For each tower where its spark belongs, in crank degrees of the cycle.
    places: Vec<f64>,
    cycle: f64,
    coils: bool,
}

impl Wiring {
    /// As it should be.
    pub(super) fn right(engine: &Engine, delivery: Delivery) -> Self {
        let place = |i: &CylinderIndex| engine.firing_position(*i).degrees();
        Self {
            ahead: 0.0,
            leads: (0..engine.order().len()).collect(),
            places: engine.order().iter().map(place).collect(),
            cycle: engine.cycle().degrees(),
            coils: delivery == Delivery::DoubleEndedCoils,
        }
    }

    /// The same engine in another state.
    pub(super) fn with(&self, ahead: f64, leads: Vec<usize>) -> Self {
        Self {
            ahead,
            leads,
            ..self.clone()
        }
    }

    /// The length of the cycle, in crank degrees.
    pub(super) const fn cycle(&self) -> f64 {
        self.cycle
    }

    /// How many towers there are.
    pub(super) const fn towers(&self) -> usize {
        self.leads.len()
    }

    /// Where a tower stands, in distributor degrees past the first.
    pub(super) fn tower_angle(&self, tower: usize) -> f64 {
        let place = self.places.get(tower).copied().unwrap_or(0.0);
        place * 360.0 / self.cycle
    }

    /// Where the cylinder at a place of the firing order should get its spark.
    pub(super) fn belongs(&self, cylinder: usize) -> f64 {
        self.places.get(cylinder).copied().unwrap_or(0.0)
    }

    /// Where the rotor points with the crank there, in distributor degrees past the first tower.
    pub(super) fn rotor_at(&self, crank: f64) -> f64 {
        within(crank * 360.0 / self.cycle + self.ahead, 360.0)
    }

    /// Where the cylinder at a place of the firing order gets its spark, in crank degrees of the cycle; on
    /// coils with two ends a turn later as well.
    pub(super) fn sparks(&self, cylinder: usize) -> f64 {
        let tower = self.leads.iter().position(|at| *at == cylinder);
        let place = tower.and_then(|at| self.places.get(at)).copied();
        let early = self.ahead * self.cycle / 360.0;
        within(place.unwrap_or(0.0) - early, self.cycle)
    }

    /// The turn after which a spark comes again.
    pub(super) const fn period(&self) -> f64 {
        if self.coils { 360.0 } else { self.cycle }
    }

    /// Whether two towers are the ends of one coil.
    pub(super) fn share_a_coil(&self, first: usize, second: usize) -> bool {
        let apart = self.belongs(first) - self.belongs(second);
        self.coils && between(apart, 0.0, 360.0) <= 0.01
    }

    /// How far the rotor is ahead where every tower takes the place of the one so many before it; none where
    /// the spacing does not allow it.
    pub(super) fn turned_onto_itself(&self, towers: usize) -> Option<f64> {
        let count = self.towers();
        let angle = self.tower_angle(towers);
        let fits = |tower: usize| {
            let onto = self.tower_angle((tower + towers) % count);
            between(self.tower_angle(tower) + angle, onto, 360.0) <= 0.01
        };
        (0..count).all(fits).then_some(angle)
    }

    /// Whether every look finds the same.
    pub(super) fn same_as(&self, other: &Self) -> bool {
        let sparks = |at: usize| {
            let apart = between(self.sparks(at), other.sparks(at), self.period());
            apart <= SAME
        };
        let leads = self.coils || self.leads == other.leads;
        leads && between(self.ahead, other.ahead, 360.0) <= SAME && (0..self.towers()).all(sparks)
    }

    /// Whether a cylinder gets its spark where it belongs, within so many crank degrees.
    pub(super) fn is_right(&self, cylinder: usize, within_degrees: f64) -> bool {
        let apart = between(self.sparks(cylinder), self.belongs(cylinder), self.period());
        apart <= within_degrees
    }
}

/// A place from 0 up to the period.
pub(super) fn within(value: f64, period: f64) -> f64 {
    let rest = value - period * libm::floor(value / period);
    if rest >= period { 0.0 } else { rest }
}

/// How far two places are apart, the shorter way.
pub(super) fn between(a: f64, b: f64, period: f64) -> f64 {
    let apart = within(a - b, period);
    apart.min(period - apart)
}
