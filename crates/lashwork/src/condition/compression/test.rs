//! A compression test of the whole engine.

use super::by_lash::ByLash;
use super::rule::Scatter;
use super::weigh::{OIL_OPEN, Seen, row};
use super::{
    CompressionAnswer, CompressionAssumption, CompressionCause, CompressionError, CompressionLook,
    CompressionRule, Cranking, CrankingFault, CrankingState, CylinderAnswer, CylinderReading,
    Exponent, ExponentDoubt, GasketBetween, HeadRows, Level, OilAdded, RuleVerdict, Standard,
    WeighedCause,
};
use crate::engine::CylinderLabel;
use crate::quantity::{AbsolutePressure, CrankAngle, GaugePressure};
use crate::statistics::ONE_SIDED_95;
use crate::tolerance::known::{known, normal};
use crate::tolerance::{Estimate, Uncertainty};
use alloc::vec::Vec;

/// What cranking may show with spark ignition, in kilopascals: up to 400 psi.
const SHOWN: (f64, f64) = (0.0, 2_757.9);
/// Standard deviation between readings of a cylinder, and of the gauge, if not stated. This library's choice.
pub(crate) const USUAL_REPEAT: f64 = 15.0;
pub(crate) const USUAL_GAUGE: f64 = 20.0;
/// Exponent of what oil does where none follows.
const MIDDLE: f64 = 1.22;
/// From here on a cause counts as settled.
const SETTLED: f64 = 0.95;

/// A compression test.
///
/// ```
/// use lashwork::condition::compression::{
///     CompressionCause, CompressionRule, CompressionTest, CylinderReading, HeadRows,
/// };
/// use lashwork::engine::{CylinderLabel, Engine};
/// use lashwork::quantity::GaugePressure;
/// let read = |n, dry: &str, wet: &str| CylinderReading {
///     wet: Some(GaugePressure::parse(wet).unwrap()),
///     ..CylinderReading::dry(CylinderLabel::numbered(n), GaugePressure::parse(dry).unwrap())
/// };
/// let test = CompressionTest {
///     readings: vec![
///         read(1, "150 psi", "155 psi"), read(2, "95 psi", "98 psi"),
///         read(3, "97 psi", "99 psi"), read(4, "148 psi", "152 psi"),
///     ],
///     rows: HeadRows::of_engine(&Engine::inline_four_stroke(&[1, 3, 4, 2]).unwrap()),
///     rules: vec![CompressionRule::ratio(75.0)?],
///     ..CompressionTest::default()
/// };
/// let answer = test.weighed()?;
/// // Two neighbours low, and oil is no help: the gasket between them.
/// assert_eq!(answer.cylinders[1].causes[0].cause, CompressionCause::Gasket);
/// assert!(answer.gaskets[1].probability > 0.9);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CompressionTest {
    /// One for each cylinder that was read.
    pub readings: Vec<CylinderReading>,
    /// Which cylinders share a head gasket.
    pub rows: HeadRows,
    /// The engine's dimensions and its air; without them cylinders are compared with each other only.
    pub engine: Option<Cranking>,
    /// Where the intake closes on each cylinder by its own lash, after bottom dead centre: such a cylinder is
    /// compared with the others as if all closed alike. The others close on the mean of these.
    pub closings: Vec<(CylinderLabel, Estimate<CrankAngle>)>,
    /// Its exponent; the usual range if not stated.
    pub exponent: Option<Exponent>,
    /// Pressure of the place where the dimensions are not known.
    pub air: Option<Estimate<AbsolutePressure>>,
    /// Printed rules.
    pub rules: Vec<CompressionRule>,
    /// How the engine was cranked.
    pub state: CrankingState,
    /// Oil of the wet readings.
    pub oil: Option<OilAdded>,
    /// Standard deviation between readings of one cylinder; 15 kPa if not stated.
    pub repeat: Option<Uncertainty<GaugePressure>>,
    /// That of the gauge itself, the same for all cylinders; 20 kPa if not stated.
    pub gauge: Option<Uncertainty<GaugePressure>>,
    /// Whether the clearances are known to be within their limits.
    pub clearances_good: Option<bool>,
}

