//! Exhaust gas: what a tester showed, and what does not fit together.

use crate::boundary::Outcome;
use crate::judging::zero;
use crate::pointers::Record;
use crate::quantity::choose;
use lashwork::mixture::gas::{
    AnalyserClass, ExhaustGas, GasContradiction, HydrocarbonFactor, Hydrocarbons,
};
use lashwork::quantity::VolumeShare;

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

// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_exhaust_gas {
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

impl lw_exhaust_gas {
    pub(crate) fn typed(&self) -> Outcome<(ExhaustGas, AnalyserClass)> {
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
