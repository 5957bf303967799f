//! What the model takes, in words.

use super::Told;
use crate::diagnosis::{
    APART_FROM, Diagnosis, ODD_BESIDE_FROM, ODD_FROM, ReadingFault, UNNOTICED, WIDEST, Warming,
    limits_of_report, warmth_shift,
};
use crate::quantity::shown::reckoned;
use crate::thermal::WARM_UP;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// What the model takes, one text for each code's last word.
pub(super) fn assumptions(
    told: &Told<'_>,
    found: &Diagnosis,
    stated: bool,
) -> Vec<(&'static str, String)> {
    let mut all = Vec::new();
    let shown = told.asked.shown;
    let said = |mm| reckoned(mm, shown.inches);
    let (intake, exhaust) = (&found.model.intake, &found.model.exhaust);
    let believed = told
        .books
        .first()
        .map_or("", |b| b.specification.id.as_str());
    let others = match told.books.len() {
        0 | 1 => "",
        _ => "; around the values of another specification just as widely",
    };
    all.push((
        "diagnosis.model",
        format!(
            "readings taken together: by {believed}, intake valves are assumed to lie about {} \
             with a spread of {}, exhaust about {} with {}, or 1.5 to 3.4 times that \
             as the readings show (here {:.1} times) but no more than {:.0} % of the set value, {} % of \
             them twice as wide, each kind with a common drift of {}{others}; a valve {ODD_FROM} \
             spreads or more from the middle of its kind is named as odd, and beside another from \
             {ODD_BESIDE_FROM} on if its reading lies outside the band in which it may be left; any other \
             whose reading does, and that is odd with a probability of {:.0} % or more, is to be measured \
             once more; a kind whose middle is {ODD_FROM} spreads or more from its set value is not taken \
             as ordinary",
            said(intake.set_to_mm),
            said(intake.spread_mm),
            said(exhaust.set_to_mm),
            said(exhaust.spread_mm),
            found.spread_times,
            WIDEST * 100.0,
            found.model.worn_share * 100.0,
            said(found.model.drift_mm),
            APART_FROM * 100.0
        ),
    ));
    if !stated {
        let prior = told.evidence.prior.value();
        let (at_most, _) = limits_of_report();
        all.push((
            "diagnosis.prior",
            format!(
                "probability of a systematic fault not stated: {prior} taken; causes are reported \
                 when the probability of no systematic fault falls to {at_most} or less"
            ),
        ));
    }
    if !found.not_weighed.contains(&ReadingFault::OneTurnOut) {
        all.push((
            "diagnosis.stops",
            String::from(
                "for a crank 360 degrees out, valves are assumed to have been read at their cylinder's \
                 firing TDC or by the two-position table",
            ),
        ));
    }
    let (mean, spread) = warmth_shift(told.evidence.warming);
    all.push((
        "diagnosis.warmth",
        match told.evidence.warming {
            Warming::Known(_) => format!(
                "an engine {} warmer than noticed would change the lash by {}, spread {}",
                UNNOTICED.show(shown.temperature),
                shown.signed(mean),
                said(spread)
            ),
            Warming::Unknown(_) => {
                format!(
                    "an engine {} warmer than noticed is assumed to change all lashes by {}, \
                     at most {}, either way",
                    WARM_UP.show(shown.temperature),
                    said(spread),
                    said(2.0 * spread)
                )
            }
        },
    ));
    all
}
