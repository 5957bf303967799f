//! Writing what throttles that share the work come to.

use crate::balance_answer::{
    lw_balance, lw_move_columns, lw_next_reading, lw_shaft_columns, lw_throttle_columns,
    lw_throttle_way,
};
use crate::boundary::Outcome;
use crate::columns::{Column, enough};
use crate::engine_parts::lw_sense;
use crate::pointers::{RecordPlace, optional_room, room};
use lashwork::mixture::balance::{
    BalanceAnswer, Move, NextReading, RigidDifference, Shown, ThrottleStand, Way,
};
use lashwork::quantity::ScrewAngle;
use lashwork::tolerance::{HasLimits, Measurand};

/// The columns for throttles, checked.
pub(crate) struct Stands<'a> {
    numbers: [Column<'a, f64>; 4],
    verdict: Column<'a, u8>,
}

/// The columns for moves, checked.
pub(crate) struct Moves<'a> {
    joint: Column<'a, u32>,
    to_match: Column<'a, u32>,
    way: Column<'a, u32>,
    sense: Column<'a, u32>,
    numbers: [Column<'a, f64>; 7],
}

/// The columns for pairs on one shaft, checked.
pub(crate) struct Shafts<'a> {
    joint: Column<'a, u32>,
    numbers: [Column<'a, f64>; 2],
    verdict: Column<'a, u8>,
}

/// Where the whole answer goes.
pub(crate) struct Output<'a> {
    pub(crate) balance: RecordPlace<lw_balance>,
    pub(crate) stands: Option<Stands<'a>>,
    pub(crate) moves: Moves<'a>,
    pub(crate) shafts: Option<Shafts<'a>>,
}

impl Output<'_> {
    /// Writes an answer.
    pub(crate) fn write<R: Shown>(mut self, found: &BalanceAnswer<R>) {
        if let Some(stands) = &mut self.stands {
            for (row, stand) in found.throttles.iter().enumerate() {
                stands.write(row, stand);
            }
        }
        for (row, made) in found.moves.iter().enumerate() {
            self.moves.write(row, made);
        }
        if let Some(shafts) = &mut self.shafts {
            for (row, pair) in found.rigid.iter().enumerate() {
                shafts.write(row, pair);
            }
        }
        self.balance.write(&lw_balance::of(found));
    }
}

impl lw_throttle_columns {
    /// # Safety
    /// The columns are as the structure describes them.
    pub(crate) unsafe fn checked<'a>(&self, rows: usize) -> Outcome<Stands<'a>> {
        enough("throttles.rows", self.rows, rows)?;
        // SAFETY: passed on under the same contract.
        unsafe {
            let number = |name, data| optional_room(name, data, rows).map(Column);
            Ok(Stands {
                numbers: [
                    number("throttles.reading", self.reading)?,
                    number("throttles.uncertainty", self.uncertainty)?,
                    number("throttles.over_reference", self.over_reference)?,
                    number("throttles.over_uncertainty", self.over_uncertainty)?,
                ],
                verdict: Column(optional_room("throttles.verdict", self.verdict, rows)?),
            })
        }
    }
}

impl lw_move_columns {
    /// # Safety
    /// The columns are as the structure describes them.
    pub(crate) unsafe fn checked<'a>(&self, rows: usize) -> Outcome<Moves<'a>> {
        enough("moves.rows", self.rows, rows)?;
        // SAFETY: passed on under the same contract.
        unsafe {
            let number = |name, data| optional_room(name, data, rows).map(Column);
            let whole = |name, data| optional_room(name, data, rows).map(Column);
            Ok(Moves {
                joint: Column(Some(room("moves.joint", self.joint, rows)?)),
                to_match: whole("moves.to_match", self.to_match)?,
                way: whole("moves.way", self.way)?,
                sense: whole("moves.sense", self.sense)?,
                numbers: [
                    number("moves.change", self.change)?,
                    number("moves.change_uncertainty", self.change_uncertainty)?,
                    number("moves.way_right", self.way_right)?,
                    number("moves.turn_deg", self.turn_deg)?,
                    number("moves.turn_uncertainty_deg", self.turn_uncertainty_deg)?,
                    number("moves.per_turn", self.per_turn)?,
                    number("moves.per_turn_uncertainty", self.per_turn_uncertainty)?,
                ],
            })
        }
    }
}

