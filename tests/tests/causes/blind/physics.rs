//! What a drawn engine shows to perfect instruments, from first principles.

use super::chance::rising;
use super::engine::{Engine, Gasket};

const GAMMA: f64 = 1.4;
const GAS: f64 = 287.0;

/// Flow function of a nozzle: mass flow is area times pressure over the root of gas constant times temperature
/// times this; choked under 0.528.
fn nozzle(ratio: f64) -> f64 {
    let r = ratio.clamp(0.528_282, 1.0);
    let x = 2.0 * GAMMA / (GAMMA - 1.0) * (r.powf(2.0 / GAMMA) - r.powf((GAMMA + 1.0) / GAMMA));
    x.max(0.0).sqrt()
}

/// What a leak tester shows in kPa over the air: two nozzles in a row, the tester's and the leak, in mm².
pub(super) fn stands(supply: f64, orifice: f64, leak: f64, air: f64) -> f64 {
    let from = supply + air;
    let (mut low, mut high) = (air, from);
    for _ in 0..60 {
        let mid = 0.5 * (low + high);
        if from * orifice * nozzle(mid / from) > mid * leak * nozzle(air / mid) {
            low = mid;
        } else {
            high = mid;
        }
    }
    0.5 * (low + high) - air
}

/// What a gauge shows at the first stroke and at the last, kPa over the air.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cranked {
    pub first: f64,
    pub last: f64,
}

/// Volume over the piston in mm³, degrees from top dead centre; the rod is 3.6 throws long.
fn volume(engine: &Engine, ratio: f64, deg: f64) -> f64 {
    let a = deg.to_radians();
    let rod = (3.6_f64.powi(2) - a.sin().powi(2)).sqrt();
    let travel = 0.5 * (1.0 - a.cos() + 3.6 - rod);
    engine.swept * (1.0 / (ratio - 1.0) + travel)
}

/// Pressure in kPa at the end of one stroke of cranking, from the closing of the intake.
fn stroke(engine: &Engine, ratio: f64, filled: f64, leak: f64, rpm: f64) -> f64 {
    let (air, exponent) = (engine.air(), 1.29);
    let begin = 180.0 - engine.closes;
    let (v0, p0, t0) = (volume(engine, ratio, begin), air * filled, 325.0);
    let whole = p0 * 1e3 * v0 * 1e-9 / (GAS * t0);
    let (mut left, mut deg) = (1.0_f64, begin);
    let step = 2.0;
    let mut peak = p0;
    // Through top dead centre, for what leaks most peaks before it.
    while deg > -6.0 {
        let squeeze = v0 / volume(engine, ratio, deg);
        let p = p0 * (left * squeeze).powf(exponent);
        peak = peak.max(p);
        let t = t0 * (left * squeeze).powf(exponent - 1.0);
        let out = 0.85 * leak * 1e-6 * p * 1e3 / (GAS * t).sqrt() * nozzle((air / p).min(1.0));
        left -= out * step / (6.0 * rpm) / whole;
        left = left.max(0.01);
        deg -= step;
    }
    peak
}

/// Cranks a cylinder for six strokes into a gauge with a valve in it; `oil` in mm³ lies on the piston.
pub(super) fn crank(engine: &Engine, cylinder: usize, rpm: f64, oil: f64) -> Cranked {
    let [rings, intake, exhaust, gasket] = engine.leaks(cylinder);
    let cranked_in = match engine.lobe {
        Some((at, _, lost)) if at == cylinder => 1.0 - 0.05 * lost,
        _ => 1.0,
    };
    // Two thirds of the oil stay over the piston, the rest is in the gaps of the rings and seals them.
    let clearance = engine.clearance[cylinder] * engine.swept / (engine.ratio - 1.0);
    let ratio = 1.0 + engine.swept / (clearance - 0.66 * oil);
    let sealed = if oil > 0.0 { 0.4 } else { 1.0 };
    let air = engine.air();
    let hose = 0.35 * clearance;
    let (mut gauge, mut first) = (air, 0.0);
    for turn in 0..6 {
        // A piston that moves brings oil to its rings, and worn rings need it: they seal better stroke by stroke.
        let dry = if oil > 0.0 {
            1.0
        } else {
            1.45 - 0.09 * f64::from(turn)
        };
        let leak = rings * sealed * dry + intake + exhaust + gasket;
        let p = stroke(engine, ratio, cranked_in, leak, rpm);
        if p > gauge {
            gauge = (p * clearance + gauge * hose) / (clearance + hose);
        }
        if turn == 0 {
            first = gauge - air;
        }
    }
    Cranked {
        first,
        last: gauge - air,
    }
}

/// The idling engine.
#[derive(Clone, Debug)]
pub(super) struct Idling {
    /// Mean vacuum, kPa.
    pub vacuum: f64,
    /// How far the needle goes back when the worst cylinder draws, kPa, and how often it does.
    pub drop: f64,
    pub often: f64,
    /// Whether running faster smooths it.
    pub steadies: bool,
    /// Lambda and missed share, by cylinder.
    pub lambda: Vec<f64>,
    pub missed: Vec<f64>,
}

