//! Exhaust gas: lambda of one analysis.

use crate::boundary::{Outcome, boundary};
use crate::error::lw_error;
use crate::fuel::lw_fuel;
use crate::judging::{lw_span, zero};
use crate::pointers::{Record, record_place, seen, spare};
use crate::quantity::choose;
use crate::status::lw_status;
use lashwork::mixture::gas::{
    AnalyserClass, ExhaustGas, GasCause, GasContradiction, HydrocarbonFactor, Hydrocarbons,
    LambdaOfGas, lambda, lambda_from_co,
};
use lashwork::quantity::{Lambda, VolumeShare};
use lashwork::tolerance::Uncertainty;

/// The accuracy class on the plate of an exhaust tester, by OIML R 99. There is no default.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_tester {
    /// Class 00.
    Class00 = 1,
    /// Class 0.
    Class0 = 2,
    /// Class I.
    ClassI = 3,
}

/// What a tester counts as one hydrocarbon. There is no default: it is worth several hundredths of lambda.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_hydrocarbons {
    /// Hydrocarbons were not read and are taken as none: the mixture looks leaner than it is.
    NotRead = 1,
    /// Shown as hexane, six atoms of carbon, as testers of garages do.
    Hexane = 2,
    /// Shown as hexane, and counted twice, because such testers see about half of what petrol leaves.
    HexaneOfPetrol = 3,
    /// Shown as propane, three atoms of carbon.
    Propane = 4,
    /// Shown as atoms of carbon, as flame ionisation does.
    Carbon = 5,
    /// As many atoms of carbon as `hc_factor` says, 1 to 20.
    Stated = 6,
}

/// Gases that cannot stand side by side. Each is one bit, so that several can be told in one number.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_gas_contradiction {
    /// Much oxygen beside much carbon monoxide: one says lean, the other rich.
    OxygenWithCarbonMonoxide = 1,
    /// Much oxygen beside unburnt fuel.
    OxygenWithHydrocarbons = 2,
    /// Leaner than a spark lights, and yet burnt.
    TooLeanToBurn = 4,
    /// Lambda under 0.6 or over 2, where no spark engine runs.
    BeyondRunning = 8,
    /// The gases and what goes with them do not make 100 %.
    TotalOff = 16,
    /// Another, of a later library.
    SomethingElse = 128,
}

/// What may be behind gases that do not fit together; 0 stands for nothing.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_gas_cause {
    /// Air gets in between cylinder and probe.
    AirAtProbe = 1,
    /// A cylinder does not fire and sends its charge through.
    MissedFiring = 2,
    /// Some cylinders are rich, others lean.
    UnevenCylinders = 3,
    /// The engine blows air into its exhaust by design.
    AirInjection = 4,
    /// The tester is off.
    TesterOff = 5,
    /// The fuel is another one than stated.
    OtherFuel = 6,
    /// Another, of a later library.
    SomethingElse = 7,
}

/// One analysis of dry exhaust gas, as the tester shows it.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_exhaust_gas {
    /// Size of this structure, `sizeof(lw_exhaust_gas)`.
    pub struct_size: usize,
    /// Carbon dioxide in per cent by volume, above 0 to 16.5.
    pub co2_percent: f64,
    /// Carbon monoxide in per cent.
    pub co_percent: f64,
    /// Oxygen in per cent, 0 to 20.95.
    pub o2_percent: f64,
    /// Hydrocarbons in ppm; ignored if they were not read.
    pub hc_ppm: f64,
    /// Atoms of carbon for each of them; ignored unless `hydrocarbons` says that it is stated.
    pub hc_factor: f64,
    /// Nitric oxide in ppm; ignored if it was not read.
    pub no_ppm: f64,
    /// What was counted as one of the hydrocarbons: a value of `lw_hydrocarbons`.
    pub hydrocarbons: u32,
    /// Class of the tester: a value of `lw_tester`.
    pub tester: u32,
    /// 1 if nitric oxide was read, else 0; it is then taken as none.
    pub no_read: u32,
    /// Reserved: zero; any other number is refused, so that a later release can use it.
    pub reserved: u32,
}

