//! What the sections found, as signs. What a section itself doubts is no sign.

use crate::causes::{
    CauseCheck, CompressionSign, DriftSign, DwellSign, LambdaSign, LashSign, LeakSign,
    MonoxideSign, PressureSign, SeatSign, Seen, TimingSign, UnburntSign,
};
use crate::condition::leak::LeakPath;
use crate::engine::Engine;
use crate::history::SeatFact;
use crate::job::clearance::{ClearanceReport, ValveReport};
use crate::job::condition::{CompressionReport, LeakCylinderReport, LeakDownReport};
use crate::job::history::HistoryReport;
use crate::job::ignition::IgnitionReport;
use crate::job::mixture::{Mixture, MixtureReport};
use crate::job::report::Report;
use crate::job::request::Request;
use crate::tolerance::Verdict;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Enters all signs, and returns what was found and is not weighed.
pub(super) fn gather(request: &Request, report: &Report, check: &mut CauseCheck) -> Vec<String> {
    let mut remarks = Vec::new();
    let engine = &request.engine;
    if let Some(found) = &report.clearance {
        clearances(found, engine, check, &mut remarks);
    }
    if let Some(found) = &report.history {
        records(found, engine, check);
    }
    let condition = report.condition.as_ref();
    if let Some(found) = condition.and_then(|found| found.compression.as_ref()) {
        compression(found, engine, check, &mut remarks);
    }
    if let Some(found) = condition.and_then(|found| found.leak.as_ref()) {
        leak(found, engine, check, &mut remarks);
    }
    if let Some(found) = &report.ignition {
        ignition(found, check);
    }
    if let (Some(asked), Some(found)) = (&request.mixture, &report.mixture) {
        gauge(asked, found, engine, check);
        gas(found, check, &mut remarks);
    }
    remarks
}

/// Which side a valve was found on, and how surely, if all its specifications say the same.
fn side(valve: &ValveReport) -> Option<Seen<LashSign>> {
    let of = |one: &crate::job::clearance::JudgedReport| {
        let p = &one.probabilities;
        Seen::judged(p, LashSign::Tight, LashSign::InLimits, LashSign::Loose)
    };
    let mut all = valve.judged.iter().map(of);
    let first = all.next()??;
    all.try_fold(first, |least, other| {
        let other = other.filter(|other| other.found() == least.found())?;
        Some(if other.chance() < least.chance() {
            other
        } else {
            least
        })
    })
}

fn clearances(
    found: &ClearanceReport,
    engine: &Engine,
    check: &mut CauseCheck,
    remarks: &mut Vec<String>,
) {
    if !found.stop_work.is_empty() {
        remarks.push(String::from(
            "clearances: what stops the work on them comes first",
        ));
        return;
    }
    for (cylinder, signs) in engine.cylinders().iter().zip(&mut check.cylinders) {
        let name = cylinder.label.as_str();
        let valves: Vec<&ValveReport> =
            found.valves.iter().filter(|v| v.cylinder == name).collect();
        let sides: Vec<Option<Seen<LashSign>>> = valves.iter().map(|valve| side(valve)).collect();
        let surest = |sign: LashSign| {
            let of = sides.iter().flatten().filter(|seen| seen.found() == sign);
            of.copied().max_by(|a, b| a.chance().total_cmp(&b.chance()))
        };
        let lead = format!("cylinder {name} ");
        let all_read = !found.not_read.iter().any(|valve| valve.starts_with(&lead));
        let all_in = all_read && !sides.is_empty() && sides.iter().all(Option::is_some);
        signs.lash = match (surest(LashSign::Tight), surest(LashSign::Loose)) {
            (Some(tight), _) => Some(tight),
            (None, Some(loose)) if all_in => Some(loose),
            (None, None) if all_in => {
                let chance: f64 = sides.iter().flatten().map(Seen::chance).product();
                Seen::with_chance(LashSign::InLimits, chance).ok()
            }
            _ => None,
        };
    }
    if found.valves.iter().any(|valve| valve.left.is_some()) {
        remarks.push(String::from(
            "clearances as left: they count as found, since what they did was done before",
        ));
    }
}

fn records(found: &HistoryReport, engine: &Engine, check: &mut CauseCheck) {
    let Some(lash) = &found.lash else { return };
    let kind_rate = |kind: &str| {
        let own = lash.kinds.iter().find(|own| own.kind == kind);
        own.and_then(|own| own.rate).map(|rate| rate.value)
    };
    for (cylinder, signs) in engine.cylinders().iter().zip(&mut check.cylinders) {
        let name = Some(cylinder.label.as_str());
        let valves = lash.subjects.iter();
        let valves = valves.filter(|valve| valve.cylinder.as_deref() == name);
        let each: Vec<Option<Seen<DriftSign>>> = valves
            .map(|valve| {
                let (odd, rate) = (valve.odd.as_ref()?, valve.rate.as_ref()?);
                Seen::of_evidence(odd.evidence, rate.value < kind_rate(&valve.kind)?)
            })
            .collect();
        let surest = |sign: DriftSign| {
            let of = each.iter().flatten().filter(|seen| seen.found() == sign);
            of.copied().max_by(|a, b| a.chance().total_cmp(&b.chance()))
        };
        let all_known = !each.is_empty() && each.iter().all(Option::is_some);
        signs.drift = match (surest(DriftSign::Closing), surest(DriftSign::Opening)) {
            (Some(closing), _) => Some(closing),
            (None, opening @ Some(_)) => opening,
            (None, None) if all_known => {
                let chance: f64 = each.iter().flatten().map(Seen::chance).product();
                Seen::with_chance(DriftSign::AsItsMates, chance).ok()
            }
            _ => None,
        };
    }
    check.engine.seats = found.recession.as_ref().and_then(|found| {
        let facts = &found.facts;
        let closes = |all: &[SeatFact]| all.contains(&SeatFact::Closes);
        if closes(&facts.speaks_against) {
            Some(SeatSign::Hold.into())
        } else if closes(&facts.speaks_for) && facts.speaks_against.is_empty() {
            Some(SeatSign::Sink.into())
        } else {
            None
        }
    });
}

