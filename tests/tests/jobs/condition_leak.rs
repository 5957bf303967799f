//! Leak-down in a document: areas, rules by face and by area, where it hisses, and what holds the crank.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::condition_read::{document, leak, refused_with, report, section, step};
use super::ignition_four::{assumed, run};
use approx::assert_abs_diff_eq;
use lashwork::condition::leak::LeakPath;
use lashwork::job::{Standing, WorkAdvice, WorkStep};
use lashwork::tolerance::Verdict;
use serde_json::{Value, json};

fn read(psi: [f64; 4]) -> Value {
    let one = |(i, psi): (usize, &f64)| json!({"cylinder": (i + 1).to_string(), "shows": format!("{psi} psi"), "held": true});
    psi.iter().enumerate().map(one).collect()
}

fn tester() -> Value {
    json!({"supply": "80 psi", "supply_uncertainty": "0.3 psi", "orifice": "0.040 in", "diameter_uncertainty": "0.005 mm"})
}

fn of(readings: &Value) -> Value {
    json!({
        "valves": "settled", "bore": "90 mm", "air": {"altitude": "0 m"},
        "leak": {
            "tester": tester(), "readings": readings, "rule": {"of_bore": true},
            "gauge_uncertainty": "0.3 psi", "warm": true, "unit": "psi"
        }
    })
}

/// CALC: 60 of 80 psi through 0.040 in at sea level is a hole of 0.858 mm2 (two restrictions in series); FAA AC
/// 43.13-1B, 8-14, quotes 60 over 80 as the least.
#[test]
fn a_leak_is_told_as_an_area() {
    let report = report(&of(&read([76.0, 60.0, 75.0, 48.0])));
    let found = leak(&report);
    assert_abs_diff_eq!(found.cylinders[1].area_mm2, 0.858, epsilon = 2e-3);
    assert_abs_diff_eq!(found.cylinders[1].percent_lost, 25.0, epsilon = 0.01);
    let hole = found.cylinders[1].hole.mm();
    assert_abs_diff_eq!(
        hole,
        (4.0 * 0.858_f64 / std::f64::consts::PI).sqrt(),
        epsilon = 2e-3
    );
    assert_eq!(found.worst, "cylinder 4");
    let verdict = |i: usize| found.cylinders[i].judged.as_ref().expect("a rule").verdict;
    assert_eq!(verdict(0), Verdict::InBand);
    assert_eq!(verdict(3), Verdict::Above);
    assert_eq!(step(&report, WorkStep::Leak), Standing::NotSettled);
    let text = &found.cylinders[3].text;
    assert!(
        text.contains("as large a leak as 60 psi of 80 psi (at most 0.86 mm2): leaks too much"),
        "{text}"
    );
    assert!(assumed(&report, "condition.leak-equal-discharge"));
    assert!(!assumed(&report, "condition.leak-supply-assumed"));
}

/// Another tester shows another percentage of the same leak; by the area both are judged alike, by what they show
/// they are never mixed.
#[test]
fn two_testers_are_compared_by_area_only() {
    let mut readings = read([60.0, 76.0, 76.0, 76.0]);
    // CALC: 0.858 mm2 through 0.060 in: 75.31 of 80 psi.
    readings[1]["shows"] = json!("75.31 psi");
    readings[1]["tester"] = json!({"supply": "80 psi", "supply_uncertainty": "0.3 psi", "orifice": "0.060 in", "diameter_uncertainty": "0.005 mm"});
    let mut asked = of(&readings);
    let by_area = report(&asked);
    let found = leak(&by_area);
    assert_abs_diff_eq!(
        found.cylinders[0].area_mm2,
        found.cylinders[1].area_mm2,
        epsilon = 0.02
    );
    assert!(found.cylinders[0].percent_lost > 2.0 * found.cylinders[1].percent_lost);
    asked["leak"]["by"] = json!("face");
    refused_with(
        "/condition/leak/readings/1",
        "condition.leak-two-testers",
        &asked,
    );
}

