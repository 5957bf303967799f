//! The calls about condition and events, made from Rust.

use super::bits;
use super::calls::{Answer, Coded, Inputs};
use super::mixture::about;
use lashwork::condition::compression::{
    BuildUp, CompressionCause, CompressionLook, CompressionRule, CompressionTest, Cranking,
    CylinderReading, Exponent, HeadRows, in_other_air,
};
use lashwork::condition::head::{
    Adapter, Friction, Preload, Scatter, Tightening, Wrench, nut_factor,
};
use lashwork::condition::leak::Tester;
use lashwork::engine::{CompressionRatio, CylinderLabel, SliderCrank};
use lashwork::events::{Flank, RunningEvents, RunningValve};
use lashwork::quantity::{
    AbsolutePressure, Area, AxisAngle, CrankAngle, GaugePressure, Lash, Length, PressureDifference,
    Torque,
};
use lashwork::tolerance::{Estimate, Measurand, Uncertainty};
use lashwork::valve::{CamEvents, EventsAt, ValveKind};
use serde_json::{Value, json};

fn mm(number: f64) -> Answer<Length> {
    Length::from_mm(number).code()
}

fn centre<Q: Measurand>(estimate: Option<&Estimate<Q>>) -> [f64; 2] {
    let both =
        estimate.and_then(|it| Some([it.centre()?.number(), it.normal_uncertainty().number()]));
    both.unwrap_or([f64::NAN; 2])
}

impl Inputs<'_> {
    /// A value, its uncertainty, and further on whether they are known.
    fn pair(&mut self) -> [f64; 2] {
        [self.number(), self.number()]
    }

    fn slider_if(&mut self, is_known: bool) -> Answer<Option<SliderCrank>> {
        let slider = self.slider();
        if is_known { slider.map(Some) } else { Ok(None) }
    }

    fn cranking(&mut self) -> Answer<Cranking> {
        let [ratio, ratio_u] = self.pair();
        let (closes, air) = (self.pair(), self.pair());
        let [closes_known, air_known, crank_known] = [(); 3].map(|()| self.whole() == 1);
        let crank = self.slider_if(crank_known)?;
        Ok(Cranking {
            ratio: CompressionRatio::new(ratio).code()?,
            ratio_u,
            crank,
            intake_closes_abdc: closes_known
                .then(|| about::<CrankAngle>(closes[0], closes[1]))
                .transpose()?,
            air: air_known
                .then(|| about::<AbsolutePressure>(air[0], air[1]))
                .transpose()?,
        })
    }

    fn tester(&mut self) -> Answer<Tester> {
        let [supply, u] = self.pair();
        let [bore, bore_u] = self.pair();
        Tester::of_diameter(about(supply, u)?, mm(bore)?, mm(bore_u)?).code()
    }

    fn adapter(&mut self) -> Answer<Adapter> {
        let [wrench, adapter] = self.pair();
        let turned = AxisAngle::from_degrees(self.number()).code()?;
        Adapter::new(mm(wrench)?, mm(adapter)?, turned).code()
    }

    /// Kind, then ramp, its rise, the flank's rise, two leaves and how far apart, lift and duration.
    fn flank(&mut self) -> Answer<Flank> {
        let kind = self.whole();
        let [ramp, rise, beyond, thin, thick, apart, lift, duration] =
            [(); 8].map(|()| self.number());
        let deg = |number| CrankAngle::from_degrees(number).code();
        let lash = |number| Lash::from_mm(number).code();
        match kind {
            1 => Flank::ramp(mm(ramp)?, mm(rise)?).code(),
            2 => {
                let ramp = Flank::ramp(mm(ramp)?, mm(rise)?).code()?;
                ramp.then(mm(beyond)?).code()
            }
            3 => Flank::measured(lash(thin)?, lash(thick)?, deg(apart)?).code(),
            _ => Flank::harmonic(mm(lift)?, deg(duration)?).code(),
        }
    }

    fn valve(&mut self) -> Answer<RunningValve> {
        let [lash, u] = self.pair();
        let (at, rocker) = (self.number(), self.number());
        let holds_at = match self.whole() {
            1 => EventsAt::Lash(Lash::from_mm(at).code()?),
            _ => EventsAt::Lift(mm(at)?),
        };
        Ok(RunningValve {
            lash: about(lash, u)?,
            holds_at,
            opening: self.flank()?,
            closing: self.flank()?,
            rocker,
        })
    }
}

