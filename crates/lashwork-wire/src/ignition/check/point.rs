//! One ignition point, given by one tool and said by every other.

use super::super::point::DialDoc;
use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::engine::{Pulley, SliderCrank};
use lashwork::ignition::point::{
    Dial, Drive, MarkSide, Piston, RimMark, Said, Tools, WHEEL_U, every_way,
};
use lashwork::quantity::{Advance, DistributorAdvance, Length, PinOffset, PistonTravel};
use serde::Serialize;

/// Which of the two points at which the piston is so far down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum TdcSide {
    Before,
    After,
}

named!(TdcSide as "TdcSideDoc" {
    /// The one before top dead centre.
    Before = "before",
    /// The one after it.
    After = "after",
});
named!(MarkSide as "MarkSideDoc" {
    /// Ahead of the mark for top dead centre in the running direction: this mark passes the pointer first.
    Ahead = "ahead",
    /// On it.
    On = "on",
    /// Behind it, against the running direction.
    Behind = "behind",
});

parts! {
    /// An ignition point, given in exactly one way: `at`, `at_distributor`, `at_rim` or `at_dial`; and the
    /// tools to say it by.
    PointCheckDoc {
        /// At the crank.
        at: Option<Q<Advance>>,
        /// In degrees of the distributor; needs `crank_turns`.
        at_distributor: Option<Q<DistributorAdvance>>,
        /// As a mark on the rim; needs `rim`.
        at_rim: Option<AtRimDoc>,
        /// As a dial gauge shows it; needs `piston`.
        at_dial: Option<AtDialDoc>,
        /// Turns of the crank for one turn of the distributor: 2 on a four-stroke engine.
        crank_turns: Option<f64>,
        /// The rim that carries the mark.
        rim: Option<RimDoc>,
        /// Crank and rod, with a dial gauge in the plug hole.
        piston: Option<PistonDoc>,
    }
    /// A mark on the rim.
    AtRimDoc {
        /// From the mark for top dead centre, along the rim.
        along: Q<Length>,
        side: W<MarkSide>,
    }
    /// A dial gauge's reading, from nought at top dead centre.
    AtDialDoc { shows: Q<PistonTravel>, side: W<TdcSide> }
    /// A rim.
    RimDoc {
        diameter: Q<Length>,
        /// Whether the mark is laid off with a tape and not the maker's.
        by_tape: bool,
    }
    /// Crank and rod of one cylinder, and the dial gauge on its piston.
    PistonDoc {
        /// From the crank's centre to the crankpin's: half the stroke without offset.
        throw: Q<Length>,
        /// Length of the rod between centres.
        rod: Q<Length>,
        /// How far the piston pin's line misses the crank's centre; not at all if not stated.
        offset: Option<Q<PinOffset>>,
        dial: DialDoc,
    }
}

/// One ignition point by every tool.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(crate) struct PointFound {
    /// The point at the crank.
    at: Advance,
    /// What each tool shows there, the surest first.
    ways: Vec<WayFound>,
}

/// What one tool shows at the point.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(crate) struct WayFound {
    /// What it shows.
    shows: Shown,
    /// Standard uncertainty of a point by it, in crank degrees.
    uncertainty_deg: f64,
}

/// What a tool shows.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub(crate) enum Shown {
    /// A degree wheel on the crank.
    Wheel(Advance),
    /// The distributor's scale or its rotor.
    Distributor(DistributorAdvance),
    /// A mark on the rim.
    Rim {
        /// From the mark for top dead centre, along the rim.
        along: Length,
        /// On which side of it.
        side: MarkSide,
    },
    /// A dial gauge in the plug hole.
    Dial {
        /// What it shows.
        shows: PistonTravel,
        /// How far the piston is down.
        travel: PistonTravel,
    },
}

impl From<Said> for Shown {
    fn from(said: Said) -> Self {
        match said {
            Said::CrankDegrees(at) => Self::Wheel(at),
            Said::DistributorDegrees(at) => Self::Distributor(at),
            Said::Rim(mark) => Self::Rim {
                along: mark.along_rim,
                side: mark.side,
            },
            Said::PistonTravel { dial, piston } => Self::Dial {
                shows: dial,
                travel: piston,
            },
        }
    }
}

