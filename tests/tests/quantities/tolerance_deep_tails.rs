//! The logarithm of tails and intervals, from where `f64` still holds them to where nothing does.

#![allow(
    clippy::float_cmp,
    reason = "where there is nothing left, the answer is exact"
)]

use approx::{abs_diff_eq, relative_eq};
use lashwork::statistics::{
    ln_normal_density, ln_normal_interval, ln_normal_tail, normal_cdf, normal_tail,
};

fn close(got: f64, want: f64, share: f64) -> bool {
    relative_eq!(got, want, epsilon = 0.0, max_relative = share)
}

#[test]
fn logarithm_and_error_function_agree_where_both_reach() {
    for i in 0..700 {
        let z = 2.0 + f64::from(i) * 0.05;
        let (got, want) = (ln_normal_tail(z), normal_tail(z).ln());
        // The error function has a relative error of about 2e-16 (1 + z^2), the logarithm it absolutely.
        let share = 4e-16 * (1.0 + z * z) / want.abs() + 4e-16;
        assert!(close(got, want, share), "{z}: {got} {want}");
    }
}

#[test]
fn no_depth_is_too_great_for_the_logarithm() {
    // Far out the tail is the density over its depth (Abramowitz and Stegun 26.2.12).
    for z in [1e8, 9.99e8, 1e9, 1e28, 1e29, 1e60, 1e100, 1e153] {
        let want = ln_normal_density(z) - z.ln();
        assert!(close(ln_normal_tail(z), want, 4e-16), "{z:e}");
        assert!(close(ln_normal_interval(z, 2.0 * z), want, 4e-16), "{z:e}");
        assert!(
            close(ln_normal_interval(-2.0 * z, -z), want, 4e-16),
            "{z:e}"
        );
    }
    for z in [1e160, 1e300, f64::INFINITY] {
        assert_eq!(ln_normal_tail(z), f64::NEG_INFINITY, "{z:e}");
        assert_eq!(
            ln_normal_interval(z, 2.0 * z),
            f64::NEG_INFINITY,
            "{z:e} up"
        );
        assert_eq!(ln_normal_tail(-z), 0.0, "{z:e}");
    }
    assert_eq!(ln_normal_interval(f64::NEG_INFINITY, f64::INFINITY), 0.0);
    assert!(close(
        ln_normal_interval(50.0, f64::INFINITY),
        ln_normal_tail(50.0),
        4e-16
    ));
}

#[test]
fn short_intervals_far_out_keep_their_digits() {
    for depth in [40.0, 300.0, 3e3_f64] {
        // Shares of 1/depth, over which the tail falls by its own size.
        for share in [1e-7, 9e-6, 1.1e-5, 1e-3] {
            let high = depth + share / depth;
            let width = high - depth;
            let got = ln_normal_interval(depth, high);
            // Integral of the density with a falling exponential in place of the bell.
            let fall = width * depth;
            let want = ln_normal_density(depth) + (-(-fall).exp_m1() / depth).ln();
            // Relative to the density: half the width squared, and the rounding of z * z / 2.
            let error = width * width + 4e-16 * want.abs() + 1e-10;
            assert!(
                abs_diff_eq!(got, want, epsilon = error),
                "{depth} {width:e}: {got} {want}"
            );
        }
    }
}

#[test]
fn intervals_add_up_to_the_tail() {
    for depth in [1.0, 5.0, 30.0] {
        let whole: f64 = (0..200)
            .map(|i| {
                let low = depth + 0.1 * f64::from(i);
                (ln_normal_interval(low, low + 0.1) - ln_normal_tail(depth)).exp()
            })
            .sum();
        assert!(
            abs_diff_eq!(whole, 1.0, epsilon = 1e-11),
            "{depth}: {whole}"
        );
    }
    assert!(close(
        ln_normal_interval(-1.0, 2.0),
        (normal_cdf(2.0) - normal_cdf(-1.0)).ln(),
        1e-14
    ));
}
