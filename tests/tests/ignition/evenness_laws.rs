//! Evenness: laws on generated readings, a drawn check of the uncertainties, and what is refused.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use approx::assert_abs_diff_eq;
use fastrand::Rng;
use lashwork::Refusal;
use lashwork::engine::{Engine, layout};
use lashwork::ignition::evenness::{
    CamSection, DwellShown, Evenness, EvennessAssumption, EvennessCheck, EvennessError,
    FiringError, Flank, LobeReadings, UnevenVerdict,
};
use lashwork::quantity::{Advance, DistributorAngle, Length};
use lashwork::tolerance::Verdict;
use lashwork_tests::values::deg;
use proptest::prelude::*;

fn dist(degrees: f64) -> DistributorAngle {
    DistributorAngle::from_degrees(degrees).unwrap()
}

fn engine(intervals: &[f64]) -> Engine {
    Engine::builder(layout::inline(intervals.len(), &[]))
        .order(1..=intervals.len())
        .intervals(intervals.iter().map(|i| deg(*i)))
        .build()
        .unwrap()
}

fn timing(engine: &Engine, late: &[f64], book: Option<Advance>) -> EvennessCheck {
    let at = |late: &f64| Advance::from_degrees_before(-late).unwrap();
    let order = engine.order().iter().copied();
    EvennessCheck {
        readings: LobeReadings::Timing {
            read: order.zip(late.iter().map(at)).collect(),
            book,
            each: deg(0.5),
            shared: deg(1.0),
        },
        tolerance: dist(2.0),
        cam: None,
    }
}

fn even(cylinders: usize) -> Engine {
    engine(&vec![720.0 / cylinders as f64; cylinders])
}

fn found(engine: &Engine, late: &[f64]) -> Evenness {
    timing(engine, late, Some(Advance::TDC))
        .worked_out(engine)
        .unwrap()
}

