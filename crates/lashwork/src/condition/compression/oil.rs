//! Oil on the piston takes room: it raises a sound cylinder too.

use super::{CompressionError, Cranking};
use crate::quantity::Volume;

/// Most of the room over the piston that oil may fill.
const MOST: f64 = 0.8;

/// How much oil was added, and to how large a cylinder.
///
/// ```
/// use lashwork::condition::compression::{Cranking, OilAdded};
/// use lashwork::engine::CompressionRatio;
/// use lashwork::quantity::Volume;
/// let engine = Cranking {
///     ratio: CompressionRatio::new(8.0)?, ratio_u: 0.0, crank: None, intake_closes_abdc: None, air: None,
/// };
/// // A tablespoon in a cylinder of 500 ml and in one of 125 ml.
/// let spoon = |swept| OilAdded { oil: Volume::parse("15 ml").unwrap(), swept };
/// let large = spoon(Volume::parse("500 ml")?).raises(&engine, 1.22)?;
/// assert!(large > 0.30 && large < 0.40);
/// assert!(spoon(Volume::parse("125 ml")?).raises(&engine, 1.22).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OilAdded {
    /// Oil in each cylinder.
    pub oil: Volume,
    /// Volume that one piston sweeps.
    pub swept: Volume,
}

impl OilAdded {
    /// By which part the oil raises what the gauge shows of a sound cylinder, by the room it takes alone.
    ///
    /// # Errors
    /// [`CompressionError::OilFills`] if it fills more than 0.8 of the room the piston leaves; as
    /// [`Cranking::effective_ratio`].
    ///
    /// # Source
    /// `r' = (V r - V_oil) / (V - V_oil)` with the volume `V` over the piston at the top.
    pub fn raises(&self, engine: &Cranking, exponent: f64) -> Result<f64, CompressionError> {
        let room = self.swept.millilitres() / (engine.ratio.get() - 1.0);
        let oil = self.oil.millilitres();
        if oil > MOST * room || room <= 0.0 {
            return Err(CompressionError::OilFills { oil, room });
        }
        let ratio = engine.effective_ratio()?;
        let with_oil = (room * ratio - oil) / (room - oil);
        let rise = |ratio: f64| libm::pow(ratio, exponent) - 1.0;
        Ok(rise(with_oil) / rise(ratio) - 1.0)
    }
}
