//! How long to wait until the thermal correction is certain enough.
//!
//! Every stated temperature is taken to be that of the moment of the last cooling reading, and to fall
//! as the thermometer's does: each keeps its share of the difference to the surroundings.

use super::answer::{CoolingReport, WaitReport};
use super::ask::Cooling;
use crate::job::clearance::metals::Metals;
use crate::job::units::Shown;
use crate::quantity::shown::reckoned;
use crate::quantity::{Lash, Temperature, TemperatureDifference, TemperatureUnit};
use crate::thermal::{Correction, Metal, ThermalError, Wait};
use crate::tolerance::Uncertainty;
use crate::valve::{Specification, ValveKind};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// The report on cooling; each specification with the temperature it holds at.
pub(super) fn report<'r>(
    metals: Metals<'_>,
    cooling: &Cooling,
    candidates: impl Iterator<Item = (&'r Specification, Temperature)>,
    shown: TemperatureUnit,
) -> Result<CoolingReport, ThermalError> {
    let fit = cooling.fit();
    let law = fit.cooling();
    let now = fit.now()?;
    let mut waits = Vec::new();
    for (specification, reference) in candidates {
        for kind in [ValveKind::Intake, ValveKind::Exhaust] {
            let metal = metals.of(kind);
            let book = (specification, reference);
            waits.push(wait(metal, cooling, book, kind, shown)?);
        }
    }
    Ok(CoolingReport {
        surroundings: law.surroundings,
        surroundings_uncertainty_k: fit.surroundings_u(),
        now,
        at_odds: at_odds(metals.intake, now, shown),
        per_minute: law.per_minute,
        per_minute_uncertainty: law.per_minute_u,
        half_minutes: core::f64::consts::LN_2 / law.per_minute,
        scatter: fit.scatter(),
        degrees_of_freedom: fit.degrees_of_freedom(),
        waits,
    })
}

/// Why a last reading cannot belong to the moment of the stated temperatures. A thermometer may sit
/// anywhere between the coldest part and the hottest.
fn at_odds(metal: &Metal, now: Temperature, shown: TemperatureUnit) -> Option<String> {
    let (low, high) = metal.stated_range()?;
    let celsius = now.celsius();
    let is_outside = celsius < low || celsius > high;
    let show = |celsius| {
        Temperature::from_celsius(celsius).map_or_else(|_| String::new(), |t| t.show(shown, 0))
    };
    is_outside.then(|| {
        format!(
            "the last cooling reading, {}, is NOT among the stated temperatures, {} \
             to {} with three standard uncertainties: state temperatures of the same moment; \
             the waiting times below do not hold",
            now.show(shown, 0),
            show(low),
            show(high)
        )
    })
}

fn wait(
    metal: &Metal,
    cooling: &Cooling,
    (specification, reference): (&Specification, Temperature),
    kind: ValveKind,
    shown: TemperatureUnit,
) -> Result<WaitReport, ThermalError> {
    let fit = cooling.fit();
    let surroundings = fit.cooling().surroundings;
    let span = (fit.now()? - surroundings).kelvin();
    // Uncertainty of the correction when the thermometer shows `shown`.
    let uncertainty_at = |shown: Temperature| -> Result<Uncertainty<Lash>, ThermalError> {
        let left = (shown - surroundings).kelvin() / span;
        let then = metal.at_other_temperatures(|_, now| {
            let celsius = surroundings.celsius() + left * (now.celsius() - surroundings.celsius());
            Ok(Temperature::from_celsius(celsius)?)
        })?;
        let correction = then.correction(reference)?;
        let mm = correction.map_or(0.0, |c: Correction| c.standard_uncertainty_mm());
        Ok(Uncertainty::from_mm(mm)?)
    };
    let now_mm = uncertainty_at(fit.now()?)?.mm();
    let limits = specification.limits(kind).judging();
    let limit_mm = limits.width_mm().map(|width| width * cooling.share());
    let wait = match limit_mm {
        Some(mm) => Some(fit.wait(Uncertainty::from_mm(mm)?, uncertainty_at)?),
        None => None,
    };
    Ok(WaitReport {
        specification: specification.id.clone(),
        kind,
        limit_mm,
        now_mm,
        wait,
        text: words(wait, shown),
    })
}

fn words(wait: Option<Wait>, shown: TemperatureUnit) -> String {
    match wait {
        None => String::from(
            "cannot be worked out: the band has one limit only, and so no width to take a share of",
        ),
        Some(Wait::Already) => String::from("the correction is certain enough already"),
        Some(Wait::Never) => String::from(
            "waiting does not help: the correction stays too uncertain even at the temperature of \
             the surroundings; state temperatures or parts more precisely",
        ),
        Some(Wait::BeyondReach { at }) => format!(
            "longer than these readings can predict: the metal has to cool to {}; keep taking \
             readings",
            at.show(shown, 0)
        ),
        Some(Wait::For {
            time,
            uncertainty,
            at,
            stays,
        }) => {
            let (minutes, u) = (time.minutes(), uncertainty.minutes());
            let then = if stays {
                ""
            } else {
                "; do not wait much longer: colder still, the correction becomes uncertain again"
            };
            format!(
                "wait {minutes:.0} min (u {u:.1} min) from the last reading, until {}{then}",
                at.show(shown, 0)
            )
        }
    }
}

impl CoolingReport {
    /// The facts of the fit, one line each.
    pub(super) fn lines(&self, shown: Shown) -> Vec<String> {
        let said = |mm| reckoned(mm, shown.inches);
        let shown = shown.temperature;
        let u = TemperatureDifference::from_kelvin(self.surroundings_uncertainty_k);
        let u = u.map_or_else(|_| String::from("unknown"), |u| u.show(shown));
        let mut lines = alloc::vec![format!(
            "cools towards {} (u {}), half-time {:.1} min; {} at the last reading",
            self.surroundings.show(shown, 0),
            u,
            self.half_minutes,
            self.now.show(shown, 0)
        ),];
        lines.extend(self.at_odds.clone());
        // The same answer for several kinds of valve stands once.
        let mut answers: Vec<(String, &str)> = Vec::new();
        for wait in &self.waits {
            let wanted = wait
                .limit_mm
                .map_or_else(String::new, |limit| format!(", {} wanted", said(limit)));
            let who = format!(
                "[{}] {} (u {} now{wanted})",
                wait.specification,
                wait.kind.word(),
                said(wait.now_mm)
            );
            match answers.last_mut() {
                Some((all, text)) if *text == wait.text => {
                    all.push_str(", ");
                    all.push_str(&who);
                }
                _ => answers.push((who, &wait.text)),
            }
        }
        lines.extend(answers.iter().map(|(who, text)| format!("{who}: {text}")));
        lines
    }
}
