//! A leak-down test of the whole engine.

use super::tester::read;
use super::{Hiss, Leak, LeakAssumption, LeakError, LeakPath, LeakRule, RuleBy, Tester};
use crate::condition::compression::HeadRows;
use crate::engine::CylinderLabel;
use crate::quantity::{AbsolutePressure, GaugePressure};
use crate::tolerance::known::{known, normal};
use crate::tolerance::{Estimate, Judgement, Uncertainty};
use alloc::vec::Vec;
use serde::Serialize;

/// Standard deviation of a tester's gauge, if not stated, in kilopascals. This library's choice.
const GAUGE: f64 = 5.0;
/// The standard atmosphere at sea level and what weather leaves open of it.
const SEA_LEVEL: (f64, f64) = (101.325, 1.0);

/// What a tester showed of a cylinder.
#[derive(Clone, Debug, PartialEq)]
pub struct LeakReading {
    /// The cylinder.
    pub cylinder: CylinderLabel,
    /// The tester.
    pub tester: Tester,
    /// What stands in the cylinder.
    pub shown: GaugePressure,
    /// The piston was held at top dead centre of its compression stroke.
    pub held: bool,
    /// Where it hissed.
    pub hisses: Vec<Hiss>,
}

/// A leak-down test.
///
/// ```
/// use lashwork::condition::leak::{Hiss, LeakPath, LeakReading, LeakRule, LeakTest, RuleBy, Tester};
/// use lashwork::engine::CylinderLabel;
/// use lashwork::quantity::{GaugePressure, Length};
/// use lashwork::tolerance::{Estimate, Uncertainty, Verdict};
/// let psi = |number| GaugePressure::from_number(number, "psi").unwrap();
/// let bore = Length::parse("82 mm")?;
/// let supply = Estimate::between(psi(80.0), psi(80.0), Uncertainty::from_number(3.0)?)?;
/// let read = |n, shown, hisses| LeakReading {
///     cylinder: CylinderLabel::numbered(n),
///     tester: Tester::of_bore(supply, bore).unwrap(),
///     shown: psi(shown),
///     held: true,
///     hisses,
/// };
/// let test = LeakTest {
///     readings: vec![read(1, 76.0, vec![]), read(2, 48.0, vec![Hiss::Exhaust])],
///     rule: Some((LeakRule::ac_43_13(bore)?, RuleBy::Face)),
///     ..LeakTest::default()
/// };
/// let answer = test.answered()?;
/// assert_eq!(answer.cylinders[1].by_rule.unwrap().verdict, Verdict::Below);
/// assert_eq!(answer.cylinders[1].paths, [LeakPath::ExhaustValve]);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LeakTest {
    /// One for each cylinder.
    pub readings: Vec<LeakReading>,
    /// Which cylinders stand side by side under one head.
    pub rows: HeadRows,
    /// Pressure of the place; that of sea level if not stated.
    pub air: Option<Estimate<AbsolutePressure>>,
    /// Standard deviation of the gauge on the cylinder; 5 kPa if not stated.
    pub gauge: Option<Uncertainty<GaugePressure>>,
    /// A printed rule, and what it is held against.
    pub rule: Option<(LeakRule, RuleBy)>,
    /// Whether the engine was warm.
    pub warm: Option<bool>,
}

/// The leak of a cylinder.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CylinderLeak {
    /// The cylinder.
    pub cylinder: CylinderLabel,
    /// How large it is.
    pub leak: Leak,
    /// By the rule; below by the tester's face, above by the area, if it leaks too much.
    pub by_rule: Option<Judgement>,
    /// What leaks, by where it hissed.
    pub paths: Vec<LeakPath>,
}

/// The answer to a [`LeakTest`].
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LeakAnswer {
    /// Each cylinder, in the order of the readings.
    pub cylinders: Vec<CylinderLeak>,
    /// The cylinder that leaks most.
    pub worst: CylinderLabel,
    /// What was taken for granted.
    pub assumptions: Vec<LeakAssumption>,
}

impl LeakTest {
    /// Works out the leaks.
    ///
    /// # Errors
    /// [`LeakError`]: no reading, two of one cylinder, a piston that is not held, over the supply, nothing in the
    /// cylinder, two testers or another one where the rule is held against what they show.
    pub fn answered(&self) -> Result<LeakAnswer, LeakError> {
        self.check()?;
        let air = match self.air {
            Some(air) => air,
            None => normal(SEA_LEVEL.0, SEA_LEVEL.1)?,
        };
        let what = "the pressure of the air";
        let (kpa, _) = known(&air).ok_or(LeakError::OneSided { what })?;
        let around = AbsolutePressure::from_kilopascals(kpa)?;
        let u = match self.gauge {
            Some(u) => u,
            None => Uncertainty::from_number(GAUGE)?,
        };
        let mut cylinders = Vec::new();
        for reading in &self.readings {
            let shown = read(reading.shown, u)?;
            let leak = reading.tester.leak(&shown, &air)?;
            let by_rule = match &self.rule {
                None => None,
                Some((rule, RuleBy::Face)) => Some(rule.judged(&reading.tester, &shown)?),
                Some((rule, RuleBy::Area)) => Some(rule.judged_by_area(&leak.area, around)?),
            };
            let path = |hiss: &Hiss| {
                let is_neighbour = match hiss {
                    Hiss::PlugHole(other) => self.rows.are_neighbours(&reading.cylinder, other),
                    _ => false,
                };
                hiss.path(is_neighbour)
            };
            cylinders.push(CylinderLeak {
                cylinder: reading.cylinder.clone(),
                leak,
                by_rule,
                paths: reading.hisses.iter().map(path).collect(),
            });
        }
        let size = |c: &CylinderLeak| c.leak.hole.mm();
        let worst = cylinders.iter().max_by(|a, b| size(a).total_cmp(&size(b)));
        let worst = worst.ok_or(LeakError::NoReading)?.cylinder.clone();
        Ok(LeakAnswer {
            cylinders,
            worst,
            assumptions: self.assumptions(),
        })
    }

    fn check(&self) -> Result<(), LeakError> {
        let first = self.readings.first().ok_or(LeakError::NoReading)?;
        for (i, reading) in self.readings.iter().enumerate() {
            let cylinder = reading.cylinder.clone();
            if !reading.held {
                return Err(LeakError::NotHeld { cylinder });
            }
            let mut later = self.readings.iter().skip(i + 1);
            if later.any(|other| other.cylinder == cylinder) {
                return Err(LeakError::ReadTwice { cylinder });
            }
            let by_face = matches!(self.rule, Some((_, RuleBy::Face)));
            if by_face && !reading.tester.shows_as(&first.tester) {
                return Err(LeakError::TwoTesters {
                    first: first.cylinder.clone(),
                    other: cylinder,
                });
            }
        }
        Ok(())
    }

    fn assumptions(&self) -> Vec<LeakAssumption> {
        let all = [
            (self.air.is_none(), LeakAssumption::AirAssumed),
            (self.gauge.is_none(), LeakAssumption::GaugeAssumed),
            (true, LeakAssumption::EqualDischarge),
            (self.warm.is_none(), LeakAssumption::WarmthUnstated),
        ];
        let taken = all.into_iter().filter(|(taken, _)| *taken);
        taken.map(|(_, assumption)| assumption).collect()
    }
}