impl CompressionTest {
    /// Weighs what was read.
    ///
    /// # Errors
    /// [`CompressionError`]: no reading, two of one cylinder, a pressure over 400 psi or under none, a wet
    /// reading under the dry one, a scatter of nothing, a rule between cylinders with one read, air, ratio,
    /// closing or oil that cannot be.
    pub fn weighed(&self) -> Result<CompressionAnswer, CompressionError> {
        let scatter = self.scatter()?;
        self.check(scatter.repeat)?;
        let air = self.air()?;
        let judged = |rule: &CompressionRule| rule.judged(&self.readings, scatter, air);
        let rules: Vec<RuleVerdict> = self.rules.iter().map(judged).collect::<Result<_, _>>()?;
        let by_lash = self.by_lash()?;
        let alike = by_lash.alike(&self.readings)?;
        let standard = Standard::of(&alike, scatter.repeat)?;
        let level = match (&self.engine, &standard) {
            (Some(engine), Some(standard)) => {
                Some(self.level(engine, &standard.shown, scatter.common)?)
            }
            _ => None,
        };
        let exponent = level.map_or(MIDDLE, |level| level.exponent);
        let seen = self.seen(
            standard.as_ref(),
            &alike,
            &by_lash,
            exponent,
            scatter.repeat,
        )?;
        let (mut cylinders, gaskets) = self.weigh(&seen);
        for (answer, (_, expected)) in cylinders.iter_mut().zip(&seen) {
            if let Some((kpa, u)) = expected {
                answer.expected = Some(normal(*kpa, *u)?);
            }
        }
        let faults = self.state.faults();
        let next = self.next(&cylinders, level.as_ref(), &faults);
        let doubt = level.and_then(|level| match level.exponent {
            n if n < super::expected::EXPONENTS.0 => Some(ExponentDoubt::UnderIsothermal),
            n if n > super::expected::EXPONENTS.1 => Some(ExponentDoubt::OverAdiabatic),
            _ => None,
        });
        Ok(CompressionAnswer {
            rules,
            standard,
            level,
            doubt,
            cylinders,
            gaskets,
            faults,
            next,
            assumptions: self.assumptions(),
        })
    }

    fn scatter(&self) -> Result<Scatter, CompressionError> {
        let repeat = self.repeat.map_or(USUAL_REPEAT, Uncertainty::number);
        if repeat <= 0.0 {
            return Err(CompressionError::Repeat { got: repeat });
        }
        Ok(Scatter {
            repeat,
            common: self.gauge.map_or(USUAL_GAUGE, Uncertainty::number),
        })
    }

    fn check(&self, repeat: f64) -> Result<(), CompressionError> {
        if self.readings.is_empty() {
            return Err(CompressionError::NoReading);
        }
        let (min, max) = SHOWN;
        for (i, reading) in self.readings.iter().enumerate() {
            let cylinder = &reading.cylinder;
            let mut others = self.readings.iter().skip(i + 1);
            if others.any(|other| other.cylinder == *cylinder) {
                let cylinder = cylinder.clone();
                return Err(CompressionError::ReadTwice { cylinder });
            }
            for shown in [Some(reading.dry), reading.wet].into_iter().flatten() {
                if !(min..=max).contains(&shown.kilopascals()) {
                    let cylinder = cylinder.clone();
                    return Err(CompressionError::Shown {
                        cylinder,
                        shown,
                        min,
                        max,
                    });
                }
            }
            let Some(wet) = reading.wet else { continue };
            let fell = reading.dry.kilopascals() - wet.kilopascals();
            if fell > ONE_SIDED_95 * libm::hypot(repeat, repeat) {
                return Err(CompressionError::WetUnderDry {
                    cylinder: cylinder.clone(),
                    dry: reading.dry,
                    wet,
                });
            }
        }
        Ok(())
    }

