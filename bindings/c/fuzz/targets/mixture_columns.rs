//! Any bytes as analyses of exhaust gas: every row gets what it gets alone, to the bit, and nothing else is touched.
#![no_main]

mod bytes;

use bytes::take;
use lashwork_c::exhaust_gas::lw_exhaust_gas;
use lashwork_c::fuel::lw_fuel;
use lashwork_c::lambda::{lw_lambda, lw_lambda_of_gas};
use lashwork_c::mixture_columns::{lw_gas_columns, lw_lambda_columns, lw_lambda_of_columns};
use lashwork_c::status::lw_status;
use std::ptr::null_mut;

/// Mostly up to so much, now and then any bits at all.
fn number(data: &mut &[u8], most: f64) -> f64 {
    bytes::number(data, |two| {
        most * f64::from(u16::from_le_bytes(two)) / 65_535.0
    })
}

libfuzzer_sys::fuzz_target!(|data: &[u8]| {
    let data = &mut &*data;
    let [hydrocarbons, tester, rows] = take(data);
    let rows = usize::from(rows % 24);
    let (hydrocarbons, tester) = (u32::from(hydrocarbons % 8), u32::from(tester % 5));
    let fuel = lw_fuel {
        struct_size: size_of::<lw_fuel>(),
        hydrogen: number(data, 4.0),
        oxygen: number(data, 2.0),
        nitrogen: number(data, 2.0),
    };
    let hc_factor = number(data, 20.0);
    let mut column = |most: f64| (0..rows).map(|_| number(data, most)).collect::<Vec<f64>>();
    let (co2, co, o2, hc) = (column(16.5), column(16.0), column(20.95), column(2_000.0));
    let gas = lw_gas_columns {
        struct_size: size_of::<lw_gas_columns>(),
        rows,
        co2_percent: co2.as_ptr(),
        co_percent: co.as_ptr(),
        o2_percent: o2.as_ptr(),
        hc_ppm: hc.as_ptr(),
        hc_factor,
        hydrocarbons,
        tester,
    };
    let (mut lambda, mut u) = (vec![9.0_f64; rows], vec![9.0_f64; rows]);
    let (mut doubt, mut status) = (vec![9_u8; rows], vec![99_u32; rows]);
    let found = lw_lambda_columns {
        struct_size: size_of::<lw_lambda_columns>(),
        rows,
        lambda: lambda.as_mut_ptr(),
        uncertainty: u.as_mut_ptr(),
        contradiction: doubt.as_mut_ptr(),
        status: status.as_mut_ptr(),
    };
    // SAFETY: all columns have the rows that are stated, and nobody wants the error.
    let whole = unsafe {
        lw_lambda_of_columns(
            &raw const gas,
            &raw const fuel,
            &raw const found,
            null_mut(),
        )
    };
    if !matches!(whole, lw_status::Ok | lw_status::RowsRefused) {
        assert!(doubt.iter().all(|d| *d == 9) && status.iter().all(|s| *s == 99));
        assert_ne!(whole, lw_status::Panic);
        return;
    }
    for row in 0..rows {
        let one = lw_exhaust_gas {
            struct_size: size_of::<lw_exhaust_gas>(),
            co2_percent: co2[row],
            co_percent: co[row],
            o2_percent: o2[row],
            hc_ppm: hc[row],
            hc_factor,
            no_ppm: 0.0,
            hydrocarbons,
            tester,
            no_read: 0,
            reserved: 0,
        };
        let mut alone = lw_lambda {
            struct_size: size_of::<lw_lambda>(),
            lambda: f64::NAN,
            uncertainty: f64::NAN,
            spindt: f64::NAN,
            air_fuel_ratio: f64::NAN,
            behind_air_low: f64::NAN,
            behind_air_high: f64::NAN,
            contradictions: 0,
            cause: 0,
        };
        // SAFETY: all are locals that state their size.
        let told = unsafe {
            lw_lambda_of_gas(&raw const one, &raw const fuel, &raw mut alone, null_mut())
        };
        assert_eq!(status[row], told as u32);
        for (column, expected) in [(&lambda, alone.lambda), (&u, alone.uncertainty)] {
            let same = column[row].to_bits() == expected.to_bits();
            assert!(same || (column[row].is_nan() && expected.is_nan()));
        }
        // The first of those that are told alone.
        let first = u32::from(doubt[row]);
        assert_eq!(first == 0, alone.contradictions == 0);
        assert_eq!(first & alone.contradictions, first);
    }
});
