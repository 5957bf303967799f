//! What a case shows of one sign.
//!
//! # Method
//! A slight cause shows as a plain one now and then, else as nothing; but in the sign that it is itself (a tight
//! valve in its clearance, a late spark in the timing, a rich mixture in the gas) it shows at once. Of two causes either may show; what both
//! show is seen of one of them. This library's choice.

use super::chances::{Form, Kind};
use super::suspect::State;
use crate::mixture::gauge::{GaugeCause, GaugePriors};
use alloc::vec::Vec;

/// How often something slight shows as plainly as something plain.
const SLIGHT: f64 = 0.35;

/// All states; [`index`] says where one stands.
pub(super) const STATES: usize = 1 + 2 * Form::ALL.len();

/// Where a state stands in a table.
pub(super) fn index(state: State) -> usize {
    state.map_or(0, |(form, plain)| {
        1 + 2 * form as usize + usize::from(plain)
    })
}

/// All states, each at its index.
pub(super) fn states() -> Vec<State> {
    let forms = Form::ALL.iter();
    let both = forms.flat_map(|form| [Some((*form, false)), Some((*form, true))]);
    core::iter::once(None).chain(both).collect()
}

/// Chances of each outcome in one state.
fn one(kind: Kind, state: State) -> Vec<f64> {
    let sound = kind.sound().iter().map(|percent| percent / 100.0);
    match state {
        None => sound.collect(),
        Some((form, plain)) => {
            let part = if plain || kind.is(form) { 1.0 } else { SLIGHT };
            let shown = kind.plain(form).iter().map(|percent| percent / 100.0);
            let mixed = |(own, sound): (f64, f64)| part * own + (1.0 - part) * sound;
            shown.zip(sound).map(mixed).collect()
        }
    }
}

/// Chances of each outcome with what two suspects show.
pub(super) fn chances(kind: Kind, pair: [State; 2]) -> Vec<f64> {
    // What does not touch a sign leaves it to the other.
    let [a, b] = pair.map(|state| state.filter(|(form, _)| kind.plain(*form).ne(kind.sound())));
    match (a, b) {
        (state, None) | (None, state) => one(kind, state),
        (Some(_), Some(_)) => {
            let (p, q) = (one(kind, a), one(kind, b));
            let (p0, q0) = (first(&p), first(&q));
            let either = |(at, (p, q)): (usize, (&f64, &f64))| {
                if at == 0 {
                    p0 * q0
                } else {
                    p * q0 + p0 * q + 0.5 * (p * (1.0 - q0) + q * (1.0 - p0))
                }
            };
            p.iter().zip(&q).enumerate().map(either).collect()
        }
    }
}

/// What one finding shows of each state.
#[derive(Clone, Copy, Debug)]
struct Shown {
    /// Whether the state touches the sign at all.
    touches: bool,
    /// The chance of the first outcome, that of a sound one.
    none: f64,
    /// How probable the finding is by that outcome, and by the others.
    by_none: f64,
    by_others: f64,
}

/// How probable a finding is for each two states, from how probable it is with each outcome: [`chances`] summed
/// over the outcomes.
pub(super) fn found(kind: Kind, weights: &[f64]) -> Vec<f64> {
    let of = |state: &State| {
        let all = one(kind, *state);
        let (none, weight) = (first(&all), first(weights));
        let others = all
            .iter()
            .zip(weights)
            .skip(1)
            .map(|(p, weight)| p * weight);
        Shown {
            touches: state.is_some_and(|(form, _)| kind.plain(form).ne(kind.sound())),
            none,
            by_none: none * weight,
            by_others: others.sum(),
        }
    };
    let each: Vec<Shown> = states().iter().map(of).collect();
    let pair = |a: &Shown, b: &Shown| match (a.touches, b.touches) {
        (_, false) => a.by_none + a.by_others,
        (false, true) => b.by_none + b.by_others,
        (true, true) => {
            let both = a.by_none * b.none;
            both + 0.5 * (a.by_others * (1.0 + b.none) + b.by_others * (1.0 + a.none))
        }
    };
    each.iter()
        .flat_map(|a| each.iter().map(move |b| pair(a, b)))
        .collect()
}

