//! What past services read of valves, as columns of plain numbers.

use crate::boundary::Outcome;
use crate::error::lw_error;
use crate::pointers::{Record, items, optional_items};
use crate::quantity::choose;
use lashwork::history::{
    CountedBy, DriftChoice, PastReadings, PastState, Record as History, Reset,
};
use lashwork::quantity::Lash;
use lashwork::tolerance::Uncertainty;

/// What time is counted by. There is no default.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_counted_by {
    /// Hours that the engine ran.
    Hours = 1,
    /// Kilometres.
    Distance = 2,
    /// Whole days since 1 January 1970, negative before.
    Days = 3,
}

/// What a row of past readings is.
#[repr(u8)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_past_state {
    /// As found, before anything was done.
    Found = 1,
    /// As left after it was set; its parts stayed.
    LeftSet = 2,
    /// As left after parts were renewed, ground or retorqued, which bed in.
    LeftRenewed = 3,
}

/// What was read of valves over the years, one reading per row, in the order of time; rows of one time are one service.
/// A setting begins a new line at the same rate.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_past_readings {
    /// Size of this structure, `sizeof(lw_past_readings)`.
    pub struct_size: usize,
    /// How many rows.
    pub rows: usize,
    /// When, in the unit of `counted_by`.
    pub at: *const f64,
    /// Lower ends in millimetres; minus infinity where there is none. A row as left that has neither end was set, but
    /// not read.
    pub low_mm: *const f64,
    /// Upper ends in millimetres; infinity where there is none.
    pub high_mm: *const f64,
    /// Standard uncertainties of the ends in millimetres, 0 to 40.
    pub uncertainty_mm: *const f64,
    /// Which valve, from 0; NULL if all are of one.
    pub valve: *const u32,
    /// Values of `lw_past_state`; NULL if all were found.
    pub state: *const u8,
    /// How long new parts bed in, in the unit of `counted_by`; 0 if it is not known: up to the first reading after
    /// them.
    pub bedding_in: f64,
    /// How far readings of one state scatter from service to service, in millimetres, besides what they state; ignored
    /// if it is not known.
    pub scatter_mm: f64,
    /// What time is counted by: a value of `lw_counted_by`.
    pub counted_by: u32,
    /// 1 if the scatter is known, else 0: it is then seen from the readings.
    pub scatter_known: u32,
}

// SAFETY: repr(C), the size in front, integers, floats and raw pointers only.
unsafe impl Record for lw_past_readings {
    const FIRST_SIZE: usize = size_of::<Self>();
}

const COUNTS: [(u32, CountedBy); 3] = [
    (lw_counted_by::Hours as u32, CountedBy::Hours),
    (lw_counted_by::Distance as u32, CountedBy::Distance),
    (lw_counted_by::Days as u32, CountedBy::Days),
];

const STATES: [(u32, PastState); 3] = [
    (lw_past_state::Found as u32, PastState::Found),
    (lw_past_state::LeftSet as u32, PastState::Left(Reset::Set)),
    (
        lw_past_state::LeftRenewed as u32,
        PastState::Left(Reset::Renewed),
    ),
];

/// Its columns, checked; the states in types of their own.
pub(crate) struct Past<'c> {
    given: PastReadings<'c>,
    states: Option<Vec<PastState>>,
    pub(crate) choice: DriftChoice<Lash>,
}

impl Past<'_> {
    pub(crate) fn readings(&self) -> PastReadings<'_> {
        PastReadings {
            state: self.states.as_deref(),
            ..self.given
        }
    }

    /// The record of so many valves.
    pub(crate) fn record(&self, valves: usize) -> Outcome<History<Lash>> {
        let made = self.readings().record(valves);
        made.map_err(|(row, why)| Box::<lw_error>::from(why).at_row(row))
    }
}

impl lw_past_readings {
    /// # Safety
    /// The columns have the rows they say.
    pub(crate) unsafe fn typed<'c>(&self) -> Outcome<Past<'c>> {
        let rows = self.rows;
        // SAFETY: passed on under the same contract.
        let (given, state) = unsafe {
            (
                PastReadings {
                    by: choose("readings.counted_by", self.counted_by, &COUNTS)?,
                    at: items("readings.at", self.at, rows)?,
                    low: items("readings.low_mm", self.low_mm, rows)?,
                    high: items("readings.high_mm", self.high_mm, rows)?,
                    u: items("readings.uncertainty_mm", self.uncertainty_mm, rows)?,
                    subject: optional_items("readings.valve", self.valve, rows)?,
                    state: None,
                },
                optional_items("readings.state", self.state, rows)?,
            )
        };
        let typed = |(row, state): (usize, &u8)| {
            let found = choose("readings.state", u32::from(*state), &STATES);
            found.map_err(|why| why.at_row(row))
        };
        let states = state.map(|all| all.iter().enumerate().map(typed).collect());
        let known = [(0, false), (1, true)];
        let scatter = choose("readings.scatter_known", self.scatter_known, &known)?;
        Ok(Past {
            given,
            states: states.transpose()?,
            choice: DriftChoice {
                counted_by: Some(given.by),
                bedding_in: Some(self.bedding_in).filter(|length| *length != 0.0),
                scatter: if scatter {
                    Some(Uncertainty::from_mm(self.scatter_mm)?)
                } else {
                    None
                },
            },
        })
    }
}
