//! Leads and distributors as the trade meets them: common practice, no source but the geometry.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use crate::leads_simulation::{check, engine};
use lashwork::engine::{CylinderLabel, Engine, layout};
use lashwork::ignition::leads::{
    Delivery, LeadFault, LeadState, LeadVerdict, Look, LookAt, Points, Running,
};
use lashwork::quantity::{CyclePosition, DistributorAngle};
use lashwork_tests::values::deg;

fn rotor(engine: &Engine, stroke_checked: bool, degrees: f64) -> Look {
    Look::Rotor {
        crank: engine.firing_position(engine.order()[0]),
        stroke_checked,
        points: Points::At(DistributorAngle::from_degrees(degrees).unwrap()),
    }
}

/// At the mark with nobody sure of the stroke, a rotor across the cap may be half a turn out or the crank a
/// turn on: it is not settled, and the next look makes sure of the stroke.
#[test]
fn across_the_cap_at_the_mark_alone_settles_nothing() {
    let engine = engine(0);
    let leads = engine.order().iter().copied().enumerate();
    let leads: Vec<Look> = leads
        .map(|(tower, cylinder)| Look::Lead { tower, cylinder })
        .collect();
    let mut looks = leads.clone();
    looks.push(rotor(&engine, false, 180.0));
    let unsure = check(looks).weigh(&engine).unwrap();
    assert_ne!(unsure.verdict, LeadVerdict::Settled);
    assert_eq!(unsure.groups[0].states[0].state, LeadState::AsItShould);
    let first = engine.order()[0];
    let next = unsure.next.unwrap().at;
    assert_eq!(next, LookAt::RotorAtFiring { cylinder: first });
    let mut looks = leads;
    looks.push(rotor(&engine, true, 180.0));
    let sure = check(looks).weigh(&engine).unwrap();
    assert_eq!(sure.groups[0].states[0].state, LeadState::HalfTurnOut);
    assert_eq!(sure.verdict, LeadVerdict::Settled);
}

/// Thirteen teeth are 27.7 distributor degrees each, 55.4 of the crank: a rotor that far ahead is one tooth.
#[test]
fn a_tooth_is_an_angle_of_its_own() {
    let engine = engine(0);
    for (degrees, ahead) in [(27.7, 1), (332.3, -1), (55.4, 2)] {
        let answer = check(vec![rotor(&engine, true, degrees)])
            .weigh(&engine)
            .unwrap();
        assert_eq!(
            answer.groups[0].states[0].state,
            LeadState::TeethOut { ahead }
        );
    }
    // Without a count of the teeth it is something else, and that is said.
    let mut uncounted = check(vec![rotor(&engine, true, 40.0)]);
    uncounted.delivery = Delivery::Distributor { teeth: None };
    let answer = uncounted.weigh(&engine).unwrap();
    let state = answer.groups[0].states[0].state;
    assert_eq!(state.fault(), LeadFault::SomethingElse);
    assert_eq!(answer.verdict, LeadVerdict::NothingFits);
    assert!(
        answer
            .assumptions
            .iter()
            .any(|a| a.code() == "ignition.teeth-not-stated")
    );
}

/// Leads of companions exchanged: both get their sparks a turn away, where a lamp shows the same mark. Only
/// which stroke it is, or the lead itself, tells.
#[test]
fn companions_exchanged_look_right_by_the_mark() {
    let engine = engine(0);
    let order = engine.order().to_vec();
    let spark = |crank: f64, stroke_checked| Look::Spark {
        cylinder: order[0],
        crank: CyclePosition::new(engine.cycle(), deg(crank)),
        stroke_checked,
    };
    let by_mark = check(vec![spark(710.0, false)]).weigh(&engine).unwrap();
    let turn_on = check(vec![spark(350.0, false)]).weigh(&engine).unwrap();
    assert!((by_mark.groups[0].probability - turn_on.groups[0].probability).abs() < 1e-12);
    let sure = check(vec![spark(350.0, true)]).weigh(&engine).unwrap();
    assert_ne!(sure.groups[0].states[0].state, LeadState::AsItShould);
    let mut states = sure.groups.iter().flat_map(|g| &g.states);
    let exchanged = states.find(|w| match w.state {
        LeadState::TwoExchanged { first, second } => {
            let pair = [first, second];
            pair.contains(&order[0]) && pair.contains(&order[2])
        }
        _ => false,
    });
    assert!(exchanged.unwrap().probability > 0.03);
}

/// Two neighbours of the firing order exchanged: both spit or bang, the other two run.
#[test]
fn two_exchanged_by_how_it_runs() {
    let engine = engine(0);
    let order = engine.order().to_vec();
    let runs = |place: usize, does| Look::Runs {
        cylinder: order[place],
        does,
    };
    // Places 1 and 2: the spark of place 1 comes 180 late, in its exhaust stroke; that of 2 as much early.
    let answer = check(vec![
        runs(0, Running::Fires),
        runs(1, Running::BangsInExhaust),
        runs(2, Running::SpitsBack),
        runs(3, Running::Fires),
    ])
    .weigh(&engine)
    .unwrap();
    let found = answer.groups[0].states[0].state;
    let LeadState::TwoExchanged { first, second } = found else {
        panic!("{found:?}");
    };
    assert!([first, second].contains(&order[1]) && [first, second].contains(&order[2]));
}