fn codes(problems: &[EvennessError]) -> Vec<&'static str> {
    problems.iter().map(Refusal::code).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Errors about the mean make nothing together; shares of explanations make one.
    #[test]
    fn the_total_is_nought(late in prop::collection::vec(-8.0..8.0_f64, 2..13)) {
        let found = found(&even(late.len()), &late);
        let total: f64 = found.lobes.iter().map(|lobe| lobe.error.degrees_late()).sum();
        let left: f64 = found.lobes.iter().map(|lobe| lobe.residual.degrees_late()).sum();
        prop_assert!(total.abs() < 1e-10 && left.abs() < 1e-10);
        let shares: f64 = found.groups.iter().map(|group| group.probability).sum();
        prop_assert!((shares - 1.0).abs() < 1e-9);
        prop_assert_eq!(found.harmonic.is_some(), late.len() >= 4);
    }

    /// Counting the lobes from the next one turns the phase back by one lobe and changes nothing else.
    #[test]
    fn counting_from_another_lobe_turns_the_phase_alone(
        late in prop::collection::vec(-8.0..8.0_f64, 4..13),
        by in 1_usize..4,
    ) {
        let engine = even(late.len());
        let (here, mut turned) = (found(&engine, &late), late.clone());
        turned.rotate_left(by);
        let there = found(&engine, &turned);
        let (a, b) = (here.harmonic.unwrap(), there.harmonic.unwrap());
        prop_assert!((a.amplitude.degrees() - b.amplitude.degrees()).abs() < 1e-9);
        prop_assert!((a.amplitude_u.degrees() - b.amplitude_u.degrees()).abs() < 1e-9);
        prop_assert!((a.chance_by_reading - b.chance_by_reading).abs() < 1e-9);
        let back = a.latest_at.degrees() - b.latest_at.degrees() - by as f64 * 360.0 / late.len() as f64;
        let off = back - 360.0 * (back / 360.0).round();
        prop_assert!(a.amplitude.degrees() < 1e-6 || off.abs() < 1e-5, "{off}");
        prop_assert!((here.groups[0].probability - there.groups[0].probability).abs() < 1e-9);
    }

    /// A mean and a wave put in come out, wherever the lobes stand.
    #[test]
    fn a_wave_comes_back(
        uneven in prop::collection::vec(0.7..1.3_f64, 4..9),
        mean in -5.0..5.0_f64,
        size in 0.5..5.0_f64,
        at in 0.0..360.0_f64,
    ) {
        let whole: f64 = uneven.iter().sum();
        let intervals: Vec<f64> = uneven.iter().map(|i| 720.0 * i / whole).collect();
        let engine = engine(&intervals);
        let place = |i| engine.rotor_angle(i).degrees();
        let wave = |i: &_| mean + size * (place(*i) - at).to_radians().cos();
        let late: Vec<f64> = engine.order().iter().map(wave).collect();
        let found = found(&engine, &late);
        let harmonic = found.harmonic.unwrap();
        prop_assert!((harmonic.amplitude.degrees() - size).abs() < 1e-9);
        let off = harmonic.latest_at.degrees() - at;
        prop_assert!((off - 360.0 * (off / 360.0).round()).abs() < 1e-7);
        prop_assert!(found.residual_sd.unwrap().degrees() < 1e-9);
    }

    /// Symmetrical lobes: dwell shows the errors of flashes, but for what every second spark hides.
    #[test]
    fn dwell_shows_what_flashes_show(
        late in prop::collection::vec(-4.0..4.0_f64, 3..10),
        after in any::<bool>(),
    ) {
        let count = late.len();
        let engine = even(count);
        let way = 720.0 / count as f64;
        let closed = |k: usize| dist((way - 30.0 + late[k] + late[(k + count - 1) % count]) / 2.0);
        let mut dwells: Vec<DistributorAngle> = (0..count).map(closed).collect();
        let shown = if after {
            // Under the cylinder that fired before.
            dwells.rotate_left(1);
            DwellShown::AfterItsSpark
        } else {
            DwellShown::BeforeItsSpark
        };
        let check = EvennessCheck {
            readings: LobeReadings::Dwell {
                read: engine.order().iter().copied().zip(dwells).collect(),
                shown,
                each: dist(0.25),
            },
            tolerance: dist(2.0),
            cam: None,
        };
        let by_dwell = check.worked_out(&engine).unwrap();
        let by_flash = found(&engine, &late);
        let hidden = by_flash.every_other.map_or(0.0, FiringError::degrees_late);
        for (k, (a, b)) in by_dwell.lobes.iter().zip(&by_flash.lobes).enumerate() {
            let turn = if k % 2 == 0 { hidden } else { -hidden };
            let wanted = b.error.degrees_late() - turn;
            prop_assert!((a.error.degrees_late() - wanted).abs() < 1e-9);
        }
        let is_even = count % 2 == 0;
        let said = by_dwell.assumptions.contains(&EvennessAssumption::EveryOtherHidden);
        prop_assert_eq!(said, is_even);
        let lost = usize::from(is_even);
        prop_assert_eq!(by_dwell.residual_freedom + lost, by_flash.residual_freedom);
        prop_assert!(by_dwell.mean.is_none());
    }
}

/// The stated uncertainties are the scatter of drawn readings.
#[test]
fn uncertainties_are_the_scatter_of_drawn_readings() {
    let engine = engine(&[90.0, 150.0, 90.0, 150.0, 90.0, 150.0]);
    let truth = [3.0, 1.0, -2.0, -3.0, -1.0, 2.0];
    let stated = found(&engine, &truth);
    let mut rng = Rng::with_seed(0x0eea_e551);
    // A sum of twelve rectangles is normal enough for second moments.
    let mut normal = || (0..12).map(|_| rng.f64()).sum::<f64>() - 6.0;
    let draws = 4000;
    let mut sums = [(0.0, 0.0); 3];
    for _ in 0..draws {
        let late: Vec<f64> = truth.iter().map(|t| t + 0.5 * normal()).collect();
        let drawn = found(&engine, &late);
        let harmonic = drawn.harmonic.unwrap();
        let figures = [
            harmonic.amplitude.degrees(),
            drawn.lobes[1].error.degrees_late(),
            drawn.lobes[1].residual.degrees_late(),
        ];
        for (sum, figure) in sums.iter_mut().zip(figures) {
            sum.0 += figure;
            sum.1 += figure * figure;
        }
    }
    let wanted = [
        stated.harmonic.unwrap().amplitude_u,
        stated.lobes[1].error_u,
        stated.lobes[1].residual_u,
    ];
    for ((sum, squares), wanted) in sums.into_iter().zip(wanted) {
        let mean = sum / f64::from(draws);
        let sd = (squares / f64::from(draws) - mean * mean).sqrt();
        // Four standard deviations of a standard deviation of so many draws: 4.5 %.
        assert!(
            (sd / wanted.degrees() - 1.0).abs() < 0.045,
            "{sd} {wanted:?}"
        );
    }
}

