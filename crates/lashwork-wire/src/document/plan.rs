//! Where the crank can be stopped, and where it stands.

use crate::quantity::Q;
use lashwork::quantity::CrankAngle;
use schemars::JsonSchema;

words!(PlacesDoc {
    /// At the marks listed in `marks`.
    Marks = "marks",
    /// At each cylinder's top dead centre, firing and overlap.
    DeadCentres = "tdc",
    /// Anywhere, with a degree wheel.
    AnyAngle = "any_angle",
});

parts! {
    /// Where the crank can be stopped, and where it stands.
    PlanDoc {
        /// Not stated: each cylinder's top dead centre is taken, or any angle if those do not serve
        /// every valve; which, is listed.
        places: Option<PlacesDoc>,
        /// The marks on the pulley; with `"places": "marks"` only.
        marks: Option<Vec<MarkDoc>>,
        /// Where the crank stands: degrees after firing TDC of the first cylinder in the firing
        /// order, 0 up to the cycle's length. With it the turning to the first stop counts.
        from: Option<Q<CrankAngle>>,
    }
    /// A mark on the pulley. It comes to the pointer once in every turn of the crank.
    MarkDoc {
        /// What is written there.
        label: String,
        /// Crank degrees after top dead centre at which it stands at the pointer, 0 up to 360: 10
        /// before TDC is 350.
        at: Q<CrankAngle>,
        /// The cylinder whose top dead centre is meant; not stated, the first in the firing order.
        after: Option<String>,
    }
}
