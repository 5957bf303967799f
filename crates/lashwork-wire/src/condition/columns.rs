//! Areas of many leaks in one call: columns of numbers in, columns of numbers out.

use crate::columns::Filled;
use crate::json;
use crate::place::Place;
use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::read::Read;
use lashwork::condition::leak::{LeakColumns, LeakRow, Tester, leak_columns as leaks};
use lashwork::quantity::{AbsolutePressure, GaugePressure, Length, PressureDifference};
use lashwork::tolerance::{Estimate, Uncertainty};

/// Numbers of a row in the output of [`leak_columns`]: area, its standard uncertainty, the hole.
pub const LEAK_OUTPUTS: usize = 3;

parts! {
    /// What all leak-down readings share.
    LeakReadingsDoc {
        /// What the regulator shows over the air around.
        supply: Q<GaugePressure>,
        /// Diameter of the tester's orifice.
        orifice: Q<Length>,
        /// Standard uncertainties.
        uncertainty: LeakInstrumentsDoc,
    }
    /// Standard uncertainties of the tester, of what it shows, and of the air.
    LeakInstrumentsDoc {
        supply: Q<PressureDifference>,
        orifice: Q<Length>,
        shown: Q<PressureDifference>,
        air: Q<PressureDifference>,
    }
}

/// The areas of many leaks, read with one tester, each in the air of its day.
///
/// `settings` is JSON, `{"supply": "80 psi", "orifice": "0.040 in", "uncertainty": {"supply": "3 kPa", "orifice":
/// "0.01 mm", "shown": "4 kPa", "air": "0.5 kPa"}}`; all are needed. The columns are what stood in the cylinder, in
/// kilopascals over the air around, and the pressure of the air in kilopascals. `out` takes [`LEAK_OUTPUTS`] columns
/// one after the other: square millimetres, their standard uncertainty, and the diameter in millimetres of one round
/// hole as large: [`leak_columns`](lashwork::condition::leak::leak_columns).
///
/// The list names the first 100 rows that are refused, at places such as `/rows/17`; their numbers are none.
///
/// # Errors
/// Every [`Problem`] of the settings, and columns of unequal lengths; `out` is then untouched.
///
/// ```
/// let settings = br#"{ "supply": "80 psi", "orifice": "0.040 in", "uncertainty": {
///     "supply": "3 kPa", "orifice": "0.01 mm", "shown": "4 kPa", "air": "0.5 kPa" } }"#;
/// let mut out = [9.0; 2 * lashwork_wire::LEAK_OUTPUTS];
/// let columns: [&[f64]; 2] = [&[413.69, 600.0], &[101.325, 101.325]];
/// let refused = lashwork_wire::leak_columns(settings, columns, &mut out)
///     .map_err(|problems| format!("{problems:?}"))?;
/// assert!((out[0] - 0.8582).abs() < 1e-4 && out[1].is_nan());
/// assert_eq!((refused[0].place.as_str(), refused[0].code.as_str()),
///     ("/rows/1", "condition.leak-over-supply"));
/// # Ok::<(), String>(())
/// ```
pub fn leak_columns(
    settings: &[u8],
    columns: [&[f64]; 2],
    out: &mut [f64],
) -> Result<Vec<Problem>, Vec<Problem>> {
    let doc: LeakReadingsDoc = json::read(settings, |json, problems| {
        Read::read(json, &Place::Document, problems)
    })?;
    let (of, mut problems) = (doc.uncertainty, Vec::new());
    let mut pressure = |field: &str, u: &Q<PressureDifference>| {
        let u = Uncertainty::<GaugePressure>::from_number(u.0.kilopascals());
        value(&mut problems, format!("/uncertainty/{field}"), u)
    };
    let (supply_u, shown_u) = (pressure("supply", &of.supply), pressure("shown", &of.shown));
    let air_u = Uncertainty::<AbsolutePressure>::from_number(of.air.0.kilopascals());
    let air_u = value(&mut problems, "/uncertainty/air", air_u);
    let (Some(supply_u), Some(shown_u), Some(air_u)) = (supply_u, shown_u, air_u) else {
        return Err(problems);
    };
    let refused = |why: lashwork::condition::leak::LeakError| vec![Problem::at("", &why)];
    let supply = Estimate::between(doc.supply.0, doc.supply.0, supply_u);
    let supply = supply.map_err(|why| vec![Problem::at("/supply", &why)])?;
    let tester = Tester::of_diameter(supply, doc.orifice.0, of.orifice.0).map_err(refused)?;
    let mut filled = Filled::new(&columns, LEAK_OUTPUTS, out)?;
    let [shown, air] = columns;
    let columns = LeakColumns {
        tester,
        shown,
        air,
        shown_u,
        air_u,
    };
    leaks(&columns, |row, found: &LeakRow, why| {
        filled.write(row, [found.area, found.u, found.hole], why.as_ref());
    })
    .map_err(refused)?;
    Ok(filled.refused())
}
