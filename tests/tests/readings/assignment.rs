//! The assignment of rows to columns, against published matrices, scipy's values and brute force.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    reason = "a test that cannot read its own figures stops with the reason"
)]

use lashwork::adjust::{AssignmentError, Cost, CostMatrix, least_cost};
use lashwork_tests::{list, oracle, text};
use proptest::prelude::*;
use serde_json::Value;

const NO: i64 = i64::FORBIDDEN;

fn solve<C: Cost>(rows: usize, columns: usize, costs: Vec<C>) -> (Vec<usize>, C) {
    let matrix = CostMatrix::new(rows, columns, costs).unwrap();
    let best = least_cost(&matrix).unwrap();
    (best.columns, best.cost)
}

/// The example in the documentation of scipy's `linear_sum_assignment`: 5, columns 1, 0, 2.
#[test]
fn scipys_documented_example() {
    let costs = vec![4, 1, 3, 2, 0, 5, 3, 2, 2];
    assert_eq!(solve(3, 3, costs), (vec![1, 0, 2], 5));
}

/// Thickness wanted against thickness at hand, in micrometres, by a formula; optima by scipy
/// `linear_sum_assignment` and `milp`, and by trying every permutation. The larger has 16 optima.
#[test]
fn two_tables_of_shims() {
    let four = (0..4_i64).flat_map(|i| {
        (0..4_i64).map(move |j| ((2500 + 25 * j) - (2500 + (37 * i + 11) % 97)).abs())
    });
    assert_eq!(solve(4, 4, four.collect()), (vec![0, 2, 3, 1], 23));
    let eight = (0..8_i64).flat_map(|i| {
        let wanted = 2500 + 5 * ((37 * i * i + 91 * i + 13) % 61);
        (0..8_i64).map(move |j| (wanted - (2500 + 25 * ((7 * j + 3) % 13))).abs())
    });
    let eight: Vec<i64> = eight.collect();
    assert_eq!(eight[..8], [10, 185, 35, 210, 60, 235, 85, 65]);
    assert_eq!(solve(8, 8, eight).1, 240);
}

/// scipy's optimum for random rectangles, with and without forbidden pairs, by each number type.
#[test]
fn random_rectangles_cost_what_scipy_says() {
    for case in oracle("assignment") {
        let id = text(&case, "id");
        let size = |key: &str| usize::try_from(case[key].as_u64().unwrap()).unwrap();
        let (rows, columns) = (size("rows"), size("columns"));
        let costs: Vec<i64> = list(&case, "costs")
            .iter()
            .flat_map(|row| row.as_str().unwrap().split(' '))
            .map(|c| if c == "-" { NO } else { c.parse().unwrap() })
            .collect();
        let matrix = CostMatrix::new(rows, columns, costs.clone()).unwrap();
        let Value::Number(cost) = &case["cost"] else {
            let refused = least_cost(&matrix).unwrap_err();
            assert!(matches!(refused, AssignmentError::NoColumn { .. }), "{id}");
            continue;
        };
        let (chosen, got) = solve(rows, columns, costs.clone());
        assert_eq!(Some(got), cost.as_i64(), "{id}");
        let narrow = costs.iter().map(|c| i32::try_from(*c).unwrap_or(i32::MAX));
        assert_eq!(solve(rows, columns, narrow.collect()).0, chosen, "{id}");
        let wide = |c: &i64| if *c == NO { i128::MAX } else { i128::from(*c) };
        let wide = costs.iter().map(wide).collect();
        assert_eq!(solve(rows, columns, wide).0, chosen, "{id}");
    }
}

/// The least cost over every choice, by trying them all.
fn brute(rows: usize, columns: usize, costs: &[i64]) -> Option<i64> {
    fn from(row: usize, rows: usize, columns: usize, costs: &[i64], taken: u32) -> Option<i64> {
        if row == rows {
            return Some(0);
        }
        (0..columns)
            .filter(|c| taken & (1 << c) == 0 && costs[row * columns + c] != NO)
            .filter_map(|c| {
                let rest = from(row + 1, rows, columns, costs, taken | (1 << c))?;
                Some(costs[row * columns + c] + rest)
            })
            .min()
    }
    from(0, rows, columns, costs, 0)
}

