//! Throttles that share the work: what joins them, and what was read.

use crate::boundary::Outcome;
use crate::error::lw_error;
use crate::pointers::{Record, items};
use crate::quantity::choose;
use lashwork::mixture::balance::{JoinedBy, Joint, Linkage, Shown, ThrottleReading, TrialTurn};
use lashwork::quantity::ScrewAngle;

/// What the gauge at the throttles shows. There is no default.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_throttle_gauge {
    /// Vacuum behind the throttle, in kilopascals under the air around: less as it opens.
    Vacuum = 1,
    /// Air through it, in kilograms an hour: more as it opens.
    AirFlow = 2,
}

/// What joins two throttles.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_joined_by {
    /// A common shaft: nothing to adjust.
    Rigidly = 1,
    /// A screw that moves everything beyond it, seen from the reference.
    Screw = 2,
    /// Such a screw, of which it is known that clockwise opens.
    ScrewClockwiseOpens = 3,
    /// Such a screw, of which it is known that clockwise closes.
    ScrewClockwiseCloses = 4,
}

/// What moves what: joints between throttles, as a tree. Throttles and joints count from 0 here; the texts of errors
/// count from 1. A throttle with a stop screw of its own, joined to nothing, is joined to the reference by that screw.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_linkage {
    /// Size of this structure, `sizeof(lw_linkage)`.
    pub struct_size: usize,
    /// How many throttles, 2 to 12.
    pub throttles: usize,
    /// How many joints: one fewer.
    pub joints: usize,
    /// The throttle on one side of each joint.
    pub one: *const u32,
    /// The throttle on its other side.
    pub other: *const u32,
    /// What joins them: values of `lw_joined_by`.
    pub joined_by: *const u32,
    /// The throttle to which the others are set: the one that has no screw of its own.
    pub reference: u32,
    /// 1 if a turn of any screw does as much as one of any other, so that a trial of one serves all; else 0.
    pub screws_alike: u32,
}

/// What the gauge showed each time somebody looked, all at one speed of the engine, in any order.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_throttle_looks {
    /// Size of this structure, `sizeof(lw_throttle_looks)`.
    pub struct_size: usize,
    /// How many looks.
    pub rows: usize,
    /// At which throttle, from 0.
    pub throttle: *const u32,
    /// What it showed, in the unit of `gauge`.
    pub shown: *const f64,
    /// Standard deviation of a single look; 0 if it is to be seen from repeated looks.
    pub scatter: f64,
    /// Standard deviation from gauge to gauge where each throttle has its own; 0 if one gauge was moved.
    pub between_gauges: f64,
    /// By how much the greatest may be over the least; 0 if no book says it, and nothing is then judged.
    pub allowed: f64,
    /// Pressure of the air around in kilopascals; ignored if it is not known.
    pub ambient_kpa: f64,
    /// What the gauge shows: a value of `lw_throttle_gauge`.
    pub gauge: u32,
    /// 1 if the pressure of the air around is known, else 0: that of the standard atmosphere at sea level is then taken.
    pub ambient_known: u32,
}

/// Screws turned by a known amount, and what the gauge showed before and after.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_trial_turns {
    /// Size of this structure, `sizeof(lw_trial_turns)`.
    pub struct_size: usize,
    /// How many trials; 0 if nothing was tried.
    pub rows: usize,
    /// Which screw, by its joint from 0.
    pub joint: *const u32,
    /// How far it was turned in degrees, positive clockwise.
    pub turn_deg: *const f64,
    /// What a throttle beyond it showed before.
    pub before: *const f64,
    /// What the same throttle showed after.
    pub after: *const f64,
    /// What a throttle that does not move showed before; NULL if none was read.
    pub unmoved_before: *const f64,
    /// What that one showed after; NULL if none was read.
    pub unmoved_after: *const f64,
}

// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_linkage {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers, floats and raw pointers only.
unsafe impl Record for lw_throttle_looks {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_trial_turns {
    const FIRST_SIZE: usize = size_of::<Self>();
}
const fn screw(clockwise_opens: Option<bool>) -> JoinedBy {
    JoinedBy::Screw { clockwise_opens }
}

const JOINED_BY: [(u32, JoinedBy); 4] = [
    (lw_joined_by::Rigidly as u32, JoinedBy::Rigidly),
    (lw_joined_by::Screw as u32, screw(None)),
    (lw_joined_by::ScrewClockwiseOpens as u32, screw(Some(true))),
    (
        lw_joined_by::ScrewClockwiseCloses as u32,
        screw(Some(false)),
    ),
];

impl lw_linkage {
    /// # Safety
    /// The columns have the joints they say.
    pub(crate) unsafe fn typed(&self) -> Outcome<Linkage> {
        // SAFETY: passed on under the same contract.
        let (one, other, by) = unsafe {
            (
                items("linkage.one", self.one, self.joints)?,
                items("linkage.other", self.other, self.joints)?,
                items("linkage.joined_by", self.joined_by, self.joints)?,
            )
        };
        let rows = one.iter().zip(other).zip(by);
        let joints: Outcome<Vec<Joint>> = rows
            .map(|((one, other), by)| {
                Ok(Joint {
                    between: [*one as usize, *other as usize],
                    by: choose("linkage.joined_by", *by, &JOINED_BY)?,
                })
            })
            .collect();
        let linkage = Linkage::new(self.throttles, &[self.reference as usize], &joints?)?;
        let alike = [(0, false), (1, true)];
        Ok(
            if choose("linkage.screws_alike", self.screws_alike, &alike)? {
                linkage.screws_alike()
            } else {
                linkage
            },
        )
    }
}

impl lw_throttle_looks {
    /// The looks, one list a throttle.
    ///
    /// # Safety
    /// The columns have the rows they say.
    pub(crate) unsafe fn typed<R: Shown>(&self) -> Outcome<Vec<ThrottleReading<R>>> {
        // SAFETY: passed on under the same contract.
        let (throttles, shown) = unsafe {
            (
                items("looks.throttle", self.throttle, self.rows)?,
                items("looks.shown", self.shown, self.rows)?,
            )
        };
        let mut readings: Vec<ThrottleReading<R>> = Vec::new();
        for (row, (throttle, shown)) in throttles.iter().zip(shown).enumerate() {
            let throttle = *throttle as usize;
            let shown =
                R::from_number(*shown).map_err(|why| Box::<lw_error>::from(why).at_row(row))?;
            match readings.iter_mut().find(|of| of.throttle == throttle) {
                Some(of) => of.shown.push(shown),
                None => readings.push(ThrottleReading {
                    throttle,
                    shown: vec![shown],
                }),
            }
        }
        Ok(readings)
    }
}

impl lw_trial_turns {
    /// # Safety
    /// The columns have the rows they say.
    pub(crate) unsafe fn typed<R: Shown>(&self) -> Outcome<Vec<TrialTurn<R>>> {
        let rows = self.rows;
        // SAFETY: passed on under the same contract.
        let (joints, turns, before, after, unmoved) = unsafe {
            (
                items("trials.joint", self.joint, rows)?,
                items("trials.turn_deg", self.turn_deg, rows)?,
                items("trials.before", self.before, rows)?,
                items("trials.after", self.after, rows)?,
                if self.unmoved_before.is_null() && self.unmoved_after.is_null() {
                    None
                } else {
                    let before = items("trials.unmoved_before", self.unmoved_before, rows)?;
                    Some(before.iter().zip(items(
                        "trials.unmoved_after",
                        self.unmoved_after,
                        rows,
                    )?))
                },
            )
        };
        let mut unmoved = unmoved;
        let each = joints
            .iter()
            .zip(turns)
            .zip(before.iter().zip(after))
            .enumerate();
        each.map(|(row, ((joint, turn), (before, after)))| {
            let still = unmoved.as_mut().and_then(Iterator::next);
            let one = || -> Outcome<TrialTurn<R>> {
                let still = match still {
                    Some((before, after)) => {
                        Some((R::from_number(*before)?, R::from_number(*after)?))
                    }
                    None => None,
                };
                Ok(TrialTurn {
                    joint: *joint as usize,
                    turn: ScrewAngle::from_degrees(*turn)?,
                    before: R::from_number(*before)?,
                    after: R::from_number(*after)?,
                    unmoved: still,
                })
            };
            one().map_err(|why| why.at_row(row))
        })
        .collect()
    }
}
