//! What a number on a jet means.

use super::JetError;
use alloc::vec::Vec;
use serde::Serialize;

/// Numbers and flows that are accepted: from a hundredth to ten thousands.
const NUMBERS: (f64, f64) = (0.01, 1e4);

/// How a jet's number goes with what flows through it. Makers differ, so it is never taken for granted.
///
/// ```
/// use lashwork::mixture::jets::JetNumbering;
/// let by_flow = JetNumbering::Flow.flow(105.0)? / JetNumbering::Flow.flow(100.0)?;
/// let by_bore = JetNumbering::Diameter.flow(105.0)? / JetNumbering::Diameter.flow(100.0)?;
/// assert!((by_flow - 1.05).abs() < 1e-12 && (by_bore - 1.1025).abs() < 1e-12);
/// # Ok::<(), lashwork::mixture::jets::JetError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum JetNumbering {
    /// The number is a flow, for example in cc a minute under a stated head.
    Flow,
    /// The number is the bore, for example in hundredths of a millimetre; the flow goes with its square.
    Diameter,
    /// The maker's own table.
    Table(JetTable),
}

/// A maker's table of jets: numbers and flows, both rising.
///
/// ```
/// use lashwork::mixture::jets::{JetNumbering, JetTable};
/// let table = JetTable::new(&[(35.0, 60.0), (40.0, 78.0), (45.0, 100.0)])?;
/// assert!((JetNumbering::Table(table.clone()).flow(42.5)? - 89.0).abs() < 1e-12);
/// assert!(JetNumbering::Table(table).flow(50.0).is_err(), "not beyond the table");
/// assert!(JetTable::new(&[(40.0, 78.0), (35.0, 60.0)]).is_err());
/// # Ok::<(), lashwork::mixture::jets::JetError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(transparent)]
pub struct JetTable(Vec<(f64, f64)>);

impl JetTable {
    /// From number and flow of each jet, in rising order.
    ///
    /// # Errors
    /// [`JetError::Table`] with fewer than two jets, one out of order or out of 0.01 to 10 000.
    pub fn new(rows: &[(f64, f64)]) -> Result<Self, JetError> {
        let good = |n: f64| (NUMBERS.0..=NUMBERS.1).contains(&n);
        let rises = rows
            .windows(2)
            .all(|pair| matches!(pair, [a, b] if a.0 < b.0 && a.1 < b.1));
        if rows.len() >= 2 && rises && rows.iter().all(|row| good(row.0) && good(row.1)) {
            Ok(Self(rows.to_vec()))
        } else {
            Err(JetError::Table)
        }
    }

    /// On the straight line between the rows around `at`, seen from the first or the second column.
    fn between(
        &self,
        at: f64,
        from: fn(&(f64, f64)) -> f64,
        to: fn(&(f64, f64)) -> f64,
    ) -> Option<f64> {
        let around = self.0.windows(2).find_map(|pair| match pair {
            [a, b] if from(a) <= at && at <= from(b) => Some((*a, *b)),
            _ => None,
        });
        let (a, b) = around?;
        let part = (at - from(&a)) / (from(&b) - from(&a));
        Some(to(&a) + part * (to(&b) - to(&a)))
    }
}

impl JetNumbering {
    /// What flows through a jet, in a unit of its own that is the same for all jets of the numbering.
    ///
    /// # Errors
    /// [`JetError::Number`] if not from 0.01 to 10 000; [`JetError::OutsideTable`].
    pub fn flow(&self, number: f64) -> Result<f64, JetError> {
        if !(NUMBERS.0..=NUMBERS.1).contains(&number) {
            return Err(JetError::Number { got: number });
        }
        match self {
            Self::Flow => Ok(number),
            Self::Diameter => Ok(number * number),
            Self::Table(table) => table
                .between(number, |row| row.0, |row| row.1)
                .ok_or(JetError::OutsideTable { got: number }),
        }
    }

    /// The number of a jet through which so much flows: the inverse of [`Self::flow`].
    ///
    /// # Errors
    /// [`JetError::OutsideTable`].
    ///
    /// ```
    /// use lashwork::mixture::jets::JetNumbering;
    /// assert_eq!(JetNumbering::Diameter.number(10_000.0)?, 100.0);
    /// # Ok::<(), lashwork::mixture::jets::JetError>(())
    /// ```
    pub fn number(&self, flow: f64) -> Result<f64, JetError> {
        match self {
            Self::Flow => Ok(flow),
            Self::Diameter => Ok(libm::sqrt(flow)),
            Self::Table(table) => table
                .between(flow, |row| row.1, |row| row.0)
                .ok_or(JetError::OutsideTable { got: flow }),
        }
    }
}

/// What a number in cc a minute is in litres an hour.
///
/// ```
/// use lashwork::mixture::jets::litres_an_hour;
/// assert!((litres_an_hour(190.0) - 11.4).abs() < 1e-12);
/// ```
#[must_use]
pub fn litres_an_hour(cc_a_minute: f64) -> f64 {
    cc_a_minute * 0.06
}
