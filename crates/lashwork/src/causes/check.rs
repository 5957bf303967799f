//! What was found, and what it says together.

use super::answer::SETTLED;
use super::evidence::{Evidence, States};
use super::next::next_looks;
use super::odds::Odds;
use super::suspect::{Case, Cases};
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
/// // The likeliest; four looks at one valve are not enough to settle it.
/// assert_eq!((first.cause, answer.verdict), (Cause::ValveBurnt, CauseVerdict::Open));
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
        let evidence = Evidence::of(self)?;
        let cases = self.cases(&evidence, &priors);
        let states = States::of_cases(&cases, self.cylinders.len());
        let prior = prior(&cases);
        let before = Odds::of(&cases, &prior);
        let mut probabilities = prior.clone();
        let mut so_far = before;
        let mut speaks: Vec<(CauseLook, [f64; 11], [f64; 11])> = Vec::new();
        for look in CauseLook::WEIGHED {
            if !evidence.has(look) {
                continue;
            }
            let found = evidence.of_look(look, &states, &prior);
            let with = |start: &[f64]| {
                let both = start.iter().zip(&found);
                summing_to_one(both.map(|(p, chance)| p * chance).collect())
            };
            let alone = Odds::of(&cases, &with(&prior));
            probabilities = with(&probabilities);
            let after = Odds::of(&cases, &probabilities);
            speaks.push((look, alone.above(&before), after.above(&so_far)));
            so_far = after;
        }
        let sum = |is: &dyn Fn(&Case) -> bool| -> f64 {
            let both = cases.iter().zip(&probabilities);
            both.filter(|(case, _)| is(case)).map(|(_, p)| p).sum()
        };
        let nothing = sum(&|case| case.count() == 0);
        let something_else = sum(&Case::is_else);
        let places = self.places(&cases, &probabilities);
        let mut causes: Vec<LikelyCause> = Cause::ALL
            .into_iter()
            .zip(places)
            .enumerate()
            .map(|(at, (cause, places))| LikelyCause {
                cause,
                prior: before.probability(at),
                probability: so_far.probability(at),
                places,
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
            several: sum(&|case| case.causes() > 1),
            verdict,
            next: next_looks(self, &cases, &probabilities),
            not_looked_at: looks.filter(|look| !evidence.has(*look)).collect(),
            assumptions: self.assumptions(evidence.has_unstated()),
        })
    }

    /// All cases: up to two suspects, and three of those that by what was found explain most.
    fn cases(&self, evidence: &Evidence, priors: &CausePriors) -> Vec<Case> {
        let cylinders = self.cylinders.len();
        let mut cases = Cases::of(cylinders, &self.neighbours, priors);
        let states = States::of_cases(&cases.all, cylinders);
        let prior = prior(&cases.all);
        let looks = CauseLook::WEIGHED.into_iter();
        let weights = looks.fold(prior.clone(), |weights, look| {
            let found = evidence.of_look(look, &states, &prior);
            let both = weights.iter().zip(&found);
            summing_to_one(both.map(|(p, chance)| p * chance).collect())
        });
        cases.add_threes(&weights);
        cases.all
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

    /// Where each cause may sit, most likely first.
    fn places(&self, cases: &[Case], probabilities: &[f64]) -> Vec<Vec<CausePlace>> {
        let cylinders = self.cylinders.len();
        let each = (0..cylinders).map(Place::Cylinder);
        let between = self.neighbours.iter().map(|[a, b]| Place::Between(*a, *b));
        let all = core::iter::once(Place::Engine).chain(each).chain(between);
        let nowhere: Vec<CausePlace> = all
            .map(|place| CausePlace {
                place,
                probability: 0.0,
            })
            .collect();
        let mut places = alloc::vec![nowhere; Cause::ALL.len()];
        let at = |place: Place| match place {
            Place::Engine => 0,
            Place::Cylinder(at) => 1 + at,
            Place::Between(one, other) => {
                let mut pairs = self.neighbours.iter();
                1 + cylinders + pairs.position(|own| *own == [one, other]).unwrap_or(0)
            }
        };
        for (case, probability) in cases.iter().zip(probabilities) {
            for suspect in case.suspects.iter().flatten() {
                let of_cause = suspect.at().and_then(|at| places.get_mut(at));
                if let Some(own) = of_cause.and_then(|of| of.get_mut(at(suspect.place))) {
                    own.probability += probability;
                }
            }
        }
        for own in &mut places {
            own.sort_by(|a, b| b.probability.total_cmp(&a.probability));
            let first = own.first().map_or(0.0, |first| first.probability);
            own.retain(|place| {
                place.probability > 0.0 && place.probability >= WORTH_NAMING * first
            });
        }
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
            (true, CauseAssumption::ThreeAtMost),
            (true, CauseAssumption::SimulatedOnly),
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

/// Weights, made to sum to one.
fn summing_to_one(mut weights: Vec<f64>) -> Vec<f64> {
    let all: f64 = weights.iter().sum();
    for weight in &mut weights {
        *weight /= all;
    }
    weights
}

fn prior(cases: &[Case]) -> Vec<f64> {
    summing_to_one(cases.iter().map(|case| case.prior).collect())
}
