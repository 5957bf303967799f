//! The contacts in a document.

use crate::band::band;
use crate::json::Json;
use crate::place::Place;
use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::read::Read;
use crate::word::W;
use lashwork::feeler;
use lashwork::ignition::breaker::{Contacts as Look, DwellChange, DwellShown, Flanks, Lobes};
use lashwork::job::ignition::{Contacts, ContactsField, DwellRead, PrintedPair};
use lashwork::quantity::{ContactGap, Marked};

named!(Look as "ContactsLookDoc" {
    /// New.
    New = "new",
    /// Used, but flat and parallel.
    WornFlat = "worn_flat",
    /// A crater in one face and a peak on the other.
    Pitted = "pitted",
});

parts! {
    /// The contacts: what was read of them, and what the book asks for.
    ContactsDoc {
        /// What their faces look like.
        look: Option<W<Look>>,
        /// What the leaves said on the highest point of a lobe, as in "0.35 mm goes, 0.40 mm does not".
        gap: Option<Felt>,
        /// The book's gap; one end may be open.
        gap_limits: Option<GapLimitsDoc>,
        /// Whether the book prints a gap outside 0.1 to 1.0 mm.
        gap_unusual: Option<bool>,
        /// What the meter showed at idle.
        dwell: Option<DwellReadDoc>,
        /// The book's dwell.
        dwell_limits: Option<DwellLimitsDoc>,
        /// What the meter showed at about 1500 a minute, the vacuum disconnected.
        dwell_faster: Option<DwellReadDoc>,
        /// A gap and the dwell that goes with it, as printed; if not stated, the middles of the limits.
        pair: Option<PairDoc>,
        /// Another such pair, which tests the first.
        second_pair: Option<PairDoc>,
        /// The share of a change of dwell that falls on the flank that opens the contacts, 0 to 1; a half,
        /// and listed, if not stated.
        opening_share: Option<f64>,
    }
    /// The book's gap.
    GapLimitsDoc { from: Option<Q<Marked>>, to: Option<Q<Marked>> }
    /// The book's dwell, in degrees or per cent.
    DwellLimitsDoc { from: Q<DwellShown>, to: Q<DwellShown> }
    /// What a dwell meter showed.
    DwellReadDoc {
        /// In degrees or per cent.
        shows: Q<DwellShown>,
        /// For how many cylinders it is switched; for those of the engine if not stated.
        scale: Option<u8>,
        /// Standard uncertainty of the dwell; 1 degree is assumed, and listed, if not stated.
        uncertainty: Option<Q<DwellChange>>,
    }
    /// A gap and the dwell that goes with it.
    PairDoc { gap: Q<ContactGap>, dwell: Q<DwellShown> }
}

/// A reading of leaves as text.
#[derive(Debug)]
pub(crate) struct Felt(pub(super) feeler::Reading);

impl Read for Felt {
    fn read(json: &Json, place: &Place<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let text = String::read(json, place, problems)?;
        value(problems, place.pointer(), text.parse()).map(Self)
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for Felt {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "LeafReading".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({
            "description": "Which leaf goes and which does not, or which one drags.",
            "examples": ["0.35 mm goes, 0.40 mm does not", "0.40 mm drags"],
            "type": "string"
        })
    }
}

/// The contacts in typed values.
pub(super) fn contacts(doc: ContactsDoc, problems: &mut Vec<Problem>) -> Option<Contacts> {
    let faults = problems.len();
    let mut made = Contacts::default();
    made.look = doc.look.map(|word| word.0);
    made.gap = doc.gap.map(|felt| felt.0);
    made.gap_limits = doc.gap_limits.and_then(|doc| {
        let place = format!("/ignition{}", pointer(ContactsField::GapLimits));
        band(doc.from, doc.to, place, problems)
    });
    made.gap_unusual = doc.gap_unusual.unwrap_or(false);
    made.dwell = doc
        .dwell
        .and_then(|doc| dwell_read(&doc, ContactsField::Dwell, problems));
    made.dwell_limits = doc.dwell_limits.map(|doc| (doc.from.0, doc.to.0));
    made.dwell_faster = doc
        .dwell_faster
        .and_then(|doc| dwell_read(&doc, ContactsField::DwellFaster, problems));
    let pair = |doc: PairDoc| PrintedPair {
        gap: doc.gap.0,
        dwell: doc.dwell.0,
    };
    made.pair = doc.pair.map(pair);
    made.second_pair = doc.second_pair.map(pair);
    made.flanks = doc.opening_share.map(Flanks::OpeningShare);
    (problems.len() == faults).then_some(made)
}

fn dwell_read(
    doc: &DwellReadDoc,
    field: ContactsField,
    problems: &mut Vec<Problem>,
) -> Option<DwellRead> {
    let mut read = DwellRead::of(doc.shows.0);
    if let Some(cylinders) = doc.scale {
        let place = format!("/ignition{}/scale", pointer(field));
        read.scale = Some(value(problems, place, Lobes::new(cylinders))?);
    }
    read.uncertainty = doc.uncertainty.map(|u| u.0);
    Some(read)
}

/// Where a field stands in the ignition section.
pub(super) fn pointer(field: ContactsField) -> String {
    use ContactsField as F;
    let rest = match field {
        F::Gap => "/gap",
        F::GapLimits => "/gap_limits",
        F::Dwell => "/dwell",
        F::DwellFaster => "/dwell_faster",
        F::DwellLimits => "/dwell_limits",
        F::Pair => "/pair",
        F::SecondPair => "/second_pair",
        _ => "",
    };
    format!("/contacts{rest}")
}
