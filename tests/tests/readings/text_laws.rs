//! What a value shows it reads again, and what is read shows as it was written.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use lashwork::Refusal;
use lashwork::feeler::{Reading, Stack};
use lashwork::quantity::Lash;
use lashwork::tolerance::Limits;
use proptest::prelude::*;
use std::fmt::{Debug, Display};
use std::str::FromStr;

/// Both directions of one law: text to value to the same text, and back to the same value.
fn reads_what_it_shows<T: FromStr + Display + Debug + PartialEq>(text: &str)
where
    T::Err: Debug,
{
    let value: T = text.parse().unwrap();
    assert_eq!(value.to_string(), text);
    assert_eq!(value.to_string().parse::<T>().unwrap(), value);
    assert_eq!(format!("  {text} ").parse::<T>().unwrap(), value);
}

/// Marks in millimetres or inches, thinner ones first.
fn mark() -> impl Strategy<Value = (u32, String)> {
    let mm = (1..2000_u32).prop_map(|n| (n * 10_000, format!("{}.{:02} mm", n / 100, n % 100)));
    let inch = (1..700_u32).prop_map(|n| (n * 25_400, format!("0.{n:03} in")));
    prop_oneof![mm, inch]
}

fn stack() -> impl Strategy<Value = (u32, String)> {
    prop::collection::vec(mark(), 1..4).prop_map(|marks| {
        let texts: Vec<_> = marks.iter().map(|(_, text)| text.clone()).collect();
        (marks.iter().map(|(nm, _)| nm).sum(), texts.join(" + "))
    })
}

proptest! {
    #[test]
    fn readings((a, thin) in stack(), (b, thick) in stack(), (_, spread) in mark()) {
        let (thin, thick) = if a < b { (thin, thick) } else { (thick, thin) };
        reads_what_it_shows::<Stack>(&thin);
        reads_what_it_shows::<Reading>(&format!("{thin} goes"));
        reads_what_it_shows::<Reading>(&format!("{thin} does not go"));
        reads_what_it_shows::<Reading>(&format!("{thin} drags (spread {spread})"));
        if a != b {
            reads_what_it_shows::<Reading>(&format!("{thin} goes, {thick} does not"));
            let turned = format!("{thick} goes, {thin} does not").parse::<Reading>();
            prop_assert_eq!(turned.unwrap_err().code(), "feeler.contradiction");
        }
    }

    #[test]
    fn limits((a, low) in mark(), (b, high) in mark()) {
        let (low, high) = if a <= b { (low, high) } else { (high, low) };
        reads_what_it_shows::<Limits<Lash>>(&format!("{low} to {high}"));
        reads_what_it_shows::<Limits<Lash>>(&format!("at least {low}"));
        reads_what_it_shows::<Limits<Lash>>(&format!("at most {high}"));
    }

    #[test]
    fn any_text_is_read_or_refused(text in ".{0,40}") {
        let _ = (text.parse::<Reading>(), text.parse::<Limits<Lash>>(), text.parse::<Stack>());
    }
}

#[test]
fn what_is_refused_says_why() {
    for (text, code) in [
        ("", "feeler.reading"),
        ("0.12 mm", "feeler.reading"),
        ("0.12 mm goes, 0.15 mm", "feeler.reading"),
        ("0.12 goes", "quantity.no-unit"),
        ("0 mm goes", "feeler.leaf-not-positive"),
        ("0.12 mm drags (spread 0 mm)", "feeler.not-positive"),
    ] {
        assert_eq!(text.parse::<Reading>().unwrap_err().code(), code, "{text}");
    }
    for (text, code) in [
        ("any", "tolerance.limits-text"),
        ("0.15 mm", "tolerance.limits-text"),
        ("at least 0.15", "quantity.no-unit"),
        ("0.15 mm to", "tolerance.limits-text"),
    ] {
        let refused = text.parse::<Limits<Lash>>().unwrap_err();
        assert_eq!(refused.code(), code, "{text}");
    }
}
