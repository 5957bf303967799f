//! Which valves are far from their kind, by a rule that a few of them cannot upset.
//!
//! # Method
//! Each reading stands for its middle, or for the one end it has; a gap under half its set value with
//! no lower end stands for half that end. Its distance is that from the set value, less the median
//! distance of its kind (of both kinds where a kind has fewer than three readings), in spreads of its
//! kind: the set band, the stray of a service and a tenth of the set value together. Where the engine
//! itself spreads wider (1.4826 times the median of all distances, the usual robust estimate of a
//! standard deviation), distances are counted in that. Of two middle values the one nearer to zero is
//! the median, so that half of a kind may be odd. A reading with one end has no middle: medians are taken
//! of the others while there are three of a kind, and what its open side allows is no distance.
//!
//! A valve 5 or more away is odd. What is odd is then taken out and the rest is looked at again, until
//! nothing more is found. An engine with one odd valve has more of them more often than another, so there
//! 4 is enough if the whole reading lies outside the band in which the valve may be left.
//!
//! A kind of three readings or more whose median is 5 spreads or more from its set value is named as a
//! whole ([`KindOff`]): wide engines spread so, but not all to one side.
//!
//! # Stands apart
//! A valve whose whole reading lies outside its band and that is not named is to be measured once more
//! before it is set, if it is odd with a probability of 5 % or more: by the models of 'no systematic fault',
//! which know a share of odd valves, and given that the named ones are odd. It is no alarm.
//!
//! # How often it is wrong
//! `tests/tests/diagnosis_simulation` draws healthy engines and prints the share with a valve named:
//! under 1 % on engines like the model, under 2 % on neglected ones that spread by 18 %; and the share
//! of engines with one bad valve on which another is named beside it, under 5 %. One to be measured once more
//! is found on 1 in 600 and 4 in 480 of these, and beside one bad valve on one engine in four (one in two where
//! valves spread by 18 %). Its probability is printed beside the share that is odd: rather more are odd than stated.
//!
//! # Source
//! Median and median absolute deviation: textbook statistics. The numbers are this library's choice: with
//! the shares of the model a second odd valve is 30 times as probable as the first, which for a normal
//! distance takes 5 to `sqrt(25 - 2 ln 30)`, 4.3.

use super::evidence::{Seen, Source};
use super::model::set_spread_mm;
use crate::quantity::{Lash, LashChange};
use crate::valve::ValveKind;
use alloc::vec::Vec;

/// From so many spreads on a valve is odd.
pub(crate) const ODD_FROM: f64 = 5.0;
/// The same beside another odd valve.
pub(crate) const ODD_BESIDE_FROM: f64 = 4.0;
/// From this probability of being odd on, a valve that is not named stands apart: to measure it once more
/// takes a minute, to set what hides a fault may cost the valve.
pub(crate) const APART_FROM: f64 = 0.05;
/// Fewest readings of a kind that give a middle of their own.
const FEWEST_OF_A_KIND: usize = 3;
/// The standard deviation of a normal distribution over its median absolute deviation.
const MAD_TO_DEVIATION: f64 = 1.482_602_218_505_602;

/// A valve far from its kind.
///
/// ```
/// use lashwork::diagnosis::OddValve;
/// use lashwork::quantity::LashChange;
/// let tight = OddValve { reading: 3, off: LashChange::from_mm(-0.22)?, spreads: 5.9 };
/// assert!(!tight.is_looser());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OddValve {
    /// The place of its reading in the evidence.
    pub reading: usize,
    /// How far it is from the middle of its kind; positive is looser.
    pub off: LashChange,
    /// The same in spreads, without a sign.
    pub spreads: f64,
}

impl OddValve {
    /// Whether it is looser than its kind, else tighter.
    #[must_use]
    pub fn is_looser(&self) -> bool {
        self.off.mm() > 0.0
    }
}

