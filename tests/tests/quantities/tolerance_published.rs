//! Conformance, guard factors and normal shares against published figures and 30-digit values.

#![allow(
    clippy::float_cmp,
    clippy::unwrap_used,
    clippy::excessive_precision,
    clippy::unreadable_literal,
    reason = "figures stand as published, and a wrong set-up should stop the test"
)]

use lashwork::statistics::{RectangularNormal, normal_cdf, normal_tail};
use lashwork::tolerance::{Estimate, Limits};
use lashwork_tests::values::{band, lash, mark, u};

/// A normal estimate against two limits.
fn conformance(y: f64, u: f64, lower: Option<f64>, upper: Option<f64>) -> (f64, f64, f64) {
    RectangularNormal { a: y, b: y, u }.split(lower, upper)
}

const EPS: f64 = f64::EPSILON;

fn assert_relative(got: f64, want: f64, tolerance: f64, what: &str) {
    let error = (got - want).abs();
    assert!(
        error <= tolerance * want.abs() + f64::MIN_POSITIVE,
        "{what}: got {got:e}, want {want:e}, relative error {:e}, allowed {tolerance:e}",
        error / want.abs()
    );
}

/// JCGM 106:2012, the worked examples on one and two limits: published to two digits.
#[test]
fn guide_examples() {
    let (_, diode, _) = conformance(-5.47, 0.05, None, Some(-5.40));
    assert_eq!(format!("{diode:.2}"), "0.92");
    let (_, container, _) = conformance(509.7, 8.6, Some(490.0), None);
    assert_eq!(format!("{container:.2}"), "0.99");
    let (_, oil, _) = conformance(13.6, 1.8, Some(12.5), Some(16.3));
    assert_eq!(format!("{oil:.2}"), "0.66");
}

