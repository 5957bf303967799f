//! One ignition point said by every tool at hand, and which of them is the surest.

use super::{Dial, Drive, Piston, PointError, RimMark};
use crate::engine::Pulley;
use crate::quantity::{Advance, DistributorAdvance, PistonTravel};
use alloc::vec::Vec;
use serde::Serialize;

/// Half of what a mark of its own width, seen past a pointer, may be off either way, in crank degrees;
/// equally likely anywhere within. Common practice, no source.
pub const MARK_HALF_WIDTH: f64 = 1.0;
/// Standard uncertainty of a length laid along a rim with a tape, in millimetres. Common practice, no
/// source.
pub const TAPE_U_MM: f64 = 0.5;
/// Standard uncertainty of a degree wheel on the crank, set to nought with a stop and read past a wire, in
/// crank degrees. Common practice, no source.
pub const WHEEL_U: f64 = 0.5;
/// Standard uncertainty of a distributor's scale or of a rotor's place, in degrees of the rotor. Common
/// practice, no source.
pub const ROTOR_U: f64 = 1.0;

/// What there is to read an ignition point with.
///
/// ```
/// use lashwork::ignition::point::Tools;
/// assert!(Tools::default().is_empty());
/// ```
#[derive(Clone, Copy, Debug, Default)]
pub struct Tools<'e> {
    /// A degree wheel: the standard uncertainty of its reading in crank degrees, [`WHEEL_U`] where it is
    /// not stated.
    pub wheel: Option<f64>,
    /// A pulley with the maker's mark on its rim; `true` where the mark is laid off with a tape.
    pub rim: Option<(Pulley, bool)>,
    /// How fast the rotor turns, where its place or the distributor's scale is read.
    pub rotor: Option<Drive>,
    /// A dial gauge on a piston.
    pub dial: Option<(Piston<'e>, Dial)>,
}

impl Tools<'_> {
    /// Whether there is none.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.wheel.is_none() && self.rim.is_none() && self.rotor.is_none() && self.dial.is_none()
    }
}

/// What one tool shows at the point.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Said {
    /// A degree wheel on the crank.
    CrankDegrees(Advance),
    /// A mark on the rim.
    Rim(RimMark),
    /// The distributor's scale, and how far the rotor is from where it stands at top dead centre.
    DistributorDegrees(DistributorAdvance),
    /// A dial gauge: what it shows, and how far the piston is down.
    PistonTravel {
        /// What the dial shows, from nought at top dead centre.
        dial: PistonTravel,
        /// How far the piston is down.
        piston: PistonTravel,
    },
}

/// What one tool shows at the point, and how well it holds the point.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WaySaid {
    /// What it shows.
    pub said: Said,
    /// Standard uncertainty of an ignition point set or read by it, in crank degrees.
    pub crank_degrees_u: f64,
}

/// Says an ignition point by every tool, the surest first; of equal ones, in the order of [`Tools`].
///
/// # Errors
/// [`PointError::NoTool`] without a tool; [`PointError`] of a tool that cannot show the point.
///
/// # Source
/// Geometry; uncertainties by JCGM 100:2008, 5.1.2, a mark's width by 4.3.7.
///
/// ```
/// use lashwork::engine::{PinOffset, SliderCrank};
/// use lashwork::ignition::point::{Dial, Drive, Piston, Said, Tools, WHEEL_U, every_way};
/// use lashwork::quantity::{Advance, Cycle, Length};
/// let mm = |mm| Length::from_mm(mm);
/// let piston = Piston::of_crank(SliderCrank::new(mm(30.0)?, mm(110.0)?, PinOffset::ZERO)?);
/// let tools = Tools {
///     wheel: Some(WHEEL_U),
///     rotor: Some(Drive::once_a_cycle(Cycle::FourStroke)),
///     dial: Some((piston, Dial::new(Some(0.05), 0.0)?)),
///     ..Tools::default()
/// };
/// let surest = |deg: &str| -> Result<Said, Box<dyn std::error::Error>> {
///     let ways = every_way(Advance::parse(deg)?, &tools)?;
///     Ok(ways.first().ok_or("no way")?.said)
/// };
/// // Far from top dead centre the piston moves fast, close to it the dial tells little.
/// assert!(matches!(surest("38 deg BTDC")?, Said::PistonTravel { .. }));
/// assert!(matches!(surest("2 deg BTDC")?, Said::CrankDegrees(_)));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn every_way(point: Advance, tools: &Tools<'_>) -> Result<Vec<WaySaid>, PointError> {
    let mut ways = Vec::new();
    if let Some(crank_degrees_u) = tools.wheel {
        ways.push(WaySaid {
            said: Said::CrankDegrees(point),
            crank_degrees_u,
        });
    }
    if let Some((pulley, by_tape)) = tools.rim {
        ways.push(WaySaid {
            said: Said::Rim(RimMark::of(pulley, point)),
            crank_degrees_u: rim_u(pulley, by_tape),
        });
    }
    if let Some(drive) = tools.rotor {
        ways.push(WaySaid {
            said: Said::DistributorDegrees(drive.at_rotor(point)?),
            crank_degrees_u: ROTOR_U * drive.crank_turns(),
        });
    }
    if let Some((piston, dial)) = tools.dial {
        let travel = piston.travel(point)?;
        ways.push(WaySaid {
            said: Said::PistonTravel {
                dial: dial.reading(travel)?,
                piston: travel,
            },
            crank_degrees_u: piston.degrees_of(point, dial.travel_u_mm())?,
        });
    }
    if ways.is_empty() {
        return Err(PointError::NoTool);
    }
    ways.sort_by(|a, b| a.crank_degrees_u.total_cmp(&b.crank_degrees_u));
    Ok(ways)
}

/// Standard uncertainty of a mark on a rim, in crank degrees: its width and the eye, and the tape.
///
/// ```
/// use lashwork::engine::Pulley;
/// use lashwork::ignition::point::rim_u;
/// use lashwork::quantity::Length;
/// let small = Pulley::new(Length::from_mm(60.0)?)?;
/// assert!((rim_u(small, false) - 0.577).abs() < 1e-3);
/// assert!((rim_u(small, true) - 1.116).abs() < 1e-3);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn rim_u(pulley: Pulley, by_tape: bool) -> f64 {
    let mark = MARK_HALF_WIDTH / libm::sqrt(3.0);
    if by_tape {
        let one_degree = pulley.arc(crate::quantity::CrankAngle::of_degrees::<1>());
        libm::hypot(mark, TAPE_U_MM / one_degree.mm())
    } else {
        mark
    }
}
