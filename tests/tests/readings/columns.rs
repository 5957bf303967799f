//! Columns of readings: each row has the bits that one reading gets on its own way, whatever stands in the rows
//! around it.

#![allow(
    clippy::expect_used,
    reason = "a generated value outside the range it was drawn from is a mistake in the test"
)]

use lashwork::Refusal;
use lashwork::clearance::{MetalColumns, ReadingColumns, ReadingRow, ReadingRows, judge_columns};
use lashwork::quantity::Lash;
use lashwork::tolerance::{Column, DecisionRule, HasLimits, Verdict};
use lashwork_tests::one_reading::{Row, alone};
use proptest::prelude::*;

const NAN: f64 = f64::NAN;
const INFINITY: f64 = f64::INFINITY;

fn bits(row: &ReadingRow) -> [u64; ReadingRow::NUMBERS] {
    row.numbers().map(f64::to_bits)
}

fn rows() -> impl Strategy<Value = Vec<Row>> {
    let millimetres = |from, to| (from..to).prop_map(|um: i32| f64::from(um) / 1e3);
    let low = prop_oneof![12 => -0.2..0.6, 1 => Just(-INFINITY), 1 => Just(NAN), 1 => 19.0..21.0];
    let width = prop_oneof![8 => 0.0..0.2, 4 => Just(0.05), 2 => Just(0.0), 1 => Just(INFINITY), 1 => Just(-0.1)];
    let u = prop_oneof![4 => 0.0..0.05, 4 => Just(0.005), 2 => Just(0.0), 1 => 1e-9..1e-4, 1 => Just(-0.1)];
    let lower = prop_oneof![8 => millimetres(0, 400), 1 => Just(NAN), 1 => Just(-INFINITY)];
    let band = prop_oneof![8 => millimetres(0, 100), 1 => Just(NAN), 1 => Just(INFINITY), 1 => Just(-0.01),
        1 => Just(30.0), 1 => Just(11_000.0)];
    let celsius =
        prop_oneof![8 => -20.0..120.0, 1 => Just(NAN), 1 => Just(20.0), 1 => Just(5000.0)];
    let kelvin = prop_oneof![8 => 0.0..8.0, 1 => Just(NAN), 1 => Just(0.0), 1 => Just(3000.0)];
    let reference = prop_oneof![8 => Just(20.0), 3 => Just(80.0), 1 => Just(NAN)];
    let slope = prop_oneof![8 => -0.002..0.002, 3 => Just(NAN), 1 => Just(0.0), 1 => Just(9.0)];
    let slope_u = prop_oneof![8 => 0.0..0.0005, 1 => Just(NAN), 1 => Just(-0.1), 1 => Just(0.0)];
    let one = (
        low,
        width,
        u,
        lower,
        band,
        (celsius, kelvin, reference, slope, slope_u),
    )
        .prop_map(
            |(low, width, u, lower, band, (celsius, kelvin, reference, slope, slope_u))| {
                let start = if low == -INFINITY { 0.1 } else { low };
                // To the micrometre, as a limit is printed.
                let over = if lower.is_finite() { lower } else { 0.1 } + band;
                let upper = (over * 1e3).round() / 1e3;
                [
                    low,
                    start + width,
                    u,
                    lower,
                    upper,
                    celsius,
                    kelvin,
                    reference,
                    slope,
                    slope_u,
                ]
            },
        );
    prop::collection::vec(one, 0..40)
}

fn rules() -> impl Strategy<Value = DecisionRule> {
    prop_oneof![
        Just(Lash::USUAL_RULE),
        Just(DecisionRule::simple()),
        Just(DecisionRule::iso_14253_1()),
        (0.5..0.999, 0.5..0.999).prop_map(|(t, l)| DecisionRule::guarded(t, l).expect("in range")),
    ]
}

/// Columns that are held, and lent as the judge takes them.
struct Held([Vec<f64>; 10]);

impl Held {
    fn of(rows: &[Row]) -> Self {
        Self(std::array::from_fn(|at| {
            rows.iter().filter_map(|row| row.get(at)).copied().collect()
        }))
    }

