//! What to bend at the float.

use super::answer::{FloatChamberReport, FloatReport};
use super::fuel::Read;
use super::{Float, FloatChamber, FloatField, Refused};
use crate::job::work::{Before, Sides, WorkAdvice, told};
use crate::mixture::float::{FloatError, Nozzle, depression_to_lift, head_at_jet};
use crate::quantity::shown::reckoned;
use crate::quantity::{Density, FuelLevel, Length};
use crate::tolerance::Verdict;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

const SIDES: Sides = Sides {
    below: "too low",
    above: "too high",
};

/// What the advice rests on.
pub(super) struct Found<'r> {
    pub(super) asked: &'r Float,
    pub(super) read: &'r Read,
    pub(super) inches: bool,
    pub(super) before: &'r Before,
}

/// What a level does at jet and nozzle.
#[derive(Default)]
struct AtJet {
    head: Option<crate::quantity::GaugePressure>,
    lifted_from: Option<crate::quantity::Vacuum>,
    runs_over: Option<bool>,
    flow: Option<f64>,
}

impl Found<'_> {
    /// The report.
    pub(super) fn told(&self) -> Result<FloatReport, Refused> {
        let each = self.asked.chambers.iter().enumerate();
        let chambers: Vec<FloatChamberReport> = each
            .map(|(i, one)| self.chamber(i, one))
            .collect::<Result<_, _>>()?;
        let said = chambers.iter().map(|one| {
            let runs = if one.runs_over == Some(true) {
                ", runs out of the nozzle by itself"
            } else {
                ""
            };
            format!("{} {}{runs}", one.name, one.judged.verdict_text)
        });
        let said: Vec<String> = said.collect();
        let fuel = self.read.fuel.as_ref();
        Ok(FloatReport {
            verdict_text: said.join("; "),
            depth: self.read.depth,
            fuel: fuel.map(|fuel| fuel.told(self.asked, self.inches)),
            chambers,
        })
    }

    fn chamber(&self, i: usize, one: &FloatChamber) -> Result<FloatChamberReport, Refused> {
        let here = |why: FloatError| (FloatField::Chamber(i), why);
        let level = self.read.level(one).map_err(here)?;
        let one_sided = || here(FloatError::OneSided { what: "the level" });
        let centre = level.centre().ok_or_else(one_sided)?;
        let level_u = level.normal_uncertainty().number();
        let limits = &self.asked.limits;
        let found = format!("{}, u {}", self.over(centre), self.say(level_u));
        let judged = told(found, limits.to_string(), &level.judged_by(limits), SIDES);
        let is_out = matches!(judged.verdict, Verdict::Below | Verdict::Above);
        let rise = self
            .read
            .aim
            .filter(|_| is_out && self.before.settle.is_none());
        let rise = rise.map(|aim| FuelLevel::from_mm(aim.mm() - centre.mm()));
        let rise = rise.transpose().map_err(|why| here(why.into()))?;
        let at_needle = match (rise, self.asked.body) {
            (Some(rise), Some(body)) => Some(
                body.at_needle(rise)
                    .map_err(|why| (FloatField::Body, why))?,
            ),
            _ => None,
        };
        let at_jet = self.at_jet(centre)?;
        Ok(FloatChamberReport {
            name: one.name.clone(),
            read: one.level,
            level: centre,
            level_u,
            advice: self.advice(one, judged.verdict, rise, at_needle, level_u, &at_jet),
            at_jet_text: at_jet.said(),
            judged,
            rise,
            at_needle,
            head: at_jet.head,
            lifted_from: at_jet.lifted_from,
            runs_over: at_jet.runs_over,
            flow: at_jet.flow,
        })
    }

    /// What the level does at jet and nozzle.
    fn at_jet(&self, level: FuelLevel) -> Result<AtJet, Refused> {
        let mut made = AtJet::default();
        let Some(density) = self.asked.density.and_then(|density| density.centre()) else {
            return Ok(made);
        };
        if let Some(under) = self.asked.jet_under_mark {
            let jet = |why: FloatError| (FloatField::JetUnderMark, why);
            let height = Length::from_mm(under.mm() + level.mm());
            let height = height.map_err(|why| jet(why.into()))?;
            made.head = Some(head_at_jet(height, density).map_err(jet)?);
        }
        let nozzle = |why: FloatError| (FloatField::Nozzle, why);
        if let Some(over) = self.asked.nozzle {
            let lift = over.over_mark.mm() - level.mm();
            made.runs_over = Some(lift < 0.0);
            if lift >= 0.0 {
                let lift = Length::from_mm(lift).map_err(|why| nozzle(why.into()))?;
                made.lifted_from = Some(depression_to_lift(lift, density).map_err(nozzle)?);
                made.flow = self.flow(level, density).map_err(nozzle)?;
            }
        }
        Ok(made)
    }

    /// Mass of fuel at the level over that at the book's.
    fn flow(&self, level: FuelLevel, density: Density) -> Result<Option<f64>, FloatError> {
        let (Some(over), Some(aim)) = (self.asked.nozzle, self.read.aim) else {
            return Ok(None);
        };
        let nozzle = Nozzle {
            depression: over.depression,
            lift: Length::from_mm(over.over_mark.mm() - aim.mm())?,
        };
        let change = FuelLevel::from_mm(level.mm() - aim.mm())?;
        Ok(Some(nozzle.mass_flow(density, density, change)?))
    }

    fn advice(
        &self,
        one: &FloatChamber,
        verdict: Verdict,
        rise: Option<FuelLevel>,
        at_needle: Option<Length>,
        level_u: f64,
        at_jet: &AtJet,
    ) -> WorkAdvice {
        if let Some(text) = &self.before.settle {
            return WorkAdvice::SettleFirst { text: text.clone() };
        }
        let name = &one.name;
        let is_low = match verdict {
            Verdict::Below => true,
            Verdict::Above => false,
            Verdict::InBand if at_jet.runs_over == Some(true) => {
                return WorkAdvice::Measure {
                    text: format!(
                        "{name}: the level is as the book asks and yet over the nozzle's mouth, so one of them is not \
                         what it was taken for: measure both again before the engine runs"
                    ),
                };
            }
            Verdict::InBand => {
                return WorkAdvice::Leave {
                    text: format!("{name}: the level is as the book asks: leave the float"),
                };
            }
            Verdict::CannotSay => {
                return WorkAdvice::Measure {
                    text: format!("{name}: read the level closer, the bowl level and at rest"),
                };
            }
        };
        let (tang, way) = if is_low {
            ("away from the needle", "higher")
        } else {
            ("toward the needle", "lower")
        };
        let how_far = rise.map(|rise| {
            let needle = at_needle.map(|far| format!(", {} at the needle", self.say(far.mm())));
            format!(
                " by {}, u {}{}",
                self.say(rise.mm().abs()),
                self.say(level_u),
                needle.unwrap_or_default()
            )
        });
        let shuts = if is_low { "later" } else { "sooner" };
        WorkAdvice::Set {
            first: self.first(is_low, at_jet.runs_over == Some(true)),
            text: format!(
                "{name}: bend the tang {tang}, so that the needle shuts {shuts} and the fuel stands {way}{}",
                how_far.unwrap_or_default()
            ),
            then_reads: self.then_reads(),
        }
    }

    /// What must be sure before the tang is bent. Common practice, no source.
    fn first(&self, is_low: bool, runs_over: bool) -> Vec<String> {
        let mut first = self.before.sure.clone();
        if runs_over {
            first.push(String::from(
                "the engine is not started and the fuel is shut off: it runs out of the nozzle into the cylinders and \
                 the oil, or out of the intake; look at the oil for fuel",
            ));
        }
        first.push(String::from(if is_low {
            "the fuel comes: filter, tap and tank vent are free, the needle does not stick in its seat"
        } else {
            "the needle shuts tight and is clean, and the float holds no fuel: shake and weigh it; bending would hide \
             either"
        }));
        first.push(String::from(
            "the bowl stood level, and the fuel pressed on the needle as it does in use",
        ));
        first.push(String::from(
            "the engine is cold, the battery off, no flame or spark near, a tray under the bowl: fuel runs out",
        ));
        first.push(String::from(
            "only the tang is bent, the needle out of its seat or not pressed; all floats of one arm stay in line",
        ));
        first
    }

    fn then_reads(&self) -> String {
        let limits = &self.asked.limits;
        let back = self.read.aim.and_then(|aim| self.read.as_read(aim));
        match back {
            Some(read) => format!(
                "{limits} over the mark with the fuel it burns, {} with the one it was read with",
                self.over(read)
            ),
            None => format!("{limits} over the mark"),
        }
    }

    fn say(&self, mm: f64) -> String {
        reckoned(mm, self.inches)
    }

    /// A level against the mark.
    fn over(&self, level: FuelLevel) -> String {
        let side = if level.mm() < 0.0 { "under" } else { "over" };
        format!("{} {side} the mark", self.say(level.mm().abs()))
    }
}

impl AtJet {
    fn said(&self) -> Option<String> {
        let pascals = |kilopascals: f64| format!("{:.0} Pa", 1e3 * kilopascals);
        let mut said = Vec::new();
        if let Some(head) = self.head {
            said.push(format!(
                "{} of fuel over the jet",
                pascals(head.kilopascals())
            ));
        }
        if self.runs_over == Some(true) {
            said.push(String::from(
                "the fuel stands over the nozzle's mouth and runs out by itself",
            ));
        }
        if let Some(from) = self.lifted_from {
            said.push(format!(
                "fuel comes from {} of depression on",
                pascals(from.kilopascals())
            ));
        }
        if let Some(flow) = self.flow {
            let percent = 100.0 * (flow - 1.0);
            let way = if percent < 0.0 { "less" } else { "more" };
            said.push(format!(
                "{:.1} % {way} fuel than at the middle of the book's level",
                percent.abs()
            ));
        }
        (!said.is_empty()).then(|| said.join("; "))
    }
}
