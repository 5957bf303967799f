//! The contact breaker against roots of the lobe's lift, differences and draws
//! (data: `tests/oracles/ignition_lobe*.json`, `ignition_aim.json`).
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a case that is not as written is a broken test"
)]

use lashwork::ignition::breaker::{
    Contacts, Dwell, DwellChange, GapAndDwell, GapSizes, LobeModel, Lobes, WearIn, dwell_aim,
};
use lashwork::quantity::ContactGap;
use lashwork::tolerance::{Estimate, Limits, Measurand, Uncertainty};
use lashwork_tests::{Differences, number, numbers, oracle, text};
use serde_json::Value;

fn lobes(case: &Value) -> Lobes {
    Lobes::new(u8::try_from(case["lobes"].as_u64().unwrap()).unwrap()).unwrap()
}

fn about<Q: Measurand>(case: &Value, key: &str) -> Estimate<Q> {
    let found = numbers(case, key);
    let value = Q::from_number(found[0]).unwrap();
    Estimate::between(value, value, Uncertainty::from_number(found[1]).unwrap()).unwrap()
}

#[test]
fn gap_and_dwell_by_roots_of_the_lift() {
    let mut differences = Differences::default();
    for case in oracle("ignition_lobe") {
        let place = |what: &str| format!("{} {what}", text(&case, "id"));
        let pair = GapAndDwell::exact(
            ContactGap::from_mm(number(&case, "gap_mm")).unwrap(),
            Dwell::from_degrees(number(&case, "dwell_deg")).unwrap(),
        );
        let lobe = LobeModel::from_pair(&pair.unwrap(), lobes(&case), GapSizes::Usual).unwrap();
        let at = ContactGap::from_mm(number(&case, "at_mm")).unwrap();
        // A few roundings of sine and root.
        for (what, got, key) in [
            ("lift", lobe.lift_at_contacts().mm(), "lift_mm"),
            ("dwell", lobe.dwell_of(at).unwrap().degrees(), "dwell_there"),
            ("slope", lobe.slope(at).unwrap(), "slope_deg_per_mm"),
        ] {
            differences.compare(&place(what), got, number(&case, key), 0.0, 1e-13);
        }
    }
    differences.settle();
}

#[test]
fn uncertainty_by_differences_and_drawn() {
    let mut differences = Differences::default();
    for case in oracle("ignition_lobe_u") {
        let place = |what: &str| format!("{} {what}", text(&case, "id"));
        let pair = GapAndDwell {
            gap: about(&case, "gap"),
            dwell: about(&case, "dwell"),
        };
        let lobe = LobeModel::from_pair(&pair, lobes(&case), GapSizes::Usual).unwrap();
        let there = lobe.dwell_at(&about(&case, "at")).unwrap();
        let (centre, u) = (
            there.centre().unwrap(),
            there.standard_uncertainty().unwrap(),
        );
        let want = number(&case, "dwell_there");
        differences.compare(&place("dwell"), centre.degrees(), want, 0.0, 1e-12);
        // Central differences leave about 1e-9.
        differences.compare(&place("u"), u.number(), number(&case, "u"), 0.0, 1e-7);
        // 4000 draws: 1.1 % standard deviation of a standard deviation; the law is not quite linear.
        differences.compare(
            &place("drawn"),
            u.number(),
            number(&case, "drawn"),
            0.0,
            0.04,
        );
    }
    differences.settle();
}

#[test]
fn where_to_set_by_the_normal_distribution() {
    let mut differences = Differences::default();
    for case in oracle("ignition_aim") {
        let place = |what: &str| format!("{} {what}", text(&case, "id"));
        let limit = |key| Dwell::from_degrees(number(&case, key)).unwrap();
        let band = Limits::between(limit("low"), limit("high")).unwrap();
        let wear = numbers(&case, "wear");
        let grown = |i: usize| DwellChange::from_degrees(wear[i]).unwrap();
        let aim = dwell_aim(
            &band,
            Uncertainty::from_number(number(&case, "u")).unwrap(),
            Some(Contacts::New),
            Some(WearIn::new(grown(0), grown(1)).unwrap()),
        )
        .unwrap();
        for (what, got, key) in [
            ("set to", aim.set_to.degrees(), "set_to"),
            ("now", aim.in_band_now, "now"),
            ("worn in", aim.in_band_worn_in, "worn_in"),
        ] {
            differences.compare(&place(what), got, number(&case, key), 0.0, 1e-11);
        }
        assert_eq!(
            aim.kept.to_string(),
            text(&case, "kept"),
            "{}",
            place("kept")
        );
    }
    differences.settle();
}
