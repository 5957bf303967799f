//! The limits of one kind of valve.

use crate::quantity::shown::by_hand;
use crate::quantity::{Lash, LengthUnit, Marked, Nominal, QuantityError};
use crate::tolerance::{Limits, ToleranceError};
use alloc::format;
use serde::Serialize;

/// What a maker prints of a kind of valve's lash; the rest of its limits is taken.
///
/// ```
/// use lashwork::quantity::Marked;
/// use lashwork::tolerance::Limits;
/// use lashwork::valve::{Printed, ValveLimits};
/// let figure = ValveLimits::figure(Marked::parse("0.10 mm")?, None, None)?;
/// assert_eq!((figure.printed(), figure.set().to_string().as_str()), (Printed::Figure, "0.08 mm to 0.12 mm"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Printed {
    /// A value to set and a band to set it in.
    ValueAndBand,
    /// One figure, no band.
    Figure,
    /// One figure, with a width for its band that the user states.
    FigureWithin,
    /// A range, no value to set.
    Range,
}

/// Share of a single figure by which a setting may be off where the book prints no band.
const FIGURE_SHARE: f64 = 0.2;
/// Least and greatest such width, in millimetres.
const FIGURE_WITHIN_MM: (f64, f64) = (0.02, 0.05);
/// What the width is rounded to: in millimetres, and in inches.
const FIGURE_STEPS: (f64, f64) = (0.005, 0.000_5);

/// The half-width taken for the set band of a book that prints one figure: a fifth of it, from 0.02 to
/// 0.05 mm, rounded to 0.005 mm or 0.0005 in. Using it is an assumption that a job must list.
///
/// # Errors
/// [`QuantityError`] for no length that could be a lash.
///
/// # Source
/// Common practice, no source: what books print that state both lies mostly there.
///
/// ```
/// use lashwork::quantity::Marked;
/// use lashwork::valve::assumed_half_width;
/// let width = |figure| assumed_half_width(Marked::parse(figure).unwrap()).unwrap().to_string();
/// assert_eq!(["0.05 mm", "0.15 mm", "0.40 mm"].map(width), ["0.02 mm", "0.03 mm", "0.05 mm"]);
/// assert_eq!(["0.006 in", "0.012 in"].map(width), ["0.001 in", "0.002 in"]);
/// ```
pub fn assumed_half_width(figure: Marked) -> Result<Marked, QuantityError> {
    let (least, most) = FIGURE_WITHIN_MM;
    let mm = (FIGURE_SHARE * figure.mm()).max(least).min(most);
    let (mm_step, inch_step) = FIGURE_STEPS;
    let rounded = |value: f64, step: f64| libm::rint(value / step) / libm::rint(1.0 / step);
    if figure.unit().is_inch() {
        Marked::from_number(rounded(mm / 25.4, inch_step), "in")
    } else {
        Marked::from_number(rounded(mm, mm_step), "mm")
    }
}

/// A length written in the unit of another.
fn like(mark: Marked, nanometres: i64) -> Result<Marked, QuantityError> {
    let unit = if mark.unit().is_inch() { "in" } else { "mm" };
    let per = if mark.unit().is_inch() {
        25_400_000.0
    } else {
        1_000_000.0
    };
    Marked::from_number(nanometres as f64 / per, unit)
}

/// What a maker prints for the intake or the exhaust valves: the value to set, the band to set to,
/// and, often, a wider band in which an old setting may be left alone.
///
/// ```
/// use lashwork::quantity::Marked;
/// use lashwork::tolerance::Limits;
/// use lashwork::valve::ValveLimits;
/// let mark = |text| Marked::parse(text);
/// let set = Limits::between(mark("0.18 mm")?, mark("0.22 mm")?)?;
/// let leave = Limits::between(mark("0.15 mm")?, mark("0.25 mm")?)?;
/// let intake = ValveLimits::new(mark("0.20 mm")?, set, Some(leave))?;
/// assert_eq!(intake.judging(), &leave);
/// let slip = ValveLimits::new(mark("0.020 in")?, set, None).unwrap_err();
/// assert!(slip.to_string().contains("0.020 in") && slip.to_string().contains("0.18 mm"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct ValveLimits {
    set_to: Marked,
    set: Limits<Lash>,
    leave_alone: Option<Limits<Lash>>,
    printed: Printed,
}