fn shown(i: &mut Inputs<'_>) -> Answer {
    let engine = i.cranking()?;
    let [low, high] = i.pair();
    let found = engine
        .expected(Exponent::between(low, high).code()?)
        .code()?;
    let end = |end: Option<GaugePressure>| end.map_or(f64::NAN, GaugePressure::kilopascals);
    let numbers = [
        end(found.low()),
        end(found.high()),
        found.normal_uncertainty().number(),
        engine.effective_ratio().code()?,
    ];
    Ok(numbers.map(bits).into())
}

fn rule(kind: i64, number: f64) -> Answer<CompressionRule> {
    match kind {
        1 => CompressionRule::ratio(number).code(),
        2 => {
            CompressionRule::difference(PressureDifference::from_kilopascals(number).code()?).code()
        }
        _ => CompressionRule::minimum(GaugePressure::from_kilopascals(number).code()?).code(),
    }
}

/// Cylinders (dry, wet, build-up, head), air, scatters; whether known; the rule; the engine if there is one.
fn judged(i: &mut Inputs<'_>) -> Answer {
    let dry = i.column()?;
    let (wet, rose, head) = (i.numbers(), i.numbers(), i.numbers());
    let [air, repeat, gauge] = [(); 3].map(|()| i.number());
    let [air_known, gauge_known, good] = [(); 3].map(|()| i.whole() == 1);
    let (kind, number) = (i.whole(), i.number());
    let engine = (i.whole() == 1).then(|| i.cranking()).transpose()?;
    let label = |row: usize| CylinderLabel::numbered(row + 1);
    let kpa = |number| GaugePressure::from_kilopascals(number).code();
    let mut readings = Vec::new();
    for (row, dry) in dry.iter().enumerate() {
        let at = |column: &Option<Vec<f64>>| column.as_ref().and_then(|all| all.get(row)).copied();
        // Under nought stands for what was not read.
        let wet = at(&wet).filter(|wet| *wet >= 0.0);
        let rose = at(&rose).map_or("0".to_owned(), |number| number.to_string());
        let rose = ["1", "2", "3"].iter().position(|known| *known == rose);
        readings.push(CylinderReading {
            cylinder: label(row),
            dry: kpa(*dry)?,
            wet: wet.map(kpa).transpose()?,
            build_up: rose.and_then(|at| BuildUp::ALL.get(at)).copied(),
        });
    }
    let mut heads: Vec<(f64, Vec<CylinderLabel>)> = Vec::new();
    for (row, head) in head.unwrap_or_default().into_iter().enumerate() {
        match heads
            .iter_mut()
            .find(|(own, _)| own.to_bits() == head.to_bits())
        {
            Some((_, under)) => under.push(label(row)),
            None => heads.push((head, vec![label(row)])),
        }
    }
    let rows = HeadRows::new(heads.into_iter().map(|(_, under)| under).collect()).code()?;
    let test = CompressionTest {
        readings,
        rows,
        engine,
        air: air_known.then(|| about(air, 0.0)).transpose()?,
        rules: if kind == 0 {
            Vec::new()
        } else {
            vec![rule(kind, number)?]
        },
        repeat: (repeat != 0.0)
            .then(|| Uncertainty::from_number(repeat).code())
            .transpose()?,
        gauge: gauge_known
            .then(|| Uncertainty::from_number(gauge).code())
            .transpose()?,
        clearances_good: good.then_some(true),
        ..CompressionTest::default()
    };
    let found = test.weighed().code()?;
    let by_rule = found.rules.first();
    let standard = found.standard.as_ref().map(|it| it.shown);
    let level = found.level;
    let mut out: Vec<Value> = [
        by_rule.map_or(f64::NAN, |it| it.limit.kilopascals()),
        by_rule.map_or(f64::NAN, |it| it.engine.probabilities.in_band.least),
    ]
    .into_iter()
    .chain(centre(standard.as_ref()))
    .chain(level.map_or([f64::NAN; 2], |it| [it.exponent, it.exponent_u]))
    .map(bits)
    .collect();
    out.push(json!(by_rule.map_or(0, |it| it.engine.verdict.number())));
    out.push(json!(found.next.map_or(0, |next| match next {
        CompressionLook::CrankAgain => 1,
        CompressionLook::Clearances => 2,
        CompressionLook::Oil => 3,
        CompressionLook::LeakDown => 4,
        CompressionLook::ValveTiming => 5,
    })));
    for (row, one) in found.cylinders.iter().enumerate() {
        let own = by_rule.and_then(|it| it.cylinders.get(row));
        let of = |cause: CompressionCause| {
            let weighed = one.causes.iter().find(|it| it.cause == cause);
            weighed.map_or(f64::NAN, |it| it.probability)
        };
        let numbers = [
            one.share.unwrap_or(f64::NAN),
            one.share_u.unwrap_or(f64::NAN),
        ];
        let within = own.map_or(f64::NAN, |it| it.probabilities.in_band.least);
        let numbers = numbers.into_iter().chain(centre(one.expected.as_ref()));
        out.extend(numbers.chain([within]).map(bits));
        out.push(json!(own.map_or(0, |it| it.verdict.number())));
        out.extend(CompressionCause::ALL.map(of).map(bits));
    }
    Ok(out)
}

