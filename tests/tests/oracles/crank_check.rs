//! Explanations of rockers felt against plain products of probabilities in whole degrees, scipy's
//! binomial tail and relative entropy (data: `tests/oracles/crank_check.json`).
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use lashwork::engine::{
    CylinderLabel, End, Engine, EngineParts, Intervals, Numbering, Rotation, Sense, layout,
};
use lashwork::quantity::Cycle;
use lashwork::rockers::{
    AssumedPosition, CrankCheck, CrankSlip, Feel, Hypothesis, MisreadRisk, RockerCheck, Rockers,
};
use lashwork::valve::{CamEvents, ValveId, ValveKind};
use lashwork_tests::values::deg;
use lashwork_tests::{Differences, list, number, numbers, oracle, text};
use serde_json::Value;

/// Products and sums of up to 16 probabilities, exponentials of sums of logarithms.
const SHARE: f64 = 1e-12;

fn engine(order: &[CylinderLabel]) -> Engine {
    Engine::new(EngineParts {
        cycle: Cycle::FourStroke,
        cylinders: layout::inline(order.len(), &[]),
        order: order.to_vec(),
        intervals: Intervals::Even,
        rotation: Rotation {
            sense: Sense::Clockwise,
            seen_from: End::Free,
        },
        numbering: Numbering::FromFreeEnd,
    })
    .unwrap()
}

fn label(value: &Value) -> CylinderLabel {
    CylinderLabel::new(value.as_str().unwrap()).unwrap()
}

fn rocker_check(engine: &Engine, value: &Value) -> RockerCheck {
    let field = |i: usize| value[i].as_str().unwrap();
    RockerCheck {
        valve: ValveId {
            cylinder: engine.index_of(&label(&value[0])).unwrap(),
            kind: match field(1) {
                "intake" => ValveKind::Intake,
                _ => ValveKind::Exhaust,
            },
            number: 1,
        },
        feel: match field(2) {
            "free" => Feel::Free,
            _ => Feel::Tight,
        },
    }
}

fn is(hypothesis: &Hypothesis, wanted: &Value) -> bool {
    let cause = match hypothesis.cause {
        CrankSlip::AsBelieved => "as_believed",
        CrankSlip::OneTurnOut => "one_turn_out",
        CrankSlip::NeighbouringMark => "neighbouring_mark",
        CrankSlip::CountedBackwards => "counted_backwards",
        CrankSlip::OtherOrder => "other_order",
    };
    let order = hypothesis.order.iter().flatten();
    let order: String = order.map(ToString::to_string).collect();
    let apart = (hypothesis.position.degrees() - number(wanted, "at_deg")).abs();
    cause == text(wanted, "cause") && order == text(wanted, "first_other") && apart < 1e-6
}

#[test]
fn every_explanation_has_its_probability() {
    let mut differences = Differences::default();
    for case in oracle("crank_check") {
        let id = text(&case, "id");
        let order: Vec<CylinderLabel> = list(&case, "order").iter().map(label).collect();
        let engine = engine(&order);
        let events = numbers(&case, "events");
        let events = CamEvents::new(
            deg(events[0]),
            deg(events[1]),
            deg(events[2]),
            deg(events[3]),
        );
        let guard = deg(number(&case, "guard"));
        let rockers = Rockers::new(&engine, &events.unwrap(), guard, 1, 1).unwrap();
        let believed = engine.index_of(&label(&case["believed"])).unwrap();
        let answer = rockers
            .weigh(&CrankCheck {
                believed: AssumedPosition::FiringTdc(believed),
                checks: list(&case, "checks")
                    .iter()
                    .map(|l| rocker_check(&engine, l))
                    .collect(),
                wrong_call: Some(MisreadRisk::new(number(&case, "wrong_call")).unwrap()),
                also_orders: Vec::new(),
            })
            .unwrap();
        let wanted = list(&case, "hypotheses");
        let count: usize = answer.groups.iter().map(|g| g.hypotheses.len()).sum();
        assert_eq!(count, wanted.len(), "{id}");
        for wanted in wanted {
            let group = answer
                .groups
                .iter()
                .find(|g| g.hypotheses.iter().any(|h| is(h, wanted)));
            let group = group.unwrap_or_else(|| panic!("{id}: no {wanted}"));
            let found = group.hypotheses.iter().find(|h| is(h, wanted)).unwrap();
            let place = format!(
                "{id} {} at {}",
                text(wanted, "cause"),
                text(wanted, "at_deg")
            );
            let mut compare = |what: &str, got: f64, slack: f64| {
                differences.compare(
                    &format!("{place} {what}"),
                    got,
                    number(wanted, what),
                    0.0,
                    slack,
                );
            };
            compare("probability", found.probability, SHARE);
            compare("wrong_calls", group.wrong_calls as f64, 0.0);
            compare("chance_of_so_many", group.chance_of_so_many, SHARE);
        }
        let bits = answer.next.map_or(0.0, |next| next.bits);
        differences.compare(
            &format!("{id} bits"),
            bits,
            number(&case, "best_bits"),
            1e-9,
            0.0,
        );
    }
    differences.settle();
}
