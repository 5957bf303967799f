//! The document as it is written; [`crate::build`] turns it into typed values.

use crate::problems::{Part, Problems, unknown};
use crate::quantity::Q;
use deserr::Deserr;
use lashwork::job::Problem;
use lashwork::quantity::{
    AxisAngle, CrankAngle, Length, Marked, PinOffset, ShimThickness, Temperature,
    TemperatureDifference,
};
use schemars::JsonSchema;
use serde_json::Value;

/// The document format this version reads.
pub(crate) const FORMAT: u64 = 1;

/// A whole clearance job.
#[derive(Debug, Deserr, JsonSchema)]
#[deserr(deny_unknown_fields, error = Problems)]
#[schemars(deny_unknown_fields, title = "lashwork clearance job")]
pub(crate) struct Document {
    /// Version of the document format: 1.
    #[deserr(default)]
    pub(crate) lashwork: Part<u64>,
    /// What the engine is called.
    #[deserr(default)]
    pub(crate) title: Part<String>,
    /// Anything worth keeping with the job.
    #[deserr(default)]
    #[schemars(default)]
    pub(crate) note: Part<String>,
    /// The engine.
    #[deserr(default)]
    pub(crate) engine: Part<EngineDoc>,
    /// Its valves and how they are adjusted.
    #[deserr(default)]
    pub(crate) valves: Part<ValvesDoc>,
    /// Every specification at hand.
    #[deserr(default)]
    pub(crate) specifications: Part<Vec<Part<SpecificationDoc>>>,
    /// The feeler leaves at hand.
    #[deserr(default)]
    pub(crate) gauge: Part<GaugeDoc>,
    /// How warm the metal is.
    #[deserr(default)]
    #[schemars(default)]
    pub(crate) metal: Part<MetalDoc>,
    /// What was felt.
    #[deserr(default)]
    pub(crate) readings: Part<Vec<Part<ReadingDoc>>>,
    /// The decision rule.
    #[deserr(default)]
    #[schemars(default)]
    pub(crate) rule: Part<RuleDoc>,
    /// How sure one is, before the readings, that nothing is special.
    #[deserr(default)]
    #[schemars(default)]
    pub(crate) diagnosis: Part<DiagnosisDoc>,
    /// The cylinder to start with.
    #[deserr(default)]
    #[schemars(default)]
    pub(crate) start: Part<String>,
    /// A believed crank position and the rockers felt there.
    #[deserr(default)]
    #[schemars(default)]
    pub(crate) crank_check: Part<CrankCheckDoc>,
    /// Where the crank can be stopped, and where it stands.
    #[deserr(default)]
    #[schemars(default)]
    pub(crate) plan: Part<PlanDoc>,
}

/// The fields of a document, in the order of [`Document`].
const FIELDS: [&str; 14] = [
    "lashwork",
    "title",
    "note",
    "engine",
    "valves",
    "specifications",
    "gauge",
    "metal",
    "readings",
    "rule",
    "diagnosis",
    "start",
    "crank_check",
    "plan",
];

impl Document {
    /// Reads a parsed document; unknown fields are reported and set aside, so that they do not
    /// hide what else is wrong.
    pub(crate) fn read(value: Value, problems: &mut Vec<Problem>) -> Option<Self> {
        let Value::Object(mut map) = value else {
            problems.push(Problem::new(
                "",
                "document.wrong-type",
                "the document is not an object",
                "write a JSON object with the fields of the schema",
            ));
            return None;
        };
        map.retain(|key, _| {
            let known = FIELDS.contains(&key.as_str());
            if !known {
                problems.push(unknown(
                    crate::json::step("", key),
                    "document.unknown-field",
                    &format!("there is no field {key:?} here"),
                    key,
                    &FIELDS,
                ));
            }
            known
        });
        match deserr::deserialize::<Self, _, Problems>(Value::Object(map)) {
            Ok(document) => Some(document),
            Err(mut faults) => {
                problems.append(&mut faults.0);
                None
            }
        }
    }
}

/// A choice of words: each with the name it has in a document.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Deserr, JsonSchema)]
        pub(crate) enum $name {
            $($(#[$vdoc])* #[deserr(rename = $word)] #[schemars(rename = $word)] $variant,)+
        }
    };
}