fn leak(tester: &Tester, [shown, shown_u]: [f64; 2], [air, air_u]: [f64; 2]) -> Answer<[f64; 5]> {
    let found = tester
        .leak(&about(shown, shown_u)?, &about(air, air_u)?)
        .code()?;
    let [area, u] = centre(Some(&found.area));
    Ok([
        area,
        u,
        found.hole.mm(),
        found.over_orifice,
        found.percent_lost,
    ])
}

/// Each row by the call for one reading, whose answer the columns must give to the bit.
fn leaks(i: &mut Inputs<'_>) -> Answer {
    let tester = i.tester()?;
    let (shown, air) = (i.column()?, i.column()?);
    let [shown_u, air_u] = i.pair();
    Uncertainty::<GaugePressure>::from_number(shown_u).code()?;
    Uncertainty::<AbsolutePressure>::from_number(air_u).code()?;
    let mut out = Vec::new();
    for (shown, air) in shown.into_iter().zip(air) {
        let found = leak(&tester, [shown, shown_u], [air, air_u]);
        let [area, u, hole, ..] = found.unwrap_or([f64::NAN; 5]);
        out.extend([area, u, hole].map(bits));
    }
    Ok(out)
}

fn events(i: &mut Inputs<'_>) -> Answer {
    let [a, b, c, d] = [(); 4].map(|()| CrankAngle::from_degrees(i.number()).code());
    let printed = CamEvents::new(a?, b?, c?, d?).code()?;
    let (ratio, ratio_known, crank_known) = (i.number(), i.whole() == 1, i.whole() == 1);
    let crank = i.slider_if(crank_known)?;
    let (intake, exhaust) = (i.valve()?, i.valve()?);
    let ratio = ratio_known.then(|| CompressionRatio::new(ratio).code());
    let found = RunningEvents {
        printed,
        intake,
        exhaust,
        ratio: ratio.transpose()?,
        crank,
    }
    .found()
    .code()?;
    let mut out = Vec::new();
    let mut tell = |running: &Estimate<CrankAngle>, printed: CrankAngle| {
        let end = |end: Option<CrankAngle>, open| end.map_or(open, CrankAngle::degrees);
        let numbers = [
            end(running.low(), f64::NEG_INFINITY),
            end(running.high(), f64::INFINITY),
            running.normal_uncertainty().number(),
            printed.degrees(),
        ];
        out.extend(numbers.map(bits));
    };
    for one in &found.events {
        tell(&one.running, one.printed);
    }
    tell(&found.intake_duration, printed.duration(ValveKind::Intake));
    tell(
        &found.exhaust_duration,
        printed.duration(ValveKind::Exhaust),
    );
    tell(&found.overlap, printed.overlap());
    let ratio = found.effective_ratio;
    let ratio = ratio.map_or([f64::NAN; 3], |it| [it.printed, it.running, it.running_u]);
    out.extend(ratio.map(bits));
    Ok(out)
}