/// A valve outside its band that is not far enough from its kind to be named as odd, and too far to be
/// taken for ordinary without another look: one to measure once more.
///
/// ```
/// use lashwork::diagnosis::{ApartValve, OddValve};
/// use lashwork::quantity::LashChange;
/// let valve = OddValve { reading: 3, off: LashChange::from_mm(-0.12)?, spreads: 2.7 };
/// let apart = ApartValve { valve, chance: 0.3 };
/// assert!(!apart.valve.is_looser());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ApartValve {
    /// How far it is from its kind.
    pub valve: OddValve,
    /// The probability that it is odd, if there is no systematic fault.
    pub chance: f64,
}

/// A kind of valve that is far from its set value as a whole.
///
/// ```
/// use lashwork::diagnosis::KindOff;
/// use lashwork::quantity::LashChange;
/// use lashwork::valve::ValveKind;
/// let loose = KindOff { kind: ValveKind::Intake, off: LashChange::from_mm(0.22)? };
/// assert_eq!(loose.off.mm(), 0.22);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KindOff {
    /// The kind.
    pub kind: ValveKind,
    /// How far its middle is from its set value; positive is looser.
    pub off: LashChange,
}

/// The kinds far from their set value as a whole.
pub(super) fn kinds_off(readings: &[Seen], source: &Source) -> Vec<KindOff> {
    let all: Vec<Distance> = readings.iter().map(|s| distance(s, source)).collect();
    let each = [ValveKind::Intake, ValveKind::Exhaust].into_iter();
    each.filter_map(|kind| {
        let of_kind: Vec<f64> = all
            .iter()
            .filter(|d| d.kind == kind)
            .map(|d| d.mm)
            .collect();
        let enough = of_kind.len() >= FEWEST_OF_A_KIND;
        let off = median(of_kind);
        let spreads = off.abs() / set_spread_mm(source.limits(kind));
        (enough && spreads >= ODD_FROM).then(|| KindOff {
            kind,
            off: LashChange::computed(off),
        })
    })
    .collect()
}

/// A reading as a distance from its set value.
struct Distance {
    kind: ValveKind,
    /// From the set value, in millimetres.
    mm: f64,
    /// One spread of its kind, in millimetres.
    spread_mm: f64,
    /// Whether the reading has a middle.
    is_closed: bool,
    /// The least and the greatest distance from its kind it can stand for.
    reach: (f64, f64),
    /// Whether all of it lies outside the band in which the valve may be left.
    is_outside: bool,
}

/// The valves far from their kind, the farthest first, and the others whose readings lie outside the band.
pub(super) fn odd_valves(readings: &[Seen], source: &Source) -> (Vec<OddValve>, Vec<OddValve>) {
    let all: Vec<Distance> = readings.iter().map(|s| distance(s, source)).collect();
    let is_outside = |valve: &OddValve| all.get(valve.reading).is_some_and(|d| d.is_outside);
    let mut odd: Vec<OddValve> = Vec::new();
    // Each turn names a valve or is the last.
    loop {
        let is_named = |reading: usize| odd.iter().any(|o| o.reading == reading);
        let far = from_the_rest(&all, &is_named).into_iter();
        let left = far.filter(|valve| !is_named(valve.reading));
        let (more, mut others): (Vec<OddValve>, Vec<OddValve>) = left.partition(|valve| {
            let beside = !odd.is_empty() && is_outside(valve);
            valve.spreads >= if beside { ODD_BESIDE_FROM } else { ODD_FROM }
        });
        if more.is_empty() {
            odd.sort_by(|a, b| b.spreads.total_cmp(&a.spreads));
            others.retain(is_outside);
            return (odd, others);
        }
        odd.extend(more);
    }
}

/// The valves that stand apart, of those whose readings lie outside the band; `chances` has the probability
/// of each reading to be that of an odd valve.
pub(super) fn apart(outside: &[OddValve], chances: &[f64]) -> Vec<ApartValve> {
    let each = outside.iter().filter_map(|valve| {
        let chance = *chances.get(valve.reading)?;
        (chance >= APART_FROM).then_some(ApartValve {
            valve: *valve,
            chance,
        })
    });
    let mut apart: Vec<ApartValve> = each.collect();
    apart.sort_by(|a, b| b.chance.total_cmp(&a.chance));
    apart
}