fn rectangles() -> impl Strategy<Value = (usize, usize, Vec<i64>)> {
    (1..6_usize, 0..3_usize, 1..4_usize).prop_flat_map(|(rows, more, spread)| {
        let columns = rows + more;
        // Few different costs make ties; the widest are near the limit.
        let top = [3, 1000, i64::MAX / 256 / 7][spread - 1];
        let cost = prop_oneof![4 => -top..=top, 1 => Just(NO)];
        let costs = prop::collection::vec(cost, rows * columns);
        (Just(rows), Just(columns), costs)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]
    #[test]
    fn no_choice_costs_less((rows, columns, costs) in rectangles()) {
        let matrix = CostMatrix::new(rows, columns, costs.clone()).unwrap();
        match (least_cost(&matrix), brute(rows, columns, &costs)) {
            (Ok(best), Some(least)) => {
                prop_assert_eq!(best.cost, least);
                let mut columns = best.columns;
                columns.sort_unstable();
                columns.dedup();
                prop_assert_eq!(columns.len(), rows);
            }
            (Err(AssignmentError::NoColumn { row }), None) => prop_assert!(row < rows),
            (got, want) => prop_assert!(false, "{got:?} but {want:?}"),
        }
    }
}

/// The least cost by adding one row after another along a path of least cost, found by going round
/// all edges until nothing gets shorter (Bellman and Ford): slow, without prices.
fn by_plain_paths(rows: usize, columns: usize, costs: &[i64]) -> Option<i64> {
    let mut row_of = vec![None; columns];
    for start in 0..rows {
        let mut length = vec![i64::MAX; columns];
        let mut before = vec![None; columns];
        let mut is_shorter = true;
        while is_shorter {
            is_shorter = false;
            let holders = (0..columns).filter_map(|c| Some((row_of[c]?, Some(c))));
            let from: Vec<(usize, Option<usize>)> = holders.chain([(start, None)]).collect();
            for (row, own) in from {
                let base = own.map_or(0, |c| length[c]);
                if base == i64::MAX {
                    continue;
                }
                let base = own.map_or(0, |c| base - costs[row * columns + c]);
                for column in (0..columns).filter(|c| costs[row * columns + c] != NO) {
                    let through = base + costs[row * columns + column];
                    if through < length[column] && own != Some(column) {
                        length[column] = through;
                        before[column] = Some((row, own));
                        is_shorter = true;
                    }
                }
            }
        }
        let free = (0..columns).filter(|c| row_of[*c].is_none() && length[*c] != i64::MAX);
        let mut next = free.min_by_key(|c| length[*c]);
        next?;
        while let Some(column) = next {
            let (row, own) = before[column]?;
            row_of[column] = Some(row);
            next = own;
        }
    }
    let pairs = row_of.iter().enumerate();
    Some(
        pairs
            .filter_map(|(column, row)| Some(costs[(*row)? * columns + column]))
            .sum(),
    )
}

fn larger_rectangles() -> impl Strategy<Value = (usize, usize, Vec<i64>)> {
    (8..20_usize, 0..3_usize, 0..3_usize).prop_flat_map(|(rows, more, spread)| {
        let columns = rows + more;
        let cost = prop_oneof![3 => 0..=[5_i64, 30, 1000][spread], 2 => Just(NO)];
        let costs = prop::collection::vec(cost, rows * columns);
        (Just(rows), Just(columns), costs)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]
    #[test]
    fn plain_paths_cost_no_less((rows, columns, costs) in larger_rectangles()) {
        let matrix = CostMatrix::new(rows, columns, costs.clone()).unwrap();
        let got = least_cost(&matrix).ok().map(|best| best.cost);
        prop_assert_eq!(got, by_plain_paths(rows, columns, &costs));
    }
}

/// The bounds are kept where prices fall furthest: every row wants the first columns badly.
#[test]
fn the_largest_costs_do_not_overflow() {
    let rows = 40;
    let top = i32::MAX / 256 / 41;
    let costs: Vec<i32> = (0..rows * rows)
        .map(|at| match (at / rows, at % rows) {
            (row, column) if column < row => -top,
            (row, column) if column == row => top,
            _ => i32::FORBIDDEN,
        })
        .collect();
    let wide: Vec<i128> = costs
        .iter()
        .map(|c| {
            if *c == i32::MAX {
                i128::MAX
            } else {
                i128::from(*c)
            }
        })
        .collect();
    let (narrow, wide) = (solve(rows, rows, costs), solve(rows, rows, wide));
    assert_eq!(narrow.0, wide.0);
    // Only the diagonal is allowed to the end: the first row has one column, and so on.
    assert_eq!(narrow.1, top * 40);
}

#[test]
fn a_row_that_must_miss_out_is_named() {
    let costs = vec![1, NO, NO, 2, NO, NO, 3, 4, 5];
    let matrix = CostMatrix::new(3, 3, costs).unwrap();
    let refused = least_cost(&matrix).unwrap_err();
    assert!(matches!(refused, AssignmentError::NoColumn { row: 0 | 1 }));
    let empty = CostMatrix::new(2, 2, vec![1, 1, NO, NO]).unwrap();
    let refused = least_cost(&empty).unwrap_err();
    assert_eq!(refused, AssignmentError::NoColumn { row: 1 });
    assert!(refused.to_string().contains("row 1"));
}

#[test]
fn nothing_to_fill_costs_nothing() {
    assert_eq!(solve::<i64>(0, 0, vec![]), (vec![], 0));
    assert_eq!(solve::<i64>(0, 3, vec![]), (vec![], 0));
}
