//! Speed of the engine at several places of the mixture screw: where it is highest.

use crate::boundary::{Outcome, boundary};
use crate::error::lw_error;
use crate::judging::zero;
use crate::pointers::{Record, items, place, record, record_place};
use crate::quantity::choose;
use crate::status::lw_status;
use lashwork::mixture::idle::{Crown, IdleCurve, IdleReading, MixtureScrew, Side};
use lashwork::quantity::{CrankSpeed, TurnsOut};
use lashwork::tolerance::Uncertainty;

/// What a mixture screw does. There is no default.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_mixture_screw {
    /// It lets in fuel, or mixture: out is richer.
    Fuel = 1,
    /// It lets in air: out is leaner.
    Air = 2,
}

/// A side of the place where the speed is highest; 0 stands for neither.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_mixture_side {
    /// Less fuel.
    Lean = 1,
    /// More fuel.
    Rich = 2,
}

/// Steady speeds at places of the mixture screw, in any order; throttle stop untouched, engine warm.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_idle_readings {
    /// Size of this structure, `sizeof(lw_idle_readings)`.
    pub struct_size: usize,
    /// How many, 4 to 24, at 3 different places or more.
    pub rows: usize,
    /// Turns out from where the screw seats lightly, 0 to 100.
    pub turns_out: *const f64,
    /// Speeds of the crank in turns a minute, above 0.
    pub rpm: *const f64,
    /// Standard deviation of a single speed in turns a minute; 0 if it is to be seen from the readings.
    pub scatter_rpm: f64,
    /// What the screw does: a value of `lw_mixture_screw`.
    pub screw: u32,
    /// Reserved: zero; any other number is refused, so that a later release can use it.
    pub reserved: u32,
}

/// The top of the parabola through the readings. Where they do not show it, `seen` is 0 and its numbers are NaN.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_idle_crown {
    /// Size of this structure, `sizeof(lw_idle_crown)`.
    pub struct_size: usize,
    /// Where the speed is highest, in turns out.
    pub best_turns: f64,
    /// Its standard uncertainty in turns.
    pub best_uncertainty_turns: f64,
    /// With 95 % it is from here.
    pub from_turns: f64,
    /// To here.
    pub to_turns: f64,
    /// The speed there in turns a minute.
    pub speed_rpm: f64,
    /// Its standard uncertainty in turns a minute.
    pub speed_uncertainty_rpm: f64,
    /// How lopsided the readings are: the cubic coefficient over its standard uncertainty; NaN if there are too few
    /// to tell.
    pub lopsided: f64,
    /// 1 if they are clearly more lopsided than a parabola, with 95 %, else 0: the best place may then be off by more
    /// than is stated; read closer to it.
    pub clearly_lopsided: u32,
    /// 1 if the readings show where the speed is highest, else 0.
    pub seen: u32,
    /// If they do not: the side on which it still rises, a value of `lw_mixture_side`, or 0 if they do not show that
    /// either.
    pub rises_toward: u32,
    /// Zero.
    pub reserved: u32,
}

