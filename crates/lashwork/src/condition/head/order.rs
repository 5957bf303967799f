//! In which order bolts are tightened: from the middle outward, ends and sides in turn.
//!
//! # Method
//! Bolts of a group are taken by their distance from the middle of all bolts. Those at one distance, to within a
//! quarter of the pitch, are taken in turn, each time the one farthest from the last: so ends and sides alternate
//! across. Long bolts come before short ones.
//!
//! # Source
//! From the middle outward: common practice, no source. Long before short: published, named in the tests.

use super::HeadError;
use crate::quantity::Length;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;
use serde::Serialize;

/// Bolts nearer than this are one, in millimetres.
const LEAST_PITCH: f64 = 5.0;
/// Part of the pitch within which bolts are equally far from the middle.
const SAME: f64 = 0.25;

/// A bolt and where it stands on the head.
///
/// ```
/// use lashwork::condition::head::Bolt;
/// let one = Bolt::new("1", 0.0, 45.0);
/// assert_eq!(one.group, 0);
/// assert_eq!(Bolt { group: 1, ..one }.name, "1");
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Bolt {
    /// What it is called.
    pub name: String,
    /// Along the head, in millimetres from any zero.
    pub along: f64,
    /// Across it.
    pub across: f64,
    /// The groups are tightened one after the other: 0 for the long bolts, 1 for short ones beside them.
    pub group: u8,
}

impl Bolt {
    /// A bolt of the first group.
    #[must_use]
    pub fn new(name: &str, along: f64, across: f64) -> Self {
        Self {
            name: String::from(name),
            along,
            across,
            group: 0,
        }
    }

    fn distance(&self, (along, across): (f64, f64)) -> f64 {
        libm::hypot(self.along - along, self.across - across)
    }

    const fn place(&self) -> (f64, f64) {
        (self.along, self.across)
    }
}

/// The pattern, checked: its middle and its least pitch.
fn pattern(bolts: &[Bolt]) -> Result<((f64, f64), f64), HeadError> {
    if bolts.is_empty() {
        return Err(HeadError::NoBolts);
    }
    let mut pitch = f64::INFINITY;
    for (i, bolt) in bolts.iter().enumerate() {
        for mm in [bolt.along, bolt.across] {
            Length::from_mm(mm.abs())?;
        }
        for other in bolts.iter().skip(i + 1) {
            if other.name == bolt.name {
                let name = bolt.name.clone();
                return Err(HeadError::BoltTwice { name });
            }
            let apart = bolt.distance(other.place());
            if apart < LEAST_PITCH {
                return Err(HeadError::OnePlace {
                    first: bolt.name.clone(),
                    second: other.name.clone(),
                    apart,
                });
            }
            pitch = pitch.min(apart);
        }
    }
    let middle = |of: fn(&Bolt) -> f64| {
        let all = || bolts.iter().map(of);
        let low = all().fold(f64::INFINITY, f64::min);
        let high = all().fold(f64::NEG_INFINITY, f64::max);
        low + 0.5 * (high - low)
    };
    Ok(((middle(|b| b.along), middle(|b| b.across)), pitch))
}

/// The order in which the bolts are tightened; they are loosened the other way round.
///
/// # Errors
/// [`HeadError::NoBolts`], [`HeadError::BoltTwice`]; [`HeadError::OnePlace`] under 5 mm apart.
///
/// ```
/// use lashwork::condition::head::{Bolt, sequence};
/// // Two rows of three.
/// let bolts: Vec<Bolt> = [("a", 0.0), ("b", 90.0), ("c", 180.0)]
///     .iter()
///     .flat_map(|(n, x)| [Bolt::new(n, *x, 0.0), Bolt::new(&n.to_uppercase(), *x, 80.0)])
///     .collect();
/// let order: Vec<&str> = sequence(&bolts)?.iter().map(|b| b.name.as_str()).collect();
/// // The middle pair first, then across from corner to corner.
/// assert_eq!(order, ["b", "B", "a", "C", "A", "c"]);
/// # Ok::<(), lashwork::condition::head::HeadError>(())
/// ```
pub fn sequence(bolts: &[Bolt]) -> Result<Vec<&Bolt>, HeadError> {
    let (middle, pitch) = pattern(bolts)?;
    let mut left: Vec<&Bolt> = bolts.iter().collect();
    let mut order: Vec<&Bolt> = Vec::new();
    while let Some(group) = left.iter().map(|b| b.group).min() {
        let in_group = |b: &&&Bolt| b.group == group;
        let nearest = left.iter().filter(in_group).map(|b| b.distance(middle));
        let ring = nearest.fold(f64::INFINITY, f64::min) + SAME * pitch;
        let reach = |bolt: &Bolt| {
            order
                .last()
                .map_or(0.0, |last: &&Bolt| bolt.distance(last.place()))
        };
        let mut best: Option<(usize, f64)> = None;
        for (at, bolt) in left.iter().enumerate() {
            let far = reach(bolt);
            let is_candidate = bolt.group == group && bolt.distance(middle) <= ring;
            if is_candidate && best.is_none_or(|(_, most)| far > most + 1e-9) {
                best = Some((at, far));
            }
        }
        let Some((at, _)) = best else { break };
        order.push(left.remove(at));
    }
    Ok(order)
}

