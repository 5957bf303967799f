//! What may be the matter, in a document.

use crate::problem::{Problem, is_short, value};
use crate::section::Section;
use crate::word::W;
use lashwork::causes::PlugSign;
use lashwork::engine::CylinderLabel;
use lashwork::job::causes::{Causes, CausesPlace, PlugSeen};

named!(PlugSign as "PlugSignDoc" {
    /// Brown or grey and dry.
    Normal = "normal",
    /// Black and dry.
    Sooty = "sooty",
    /// White or blistered.
    White = "white",
    /// Oily.
    Oily = "oily",
    /// Wet with fuel or water.
    Wet = "wet",
});

parts! {
    /// What may be the matter, by all that the sections found; empty to ask for it.
    CausesSectionDoc {
        /// Plugs as seen.
        plugs: Option<Vec<PlugSeenDoc>>,
    }
    /// A plug as seen.
    PlugSeenDoc {
        cylinder: String,
        /// How it looks.
        seen: W<PlugSign>,
    }
}

const AT: &str = "/causes";

/// The section in typed values.
pub(crate) fn causes(
    Section(doc): Section<CausesSectionDoc>,
    problems: &mut Vec<Problem>,
) -> Option<Causes> {
    let plugs = doc.plugs.unwrap_or_default();
    if !is_short(&plugs, &format!("{AT}/plugs"), problems) {
        return None;
    }
    let mut made = Causes::default();
    for (i, plug) in plugs.iter().enumerate() {
        let place = format!("{AT}/plugs/{i}/cylinder");
        made.plugs.push(PlugSeen {
            cylinder: value(problems, place, CylinderLabel::new(&plug.cylinder))?,
            seen: plug.seen.0,
        });
    }
    Some(made)
}

/// Where a place of the section stands in it.
pub(crate) fn pointer(place: CausesPlace) -> String {
    match place {
        CausesPlace::Plug(i) => format!("/plugs/{i}/cylinder"),
        _ => String::new(),
    }
}
