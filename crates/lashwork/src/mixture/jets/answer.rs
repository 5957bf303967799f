//! Which jet goes with other air.

use super::{JetAssumption, JetCaution, JetError, JetNumbering, JetPlace, JetRule, StepRule};
use crate::quantity::{Density, Lambda};
use crate::statistics::ONE_SIDED_95;
use crate::tolerance::known::known;
use crate::tolerance::{Estimate, Uncertainty};
use alloc::vec;
use alloc::vec::Vec;
use serde::Serialize;

/// Density ratios that a change of jets is reckoned for.
const RATIOS: (f64, f64) = (0.5, 2.0);
/// Standard uncertainty of what flows through a jet of a number, as a part of it. Common practice, no source.
const JET_SHARE: f64 = 0.01;
/// Powers of the density with which lambda rises, by theory and by the proportional rule.
const POWERS: (f64, f64) = (0.5, 1.0);

/// Which of a carburettor's jets.
///
/// ```
/// use lashwork::mixture::jets::Circuit;
/// assert_ne!(Circuit::Main, Circuit::Pilot);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Circuit {
    /// Main jet.
    Main,
    /// Pilot or idle jet.
    Pilot,
    /// Needle: set by grooves, not by a number that flows.
    Needle,
}

/// What there is to choose from: the numbers of jets of one circuit.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::mixture::jets::{Circuit, JetSeries};
/// assert!(JetSeries::new(Circuit::Main, &[100.0, 102.5, 105.0]).is_ok());
/// let refused = JetSeries::new(Circuit::Needle, &[1.0, 2.0]).unwrap_err();
/// assert_eq!(refused.code(), "mixture.needle-is-no-jet");
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JetSeries<'s> {
    circuit: Circuit,
    numbers: &'s [f64],
}

impl<'s> JetSeries<'s> {
    /// Takes the numbers in rising order.
    ///
    /// # Errors
    /// [`JetError::NeedleIsNoJet`]; [`JetError::Series`] if empty or not rising.
    pub fn new(circuit: Circuit, numbers: &'s [f64]) -> Result<Self, JetError> {
        if circuit == Circuit::Needle {
            return Err(JetError::NeedleIsNoJet);
        }
        let rises = numbers
            .windows(2)
            .all(|pair| matches!(pair, [a, b] if a < b));
        if numbers.is_empty() || !rises {
            return Err(JetError::Series);
        }
        Ok(Self { circuit, numbers })
    }
}

/// The question.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JetQuestion<'q> {
    /// The circuit of the jet that is fitted.
    pub circuit: Circuit,
    /// Its number.
    pub fitted: f64,
    /// What numbers mean.
    pub numbering: &'q JetNumbering,
    /// Lambda with this jet in the air it was chosen for; without it the answer's lambdas are relative to it.
    pub lambda: Option<Estimate<Lambda>>,
    /// Density of the air it was chosen for.
    pub from: Estimate<Density>,
    /// Density of the other air.
    pub to: Estimate<Density>,
    /// The book's steps with the two places, where it has any.
    pub steps: Option<(StepRule, JetPlace, JetPlace)>,
    /// What can be fitted.
    pub series: JetSeries<'q>,
}

/// What a rule asks for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RuleSays {
    /// The rule.
    pub rule: JetRule,
    /// The number, between the sizes there are.
    pub number: f64,
    /// Its standard uncertainty from that of the densities; none for a book's steps.
    pub u: f64,
    /// The nearest size on the rich side by the number alone, of the series and what is fitted; `None` if there
    /// is none.
    pub nearest: Option<f64>,
    /// The smallest size that is rich enough by it: one smaller than is fitted only where that is 95 % sure by
    /// the doubt of the densities; `None` if there is none.
    pub size: Option<f64>,
}

/// A size of the series, and what it does.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct JetSize {
    /// Its number.
    pub number: f64,
    /// Lambda in the other air, from the theory to the proportional rule.
    pub lambda: Estimate<Lambda>,
    /// Lambda with it back in the first air.
    pub back: Estimate<Lambda>,
}