/// How far every valve is from those of its kind that are not named yet.
fn from_the_rest(all: &[Distance], named: &dyn Fn(usize) -> bool) -> Vec<OddValve> {
    let left = || {
        let rest = all.iter().enumerate().filter(|(i, _)| !named(*i));
        rest.map(|(_, distance)| distance)
    };
    // Of a kind, and of all: readings with a middle, or every one where those are too few.
    let used = |keep: &dyn Fn(&Distance) -> bool| -> Vec<&Distance> {
        let closed: Vec<&Distance> = left().filter(|d| d.is_closed && keep(d)).collect();
        if closed.len() < FEWEST_OF_A_KIND {
            left().filter(|d| keep(d)).collect()
        } else {
            closed
        }
    };
    let every = used(&|_| true);
    let middle = |kind: ValveKind| {
        let own = used(&|d| d.kind == kind);
        let of = if own.len() < FEWEST_OF_A_KIND {
            &every
        } else {
            &own
        };
        median(of.iter().map(|d| d.mm).collect())
    };
    let (intake, exhaust) = (middle(ValveKind::Intake), middle(ValveKind::Exhaust));
    let off = |d: &Distance| {
        let middle = match d.kind {
            ValveKind::Intake => intake,
            ValveKind::Exhaust => exhaust,
        };
        (d.mm - middle).clamp(d.reach.0, d.reach.1)
    };
    let spreads = every.iter().map(|d| (off(d) / d.spread_mm).abs());
    let wider = (MAD_TO_DEVIATION * median(spreads.collect())).max(1.0);
    let each = all.iter().enumerate();
    each.map(|(reading, d)| OddValve {
        reading,
        off: LashChange::computed(off(d)),
        spreads: (off(d) / d.spread_mm).abs() / wider,
    })
    .collect()
}

/// How far a reading is from its set value.
fn distance(seen: &Seen, source: &Source) -> Distance {
    let limits = source.limits(seen.valve.kind);
    let set = limits.set_to().mm();
    let cold = |at: Lash| at.mm() - source.warmth.mm();
    let felt = &seen.felt;
    let (low, high) = (felt.low().map(cold), felt.high().map(cold));
    let (mm, reach) = match (felt.centre().map(cold), low, high) {
        (Some(at), ..) => (at, (f64::NEG_INFINITY, f64::INFINITY)),
        (None, Some(low), _) => (low, (0.0, f64::INFINITY)),
        // What is missing of the gap is the finding, not what the thinnest leaf is.
        (None, None, Some(high)) if high < 0.5 * set => {
            (0.5 * high, (f64::NEG_INFINITY, f64::INFINITY))
        }
        (None, None, Some(high)) => (high, (f64::NEG_INFINITY, 0.0)),
        (None, None, None) => (set, (0.0, 0.0)),
    };
    let band = limits.judging();
    let tight = high.zip(band.lower()).is_some_and(|(x, t)| x <= t.mm());
    let loose = low.zip(band.upper()).is_some_and(|(x, t)| x >= t.mm());
    Distance {
        kind: seen.valve.kind,
        mm: mm - set,
        spread_mm: set_spread_mm(limits),
        is_closed: felt.centre().is_some(),
        reach,
        is_outside: tight || loose,
    }
}

/// The middle of a list, of two middle values the one nearer to zero; 0 of none.
fn median(mut list: Vec<f64>) -> f64 {
    list.sort_by(f64::total_cmp);
    let half = list.len() / 2;
    let at = |i: usize| list.get(i).copied().unwrap_or(0.0);
    let (low, high) = (at(half.saturating_sub(1)), at(half));
    if list.len() % 2 == 1 || high.abs() <= low.abs() {
        high
    } else {
        low
    }
}
