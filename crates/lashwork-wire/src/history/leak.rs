//! What a past service read of leaks, and the tester it read them with.

use crate::json::Json;
use crate::place::Place;
use crate::problem::Problem;
use crate::quantity::Q;
use crate::read::Read;
use lashwork::job::history::PastLeakTester;
use lashwork::quantity::{Area, GaugePressure, Length};

parts! {
    /// The tester that a service read leaks with: what it is called, its orifice, or both.
    PastLeakTesterDoc {
        /// What it is called.
        name: Option<String>,
        /// Diameter of the orifice between its gauges.
        orifice: Option<Q<Length>>,
    }
}

/// In typed values.
pub(super) fn tester(
    doc: PastLeakTesterDoc,
    at: &str,
    problems: &mut Vec<Problem>,
) -> Option<PastLeakTester> {
    let name = doc.name.filter(|name| !name.trim().is_empty());
    let orifice = doc.orifice.map(|it| it.0);
    if name.is_none() && orifice.is_none() {
        problems.push(Problem::new(
            at,
            "history.leak-tester",
            "the tester has neither a name nor an orifice, so it cannot be told from another",
            "give \"orifice\", \"name\" or both, or leave the tester out",
        ));
        return None;
    }
    Some(PastLeakTester { name, orifice })
}

/// The area of a leak; what a tester shows, a per cent or a pressure, is refused: it is of that tester alone.
#[derive(Clone, Copy, Debug)]
pub(crate) struct LeakShown(pub(crate) Area);

impl Read for LeakShown {
    fn read(value: &Json, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let is_shown = |text: &str| text.contains('%') || text.parse::<GaugePressure>().is_ok();
        let is_shown = match value {
            Json::Text(text) => is_shown(text),
            Json::Object(object) => matches!(object.fields(), [(unit, _)] if unit == "percent"
                || GaugePressure::from_number(1.0, unit).is_ok()),
            _ => false,
        };
        if is_shown {
            problems.push(Problem::new(
                place.pointer(),
                "history.leak-as-shown",
                "this is what a tester shows and no area: it holds for that tester's orifice and supply alone, and \
                 what two testers show may never stand side by side",
                "give the area that the leak section of the condition reckons of it with that tester's orifice, as \
                 in \"0.8 mm2\", and name the tester in \"leak_tester\"",
            ));
            return None;
        }
        Q::<Area>::read(value, place, problems).map(|area| Self(area.0))
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for LeakShown {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        Q::<Area>::schema_name()
    }
    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        Q::<Area>::json_schema(generator)
    }
}
