//! Each call, made from Rust.
#![allow(
    clippy::expect_used,
    reason = "a case whose inputs are not those of its call is a mistake in the case"
)]

use super::bits;
use crate::one_reading::alone;
use lashwork::Refusal;
use lashwork::adjust::{ScrewSeat, ShimFit, ShimRounding, ShimSeries, Thread, screw_turn};
use lashwork::clearance::ReadingRow;
use lashwork::engine::{
    Cylinder, CylinderIndex, CylinderLabel, End, Engine, EngineParts, Intervals, Numbering,
    PistonStops, Rotation, Sense, SliderCrank,
};
use lashwork::feeler::{GaugeUse, Leaf, Reading, Stack};
use lashwork::quantity::{
    AxisAngle, CrankAngle, Cycle, Lash, LashChange, Length, LengthUnit, Marked, Nominal, PinOffset,
    ShimThickness, Temperature, TemperatureDifference, TemperatureUnit,
};
use lashwork::thermal::LashCoefficient;
use lashwork::tolerance::{
    Column, DecisionRule, Estimate, HasLimits, Limits, Uncertainty, Verdict, judge,
};
use lashwork::valve::{CamEvents, EventsAt, StopPlan, StoppingPoints, ValveKind, ValveTrain};
use serde_json::{Value, json};

pub(super) type Answer<T = Vec<Value>> = Result<T, String>;

/// Errors of the kernel as their codes.
pub(super) trait Coded<T> {
    fn code(self) -> Answer<T>;
}

impl<T, E: Refusal> Coded<T> for Result<T, E> {
    fn code(self) -> Answer<T> {
        self.map_err(|e| e.code().to_owned())
    }
}

/// Inputs, taken one after the other.
pub(super) struct Inputs<'a>(std::slice::Iter<'a, Value>);

