//! Strobe readings at several speeds together: how this distributor follows its curve, and why not.

use crate::boundary::{Outcome, boundary};
use crate::error::lw_error;
use crate::judging::zero;
use crate::pointers::{Record, fill, record, record_place, seen, spare};
use crate::quantity::choose;
use crate::status::lw_status;
use crate::timing::{lw_advance_curve, lw_printed_timing, lw_strobe_columns};
use lashwork::ignition::timing::{
    CurveCause, CurveCauses, CurveFit, CurveReadings, Fitted, PrintedTiming,
};
use lashwork::quantity::{Advance, CrankAngle};
use lashwork::tolerance::Uncertainty;

/// Why a distributor does not follow its curve.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_curve_cause {
    /// The body stands wrong; the advance is sound.
    StaticPointOff = 1,
    /// Springs are weak or stretched: too much advance at a speed.
    SpringsWeak = 2,
    /// Springs are too strong, or the shaft binds: too little.
    SpringsStrong = 3,
    /// Weights or plate stick: erratic, or too little first and then all at once.
    WeightsSticking = 4,
    /// The advance ends too soon or too late: stop, slot or wrong weights.
    EndWrong = 5,
    /// Some of the advance is out at idle already: right there, short at speed. Turning the body does not cure
    /// it.
    UsedUpAtIdle = 6,
    /// The static point was set with the vacuum hose connected.
    SetWithVacuum = 7,
    /// The static figure was set with the engine running where the weights were out.
    SetAtSpeed = 8,
    /// More than one of these, or something not weighed.
    SomethingElse = 9,
}

/// What is known before the readings. There is no default.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_curve_prior {
    /// Size of this structure, `sizeof(lw_curve_prior)`.
    pub struct_size: usize,
    /// Probability of any fault of the advance, above 0 and below 1.
    pub fault: f64,
    /// What the vacuum capsule gives at idle in crank degrees; ignored if it is not known.
    pub capsule_deg: f64,
    /// Its standard uncertainty in crank degrees, 0 or more; ignored if it is not known.
    pub capsule_uncertainty_deg: f64,
    /// 1 if it is known what the capsule gives, else 0.
    pub capsule_known: u32,
    /// Reserved: zero; any other number is refused, so that a later release can use it.
    pub reserved: u32,
}

/// The curve as this distributor follows it: `static + min(scale x table, end)`, by least squares. What the
/// readings do not tell is NaN.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_curve_fit {
    /// Size of this structure, `sizeof(lw_curve_fit)`.
    pub struct_size: usize,
    /// The static point in crank degrees before top dead centre, negative after it.
    pub static_btdc_deg: f64,
    /// Its standard uncertainty in crank degrees, with what all readings share.
    pub static_uncertainty_deg: f64,
    /// How many times the printed advance it has on the rise: above 1 for springs that give way too much.
    pub scale: f64,
    /// Its standard uncertainty.
    pub scale_uncertainty: f64,
    /// The advance where it ends, in crank degrees over the static point.
    pub end_deg: f64,
    /// Its standard uncertainty in crank degrees.
    pub end_uncertainty_deg: f64,
    /// Scatter of the readings over their uncertainties.
    pub scatter: f64,
    /// Readings more than the fit needs.
    pub degrees_of_freedom: usize,
}

// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_curve_prior {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_curve_fit {
    const FIRST_SIZE: usize = size_of::<Self>();
}

impl From<&CurveFit> for lw_curve_fit {
    fn from(fit: &CurveFit) -> Self {
        let start = fit.static_point();
        let scale = fit.scale().unwrap_or(Fitted {
            value: f64::NAN,
            u: f64::NAN,
        });
        let end = fit
            .end()
            .map_or((f64::NAN, f64::NAN), |end| (end.value.degrees(), end.u));
        Self {
            struct_size: 0,
            static_btdc_deg: start.value.degrees_before(),
            static_uncertainty_deg: start.u,
            scale: scale.value,
            scale_uncertainty: scale.u,
            end_deg: end.0,
            end_uncertainty_deg: end.1,
            scatter: fit.scatter().unwrap_or(f64::NAN),
            degrees_of_freedom: fit.degrees_of_freedom(),
        }
    }
}

