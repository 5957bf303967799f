//! Evenness against published figures and vectors worked out by hand.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use approx::assert_abs_diff_eq;
use lashwork::engine::{Engine, layout};
use lashwork::ignition::evenness::{
    CamSection, Evenness, EvennessCheck, EvennessLook, FirstHarmonic, LobeReadings, SidePlay,
    UnevenCause, UnevenVerdict,
};
use lashwork::quantity::{Advance, Cycle, DistributorAngle, Length};
use lashwork::tolerance::{Estimate, Uncertainty, Verdict};
use lashwork_tests::values::deg;

fn engine(cylinders: usize) -> Engine {
    let order = 1..=cylinders;
    let cylinders = layout::inline(cylinders, &[]);
    Engine::builder(cylinders).order(order).build().unwrap()
}

fn dist(degrees: f64) -> DistributorAngle {
    DistributorAngle::from_degrees(degrees).unwrap()
}

/// Errors by lobe in crank degrees, read with an uncertainty.
fn from_errors(late: &[f64], u: f64) -> Evenness {
    let engine = engine(late.len());
    let at = |late: &f64| Advance::from_degrees_before(10.0 - late).unwrap();
    let order = engine.order().iter().copied();
    let check = EvennessCheck {
        readings: LobeReadings::Timing {
            read: order.zip(late.iter().map(at)).collect(),
            book: Some(Advance::parse("10 deg BTDC").unwrap()),
            each: deg(u),
            shared: deg(1.0),
        },
        tolerance: dist(2.0),
        cam: None,
    };
    check.worked_out(&engine).unwrap()
}

fn on_the_ring(flashes: &[f64]) -> Evenness {
    let engine = engine(flashes.len());
    let order = engine.order().iter().copied();
    let check = EvennessCheck {
        readings: LobeReadings::Ring {
            read: order.zip(flashes.iter().map(|at| dist(*at))).collect(),
            each: dist(0.3),
        },
        tolerance: dist(2.0),
        cam: None,
    };
    check.worked_out(&engine).unwrap()
}

/// Published: TM 5-4210-230-14&P-1, p. 556: at 300 distributor rpm flashes stand 45 degrees apart with eight
/// lobes and 90 with four, each within 2 degrees; else trigger wheel or lobes, shaft and bushings.
#[test]
fn each_flash_within_two_degrees_of_its_place() {
    for lobes in [4_u8, 8] {
        let spacing = 360.0 / f64::from(lobes);
        let mut flashes: Vec<f64> = (0..lobes).map(|k| 17.0 + spacing * f64::from(k)).collect();
        let good = on_the_ring(&flashes);
        let in_band = |e: &Evenness| {
            e.lobes
                .iter()
                .filter(|lobe| lobe.judgement.verdict == Verdict::InBand)
                .count()
        };
        assert_eq!(in_band(&good), usize::from(lobes));
        assert_eq!(good.verdict, UnevenVerdict::Settled);
        assert_eq!(good.groups[0].explanations[0].cause, UnevenCause::Even);
        // A flash that is 1.9 degrees from its place about the mean stays, one at 2.1 does not.
        let others = f64::from(lobes) / (f64::from(lobes) - 1.0);
        for (off, verdict) in [(1.9, Verdict::InBand), (2.1, Verdict::Above)] {
            flashes[2] = 17.0 + 2.0 * spacing + off * others;
            let found = on_the_ring(&flashes);
            assert_abs_diff_eq!(
                found.lobes[2].error.degrees_late(),
                2.0 * off,
                epsilon = 1e-9
            );
            assert_eq!(
                found.lobes[2].judgement.verdict, verdict,
                "{lobes} lobes, {off}"
            );
            assert_eq!(in_band(&found), usize::from(lobes) - usize::from(off > 2.0));
        }
    }
}

/// Published: the same manual, p. 554: half a pound of pull each way, both dial readings added, compared
/// with the maker's limit; one maker's, a 1961 to 1973 coupe's workshop manual, chapter 19: at most 0.2 mm
/// (0.008 in).
#[test]
fn side_play_is_the_sum_of_both_readings() {
    let limits = "at most 0.2 mm".parse().unwrap();
    for (one, other, verdict) in [(0.09, 0.10, Verdict::InBand), (0.11, 0.12, Verdict::Above)] {
        let mm = |mm| Length::from_mm(mm).unwrap();
        let play = SidePlay::pulled_each_way(mm(one), mm(other)).unwrap();
        assert_abs_diff_eq!(play.length().mm(), one + other, epsilon = 1e-12);
        let u = Uncertainty::from_mm(0.003).unwrap();
        let found = Estimate::between(play, play, u).unwrap();
        assert_eq!(found.judged_by(&limits).verdict, verdict);
    }
    // The printed inches are the millimetres rounded.
    assert_abs_diff_eq!(
        Length::parse("0.008 in").unwrap().mm(),
        0.2,
        epsilon = 0.005
    );
}