type Row = (&'static str, f64, f64, Option<f64>, Option<f64>, [f64; 3]);

/// Identifier, estimate, standard uncertainty, limits, and inside, below, above computed with
/// mpmath at 30 digits and more from the decimal inputs.
#[rustfmt::skip]
const ROWS: [Row; 29] = [
    ("A01", -5.47, 0.05, None, Some(-5.40), [0.91924334076622895, 0.0, 0.080756659233771046]),
    ("A02", 509.7, 8.6, Some(490.0), None, [0.98900954738482223, 0.010990452615177768, 0.0]),
    ("A03", 13.6, 1.8, Some(12.5), Some(16.3), [0.66262978649530783, 0.27056301223583411, 0.066807201268858066]),
    ("A04", 0.15, 0.01, Some(0.10), Some(0.20), [0.99999942669685624, 2.8665157187919391e-7, 2.8665157187919391e-7]),
    ("A05", 0.20, 0.01, Some(0.10), Some(0.20), [0.5, 7.6198530241605261e-24, 0.5]),
    ("A06", 0.10, 0.01, Some(0.10), Some(0.20), [0.5, 0.5, 7.6198530241605261e-24]),
    ("A07", 0.19, 0.01, Some(0.10), Some(0.20), [0.84134474606854295, 1.1285884059538406e-19, 0.15865525393145705]),
    ("A08", 0.205, 0.01, Some(0.10), Some(0.20), [0.3085375387259869, 4.3190063178092303e-26, 0.6914624612740131]),
    ("A09", 0.21, 0.01, Some(0.10), Some(0.20), [0.15865525393145705, 1.9106595744986757e-28, 0.84134474606854295]),
    ("A10", 0.22, 0.01, Some(0.10), Some(0.20), [0.022750131948179207, 1.776482112077679e-33, 0.97724986805182079]),
    ("A11", 0.25, 0.01, Some(0.10), Some(0.20), [2.8665157187919391e-7, 3.6709661993127509e-51, 0.99999971334842812]),
    ("A12", 0.30, 0.01, Some(0.10), Some(0.20), [7.6198530241605261e-24, 2.7536241186062337e-89, 1.0]),
    ("A13", 0.095, 0.01, Some(0.10), Some(0.20), [0.3085375387259869, 0.6914624612740131, 4.3190063178092303e-26]),
    ("A14", 0.05, 0.01, Some(0.10), Some(0.20), [2.8665157187919391e-7, 0.99999971334842812, 3.6709661993127509e-51]),
    ("A15", 0.00, 0.01, Some(0.10), Some(0.20), [7.6198530241605261e-24, 1.0, 2.7536241186062337e-89]),
    ("A16", 0.18, 0.0125, Some(0.15), Some(0.20), [0.93700317237584588, 0.0081975359245961294, 0.054799291699557994]),
    ("A17", 0.15, 0.0125, Some(0.15), Some(0.20), [0.49996832875816688, 0.5, 3.1671241833119921e-5]),
    ("A18", 0.175, 0.0125, Some(0.15), Some(0.20), [0.95449973610364159, 0.022750131948179207, 0.022750131948179207]),
    ("A19", 0.175, 0.05, Some(0.15), Some(0.20), [0.38292492254802621, 0.3085375387259869, 0.3085375387259869]),
    // A zero here is a true value below the least positive double.
    ("A21", 0.175, 0.0002, Some(0.15), Some(0.20), [1.0, 0.0, 0.0]),
    ("A23", 0.1498, 0.0002, Some(0.15), Some(0.20), [0.15865525393145705, 0.84134474606854295, 0.0]),
    ("A25", 0.1450, 0.0002, Some(0.15), Some(0.20), [3.0566967063825609e-138, 1.0, 0.0]),
    ("A27", 0.25, 0.02, Some(0.20), None, [0.99379033467422386, 0.0062096653257761352, 0.0]),
    ("A29", 0.36, 0.02, Some(0.20), None, [0.99999999999999938, 6.2209605742717841e-16, 0.0]),
    ("A31", 0.02, 0.02, Some(0.20), None, [1.1285884059538406e-19, 1.0, 0.0]),
    ("A33", 0.9, 0.03, None, Some(0.9), [0.5, 0.0, 0.5]),
    ("A35", 1.0, 0.03, None, Some(0.9), [0.00042906033319683748, 0.0, 0.99957093966680316]),
    ("A37", 2.0, 0.03, None, Some(0.9), [1.2414078321436946e-294, 0.0, 1.0]),
    ("A39", 0.127, 0.0127, Some(0.1016), Some(0.1524), [0.95449973610364159, 0.022750131948179207, 0.022750131948179207]),
];

/// Relative `4 2^-52 (1 + z^2)` plus what the binary rounding of each input moves: the log of a
/// tail moves by about `|z| + 1` times the change of `z`, which is `(|T| + |y|)/u` half-ulps.
fn allowed(y: f64, u: f64, limits: &[Option<f64>]) -> f64 {
    limits.iter().flatten().fold(4.0 * EPS, |most: f64, t| {
        let z = ((t - y) / u).abs();
        let input = (t.abs() + y.abs()) / u * (z + 1.0) * EPS;
        most.max(4.0 * EPS * (1.0 + z * z) + input)
    })
}

#[test]
fn conformance_table() {
    for (id, y, u, lower, upper, [inside, below, above]) in ROWS {
        let (b, i, a) = conformance(y, u, lower, upper);
        assert_relative(b, below, allowed(y, u, &[lower]), &format!("{id} below"));
        assert_relative(a, above, allowed(y, u, &[upper]), &format!("{id} above"));
        // Inside hangs on the nearer limit.
        let near = match (lower, upper) {
            (Some(l), Some(h)) if (l - y).abs() < (h - y).abs() => [Some(l), None],
            (Some(_), Some(h)) => [Some(h), None],
            one => [one.0, one.1],
        };
        assert_relative(i, inside, allowed(y, u, &near), &format!("{id} inside"));
    }
}

/// A difference of two values of the distribution function gives exactly 0 for these rows.
#[test]
fn naive_difference_is_zero() {
    for (id, y, u, lower, upper, [inside, ..]) in ROWS {
        if ["A15", "A25", "A31"].contains(&id) {
            let high = upper.map_or(1.0, |t| normal_cdf((t - y) / u));
            let naive = high - normal_cdf((lower.unwrap() - y) / u);
            assert_eq!(naive, 0.0, "{id}");
            let (_, ours, _) = conformance(y, u, lower, upper);
            assert_relative(ours, inside, 1e-12, id);
        }
    }
}

/// ISO 14253-1:2017 asks for 95 %: how many standard uncertainties a normal estimate must keep from
/// either limit of a band so many of them wide; factors solved with mpmath, all to 15 digits.
#[test]
fn guard_factors_leave_95_percent() {
    for (ratio, factor) in [
        (3.92, 1.95393768429216),
        (4.0, 1.79621272059620),
        (4.5, 1.66768230955316),
        (5.0, 1.64876652387875),
        (6.0, 1.64491811689925),
        (8.0, 1.64485362796096),
        (10.0, 1.64485362695147),
        (1000.0, 1.64485362695147),
        (f64::INFINITY, 1.64485362695147),
    ] {
        let (_, inside, _) = conformance(factor, 1.0, Some(0.0), Some(ratio));
        assert_relative(inside, 0.95, 1e-14, "guard factor");
    }
    // In a narrower band not even its centre is good enough.
    for (ratio, is_enough) in [(3.0, false), (3.91992796, false), (3.91992797, true)] {
        let (_, inside, _) = conformance(0.5 * ratio, 1.0, Some(0.0), Some(ratio));
        assert_eq!(inside >= 0.95, is_enough, "{ratio}");
    }
    // The best conformance probability at the edge, with the estimate at the centre.
    let (_, best, _) = conformance(0.0, 1.0, Some(-1.96), Some(1.96));
    assert_relative(best, 0.950004209703559, 1e-14, "T/u 3.92");
}

/// Normal tails computed with mpmath.
#[test]
fn normal_tails() {
    for (z, tail) in [
        (0.0, 0.5),
        (0.5, 0.3085375387259869),
        (1.0, 0.15865525393145705),
        (1.645, 0.049984905539121365),
        (2.0, 0.022750131948179207),
        (3.0, 0.0013498980316300945),
        (5.0, 2.8665157187919391e-7),
        (8.0, 6.2209605742717841e-16),
        (10.0, 7.6198530241605261e-24),
        (20.0, 2.7536241186062337e-89),
        (30.0, 4.9067139271481871e-198),
        (37.0, 5.7255712225245768e-300),
    ] {
        let tolerance = 4.0 * EPS * (1.0 + z * z);
        assert_relative(normal_tail(z), tail, tolerance, "tail");
        assert_relative(normal_cdf(-z), tail, tolerance, "lower tail");
        assert_relative(normal_cdf(z), 1.0 - tail, 2.0 * EPS, "distribution");
    }
}

/// Normal quantiles computed with mpmath: the distribution function leads back to the share.
#[test]
fn the_share_below_each_normal_quantile() {
    for (p, z) in [
        (0.5, 0.0),
        (0.6, 0.2533471031357998),
        (0.75, 0.67448975019608174),
        (0.8, 0.84162123357291421),
        (0.841344746068543, 1.0000000000000002),
        (0.9, 1.2815515655446005),
        (0.95, 1.6448536269514727),
        (0.975, 1.9599639845400542),
        (0.99, 2.3263478740408411),
        (0.995, 2.5758293035489008),
        (0.999, 3.0902323061678135),
        (0.9995, 3.2905267314918948),
        (0.99865, 2.9999769927033931),
        (1e-3, -3.0902323061678135),
        (1e-6, -4.7534243088228989),
        (1e-9, -5.9978070150076869),
        (1e-12, -7.0344838253011319),
        (1e-15, -7.9413453261709968),
        (1e-100, -21.273453560965324),
        (1e-300, -37.047096299361199),
    ] {
        // Half an ulp of z moves p by that times the density.
        let input = EPS * f64::abs(z) * 0.4 * f64::exp(-0.5 * z * z);
        let error = (normal_cdf(z) - p).abs();
        let allowed = 4.0 * EPS * (1.0 + z * z) * p + input;
        assert!(
            error <= allowed,
            "p({z}) {p:e}: {error:e}, allowed {allowed:e}"
        );
    }
}

/// A rectangle convolved with a normal: lower end, upper end, normal part, limit, chance to lie
/// below; the closed form evaluated with mpmath at 420 digits from the decimal inputs.
#[test]
fn rectangle_and_normal_below() {
    for (a, b, sigma, t, below) in [
        ("0.15 mm", "0.20 mm", 0.005, "0.16 mm", 0.20084907026168296),
        (
            "0.15 mm",
            "0.20 mm",
            0.005,
            "0.14 mm",
            0.00084907026168296375,
        ),
        (
            "0.15 mm",
            "0.20 mm",
            0.005,
            "0.05 mm",
            1.3700124947295799e-91,
        ),
        (
            "0.15 mm",
            "0.20 mm",
            0.002,
            "0.108 mm",
            6.2182321084978047e-101,
        ),
        (
            "0.15 mm",
            "0.20 mm",
            0.002,
            "0.09 mm",
            6.5278269363656048e-201,
        ),
        ("0.15 mm", "0.1501 mm", 0.01, "0.14 mm", 0.15744943311400903),
        (
            "0.15 mm",
            "0.150001 mm",
            0.01,
            "0.05 mm",
            7.6160070069629373e-24,
        ),
        ("0.15 mm", "0.16 mm", 0.01, "0.10 mm", 5.3305298358731053e-8),
        ("0.15 mm", "0.20 mm", 0.05, "0.16 mm", 0.38668740196851109),
        ("0.15 mm", "0.25 mm", 0.0000001, "0.20 mm", 0.5),
        ("0.15 mm", "0.20 mm", 0.02, "0.11 mm", 0.0033960033619136069),
    ] {
        let estimate = Estimate::between(lash(a), lash(b), u(sigma)).unwrap();
        let p = estimate.probabilities(&Limits::at_least(mark(t)));
        assert_relative(
            p.below.least,
            below,
            1e-11,
            &format!("{a} to {b} below {t}"),
        );
        assert_eq!(p.below.least, p.below.most);
        assert_relative(p.in_band.least, 1.0 - below, 1e-14, "at least");
        let p = estimate.probabilities(&Limits::at_most(mark(t)));
        assert_relative(p.in_band.least, below, 1e-11, "at most");
    }
}

/// The same between two limits, also narrow ones far out.
#[test]
fn rectangle_and_normal_inside() {
    for (a, b, sigma, low, high, inside) in [
        (
            "0.15 mm",
            "0.20 mm",
            0.005,
            "0.10 mm",
            "0.1001 mm",
            1.6886504502479132e-26,
        ),
        (
            "0.15 mm",
            "0.20 mm",
            0.005,
            "0.17 mm",
            "0.170001 mm",
            1.9999366823008517e-5,
        ),
        (
            "0.30 mm",
            "0.30001 mm",
            0.01,
            "0.15 mm",
            "0.25 mm",
            2.8590944956939803e-7,
        ),
        (
            "0.30 mm",
            "0.35 mm",
            0.01,
            "0.15 mm",
            "0.20 mm",
            1.4949120509178656e-25,
        ),
        (
            "0.05 mm",
            "0.10 mm",
            0.005,
            "0.15 mm",
            "0.150001 mm",
            1.522432710545603e-28,
        ),
        (
            "0.15 mm",
            "0.25 mm",
            0.01,
            "0.17 mm",
            "0.22 mm",
            0.49911271430662987,
        ),
    ] {
        let estimate = Estimate::between(lash(a), lash(b), u(sigma)).unwrap();
        let p = estimate.probabilities(&band(low, high));
        assert_relative(
            p.in_band.least,
            inside,
            1e-10,
            &format!("{a} to {b} in {low} to {high}"),
        );
    }
}
