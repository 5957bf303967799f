//! Cam events at the lash or lift for which they are printed.
#![allow(
    clippy::unwrap_used,
    reason = "a test stops at the first thing it does not expect"
)]

use approx::assert_abs_diff_eq;
use lashwork::Refusal;
use lashwork::quantity::{CrankAngle, Lash, Length};
use lashwork::valve::{CamEvents, EventsAt, ValveKind, Window};
use lashwork_tests::values::deg;
use proptest::prelude::*;

use ValveKind::{Exhaust, Intake};

fn lash(mm: f64) -> Lash {
    Lash::from_mm(mm).unwrap()
}

/// A maker's page of an air-cooled engine: intake 17 before to 53 after, exhaust 50 before to 14 after,
/// "established with 1.00 mm valve clearance in cold engine"; running clearance intake 0.10 mm, exhaust
/// 0.15 mm (hillmanimages.912archives.com, manual16).
fn published() -> CamEvents {
    CamEvents::new(deg(17.0), deg(53.0), deg(50.0), deg(14.0)).unwrap()
}

fn running(events: CamEvents) -> CamEvents {
    events.at_running_lash(lash(0.10), lash(0.15))
}

/// How much earlier a harmonic lift passes the lower of two heights, found by halving: first the span
/// between base circles with which it stays above the upper one as long as printed, then the crank angle.
fn by_halving(greatest: f64, upper: f64, lower: f64, duration: f64) -> f64 {
    let lift = |span: f64, turned: f64| {
        greatest / 2.0 * (1.0 - (2.0 * std::f64::consts::PI * turned / span).cos())
    };
    let halve = |mut low: f64, mut high: f64, is_low: &dyn Fn(f64) -> bool| {
        for _ in 0..200 {
            let middle = f64::midpoint(low, high);
            if is_low(middle) {
                low = middle;
            } else {
                high = middle;
            }
        }
        f64::midpoint(low, high)
    };
    let passes =
        |span: f64, height: f64| halve(0.0, span / 2.0, &|turned| lift(span, turned) < height);
    let above = |span: f64| span - 2.0 * passes(span, upper);
    let span = halve(duration, 3.0 * duration, &|span| above(span) < duration);
    passes(span, upper) - passes(span, lower)
}

#[test]
fn events_printed_for_a_millimetre_are_about_a_guard_early_at_the_running_lash() {
    for (greatest, least, most) in [(8.0, 25.5, 26.0), (8.5, 24.5, 25.0), (9.0, 23.5, 24.0)] {
        let lift = Length::from_mm(greatest).unwrap();
        let at = EventsAt::Lash(lash(1.00));
        let events = running(published().holding_at(at, Some(lift)).unwrap());
        let intake = events.early(Intake).degrees();
        assert!((least..=most).contains(&intake), "{greatest} mm: {intake}");
        let found = by_halving(greatest, 1.00, 0.10, 17.0 + 180.0 + 53.0);
        assert_abs_diff_eq!(intake, found, epsilon = 1e-6);
        let exhaust = events.early(Exhaust).degrees();
        let found = by_halving(greatest, 1.00, 0.15, 50.0 + 180.0 + 14.0);
        assert_abs_diff_eq!(exhaust, found, epsilon = 1e-6);
    }
}

#[test]
fn a_lift_counts_from_the_running_lash() {
    let at = EventsAt::Lift(Length::from_mm(1.00).unwrap());
    let events = running(published().holding_at(at, None).unwrap());
    let found = by_halving(8.0, 1.10, 0.10, 250.0);
    assert_abs_diff_eq!(events.early(Intake).degrees(), found, epsilon = 1e-6);
}

#[test]
fn events_of_which_nothing_is_said_cost_25_deg_at_both_ends() {
    let window = |events: &CamEvents| Window::of(Exhaust, events, deg(20.0)).unwrap().unwrap();
    let (printed, taken) = (window(&published()), window(&running(published())));
    let later = printed.from().forward_to(taken.from());
    assert_abs_diff_eq!(later.degrees(), 25.0, epsilon = 1e-9);
    let less = printed.length() - taken.length();
    assert_abs_diff_eq!(less.degrees(), 50.0, epsilon = 1e-9);
    // Where the guard is used up, too.
    let all = CamEvents::new(deg(100.0), deg(120.0), deg(100.0), deg(100.0)).unwrap();
    assert!(Window::of(Intake, &all, deg(140.0)).unwrap().is_some());
    assert!(
        Window::of(Intake, &running(all), deg(140.0))
            .unwrap()
            .is_none()
    );
}

#[test]
fn what_no_cam_has_is_refused() {
    let refused = |at, lift: Option<f64>| {
        let lift = lift.map(|mm| Length::from_mm(mm).unwrap());
        published().holding_at(at, lift).unwrap_err().code()
    };
    let too_far = "valve.events-at-out-of-range";
    assert_eq!(refused(EventsAt::Lash(lash(2.01)), None), too_far);
    assert_eq!(refused(EventsAt::Lash(lash(-0.1)), None), too_far);
    assert_eq!(
        refused(EventsAt::Lash(lash(1.0)), Some(0.9)),
        "valve.greatest-lift"
    );
}

proptest! {
    /// A correction never gives a valve more of its base circle than printed, and more lash takes more.
    #[test]
    fn a_correction_is_never_a_gift(
        at in 0.0_f64..1.9, more in 0.0_f64..0.1, run in 0.0_f64..1.0, greatest in 8.0_f64..20.0,
    ) {
        let lift = Length::from_mm(greatest).ok();
        let early = |at: f64| {
            let events = published().holding_at(EventsAt::Lash(lash(at)), lift).unwrap();
            events.at_running_lash(lash(run), lash(run)).early(Intake)
        };
        prop_assert!(early(at) >= CrankAngle::ZERO);
        prop_assert!(early(at + more) >= early(at));
        if at <= run {
            prop_assert_eq!(early(at), CrankAngle::ZERO);
        }
    }
}
