//! Texts for places that take any text, and texts that differ from a known one by its number.

/// What stands for a cylinder, a date, a temperature and the like in documents, and what stands nowhere.
pub(super) const TEXTS: [&str; 24] = [
    "1",
    "2",
    "3",
    "4",
    "A1",
    "manual",
    "petrol",
    "steel",
    "2019-04-27",
    "412.5 h",
    "58000 km",
    "20 C",
    "0.15 mm",
    "0,006 in",
    "12 deg",
    "3000 rpm",
    "101 kPa",
    "4000-0",
    "",
    " ",
    "NaN mm",
    "1e300 mm",
    "\u{2212}1 mm",
    "\u{0}",
];

/// A text with another number where it begins with one: "0.15 mm" becomes "0.3 mm".
pub(super) fn with_number(text: &str, number: f64) -> String {
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || "+-.,\u{2212}".contains(c)))
        .unwrap_or(text.len());
    format!("{number}{}", text.get(end..).unwrap_or(""))
}
