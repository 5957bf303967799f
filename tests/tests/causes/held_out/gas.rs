//! Gas in and out of a cylinder, behind the throttle and in the exhaust.
//!
//! Flow through holes: isentropic to the throat, J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, appendix
//! C. Burnt gas of a rich mixture: elements balanced, and the water-gas equilibrium held at 3.5 (the same, chapter 4).
//! Both from memory.

/// Air around, in Pa.
pub(super) const AIR: f64 = 101_325.0;
const R: f64 = 287.0;

/// Mass flow of air through a square metre from one pressure into another, in kg/s.
fn flux(from: f64, into: f64, kelvin: f64) -> f64 {
    const K: f64 = 1.39;
    if into >= from {
        return 0.0;
    }
    let throat = (2.0 / (K + 1.0)).powf(K / (K - 1.0));
    let part = (into / from).max(throat);
    let speed = 2.0 * K / (K - 1.0) * (part.powf(2.0 / K) - part.powf((K + 1.0) / K));
    from * (speed.max(0.0) / (R * kelvin)).sqrt()
}

/// A stroke of compression.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stroke {
    pub(super) ratio: f64,
    /// Where the intake closes, in degrees after bottom dead centre.
    pub(super) closes: f64,
    /// What fills the cylinder, over the air around.
    pub(super) filled: f64,
    /// Holes that leak, in mm².
    pub(super) hole: f64,
    pub(super) rpm: f64,
}

/// The highest pressure over the air around, in kPa, and the share of the charge that is left at top dead centre: mass
/// and energy in steps of a degree, with a wall at 330 K that takes heat.
pub(super) fn compressed(stroke: Stroke) -> (f64, f64) {
    let (swept, rod, heat) = (400.0e-6, 3.3_f64, 1.5);
    let volume = |deg: f64| {
        let a = deg.to_radians();
        let travel = 1.0 - a.cos() + rod - (rod * rod - a.sin().powi(2)).sqrt();
        swept * (1.0 / (stroke.ratio - 1.0) + 0.5 * travel)
    };
    let seconds = 1.0 / (6.0 * stroke.rpm);
    let mut at = stroke.closes - 180.0;
    let mut kelvin = 320.0;
    let start = AIR * stroke.filled * volume(at) / (R * kelvin);
    let (mut mass, mut peak) = (start, 0.0_f64);
    let mut left = 1.0;
    while at < 15.0 {
        let (v, next) = (volume(at), volume(at + 1.0));
        let p = mass * R * kelvin / v;
        peak = peak.max(p);
        let out = 0.7 * stroke.hole * 1e-6 * flux(p, AIR, kelvin) * seconds;
        let work = p * (next - v) + out * R * kelvin + heat * (kelvin - 330.0) * seconds;
        kelvin = (kelvin - work / (mass * 718.0)).max(250.0);
        mass = (mass - out).max(0.02 * start);
        if at < 0.0 {
            left = mass / start;
        }
        at += 1.0;
    }
    ((peak - AIR) / 1000.0, left)
}

/// What a tester with a supply in Pa over the air around and a hole of its own in mm shows of a hole in mm², as the
/// share lost.
pub(super) fn lost(supply: f64, own_mm: f64, hole: f64) -> f64 {
    let own = 0.8 * std::f64::consts::FRAC_PI_4 * own_mm * own_mm;
    let (mut low, mut high) = (AIR, AIR + supply);
    for _ in 0..50 {
        let inside = 0.5 * (low + high);
        let into = own * flux(AIR + supply, inside, 293.0);
        if into > 0.7 * hole * flux(inside, AIR, 293.0) {
            low = inside;
        } else {
            high = inside;
        }
    }
    1.0 - (low - AIR) / supply
}

/// Vacuum behind the throttle of an idling engine, in inHg: the work of a charge that grows with the pressure there holds
/// friction and what pumping takes, whatever the speed.
pub(super) fn vacuum(efficiency: f64, friction: f64, back: f64) -> f64 {
    let gain = 4.75 * efficiency;
    let inside = (friction + AIR / 1000.0 + back) / (1.0 + gain);
    (AIR / 1000.0 - inside) / 3.386_39
}

/// Work of a charge over its best, by its lambda, its spark in degrees before top dead centre, and what is left of it.
pub(super) fn work(lambda: f64, timing: f64, left: f64) -> f64 {
    let fuel = (1.0 / lambda).min(1.06);
    let burning = (1.0 - ((lambda - 0.93) / 0.42).powi(2)).max(0.0);
    let spark = 1.0 - ((26.0 - timing) / 58.0).powi(2);
    fuel * burning * spark * left
}

/// Dry burnt gas of one lambda: carbon monoxide, oxygen, in percent.
fn burnt(lambda: f64) -> (f64, f64) {
    let (hydrogen, held) = (1.85, 3.5);
    let oxygen = 1.0 + hydrogen / 4.0;
    let nitrogen = 3.773 * oxygen * lambda;
    if lambda >= 1.0 {
        let spare = (lambda - 1.0) * oxygen;
        return (0.0, 100.0 * spare / (1.0 + spare + nitrogen));
    }
    // What carbon monoxide makes of a carbon atom.
    let (mut low, mut high) = (0.0, 1.0);
    let rest = |co: f64| {
        let water = 2.0 * oxygen * lambda - 2.0 + co;
        (water, hydrogen / 2.0 - water)
    };
    for _ in 0..50 {
        let co = 0.5 * (low + high);
        let (water, free) = rest(co);
        if water < 0.0 || (free > 0.0 && co * water < held * (1.0 - co) * free) {
            low = co;
        } else {
            high = co;
        }
    }
    let (_, free) = rest(low);
    (100.0 * low / (1.0 + free.max(0.0) + nitrogen), 0.0)
}

/// Strokes are not alike: the mean of a spread of lambda.
fn mixed(lambda: f64) -> (f64, f64) {
    let each = [-0.05, -0.025, 0.0, 0.025, 0.05].map(|off| burnt(lambda + off));
    let sum = each
        .iter()
        .fold((0.0, 0.0), |(a, b), (c, d)| (a + c, b + d));
    (0.1 + sum.0 / 5.0, 0.3 + sum.1 / 5.0)
}

pub(super) fn monoxide(lambda: f64) -> f64 {
    mixed(lambda).0
}

/// Carbon monoxide and oxygen in percent, fuel in ppm: strokes that burn, and those that go out as they came.
pub(super) fn exhaust(lambda: f64, missing: f64) -> [f64; 3] {
    let (co, o2) = mixed(lambda);
    let quenched = 170.0 + 900.0 * (0.92 - lambda).max(0.0);
    [
        (1.0 - missing) * co,
        (1.0 - missing) * o2 + missing * 20.6,
        (1.0 - missing) * quenched + missing * 18_000.0 / lambda,
    ]
}
