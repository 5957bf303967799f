//! What to do about a judged valve.

use super::aim::Aim;
use super::as_found::AsFound;
use super::closer::closer;
use super::error::ClearanceError;
use super::far::far;
use super::inspect::{Cause, causes};
use super::locking::{Landing, better_left};
use super::next::NextTry;
use super::reset::Reset;
use super::setting::Setting;
use super::step::{Step, StepCode, first};
use super::target::share;
use crate::adjust::Adjuster;
use crate::quantity::Lash;
use crate::tolerance::{Deciding, DecidingSide, Estimate, Judgement, Probabilities, Verdict};
use alloc::boxed::Box;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Said of a valve at which nothing else is to be said.
const LEAVE_ALONE: &str = "leave it alone";

/// What to do about a valve, with only what belongs to it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(tag = "action", rename_all = "snake_case")]
#[non_exhaustive]
pub enum Advice {
    /// Leave the valve alone.
    #[non_exhaustive]
    Leave {
        /// Why, in words.
        text: String,
        /// The chances after a reset, where they are the reason.
        #[serde(flatten)]
        landing: Option<Landing>,
    },
    /// Measure before anything is decided.
    #[non_exhaustive]
    Measure {
        /// What has to be better.
        how: MeasureHow,
        /// The same in words.
        text: String,
        /// What comes before it, in order; usually nothing.
        first: Vec<Step>,
        /// The leaves to try, if some at hand can tell; several are a stack.
        leaves: Vec<String>,
    },
    /// Bring it to the set value.
    Reset(Box<Reset>),
    /// Something that concerns more than this valve must be settled first: its number may not be what
    /// it seems, so no amount is given.
    #[non_exhaustive]
    SettleFirst {
        /// What, in words.
        text: String,
    },
    /// Something must be found out before it can be set.
    #[non_exhaustive]
    FindCause {
        /// What, in words.
        text: String,
        /// What comes before it, in order; usually nothing.
        first: Vec<Step>,
        /// Possible causes to look at, the quickest first; nothing if it is said in the text.
        causes: Vec<Cause>,
    },
}

/// How to measure again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum MeasureHow {
    /// The other end of the bracket is missing.
    BothEnds,
    /// With the leaves that are named, which lie between those that were tried.
    NarrowerBracket,
    /// With finer leaves than those at hand, which cannot tell any closer.
    FinerLeaves,
    /// At the reference temperature: most of the doubt comes from the metal's temperature.
    AtReference,
    /// After it has cooled to the temperature the figures hold at: it is warmer, and nothing says how
    /// the lash follows.
    LetItCool,
    /// At the temperature the figures hold at: the metal is colder, or its temperature or theirs is not
    /// stated, and nothing says how the lash follows.
    AtBookTemperature,
}

impl Advice {
    /// The step in words.
    #[must_use]
    pub fn text(&self) -> &str {
        match self {
            Self::Leave { text, .. }
            | Self::Measure { text, .. }
            | Self::SettleFirst { text, .. }
            | Self::FindCause { text, .. } => text,
            Self::Reset(reset) => &reset.text,
        }
    }

    /// Whether the valve is left alone without more ado.
    pub(crate) fn is_plainly_left(&self) -> bool {
        matches!(self, Self::Leave { text, .. } if text == LEAVE_ALONE)
    }

    /// What comes before it, in order; usually nothing.
    #[must_use]
    pub fn first(&self) -> &[Step] {
        match self {
            Self::Measure { first, .. } | Self::FindCause { first, .. } => first,
            Self::Reset(reset) => &reset.first,
            _ => &[],
        }
    }

    /// A cause to find, only after other steps.
    pub(crate) fn after(mut self, before: Vec<Step>) -> Self {
        if let Self::FindCause { first, .. } = &mut self {
            *first = before;
        }
        self
    }

    /// The amounts of a reset, if one is advised.
    #[must_use]
    pub const fn reset(&self) -> Option<&Reset> {
        match self {
            Self::Reset(reset) => Some(reset),
            _ => None,
        }
    }

    /// The chances after a reset, where they are known.
    #[must_use]
    pub const fn landing(&self) -> Option<Landing> {
        match self {
            Self::Leave { landing, .. } => *landing,
            Self::Reset(reset) => reset.landing,
            _ => None,
        }
    }
}