    /// The air of the place: of the engine, else as stated, else of sea level.
    fn air(&self) -> Result<AbsolutePressure, CompressionError> {
        let what = "the pressure of the air";
        let kpa = match (&self.engine, &self.air) {
            (Some(engine), _) => engine.air()?.0,
            (None, Some(air)) => known(air).ok_or(CompressionError::OneSided { what })?.0,
            (None, None) => 101.325,
        };
        let air = AbsolutePressure::from_kilopascals(kpa)?;
        super::altitude::checked(air)?;
        Ok(air)
    }

    fn level(
        &self,
        engine: &Cranking,
        shown: &Estimate<GaugePressure>,
        common: f64,
    ) -> Result<Level, CompressionError> {
        let what = "the compression";
        let (kpa, u) = known(shown).ok_or(CompressionError::OneSided { what })?;
        let with_gauge = normal(kpa, libm::hypot(u, common))?;
        engine.level(&with_gauge, self.exponent.unwrap_or(Exponent::usual()))
    }

    /// How much more each cylinder shows by its own closing; nothing without the ratio.
    fn by_lash(&self) -> Result<ByLash, CompressionError> {
        match &self.engine {
            Some(engine) => {
                let exponent = self.exponent.unwrap_or(Exponent::usual());
                ByLash::of(&self.closings, engine, exponent)
            }
            None => Ok(ByLash::default()),
        }
    }

