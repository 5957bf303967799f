//! The assignment of rows to columns, against published matrices, scipy's values and brute force.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    reason = "a test that cannot read its own figures stops with the reason"
)]

use assign::{Cost, CostMatrix, FORBIDDEN, least_cost};
use lashwork_tests::{list, oracle, text};
use proptest::prelude::*;
use serde_json::Value;

/// The search is the core's own business; it stands on its own, so it is read from its source.
#[path = "../../../crates/lashwork/src/adjust/assign/mod.rs"]
mod assign;

const NO: i128 = i128::MAX;

/// The columns, by the number that decides first or, all first ones being equal, by the second.
fn columns_by(first: bool, columns: usize, costs: &[i128]) -> Result<Vec<usize>, usize> {
    let cost = |c: &i128| match (*c == NO, first) {
        (true, _) => FORBIDDEN,
        (false, true) => Cost::new(*c, 0),
        (false, false) => Cost::new(0, *c),
    };
    let costs = costs.iter().map(cost).collect();
    let matrix = CostMatrix::new(columns, costs).map_err(|none| none.row)?;
    least_cost(&matrix).map_err(|none| none.row)
}

/// The columns and what they cost, or the row that misses out.
fn assigned(columns: usize, costs: &[i128]) -> Result<(Vec<usize>, i128), usize> {
    let best = columns_by(true, columns, costs);
    assert_eq!(best, columns_by(false, columns, costs));
    let best = best?;
    let pairs = best.iter().enumerate();
    let cost = pairs
        .map(|(row, column)| costs[row * columns + column])
        .sum();
    Ok((best, cost))
}

fn solve(columns: usize, costs: &[i128]) -> (Vec<usize>, i128) {
    assigned(columns, costs).unwrap()
}

/// The example in the documentation of scipy's `linear_sum_assignment`: 5, columns 1, 0, 2.
#[test]
fn scipys_documented_example() {
    let costs = vec![4, 1, 3, 2, 0, 5, 3, 2, 2];
    assert_eq!(solve(3, &costs), (vec![1, 0, 2], 5));
}

/// Thickness wanted against thickness at hand, in micrometres, by a formula; optima by scipy
/// `linear_sum_assignment` and `milp`, and by trying every permutation. The larger has 16 optima.
#[test]
fn two_tables_of_shims() {
    let four = (0..4_i128).flat_map(|i| {
        (0..4_i128).map(move |j| ((2500 + 25 * j) - (2500 + (37 * i + 11) % 97)).abs())
    });
    assert_eq!(
        solve(4, &four.collect::<Vec<i128>>()),
        (vec![0, 2, 3, 1], 23)
    );
    let eight = (0..8_i128).flat_map(|i| {
        let wanted = 2500 + 5 * ((37 * i * i + 91 * i + 13) % 61);
        (0..8_i128).map(move |j| (wanted - (2500 + 25 * ((7 * j + 3) % 13))).abs())
    });
    let eight: Vec<i128> = eight.collect();
    assert_eq!(eight[..8], [10, 185, 35, 210, 60, 235, 85, 65]);
    assert_eq!(solve(8, &eight).1, 240);
}

/// scipy's optimum for random rectangles, with and without forbidden pairs.
#[test]
fn random_rectangles_cost_what_scipy_says() {
    for case in oracle("assignment") {
        let id = text(&case, "id");
        let size = |key: &str| usize::try_from(case[key].as_u64().unwrap()).unwrap();
        let (rows, columns) = (size("rows"), size("columns"));
        let costs: Vec<i128> = list(&case, "costs")
            .iter()
            .flat_map(|row| row.as_str().unwrap().split(' '))
            .map(|c| if c == "-" { NO } else { c.parse().unwrap() })
            .collect();
        let Value::Number(cost) = &case["cost"] else {
            assert!(
                assigned(columns, &costs).is_err_and(|row| row < rows),
                "{id}"
            );
            continue;
        };
        assert_eq!(
            solve(columns, &costs).1,
            cost.as_i64().unwrap().into(),
            "{id}"
        );
    }
}