impl<'a> Inputs<'a> {
    fn value(&mut self) -> &'a Value {
        self.0.next().expect("one more input")
    }
    pub(super) fn number(&mut self) -> f64 {
        self.value().as_f64().expect("a number")
    }
    pub(super) fn whole(&mut self) -> i64 {
        self.value().as_i64().expect("a whole number")
    }
    pub(super) fn text(&mut self) -> &'a str {
        self.value().as_str().expect("a text")
    }
    pub(super) fn numbers(&mut self) -> Option<Vec<f64>> {
        let items = self.value().as_array()?;
        Some(
            items
                .iter()
                .map(|v| v.as_f64().expect("a number"))
                .collect(),
        )
    }
    fn mark(&mut self) -> Answer<Marked> {
        let nominal = Nominal::from_nanometres(self.whole()).code()?;
        Ok(Marked::new(nominal, LengthUnit::Millimetre, 6))
    }
    fn angle(&mut self) -> Answer<CrankAngle> {
        CrankAngle::from_degrees(self.number()).code()
    }
    /// What is said of where events hold: 1 a lash, 2 a lift, 0 nothing.
    fn events_at(&mut self, events: CamEvents) -> Answer<CamEvents> {
        let (holds, at, greatest) = (self.whole(), self.number(), self.number());
        let greatest = (greatest != 0.0).then(|| Length::from_mm(greatest).code());
        let at = match holds {
            0 => None,
            1 => Some(EventsAt::Lash(Lash::from_mm(at).code()?)),
            _ => Some(EventsAt::Lift(Length::from_mm(at).code()?)),
        };
        let events = match at {
            Some(at) => events.holding_at(at, greatest.transpose()?).code()?,
            None => events,
        };
        let (intake, exhaust) = (Lash::from_mm(self.number()), Lash::from_mm(self.number()));
        Ok(events.at_running_lash(intake.code()?, exhaust.code()?))
    }
    pub(super) fn pick<T>(&mut self, known: impl IntoIterator<Item = T>) -> T {
        let number = usize::try_from(self.whole()).expect("above zero");
        known.into_iter().nth(number - 1).expect("a known value")
    }
    fn length_unit(&mut self) -> LengthUnit {
        use LengthUnit::{Inch, Micrometre, Millimetre, Thou};
        self.pick([Millimetre, Inch, Thou, Micrometre])
    }
    fn temperature_unit(&mut self) -> TemperatureUnit {
        use TemperatureUnit::{Celsius, Fahrenheit, Kelvin};
        self.pick([Celsius, Fahrenheit, Kelvin])
    }
    pub(super) fn slider(&mut self) -> Answer<SliderCrank> {
        let (radius, rod, offset) = (self.number(), self.number(), self.number());
        let (radius, rod) = (
            Length::from_mm(radius).code()?,
            Length::from_mm(rod).code()?,
        );
        SliderCrank::new(radius, rod, PinOffset::from_mm(offset).code()?).code()
    }
    fn estimate(&mut self) -> Answer<Estimate<Lash>> {
        let (span, low, high, u) = (self.whole(), self.number(), self.number(), self.number());
        estimate(span, low, high, u)
    }
    pub(super) fn limits(&mut self) -> Answer<Limits<Lash>> {
        let span = self.whole();
        let (lower, upper) = (self.mark()?, self.mark()?);
        Ok(match span {
            1 => Limits::between(lower, upper).code()?,
            2 => Limits::at_least(lower),
            _ => Limits::at_most(upper),
        })
    }
    /// As [`Self::limits`], or nothing where the span is 0.
    fn limits_if_any(&mut self) -> Answer<Option<Limits<Lash>>> {
        if self.0.as_slice().first().and_then(Value::as_i64) == Some(0) {
            self.0 = self.0.as_slice().get(3..).unwrap_or_default().iter();
            return Ok(None);
        }
        self.limits().map(Some)
    }
    pub(super) fn rule(&mut self) -> Answer<DecisionRule> {
        let (kind, below, above) = (self.whole(), self.number(), self.number());
        Ok(match kind {
            1 => Lash::USUAL_RULE,
            2 => DecisionRule::simple(),
            3 => DecisionRule::iso_14253_1(),
            _ => DecisionRule::guarded(below, above).code()?,
        })
    }
    fn shim(&mut self) -> Answer<ShimFit> {
        Ok(ShimFit {
            old: ShimThickness::from_mm(self.number()).code()?,
            measured: Lash::from_mm(self.number()).code()?,
            target: Lash::from_mm(self.number()).code()?,
            ratio_from_shim_to_gap: self.number(),
        })
    }
    fn engine(&mut self) -> Answer<Engine> {
        let cycle = if self.whole() == 2 {
            Cycle::TwoStroke
        } else {
            Cycle::FourStroke
        };
        let intervals = self.whole();
        let sense = self.pick([Sense::Clockwise, Sense::Anticlockwise]);
        let seen_from = self.pick([End::Free, End::Output]);
        let numbering = self.pick([Numbering::FromFreeEnd, Numbering::FromOutputEnd]);
        let order = self.value().as_array().expect("a firing order");
        let number = |v: &Value| usize::try_from(v.as_u64().expect("a cylinder")).expect("small");
        let order: Vec<usize> = order.iter().map(number).collect();
        let (listed, bank, pin) = (self.numbers(), self.numbers(), self.numbers());
        let mut cylinders: Vec<Cylinder> = (1..=order.len())
            .map(|n| Cylinder::new(CylinderLabel::numbered(n)))
            .collect();
        for (cylinder, degrees) in cylinders.iter_mut().zip(bank.unwrap_or_default()) {
            cylinder.bank = Some(AxisAngle::from_degrees(degrees).code()?);
        }
        for (cylinder, degrees) in cylinders.iter_mut().zip(pin.unwrap_or_default()) {
            cylinder.crankpin = Some(AxisAngle::from_degrees(degrees).code()?);
        }
        let listed: Answer<Vec<CrankAngle>> = listed
            .unwrap_or_default()
            .into_iter()
            .map(|d| CrankAngle::from_degrees(d).code())
            .collect();
        let parts = EngineParts {
            cycle,
            cylinders,
            order: order.into_iter().map(CylinderLabel::numbered).collect(),
            intervals: match intervals {
                1 => Intervals::Even,
                2 => Intervals::Listed(listed?),
                _ => Intervals::FromGeometry,
            },
            rotation: Rotation { sense, seen_from },
            numbering,
        };
        Engine::new(parts).map_err(|all| all.first().map_or("", |e| e.code()).to_owned())
    }
    fn cylinder(&mut self) -> Option<CylinderIndex> {
        let number = usize::try_from(self.whole()).expect("a cylinder");
        number.checked_sub(1).map(CylinderIndex::new)
    }
}

fn estimate(span: i64, low: f64, high: f64, u: f64) -> Answer<Estimate<Lash>> {
    let u = Uncertainty::from_mm(u).code()?;
    Ok(match span {
        1 => {
            Estimate::between(Lash::from_mm(low).code()?, Lash::from_mm(high).code()?, u).code()?
        }
        2 => Estimate::at_least(Lash::from_mm(low).code()?, u),
        _ => Estimate::at_most(Lash::from_mm(high).code()?, u),
    })
}

