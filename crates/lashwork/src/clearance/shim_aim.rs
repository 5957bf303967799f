//! Which shim one valve by itself asks for, in words. Where a whole engine is shimmed the plan over all
//! its valves decides instead.

use super::as_found::AsFound;
use super::setting::Setting;
use super::text::thickness;
use crate::adjust::{
    AdjustError, JudgedSize, ShimFit, ShimRules, ShimSeries, ShimSlot, ShimStock, ShimSupply,
    SizeToBuy, size_to_buy,
};
use crate::quantity::shown::by_hand;
use crate::quantity::{Lash, Nominal};
use crate::tolerance::{Chance, Estimate, Uncertainty, judge};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// What a shim fit comes to.
pub(super) enum Fitted {
    /// The fitted shim is not known.
    Unknown,
    /// The exact thickness, and what the series has for it.
    Exact(Nominal, Option<SizeToBuy>),
}

impl Fitted {
    pub(super) fn of(
        found: &AsFound,
        setting: &Setting<'_>,
        estimate: &Estimate<Lash>,
        (ratio, series, rules): (f64, Option<&ShimSeries>, &ShimRules),
    ) -> Result<Self, AdjustError> {
        let (Some(old), Some(measured)) = (found.shim, estimate.centre()) else {
            return Ok(Self::Unknown);
        };
        let set_to = setting.limits.set_to();
        let fit = ShimFit {
            old,
            measured,
            target: Lash::from_nominal(set_to.nominal())?,
            ratio_from_shim_to_gap: ratio,
        };
        let size_uncertainty = rules.size_uncertainty.unwrap_or(Uncertainty::ZERO);
        let slot = ShimSlot {
            fitted: old,
            fitted_uncertainty: found.shim_uncertainty.unwrap_or(size_uncertainty),
            lash: *estimate,
            set_to,
            set: *setting.limits.set(),
            found: judge(estimate, setting.limits.judging(), setting.rule),
        };
        let supply = ShimSupply {
            ratio_from_shim_to_gap: ratio,
            series,
            rounding: rules.rounding,
            stock: &ShimStock::default(),
            size_uncertainty,
            fitted_may_move: false,
            rule: setting.rule,
        };
        let sizes = series.map(|_| size_to_buy(&slot, &supply));
        Ok(Self::Exact(fit.wanted()?, sizes))
    }

    /// The size to fit and its neighbours, if there is one.
    pub(super) const fn sizes(&self) -> Option<(&JudgedSize, &Vec<JudgedSize>)> {
        match self {
            Self::Exact(
                _,
                Some(SizeToBuy {
                    chosen: Some(size),
                    others,
                }),
            ) => Some((size, others)),
            _ => None,
        }
    }

    /// The shim to fit, and what is to be expected with it.
    pub(super) fn words(&self, setting: &Setting<'_>, leaves_in_inches: bool) -> String {
        let Self::Exact(exact, _) = self else {
            return String::from("; measure the fitted shim to choose the new one");
        };
        let exact = shown(*exact, setting);
        let Some((size, others)) = self.sizes() else {
            return format!(": fit a {exact} shim");
        };
        let lash = by_hand(size.choice.predicted_lash.mm(), leaves_in_inches);
        let likelier = others
            .iter()
            .filter(|other| other.probabilities.in_band.least > size.probabilities.in_band.least);
        let likelier: Vec<String> = likelier
            .map(|other| {
                let other_size = shown(other.choice.size, setting);
                format!("; with {other_size} it would be {}", chances(other))
            })
            .collect();
        format!(
            ": shim {} (exactly {exact}), lash then {lash}: {}{}",
            shown(size.choice.size, setting),
            chances(size),
            likelier.concat()
        )
    }

    /// Why no size is advised, where every size of the series would leave the valve out of its band.
    pub(super) fn none_serves(
        &self,
        setting: &Setting<'_>,
        leaves_in_inches: bool,
    ) -> Option<String> {
        let Self::Exact(
            exact,
            Some(SizeToBuy {
                chosen: None,
                others,
            }),
        ) = self
        else {
            return None;
        };
        Some(format!(
            "find out why, before any shim is changed: {} is wanted; {}",
            shown(*exact, setting),
            no_size(others, setting.adjuster.shims_in_inches(), leaves_in_inches)
        ))
    }
}

/// What each size that comes near would leave, where none serves.
pub(crate) fn no_size(
    others: &[JudgedSize],
    shims_in_inches: bool,
    leaves_in_inches: bool,
) -> String {
    let each: Vec<String> = others
        .iter()
        .map(|other| {
            let size = other.choice.size;
            let size = thickness(shims_in_inches, &|unit, decimals| {
                size.show(unit, decimals.into())
            });
            let lash = by_hand(other.choice.predicted_lash.mm(), leaves_in_inches);
            format!("{size} would leave {lash}, {}", chances(other))
        })
        .collect();
    if each.is_empty() {
        String::from("no size can be had")
    } else {
        format!(
            "no size that can be had brings it into the set band: {}",
            each.join("; ")
        )
    }
}

fn shown(size: Nominal, setting: &Setting<'_>) -> String {
    thickness(setting.adjuster.shims_in_inches(), &|unit, decimals| {
        size.show(unit, decimals.into())
    })
}

/// The chances that are not negligible, in per cent.
pub(crate) fn chances(size: &JudgedSize) -> String {
    let p = &size.probabilities;
    let sides = [
        ("tight", p.below),
        ("in band", p.in_band),
        ("loose", p.above),
    ];
    let said = sides
        .iter()
        .filter(|(_, chance): &&(&str, Chance)| chance.most >= 0.000_5);
    let said: Vec<String> = said
        .map(|(side, chance)| {
            let p = chance.least;
            let percent = if p > 0.999_5 {
                "over 99.9 %".to_string()
            } else {
                format!("{:.1} %", p * 100.0)
            };
            format!("{side} {percent}")
        })
        .collect();
    said.join(", ")
}