impl lw_shaft_columns {
    /// # Safety
    /// The columns are as the structure describes them.
    pub(crate) unsafe fn checked<'a>(&self, rows: usize) -> Outcome<Shafts<'a>> {
        enough("shafts.rows", self.rows, rows)?;
        // SAFETY: passed on under the same contract.
        unsafe {
            let number = |name, data| optional_room(name, data, rows).map(Column);
            Ok(Shafts {
                joint: Column(Some(room("shafts.joint", self.joint, rows)?)),
                numbers: [
                    number("shafts.difference", self.difference)?,
                    number("shafts.difference_uncertainty", self.difference_uncertainty)?,
                ],
                verdict: Column(optional_room("shafts.verdict", self.verdict, rows)?),
            })
        }
    }
}

/// A place in a list that is never long.
fn index(of: usize) -> u32 {
    u32::try_from(of).unwrap_or(u32::MAX)
}

fn set<const N: usize>(columns: &mut [Column<'_, f64>; N], row: usize, numbers: [f64; N]) {
    for (column, number) in columns.iter_mut().zip(numbers) {
        column.set(row, number);
    }
}

impl Stands<'_> {
    fn write<R: Shown>(&mut self, row: usize, stand: &ThrottleStand<R>) {
        let numbers = [
            stand.reading.number(),
            stand.standard_uncertainty.number(),
            stand.over_reference.number(),
            stand.over_reference_uncertainty.number(),
        ];
        set(&mut self.numbers, row, numbers);
        let verdict = stand.judgement.map_or(0, |it| it.verdict.number());
        self.verdict.set(row, verdict);
    }
}

impl Moves<'_> {
    fn write<D: HasLimits>(&mut self, row: usize, made: &Move<D>) {
        let way = match made.way {
            Way::Open => lw_throttle_way::Open,
            Way::Close => lw_throttle_way::Close,
            Way::Leave => lw_throttle_way::Leave,
        };
        let sense = made.clockwise.map_or(0, |clockwise| {
            if clockwise {
                lw_sense::Clockwise as u32
            } else {
                lw_sense::Anticlockwise as u32
            }
        });
        let turn = made.turn.map(|it| (it.turn, it.standard_uncertainty));
        let response = made.response.as_ref();
        self.joint.set(row, index(made.joint));
        self.to_match.set(row, index(made.to_match));
        self.way.set(row, way as u32);
        self.sense.set(row, sense);
        let numbers = [
            made.change.number(),
            made.standard_uncertainty.number(),
            made.way_right,
            turn.map_or(f64::NAN, |(turn, _): (ScrewAngle, f64)| turn.degrees()),
            turn.map_or(f64::NAN, |(_, u)| u),
            response.map_or(f64::NAN, |it| it.per_turn.number()),
            response.map_or(f64::NAN, |it| it.standard_uncertainty.number()),
        ];
        set(&mut self.numbers, row, numbers);
    }
}

impl Shafts<'_> {
    fn write<D: HasLimits>(&mut self, row: usize, pair: &RigidDifference<D>) {
        self.joint.set(row, index(pair.joint));
        let numbers = [pair.difference.number(), pair.standard_uncertainty.number()];
        set(&mut self.numbers, row, numbers);
        let verdict = pair.judgement.map_or(0, |it| it.verdict.number());
        self.verdict.set(row, verdict);
    }
}

impl lw_balance {
    fn of<R: Shown>(found: &BalanceAnswer<R>) -> Self {
        let (next, at, doubt) = match found.next {
            None => (0, 0, None),
            Some(NextReading::Again {
                throttle,
                doubt,
                then,
            }) => (
                lw_next_reading::Throttle as u32,
                throttle,
                Some((doubt, then)),
            ),
            Some(NextReading::Trial { joint }) => (lw_next_reading::Trial as u32, joint, None),
            Some(NextReading::TrialAgain { joint, doubt, then }) => (
                lw_next_reading::TrialAgain as u32,
                joint,
                Some((doubt, then)),
            ),
        };
        let judged = found.judgement;
        Self {
            struct_size: 0,
            moves: found.moves.len(),
            spread: found.spread.number(),
            scatter: found.scatter.single.number(),
            degrees_of_freedom: found.scatter.degrees_of_freedom.unwrap_or(f64::NAN),
            within: judged.map_or(f64::NAN, |it| it.probabilities.in_band.least),
            doubt_deg: doubt.map_or(f64::NAN, |(doubt, _)| doubt),
            then_deg: doubt.map_or(f64::NAN, |(_, then)| then),
            verdict: judged.map_or(0, |it| u32::from(it.verdict.number())),
            next,
            next_index: index(at),
            shafts: index(found.rigid.len()),
        }
    }
}
