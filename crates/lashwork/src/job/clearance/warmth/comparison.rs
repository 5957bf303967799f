//! The chain of parts and the fitted coefficient, compared.

use super::answer::ComparisonReport;
use crate::job::units::Shown;
use crate::quantity::Temperature;
use crate::quantity::shown::reckoned;
use crate::statistics::normal_tail;
use crate::thermal::{Metal, ThermalError};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// One comparison for each reference temperature.
pub(super) fn comparisons(
    used: &Metal,
    other: &Metal,
    references: impl Iterator<Item = Temperature>,
    shown: Shown,
) -> Result<Vec<ComparisonReport>, ThermalError> {
    let mut found: Vec<ComparisonReport> = Vec::new();
    for reference in references {
        if found.iter().all(|c| c.reference != reference) {
            found.extend(compare(used, other, reference, shown)?);
        }
    }
    Ok(found)
}

/// `None` if one of the two is no rule at all.
fn compare(
    used: &Metal,
    other: &Metal,
    reference: Temperature,
    shown: Shown,
) -> Result<Option<ComparisonReport>, ThermalError> {
    let (Some(by_used), Some(by_other)) =
        (used.correction(reference)?, other.correction(reference)?)
    else {
        return Ok(None);
    };
    let apart = by_used.apart(&by_other);
    // ISO 13528:2022, 9.7: the difference over the expanded uncertainty (coverage factor 2).
    let normalized_error = apart.map(|apart| apart / 2.0);
    let chance = apart.map(|apart| 2.0 * normal_tail(apart));
    let difference =
        crate::quantity::LashChange::from_mm(by_used.change.mm() - by_other.change.mm())?;
    let u = libm::hypot(
        by_used.standard_uncertainty_mm(),
        by_other.standard_uncertainty_mm(),
    );
    let agree = normalized_error.map_or(difference.mm() == 0.0, |en| en <= 1.0);
    let said = |mm| reckoned(mm, shown.inches);
    let (size, said_u) = (said(difference.mm()), said(u));
    let text = if agree {
        format!("parts and measured lash agree: {size} apart, u {said_u}")
    } else {
        format!(
            "parts and measured lash do NOT agree: {size} apart, u {said_u}; check for a wrong \
             material or length, a part left out, a temperature that is not the part's, or a \
             reading taken before the whole engine was evenly warm"
        )
    };
    Ok(Some(ComparisonReport {
        reference,
        used: match used {
            Metal::Chain { .. } => "parts",
            _ => "measured",
        },
        by_used: by_used.change,
        by_used_uncertainty_mm: by_used.standard_uncertainty_mm(),
        by_other: by_other.change,
        by_other_uncertainty_mm: by_other.standard_uncertainty_mm(),
        difference,
        difference_uncertainty_mm: u,
        normalized_error,
        chance,
        agree,
        text,
    }))
}

impl ComparisonReport {
    /// The finding, one line.
    pub(super) fn line(&self, shown: Shown) -> String {
        let chance = self.chance.map_or_else(String::new, |p| {
            format!(
                "; chance of this much or more if both are right {:.0} %",
                p * 100.0
            )
        });
        format!(
            "from {}: {}{chance}; readings are corrected by {}",
            self.reference.show(shown.temperature, 0),
            self.text,
            self.used
        )
    }
}
