//! Idle mixture against published rules, which disagree.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use lashwork::mixture::idle::{
    Crown, IdleCurve, IdleReading, IdleRound, IdleStep, MixtureScrew, RiseRule, Side, SpeedWay,
    rise_by_the_rules,
};
use lashwork::quantity::{Altitude, CrankSpeed, TurnsOut};
use lashwork::tolerance::Verdict::{self, Above, Below, InBand};
use lashwork::tolerance::{Estimate, Uncertainty};

fn feet(feet: f64) -> Altitude {
    Altitude::from_metres(0.3048 * feet).unwrap()
}

fn rpm(rpm: f64) -> Estimate<CrankSpeed> {
    let speed = CrankSpeed::from_rpm(rpm).unwrap();
    Estimate::between(speed, speed, Uncertainty::from_number(1.0).unwrap()).unwrap()
}

fn band(rule: RiseRule, height: f64) -> Option<(f64, f64)> {
    let band = rule.band(feet(height)).unwrap()?;
    Some((band.lower()?.rpm(), band.upper()?.rpm()))
}

/// 25 to 50 rpm: FAA-H-8083-32, chapter 2. 10 to 50, over 50 too rich, none too lean: AFS-IOM-02, page 55.
/// 75 at sea level, 60 to 65 at 1000 ft, 45 to 50 at 2000, 30 to 35 at 3000, 20 to 25 at 4000: aucountry.com,
/// engine idle. All three are published.
#[test]
fn three_rules_that_disagree_stand_side_by_side() {
    for height in [0.0, 3000.0, 9000.0] {
        assert_eq!(band(RiseRule::Handbook, height), Some((25.0, 50.0)));
        assert_eq!(band(RiseRule::Metering, height), Some((10.0, 50.0)));
    }
    let printed = [
        (1000.0, 60.0, 65.0),
        (2000.0, 45.0, 50.0),
        (3000.0, 30.0, 35.0),
        (4000.0, 20.0, 25.0),
    ];
    for (height, least, most) in printed {
        let (low, high) = band(RiseRule::ByHeight, height).unwrap();
        assert!(
            (low - least).abs() < 1e-6 && (high - most).abs() < 1e-6,
            "{height} ft"
        );
    }
    let (low, high) = band(RiseRule::ByHeight, 0.0).unwrap();
    assert!(low < 75.0 && 75.0 < high && high < 80.0);
    // It says nothing of what lies higher or lower.
    assert_eq!(band(RiseRule::ByHeight, 4100.0), None);
    assert_eq!(band(RiseRule::ByHeight, -100.0), None);

    let verdicts = |rise: f64, height: f64| -> Vec<Option<Verdict>> {
        let found = rise_by_the_rules(&rpm(rise), feet(height)).unwrap();
        assert_eq!(found.len(), 3);
        found
            .iter()
            .map(|f| f.judgement.map(|j| j.verdict))
            .collect()
    };
    // No rise suits all three at sea level, and none is chosen.
    assert_eq!(
        verdicts(75.0, 0.0),
        [Some(Above), Some(Above), Some(InBand)]
    );
    assert_eq!(
        verdicts(40.0, 0.0),
        [Some(InBand), Some(InBand), Some(Below)]
    );
    assert_eq!(
        verdicts(15.0, 4000.0),
        [Some(Below), Some(InBand), Some(Below)]
    );
    assert_eq!(verdicts(32.0, 3000.0), [Some(InBand); 3]);
    assert_eq!(verdicts(30.0, 6000.0), [Some(InBand), Some(InBand), None]);
    let everywhere = |rise: f64| verdicts(rise, 0.0).iter().all(|v| *v == Some(InBand));
    assert!(!(1..100).any(|rise| everywhere(f64::from(rise))));
}

fn engine(screw: MixtureScrew) -> IdleCurve {
    let readings = [1.0, 1.5, 2.0, 2.5, 3.0].map(|place| IdleReading {
        place: TurnsOut::from_turns(place).unwrap(),
        speed: CrankSpeed::from_rpm(850.0 - 80.0 * (place - 2.0) * (place - 2.0)).unwrap(),
    });
    IdleCurve::fitted(
        &readings,
        Some(Uncertainty::from_number(3.0).unwrap()),
        screw,
    )
    .unwrap()
}

/// Lean drop and rise, as worked out by hand: 20 rpm under the top of a curve that falls by 80 rpm in a turn
/// squared is half a turn beside it.
#[test]
fn lean_drop_and_rise() {
    let fuel = engine(MixtureScrew::Fuel);
    let at = |curve: &IdleCurve, side| curve.beside(side, 20.0).unwrap().value.turns();
    assert!((at(&fuel, Side::Lean) - 1.5).abs() < 1e-9);
    assert!((at(&fuel, Side::Rich) - 2.5).abs() < 1e-9);
    // A screw in the air leans the mixture by coming out.
    assert!((at(&engine(MixtureScrew::Air), Side::Lean) - 2.5).abs() < 1e-9);
    let rise = fuel.rise_at(TurnsOut::from_turns(2.5).unwrap()).unwrap();
    assert!((rise.centre().unwrap().rpm() - 20.0).abs() < 1e-9);
}

/// Speed, then mixture, then speed again, because each moves the other: aucountry.com, engine idle (published).
#[test]
fn speed_mixture_and_speed_again() {
    let Crown::Seen(top) = engine(MixtureScrew::Fuel).crown().unwrap() else {
        panic!("the crown lies among the readings");
    };
    let mut round = IdleRound {
        speed: rpm(960.0),
        wanted: "800 rpm to 900 rpm".parse().unwrap(),
        place: TurnsOut::from_turns(1.25).unwrap(),
        crown: None,
        target: None,
    };
    let next = |round: &IdleRound| round.next_step().unwrap();
    let middle = CrankSpeed::from_rpm(850.0).unwrap();
    let slower = IdleStep::Speed {
        way: SpeedWay::Slower,
        to: middle,
    };
    assert_eq!(next(&round), slower);
    round.speed = rpm(850.0);
    assert_eq!(next(&round), IdleStep::ReadCurve);
    round.crown = Some(Crown::Seen(top));
    let IdleStep::Mixture { turn, .. } = next(&round) else {
        panic!("three quarters of a turn off");
    };
    // Out, so anticlockwise.
    assert!((turn.degrees() + 270.0).abs() < 1e-6);
    round.place = TurnsOut::from_turns(2.0).unwrap();
    // The mixture was leaner, so the engine runs faster now.
    round.speed = rpm(930.0);
    assert_eq!(next(&round), slower);
    round.speed = rpm(850.0);
    assert_eq!(next(&round), IdleStep::Done);
}