fn estimated(estimate: &Estimate<Lash>) -> Vec<Value> {
    let (low, high) = (estimate.low(), estimate.high());
    let span = match (low, high) {
        (Some(_), Some(_)) => 1,
        (Some(_), None) => 2,
        _ => 3,
    };
    let end = |lash: Option<Lash>| bits(lash.map_or(0.0, Lash::mm));
    let u = estimate.normal_uncertainty().mm();
    vec![json!(span), end(low), end(high), bits(u)]
}

fn judged(estimate: &Estimate<Lash>, limits: &Limits<Lash>, rule: &DecisionRule) -> Vec<Value> {
    let found = judge(estimate, limits, rule);
    let verdict = match found.verdict {
        Verdict::InBand => 1,
        Verdict::Below => 2,
        Verdict::Above => 3,
        _ => 4,
    };
    let p = found.probabilities;
    let mut out = vec![json!(verdict), json!(u8::from(found.provable))];
    out.extend(
        [p.below, p.in_band, p.above]
            .iter()
            .flat_map(|c| [bits(c.least), bits(c.most)]),
    );
    out
}

fn number(index: Option<CylinderIndex>) -> Value {
    json!(index.map_or(0, |i| i.get() + 1))
}

fn kind(kind: ValveKind) -> Value {
    json!(if kind == ValveKind::Intake { 1 } else { 2 })
}

fn told(plan: Option<&StopPlan>) -> Vec<Value> {
    let Some(plan) = plan else {
        return vec![json!(0)];
    };
    let mut out = vec![
        json!(plan.stops.len()),
        json!(plan.walks),
        json!(plan.unreachable.len()),
        bits(plan.total_turn.degrees()),
    ];
    for stop in &plan.stops {
        out.extend([bits(stop.position.degrees()), bits(stop.turn.degrees())]);
        out.extend([number(stop.firing_tdc), number(stop.overlap_tdc)]);
        out.extend([json!(stop.signs.len()), json!(stop.checks.len())]);
        for sign in &stop.signs {
            out.extend([number(Some(sign.cylinder)), kind(sign.kind)]);
        }
        for check in &stop.checks {
            let valve = check.valve;
            out.extend([
                number(Some(valve.cylinder)),
                kind(valve.kind),
                json!(valve.number),
            ]);
            out.push(bits(check.margin.degrees()));
        }
    }
    for unreached in &plan.unreachable {
        let valve = unreached.valve;
        out.extend([
            number(Some(valve.cylinder)),
            kind(valve.kind),
            json!(valve.number),
        ]);
    }
    out
}

fn plan(i: &mut Inputs<'_>) -> Answer {
    let engine = i.engine()?;
    let events = CamEvents::new(i.angle()?, i.angle()?, i.angle()?, i.angle()?).code()?;
    let guard = i.angle()?;
    let count = |n: i64| u8::try_from(n).unwrap_or(u8::MAX);
    let (intake, exhaust) = (count(i.whole()), count(i.whole()));
    let events = i.events_at(events)?;
    let train = ValveTrain::new(&engine, &events, guard, intake, exhaust).code()?;
    let (method, places, start) = (i.whole(), i.whole(), i.cylinder());
    let places = if places == 1 {
        StoppingPoints::DeadCentres
    } else {
        StoppingPoints::AnyAngle
    };
    let found = match method {
        1 => Some(train.cylinder_by_cylinder(start)),
        2 => start
            .or(engine.order().first().copied())
            .and_then(|first| train.two_position(first)),
        3 => Some(train.fewest_stops(&places, None)),
        4 => Some(train.opposite_valve(start, None)),
        _ => Some(train.fully_open_valve(start, None)),
    };
    Ok(told(found.as_ref()))
}

fn per_cylinder(engine: &Engine, at: impl Fn(CylinderIndex) -> f64) -> Vec<Value> {
    engine.indices().map(|index| bits(at(index))).collect()
}

fn felt(i: &mut Inputs<'_>) -> Answer {
    let span = i.whole();
    let (goes, refuses, tolerance, hand) = (i.mark()?, i.mark()?, i.mark()?, i.mark()?);
    let stack = |mark| Stack::new(vec![Leaf::new(mark)]).code();
    let reading = match span {
        1 => Reading::between(stack(goes)?, stack(refuses)?).code()?,
        2 => Reading::goes(stack(goes)?),
        _ => Reading::refuses(stack(refuses)?),
    };
    let used = GaugeUse {
        unstated: Some(tolerance),
        hand: Some(hand),
        ..GaugeUse::default()
    };
    let found = reading.estimate_with(&used, None).code()?;
    Ok(estimated(&found.estimate))
}

