//! A cylinder: what it is called, where a mechanic finds it, and where it sits on the crank.

use super::{EngineError, SliderCrank};
use crate::quantity::{AxisAngle, CrankAngle};
use alloc::string::{String, ToString};
use core::fmt;
use core::str::FromStr;
use serde::Serialize;

/// What the user calls a cylinder: `1`, `L3`, `rear`. Never empty; spaces at the ends fall away.
///
/// Labels sort as text; the order of the cylinders is the engine's ([`CylinderIndex`]).
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::engine::CylinderLabel;
/// assert_eq!(CylinderLabel::new(" L3 ")?.to_string(), "L3");
/// assert_eq!(CylinderLabel::new("  ").unwrap_err().code(), "engine.empty-label");
/// # Ok::<(), lashwork::engine::EngineError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(transparent)]
pub struct CylinderLabel(String);

impl CylinderLabel {
    /// Takes a name.
    ///
    /// # Errors
    /// [`EngineError::EmptyLabel`] if nothing but spaces is left.
    pub fn new(text: &str) -> Result<Self, EngineError> {
        let trimmed = text.trim();
        if trimmed.is_empty() {
            return Err(EngineError::EmptyLabel);
        }
        Ok(Self(String::from(trimmed)))
    }

    /// A plain number as a name.
    ///
    /// ```
    /// use lashwork::engine::CylinderLabel;
    /// assert_eq!(CylinderLabel::numbered(4).as_str(), "4");
    /// ```
    #[must_use]
    pub fn numbered(number: usize) -> Self {
        Self(number.to_string())
    }

    /// The name as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl FromStr for CylinderLabel {
    type Err = EngineError;
    fn from_str(text: &str) -> Result<Self, EngineError> {
        Self::new(text)
    }
}

impl fmt::Display for CylinderLabel {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

/// A cylinder's place in the list the engine was made from, counted from 0.
///
/// Handed out by an [`Engine`](super::Engine) and good for that engine.
///
/// ```
/// use lashwork::engine::CylinderIndex;
/// assert_eq!(CylinderIndex::new(2).get(), 2);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(transparent)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct CylinderIndex(usize);

impl CylinderIndex {
    /// The cylinder at this place of the list.
    #[must_use]
    pub const fn new(place: usize) -> Self {
        Self(place)
    }

    /// The place in the list.
    #[must_use]
    pub const fn get(self) -> usize {
        self.0
    }
}

/// One cylinder of an engine.
///
/// ```
/// use lashwork::engine::{Cylinder, CylinderLabel};
/// use lashwork::quantity::AxisAngle;
/// let bank = AxisAngle::from_degrees(45.0)?;
/// let three = Cylinder::new(CylinderLabel::numbered(3))
///     .on_side("left")
///     .at(bank, AxisAngle::from_degrees(90.0)?);
/// assert_eq!(three.side.as_deref(), Some("left"));
/// assert_eq!(three.bank, Some(bank));
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Cylinder {
    /// What it is called.
    pub label: CylinderLabel,
    /// The side or bank from which a mechanic reaches it.
    pub side: Option<String>,
    /// The direction its bore points away from the crank.
    pub bank: Option<AxisAngle>,
    /// The direction its crankpin points when the crank stands at the geometry's zero.
    pub crankpin: Option<AxisAngle>,
    /// Its crank and rod, where the piston pin's line may miss the crank's centre.
    pub crank: Option<SliderCrank>,
}

impl Cylinder {
    /// A cylinder of which only the name is known.
    #[must_use]
    pub const fn new(label: CylinderLabel) -> Self {
        Self {
            label,
            side: None,
            bank: None,
            crankpin: None,
            crank: None,
        }
    }

    /// With the side from which a mechanic reaches it.
    #[must_use]
    pub fn on_side(self, side: &str) -> Self {
        Self {
            side: Some(String::from(side)),
            ..self
        }
    }

    /// With its bank and crankpin angles.
    #[must_use]
    pub fn at(self, bank: AxisAngle, crankpin: AxisAngle) -> Self {
        Self {
            bank: Some(bank),
            crankpin: Some(crankpin),
            ..self
        }
    }

    /// With its crank and rod, which move its top dead centre where they are offset.
    ///
    /// ```
    /// use lashwork::engine::{Cylinder, CylinderLabel, PinOffset, SliderCrank};
    /// use lashwork::quantity::Length;
    /// let mm = Length::from_mm;
    /// let crank = SliderCrank::new(mm(29.0)?, mm(100.0)?, PinOffset::from_mm(1.5)?)?;
    /// let one = Cylinder::new(CylinderLabel::numbered(1)).with_crank(crank);
    /// assert_eq!(one.crank, Some(crank));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn with_crank(self, crank: SliderCrank) -> Self {
        Self {
            crank: Some(crank),
            ..self
        }
    }

    /// How far the crank turns from the geometry's zero to this cylinder's top dead centre, whole
    /// turns aside; none without bank and crankpin.
    pub(super) fn tdc_turn(&self) -> Option<AxisAngle> {
        let past = self.crank.map_or(CrankAngle::ZERO, |c| c.tdc_angle());
        Some(self.bank? - self.crankpin? + AxisAngle::computed(past.degrees()))
    }
}
