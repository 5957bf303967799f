//! The contacts in a document: what was read, what to set, and what that does to the timing.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::ignition_four::{assumed, four, run, section};
use approx::assert_abs_diff_eq;
use lashwork::job::ignition::ContactsReport;
use lashwork::job::{Report, Standing, WorkAdvice, WorkStep};
use lashwork::tolerance::Verdict;
use serde_json::{Value, json};

/// An invented four with these contacts.
fn document(contacts: &Value) -> Value {
    four(&json!({
        "valves": "settled",
        "distributor": {"lobes": 4, "cam": "half_crank"},
        "contacts": contacts
    }))
}

fn contacts(report: &Report) -> &ContactsReport {
    section(report).contacts.as_ref().expect("asked for")
}

/// Code and place of the first problem.
fn refused(document: &Value) -> (String, String) {
    let problems = lashwork_wire::report(document.to_string().as_bytes());
    let problems = problems.expect_err("refused");
    let first = problems.first().expect("one");
    (first.code.clone(), first.place.clone())
}

/// The invented book: 0.40 mm and 60 deg.
fn with_book(more: &Value) -> Value {
    let mut all = json!({
        "look": "worn_flat",
        "gap_limits": {"from": "0.35 mm", "to": "0.45 mm"},
        "dwell_limits": {"from": "57 deg", "to": "63 deg"}
    });
    for (key, value) in more.as_object().expect("an object") {
        all[key] = value.clone();
    }
    document(&all)
}

#[test]
fn too_little_dwell_is_set_narrower_and_the_spark_comes_later() {
    let report = run(&with_book(&json!({
        "dwell": {"shows": "54 deg", "uncertainty": "0.5 deg"},
        "pair": {"gap": "0.40 mm", "dwell": "60 deg"}
    })));
    let found = contacts(&report);
    let judged = found.dwell.as_ref().expect("judged");
    assert_eq!(judged.verdict, Verdict::Below);
    assert!(
        judged.verdict_text.contains("too wide"),
        "{}",
        judged.verdict_text
    );
    let WorkAdvice::Set {
        text, then_reads, ..
    } = &found.advice
    else {
        panic!("{:?}", found.advice);
    };
    // By the lobe through 0.40 mm at 60 deg 54 deg stand for 0.55 mm: sin(36 deg)^2 / sin(30 deg)^2.
    assert!(
        text.contains("0.15 mm narrower, from 0.55 mm to 0.40 mm"),
        "{text}"
    );
    assert!(
        then_reads.starts_with("60.0 deg of dwell (67 %)"),
        "{then_reads}"
    );
    // Six degrees more dwell, six crank degrees later: half, doubled.
    let spark = found.spark.as_ref().expect("it moves");
    assert_abs_diff_eq!(spark.earlier.degrees(), -6.0, epsilon = 1e-9);
    assert!(spark.text.contains("6.0 crank deg later") && spark.text.contains("timing after this"));
    assert!(assumed(&report, "ignition.flanks-symmetric"));
    assert!(assumed(&report, "ignition.half-cosine-lobe"));
    let step = section(&report)
        .steps
        .iter()
        .find(|s| s.step == WorkStep::Contacts);
    assert_eq!(step.expect("told").standing, Standing::NotSettled);
    // The sheet says all of it.
    let sheet = report.sheet();
    let sheet: Vec<&str> = sheet.split_whitespace().collect();
    let sheet = sheet.join(" ");
    for words in [
        "Contacts, 4 lobes",
        "book 57 deg to 63 deg",
        "deg: set the timing after this",
    ] {
        assert!(sheet.contains(words), "{words}\n{sheet}");
    }
}

#[test]
fn too_much_dwell_is_set_wider_and_the_spark_comes_earlier() {
    let report = run(&with_book(
        &json!({"dwell": {"shows": "66 deg", "uncertainty": "0.5 deg"}}),
    ));
    let found = contacts(&report);
    let WorkAdvice::Set { text, .. } = &found.advice else {
        panic!("{:?}", found.advice);
    };
    assert!(text.contains("wider"), "{text}");
    assert!(found.spark.as_ref().expect("it moves").earlier.degrees() > 5.9);
    // The middles of the book's bands are taken as a pair, and said.
    assert!(assumed(&report, "ignition.pair-of-middles"));
}

#[test]
fn new_contacts_are_set_to_the_low_end_of_the_dwell() {
    let report = run(&with_book(&json!({
        "look": "new",
        "dwell": {"shows": "66 deg", "uncertainty": "0.5 deg"}
    })));
    let WorkAdvice::Set { then_reads, .. } = &contacts(&report).advice else {
        panic!("an amount");
    };
    // 57 deg and 1.645 times 0.5 deg; common rule of the library.
    assert!(then_reads.starts_with("57.8 deg of dwell"), "{then_reads}");
    assert!(then_reads.contains("left for wear"), "{then_reads}");
    assert!(assumed(&report, "ignition.wear-in"));
}