impl ValveLimits {
    /// Takes the value to set, the set band, and the leave-alone band if one is printed. A set band of no
    /// width is a single figure: see [`Self::figure`].
    ///
    /// # Errors
    /// [`ToleranceError::NegativeLimit`], [`ToleranceError::SetToOutsideSet`],
    /// [`ToleranceError::SetOutsideLeaveAlone`].
    pub fn new(
        set_to: Marked,
        set: Limits<Lash>,
        leave_alone: Option<Limits<Lash>>,
    ) -> Result<Self, ToleranceError> {
        if set.width_mm() == Some(0.0) && set.holds(set_to.nominal()) {
            return Self::figure(set_to, leave_alone, None);
        }
        Self::checked(set_to, set, leave_alone, Printed::ValueAndBand)
    }

    /// Takes one figure. Its set band is `within` on both sides of it, or [`assumed_half_width`] if nothing
    /// is stated, no lower than zero and no wider than the leave-alone band.
    ///
    /// # Errors
    /// As [`Self::new`]; [`ToleranceError::Quantity`] for a length that is none.
    ///
    /// ```
    /// use lashwork::quantity::Marked;
    /// use lashwork::valve::ValveLimits;
    /// let mark = |text| Marked::parse(text);
    /// let stated = ValveLimits::figure(mark("0.004 in")?, None, Some(mark("0.0005 in")?))?;
    /// assert_eq!(stated.set().to_string(), "0.0035 in to 0.0045 in");
    /// assert!(!stated.is_band_assumed() && stated.is_band_taken());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn figure(
        figure: Marked,
        leave_alone: Option<Limits<Lash>>,
        within: Option<Marked>,
    ) -> Result<Self, ToleranceError> {
        Self::check(figure)?;
        // No width at all is none that is stated.
        let within = within.filter(|width| width.nominal() != Nominal::ZERO);
        let width = match within {
            Some(width) => width,
            None => assumed_half_width(figure)?,
        };
        Self::check(width)?;
        let (at, width) = (figure.nominal().nanometres(), width.nominal().nanometres());
        let ends = |limits: &Limits<Lash>| (limits.lower(), limits.upper());
        let (least, most) = leave_alone.as_ref().map_or((None, None), ends);
        let end = |nanometres: i64, bound: Option<Marked>, inner: fn(i64, i64) -> i64| match bound {
            Some(bound) if inner(nanometres, bound.nominal().nanometres()) != nanometres => {
                Ok(bound)
            }
            _ => like(figure, nanometres),
        };
        let lower = end((at - width).max(0), least, i64::max)?;
        let upper = end(at + width, most, i64::min)?;
        let printed = match within {
            Some(_) => Printed::FigureWithin,
            None => Printed::Figure,
        };
        Self::checked(figure, Limits::between(lower, upper)?, leave_alone, printed)
    }

    /// Takes a range without a value to set: its middle is taken.
    ///
    /// # Errors
    /// [`ToleranceError::NoValueToSet`] for a range with one end; as [`Self::new`].
    ///
    /// ```
    /// use lashwork::valve::{Printed, ValveLimits};
    /// let range = ValveLimits::range("0.15 mm to 0.20 mm".parse()?, None)?;
    /// assert_eq!((range.set_to().to_string().as_str(), range.printed()), ("0.175 mm", Printed::Range));
    /// assert!(ValveLimits::range("at least 0.15 mm".parse()?, None).is_err());
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn range(
        set: Limits<Lash>,
        leave_alone: Option<Limits<Lash>>,
    ) -> Result<Self, ToleranceError> {
        let (Some(lower), Some(upper)) = (set.lower(), set.upper()) else {
            return Err(ToleranceError::NoValueToSet { set });
        };
        let sum = lower.nominal().nanometres() + upper.nominal().nanometres();
        let middle = like(lower, sum / 2)?;
        if lower.nominal() == upper.nominal() {
            return Self::figure(lower, leave_alone, None);
        }
        Self::checked(middle, set, leave_alone, Printed::Range)
    }

    fn checked(
        set_to: Marked,
        set: Limits<Lash>,
        leave_alone: Option<Limits<Lash>>,
        printed: Printed,
    ) -> Result<Self, ToleranceError> {
        let alone = leave_alone.as_ref();
        for mark in [
            Some(set_to),
            set.lower(),
            set.upper(),
            alone.and_then(Limits::lower),
            alone.and_then(Limits::upper),
        ]
        .into_iter()
        .flatten()
        {
            Self::check(mark)?;
        }
        if !set.holds(set_to.nominal()) {
            return Err(ToleranceError::SetToOutsideSet { set_to, set });
        }
        match leave_alone {
            Some(leave_alone) if !leave_alone.encloses(&set) => {
                Err(ToleranceError::SetOutsideLeaveAlone { set, leave_alone })
            }
            _ => Ok(Self {
                set_to,
                set,
                leave_alone,
                printed,
            }),
        }
    }

    /// Whether a printed length may be a limit of a valve.
    ///
    /// # Errors
    /// [`ToleranceError::NegativeLimit`] below zero.
    pub fn check(limit: Marked) -> Result<(), ToleranceError> {
        if limit.nominal() < Nominal::ZERO {
            return Err(ToleranceError::NegativeLimit { limit });
        }
        Ok(())
    }

    /// The value to set.
    #[must_use]
    pub const fn set_to(&self) -> Marked {
        self.set_to
    }

    /// The band a new setting must lie in.
    #[must_use]
    pub const fn set(&self) -> &Limits<Lash> {
        &self.set
    }

    /// The band in which an old setting may be left alone, if printed.
    #[must_use]
    pub const fn leave_alone(&self) -> Option<&Limits<Lash>> {
        self.leave_alone.as_ref()
    }

    /// The band a found lash is judged against: the leave-alone band, else the set band.
    #[must_use]
    pub fn judging(&self) -> &Limits<Lash> {
        self.leave_alone.as_ref().unwrap_or(&self.set)
    }

    /// What of it is printed.
    #[must_use]
    pub const fn printed(&self) -> Printed {
        self.printed
    }

    /// Whether the set band is not the book's.
    #[must_use]
    pub const fn is_band_taken(&self) -> bool {
        matches!(self.printed, Printed::Figure | Printed::FigureWithin)
    }

    /// Whether the width of the set band is an assumption, which a job must list.
    #[must_use]
    pub const fn is_band_assumed(&self) -> bool {
        matches!(self.printed, Printed::Figure)
    }

    /// The limits where the next leaf above the value to set stands for a lash of `next_mm`. An assumed band
    /// reaches up to it, by at most 0.05 mm: between the two no leaf at hand can show a difference.
    ///
    /// ```
    /// use lashwork::quantity::Marked;
    /// use lashwork::valve::ValveLimits;
    /// let figure = ValveLimits::figure(Marked::parse("0.10 mm")?, None, None)?;
    /// assert_eq!(figure.reaching(Some(0.15)).set().to_string(), "0.08 mm to 0.15 mm");
    /// assert_eq!(figure.reaching(Some(0.30)), figure.reaching(None));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn reaching(&self, next_mm: Option<f64>) -> Self {
        let (_, most) = FIGURE_WITHIN_MM;
        let reach = next_mm.filter(|mm| {
            let over = mm - self.set_to.mm();
            let known = self.set.upper().map_or(0.0, Marked::mm);
            // A last bit of a sum must not decide.
            self.is_band_assumed()
                && self.leave_alone.is_none()
                && *mm > known
                && over <= most + 1e-9
        });
        let wider = reach.and_then(|mm| {
            let nanometres = Nominal::nearest_mm(mm).ok()?.nanometres();
            let upper = like(self.set_to, nanometres).ok()?;
            Limits::between(self.set.lower()?, upper).ok()
        });
        Self {
            set: wider.unwrap_or(self.set),
            ..*self
        }
    }

    /// What was taken of it because the book does not print it, as an assumption says it in a unit.
    ///
    /// ```
    /// use lashwork::quantity::{LengthUnit, Marked};
    /// use lashwork::valve::ValveLimits;
    /// let figure = ValveLimits::figure(Marked::parse("0.10 mm")?, None, None)?;
    /// assert!(figure.taken(LengthUnit::Millimetre).unwrap().contains("0.08 mm to 0.12 mm taken"));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn taken(&self, unit: LengthUnit) -> Option<alloc::string::String> {
        let (figure, set, inches) = (self.set_to, self.set, unit.is_inch());
        match self.printed {
            Printed::ValueAndBand | Printed::FigureWithin => None,
            Printed::Figure => Some(format!(
                "one figure, {figure}, and no band to set it in: {set} taken (a fifth of it, {} to {}; \
                 common practice, no source), and up to the next leaf at hand",
                by_hand(FIGURE_WITHIN_MM.0, inches),
                by_hand(FIGURE_WITHIN_MM.1, inches)
            )),
            Printed::Range => Some(format!(
                "a range, {set}, and no value to set: its middle, {figure}, taken"
            )),
        }
    }
}
