//! Whether a reading that differs is a matter of the throttle or of the cylinder behind it.
//!
//! # Method
//! A choked throttle passes air by its opening alone, `m ~ A psi(p / p_a)`; the cylinder takes it in by what
//! it can breathe at the pressure behind the throttle, `m ~ c p`. So of two cylinders with one flow, or with
//! throttles known to be open alike, the one with less vacuum breathes less: it has lost compression, a valve
//! does not close as it should, or air comes in behind the throttle. Each throttle is compared with the
//! median of the others, in logarithms, so that one weak cylinder does not make the others look strong; uncertainties by JCGM 100:2008, 5.1.2.
//!
//! # Source
//! St Venant and Wantzel for the flow; that the causes cannot be told apart by balance readings follows from
//! it. From what difference on one matters is this library's choice.

use super::nozzle::{behind, flow_share, ln_flow_share_slope};
use super::{BalanceAssumption, BalanceError, Choked};
use crate::quantity::{AbsolutePressure, AirFlow, Vacuum};
use crate::statistics::normal_cdf;
use crate::tolerance::{FIRM, Uncertainty};
use alloc::vec::Vec;
use serde::Serialize;

/// From what share on a difference matters, if nothing is stated.
const USUAL_SHARE: f64 = 0.05;

/// What is known of the openings of the throttles.
#[derive(Clone, Debug, PartialEq)]
pub enum Opening {
    /// The flow through each, with its standard uncertainty.
    Flow(Vec<(AirFlow, Uncertainty<AirFlow>)>),
    /// Set alike by a pin, a drill or a feeler, to so large a share of standard deviation: 0.02 for 2 %.
    Alike {
        /// Standard deviation of one opening over the mean.
        share: f64,
    },
}

/// What else is known of a cylinder: whether something was found wrong; nothing said is nothing known.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct CylinderFindings {
    /// Its compression.
    pub compression_wrong: Option<bool>,
    /// Its valve clearances.
    pub lash_wrong: Option<bool>,
    /// Air drawn in behind its throttle.
    pub leak_found: Option<bool>,
}

/// What is asked: the vacuum behind each throttle, and what is known of the openings.
#[derive(Clone, Debug, PartialEq)]
pub struct CylinderCheck {
    /// The pressure of the air around.
    pub ambient: AbsolutePressure,
    /// The vacuum behind each throttle, with its standard uncertainty.
    pub vacuum: Vec<(Vacuum, Uncertainty<Vacuum>)>,
    /// What is known of the openings.
    pub opening: Opening,
    /// What was found of each cylinder; none at all, or one a throttle.
    pub findings: Vec<CylinderFindings>,
    /// From what share on a difference matters; 0.05 if none is stated.
    pub matters_from: Option<f64>,
}

/// A share against the median of the others, less one: -0.1 for 10 % less.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RelativeShare {
    /// The share.
    pub value: f64,
    /// Standard uncertainty.
    pub standard_uncertainty: f64,
    /// The chance that it differs by more than matters.
    pub differs: f64,
}

/// What a difference is a matter of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Matter {
    /// Nothing differs by so much that it matters.
    Neither,
    /// The throttle: balance it.
    Throttle,
    /// The cylinder: no screw of the linkage mends it.
    Cylinder,
    /// Both.
    Both,
    /// The readings do not decide it.
    CannotSay,
}

/// Why a cylinder breathes less, or more, than the others.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum CylinderCause {
    /// Compression is lost.
    Compression,
    /// Valve clearance is too small, or differs from that of the others.
    Lash,
    /// Air comes in behind the throttle.
    Leak,
}

/// One cylinder.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CylinderStand {
    /// Its throttle, from 0.
    pub throttle: usize,
    /// Whether its throttle is choked.
    pub choked: Choked,
    /// How far its throttle is open, against the others; none where they were set alike.
    pub opening: Option<RelativeShare>,
    /// How well it breathes, against the others.
    pub breathing: RelativeShare,
    /// What that is a matter of.
    pub matter: Matter,
    /// What may be the matter with the cylinder, what was found wrong first; those found right are left out.
    pub causes: Vec<CylinderCause>,
}

/// The answer to a [`CylinderCheck`].
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CylinderAnswer {
    /// The cylinders.
    pub cylinders: Vec<CylinderStand>,
    /// What was taken for granted.
    pub assumptions: Vec<BalanceAssumption>,
}

/// A logarithm with its variance.
#[derive(Clone, Copy)]
struct Log {
    value: f64,
    variance: f64,
}