#[test]
fn a_dwell_in_the_band_is_left_alone_and_settled() {
    let report = run(&with_book(&json!({"dwell": {"shows": "66.7 %"}})));
    let found = contacts(&report);
    assert!(matches!(found.advice, WorkAdvice::Leave { .. }));
    assert!(found.spark.is_none());
    assert!(
        assumed(&report, "ignition.meter"),
        "the meter's uncertainty"
    );
    let step = section(&report)
        .steps
        .iter()
        .find(|s| s.step == WorkStep::Contacts);
    assert_eq!(step.expect("told").standing, Standing::Settled);
}

#[test]
fn another_scale_of_the_meter_is_asked_about_before_anything_is_set() {
    let report = run(&with_book(
        &json!({"dwell": {"shows": "40 deg", "uncertainty": "0.5 deg"}}),
    ));
    let found = contacts(&report);
    // 40 deg on the scale for six cylinders are 60 on this engine.
    let other = found.other_scales.first().expect("one");
    assert_abs_diff_eq!(other.dwell.degrees(), 60.0, epsilon = 1e-9);
    assert!(other.scale.contains("6 cylinders"));
    let WorkAdvice::Measure { text } = &found.advice else {
        panic!("{:?}", found.advice);
    };
    assert!(text.contains("switch of the meter"), "{text}");
    // Stated, it is converted and good.
    let six = json!({"dwell": {"shows": "40 deg", "scale": 6, "uncertainty": "0.5 deg"}});
    let stated = run(&with_book(&six));
    assert!(matches!(contacts(&stated).advice, WorkAdvice::Leave { .. }));
}

#[test]
fn what_must_read_afterwards_is_said_on_the_scale_of_the_meter() {
    // 34 deg on the scale for six cylinders are 51 on this engine; 60 deg show as 40 there.
    let six = json!({"dwell": {"shows": "34 deg", "scale": 6, "uncertainty": "0.5 deg"}});
    let report = run(&with_book(&six));
    let WorkAdvice::Set {
        first, then_reads, ..
    } = &contacts(&report).advice
    else {
        panic!("an amount");
    };
    let six = "the scale for 6 cylinders";
    assert!(first.iter().any(|one| one.contains(six)), "{first:?}");
    assert!(
        then_reads.contains(&format!("which is 40.0 on {six}")),
        "{then_reads}"
    );
    let share = json!({"dwell": {"shows": "60 %", "uncertainty": "0.5 deg"}});
    let report = run(&with_book(&share));
    let WorkAdvice::Set { then_reads, .. } = &contacts(&report).advice else {
        panic!("an amount");
    };
    assert!(
        then_reads.contains("66.7 on the per cent scale"),
        "{then_reads}"
    );
}

#[test]
fn pitted_contacts_are_not_set_by_a_leaf() {
    let leaf = json!({"look": "pitted", "gap": "0.35 mm goes, 0.40 mm does not"});
    let report = run(&with_book(&leaf));
    let found = contacts(&report);
    assert_eq!(
        found.gap.as_ref().expect("judged").verdict,
        Verdict::CannotSay
    );
    let WorkAdvice::Measure { text } = &found.advice else {
        panic!("{:?}", found.advice);
    };
    assert!(text.contains("dress or replace"), "{text}");
    // Flat ones are.
    let flat = run(&with_book(
        &json!({"gap": "0.38 mm goes, 0.42 mm does not"}),
    ));
    assert!(matches!(contacts(&flat).advice, WorkAdvice::Leave { .. }));
    assert!(!assumed(&flat, "ignition.contacts-flat"));
    let unsaid = run(&document(&json!({
        "gap": "0.38 mm goes, 0.42 mm does not",
        "gap_limits": {"from": "0.35 mm", "to": "0.45 mm"}
    })));
    assert!(assumed(&unsaid, "ignition.contacts-flat"));
}

#[test]
fn a_gap_alone_is_set_and_the_dwell_read_after_it() {
    let report = run(&document(&json!({
        "look": "new",
        "gap": "0.50 mm drags",
        "gap_limits": {"from": "0.35 mm", "to": "0.45 mm"}
    })));
    let found = contacts(&report);
    let WorkAdvice::Set {
        first,
        text,
        then_reads,
    } = &found.advice
    else {
        panic!("{:?}", found.advice);
    };
    assert!(
        first
            .iter()
            .any(|one| one.contains("highest point of a lobe"))
    );
    // The wide end less 1.645 times 0.011 mm: the drag's spread and the leaf's own.
    assert!(
        text.contains("0.43 mm") && text.contains("wears in"),
        "{text}"
    );
    assert!(then_reads.contains("read the dwell"));
    // Nothing says how the dwell goes with it.
    assert!(found.spark.is_none());
}