/// What one valve's advice is made from. The estimates are as felt and at the reference temperature.
pub(super) struct Case<'c, 's> {
    pub(super) found: &'c AsFound,
    pub(super) setting: &'c Setting<'s>,
    pub(super) felt: &'c Estimate<Lash>,
    pub(super) estimate: &'c Estimate<Lash>,
    pub(super) judgement: &'c Judgement,
    pub(super) next: Option<&'c NextTry>,
}

impl Case<'_, '_> {
    /// What the lash has more than the leaves felt, in millimetres: the hollow, less the thermal change.
    pub(super) fn shift(&self) -> f64 {
        self.felt_shift() - self.setting.warmth().mm()
    }

    /// What the gap has more than the leaves felt, in millimetres: a hollow they bridge.
    pub(super) fn felt_shift(&self) -> f64 {
        self.found.hollow.map_or(0.0, |hollow| hollow.depth.mm())
    }

    /// Advice for the judged reading.
    pub(super) fn advise(&self) -> Result<Advice, ClearanceError> {
        match self.judgement.verdict {
            Verdict::InBand => Ok(leave(if self.is_between_the_bands() {
                "leave it alone: outside the set band but inside the leave-alone band"
            } else {
                LEAVE_ALONE
            })),
            Verdict::CannotSay => self.undecided(),
            Verdict::Below | Verdict::Above => self.out_of_band(),
        }
    }

    fn is_between_the_bands(&self) -> bool {
        let limits = self.setting.limits;
        let centre = self.estimate.centre();
        limits.leave_alone().is_some() && centre.is_some_and(|c| !limits.set().contains(c))
    }

    fn out_of_band(&self) -> Result<Advice, ClearanceError> {
        let (setting, loose) = (self.setting, self.judgement.verdict == Verdict::Above);
        if let Some(text) = far(setting.limits, self.estimate, loose, self.found.in_inches()) {
            let causes = causes(loose, setting.kind, setting.adjuster);
            return Ok(Advice::FindCause {
                text,
                first: Vec::new(),
                causes,
            });
        }
        if setting.limits.is_band_taken() && self.is_as_near_as_felt() {
            return Ok(leave(AS_NEAR));
        }
        let aim = Aim::of(self.found, setting, self.estimate)?;
        let lands = aim.lands(setting);
        let landing = lands.map(|l| l.told);
        match lands
            .and_then(|l| better_left(self.judgement, &l, setting.limits, self.found.in_inches()))
        {
            Some(text) => Ok(Advice::Leave { text, landing }),
            None => self.reset(aim, landing, None),
        }
    }

    fn reset(
        &self,
        aim: Aim,
        landing: Option<Landing>,
        because: Option<String>,
    ) -> Result<Advice, ClearanceError> {
        let said = (first(self.felt, self.setting.leaves), because);
        let made = aim.reset(self.found, self.setting, self.estimate, landing, said)?;
        Ok(match made {
            Ok(reset) => Advice::Reset(Box::new(reset)),
            Err(text) => Advice::FindCause {
                text,
                first: Vec::new(),
                causes: Vec::new(),
            },
        })
    }

    /// Whether hand and leaf cannot tell the lash from the printed value.
    fn is_as_near_as_felt(&self) -> bool {
        let printed = Lash::from_nominal(self.setting.limits.set_to().nominal());
        match (self.estimate.centre(), printed) {
            (Some(centre), Ok(printed)) => {
                (printed - centre).mm().abs() <= self.estimate.normal_uncertainty().mm()
            }
            _ => false,
        }
    }

