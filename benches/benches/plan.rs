//! Times of the plan with the fewest stops, by cylinders and by places.
#![allow(
    clippy::expect_used,
    reason = "a benchmark panics with the reason if its set-up fails"
)]

use divan::{Bencher, black_box};
use lashwork::quantity::CrankAngle;
use lashwork::valve::{CamEvents, StoppingPoints, ValveTrain};
use lashwork_benches::plans::{marks, two_sided_engine};

fn main() {
    divan::main();
}

fn plan(bencher: Bencher<'_, '_>, cylinders: usize, places: &StoppingPoints, guard: f64) {
    let engine = two_sided_engine(cylinders).expect("an engine");
    let guard = CrankAngle::from_degrees(guard).expect("a guard");
    let train = ValveTrain::new(&engine, &CamEvents::assumed(), guard, 1, 1).expect("a train");
    assert!(train.fewest_stops(places, None).exact);
    bencher.bench(|| black_box(&train).fewest_stops(black_box(places), None));
}

macro_rules! sizes {
    ($($n:literal: $dead:ident, $any:ident, $marks:ident, $narrow:ident;)*) => {$(
        #[divan::bench]
        fn $dead(bencher: Bencher<'_, '_>) {
            plan(bencher, $n, &StoppingPoints::DeadCentres, 20.0);
        }
        #[divan::bench]
        fn $any(bencher: Bencher<'_, '_>) {
            plan(bencher, $n, &StoppingPoints::AnyAngle, 20.0);
        }
        #[divan::bench]
        fn $marks(bencher: Bencher<'_, '_>) {
            plan(bencher, $n, &marks().expect("marks"), 20.0);
        }
        /// Windows of 180 degrees: four stops or more.
        #[divan::bench]
        fn $narrow(bencher: Bencher<'_, '_>) {
            plan(bencher, $n, &StoppingPoints::DeadCentres, 120.0);
        }
    )*};
}

sizes! {
    4: plan_4_tdc, plan_4_any, plan_4_marks, plan_4_narrow;
    6: plan_6_tdc, plan_6_any, plan_6_marks, plan_6_narrow;
    12: plan_12_tdc, plan_12_any, plan_12_marks, plan_12_narrow;
    18: plan_18_tdc, plan_18_any, plan_18_marks, plan_18_narrow;
    28: plan_28_tdc, plan_28_any, plan_28_marks, plan_28_narrow;
}
