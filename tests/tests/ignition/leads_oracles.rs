//! The odds of faults of leads and distributor against scipy's normal densities and a plain product of chances
//! (data: `tests/oracles/ignition_leads.json`).
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a test stops at the first thing it does not expect; the data hold small whole numbers"
)]

use lashwork::engine::{Engine, layout};
use lashwork::ignition::leads::{
    Delivery, LeadCheck, LeadState, Look, MisreadChance, Points, Running,
};
use lashwork::quantity::{CyclePosition, DistributorAngle};
use lashwork_tests::values::deg;
use lashwork_tests::{Differences, list, number, numbers, oracle, text};
use serde_json::Value;

/// Products of a handful of densities, and their sum.
const ODDS: f64 = 1e-12;

fn look(engine: &Engine, of: &Value) -> Look {
    let at = |i: usize| of[i].as_str().unwrap().parse::<f64>().unwrap();
    let cylinder = |i: usize| engine.order()[at(i) as usize];
    let crank = |i: usize| CyclePosition::new(engine.cycle(), deg(at(i)));
    match of[0].as_str().unwrap() {
        "lead" => Look::Lead {
            tower: at(1) as usize,
            cylinder: cylinder(2),
        },
        "rotor" => Look::Rotor {
            crank: crank(1),
            stroke_checked: of[2].as_bool().unwrap(),
            points: Points::At(DistributorAngle::from_degrees(at(3)).unwrap()),
        },
        "spark" => Look::Spark {
            cylinder: cylinder(1),
            crank: crank(2),
            stroke_checked: of[3].as_bool().unwrap(),
        },
        _ => Look::Runs {
            cylinder: cylinder(1),
            does: match of[2].as_str().unwrap() {
                "fires" => Running::Fires,
                "spits_back" => Running::SpitsBack,
                "bangs_in_exhaust" => Running::BangsInExhaust,
                _ => Running::Dead,
            },
        },
    }
}

fn state(engine: &Engine, of: &Value) -> LeadState {
    let (first, second) = (
        of["first"].as_i64().unwrap(),
        of["second"].as_i64().unwrap(),
    );
    let place = |at: i64| engine.order()[at as usize];
    match text(of, "kind") {
        "as_it_should" => LeadState::AsItShould,
        "half_turn_out" => LeadState::HalfTurnOut,
        "teeth_out" => LeadState::TeethOut {
            ahead: first as i16,
        },
        "two_exchanged" => LeadState::TwoExchanged {
            first: place(first),
            second: place(second),
        },
        "all_shifted" => LeadState::AllShifted {
            towers: first as usize,
        },
        "moved_to_suit" => LeadState::MovedToSuit {
            towers: first as usize,
        },
        "against_rotor" => LeadState::AgainstRotor,
        "something_else" => LeadState::SomethingElse,
        other => panic!("{other}"),
    }
}

#[test]
fn odds_are_those_of_a_plain_product() {
    let mut differences = Differences::default();
    let mut told = 0;
    for (at, case) in oracle("ignition_leads").iter().enumerate() {
        let intervals = numbers(case, "intervals");
        let count = intervals.len();
        let engine = Engine::builder(layout::inline(count, &[]))
            .order(1..=count)
            .intervals(intervals.into_iter().map(deg))
            .build()
            .unwrap();
        let looks = list(case, "looks").iter().map(|of| look(&engine, of));
        let check = LeadCheck {
            delivery: Delivery::Distributor {
                teeth: Some(case["teeth"].as_u64().unwrap() as u16),
            },
            looks: looks.collect(),
            also_orders: Vec::new(),
            misread: Some(MisreadChance::new(number(case, "wrong")).unwrap()),
            priors: None,
        };
        let answer = check.weigh(&engine).unwrap();
        let states = list(case, "states");
        let weighed = || answer.groups.iter().flat_map(|group| &group.states);
        assert_eq!(weighed().count(), states.len(), "case {at}");
        for of in states {
            let state = state(&engine, of);
            let found = weighed().find(|one| one.state == state).unwrap();
            let wanted = number(of, "probability");
            let what = format!("case {at}, {state:?}");
            differences.compare(&what, found.probability, wanted, ODDS, ODDS);
            told += 1;
        }
    }
    differences.settle();
    assert!(told > 500, "{told}");
}
