//! Any bytes as columns: every row gets what it gets alone, to the bit, and nothing else is touched.
#![no_main]

mod bytes;

use bytes::take;
use lashwork_c::columns::{lw_judge_columns, lw_judgement_columns, lw_reading_columns};
use lashwork_c::judging::{lw_estimate, lw_judge, lw_judgement, lw_limits, lw_rule};
use lashwork_c::status::lw_status;
use std::ptr::{null, null_mut};

/// Mostly what a lash could be, now and then any bits at all.
fn number(data: &mut &[u8]) -> f64 {
    bytes::number(data, |two| f64::from(i16::from_le_bytes(two)) / 32_768.0)
}

libfuzzer_sys::fuzz_target!(|data: &[u8]| {
    let data = &mut &*data;
    let [span, kind, rows] = take(data);
    let rows = usize::from(rows % 24);
    let limits = lw_limits {
        struct_size: size_of::<lw_limits>(),
        span: u32::from(span % 5),
        reserved: 0,
        lower_nm: i64::from(i32::from_le_bytes(take(data))),
        upper_nm: i64::from(i32::from_le_bytes(take(data))),
    };
    let rule = lw_rule {
        struct_size: size_of::<lw_rule>(),
        kind: u32::from(kind % 6),
        reserved: 0,
        below_confidence: number(data),
        above_confidence: number(data),
    };
    let mut column = || (0..rows).map(|_| number(data)).collect::<Vec<f64>>();
    let (low, high, u) = (column(), column(), column());
    let readings = lw_reading_columns {
        struct_size: size_of::<lw_reading_columns>(),
        rows,
        low_mm: low.as_ptr(),
        high_mm: high.as_ptr(),
        uncertainty_mm: u.as_ptr(),
        lower_mm: null(),
        upper_mm: null(),
        at_celsius: null(),
        at_uncertainty_kelvin: null(),
        reference_celsius: null(),
        mm_per_kelvin: null(),
        mm_per_kelvin_uncertainty: null(),
        warmth: null(),
    };
    let (mut verdict, mut provable) = (vec![9_u8; rows], vec![9_u8; rows]);
    let mut chances: [Vec<f64>; 6] = std::array::from_fn(|_| vec![9.0; rows]);
    let mut status = vec![99_u32; rows];
    let [a, b, c, d, e, f] = chances.each_mut().map(Vec::as_mut_ptr);
    let judgements = lw_judgement_columns {
        struct_size: size_of::<lw_judgement_columns>(),
        rows,
        verdict: verdict.as_mut_ptr(),
        provable: provable.as_mut_ptr(),
        below_least: a,
        below_most: b,
        in_band_least: c,
        in_band_most: d,
        above_least: e,
        above_most: f,
        status: status.as_mut_ptr(),
        low_mm: null_mut(),
        high_mm: null_mut(),
        uncertainty_mm: null_mut(),
        at_reference: null_mut(),
    };
    // SAFETY: all columns have the rows that are stated, and nobody wants the error.
    let whole = unsafe {
        lw_judge_columns(
            &raw const readings,
            &raw const limits,
            &raw const rule,
            &raw const judgements,
            null_mut(),
        )
    };
    if !matches!(whole, lw_status::Ok | lw_status::RowsRefused) {
        assert!(verdict.iter().all(|v| *v == 9) && status.iter().all(|s| *s == 99));
        assert_ne!(whole, lw_status::Panic);
        return;
    }
    for row in 0..rows {
        let estimate = lw_estimate {
            struct_size: size_of::<lw_estimate>(),
            // An end that is not there is infinite in a column; with neither, no span says so.
            span: match (low[row] == f64::NEG_INFINITY, high[row] == f64::INFINITY) {
                (false, true) => 2,
                (true, false) => 3,
                _ => 1,
            },
            reserved: 0,
            low_mm: low[row],
            high_mm: high[row],
            uncertainty_mm: u[row],
        };
        let mut alone = lw_judgement {
            struct_size: size_of::<lw_judgement>(),
            verdict: 0,
            provable: 0,
            below_least: f64::NAN,
            below_most: f64::NAN,
            in_band_least: f64::NAN,
            in_band_most: f64::NAN,
            above_least: f64::NAN,
            above_most: f64::NAN,
        };
        // SAFETY: all are locals that state their size.
        let one = unsafe {
            lw_judge(
                &raw const estimate,
                &raw const limits,
                &raw const rule,
                &raw mut alone,
                null_mut(),
            )
        };
        assert_eq!(status[row], one as u32);
        assert_eq!(
            (u32::from(verdict[row]), u32::from(provable[row])),
            (alone.verdict, alone.provable)
        );
        let expected = [
            alone.below_least,
            alone.below_most,
            alone.in_band_least,
            alone.in_band_most,
            alone.above_least,
            alone.above_most,
        ];
        for (column, expected) in chances.iter().zip(expected) {
            let same = column[row].to_bits() == expected.to_bits();
            assert!(same || (column[row].is_nan() && expected.is_nan()));
            assert!(expected.is_nan() || (0.0..=1.0).contains(&expected));
        }
    }
});