/// Worked out by hand from the projection on cosine and sine.
#[test]
fn vectors_worked_out_by_hand() {
    let check = |late: &[f64], mean: f64, amplitude: f64, at: Option<f64>, left: &[f64]| {
        let found = from_errors(late, 0.1);
        let harmonic = found.harmonic.unwrap();
        let lateness = found.mean.unwrap().error.degrees_late();
        assert_abs_diff_eq!(lateness, mean, epsilon = 1e-12);
        assert_abs_diff_eq!(harmonic.amplitude.degrees(), amplitude, epsilon = 1e-12);
        if let Some(at) = at {
            assert_abs_diff_eq!(harmonic.latest_at.degrees(), at, epsilon = 1e-9);
        }
        for (lobe, left) in found.lobes.iter().zip(left) {
            assert_abs_diff_eq!(lobe.residual.degrees_late(), *left, epsilon = 1e-12);
        }
        found
    };
    let run_out = check(&[1.0, 0.0, -1.0, 0.0], 0.0, 1.0, Some(0.0), &[0.0; 4]);
    assert_eq!(run_out.residual_freedom, 1);
    check(
        &[0.0, 0.0, 1.5, 0.0],
        0.375,
        0.75,
        Some(180.0),
        &[0.375, -0.375, 0.375, -0.375],
    );
    let turns = [0.5, -0.5, 0.5, -0.5];
    let alternating = check(&turns, 0.0, 0.0, None, &turns);
    assert_abs_diff_eq!(
        alternating.every_other.unwrap().degrees_late(),
        0.5,
        epsilon = 1e-12
    );
    let mut worn = [0.0; 8];
    worn[3] = 2.0;
    let eight = check(&worn, 0.25, 0.5, Some(135.0), &[]);
    assert_abs_diff_eq!(
        eight.lobes[3].residual.degrees_late(),
        1.25,
        epsilon = 1e-12
    );
    assert_eq!(eight.residual_freedom, 5);
}

/// Four lobes leave one degree of freedom: one reading a lobe cannot tell one worn lobe from a mixture; with
/// eight it can, but not from a slip in the reading of that lobe.
#[test]
fn one_worn_of_four_cannot_be_told_from_a_mixture() {
    let of_four = from_errors(&[0.0, 0.0, 8.0, 0.0], 0.3);
    assert_ne!(of_four.verdict, UnevenVerdict::Settled);
    let causes = |e: &Evenness| -> Vec<UnevenCause> {
        e.groups[0].explanations.iter().map(|x| x.cause).collect()
    };
    for cause in [
        UnevenCause::LobeWorn,
        UnevenCause::Misread,
        UnevenCause::RunOutAndEveryOther,
    ] {
        assert!(causes(&of_four).contains(&cause), "{cause:?}");
    }
    let third = of_four.lobes[2].cylinder;
    assert_eq!(of_four.looks[0], EvennessLook::ReadAgain(third));
    assert!(of_four.looks.contains(&EvennessLook::GapOnLobe(third)));

    let mut late = [0.0; 8];
    late[2] = 8.0;
    let of_eight = from_errors(&late, 0.3);
    assert_eq!(of_eight.verdict, UnevenVerdict::CannotBeToldApart);
    assert!(causes(&of_eight).contains(&UnevenCause::LobeWorn));
    assert!(causes(&of_eight).contains(&UnevenCause::Misread));
    assert!(!causes(&of_eight).contains(&UnevenCause::RunOutAndEveryOther));
    // Wear makes late; an early one is a slip.
    late[2] = -8.0;
    let early = from_errors(&late, 0.3);
    assert_eq!(early.groups[0].explanations[0].cause, UnevenCause::Misread);
}

/// The fault patterns of the same manual: shaft and bushings once a turn; a second set of contacts, or play
/// in a half-speed drive, every second spark (common practice, no source).
#[test]
fn patterns_name_their_causes() {
    let round: Vec<f64> = (0..8)
        .map(|k| 5.0 * (f64::from(k) * 45.0 - 100.0).to_radians().cos())
        .collect();
    let found = from_errors(&round, 0.3);
    assert_eq!(found.groups[0].explanations[0].cause, UnevenCause::RunOut);
    assert_eq!(found.verdict, UnevenVerdict::Settled);
    assert!(found.harmonic.unwrap().chance_by_reading < 1e-12);

    let turns: Vec<f64> = (0..8)
        .map(|k| if k % 2 == 0 { 3.0 } else { -3.0 })
        .collect();
    let found = from_errors(&turns, 0.3);
    assert_eq!(
        found.groups[0].explanations[0].cause,
        UnevenCause::EveryOther
    );
}

/// Worked out by hand: 0.05 mm at a cam radius of 8 mm is 0.00625 rad, 0.358 distributor and 0.716 crank
/// degrees.
#[test]
fn eccentricity_over_radius() {
    let harmonic = FirstHarmonic {
        amplitude: deg(2.0 * (0.05_f64 / 8.0).to_degrees()),
        amplitude_u: deg(0.1),
        latest_at: dist(0.0),
        latest_at_u: None,
        chance_by_reading: 0.0,
    };
    assert_abs_diff_eq!(harmonic.amplitude.degrees(), 0.716, epsilon = 5e-4);
    assert_abs_diff_eq!(
        harmonic
            .amplitude
            .at_distributor(Cycle::FourStroke)
            .degrees(),
        0.358,
        epsilon = 5e-4
    );
    let cam = CamSection {
        radius: Length::from_mm(8.0).unwrap(),
        flank: None,
    };
    let run_out = harmonic.run_out(&cam, Cycle::FourStroke).unwrap();
    assert_abs_diff_eq!(run_out.eccentricity.mm(), 0.05, epsilon = 1e-12);
    assert!(run_out.is_upper_bound);
    assert_abs_diff_eq!(
        run_out.standard_uncertainty.mm(),
        8.0 * 0.05_f64.to_radians(),
        epsilon = 1e-12
    );
}
