//! What to do about the balance.

use super::answer::{
    BalanceReport, BalanceShaftReport, BalanceTurnReport, ThrottleCylinderReport, ThrottleReport,
};
use super::before::Ground;
use super::cylinders;
use super::words::{self, Words};
use crate::job::text::percent;
use crate::job::work::{MeasuredReport, Sides, WorkAdvice, told as judged};
use crate::mixture::balance::{BalanceAnswer, Linkage, Move, NextReading, Shown, Way};
use crate::tolerance::{FIRM, HasLimits, Judgement, Measurand, Verdict};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

const SPREAD: Sides = Sides {
    below: "even",
    above: "uneven beyond what is allowed",
};
const OVER: Sides = Sides {
    below: "too far under",
    above: "too far over",
};

/// What there is to say before anything was read.
pub(super) fn not_read(ground: &Ground) -> BalanceReport {
    let text = "read every throttle at one speed of the engine, at least one of them twice";
    BalanceReport {
        verdict_text: String::from("not read"),
        spread: None,
        unit: None,
        greatest_less_least: None,
        allowed: None,
        rule: None,
        beforehand: ground.told(),
        throttles: Vec::new(),
        turns: Vec::new(),
        shafts: Vec::new(),
        cylinders: Vec::new(),
        next: None,
        advice: match &ground.settle {
            Some(text) => WorkAdvice::SettleFirst { text: text.clone() },
            None => WorkAdvice::Measure {
                text: String::from(text),
            },
        },
    }
}

/// What there is to say while throttles are still being read.
pub(super) fn begun(
    means: &[Option<f64>],
    reference: usize,
    lacks: String,
    words: &Words<'_>,
    ground: &Ground,
) -> BalanceReport {
    let zero = means.get(reference).copied().flatten();
    let throttles = means.iter().enumerate().map(|(throttle, mean)| {
        let is_reference = throttle == reference;
        let over = mean.zip(zero).map(|(mean, zero)| mean - zero);
        let name = words.name(throttle);
        let said = mean.map_or_else(|| String::from("not read"), |mean| (words.say)(mean));
        let rest = match over {
            _ if is_reference => String::from(", the others are set to it"),
            Some(over) => format!(", {}", words.beside(over)),
            None => String::new(),
        };
        ThrottleReport {
            text: format!("{name}: {said}{rest}"),
            name,
            is_reference,
            reading: *mean,
            reading_u: None,
            over_reference: over,
            over_reference_u: None,
            judged: None,
        }
    });
    let read = means.iter().flatten().count();
    let mut made = not_read(ground);
    made.verdict_text = format!("{read} of {} throttles read", means.len());
    made.unit = Some(words.unit);
    made.throttles = throttles.collect();
    if ground.settle.is_none() {
        made.advice = WorkAdvice::Measure { text: lacks };
    }
    made
}

