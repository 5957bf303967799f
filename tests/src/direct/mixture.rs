//! The calls about mixture, made from Rust.

use super::bits;
use super::calls::{Answer, Coded, Inputs};
use lashwork::mixture::air::{
    AirAssumption, AirDensity, AirReading, Barometer, BarometerDoubt, density, density_altitude,
    density_at, standard_air,
};
use lashwork::mixture::gas::{
    AnalyserClass, ExhaustGas, Fuel, GasCause, GasContradiction, HydrocarbonFactor, Hydrocarbons,
    LambdaOfGas, lambda, lambda_from_co,
};
use lashwork::mixture::idle::{Crown, IdleCurve, IdleReading, MixtureScrew, Side};
use lashwork::quantity::{
    AbsolutePressure, Altitude, CrankSpeed, Density, Lambda, RelativeHumidity, Temperature,
    TemperatureDifference, TurnsOut, VolumeShare,
};
use lashwork::tolerance::{Estimate, Measurand, Uncertainty};
use serde_json::{Value, json};

const TESTERS: [AnalyserClass; 3] = [
    AnalyserClass::Class00,
    AnalyserClass::Class0,
    AnalyserClass::ClassI,
];
const SIDES: [Side; 2] = [Side::Lean, Side::Rich];

fn ratio(lambda: Option<Lambda>) -> f64 {
    lambda.map_or(f64::NAN, Lambda::ratio)
}

/// A value and its standard uncertainty.
pub(super) fn about<Q: Measurand>(value: f64, u: f64) -> Answer<Estimate<Q>> {
    let value = Q::from_number(value).code()?;
    Estimate::between(value, value, Uncertainty::from_number(u).code()?).code()
}

impl Inputs<'_> {
    fn fuel(&mut self) -> Answer<Fuel> {
        Fuel::from_atoms(self.number(), self.number(), self.number()).code()
    }

    fn factor(&mut self, stated: f64) -> Option<HydrocarbonFactor> {
        self.pick([
            None,
            Some(HydrocarbonFactor::Hexane),
            Some(HydrocarbonFactor::HexaneOfPetrol),
            Some(HydrocarbonFactor::Propane),
            Some(HydrocarbonFactor::Carbon),
            Some(HydrocarbonFactor::Stated(stated)),
        ])
    }

    fn idle(&mut self) -> Answer<IdleCurve> {
        let (places, speeds) = (self.column()?, self.column()?);
        let scatter = self.number();
        let screw = self.pick([MixtureScrew::Fuel, MixtureScrew::Air]);
        let readings = places.into_iter().zip(speeds).map(|(turns, rpm)| {
            Ok(IdleReading {
                place: TurnsOut::from_turns(turns).code()?,
                speed: CrankSpeed::from_rpm(rpm).code()?,
            })
        });
        let readings: Answer<Vec<_>> = readings.collect();
        let scatter = if scatter == 0.0 {
            None
        } else {
            Some(Uncertainty::from_number(scatter).code()?)
        };
        IdleCurve::fitted(&readings?, scatter, screw).code()
    }
}

fn analysis([co2, co, o2, ppm]: [f64; 4], factor: Option<HydrocarbonFactor>) -> Answer<ExhaustGas> {
    let share = |percent| VolumeShare::from_percent(percent).code();
    let hc = factor.map(|factor| -> Answer<_> {
        let read = VolumeShare::from_number(ppm, "ppm").code()?;
        Ok(Hydrocarbons { read, factor })
    });
    let hc = hc.transpose()?;
    ExhaustGas::new(share(co2)?, share(co)?, share(o2)?, hc).code()
}

fn lambda_of(gas: &ExhaustGas, tester: AnalyserClass, fuel: &Fuel) -> Answer<LambdaOfGas> {
    lambda(gas, &tester.uncertainty(gas).code()?, fuel).code()
}

const fn bit(what: &GasContradiction) -> u32 {
    match what {
        GasContradiction::OxygenWithCarbonMonoxide { .. } => 1,
        GasContradiction::OxygenWithHydrocarbons { .. } => 2,
        GasContradiction::TooLeanToBurn => 4,
        GasContradiction::BeyondRunning => 8,
        GasContradiction::TotalOff { .. } => 16,
        _ => 128,
    }
}

const fn number(cause: &GasCause) -> u32 {
    match cause {
        GasCause::AirAtProbe { .. } => 1,
        GasCause::MissedFiring => 2,
        GasCause::UnevenCylinders => 3,
        GasCause::AirInjection => 4,
        GasCause::TesterOff => 5,
        GasCause::OtherFuel => 6,
        _ => 7,
    }
}