/// Common to all, the doubt of the mark widens the mean alone.
#[test]
fn the_mark_moves_the_mean_alone() {
    let found = found(&even(4), &[5.0, 5.0, 5.0, 5.0]);
    let mean = found.mean.unwrap();
    assert_abs_diff_eq!(mean.error.degrees_late(), 5.0, epsilon = 1e-12);
    // Half of 0.5 from four readings, 1.0 from the mark.
    let u = mean.standard_uncertainty.degrees();
    assert_abs_diff_eq!(u, 0.25_f64.hypot(1.0), epsilon = 1e-12);
    // 2 distributor degrees are 4 of the crank: all too late, and perfectly even.
    assert_eq!(mean.judgement.verdict, Verdict::Above);
    assert!(
        found
            .lobes
            .iter()
            .all(|l| l.judgement.verdict == Verdict::InBand)
    );
    assert_abs_diff_eq!(found.spread.degrees(), 0.0);
    let book = timing(&even(4), &[5.0; 4], None)
        .worked_out(&even(4))
        .unwrap();
    assert!(book.mean.is_none());
}

/// Two lobes at unequal spacing, as on a twin with its crankpins together and its cylinders in a vee: their
/// places are the engine's, and there is no harmonic.
#[test]
fn an_odd_fire_twin_has_its_own_places() {
    let twin = engine(&[315.0, 405.0]);
    let check = EvennessCheck {
        readings: LobeReadings::Ring {
            read: twin
                .order()
                .iter()
                .copied()
                .zip([dist(40.0), dist(40.0 + 157.5 + 1.0)])
                .collect(),
            each: dist(0.3),
        },
        tolerance: dist(2.0),
        cam: Some(CamSection {
            radius: Length::from_mm(8.0).unwrap(),
            flank: None,
        }),
    };
    let found = check.worked_out(&twin).unwrap();
    let late: Vec<f64> = found.lobes.iter().map(|l| l.error.degrees_late()).collect();
    assert_abs_diff_eq!(late[0], -1.0, epsilon = 1e-9);
    assert_abs_diff_eq!(late[1], 1.0, epsilon = 1e-9);
    assert_abs_diff_eq!(found.lobes[1].place.degrees(), 157.5);
    assert!(found.harmonic.is_none() && found.run_out.is_none());
    assert_eq!(found.residual_freedom, 1);
    // A difference of two has one pattern: nothing that can make it is told from another.
    let off = timing(&twin, &[0.0, 9.0], None).worked_out(&twin).unwrap();
    assert_ne!(off.verdict, UnevenVerdict::Settled);
    assert!(off.groups[0].explanations.len() >= 3);
    // The even spacing of its neighbour is 22.5 degrees off: refused, not explained.
    let wrong = EvennessCheck {
        readings: LobeReadings::Ring {
            read: twin
                .order()
                .iter()
                .copied()
                .zip([dist(0.0), dist(337.5)])
                .collect(),
            each: dist(0.3),
        },
        ..check
    };
    let refused = wrong.worked_out(&twin).unwrap_err();
    assert!(codes(&refused).contains(&"ignition.another-place"));
}