fn first(of: &[f64]) -> f64 {
    of.first().copied().unwrap_or(0.0)
}

/// What a cause looks like at the vacuum gauge, by the gauge's own causes.
fn at_gauge(form: Form) -> Vec<(GaugeCause, f64)> {
    use GaugeCause as G;
    let parts: &[(G, f64)] = match form {
        Form::Burnt | Form::Sunk => &[(G::ValveLeaks, 1.0)],
        Form::Tight | Form::Closed => &[(G::ValveTight, 0.8), (G::ValveLeaks, 0.2)],
        // A lobe that lifts less: a weak cylinder, or nothing to be seen.
        Form::Nose | Form::Follower => &[(G::Sound, 0.5), (G::Misfire, 0.5)],
        Form::Tooth => &[(G::ValvesLate, 1.0)],
        Form::RingsAll => &[(G::RingsWorn, 1.0)],
        // A cylinder that leaks past its rings fills badly, as one that leaks past a valve.
        Form::RingsOne => &[(G::Sound, 0.4), (G::ValveLeaks, 0.6)],
        Form::Gasket => &[(G::HeadGasket, 1.0)],
        // It makes the mixture lean besides; a small one moves the needle little.
        Form::AirAll | Form::AirOne => &[
            (G::IntakeLeak, 0.6),
            (G::MixtureWrong, 0.2),
            (G::Sound, 0.2),
        ],
        Form::SparkAll => &[(G::Misfire, 0.7), (G::PlugGapsClose, 0.3)],
        Form::SparkOne => &[(G::Misfire, 0.9), (G::PlugGapsClose, 0.1)],
        Form::Late => &[(G::SparkLate, 1.0)],
        Form::Rich | Form::Lean => &[(G::MixtureWrong, 1.0)],
        Form::Passing => &[(G::Sound, 0.6), (G::ValveLeaks, 0.4)],
        Form::Else => {
            let usual = GaugePriors::assumed();
            let others = [
                G::ValveSticks,
                G::SpringsWeak,
                G::GuidesWorn,
                G::ExhaustBlocked,
                G::SomethingElse,
            ];
            let all: f64 = others.iter().map(|cause| usual.percent(*cause)).sum();
            let part = |cause: G| (cause, usual.percent(cause) / all);
            return others.into_iter().map(part).collect();
        }
    };
    parts.to_vec()
}

/// What the gauge is expected to show in a state, from what it shows with each of its causes.
fn gauge_one(state: State, of: &impl Fn(GaugeCause) -> Vec<f64>) -> Vec<f64> {
    let sound = of(GaugeCause::Sound);
    let Some((form, plain)) = state else {
        return sound;
    };
    let part = if plain { 1.0 } else { SLIGHT };
    let mut mixed: Vec<f64> = sound.iter().map(|p| (1.0 - part) * p).collect();
    for (cause, share) in at_gauge(form) {
        for (sum, p) in mixed.iter_mut().zip(of(cause)) {
            *sum += part * share * p;
        }
    }
    mixed
}

/// What the needle is expected to show in each state.
pub(super) fn at_needle(of: &impl Fn(GaugeCause) -> Vec<f64>) -> Vec<Vec<f64>> {
    states()
        .into_iter()
        .map(|state| gauge_one(state, of))
        .collect()
}

/// Two suspects, either of which may be what the needle shows; none leaves it to the other.
pub(super) fn either<'s>(each: &'s [Vec<f64>], a: usize, b: usize) -> Vec<f64> {
    let of = |at: usize| -> &'s [f64] { each.get(at).map_or(&[], Vec::as_slice) };
    match (a, b) {
        (at, 0) | (0, at) => of(at).to_vec(),
        _ => {
            let both = of(a).iter().zip(of(b));
            both.map(|(p, q)| 0.5 * (p + q)).collect()
        }
    }
}