words!(CycleDoc { TwoStroke = "two_stroke", FourStroke = "four_stroke" });
words!(FiringDoc {
    /// Equal intervals.
    Even = "even",
    /// The intervals in `intervals`.
    Listed = "listed",
    /// From bank and crankpin angles.
    FromGeometry = "from_geometry",
});
words!(SenseDoc { Clockwise = "clockwise", Anticlockwise = "anticlockwise" });
words!(EndDoc { Free = "free_end", Output = "output_end" });
words!(KindDoc { Intake = "intake", Exhaust = "exhaust" });
words!(ConditionDoc { Cold = "cold", Hot = "hot" });
words!(CombinationDoc { WorstCase = "worst_case", RootSumSquare = "root_sum_square" });
words!(SideDoc { Cam = "cam", Valve = "valve" });
words!(EffectDoc { Opens = "opens", Closes = "closes" });
words!(SeatDoc { ValveSide = "valve_side", CamSide = "cam_side" });
words!(TurningInDoc {
    /// As on most rockers.
    Closes = "closes_gap",
    /// As on a tappet that lengthens when its screw is turned out.
    Opens = "opens_gap",
});
words!(RuleDoc {
    /// 95 % sure not to be tight; loose by simple acceptance.
    GuardedTight = "guarded_tight",
    /// JCGM 106 simple acceptance on both sides.
    Simple = "simple",
    /// ISO 14253-1: 95 % conformance probability.
    Iso14253 = "iso_14253_1",
});