/// What is odd about an order.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum OrderFault {
    /// It does not begin at the middle.
    BeginsOutside {
        /// The first bolt.
        first: String,
    },
    /// It comes back towards the middle by more than a pitch.
    ComesBack {
        /// The bolt at which it does.
        at: String,
    },
    /// A short bolt comes before a long one.
    ShortBeforeLong {
        /// The long bolt.
        long: String,
    },
}

impl fmt::Display for OrderFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BeginsOutside { first } => {
                write!(f, "the order begins with bolt {first}, not in the middle")
            }
            Self::ComesBack { at } => {
                write!(f, "the order comes back towards the middle at bolt {at}")
            }
            Self::ShortBeforeLong { long } => {
                write!(f, "long bolt {long} comes after a short one")
            }
        }
    }
}

/// What is odd about a printed or typed order, against one from the middle outward: a slip of the pen, or the
/// maker's own reason.
///
/// # Errors
/// As [`sequence`]; [`HeadError::OtherBolts`] unless the order names each bolt once.
///
/// ```
/// use lashwork::condition::head::{Bolt, OrderFault, check_order};
/// let row: Vec<Bolt> = (0..5).map(|i| Bolt::new(&i.to_string(), 50.0 * f64::from(i), 0.0)).collect();
/// assert!(check_order(&row, &["2", "1", "3", "0", "4"])?.is_empty());
/// let odd = check_order(&row, &["0", "1", "2", "3", "4"])?;
/// assert_eq!(odd[0], OrderFault::BeginsOutside { first: "0".into() });
/// # Ok::<(), lashwork::condition::head::HeadError>(())
/// ```
pub fn check_order(bolts: &[Bolt], order: &[&str]) -> Result<Vec<OrderFault>, HeadError> {
    let (middle, pitch) = pattern(bolts)?;
    let of_name = |name: &str| bolts.iter().find(|b| b.name == name);
    let other = |name: &str| HeadError::OtherBolts {
        name: String::from(name),
    };
    let mut in_order: Vec<&Bolt> = Vec::new();
    for name in order {
        let bolt = of_name(name).ok_or_else(|| other(name))?;
        if in_order.iter().any(|b| b.name == bolt.name) {
            return Err(other(name));
        }
        in_order.push(bolt);
    }
    if let Some(missing) = bolts.iter().find(|b| !order.contains(&b.name.as_str())) {
        return Err(other(&missing.name));
    }
    let mut faults = Vec::new();
    let first_group = bolts.iter().map(|b| b.group).min();
    let nearest = bolts.iter().filter(|b| Some(b.group) == first_group);
    let nearest = nearest
        .map(|b| b.distance(middle))
        .fold(f64::INFINITY, f64::min);
    if let Some(first) = in_order.first()
        && first.distance(middle) > nearest + pitch
    {
        let first = first.name.clone();
        faults.push(OrderFault::BeginsOutside { first });
    }
    let (mut reached, mut group) = (0.0_f64, 0);
    for bolt in in_order {
        if bolt.group < group {
            let long = bolt.name.clone();
            faults.push(OrderFault::ShortBeforeLong { long });
            continue;
        }
        if bolt.group > group {
            (reached, group) = (0.0, bolt.group);
        }
        let out = bolt.distance(middle);
        if out < reached - pitch {
            let at = bolt.name.clone();
            faults.push(OrderFault::ComesBack { at });
        }
        reached = reached.max(out);
    }
    Ok(faults)
}
