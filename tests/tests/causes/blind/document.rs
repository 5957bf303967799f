//! The document of a drawn engine, and what the kernel says to it.

use super::engine::Engine;
use super::mechanic::{KINDS, Kind, Mechanic, usual};
use super::{Stated, Taken};
use fastrand::Rng;
use serde_json::{Value, json};

fn head(engine: &Engine) -> Value {
    let labels: Vec<Value> = (1..=engine.cylinders)
        .map(|label| json!({"label": label.to_string()}))
        .collect();
    let order = if engine.cylinders == 4 {
        json!(["1", "3", "4", "2"])
    } else {
        json!(["1", "5", "3", "6", "2", "4"])
    };
    json!({
        "cycle": "four_stroke",
        "cylinders": labels,
        "firing_order": order,
        "firing": "even",
        "rotation": {"sense": "clockwise", "seen_from": "free_end"},
        "numbering": "free_end",
        "ignition": "battery"
    })
}

/// The whole document, by what was read.
fn document(mechanic: &mut Mechanic<'_>, kinds: &[Kind]) -> Value {
    let engine = mechanic.engine;
    let has = |kind: Kind| kinds.contains(&kind);
    let past = has(Kind::Past);
    let mut whole = json!({
        "lashwork": 1,
        "title": "Invented engine, drawn",
        "engine": head(engine),
        "causes": {}
    });
    if has(Kind::Lash) || past {
        whole["clearance"] = mechanic.clearance(has(Kind::Lash));
    }
    if past {
        whole["record"] = json!({"distance": format!("{:.0} km", 1000.0 * engine.past.today)});
        whole["history"] = mechanic.history();
    }
    let air = json!({"altitude": format!("{:.0} m", engine.altitude), "temperature": "20 C"});
    let mut condition = json!({
        "air": air.clone(),
        "bore": format!("{:.1} mm", engine.bore),
        "cylinder_volume": format!("{:.0} ml", engine.swept / 1000.0)
    });
    if mechanic.rng.f64() < 0.75 {
        condition["compression_ratio"] = json!((10.0 * engine.ratio_printed).round() / 10.0);
        condition["intake_closes_abdc"] = json!(format!("{} deg", engine.closes_printed));
    }
    if has(Kind::Compression) {
        condition["compression"] = mechanic.compression(has(Kind::Oil));
    }
    if has(Kind::Leak) {
        condition["leak"] = mechanic.leak(has(Kind::Listen));
    }
    whole["condition"] = condition;
    if has(Kind::Dwell) || has(Kind::Timing) {
        let mut ignition = json!({
            "distributor": {"rotor": "clockwise", "lobes": engine.cylinders, "clamp": "27 mm"}
        });
        if has(Kind::Dwell) {
            ignition["contacts"] = mechanic.contacts();
        }
        if has(Kind::Timing) {
            ignition["timing"] = mechanic.timing();
        }
        whole["ignition"] = ignition;
    }
    let mut mixture = json!({"air": air, "fuel": "E5"});
    if has(Kind::Gauge) {
        mixture["gauge"] = mechanic.gauge();
    }
    if has(Kind::Gas) {
        mixture["gas"] = mechanic.gas();
    }
    if has(Kind::Gauge) || has(Kind::Gas) {
        whole["mixture"] = mixture;
    }
    if has(Kind::Plugs) {
        whole["causes"]["plugs"] = mechanic.plugs();
    }
    whole
}

/// Draws one engine, lets it be read, and the kernel judge.
pub(super) fn judged(mut rng: Rng, taken: Taken) -> Stated {
    let engine = Engine::draw(&mut rng);
    let kinds = match taken {
        Taken::Usual => usual(&mut rng),
        Taken::Everything => KINDS.to_vec(),
    };
    let mut mechanic = Mechanic::new(&engine, rng);
    let whole = document(&mut mechanic, &kinds).to_string();
    let report = lashwork_wire::report(whole.as_bytes())
        .unwrap_or_else(|problems| panic!("{problems:#?}\n{whole}"));
    let causes = report.causes.unwrap();
    Stated {
        faults: engine.faults,
        causes: causes
            .causes
            .iter()
            .map(|own| (own.cause, own.probability))
            .collect(),
        nothing: causes.nothing,
    }
}
