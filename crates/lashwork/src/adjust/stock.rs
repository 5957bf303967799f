//! Shims on hand: the tin on the shelf.
//!
//! A shim has a size marked on it and, once it has run, a thickness of its own. The mark is exact and
//! names the shim; the measured thickness, where there is one, is what the lash follows.

use super::ShimSeries;
use crate::Refusal;
use crate::quantity::{LengthUnit, Marked, ShimThickness};
use crate::tolerance::Uncertainty;
use alloc::borrow::Cow;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Why a shim cannot be in the stock.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::adjust::StockShim;
/// use lashwork::quantity::Marked;
/// let refused = StockShim::new(Marked::parse("2.50 mm")?, None, -1, None).unwrap_err();
/// assert_eq!(refused.code(), "adjust.stock-count");
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum StockError {
    /// Pieces are counted from none upward.
    #[error("{count} shims of {size} are not 0 to {max}")]
    Count {
        /// The count.
        count: i64,
        /// The size as typed.
        size: Marked,
        /// Most pieces of all sizes together.
        max: u32,
    },
    /// No shim is that thick.
    #[error("the size {size} is outside {min} to {max} mm")]
    Size {
        /// The size as typed.
        size: Marked,
        /// Least size in millimetres.
        min: f64,
        /// Greatest size in millimetres.
        max: f64,
    },
    /// The size lies beyond the ends of the series.
    #[error("the size {size} is outside the series {first} to {last}")]
    OutsideSeries {
        /// The size as typed.
        size: Marked,
        /// The thinnest shim of the series.
        first: Marked,
        /// The thickest shim of the series.
        last: Marked,
    },
    /// The measured thickness belongs to another size.
    #[error("a shim marked {size} measures {measured}, more than {within} mm off")]
    MeasuredFarOff {
        /// The size as typed.
        size: Marked,
        /// What it measures.
        measured: String,
        /// Most it may be off, in millimetres.
        within: f64,
    },
    /// The same size is listed twice.
    #[error("shims of {size} that measure the same are listed twice")]
    Twice {
        /// The size as typed.
        size: Marked,
    },
    /// More shims than a workshop keeps.
    #[error("{total} shims in all are more than {max}")]
    TooMany {
        /// Pieces of all sizes together.
        total: u32,
        /// Most that are accepted.
        max: u32,
    },
}

impl Refusal for StockError {
    fn code(&self) -> &'static str {
        match self {
            Self::Count { .. } => "adjust.stock-count",
            Self::Size { .. } => "adjust.stock-size",
            Self::OutsideSeries { .. } => "adjust.stock-outside-series",
            Self::MeasuredFarOff { .. } => "adjust.stock-measured",
            Self::Twice { .. } => "adjust.stock-twice",
            Self::TooMany { .. } => "adjust.stock-too-many",
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::Count { .. } => {
                "count the pieces of this size; leave the size out if there are none"
            }
            Self::Size { .. } => "give the size marked on the shim, with its unit",
            Self::OutsideSeries { first, last, .. } => {
                return Cow::Owned(alloc::format!(
                    "sizes run from {first} to {last}; check the mark, or leave the shim out"
                ));
            }
            Self::MeasuredFarOff { .. } => "check the mark and the measured thickness",
            Self::Twice { .. } => "add up the counts, or give each its measured thickness",
            Self::TooMany { .. } => "list the sizes near those that are fitted",
        })
    }
}

/// Shims of one size on hand.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct StockShim {
    /// The size marked on them.
    pub size: Marked,
    /// What they measure, if measured; else they are taken at their mark.
    pub measured: Option<ShimThickness>,
    /// How many there are.
    pub count: u32,
    /// Standard uncertainty of the thickness, if known.
    pub uncertainty: Option<Uncertainty<ShimThickness>>,
}

impl StockShim {
    /// Most a measured thickness may be off its mark, in millimetres; wear is far less, a neighbouring
    /// mark read wrongly is more.
    pub const MEASURED_WITHIN_MM: f64 = 0.2;

