//! A dial gauge in the plug hole.

use super::PointError;
use crate::quantity::PistonTravel;
use serde::Serialize;

/// A dial gauge in the plug hole, at rest on the crown and set to nought at top dead centre.
///
/// Its stem runs along the hole. Where the hole leans from the bore, the stem follows a flat crown by more
/// than the piston moves: travel = reading x cos(angle). A crown that is not flat where the stem rests is
/// not accounted for.
///
/// ```
/// use lashwork::ignition::point::Dial;
/// use lashwork::quantity::PistonTravel;
/// let leaning = Dial::new(None, 25.0)?;
/// let shown = leaning.reading(PistonTravel::parse("2.479 mm")?)?;
/// assert!((shown.mm() - 2.735).abs() < 5e-4);
/// assert!((leaning.travel(shown)?.mm() - 2.479).abs() < 1e-12);
/// assert!(Dial::new(None, 70.0).is_err());
/// # Ok::<(), lashwork::ignition::point::PointError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Dial {
    u_mm: f64,
    is_stated: bool,
    plug_hole_deg: f64,
}

impl Dial {
    /// Standard uncertainty of a travel, in millimetres, where none is stated: half a division of a
    /// common dial, the reversal at top dead centre and the stem's rest together. Common practice, no
    /// source.
    pub const USUAL_U_MM: f64 = 0.05;
    /// Most that a plug hole may lean from the bore, in degrees.
    pub const MOST_LEAN: f64 = 60.0;

    /// Takes the standard uncertainty of a reading in millimetres, if it is stated, and how many degrees
    /// the plug hole leans from the bore.
    ///
    /// # Errors
    /// [`PointError::PlugHole`] outside 0 to [`Self::MOST_LEAN`]; [`PointError::Tolerance`] for an
    /// uncertainty not from 0 to 1 mm.
    pub fn new(u_mm: Option<f64>, plug_hole_deg: f64) -> Result<Self, PointError> {
        if !(0.0..=Self::MOST_LEAN).contains(&plug_hole_deg) {
            return Err(PointError::PlugHole { got: plug_hole_deg });
        }
        if let Some(got) = u_mm
            && !(0.0..=1.0).contains(&got)
        {
            return Err(PointError::Tolerance(
                crate::tolerance::ToleranceError::Uncertainty {
                    got,
                    max: 1.0,
                    unit: "mm",
                },
            ));
        }
        Ok(Self {
            u_mm: u_mm.unwrap_or(Self::USUAL_U_MM),
            is_stated: u_mm.is_some(),
            plug_hole_deg,
        })
    }

    /// Whether its uncertainty was stated.
    #[must_use]
    pub const fn is_stated(&self) -> bool {
        self.is_stated
    }

    /// Standard uncertainty of the piston's travel, in millimetres.
    #[must_use]
    pub fn travel_u_mm(&self) -> f64 {
        self.u_mm * self.cos()
    }

    /// What it shows when the piston is so far down.
    ///
    /// # Errors
    /// [`PointError::Quantity`] if that is out of range.
    pub fn reading(&self, travel: PistonTravel) -> Result<PistonTravel, PointError> {
        Ok(PistonTravel::from_mm(travel.mm() / self.cos())?)
    }

    /// How far the piston is down when it shows so much.
    ///
    /// # Errors
    /// None for a reading within range.
    pub fn travel(&self, reading: PistonTravel) -> Result<PistonTravel, PointError> {
        Ok(PistonTravel::from_mm(reading.mm() * self.cos())?)
    }

    fn cos(&self) -> f64 {
        libm::cos(self.plug_hole_deg.to_radians())
    }
}
