//! Jets in words.

use super::FittedJet;
use super::answer::{JetRuleReport, JetSizeReport};
use crate::mixture::jets::{Circuit, JetRule, JetSize, RuleSays};
use crate::quantity::Lambda;
use alloc::format;
use alloc::string::{String, ToString};

/// Which jet.
pub(super) fn jet(jet: &FittedJet) -> String {
    let circuit = match jet.circuit {
        Circuit::Main => "main jet",
        Circuit::Pilot => "pilot jet",
        Circuit::Needle => "needle",
    };
    match &jet.name {
        Some(name) => format!("{circuit} {name}"),
        None => String::from(circuit),
    }
}

/// Where a jet is heard and seen.
pub(super) const fn where_seen(circuit: Circuit) -> &'static str {
    match circuit {
        Circuit::Pilot => "at idle and just off it",
        _ => "at full load",
    }
}

/// A number that was reckoned. Those of some makers are millimetres, with digits behind the point.
fn reckoned(number: f64, u: Option<f64>) -> String {
    let decimals = if number < 10.0 { 3 } else { 1 };
    match u {
        Some(u) => format!("{number:.decimals$}, u {u:.decimals$}"),
        None => format!("{number:.decimals$}"),
    }
}

/// A rule.
const fn rule_name(rule: JetRule) -> &'static str {
    match rule {
        JetRule::Theory => "theory (root of the density)",
        JetRule::Proportional => "in proportion to the density",
        JetRule::Steps(_) => "the book's steps",
    }
}

/// What a rule asks for, of the sizes there are beside the one that is fitted.
pub(super) fn rule(said: &RuleSays, fitted: f64) -> JetRuleReport {
    let number_u = (!matches!(said.rule, JetRule::Steps(_))).then_some(said.u);
    let named = |size: f64| {
        if is_same(size, fitted) {
            format!("{size}, which is fitted")
        } else {
            format!("{size}")
        }
    };
    let size = match (said.nearest, said.size) {
        (Some(near), Some(size)) if is_same(near, said.number) && is_same(size, near) => {
            format!("size {}", named(size))
        }
        (Some(near), Some(size)) if is_same(size, near) => format!(
            "not among the sizes to be had, the nearest on the rich side is {}",
            named(size)
        ),
        (Some(near), Some(size)) => format!(
            "the nearest size on the rich side is {near}, but to be sure of it take {}",
            named(size)
        ),
        _ => "no size to be had is large enough".to_string(),
    };
    JetRuleReport {
        rule: said.rule,
        number: said.number,
        number_u,
        nearest: said.nearest,
        size: said.size,
        text: format!(
            "{}: {}: {size}",
            rule_name(said.rule),
            reckoned(said.number, number_u)
        ),
    }
}

/// Whether two numbers are one size.
pub(super) fn is_same(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * b
}

/// Lambda, or what is known of it.
pub(super) fn lambda(text: &str, is_known: bool) -> String {
    if is_known {
        format!("lambda {text}")
    } else {
        format!("{text} of the lambda it had")
    }
}

/// A size.
pub(super) fn size(of: &JetSize, is_lambda_known: bool) -> JetSizeReport {
    let ratio = |lambda: Option<Lambda>| lambda.map_or(0.0, Lambda::ratio);
    let (from, to) = (ratio(of.lambda.low()), ratio(of.lambda.high()));
    let u = |lambda: &crate::tolerance::Estimate<Lambda>| lambda.normal_uncertainty().number();
    let back = ratio(of.back.centre());
    let (lambda_u, back_u) = (u(&of.lambda), u(&of.back));
    let there = lambda(&format!("{from:.2} to {to:.2}"), is_lambda_known);
    JetSizeReport {
        number: of.number,
        lambda_from: from,
        lambda_to: to,
        lambda_u,
        back,
        back_u,
        text: format!(
            "{}: {there}, u {lambda_u:.3}; back where it was set {back:.2}, u {back_u:.3}",
            of.number
        ),
    }
}
