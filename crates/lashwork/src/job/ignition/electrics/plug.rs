//! The plugs: their gap, the voltage they need, and whether there is enough.

use super::answer::PlugReport;
use crate::ignition::electrics::{
    Compression, ElectricsError, Paschen, breakdown, plug_gap_aim, voltage_reserve,
};
use crate::job::assumptions::Assumptions;
use crate::job::known::Known;
use crate::job::text::percent;
use crate::job::work::{Sides, judged};
use crate::quantity::shown::by_hand;
use crate::quantity::{AbsolutePressure, Advance, CrankAngle, PlugGap, Temperature, Voltage};
use crate::tolerance::{Estimate, HasLimits, Limits, Uncertainty, Verdict};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// The plugs.
///
/// ```
/// use lashwork::job::ignition::Plug;
/// assert!(Plug::default().gap.is_none());
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Plug {
    /// The gap as measured.
    pub gap: Option<Estimate<PlugGap>>,
    /// What the book asks for.
    pub limits: Option<Limits<PlugGap>>,
    /// The pressure in the cylinder when the spark comes.
    pub pressure: Option<Pressure>,
    /// The voltage there is at the plug.
    pub available: Option<Estimate<Voltage>>,
}

/// The pressure in the cylinder when the spark comes.
///
/// ```
/// use lashwork::job::ignition::{Charge, Pressure};
/// use lashwork::quantity::Advance;
/// let charge = Charge::new(8.0, Advance::parse("30 deg BTDC")?);
/// assert!(matches!(Pressure::Compressed(charge), Pressure::Compressed(_)));
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Pressure {
    /// As measured or stated, the gas cold.
    Stated(Estimate<AbsolutePressure>),
    /// By compression.
    Compressed(Charge),
}

/// The charge and its compression.
///
/// ```
/// use lashwork::job::ignition::Charge;
/// use lashwork::quantity::Advance;
/// assert_eq!(Charge::new(8.0, Advance::TDC).ratio, 8.0);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct Charge {
    /// The compression ratio.
    pub ratio: f64,
    /// Where the spark comes.
    pub spark: Advance,
    /// The exponent of compression; 1.3, uncertain by 0.05, if not stated.
    pub exponent: Option<f64>,
    /// Pressure when compression begins; that of the air, 101 kPa, if not stated: throttle wide open.
    pub start: Option<Estimate<AbsolutePressure>>,
    /// Temperature then; the gas is taken as cold if not stated, which overstates the voltage.
    pub start_at: Option<Temperature>,
    /// Where the intake closes, after bottom dead centre.
    pub intake_closes: Option<CrankAngle>,
}

impl Charge {
    /// What is needed, the rest not stated.
    #[must_use]
    pub const fn new(ratio: f64, spark: Advance) -> Self {
        Self {
            ratio,
            spark,
            exponent: None,
            start: None,
            start_at: None,
            intake_closes: None,
        }
    }
}

const SIDES: Sides = Sides {
    below: "too narrow",
    above: "too wide",
};
/// Exponent with its standard uncertainty, and kilopascals with theirs, where they are not stated. Common
/// practice, no source.
const EXPONENT: (f64, f64) = (1.3, 0.05);
const AIR: (f64, f64) = (101.0, 3.0);
/// How well a plug gap is set, in millimetres. Common practice, no source.
const SETTING: f64 = 0.02;

fn said_gap(read: &Estimate<PlugGap>, inches: bool) -> String {
    let (Some(gap), Some(u)) = (read.centre(), read.standard_uncertainty()) else {
        return String::from("one end only");
    };
    let (gap, u) = (by_hand(gap.mm(), inches), by_hand(u.mm(), inches));
    format!("{gap}, u {u}")
}

