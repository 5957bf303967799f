//! What to do about coil, condenser and plugs.

use super::answer::ElectricsReport;
use crate::job::work::WorkAdvice;
use crate::quantity::shown::by_hand;
use crate::tolerance::Verdict;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Below this probability of enough voltage a cause is looked for. Common practice, no source.
pub(super) const ENOUGH: f64 = 0.95;

/// The advice, what hurts most first.
pub(super) fn advise(found: &ElectricsReport, inches: bool) -> Vec<WorkAdvice> {
    let mut all = Vec::new();
    let cause = |text: String, causes: &[&str]| WorkAdvice::FindCause {
        text,
        causes: causes.iter().map(ToString::to_string).collect(),
    };
    for one in &found.resistors {
        let Some(judged) = &one.judged else { continue };
        let text = format!("{}: {}", one.name, judged.verdict_text);
        match judged.verdict {
            Verdict::Below => all.push(cause(
                text,
                &[
                    "turns that touch inside: replace it",
                    "the meter's own leads",
                ],
            )),
            Verdict::Above => all.push(cause(
                text,
                &[
                    "its connections: clean them and measure again",
                    "how warm it was",
                    "a broken conductor: replace it",
                ],
            )),
            _ => {}
        }
    }
    let condenser = found.condenser.as_ref();
    if let Some(judged) = condenser.and_then(|one| one.judged.as_ref())
        && judged.verdict != Verdict::InBand
    {
        let text = format!("condenser: {}", judged.verdict_text);
        all.push(cause(text, &["the condenser: replace it by one in range"]));
    }
    let Some(plug) = &found.plug else { return all };
    if let (Some(gap), Some(set_to)) = (&plug.gap, plug.set_to)
        && gap.verdict != Verdict::InBand
    {
        all.push(WorkAdvice::Set {
            first: Vec::from([String::from(
                "the electrodes are clean and square; worn round, replace the plug",
            )]),
            text: format!(
                "set the plug gap to {} by the side electrode",
                by_hand(set_to.mm(), inches)
            ),
            then_reads: by_hand(set_to.mm(), inches),
        });
    }
    if plug.enough.is_some_and(|enough| enough < ENOUGH) {
        all.push(cause(
            String::from("the voltage may not suffice for this gap at this pressure"),
            &[
                "a plug gap that has grown",
                "leads, cap and rotor: leakage and open ends",
                "supply and dwell: the coil is not full",
                "the coil and its condenser",
            ],
        ));
    }
    all
}
