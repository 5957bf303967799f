//! What the mechanic sees of the plugs, the contacts, the timing and the running engine, and has written down before.

use super::chance::{about, between, normal, rising};
use super::engine::{Gasket, Nuisance};
use super::mechanic::Mechanic;
use super::physics::{self, Gas};
use serde_json::{Map, Value, json};

impl Mechanic<'_> {
    pub(super) fn plugs(&mut self) -> Value {
        let mut seen = Vec::new();
        for at in 0..self.engine.cylinders {
            let (burns, missed) = (self.idling.lambda[at], self.idling.missed[at]);
            let oil = match self.engine.nuisance {
                Some(Nuisance::StemOil(own)) if own == at => 0.7,
                _ => 0.75 * rising(self.engine.rings[at], 1.3, 0.3),
            };
            let short = self.engine.nuisance == Some(Nuisance::ShortRuns);
            let water = matches!(self.engine.gasket, Some((Gasket::Coolant(own), _)) if own == at);
            let sign = if self.is(oil) {
                "oily"
            } else if self.is(0.8 * rising(missed, 0.45, 0.12)) {
                "wet"
            } else if water && self.is(0.5) {
                if self.is(0.5) { "white" } else { "wet" }
            } else if self.is(0.85 * rising(-burns, -0.83, 0.02)) || (short && self.is(0.7)) {
                "sooty"
            } else if self.is(0.8 * rising(burns, 1.08, 0.025)) {
                "white"
            } else if self.is(0.08) {
                ["sooty", "white", "oily"][self.rng.usize(0..3)]
            } else {
                "normal"
            };
            seen.push(json!({"cylinder": (at + 1).to_string(), "seen": sign}));
        }
        Value::Array(seen)
    }

    pub(super) fn contacts(&mut self) -> Value {
        let (shows, middle) = (
            self.engine.dwell + self.noise(0.9),
            self.engine.dwell_middle,
        );
        json!({
            "dwell": {"shows": format!("{shows:.1} deg")},
            "dwell_limits": {"from": format!("{} deg", middle - 4.0), "to": format!("{} deg", middle + 4.0)}
        })
    }

    pub(super) fn timing(&mut self) -> Value {
        let read = self.engine.spark + self.noise(0.9);
        let side = if read < 0.0 { "ATDC" } else { "BTDC" };
        json!({
            "limits": {"from": "6 deg BTDC", "to": "10 deg BTDC"},
            "printed_for": {"speed": "750 rpm", "vacuum_hose": "plugged"},
            "reading": {
                "read": format!("{:.1} deg {side}", read.abs()), "lamp_delay_us": 0,
                "running": {"speed": "750 rpm", "vacuum_hose": "plugged"}
            }
        })
    }

    pub(super) fn gauge(&mut self) -> Value {
        let level = self.idling.vacuum + self.noise(1.7);
        let drop = self.idling.drop * about(&mut self.rng, 1.0, 1.25);
        let wrong = self.idling.lambda.iter().sum::<f64>() / self.engine.cylinders as f64;
        let drifts = rising((wrong - 0.94).abs(), 0.17, 0.03);
        let movement = if self.is(0.04) {
            ["steady", "even_ripple", "now_and_then"][self.rng.usize(0..3)]
        } else if drop > 24.0 {
            "wide_swing"
        } else if drop > 4.5 && self.idling.often > 0.6 {
            "regular_drop"
        } else if drop > 1.6 && self.idling.often > 0.6 {
            "small_flick"
        } else if self.idling.missed.iter().any(|own| *own > 0.06) {
            "now_and_then"
        } else if self.is(0.7 * drifts) {
            "slow_drift"
        } else if self.engine.cylinders == 4 && self.is(0.5) {
            "even_ripple"
        } else {
            "steady"
        };
        let mut own = json!({
            "cylinders": self.engine.cylinders,
            "level": format!("{:.1} kPa", level.max(5.0)),
            "movement": movement
        });
        if matches!(movement, "regular_drop" | "wide_swing") {
            own["drop"] = json!(format!("{:.1} kPa", drop.min(level - 3.0).max(1.0)));
        }
        if self.is(0.6) {
            own["with_speed"] = json!(match movement {
                "steady" | "even_ripple" => "same",
                _ if self.idling.steadies => "steadies",
                _ if self.engine.beside.is_some() => "smaller_faster",
                _ => "same",
            });
        }
        own
    }

    pub(super) fn gas(&mut self) -> Value {
        let Gas { co, co2, o2, hc } = physics::exhaust(&self.idling);
        // Air at a leaky exhaust or a shallow probe thins everything, and brings oxygen.
        let thin = if self.is(0.08) {
            between(&mut self.rng, 0.03, 0.15)
        } else {
            0.0
        };
        let mut own = Map::new();
        let percent = |x: f64| json!(format!("{:.2} %", (100.0 * x).max(0.0)));
        let read = (co * (1.0 - thin)) * (1.0 + self.noise(0.04)) + self.noise(0.000_5);
        own.insert("co".into(), percent(read.max(0.0001)));
        if self.is(0.6) {
            let dioxide = co2 * (1.0 - thin) * (1.0 + self.noise(0.02));
            let oxygen = o2 * (1.0 - thin) + 0.209 * thin;
            own.insert("co2".into(), percent(dioxide));
            own.insert(
                "o2".into(),
                percent(oxygen * (1.0 + self.noise(0.04)) + self.noise(0.000_5).abs()),
            );
            // An infrared cell for hexane sees about half of what petrol leaves.
            let ppm = 1e6 * 0.55 * hc * (1.0 - thin) * (1.0 + self.noise(0.06));
            let shown = json!({"read": format!("{:.0} ppm", ppm.max(5.0)), "shown_as": "hexane"});
            own.insert("hc".into(), shown);
        }
        own.insert("warm".into(), json!(true));
        own.insert("read_at".into(), json!("idle"));
        own.insert("class".into(), json!("I"));
        own.insert(
            "limits".into(),
            json!({"co": {"from": "1 %", "to": "4 %"}, "hc": {"to": "400 ppm"}}),
        );
        Value::Object(own)
    }

    pub(super) fn history(&mut self) -> Value {
        let past = &self.engine.past;
        let began = past.services.first().map_or(past.today, |first| first.at);
        let mut services = Vec::new();
        for service in &past.services {
            let mut lash = Vec::new();
            for (at, (found, left)) in service.found.iter().zip(&service.left).enumerate() {
                for (valve, name) in [(0, "intake"), (1, "exhaust")] {
                    let mut own = json!({
                        "cylinder": (at + 1).to_string(), "valve": name,
                        "found": {"lash": format!("{:.2} mm", found[valve])}
                    });
                    if let Some(left) = left[valve] {
                        own["left"] = json!({"lash": format!("{left:.2} mm")});
                    }
                    lash.push(own);
                }
            }
            let run = (past.today - service.at) / (past.today - began).max(1.0);
            let dwell = self.engine.dwell - self.engine.dwell_grew * run;
            let dwell = dwell + 0.9 * normal(&mut self.rng);
            services.push(json!({
                "distance": format!("{:.0} km", 1000.0 * service.at),
                "lash": lash,
                "dwell": [{"found": {"shows": format!("{dwell:.1} deg")}}]
            }));
        }
        json!({ "services": services })
    }
}