// SAFETY: repr(C), the size in front, integers, floats and raw pointers only.
unsafe impl Record for lw_idle_readings {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_idle_crown {
    const FIRST_SIZE: usize = size_of::<Self>();
}

const fn side(side: Side) -> lw_mixture_side {
    match side {
        Side::Lean => lw_mixture_side::Lean,
        Side::Rich => lw_mixture_side::Rich,
    }
}

impl lw_idle_readings {
    /// # Safety
    /// The columns have the rows they say.
    unsafe fn fitted(&self) -> Outcome<IdleCurve> {
        zero("readings.reserved", self.reserved)?;
        let screws = [
            (lw_mixture_screw::Fuel as u32, MixtureScrew::Fuel),
            (lw_mixture_screw::Air as u32, MixtureScrew::Air),
        ];
        let screw = choose("readings.screw", self.screw, &screws)?;
        // SAFETY: passed on under the same contract.
        let (places, speeds) = unsafe {
            (
                items("readings.turns_out", self.turns_out, self.rows)?,
                items("readings.rpm", self.rpm, self.rows)?,
            )
        };
        let rows = places.iter().zip(speeds).enumerate();
        let readings: Outcome<Vec<IdleReading>> = rows
            .map(|(row, (turns, rpm))| {
                let one = || -> Outcome<IdleReading> {
                    Ok(IdleReading {
                        place: TurnsOut::from_turns(*turns)?,
                        speed: CrankSpeed::from_rpm(*rpm)?,
                    })
                };
                one().map_err(|why| why.at_row(row))
            })
            .collect();
        // A scatter of nought counts as none stated.
        let scatter = Uncertainty::from_number(self.scatter_rpm)?;
        Ok(IdleCurve::fitted(&readings?, Some(scatter), screw)?)
    }
}

impl lw_idle_crown {
    fn of(curve: &IdleCurve) -> Outcome<Self> {
        let nothing = Self {
            struct_size: 0,
            best_turns: f64::NAN,
            best_uncertainty_turns: f64::NAN,
            from_turns: f64::NAN,
            to_turns: f64::NAN,
            speed_rpm: f64::NAN,
            speed_uncertainty_rpm: f64::NAN,
            lopsided: curve.lopsided().map_or(f64::NAN, |it| it.over_uncertainty),
            clearly_lopsided: curve.lopsided().map_or(0, |it| u32::from(it.clear)),
            seen: 0,
            rises_toward: 0,
            reserved: 0,
        };
        Ok(match curve.crown()? {
            Crown::Seen(top) => Self {
                best_turns: top.best.value.turns(),
                best_uncertainty_turns: top.best.standard_uncertainty.number(),
                from_turns: top.from.turns(),
                to_turns: top.to.turns(),
                speed_rpm: top.speed.value.rpm(),
                speed_uncertainty_rpm: top.speed.standard_uncertainty.number(),
                seen: 1,
                ..nothing
            },
            Crown::NotSeen(none) => Self {
                rises_toward: none.rises_toward.map_or(0, |toward| side(toward) as u32),
                ..nothing
            },
        })
    }
}

/// Fits a parabola to speeds at places of the mixture screw: where the speed is highest, if the readings show that.
///
/// Taken for granted: that the curve is a parabola, and that nothing else was moved between the readings. A row
/// that is no reading refuses the call, and the error names it (`lw_error_row`). `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
/// writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_fit_idle_curve(
    readings: *const lw_idle_readings,
    crown: *mut lw_idle_crown,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (curve, crown) = unsafe {
            (
                record("readings", readings)?.fitted()?,
                record_place("crown", crown)?,
            )
        };
        crown.write(&lw_idle_crown::of(&curve)?);
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Where the speed is so many turns a minute under the highest, in turns out of the screw, with the standard
/// uncertainty: what a book calls the lean drop.
///
/// `side` is a value of `lw_mixture_side`; `under_rpm` is above 0. Refused where the readings do not show where the
/// speed is highest. `readings` as in `lw_fit_idle_curve`. `error` may be NULL. Any thread.
///
/// # Safety
/// `readings` states its size, or is NULL, and its columns have the rows they say; the outputs are writable or
/// NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_idle_beside(
    readings: *const lw_idle_readings,
    side: u32,
    under_rpm: f64,
    turns_out: *mut f64,
    uncertainty_turns: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        let sides = [
            (lw_mixture_side::Lean as u32, Side::Lean),
            (lw_mixture_side::Rich as u32, Side::Rich),
        ];
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (curve, turns, u) = unsafe {
            (
                record("readings", readings)?.fitted()?,
                place("turns_out", turns_out)?,
                place("uncertainty_turns", uncertainty_turns)?,
            )
        };
        let found = curve.beside(choose("side", side, &sides)?, under_rpm)?;
        turns.write(found.value.turns());
        u.write(found.standard_uncertainty.number());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