/// Lambda of one analysis, with what speaks against it.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_lambda {
    /// Size of this structure, `sizeof(lw_lambda)`.
    pub struct_size: usize,
    /// Lambda by Brettschneider's balance of atoms. It is the engine's mixture only if `contradictions` is 0.
    pub lambda: f64,
    /// Its standard uncertainty, from the class of the tester.
    pub uncertainty: f64,
    /// Lambda by Spindt; NaN for a fuel with much oxygen, of which that formula knows nothing.
    pub spindt: f64,
    /// Lambda times the air-fuel ratio that burns this fuel, by mass.
    pub air_fuel_ratio: f64,
    /// If air at the probe may be behind it: the least lambda of the mixture before that air; else NaN.
    pub behind_air_low: f64,
    /// The most lambda of it; NaN if it is not known.
    pub behind_air_high: f64,
    /// What does not fit: the sum of values of `lw_gas_contradiction`; 0 if all does.
    pub contradictions: u32,
    /// What the gases speak for most as the cause of the first of them: a value of `lw_gas_cause`, or 0.
    pub cause: u32,
}

/// Lambda from carbon monoxide alone.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_lambda_range {
    /// Size of this structure, `sizeof(lw_lambda_range)`.
    pub struct_size: usize,
    /// Which ends it has: a value of `lw_span`; at least, where there is little carbon monoxide.
    pub span: u32,
    /// Zero.
    pub reserved: u32,
    /// The lower end, of a burn that leaves hydrocarbons.
    pub low: f64,
    /// The upper end, of a burn that leaves oxygen; NaN if there is none.
    pub high: f64,
    /// Standard uncertainty of the ends.
    pub uncertainty: f64,
    /// Lambda with neither left.
    pub burnt_out: f64,
    /// Carbon dioxide that goes with it, in per cent.
    pub co2_percent: f64,
}

// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_exhaust_gas {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_lambda {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_lambda_range {
    const FIRST_SIZE: usize = size_of::<Self>();
}

const TESTERS: [(u32, AnalyserClass); 3] = [
    (lw_tester::Class00 as u32, AnalyserClass::Class00),
    (lw_tester::Class0 as u32, AnalyserClass::Class0),
    (lw_tester::ClassI as u32, AnalyserClass::ClassI),
];

/// The class of a tester.
pub(crate) fn tester(name: &'static str, given: u32) -> Outcome<AnalyserClass> {
    choose(name, given, &TESTERS)
}

/// What was counted as a hydrocarbon; none if they were not read.
pub(crate) fn hydrocarbons(
    name: &'static str,
    given: u32,
    stated: f64,
) -> Outcome<Option<HydrocarbonFactor>> {
    let known = [
        (lw_hydrocarbons::NotRead as u32, None),
        (
            lw_hydrocarbons::Hexane as u32,
            Some(HydrocarbonFactor::Hexane),
        ),
        (
            lw_hydrocarbons::HexaneOfPetrol as u32,
            Some(HydrocarbonFactor::HexaneOfPetrol),
        ),
        (
            lw_hydrocarbons::Propane as u32,
            Some(HydrocarbonFactor::Propane),
        ),
        (
            lw_hydrocarbons::Carbon as u32,
            Some(HydrocarbonFactor::Carbon),
        ),
        (
            lw_hydrocarbons::Stated as u32,
            Some(HydrocarbonFactor::Stated(stated)),
        ),
    ];
    choose(name, given, &known)
}

/// The number of a contradiction.
pub(crate) const fn contradiction(found: &GasContradiction) -> lw_gas_contradiction {
    match found {
        GasContradiction::OxygenWithCarbonMonoxide { .. } => {
            lw_gas_contradiction::OxygenWithCarbonMonoxide
        }
        GasContradiction::OxygenWithHydrocarbons { .. } => {
            lw_gas_contradiction::OxygenWithHydrocarbons
        }
        GasContradiction::TooLeanToBurn => lw_gas_contradiction::TooLeanToBurn,
        GasContradiction::BeyondRunning => lw_gas_contradiction::BeyondRunning,
        GasContradiction::TotalOff { .. } => lw_gas_contradiction::TotalOff,
        _ => lw_gas_contradiction::SomethingElse,
    }
}

const fn cause(found: &GasCause) -> lw_gas_cause {
    match found {
        GasCause::AirAtProbe { .. } => lw_gas_cause::AirAtProbe,
        GasCause::MissedFiring => lw_gas_cause::MissedFiring,
        GasCause::UnevenCylinders => lw_gas_cause::UnevenCylinders,
        GasCause::AirInjection => lw_gas_cause::AirInjection,
        GasCause::TesterOff => lw_gas_cause::TesterOff,
        GasCause::OtherFuel => lw_gas_cause::OtherFuel,
        _ => lw_gas_cause::SomethingElse,
    }
}

