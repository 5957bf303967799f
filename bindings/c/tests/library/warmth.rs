//! Metal that is not at the temperature of the limits, as C programs ask it.
#![allow(unsafe_code, reason = "the function is called as C programs call it")]

use lashwork_c::status::lw_status;
use lashwork_c::thermal::lw_warmth_not_known;
use std::ptr::null_mut;

fn asked(at: f64, u: f64, reference: f64) -> (lw_status, u32, f64) {
    let (mut may_judge, mut uncertainty) = (9, f64::NAN);
    // SAFETY: the outputs are writable, the error is not wanted.
    let status = unsafe {
        lw_warmth_not_known(
            at,
            u,
            reference,
            &raw mut may_judge,
            &raw mut uncertainty,
            null_mut(),
        )
    };
    (status, may_judge, uncertainty)
}

/// 0.1 mm over 60 K, the root mean square of published changes; 44 K and a doubt of 2 K.
#[test]
fn a_hot_engine_may_not_be_judged_by_cold_limits() {
    assert_eq!(asked(23.0, 2.0, 20.0), (lw_status::Ok, 1, 0.0));
    let (status, may_judge, uncertainty) = asked(64.0, 2.0, 20.0);
    assert_eq!((status, may_judge), (lw_status::Ok, 0));
    assert!((uncertainty - 44.0_f64.hypot(2.0) / 600.0).abs() < 1e-12);
    // Near, but hardly known.
    assert_eq!(asked(23.0, 20.0, 20.0).1, 0);
    assert_ne!(asked(f64::NAN, 2.0, 20.0).0, lw_status::Ok);
}
