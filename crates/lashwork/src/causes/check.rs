//! What was found, and what it says together.

use super::answer::SETTLED;
use super::evidence::Evidence;
use super::next::next_looks;
use super::suspect::{Case, cases};
use super::{
    Cause, CauseAnswer, CauseAssumption, CauseError, CauseLook, CausePlace, CausePriors,
    CauseVerdict, CylinderSigns, EngineSigns, LikelyCause, Place, SpeaksFor,
};
use alloc::vec::Vec;

/// Most cylinders that are weighed.
const MOST_CYLINDERS: usize = 28;
/// Places that are less likely than this part of the first are not named.
const WORTH_NAMING: f64 = 0.1;

/// What was found of an engine.
///
/// ```
/// use lashwork::causes::{
///     Cause, CauseCheck, CauseVerdict, CompressionSign, CylinderSigns, DriftSign, LashSign, LeakSign, Place,
/// };
/// // The third of four: its exhaust valve is tight and closed up unlike its mates since it was set; the
/// // cylinder is low, oil does not help, and air hisses at the exhaust.
/// let mut check = CauseCheck::in_line(4);
/// check.cylinders[2] = CylinderSigns {
///     lash: Some(LashSign::Tight.into()),
///     drift: Some(DriftSign::Closing.into()),
///     compression: Some(CompressionSign::LowOilNoHelp.into()),
///     leak: Some(LeakSign::AtExhaust.into()),
///     ..CylinderSigns::default()
/// };
/// let answer = check.weighed()?;
/// let first = &answer.causes[0];
/// assert_eq!((first.cause, answer.verdict), (Cause::ValveBurnt, CauseVerdict::Settled));
/// assert_eq!(first.places[0].place, Place::Cylinder(2));
/// # Ok::<(), lashwork::causes::CauseError>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CauseCheck {
    /// What was found of each cylinder.
    pub cylinders: Vec<CylinderSigns>,
    /// Which cylinders lie side by side under one gasket, counted from 0.
    pub neighbours: Vec<[usize; 2]>,
    /// What was found of the engine as a whole.
    pub engine: EngineSigns,
    /// How often each cause is met; [`CausePriors::assumed`] if not stated.
    pub priors: Option<CausePriors>,
}

impl CauseCheck {
    /// Cylinders in one row under one head, of which nothing is known.
    ///
    /// ```
    /// use lashwork::causes::CauseCheck;
    /// assert_eq!(CauseCheck::in_line(3).neighbours, [[0, 1], [1, 2]]);
    /// ```
    #[must_use]
    pub fn in_line(cylinders: usize) -> Self {
        Self {
            cylinders: alloc::vec![CylinderSigns::default(); cylinders],
            neighbours: (1..cylinders).map(|at| [at - 1, at]).collect(),
            ..Self::default()
        }
    }

    /// Weighs what was found.
    ///
    /// # Errors
    /// [`CauseError::NoCylinders`], [`CauseError::TooMany`], [`CauseError::Neighbours`], [`CauseError::Gauge`].
    pub fn weighed(&self) -> Result<CauseAnswer, CauseError> {
        self.checked()?;
        let priors = self.priors.unwrap_or(CausePriors::assumed());
        let cases = cases(self.cylinders.len(), &self.neighbours, &priors);
        let evidence = Evidence::of(self)?;
        let ln_prior: Vec<f64> = cases.iter().map(|case| libm::log(case.prior)).collect();
        let before = Odds::of(&cases, &ln_prior);
        let mut ln_joint = ln_prior.clone();
        let mut so_far = before;
        let mut speaks: Vec<(CauseLook, [f64; 11], [f64; 11])> = Vec::new();
        for look in CauseLook::WEIGHED {
            if !evidence.has(look) {
                continue;
            }
            let ln: Vec<f64> = cases.iter().map(|case| evidence.ln(look, case)).collect();
            let with =
                |start: &[f64]| -> Vec<f64> { start.iter().zip(&ln).map(|(a, b)| a + b).collect() };
            let alone = Odds::of(&cases, &with(&ln_prior));
            ln_joint = with(&ln_joint);
            let after = Odds::of(&cases, &ln_joint);
            speaks.push((look, alone.above(&before), after.above(&so_far)));
            so_far = after;
        }
        let probabilities = probabilities(&ln_joint);
        let sum = |is: &dyn Fn(&Case) -> bool| -> f64 {
            let both = cases.iter().zip(&probabilities);
            both.filter(|(case, _)| is(case)).map(|(_, p)| p).sum()
        };
        let nothing = sum(&|case| case.count() == 0);
        let something_else = sum(&Case::is_else);
        let mut causes: Vec<LikelyCause> = Cause::ALL
            .into_iter()
            .enumerate()
            .map(|(at, cause)| LikelyCause {
                cause,
                prior: before.probability(at),
                probability: so_far.probability(at),
                places: self.places(cause, &cases, &probabilities),
                speaks: speaks
                    .iter()
                    .map(|(look, alone, adds)| SpeaksFor {
                        look: *look,
                        alone: alone.get(at).copied().unwrap_or(0.0),
                        adds: adds.get(at).copied().unwrap_or(0.0),
                    })
                    .collect(),
            })
            .collect();
        causes.sort_by(|a, b| b.probability.total_cmp(&a.probability));
        let first = causes.first().map_or(0.0, |first| first.probability);
        let verdict = if speaks.is_empty() {
            CauseVerdict::NothingSeen
        } else if nothing >= SETTLED {
            CauseVerdict::Sound
        } else if first >= SETTLED {
            CauseVerdict::Settled
        } else if something_else > first && something_else > nothing {
            CauseVerdict::NothingFits
        } else {
            CauseVerdict::Open
        };
        let looks = CauseLook::WEIGHED.into_iter();
        Ok(CauseAnswer {
            causes,
            nothing,
            passing: sum(&Case::is_passing),
            something_else,
            two: sum(&|case| case.count() == 2),
            verdict,
            next: next_looks(self, &cases, &probabilities),
            not_looked_at: looks.filter(|look| !evidence.has(*look)).collect(),
            assumptions: self.assumptions(evidence.has_unstated()),
        })
    }

