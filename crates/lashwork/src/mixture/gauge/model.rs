//! What each cause shows, and how often.
//!
//! # Source
//! Levels of sound engines, drops of 3 to 6, about 4 and about 10 inHg, a drift between 12 and 16, the blip to
//! about 2 and 25: published, named in the tests. All shares and the other bands: this library's choice.

use super::{CompressionFound, GaugeCause, LashFound, Movement, TimingFound, WithSpeed};
use alloc::vec::Vec;

/// A band in inches of mercury, and how far past its ends values are met.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Band {
    low: f64,
    high: f64,
    blur: f64,
}

impl Band {
    const fn of(low: f64, high: f64, blur: f64) -> Self {
        Self { low, high, blur }
    }

    /// Density at a value that is itself uncertain.
    pub(super) fn density(self, at: f64, u: f64) -> f64 {
        let s = libm::hypot(self.blur, u);
        let below = |end: f64| crate::statistics::normal_cdf((at - end) / s);
        (below(self.low) - below(self.high)).max(0.0) / (self.high - self.low)
    }
}

/// Shares, in percent, of: steady or rippling, small flick, regular drop, now and then, drift, swing.
const fn movements(cause: GaugeCause) -> [f64; 6] {
    use GaugeCause as C;
    match cause {
        C::Sound => [94.0, 2.0, 0.5, 2.0, 1.0, 0.5],
        C::SparkLate => [90.0, 2.0, 1.0, 3.0, 3.0, 1.0],
        C::ValvesLate => [90.0, 2.0, 2.0, 2.0, 2.0, 2.0],
        C::RingsWorn => [88.0, 3.0, 3.0, 3.0, 2.0, 1.0],
        C::IntakeLeak => [72.0, 3.0, 6.0, 3.0, 6.0, 10.0],
        C::Misfire => [6.0, 14.0, 60.0, 14.0, 3.0, 3.0],
        C::ValveLeaks => [5.0, 20.0, 65.0, 6.0, 2.0, 2.0],
        C::ValveTight => [20.0, 66.0, 8.0, 3.0, 2.0, 1.0],
        C::ValveSticks => [6.0, 4.0, 6.0, 80.0, 2.0, 2.0],
        C::HeadGasket => [5.0, 4.0, 82.0, 3.0, 2.0, 4.0],
        C::SpringsWeak => [15.0, 8.0, 8.0, 9.0, 2.0, 58.0],
        C::GuidesWorn => [12.0, 8.0, 8.0, 6.0, 4.0, 62.0],
        C::MixtureWrong => [22.0, 3.0, 3.0, 18.0, 52.0, 2.0],
        C::PlugGapsClose => [25.0, 62.0, 4.0, 5.0, 3.0, 1.0],
        C::ExhaustBlocked => [88.0, 2.0, 2.0, 3.0, 3.0, 2.0],
        C::SomethingElse => [30.0, 14.0, 14.0, 14.0, 14.0, 14.0],
    }
}

/// What part of needles that do not move otherwise tremble evenly, by the number of cylinders: a four does, a
/// six hardly, an eight not (published); halfway where it is not known.
fn ripples(cylinders: Option<usize>) -> f64 {
    match cylinders {
        None => 0.25,
        Some(..=4) => 0.5,
        Some(5 | 6) => 0.1,
        Some(_) => 0.02,
    }
}
/// What part of needles that move because of a cause are taken for an even ripple.
const TAKEN_FOR_RIPPLE: f64 = 0.05;

impl GaugeCause {
    /// The chance of each [`Movement`], in their order.
    ///
    /// ```
    /// use lashwork::mixture::gauge::GaugeCause;
    /// let sound = GaugeCause::Sound.movements(Some(8));
    /// assert!((sound.iter().sum::<f64>() - 1.0).abs() < 1e-12 && sound[0] > 0.9);
    /// // An even ripple on a four is nothing.
    /// assert!(GaugeCause::Sound.movements(Some(4))[1] > 0.4);
    /// ```
    #[must_use]
    pub fn movements(self, cylinders: Option<usize>) -> [f64; Movement::ALL.len()] {
        let [still, flick, drop, now_and_then, drift, swing] =
            movements(self).map(|percent| percent / 100.0);
        let part = ripples(cylinders);
        let moving = 1.0 - still;
        let seen = 1.0 - TAKEN_FOR_RIPPLE;
        [
            still * (1.0 - part),
            still * part + moving * TAKEN_FOR_RIPPLE,
            flick * seen,
            drop * seen,
            now_and_then * seen,
            drift * seen,
            swing * seen,
        ]
    }