const AT: &str = "/point";

pub(super) fn found(doc: &PointCheckDoc, problems: &mut Vec<Problem>) -> Option<PointFound> {
    let faults = problems.len();
    let turns = doc.crank_turns.map(Drive::new);
    let turns = turns.and_then(|turns| value(problems, format!("{AT}/crank_turns"), turns));
    let rim = doc.rim.as_ref().and_then(|rim| {
        let made = Pulley::new(rim.diameter.0);
        Some((
            value(problems, format!("{AT}/rim/diameter"), made)?,
            rim.by_tape,
        ))
    });
    let piston = doc.piston.as_ref().and_then(|doc| piston(doc, problems));
    if problems.len() > faults {
        return None;
    }
    let tools = Tools {
        wheel: Some(WHEEL_U),
        rim,
        rotor: turns,
        dial: piston,
    };
    let at = given(doc, &tools, problems)?;
    let ways = value(problems, AT, every_way(at, &tools))?;
    let ways = ways.into_iter().map(|way| WayFound {
        shows: way.said.into(),
        uncertainty_deg: way.crank_degrees_u,
    });
    Some(PointFound {
        at,
        ways: ways.collect(),
    })
}

fn piston(doc: &PistonDoc, problems: &mut Vec<Problem>) -> Option<(Piston<'static>, Dial)> {
    let place = format!("{AT}/piston");
    let offset = doc.offset.map_or(PinOffset::ZERO, |offset| offset.0);
    let crank = SliderCrank::new(doc.throw.0, doc.rod.0, offset);
    let crank = value(problems, &place, crank);
    let u = doc.dial.uncertainty.map(|u| u.0.mm());
    let lean = doc.dial.plug_hole.map_or(0.0, |lean| lean.0.degrees());
    let dial = value(problems, format!("{place}/dial"), Dial::new(u, lean));
    Some((Piston::of_crank(crank?), dial?))
}

/// The point by the one way in which it is given.
fn given(doc: &PointCheckDoc, tools: &Tools<'_>, problems: &mut Vec<Problem>) -> Option<Advance> {
    let needs = |field: &str, tool: &str, problems: &mut Vec<Problem>| {
        problems.push(Problem::new(
            format!("{AT}/{tool}"),
            "document.missing-field",
            format!("\"{field}\" needs \"{tool}\", which is missing"),
            format!("add \"{tool}\""),
        ));
        None
    };
    match (&doc.at, &doc.at_distributor, &doc.at_rim, &doc.at_dial) {
        (Some(at), None, None, None) => Some(at.0),
        (None, Some(shown), None, None) => match tools.rotor {
            Some(drive) => value(
                problems,
                format!("{AT}/at_distributor"),
                drive.at_crank(shown.0),
            ),
            None => needs("at_distributor", "crank_turns", problems),
        },
        (None, None, Some(mark), None) => match tools.rim {
            Some((pulley, _)) => {
                let mark = RimMark {
                    along_rim: mark.along.0,
                    side: mark.side.0,
                };
                value(problems, format!("{AT}/at_rim"), mark.point(pulley))
            }
            None => needs("at_rim", "rim", problems),
        },
        (None, None, None, Some(read)) => match tools.dial {
            Some((piston, dial)) => {
                let travel = dial.travel(read.shows.0);
                let point = travel.and_then(|travel| match read.side.0 {
                    TdcSide::Before => piston.before(travel),
                    TdcSide::After => piston.after(travel),
                });
                value(problems, format!("{AT}/at_dial"), point)
            }
            None => needs("at_dial", "piston", problems),
        },
        _ => {
            problems.push(Problem::new(
                AT,
                "ignition.one-point",
                "the point is not given in exactly one way",
                "give \"at\", \"at_distributor\", \"at_rim\" or \"at_dial\", and only one of them",
            ));
            None
        }
    }
}
