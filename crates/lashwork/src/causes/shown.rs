//! What a case shows of one sign.
//!
//! # Method
//! A slight cause shows as a plain one now and then, else as nothing; but in the sign that it is itself (a tight
//! valve in its clearance, a late spark in the timing, a rich mixture in the gas) it shows at once. Of several causes any may show; what several
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

/// How often what each of three suspects shows is what is seen, by how often each shows nothing: always if no other
/// shows, a half if one other does, a third if both do.
fn seen_of_each([a, b, c]: [f64; 3]) -> [f64; 3] {
    let share = |b: f64, c: f64| {
        b * c + 0.5 * (b * (1.0 - c) + c * (1.0 - b)) + (1.0 - b) * (1.0 - c) / 3.0
    };
    [share(b, c), share(a, c), share(a, b)]
}

/// Whether a state touches a sign at all; what does not leaves it to the others.
fn touches(kind: Kind, state: State) -> bool {
    state.is_some_and(|(form, _)| kind.plain(form).ne(kind.sound()))
}

/// Chances of each outcome with what up to three suspects show.
pub(super) fn chances(kind: Kind, states: [State; 3]) -> Vec<f64> {
    let there = states.map(|state| state.filter(|_| touches(kind, state)));
    let each = there.map(|state| one(kind, state));
    if there == [None; 3] {
        return one(kind, None);
    }
    let mut at = there.iter().zip(&each);
    let none: [f64; 3] = core::array::from_fn(|_| match at.next() {
        Some((Some(_), own)) => first(own),
        _ => 1.0,
    });
    let mut all = alloc::vec![0.0; kind.sound().len()];
    for ((state, own), seen) in there.iter().zip(&each).zip(seen_of_each(none)) {
        let others = all.iter_mut().zip(own).skip(1);
        for (sum, p) in others.filter(|_| state.is_some()) {
            *sum += seen * p;
        }
    }
    if let Some(nothing) = all.first_mut() {
        *nothing = none.iter().product();
    }
    all
}

/// What one finding shows of a state.
#[derive(Clone, Copy, Debug)]
pub(super) struct Shown {
    /// Whether the state touches the sign at all.
    touches: bool,
    /// The chance of the first outcome, that of a sound one.
    none: f64,
    /// How probable the finding is by that outcome, and by the others.
    by_none: f64,
    by_others: f64,
}

/// How probable a finding is in each state, from how probable it is with each outcome.
pub(super) fn each(kind: Kind, weights: &[f64]) -> Vec<Shown> {
    let of = |state: State| {
        let all = one(kind, state);
        let (none, weight) = (first(&all), first(weights));
        let others = all.iter().zip(weights).skip(1);
        Shown {
            touches: touches(kind, state),
            none,
            by_none: none * weight,
            by_others: others.map(|(p, weight)| p * weight).sum(),
        }
    };
    states().into_iter().map(of).collect()
}

/// How probable a finding is in up to three states at once: [`chances`] summed over the outcomes.
pub(super) fn together(each: &[Shown], at: [usize; 3]) -> f64 {
    let of = |at: usize| each.get(at).copied();
    let there = at.map(|at| of(at).filter(|own| own.touches));
    let none = there.map(|own| own.map_or(1.0, |own| own.none));
    let Some(least) = there.iter().flatten().next() else {
        return of(0).map_or(0.0, |own| own.by_none + own.by_others);
    };
    let others = there.iter().zip(seen_of_each(none));
    let others = others.map(|(own, seen)| own.map_or(0.0, |own| seen * own.by_others));
    let weight = least.by_none / least.none;
    weight * none.iter().product::<f64>() + others.sum::<f64>()
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
        Form::AirAll => &[
            (G::IntakeLeak, 0.4),
            (G::MixtureWrong, 0.25),
            (G::Sound, 0.35),
        ],
        // The cylinder that gets it misses where it is too lean to burn.
        Form::AirOne => &[(G::IntakeLeak, 0.35), (G::Misfire, 0.3), (G::Sound, 0.35)],
        Form::SparkAll => &[(G::Misfire, 0.7), (G::PlugGapsClose, 0.3)],
        Form::SparkOne => &[(G::Misfire, 0.9), (G::PlugGapsClose, 0.1)],
        Form::Late => &[(G::SparkLate, 1.0)],
        Form::Rich => &[(G::MixtureWrong, 0.8), (G::Sound, 0.2)],
        // Weak alike, whether by the carburettor or by air past it.
        Form::Lean => &[
            (G::MixtureWrong, 0.55),
            (G::IntakeLeak, 0.15),
            (G::Sound, 0.3),
        ],
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

/// Any of up to three suspects may be what the needle shows; none leaves it to the others.
pub(super) fn any_of(each: &[Vec<f64>], at: [usize; 3]) -> Vec<f64> {
    let of = |at: usize| each.get(at).map_or(&[][..], Vec::as_slice);
    let there: Vec<&[f64]> = at.iter().filter(|at| **at != 0).map(|at| of(*at)).collect();
    let share = 1.0 / there.len().max(1) as f64;
    let mut all = of(0).to_vec();
    if !there.is_empty() {
        all.fill(0.0);
    }
    for own in there {
        for (sum, p) in all.iter_mut().zip(own) {
            *sum += share * p;
        }
    }
    all
}