fn of_gas(i: &mut Inputs<'_>) -> Answer {
    let read = [i.number(), i.number(), i.number(), i.number()];
    let (stated, no) = (i.number(), i.number());
    let factor = i.factor(stated);
    let tester = i.pick(TESTERS);
    let has_no = i.whole() == 1;
    let gas = analysis(read, factor)?;
    let gas = if has_no {
        gas.with_no(VolumeShare::from_number(no, "ppm").code()?)
    } else {
        gas
    };
    let found = lambda_of(&gas, tester, &i.fuel()?)?;
    let doubts = &found.contradictions;
    let causes = doubts.iter().take(1).flat_map(|doubt| &doubt.causes);
    let mut behind = causes.clone().filter_map(|cause| match cause {
        GasCause::AirAtProbe { low, high } => Some([ratio(*low), ratio(*high)]),
        _ => None,
    });
    let [low, high] = behind.next().unwrap_or([f64::NAN; 2]);
    let u = found.lambda.normal_uncertainty().number();
    let mut out: Vec<Value> = [
        ratio(found.lambda.centre()),
        u,
        ratio(found.spindt),
        found.air_fuel_ratio,
        low,
        high,
    ]
    .map(bits)
    .into();
    out.push(json!(
        doubts.iter().map(|doubt| bit(&doubt.what)).sum::<u32>()
    ));
    out.push(json!(causes.map(number).next().unwrap_or(0)));
    Ok(out)
}

/// Each row by the call for one analysis, whose answer the columns must give to the bit.
fn of_gas_columns(i: &mut Inputs<'_>) -> Answer {
    let columns = [i.column()?, i.column()?, i.column()?, i.column()?];
    let stated = i.number();
    let factor = i.factor(stated);
    let (tester, fuel) = (i.pick(TESTERS), i.fuel()?);
    let [co2, co, o2, ppm] = columns;
    let rows = co2.into_iter().zip(co).zip(o2.into_iter().zip(ppm));
    let mut out = Vec::new();
    for ((co2, co), (o2, ppm)) in rows {
        let one = analysis([co2, co, o2, ppm], factor);
        let found = one.and_then(|gas| lambda_of(&gas, tester, &fuel));
        out.extend(found.map_or_else(
            |_| [bits(f64::NAN), bits(f64::NAN), json!(0)],
            |found| {
                let first = found.contradictions.first();
                [
                    bits(ratio(found.lambda.centre())),
                    bits(found.lambda.normal_uncertainty().number()),
                    json!(first.map_or(0, |doubt| bit(&doubt.what))),
                ]
            },
        ));
    }
    Ok(out)
}

fn of_co(i: &mut Inputs<'_>) -> Answer {
    let (co, u) = (i.number(), i.number());
    let fuel = i.fuel()?;
    let co = VolumeShare::from_percent(co).code()?;
    let u = Uncertainty::from_number(u).code()?;
    let found = lambda_from_co(co, u, &fuel).code()?;
    let span = if found.lambda.high().is_some() { 1 } else { 2 };
    let numbers = [
        ratio(found.lambda.low()),
        ratio(found.lambda.high()),
        found.lambda.normal_uncertainty().number(),
        found.burnt_out.ratio(),
        found.co2.percent(),
    ];
    let numbers = numbers.into_iter().map(bits);
    Ok([json!(span)].into_iter().chain(numbers).collect())
}

fn dense(
    found: &AirDensity,
    station: AbsolutePressure,
    doubt: Option<BarometerDoubt>,
) -> Vec<Value> {
    let density = |end: Option<Density>| end.map_or(f64::NAN, Density::kilograms_per_cubic_metre);
    let doubt = doubt.map_or(0, |doubt| match doubt {
        BarometerDoubt::LooksSetToSeaLevel { .. } => 1,
        BarometerDoubt::LooksLikeStation { .. } => 2,
        BarometerDoubt::FitsNeither => 3,
        _ => 4,
    });
    let beyond = found.assumptions.contains(&AirAssumption::BeyondPublished);
    let mut out: Vec<Value> = [
        density(found.density.low()),
        density(found.density.high()),
        found.density.normal_uncertainty().number(),
        found.ratio,
        found.altitude.map_or(f64::NAN, Altitude::metres),
        station.kilopascals(),
    ]
    .map(bits)
    .into();
    out.extend([json!(doubt), json!(u32::from(!beyond))]);
    out
}

