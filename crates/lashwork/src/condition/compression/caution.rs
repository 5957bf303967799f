//! How the engine was cranked, and what lowers all readings.

use core::fmt;
use serde::Serialize;

/// Least strokes before a gauge stands, as a maker prints them.
const STROKES: u32 = 4;

/// How the engine was cranked; what is not stated is `None`.
///
/// ```
/// use lashwork::condition::compression::{CrankingFault, CrankingState};
/// let state = CrankingState { throttle_open: Some(false), ..CrankingState::default() };
/// assert_eq!(state.faults(), [CrankingFault::ThrottleShut]);
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct CrankingState {
    /// The engine was warm.
    pub warm: Option<bool>,
    /// The throttle, and the choke, were open.
    pub throttle_open: Option<bool>,
    /// All plugs were out.
    pub all_plugs_out: Option<bool>,
    /// The battery cranked the last cylinder as fast as the first.
    pub battery_good: Option<bool>,
    /// Compression strokes of each cylinder.
    pub strokes: Option<u32>,
}

impl CrankingState {
    /// What was not as it should be.
    #[must_use]
    pub fn faults(self) -> alloc::vec::Vec<CrankingFault> {
        let no = Some(false);
        let all = [
            (self.throttle_open == no, CrankingFault::ThrottleShut),
            (self.battery_good == no, CrankingFault::BatteryLow),
            (self.all_plugs_out == no, CrankingFault::PlugsIn),
            (self.warm == no, CrankingFault::Cold),
            (
                self.strokes.is_some_and(|n| n < STROKES),
                CrankingFault::FewStrokes,
            ),
        ];
        let is = all.into_iter().filter(|(is, _)| *is);
        is.map(|(_, fault)| fault).collect()
    }

    /// Whether everything was stated.
    pub(super) const fn is_stated(self) -> bool {
        self.warm.is_some()
            && self.throttle_open.is_some()
            && self.all_plugs_out.is_some()
            && self.battery_good.is_some()
            && self.strokes.is_some()
    }
}

/// Something about the cranking that moves the readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum CrankingFault {
    /// The throttle or the choke was shut.
    ThrottleShut,
    /// The battery cranked slower towards the end.
    BatteryLow,
    /// Other plugs were in.
    PlugsIn,
    /// The engine was cold.
    Cold,
    /// Fewer than four compression strokes.
    FewStrokes,
}

impl fmt::Display for CrankingFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::ThrottleShut => {
                "the throttle was shut: every cylinder reads low; open throttle and choke and read again"
            }
            Self::BatteryLow => {
                "the battery went down: later cylinders read low; charge it and read again, in another order"
            }
            Self::PlugsIn => "other plugs were in: the engine cranked slowly and unevenly; take all out",
            Self::Cold => "the engine was cold: rings and clearances are not as they run; readings of a cold engine are compared with each other only",
            Self::FewStrokes => "fewer than four strokes: the gauge had not risen to its end",
        })
    }
}
