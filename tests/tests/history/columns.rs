//! Columns give what a record of one subject gives, to the bit.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use lashwork::Refusal;
use lashwork::history::{
    CountedBy, DriftAnswer, DriftChoice, DriftRow, Look, PastReadings, PastState, Reset,
    WhenToLook, drift, drift_columns,
};
use lashwork::quantity::Lash;
use lashwork::tolerance::{HasLimits, Limits, Uncertainty};
use lashwork_tests::{number, numbers, oracle, text};

/// Readings of many subjects, drawn; every third is set half way, every fifth felt between leaves.
struct Drawn {
    at: Vec<f64>,
    low: Vec<f64>,
    high: Vec<f64>,
    u: Vec<f64>,
    subject: Vec<u32>,
    state: Vec<PastState>,
}

fn drawn(subjects: u32) -> Drawn {
    let mut draw = fastrand::Rng::with_seed(1605);
    let mut made = Drawn {
        at: Vec::new(),
        low: Vec::new(),
        high: Vec::new(),
        u: Vec::new(),
        subject: Vec::new(),
        state: Vec::new(),
    };
    for subject in 0..subjects {
        let (rate, services) = (-4e-4 * draw.f64(), draw.usize(1..9));
        let mut gap = 0.28 + 0.06 * draw.f64();
        for service in 0..services {
            let read = gap + 0.004 * (draw.f64() - 0.5);
            let width = if subject % 5 == 0 { 0.02 } else { 0.0 };
            let mut push = |state, low: f64, high: f64| {
                made.at.push(50.0 * service as f64);
                made.low.push(low);
                made.high.push(high);
                made.u.push(0.002 * f64::from(subject % 4));
                made.subject.push(subject);
                made.state.push(state);
            };
            push(PastState::Found, read - width, read);
            if subject % 3 == 0 && service == 4 {
                let way = if subject % 2 == 0 {
                    Reset::Set
                } else {
                    Reset::Renewed
                };
                push(PastState::Left(way), 0.30, 0.30);
                gap = 0.30;
            }
            if subject % 7 == 0 && service == 6 {
                push(
                    PastState::Left(Reset::Set),
                    f64::NEG_INFINITY,
                    f64::INFINITY,
                );
            }
            gap += 50.0 * rate;
        }
    }
    made
}

impl Drawn {
    fn readings(&self) -> PastReadings<'_> {
        PastReadings {
            by: CountedBy::Hours,
            at: &self.at,
            low: &self.low,
            high: &self.high,
            u: &self.u,
            subject: Some(&self.subject),
            state: Some(&self.state),
        }
    }
}

fn band() -> Limits<Lash> {
    "0.13 mm to 0.36 mm".parse().unwrap()
}

#[test]
fn a_column_is_one_record_after_the_other() {
    let (made, subjects) = (drawn(60), 60);
    let choice = DriftChoice {
        scatter: Some(Uncertainty::from_mm(0.002).unwrap()),
        ..DriftChoice::default()
    };
    for choice in [DriftChoice::default(), choice] {
        let mut seen: Vec<WhenToLook> = Vec::new();
        let rule = Lash::USUAL_RULE;
        drift_columns(
            &made.readings(),
            subjects,
            &band(),
            &rule,
            &choice,
            |at, row, why| {
                assert!(why.is_none(), "{why:?}");
                let is_own = |own: &usize| made.subject[*own] as usize == at;
                let rows: Vec<usize> = (0..made.at.len()).filter(is_own).collect();
                let cut =
                    |column: &[f64]| rows.iter().map(|row| column[*row]).collect::<Vec<f64>>();
                let state: Vec<PastState> = rows.iter().map(|row| made.state[*row]).collect();
                let (times, low, high, u) =
                    (cut(&made.at), cut(&made.low), cut(&made.high), cut(&made.u));
                let alone = PastReadings {
                    at: &times,
                    low: &low,
                    high: &high,
                    u: &u,
                    subject: None,
                    state: Some(&state),
                    ..made.readings()
                };
                let record = alone.record::<Lash>(1).unwrap();
                let found = match drift(&record, PastReadings::KIND, &choice).unwrap() {
                    DriftAnswer::TooFew(_) => {
                        assert_eq!(row.look, Some(WhenToLook::TooFew));
                        assert!(row.rate.is_nan() && row.u.is_nan() && row.at.is_nan());
                        seen.push(WhenToLook::TooFew);
                        return;
                    }
                    DriftAnswer::Fitted(found) => found,
                };
                let rate = found.rate_of(0).unwrap();
                assert_eq!(row.rate.to_bits(), rate.value.to_bits());
                assert_eq!(row.u.to_bits(), rate.standard_uncertainty.to_bits());
                let (look, at) = match found.look_next(0, &band(), &rule).unwrap() {
                    Look::Now(due) => (WhenToLook::Now, due.at),
                    Look::At(due) => (WhenToLook::At, due.at),
                    Look::NotBefore(at) => (WhenToLook::NotBefore, at),
                    Look::NotKnown(_) => (WhenToLook::NotKnown, f64::NAN),
                };
                assert_eq!(row.look, Some(look));
                assert_eq!(row.at.to_bits(), at.to_bits());
                seen.push(look);
            },
        )
        .unwrap();
        assert_eq!(seen.len(), subjects);
        for look in [WhenToLook::At, WhenToLook::NotBefore, WhenToLook::TooFew] {
            assert!(seen.contains(&look), "{look:?} is in none of {seen:?}");
        }
    }
}

