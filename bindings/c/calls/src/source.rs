//! Values from bytes: mostly what could stand there, now and then any bits at all. Zeros once no bytes are left.

use crate::table::Number;
use arbitrary::{Arbitrary, Unstructured};

/// Numbers at the edges of what a double is.
const EDGES: [f64; 12] = [
    0.0,
    -0.0,
    1.0,
    100.0,
    360.0,
    720.0,
    -1.0,
    f64::NAN,
    f64::INFINITY,
    f64::NEG_INFINITY,
    f64::MAX,
    f64::MIN_POSITIVE,
];

/// Texts that a call may be given, and others.
const TEXTS: [&str; 12] = [
    "",
    "0.15 mm",
    "0,006 in",
    "20 C",
    "68 F",
    "293 K",
    "12 deg",
    "petrol",
    "e10",
    "lw_screw",
    "1e300 mm",
    "\u{2212}1 mm",
];

pub(crate) fn some<'a, T: Arbitrary<'a> + Default>(source: &mut Unstructured<'a>) -> T {
    source.arbitrary().unwrap_or_default()
}

/// A number below another, 0 if that is 0.
pub(crate) fn below(source: &mut Unstructured<'_>, end: usize) -> usize {
    usize::from(some::<u8>(source)) % end.max(1)
}

/// Once in so many times.
pub(crate) fn once_in(source: &mut Unstructured<'_>, times: u8) -> bool {
    some::<u8>(source) % times == times - 1
}

/// A usual number lies between a thousandth and some thousands, most of them above 0.
fn double(source: &mut Unstructured<'_>) -> f64 {
    let [kind, digits] = some::<[u8; 2]>(source);
    let scaled = |power: i32| f64::from(digits) / 10.0 * 10_f64.powi(power);
    match kind {
        0..16 => EDGES
            .get(usize::from(digits) % EDGES.len())
            .copied()
            .unwrap_or(0.0),
        16..24 => f64::from_bits(some(source)),
        24..32 => f64::from(some::<f32>(source)),
        32..56 => -scaled(i32::from(kind % 4) - 2),
        _ => scaled(i32::from(kind % 6) - 3),
    }
}

/// The bits of a value, in the low ones if it is narrower.
pub(crate) fn bits(source: &mut Unstructured<'_>, number: Number) -> u64 {
    let any = once_in(source, 24);
    match number {
        Number::Double => double(source).to_bits(),
        Number::Whole if any => some(source),
        // Whole nanometres: hundredths of a millimetre.
        Number::Whole => u64::from(some::<u16>(source)) * 10_000,
        Number::Size if any => some(source),
        Number::Choice if any => u64::from(some::<u32>(source)),
        Number::Byte | Number::Letter => u64::from(some::<u8>(source)),
        Number::Size | Number::Choice => u64::from(some::<u8>(source) % 9),
    }
}

/// A text and, once in a while, bytes that are none.
pub(crate) fn text(source: &mut Unstructured<'_>) -> Vec<u8> {
    if once_in(source, 4) {
        let length = below(source, 40);
        return (0..length).map(|_| some(source)).collect();
    }
    let which = below(source, TEXTS.len());
    TEXTS
        .get(which)
        .map_or(Vec::new(), |text| text.as_bytes().to_vec())
}
