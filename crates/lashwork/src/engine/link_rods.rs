//! Which cylinder of a row holds the master rod, and how the others hang on it.
//!
//! # Conventions
//! - A row is what turns round one crankpin: one master rod and the link rods on it.
//! - Order, cam and ignition keep their own positions, evenly spaced as a rule; only where a piston
//!   tops is moved by its link rod.
//!
//! Uses [`ArticulatedRod`].

use super::{ArticulatedRod, ArticulatedRodError, Cylinder, CylinderLabel, SliderCrank};
use super::{PinOffset, SliderCrankError};
use crate::Refusal;
use crate::quantity::{AxisAngle, CrankAngle, Length};
use alloc::borrow::Cow;
use alloc::vec::Vec;
use serde::Serialize;

/// Crankpins nearer than this point alike, in degrees. This library's choice.
const SAME_PIN: f64 = 0.1;

/// A link rod and where it hangs.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LinkRod {
    /// Its cylinder.
    pub cylinder: CylinderLabel,
    /// From the crankpin's centre to the knuckle pin's.
    pub knuckle_radius: Length,
    /// The direction of the knuckle pin seen from the crankpin, with the master at its top, on the
    /// scale of the bank angles; the cylinder's own bank angle if not stated.
    pub knuckle: Option<AxisAngle>,
    /// The rod between centres.
    pub length: Length,
}

/// The rods of one row.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LinkRods {
    /// The cylinder of the master rod.
    pub master: CylinderLabel,
    /// Half the master's stroke.
    pub crank_radius: Length,
    /// The master rod between centres.
    pub master_rod: Length,
    /// The rods that hang on it.
    pub links: Vec<LinkRod>,
}

/// Where a piston turns round, counted from where its crankpin points along its bore.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct DeadCentres {
    /// How far the crank stands past that line at top dead centre; negative before it.
    pub top: CrankAngle,
    /// How far it stands past the opposite line at bottom dead centre.
    pub bottom: CrankAngle,
    /// The stroke.
    pub stroke: Length,
}

impl From<&SliderCrank> for DeadCentres {
    fn from(crank: &SliderCrank) -> Self {
        Self {
            top: crank.tdc_angle(),
            bottom: crank.bdc_angle() - CrankAngle::of_degrees::<180>(),
            stroke: crank.stroke(),
        }
    }
}

impl From<&ArticulatedRod> for DeadCentres {
    fn from(rod: &ArticulatedRod) -> Self {
        Self {
            top: rod.tdc_shift(),
            bottom: rod.bdc_shift(),
            stroke: rod.stroke(),
        }
    }
}

/// The rod of one cylinder.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(untagged)]
pub(super) enum Rod {
    /// On the crankpin.
    Crankpin(SliderCrank),
    /// On a knuckle pin of the master rod.
    Knuckle(ArticulatedRod),
}

impl Rod {
    pub(super) fn centres(&self) -> DeadCentres {
        match self {
            Self::Crankpin(crank) => crank.into(),
            Self::Knuckle(rod) => rod.into(),
        }
    }

    /// How far the piston is below its top when the crank stands so far past the line on which its
    /// crankpin points along the bore.
    pub(super) fn piston_drop(&self, past: CrankAngle) -> Length {
        match self {
            Self::Crankpin(crank) => crank.piston_drop(past),
            Self::Knuckle(rod) => rod.piston_drop(past),
        }
    }
}

/// Why rods do not go with an engine.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::engine::{CylinderLabel, LinkRodsError};
/// let problem = LinkRodsError::Missing { cylinder: CylinderLabel::numbered(4) };
/// assert_eq!(problem.code(), "engine.link-rods-missing");
/// assert_eq!(problem.to_string(), "cylinder 4 has neither a master rod nor a link rod");
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LinkRodsError {
    /// The engine has no such cylinder.
    #[error("the rods name cylinder {cylinder}, which the engine does not have")]
    Unknown {
        /// The unknown name.
        cylinder: CylinderLabel,
    },
    /// A cylinder has two rods.
    #[error("cylinder {cylinder} is given more than one rod")]
    Twice {
        /// The name.
        cylinder: CylinderLabel,
    },
    /// A cylinder has no rod.
    #[error("cylinder {cylinder} has neither a master rod nor a link rod")]
    Missing {
        /// The name.
        cylinder: CylinderLabel,
    },
    /// It is not known which way a cylinder or its crankpin points.
    #[error("cylinder {cylinder} has no bank and crankpin angle, so its link rod cannot be placed")]
    NoGeometry {
        /// The name.
        cylinder: CylinderLabel,
    },
    /// A link rod hangs on the master of another crankpin.
    #[error(
        "cylinder {cylinder} hangs on the master rod of cylinder {master}, but their crankpins \
         stand {:.2} deg apart",
        .apart.within_turn()
    )]
    OtherCrankpin {
        /// The cylinder.
        cylinder: CylinderLabel,
        /// The master's cylinder.
        master: CylinderLabel,
        /// From the master's crankpin to the other.
        apart: AxisAngle,
    },
    /// A cylinder carries a crank and rod of its own already.
    #[error("cylinder {cylinder} has a crank and rod of its own besides the rods of its row")]
    OwnCrank {
        /// The name.
        cylinder: CylinderLabel,
    },
    /// The master rod cannot turn.
    #[error("master rod of cylinder {cylinder}: {problem}")]
    Master {
        /// The name.
        cylinder: CylinderLabel,
        /// Why.
        problem: SliderCrankError,
    },
    /// A link rod cannot turn.
    #[error("link rod of cylinder {cylinder}: {problem}")]
    Link {
        /// The name.
        cylinder: CylinderLabel,
        /// Why.
        problem: ArticulatedRodError,
    },
}