/// `manifold` is the absolute pressure, kPa, in which a sound engine of the kind idles at sea level.
pub(super) fn idle(engine: &Engine, manifold: f64, apart: &[f64]) -> Idling {
    let n = engine.cylinders;
    let (whose, share) = engine.beside.unwrap_or((None, 0.0));
    let mut lambda = Vec::new();
    let mut missed = Vec::new();
    let mut work = 0.0;
    let (mut drop, mut often) = (0.0_f64, 0.0);
    for (cylinder, feeds) in apart.iter().enumerate() {
        // Air beside the throttle brings no fuel, but the carburettor's own idle jet sees less of it too.
        let own = match whose {
            None => share,
            Some(at) if at == cylinder => (1.6 * share).min(0.8),
            Some(_) => 0.15 * share,
        };
        let burns = engine.lambda * feeds * (1.0 + 0.5 * own);
        let [rings, intake, exhaust, gasket] = engine.leaks(cylinder);
        let through = intake + exhaust + gasket;
        let lean = rising(burns, 1.27, 0.045);
        let rich = 0.5 * rising(-burns, -0.66, 0.03);
        let flat = rising(through + 0.4 * rings, 4.5, 0.9);
        let no_fire =
            1.0 - (1.0 - engine.missed[cylinder]) * (1.0 - lean) * (1.0 - rich) * (1.0 - flat);
        let lobe = match engine.lobe {
            Some((at, _, lost)) if at == cylinder => 0.04 * lost,
            _ => 0.0,
        };
        let mixture = 1.0 - 1.2 * (burns - 0.92).powi(2).min(0.2);
        let late = 28.0 - engine.spark;
        let spark = 1.0 - 2.6e-4 * late * late;
        let sealed = 1.0 - (0.06 * (rings + through)).min(0.5) - lobe;
        work += (1.0 - no_fire) * mixture * spark * sealed;
        // Gas driven back through an intake valve or a neighbour's wall is seen at once; a missing stroke, as the
        // crank slows.
        let back = 0.9 * (intake - 0.1).max(0.0) + 0.45 * (exhaust - 0.1).max(0.0);
        let wall = match engine.gasket {
            Some((Gasket::Neighbour(_), _)) => 2.2 * gasket,
            _ => 0.4 * gasket,
        };
        let here = (back + wall + 6.0 * lobe).min(34.0) + 9.0 * no_fire;
        if here > drop {
            drop = here;
            often = if back + wall > 1.0 { 1.0 } else { no_fire };
        }
        lambda.push(burns);
        missed.push(no_fire);
    }
    let reference = (1.0 - 2.6e-4 * 400.0) * 0.99;
    let cam = if engine.cam_late > 0.0 {
        1.0 + 0.017 * engine.cam_late
    } else {
        1.0 - 0.008 * engine.cam_late
    };
    let needed = (reference * n as f64 / work.max(0.2)).powf(0.8) * cam;
    let air = engine.air();
    let inside = manifold * air / 101.325 * needed * (1.0 + 0.55 * share);
    let spark_or_mixture = engine.missed.iter().any(|own| *own > 0.05)
        || lambda.iter().any(|own| *own > 1.15 || *own < 0.78);
    Idling {
        vacuum: (air - inside).max(8.0),
        drop,
        often,
        steadies: spark_or_mixture,
        lambda,
        missed,
    }
}

/// Dry exhaust gas: shares of monoxide, dioxide, oxygen, and hydrocarbons as hexane.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Gas {
    pub co: f64,
    pub co2: f64,
    pub o2: f64,
    pub hc: f64,
}

/// Gas of one cylinder that burns CH1.85 with air of 20.95 % oxygen; water gas stands at 3.5 (as Brettschneider).
fn burnt(lambda: f64, missed: f64) -> Gas {
    let (h, need) = (1.85, 1.0 + 1.85 / 4.0);
    // Crevices and quenched walls leave some of the fuel; more where the flame is slow.
    let left = (0.012 + 0.75 * (lambda - 0.95).powi(2)).min(0.05);
    let all = lambda * need;
    let nitrogen = all * 79.05 / 20.95;
    // For each carbon that burns.
    let oxygen = all / (1.0 - left);
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..50 {
        let co = 0.5 * (low + high);
        let water = 2.0 * oxygen.min(need) - (2.0 - co);
        let hydrogen = h / 2.0 - water;
        if co * water > 3.5 * (1.0 - co) * hydrogen {
            high = co;
        } else {
            low = co;
        }
    }
    let even = 0.5 * (low + high);
    let hydrogen = (h / 2.0 - (2.0 * oxygen.min(need) - (2.0 - even))).max(0.0);
    // Two carbons in a hundred find no oxygen in time, and their half stays over.
    let co = (even + 0.02).min(1.0);
    let spare = (oxygen - need).max(0.0) + 0.5 * (co - even);
    let fired = (1.0 - missed) * (1.0 - left);
    let fuel = ((1.0 - missed) * left + 0.65 * missed) / 6.0;
    // A third of what is not lit burns on in the hot pipe.
    let through = missed * (all - 0.35 * need);
    let (co, co2) = (fired * co, fired * (1.0 - co) + 0.35 * missed);
    let o2 = fired * spare + through;
    let dry = co + co2 + o2 + fired * hydrogen + fuel + nitrogen;
    Gas {
        co: co / dry,
        co2: co2 / dry,
        o2: o2 / dry,
        hc: fuel / dry,
    }
}

/// What comes out of all cylinders together; faster running leaves air beside the throttle of little weight.
pub(super) fn exhaust(idling: &Idling) -> Gas {
    let n = idling.lambda.len() as f64;
    let mut all = Gas::default();
    for (lambda, missed) in idling.lambda.iter().zip(&idling.missed) {
        let own = burnt(*lambda, *missed);
        all.co += own.co / n;
        all.co2 += own.co2 / n;
        all.o2 += own.o2 / n;
        all.hc += own.hc / n;
    }
    all
}
