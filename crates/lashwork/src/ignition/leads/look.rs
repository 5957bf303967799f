//! What was found at leads, rotor and sparks, and how likely that is in each state.
//!
//! # Model
//! - A lead followed from its tower: the one that is there with a chance of `1 - p`, else any other.
//! - The rotor: normal about its place with 8 distributor degrees, the width of its blade and the static
//!   advance; misread, anywhere.
//! - A spark seen by a lamp: normal about 10 crank degrees before its place, with 12; misread, anywhere.
//! - A running cylinder: fires if its spark comes near its place; spits back or is dead where it comes with
//!   the intake valve open, bangs in the exhaust or is dead with the exhaust valve open, else is dead.
//!
//! All numbers are this library's choice.

use super::wiring::{Wiring, between, within};
use crate::engine::{CylinderIndex, Engine};
use crate::quantity::{Cycle, CyclePosition, DistributorAngle};
use crate::statistics::normal_cdf;
use alloc::vec::Vec;
use serde::Serialize;

/// Standard deviation of the rotor's place, in distributor degrees.
const ROTOR: f64 = 8.0;
/// How long before its place a spark comes, in crank degrees, and the standard deviation of that.
const SPARK_BEFORE: f64 = 10.0;
const SPARK: f64 = 12.0;
/// A spark within so many crank degrees of its place fires its cylinder.
pub(super) const FIRES_WITHIN: f64 = 35.0;
/// Own crank degrees after firing in which exhaust and intake valve are open enough.
const EXHAUST_OPEN: (f64, f64) = (150.0, 360.0);
const INTAKE_OPEN: (f64, f64) = (360.0, 580.0);
/// Outcomes into which a turn is cut to say what a look would tell.
const CUTS: usize = 48;

/// Where a rotor points.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Points {
    /// So far past tower 0, in its own sense.
    At(DistributorAngle),
    /// Nearest to a tower, counted from 0.
    Tower(usize),
}

/// What a running cylinder does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Running {
    /// It pulls: taking its lead off slows the engine.
    Fires,
    /// It spits back through the intake.
    SpitsBack,
    /// It bangs in the exhaust.
    BangsInExhaust,
    /// It does nothing.
    Dead,
}

/// Something that was found.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Look {
    /// Where the rotor points with the crank there.
    Rotor {
        /// Where the crank stands.
        crank: CyclePosition,
        /// Whether it was made sure on which turn it is; by a mark alone it may be the other one.
        stroke_checked: bool,
        /// Where it points.
        points: Points,
    },
    /// Where the lead in a tower goes.
    Lead {
        /// The tower, from 0.
        tower: usize,
        /// Whose plug it ends at.
        cylinder: CylinderIndex,
    },
    /// Where the crank stands when a lead carries a spark, by a lamp.
    Spark {
        /// Whose lead.
        cylinder: CylinderIndex,
        /// Where the crank stands.
        crank: CyclePosition,
        /// Whether it was made sure on which turn it is.
        stroke_checked: bool,
    },
    /// What a cylinder of the running engine does.
    Runs {
        /// The cylinder.
        cylinder: CylinderIndex,
        /// What it does.
        does: Running,
    },
}

impl Look {
    pub(super) const fn tower(&self) -> Option<usize> {
        match self {
            Self::Lead { tower, .. }
            | Self::Rotor {
                points: Points::Tower(tower),
                ..
            } => Some(*tower),
            _ => None,
        }
    }

    pub(super) const fn cylinder(&self) -> Option<CylinderIndex> {
        match self {
            Self::Lead { cylinder, .. }
            | Self::Spark { cylinder, .. }
            | Self::Runs { cylinder, .. } => Some(*cylinder),
            Self::Rotor { .. } => None,
        }
    }

