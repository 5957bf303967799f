//! The drop test: how much slower the engine runs on one magneto than on both.
//!
//! # Method
//! A drop is the speed on both less the speed on one; three independent readings of one standard
//! uncertainty `u` give a drop `u * sqrt(2)`. The difference of the two drops is that of the two single
//! speeds, so the reading on both falls out of it: `u * sqrt(2)` too, not `2 u`. There is a drop if
//! more probably than 95 % it is above nought.
//!
//! # What no drop means
//! That the other side still sparks, because the switch does not earth it, or that the spark is too far
//! advanced for one plug to be missed. Until it is known which, the engine may fire with the switch off.
//!
//! # Source
//! An aircraft handbook for the difference and for what no drop means, named in the tests; uncertainty by
//! JCGM 100:2008, 5.1.2.

use super::{MagnetoCaution, MagnetoError};
use crate::quantity::{CrankSpeed, QuantityError};
use crate::statistics::normal_cdf;
use crate::tolerance::{DecisionRule, Estimate, HasLimits, Judgement, Limits, Measurand};
use crate::tolerance::{Uncertainty, Verdict};
use alloc::vec::Vec;
use core::f64::consts::SQRT_2;
use core::fmt;
use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};

/// How probable a drop above nought must be to be one.
const PROVEN: f64 = 0.95;
/// How many standard uncertainties a speed on one may be above that on both before the readings are
/// refused. This library's choice.
const MOST_ABOVE: f64 = 4.0;

/// How much slower an engine runs; negative where it is faster.
///
/// ```
/// use lashwork::ignition::magneto::SpeedDrop;
/// assert_eq!(SpeedDrop::from_rpm(75.0)?.to_string(), "75 rpm");
/// assert!(SpeedDrop::from_rpm(f64::NAN).is_err());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct SpeedDrop(f64);

impl SpeedDrop {
    /// Takes revolutions per minute of the crank.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] if not finite or more than any crank turns.
    pub fn from_rpm(rpm: f64) -> Result<Self, QuantityError> {
        CrankSpeed::from_rpm(rpm.abs()).map(|_| Self(rpm))
    }

    /// Revolutions per minute of the crank.
    #[must_use]
    pub const fn rpm(self) -> f64 {
        self.0
    }
}

impl fmt::Display for SpeedDrop {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} rpm", self.0)
    }
}

impl Serialize for SpeedDrop {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(1))?;
        map.serialize_entry("rpm", &self.0)?;
        map.end()
    }
}

impl Measurand for SpeedDrop {
    const UNIT: &'static str = "rpm";
    const MAX_UNCERTAINTY: f64 = 1000.0;
    fn number(self) -> f64 {
        self.0
    }
    fn from_number(number: f64) -> Result<Self, QuantityError> {
        Self::from_rpm(number)
    }
}

impl HasLimits for SpeedDrop {
    type Printed = Self;
    const USUAL_RULE: DecisionRule = DecisionRule::simple();
    fn printed_number(printed: Self) -> f64 {
        printed.number()
    }
    fn read_printed(text: &str) -> Result<Self, QuantityError> {
        CrankSpeed::parse(text).map(|speed| Self(speed.rpm()))
    }
}

/// One of two magnetos, as the switch names it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Which {
    /// The left one.
    Left,
    /// The right one.
    Right,
}

impl fmt::Display for Which {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Left => "left",
            Self::Right => "right",
        })
    }
}

/// The speeds of a drop test, at the crank.
///
/// ```
/// use lashwork::ignition::magneto::{DropFinding, DropTest, SpeedDrop, Which};
/// use lashwork::quantity::CrankSpeed;
/// # fn example() -> Result<(), Box<dyn std::error::Error>> {
/// let rpm = CrankSpeed::from_rpm;
/// let test = DropTest {
///     both: rpm(1700.0)?,
///     left_alone: rpm(1600.0)?,
///     right_alone: rpm(1700.0)?,
///     reading: rpm(10.0)?,
///     most_drop: Some(SpeedDrop::from_rpm(150.0)?),
///     most_difference: SpeedDrop::from_rpm(75.0)?,
/// };
/// let answer = test.judged()?;
/// // With only the right one on nothing changed: the left one still sparks, or all is too early.
/// assert_eq!(answer.findings[0], DropFinding::NoDrop { not_earthed: Which::Left });
/// # Ok(())
/// # }
/// # example().unwrap();
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DropTest {
    /// On both.
    pub both: CrankSpeed,
    /// With the left one alone.
    pub left_alone: CrankSpeed,
    /// With the right one alone.
    pub right_alone: CrankSpeed,
    /// The standard uncertainty of each reading.
    pub reading: CrankSpeed,
    /// The book's greatest drop on either, if it prints one.
    pub most_drop: Option<SpeedDrop>,
    /// The book's greatest difference between the two.
    pub most_difference: SpeedDrop,
}

/// One drop.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Drop {
    /// Which magneto ran alone.
    pub alone: Which,
    /// How much slower.
    pub drop: SpeedDrop,
    /// Its standard uncertainty.
    pub standard_uncertainty: SpeedDrop,
    /// How probable it is that there is a drop at all.
    pub chance_of_a_drop: f64,
    /// The verdict, if the book prints a greatest drop.
    pub judgement: Option<Judgement>,
}

