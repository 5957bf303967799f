//! What a reading comes to where the book prints its figure.

use super::TimingError;
use super::book::{EARLIEST_STATIC, LATEST_STATIC};
use crate::quantity::Advance;
use crate::tolerance::{
    BandJudge, Chance, Contribution, Estimate, Judgement, Probabilities, Uncertainty, Verdict,
};
use alloc::vec::Vec;

/// What a reading comes to where the book prints its figure.
#[derive(Clone, Debug, PartialEq)]
pub struct TimingFound {
    /// When the spark comes, by the lamp: the reading and what the lamp's delay hides.
    pub sparks: Advance,
    /// The point at what the figure is printed for.
    pub estimate: Estimate<Advance>,
    /// The verdict on it.
    pub judgement: Judgement,
    /// Whether the table of advance by speed had a part in it.
    pub by_curve: bool,
    /// Whether the vacuum table had.
    pub by_vacuum: bool,
    /// What the uncertainty comes from, in crank degrees; a table's width as its half over the root of
    /// three.
    pub terms: Vec<Contribution>,
}

/// The same in numbers, without memory of its own.
#[derive(Clone, Copy, Debug)]
pub(super) struct Brought {
    pub sparks: f64,
    pub low: f64,
    pub high: f64,
    pub u: f64,
    pub read_u: f64,
    pub speed_u: f64,
    pub curve_half: f64,
    pub vacuum_half: f64,
    pub by_curve: bool,
    pub by_vacuum: bool,
    /// How much later it may be, by a vacuum that was not read.
    pub unread: f64,
}

impl Brought {
    pub(super) fn estimate(&self) -> Result<Estimate<Advance>, TimingError> {
        Ok(Estimate::from_numbers(
            self.low - self.unread,
            self.high,
            self.u,
        )?)
    }

    /// What the uncertainty comes from.
    pub(super) fn terms(&self) -> Vec<Contribution> {
        let root = libm::sqrt(3.0);
        let terms = [
            ("reading the mark", self.read_u),
            ("speed by the steepness of the table", self.speed_u),
            (
                "width of the table of advance by speed",
                self.curve_half / root,
            ),
            ("width of the vacuum table", self.vacuum_half / root),
        ];
        let terms = terms.into_iter().filter(|(_, u)| *u > 0.0);
        terms
            .map(|(source, u)| Contribution {
                source: source.into(),
                standard_uncertainty: u,
                sensitivity: 1.0,
                degrees_of_freedom: None,
            })
            .collect()
    }

    /// A vacuum that was not read may be any, none of them likelier: the verdict is one that holds for the
    /// least and for the most of it.
    pub(super) fn judge(
        &self,
        band: &mut BandJudge<'_, Advance>,
    ) -> Result<Judgement, TimingError> {
        let with =
            |vacuum: f64| Estimate::from_numbers(self.low - vacuum, self.high - vacuum, self.u);
        let least = band.judge(&with(0.0)?);
        if self.unread <= 0.0 {
            return Ok(least);
        }
        let most = band.judge(&with(self.unread)?);
        let (a, b) = (least.probabilities, most.probabilities);
        let either = |a: Chance, b: Chance| Chance {
            least: a.least.min(b.least),
            most: a.most.max(b.most),
        };
        Ok(Judgement {
            verdict: if least.verdict == most.verdict {
                least.verdict
            } else {
                Verdict::CannotSay
            },
            probabilities: Probabilities {
                below: either(a.below, b.below),
                // Between the two it may be right.
                in_band: Chance {
                    most: 1.0,
                    ..either(a.in_band, b.in_band)
                },
                above: either(a.above, b.above),
            },
            provable: least.provable && most.provable,
        })
    }
}

impl TimingFound {
    /// Whether the point is so far off that a slip is likelier than a distributor turned so far: beyond 45
    /// BTDC or 20 ATDC.
    ///
    /// ```
    /// # use lashwork::ignition::timing::{LampDelay, PrintedTiming, Taken, TimingReading};
    /// # use lashwork::quantity::Advance;
    /// # use lashwork::tolerance::HasLimits;
    /// let limits = "8 deg BTDC to 12 deg BTDC".parse()?;
    /// let book = PrintedTiming::new(limits, Taken::Standing, None, None)?;
    /// let reading = TimingReading {
    ///     read: Advance::parse("9 deg BTDC")?,
    ///     u: TimingReading::usual_u()?,
    ///     taken: Taken::Standing,
    ///     lamp: LampDelay::NONE,
    /// };
    /// assert!(!book.found(&reading, &Advance::USUAL_RULE)?.is_far_off());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn is_far_off(&self) -> bool {
        self.estimate.centre().is_some_and(|centre| {
            !(-LATEST_STATIC..=EARLIEST_STATIC).contains(&centre.degrees_before())
        })
    }

    /// Standard uncertainty of the point, in crank degrees.
    #[must_use]
    pub fn u(&self) -> Option<Uncertainty<Advance>> {
        self.estimate.standard_uncertainty()
    }
}
