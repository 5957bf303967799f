//! The weighing of causes.

use super::level::{SEA_LEVEL, air, checked};
use super::model::{Band, binned, chance};
use super::{
    Blip, CompressionFound, GaugeAssumption, GaugeCause, GaugeError, GaugeLook, GaugePriors,
    LashFound, Level, Movement, TimingFound, WithSpeed, at_sea_level,
};
use crate::quantity::{AbsolutePressure, Vacuum};
use crate::statistics::{expected_bits, mean};
use alloc::vec::Vec;
use serde::Serialize;

/// Kilopascals of an inch of mercury.
const INCH: f64 = 3.386_389;
/// Most vacuum at idle, in inches of mercury.
const MOST_AT_IDLE: f64 = 26.0;
/// Most that a gauge shows when the throttle is shut quickly.
const MOST: f64 = 30.0;
/// Standard deviation of a gauge, in inches of mercury, if not stated. This library's choice.
const USUAL_GAUGE: f64 = 0.5;
/// The chance of a wrong look, if not stated. This library's choice.
const USUAL_MISREAD: f64 = 0.05;
/// From here on an explanation counts as settled.
pub const SETTLED: f64 = 0.95;
/// Bins in which a level is taken to be known when the next look is chosen.
const BINS: usize = 15;
/// Less is no information.
const NO_BITS: f64 = 1e-9;

/// What was seen at the gauge, and what else was found; whatever is left out is not known.
///
/// ```
/// use lashwork::mixture::gauge::{GaugeCause, GaugeCheck, Movement};
/// use lashwork::quantity::Vacuum;
/// // A drop of 10 inHg in step with the engine.
/// let check = GaugeCheck {
///     movement: Some(Movement::RegularDrop),
///     drop: Some(Vacuum::parse("10 inHg")?),
///     ..GaugeCheck::default()
/// };
/// let answer = check.weighed()?;
/// assert_eq!(answer.causes[0].cause, GaugeCause::HeadGasket);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct GaugeCheck {
    /// The pressure of the air around; that of sea level if not stated.
    pub ambient: Option<AbsolutePressure>,
    /// Cylinders on the manifold.
    pub cylinders: Option<usize>,
    /// Whether the camshaft has much overlap.
    pub high_overlap: bool,
    /// The mean level at idle.
    pub level: Option<Level>,
    /// How the needle moves at idle.
    pub movement: Option<Movement>,
    /// By how much.
    pub drop: Option<Vacuum>,
    /// What that does as the engine is run faster.
    pub with_speed: Option<WithSpeed>,
    /// The throttle opened and shut quickly.
    pub blip: Option<Blip>,
    /// What was found of the ignition timing.
    pub timing: Option<TimingFound>,
    /// What was found of the valve clearances.
    pub lash: Option<LashFound>,
    /// What was found of the compression.
    pub compression: Option<CompressionFound>,
    /// The chance of a wrong look; 0.05 if not stated.
    pub misread: Option<f64>,
    /// The shares of belief before anything was seen; [`GaugePriors::assumed`] if not stated.
    pub priors: Option<GaugePriors>,
}

/// A cause, and how far it is to be believed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WeighedCause {
    /// The cause.
    pub cause: GaugeCause,
    /// How likely that was taken to be before anything was seen.
    pub prior: f64,
    /// How likely it is by what was seen.
    pub probability: f64,
}

/// What came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum GaugeVerdict {
    /// Nothing was looked at.
    NothingSeen,
    /// The first cause holds, with 0.95 ([`SETTLED`]) or more.
    Settled,
    /// Several causes are still likely.
    Open,
    /// None of the causes fits as well as something else.
    NothingFits,
}

/// A look worth taking.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct NextGaugeLook {
    /// At what.
    pub at: GaugeLook,
    /// How much doubt it takes away on average, in bits.
    pub bits: f64,
}

