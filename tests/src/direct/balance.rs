//! The call about throttles that share the work, made from Rust.

use super::bits;
use super::calls::{Answer, Coded, Inputs};
use lashwork::Refusal;
use lashwork::mixture::balance::{
    BalanceAnswer, BalanceCheck, BalanceError, JoinedBy, Joint, Linkage, NextReading, Shown,
    ThrottleReading, TrialTurn, Way,
};
use lashwork::quantity::{AbsolutePressure, AirFlow, ScrewAngle, Vacuum};
use lashwork::tolerance::{DecisionRule, Measurand, Uncertainty};
use serde_json::{Value, json};

fn first<T>(found: Result<T, Vec<BalanceError>>) -> Answer<T> {
    found.map_err(|all| all.first().map_or("", Refusal::code).to_owned())
}

impl Inputs<'_> {
    fn places(&mut self) -> Answer<Vec<usize>> {
        let numbers = self.column()?.into_iter();
        Ok(numbers
            .map(|number| format!("{number}").parse().unwrap_or(usize::MAX))
            .collect())
    }

    fn linkage(&mut self) -> Answer<Linkage> {
        let (count, reference, alike) = (self.whole(), self.whole(), self.whole() == 1);
        let (one, other, by) = (self.places()?, self.places()?, self.places()?);
        let screw = |clockwise_opens| JoinedBy::Screw { clockwise_opens };
        let known = [
            JoinedBy::Rigidly,
            screw(None),
            screw(Some(true)),
            screw(Some(false)),
        ];
        let joints: Vec<Joint> = one
            .into_iter()
            .zip(other)
            .zip(by)
            .filter_map(|((one, other), by)| {
                let by = known.get(by - 1).copied()?;
                Some(Joint {
                    between: [one, other],
                    by,
                })
            })
            .collect();
        let place = |number: i64| usize::try_from(number).unwrap_or(usize::MAX);
        let linkage = first(Linkage::new(place(count), &[place(reference)], &joints))?;
        Ok(if alike {
            linkage.screws_alike()
        } else {
            linkage
        })
    }
}

fn told<R: Shown>(found: &BalanceAnswer<R>) -> Vec<Value> {
    let (next, at, doubts) = match found.next {
        None => (0, 0, [f64::NAN; 2]),
        Some(NextReading::Again {
            throttle,
            doubt,
            then,
        }) => (1, throttle, [doubt, then]),
        Some(NextReading::Trial { joint }) => (2, joint, [f64::NAN; 2]),
        Some(NextReading::TrialAgain { joint, doubt, then }) => (3, joint, [doubt, then]),
    };
    let judged = found.judgement;
    let mut out = vec![
        json!(found.moves.len()),
        bits(found.spread.number()),
        bits(found.scatter.single.number()),
        bits(found.scatter.degrees_of_freedom.unwrap_or(f64::NAN)),
        bits(judged.map_or(f64::NAN, |it| it.probabilities.in_band.least)),
    ];
    out.extend(doubts.map(bits));
    out.push(json!(judged.map_or(0, |it| it.verdict.number())));
    out.extend([json!(next), json!(at), json!(found.rigid.len())]);
    for stand in &found.throttles {
        out.extend(
            [
                stand.reading.number(),
                stand.standard_uncertainty.number(),
                stand.over_reference.number(),
                stand.over_reference_uncertainty.number(),
            ]
            .map(bits),
        );
        out.push(json!(stand.judgement.map_or(0, |it| it.verdict.number())));
    }
    for made in &found.moves {
        let way = match made.way {
            Way::Open => 1,
            Way::Close => 2,
            Way::Leave => 3,
        };
        let sense = made
            .clockwise
            .map_or(0, |clockwise| 2 - i32::from(clockwise));
        let turn = made.turn.map_or([f64::NAN; 2], |it| {
            [it.turn.degrees(), it.standard_uncertainty]
        });
        let response = made.response.as_ref().map_or([f64::NAN; 2], |it| {
            [it.per_turn.number(), it.standard_uncertainty.number()]
        });
        out.extend([json!(made.joint), json!(made.to_match)]);
        out.extend([made.change.number(), made.standard_uncertainty.number()].map(bits));
        out.extend([json!(way), bits(made.way_right), json!(sense)]);
        out.extend(turn.into_iter().chain(response).map(bits));
    }
    for pair in &found.rigid {
        let numbers = [pair.difference.number(), pair.standard_uncertainty.number()];
        out.push(json!(pair.joint));
        out.extend(numbers.map(bits));
        out.push(json!(pair.judgement.map_or(0, |it| it.verdict.number())));
    }
    out
}

