//! Readings in numbers as the signs that the library makes of them.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use lashwork::causes::{CauseCheck, PressureSign, Seen};
use lashwork::condition::compression::{
    CompressionTest, Cranking, CylinderReading, Exponent, HeadRows,
};
use lashwork::engine::{CompressionRatio, CylinderLabel, Engine};
use lashwork::quantity::{CrankAngle, GaugePressure, Lash};
use lashwork::tolerance::{Estimate, Limits, Probabilities, Uncertainty};

pub(super) fn label(at: usize) -> CylinderLabel {
    CylinderLabel::numbered(at + 1)
}

pub(super) fn rows(cylinders: usize) -> HeadRows {
    let order: Vec<usize> = (1..=cylinders).collect();
    HeadRows::of_engine(&Engine::inline_four_stroke(&order).unwrap())
}

pub(super) fn kilopascals(kpa: f64) -> GaugePressure {
    GaugePressure::from_kilopascals(kpa.clamp(5.0, 2_000.0)).unwrap()
}

/// A reading with its uncertainty, judged; every one is a lash, a plain number that has limits.
pub(super) fn judged(value: f64, u: f64, low: f64, high: f64) -> Probabilities {
    // In thousandths, so that the largest is a lash too.
    let of = |x: f64| Lash::from_mm(x * 1e-3).unwrap();
    let text = format!("{:.9} mm to {:.9} mm", low * 1e-3, high * 1e-3);
    let limits: Limits<Lash> = text.parse().unwrap();
    let value = of(value.max(0.0));
    let estimate = Estimate::between(value, value, Uncertainty::from_mm(u * 1e-3).unwrap());
    estimate.unwrap().probabilities(&limits)
}

/// Enters what a gauge showed of each cylinder, dry and with oil, in kPa; oil is tried where one shows less than a part
/// of the highest.
pub(super) fn compression(
    read: &[(f64, f64)],
    with_oil: bool,
    oil_below: f64,
    check: &mut CauseCheck,
) {
    let highest = read.iter().map(|(dry, _)| *dry).fold(0.0, f64::max);
    let reading = |(at, (dry, wet)): (usize, &(f64, f64))| CylinderReading {
        wet: (with_oil && *dry < oil_below * highest).then(|| kilopascals(*wet)),
        ..CylinderReading::dry(label(at), kilopascals(*dry))
    };
    let closes = CrankAngle::from_degrees(52.0).unwrap();
    let closes = Estimate::between(closes, closes, Uncertainty::from_number(3.0).unwrap());
    let test = CompressionTest {
        readings: read.iter().enumerate().map(reading).collect(),
        rows: rows(read.len()),
        engine: Some(Cranking {
            ratio: CompressionRatio::new(8.5).unwrap(),
            ratio_u: 0.15,
            crank: None,
            intake_closes_abdc: Some(closes.unwrap()),
            air: None,
        }),
        exponent: Some(Exponent::between(1.18, 1.26).unwrap()),
        ..CompressionTest::default()
    };
    let answer = test.weighed().unwrap();
    let both = answer.cylinders.iter().zip(&test.readings);
    for (signs, (own, reading)) in check.cylinders.iter_mut().zip(both) {
        let (Some(share), Some(u)) = (own.share, own.share_u) else {
            continue;
        };
        let expected = own.expected.as_ref().and_then(Estimate::centre);
        let expected = expected.unwrap().kilopascals();
        let oil = reading.wet.map(|wet| {
            let gain = (wet.kilopascals() - reading.dry.kilopascals()) / expected;
            (gain, 21.0 / expected)
        });
        signs.compression = Seen::of_shares((share, u), oil);
    }
    check.engine.pressure = answer.level.and_then(|level| {
        Seen::judged(
            &level.judgement.probabilities,
            PressureSign::AllLow,
            PressureSign::Right,
            PressureSign::AllHigh,
        )
    });
}