fn warmth(i: &mut Inputs<'_>) -> Answer {
    let coefficient = LashCoefficient::new(i.number(), i.number(), None).code()?;
    let at = Temperature::from_celsius(i.number()).code()?;
    let u = TemperatureDifference::from_kelvin(i.number()).code()?;
    let reference = Temperature::from_celsius(i.number()).code()?;
    let found = coefficient.correction(at, u, reference).code()?;
    Ok(vec![
        bits(found.change.mm()),
        bits(found.standard_uncertainty_mm()),
    ])
}

fn screw(i: &mut Inputs<'_>) -> Answer {
    let (pitch, ratio) = (i.number(), i.number());
    let seat = i.pick([ScrewSeat::ValveSide, ScrewSeat::CamSide, ScrewSeat::Pivot]);
    let inward_closes = i.whole() == 1;
    let change = LashChange::from_mm(i.number()).code()?;
    let thread = Thread::metric(Length::from_mm(pitch).code()?).code()?;
    let turn = screw_turn(change, thread, seat, ratio, inward_closes).code()?;
    let inward = turn.angle.degrees();
    let direction = if inward > 0.0 {
        1
    } else if inward < 0.0 {
        2
    } else {
        3
    };
    Ok(vec![bits(inward), bits(turn.travel.mm()), json!(direction)])
}

fn stops(i: &mut Inputs<'_>) -> Answer {
    let stops = PistonStops::new(i.angle()?, i.angle()?, i.angle()?).code()?;
    let has_slider = i.0.as_slice().first().is_some_and(|v| !v.is_null());
    let found = if has_slider {
        stops.tdc_with(&i.slider()?)
    } else {
        stops.tdc()
    };
    Ok(vec![
        bits(found.wheel.degrees()),
        bits(found.standard_uncertainty.degrees()),
    ])
}

/// A column that may be left out, or be one number for all rows; `null` among its numbers is not a number.
fn column(i: &mut Inputs<'_>, rows: usize) -> Option<Vec<f64>> {
    let number = |value: &Value| value.as_f64().unwrap_or(f64::NAN);
    match i.value() {
        Value::Null => None,
        Value::Array(items) => Some(items.iter().map(number).collect()),
        one => Some(vec![number(one); rows]),
    }
}

fn columns(i: &mut Inputs<'_>) -> Answer {
    let limits = i.limits_if_any()?;
    let rule = i.rule()?;
    let spans = i.numbers().unwrap_or_default();
    let [mut low, mut high, u] = [(); 3].map(|()| i.numbers().expect("a column"));
    // An end that is not there.
    for (span, (low, high)) in spans.iter().zip(low.iter_mut().zip(&mut high)) {
        if *span > 2.5 {
            *low = f64::NEG_INFINITY;
        } else if *span > 1.5 {
            *high = f64::INFINITY;
        }
    }
    let rows = low.len();
    let limit = |which: fn(&Limits<Lash>) -> Option<Marked>| {
        let printed = limits.as_ref().and_then(which);
        vec![printed.map_or(f64::NAN, |mark| mark.nominal().mm()); rows]
    };
    let [lower, upper] = [(); 2].map(|()| column(i, rows));
    let lower = lower.unwrap_or_else(|| limit(Limits::lower));
    let upper = upper.unwrap_or_else(|| limit(Limits::upper));
    let metal = [(); 5].map(|()| column(i, rows));
    let as_cold = metal.iter().all(Option::is_none);
    let not_stated = |at: usize| match at {
        _ if !as_cold => f64::NAN,
        0 | 2 => 20.0,
        _ => 0.0,
    };
    let mut at = 0..metal.len();
    let metal = metal.map(|column| {
        let not_stated = at.next().map_or(f64::NAN, not_stated);
        column.unwrap_or_else(|| vec![not_stated; rows])
    });
    let [celsius, kelvin, reference, slope, slope_u] = metal;
    let given = [
        low, high, u, lower, upper, celsius, kelvin, reference, slope, slope_u,
    ];
    let mut out = Vec::new();
    for row in 0..rows {
        let given = given.each_ref().map(|column| Column::Each(column).at(row));
        let found = alone(&given, &rule).unwrap_or(ReadingRow::REFUSED);
        out.extend([
            json!(found.judged.verdict),
            json!(u8::from(found.judged.provable)),
        ]);
        out.extend(found.judged.probabilities.map(bits));
        out.extend([found.low, found.high, found.u].map(bits));
        out.push(json!(u8::from(found.at_reference)));
    }
    Ok(out)
}

