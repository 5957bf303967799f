//! Cooling and tables by temperature.

use crate::problem::{Problem, is_short, value};
use crate::quantity::Q;
use lashwork::job::clearance::{Cooling, LashTable};
use lashwork::quantity::{Elapsed, Temperature, TemperatureDifference};
use lashwork::thermal::Metal;
use lashwork::thermal::{CoolingFit, CoolingReading, TemperatureRange, ThermalError};

parts! {
    /// How the metal cools. The temperatures of the metal section are those of the last reading here,
    /// and fall together.
    CoolingDoc {
        /// What a thermometer on the metal shows, in the order it was read.
        readings: Vec<CoolingReadingDoc>,
        /// Standard uncertainty of each reading.
        thermometer_uncertainty: Q<TemperatureDifference>,
        /// What the thermometer shows in the air around the engine; if not stated, at least three readings
        /// are needed.
        surroundings: Option<Q<Temperature>>,
        /// The standard uncertainty wanted of the correction, as a share of the width of the band.
        share: f64,
    }
    /// A temperature and when it was read.
    CoolingReadingDoc {
        /// Elapsed time by a watch, from any start.
        after: Q<Elapsed>,
        is: Q<Temperature>,
    }
    /// A table of lash by temperature for valves at the set value. The uncertainties that the metal
    /// section states for its temperatures hold in the table too.
    CurveDoc {
        from: Q<Temperature>,
        to: Q<Temperature>,
        step: Q<TemperatureDifference>,
        /// The named temperature that varies while the others stay as stated; if not stated, the whole
        /// engine is at the temperature of the table.
        varies: Option<String>,
    }
}

/// How the metal cools, if its rule is known.
pub(super) fn cooling(
    doc: &CoolingDoc,
    metal: &Metal,
    problems: &mut Vec<Problem>,
) -> Option<Cooling> {
    const PLACE: &str = "/clearance/metal/cooling";
    if !is_short(&doc.readings, "/clearance/metal/cooling/readings", problems) {
        return None;
    }
    if !metal.has_rule() {
        problems.push(Problem::new(
            PLACE,
            "thermal.no-rule",
            "nothing says how the lash follows temperature, so waiting makes no correction more certain",
            "give \"parts\" or \"measured\" as well as \"cooling\"",
        ));
    }
    let readings: Vec<CoolingReading> = doc
        .readings
        .iter()
        .map(|r| CoolingReading {
            after: r.after.0,
            temperature: r.is.0,
        })
        .collect();
    let air = doc.surroundings.map(|t| t.0);
    let fit = CoolingFit::new(&readings, air, doc.thermometer_uncertainty.0);
    let place = match &fit {
        Err(ThermalError::Times { reading, .. }) => format!("{PLACE}/readings/{reading}/after"),
        Err(ThermalError::Uncertainty { .. }) => format!("{PLACE}/thermometer_uncertainty"),
        Err(ThermalError::TooFewReadings { .. } | ThermalError::NotCooling { .. }) => {
            format!("{PLACE}/readings")
        }
        _ => PLACE.into(),
    };
    let fit = value(problems, place, fit)?;
    value(
        problems,
        "/clearance/metal/cooling/share",
        Cooling::new(fit, doc.share),
    )
}

/// Which table of lash by temperature is wanted.
pub(super) fn curve(doc: CurveDoc, problems: &mut Vec<Problem>) -> Option<LashTable> {
    let range = TemperatureRange::new(doc.from.0, doc.to.0, doc.step.0);
    Some(LashTable {
        range: value(problems, "/clearance/metal/curve", range)?,
        varies: doc.varies,
    })
}