/// The tester's orifice by a hole of known size: as large a hole shows 61.77 of 80 psi (choked; published formula).
#[test]
fn a_tester_is_known_by_a_hole() {
    let mut asked = of(&read([60.0, 76.0, 76.0, 76.0]));
    asked["leak"]["tester"] =
        json!({"supply": "80 psi", "master": {"hole": "0.040 in", "shows": "61.77 psi"}});
    let report = report(&asked);
    assert_abs_diff_eq!(leak(&report).cylinders[0].area_mm2, 0.858, epsilon = 3e-3);
    assert!(assumed(&report, "condition.leak-supply-assumed"));
}

/// Where it hisses says what leaks: exhaust valve, rings (published); a neighbour's plug hole the gasket, another's
/// the manifold (common practice, no source).
#[test]
fn where_it_hisses_says_what_leaks() {
    let hissing = |hisses: Value, holes: Value| {
        let mut readings = read([76.0, 40.0, 76.0, 76.0]);
        readings[1]["hisses"] = hisses;
        readings[1]["plug_holes"] = holes;
        report(&of(&readings))
    };
    let exhaust = hissing(json!(["exhaust"]), json!([]));
    assert_eq!(leak(&exhaust).cylinders[1].paths, [LeakPath::ExhaustValve]);
    let WorkAdvice::FindCause { causes, .. } = &leak(&exhaust).advice else {
        panic!("{:?}", leak(&exhaust).advice);
    };
    assert!(
        causes[0].starts_with("cylinder 2: the exhaust valve: its clearance"),
        "{causes:?}"
    );
    let neighbour = hissing(json!([]), json!(["3"]));
    assert_eq!(
        leak(&neighbour).cylinders[1].paths,
        [LeakPath::GasketToNeighbour]
    );
    let far = hissing(json!([]), json!(["4"]));
    assert_eq!(leak(&far).cylinders[1].paths, [LeakPath::ThroughManifold]);
    // Nothing heard: listen first.
    let quiet = hissing(json!([]), json!([]));
    assert!(
        matches!(&leak(&quiet).advice, WorkAdvice::Measure { text } if text.contains("listen"))
    );
}

/// Cold rings leak more, and valves that were not set leak: neither is taken apart for it.
#[test]
fn what_is_not_sure_is_read_again() {
    let mut readings = read([76.0, 40.0, 76.0, 76.0]);
    readings[1]["hisses"] = json!(["breather"]);
    let mut asked = of(&readings);
    asked["leak"]["warm"] = json!(false);
    let cold = report(&asked);
    assert!(matches!(&leak(&cold).advice, WorkAdvice::Measure { text } if text.contains("warm")));
    asked["valves"] = json!("not_settled");
    let not_settled = report(&asked);
    assert!(matches!(
        &leak(&not_settled).advice,
        WorkAdvice::SettleFirst { .. }
    ));
    let text = leak(&not_settled).provisional.clone().expect("said");
    assert!(text.contains("settle the valve clearances first"), "{text}");
    assert_eq!(
        section(&not_settled).next.as_ref().expect("open").step,
        WorkStep::Valves
    );
}

/// CALC: 80 psi on 90 mm of bore, throw 45 mm, rod 150 mm, 5 degrees off the top: 17.88 Nm by virtual work.
#[test]
fn the_air_turns_the_crank_and_the_sheet_says_so_first() {
    let mut document = document(&of(&read([76.0, 75.0, 76.0, 76.0])));
    document["engine"]["crank"] = json!({"throw": "45 mm", "rod": "150 mm", "offset": "0 mm"});
    let report = run(&document);
    let text = leak(&report).turning_text.clone().expect("crank and bore");
    assert!(text.contains("turns the crank with 18 Nm"), "{text}");
    let said = report.cautions.join(" ");
    assert!(
        said.contains("turns the crank") && said.contains("hands and tools off"),
        "{said}"
    );
    let sheet = report.sheet();
    let caution = sheet
        .find("! Air in a cylinder turns the crank")
        .expect("said");
    assert!(caution < sheet.find("Leak-down: ").expect("said"));
    assert_eq!(step(&report, WorkStep::Leak), Standing::Settled);
    assert!(matches!(leak(&report).advice, WorkAdvice::Leave { .. }));
}