/// The answer to a [`GaugeCheck`].
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GaugeAnswer {
    /// The causes, most likely first.
    pub causes: Vec<WeighedCause>,
    /// What came out.
    pub verdict: GaugeVerdict,
    /// Where to look next; none if no look tells more.
    pub next: Option<NextGaugeLook>,
    /// What the level would be at sea level, from and to; none if no level was read.
    pub level_at_sea: Option<[Vacuum; 2]>,
    /// What was taken for granted.
    pub assumptions: Vec<GaugeAssumption>,
}

/// A reading at sea level: anywhere between two ends, in inches of mercury.
#[derive(Clone, Copy)]
struct Between {
    from: f64,
    to: f64,
    u: f64,
}

impl Between {
    fn of(vacuum: Vacuum, ambient: AbsolutePressure, u: f64) -> Result<Self, GaugeError> {
        let by = at_sea_level(vacuum, ambient)?;
        let [one, other] = [by.same_pressure, by.same_part].map(|v| v.kilopascals() / INCH);
        Ok(Self {
            from: one.min(other),
            to: one.max(other),
            u,
        })
    }

    fn density(self, band: Band) -> f64 {
        let (middle, half) = (0.5 * (self.from + self.to), 0.5 * (self.to - self.from));
        mean(middle, half, |at| band.density(at, self.u))
    }
}

/// What was seen, at sea level.
struct Seen {
    level: Option<Between>,
    drop: Option<Between>,
    blip: Option<[Between; 2]>,
    u: f64,
    misread: f64,
}

impl GaugeCheck {
    /// Weighs what was seen.
    ///
    /// # Errors
    /// [`GaugeError::BeyondAmbient`], [`GaugeError::NoIdle`], [`GaugeError::DropOfNothing`],
    /// [`GaugeError::Ambient`], [`GaugeError::NoCylinders`], [`GaugeError::Misread`].
    pub fn weighed(&self) -> Result<GaugeAnswer, GaugeError> {
        let seen = self.seen()?;
        let priors = self.priors.unwrap_or(GaugePriors::assumed());
        let all: f64 = GaugeCause::ALL.iter().map(|c| priors.percent(*c)).sum();
        let prior = |cause: GaugeCause| priors.percent(cause) / all;
        let weights: Vec<f64> = GaugeCause::ALL
            .iter()
            .map(|cause| prior(*cause) * self.likelihood(*cause, &seen))
            .collect();
        let sum: f64 = weights.iter().sum();
        let probabilities: Vec<f64> = weights.iter().map(|weight| weight / sum).collect();
        let mut causes: Vec<WeighedCause> = GaugeCause::ALL
            .iter()
            .zip(&probabilities)
            .map(|(cause, probability)| WeighedCause {
                cause: *cause,
                prior: prior(*cause),
                probability: *probability,
            })
            .collect();
        causes.sort_by(|a, b| b.probability.total_cmp(&a.probability));
        let verdict = match causes.first() {
            _ if !self.says_something() => GaugeVerdict::NothingSeen,
            Some(first) if first.cause == GaugeCause::SomethingElse => GaugeVerdict::NothingFits,
            Some(first) if first.probability >= SETTLED => GaugeVerdict::Settled,
            _ => GaugeVerdict::Open,
        };
        let level_at_sea = match seen.level {
            Some(level) => Some([
                Vacuum::from_kilopascals(level.from * INCH)?,
                Vacuum::from_kilopascals(level.to * INCH)?,
            ]),
            None => None,
        };
        Ok(GaugeAnswer {
            causes,
            verdict,
            next: self.next_look(&probabilities, &seen),
            level_at_sea,
            assumptions: self.assumptions(),
        })
    }