    /// The chance, or density, of finding this; with no wiring anything is as likely as another.
    pub(super) fn likelihood(&self, engine: &Engine, wiring: Option<&Wiring>, wrong: f64) -> f64 {
        let towers = engine.order().len();
        match *self {
            Self::Rotor {
                crank,
                stroke_checked,
                points,
            } => rotor(engine, wiring, wrong, crank, stroke_checked, points),
            Self::Lead { tower, cylinder } => {
                let to = place(engine, cylinder);
                wiring.map_or(1.0 / towers as f64, |w| lead(w, tower, to, wrong))
            }
            Self::Spark {
                cylinder,
                crank,
                stroke_checked,
            } => {
                let whole = engine.cycle().degrees();
                let turn = if stroke_checked { whole } else { 360.0 };
                let Some(w) = wiring else {
                    return 1.0 / turn;
                };
                let comes = w.sparks(place(engine, cylinder)) - SPARK_BEFORE;
                let off = between(crank.degrees(), comes, turn.min(w.period()));
                // On coils each turn has its spark, and this is one of them.
                let each = turn.min(w.period()) / turn;
                (1.0 - wrong) * each * density(off, SPARK) + wrong / turn
            }
            Self::Runs { cylinder, does } => {
                wiring.map_or(0.25, |w| runs(engine, w, cylinder, does, wrong))
            }
        }
    }
}

/// A look that could be taken next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LookAt {
    /// Follow the lead in this tower, from 0, to its plug.
    LeadOf {
        /// The tower.
        tower: usize,
    },
    /// Where the rotor points with this cylinder at firing top dead centre, made sure of by its stroke.
    RotorAtFiring {
        /// The cylinder.
        cylinder: CylinderIndex,
    },
    /// Where the crank stands when this cylinder's lead carries a spark, by a lamp.
    SparkOf {
        /// The cylinder.
        cylinder: CylinderIndex,
    },
}

impl LookAt {
    /// What it costs against following a lead. This library's choice.
    pub(super) const fn effort(self) -> f64 {
        match self {
            Self::LeadOf { .. } => 1.0,
            Self::RotorAtFiring { .. } => 2.0,
            Self::SparkOf { .. } => 3.0,
        }
    }

    /// Whether it was taken.
    pub(super) fn is_in(self, looks: &[Look]) -> bool {
        looks.iter().any(|look| match (self, look) {
            (Self::LeadOf { tower }, Look::Lead { tower: seen, .. }) => tower == *seen,
            (Self::RotorAtFiring { .. }, Look::Rotor { stroke_checked, .. }) => *stroke_checked,
            (Self::SparkOf { cylinder }, Look::Spark { cylinder: seen, .. }) => cylinder == *seen,
            _ => false,
        })
    }

    /// The chances of what it may find.
    pub(super) fn outcomes(self, engine: &Engine, wiring: Option<&Wiring>, wrong: f64) -> Vec<f64> {
        let towers = engine.order().len();
        match self {
            Self::LeadOf { tower } => (0..towers)
                .map(|to| wiring.map_or(1.0 / towers as f64, |w| lead(w, tower, to, wrong)))
                .collect(),
            Self::RotorAtFiring { cylinder } => {
                let crank = engine.firing_position(cylinder).degrees();
                let at = wiring.map(|w| w.rotor_at(crank));
                cuts(at, ROTOR, 360.0, wrong)
            }
            Self::SparkOf { cylinder } => {
                let comes = wiring.map(|w| w.sparks(place(engine, cylinder)) - SPARK_BEFORE);
                let turn = wiring.map_or_else(|| engine.cycle().degrees(), Wiring::period);
                cuts(comes, SPARK, turn, wrong)
            }
        }
    }
}

/// A cylinder's place in the firing order.
fn place(engine: &Engine, cylinder: CylinderIndex) -> usize {
    let found = engine.order().iter().position(|i| *i == cylinder);
    found.unwrap_or(0)
}

fn density(off: f64, spread: f64) -> f64 {
    let z = off / spread;
    libm::exp(-0.5 * z * z) / (spread * libm::sqrt(2.0 * core::f64::consts::PI))
}

/// The chance that a normal place on a circle lies short of an edge, up to a number that all edges share;
/// edges and place lie within a turn and a half of each other.
fn short_of(at: f64, spread: f64, edge: f64, turn: f64) -> f64 {
    let once = |by: f64| normal_cdf((edge + by - at) / spread);
    once(-turn) + once(0.0) + once(turn)
}

