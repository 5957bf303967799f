//! Carburettors that share the work: which screw to turn, which way and how far.

use crate::boundary::{Outcome, boundary};
use crate::columns::{Column, enough};
use crate::engine_parts::lw_sense;
use crate::error::lw_error;
use crate::judging::lw_rule;
use crate::pointers::{RecordPlace, optional_room, record, record_place, room};
use crate::quantity::choose;
use crate::status::lw_status;
use crate::throttles::{
    lw_balance, lw_linkage, lw_move_columns, lw_next_reading, lw_throttle_columns,
    lw_throttle_gauge, lw_throttle_looks, lw_throttle_way, lw_trial_turns,
};
use lashwork::mixture::balance::{
    BalanceAnswer, BalanceCheck, Linkage, Move, NextReading, Shown, ThrottleStand, Way,
};
use lashwork::quantity::{AbsolutePressure, AirFlow, ScrewAngle, Vacuum};
use lashwork::tolerance::{DecisionRule, HasLimits, Measurand, Uncertainty};

/// The columns for throttles, checked.
struct Stands<'a> {
    numbers: [Column<'a, f64>; 4],
    verdict: Column<'a, u8>,
}

/// The columns for moves, checked.
struct Moves<'a> {
    joint: Column<'a, u32>,
    to_match: Column<'a, u32>,
    way: Column<'a, u32>,
    sense: Column<'a, u32>,
    numbers: [Column<'a, f64>; 7],
}

/// Where the whole answer goes.
struct Output<'a> {
    balance: RecordPlace<lw_balance>,
    stands: Option<Stands<'a>>,
    moves: Moves<'a>,
}

impl lw_throttle_columns {
    /// # Safety
    /// The columns are as the structure describes them.
    unsafe fn checked<'a>(&self, rows: usize) -> Outcome<Stands<'a>> {
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
    unsafe fn checked<'a>(&self, rows: usize) -> Outcome<Moves<'a>> {
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
            reserved: 0,
        }
    }
}

/// Works it out for a gauge that shows `R`, and writes it.
///
/// # Safety
/// The columns have the rows they say.
unsafe fn balanced<R: Shown>(
    linkage: &Linkage,
    looks: &lw_throttle_looks,
    trials: Option<&lw_trial_turns>,
    rule: Option<DecisionRule>,
    mut output: Output<'_>,
) -> Outcome {
    // SAFETY: passed on under the same contract.
    let (readings, trials) = unsafe {
        (
            looks.typed()?,
            trials.map_or_else(|| Ok(Vec::new()), |trials| trials.typed())?,
        )
    };
    let stated = |number: f64| Uncertainty::<R>::from_number(number);
    let known = [(0, false), (1, true)];
    let check = BalanceCheck::<R> {
        readings,
        // Nought counts as none stated.
        scatter: Some(stated(looks.scatter)?),
        between_gauges: Some(stated(looks.between_gauges)?).filter(|u| u.number() > 0.0),
        trials,
        allowed: match looks.allowed {
            0.0 => None,
            allowed => Some(R::Difference::from_number(allowed)?),
        },
        rule,
        ambient: if choose("looks.ambient_known", looks.ambient_known, &known)? {
            Some(AbsolutePressure::from_kilopascals(looks.ambient_kpa)?)
        } else {
            None
        },
    };
    let found = check.worked_out(linkage)?;
    if let Some(stands) = &mut output.stands {
        for (row, stand) in found.throttles.iter().enumerate() {
            stands.write(row, stand);
        }
    }
    for (row, made) in found.moves.iter().enumerate() {
        output.moves.write(row, made);
    }
    output.balance.write(&lw_balance::of(&found));
    Ok(())
}

/// Which screw of a linkage to turn, which way and how far, so that the throttles share the work.
///
/// `trials` may be NULL, and so may `throttles`; `rule` may be NULL for simple acceptance, and is not one for lash or
/// ignition points. Without trials there are ways, but no amounts. Each move is what is left to do once those before
/// it are done. A row that is no reading refuses the call, and the error names it (`lw_error_row`); trials of a screw
/// whose sense was stated the other way round refuse it as well. Taken for granted: that throttles beyond one screw
/// move alike, and readings in a straight line with the turn. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
/// writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_balance_throttles(
    linkage: *const lw_linkage,
    looks: *const lw_throttle_looks,
    trials: *const lw_trial_turns,
    rule: *const lw_rule,
    balance: *mut lw_balance,
    throttles: *const lw_throttle_columns,
    moves: *const lw_move_columns,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here where it is not allowed; the rest is the caller's part of the contract.
        unsafe {
            let given = record("linkage", linkage)?;
            let looks = record("looks", looks)?;
            let trials = if trials.is_null() {
                None
            } else {
                Some(record("trials", trials)?)
            };
            let rule = if rule.is_null() {
                None
            } else {
                Some(record("rule", rule)?.of_any()?)
            };
            let balance = record_place("balance", balance)?;
            let stands = if throttles.is_null() {
                None
            } else {
                Some(record("throttles", throttles)?.checked(given.throttles)?)
            };
            let moves = record("moves", moves)?.checked(given.joints)?;
            let output = Output {
                balance,
                stands,
                moves,
            };
            let linkage = given.typed()?;
            let gauges = [
                (lw_throttle_gauge::Vacuum as u32, true),
                (lw_throttle_gauge::AirFlow as u32, false),
            ];
            if choose("looks.gauge", looks.gauge, &gauges)? {
                balanced::<Vacuum>(&linkage, &looks, trials.as_ref(), rule, output)
            } else {
                balanced::<AirFlow>(&linkage, &looks, trials.as_ref(), rule, output)
            }
        }
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