    /// The chance, or density, of what was seen under each cause: evidence for a wider weighing. Only what they
    /// are to each other matters.
    ///
    /// # Errors
    /// As [`GaugeCheck::weighed`].
    ///
    /// ```
    /// use lashwork::mixture::gauge::{GaugeCause, GaugeCheck, Movement};
    /// let drops = GaugeCheck { movement: Some(Movement::RegularDrop), ..GaugeCheck::default() };
    /// let likelihoods = drops.likelihoods()?;
    /// let of = |cause| likelihoods.iter().find(|(own, _)| *own == cause).unwrap().1;
    /// assert!(of(GaugeCause::ValveLeaks) > of(GaugeCause::Sound));
    /// # Ok::<(), lashwork::mixture::gauge::GaugeError>(())
    /// ```
    pub fn likelihoods(&self) -> Result<[(GaugeCause, f64); 16], GaugeError> {
        let seen = self.seen()?;
        Ok(GaugeCause::ALL.map(|cause| (cause, self.likelihood(cause, &seen))))
    }

    fn seen(&self) -> Result<Seen, GaugeError> {
        let ambient = match self.ambient {
            Some(ambient) => ambient,
            None => AbsolutePressure::from_kilopascals(SEA_LEVEL)?,
        };
        air(ambient)?;
        if self.cylinders == Some(0) {
            return Err(GaugeError::NoCylinders);
        }
        let misread = self.misread.unwrap_or(USUAL_MISREAD);
        if !(misread > 0.0 && misread < 0.5) {
            return Err(GaugeError::Misread { got: misread });
        }
        let stated = self.level.and_then(|level| level.standard_uncertainty);
        let u = stated.map_or(USUAL_GAUGE, |u| u.number() / INCH);
        if let Some(Level { vacuum, .. }) = self.level {
            checked(vacuum, ambient)?;
            if vacuum.kilopascals() > MOST_AT_IDLE * INCH {
                let most = MOST_AT_IDLE * INCH;
                return Err(GaugeError::NoIdle { vacuum, most });
            }
        }
        let drop = match self.drop {
            None => None,
            Some(drop) if self.movement.is_none_or(|m| m == Movement::Steady) => {
                return Err(GaugeError::DropOfNothing { drop });
            }
            Some(drop) => {
                checked(drop, ambient)?;
                let amount = drop.kilopascals() / INCH;
                let larger = amount * SEA_LEVEL / ambient.kilopascals();
                Some(Between {
                    from: amount.min(larger),
                    to: amount.max(larger),
                    u,
                })
            }
        };
        let at = |vacuum: Vacuum| Between::of(vacuum, ambient, u);
        Ok(Seen {
            level: self.level.map(|level| at(level.vacuum)).transpose()?,
            drop,
            blip: match self.blip {
                // What it falls to is near nothing, where altitude takes nothing off.
                Some(blip) => {
                    checked(blip.opened, ambient)?;
                    let low = blip.opened.kilopascals() / INCH;
                    let opened = Between {
                        from: low,
                        to: low,
                        u,
                    };
                    Some([opened, at(blip.shut)?])
                }
                None => None,
            },
            u,
            misread,
        })
    }

    fn says_something(&self) -> bool {
        GaugeLook::ALL.iter().any(|look| self.has(*look))
    }

    fn has(&self, look: GaugeLook) -> bool {
        match look {
            GaugeLook::Level => self.level.is_some(),
            GaugeLook::Movement => self.movement.is_some(),
            GaugeLook::WithSpeed => self.with_speed.is_some(),
            GaugeLook::Blip => self.blip.is_some(),
            GaugeLook::Timing => self.timing.is_some(),
            GaugeLook::Compression => self.compression.is_some(),
            GaugeLook::Lash => self.lash.is_some(),
        }
    }

