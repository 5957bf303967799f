//! Laws of the balance: an exact linkage is solved in one pass, and what is refused.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use lashwork::Refusal;
use lashwork::mixture::balance::{
    BalanceAnswer, BalanceAssumption, BalanceCheck, BalanceError, JoinedBy, Joint, Linkage,
    NextReading, Shown, ThrottleReading, TrialTurn, Way,
};
use lashwork::quantity::{AbsolutePressure, AirFlow, ScrewAngle, Vacuum};
use lashwork::tolerance::{Measurand, Uncertainty};
use proptest::prelude::*;

fn check<R: Shown>(shown: &[Vec<f64>], scatter: Option<f64>) -> BalanceCheck<R> {
    let reading = |(throttle, shown): (usize, &Vec<f64>)| ThrottleReading {
        throttle,
        shown: shown.iter().map(|v| R::from_number(*v).unwrap()).collect(),
    };
    BalanceCheck {
        readings: shown.iter().enumerate().map(reading).collect(),
        scatter: scatter.map(|u| Uncertainty::from_number(u).unwrap()),
        between_gauges: None,
        trials: vec![],
        allowed: None,
        rule: None,
        ambient: None,
    }
}

fn tried<R: Shown>(joint: usize, degrees: f64, before: f64, after: f64) -> TrialTurn<R> {
    TrialTurn {
        joint,
        turn: ScrewAngle::from_degrees(degrees).unwrap(),
        before: R::from_number(before).unwrap(),
        after: R::from_number(after).unwrap(),
        unmoved: None,
    }
}

fn code(refused: Result<Linkage, Vec<BalanceError>>) -> &'static str {
    refused.unwrap_err()[0].code()
}

/// A tree over 2 to 12 throttles with what a degree of each screw does, and what the throttles show.
fn engines() -> impl Strategy<Value = (Vec<(usize, f64)>, Vec<f64>, usize)> {
    (2_usize..=12).prop_flat_map(|count| {
        let joint = |own: usize| (0..own, prop_oneof![-0.2..-0.02, 0.02..0.2]);
        let joints: Vec<_> = (1..count).map(joint).collect();
        (joints, prop::collection::vec(15.0..35.0, count), 0..count)
    })
}

proptest! {
    /// Every screw turned once, in the order given: each throttle that was set stays as it was set, and at the
    /// end all are as the reference.
    #[test]
    fn an_exact_linkage_is_solved_in_one_pass((joints, shown, reference) in engines()) {
        let tree: Vec<Joint> = joints
            .iter()
            .enumerate()
            .map(|(own, (to, _))| Joint::screw(own + 1, *to))
            .collect();
        let linkage = Linkage::new(shown.len(), &[reference], &tree).unwrap();
        let each: Vec<Vec<f64>> = shown.iter().map(|v| vec![*v]).collect();
        let mut asked: BalanceCheck<Vacuum> = check(&each, Some(0.001));
        asked.trials = joints
            .iter()
            .enumerate()
            .map(|(joint, (_, slope))| tried(joint, 30.0, 40.0, 40.0 + 30.0 * slope))
            .collect();
        let answer = asked.worked_out(&linkage).unwrap();
        prop_assert_eq!(answer.moves.len(), shown.len() - 1);
        let mut now = shown.clone();
        let mut done = vec![reference];
        for one in &answer.moves {
            let turn = one.turn.unwrap().turn.degrees();
            for throttle in linkage.beyond(one.joint) {
                prop_assert!(!done.contains(throttle), "what is done is not disturbed");
                now[*throttle] += joints[one.joint].1 * turn;
            }
            prop_assert!(done.contains(&one.to_match));
            done.push(one.beyond[0]);
            prop_assert!((now[one.beyond[0]] - shown[reference]).abs() < 1e-6);
        }
        for value in now {
            prop_assert!((value - shown[reference]).abs() < 1e-6);
        }
    }

    /// The way of a throttle is that of the physics, whatever the screw does.
    #[test]
    fn more_vacuum_is_less_open(reference in 10.0..40.0_f64, other in 10.0..40.0_f64) {
        let pair = Linkage::new(2, &[0], &[Joint::screw(0, 1)]).unwrap();
        let shown = [vec![reference], vec![other]];
        let by_vacuum = check::<Vacuum>(&shown, Some(0.1)).worked_out(&pair).unwrap();
        let by_flow = check::<AirFlow>(&shown, Some(0.1)).worked_out(&pair).unwrap();
        let opens = |way: Way| way == Way::Open;
        prop_assert_eq!(opens(by_vacuum.moves[0].way), other > reference);
        prop_assert_eq!(opens(by_flow.moves[0].way), other < reference);
        prop_assert!(by_vacuum.moves[0].way_right >= 0.5);
    }
}