/// A turn cut into equal parts: the chance of each, all alike where nothing is predicted.
fn cuts(at: Option<f64>, spread: f64, turn: f64, wrong: f64) -> Vec<f64> {
    let any = 1.0 / CUTS as f64;
    let Some(at) = at.map(|at| within(at, turn)) else {
        return alloc::vec![any; CUTS];
    };
    let mut last = short_of(at, spread, 0.0, turn);
    let mut chance = |cut: usize| {
        let next = short_of(at, spread, cut as f64 * turn * any, turn);
        let inside = next - last;
        last = next;
        (1.0 - wrong) * inside + wrong * any
    };
    (1..=CUTS).map(&mut chance).collect()
}

fn lead(wiring: &Wiring, tower: usize, to: usize, wrong: f64) -> f64 {
    let towers = wiring.towers();
    // At either end of a coil may stand either of its leads.
    let there: Vec<usize> = (0..towers)
        .filter(|other| *other == tower || wiring.share_a_coil(*other, tower))
        .filter_map(|other| wiring.leads.get(other).copied())
        .collect();
    let ends = there.len() as f64;
    if there.contains(&to) {
        // Where a coil has all the leads no other can be read.
        let right = if towers > there.len() {
            1.0 - wrong
        } else {
            1.0
        };
        right / ends
    } else {
        wrong / (towers as f64 - ends)
    }
}

fn rotor(
    engine: &Engine,
    wiring: Option<&Wiring>,
    wrong: f64,
    crank: CyclePosition,
    stroke_checked: bool,
    points: Points,
) -> f64 {
    let towers = engine.order().len();
    let any = match points {
        Points::At(_) => 1.0 / 360.0,
        Points::Tower(_) => 1.0 / towers as f64,
    };
    let Some(wiring) = wiring else {
        return any;
    };
    let seen = |at: f64| match points {
        Points::At(angle) => density(between(angle.degrees(), at, 360.0), ROTOR),
        Points::Tower(tower) => {
            let angle = |tower: usize| wiring.tower_angle(tower % towers);
            let own = angle(tower);
            let after = angle(tower + 1) - own;
            let before = own - angle(tower + towers - 1);
            let half = |way: f64| 0.5 * if way > 0.0 { way } else { way + 360.0 };
            let short = |edge: f64| short_of(at, ROTOR, edge, 360.0);
            short(own + half(after)) - short(own - half(before))
        }
    };
    let here = wiring.rotor_at(crank.degrees());
    let right = if stroke_checked || engine.cycle() == Cycle::TwoStroke {
        seen(here)
    } else {
        f64::midpoint(seen(here), seen(wiring.rotor_at(crank.degrees() + 360.0)))
    };
    (1.0 - wrong) * right + wrong * any
}

fn runs(
    engine: &Engine,
    wiring: &Wiring,
    cylinder: CylinderIndex,
    does: Running,
    wrong: f64,
) -> f64 {
    let at = place(engine, cylinder);
    let phase = |turn: f64| {
        let past = wiring.sparks(at) + turn - wiring.belongs(at);
        within(past, wiring.cycle())
    };
    let own = phase(0.0);
    let holds = |(from, to): (f64, f64)| from <= own && own < to;
    let expected: &[Running] = if wiring.is_right(at, FIRES_WITHIN) {
        &[Running::Fires]
    } else if engine.cycle() == Cycle::TwoStroke {
        &[Running::Dead, Running::SpitsBack]
    } else if holds(INTAKE_OPEN) {
        &[Running::SpitsBack, Running::Dead]
    } else if holds(EXHAUST_OPEN) {
        &[Running::BangsInExhaust, Running::Dead]
    } else {
        &[Running::Dead]
    };
    let ways = expected.len() as f64;
    if expected.contains(&does) {
        (1.0 - wrong) / ways
    } else {
        wrong / (4.0 - ways)
    }
}