    /// Each reading over what it should show, and that.
    #[allow(
        clippy::type_complexity,
        reason = "a pair for each reading, taken apart at once"
    )]
    fn seen(
        &self,
        standard: Option<&Standard>,
        alike: &[CylinderReading],
        by_lash: &ByLash,
        exponent: f64,
        repeat: f64,
    ) -> Result<Vec<(Seen, Option<(f64, f64)>)>, CompressionError> {
        let oil = match (&self.oil, &self.engine) {
            (Some(oil), Some(engine)) => {
                let part = oil.raises(engine, exponent)?;
                (part, part)
            }
            _ => OIL_OPEN,
        };
        let of = |reading: &CylinderReading| {
            let by_others = standard.and_then(|s| s.for_cylinder(alike, &reading.cylinder, repeat));
            let (factor, factor_u) = by_lash.of_cylinder(&reading.cylinder);
            let expected =
                by_others.map(|(kpa, u)| (factor * kpa, libm::hypot(factor * u, factor_u * kpa)));
            let mut seen = Seen {
                oil,
                build_up: reading.build_up,
                ..Seen::default()
            };
            if let Some((kpa, u)) = expected {
                let share = reading.dry.kilopascals() / kpa;
                seen.dry = Some((share, libm::hypot(repeat / kpa, share * u / kpa)));
                seen.gain = reading.wet.map(|wet| {
                    let gain = (wet.kilopascals() - reading.dry.kilopascals()) / kpa;
                    (gain, libm::hypot(repeat, repeat) / kpa)
                });
            }
            (seen, expected)
        };
        Ok(self.readings.iter().map(of).collect())
    }

    /// Causes of each cylinder, and gaskets between neighbours.
    fn weigh(
        &self,
        seen: &[(Seen, Option<(f64, f64)>)],
    ) -> (Vec<CylinderAnswer>, Vec<GasketBetween>) {
        let find = |label: &CylinderLabel| {
            let at = self.readings.iter().position(|r| r.cylinder == *label);
            at.and_then(|at| seen.get(at))
                .map_or(Seen::default(), |(seen, _)| *seen)
        };
        let mut shares: Vec<(CylinderLabel, [f64; 5])> = Vec::new();
        let mut gaskets = Vec::new();
        for labels in self.rows.rows() {
            let (of_row, pairs) = row(&labels.iter().map(find).collect::<Vec<Seen>>());
            shares.extend(labels.iter().cloned().zip(of_row));
            let neighbours = labels.iter().zip(labels.iter().skip(1)).zip(pairs);
            gaskets.extend(
                neighbours.map(|((first, second), probability)| GasketBetween {
                    first: first.clone(),
                    second: second.clone(),
                    probability,
                }),
            );
        }
        let answers = self.readings.iter().zip(seen).map(|(reading, (seen, _))| {
            let in_row = shares.iter().find(|(label, _)| *label == reading.cylinder);
            let chances = match in_row {
                Some((_, chances)) => *chances,
                None => row(&[*seen]).0.first().copied().unwrap_or([0.0; 5]),
            };
            let both = CompressionCause::ALL.iter().zip(chances);
            let mut causes: Vec<WeighedCause> = both
                .map(|(cause, probability)| WeighedCause {
                    cause: *cause,
                    probability,
                })
                .collect();
            causes.sort_by(|a, b| b.probability.total_cmp(&a.probability));
            if seen.dry.is_none() {
                causes.clear();
            }
            CylinderAnswer {
                cylinder: reading.cylinder.clone(),
                expected: None,
                share: seen.dry.map(|(share, _)| share),
                share_u: seen.dry.map(|(_, u)| u),
                causes,
            }
        });
        (answers.collect(), gaskets)
    }

    fn next(
        &self,
        cylinders: &[CylinderAnswer],
        level: Option<&Level>,
        faults: &[CrankingFault],
    ) -> Option<CompressionLook> {
        let is_unsound = |c: &&CylinderAnswer| {
            c.causes
                .first()
                .is_some_and(|w| w.cause != CompressionCause::Sound)
        };
        let is_low = level.is_some_and(|l| l.judgement.verdict == crate::tolerance::Verdict::Below);
        let unsound: Vec<&CylinderAnswer> = cylinders.iter().filter(is_unsound).collect();
        let has_wet = |c: &&CylinderAnswer| {
            let own = self.readings.iter().find(|r| r.cylinder == c.cylinder);
            own.is_some_and(|r| r.wet.is_some())
        };
        let is_open =
            |c: &&CylinderAnswer| c.causes.first().is_some_and(|w| w.probability < SETTLED);
        if unsound.is_empty() && !is_low {
            return None;
        }
        if !faults.is_empty() {
            return Some(CompressionLook::CrankAgain);
        }
        if self.clearances_good != Some(true) {
            return Some(CompressionLook::Clearances);
        }
        if unsound.is_empty() {
            return Some(CompressionLook::ValveTiming);
        }
        if unsound.iter().any(|c| is_open(c) && !has_wet(c)) {
            return Some(CompressionLook::Oil);
        }
        Some(CompressionLook::LeakDown)
    }

    fn assumptions(&self) -> Vec<CompressionAssumption> {
        use CompressionAssumption as A;
        let has_wet = self.readings.iter().any(|r| r.wet.is_some());
        let of_engine = self
            .engine
            .map_or(Vec::new(), |engine| engine.assumptions());
        let is_minimum = |rule: &CompressionRule| matches!(rule, CompressionRule::Minimum { .. });
        let needs_air = self.engine.is_none() && self.rules.iter().any(is_minimum);
        let all = [
            (needs_air && self.air.is_none(), A::AirAssumed),
            (
                self.engine.is_some() && self.exponent.is_none(),
                A::ExponentAssumed,
            ),
            (self.repeat.is_none(), A::RepeatAssumed),
            (
                self.gauge.is_none()
                    && (self.engine.is_some() || self.rules.iter().any(is_minimum)),
                A::GaugeAssumed,
            ),
            (self.rows.rows().is_empty(), A::NoNeighbours),
            (
                has_wet && (self.oil.is_none() || self.engine.is_none()),
                A::OilRoomOpen,
            ),
            (
                self.engine.is_some() && !self.closings.is_empty(),
                A::OwnClosings,
            ),
            (
                self.engine.is_none() && !self.closings.is_empty(),
                A::AlikeClosings,
            ),
            (true, A::NaturalSpread),
            (true, A::CausesChosen),
            (!self.state.is_stated(), A::CrankingUnstated),
        ];
        let taken = all.into_iter().filter(|(taken, _)| *taken);
        of_engine
            .into_iter()
            .chain(taken.map(|(_, assumption)| assumption))
            .collect()
    }
}