/// What the test shows, the most dangerous first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum DropFinding {
    /// No drop with the other one off: that one is not earthed by the switch, or the timing is too far
    /// advanced. Stop work until it is known which.
    NoDrop {
        /// The one that was switched off and may still spark.
        not_earthed: Which,
    },
    /// It drops more than the book allows: plugs, leads, timing or the magneto that ran alone.
    TooMuch {
        /// The one that ran alone.
        alone: Which,
    },
    /// They differ by more than the book allows: the weaker is worse, or the two are not timed alike.
    Apart {
        /// The one with the greater drop.
        weaker: Which,
    },
    /// A reading lies so near a limit that it does not decide: test again.
    CannotSay,
}

/// What came out.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct DropAnswer {
    /// On the left one alone, on the right one alone.
    pub drops: [Drop; 2],
    /// The drop on the right one less that on the left one.
    pub difference: SpeedDrop,
    /// Its standard uncertainty.
    pub difference_uncertainty: SpeedDrop,
    /// The verdict on the difference.
    pub difference_judgement: Judgement,
    /// What it shows; nothing if all is within the book.
    pub findings: Vec<DropFinding>,
    /// What must be said with it.
    pub cautions: Vec<MagnetoCaution>,
}

impl DropTest {
    /// Weighs the three speeds.
    ///
    /// # Errors
    /// [`MagnetoError::NotRunning`] for a speed of nought, [`MagnetoError::Faster`] if the engine ran
    /// faster on one by more than the readings can err, [`MagnetoError::Allowed`] for an allowed
    /// difference or drop that is not above zero, [`MagnetoError::Tolerance`] for readings too uncertain.
    pub fn judged(&self) -> Result<DropAnswer, MagnetoError> {
        let speeds = [
            ("both magnetos", self.both),
            ("the left magneto", self.left_alone),
            ("the right magneto", self.right_alone),
        ];
        if let Some((on, got)) = speeds.into_iter().find(|(_, speed)| speed.rpm() <= 0.0) {
            return Err(MagnetoError::NotRunning { got, on });
        }
        let allowed = self.most_drop.into_iter().chain([self.most_difference]);
        for most in allowed {
            if most.rpm() <= 0.0 {
                return Err(MagnetoError::Allowed {
                    got: most.rpm(),
                    unit: "rpm",
                });
            }
        }
        let left = self.drop_of(Which::Left, self.left_alone)?;
        let right = self.drop_of(Which::Right, self.right_alone)?;
        let difference = SpeedDrop::from_rpm(self.left_alone.rpm() - self.right_alone.rpm())?;
        let band = Limits::between(SpeedDrop(-self.most_difference.rpm()), self.most_difference)?;
        let difference_judgement = self.estimate(difference)?.judged_by(&band);
        let drops = [left, right];
        let mut findings = Vec::new();
        let mut cautions = alloc::vec![MagnetoCaution::PropellerIsLive];
        for drop in drops.iter().filter(|d| d.chance_of_a_drop < PROVEN) {
            findings.push(DropFinding::NoDrop {
                not_earthed: match drop.alone {
                    Which::Left => Which::Right,
                    Which::Right => Which::Left,
                },
            });
        }
        if !findings.is_empty() {
            cautions.push(MagnetoCaution::SwitchMayNotEarth);
        }
        let verdict = |drop: &Drop| drop.judgement.map(|j| j.verdict);
        for drop in drops.iter().filter(|d| verdict(d) == Some(Verdict::Above)) {
            findings.push(DropFinding::TooMuch { alone: drop.alone });
        }
        match difference_judgement.verdict {
            Verdict::Above => findings.push(DropFinding::Apart {
                weaker: Which::Right,
            }),
            Verdict::Below => findings.push(DropFinding::Apart {
                weaker: Which::Left,
            }),
            _ => {}
        }
        let undecided = |v: Option<Verdict>| v == Some(Verdict::CannotSay);
        if undecided(Some(difference_judgement.verdict))
            || drops.iter().any(|d| undecided(verdict(d)))
        {
            findings.push(DropFinding::CannotSay);
        }
        Ok(DropAnswer {
            drops,
            difference,
            difference_uncertainty: SpeedDrop(self.u()),
            difference_judgement,
            findings,
            cautions,
        })
    }

    /// The standard uncertainty of the difference of two readings.
    fn u(&self) -> f64 {
        SQRT_2 * self.reading.rpm()
    }

    fn estimate(&self, drop: SpeedDrop) -> Result<Estimate<SpeedDrop>, MagnetoError> {
        let u = Uncertainty::from_number(self.u())?;
        Ok(Estimate::between(drop, drop, u)?)
    }

    fn drop_of(&self, which: Which, alone: CrankSpeed) -> Result<Drop, MagnetoError> {
        let drop = SpeedDrop::from_rpm(self.both.rpm() - alone.rpm())?;
        let u = self.u();
        if drop.rpm() < -MOST_ABOVE * u {
            return Err(MagnetoError::Faster {
                which,
                alone,
                both: self.both,
            });
        }
        let chance = if u > 0.0 {
            normal_cdf(drop.rpm() / u)
        } else if drop.rpm() > 0.0 {
            1.0
        } else {
            0.0
        };
        let judgement = match self.most_drop {
            Some(most) => Some(self.estimate(drop)?.judged_by(&Limits::at_most(most))),
            None => None,
        };
        Ok(Drop {
            alone: which,
            drop,
            standard_uncertainty: SpeedDrop(u),
            chance_of_a_drop: chance,
            judgement,
        })
    }
}
