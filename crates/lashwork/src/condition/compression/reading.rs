//! What a compression gauge showed of a cylinder.

use super::BuildUp;
use crate::engine::CylinderLabel;
use crate::quantity::GaugePressure;

/// What was read of a cylinder.
#[derive(Clone, Debug, PartialEq)]
pub struct CylinderReading {
    /// The cylinder.
    pub cylinder: CylinderLabel,
    /// Without oil.
    pub dry: GaugePressure,
    /// With oil on the piston.
    pub wet: Option<GaugePressure>,
    /// How the gauge rose, dry.
    pub build_up: Option<BuildUp>,
}

impl CylinderReading {
    /// A dry reading alone.
    ///
    /// ```
    /// use lashwork::condition::compression::CylinderReading;
    /// use lashwork::engine::CylinderLabel;
    /// use lashwork::quantity::GaugePressure;
    /// let one = CylinderReading::dry(CylinderLabel::numbered(1), GaugePressure::parse("9.5 bar")?);
    /// assert_eq!(one.wet, None);
    /// # Ok::<(), lashwork::quantity::QuantityError>(())
    /// ```
    #[must_use]
    pub const fn dry(cylinder: CylinderLabel, dry: GaugePressure) -> Self {
        Self {
            cylinder,
            dry,
            wet: None,
            build_up: None,
        }
    }
}