/// Which jet goes with other air.
///
/// ```
/// use lashwork::mixture::jets::{
///     Circuit, JetCaution, JetNumbering, JetQuestion, JetSeries, rejet,
/// };
/// use lashwork::quantity::{Density, Lambda};
/// use lashwork::tolerance::{Estimate, Uncertainty};
/// let air = |text: &str| {
///     let density = Density::parse(text).unwrap();
///     Estimate::between(density, density, Uncertainty::from_number(0.005).unwrap())
/// };
/// let now = Lambda::parse("0.88 lambda")?;
/// let found = rejet(&JetQuestion {
///     circuit: Circuit::Main,
///     fitted: 200.0,
///     numbering: &JetNumbering::Flow,
///     lambda: Some(Estimate::between(now, now, Uncertainty::from_number(0.01)?)?),
///     from: air("1.225 kg/m3")?,
///     to: air("0.9616 kg/m3")?,
///     steps: None,
///     series: JetSeries::new(Circuit::Main, &[150.0, 160.0, 170.0, 180.0, 190.0, 200.0])?,
/// })?;
/// assert!((found.rules[0].number - 177.2).abs() < 0.1, "theory");
/// assert!((found.rules[1].number - 157.0).abs() < 0.1, "in proportion");
/// assert_eq!(found.fit, Some(180.0), "the richest, rounded up");
/// assert!(found.cautions.contains(&JetCaution::LeanBackDown));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct JetAnswer {
    /// The circuit.
    pub circuit: Circuit,
    /// Density of the other air over that of the first.
    pub ratio: f64,
    /// Its standard uncertainty.
    pub ratio_u: f64,
    /// What each rule asks for, side by side.
    pub rules: Vec<RuleSays>,
    /// The jet that is fitted, in the other air.
    pub kept: JetSize,
    /// The sizes of the series around what the rules ask for, what is fitted and what is to be fitted, in rising
    /// order.
    pub sizes: Vec<JetSize>,
    /// The smallest size that is rich enough by all of the rules; `None` if there is none.
    pub fit: Option<f64>,
    /// What to mind.
    pub cautions: Vec<JetCaution>,
    /// What was taken for granted.
    pub assumptions: Vec<JetAssumption>,
}

/// Which jet goes with other air: both rules of density and the book's steps side by side, and the sizes
/// around them with the lambda each would give.
///
/// # Errors
/// [`JetError::OtherCircuit`] if the series is of another circuit, [`JetError::NeedleIsNoJet`],
/// [`JetError::AirRatio`] outside 0.5 to 2, [`JetError::OneSided`], and those of [`JetNumbering`].
pub fn rejet(question: &JetQuestion<'_>) -> Result<JetAnswer, JetError> {
    if question.circuit == Circuit::Needle {
        return Err(JetError::NeedleIsNoJet);
    }
    if question.circuit != question.series.circuit {
        return Err(JetError::OtherCircuit);
    }
    let air = Air::of(question)?;
    let numbering = question.numbering;
    let flow = numbering.flow(question.fitted)?;
    let rules = rules(question, &air, flow)?;
    let numbers = question.series.numbers;
    let fit = largest(rules.iter().map(|said| said.size));
    let sizes = around(numbers, question.fitted, &rules)
        .into_iter()
        .map(|number| size(question, &air, flow, number))
        .collect::<Result<Vec<_>, _>>()?;
    let mut cautions = Vec::new();
    cautions.push(JetCaution::RichIsSafe);
    match fit {
        None => cautions.push(JetCaution::SeriesTooSmall),
        Some(number) if number < question.fitted => cautions.push(JetCaution::LeanBackDown),
        Some(_) => {}
    }
    let by_figures = rules.iter().map(|said| size_for(question, said.number));
    if fit != largest(by_figures) {
        cautions.push(JetCaution::LooseAir);
    }
    if air.ratio > 1.0 {
        cautions.push(JetCaution::DenserIsLean);
    }
    cautions.extend(book_against_density(&rules));
    if numbering == &JetNumbering::Diameter || matches!(numbering, JetNumbering::Table(_)) {
        cautions.push(JetCaution::OneMaker);
    }
    let mut assumptions = vec![
        JetAssumption::SameVolume,
        JetAssumption::JetFlow { share: JET_SHARE },
    ];
    if question.lambda.is_none() {
        assumptions.push(JetAssumption::LambdaOfOne);
    }
    Ok(JetAnswer {
        circuit: question.circuit,
        ratio: air.ratio,
        ratio_u: air.share * air.ratio,
        kept: size(question, &air, flow, question.fitted)?,
        rules,
        sizes,
        fit,
        cautions,
        assumptions,
    })
}

/// The other air against the first.
struct Air {
    ratio: f64,
    /// Standard uncertainty of the ratio, as a part of it.
    share: f64,
}

impl Air {
    fn of(question: &JetQuestion<'_>) -> Result<Self, JetError> {
        let one_sided = JetError::OneSided {
            what: "the density",
        };
        let (from, from_u) = known(&question.from).ok_or(one_sided.clone())?;
        let (to, to_u) = known(&question.to).ok_or(one_sided)?;
        let ratio = to / from;
        if !(RATIOS.0..=RATIOS.1).contains(&ratio) {
            return Err(JetError::AirRatio { got: ratio });
        }
        Ok(Self {
            ratio,
            share: libm::hypot(from_u / from, to_u / to),
        })
    }
}