#[test]
fn what_stands_wrong_is_refused_as_a_whole_or_by_its_row() {
    let gaps = [0.30, 0.28, 0.26, 0.30];
    let good = PastReadings {
        by: CountedBy::Hours,
        at: &[0.0, 50.0, 100.0, 0.0],
        low: &gaps,
        high: &gaps,
        u: &[0.002; 4],
        subject: Some(&[0, 0, 0, 1]),
        state: None,
    };
    let asked = |readings: &PastReadings<'_>, subjects, choice: &DriftChoice<Lash>| {
        let mut codes = Vec::new();
        let write = |_, row: &DriftRow, why: Option<lashwork::history::HistoryError>| {
            codes.push(why.map_or("", |why| why.code()));
            assert_eq!(row.look.is_none(), codes.last() != Some(&""));
        };
        let rule = Lash::USUAL_RULE;
        let done = drift_columns(readings, subjects, &band(), &rule, choice, write);
        done.map(|()| codes).map_err(|why| why.code())
    };
    let crowd = good.record::<Lash>(usize::MAX).unwrap_err().1;
    assert_eq!(crowd.code(), "history.too-many-subjects");
    let usual = DriftChoice::default();
    assert_eq!(asked(&good, 2, &usual), Ok(vec!["", ""]));
    assert_eq!(asked(&good, 3, &usual), Ok(vec!["", "", ""]));
    let apart = PastReadings {
        subject: Some(&[0, 1, 0, 1]),
        ..good
    };
    assert_eq!(asked(&apart, 2, &usual), Err("history.not-together"));
    assert_eq!(asked(&good, 1, &usual), Err("history.not-together"));
    let short = PastReadings {
        u: &[0.002; 3],
        ..good
    };
    assert_eq!(asked(&short, 2, &usual), Err("history.column-lengths"));
    let bedding = DriftChoice {
        bedding_in: Some(-1.0),
        ..usual
    };
    assert_eq!(asked(&good, 2, &bedding), Err("history.bedding-in"));
    for (at, code) in [
        ([0.0, 100.0, 50.0, 0.0], "history.time-backwards"),
        ([0.0, f64::NAN, 50.0, 0.0], "history.count"),
        ([0.0, 0.0, 50.0, 0.0], "history.twice-in-service"),
    ] {
        let slip = PastReadings { at: &at, ..good };
        assert_eq!(asked(&slip, 2, &usual), Ok(vec![code, ""]));
    }
    for (low, code) in [
        ([0.30, 0.29, 0.26, 0.30], "tolerance.crossed-estimate"),
        ([0.30, f64::NAN, 0.26, 0.30], "quantity.out-of-range"),
    ] {
        let slip = PastReadings { low: &low, ..good };
        assert_eq!(asked(&slip, 2, &usual), Ok(vec![code, ""]));
    }
    let days = PastReadings {
        by: CountedBy::Days,
        at: &[1.0, 50.5, 100.0, 0.0],
        ..good
    };
    assert_eq!(asked(&days, 2, &usual), Ok(vec!["history.day", ""]));
}

/// The cases between leaves that know their scatter, and the one read to the point, as sums over grids have them
/// (`tests/oracles/history_drift.json`): a column agrees as well as a record does.
#[test]
fn rates_of_a_column_are_those_of_sums_over_a_grid() {
    let mut compared = 0;
    for case in oracle("history_drift") {
        if text(&case, "what") != "wide" || case["scatter"].is_null() {
            continue;
        }
        let (at, low, high) = (
            numbers(&case, "x"),
            numbers(&case, "low"),
            numbers(&case, "high"),
        );
        let u = vec![number(&case, "u"); at.len()];
        let readings = PastReadings {
            by: CountedBy::Hours,
            at: &at,
            low: &low,
            high: &high,
            u: &u,
            subject: None,
            state: None,
        };
        let scatter = Uncertainty::from_mm(number(&case, "scatter")).unwrap();
        let choice = DriftChoice {
            scatter: Some(scatter),
            ..DriftChoice::default()
        };
        let wanted = numbers(&case, "rate");
        let width = wanted[2] - wanted[0];
        drift_columns(
            &readings,
            1,
            &band(),
            &Lash::USUAL_RULE,
            &choice,
            |_, row, why| {
                assert!(why.is_none());
                compared += 1;
                // Half of what an interval may be too wide by, as for records.
                assert!(
                    (row.rate - wanted[1]).abs() < 0.065 * width,
                    "{row:?} {wanted:?}"
                );
                let told = number(&case, "rate_u");
                assert!((row.u / told - 1.0).abs() < 0.13, "{row:?} {told}");
            },
        )
        .unwrap();
    }
    assert!(compared >= 3, "{compared}");
}