impl lw_curve_prior {
    /// What the capsule gives, and the probability of a fault.
    fn typed(&self) -> Outcome<(Option<(CrankAngle, f64)>, f64)> {
        zero("prior.reserved", self.reserved)?;
        let known = [(0, false), (1, true)];
        let capsule = if choose("prior.capsule_known", self.capsule_known, &known)? {
            let gives = CrankAngle::from_degrees(self.capsule_deg)?;
            let u = Uncertainty::<Advance>::from_number(self.capsule_uncertainty_deg)?;
            Some((gives, u.number()))
        } else {
            None
        };
        Ok((capsule, self.fault))
    }
}

const CAUSES: [(lw_curve_cause, CurveCause); CurveCause::ALL.len()] = [
    (lw_curve_cause::StaticPointOff, CurveCause::StaticPointOff),
    (lw_curve_cause::SpringsWeak, CurveCause::SpringsWeak),
    (lw_curve_cause::SpringsStrong, CurveCause::SpringsStrong),
    (lw_curve_cause::WeightsSticking, CurveCause::WeightsSticking),
    (lw_curve_cause::EndWrong, CurveCause::EndWrong),
    (lw_curve_cause::UsedUpAtIdle, CurveCause::UsedUpAtIdle),
    (lw_curve_cause::SetWithVacuum, CurveCause::SetWithVacuum),
    (lw_curve_cause::SetAtSpeed, CurveCause::SetAtSpeed),
    (lw_curve_cause::SomethingElse, CurveCause::SomethingElse),
];

/// The readings beside the printed curve.
///
/// # Safety
/// The structures state their size, or are NULL; their columns have the rows they say.
unsafe fn beside(
    readings: *const lw_strobe_columns,
    curve: *const lw_advance_curve,
    printed: *const lw_printed_timing,
) -> Outcome<CurveReadings> {
    // SAFETY: passed on under the same contract.
    let (readings, curve, printed) = unsafe {
        (
            record("readings", readings)?.typed()?,
            record("curve", curve)?.typed()?,
            record("printed", printed)?,
        )
    };
    let (limits, holds_for) = (printed.limits()?, printed.holds_for()?);
    let book = PrintedTiming::new(limits, holds_for, Some(&curve), None)?;
    let taken = readings.readings();
    let taken = taken.map_err(|(row, why)| Box::<lw_error>::from(why).at_row(row))?;
    Ok(CurveReadings::new(&book, &taken)?)
}

/// Fits the curve as this distributor follows it to strobe readings at several speeds.
///
/// `readings` are 2 to 100, in any order, without vacuum; their uncertainties above 0 are those by which one
/// differs from another. `printed` needs a limit. A row that is no reading refuses the call, and the error
/// names it (`lw_error_row`). The verdict on each reading by itself is that of `lw_judge_strobe_columns`.
/// `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
/// writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_fit_advance_curve(
    readings: *const lw_strobe_columns,
    curve: *const lw_advance_curve,
    printed: *const lw_printed_timing,
    fit: *mut lw_curve_fit,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (readings, fit) =
            unsafe { (beside(readings, curve, printed)?, record_place("fit", fit)?) };
        fit.write(&(&CurveFit::new(&readings)?).into());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Weighs why a distributor does not follow its curve, by strobe readings at several speeds.
///
/// `probability` gets one number for each cause, at the number of its `lw_curve_cause`, and at 0 the probability
/// that nothing is wrong; together they are 1. NaN stands at a cause that these readings could not show. It has
/// room for `capacity` numbers and may be NULL if that is 0; `count` gets how many there are. `readings` as in
/// `lw_fit_advance_curve`. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; their columns have the rows they say; `probability` is
/// writable for `capacity` numbers; `count` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_weigh_advance_curve(
    readings: *const lw_strobe_columns,
    curve: *const lw_advance_curve,
    printed: *const lw_printed_timing,
    prior: *const lw_curve_prior,
    probability: *mut f64,
    capacity: usize,
    count: *mut usize,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (readings, (capsule, fault)) = unsafe {
            (
                beside(readings, curve, printed)?,
                seen("prior", prior, &mut spare())?.typed()?,
            )
        };
        let found = CurveCauses::weigh(&readings, capsule, fault)?;
        let mut all = [f64::NAN; CAUSES.len() + 1];
        let weighed = found.causes.iter().filter_map(|one| {
            let (number, _) = CAUSES.iter().find(|(_, cause)| *cause == one.cause)?;
            Some((*number as usize, one.posterior))
        });
        for (place, value) in [(0, found.sound)].into_iter().chain(weighed) {
            if let Some(number) = all.get_mut(place) {
                *number = value;
            }
        }
        // SAFETY: as above.
        unsafe { fill("probability", &all, (probability, capacity), count) }
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