fn preload(i: &mut Inputs<'_>) -> Answer {
    let (torque, diameter, factor) = (i.number(), i.number(), i.number());
    let (kind, stated) = (i.whole(), i.number());
    let known = [
        Tightening::YieldOrAngle,
        Tightening::Elongation,
        Tightening::TorqueTuned,
        Tightening::TorqueEstimated,
        Tightening::PowerDriver,
        Tightening::DryTorque,
        Tightening::OiledTorque,
    ];
    let scatter = match usize::try_from(kind - 1).ok().and_then(|at| known.get(at)) {
        Some(tightening) => Scatter::of(*tightening),
        None => Scatter::stated(stated).code()?,
    };
    let torque = Torque::from_newton_metres(torque).code()?;
    let found = Preload::of(torque, mm(diameter)?, factor, scatter).code()?;
    let [from, to] = scatter.percent();
    let forces = [found.least, found.middle, found.most].map(Measurand::number);
    Ok(forces.into_iter().chain([from, to]).map(bits).collect())
}

/// See [`super::answer`].
pub(super) fn answer(call: &str, i: &mut Inputs<'_>) -> Answer {
    Ok(match call {
        "expected_compression" => shown(i)?,
        "implied_exponent" => {
            let engine = i.cranking()?;
            let [shown, u] = i.pair();
            let (n, u) = engine.implied(&about(shown, u)?).code()?;
            vec![bits(n), bits(u)]
        }
        "compression_in_other_air" => {
            let shown = GaugePressure::from_kilopascals(i.number()).code()?;
            let [here, there] = i
                .pair()
                .map(|kpa| AbsolutePressure::from_kilopascals(kpa).code());
            vec![bits(
                in_other_air(shown, here?, there?).code()?.kilopascals(),
            )]
        }
        "judge_compression" => judged(i)?,
        "leak_area" => {
            let tester = i.tester()?;
            let (shown, air) = (i.pair(), i.pair());
            let numbers = leak(&tester, shown, air)?;
            let found = tester
                .leak(&about(shown[0], shown[1])?, &about(air[0], air[1])?)
                .code()?;
            let mut out: Vec<Value> = numbers.map(bits).into();
            out.push(json!(u32::from(found.orifice_choked)));
            out.push(json!(u32::from(found.leak_choked)));
            out
        }
        "tester_would_show" => {
            let tester = i.tester()?;
            let area = Area::from_square_millimetres(i.number()).code()?;
            let air = AbsolutePressure::from_kilopascals(i.number()).code()?;
            vec![bits(tester.would_show(area, air).code()?.kilopascals())]
        }
        "leak_of_columns" => leaks(i)?,
        "wrench_setting" => {
            let adapter = i.adapter()?;
            let torque = Torque::from_newton_metres(i.number()).code()?;
            vec![bits(adapter.set_for(torque).code()?.newton_metres())]
        }
        "torque_at_bolt" => {
            let adapter = i.adapter()?;
            let torque = Torque::from_newton_metres(i.number()).code()?;
            vec![bits(adapter.at_bolt(torque).code()?.newton_metres())]
        }
        "wrench_uncertainty" => {
            let most = Torque::from_newton_metres(i.number()).code()?;
            let wrench = Wrench::new(most, i.number()).code()?;
            let set = Torque::from_newton_metres(i.number()).code()?;
            vec![bits(
                wrench.leaves(set).code()?.normal_uncertainty().number(),
            )]
        }
        "nut_factor" => {
            let [diameter, pitch, bearing] = [(); 3].map(|()| mm(i.number()));
            let bolt = Friction {
                diameter: diameter?,
                pitch: pitch?,
                bearing: bearing?,
                thread: i.number(),
                head: i.number(),
            };
            vec![bits(nut_factor(&bolt).code()?)]
        }
        "preload_of_torque" => preload(i)?,
        "events_at_lash" => events(i)?,
        other => super::history::answer(other, i)?,
    })
}