#[test]
fn a_dwell_that_does_not_keep_with_speed_has_a_cause() {
    let report = run(&with_book(&json!({
        "dwell": {"shows": "60 deg", "uncertainty": "0.5 deg"},
        "dwell_faster": {"shows": "55 deg", "uncertainty": "0.5 deg"}
    })));
    let WorkAdvice::FindCause { causes, .. } = &contacts(&report).advice else {
        panic!("a cause");
    };
    assert!(causes.first().expect("one").contains("shaft"));
}

#[test]
fn leaf_and_dwell_that_disagree_are_said() {
    let report = run(&with_book(&json!({
        "gap": "0.40 mm drags",
        "dwell": {"shows": "54 deg", "uncertainty": "0.5 deg"},
        "pair": {"gap": "0.40 mm", "dwell": "60 deg"}
    })));
    let said = contacts(&report).leaf_against_dwell.as_ref().expect("both");
    assert!(
        said.contains("the leaf shows less") && said.contains("pitted"),
        "{said}"
    );
}

#[test]
fn pairs_that_contradict_each_other_give_no_amounts() {
    let report = run(&with_book(&json!({
        "dwell": {"shows": "54 deg", "uncertainty": "0.5 deg"},
        "pair": {"gap": "0.40 mm", "dwell": "60 deg"},
        "second_pair": {"gap": "0.40 mm", "dwell": "74 deg"}
    })));
    let found = contacts(&report);
    let said = found.second_pair.as_ref().expect("tested");
    assert!(said.contains("contradict"), "{said}");
    let WorkAdvice::Set { text, .. } = &found.advice else {
        panic!("{:?}", found.advice);
    };
    assert!(!text.contains("mm"), "{text}");
}

#[test]
fn valves_that_are_not_settled_come_first() {
    let mut asked = with_book(&json!({"dwell": {"shows": "54 deg"}}));
    asked["ignition"]["valves"] = json!("not_settled");
    let report = run(&asked);
    let found = contacts(&report);
    assert!(matches!(found.advice, WorkAdvice::SettleFirst { .. }));
    assert!(found.spark.is_none());
    assert!(
        report
            .sheet()
            .contains("STOP WORK: settle the valve clearances first")
    );
}

#[test]
fn a_cam_that_is_not_stated_is_taken_and_listed() {
    let mut asked = with_book(&json!({"dwell": {"shows": "60 deg"}}));
    asked["ignition"]["distributor"] = json!({});
    let report = run(&asked);
    assert!(assumed(&report, "ignition.lobes-taken") && assumed(&report, "ignition.cam-speed"));
    assert_eq!(contacts(&report).lobes, 4);
}

#[test]
fn what_cannot_be_is_refused_where_it_stands() {
    let of = |more: &Value| refused(&with_book(more));
    for (more, code, place) in [
        (
            json!({"dwell": {"shows": "90 deg"}}),
            "ignition.dwell-beyond-pitch",
            "/dwell",
        ),
        (
            json!({"dwell": {"shows": "100 %"}}),
            "ignition.dwell-percent",
            "/dwell",
        ),
        (
            json!({"dwell": {"shows": "0 deg"}}),
            "quantity.out-of-range",
            "/dwell",
        ),
        (
            json!({"dwell": {"shows": "60"}}),
            "quantity.no-unit",
            "/dwell/shows",
        ),
        (
            json!({"dwell": {"shows": "61 deg", "scale": 6}}),
            "ignition.meter-reading",
            "/dwell",
        ),
        (
            json!({"dwell": {"shows": "61 deg", "scale": 0}}),
            "ignition.lobes",
            "/dwell/scale",
        ),
        (
            json!({"gap_limits": {"from": "0.35 mm", "to": "1.2 mm"}}),
            "ignition.gap-unusual",
            "/gap_limits",
        ),
        (
            json!({"dwell_limits": {"from": "63 deg", "to": "57 deg"}}),
            "tolerance.crossed-limits",
            "/dwell_limits",
        ),
        (
            json!({"pair": {"gap": "0.05 mm", "dwell": "60 deg"}}),
            "ignition.gap-unusual",
            "/pair",
        ),
        (
            json!({"gap": "about a visiting card"}),
            "feeler.reading",
            "/gap",
        ),
    ] {
        let (got, at) = of(&more);
        assert_eq!(
            (got.as_str(), at),
            (code, format!("/ignition/contacts{place}")),
            "{more}"
        );
    }
    // Stated as unusual it is taken.
    let unusual = json!({"gap_unusual": true, "gap_limits": {"from": "1.1 mm", "to": "1.3 mm"}, "gap": "1.2 mm drags"});
    let taken = run(&with_book(&unusual));
    assert_eq!(
        contacts(&taken).gap.as_ref().expect("judged").verdict,
        Verdict::InBand
    );
}