    /// The chance of each [`WithSpeed`], in their order.
    ///
    /// ```
    /// use lashwork::mixture::gauge::GaugeCause;
    /// let springs = GaugeCause::SpringsWeak.with_speed();
    /// assert!(springs[2] > 0.8);
    /// ```
    #[must_use]
    pub fn with_speed(self) -> [f64; WithSpeed::ALL.len()] {
        use GaugeCause as C;
        let percent = match self {
            C::Sound => [92.0, 4.0, 1.0, 1.0, 2.0],
            C::SparkLate => [70.0, 25.0, 1.0, 1.0, 3.0],
            C::ValvesLate => [88.0, 6.0, 2.0, 1.0, 3.0],
            C::RingsWorn => [86.0, 8.0, 2.0, 1.0, 3.0],
            C::IntakeLeak => [40.0, 12.0, 2.0, 44.0, 2.0],
            C::Misfire => [40.0, 45.0, 8.0, 5.0, 2.0],
            C::ValveLeaks => [70.0, 12.0, 10.0, 6.0, 2.0],
            C::ValveTight => [65.0, 20.0, 6.0, 7.0, 2.0],
            C::ValveSticks => [60.0, 28.0, 6.0, 4.0, 2.0],
            C::HeadGasket => [72.0, 8.0, 12.0, 6.0, 2.0],
            C::SpringsWeak => [10.0, 3.0, 84.0, 2.0, 1.0],
            C::GuidesWorn => [12.0, 80.0, 4.0, 3.0, 1.0],
            C::MixtureWrong => [35.0, 58.0, 3.0, 2.0, 2.0],
            C::PlugGapsClose => [55.0, 38.0, 3.0, 2.0, 2.0],
            C::ExhaustBlocked => [20.0, 2.0, 1.0, 1.0, 76.0],
            C::SomethingElse => [20.0; 5],
        };
        percent.map(|percent| percent / 100.0)
    }

    /// The level at idle at sea level.
    pub(super) const fn level(self, high_overlap: bool) -> Band {
        use GaugeCause as C;
        match self {
            // A cam with much overlap idles down to 15.
            C::Sound if high_overlap => Band::of(15.0, 22.0, 0.7),
            C::Sound => Band::of(17.0, 22.0, 0.7),
            C::SparkLate => Band::of(14.0, 18.0, 1.0),
            C::ValvesLate => Band::of(8.0, 15.0, 1.0),
            C::RingsWorn => Band::of(12.0, 17.0, 1.0),
            C::IntakeLeak | C::HeadGasket => Band::of(8.0, 17.0, 1.0),
            C::Misfire | C::ValveLeaks => Band::of(12.0, 19.0, 1.0),
            C::ValveTight | C::PlugGapsClose => Band::of(15.0, 20.0, 1.0),
            C::ValveSticks | C::ExhaustBlocked => Band::of(15.0, 21.0, 1.0),
            C::SpringsWeak | C::GuidesWorn => Band::of(12.0, 20.0, 1.0),
            C::MixtureWrong => Band::of(12.0, 16.0, 1.5),
            C::SomethingElse => Band::of(3.0, 24.0, 1.0),
        }
    }

    /// Whether the needle stands with it, so that what moves it is small.
    pub(super) const fn leaves_still(self) -> bool {
        use GaugeCause as C;
        matches!(
            self,
            C::Sound | C::SparkLate | C::ValvesLate | C::RingsWorn | C::ExhaustBlocked
        )
    }