fn of_air(i: &mut Inputs<'_>) -> Answer {
    let [kpa, kpa_u, celsius, kelvin, percent, percent_u, metres] = [(); 7].map(|()| i.number());
    let kind = i.pick([Barometer::Station, Barometer::SetToSeaLevel]);
    let (has_height, has_humidity) = (i.whole() == 1, i.whole() == 1);
    let barometer = kind(AbsolutePressure::from_kilopascals(kpa).code()?);
    let height = has_height.then(|| Altitude::from_metres(metres).code());
    let (station, doubt) = barometer.station(height.transpose()?).code()?;
    let humidity = has_humidity.then(|| about(percent, percent_u));
    let found = density(&AirReading {
        pressure: about(station.kilopascals(), kpa_u)?,
        temperature: Temperature::from_celsius(celsius).code()?,
        temperature_u: TemperatureDifference::from_kelvin(kelvin).code()?,
        humidity: humidity.transpose()?,
    });
    Ok(dense(&found.code()?, station, doubt))
}

/// Each row by the call for one reading, whose answer the columns must give to the bit.
fn of_air_columns(i: &mut Inputs<'_>) -> Answer {
    let (kpa, celsius, percent) = (i.column()?, i.column()?, i.column()?);
    let [kpa_u, kelvin, percent_u] = [(); 3].map(|()| i.number());
    let temperature_u = TemperatureDifference::from_kelvin(kelvin).code()?;
    Uncertainty::<AbsolutePressure>::from_number(kpa_u).code()?;
    Uncertainty::<RelativeHumidity>::from_number(percent_u).code()?;
    let mut out = Vec::new();
    for ((kpa, celsius), percent) in kpa.into_iter().zip(celsius).zip(percent) {
        let one = || -> Answer<AirDensity> {
            density(&AirReading {
                pressure: about(kpa, kpa_u)?,
                temperature: Temperature::from_celsius(celsius).code()?,
                temperature_u,
                humidity: Some(about(percent, percent_u)?),
            })
            .code()
        };
        let numbers = one().map_or([f64::NAN; 3], |found| {
            let middle = found.density.centre();
            [
                middle.map_or(f64::NAN, Density::kilograms_per_cubic_metre),
                found.density.normal_uncertainty().number(),
                found.altitude.map_or(f64::NAN, Altitude::metres),
            ]
        });
        out.extend(numbers.map(bits));
    }
    Ok(out)
}

fn crown(i: &mut Inputs<'_>) -> Answer {
    let curve = i.idle()?;
    let lopsided = curve.lopsided();
    let (numbers, seen, toward) = match curve.crown().code()? {
        Crown::Seen(top) => (
            [
                top.best.value.turns(),
                top.best.standard_uncertainty.number(),
                top.from.turns(),
                top.to.turns(),
                top.speed.value.rpm(),
                top.speed.standard_uncertainty.number(),
            ],
            1,
            None,
        ),
        Crown::NotSeen(none) => ([f64::NAN; 6], 0, none.rises_toward),
    };
    let mut out: Vec<Value> = numbers.map(bits).into();
    out.push(bits(lopsided.map_or(f64::NAN, |it| it.over_uncertainty)));
    out.push(json!(lopsided.map_or(0, |it| u32::from(it.clear))));
    out.push(json!(seen));
    let toward = SIDES.iter().position(|side| Some(*side) == toward);
    out.push(json!(toward.map_or(0, |at| at + 1)));
    Ok(out)
}

/// See [`super::answer`].
pub(super) fn answer(call: &str, i: &mut Inputs<'_>) -> Answer {
    Ok(match call {
        "parse_fuel" => {
            let fuel = Fuel::named(i.text()).code()?;
            [fuel.hydrogen(), fuel.oxygen(), fuel.nitrogen()]
                .map(bits)
                .into()
        }
        "air_fuel_ratio" => vec![bits(i.fuel()?.air_fuel_ratio())],
        "lambda_of_gas" => of_gas(i)?,
        "lambda_of_co" => of_co(i)?,
        "lambda_of_columns" => of_gas_columns(i)?,
        "density_of_air" => of_air(i)?,
        "density_at_height" => {
            let height = Altitude::from_metres(i.number()).code()?;
            let station = standard_air(height).code()?.pressure;
            dense(&density_at(height).code()?, station, None)
        }
        "density_altitude" => {
            let density = Density::from_kilograms_per_cubic_metre(i.number()).code()?;
            vec![bits(density_altitude(density).code()?.metres())]
        }
        "density_of_columns" => of_air_columns(i)?,
        "fit_idle_curve" => crown(i)?,
        "idle_beside" => {
            let curve = i.idle()?;
            let side = i.pick(SIDES);
            let found = curve.beside(side, i.number()).code()?;
            vec![
                bits(found.value.turns()),
                bits(found.standard_uncertainty.number()),
            ]
        }
        other => super::balance::answer(other, i)?,
    })
}
