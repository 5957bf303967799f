//! What the rockers said about where the crank stands.

use super::KindDoc;
use schemars::JsonSchema;

words!(CallDoc {
    /// It moved by its lash.
    Free = "free",
    /// It was pressed against the valve.
    Held = "held",
});

parts! {
    /// A believed crank position and the rockers felt there.
    CrankCheckDoc {
        believed: BelievedDoc,
        /// Chance that one rocker is called wrongly, above 0 and below 0.5.
        wrong_call: Option<f64>,
        /// The rockers felt; one felt twice stands twice.
        rockers: Vec<RockerDoc>,
        /// Firing orders the engine may have instead.
        also_orders: Option<Vec<Vec<String>>>,
    }
    /// Firing top dead centre of a cylinder, or crank degrees after that of the first cylinder in the
    /// firing order.
    BelievedDoc {
        cylinder: Option<String>,
        deg: Option<f64>,
    }
    /// A rocker felt once.
    RockerDoc {
        cylinder: String,
        valve: KindDoc,
        /// Which of its kind in the cylinder, from 1; needed where there are several.
        number: Option<u8>,
        rocker: CallDoc,
    }
}