fn rules(question: &JetQuestion<'_>, air: &Air, flow: f64) -> Result<Vec<RuleSays>, JetError> {
    let mut said = Vec::new();
    for (rule, power) in [
        (JetRule::Theory, POWERS.0),
        (JetRule::Proportional, POWERS.1),
    ] {
        let wanted = flow * libm::pow(air.ratio, power);
        let number = question.numbering.number(wanted)?;
        let share = power * air.share;
        let u = match question.numbering {
            JetNumbering::Flow => share * number,
            JetNumbering::Diameter => 0.5 * share * number,
            // Along the table; at its ends on the side that it has.
            JetNumbering::Table(_) => {
                let to = |flow: f64| question.numbering.number(flow).unwrap_or(number);
                0.5 * (to(wanted * (1.0 + share)) - to(wanted * (1.0 - share))).abs()
            }
        };
        said.push((rule, number, u));
    }
    if let Some((steps, from, to)) = &question.steps {
        let number = steps.number(question.fitted, from, to);
        if number <= 0.0 {
            return Err(JetError::StepsLeaveNoJet { got: number });
        }
        said.push((JetRule::Steps(*steps), number, 0.0));
    }
    let said = said.into_iter().map(|(rule, number, u)| RuleSays {
        rule,
        number,
        u,
        nearest: size_for(question, number),
        size: sure_size(question, number, u),
    });
    Ok(said.collect())
}

/// The largest of sizes; nothing if one of them is missing.
fn largest(mut sizes: impl Iterator<Item = Option<f64>>) -> Option<f64> {
    sizes.try_fold(0.0, |largest: f64, size| Some(largest.max(size?)))
}

/// The smallest size that is at least so large, of the series and what is fitted. One that is asked for to
/// the last bits is that size.
fn size_for(question: &JetQuestion<'_>, wanted: f64) -> Option<f64> {
    let numbers = question.series.numbers.iter().copied();
    let numbers = numbers.chain([question.fitted]);
    let enough = numbers.filter(|number| *number >= wanted * (1.0 - 1e-9));
    enough.fold(None, |least: Option<f64>, number| {
        Some(least.map_or(number, |least| least.min(number)))
    })
}

/// The same where a smaller one than is fitted has to be 95 % sure, as for the lean side of lambda; one that is
/// fitted, or larger, needs no proof.
fn sure_size(question: &JetQuestion<'_>, wanted: f64, u: f64) -> Option<f64> {
    let size = size_for(question, wanted)?;
    if size >= question.fitted {
        return Some(size);
    }
    let sure = size_for(question, wanted + ONE_SIDED_95 * u);
    Some(sure.map_or(question.fitted, |sure| sure.min(question.fitted)))
}

/// How a book's steps stand to both rules of density.
fn book_against_density(rules: &[RuleSays]) -> Option<JetCaution> {
    let is_book = |said: &&RuleSays| matches!(said.rule, JetRule::Steps(_));
    let book = rules.iter().find(is_book)?.number;
    let mut density = rules.iter().filter(|said| !is_book(said));
    if density.clone().all(|said| book > said.number) {
        Some(JetCaution::BookIsRicher)
    } else if density.all(|said| book < said.number) {
        Some(JetCaution::BookIsLeaner)
    } else {
        None
    }
}

/// The numbers from the last one under all rules to the first one over all, with what each rule asks for and
/// what is fitted, whether the series has it or not.
fn around(numbers: &[f64], fitted: f64, rules: &[RuleSays]) -> Vec<f64> {
    let low = rules.iter().fold(f64::INFINITY, |low, r| low.min(r.number));
    let high = rules.iter().fold(0.0, |high: f64, r| high.max(r.number));
    let under = numbers.iter().rposition(|number| *number <= low);
    let over = numbers.iter().position(|number| *number >= high);
    let first = under.unwrap_or(0);
    let last = over.unwrap_or(numbers.len().saturating_sub(1));
    let between = numbers.iter().take(last + 1).skip(first).copied();
    let asked = rules.iter().flat_map(|said| [said.nearest, said.size]);
    let mut found: Vec<f64> = between.chain(asked.flatten()).chain([fitted]).collect();
    found.sort_by(f64::total_cmp);
    found.dedup();
    found
}

fn size(
    question: &JetQuestion<'_>,
    air: &Air,
    flow: f64,
    number: f64,
) -> Result<JetSize, JetError> {
    let (lambda, lambda_u) = match &question.lambda {
        Some(lambda) => known(lambda).ok_or(JetError::OneSided { what: "lambda" })?,
        None => (1.0, 0.0),
    };
    let thinner = flow / question.numbering.flow(number)?;
    // The same jet is the same jet: only another one brings the doubt of two.
    let is_fitted = (thinner - 1.0).abs() < 1e-12;
    let jets = if is_fitted {
        0.0
    } else {
        libm::sqrt(2.0) * JET_SHARE
    };
    let known_by = libm::hypot(lambda_u / lambda, jets);
    let at = |power: f64| lambda * thinner * libm::pow(air.ratio, power);
    let (a, b) = (at(POWERS.0), at(POWERS.1));
    let (low, high) = (a.min(b), a.max(b));
    let u = 0.5 * (low + high) * libm::hypot(known_by, POWERS.1 * air.share);
    let back = Lambda::from_ratio(lambda * thinner)?;
    Ok(JetSize {
        number,
        lambda: Estimate::between(
            Lambda::from_ratio(low)?,
            Lambda::from_ratio(high)?,
            Uncertainty::from_number(u)?,
        )?,
        back: Estimate::between(
            back,
            back,
            Uncertainty::from_number(back.ratio() * known_by)?,
        )?,
    })
}
