//! The document as it is written; [`crate::build`] turns it into typed values.

use crate::json::Json;
use crate::place::Place;
use crate::problems::Part;
use crate::quantity::Q;
use crate::read::Fields;
use lashwork::job::Problem;
use lashwork::quantity::{
    AxisAngle, CrankAngle, Length, Marked, PinOffset, ShimThickness, Temperature,
    TemperatureDifference,
};
use schemars::JsonSchema;

/// The document format this version reads.
pub(crate) const FORMAT: u64 = 1;

/// A choice of words: each with the name it has in a document.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, JsonSchema)]
        pub(crate) enum $name {
            $($(#[$vdoc])* #[schemars(rename = $word)] $variant,)+
        }

        impl crate::read::Read for $name {
            fn read(
                value: &crate::json::Json,
                place: &crate::place::Place<'_>,
                problems: &mut Vec<lashwork::job::Problem>,
            ) -> Option<Self> {
                let at = crate::read::word(value, &[$($word),+], place, problems)?;
                [$(Self::$variant),+].get(at).copied()
            }
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

/// The name of a field in a document: its own, or the one given where Rust has another use for it.
macro_rules! written {
    ($field:ident) => {
        stringify!($field)
    };
    ($field:ident $word:literal) => {
        $word
    };
}

/// Declares document structs: strict, with a schema. A field may be left out if its type is an
/// `Option` or a `Part`.
macro_rules! parts {
    ($($(#[$doc:meta])* $name:ident {
        $($(#[$fdoc:meta])* $field:ident $(as $word:literal)?: $type:ty),+ $(,)?
    })+) => {$(
        #[derive(Debug, JsonSchema)]
        #[schemars(deny_unknown_fields)]
        $(#[$doc])*
        pub(crate) struct $name {
            $($(#[$fdoc])* $(#[schemars(rename = $word)])? pub(crate) $field: $type,)+
        }

        impl $name {
            /// The names of its fields.
            const FIELDS: &[&str] = &[$(written!($field $($word)?)),+];

            /// Reads every field, so that all faults are found.
            fn of_fields(
                fields: &crate::read::Fields<'_>,
                problems: &mut Vec<lashwork::job::Problem>,
            ) -> Option<Self> {
                $(let $field = fields.read(written!($field $($word)?), problems);)+
                match ($($field,)+) {
                    ($(Some($field),)+) => Some(Self { $($field),+ }),
                    _ => None,
                }
            }
        }

        impl crate::read::Read for $name {
            fn read(
                value: &crate::json::Json,
                place: &crate::place::Place<'_>,
                problems: &mut Vec<lashwork::job::Problem>,
            ) -> Option<Self> {
                let fields = crate::read::Fields::of(value, Self::FIELDS, place, problems)?;
                let read = Self::of_fields(&fields, problems);
                if fields.all_known { read } else { None }
            }
        }
    )+};
}

parts! {
    /// A whole clearance job.
    #[schemars(title = "lashwork clearance job")]
    Document {
        /// Version of the document format: 1.
        lashwork: Part<u64>,
        /// What the engine is called.
        title: Part<String>,
        /// Anything worth keeping with the job.
        #[schemars(default)]
        note: Part<String>,
        /// The engine.
        engine: Part<EngineDoc>,
        /// Its valves and how they are adjusted.
        valves: Part<ValvesDoc>,
        /// Every specification at hand.
        specifications: Part<Vec<Part<SpecificationDoc>>>,
        /// The feeler leaves at hand.
        gauge: Part<GaugeDoc>,
        /// How warm the metal is.
        #[schemars(default)]
        metal: Part<MetalDoc>,
        /// What was felt.
        readings: Part<Vec<Part<ReadingDoc>>>,
        /// The decision rule.
        #[schemars(default)]
        rule: Part<RuleDoc>,
        /// How sure one is, before the readings, that nothing is special.
        #[schemars(default)]
        diagnosis: Part<DiagnosisDoc>,
        /// The cylinder to start with.
        #[schemars(default)]
        start: Part<String>,
        /// A believed crank position and the rockers felt there.
        #[schemars(default)]
        crank_check: Part<CrankCheckDoc>,
        /// Where the crank can be stopped, and where it stands.
        #[schemars(default)]
        plan: Part<PlanDoc>,
    }
}

impl Document {
    /// Reads a parsed document; unknown fields are reported and set aside, so that they do not
    /// hide what else is wrong.
    pub(crate) fn of(value: &Json, problems: &mut Vec<Problem>) -> Option<Self> {
        let Json::Object(object) = value else {
            problems.push(Problem::new(
                "",
                "document.wrong-type",
                "the document is not an object",
                "write a JSON object with the fields of the schema",
            ));
            return None;
        };
        let fields = Fields::of_object(object, Self::FIELDS, &Place::Document, problems);
        Self::of_fields(&fields, problems)
    }
}

parts! {
    /// The engine.
    EngineDoc {
        cycle: CycleDoc,
        /// Engine number, to tell which specification applies.
        number: Option<u64>,
        cylinders: Vec<CylinderDoc>,
        /// Cylinder labels in firing order.
        firing_order: Vec<String>,
        firing: FiringDoc,
        /// From each firing to the next, in the order; with `"firing": "listed"` only.
        intervals: Option<Vec<Q<CrankAngle>>>,
        rotation: RotationDoc,
        /// `free_end`, `output_end`, or a sentence that states the convention.
        numbering: String,
        /// Diameter of the pulley that carries the marks.
        pulley_diameter: Option<Q<Length>>,
        /// Crank and rod, alike in all cylinders.
        crank: Option<CrankDoc>,
        /// Master and link rods of a radial engine.
        link_rods: Option<LinkRodsDoc>,
    }
    /// A cylinder.
    CylinderDoc {
        label: String,
        /// The side of the engine the mechanic stands at to reach its valves.
        side: Option<String>,
        /// Direction of the bore round the crank axis, in the running direction.
        bank: Option<Q<AxisAngle>>,
        /// Direction of its crankpin, on the same scale.
        crankpin: Option<Q<AxisAngle>>,
        /// Its own piston pin offset, instead of the one of `crank`.
        offset: Option<Q<PinOffset>>,
    }
    /// Running direction and the end it is seen from.
    RotationDoc { sense: SenseDoc, seen_from: EndDoc }
    /// The valves and how they are adjusted.
    ValvesDoc {
        intake_per_cylinder: u8,
        exhaust_per_cylinder: u8,
        events: Option<EventsDoc>,
        /// Kept off both ends of the base circle, in crank degrees.
        guard: Option<Q<CrankAngle>>,
        /// Valve movement over cam-side movement.
        rocker_ratio: Option<f64>,
        screw: Option<ScrewDoc>,
        shim: Option<ShimDoc>,
        /// The cam ring of each row of a radial engine.
        cam_ring: Option<CamRingDoc>,
    }
    /// Cam events in crank degrees; negative on the other side of dead centre.
    EventsDoc {
        intake_opens_btdc: Q<CrankAngle>,
        intake_closes_abdc: Q<CrankAngle>,
        exhaust_opens_bbdc: Q<CrankAngle>,
        exhaust_closes_atdc: Q<CrankAngle>,
    }
    /// An adjusting screw: its pitch or its threads per inch.
    ScrewDoc { pitch: Option<Q<Length>>, threads_per_inch: Option<f64>, seat: SeatDoc,
        /// What turning the screw in does to the gap.
        turning_in: Option<TurningInDoc>,
        /// What locking it does to the gap.
        lock_nut: Option<LockNutDoc>,
    }
    /// A specification with where it comes from.
    SpecificationDoc {
        id: String,
        document: String,
        edition: Option<String>,
        applies_to: Option<String>,
        engine_numbers: Option<RangeDoc>,
        condition: ConditionDoc,
        /// Temperature at which the limits hold; 20 C is assumed, and listed, for a cold one.
        reference: Option<Q<Temperature>>,
        measured_at: Option<String>,
        intake: LimitsDoc,
        exhaust: LimitsDoc,
    }
    /// Engine numbers, both ends included.
    RangeDoc { from: u64, to: u64 }
    /// What a valve is set to, the band it may be set in, and the band in which it is left alone.
    LimitsDoc { set_to: Q<Marked>, set: BandDoc, leave_alone: Option<BandDoc> }
    /// A band; one end may be open.
    BandDoc { from: Option<Q<Marked>>, to: Option<Q<Marked>> }
    /// The feeler leaves.
    GaugeDoc {
        leaves: Vec<Q<Marked>>,
        /// Plus or minus on every leaf.
        tolerance: Option<Q<Marked>>,
        /// How leaf tolerances add in a stack.
        stack_tolerance: CombinationDoc,
    }
    /// How warm the metal is and how lash follows: `parts` with `temperatures`, or `measured` with
    /// `temperature`, or `temperature` alone; or both of the first two, with `use`.
    MetalDoc {
        temperature: Option<WarmthDoc>,
        parts: Option<Vec<LinkDoc>>,
        temperatures: Option<Vec<NamedWarmthDoc>>,
        /// Lash of one valve at several temperatures.
        measured: Option<Vec<MeasuredDoc>>,
        /// Which of `parts` and `measured` corrects the readings, where both are given.
        uses as "use": Option<UseDoc>,
        cooling: Option<CoolingDoc>,
        curve: Option<CurveDoc>,
    }
    /// How warm the metal is, with one rule at most; what a quick check takes.
    OneRuleDoc {
        temperature: Option<WarmthDoc>,
        parts: Option<Vec<LinkDoc>>,
        temperatures: Option<Vec<NamedWarmthDoc>>,
        measured: Option<Vec<MeasuredDoc>>,
    }
    /// A temperature with its standard uncertainty; one is assumed, and listed, if it is not stated.
    WarmthDoc {
        is: Q<Temperature>,
        uncertainty: Option<Q<TemperatureDifference>>,
    }
    /// A temperature with a name that parts follow, and its uncertainty as above.
    NamedWarmthDoc {
        name: String,
        is: Q<Temperature>,
        uncertainty: Option<Q<TemperatureDifference>>,
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
        follows: Option<String>,
        between: Option<BetweenDoc>,
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
        number: Option<u8>,
        goes: Option<Vec<Q<Marked>>>,
        refuses: Option<Vec<Q<Marked>>>,
        drags: Option<Vec<Q<Marked>>>,
        /// Standard spread of the feel of a light drag.
        spread: Option<Q<Marked>>,
        nothing_goes: Option<bool>,
        everything_goes: Option<bool>,
        hollow: Option<HollowDoc>,
        /// The shim fitted there.
        shim: Option<Q<ShimThickness>>,
        /// Standard uncertainty of its thickness.
        shim_uncertainty: Option<Q<Marked>>,
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
pub(crate) use shims::{OneShimDoc, RoundingDoc, ShimDoc, StockDoc, SwapDoc};
mod warm;

pub(crate) use plan::{MarkDoc, PlacesDoc, PlanDoc};
pub(crate) use warm::{CoolingDoc, CurveDoc, LockNutDoc, UseDoc};
mod diagnosis;

pub(crate) use diagnosis::DiagnosisDoc;
