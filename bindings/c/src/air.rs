//! The air an engine breathes: its density, by readings or by the height alone.

use crate::boundary::{Outcome, boundary};
use crate::error::lw_error;
use crate::judging::zero;
use crate::pointers::{Record, place, record_place, seen, spare};
use crate::quantity::choose;
use crate::status::lw_status;
use lashwork::mixture::air::{
    AirAssumption, AirDensity, AirReading, Barometer, BarometerDoubt, density, density_altitude,
    density_at, standard_air,
};
use lashwork::quantity::{
    AbsolutePressure, Altitude, Density, RelativeHumidity, Temperature, TemperatureDifference,
};
use lashwork::tolerance::Estimate;

/// What a barometer shows. There is no default: at 1500 m one is a sixth over the other.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_barometer {
    /// The pressure of the place: a mercury column, a tester's own sensor.
    Station = 1,
    /// Set to read as at sea level: a weather report, an airfield (QNH), a barometer in a living room.
    SeaLevel = 2,
}

/// A barometer that does not fit the height it was read at; 0 stands for none.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_barometer_doubt {
    /// Stated as that of the place, but it seems set to sea level: the air is then reckoned too dense.
    SetToSeaLevel = 1,
    /// Stated as set to sea level, but it seems to show the pressure of the place.
    NotSet = 2,
    /// It fits neither.
    FitsNeither = 3,
    /// Another, of a later library.
    SomethingElse = 4,
}

/// Readings of the air.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_air {
    /// Size of this structure, `sizeof(lw_air)`.
    pub struct_size: usize,
    /// What the barometer shows, in kilopascals.
    pub barometer_kpa: f64,
    /// Standard uncertainty of the pressure of the place in kilopascals, 0 or more.
    pub pressure_uncertainty_kpa: f64,
    /// Temperature where the engine breathes, in degrees Celsius, -60 to 80.
    pub celsius: f64,
    /// Its standard uncertainty in kelvin, 0 or more.
    pub uncertainty_kelvin: f64,
    /// Relative humidity in per cent; ignored if it was not read.
    pub humidity_percent: f64,
    /// Its standard uncertainty in per cent; ignored if it was not read.
    pub humidity_uncertainty_percent: f64,
    /// Height over the sea in metres; ignored if it is not known.
    pub altitude_m: f64,
    /// What the barometer shows: a value of `lw_barometer`.
    pub barometer: u32,
    /// 1 if the height is known, else 0; a barometer set to sea level is then refused.
    pub altitude_known: u32,
    /// 1 if the humidity was read, else 0; anything from none to 100 % is then left open.
    pub humidity_read: u32,
    /// Reserved: zero; any other number is refused, so that a later release can use it.
    pub reserved: u32,
}

/// How dense the air is.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_air_density {
    /// Size of this structure, `sizeof(lw_air_density)`.
    pub struct_size: usize,
    /// Density from this, in kilograms a cubic metre.
    pub low_kg_m3: f64,
    /// To this; the same where the humidity was read.
    pub high_kg_m3: f64,
    /// Standard uncertainty of both.
    pub uncertainty_kg_m3: f64,
    /// The middle over the density of the standard atmosphere at sea level.
    pub ratio: f64,
    /// Density altitude: the height in metres at which the standard atmosphere is as dense; NaN outside -1524 to
    /// 6096 m.
    pub altitude_m: f64,
    /// Pressure of the place in kilopascals.
    pub station_kpa: f64,
    /// What is doubtful about the barometer: a value of `lw_barometer_doubt`, or 0.
    pub doubt: u32,
    /// 1 if the formula was published for such air, else 0: it is then off by less than a thousandth.
    pub as_published: u32,
}

// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_air {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_air_density {
    const FIRST_SIZE: usize = size_of::<Self>();
}

const YES_OR_NO: [(u32, bool); 2] = [(0, false), (1, true)];

