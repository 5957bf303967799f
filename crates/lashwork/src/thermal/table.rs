//! Materials of engine parts, each with its source.

use super::material::{Expansion, Material, MeanPoint, SQRT_3, UNSTATED_HALF_WIDTH};
use alloc::borrow::Cow;

const B6: &str = "Callister, Materials Science and Engineering, appendix B, table B.6, room temperature; uncertainty: this library's choice";

/// One coefficient in millionths per kelvin, uncertainty not stated by the source.
const fn room(name: &'static str, millionths: f64) -> Material {
    stated(
        name,
        B6,
        millionths,
        millionths * UNSTATED_HALF_WIDTH / SQRT_3,
    )
}

const fn stated(name: &'static str, source: &'static str, millionths: f64, u: f64) -> Material {
    Material {
        name: Cow::Borrowed(name),
        source: Cow::Borrowed(source),
        coefficient: Expansion::Constant {
            per_kelvin: millionths / 1e6,
            u: u / 1e6,
        },
    }
}

const fn range(name: &'static str, source: &'static str, low: f64, high: f64) -> Material {
    Material {
        name: Cow::Borrowed(name),
        source: Cow::Borrowed(source),
        coefficient: Expansion::Range {
            low: low / 1e6,
            high: high / 1e6,
        },
    }
}

const fn curve(
    name: &'static str,
    source: &'static str,
    base_celsius: f64,
    points: &'static [MeanPoint],
) -> Material {
    Material {
        name: Cow::Borrowed(name),
        source: Cow::Borrowed(source),
        coefficient: Expansion::Mean {
            base_celsius,
            points: Cow::Borrowed(points),
            relative_u: UNSTATED_HALF_WIDTH / SQRT_3,
        },
    }
}

/// Degrees Celsius and millionths per kelvin.
const fn c(celsius: f64, millionths: f64) -> MeanPoint {
    MeanPoint {
        celsius,
        per_kelvin: millionths / 1e6,
    }
}

/// Degrees Fahrenheit and millionths per degree Fahrenheit.
const fn f(fahrenheit: f64, millionths: f64) -> MeanPoint {
    c((fahrenheit - 32.0) / 1.8, millionths * 1.8)
}

static MATERIALS: [Material; 21] = [
    stated(
        "grey iron",
        "Callister, Materials Science and Engineering, appendix B, table B.6, G1800 to G4000; uncertainty from the spread of open property tables, 10.5 to 14 by grade",
        11.4,
        (14.0 - 10.5) / 2.0 / SQRT_3,
    ),
    range(
        "ductile iron",
        "Callister, Materials Science and Engineering, appendix B, table B.6: 80-55-06 10.6, 60-40-18 11.2",
        10.6,
        11.2,
    ),
    curve(
        "carbon steel",
        "ASME BPVC II-D (2001), table TE-1, group 1, column B, mean from 70 F; uncertainty: this library's choice",
        (70.0 - 32.0) / 1.8,
        &[
            f(70.0, 6.4),
            f(100.0, 6.5),
            f(200.0, 6.7),
            f(250.0, 6.8),
            f(300.0, 6.9),
            f(350.0, 7.0),
            f(400.0, 7.1),
            f(450.0, 7.2),
            f(500.0, 7.3),
            f(550.0, 7.3),
            f(600.0, 7.4),
            f(650.0, 7.5),
            f(700.0, 7.6),
            f(750.0, 7.7),
        ],
    ),
    room("steel 1020", 11.7),
    room("steel 4140", 12.3),
    room("aluminium 356", 21.5),
    range(
        "aluminium 390",
        "open property database: 390.0-F 18, A390.0 20; the sources disagree",
        18.0,
        20.0,
    ),
    room("aluminium 6061", 23.6),
    room("magnesium AZ91D", 26.0),
    room("titanium Ti-6Al-4V", 8.6),
    curve(
        "valve steel X53CrMnNiNbN21-9",
        "EN 10090:1998, table of physical properties, 1.4870, mean from 20 C; uncertainty: this library's choice",
        20.0,
        &[
            c(100.0, 15.5),
            c(300.0, 17.5),
            c(500.0, 18.5),
            c(700.0, 18.8),
        ],
    ),
    curve(
        "valve steel X45CrSi9-3",
        "data sheet of the near-equivalent H9S2 (1.4718), mean from 20 C; uncertainty: this library's choice",
        20.0,
        &[
            c(400.0, 12.0),
            c(500.0, 12.6),
            c(600.0, 12.9),
            c(700.0, 13.0),
            c(800.0, 13.4),
        ],
    ),
    curve(
        "steel 1.4057",
        "steelworks data sheet X17CrNi16-2, mean from 20 C; uncertainty: this library's choice",
        20.0,
        &[
            c(100.0, 11.2),
            c(200.0, 11.5),
            c(300.0, 11.7),
            c(400.0, 11.9),
            c(500.0, 12.0),
            c(600.0, 12.1),
            c(700.0, 12.0),
        ],
    ),
    curve(
        "valve steel SUH35",
        "steelworks data sheet of heat-resistant steels, SUH35 (21-4N), mean from 20 C; uncertainty: this library's choice",
        20.0,
        &[c(500.0, 17.5), c(760.0, 18.4)],
    ),
    curve(
        "valve steel 21-2N",
        "steelworks data sheet of heat-resistant steels, 21-2N, mean from 20 C; uncertainty: this library's choice",
        20.0,
        &[c(400.0, 16.5), c(760.0, 18.4)],
    ),
    curve(
        "valve steel SUH1",
        "steelworks data sheet of heat-resistant steels, SUH1, mean from 20 C; uncertainty: this library's choice",
        20.0,
        &[c(600.0, 12.5)],
    ),
    curve(
        "valve steel SUH3",
        "steelworks data sheet of heat-resistant steels, SUH3, mean from 20 C; uncertainty: this library's choice",
        20.0,
        &[c(800.0, 12.2)],
    ),
    curve(
        "valve steel SUH11",
        "steelworks data sheet of heat-resistant steels, SUH11, mean from 20 C; uncertainty: this library's choice",
        20.0,
        &[c(600.0, 13.4)],
    ),
    room("stainless steel 304", 17.2),
    room("bronze C93200", 18.0),
    stated(
        "gauge steel",
        "JCGM 100:2008, H.1: 11.5, rectangular half-width 2",
        11.5,
        2.0 / SQRT_3,
    ),
];

/// Every material of the table.
///
/// ```
/// assert!(lashwork::thermal::materials().iter().all(|m| !m.source.is_empty()));
/// ```
#[must_use]
pub fn materials() -> &'static [Material] {
    &MATERIALS
}

/// The material of that name, whatever the case of its letters; `None` if the table has none.
///
/// ```
/// assert!(lashwork::thermal::material("Aluminium 356").is_some());
/// assert!(lashwork::thermal::material("butter").is_none());
/// ```
#[must_use]
pub fn material(name: &str) -> Option<&'static Material> {
    MATERIALS
        .iter()
        .find(|m| m.name.eq_ignore_ascii_case(name.trim()))
}