#[test]
fn without_a_rule_sizes_are_told_and_nothing_is_judged() {
    let mut asked = of(&read([76.0, 40.0, 76.0, 76.0]));
    asked["leak"]
        .as_object_mut()
        .expect("an object")
        .remove("rule");
    let report = report(&asked);
    assert!(
        leak(&report)
            .cylinders
            .iter()
            .all(|one| one.judged.is_none())
    );
    assert_eq!(step(&report, WorkStep::Leak), Standing::NotKnown);
    assert!(leak(&report).verdict_text.contains("no rule is stated"));
}

#[test]
fn what_cannot_be_is_refused_where_it_stands() {
    let at = |field: &str| format!("/condition/leak{field}");
    let with = |pointer: &str, value: Value| {
        let mut asked = of(&read([76.0, 75.0, 76.0, 76.0]));
        let (object, field) = pointer.rsplit_once('/').expect("a field");
        asked["leak"].pointer_mut(object).expect("there")[field] = value;
        asked
    };
    let asked = with("/readings/2/shows", json!("81 psi"));
    refused_with(
        &at("/readings/2/shows"),
        "condition.leak-over-supply",
        &asked,
    );
    let asked = with("/readings/2/shows", json!("0 psi"));
    refused_with(
        &at("/readings/2/shows"),
        "condition.leak-holds-nothing",
        &asked,
    );
    let asked = with("/readings/2/held", json!(false));
    refused_with(&at("/readings/2/held"), "condition.leak-not-held", &asked);
    let asked = with("/readings/2/cylinder", json!("2"));
    refused_with(
        &at("/readings/2/cylinder"),
        "condition.leak-read-twice",
        &asked,
    );
    let asked = with("/readings/2/cylinder", json!("9"));
    refused_with(&at("/readings/2/cylinder"), "job.no-such-cylinder", &asked);
    let asked = with("/readings", json!([]));
    refused_with(&at("/readings"), "condition.leak-no-reading", &asked);
    let asked = with("/tester", Value::Null);
    refused_with(&at(""), "condition.leak-no-tester", &asked);
    let asked = with("/tester/orifice", Value::Null);
    refused_with(&at("/tester"), "condition.leak-one-orifice", &asked);
    let asked = with("/tester/orifice", json!("12 mm"));
    refused_with(&at("/tester"), "condition.leak-orifice", &asked);
    let asked = with("/tester/supply", json!("5 psi"));
    refused_with(&at("/tester"), "condition.leak-supply", &asked);
    let asked = with("/rule", json!({"supply": "80 psi", "orifice": "0.040 in"}));
    refused_with(&at("/rule"), "condition.leak-half-rule", &asked);
    let asked = with(
        "/rule",
        json!({"supply": "80 psi", "orifice": "0.040 in", "least": "85 psi"}),
    );
    refused_with(&at("/rule"), "condition.leak-rule", &asked);
    // A rule of 80 psi with another supply.
    let mut asked = with("/tester/supply", json!("100 psi"));
    asked["leak"]["by"] = json!("face");
    refused_with(&at("/rule"), "condition.leak-other-supply", &asked);
    let mut asked = of(&read([76.0, 75.0, 76.0, 76.0]));
    asked.as_object_mut().expect("an object").remove("bore");
    refused_with(&at("/rule"), "condition.leak-no-bore", &asked);
}

/// A refusal says pressures in the unit that the leaks are said in.
#[test]
fn refusals_say_the_unit_of_the_document() {
    let message = |field: &str, value: Value| {
        let mut asked = of(&read([76.0, 75.0, 76.0, 76.0]));
        *asked["leak"].pointer_mut(field).expect("there") = value;
        let problems = lashwork_wire::report(document(&asked).to_string().as_bytes());
        let problems = problems.expect_err("refused");
        problems.first().expect("one").message.clone()
    };
    let over = message("/readings/2/shows", json!("621 kPa"));
    assert_eq!(
        over,
        "90 psi in the cylinder is over the 80 psi that is supplied"
    );
    for (field, value) in [
        ("/readings/2/shows", json!("0 kPa")),
        ("/tester/supply", json!("35 kPa")),
        (
            "/rule",
            json!({"supply": "552 kPa", "orifice": "0.040 in", "least": "600 kPa"}),
        ),
    ] {
        let said = message(field, value);
        assert!(said.contains(" psi") && !said.contains("kPa"), "{said}");
    }
}
