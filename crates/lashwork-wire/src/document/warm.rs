//! What a document says of cooling, of tables by temperature and of lock nuts.

use crate::quantity::Q;
use lashwork::quantity::{Elapsed, Marked, Temperature, TemperatureDifference};
use schemars::JsonSchema;

words!(UseDoc {
    /// The readings are corrected by the chain of parts.
    Parts = "parts",
    /// The readings are corrected by the lash measured at several temperatures.
    Measured = "measured",
});

parts! {
    /// How the metal cools. The temperatures of the metal section are those of the last reading here,
    /// and fall together.
    CoolingDoc {
        /// What a thermometer on the metal shows, in the order it was read.
        readings: Vec<CoolingReadingDoc>,
        /// Standard uncertainty of each reading.
        thermometer_uncertainty: Q<TemperatureDifference>,
        /// What the thermometer shows in the air round the engine; without it three readings are
        /// needed.
        surroundings: Option<Q<Temperature>>,
        /// The standard uncertainty of the correction that is wanted, as a share of the band's width.
        share: f64,
    }
    /// A temperature and when it was read.
    CoolingReadingDoc {
        /// Time by a watch, from any start.
        after: Q<Elapsed>,
        is: Q<Temperature>,
    }
    /// A table of lash by temperature for valves at the set value. The uncertainties that the metal
    /// section states for its temperatures hold in the table too.
    CurveDoc {
        from: Q<Temperature>,
        to: Q<Temperature>,
        step: Q<TemperatureDifference>,
        /// The named temperature that varies while the others stay as stated; without it the whole
        /// engine is at the temperature of the table.
        varies: Option<String>,
    }
    /// A lock nut, learned from gaps felt before and after it was tightened.
    LockNutDoc {
        pairs: Vec<LockingPairDoc>,
        /// Standard uncertainty of one gap, leaves and hand together.
        uncertainty: Q<Marked>,
    }
    /// The gap at one valve with the screw set: nut loose, nut tight.
    LockingPairDoc { before: Q<Marked>, after: Q<Marked> }
}
