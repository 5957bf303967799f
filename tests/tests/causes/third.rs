//! What is stated on engines drawn without knowledge of the model; the documentation of `lashwork::causes` holds what 1,400
//! of them showed.

use super::blind::{BANDS, Stated, Taken, by_band, stated};
use super::table::wilson;

/// What was found, with a little room: no band is further off than that.
const FARTHEST: f64 = 0.12;

#[test]
fn a_third_kind_of_engines_holds_what_was_found() {
    let mut all = stated(60, Taken::Usual, 0x0b11_4d00);
    all.extend(stated(60, Taken::Everything, 0x0b11_4d00));
    let pairs = all.iter().flat_map(Stated::pairs);
    let bands = by_band(pairs.map(|(_, stated, is_there)| (stated, is_there)));
    for (band, (from, to)) in bands.iter().zip(BANDS) {
        let n = band.count as f64;
        let (low, high) = wilson(n, band.there as f64);
        let mean = band.stated / n;
        println!("{from} to {to}: {mean:.3} stated, {low:.3} to {high:.3} of {n}");
        assert!(
            n > 4.0 && high > mean - FARTHEST && low < mean + FARTHEST,
            "{from} to {to}: {mean} stated, {low} to {high} of {n}"
        );
    }
    let sound = all.iter().filter(|own| own.faults.is_empty()).count() as f64;
    let alarms = all.iter().filter(|own| own.false_alarm()).count() as f64;
    let (least, _) = wilson(sound, alarms);
    assert!(least < 0.06, "{alarms} of {sound}");
}