impl lw_exhaust_gas {
    fn typed(&self) -> Outcome<(ExhaustGas, AnalyserClass)> {
        zero("gas.reserved", self.reserved)?;
        let share = VolumeShare::from_percent;
        let ppm = |number: f64| VolumeShare::from_number(number, "ppm");
        let factor = hydrocarbons("gas.hydrocarbons", self.hydrocarbons, self.hc_factor)?;
        let hc = match factor {
            Some(factor) => Some(Hydrocarbons {
                read: ppm(self.hc_ppm)?,
                factor,
            }),
            None => None,
        };
        let (co2, co, o2) = (
            share(self.co2_percent)?,
            share(self.co_percent)?,
            share(self.o2_percent)?,
        );
        let gas = ExhaustGas::new(co2, co, o2, hc)?;
        let gas = if choose("gas.no_read", self.no_read, &[(0, false), (1, true)])? {
            gas.with_no(ppm(self.no_ppm)?)
        } else {
            gas
        };
        Ok((gas, tester("gas.tester", self.tester)?))
    }
}

impl From<&LambdaOfGas> for lw_lambda {
    fn from(found: &LambdaOfGas) -> Self {
        let number = |lambda: Option<Lambda>| lambda.map_or(f64::NAN, Lambda::ratio);
        let doubts = &found.contradictions;
        let causes = doubts.first().map_or(&[][..], |first| &first.causes);
        let behind = causes.iter().find_map(|cause| match cause {
            GasCause::AirAtProbe { low, high } => Some((*low, *high)),
            _ => None,
        });
        let (low, high) = behind.unwrap_or((None, None));
        let bits = doubts.iter().map(|doubt| contradiction(&doubt.what) as u32);
        Self {
            struct_size: 0,
            lambda: number(found.lambda.centre()),
            uncertainty: found.lambda.normal_uncertainty().number(),
            spindt: number(found.spindt),
            air_fuel_ratio: found.air_fuel_ratio,
            behind_air_low: number(low),
            behind_air_high: number(high),
            contradictions: bits.fold(0, |all, bit| all | bit),
            cause: causes.first().map_or(0, |first| cause(first) as u32),
        }
    }
}

/// Lambda of one analysis of the exhaust gas, and what does not fit together.
///
/// Taken for granted: dry gas, hydrogen by the water-gas equilibrium, an exact factor of the hydrocarbons, and,
/// where nothing contradicts it, that no air was added before the probe. With a contradiction the number is that
/// of the formula, not the engine's: do not lean a mixture out by it. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_lambda_of_gas(
    gas: *const lw_exhaust_gas,
    fuel: *const lw_fuel,
    found: *mut lw_lambda,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let ((gas, class), fuel, found) = unsafe {
            (
                seen("gas", gas, &mut spare())?.typed()?,
                seen("fuel", fuel, &mut spare())?.typed()?,
                record_place("found", found)?,
            )
        };
        found.write(&(&lambda(&gas, &class.uncertainty(&gas)?, &fuel)?).into());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// Lambda from carbon monoxide alone; the other gases follow from the fuel.
///
/// `co_percent` 0 to 16, with its standard uncertainty. Taken for granted: hydrogen by the water-gas equilibrium,
/// a good burn, which leaves a little oxygen or hydrocarbons at most, and that no air was added before the
/// probe. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_lambda_of_co(
    co_percent: f64,
    co_uncertainty_percent: f64,
    fuel: *const lw_fuel,
    found: *mut lw_lambda_range,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let (fuel, place) = unsafe {
            (
                seen("fuel", fuel, &mut spare())?.typed()?,
                record_place("found", found)?,
            )
        };
        let co = VolumeShare::from_percent(co_percent)?;
        let u = Uncertainty::from_number(co_uncertainty_percent)?;
        let found = lambda_from_co(co, u, &fuel)?;
        let number = |end: Option<Lambda>| end.map_or(f64::NAN, Lambda::ratio);
        let span = match found.lambda.high() {
            Some(_) => lw_span::Between,
            None => lw_span::AtLeast,
        };
        place.write(&lw_lambda_range {
            struct_size: 0,
            span: span as u32,
            reserved: 0,
            low: number(found.lambda.low()),
            high: number(found.lambda.high()),
            uncertainty: found.lambda.normal_uncertainty().number(),
            burnt_out: found.burnt_out.ratio(),
            co2_percent: found.co2.percent(),
        });
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