impl CylinderCheck {
    /// Works out what is asked.
    ///
    /// # Errors
    /// [`BalanceError::Count`], [`BalanceError::NotRead`] for lists of different lengths,
    /// [`BalanceError::BeyondAmbient`], [`BalanceError::Nothing`], [`BalanceError::Share`].
    ///
    /// ```
    /// use lashwork::mixture::balance::{CylinderCheck, Matter, Opening};
    /// use lashwork::quantity::{AbsolutePressure, Vacuum};
    /// use lashwork::tolerance::Uncertainty;
    /// # fn example() -> Result<(), Box<dyn std::error::Error>> {
    /// let read = |kpa| -> Result<_, Box<dyn std::error::Error>> {
    ///     Ok((Vacuum::from_kilopascals(kpa)?, Uncertainty::from_number(0.3)?))
    /// };
    /// // Throttles set alike; the third cylinder draws less.
    /// let check = CylinderCheck {
    ///     ambient: AbsolutePressure::parse("101.325 kPa")?,
    ///     vacuum: vec![read(62.0)?, read(62.2)?, read(54.0)?, read(61.9)?],
    ///     opening: Opening::Alike { share: 0.01 },
    ///     findings: vec![],
    ///     matters_from: None,
    /// };
    /// let answer = check.worked_out().map_err(|p| format!("{p:?}"))?;
    /// assert_eq!(answer.cylinders[2].matter, Matter::Cylinder);
    /// assert_eq!(answer.cylinders[2].causes.len(), 3);
    /// assert_eq!(answer.cylinders[1].matter, Matter::Neither);
    /// # Ok(())
    /// # }
    /// # example().unwrap();
    /// ```
    pub fn worked_out(&self) -> Result<CylinderAnswer, Vec<BalanceError>> {
        let problems = self.problems();
        if !problems.is_empty() {
            return Err(problems);
        }
        let breathing = self.breathing();
        let openings = self.openings();
        let share = self.matters_from.unwrap_or(USUAL_SHARE);
        let cylinders = (0..self.vacuum.len()).filter_map(|throttle| {
            let (vacuum, _) = self.vacuum.get(throttle)?;
            let breathing = against_others(&breathing, throttle, share)?;
            let opening = openings.as_ref();
            let opening = opening.and_then(|all| against_others(all, throttle, share));
            let matter = matter(opening, breathing);
            Some(CylinderStand {
                throttle,
                choked: Choked::at(*vacuum, self.ambient),
                opening,
                breathing,
                matter,
                causes: self.causes(throttle, matter, breathing),
            })
        });
        let assumed = self.matters_from.is_none();
        Ok(CylinderAnswer {
            cylinders: cylinders.collect(),
            assumptions: assumed
                .then_some(BalanceAssumption::ShareAssumed)
                .into_iter()
                .collect(),
        })
    }

    fn problems(&self) -> Vec<BalanceError> {
        let count = self.vacuum.len();
        if !(super::Linkage::FEWEST..=super::Linkage::MOST).contains(&count) {
            return alloc::vec![BalanceError::Count { got: count }];
        }
        let mut problems = Vec::new();
        for (throttle, (vacuum, _)) in self.vacuum.iter().enumerate() {
            let rest = behind(*vacuum, self.ambient);
            if rest < 0.0 {
                problems.push(BalanceError::BeyondAmbient {
                    throttle,
                    shown: vacuum.kilopascals(),
                    ambient: self.ambient,
                });
            } else if rest <= 0.0 || rest >= 1.0 {
                problems.push(BalanceError::Nothing { throttle });
            }
        }
        match &self.opening {
            Opening::Flow(flows) => {
                if flows.len() != count {
                    let throttle = flows.len().min(count);
                    problems.push(BalanceError::NotRead { throttle });
                }
                let none = flows
                    .iter()
                    .position(|(f, _)| f.kilograms_per_hour() <= 0.0);
                problems.extend(none.map(|throttle| BalanceError::Nothing { throttle }));
            }
            Opening::Alike { share } => problems.extend(is_no_share(*share)),
        }
        if !self.findings.is_empty() && self.findings.len() != count {
            let throttle = self.findings.len().min(count);
            problems.push(BalanceError::NotRead { throttle });
        }
        problems.extend(self.matters_from.and_then(is_no_share));
        problems
    }

