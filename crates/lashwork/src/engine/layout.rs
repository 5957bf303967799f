//! Cylinders of common layouts, named 1 to n, with their bank and crankpin angles.
//!
//! All angles count in the running direction. The generators only place cylinders; whether an order
//! goes with them is checked by [`Engine::new`](super::Engine::new).

use super::link_rods::same_pin;
use super::{Cylinder, CylinderLabel};
use crate::quantity::AxisAngle;
use alloc::vec::Vec;
use serde::Serialize;

/// How the cylinders of two banks are numbered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum BankNumbering {
    /// 1, 3, 5 in the first bank, 2, 4, 6 in the second.
    Alternating,
    /// The first half in the first bank, the second half in the second.
    BankByBank,
}

/// One row of `n` cylinders. A cylinder without a crankpin in the list has no geometry, so an
/// engine of which only the order is known takes an empty list.
///
/// ```
/// use lashwork::engine::layout;
/// use lashwork::quantity::AxisAngle;
/// let half = AxisAngle::from_degrees(180.0)?;
/// let twin = layout::inline(2, &[AxisAngle::ZERO, half]);
/// assert_eq!(twin[1].crankpin, Some(half));
/// assert_eq!(layout::inline(4, &[])[3].crankpin, None);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[must_use]
pub fn inline(n: usize, crankpins: &[AxisAngle]) -> Vec<Cylinder> {
    (0..n)
        .map(|i| match crankpins.get(i) {
            Some(pin) => numbered(i).at(AxisAngle::ZERO, *pin),
            None => numbered(i),
        })
        .collect()
}

/// Two banks, one crankpin angle for each cylinder. The first bank lies half the angle between the
/// banks further on in the running direction than the middle, the second half of it behind; a
/// negative angle swaps them.
///
/// On an engine that runs clockwise seen from the front, the first bank is the one on the left of
/// a driver who looks forward.
///
/// ```
/// use lashwork::engine::layout::{self, BankNumbering};
/// use lashwork::quantity::AxisAngle;
/// let v = AxisAngle::from_degrees(90.0)?;
/// let twin = layout::vee(BankNumbering::Alternating, ["left", "right"], v, &[AxisAngle::ZERO; 2]);
/// assert_eq!(twin[0].bank.map(AxisAngle::degrees), Some(45.0));
/// assert_eq!(twin[1].side.as_deref(), Some("right"));
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[must_use]
pub fn vee(
    numbering: BankNumbering,
    sides: [&str; 2],
    between_banks: AxisAngle,
    crankpins: &[AxisAngle],
) -> Vec<Cylinder> {
    let half = AxisAngle::computed(between_banks.degrees() / 2.0);
    let [first, second] = sides;
    crankpins
        .iter()
        .enumerate()
        .map(|(i, pin)| {
            let in_first = match numbering {
                BankNumbering::Alternating => i % 2 == 0,
                BankNumbering::BankByBank => 2 * i < crankpins.len(),
            };
            if in_first {
                numbered(i).on_side(first).at(half, *pin)
            } else {
                numbered(i).on_side(second).at(-half, *pin)
            }
        })
        .collect()
}

/// Two banks opposite each other, one crankpin angle for each cylinder; [`vee`] at 180 degrees.
///
/// ```
/// use lashwork::engine::layout::{self, BankNumbering};
/// use lashwork::quantity::AxisAngle;
/// let half = AxisAngle::from_degrees(180.0)?;
/// let pins = [AxisAngle::ZERO, half, half, AxisAngle::ZERO];
/// let four = layout::opposed(BankNumbering::Alternating, ["right", "left"], &pins);
/// assert_eq!(four[3].bank.map(AxisAngle::within_turn), Some(270.0));
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[must_use]
pub fn opposed(
    numbering: BankNumbering,
    sides: [&str; 2],
    crankpins: &[AxisAngle],
) -> Vec<Cylinder> {
    vee(numbering, sides, AxisAngle::of_degrees::<180>(), crankpins)
}

/// One row of `n` cylinders round one crankpin, numbered in the running direction.
///
/// ```
/// use lashwork::engine::layout;
/// let nine = layout::radial(9);
/// assert_eq!(nine[2].bank.map(|b| b.degrees()), Some(80.0));
/// ```
#[must_use]
pub fn radial(n: usize) -> Vec<Cylinder> {
    (0..n)
        .map(|i| numbered(i).at(star(i, n), AxisAngle::ZERO))
        .collect()
}

/// Two rows of `n` cylinders together, odd numbers in one row and even in the other, on two
/// crankpins 180 degrees apart; numbered in the running direction.
///
/// ```
/// use lashwork::engine::layout;
/// let fourteen = layout::twin_row_radial(14);
/// assert_eq!(fourteen[9].crankpin.map(|p| p.degrees()), Some(180.0));
/// ```
#[must_use]
pub fn twin_row_radial(n: usize) -> Vec<Cylinder> {
    (0..n)
        .map(|i| {
            let pin = if i % 2 == 0 {
                AxisAngle::ZERO
            } else {
                AxisAngle::of_degrees::<180>()
            };
            numbered(i).at(star(i, n), pin)
        })
        .collect()
}

/// Whether the cylinders on the crankpin of one of them point all ways: between neighbours there is no
/// gap of half a turn.
pub(super) fn is_star(cylinders: &[Cylinder], one: &Cylinder) -> bool {
    let row = same_pin(cylinders, one);
    let in_row = cylinders.iter().filter(|c| row.contains(&c.label));
    let mut ways: Vec<f64> = in_row
        .filter_map(|c| c.bank.map(AxisAngle::within_turn))
        .collect();
    ways.sort_by(f64::total_cmp);
    let first = ways.first().copied();
    let next = ways.iter().skip(1).copied();
    let next = next.chain(first.map(|first| first + 360.0));
    // Opposed banks leave half a turn, rounding apart.
    !ways.is_empty() && ways.iter().zip(next).all(|(way, next)| next - way < 179.5)
}

fn numbered(i: usize) -> Cylinder {
    Cylinder::new(CylinderLabel::numbered(i + 1))
}

fn star(i: usize, n: usize) -> AxisAngle {
    AxisAngle::computed(360.0 * i as f64 / n as f64)
}
