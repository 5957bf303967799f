//! The air around an engine, which several sections ask for.

use crate::quantity::Q;
use crate::word::W;
use lashwork::job::mixture::AirAround;
use lashwork::mixture::air::Barometer;
use lashwork::quantity::{AbsolutePressure, Altitude, RelativeHumidity, Temperature};

/// What a barometer is set to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SetTo {
    Place,
    SeaLevel,
}

named!(SetTo as "BarometerSetToDoc" {
    /// The pressure of the place: a mercury column, a tester's own sensor.
    Place = "place",
    /// To read as at sea level: a weather report, an airfield, a barometer in a living room.
    SeaLevel = "sea_level",
});

parts! {
    /// The air: a barometer and a thermometer, or the height, with a thermometer or alone.
    AirDoc {
        /// What a barometer shows.
        barometer: Option<BarometerDoc>,
        /// How high the place lies.
        altitude: Option<Q<Altitude>>,
        /// The temperature where the engine breathes.
        temperature: Option<Q<Temperature>>,
        /// The humidity, in per cent.
        humidity: Option<Q<RelativeHumidity>>,
    }
    /// What a barometer shows, and what it is set to.
    BarometerDoc { shows: Q<AbsolutePressure>, set_to: W<SetTo> }
}

/// The air around in typed values.
pub(crate) fn air(doc: &AirDoc) -> AirAround {
    let mut made = AirAround::default();
    made.barometer = doc.barometer.as_ref().map(|doc| match doc.set_to.0 {
        SetTo::Place => Barometer::Station(doc.shows.0),
        SetTo::SeaLevel => Barometer::SetToSeaLevel(doc.shows.0),
    });
    made.altitude = doc.altitude.map(|it| it.0);
    made.temperature = doc.temperature.map(|it| it.0);
    made.humidity = doc.humidity.map(|it| it.0);
    made
}