/// A flank that lifts makes the same harmonic of a smaller run-out, by the root of the sum of squares.
#[test]
fn a_flank_shares_in_the_harmonic() {
    let engine = even(4);
    let mut check = timing(&engine, &[2.0, 0.0, -2.0, 0.0], None);
    let radius = Length::from_mm(8.0).unwrap();
    let flank = Flank {
        angle: dist(3.0),
        opens: Length::from_mm(0.1).unwrap(),
    };
    let mut run_out = |flank| {
        check.cam = Some(CamSection { radius, flank });
        check.worked_out(&engine).unwrap()
    };
    let (bare, known) = (run_out(None), run_out(Some(flank)));
    assert!(
        bare.assumptions
            .contains(&EvennessAssumption::FlankNotStated)
    );
    assert!(known.assumptions.is_empty());
    // Sideways e / 8 mm, by lift e x 3 degrees / 0.1 mm.
    let steep = 8.0 * 3.0_f64.to_radians() / 0.1;
    let (bare, known) = (bare.run_out.unwrap(), known.run_out.unwrap());
    assert_abs_diff_eq!(
        bare.eccentricity.mm() / known.eccentricity.mm(),
        (1.0 + steep * steep).sqrt(),
        epsilon = 1e-9
    );
    assert!(bare.is_upper_bound && !known.is_upper_bound);
}

#[test]
fn what_cannot_be_is_refused() {
    let engine = even(4);
    let good = timing(&engine, &[0.0; 4], None);
    let changed = |change: &dyn Fn(&mut EvennessCheck)| {
        let mut check = good.clone();
        change(&mut check);
        let problems = check.worked_out(&engine).unwrap_err();
        assert!(problems.iter().all(|p| !p.hint().is_empty()));
        (codes(&problems), problems[0].to_string())
    };
    let read = |check: &mut EvennessCheck, change: &dyn Fn(&mut Vec<_>)| {
        if let LobeReadings::Timing { read, .. } = &mut check.readings {
            change(read);
        }
    };
    let (code, text) = changed(&|check| {
        read(check, &|list| {
            list.remove(2);
        });
    });
    assert_eq!(
        (code, text.as_str()),
        (
            vec!["ignition.reading-missing"],
            "cylinder 3 has no reading"
        )
    );
    let (code, _) = changed(&|check| {
        read(check, &|list| {
            let again = list[1];
            list.push(again);
        });
    });
    assert_eq!(code, ["ignition.reading-twice"]);
    let (code, _) = changed(&|check| {
        read(check, &|list| {
            list[0].0 = lashwork::engine::CylinderIndex::new(9);
        });
    });
    assert_eq!(
        code,
        ["ignition.no-such-cylinder", "ignition.reading-missing"]
    );
    let (code, _) = changed(&|check| {
        read(check, &|list| {
            list[3].1 = Advance::from_degrees_before(100.0).unwrap();
        });
    });
    assert_eq!(code, ["ignition.another-place"]);
    let (code, _) = changed(&|check| {
        if let LobeReadings::Timing { each, .. } = &mut check.readings {
            *each = deg(0.0);
        }
    });
    assert_eq!(code, ["ignition.reading-uncertainty"]);
    for tolerance in [0.0, -1.0, 45.0] {
        let (code, _) = changed(&|check| check.tolerance = dist(tolerance));
        assert_eq!(code, ["ignition.evenness-tolerance"]);
    }
    let (code, _) = changed(&|check| {
        check.cam = Some(CamSection {
            radius: Length::from_mm(0.0).unwrap(),
            flank: None,
        });
    });
    assert_eq!(code, ["ignition.cam-section"]);
    let single = even(1);
    let alone = timing(&single, &[0.0], None).worked_out(&single);
    assert_eq!(codes(&alone.unwrap_err()), ["ignition.too-few-cylinders"]);
    let dwells = |engine: &Engine, dwell: f64| EvennessCheck {
        readings: LobeReadings::Dwell {
            read: engine.order().iter().map(|i| (*i, dist(dwell))).collect(),
            shown: DwellShown::BeforeItsSpark,
            each: dist(0.3),
        },
        ..good.clone()
    };
    let twin = even(2);
    let both = dwells(&twin, 100.0).worked_out(&twin).unwrap_err();
    assert_eq!(codes(&both), ["ignition.dwell-of-two"]);
    // 90 degrees from spark to spark; no dwell is none, and none is all of it.
    for dwell in [0.0, 90.0] {
        let refused = dwells(&engine, dwell).worked_out(&engine).unwrap_err();
        assert_eq!(codes(&refused), ["ignition.dwell-of-cylinder"; 4]);
    }
    assert!(dwells(&engine, 52.0).worked_out(&engine).is_ok());
}
