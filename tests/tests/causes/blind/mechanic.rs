//! A mechanic with an own gauge, own hand and own eye, who leaves some things out and writes the rest down.

use super::chance::{about, between, happens, normal, rising};
use super::engine::{Engine, Gasket, Nuisance};
use super::lash::{ALONE, SET};
use super::physics::{self, Idling};
use fastrand::Rng;
use serde_json::{Value, json};

/// What may be read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Kind {
    Lash,
    Past,
    Compression,
    Oil,
    Leak,
    Listen,
    Plugs,
    Dwell,
    Timing,
    Gauge,
    Gas,
}

pub(super) const KINDS: [Kind; 11] = [
    Kind::Lash,
    Kind::Past,
    Kind::Compression,
    Kind::Oil,
    Kind::Leak,
    Kind::Listen,
    Kind::Plugs,
    Kind::Dwell,
    Kind::Timing,
    Kind::Gauge,
    Kind::Gas,
];

/// A third to two thirds of the kinds are missing, at random.
pub(super) fn usual(rng: &mut Rng) -> Vec<Kind> {
    let mut kinds = KINDS.to_vec();
    rng.shuffle(&mut kinds);
    kinds.truncate(rng.usize(4..8));
    kinds
}

pub(super) struct Mechanic<'e> {
    pub engine: &'e Engine,
    pub rng: Rng,
    /// Engine running at idle, as perfect instruments would see it.
    pub idling: Idling,
}

impl<'e> Mechanic<'e> {
    pub(super) fn new(engine: &'e Engine, mut rng: Rng) -> Self {
        let manifold = 38.0 + 3.0 * normal(&mut rng);
        // Carburettors do not feed all cylinders alike.
        let apart: Vec<f64> = (0..engine.cylinders)
            .map(|_| 1.0 + 0.025 * normal(&mut rng))
            .collect();
        let idling = physics::idle(engine, manifold, &apart);
        Self {
            engine,
            rng,
            idling,
        }
    }

    pub(super) fn is(&mut self, chance: f64) -> bool {
        happens(&mut self.rng, chance)
    }

    pub(super) fn noise(&mut self, u: f64) -> f64 {
        u * normal(&mut self.rng)
    }

    /// Between which leaves the lash of a valve stands, steps of 0.02 and 0.03 mm from 0.05 on.
    fn leaves(&mut self, cylinder: usize, valve: usize) -> Value {
        let felt = self.engine.lash[cylinder][valve] + self.noise(0.010);
        let name = if valve == 0 { "intake" } else { "exhaust" };
        let mut own = json!({"cylinder": (cylinder + 1).to_string(), "valve": name});
        let goes = LEAVES.iter().rev().find(|leaf| **leaf <= felt);
        let refuses = LEAVES.iter().find(|leaf| **leaf > felt);
        match (goes, refuses) {
            (None, _) => own["nothing_goes"] = json!(true),
            (Some(goes), None) => own["goes"] = json!([format!("{goes:.2} mm")]),
            (Some(goes), Some(refuses)) => {
                own["goes"] = json!([format!("{goes:.2} mm")]);
                own["refuses"] = json!([format!("{refuses:.2} mm")]);
            }
        }
        own
    }

    /// The clearance section; without readings where the valves were not read, for the book's limits.
    pub(super) fn clearance(&mut self, read: bool) -> Value {
        let mut readings = Vec::new();
        for cylinder in (0..self.engine.cylinders).filter(|_| read) {
            for valve in 0..2 {
                readings.push(self.leaves(cylinder, valve));
            }
        }
        let limits = |valve: usize| {
            let set = SET[valve];
            json!({
                "set_to": format!("{set:.2} mm"),
                "set": {"from": format!("{:.2} mm", set - 0.02), "to": format!("{:.2} mm", set + 0.02)},
                "leave_alone": {
                    "from": format!("{:.2} mm", set - ALONE), "to": format!("{:.2} mm", set + ALONE)
                }
            })
        };
        let leaves: Vec<String> = LEAVES.iter().map(|leaf| format!("{leaf:.2} mm")).collect();
        json!({
            "valves": {
                "intake_per_cylinder": 1,
                "exhaust_per_cylinder": 1,
                "screw": {"pitch": "1 mm", "seat": "valve_side", "turning_in": "closes_gap"},
                "rocker_ratio": 1.4
            },
            "specifications": [{
                "id": "book", "document": "Invented workshop book", "condition": "cold",
                "reference": "20 C", "intake": limits(0), "exhaust": limits(1)
            }],
            "gauge": {"leaves": leaves, "tolerance": "0.003 mm", "stack_tolerance": "worst_case"},
            "metal": {"temperature": {"is": "20 C", "uncertainty": "2 K"}},
            "readings": readings
        })
    }