/// The least cost over every choice, by trying them all.
fn brute(rows: usize, columns: usize, costs: &[i128]) -> Option<i128> {
    fn from(row: usize, rows: usize, columns: usize, costs: &[i128], taken: u32) -> Option<i128> {
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

fn rectangles() -> impl Strategy<Value = (usize, usize, Vec<i128>)> {
    (1..6_usize, 0..3_usize, 1..4_usize).prop_flat_map(|(rows, more, spread)| {
        let columns = rows + more;
        // Few different costs make ties; the widest are near the limit.
        let top = [3, 1000, i128::MAX / 256 / 7][spread - 1];
        let cost = prop_oneof![4 => -top..=top, 1 => Just(NO)];
        let costs = prop::collection::vec(cost, rows * columns);
        (Just(rows), Just(columns), costs)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]
    #[test]
    fn no_choice_costs_less((rows, columns, costs) in rectangles()) {
        match (assigned(columns, &costs), brute(rows, columns, &costs)) {
            (Ok((mut columns, cost)), Some(least)) => {
                prop_assert_eq!(cost, least);
                columns.sort_unstable();
                columns.dedup();
                prop_assert_eq!(columns.len(), rows);
            }
            (Err(row), None) => prop_assert!(row < rows),
            (got, want) => prop_assert!(false, "{got:?} but {want:?}"),
        }
    }
}

/// The least pair of sums, the first deciding, by trying every choice of a square.
fn brute_pairs(rows: usize, costs: &[(i128, i128)], row: usize, taken: u32) -> (i128, i128) {
    let free = (0..rows).filter(|c| taken & (1 << c) == 0);
    let each = free.map(|c| {
        let rest = brute_pairs(rows, costs, row + 1, taken | (1 << c));
        let own = costs[row * rows + c];
        (own.0 + rest.0, own.1 + rest.1)
    });
    each.min().unwrap_or((0, 0))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]
    #[test]
    fn the_second_number_decides_among_equals_of_the_first(
        costs in (1..6_usize).prop_flat_map(|rows| {
            prop::collection::vec((0..3_i128, -50..50_i128), rows * rows)
        }),
    ) {
        let rows = (1..6).find(|rows| rows * rows == costs.len()).unwrap();
        let made = costs.iter().map(|(a, b)| Cost::new(*a, *b)).collect();
        let matrix = CostMatrix::new(rows, made).map_err(|none| none.row).unwrap();
        let best = least_cost(&matrix).map_err(|none| none.row).unwrap();
        let sum = best.iter().enumerate().fold((0, 0), |sum, (row, column)| {
            let own = costs[row * rows + column];
            (sum.0 + own.0, sum.1 + own.1)
        });
        prop_assert_eq!(sum, brute_pairs(rows, &costs, 0, 0));
    }
}

/// The least cost by adding one row after another along a path of least cost, found by going round
/// all edges until nothing gets shorter (Bellman and Ford): slow, without prices.
fn by_plain_paths(rows: usize, columns: usize, costs: &[i128]) -> Option<i128> {
    let mut row_of = vec![None; columns];
    for start in 0..rows {
        let mut length = vec![i128::MAX; columns];
        let mut before = vec![None; columns];
        let mut is_shorter = true;
        while is_shorter {
            is_shorter = false;
            let holders = (0..columns).filter_map(|c| Some((row_of[c]?, Some(c))));
            let from: Vec<(usize, Option<usize>)> = holders.chain([(start, None)]).collect();
            for (row, own) in from {
                let base = own.map_or(0, |c| length[c]);
                if base == i128::MAX {
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
        let free = (0..columns).filter(|c| row_of[*c].is_none() && length[*c] != i128::MAX);
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

fn larger_rectangles() -> impl Strategy<Value = (usize, usize, Vec<i128>)> {
    (8..20_usize, 0..3_usize, 0..3_usize).prop_flat_map(|(rows, more, spread)| {
        let columns = rows + more;
        let cost = prop_oneof![3 => 0..=[5_i128, 30, 1000][spread], 2 => Just(NO)];
        let costs = prop::collection::vec(cost, rows * columns);
        (Just(rows), Just(columns), costs)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]
    #[test]
    fn plain_paths_cost_no_less((rows, columns, costs) in larger_rectangles()) {
        let got = assigned(columns, &costs).ok().map(|(_, cost)| cost);
        prop_assert_eq!(got, by_plain_paths(rows, columns, &costs));
    }
}

/// The bounds are kept where prices fall furthest: every row wants the first columns badly.
#[test]
fn the_largest_costs_do_not_overflow() {
    let rows = 40;
    let top = i128::MAX / 256 / 41;
    let costs: Vec<i128> = (0..rows * rows)
        .map(|at| match (at / rows, at % rows) {
            (row, column) if column < row => -top,
            (row, column) if column == row => top,
            _ => NO,
        })
        .collect();
    // Only the diagonal is allowed to the end: the first row has one column, and so on.
    let found = solve(rows, &costs);
    assert_eq!(found, ((0..rows).collect(), top * 40));
    let one_more = costs.iter().map(|c| if *c == top { top + 1 } else { *c });
    assert_eq!(assigned(rows, &one_more.collect::<Vec<_>>()), Err(0));
}

#[test]
fn a_row_that_must_miss_out_is_named() {
    let costs = [1, NO, NO, 2, NO, NO, 3, 4, 5];
    assert!(assigned(3, &costs).is_err_and(|row| row < 2));
    assert_eq!(assigned(2, &[1, 1, NO, NO]), Err(1));
    assert_eq!(assigned(1, &[1, 2]), Err(1));
}

#[test]
fn nothing_to_fill_costs_nothing() {
    assert_eq!(solve(0, &[]), (vec![], 0));
    assert_eq!(solve(3, &[]), (vec![], 0));
}
