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
    "E5",
    "0.15 mm",
    "0,006 in",
    "20 C",
    "68 F",
    "293 K",
    "12 deg",
    "",
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

/// What a number of this name could be: the header ends names with their units.
fn likely(source: &mut Unstructured<'_>, name: &str) -> f64 {
    let share = f64::from(some::<u8>(source)) / 255.0;
    let has = |words: &[&str]| words.iter().any(|word| name.contains(word));
    let (least, most) = match name {
        _ if has(&["uncertainty", "scatter", "repeat", "gauge_kpa"]) => (0.001, 0.05),
        _ if has(&[
            "air_kpa",
            "here",
            "there_kpa",
            "ambient",
            "barometer",
            "pressure_kpa",
        ]) =>
        {
            (95.0, 105.0)
        }
        _ if has(&["supply_kpa"]) => (551.0, 560.0),
        _ if has(&["shown_kpa"]) => (300.0, 540.0),
        _ if has(&["kpa"]) => (700.0, 1_200.0),
        _ if has(&["celsius"]) => (0.0, 60.0),
        _ if has(&["rpm"]) => (500.0, 4_000.0),
        _ if has(&["confidence", "fault", "share"]) => (0.5, 0.99),
        _ if has(&["dwell_deg", "abdc", "bbdc"]) => (20.0, 60.0),
        _ if has(&["deg"]) => (0.0, 30.0),
        _ if has(&["radius"]) => (35.0, 50.0),
        _ if has(&[
            "rod_mm",
            "wrench_mm",
            "adapter_mm",
            "diameter_mm",
            "bearing_mm",
        ]) =>
        {
            (100.0, 200.0)
        }
        _ if has(&["offset", "hc_ppm"]) => (0.0, 2.0),
        _ if has(&["old_mm", "pitch"]) => (1.0, 3.0),
        _ if has(&["mm"]) => (0.1, 0.5),
        _ if has(&["ratio", "crank_turns", "exponent", "hydrogen", "orifice"]) => (1.0, 2.0),
        _ if has(&["co2"]) => (12.0, 15.0),
        _ => (0.0, 5.0),
    };
    // Two digits, as one reads them.
    ((least + share * (most - least)) * 1_000.0).round() / 1_000.0
}

/// The bits of a value, in the low ones if it is narrower.
pub(crate) fn bits(source: &mut Unstructured<'_>, name: &str, number: Number) -> u64 {
    let any = once_in(source, 24);
    match number {
        Number::Double if !any && !once_in(source, 6) => likely(source, name).to_bits(),
        Number::Double => double(source).to_bits(),
        Number::Choice if name == "reserved" && !any => 0,
        Number::Choice if !any && once_in(source, 2) => 1,
        Number::Whole | Number::Size if any => some(source),
        // Whole nanometres: hundredths of a millimetre.
        Number::Whole => u64::from(some::<u8>(source)) * 10_000,
        Number::Choice if any => u64::from(some::<u32>(source)),
        Number::Byte | Number::Letter if any => u64::from(some::<u8>(source)),
        Number::Byte | Number::Letter => u64::from(some::<u8>(source) % 3),
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