/// 1-3-4-2 taken for 1-2-4-3: that is the order against the rotor as well, and the two are one group.
#[test]
fn the_other_four_is_the_same_one_backwards() {
    let engine = engine(0);
    let leads = [1, 2, 4, 3].map(CylinderLabel::numbered);
    let index = |label: &CylinderLabel| engine.index_of(label).unwrap();
    let looks = leads.iter().enumerate().map(|(tower, label)| Look::Lead {
        tower,
        cylinder: index(label),
    });
    let mut asked = check(looks.collect());
    asked.also_orders = vec![leads.to_vec()];
    let answer = asked.weigh(&engine).unwrap();
    let states: Vec<LeadState> = answer.groups[0].states.iter().map(|w| w.state).collect();
    assert!(states.contains(&LeadState::AgainstRotor));
    assert!(states.contains(&LeadState::OtherOrder { listed: 0 }));
    assert_eq!(answer.verdict, LeadVerdict::Settled);
    // For a six the listed order and the one backwards differ.
    let six = crate::leads_simulation::engine(1);
    let other = [1, 4, 2, 6, 3, 5].map(CylinderLabel::numbered).to_vec();
    let backwards = [1, 5, 3, 6, 2, 4];
    let mut asked = check(Vec::new());
    asked.also_orders = vec![
        other,
        [1, 2, 3, 4, 5, 6].map(CylinderLabel::numbered).to_vec(),
    ];
    assert_eq!(backwards.len(), six.order().len());
    assert!(asked.weigh(&six).is_ok());
}

/// A twin with its sparks 315 and 405 degrees apart: towers as far apart as the sparks, and no lead one
/// tower along but the two exchanged.
#[test]
fn an_odd_fire_twin() {
    let twin = Engine::builder(layout::inline(2, &[]))
        .order([1, 2])
        .intervals([deg(315.0), deg(405.0)])
        .build()
        .unwrap();
    let second = twin.order()[1];
    let at_second = |degrees| Look::Rotor {
        crank: twin.firing_position(second),
        stroke_checked: true,
        points: Points::At(DistributorAngle::from_degrees(degrees).unwrap()),
    };
    let right = check(vec![at_second(157.5), rotor(&twin, true, 0.0)]);
    let answer = right.weigh(&twin).unwrap();
    assert_eq!(answer.groups[0].states[0].state, LeadState::AsItShould);
    let half = check(vec![at_second(337.5)]).weigh(&twin).unwrap();
    assert_eq!(half.groups[0].states[0].state, LeadState::HalfTurnOut);
    let all = half.groups.iter().flat_map(|g| &g.states);
    let kinds: Vec<LeadFault> = all.map(|w| w.state.fault()).collect();
    assert!(kinds.contains(&LeadFault::TwoExchanged));
    assert!(!kinds.contains(&LeadFault::AllShifted) && !kinds.contains(&LeadFault::MovedToSuit));
}

/// Coils with two ends: leads of one coil may stand either way round, and half a turn is no fault; leads of
/// two coils exchanged spark half a turn away.
#[test]
fn wasted_spark_pairs() {
    let engine = engine(0);
    let order = engine.order().to_vec();
    let mut asked = check(Vec::new());
    asked.delivery = Delivery::DoubleEndedCoils;
    let nothing = asked.weigh(&engine).unwrap();
    let states: Vec<LeadState> = nothing
        .groups
        .iter()
        .flat_map(|g| &g.states)
        .map(|w| w.state)
        .collect();
    for state in &states {
        if let LeadState::TwoExchanged { first, second } = state {
            assert_ne!(engine.companion(*first), Some(*second));
        }
        assert!(!matches!(
            state.fault(),
            LeadFault::HalfTurnOut | LeadFault::TeethOut
        ));
    }
    assert!(!states.contains(&LeadState::AllShifted { towers: 2 }));
    // Places 0 and 2 share a coil: read there either way round, all is as it should be.
    asked.looks = vec![
        Look::Lead {
            tower: 0,
            cylinder: order[2],
        },
        Look::Lead {
            tower: 2,
            cylinder: order[0],
        },
        Look::Lead {
            tower: 1,
            cylinder: order[1],
        },
    ];
    let right = asked.weigh(&engine).unwrap();
    assert_eq!(right.groups[0].states[0].state, LeadState::AsItShould);
    assert_eq!(right.verdict, LeadVerdict::Settled);
    // A lamp on the first lead half a turn of the crank away: on the other coil.
    asked.looks = vec![
        Look::Spark {
            cylinder: order[0],
            crank: CyclePosition::new(engine.cycle(), deg(170.0)),
            stroke_checked: false,
        },
        Look::Lead {
            tower: 1,
            cylinder: order[0],
        },
    ];
    let wrong = asked.weigh(&engine).unwrap();
    let cylinders = wrong.groups[0].wrong_sparks.clone().unwrap();
    assert!(cylinders.contains(&order[0]));
    assert!(matches!(
        wrong.groups[0].states[0].state.fault(),
        LeadFault::TwoExchanged | LeadFault::AllShifted
    ));
}
