//! Leak-down and events against searches and draws (data: `tests/oracles/condition_leak.json`,
//! `condition_events.json`).
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a case that is not as written is a broken test"
)]

use super::read::{about, air};
use lashwork::condition::leak::Tester;
use lashwork::events::{Flank, RunningEvents, RunningValve};
use lashwork::quantity::{CrankAngle, Lash, Length};
use lashwork::tolerance::Estimate;
use lashwork::valve::{CamEvents, EventsAt};
use lashwork_tests::{Differences, number, numbers, oracle, text};

fn mm(mm: f64) -> Length {
    Length::from_mm(mm).unwrap()
}

#[test]
fn areas_and_their_scatter() {
    let mut differences = Differences::default();
    for case in oracle("condition_leak") {
        let n = |key: &str| number(&case, key);
        let place = |what: &str| format!("{} {what}", text(&case, "id"));
        let supply = about(n("supply"), n("supply_u"));
        let tester = Tester::of_diameter(supply, mm(n("bore")), mm(n("bore_u"))).unwrap();
        let around = about(n("air"), n("air_u"));
        let leak = tester
            .leak(&about(n("shown"), n("shown_u")), &around)
            .unwrap();
        let area = leak.area.centre().unwrap();
        // The search for the throat ends a part in a million million of the flow from its top.
        differences.compare(
            &place("area"),
            area.square_millimetres(),
            n("area"),
            0.0,
            1e-9,
        );
        let u = leak.area.standard_uncertainty().unwrap().number();
        // Near the supply the area goes with a root.
        differences.compare(&place("area u"), u, n("area_u"), 0.0, 0.02);
        let exact = mm(0.0);
        let other = Tester::of_diameter(about(600.0, 0.0), mm(1.2), exact).unwrap();
        let shown = other.would_show(area, air(n("air"))).unwrap();
        differences.compare(
            &place("by another"),
            shown.kilopascals(),
            n("by_other"),
            0.0,
            1e-7,
        );
    }
    differences.settle();
}

#[test]
fn events_at_a_lash() {
    let mut differences = Differences::default();
    for case in oracle("condition_events") {
        let n = |key: &str| number(&case, key);
        let flank = |key: &str| {
            let ramp = numbers(&case, key);
            Flank::ramp(mm(ramp[0]), mm(ramp[1]))
                .unwrap()
                .then(mm(ramp[2]))
                .unwrap()
        };
        let valve = RunningValve {
            lash: about(n("running"), 0.0),
            holds_at: EventsAt::Lash(Lash::from_mm(n("printed_at")).unwrap()),
            opening: flank("opening"),
            closing: flank("closing"),
            rocker: n("rocker"),
        };
        let angles = numbers(&case, "angles");
        let deg = |at: usize| CrankAngle::from_degrees(angles[at]).unwrap();
        let events = RunningEvents {
            printed: CamEvents::new(deg(0), deg(1), deg(2), deg(3)).unwrap(),
            intake: valve,
            exhaust: valve,
            ratio: None,
            crank: None,
        };
        let found = events.found().unwrap();
        let middle = |estimate: &Estimate<CrankAngle>| estimate.centre().unwrap().degrees();
        let mut compare = |what: &str, got: &Estimate<CrankAngle>, want: f64| {
            let place = format!("{} {what}", text(&case, "id"));
            differences.compare(&place, middle(got), want, 1e-9, 0.0);
        };
        for (event, want) in found.events.iter().zip(numbers(&case, "found")) {
            compare("event", &event.running, want);
        }
        let durations = numbers(&case, "durations");
        compare("intake", &found.intake_duration, durations[0]);
        compare("exhaust", &found.exhaust_duration, durations[1]);
        compare("overlap", &found.overlap, n("overlap"));
    }
    differences.settle();
}