/// See [`super::answer`].
pub(super) fn answer(call: &str, input: &[Value]) -> Answer {
    let i = &mut Inputs(input.iter());
    Ok(match call {
        "parse_length" => {
            use LengthUnit::{Inch, Micrometre, Millimetre, Thou};
            let mark = Marked::parse(i.text()).code()?;
            let units = [Millimetre, Inch, Thou, Micrometre];
            let unit = units
                .iter()
                .position(|u| *u == mark.unit())
                .map_or(0, |at| at + 1);
            vec![
                json!(mark.nominal().nanometres()),
                json!(unit),
                json!(mark.decimals()),
            ]
        }
        "show_length" => {
            let nominal = Nominal::from_nanometres(i.whole()).code()?;
            let unit = i.length_unit();
            let decimals = u32::try_from(i.whole()).expect("decimals");
            vec![json!(nominal.show(unit, decimals))]
        }
        "convert_length" => {
            let (value, from, to) = (i.number(), i.length_unit(), i.length_unit());
            vec![bits(from.convert(value, to))]
        }
        "parse_temperature" => vec![bits(Temperature::parse(i.text()).code()?.celsius())],
        "convert_temperature" => {
            let (value, from, to) = (i.number(), i.temperature_unit(), i.temperature_unit());
            vec![bits(Temperature::from_value(value, from).code()?.value(to))]
        }
        "parse_crank_angle" => vec![bits(CrankAngle::parse(i.text()).code()?.degrees())],
        "piston_drop" => {
            let (slider, at) = (i.slider()?, i.angle()?);
            vec![bits(slider.piston_drop(at).mm())]
        }
        "angles_at_drop" => {
            let (slider, drop) = (i.slider()?, Length::from_mm(i.number()).code()?);
            let (before, after) = slider.angles_at_drop(drop).code()?;
            vec![bits(before.degrees()), bits(after.degrees())]
        }
        "dead_centres" => {
            let slider = i.slider()?;
            let (tdc, bdc) = (slider.tdc_angle().degrees(), slider.bdc_angle().degrees());
            vec![bits(tdc), bits(bdc), bits(slider.stroke().mm())]
        }
        "tdc_from_stops" => stops(i)?,
        "estimate_from_leaves" => felt(i)?,
        "estimate_changed" => {
            let estimate = i.estimate()?;
            let change = LashChange::from_mm(i.number()).code()?;
            let now = estimate.shifted(change, Uncertainty::from_mm(i.number()).code()?);
            estimated(&now)
        }
        "warmth_shift" => warmth(i)?,
        "judge" => {
            let (estimate, limits, rule) = (i.estimate()?, i.limits()?, i.rule()?);
            judged(&estimate, &limits, &rule)
        }
        "judge_columns" => columns(i)?,
        "pitch_per_inch" => vec![bits(Thread::per_inch(i.number()).code()?.pitch().mm())],
        "turn_screw" => screw(i)?,
        "shim_wanted" => vec![json!(i.shim()?.wanted().code()?.nanometres())],
        "lash_with_shim" => {
            let (fit, size) = (i.shim()?, i.mark()?.nominal());
            vec![bits(fit.lash_with(size).code()?.mm())]
        }
        "choose_shim" => {
            let fit = i.shim()?;
            let series = ShimSeries::new(i.mark()?, i.mark()?, i.mark()?).code()?;
            let rounding = i.pick([ShimRounding::Nearest, ShimRounding::NeverTighter]);
            let choice = series.nearest(&fit, rounding).code()?;
            let (lash, error) = (choice.predicted_lash.mm(), choice.error.mm());
            vec![json!(choice.size.nanometres()), bits(lash), bits(error)]
        }
        "firing_offsets" => {
            let engine = i.engine()?;
            per_cylinder(&engine, |c| engine.firing_position(c).degrees())
        }
        "tdc_offsets" => {
            let engine = i.engine()?;
            per_cylinder(&engine, |c| engine.dead_centre(c).degrees())
        }
        "rotor_angles" => {
            let engine = i.engine()?;
            per_cylinder(&engine, |c| engine.rotor_angle(c).degrees())
        }
        "companion" => {
            let (engine, cylinder) = (i.engine()?, i.cylinder().expect("a cylinder"));
            vec![number(engine.companion(cylinder))]
        }
        "plan" => plan(i)?,
        other => super::ignition::answer(other, i)?,
    })
}
