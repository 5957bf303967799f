//! The force that a torque leaves along a bolt.

use super::error::within;
use super::{HeadError, Scatter};
use crate::quantity::{Force, Length, Torque};
use crate::tolerance::{Estimate, Uncertainty};
use core::f64::consts::PI;
use serde::Serialize;
use uom::si::f64::Length as SiLength;
use uom::si::length::millimeter;

/// Nut factors and frictions of real threads.
const FACTOR: (f64, f64) = (0.08, 0.5);
const FRICTION: (f64, f64) = (0.02, 0.5);
/// Bolts in millimetres.
const BOLT: (f64, f64) = (2.0, 100.0);

fn length(mm: f64) -> SiLength {
    SiLength::new::<millimeter>(mm)
}

/// A bolt's thread and head, and their friction.
///
/// ```
/// use lashwork::condition::head::{Friction, nut_factor};
/// use lashwork::quantity::Length;
/// let mm = |mm| Length::from_mm(mm);
/// // M10 x 1.5, the head bearing at 13.5 mm, friction 0.14 at both.
/// let bolt = Friction {
///     diameter: mm(10.0)?, pitch: mm(1.5)?, bearing: mm(13.5)?, thread: 0.14, head: 0.14,
/// };
/// assert!((nut_factor(&bolt)? - 0.1913).abs() < 5e-5);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Friction {
    /// Nominal diameter.
    pub diameter: Length,
    /// Pitch of the thread.
    pub pitch: Length,
    /// Middle diameter of what bears under the head or the nut.
    pub bearing: Length,
    /// Friction in the thread.
    pub thread: f64,
    /// Friction under the head.
    pub head: f64,
}

/// Torque over force and diameter, from the frictions.
///
/// # Errors
/// [`HeadError::Number`] for a friction outside 0.02 to 0.5 or a diameter outside 2 to 100 mm.
///
/// # Source
/// `(0.16 P + 0.58 d2 mu + D mu / 2) / d` for threads of 60 degrees, as VDI 2230 has it (from memory), with
/// `d2 = d - 0.6495 P` (ISO 724).
pub fn nut_factor(bolt: &Friction) -> Result<f64, HeadError> {
    let d = within("a diameter in millimetres", bolt.diameter.mm(), BOLT)?;
    let thread = within("a friction", bolt.thread, FRICTION)?;
    let head = within("a friction", bolt.head, FRICTION)?;
    let p = bolt.pitch.mm();
    let flank = d - 0.75 * libm::sqrt(3.0) / 2.0 * p;
    // Half over the cosine of half the angle of the thread, and half over pi.
    let along = p / (2.0 * PI) + flank * thread / libm::sqrt(3.0);
    Ok((along + 0.5 * bolt.bearing.mm() * head) / d)
}

/// The force that a torque leaves.
///
/// ```
/// use lashwork::condition::head::{Preload, Scatter};
/// use lashwork::quantity::{Force, Length, Torque};
/// // 100 Nm on 10 mm with a nut factor of 0.20, 25 % either way.
/// let found = Preload::of(
///     Torque::parse("100 Nm")?, Length::from_mm(10.0)?, 0.20, Scatter::stated(25.0)?)?;
/// assert_eq!(found.middle.kilonewtons(), 50.0);
/// assert_eq!([found.least.kilonewtons(), found.most.kilonewtons()], [37.5, 62.5]);
/// assert!(found.may_pass(Force::parse("60 kN")?));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Preload {
    /// Least by the scatter.
    pub least: Force,
    /// By the torque and the nut factor.
    pub middle: Force,
    /// Most by the scatter.
    pub most: Force,
}

impl Preload {
    /// By a nut factor, about 0.2 for plain dry steel and less for oiled.
    ///
    /// # Errors
    /// [`HeadError::Number`] for a factor outside 0.08 to 0.5 or a diameter outside 2 to 100 mm.
    ///
    /// # Source
    /// `F = T / (K d)`.
    pub fn of(
        torque: Torque,
        diameter: Length,
        factor: f64,
        scatter: Scatter,
    ) -> Result<Self, HeadError> {
        let factor = within("a nut factor", factor, FACTOR)?;
        let d = within("a diameter in millimetres", diameter.mm(), BOLT)?;
        let middle = torque.si() / (factor * length(d));
        let newtons = middle.value;
        let [_, percent] = scatter.percent();
        let at = |part: f64| Force::from_number(newtons * part, "N");
        Ok(Self {
            least: at(1.0 - percent / 100.0)?,
            middle: at(1.0)?,
            most: at(1.0 + percent / 100.0)?,
        })
    }

    /// As an estimate: anywhere between its ends.
    ///
    /// # Errors
    /// None that a preload can cause.
    ///
    /// ```
    /// # use lashwork::condition::head::{Preload, Scatter};
    /// # use lashwork::quantity::{Length, Torque};
    /// # let t = Torque::parse("100 Nm")?;
    /// let found = Preload::of(t, Length::from_mm(10.0)?, 0.20, Scatter::stated(25.0)?)?;
    /// assert_eq!(found.estimate()?.centre(), Some(found.middle));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn estimate(&self) -> Result<Estimate<Force>, HeadError> {
        Ok(Estimate::between(self.least, self.most, Uncertainty::ZERO)?)
    }

    /// Whether the upper end passes what the bolt bears.
    #[must_use]
    pub fn may_pass(&self, bears: Force) -> bool {
        self.most > bears
    }
}
