//! Times of mixture. `cargo xtask bench` prints them beside numpy and scipy.
#![allow(
    clippy::expect_used,
    reason = "a benchmark panics with the reason if its set-up fails"
)]

use divan::{Bencher, black_box};
use lashwork::mixture::air::{AirColumns, density_columns};
use lashwork::mixture::balance::{BalanceCheck, Joint, Linkage, ThrottleReading, TrialTurn};
use lashwork::mixture::gas::{
    AnalyserClass, ExhaustGas, Fuel, GasColumns, HydrocarbonFactor, Hydrocarbons, lambda,
    lambda_columns,
};
use lashwork::quantity::{
    Lambda, PressureDifference, ScrewAngle, TemperatureDifference, Vacuum, VolumeShare,
};
use lashwork::tolerance::{HasLimits, Limits, Uncertainty, judge};

fn main() {
    divan::main();
}

const ROWS: u32 = 10_000;

/// Numbers from one to another, spread over the rows.
fn spread(step: u32, from: f64, to: f64) -> Vec<f64> {
    let share = |row: u32| f64::from(row * step % ROWS) / f64::from(ROWS);
    (0..ROWS)
        .map(|row| from + (to - from) * share(row))
        .collect()
}

fn kilopascals(number: f64) -> Vacuum {
    Vacuum::from_kilopascals(number).expect("a vacuum")
}

/// Two pairs with a screw each and one between them; two looks at each throttle, a trial of each screw.
fn balance() -> (Linkage, BalanceCheck<Vacuum>) {
    let screws = [Joint::screw(0, 1), Joint::screw(2, 3), Joint::screw(1, 2)];
    let linkage = Linkage::new(4, &[1], &screws).expect("a linkage");
    let looks = [[25.1, 25.3], [27.0, 26.8], [29.4, 29.1], [30.2, 30.5]];
    let trials = [
        (0, 45.0, 25.2, 22.2),
        (1, 45.0, 30.3, 27.6),
        (2, -30.0, 29.2, 31.9),
        (2, 30.0, 29.3, 26.5),
    ];
    let readings = looks.into_iter().enumerate();
    let check = BalanceCheck {
        readings: readings
            .map(|(throttle, shown)| ThrottleReading {
                throttle,
                shown: shown.map(kilopascals).into(),
            })
            .collect(),
        scatter: Some(Uncertainty::from_number(0.2).expect("a scatter")),
        between_gauges: None,
        trials: trials
            .map(|(joint, turn, before, after)| TrialTurn {
                joint,
                turn: ScrewAngle::from_degrees(turn).expect("a turn"),
                before: kilopascals(before),
                after: kilopascals(after),
                unmoved: None,
            })
            .into(),
        allowed: Some(PressureDifference::from_kilopascals(5.0).expect("a limit")),
        rule: None,
        ambient: None,
    };
    (linkage, check)
}

#[divan::bench]
fn one_lambda_verdict(bencher: Bencher<'_, '_>) {
    let share = |percent| VolumeShare::from_percent(percent).expect("a share");
    let hc = Hydrocarbons {
        read: VolumeShare::parse("250 ppm").expect("a share"),
        factor: HydrocarbonFactor::Hexane,
    };
    let gas = ExhaustGas::new(share(12.5), share(3.5), share(0.6), Some(hc)).expect("gas");
    let limit = |ratio| Lambda::from_ratio(ratio).expect("a limit");
    let limits = Limits::between(limit(0.88), limit(0.93)).expect("limits");
    let verdict = |gas: &ExhaustGas| {
        let u = AnalyserClass::Class0.uncertainty(gas)?;
        let found = lambda(gas, &u, &Fuel::PETROL)?;
        let judged = judge(&found.lambda, &limits, &Lambda::USUAL_RULE);
        Ok::<_, lashwork::mixture::gas::GasError>((found, judged))
    };
    verdict(&gas).expect("a verdict");
    bencher.bench(|| verdict(black_box(&gas)));
}

#[divan::bench]
fn one_balance(bencher: Bencher<'_, '_>) {
    let (linkage, check) = balance();
    let found = check.worked_out(&linkage).expect("an answer");
    assert!(
        found.moves.iter().all(|one| one.turn.is_some()),
        "every screw has an amount"
    );
    bencher.bench(|| black_box(&check).worked_out(black_box(&linkage)));
}

#[divan::bench]
fn ten_thousand_densities(bencher: Bencher<'_, '_>) {
    let (kpa, celsius, percent) = (
        spread(37, 80.0, 104.0),
        spread(61, -10.0, 40.0),
        spread(89, 0.0, 100.0),
    );
    let columns = AirColumns {
        kpa: &kpa,
        celsius: &celsius,
        percent: &percent,
        pressure_u: Uncertainty::from_number(0.2).expect("an uncertainty"),
        temperature_u: TemperatureDifference::from_kelvin(1.0).expect("an uncertainty"),
        humidity_u: Uncertainty::from_number(5.0).expect("an uncertainty"),
    };
    let mut found = Vec::with_capacity(ROWS as usize);
    bencher.bench_local(|| {
        found.clear();
        density_columns(black_box(&columns), |_, row, why| {
            found.push((*row, why.is_some()));
        })
    });
    let refused = found.iter().filter(|(_, is_refused)| *is_refused).count();
    assert_eq!(refused, 0, "refused rows");
}

#[divan::bench]
fn ten_thousand_lambdas(bencher: Bencher<'_, '_>) {
    let (co2, co, o2, hc_ppm) = (
        spread(37, 11.0, 15.0),
        spread(61, 0.1, 5.0),
        spread(89, 0.1, 3.0),
        spread(97, 20.0, 900.0),
    );
    let columns = GasColumns {
        co2: &co2,
        co: &co,
        o2: &o2,
        hc_ppm: &hc_ppm,
        factor: HydrocarbonFactor::Hexane,
        class: AnalyserClass::Class0,
        fuel: Fuel::PETROL,
    };
    let mut found = Vec::with_capacity(ROWS as usize);
    bencher.bench_local(|| {
        found.clear();
        lambda_columns(black_box(&columns), |_, row, why| {
            found.push((*row, why.is_some()));
        })
    });
    let refused = found.iter().filter(|(_, is_refused)| *is_refused).count();
    assert_eq!(refused, 0, "refused rows");
}