    pub(super) fn compression(&mut self, with_oil: bool) -> Value {
        let engine = self.engine;
        let (rpm, off) = (between(&mut self.rng, 170.0, 240.0), self.noise(22.0));
        let tired = engine.nuisance == Some(Nuisance::TiredStarter);
        let shown: Vec<(physics::Cranked, f64)> = (0..engine.cylinders)
            .map(|at| {
                let slower = if tired { 0.07 * at as f64 } else { 0.0 };
                let cranked = physics::crank(engine, at, rpm * (1.0 - slower), 0.0);
                (cranked, cranked.last + off + self.noise(17.0))
            })
            .collect();
        let highest = shown.iter().fold(0.0_f64, |most, own| most.max(own.1));
        let oil = (0.012 * engine.swept).clamp(3000.0, 6000.0);
        let mut readings = Vec::new();
        for (at, (cranked, dry)) in shown.into_iter().enumerate() {
            let mut own = json!({"cylinder": (at + 1).to_string(), "dry": kilopascals(dry)});
            // The first puff of a sound cylinder is about 0.72 of the last.
            let share = cranked.first / cranked.last + self.noise(0.03);
            if self.is(0.8) {
                own["build_up"] = json!(if dry > 0.88 * highest && share > 0.62 {
                    "even"
                } else if share < 0.66 {
                    "low_then_builds"
                } else {
                    "stays_low"
                });
            }
            if with_oil {
                let wet = physics::crank(engine, at, rpm, oil).last + off + self.noise(17.0);
                own["wet"] = kilopascals(wet);
            }
            readings.push(own);
        }
        let mut cranked = json!({
            "warm": true, "throttle_open": true, "all_plugs_out": true, "strokes": 6
        });
        if self.is(0.6) {
            cranked["battery_good"] = json!(!tired);
        }
        let mut section = json!({
            "readings": readings, "rules": [{"percent_of_highest": 75}], "cranked": cranked
        });
        if with_oil {
            section["oil"] = json!(format!("{:.1} ml", oil / 1000.0));
        }
        section
    }

    pub(super) fn leak(&mut self, listened: bool) -> Value {
        let engine = self.engine;
        let air = engine.air();
        let orifice = if self.is(0.7) { 1.0 } else { 1.5 };
        let true_orifice = orifice + self.noise(0.03);
        let hole = 0.25 * core::f64::consts::PI * true_orifice * true_orifice;
        let off = self.noise(5.0);
        let mut readings = Vec::new();
        for at in 0..engine.cylinders {
            let own = engine.leaks(at);
            // A piston at rest lets more past its rings than one that moves, never twice the same.
            let rings = own[0] * about(&mut self.rng, 1.15, 1.12);
            let all = rings + own[1] + own[2] + own[3];
            let shows = physics::stands(552.0, hole, all, air) + off + self.noise(6.0);
            let mut reading = json!({
                "cylinder": (at + 1).to_string(), "held": true,
                "shows": kilopascals(shows.clamp(15.0, 550.0))
            });
            if listened {
                let (hisses, holes) = self.hears(at, rings, own);
                reading["hisses"] = json!(hisses);
                reading["plug_holes"] = json!(holes);
            }
            readings.push(reading);
        }
        json!({
            "tester": {"supply": "552 kPa", "orifice": format!("{orifice} mm")},
            "readings": readings,
            "rule": {"of_bore": true},
            "warm": self.is(0.8)
        })
    }

    /// Where it hisses: what is heard grows with the area, and some is heard that is not there.
    fn hears(&mut self, at: usize, rings: f64, own: [f64; 4]) -> (Vec<&'static str>, Vec<String>) {
        let mut hisses = Vec::new();
        for (name, area, middle) in [
            ("breather", rings, 0.75),
            ("intake", own[1], 0.35),
            ("exhaust", own[2], 0.35),
        ] {
            let heard = rising(area.max(0.01).ln(), f64::ln(middle), 0.35);
            if self.is(0.02 + 0.95 * heard) {
                hisses.push(name);
            }
        }
        let mut holes = Vec::new();
        if let Some((way, area)) = self.engine.gasket.filter(|_| own[3] > 0.0) {
            let heard = rising(f64::ln(area), f64::ln(0.4), 0.35);
            if self.is(0.95 * heard) {
                match way {
                    Gasket::Neighbour(first) => {
                        let other = if at == first { first + 1 } else { first };
                        holes.push((other + 1).to_string());
                    }
                    Gasket::Coolant(_) => hisses.push("coolant"),
                    Gasket::Edge(_) => hisses.push("gasket_edge"),
                }
            }
        }
        (hisses, holes)
    }
}

const LEAVES: [f64; 18] = [
    0.05, 0.08, 0.10, 0.12, 0.14, 0.15, 0.16, 0.18, 0.20, 0.22, 0.24, 0.26, 0.28, 0.30, 0.35, 0.40,
    0.50, 0.60,
];

fn kilopascals(value: f64) -> Value {
    json!(format!("{value:.0} kPa"))
}