#[test]
fn a_linkage_is_a_tree_with_one_reference() {
    let screw = Joint::screw;
    let two = [screw(0, 1)];
    assert_eq!(
        code(Linkage::new(2, &[0, 1], &two)),
        "mixture.two-references"
    );
    assert_eq!(code(Linkage::new(2, &[], &two)), "mixture.no-reference");
    let round = [screw(0, 1), screw(1, 2), screw(2, 3), screw(3, 0)];
    assert_eq!(code(Linkage::new(4, &[0], &round)), "mixture.linkage-loop");
    let twice = [screw(0, 1), screw(1, 0)];
    assert_eq!(code(Linkage::new(2, &[0], &twice)), "mixture.linkage-loop");
    let apart = [screw(0, 1), screw(2, 3)];
    let refused = Linkage::new(4, &[0], &apart).unwrap_err();
    assert_eq!(
        refused,
        [
            BalanceError::NoPath { throttle: 2 },
            BalanceError::NoPath { throttle: 3 }
        ]
    );
    assert_eq!(
        code(Linkage::new(2, &[0], &[screw(0, 2)])),
        "mixture.no-such-throttle"
    );
    assert_eq!(
        code(Linkage::new(2, &[0], &[screw(1, 1)])),
        "mixture.joined-to-itself"
    );
    assert_eq!(code(Linkage::new(13, &[0], &[])), "mixture.throttle-count");
    assert_eq!(code(Linkage::new(1, &[0], &[])), "mixture.throttle-count");
}

#[test]
fn readings_that_cannot_be_are_refused() {
    let pair = Linkage::new(2, &[0], &[Joint::screw(0, 1)]).unwrap();
    let refused = |asked: BalanceCheck<Vacuum>| -> Vec<&'static str> {
        let problems = asked.worked_out(&pair).unwrap_err();
        problems.iter().map(Refusal::code).collect()
    };
    // 24.9 inHg is the air at 5000 ft, computed from the standard atmosphere.
    let mut high = check(&[vec![60.0], vec![84.4]], Some(0.1));
    high.ambient = Some(AbsolutePressure::from_kilopascals(84.307).unwrap());
    assert_eq!(refused(high), ["mixture.vacuum-above-ambient"]);
    assert_eq!(
        refused(check(&[vec![60.0], vec![101.4]], Some(0.1))),
        ["mixture.vacuum-above-ambient"]
    );
    assert_eq!(
        refused(check(&[vec![60.0]], Some(0.1))),
        ["mixture.throttle-not-read"]
    );
    assert_eq!(
        refused(check(&[vec![60.0], vec![61.0]], None)),
        ["mixture.no-scatter"]
    );
    let mut twice = check(&[vec![60.0], vec![61.0]], Some(0.1));
    let again = twice.readings[1].clone();
    twice.readings.push(again);
    assert_eq!(refused(twice), ["mixture.throttle-read-twice"]);
    let tried_wrong = |trial| {
        let mut asked = check(&[vec![60.0], vec![61.0]], Some(0.1));
        asked.trials = vec![trial];
        asked
    };
    assert_eq!(
        refused(tried_wrong(tried(1, 90.0, 60.0, 61.0))),
        ["mixture.no-such-screw"]
    );
    assert_eq!(
        refused(tried_wrong(tried(0, 0.0, 60.0, 61.0))),
        ["mixture.no-turn"]
    );
    let mut none = check(&[vec![60.0], vec![61.0]], Some(0.1));
    none.allowed = Some(Measurand::from_number(0.0).unwrap());
    assert_eq!(refused(none), ["mixture.allowed-difference"]);
}

/// Without a clear trial there is a way and an order, and no amount.
#[test]
fn without_trials_there_is_no_amount() {
    let opens = Joint {
        between: [0, 1],
        by: JoinedBy::Screw {
            clockwise_opens: Some(false),
        },
    };
    let pair = Linkage::new(2, &[0], &[opens]).unwrap();
    let mut asked = check::<Vacuum>(&[vec![25.0, 25.1], vec![27.0, 27.2]], None);
    let answer = asked.worked_out(&pair).unwrap();
    let first = &answer.moves[0];
    assert_eq!(
        (first.way, first.clockwise, first.turn),
        (Way::Open, Some(false), None)
    );
    assert_eq!(answer.next, Some(NextReading::Trial { joint: 0 }));
    assert!(
        answer
            .assumptions
            .contains(&BalanceAssumption::ScatterFromReadings)
    );
    // A trial within the scatter tells no amount either.
    asked.trials = vec![tried(0, 90.0, 27.0, 27.1)];
    assert_eq!(asked.worked_out(&pair).unwrap().moves[0].turn, None);
    // A clear one against the stated sense is refused: anticlockwise opens, so clockwise raises the vacuum.
    asked.trials = vec![tried(0, 90.0, 27.0, 25.0)];
    let refused = asked.worked_out(&pair).unwrap_err();
    assert_eq!(refused, [BalanceError::AgainstSense { joint: 0 }]);
    asked.trials = vec![tried(0, 90.0, 27.0, 29.0)];
    let turn = asked.worked_out(&pair).unwrap().moves[0].turn.unwrap();
    assert!(turn.turn.degrees() < 0.0);
}

