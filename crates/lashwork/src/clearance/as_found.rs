//! What was found at one valve, as taken: before it is set, or after.

use crate::feeler::{FeelerError, GaugeUse, Hollow, Reading, ReadingEstimate};
use crate::quantity::{LengthUnit, Marked, ShimThickness};
use crate::tolerance::Uncertainty;
use alloc::format;
use alloc::string::{String, ToString};

/// What was found at one valve, as taken: before it is set, or after.
///
/// ```
/// use lashwork::clearance::AsFound;
/// use lashwork::feeler::{GaugeUse, Leaf, Reading, Stack};
/// use lashwork::quantity::Marked;
/// let one = |text| Stack::new(vec![Leaf::new(Marked::parse(text).unwrap())]);
/// let found = AsFound::new(Reading::between(one("0.12 mm")?, one("0.15 mm")?)?);
/// let felt = found.estimate(&GaugeUse::default())?;
/// assert_eq!(felt.estimate.low().map(|lash| lash.mm()), Some(0.12));
/// assert!(felt.assumed.tolerance.is_some() && !found.in_inches());
/// # Ok::<(), lashwork::feeler::FeelerError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct AsFound {
    /// What the leaves said.
    pub reading: Reading,
    /// Standard uncertainty of the hand at this valve; if not stated, that of the gauge's use.
    pub hand: Option<Marked>,
    /// A hollow worn into the pad, if one was found.
    pub hollow: Option<Hollow>,
    /// The shim that sits there, if known.
    pub shim: Option<ShimThickness>,
    /// Standard uncertainty of that thickness, if known.
    pub shim_uncertainty: Option<Uncertainty<ShimThickness>>,
    /// The unit in which the lash is said; if not stated, that of the leaves.
    pub shown_in: Option<LengthUnit>,
}

impl AsFound {
    /// A reading and nothing else.
    #[must_use]
    pub const fn new(reading: Reading) -> Self {
        Self {
            reading,
            hand: None,
            hollow: None,
            shim: None,
            shim_uncertainty: None,
            shown_in: None,
        }
    }

    /// The same for a valve that was set after `before` was found: a hollow in its pad is still there unless
    /// another one is stated.
    ///
    /// ```
    /// use lashwork::clearance::AsFound;
    /// use lashwork::feeler::{Hollow, Leaf, Reading, Stack};
    /// use lashwork::quantity::Marked;
    /// let leaf = |text| -> Result<_, Box<dyn std::error::Error>> {
    ///     Ok(Stack::new(vec![Leaf::new(Marked::parse(text)?)])?)
    /// };
    /// let mut found = AsFound::new(Reading::goes(leaf("0.10 mm")?));
    /// let (depth, uncertainty) = (Marked::parse("0.03 mm")?, Marked::parse("0.01 mm")?);
    /// found.hollow = Some(Hollow { depth, uncertainty });
    /// let left = AsFound::new(Reading::goes(leaf("0.15 mm")?)).set_after(&found);
    /// assert_eq!(left.words(), "0.15 mm goes; a hollow of 0.03 mm is added");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn set_after(self, before: &Self) -> Self {
        Self {
            hollow: self.hollow.or(before.hollow),
            ..self
        }
    }

    /// The gap it stands for.
    ///
    /// # Errors
    /// [`FeelerError`]: a hollow or a hand below zero, a gap that cannot be a lash.
    pub fn estimate(&self, used: &GaugeUse) -> Result<ReadingEstimate, FeelerError> {
        let hand = self.hand.or(used.hand);
        let here = GaugeUse { hand, ..*used };
        self.reading.estimate_with(&here, self.hollow)
    }

    /// The reading in words.
    #[must_use]
    pub fn words(&self) -> String {
        match self.hollow {
            Some(h) => format!("{}; a hollow of {} is added", self.reading, h.depth),
            None => self.reading.to_string(),
        }
    }

    /// Whether the lash is said in inches: asked for, or a leaf of the reading is marked so.
    #[must_use]
    pub fn in_inches(&self) -> bool {
        if let Some(unit) = self.shown_in {
            return unit.is_inch();
        }
        let leaves = self.reading.stack().leaves();
        leaves.iter().any(|leaf| leaf.mark.unit().is_inch())
    }

    /// The unit of the first leaf.
    #[must_use]
    pub fn marked_in(&self) -> LengthUnit {
        let first = self.reading.stack().leaves().first();
        first.map_or(LengthUnit::Millimetre, |leaf| leaf.mark.unit())
    }
}