    fn checked(&self) -> Result<(), CauseError> {
        let cylinders = self.cylinders.len();
        if cylinders == 0 {
            return Err(CauseError::NoCylinders);
        }
        if cylinders > MOST_CYLINDERS {
            return Err(CauseError::TooMany {
                got: cylinders,
                most: MOST_CYLINDERS,
            });
        }
        for (at, [one, other]) in self.neighbours.iter().copied().enumerate() {
            let earlier = self.neighbours.iter().take(at);
            let again = earlier
                .copied()
                .any(|pair| pair == [one, other] || pair == [other, one]);
            if one == other || one.max(other) >= cylinders || again {
                return Err(CauseError::Neighbours {
                    one,
                    other,
                    cylinders,
                });
            }
        }
        Ok(())
    }

    /// Where a cause may sit, most likely first.
    fn places(&self, cause: Cause, cases: &[Case], probabilities: &[f64]) -> Vec<CausePlace> {
        let each = (0..self.cylinders.len()).map(Place::Cylinder);
        let between = self.neighbours.iter().map(|[a, b]| Place::Between(*a, *b));
        let all = core::iter::once(Place::Engine).chain(each).chain(between);
        let mut places: Vec<CausePlace> = all
            .map(|place| CausePlace {
                place,
                probability: 0.0,
            })
            .collect();
        for (case, probability) in cases.iter().zip(probabilities) {
            for place in case.places(cause) {
                for own in places.iter_mut().filter(|own| own.place == place) {
                    own.probability += probability;
                }
            }
        }
        places.sort_by(|a, b| b.probability.total_cmp(&a.probability));
        let least = places
            .first()
            .map_or(0.0, |first| WORTH_NAMING * first.probability);
        places.retain(|place| place.probability > 0.0 && place.probability >= least);
        places
    }

    fn assumptions(&self, has_unstated: bool) -> Vec<CauseAssumption> {
        let engine = &self.engine;
        let gauge = engine.gauge.as_ref();
        let beside = gauge.is_some_and(|gauge| {
            gauge.timing.is_some() || gauge.lash.is_some() || gauge.compression.is_some()
        });
        let all = [
            (self.priors.is_none(), CauseAssumption::PriorsAssumed),
            (has_unstated, CauseAssumption::SureAssumed),
            (true, CauseAssumption::ChancesChosen),
            (true, CauseAssumption::TwoAtMost),
            (true, CauseAssumption::NotCalibrated),
            (beside, CauseAssumption::GaugeAlone),
            (
                engine.lambda.is_some() && !engine.weighs_lambda(),
                CauseAssumption::LambdaLeftOut,
            ),
        ];
        let taken = all.into_iter().filter(|(taken, _)| *taken);
        taken.map(|(_, assumption)| assumption).collect()
    }
}

/// What sums to one.
fn probabilities(ln: &[f64]) -> Vec<f64> {
    let all = crate::statistics::ln_sum(ln.iter().copied());
    ln.iter().map(|ln| libm::exp(ln - all)).collect()
}

/// How likely each cause is to be there, and not to be.
#[derive(Clone, Copy)]
struct Odds {
    there: [f64; 11],
    not: [f64; 11],
}

impl Odds {
    fn of(cases: &[Case], ln: &[f64]) -> Self {
        let mut odds = Self {
            there: [0.0; 11],
            not: [0.0; 11],
        };
        for (case, probability) in cases.iter().zip(probabilities(ln)) {
            let both = odds.there.iter_mut().zip(&mut odds.not);
            for (cause, (there, not)) in Cause::ALL.iter().zip(both) {
                if case.has(*cause) {
                    *there += probability;
                } else {
                    *not += probability;
                }
            }
        }
        odds
    }

    fn probability(&self, at: usize) -> f64 {
        let [there, not] = [&self.there, &self.not].map(|of| of.get(at).copied().unwrap_or(0.0));
        there / (there + not)
    }

    /// How far the odds stand above others, in decibans; nothing where a cause was left out.
    fn above(&self, before: &Self) -> [f64; 11] {
        let odds = |of: &Self, at: usize| {
            let [there, not] = [&of.there, &of.not].map(|of| of.get(at).copied().unwrap_or(0.0));
            (there, not)
        };
        core::array::from_fn(|at| {
            let ((a, not_a), (b, not_b)) = (odds(self, at), odds(before, at));
            if a > 0.0 && b > 0.0 {
                10.0 * (libm::log10(a / not_a) - libm::log10(b / not_b))
            } else {
                0.0
            }
        })
    }
}