/// Declares document structs: strict, with a schema.
macro_rules! parts {
    ($($(#[$doc:meta])* $name:ident { $($(#[$fdoc:meta])* $field:ident: $type:ty),+ $(,)? })+) => {$(
        $(#[$doc])*
        #[derive(Debug, Deserr, JsonSchema)]
        #[deserr(deny_unknown_fields, error = Problems)]
        #[schemars(deny_unknown_fields)]
        pub(crate) struct $name { $($(#[$fdoc])* pub(crate) $field: $type,)+ }
    )+};
}

parts! {
    /// The engine.
    EngineDoc {
        cycle: CycleDoc,
        /// Engine number, to tell which specification applies.
        #[deserr(default)] number: Option<u64>,
        cylinders: Vec<CylinderDoc>,
        /// Cylinder labels in firing order.
        firing_order: Vec<String>,
        firing: FiringDoc,
        /// From each firing to the next, in the order; with `"firing": "listed"` only.
        #[deserr(default)] intervals: Option<Vec<Q<CrankAngle>>>,
        rotation: RotationDoc,
        /// `free_end`, `output_end`, or a sentence that states the convention.
        numbering: String,
        /// Diameter of the pulley that carries the marks.
        #[deserr(default)] pulley_diameter: Option<Q<Length>>,
        /// Crank and rod, alike in all cylinders.
        #[deserr(default)] crank: Option<CrankDoc>,
        /// Master and link rods of a radial engine.
        #[deserr(default)] link_rods: Option<LinkRodsDoc>,
    }
    /// A cylinder.
    CylinderDoc {
        label: String,
        /// The side of the engine the mechanic stands at to reach its valves.
        #[deserr(default)] side: Option<String>,
        /// Direction of the bore round the crank axis, in the running direction.
        #[deserr(default)] bank: Option<Q<AxisAngle>>,
        /// Direction of its crankpin, on the same scale.
        #[deserr(default)] crankpin: Option<Q<AxisAngle>>,
        /// Its own piston pin offset, instead of the one of `crank`.
        #[deserr(default)] offset: Option<Q<PinOffset>>,
    }
    /// Running direction and the end it is seen from.
    RotationDoc { sense: SenseDoc, seen_from: EndDoc }
    /// The valves and how they are adjusted.
    ValvesDoc {
        intake_per_cylinder: u8,
        exhaust_per_cylinder: u8,
        #[deserr(default)] events: Option<EventsDoc>,
        /// Kept off both ends of the base circle, in crank degrees.
        #[deserr(default)] guard: Option<Q<CrankAngle>>,
        /// Valve movement over cam-side movement.
        #[deserr(default)] rocker_ratio: Option<f64>,
        #[deserr(default)] screw: Option<ScrewDoc>,
        #[deserr(default)] shim: Option<ShimDoc>,
        /// The cam ring of each row of a radial engine.
        #[deserr(default)] cam_ring: Option<CamRingDoc>,
    }
    /// Cam events in crank degrees; negative on the other side of dead centre.
    EventsDoc {
        intake_opens_btdc: Q<CrankAngle>,
        intake_closes_abdc: Q<CrankAngle>,
        exhaust_opens_bbdc: Q<CrankAngle>,
        exhaust_closes_atdc: Q<CrankAngle>,
    }
    /// An adjusting screw: its pitch or its threads per inch.
    ScrewDoc { #[deserr(default)] pitch: Option<Q<Length>>, #[deserr(default)] threads_per_inch: Option<f64>, seat: SeatDoc,
        /// What turning the screw in does to the gap.
        #[deserr(default)] turning_in: Option<TurningInDoc>,
        /// What locking it does to the gap.
        #[deserr(default)] lock_nut: Option<LockNutDoc>,
    }
    /// A specification with where it comes from.
    SpecificationDoc {
        id: String,
        document: String,
        #[deserr(default)] edition: Option<String>,
        #[deserr(default)] applies_to: Option<String>,
        #[deserr(default)] engine_numbers: Option<RangeDoc>,
        condition: ConditionDoc,
        /// Temperature at which the limits hold; 20 C is assumed, and listed, for a cold one.
        #[deserr(default)] reference: Option<Q<Temperature>>,
        #[deserr(default)] measured_at: Option<String>,
        intake: LimitsDoc,
        exhaust: LimitsDoc,
    }
    /// Engine numbers, both ends included.
    RangeDoc { from: u64, to: u64 }
    /// What a valve is set to, the band it may be set in, and the band in which it is left alone.
    LimitsDoc { set_to: Q<Marked>, set: BandDoc, #[deserr(default)] leave_alone: Option<BandDoc> }
    /// A band; one end may be open.
    BandDoc { #[deserr(default)] from: Option<Q<Marked>>, #[deserr(default)] to: Option<Q<Marked>> }
    /// The feeler leaves.
    GaugeDoc {
        leaves: Vec<Q<Marked>>,
        /// Plus or minus on every leaf.
        #[deserr(default)] tolerance: Option<Q<Marked>>,
        /// How leaf tolerances add in a stack.
        stack_tolerance: CombinationDoc,
    }
    /// How warm the metal is and how lash follows: `parts` with `temperatures`, or `measured` with
    /// `temperature`, or `temperature` alone; or both of the first two, with `use`.
    MetalDoc {
        #[deserr(default)] temperature: Option<WarmthDoc>,
        #[deserr(default)] parts: Option<Vec<LinkDoc>>,
        #[deserr(default)] temperatures: Option<Vec<NamedWarmthDoc>>,
        /// Lash of one valve at several temperatures.
        #[deserr(default)] measured: Option<Vec<MeasuredDoc>>,
        /// Which of `parts` and `measured` corrects the readings, where both are given.
        #[deserr(default, rename = "use")] #[schemars(rename = "use")] uses: Option<UseDoc>,
        #[deserr(default)] cooling: Option<CoolingDoc>,
        #[deserr(default)] curve: Option<CurveDoc>,
    }
    /// A temperature with its standard uncertainty; one is assumed, and listed, if it is not stated.
    WarmthDoc {
        is: Q<Temperature>,
        #[deserr(default)] uncertainty: Option<Q<TemperatureDifference>>,
    }
    /// A temperature with a name that parts follow, and its uncertainty as above.
    NamedWarmthDoc {
        name: String,
        is: Q<Temperature>,
        #[deserr(default)] uncertainty: Option<Q<TemperatureDifference>>,
    }
    /// A part between cam and valve.
    LinkDoc {
        part: String,
        /// A name of the material table.
        material: String,
        length: Q<Length>,
        length_uncertainty: Q<Length>,
        side: SideDoc,
        effect: EffectDoc,
        /// The name of its temperature.
        #[deserr(default)] follows: Option<String>,
        #[deserr(default)] between: Option<BetweenDoc>,
    }
    /// A temperature between two: cold + fraction of (hot - cold).
    BetweenDoc { cold: String, hot: String, fraction: f64, fraction_uncertainty: f64 }
    /// Lash at a temperature.
    MeasuredDoc { at: Q<Temperature>, lash: Q<Marked>, uncertainty: Q<Marked> }
    /// What was felt at one valve: `goes` and/or `refuses`, or `drags` with `spread`, or
    /// `nothing_goes`, or `everything_goes`. Several leaves are a stack.
    ReadingDoc {
        cylinder: String,
        valve: KindDoc,
        /// Which of its kind in the cylinder, from 1; needed where there are several.
        #[deserr(default)] number: Option<u8>,
        #[deserr(default)] goes: Option<Vec<Q<Marked>>>,
        #[deserr(default)] refuses: Option<Vec<Q<Marked>>>,
        #[deserr(default)] drags: Option<Vec<Q<Marked>>>,
        /// Standard spread of the feel of a light drag.
        #[deserr(default)] spread: Option<Q<Marked>>,
        #[deserr(default)] nothing_goes: Option<bool>,
        #[deserr(default)] everything_goes: Option<bool>,
        #[deserr(default)] hollow: Option<HollowDoc>,
        /// The shim fitted there.
        #[deserr(default)] shim: Option<Q<ShimThickness>>,
        /// Standard uncertainty of its thickness.
        #[deserr(default)] shim_uncertainty: Option<Q<Marked>>,
    }
    /// A hollow worn into the pad, which a flat leaf bridges.
    HollowDoc { depth: Q<Marked>, uncertainty: Q<Marked> }
}

mod crank_check;
mod crank_train;
mod plan;

pub(crate) use crank_check::{BelievedDoc, CallDoc, CrankCheckDoc, RockerDoc};
pub(crate) use crank_train::{CamRingDoc, CrankDoc, KnuckleDoc, LinkRodsDoc, RingSenseDoc};
mod shims;
pub(crate) use shims::{RoundingDoc, ShimDoc, StockDoc, SwapDoc};
mod warm;

pub(crate) use plan::{MarkDoc, PlacesDoc, PlanDoc};
pub(crate) use warm::{CoolingDoc, CurveDoc, LockNutDoc, UseDoc};
mod diagnosis;

pub(crate) use diagnosis::DiagnosisDoc;
