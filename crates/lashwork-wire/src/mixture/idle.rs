//! The idle in a document.

use crate::band::band;
use crate::problem::{Problem, is_short, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::job::mixture::{Idle, IdleField, IdleRule, Rise};
use lashwork::mixture::idle::{IdleReading, MixtureScrew, Side};
use lashwork::quantity::{CrankSpeed, TurnsOut};
use lashwork::tolerance::{Measurand, Uncertainty};

named!(MixtureScrew as "MixtureScrewDoc" {
    /// It lets in fuel, or mixture: out is richer.
    Fuel = "fuel",
    /// It lets in air: out is leaner.
    Air = "air",
});

named!(Side as "MixtureSideDoc" {
    /// Less fuel.
    Lean = "lean",
    /// More fuel.
    Rich = "rich",
});

/// The place that a book names without an amount.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum SetTo {
    HighestSpeed,
}

named!(SetTo as "SetToDoc" {
    /// Where the engine runs fastest.
    HighestSpeed = "highest_speed",
});

parts! {
    /// Idle speed and mixture: what the book asks for, and what was read.
    IdleDoc {
        /// What the mixture screw does.
        screw: W<MixtureScrew>,
        /// The book's idle speed; one end may be open.
        wanted: IdleSpeedDoc,
        /// Where the book wants the screw, if it is where the engine runs fastest; so too, and listed, if neither
        /// this nor `beside` is stated.
        set_to: Option<W<SetTo>>,
        /// Where the book wants the screw, if it is beside the highest speed; not together with `set_to`.
        beside: Option<BesideDoc>,
        /// Speed against the place of the screw, the throttle stop untouched since.
        readings: Option<Vec<IdleReadDoc>>,
        /// Standard uncertainty of each speed; seen from the curve if not stated.
        uncertainty: Option<Q<CrankSpeed>>,
        /// Where the screw stands now, and how fast the engine runs.
        now: Option<IdleReadDoc>,
        /// How far the speed rises on leaning, to be judged by published rules that do not agree; not asked
        /// if not stated.
        #[cfg_attr(feature = "schema", schemars(default))]
        rise: Option<RiseDoc>,
    }
    /// How far the speed rises on leaning out from where the screw stands.
    RiseDoc {
        /// As it was read; from the curve and where the screw stands now, if not stated.
        reads: Option<Q<CrankSpeed>>,
        /// Its standard uncertainty; that of two speeds if not stated.
        uncertainty: Option<Q<CrankSpeed>>,
    }
    /// The book's idle speed.
    IdleSpeedDoc { from: Option<Q<CrankSpeed>>, to: Option<Q<CrankSpeed>> }
    /// A place beside the highest speed.
    BesideDoc {
        side: W<Side>,
        /// How far under the highest speed.
        drop: Q<CrankSpeed>,
    }
    /// The speed at a place of the screw.
    IdleReadDoc {
        /// How far the screw is out.
        out: Q<TurnsOut>,
        /// How fast the engine ran.
        speed: Q<CrankSpeed>,
    }
}

/// The idle in typed values.
pub(super) fn idle(doc: IdleDoc, problems: &mut Vec<Problem>) -> Option<Idle> {
    let faults = problems.len();
    let wanted = band(
        doc.wanted.from,
        doc.wanted.to,
        "/mixture/idle/wanted",
        problems,
    );
    let readings = doc.readings.unwrap_or_default();
    is_short(&readings, "/mixture/idle/readings", problems);
    let scatter = doc.uncertainty.and_then(|u| {
        let made = Uncertainty::from_number(u.0.number());
        value(problems, "/mixture/idle/uncertainty", made)
    });
    let rise = doc.rise.map(|doc| Rise {
        read: doc.reads.map(|read| read.0),
        standard_uncertainty: doc.uncertainty.and_then(|u| {
            let made = Uncertainty::from_number(u.0.number());
            value(problems, "/mixture/idle/rise/uncertainty", made)
        }),
    });
    if doc.set_to.is_some() && doc.beside.is_some() {
        problems.push(Problem::new(
            "/mixture/idle/set_to",
            "mixture.two-idle-places",
            "the screw cannot stand at the highest speed and beside it",
            "keep \"set_to\" or \"beside\", whichever the book says",
        ));
    }
    if problems.len() > faults {
        return None;
    }
    let mut made = Idle::of(doc.screw.0, wanted?);
    made.rule = doc
        .beside
        .map(|doc| IdleRule::Beside(doc.side.0, doc.drop.0))
        .or_else(|| {
            let set_to = doc.set_to?;
            Some(match set_to.0 {
                SetTo::HighestSpeed => IdleRule::Highest,
            })
        });
    let read = |doc: &IdleReadDoc| IdleReading {
        place: doc.out.0,
        speed: doc.speed.0,
    };
    made.readings = readings.iter().map(read).collect();
    made.scatter = scatter;
    made.now = doc.now.as_ref().map(read);
    made.rise = rise;
    Some(made)
}

/// Where a field stands in the mixture section.
pub(super) fn pointer(field: IdleField) -> String {
    use IdleField as F;
    let rest = match field {
        F::Readings => "/readings".into(),
        F::Reading(i) => format!("/readings/{i}"),
        F::Rule => "/beside".into(),
        F::Rise => "/rise".into(),
        _ => String::new(),
    };
    format!("/idle{rest}")
}
