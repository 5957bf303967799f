//! Laws of the contact breaker on generated input.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a figure drawn in its range that is refused is a broken test"
)]

use approx::{assert_abs_diff_eq, assert_relative_eq};
use lashwork::ignition::breaker::{
    BreakerCam, CamSpeed, Dwell, DwellChange, Flanks, GapAndDwell, GapSizes, LobeModel, Lobes,
    MeterScale, spark_shift,
};
use lashwork::quantity::{ContactGap, CrankSpeed};
use lashwork::tolerance::{Estimate, Measurand, Uncertainty};
use proptest::prelude::*;

fn about<Q: Measurand>(value: Q, u: f64) -> Estimate<Q> {
    Estimate::between(value, value, Uncertainty::from_number(u).unwrap()).unwrap()
}

fn mm(mm: f64) -> ContactGap {
    ContactGap::from_mm(mm).unwrap()
}

fn model(n: u8, gap: f64, share: f64) -> LobeModel {
    let lobes = Lobes::new(n).unwrap();
    let dwell = lobes.dwell_of_percent(100.0 * share).unwrap();
    let pair = GapAndDwell {
        gap: about(mm(gap), 0.01),
        dwell: about(dwell, 0.5),
    };
    LobeModel::from_pair(&pair, lobes, GapSizes::StatedUnusual).unwrap()
}

