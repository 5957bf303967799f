//! Internal timing: where the contacts open, and how wide, as two conditions.
//!
//! # Method
//! Each is judged against its own band. Moving the contacts moves both together: a wider gap opens
//! earlier, so nearer to neutral. Contacts that open at the right place with a gap outside its band, or
//! that would have to leave their band to open there, are worn or wrong and are replaced, not moved.
//!
//! # Source
//! A handbook of aircraft power plants for the two conditions and for replacing; a repairer's page for the
//! sense; both named in the tests.

use super::MagnetoError;
use crate::quantity::{ContactGap, MagnetoAngle, QuantityError};
use crate::tolerance::{DecisionRule, Estimate, HasLimits, Judgement, Limits, Measurand, Verdict};
use core::fmt;
use serde::Serialize;

/// How far the magnet's rotor is past its neutral place where the contacts open.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::ignition::magneto::EGap;
/// assert_eq!(EGap::from_degrees(10.0)?.to_string(), "10 deg");
/// assert_eq!(EGap::from_degrees(100.0).unwrap_err().code(), "ignition.e-gap");
/// # Ok::<(), lashwork::ignition::magneto::MagnetoError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize)]
#[serde(transparent)]
pub struct EGap(MagnetoAngle);

impl EGap {
    /// Half the way from one neutral place to the next of a magnet with two poles, where it is in full
    /// register again: no magneto opens there.
    const MOST: f64 = 90.0;

    /// Takes magneto degrees.
    ///
    /// # Errors
    /// [`MagnetoError::EGap`] outside 0 to 90, [`MagnetoError::Quantity`] if not finite.
    pub fn from_degrees(degrees: f64) -> Result<Self, MagnetoError> {
        let angle = MagnetoAngle::from_degrees(degrees)?;
        if (0.0..=Self::MOST).contains(&degrees) {
            Ok(Self(angle))
        } else {
            Err(MagnetoError::EGap {
                got: angle,
                most: Self::MOST,
            })
        }
    }

    /// The angle.
    #[must_use]
    pub const fn angle(self) -> MagnetoAngle {
        self.0
    }
}

impl fmt::Display for EGap {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} deg", self.0.degrees())
    }
}

impl Measurand for EGap {
    const UNIT: &'static str = "deg";
    const MAX_UNCERTAINTY: f64 = 45.0;
    fn number(self) -> f64 {
        self.0.degrees()
    }
    fn from_number(number: f64) -> Result<Self, QuantityError> {
        MagnetoAngle::from_degrees(number).map(Self)
    }
}

/// Too early and too late both cost voltage: simple acceptance.
impl HasLimits for EGap {
    type Printed = Self;
    const USUAL_RULE: DecisionRule = DecisionRule::simple();
    fn printed_number(printed: Self) -> f64 {
        printed.number()
    }
    fn read_printed(text: &str) -> Result<Self, QuantityError> {
        MagnetoAngle::parse(text).map(Self)
    }
}

/// What to do at the contacts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum ContactsAdvice {
    /// Both are right: leave them.
    Leave,
    /// They open too early: set them closer until they open at the right place, then measure the gap again.
    SetCloser,
    /// They open too late: set them wider until they open at the right place, then measure the gap again.
    SetWider,
    /// The gap has no room left, or is wrong where they open right: replace, do not move.
    Replace,
    /// A reading does not decide: measure that one again, better.
    MeasureAgain,
}

/// The two conditions inside a magneto, as read, and their bands.
///
/// ```
/// use lashwork::ignition::magneto::{ContactsAdvice, InternalTiming};
/// use lashwork::tolerance::Estimate;
/// # fn example() -> Result<(), Box<dyn std::error::Error>> {
/// let worn = InternalTiming {
///     e_gap: Estimate::from_numbers(10.0, 10.0, 0.3)?,
///     e_gap_limits: "8 deg to 12 deg".parse()?,
///     gap: Estimate::from_numbers(0.66, 0.66, 0.01)?,
///     gap_limits: "0.012 in to 0.024 in".parse()?,
/// };
/// assert_eq!(worn.judged().advice, ContactsAdvice::Replace);
/// # Ok(())
/// # }
/// # example().unwrap();
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InternalTiming {
    /// Where the contacts open.
    pub e_gap: Estimate<EGap>,
    /// The book's band for it.
    pub e_gap_limits: Limits<EGap>,
    /// The gap with the follower on top of the lobe.
    pub gap: Estimate<ContactGap>,
    /// The book's band for it.
    pub gap_limits: Limits<ContactGap>,
}

/// What came out.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct InternalAnswer {
    /// Where the contacts open.
    pub e_gap: Judgement,
    /// How wide.
    pub gap: Judgement,
    /// What to do.
    pub advice: ContactsAdvice,
}

impl InternalTiming {
    /// Judges both and says what to do.
    #[must_use]
    pub fn judged(&self) -> InternalAnswer {
        let e_gap = self.e_gap.judged_by(&self.e_gap_limits);
        let gap = self.gap.judged_by(&self.gap_limits);
        let advice = match (e_gap.verdict, gap.verdict) {
            (Verdict::InBand, Verdict::InBand) => ContactsAdvice::Leave,
            // Right place, wrong gap; or the gap would have to leave its band even further.
            (Verdict::InBand | Verdict::Below, Verdict::Below)
            | (Verdict::InBand | Verdict::Above, Verdict::Above) => ContactsAdvice::Replace,
            (Verdict::Below, Verdict::InBand | Verdict::Above) => ContactsAdvice::SetCloser,
            (Verdict::Above, Verdict::InBand | Verdict::Below) => ContactsAdvice::SetWider,
            (Verdict::CannotSay, _) | (_, Verdict::CannotSay) => ContactsAdvice::MeasureAgain,
        };
        InternalAnswer { e_gap, gap, advice }
    }
}