    /// How far the needle drops, flicks or swings, if it moves so.
    pub(super) const fn drop(self, movement: Movement) -> Option<Band> {
        use GaugeCause as C;
        use Movement as M;
        Some(match (self, movement) {
            (_, M::Steady) => return None,
            (_, M::EvenRipple) => Band::of(0.2, 2.0, 0.3),
            (_, M::SmallFlick) => Band::of(0.5, 3.0, 0.5),
            _ if self.leaves_still() => Band::of(0.5, 2.0, 0.5),
            (C::Misfire | C::ValveLeaks, M::RegularDrop) => Band::of(3.0, 6.0, 0.7),
            (C::HeadGasket, M::RegularDrop) => Band::of(8.0, 12.0, 1.0),
            (C::ValveSticks, M::NowAndThen) => Band::of(3.0, 5.0, 0.7),
            (C::MixtureWrong, M::SlowDrift) => Band::of(2.0, 5.0, 0.7),
            (C::GuidesWorn, M::WideSwing) => Band::of(4.0, 10.0, 0.7),
            _ => Band::of(2.0, 10.0, 0.7),
        })
    }

    /// What the gauge falls to and rises to when the throttle is opened and shut.
    pub(super) const fn blip(self) -> (Band, Band) {
        use GaugeCause as C;
        match self {
            C::Sound => (Band::of(1.0, 3.0, 0.7), Band::of(24.0, 26.0, 1.0)),
            C::RingsWorn => (Band::of(0.0, 1.0, 0.5), Band::of(17.0, 22.0, 1.0)),
            C::IntakeLeak => (Band::of(0.0, 3.0, 0.7), Band::of(15.0, 22.0, 1.0)),
            C::ExhaustBlocked => (Band::of(0.0, 3.0, 0.7), Band::of(17.0, 22.0, 1.0)),
            C::SomethingElse => (Band::of(0.0, 5.0, 0.7), Band::of(12.0, 27.0, 1.0)),
            _ => (Band::of(0.0, 3.0, 0.7), Band::of(20.0, 26.0, 1.0)),
        }
    }

    /// The chance of each [`TimingFound`].
    pub(super) fn timing(self) -> [f64; TimingFound::ALL.len()] {
        match self {
            Self::SparkLate => [0.07, 0.9, 0.03],
            Self::SomethingElse => [0.7, 0.15, 0.15],
            _ => [0.85, 0.1, 0.05],
        }
    }

    /// The chance of each [`LashFound`].
    pub(super) fn lash(self) -> [f64; LashFound::ALL.len()] {
        match self {
            Self::ValveTight => [0.07, 0.9, 0.03],
            Self::ValveLeaks => [0.65, 0.25, 0.1],
            Self::SomethingElse => [0.6, 0.2, 0.2],
            _ => [0.75, 0.12, 0.13],
        }
    }

    /// The chance of each [`CompressionFound`].
    pub(super) fn compression(self) -> [f64; CompressionFound::ALL.len()] {
        match self {
            Self::ValveLeaks => [0.12, 0.8, 0.04, 0.04],
            Self::HeadGasket => [0.1, 0.25, 0.6, 0.05],
            Self::RingsWorn => [0.2, 0.15, 0.05, 0.6],
            Self::ValvesLate => [0.33, 0.04, 0.03, 0.6],
            Self::ValveTight => [0.5, 0.42, 0.04, 0.04],
            Self::ValveSticks => [0.75, 0.2, 0.03, 0.02],
            Self::SomethingElse => [0.6, 0.2, 0.1, 0.1],
            _ => [0.9, 0.05, 0.02, 0.03],
        }
    }
}

/// Where in a list something stands.
pub(super) fn chance<T: PartialEq>(all: &[T], chances: &[f64], found: &T) -> f64 {
    let mut both = all.iter().zip(chances);
    both.find(|(own, _)| *own == found).map_or(0.0, |(_, p)| *p)
}

/// The chances of a value to fall in equal bins from 0 to `most`, all others in the last.
pub(super) fn binned(band: Band, u: f64, most: f64, bins: usize) -> Vec<f64> {
    let width = most / bins as f64;
    let middle = |bin: usize| width * (bin as f64 + 0.5);
    let mut chances: Vec<f64> = (0..bins)
        .map(|bin| width * band.density(middle(bin), u))
        .collect();
    let all: f64 = chances.iter().sum();
    for chance in &mut chances {
        *chance /= all;
    }
    chances
}