    /// What to do where the reading does not decide.
    fn undecided(&self) -> Result<Advice, ClearanceError> {
        let plain = |how, text: String| Advice::Measure {
            how,
            text,
            first: Vec::new(),
            leaves: Vec::new(),
        };
        if let Some(off) = self.setting.not_at_reference {
            let (how, words) = if off.is_too_warm() {
                (MeasureHow::LetItCool, "let it cool and measure again")
            } else {
                (
                    MeasureHow::AtBookTemperature,
                    "measure at the temperature for which the figures are printed, and state it",
                )
            };
            return Ok(plain(how, format!("{words}: {}", off.temperatures())));
        }
        if self.warmth_dominates() {
            let text = "let the metal come to the reference temperature and measure again: most of the \
                        doubt comes from its temperature";
            return Ok(plain(MeasureHow::AtReference, String::from(text)));
        }
        if self.estimate.centre().is_none() {
            return Ok(self.both_ends());
        }
        if let Some(leaves) = closer(self) {
            let text = format!(
                "try {}, between the leaves that were tried{}",
                leaves.join(" + "),
                self.decided_by()
                    .map_or_else(String::new, |why| format!(": {}", share(&why)))
            );
            return Ok(Advice::Measure {
                how: MeasureHow::NarrowerBracket,
                text,
                first: Vec::new(),
                leaves,
            });
        }
        self.weigh()
    }

    fn decided_by(&self) -> Option<Deciding> {
        self.setting.rule.deciding(&self.judgement.probabilities)
    }

    fn warmth_dominates(&self) -> bool {
        let warm_u = self.setting.warmth_uncertainty_mm();
        let all = self.estimate.standard_uncertainty();
        all.is_some_and(|u| 2.0 * warm_u * warm_u > u.mm() * u.mm())
    }

    /// One end of the bracket is missing.
    fn both_ends(&self) -> Advice {
        let leaves: Vec<String> = self.next.iter().map(|next| next.leaf_text()).collect();
        let text = match (leaves.as_slice(), self.felt.low()) {
            ([leaf], _) => {
                format!("find the leaf that goes and the next that does not: try {leaf} next")
            }
            (_, Some(_)) => {
                String::from("find the leaf that does not go: thicker leaves or a stack are needed")
            }
            (_, None) => String::from("find the leaf that goes: thinner leaves are needed"),
        };
        // The leaf to find is the advice itself.
        let mut first = first(self.felt, self.setting.leaves);
        first.retain(|step| step.code != StepCode::FindLeaf);
        Advice::Measure {
            how: MeasureHow::BothEnds,
            text,
            first,
            leaves,
        }
    }

    /// No leaf at hand tells closer: a reset now against leaving it.
    fn weigh(&self) -> Result<Advice, ClearanceError> {
        let share = self
            .decided_by()
            .map_or_else(String::new, |why| share(&why));
        if matches!(self.setting.adjuster, Adjuster::Shim { .. }) {
            return Ok(Advice::Measure {
                how: MeasureHow::FinerLeaves,
                text: format!(
                    "measure it with finer leaves: those at hand tell no closer ({share}), and another \
                     shim is work for a doubt"
                ),
                first: Vec::new(),
                leaves: Vec::new(),
            });
        }
        if self.is_as_near_as_felt() {
            return Ok(leave(AS_NEAR));
        }
        let aim = Aim::of(self.found, self.setting, self.estimate)?;
        let lands = aim.lands(self.setting);
        let landing = lands.map(|l| l.told);
        match (self.decided_by(), aim.after().copied()) {
            (Some(why), Some(after)) if gains(why.side, &self.judgement.probabilities, &after) => {
                let against = match why.side {
                    DecidingSide::Below => "a burnt valve",
                    DecidingSide::Above | DecidingSide::InBand => "taking the cover off again",
                };
                let because = format!(
                    "{share}, and these leaves tell no closer: with the cover off, a minute now against \
                     {against}"
                );
                self.reset(aim, landing, Some(because))
            }
            _ => Ok(Advice::Leave {
                text: format!("leave it alone: {share}, but a reset would be no better"),
                landing,
            }),
        }
    }
}

const AS_NEAR: &str = "leave it alone: it is as near to the value to set as hand and leaf can tell";

fn leave(text: &str) -> Advice {
    Advice::Leave {
        text: String::from(text),
        landing: None,
    }
}

/// Whether a reset improves what keeps the valve from being called in its band.
fn gains(side: DecidingSide, now: &Probabilities, after: &Probabilities) -> bool {
    match side {
        DecidingSide::Below => after.below.most < now.below.most,
        DecidingSide::Above => after.above.most < now.above.most,
        DecidingSide::InBand => after.in_band.least > now.in_band.least,
    }
}