/// Where screws are alike, one trial serves all; a throttle that did not move takes out what the engine did.
#[test]
fn trials_of_one_screw_and_of_a_drifting_engine() {
    let star = [Joint::screw(0, 1), Joint::screw(0, 2)];
    let each = Linkage::new(3, &[0], &star).unwrap();
    let mut asked = check::<Vacuum>(&[vec![25.0], vec![26.0], vec![24.0]], Some(0.1));
    let mut trial = tried(0, 90.0, 26.0, 23.0);
    trial.unmoved = Some((
        Vacuum::from_number(25.0, "kPa").unwrap(),
        Vacuum::from_number(24.0, "kPa").unwrap(),
    ));
    asked.trials = vec![trial];
    let one = asked.worked_out(&each).unwrap();
    // 3 kPa less, of which 1 kPa is the engine's: 2 kPa for a quarter turn.
    assert!((one.moves[0].turn.unwrap().turn.degrees() - 45.0).abs() < 1e-9);
    assert_eq!(one.moves[1].turn, None);
    let all = asked.worked_out(&each.screws_alike()).unwrap();
    assert!((all.moves[1].turn.unwrap().turn.degrees() + 45.0).abs() < 1e-9);
    assert!(all.assumptions.contains(&BalanceAssumption::ScrewsAlike));
}

/// Screws that do alike much, the first opening clockwise, the second anticlockwise, of the third nothing stated.
fn alike(senses: [Option<bool>; 3]) -> Linkage {
    let joint = |(far, clockwise_opens): (usize, &Option<bool>)| Joint {
        between: [0, far + 1],
        by: JoinedBy::Screw {
            clockwise_opens: *clockwise_opens,
        },
    };
    let joints: Vec<Joint> = senses.iter().enumerate().map(joint).collect();
    Linkage::new(4, &[0], &joints).unwrap().screws_alike()
}

/// By hand: 2 kPa less for a quarter turn of the first, so 2, 3 and 1 kPa are 90, 135 and 45 degrees, each by its
/// own sense. With 1.5 kPa for 60 degrees of the second besides: 270 / 11700 kPa a degree, 86.667 and 130
/// degrees, u 0.1 kPa / sqrt(5850) degrees.
#[test]
fn screws_that_do_alike_much_keep_their_own_senses() {
    let shown = [vec![25.0], vec![27.0], vec![28.0], vec![24.0]];
    let mut asked = check::<Vacuum>(&shown, Some(0.1));
    asked.trials = vec![tried(0, 90.0, 27.0, 25.0)];
    let turns = |asked: &BalanceCheck<Vacuum>, linkage: &Linkage| {
        let answer = asked.worked_out(linkage).unwrap();
        let degrees = answer.moves.iter().map(|one| one.turn);
        let degrees = degrees.map(|turn| turn.map(|turn| turn.turn.degrees()));
        (degrees.collect::<Vec<_>>(), answer)
    };
    let near = |found: &[Option<f64>], hand: &[Option<f64>]| {
        for (found, hand) in found.iter().zip(hand) {
            match (found, hand) {
                (Some(found), Some(hand)) => assert!((found - hand).abs() < 1e-3, "{found} {hand}"),
                _ => assert_eq!(found, hand),
            }
        }
    };
    let stated = alike([Some(true), Some(false), None]);
    let (degrees, answer) = turns(&asked, &stated);
    near(&degrees, &[Some(90.0), Some(-135.0), Some(-45.0)]);
    let is_taken = |answer: &BalanceAnswer<Vacuum>| {
        let taken = &answer.assumptions;
        taken.contains(&BalanceAssumption::SenseOfOthers)
    };
    assert!(is_taken(&answer), "of the third nothing is stated");
    let (_, all_stated) = turns(&asked, &alike([Some(true), Some(false), Some(true)]));
    assert!(!is_taken(&all_stated));
    // Two senses among the tried ones leave the third open, and it is to be tried.
    asked.trials.push(tried(1, 60.0, 28.0, 29.5));
    for senses in [[Some(true), Some(false), None], [None; 3]] {
        let (degrees, answer) = turns(&asked, &alike(senses));
        near(&degrees, &[Some(86.667), Some(-130.0), None]);
        assert!(!is_taken(&answer));
        assert_eq!(answer.next, Some(NextReading::Trial { joint: 2 }));
        let response = answer.moves[1].response.unwrap();
        assert!((response.per_turn.kilopascals() - 360.0 * 270.0 / 11700.0).abs() < 1e-9);
        let u = response.standard_uncertainty.number();
        assert!((u - 36.0 / 5850_f64.sqrt()).abs() < 1e-9, "{u}");
    }
    // A trial against its own sense is refused at its own screw, whatever the others show.
    asked.trials[1] = tried(1, 60.0, 28.0, 26.5);
    let refused = asked.worked_out(&stated).unwrap_err();
    assert_eq!(refused, [BalanceError::AgainstSense { joint: 1 }]);
}