/// The report of what was found.
pub(super) fn told<R: Shown>(
    answer: &BalanceAnswer<R>,
    linkage: &Linkage,
    (allowed, rule): (Option<f64>, Option<&'static str>),
    words: &Words<'_>,
    ground: &Ground,
) -> BalanceReport {
    let spread = answer.spread.number();
    let most = allowed
        .map(|allowed| (words.say)(allowed))
        .unwrap_or_default();
    let judge = |judgement: &Option<Judgement>, said: String, sides| -> Option<MeasuredReport> {
        let judgement = judgement.as_ref()?;
        Some(judged(
            said,
            format!("no more than {most}"),
            judgement,
            sides,
        ))
    };
    let said = format!("greatest less least {}", (words.say)(spread));
    let spread_judged = judge(&answer.judgement, said.clone(), SPREAD);
    let throttles = answer.throttles.iter().map(|one| {
        let (over, u) = (
            one.over_reference.number(),
            one.over_reference_uncertainty.number(),
        );
        let is_reference = one.throttle == linkage.reference();
        let rest = if is_reference {
            String::from("the others are set to it")
        } else {
            words.over(over, u)
        };
        ThrottleReport {
            name: words.name(one.throttle),
            is_reference,
            reading: Some(one.reading.number()),
            reading_u: Some(one.standard_uncertainty.number()),
            over_reference: Some(over),
            over_reference_u: Some(u),
            judged: judge(&one.judgement, words.over(over, u), OVER),
            text: format!(
                "{}: {}, {rest}",
                words.name(one.throttle),
                (words.say)(one.reading.number())
            ),
        }
    });
    let shafts = answer.rigid.iter().map(|one| {
        let (difference, u) = (one.difference.number(), one.standard_uncertainty.number());
        let [inner, outer] = words.between(linkage, one.joint);
        let judged = judge(&one.judgement, words.over(difference, u), OVER);
        let verdict = judged.as_ref().map(|one| format!(": {}", one.verdict_text));
        BalanceShaftReport {
            text: format!(
                "{inner} and {outer} on one shaft: {}{}",
                words.over(difference, u),
                verdict.unwrap_or_default()
            ),
            between: [inner, outer],
            difference,
            difference_u: u,
            judged,
        }
    });
    let made = BalanceReport {
        verdict_text: {
            let text = match &spread_judged {
                Some(one) => format!("{}; {said}, allowed {most}", one.verdict_text),
                None => format!("no limit stated; {said}"),
            };
            match ground.wrong {
                Some(wrong) => format!("{text}; but {wrong}"),
                None => text,
            }
        },
        spread: spread_judged,
        unit: Some(words.unit),
        greatest_less_least: Some(spread),
        allowed,
        rule,
        beforehand: ground.told(),
        throttles: throttles.collect(),
        turns: Vec::new(),
        shafts: shafts.collect(),
        cylinders: Vec::new(),
        next: answer.next.map(|next| words.next(linkage, next)),
        advice: WorkAdvice::Leave {
            text: String::from("the throttles share the work: leave the screws"),
        },
    };
    decided(made, answer, linkage, words, ground)
}

/// With what to do.
fn decided<R: Shown>(
    mut made: BalanceReport,
    answer: &BalanceAnswer<R>,
    linkage: &Linkage,
    words: &Words<'_>,
    ground: &Ground,
) -> BalanceReport {
    if let Some(text) = &ground.settle {
        made.next = None;
        made.advice = WorkAdvice::SettleFirst { text: text.clone() };
        return made;
    }
    if let Some(advice) = shaft(&made) {
        made.advice = advice;
        return made;
    }
    match made.spread.as_ref().map(MeasuredReport::shown) {
        Some(Verdict::InBand) => {
            // Screws that are left are not turned for a trial either.
            made.next = None;
            return made;
        }
        Some(Verdict::CannotSay) => {
            made.advice = measure(&made, "the readings do not decide it: ");
            return made;
        }
        _ => {}
    }
    let sure = |one: &&Move<R::Difference>| one.way != Way::Leave && one.way_right >= FIRM;
    let moves = answer.moves.iter().filter(sure);
    made.turns = moves.map(|one| turn(one, linkage, words)).collect();
    made.advice = if made.turns.is_empty() {
        measure(
            &made,
            "the readings do not tell which way any screw has to go: ",
        )
    } else {
        // A trial of a screw that stays where it is tells nothing of what is to be done.
        if let Some(NextReading::Trial { joint } | NextReading::TrialAgain { joint, .. }) =
            answer.next
            && !answer
                .moves
                .iter()
                .filter(sure)
                .any(|one| one.joint == joint)
        {
            made.next = None;
        }
        set(&made, ground, linkage, words)
    };
    made
}

/// With what is known of the cylinders, which goes before any screw.
pub(super) fn with_cylinders(
    made: &mut BalanceReport,
    read: Vec<ThrottleCylinderReport>,
    found_wrong: Vec<String>,
) {
    let seen = cylinders::cause(&read);
    let is_seen = seen.is_some();
    // What was found wrong counts also where the readings do not show it.
    let cause = seen.or_else(|| {
        let text =
            "turn nothing yet: a screw of the linkage would hide what was found of a cylinder";
        (!found_wrong.is_empty()).then(|| (String::from(text), found_wrong))
    });
    match (&mut made.advice, cause) {
        (WorkAdvice::SettleFirst { .. }, _) => {}
        (advice, Some((text, causes))) => {
            made.turns.clear();
            if !is_seen {
                made.next = None;
            }
            made.verdict_text.push_str(if is_seen {
                "; but a cylinder differs, and no throttle"
            } else {
                "; but a cylinder was found not right"
            });
            *advice = WorkAdvice::FindCause { text, causes };
        }
        (WorkAdvice::Set { first, .. }, None) => {
            first.extend(cylinders::sure(&read, &made.turns));
        }
        _ => {}
    }
    made.cylinders = read;
}

/// Throttles on one shaft that differ: no screw of the linkage mends it.
fn shaft(made: &BalanceReport) -> Option<WorkAdvice> {
    let is_out = |one: &&BalanceShaftReport| {
        let verdict = one.judged.as_ref().map(|judged| judged.verdict);
        matches!(verdict, Some(Verdict::Below | Verdict::Above))
    };
    let one = made.shafts.iter().find(is_out)?;
    let causes = [
        "a cylinder that breathes less: compression, a valve with too little clearance",
        "air drawn in behind one of the two: gasket, spindle, a loose plug",
        "a throttle plate that sits askew on the shaft, or a twisted shaft",
    ];
    Some(WorkAdvice::FindCause {
        text: format!(
            "turn nothing yet: {}; no screw of the linkage mends that",
            one.text
        ),
        causes: causes.into_iter().map(ToString::to_string).collect(),
    })
}

fn measure(made: &BalanceReport, why: &str) -> WorkAdvice {
    WorkAdvice::Measure {
        text: match &made.next {
            Some(next) => format!("{why}{next}"),
            None => format!("{why}read every throttle once more, at the same speed"),
        },
    }
}

fn turn<D: HasLimits>(one: &Move<D>, linkage: &Linkage, words: &Words<'_>) -> BalanceTurnReport {
    let [near, far] = words.between(linkage, one.joint);
    let beyond = words.names(&one.beyond);
    let to_match = words.name(one.to_match);
    let degrees = one.turn.map(|turn| turn.turn.degrees());
    let degrees_u = one.turn.map(|turn| turn.standard_uncertainty);
    let how = match (degrees.zip(degrees_u), one.clockwise) {
        (Some((degrees, u)), _) => words::turn(degrees, u),
        (None, Some(true)) => String::from("clockwise, a little at a time"),
        (None, Some(false)) => String::from("anticlockwise, a little at a time"),
        (None, None) => String::from("a little at a time; which way it goes is seen at the gauge"),
    };
    let first = beyond.first().cloned().unwrap_or_default();
    BalanceTurnReport {
        text: format!(
            "screw between {near} and {far}: {} {} ({} that way), {how}, until {first} reads as {to_match} does",
            beyond.join(", "),
            words::way(one.way),
            percent(one.way_right)
        ),
        between: [near, far],
        to_match,
        moves: beyond,
        way: one.way,
        way_right: one.way_right,
        clockwise: one.clockwise,
        degrees,
        degrees_u,
    }
}

fn set(made: &BalanceReport, ground: &Ground, linkage: &Linkage, words: &Words<'_>) -> WorkAdvice {
    let mut first = ground.sure.clone();
    first.push(String::from(
        "the engine is warm and its speed stays where it was when the readings were taken",
    ));
    let turns: Vec<&str> = made.turns.iter().map(|one| one.text.as_str()).collect();
    let within = made.spread.as_ref().map_or_else(
        || String::from(", as near as the gauge tells"),
        |one| format!(", greatest less least {}", one.limits),
    );
    WorkAdvice::Set {
        first,
        text: turns.join("; then the "),
        then_reads: format!(
            "the same on every throttle as on {}{within}; see to the idle speed again",
            words.name(linkage.reference())
        ),
    }
}