pub(super) fn report(
    asked: &Plug,
    known: Known<'_>,
    assumptions: &mut Assumptions,
) -> Result<PlugReport, ElectricsError> {
    let mut made = PlugReport {
        gap: None,
        set_to: None,
        pressure: None,
        paschen: None,
        linear: None,
        enough: None,
        text: Vec::new(),
    };
    if let (Some(read), Some(limits)) = (&asked.gap, &asked.limits) {
        let rule = PlugGap::USUAL_RULE;
        made.gap = Some(judged(
            said_gap(read, known.shown.inches),
            read,
            limits,
            &rule,
            SIDES,
        ));
    }
    if let Some(limits) = &asked.limits
        && limits.lower().is_some()
        && limits.upper().is_some()
        && made
            .gap
            .as_ref()
            .is_none_or(|gap| gap.verdict != Verdict::InBand)
    {
        let aim = plug_gap_aim(limits, Uncertainty::from_number(SETTING)?)?;
        made.set_to = Some(aim.set_to);
        made.text.push(format!(
            "set to {}: the low end, because electrodes burn away; {} are then left",
            by_hand(aim.set_to.mm(), known.shown.inches),
            by_hand(aim.room_to_burn_mm, known.shown.inches)
        ));
    }
    let (Some(gap), Some(pressure)) = (&asked.gap, &asked.pressure) else {
        return Ok(made);
    };
    let (pressure, gas) = at_spark(*pressure, known, assumptions)?;
    let needed = breakdown(gap, &pressure, gas, &Paschen::AIR)?;
    assumptions.add_all(&needed.assumptions);
    made.pressure = pressure.centre();
    made.paschen = Some(needed.paschen);
    made.linear = Some(needed.linear);
    if let (Some(low), Some(high)) = (needed.voltage.low(), needed.voltage.high()) {
        made.text.push(format!(
            "needs {:.0} to {:.0} kV at {:.1} bar: {:.1} kV by the law of Paschen, {:.1} kV by the straight line; they agree to a fifth only",
            low.volts() / 1000.0,
            high.volts() / 1000.0,
            pressure.centre().map_or(0.0, AbsolutePressure::kilopascals) / 100.0,
            needed.paschen.volts() / 1000.0,
            needed.linear.volts() / 1000.0,
        ));
    }
    if let Some(available) = &asked.available {
        let reserve = voltage_reserve(available, &needed.voltage, &Paschen::AIR)?;
        made.enough = Some(reserve.enough);
        made.text.push(format!(
            "{:+.1} kV to spare, u {:.1} kV: enough with {}",
            reserve.volts / 1000.0,
            reserve.uncertainty / 1000.0,
            percent(reserve.enough)
        ));
    }
    Ok(made)
}

/// Pressure and temperature when the spark comes.
fn at_spark(
    pressure: Pressure,
    known: Known<'_>,
    assumptions: &mut Assumptions,
) -> Result<(Estimate<AbsolutePressure>, Option<Temperature>), ElectricsError> {
    let charge = match pressure {
        Pressure::Stated(pressure) => return Ok((pressure, None)),
        Pressure::Compressed(charge) => charge,
    };
    let (exponent, exponent_u) = charge.exponent.map_or_else(
        || {
            let (exponent, u) = EXPONENT;
            let text = format!(
                "exponent of compression not stated: {exponent}, u {u}, taken; common practice, no source"
            );
            assumptions.add("ignition.exponent", text);
            EXPONENT
        },
        |exponent| (exponent, 0.0),
    );
    let start = if let Some(start) = charge.start {
        start
    } else {
        let (kpa, u) = AIR;
        let text = format!(
            "pressure when compression begins not stated: {kpa} kPa, u {u}, taken, throttle wide open"
        );
        assumptions.add("ignition.start-pressure", text);
        let air = AbsolutePressure::from_kilopascals(kpa)?;
        Estimate::between(air, air, Uncertainty::from_number(u)?)?
    };
    let mut compression = Compression::new(charge.ratio, exponent, exponent_u, start)?;
    let cylinders = known.engine.cylinders();
    if let Some(crank) = cylinders.iter().find_map(|cylinder| cylinder.crank) {
        compression = compression.with_crank(crank);
    }
    if let Some(after) = charge.intake_closes {
        compression = compression.with_intake_closing(after)?;
    }
    let (there, taken) = compression.pressure_at(charge.spark)?;
    assumptions.add_all(&taken);
    let gas = charge
        .start_at
        .map(|start| compression.temperature_at(charge.spark, start));
    Ok((there, gas.transpose()?))
}
