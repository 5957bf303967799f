//! The exhaust gas in words.

use super::reckon::{LambdaBy, Reckoned};
use crate::job::mixture::Gas;
use crate::mixture::gas::{GasCause, GasContradiction};
use crate::mixture::idle::{MixtureScrew, Side};
use crate::quantity::{Lambda, VolumeShare};
use crate::tolerance::{Estimate, Limits};
use alloc::format;
use alloc::string::String;

/// Lambda with its uncertainty.
pub(super) fn lambda(found: &Estimate<Lambda>) -> String {
    let u = found.normal_uncertainty().number();
    match (found.low(), found.high()) {
        (Some(low), Some(high)) if low == high => format!("lambda {:.3}, u {u:.3}", low.ratio()),
        (Some(low), Some(high)) => {
            format!(
                "lambda {:.2} to {:.2} by CO alone",
                low.ratio(),
                high.ratio()
            )
        }
        (Some(low), None) => format!("lambda {:.2} or more by CO alone", low.ratio()),
        _ => String::from("lambda not known"),
    }
}

/// How lambda was found, and the ratio of air to fuel.
pub(super) fn how(found: &Reckoned, from: Option<Lambda>, to: Option<Lambda>) -> String {
    let range = match (from, to) {
        (Some(from), Some(to)) => {
            format!("with 95 % from {:.3} to {:.3}", from.ratio(), to.ratio())
        }
        (Some(from), None) => format!(
            "with 95 % no less than {:.3}; how lean, CO does not say",
            from.ratio()
        ),
        _ => String::from("of no known range"),
    };
    let by = match &found.by {
        LambdaBy::Gases {
            spindt: Some(spindt),
        } => format!(
            "by the balance of atoms (Brettschneider); {:.3} by Spindt, who knows no oxygen in the fuel",
            spindt.ratio()
        ),
        LambdaBy::Gases { spindt: None } => String::from(
            "by the balance of atoms (Brettschneider); Spindt's check does not hold for so much oxygen in the fuel",
        ),
        LambdaBy::CoAlone { burnt_out } => format!(
            "{:.3} if neither oxygen nor hydrocarbons are left",
            burnt_out.ratio()
        ),
    };
    let centre = found.lambda.centre();
    let ratio = centre.map(|lambda| {
        format!(
            "{:.1} parts of air to one of fuel by weight, where ",
            lambda.ratio() * found.fuel_ratio
        )
    });
    format!(
        "{}, {range}, {by}; {}this fuel just burns with {:.1}",
        lambda(&found.lambda),
        ratio.unwrap_or_default(),
        found.fuel_ratio
    )
}

/// Carbon monoxide with its uncertainty.
pub(super) fn co(found: &Estimate<VolumeShare>) -> String {
    let value = found.centre().map_or(0.0, VolumeShare::percent);
    let u = found.normal_uncertainty().number();
    format!("CO {value:.2} %, u {u:.2} %")
}

/// Hydrocarbons with their uncertainty.
pub(super) fn hc(found: &Estimate<VolumeShare>) -> String {
    let value = found.centre().map_or(0.0, ppm);
    let u = 1e4 * found.normal_uncertainty().number();
    format!("HC {value:.0} ppm, u {u:.0} ppm")
}

fn ppm(share: VolumeShare) -> f64 {
    1e4 * share.percent()
}

/// Limits as a book prints them.
pub(super) fn lambda_limits(limits: &Limits<Lambda>) -> String {
    let say = |one: Lambda| format!("{}", one.ratio());
    band(limits.lower().map(say), limits.upper().map(say), "")
}

/// The same of hydrocarbons, in parts per million.
pub(super) fn hc_limits(limits: &Limits<VolumeShare>) -> String {
    let say = |one: VolumeShare| format!("{:.0}", ppm(one));
    band(limits.lower().map(say), limits.upper().map(say), " ppm")
}

fn band(lower: Option<String>, upper: Option<String>, unit: &str) -> String {
    match (lower, upper) {
        (Some(low), Some(high)) => format!("{low} to {high}{unit}"),
        (Some(low), None) => format!("at least {low}{unit}"),
        (None, Some(high)) => format!("at most {high}{unit}"),
        (None, None) => String::from("any"),
    }
}

/// What does not fit, in short.
pub(super) const fn doubt(what: &GasContradiction) -> &'static str {
    match what {
        GasContradiction::OxygenWithCarbonMonoxide { .. } => "much oxygen beside CO",
        GasContradiction::OxygenWithHydrocarbons { .. } => "much oxygen beside unburnt fuel",
        GasContradiction::TooLeanToBurn => "too lean to burn, and yet burnt",
        GasContradiction::BeyondRunning => "lambda of no running engine",
        GasContradiction::TotalOff { .. } => "a total that is not 100 %",
    }
}

/// What shows whether it is that.
pub(super) const fn look(cause: &GasCause) -> &'static str {
    match cause {
        GasCause::AirAtProbe { .. } => {
            "the exhaust from the manifold to the tail pipe, soot at its joints, and the probe's depth and hose"
        }
        GasCause::MissedFiring => {
            "the plugs, leads and valve clearances of each cylinder: one that misses stays colder, its plug wet"
        }
        GasCause::UnevenCylinders => {
            "the balance of the carburettors, and the plugs beside each other: black ones and white ones"
        }
        GasCause::AirInjection => {
            "the pump or valve that puts air into the exhaust: shut it off for the reading"
        }
        GasCause::TesterOff => {
            "the tester: zero it in fresh air, empty its water trap, change its filter, then calibrate it"
        }
        GasCause::OtherFuel => "what is in the tank, and how much ethanol it holds",
    }
}

/// Why the gases do not count as read, by what is stated.
pub(super) const fn spoilt(asked: &Gas) -> Option<(&'static str, &'static str)> {
    if matches!(asked.is_warm, Some(false)) {
        Some((
            "the engine was not warm",
            "run the engine warm, the choke off, and read again",
        ))
    } else if matches!(asked.is_probe_deep, Some(false)) {
        Some((
            "the probe was not deep enough, so that air reached it",
            "put the probe in as deep as the tester asks, with a length of pipe on a short tail, and read again",
        ))
    } else if matches!(asked.is_air_injection_off, Some(false)) {
        Some((
            "air was put into the exhaust by design",
            "shut off the air that is put into the exhaust and read again",
        ))
    } else {
        None
    }
}

/// What to turn.
pub(super) fn turn(toward: Side, screw: Option<MixtureScrew>) -> String {
    let side = match toward {
        Side::Lean => "leaner",
        Side::Rich => "richer",
    };
    let way = |screw| if toward.is_out(screw) { "out" } else { "in" };
    let which = match screw {
        Some(screw) => format!("mixture screw: {}, which is {side}", way(screw)),
        None => format!(
            "mixture screw {side}: one that lets in fuel or mixture goes {}, one that lets in air {}",
            way(MixtureScrew::Fuel),
            way(MixtureScrew::Air)
        ),
    };
    // Steps that small: common practice, no source.
    format!(
        "{which}; an eighth of a turn at a time, alike on every carburettor, the speed brought back by the \
         throttle stop, and wait until the gases stand"
    )
}