    fn lent(&self) -> ReadingColumns<'_> {
        let columns = self.0.each_ref().map(|column| Column::Each(column));
        reading_columns(self.0[0].len(), columns)
    }
}

/// So many rows of these columns, in the order of a [`Row`].
fn reading_columns(rows: usize, columns: [Column<'_>; 10]) -> ReadingColumns<'_> {
    let [
        low,
        high,
        uncertainty,
        lower,
        upper,
        celsius,
        kelvin,
        reference,
        slope,
        slope_u,
    ] = columns;
    ReadingColumns {
        rows,
        low,
        high,
        uncertainty,
        lower,
        upper,
        metal: Some(MetalColumns {
            celsius,
            uncertainty: kelvin,
            reference,
            mm_per_kelvin: slope,
            mm_per_kelvin_uncertainty: slope_u,
        }),
    }
}

type Told = (usize, ReadingRow, Option<&'static str>);

fn each(rows: &ReadingRows<'_>) -> impl Iterator<Item = Told> {
    rows.each()
        .map(|(row, found, why)| (row, found, why.map(Refusal::code)))
}

fn told(columns: &ReadingColumns<'_>, rule: &DecisionRule) -> Vec<Told> {
    let mut told = Vec::new();
    judge_columns(columns, rule, |rows| told.extend(each(rows))).expect("columns of one length");
    told
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn a_row_has_the_bits_of_a_reading_alone(rows in rows(), rule in rules()) {
        let held = Held::of(&rows);
        let told = told(&held.lent(), &rule);
        prop_assert_eq!(told.len(), rows.len());
        for (at, ((row, found, why), given)) in told.iter().zip(&rows).enumerate() {
            prop_assert_eq!(*row, at);
            match alone(given, &rule) {
                Ok(one) => prop_assert_eq!((bits(found), *why), (bits(&one), None), "{:?}", given),
                Err(code) => {
                    prop_assert_eq!(found.judged.verdict, Verdict::REFUSED);
                    prop_assert!(found.numbers()[2..11].iter().all(|number| number.is_nan()));
                    prop_assert_eq!(*why, Some(code), "{:?}", given);
                }
            }
        }
    }

    #[test]
    fn one_number_for_all_rows_is_that_number_in_each(row in rows(), count in 1..20_usize) {
        let rule = Lash::USUAL_RULE;
        for given in &row {
            let each = Held::of(&vec![*given; count]);
            let all = reading_columns(count, given.map(Column::All));
            let (each, all) = (told(&each.lent(), &rule), told(&all, &rule));
            prop_assert_eq!(each.len(), all.len());
            for ((row, one, why), (same_row, other, same_why)) in each.iter().zip(&all) {
                prop_assert_eq!((row, bits(one), why), (same_row, bits(other), same_why));
            }
        }
    }
}

/// Wider registers, where the processor has them.
#[cfg(target_arch = "x86_64")]
#[allow(
    unsafe_code,
    reason = "what the processor has is looked up just before"
)]
mod wide {
    use super::*;
    use lashwork::clearance::{judge_columns_by_avx2, judge_columns_by_avx512};
    use std::arch::is_x86_feature_detected as has;

    fn same(wide: &[Told], usual: &[Told]) -> Result<(), TestCaseError> {
        prop_assert_eq!(wide.len(), usual.len());
        for ((row, one, why), (same_row, other, same_why)) in wide.iter().zip(usual) {
            prop_assert_eq!((row, bits(one), why), (same_row, bits(other), same_why));
        }
        Ok(())
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(400))]

        #[test]
        fn wide_registers_give_the_same_bits(rows in rows(), rule in rules()) {
            let held = Held::of(&rows);
            let (columns, usual) = (held.lent(), told(&held.lent(), &rule));
            if has!("avx2") {
                let mut found = Vec::new();
                let write = |rows: &ReadingRows<'_>| found.extend(each(rows));
                // SAFETY: the processor has AVX2.
                unsafe { judge_columns_by_avx2(&columns, &rule, write) }.expect("columns of one length");
                same(&found, &usual)?;
            }
            if has!("avx512f") && has!("avx512bw") && has!("avx512dq") && has!("avx512vl") {
                let mut found = Vec::new();
                let write = |rows: &ReadingRows<'_>| found.extend(each(rows));
                // SAFETY: the processor has them.
                unsafe { judge_columns_by_avx512(&columns, &rule, write) }.expect("columns of one length");
                same(&found, &usual)?;
            }
        }
    }
}

