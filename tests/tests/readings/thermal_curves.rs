//! Curves of mean expansion: printed points, what lies between them and what lies below.

use approx::{abs_diff_eq, assert_abs_diff_eq};
use lashwork::quantity::Length;
use lashwork::thermal::{
    Chain, Effect, Expansion, Link, Material, MeanPoint, MetalTemperature, PartTemperatures, Side,
    ThermalError, materials,
};
use lashwork_tests::values::{celsius, kelvin, table};

/// The printed points of a curve and where its means start.
fn printed(material: &Material) -> Option<(f64, &[MeanPoint])> {
    match &material.coefficient {
        Expansion::Mean {
            base_celsius,
            points,
            ..
        } => Some((*base_celsius, points)),
        _ => None,
    }
}

/// The material with only some of its points.
fn with_points(material: &Material, kept: Vec<MeanPoint>) -> Material {
    let mut thinned = material.clone();
    if let Expansion::Mean { points, .. } = &mut thinned.coefficient {
        *points = kept.into();
    }
    thinned
}

/// Growth of a metre from the base of its curve, and the standard uncertainty of it.
fn growth(material: &Material, base: f64, to: f64) -> Result<(f64, f64), ThermalError> {
    let link = Link {
        part: "bar".into(),
        material: material.clone(),
        length: Length::from_mm(1000.0)?,
        length_uncertainty: Length::from_mm(0.0)?,
        side: Side::Valve,
        effect: Effect::Opens,
        follows: "bar".into(),
    };
    let mut hot = PartTemperatures::new();
    hot.insert(
        "bar".into(),
        MetalTemperature::known(celsius(to), kelvin(0.0)),
    );
    let correction = Chain::new(vec![link], 1.0)?.correction(celsius(base), &hot)?;
    Ok((correction.change.mm(), correction.standard_uncertainty_mm()))
}

/// Printed means of valve steels, 1e-6/K from 20 C: EN 10090:1998 (1.4870), data sheets of
/// heat-resistant steels (SUH35, 21-2N, SUH1, SUH3, SUH11), of H9S2 and of X17CrNi16-2.
#[test]
fn every_printed_mean_comes_back() -> Result<(), ThermalError> {
    for (name, rows) in [
        (
            "valve steel X53CrMnNiNbN21-9",
            &[(100.0, 15.5), (300.0, 17.5), (500.0, 18.5), (700.0, 18.8)][..],
        ),
        ("valve steel SUH35", &[(500.0, 17.5), (760.0, 18.4)]),
        ("valve steel 21-2N", &[(400.0, 16.5), (760.0, 18.4)]),
        ("valve steel SUH1", &[(600.0, 12.5)]),
        ("valve steel SUH3", &[(800.0, 12.2)]),
        ("valve steel SUH11", &[(600.0, 13.4)]),
        (
            "valve steel X45CrSi9-3",
            &[
                (400.0, 12.0),
                (500.0, 12.6),
                (600.0, 12.9),
                (700.0, 13.0),
                (800.0, 13.4),
            ],
        ),
        (
            "steel 1.4057",
            &[
                (100.0, 11.2),
                (200.0, 11.5),
                (300.0, 11.7),
                (400.0, 11.9),
                (500.0, 12.0),
                (600.0, 12.1),
                (700.0, 12.0),
            ],
        ),
    ] {
        for (to, millionths) in rows {
            let strain = table(name).strain(celsius(20.0), celsius(*to))?;
            let mean = strain / (to - 20.0) * 1e6;
            assert!(
                abs_diff_eq!(mean, millionths, epsilon = 1e-9),
                "{name} {to}: {mean}"
            );
        }
    }
    Ok(())
}

/// A point left out is foretold by the straight line between its neighbours within the half-width of
/// the curve's uncertainty; between points that are kept the line is half as long and four times as
/// near.
#[test]
fn a_printed_point_left_out_lies_within_the_uncertainty_of_the_line() -> Result<(), ThermalError> {
    let mut checked = 0;
    for material in materials() {
        let Some((base, points)) = printed(material) else {
            continue;
        };
        for left_out in 1..points.len().saturating_sub(1) {
            let mut kept = points.to_vec();
            let point = kept.remove(left_out);
            let (line, u) = growth(&with_points(material, kept), base, point.celsius)?;
            let is = point.per_kelvin * (point.celsius - base) * 1000.0;
            let half_width = u * 3.0_f64.sqrt();
            let place = format!("{} {}", material.name, point.celsius);
            assert!(
                abs_diff_eq!(line, is, epsilon = half_width),
                "{place}: {line} {is} {u}"
            );
            checked += 1;
        }
    }
    assert!(checked > 15, "only {checked}");
    Ok(())
}

/// Every printed point lies within two standard uncertainties of the mean that is held below any
/// later one.
#[test]
fn a_mean_held_below_its_first_point_is_unsure_enough() -> Result<(), ThermalError> {
    let mut checked = 0;
    for material in materials() {
        let Some((base, points)) = printed(material) else {
            continue;
        };
        for first in 1..points.len() {
            let (before, kept) = points.split_at(first);
            let held = with_points(material, kept.to_vec());
            for point in before.iter().filter(|p| p.celsius > base + 20.0) {
                let (line, u) = growth(&held, base, point.celsius)?;
                let is = point.per_kelvin * (point.celsius - base) * 1000.0;
                let place = format!("{} {} from {first}", material.name, point.celsius);
                assert!(
                    abs_diff_eq!(line, is, epsilon = 2.0 * u),
                    "{place}: {line} {is} {u}"
                );
                checked += 1;
            }
        }
    }
    assert!(checked > 30, "only {checked}");
    Ok(())
}

/// The uncertainty of the growth has no jump where the held mean meets the curve.
#[test]
fn the_held_mean_joins_the_curve_without_a_jump() -> Result<(), ThermalError> {
    let steel = table("valve steel X45CrSi9-3");
    let (_, below) = growth(&steel, 20.0, 399.999)?;
    let (_, above) = growth(&steel, 20.0, 400.001)?;
    assert_abs_diff_eq!(above / below, 1.0, epsilon = 1e-4);
    let at = |to: f64| -> Result<f64, ThermalError> {
        let (growth, u) = growth(&steel, 20.0, to)?;
        Ok(u / growth)
    };
    // 5 % and 20 % half-widths over the root of three, near the base.
    let both = (0.05_f64.hypot(0.2)) / 3.0_f64.sqrt();
    assert_abs_diff_eq!(at(20.001)? / both, 1.0, epsilon = 1e-3);
    assert_abs_diff_eq!(at(500.0)? / (0.05 / 3.0_f64.sqrt()), 1.0, epsilon = 1e-9);
    Ok(())
}