/// What stands between the looks and the trials.
struct Stated {
    scatter: f64,
    between: f64,
    allowed: f64,
    ambient: Option<AbsolutePressure>,
}

fn of<R: Shown>(
    i: &mut Inputs<'_>,
    linkage: &Linkage,
    looks: (Vec<usize>, Vec<f64>),
    stated: &Stated,
) -> Answer {
    let shown = |number: f64| R::from_number(number).code();
    let mut readings: Vec<ThrottleReading<R>> = Vec::new();
    for (throttle, number) in looks.0.into_iter().zip(looks.1) {
        let number = shown(number)?;
        match readings.iter_mut().find(|of| of.throttle == throttle) {
            Some(of) => of.shown.push(number),
            None => readings.push(ThrottleReading {
                throttle,
                shown: vec![number],
            }),
        }
    }
    let joints = i.numbers().unwrap_or_default();
    let [turns, before, after] = [(); 3].map(|()| i.numbers().unwrap_or_default());
    let still = i.numbers().zip(i.numbers());
    let mut trials = Vec::new();
    for (row, joint) in joints.iter().enumerate() {
        let at = |column: &[f64]| column.get(row).copied().unwrap_or(f64::NAN);
        let unmoved = still
            .as_ref()
            .map(|(before, after)| -> Answer<_> { Ok((shown(at(before))?, shown(at(after))?)) });
        trials.push(TrialTurn {
            joint: format!("{joint}").parse().unwrap_or(usize::MAX),
            turn: ScrewAngle::from_degrees(at(&turns)).code()?,
            before: shown(at(&before))?,
            after: shown(at(&after))?,
            unmoved: unmoved.transpose()?,
        });
    }
    let rule = match (i.whole(), i.number(), i.number()) {
        (0, ..) => None,
        (2, ..) => Some(DecisionRule::simple()),
        (3, ..) => Some(DecisionRule::iso_14253_1()),
        (_, below, above) => Some(DecisionRule::guarded(below, above).code()?),
    };
    let u = |number: f64| Uncertainty::<R>::from_number(number).code();
    let is_stated = |number: f64| number != 0.0;
    let check = BalanceCheck {
        readings,
        scatter: is_stated(stated.scatter)
            .then(|| u(stated.scatter))
            .transpose()?,
        between_gauges: is_stated(stated.between)
            .then(|| u(stated.between))
            .transpose()?,
        trials,
        allowed: is_stated(stated.allowed)
            .then(|| R::Difference::from_number(stated.allowed).code())
            .transpose()?,
        rule,
        ambient: stated.ambient,
    };
    Ok(told(&first(check.worked_out(linkage))?))
}

/// See [`super::answer`].
pub(super) fn answer(call: &str, i: &mut Inputs<'_>) -> Answer {
    if call != "balance_throttles" {
        return super::condition::answer(call, i);
    }
    let linkage = i.linkage()?;
    let looks = (i.places()?, i.column()?);
    let (scatter, between, allowed) = (i.number(), i.number(), i.number());
    let (kpa, gauge, is_known) = (i.number(), i.whole(), i.whole() == 1);
    let ambient = is_known.then(|| AbsolutePressure::from_kilopascals(kpa).code());
    let stated = Stated {
        scatter,
        between,
        allowed,
        ambient: ambient.transpose()?,
    };
    match gauge {
        1 => of::<Vacuum>(i, &linkage, looks, &stated),
        _ => of::<AirFlow>(i, &linkage, looks, &stated),
    }
}
