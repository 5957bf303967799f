//! Whether what differs is a matter of the throttle or of the cylinder behind it.

use super::Elsewhere;
use super::answer::{BalanceTurnReport, ThrottleCylinderReport};
use super::before::Ground;
use super::place;
use super::words::{self, Words};
use super::{at, note};
use crate::job::assumptions::{Assumptions, TakenForGranted};
use crate::job::mixture::place::{BalanceField, CylindersField};
use crate::job::problem::Problem;
use crate::job::text::percent;
use crate::mixture::balance::{
    BalanceAnswer, BalanceError, CylinderCause, CylinderCheck, CylinderFindings, CylinderStand,
    Matter, Opening, RelativeShare, standard_ambient,
};
use crate::quantity::{AbsolutePressure, AirFlow, Vacuum};
use crate::tolerance::Uncertainty;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// The flow through a throttle.
///
/// ```
/// use lashwork::job::mixture::ThrottleFlow;
/// use lashwork::quantity::AirFlow;
/// use lashwork::tolerance::Uncertainty;
/// let read = ThrottleFlow {
///     throttle: 0,
///     flow: AirFlow::parse("6.0 kg/h")?,
///     standard_uncertainty: Uncertainty::from_number(0.1)?,
/// };
/// assert_eq!(read.throttle, 0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThrottleFlow {
    /// Which, from 0.
    pub throttle: usize,
    /// The flow.
    pub flow: AirFlow,
    /// Its standard uncertainty.
    pub standard_uncertainty: Uncertainty<AirFlow>,
}

/// What is known of how far the throttles are open.
///
/// ```
/// use lashwork::job::mixture::OpeningKnown;
/// assert_ne!(OpeningKnown::Alike(0.02), OpeningKnown::Flow(Vec::new()));
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum OpeningKnown {
    /// They were set alike by a pin, a drill or a feeler, to so large a share of standard deviation.
    Alike(f64),
    /// The flow through each at the same time as the vacuum.
    Flow(Vec<ThrottleFlow>),
}

/// What is known of the openings and of the cylinders.
///
/// ```
/// use lashwork::job::mixture::{Cylinders, OpeningKnown};
/// let asked = Cylinders::of(OpeningKnown::Alike(0.02));
/// assert!(asked.found.is_empty() && asked.matters_from.is_none());
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Cylinders {
    /// How far the throttles are open.
    pub opening: OpeningKnown,
    /// What was found of the cylinder behind a throttle, counted from 0.
    pub found: Vec<(usize, CylinderFindings)>,
    /// From what share on a difference matters; 0.05, and listed, if not stated.
    pub matters_from: Option<f64>,
}

impl Cylinders {
    /// Nothing known but the openings.
    #[must_use]
    pub const fn of(opening: OpeningKnown) -> Self {
        Self {
            opening,
            found: Vec::new(),
            matters_from: None,
        }
    }
}

/// With what the condition section found of the compression, where there is a throttle for each cylinder, with its
/// name.
pub(super) fn with_compression(
    asked: &Cylinders,
    throttles: &[String],
    elsewhere: Elsewhere<'_>,
    assumptions: &mut Assumptions,
) -> Cylinders {
    let mut made = asked.clone();
    if throttles.len() != elsewhere.cylinders {
        return made;
    }
    let of = |name: &String| {
        let mut all = elsewhere.by_cylinder.iter();
        all.find(|(label, _)| label.as_str() == name)
    };
    for (throttle, name) in throttles.iter().enumerate() {
        let Some((_, wrong)) = of(name) else {
            continue;
        };
        let wrong = Some(*wrong);
        assumptions.bears_on_verdict(
            "mixture.balance-compression-found",
            "the compression behind each throttle counts as the condition section reads that of the cylinder \
             with its name",
        );
        let own = made.found.iter_mut().find(|(own, _)| *own == throttle);
        if let Some((_, own)) = own {
            own.compression_wrong = own.compression_wrong.or(wrong);
        } else {
            let own = CylinderFindings {
                compression_wrong: wrong,
                ..CylinderFindings::default()
            };
            made.found.push((throttle, own));
        }
    }
    made
}