    /// What each cylinder breathes: flow over the pressure behind the throttle.
    fn breathing(&self) -> Vec<Log> {
        let air = self.ambient.kilopascals();
        let each = self.vacuum.iter().enumerate();
        each.map(|(throttle, (vacuum, u))| {
            let rest = behind(*vacuum, self.ambient);
            // Of the vacuum, for a kilopascal of it.
            let by_pressure = 1.0 / (rest * air);
            let u = u.number();
            match &self.opening {
                Opening::Flow(flows) => {
                    let flow = flows.get(throttle).map_or(LOG_OF_ONE, ln_flow);
                    Log {
                        value: flow.value - libm::log(rest),
                        variance: flow.variance + by_pressure * by_pressure * u * u,
                    }
                }
                Opening::Alike { share } => {
                    let by_flow = -ln_flow_share_slope(rest) / air;
                    let by = by_pressure + by_flow;
                    Log {
                        value: libm::log(flow_share(rest)) - libm::log(rest),
                        variance: share * share + by * by * u * u,
                    }
                }
            }
        })
        .collect()
    }

    /// How far each throttle is open: flow over that of a choked one; none where they were set alike.
    fn openings(&self) -> Option<Vec<Log>> {
        let Opening::Flow(flows) = &self.opening else {
            return None;
        };
        let air = self.ambient.kilopascals();
        let each = flows.iter().zip(&self.vacuum).map(|(flow, (vacuum, u))| {
            let rest = behind(*vacuum, self.ambient);
            let flow = ln_flow(flow);
            let by = ln_flow_share_slope(rest) / air * u.number();
            Log {
                value: flow.value - libm::log(flow_share(rest)),
                variance: flow.variance + by * by,
            }
        });
        Some(each.collect())
    }

    fn causes(
        &self,
        throttle: usize,
        matter: Matter,
        breathing: RelativeShare,
    ) -> Vec<CylinderCause> {
        let is_cylinder = matches!(matter, Matter::Cylinder | Matter::Both);
        if !is_cylinder || breathing.value >= 0.0 {
            return Vec::new();
        }
        let found = self.findings.get(throttle).copied().unwrap_or_default();
        let all = [
            (CylinderCause::Compression, found.compression_wrong),
            (CylinderCause::Lash, found.lash_wrong),
            (CylinderCause::Leak, found.leak_found),
        ];
        let wrong = all.iter().filter(|(_, wrong)| *wrong == Some(true));
        let open = all.iter().filter(|(_, wrong)| wrong.is_none());
        wrong.chain(open).map(|(cause, _)| *cause).collect()
    }
}

const LOG_OF_ONE: Log = Log {
    value: 0.0,
    variance: 0.0,
};

fn ln_flow((flow, u): &(AirFlow, Uncertainty<AirFlow>)) -> Log {
    let flow = flow.kilograms_per_hour();
    let share = u.number() / flow;
    Log {
        value: libm::log(flow),
        variance: share * share,
    }
}

fn is_no_share(share: f64) -> Option<BalanceError> {
    let is_share = share > 0.0 && share < 1.0;
    (!is_share).then_some(BalanceError::Share { got: share })
}

/// One against the median of the others; its uncertainty is that of the one or two in the middle.
fn against_others(all: &[Log], own: usize, share: f64) -> Option<RelativeShare> {
    let others = all.iter().enumerate().filter(|(place, _)| *place != own);
    let mut others: Vec<Log> = others.map(|(_, log)| *log).collect();
    others.sort_by(|a, b| a.value.total_cmp(&b.value));
    let (low, high) = (
        others.get((others.len().max(1) - 1) / 2)?,
        others.get(others.len() / 2)?,
    );
    let (middle, variance) = if others.len().is_multiple_of(2) {
        (
            0.5 * (low.value + high.value),
            0.25 * (low.variance + high.variance),
        )
    } else {
        (low.value, low.variance)
    };
    let log = all.get(own)?;
    let (value, u) = (log.value - middle, libm::sqrt(log.variance + variance));
    let over = normal_cdf((value - libm::log1p(share)) / u);
    let under = normal_cdf((libm::log1p(-share) - value) / u);
    let relative = libm::exp(value);
    Some(RelativeShare {
        value: relative - 1.0,
        standard_uncertainty: relative * u,
        differs: over + under,
    })
}

fn matter(opening: Option<RelativeShare>, breathing: RelativeShare) -> Matter {
    let firm = |share: Option<RelativeShare>| match share.map(|share| share.differs) {
        Some(p) if p >= FIRM => Some(true),
        Some(p) if p > 1.0 - FIRM => None,
        _ => Some(false),
    };
    match (firm(opening), firm(Some(breathing))) {
        (Some(true), Some(true)) => Matter::Both,
        (Some(true), Some(false)) => Matter::Throttle,
        (Some(false), Some(true)) => Matter::Cylinder,
        (Some(false), Some(false)) => Matter::Neither,
        _ => Matter::CannotSay,
    }
}
