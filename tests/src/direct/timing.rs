//! The calls about ignition timing, made from Rust.

use super::bits;
use super::calls::{Answer, Coded, Inputs};
use lashwork::ignition::timing::{
    AboveLast, CentrifugalCurve, CrankPoint, CurveCause, CurveCauses, CurveFit, CurveReadings,
    Hose, LampDelay, PrintedTiming, Running, Taken, TimingReading,
};
use lashwork::quantity::{Advance, CrankAngle, CrankSpeed};
use lashwork::tolerance::{DecisionRule, HasLimits, Limits, Uncertainty};
use serde_json::{Value, json};

impl Inputs<'_> {
    /// A list of inputs that has to be there.
    pub(super) fn column(&mut self) -> Answer<Vec<f64>> {
        self.numbers().ok_or_else(|| "a column".to_owned())
    }

    /// Speeds, least and most advance, and whether it ends there; none if there are no speeds.
    fn curve(&mut self) -> Answer<Option<CentrifugalCurve>> {
        let (speeds, least, most) = (self.numbers(), self.numbers(), self.numbers());
        let above = match self.whole() {
            1 => AboveLast::Ends,
            _ => AboveLast::NotSaid,
        };
        let (Some(speeds), Some(least), Some(most)) = (speeds, least, most) else {
            return Ok(None);
        };
        let point = |((speed, least), most)| -> Answer<CrankPoint> {
            Ok(CrankPoint {
                speed: CrankSpeed::from_rpm(speed).code()?,
                least: CrankAngle::from_degrees(least).code()?,
                most: CrankAngle::from_degrees(most).code()?,
            })
        };
        let points: Answer<Vec<_>> = speeds.into_iter().zip(least).zip(most).map(point).collect();
        CentrifugalCurve::at_crank(&points?, above).code().map(Some)
    }

    /// The printed point, and what it holds for.
    fn printed(&mut self) -> Answer<(Limits<Advance>, Taken)> {
        let (span, lower, upper) = (self.whole(), self.number(), self.number());
        let point = |degrees| Advance::from_degrees_before(degrees).code();
        let limits = match span {
            1 => Limits::between(point(lower)?, point(upper)?).code()?,
            2 => Limits::at_least(point(lower)?),
            _ => Limits::at_most(point(upper)?),
        };
        let printed_rpm = self.number();
        let holds_for = if printed_rpm == 0.0 {
            Taken::Standing
        } else {
            let speed = CrankSpeed::from_rpm(printed_rpm).code()?;
            Taken::Running(Running::at(speed, Hose::Plugged))
        };
        Ok((limits, holds_for))
    }
}

/// Each row by the call for one reading, whose answer the columns must give to the bit.
fn judge_columns(i: &mut Inputs<'_>) -> Answer {
    let curve = i.curve()?;
    let (limits, holds_for) = i.printed()?;
    let (kind, below, above) = (i.whole(), i.number(), i.number());
    let rule = match kind {
        2 => DecisionRule::simple(),
        3 => DecisionRule::iso_14253_1(),
        4 => DecisionRule::guarded(below, above).code()?,
        _ => Advance::USUAL_RULE,
    };
    let (speed_u, delay) = (i.number(), i.number());
    let hose = i.pick([Hose::NotFitted, Hose::Plugged, Hose::Connected(None)]);
    let point = |degrees| Advance::from_degrees_before(degrees).code();
    let book = PrintedTiming::new(limits, holds_for, curve.as_ref(), None).code()?;
    let lamp = LampDelay::from_microseconds(delay).code()?;
    let still = Running::at(CrankSpeed::from_rpm(0.0).code()?, hose);
    let still = still.with_speed_u(speed_u).code()?;
    let (read, rpm, u) = (i.column()?, i.column()?, i.column()?);
    let mut out = Vec::new();
    for ((read, rpm), u) in read.into_iter().zip(rpm).zip(u) {
        let found = || -> Answer {
            let mut running = still;
            running.speed = CrankSpeed::from_rpm(rpm).code()?;
            let reading = TimingReading {
                read: point(read)?,
                u: Uncertainty::from_number(u).code()?,
                taken: Taken::Running(running),
                lamp,
            };
            let found = book.found(&reading, &rule).code()?;
            let (judged, estimate) = (found.judgement, found.estimate);
            let mut row = vec![
                json!(judged.verdict.number()),
                json!(u8::from(judged.provable)),
            ];
            let end = |end: Option<Advance>| end.map_or(f64::NAN, Advance::degrees_before);
            let p = judged.probabilities;
            row.extend(
                [
                    p.below.least,
                    p.below.most,
                    p.in_band.least,
                    p.in_band.most,
                    p.above.least,
                    p.above.most,
                    end(estimate.low()),
                    end(estimate.high()),
                    estimate.normal_uncertainty().number(),
                ]
                .map(bits),
            );
            Ok(row)
        };
        let refused = || -> Vec<Value> {
            let nothing = [(); 9].map(|()| bits(f64::NAN));
            [json!(0), json!(0)].into_iter().chain(nothing).collect()
        };
        out.extend(found().unwrap_or_else(|_| refused()));
    }
    Ok(out)
}