/// The openings are known, but not what the cylinders draw.
pub(super) fn needs_vacuum() -> Problem {
    Problem::new(
        at(BalanceField::Cylinders(CylindersField::Section)),
        "mixture.cylinders-without-vacuum",
        "flow alone does not tell the throttle from the cylinder behind it",
        "read the vacuum behind each throttle and give the flow here, or leave this out",
    )
}

/// Works it out.
pub(super) fn report(
    asked: &Cylinders,
    answer: &BalanceAnswer<Vacuum>,
    ground: &Ground,
    words: &Words<'_>,
    ambient: Option<AbsolutePressure>,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<Vec<ThrottleCylinderReport>> {
    let place = |why: &BalanceError| place::of_cylinders(why, asked);
    let throttles = answer.throttles.len();
    let checked = check(asked, answer, ground, ambient, throttles);
    let found = checked.and_then(|check| check.worked_out());
    let found = found
        .map_err(|refused| note(&refused, place, problems))
        .ok()?;
    for one in &found.assumptions {
        assumptions.bears_on_verdict(one.short_name(), format!("{one}"));
    }
    let told = found.cylinders.into_iter().map(|one| told(one, words));
    Some(told.collect())
}

fn check(
    asked: &Cylinders,
    answer: &BalanceAnswer<Vacuum>,
    ground: &Ground,
    ambient: Option<AbsolutePressure>,
    throttles: usize,
) -> Result<CylinderCheck, Vec<BalanceError>> {
    let ambient = match ambient {
        Some(ambient) => ambient,
        // The balance lists that it takes this.
        None => standard_ambient().map_err(|why| Vec::from([why.into()]))?,
    };
    let opening = match &asked.opening {
        OpeningKnown::Alike(share) => Opening::Alike { share: *share },
        OpeningKnown::Flow(flows) => Opening::Flow(flows_of(flows, throttles)?),
    };
    let vacuum = answer.throttles.iter();
    let vacuum = vacuum.map(|one| (one.reading, one.standard_uncertainty));
    let known = ground.known;
    let findings = (0..throttles).map(|throttle| {
        let own = asked.found.iter().find(|(own, _)| *own == throttle);
        let own = own.map(|(_, found)| *found).unwrap_or_default();
        // What is right on every cylinder is right on this one; what is not right somewhere says nothing of it.
        let right = |of: Option<bool>| (of == Some(true)).then_some(false);
        CylinderFindings {
            compression_wrong: own.compression_wrong.or(right(known.compression)),
            lash_wrong: own.lash_wrong.or(right(known.clearances)),
            leak_found: own.leak_found.or(right(known.sealing)),
        }
    });
    Ok(CylinderCheck {
        ambient,
        vacuum: vacuum.collect(),
        opening,
        findings: findings.collect(),
        matters_from: asked.matters_from,
    })
}

fn flows_of(
    flows: &[ThrottleFlow],
    throttles: usize,
) -> Result<Vec<(AirFlow, Uncertainty<AirFlow>)>, Vec<BalanceError>> {
    let mut made = Vec::new();
    let mut problems = Vec::new();
    for throttle in 0..throttles {
        let mut own = flows.iter().filter(|flow| flow.throttle == throttle);
        match (own.next(), own.next()) {
            (Some(one), None) => made.push((one.flow, one.standard_uncertainty)),
            (None, _) => problems.push(BalanceError::NotRead { throttle }),
            (Some(_), Some(_)) => problems.push(BalanceError::ReadTwice { throttle }),
        }
    }
    if problems.is_empty() {
        Ok(made)
    } else {
        Err(problems)
    }
}

fn told(one: CylinderStand, words: &Words<'_>) -> ThrottleCylinderReport {
    let name = words.name(one.throttle);
    let share = |share: RelativeShare, [less, alike, more]: [&str; 3]| {
        let per_cent = 100.0 * share.value.abs();
        let u = 100.0 * share.standard_uncertainty;
        match share.value {
            _ if per_cent < 0.5 => format!("{alike}, u {u:.0} %"),
            value if value < 0.0 => format!("{per_cent:.0} % {less}, u {u:.0} %"),
            _ => format!("{per_cent:.0} % {more}, u {u:.0} %"),
        }
    };
    let breathing = one.breathing;
    let draws = share(breathing, ["less", "as much", "more"]);
    let open = one.opening.map(|opening| {
        let open = share(opening, ["less far", "as far", "further"]);
        format!("throttle open {open}; ")
    });
    let text = format!(
        "{name} against the others: {}cylinder draws {draws}: {}",
        open.unwrap_or_default(),
        words::matter(one.matter)
    );
    ThrottleCylinderReport {
        name,
        choked: one.choked,
        opening: one.opening.map(|opening| opening.value),
        opening_u: one.opening.map(|opening| opening.standard_uncertainty),
        breathing: breathing.value,
        breathing_u: breathing.standard_uncertainty,
        differs: breathing.differs,
        matter: one.matter,
        causes: one.causes,
        text,
    }
}

/// What was found wrong of single cylinders, in words.
pub(super) fn found_wrong(found: &[(usize, CylinderFindings)], words: &Words<'_>) -> Vec<String> {
    let of = |(throttle, one): &(usize, CylinderFindings)| {
        let all = [
            (one.compression_wrong, CylinderCause::Compression),
            (one.lash_wrong, CylinderCause::Lash),
            (one.leak_found, CylinderCause::Leak),
        ];
        let wrong = all.into_iter().filter(|(wrong, _)| *wrong == Some(true));
        let name = words.name(*throttle);
        wrong
            .map(|(_, cause)| format!("{} on {name}", words::cause(cause)))
            .collect::<Vec<_>>()
    };
    found.iter().flat_map(of).collect()
}

/// What has to be found of a cylinder before any screw is turned, if that is clear of one.
pub(super) fn cause(read: &[ThrottleCylinderReport]) -> Option<(String, Vec<String>)> {
    let is_clear =
        |one: &&ThrottleCylinderReport| matches!(one.matter, Matter::Cylinder | Matter::Both);
    let one = read.iter().find(is_clear)?;
    let text = format!(
        "turn nothing yet: {}, {} so; no screw of the linkage mends that",
        one.text,
        percent(one.differs)
    );
    let mut causes: Vec<String> = one
        .causes
        .iter()
        .map(|cause| format!("{} on {}", words::cause(*cause), one.name))
        .collect();
    if one.breathing >= 0.0 {
        causes.push(String::from(
            "the other cylinders: this one draws more than each of them does",
        ));
    } else if causes.is_empty() {
        causes.push(format!(
            "valve timing and exhaust of {}, and the gauge's own hose: the rest was found right",
            one.name
        ));
    }
    Some((text, causes))
}

/// What to be sure of where the readings do not tell the throttle from the cylinder, of those that are moved.
pub(super) fn sure(read: &[ThrottleCylinderReport], turns: &[BalanceTurnReport]) -> Option<String> {
    let is_moved = |name: &String| turns.iter().any(|turn| turn.moves.contains(name));
    let open = read.iter().filter(|one| one.matter == Matter::CannotSay);
    let open = open.map(|one| &one.name).filter(|name| is_moved(name));
    let names: Vec<&str> = open.map(String::as_str).collect();
    (!names.is_empty()).then(|| {
        format!(
            "it is the throttle and not the cylinder behind it: the readings do not decide that of {}",
            names.join(", ")
        )
    })
}
