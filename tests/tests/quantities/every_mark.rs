//! Every mark a leaf, a shim or a book can bear: all of them, not a sample.

use lashwork::quantity::{LengthUnit, Marked, Nominal, QuantityError};

const TEN_MM: i64 = 10_000_000;

/// Every step up to ten millimetres, written by integer arithmetic, with the nanometres that it is.
fn every(unit: &'static str, step: i64, decimals: usize) -> impl Iterator<Item = (String, i64)> {
    let scale = 10_i64.pow(u32::try_from(decimals).unwrap_or(0));
    (0..=TEN_MM / step).map(move |i| {
        let (whole, part) = (i / scale, i % scale);
        (format!("{whole}.{part:0decimals$} {unit}"), i * step)
    })
}

/// 1 in = 25.4 mm exactly (24 FR 5348, 1959), so 0.0001 in is 2,540 nm.
#[test]
fn every_mark_is_held_exactly_and_shows_as_it_was_written() {
    let steps = [
        ("mm", 10_000, 2),
        ("mm", 1_000, 3),
        ("in", 2_540, 4),
        ("thou", 2_540, 1),
        ("um", 100, 1),
    ];
    let mut count = 0;
    for (unit, step, decimals) in steps {
        for (text, nanometres) in every(unit, step, decimals) {
            let mark: Marked = text.parse().unwrap();
            assert_eq!(mark.nominal().nanometres(), nanometres, "{text}");
            assert_eq!(mark.to_string(), text);
            let comma: Marked = text.replace('.', ",").parse().unwrap();
            assert_eq!(comma.nominal(), mark.nominal(), "{text}");
            // The nearest number of millimetres leads back to the same nanometres.
            assert_eq!(Nominal::nearest_mm(mark.mm()), Ok(mark.nominal()), "{text}");
            count += 1;
        }
    }
    assert_eq!(count, 1_001 + 10_001 + 3_938 + 3_938 + 100_001);
}

/// An inch mark said in millimetres with six decimals, or the other way with all that a nanometre needs, is the
/// same length; with four decimals of an inch a millimetre mark is within half of 0.0001 in.
#[test]
fn every_mark_is_the_same_length_in_the_other_unit() {
    for (text, nanometres) in every("in", 2_540, 4) {
        let mark: Marked = text.parse().unwrap();
        let said = mark.nominal().show(LengthUnit::Millimetre, 6);
        let again: Marked = said.parse().unwrap();
        assert_eq!(again.nominal().nanometres(), nanometres, "{text}, {said}");
    }
    for (text, nanometres) in every("mm", 10_000, 2) {
        let mark: Marked = text.parse().unwrap();
        let again: Marked = (mark.nominal().show(LengthUnit::Inch, 4)).parse().unwrap();
        let off = again.nominal().nanometres() - nanometres;
        assert!(off.abs() <= 1_270, "{text}: {again} is {off} nm off");
    }
}

/// At both ends of what is held nothing overflows: it is shown, read back, or refused.
#[test]
fn the_ends_of_the_range_hold() {
    let most = Nominal::MAX_NANOMETRES;
    for nanometres in [most, -most, most - 1, 1 - most] {
        let held = Nominal::from_nanometres(nanometres).unwrap();
        for unit in [
            LengthUnit::Millimetre,
            LengthUnit::Inch,
            LengthUnit::Thou,
            LengthUnit::Micrometre,
        ] {
            for decimals in 0..=12 {
                // What is rounded up past the end is refused, or what shows more than a nanometre.
                let shown = held.show(unit, decimals);
                match Marked::parse(&shown) {
                    Ok(again) => {
                        let off = again.nominal().nanometres() - nanometres;
                        let half = unit.nanometres() / 2 / 10_i64.pow(decimals.min(9)) + 1;
                        assert!(off.abs() <= half, "{shown}");
                    }
                    Err(why) => assert!(
                        matches!(
                            why,
                            QuantityError::OutOfRange { .. } | QuantityError::TooFine { .. }
                        ),
                        "{shown}: {why}"
                    ),
                }
            }
        }
    }
    for one in [most + 1, -most - 1, i64::MAX, i64::MIN] {
        assert!(Nominal::from_nanometres(one).is_err());
    }
    let held = Nominal::from_nanometres(most).unwrap();
    assert!(held.plus(held).is_err() && held.minus(held) == Ok(Nominal::ZERO));
}