/// The readings beside a curve, each made on its own; `rest` reads what stands between the printed point and
/// them.
fn beside<T>(
    i: &mut Inputs<'_>,
    rest: impl FnOnce(&mut Inputs<'_>) -> Answer<T>,
) -> Answer<(CurveReadings, T)> {
    let curve = i.curve()?;
    let (limits, holds_for) = i.printed()?;
    let rest = rest(i)?;
    let (speed_u, delay) = (i.number(), i.number());
    let hose = i.pick([Hose::NotFitted, Hose::Plugged, Hose::Connected(None)]);
    let book = PrintedTiming::new(limits, holds_for, curve.as_ref(), None).code()?;
    let lamp = LampDelay::from_microseconds(delay).code()?;
    let (read, rpm, u) = (i.column()?, i.column()?, i.column()?);
    let rows = read.into_iter().zip(rpm).zip(u);
    let readings = rows.map(|((read, rpm), u)| -> Answer<TimingReading> {
        let speed = CrankSpeed::from_rpm(rpm).code()?;
        Ok(TimingReading {
            read: Advance::from_degrees_before(read).code()?,
            u: Uncertainty::from_number(u).code()?,
            taken: Taken::Running(Running::at(speed, hose).with_speed_u(speed_u).code()?),
            lamp,
        })
    });
    let readings: Answer<Vec<_>> = readings.collect();
    Ok((CurveReadings::new(&book, &readings?).code()?, rest))
}

fn fitted(i: &mut Inputs<'_>) -> Answer {
    let (readings, ()) = beside(i, |_| Ok(()))?;
    let fit = CurveFit::new(&readings).code()?;
    let (start, scale, end) = (fit.static_point(), fit.scale(), fit.end());
    let mut out = vec![bits(start.value.degrees_before()), bits(start.u)];
    let scale = scale.map_or([f64::NAN; 2], |one| [one.value, one.u]);
    let end = end.map_or([f64::NAN; 2], |one| [one.value.degrees(), one.u]);
    let scatter = fit.scatter().unwrap_or(f64::NAN);
    out.extend(scale.into_iter().chain(end).chain([scatter]).map(bits));
    out.push(json!(fit.degrees_of_freedom()));
    Ok(out)
}

fn weighed(i: &mut Inputs<'_>) -> Answer {
    let (readings, (fault, capsule)) = beside(i, |i| {
        let (fault, is_known) = (i.number(), i.whole() == 1);
        let (gives, u) = (i.number(), i.number());
        let capsule = is_known.then(|| -> Answer<_> {
            let u = Uncertainty::<Advance>::from_number(u).code()?;
            Ok((CrankAngle::from_degrees(gives).code()?, u.number()))
        });
        Ok((fault, capsule.transpose()?))
    })?;
    let found = CurveCauses::weigh(&readings, capsule, fault).code()?;
    let of = |cause: CurveCause| {
        let weighed = found.causes.iter().find(|one| one.cause == cause);
        bits(weighed.map_or(f64::NAN, |one| one.posterior))
    };
    let causes = CurveCause::ALL.into_iter().map(of);
    Ok([bits(found.sound)].into_iter().chain(causes).collect())
}

/// See [`super::answer`].
pub(super) fn answer(call: &str, i: &mut Inputs<'_>) -> Answer {
    match call {
        "judge_strobe_columns" => judge_columns(i),
        "fit_advance_curve" => fitted(i),
        "weigh_advance_curve" => weighed(i),
        "advance_at_speed" => {
            let curve = i.curve()?.ok_or("a curve")?;
            let speed = CrankSpeed::from_rpm(i.number()).code()?;
            let found = curve.at(speed).code()?;
            Ok(vec![
                bits(found.least.degrees()),
                bits(found.most.degrees()),
            ])
        }
        other => super::mixture::answer(other, i),
    }
}
