//! What to bend at the float.

use super::answer::{FloatChamberReport, FloatReport};
use super::fuel::Read;
use super::{Float, FloatChamber, FloatField, Refused};
use crate::job::work::{MeasuredReport, Sides, WorkAdvice, told};
use crate::mixture::float::{FloatError, Nozzle, depression_to_lift, head_at_jet};
use crate::quantity::shown;
use crate::quantity::{Density, FuelLevel, Length};
use crate::tolerance::Verdict;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

const SIDES: Sides = Sides {
    below: "too low",
    above: "too high",
};

/// What must be sure where the fuel stands over the nozzle's mouth.
const RUNS_OVER: &str = "the engine is not started and the fuel is shut off: it runs out of the nozzle into the \
                         cylinders and the oil, or out of the intake; look at the oil for fuel";

/// What the advice rests on.
pub(super) struct Found<'r> {
    pub(super) asked: &'r Float,
    pub(super) read: &'r Read,
    pub(super) inches: bool,
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
        let found = format!(
            "{}, u {}",
            self.over(centre, level_u),
            shown::level_doubt(level_u, self.inches)
        );
        let judged = told(found, limits.to_string(), &level.judged_by(limits), SIDES);
        let is_out = matches!(judged.verdict, Verdict::Below | Verdict::Above);
        let rise = self.read.aim.filter(|_| is_out);
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
            advice: self.advice(&judged, rise, at_needle, level_u, &at_jet),
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
        judged: &MeasuredReport,
        rise: Option<FuelLevel>,
        at_needle: Option<Length>,
        level_u: f64,
        at_jet: &AtJet,
    ) -> WorkAdvice {
        let runs_over = at_jet.runs_over == Some(true);
        let is_low = match judged.shown() {
            Verdict::Below => true,
            Verdict::Above => false,
            Verdict::InBand if runs_over => {
                return WorkAdvice::Measure {
                    text: String::from(
                        "the level is as the book asks and yet over the nozzle's mouth, so one of them is not what it \
                         was taken for: measure both again before the engine runs",
                    ),
                };
            }
            Verdict::InBand => {
                return WorkAdvice::Leave {
                    text: String::from("the level is as the book asks: leave the float"),
                };
            }
            Verdict::CannotSay => {
                let shut = if runs_over {
                    format!("{RUNS_OVER}; ")
                } else {
                    String::new()
                };
                return WorkAdvice::Measure {
                    text: format!("{shut}read the level closer, the bowl level and at rest"),
                };
            }
        };
        let (tang, way) = if is_low {
            ("away from the needle", "higher")
        } else {
            ("toward the needle", "lower")
        };
        let how_far = rise.map(|rise| {
            let by = rise.mm().abs();
            let needle = at_needle.map(|far| {
                let u = level_u * far.mm() / by;
                format!(", {} at the needle", self.say(far.mm(), u))
            });
            format!(
                " by {}, u {}{}",
                self.say(by, level_u),
                shown::level_doubt(level_u, self.inches),
                needle.unwrap_or_default()
            )
        });
        let shuts = if is_low { "later" } else { "sooner" };
        WorkAdvice::Set {
            first: first(is_low, runs_over),
            text: format!(
                "bend the tang {tang}, so that the needle shuts {shuts} and the fuel stands {way}{}",
                how_far.unwrap_or_default()
            ),
            then_reads: self.then_reads(level_u),
        }
    }

    fn then_reads(&self, level_u: f64) -> String {
        let limits = &self.asked.limits;
        let back = self.read.aim.and_then(|aim| self.read.as_read(aim));
        match back {
            Some(read) => format!(
                "{limits} over the mark with the fuel it burns, {} with the one it was read with",
                self.over(read, level_u)
            ),
            None => format!("{limits} over the mark"),
        }
    }

    /// A height that is known to `u`.
    fn say(&self, mm: f64, u: f64) -> String {
        shown::level(mm, u, self.inches)
    }

    /// A level against the mark.
    fn over(&self, level: FuelLevel, u: f64) -> String {
        if shown::is_no_level(level.mm(), u, self.inches) {
            return String::from("at the mark");
        }
        let side = if level.mm() < 0.0 { "under" } else { "over" };
        format!("{} {side} the mark", self.say(level.mm().abs(), u))
    }
}

/// What must be sure before the tang is bent. Common practice, no source.
fn first(is_low: bool, runs_over: bool) -> Vec<String> {
    let shut_off = runs_over.then_some(RUNS_OVER);
    let comes_or_shuts = if is_low {
        "the fuel comes: filter, tap and tank vent are free, the needle does not stick in its seat"
    } else {
        "the needle shuts tight and is clean, and the float holds no fuel: shake and weigh it; bending would hide \
         either"
    };
    let always = [
        comes_or_shuts,
        "the bowl stood level, and the fuel pressed on the needle as it does in use",
        "the engine is cold, the battery off, no flame or spark near, a tray under the bowl: fuel runs out",
        "only the tang is bent, the needle out of its seat or not pressed; all floats of one arm stay in line",
    ];
    let all = shut_off.into_iter().chain(always);
    all.map(ToString::to_string).collect()
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