impl lw_air {
    /// The reading, the pressure of the place, and what is doubtful about it.
    fn typed(&self) -> Outcome<(AirReading, AbsolutePressure, Option<BarometerDoubt>)> {
        zero("air.reserved", self.reserved)?;
        let shown = AbsolutePressure::from_kilopascals(self.barometer_kpa)?;
        let barometers = [
            (lw_barometer::Station as u32, Barometer::Station(shown)),
            (
                lw_barometer::SeaLevel as u32,
                Barometer::SetToSeaLevel(shown),
            ),
        ];
        let barometer = choose("air.barometer", self.barometer, &barometers)?;
        let altitude = if choose("air.altitude_known", self.altitude_known, &YES_OR_NO)? {
            Some(Altitude::from_metres(self.altitude_m)?)
        } else {
            None
        };
        let humidity = if choose("air.humidity_read", self.humidity_read, &YES_OR_NO)? {
            let u = self.humidity_uncertainty_percent;
            Some(Estimate::<RelativeHumidity>::from_numbers(
                self.humidity_percent,
                self.humidity_percent,
                u,
            )?)
        } else {
            None
        };
        let (station, doubt) = barometer.station(altitude)?;
        let kpa = station.kilopascals();
        let reading = AirReading {
            pressure: Estimate::from_numbers(kpa, kpa, self.pressure_uncertainty_kpa)?,
            temperature: Temperature::from_celsius(self.celsius)?,
            temperature_u: TemperatureDifference::from_kelvin(self.uncertainty_kelvin)?,
            humidity,
        };
        Ok((reading, station, doubt))
    }
}

impl lw_air_density {
    fn of(found: &AirDensity, station: AbsolutePressure, doubt: Option<BarometerDoubt>) -> Self {
        let density =
            |end: Option<Density>| end.map_or(f64::NAN, Density::kilograms_per_cubic_metre);
        let doubt = doubt.map(|doubt| match doubt {
            BarometerDoubt::LooksSetToSeaLevel { .. } => lw_barometer_doubt::SetToSeaLevel,
            BarometerDoubt::LooksLikeStation { .. } => lw_barometer_doubt::NotSet,
            BarometerDoubt::FitsNeither => lw_barometer_doubt::FitsNeither,
            _ => lw_barometer_doubt::SomethingElse,
        });
        let beyond = found.assumptions.contains(&AirAssumption::BeyondPublished);
        Self {
            struct_size: 0,
            low_kg_m3: density(found.density.low()),
            high_kg_m3: density(found.density.high()),
            uncertainty_kg_m3: found.density.normal_uncertainty().number(),
            ratio: found.ratio,
            altitude_m: found.altitude.map_or(f64::NAN, Altitude::metres),
            station_kpa: station.kilopascals(),
            doubt: doubt.map_or(0, |doubt| doubt as u32),
            as_published: u32::from(!beyond),
        }
    }
}

/// How dense the air is, by CIPM-2007, from barometer, thermometer and hygrometer.
///
/// With the height the barometer is checked against it, and one that is set to sea level brought to the place by
/// the standard atmosphere. Taken for granted: 400 ppm of carbon dioxide. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_density_of_air(
    air: *const lw_air,
    found: *mut lw_air_density,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let ((reading, station, doubt), place) = unsafe {
            (
                seen("air", air, &mut spare())?.typed()?,
                record_place("found", found)?,
            )
        };
        place.write(&lw_air_density::of(&density(&reading)?, station, doubt));
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// How dense the air is by the height alone: the standard atmosphere of ISO 2533.
///
/// `altitude_m` -1600 to 11000. Its uncertainty is what weather and season leave, which is much. `error` may be
/// NULL. Any thread.
///
/// # Safety
/// `found` states its size, or is NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_density_at_height(
    altitude_m: f64,
    found: *mut lw_air_density,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let place = unsafe { record_place("found", found) }?;
        let height = Altitude::from_metres(altitude_m)?;
        let station = standard_air(height)?.pressure;
        place.write(&lw_air_density::of(&density_at(height)?, station, None));
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}

/// The height at which the standard atmosphere is as dense, in metres; refused outside -1524 to 6096 m.
///
/// `density_kg_m3` in kilograms a cubic metre. `error` may be NULL. Any thread.
///
/// # Safety
/// `altitude_m` is writable or NULL; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_density_altitude(
    density_kg_m3: f64,
    altitude_m: *mut f64,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here; the rest is the caller's part of the contract.
        let place = unsafe { place("altitude_m", altitude_m) }?;
        let density = Density::from_kilograms_per_cubic_metre(density_kg_m3)?;
        place.write(density_altitude(density)?.metres());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