fn compression(
    found: &CompressionReport,
    engine: &Engine,
    check: &mut CauseCheck,
    remarks: &mut Vec<String>,
) {
    if !found.faults.is_empty() {
        remarks.push(String::from(
            "compression: how the engine was cranked moves the readings",
        ));
        return;
    }
    for (cylinder, signs) in engine.cylinders().iter().zip(&mut check.cylinders) {
        let own = found
            .cylinders
            .iter()
            .find(|own| own.name == cylinder_name(cylinder.label.as_str()));
        let Some((own, dry)) = own.and_then(|own| Some((own, (own.share?, own.share_u?)))) else {
            continue;
        };
        let oil = own.wet.zip(own.expected).map(|(wet, expected)| {
            let gain = wet.kilopascals() - own.dry.kilopascals();
            // Two readings, each as uncertain as the one.
            (
                gain / expected.kilopascals(),
                core::f64::consts::SQRT_2 * dry.1,
            )
        });
        signs.compression = Seen::<CompressionSign>::of_shares(dry, oil);
    }
    check.engine.pressure = found.level.as_ref().and_then(|level| match level.verdict {
        Verdict::Below => Some(PressureSign::AllLow.into()),
        Verdict::Above => Some(PressureSign::AllHigh.into()),
        Verdict::InBand => Some(PressureSign::Right.into()),
        Verdict::CannotSay => None,
    });
}

fn cylinder_name(label: &str) -> String {
    format!("cylinder {label}")
}

/// Where a leak that is too large goes.
fn path(own: &LeakCylinderReport) -> LeakSign {
    match own.paths.as_slice() {
        [LeakPath::ExhaustValve] => LeakSign::AtExhaust,
        [LeakPath::IntakeValve | LeakPath::ThroughManifold] => LeakSign::AtIntake,
        [LeakPath::Rings] => LeakSign::AtBreather,
        [LeakPath::GasketOrCrack | LeakPath::GasketToNeighbour | LeakPath::GasketOutside] => {
            LeakSign::AtGasket
        }
        _ => LeakSign::Large,
    }
}

fn leak(
    found: &LeakDownReport,
    engine: &Engine,
    check: &mut CauseCheck,
    remarks: &mut Vec<String>,
) {
    for (cylinder, signs) in engine.cylinders().iter().zip(&mut check.cylinders) {
        let name = cylinder_name(cylinder.label.as_str());
        let own = found.cylinders.iter().find(|own| own.name == name);
        signs.leak = own.and_then(|own| {
            let judged = own.judged.as_ref()?;
            // Too little on the tester's face, or too large an area.
            Seen::judged(&judged.probabilities, path(own), LeakSign::Small, path(own))
        });
    }
    if found.cylinders.iter().any(|own| own.judged.is_none()) {
        remarks.push(String::from("leak-down: no rule says how much is too much"));
    }
}

fn ignition(found: &IgnitionReport, check: &mut CauseCheck) {
    let dwell = found
        .contacts
        .as_ref()
        .and_then(|contacts| contacts.dwell.as_ref());
    check.engine.dwell = dwell.and_then(|judged| {
        let p = &judged.probabilities;
        Seen::judged(p, DwellSign::Small, DwellSign::Right, DwellSign::Large)
    });
    let timing = found
        .timing
        .as_ref()
        .and_then(|timing| timing.found.as_ref());
    check.engine.timing = timing.and_then(|judged| {
        let p = &judged.probabilities;
        Seen::judged(p, TimingSign::Late, TimingSign::Right, TimingSign::Early)
    });
}

fn gauge(asked: &Mixture, found: &MixtureReport, engine: &Engine, check: &mut CauseCheck) {
    let Some(gauge) = asked.gauge else { return };
    let mut seen = gauge.seen;
    let is_seen = seen.level.is_some()
        || seen.movement.is_some()
        || seen.with_speed.is_some()
        || seen.blip.is_some();
    if !is_seen {
        return;
    }
    let air = found.air.as_ref().map(|air| air.pressure);
    seen.ambient = seen.ambient.or(air);
    if asked.balance.is_none() {
        seen.cylinders = seen.cylinders.or(Some(engine.cylinders().len()));
    }
    check.engine.gauge = Some(seen);
}

fn gas(found: &MixtureReport, check: &mut CauseCheck, remarks: &mut Vec<String>) {
    let Some(found) = &found.gas else { return };
    if let Some(doubt) = found.contradictions.first() {
        remarks.push(format!("exhaust gas: {}", doubt.text));
        return;
    }
    if let Some(why) = &found.spoilt {
        remarks.push(format!("exhaust gas: {why}"));
        return;
    }
    let judged = &found.judged;
    check.engine.monoxide = judged.co.as_ref().and_then(|co| {
        use MonoxideSign as S;
        Seen::judged(&co.probabilities, S::Low, S::Right, S::High)
    });
    check.engine.unburnt = judged.hc.as_ref().and_then(|hc| {
        use UnburntSign as S;
        Seen::judged(&hc.probabilities, S::Right, S::Right, S::High)
    });
    check.engine.lambda = judged.lambda.as_ref().and_then(|lambda| {
        use LambdaSign as S;
        Seen::judged(&lambda.probabilities, S::Rich, S::Right, S::Lean)
    });
}
