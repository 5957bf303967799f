//! Where in the band to set the dwell.
//!
//! The block of new contacts wears in, the gap closes and the dwell grows, so that new ones are set to the
//! low end of the band (the gap to the wide end). Low means here: as low as a setting may be that lies below the band with at most
//! 5 %; all the rest of the band is then left for wear.

use super::{BreakerAssumption, BreakerError, Contacts, Dwell, DwellChange};
use crate::ignition::aim::{high_end, low_end, middle};
use crate::quantity::ContactGap;
use crate::tolerance::{Estimate, Limits, Uncertainty};
use alloc::vec::Vec;
use serde::Serialize;

/// By how much the dwell grows while the block of new contacts wears in: anywhere from least to most.
///
/// ```
/// use lashwork::ignition::breaker::{DwellChange, WearIn};
/// let grown = |deg| DwellChange::from_degrees(deg).unwrap();
/// assert!(WearIn::new(grown(1.0), grown(2.0)).is_ok());
/// assert!(WearIn::new(grown(-1.0), grown(2.0)).is_err());
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WearIn {
    from: DwellChange,
    to: DwellChange,
}

impl WearIn {
    /// What is taken where nothing is stated: a degree or two.
    ///
    /// # Source
    /// An owner's letter on a British roadster (1997): a fibre block's wear retards the spark a degree or
    /// two within the first hundred miles, which is as many degrees of dwell.
    pub const ASSUMED: Self = Self {
        from: DwellChange::computed(1.0),
        to: DwellChange::computed(2.0),
    };

    /// Takes the least and the most.
    ///
    /// # Errors
    /// [`BreakerError::WearIn`] below zero or the wrong way round.
    pub fn new(from: DwellChange, to: DwellChange) -> Result<Self, BreakerError> {
        if from.degrees() >= 0.0 && from <= to {
            Ok(Self { from, to })
        } else {
            Err(BreakerError::WearIn { from, to })
        }
    }
}

/// Where to set the dwell, and what becomes of it.
///
/// ```
/// use lashwork::ignition::breaker::{Contacts, Dwell, dwell_aim};
/// use lashwork::tolerance::Uncertainty;
/// let band = "57 deg to 63 deg".parse()?;
/// let meter = Uncertainty::from_number(0.5)?;
/// let new = dwell_aim(&band, meter, Some(Contacts::New), None)?;
/// // 1.645 standard uncertainties over the lower limit, and safe when worn in.
/// assert!((new.set_to.degrees() - 57.822).abs() < 5e-4);
/// assert!(new.kept && new.in_band_worn_in > 0.99);
/// let worn = dwell_aim(&band, meter, Some(Contacts::WornFlat), None)?;
/// assert_eq!(worn.set_to, Dwell::from_degrees(60.0)?);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct DwellAim {
    /// What to set.
    pub set_to: Dwell,
    /// How probable it is that the dwell then lies in the band.
    pub in_band_now: f64,
    /// How probable that is after the block has worn in; for worn contacts the same.
    pub in_band_worn_in: f64,
    /// How much the dwell may still grow until it leaves the band.
    pub room_to_wear: DwellChange,
    /// Whether both probabilities reach 90 %; where not, the band is too narrow for this meter.
    pub kept: bool,
    /// What is taken for granted.
    pub assumptions: Vec<BreakerAssumption>,
}

/// Where to set the dwell, read with standard uncertainty `u`: new contacts as low in the band as is safe,
/// others to the middle. A band too narrow for both gets the middle less half of the mean wear.
///
/// # Errors
/// [`BreakerError::BandWithOneEnd`].
///
/// # Source
/// New contacts to the low end because the block wears in and dwell grows: a maker's manual, p. 391 of the
/// copy. How low is this library's rule.
pub fn dwell_aim(
    band: &Limits<Dwell>,
    u: Uncertainty<Dwell>,
    contacts: Option<Contacts>,
    wear_in: Option<WearIn>,
) -> Result<DwellAim, BreakerError> {
    /// What both probabilities are to reach: 5 % left to each side.
    const ENOUGH: f64 = 0.9;
    let none = || BreakerError::BandWithOneEnd;
    let middle = middle(band).ok_or_else(none)?;
    let upper = band.upper().ok_or_else(none)?;
    let is_new = contacts == Some(Contacts::New);
    let wear = wear_in.unwrap_or(WearIn::ASSUMED);
    let chances = |at: f64| -> Result<(f64, f64), BreakerError> {
        let set = Dwell::from_degrees(at)?;
        let in_band = |low, high| -> Result<f64, BreakerError> {
            let there = Estimate::between(low, high, u)?;
            Ok(there.probabilities(band).in_band.least)
        };
        let now = in_band(set, set)?;
        let later = if is_new {
            in_band(set + wear.from, set + wear.to)?
        } else {
            now
        };
        Ok((now, later))
    };
    let mut at = middle;
    if is_new {
        at = low_end(band, u.number()).ok_or_else(none)?;
        let (now, later) = chances(at)?;
        if now.min(later) < ENOUGH {
            at = middle - 0.25 * (wear.from.degrees() + wear.to.degrees());
        }
    }
    let (now, later) = chances(at)?;
    let mut assumptions = Vec::new();
    match (contacts, wear_in) {
        (None, _) => assumptions.push(BreakerAssumption::ContactsFlat),
        (Some(Contacts::New), None) => assumptions.push(BreakerAssumption::WearIn {
            from: wear.from,
            to: wear.to,
        }),
        _ => {}
    }
    let set_to = Dwell::from_degrees(at)?;
    Ok(DwellAim {
        set_to,
        in_band_now: now,
        in_band_worn_in: later,
        room_to_wear: upper - set_to,
        kept: now.min(later) >= ENOUGH,
        assumptions,
    })
}

/// Where to set the gap where no dwell is printed, set with standard uncertainty `u`: new contacts to the
/// wide end of the band, because the block wears in and the gap closes; others to the middle.
///
/// # Errors
/// [`BreakerError::BandWithOneEnd`].
///
/// # Source
/// As [`dwell_aim`]: the low end of the dwell is the wide end of the gap.
///
/// ```
/// use lashwork::ignition::breaker::{Contacts, gap_aim};
/// use lashwork::tolerance::Uncertainty;
/// let (band, leaf) = ("0.35 mm to 0.45 mm".parse()?, Uncertainty::from_number(0.01)?);
/// let new = gap_aim(&band, leaf, Some(Contacts::New))?;
/// assert!((new.mm() - 0.43355).abs() < 1e-5);
/// let worn = gap_aim(&band, leaf, Some(Contacts::WornFlat))?;
/// assert!((worn.mm() - 0.40).abs() < 1e-12);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn gap_aim(
    band: &Limits<ContactGap>,
    u: Uncertainty<ContactGap>,
    contacts: Option<Contacts>,
) -> Result<ContactGap, BreakerError> {
    let at = match contacts {
        Some(Contacts::New) => high_end(band, u.number()),
        _ => middle(band),
    };
    Ok(ContactGap::from_mm(
        at.ok_or(BreakerError::BandWithOneEnd)?,
    )?)
}