    /// Shims of one size.
    ///
    /// # Errors
    /// [`StockError::Count`] for a negative count or one over [`ShimStock::MAX_PIECES`];
    /// [`StockError::Size`] for a size no shim has; [`StockError::MeasuredFarOff`].
    ///
    /// ```
    /// use lashwork::Refusal;
    /// use lashwork::adjust::StockShim;
    /// use lashwork::quantity::Marked;
    /// let two = StockShim::new(Marked::parse("2.75 mm")?, None, 2, None)?;
    /// assert_eq!(two.thickness()?.mm(), 2.75);
    /// let minus = StockShim::new(Marked::parse("2.75 mm")?, None, -1, None);
    /// assert_eq!(minus.unwrap_err().code(), "adjust.stock-count");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn new(
        size: Marked,
        measured: Option<ShimThickness>,
        count: i64,
        uncertainty: Option<Uncertainty<ShimThickness>>,
    ) -> Result<Self, StockError> {
        let max = ShimStock::MAX_PIECES;
        let Some(counted) = u32::try_from(count).ok().filter(|c| *c <= max) else {
            return Err(StockError::Count { count, size, max });
        };
        let shim = Self {
            size,
            measured,
            count: counted,
            uncertainty,
        };
        shim.thickness()?;
        let within = Self::MEASURED_WITHIN_MM;
        match measured {
            Some(m) if libm::fabs(m.mm() - size.mm()) > within => {
                let measured = m.show(LengthUnit::Millimetre, 4);
                Err(StockError::MeasuredFarOff {
                    size,
                    measured,
                    within,
                })
            }
            _ => Ok(shim),
        }
    }

    /// What the lash follows: the measured thickness, else the mark.
    ///
    /// # Errors
    /// [`StockError::Size`] for a size no shim has.
    pub fn thickness(&self) -> Result<ShimThickness, StockError> {
        let marked = ShimThickness::from_nominal(self.size.nominal());
        self.measured
            .map_or(marked, Ok)
            .map_err(|_| StockError::Size {
                size: self.size,
                min: ShimThickness::MIN_MM,
                max: ShimThickness::MAX_MM,
            })
    }
}

/// All shims on hand.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::adjust::{ShimStock, StockShim};
/// use lashwork::quantity::Marked;
/// let two = StockShim::new(Marked::parse("2.75 mm")?, None, 2, None)?;
/// assert_eq!(ShimStock::new(vec![two], None).unwrap().shims().len(), 1);
/// let faults = ShimStock::new(vec![two, two], None).unwrap_err();
/// assert_eq!((faults[0].0, faults[0].1.code()), (1, "adjust.stock-twice"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ShimStock(Vec<StockShim>);

impl ShimStock {
    /// Most pieces in all.
    pub const MAX_PIECES: u32 = 500;

    /// The stock, every size once, within the ends of the series if there is one. Sizes between those
    /// of the series are accepted: tins are mixed.
    ///
    /// # Errors
    /// Every fault with the index of its shim: [`StockError::Twice`],
    /// [`StockError::OutsideSeries`], [`StockError::TooMany`] at the shim that makes it so.
    pub fn new(
        shims: Vec<StockShim>,
        series: Option<&ShimSeries>,
    ) -> Result<Self, Vec<(usize, StockError)>> {
        let (mut faults, mut total) = (Vec::new(), 0_u32);
        for (i, shim) in shims.iter().enumerate() {
            let size = shim.size;
            let is_same = |other: &StockShim| {
                other.size.nominal() == size.nominal() && other.measured == shim.measured
            };
            if shims.iter().take(i).any(is_same) {
                faults.push((i, StockError::Twice { size }));
            }
            if let Some((first, last)) = series.map(ShimSeries::ends)
                && !(first.nominal()..=last.nominal()).contains(&size.nominal())
            {
                faults.push((i, StockError::OutsideSeries { size, first, last }));
            }
            let before = total;
            total = total.saturating_add(shim.count);
            let max = Self::MAX_PIECES;
            if before <= max && total > max {
                faults.push((i, StockError::TooMany { total, max }));
            }
        }
        if faults.is_empty() {
            Ok(Self(shims))
        } else {
            Err(faults)
        }
    }

    /// The shims, in the order given.
    #[must_use]
    pub fn shims(&self) -> &[StockShim] {
        &self.0
    }
}