    /// The chance, or density, of all that was seen; what was not is 1.
    fn likelihood(&self, cause: GaugeCause, seen: &Seen) -> f64 {
        let mixed = |p: f64, of: usize| (1.0 - seen.misread) * p + seen.misread / of as f64;
        let spread = |density: f64, over: f64| (1.0 - seen.misread) * density + seen.misread / over;
        let mut all = 1.0;
        if let Some(level) = seen.level {
            let band = cause.level(self.high_overlap);
            all *= spread(level.density(band), MOST_AT_IDLE);
        }
        if let Some(movement) = self.movement {
            let chances = cause.movements(self.cylinders);
            let p = chance(&Movement::ALL, &chances, &movement);
            all *= mixed(p, chances.len());
            if let Some((drop, band)) = seen.drop.zip(cause.drop(movement)) {
                // A needle that stands is not taken for one that drops far: it takes two wrong looks.
                let wrong = if cause.leaves_still() {
                    seen.misread * seen.misread
                } else {
                    seen.misread
                };
                all *= (1.0 - wrong) * drop.density(band) + wrong / MOST_AT_IDLE;
            }
        }
        if let Some(found) = self.with_speed {
            let chances = cause.with_speed();
            all *= mixed(chance(&WithSpeed::ALL, &chances, &found), chances.len());
        }
        if let Some([opened, shut]) = seen.blip {
            let (low, high) = cause.blip();
            all *= spread(opened.density(low), MOST) * spread(shut.density(high), MOST);
        }
        if let Some(found) = self.timing {
            let chances = cause.timing();
            all *= mixed(chance(&TimingFound::ALL, &chances, &found), chances.len());
        }
        if let Some(found) = self.lash {
            let chances = cause.lash();
            all *= mixed(chance(&LashFound::ALL, &chances, &found), chances.len());
        }
        if let Some(found) = self.compression {
            let chances = cause.compression();
            let p = chance(&CompressionFound::ALL, &chances, &found);
            all *= mixed(p, chances.len());
        }
        all
    }

    /// The chances of what a look may find.
    fn outcomes(&self, look: GaugeLook, cause: GaugeCause, seen: &Seen) -> Vec<f64> {
        let mut chances = match look {
            GaugeLook::Level => {
                let band = cause.level(self.high_overlap);
                binned(band, seen.u, MOST_AT_IDLE, BINS)
            }
            GaugeLook::Movement => cause.movements(self.cylinders).to_vec(),
            GaugeLook::WithSpeed => cause.with_speed().to_vec(),
            GaugeLook::Blip => binned(cause.blip().1, seen.u, MOST, BINS),
            GaugeLook::Timing => cause.timing().to_vec(),
            GaugeLook::Compression => cause.compression().to_vec(),
            GaugeLook::Lash => cause.lash().to_vec(),
        };
        let of = chances.len() as f64;
        for p in &mut chances {
            *p = (1.0 - seen.misread) * *p + seen.misread / of;
        }
        chances
    }

    /// The look that is expected to take away most doubt for its effort; the first of equals.
    fn next_look(&self, probabilities: &[f64], seen: &Seen) -> Option<NextGaugeLook> {
        let mut best: Option<NextGaugeLook> = None;
        for at in GaugeLook::ALL {
            if self.has(at) {
                continue;
            }
            let cases = GaugeCause::ALL.iter().zip(probabilities);
            let bits = expected_bits(
                cases.map(|(cause, probability)| (*probability, self.outcomes(at, *cause, seen))),
            );
            let worth = |bits: f64, at: GaugeLook| bits / at.effort();
            let least = best.map_or(NO_BITS, |best| worth(best.bits, best.at) + NO_BITS);
            if worth(bits, at) > least {
                best = Some(NextGaugeLook { at, bits });
            }
        }
        best
    }

    fn assumptions(&self) -> Vec<GaugeAssumption> {
        let reads = self.level.is_some() || self.drop.is_some() || self.blip.is_some();
        let stated = self.level.and_then(|level| level.standard_uncertainty);
        let all = [
            (
                reads && self.ambient.is_none(),
                GaugeAssumption::AmbientAssumed,
            ),
            (reads && stated.is_none(), GaugeAssumption::GaugeAssumed),
            (self.priors.is_none(), GaugeAssumption::PriorsAssumed),
            (self.misread.is_none(), GaugeAssumption::MisreadAssumed),
            (self.says_something(), GaugeAssumption::ChancesChosen),
            (self.says_something(), GaugeAssumption::SignsIndependent),
        ];
        let taken = all.into_iter().filter(|(taken, _)| *taken);
        taken.map(|(_, assumption)| assumption).collect()
    }
}