impl Refusal for LinkRodsError {
    fn code(&self) -> &'static str {
        match self {
            Self::Unknown { .. } => "engine.link-rods-unknown",
            Self::Twice { .. } => "engine.link-rods-twice",
            Self::Missing { .. } => "engine.link-rods-missing",
            Self::NoGeometry { .. } => "engine.link-rods-no-geometry",
            Self::OtherCrankpin { .. } => "engine.link-rods-crankpin",
            Self::OwnCrank { .. } => "engine.two-rods",
            Self::Master { problem, .. } => problem.code(),
            Self::Link { problem, .. } => problem.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        match self {
            Self::Unknown { .. } => Cow::Borrowed("name cylinders as the engine lists them"),
            Self::Twice { cylinder } | Self::Missing { cylinder } => Cow::Owned(alloc::format!(
                "give cylinder {cylinder} exactly one rod: master or link"
            )),
            Self::NoGeometry { cylinder } => Cow::Owned(alloc::format!(
                "give bank and crankpin of cylinder {cylinder}"
            )),
            Self::OtherCrankpin { master, .. } => Cow::Owned(alloc::format!(
                "hang on master {master} only what turns round its crankpin; give each row its own"
            )),
            Self::OwnCrank { .. } => {
                Cow::Borrowed("describe either plain rods or rows of link rods")
            }
            Self::Master { problem, .. } => problem.hint(),
            Self::Link { problem, .. } => problem.hint(),
        }
    }
}

/// The cylinders that turn round the same crankpin as this one, itself among them, by the crankpins'
/// directions; empty if its own is not known.
pub(super) fn same_pin(cylinders: &[Cylinder], one: &Cylinder) -> Vec<CylinderLabel> {
    let alike = |c: &&Cylinder| pins_apart(one, c).is_some_and(small);
    cylinders
        .iter()
        .filter(alike)
        .map(|c| c.label.clone())
        .collect()
}

fn pins_apart(a: &Cylinder, b: &Cylinder) -> Option<AxisAngle> {
    Some(b.crankpin? - a.crankpin?)
}

fn small(angle: AxisAngle) -> bool {
    let turn = angle.within_turn();
    turn.min(360.0 - turn) <= SAME_PIN
}

/// The rod of every cylinder, in the order of the list, or all that is wrong with the rods.
pub(super) fn rods(
    cylinders: &[Cylinder],
    rows: &[LinkRods],
) -> Result<Vec<Rod>, Vec<LinkRodsError>> {
    let mut problems = Vec::new();
    let mut rods: Vec<Option<Result<Rod, LinkRodsError>>> =
        cylinders.iter().map(|_| None).collect();
    let mut place = |label: &CylinderLabel, made: Result<Rod, LinkRodsError>| {
        let cylinder = label.clone();
        let slot = cylinders.iter().position(|c| c.label == *label);
        match slot.and_then(|i| rods.get_mut(i)) {
            None => problems.push(LinkRodsError::Unknown { cylinder }),
            Some(Some(_)) => problems.push(LinkRodsError::Twice { cylinder }),
            Some(slot) => *slot = Some(made),
        }
    };
    for row in rows {
        let master = cylinders.iter().find(|c| c.label == row.master);
        place(&row.master, master_rod(row, master));
        for link in &row.links {
            let cylinder = cylinders.iter().find(|c| c.label == link.cylinder);
            place(&link.cylinder, link_rod(row, link, master, cylinder));
        }
    }
    let mut found = Vec::new();
    for (cylinder, rod) in cylinders.iter().zip(rods) {
        match rod {
            Some(Ok(rod)) => found.push(rod),
            Some(Err(problem)) => problems.push(problem),
            None => problems.push(LinkRodsError::Missing {
                cylinder: cylinder.label.clone(),
            }),
        }
    }
    if problems.is_empty() {
        Ok(found)
    } else {
        Err(problems)
    }
}

fn master_rod(row: &LinkRods, master: Option<&Cylinder>) -> Result<Rod, LinkRodsError> {
    if master.is_some_and(|c| c.crank.is_some()) {
        return Err(LinkRodsError::OwnCrank {
            cylinder: row.master.clone(),
        });
    }
    SliderCrank::new(row.crank_radius, row.master_rod, PinOffset::ZERO)
        .map(Rod::Crankpin)
        .map_err(|problem| LinkRodsError::Master {
            cylinder: row.master.clone(),
            problem,
        })
}

fn link_rod(
    row: &LinkRods,
    link: &LinkRod,
    master: Option<&Cylinder>,
    cylinder: Option<&Cylinder>,
) -> Result<Rod, LinkRodsError> {
    let name = || link.cylinder.clone();
    if cylinder.is_some_and(|c| c.crank.is_some()) {
        return Err(LinkRodsError::OwnCrank { cylinder: name() });
    }
    let banks = master
        .zip(cylinder)
        .and_then(|(m, c)| Some((m.bank?, c.bank?, pins_apart(m, c)?)));
    let Some((zero, bank, apart)) = banks else {
        return Err(LinkRodsError::NoGeometry { cylinder: name() });
    };
    if !small(apart) {
        return Err(LinkRodsError::OtherCrankpin {
            cylinder: name(),
            master: row.master.clone(),
            apart,
        });
    }
    let knuckle = (link.knuckle_radius, link.knuckle.unwrap_or(bank) - zero);
    ArticulatedRod::with_knuckle(
        row.crank_radius,
        row.master_rod,
        knuckle,
        link.length,
        bank - zero,
    )
    .map(Rod::Knuckle)
    .map_err(|problem| LinkRodsError::Link {
        cylinder: name(),
        problem,
    })
}