proptest! {
    #[test]
    fn per_cent_there_and_back(n in 1_u8..=12, percent in 0.1..99.9_f64) {
        let lobes = Lobes::new(n).unwrap();
        let dwell = lobes.dwell_of_percent(percent).unwrap();
        assert_relative_eq!(lobes.percent(dwell).unwrap(), percent, max_relative = 1e-13);
    }

    #[test]
    fn a_scale_there_and_back_and_by_the_ratio(n in 1_u8..=12, m in 1_u8..=12, share in 0.01..0.99_f64) {
        let lobes = Lobes::new(n).unwrap();
        let dwell = lobes.dwell_of_percent(100.0 * share).unwrap();
        let scale = MeterScale::Cylinders(Lobes::new(m).unwrap());
        let shown = scale.shows(dwell, lobes).unwrap();
        assert_relative_eq!(scale.dwell(shown, lobes).unwrap().degrees(), dwell.degrees(), max_relative = 1e-13);
        // The reading times the cylinders of the scale over the lobes.
        assert_relative_eq!(shown * f64::from(m) / f64::from(n), dwell.degrees(), max_relative = 1e-13);
    }

    #[test]
    fn gap_to_dwell_and_back(n in 1_u8..=12, gap in 0.1..1.0_f64, share in 0.2..0.9_f64, at in 0.3..1.8_f64) {
        let lobe = model(n, gap, share);
        let other = mm(gap * at);
        prop_assume!(other.mm() < 0.98 * lobe.lift_at_contacts().mm());
        let dwell = lobe.dwell_of(other).unwrap();
        assert_relative_eq!(lobe.gap_of(dwell).unwrap().mm(), other.mm(), max_relative = 1e-9);
    }

    #[test]
    fn dwell_only_falls_with_the_gap(n in 1_u8..=12, gap in 0.1..1.0_f64, share in 0.2..0.9_f64, at in 0.3..1.4_f64) {
        let lobe = model(n, gap, share);
        let (near, far) = (mm(gap * at), mm(gap * at * 1.01));
        prop_assume!(far.mm() < 0.98 * lobe.lift_at_contacts().mm());
        prop_assert!(lobe.dwell_of(far).unwrap() < lobe.dwell_of(near).unwrap());
        prop_assert!(lobe.slope(near).unwrap() < 0.0);
    }

    #[test]
    fn the_pair_itself_comes_back_with_its_uncertainty(n in 1_u8..=12, gap in 0.1..1.0_f64, share in 0.2..0.9_f64) {
        let lobe = model(n, gap, share);
        let dwell = 360.0 / f64::from(n) * share;
        // An exact gap at the pair: what is left is what the pair's own gap and dwell leave.
        let back = lobe.dwell_at(&about(mm(gap), 0.0)).unwrap();
        assert_relative_eq!(back.centre().unwrap().degrees(), dwell, max_relative = 1e-12);
        let own = (lobe.slope(mm(gap)).unwrap() * 0.01).hypot(0.5);
        assert_relative_eq!(back.standard_uncertainty().unwrap().number(), own, max_relative = 1e-9);
    }

    #[test]
    fn both_ways_are_equally_uncertain(n in 1_u8..=12, gap in 0.15..0.8_f64, share in 0.3..0.8_f64) {
        let lobe = model(n, gap, share);
        let there = lobe.dwell_at(&about(mm(gap), 0.02)).unwrap();
        let back = lobe.gap_at(&about(there.centre().unwrap(), 0.02 * lobe.slope(mm(gap)).unwrap().abs())).unwrap();
        let by_slope = back.standard_uncertainty().unwrap().number() * lobe.slope(mm(gap)).unwrap().abs();
        assert_relative_eq!(by_slope, there.standard_uncertainty().unwrap().number(), max_relative = 1e-9);
    }

    #[test]
    fn the_spark_follows_the_dwell_there_and_back(change in -20.0..20.0_f64, share in 0.0..1.0_f64) {
        let shift = |degrees: f64, cam| {
            let by = about(DwellChange::from_degrees(degrees).unwrap(), 0.3);
            spark_shift(&by, cam, Some(Flanks::OpeningShare(share))).unwrap()
        };
        let (more, less) = (shift(change, CamSpeed::HalfCrank), shift(-change, CamSpeed::HalfCrank));
        prop_assert_eq!(more.earlier, -less.earlier);
        prop_assert!(more.earlier.degrees() * change <= 0.0);
        // Exactly double what it is on the crank.
        let crank = shift(change, CamSpeed::Crank).earlier;
        prop_assert_eq!(more.earlier, crank + crank);
    }

    #[test]
    fn a_gap_moves_the_spark_as_its_dwell_does(n in 1_u8..=8, gap in 0.2..0.6_f64, to in 0.8..1.2_f64) {
        let lobe = model(n, gap, 0.6);
        let shift = lobe
            .spark_shift(&about(mm(gap), 0.0), &about(mm(gap * to), 0.0), CamSpeed::HalfCrank, None)
            .unwrap();
        let change = lobe.dwell_of(mm(gap * to)).unwrap() - lobe.dwell_of(mm(gap)).unwrap();
        assert_abs_diff_eq!(shift.earlier.degrees(), -change.degrees(), epsilon = 1e-12);
        prop_assert_eq!(shift.assumptions.len(), 2);
    }

    #[test]
    fn what_leaves_the_spark_uncertain_is_what_differences_say(n in 2_u8..=8, gap in 0.3..0.5_f64, to in 0.85..1.15_f64) {
        // Pair's gap and dwell, gap before and after, each with its uncertainty.
        let lobes = Lobes::new(n).unwrap();
        let (x, u) = ([gap, 0.6 * 360.0 / f64::from(n), gap * 1.05, gap * to], [0.01, 0.5, 0.008, 0.012]);
        let change = |x: [f64; 4]| {
            let pair = GapAndDwell::exact(mm(x[0]), Dwell::from_degrees(x[1]).unwrap()).unwrap();
            let lobe = LobeModel::from_pair(&pair, lobes, GapSizes::StatedUnusual).unwrap();
            lobe.dwell_of(mm(x[3])).unwrap().degrees() - lobe.dwell_of(mm(x[2])).unwrap().degrees()
        };
        let mut square = (change(x) * LobeModel::SLOPE_DOUBT).powi(2) / 3.0;
        for i in 0..4 {
            let step = 1e-5 * x[i];
            let (mut up, mut down) = (x, x);
            up[i] += step;
            down[i] -= step;
            square += ((change(up) - change(down)) / (2.0 * step) * u[i]).powi(2);
        }
        let pair = GapAndDwell {
            gap: about(mm(x[0]), u[0]),
            dwell: about(Dwell::from_degrees(x[1]).unwrap(), u[1]),
        };
        let lobe = LobeModel::from_pair(&pair, lobes, GapSizes::StatedUnusual).unwrap();
        let shift = lobe
            .spark_shift(&about(mm(x[2]), u[2]), &about(mm(x[3]), u[3]), CamSpeed::HalfCrank, None)
            .unwrap();
        assert_relative_eq!(shift.uncertainty.number(), square.sqrt(), max_relative = 1e-6);
    }

    #[test]
    fn closed_and_open_make_the_interval(n in 1_u8..=12, share in 0.05..0.95_f64, rpm in 50.0..9000.0_f64) {
        let lobes = Lobes::new(n).unwrap();
        let cam = BreakerCam { lobes, speed: CamSpeed::HalfCrank };
        let speed = CrankSpeed::from_rpm(rpm).unwrap();
        let dwell = lobes.dwell_of_percent(100.0 * share).unwrap();
        let open = Dwell::from_degrees(lobes.pitch().degrees() - dwell.degrees()).unwrap();
        let both = cam.closed_time(dwell, speed).unwrap().milliseconds()
            + cam.closed_time(open, speed).unwrap().milliseconds();
        assert_relative_eq!(both, cam.interval(speed).unwrap().milliseconds(), max_relative = 1e-12);
        let twice = CrankSpeed::from_rpm(2.0 * rpm).unwrap();
        assert_relative_eq!(2.0 * cam.interval(twice).unwrap().milliseconds(), cam.interval(speed).unwrap().milliseconds(), max_relative = 1e-12);
    }
}