/// Readings that the spread of a band of 0.1 mm just allows, or just not: half the width and the normal part go
/// through the place where no reading of them could be accepted any more.
#[test]
fn what_could_be_proven_is_what_a_reading_alone_says() {
    let steps =
        |from: f64, to: f64| (0..40).map(move |at| from + (to - from) * f64::from(at) / 39.0);
    for rule in [
        Lash::USUAL_RULE,
        DecisionRule::simple(),
        DecisionRule::iso_14253_1(),
        DecisionRule::guarded(0.999, 0.9).expect("in range"),
    ] {
        let rows: Vec<Row> = steps(0.002, 0.25)
            .flat_map(|width| steps(0.001, 0.12).map(move |u| (width, u)))
            // Below the band, so that none is accepted where it is.
            .map(|(width, u)| [-0.3, -0.3 + width, u, 0.1, 0.2, 20.0, 0.0, 20.0, 0.0, 0.0])
            .collect();
        let told = told(&Held::of(&rows).lent(), &rule);
        let mut provable = 0;
        for ((_, found, _), given) in told.iter().zip(&rows) {
            let one = alone(given, &rule).expect("in range");
            assert_eq!(found.judged.provable, one.judged.provable, "{given:?}");
            provable += usize::from(found.judged.provable);
        }
        let all_are = rule == DecisionRule::simple();
        assert_eq!(provable == rows.len(), all_are, "{}", rule.name());
        assert!(provable > 20, "{}", rule.name());
    }
}

/// The most rows that are handed on at once, one less and one more, with a refused row here and there: every row is
/// handed on once, with what it gets alone, and a reason goes with its own row.
#[test]
fn a_row_gets_what_is_its_own_in_a_stretch_of_any_length() {
    let good = [0.16, 0.19, 0.003, 0.15, 0.2, 30.0, 1.0, 20.0, 0.001, 0.0001];
    let crossed = [0.3, 0.2, 0.003, 0.15, 0.2, 30.0, 1.0, 20.0, 0.001, 0.0001];
    for count in [1, 31, 32, 33, 64, 95, 96, 97] {
        for bad in [vec![], vec![0], vec![count - 1], vec![0, count / 2]] {
            let row = |at| if bad.contains(&at) { crossed } else { good };
            let rows: Vec<Row> = (0..count).map(row).collect();
            let told = told(&Held::of(&rows).lent(), &Lash::USUAL_RULE);
            let refused: Vec<usize> = (told.iter().filter(|row| row.2.is_some()))
                .map(|row| row.0)
                .collect();
            let mut bad = bad;
            bad.dedup();
            assert_eq!((told.len(), &refused), (count, &bad));
            for (at, (row, found, _)) in told.iter().enumerate() {
                assert_eq!(*row, at);
                if !refused.contains(row) {
                    let one = alone(&good, &Lash::USUAL_RULE).expect("in range");
                    assert_eq!(bits(found), bits(&one));
                }
            }
        }
    }
}

#[test]
fn a_column_that_is_too_short_is_named() {
    let held = Held::of(&[[0.1, 0.2, 0.0, 0.1, 0.3, 20.0, 1.0, 20.0, 0.0, 0.0]; 3]);
    let mut columns = held.lent();
    columns.metal = columns.metal.map(|metal| MetalColumns {
        reference: Column::Each(&[20.0; 2]),
        ..metal
    });
    let mut written = 0;
    let why = judge_columns(&columns, &Lash::USUAL_RULE, |_| written += 1).unwrap_err();
    assert_eq!(written, 0);
    assert_eq!(why.code(), "tolerance.column-lengths");
    assert_eq!(
        why.to_string(),
        "the column reference has 2 rows instead of 3"
    );
}
