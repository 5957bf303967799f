//! The calls about ignition, made from Rust.

use super::bits;
use super::calls::{Answer, Coded, Inputs};
use lashwork::engine::Pulley;
use lashwork::ignition::breaker::{
    BreakerCam, CamSpeed, Dwell, Flanks, GapAndDwell, GapSizes, LobeModel, Lobes, MeterScale,
    spark_shift,
};
use lashwork::ignition::electrics::{Conductor, PrimaryCircuit, Weak, resistance_at};
use lashwork::ignition::point::{Dial, Drive, MarkSide, Piston, ROTOR_U, RimMark, rim_u};
use lashwork::quantity::{
    Advance, CrankSpeed, Current, DistributorAdvance, Energy, Length, PistonTravel, Temperature,
    TemperatureDifference,
};
use lashwork::tolerance::{Estimate, Measurand, Uncertainty};
use serde_json::{Value, json};

const SIDES: [MarkSide; 3] = [MarkSide::Ahead, MarkSide::On, MarkSide::Behind];

impl Inputs<'_> {
    fn lobes(&mut self) -> Answer<Lobes> {
        Lobes::new(u8::try_from(self.whole()).unwrap_or(u8::MAX)).code()
    }
    fn scale(&mut self) -> Answer<MeterScale> {
        match self.whole() {
            100 => Ok(MeterScale::Percent),
            cylinders => {
                let cylinders = u8::try_from(cylinders).unwrap_or(u8::MAX);
                Ok(MeterScale::Cylinders(Lobes::new(cylinders).code()?))
            }
        }
    }
    /// A value and its standard uncertainty.
    fn about<Q: Measurand>(&mut self) -> Answer<Estimate<Q>> {
        let (value, u) = (self.number(), self.number());
        let u = Uncertainty::from_number(u).code()?;
        let value = Q::from_number(value).code()?;
        Estimate::between(value, value, u).code()
    }
    fn lobe(&mut self) -> Answer<LobeModel> {
        let pair = GapAndDwell {
            gap: self.about()?,
            dwell: self.about()?,
        };
        let lobes = self.lobes()?;
        let sizes = match self.whole() {
            0 => GapSizes::Usual,
            _ => GapSizes::StatedUnusual,
        };
        LobeModel::from_pair(&pair, lobes, sizes).code()
    }
    fn cam(&mut self) -> CamSpeed {
        self.pick([CamSpeed::HalfCrank, CamSpeed::Crank])
    }
    fn point(&mut self) -> Answer<Advance> {
        Advance::from_degrees_before(self.number()).code()
    }
    fn dial(&mut self) -> Answer<Dial> {
        Dial::new(Some(self.number()), self.number()).code()
    }
    fn rim(&mut self) -> Answer<(Pulley, bool)> {
        let pulley = Pulley::new(Length::from_mm(self.number()).code()?).code()?;
        Ok((pulley, self.whole() == 1))
    }
    fn circuit(&mut self) -> Answer<(PrimaryCircuit, Estimate<Dwell>, BreakerCam)> {
        let circuit = PrimaryCircuit {
            supply: self.about()?,
            resistance: self.about()?,
            inductance: self.about()?,
        };
        let dwell = self.about()?;
        let lobes = self.lobes()?;
        let speed = self.cam();
        Ok((circuit, dwell, BreakerCam { lobes, speed }))
    }
}

/// Its centre and standard uncertainty.
fn centred<Q: Measurand>(found: &Estimate<Q>) -> [Value; 2] {
    [
        bits(found.centre().map_or(f64::NAN, Measurand::number)),
        bits(
            found
                .standard_uncertainty()
                .map_or(f64::NAN, Uncertainty::number),
        ),
    ]
}

fn breaker(call: &str, i: &mut Inputs<'_>) -> Answer {
    Ok(match call {
        "dwell_of_reading" => {
            let shown = i.number();
            vec![bits(i.scale()?.dwell(shown, i.lobes()?).code()?.degrees())]
        }
        "reading_of_dwell" => {
            let dwell = Dwell::from_degrees(i.number()).code()?;
            vec![bits(i.scale()?.shows(dwell, i.lobes()?).code()?)]
        }
        "dwell_at_gap" => centred(&i.lobe()?.dwell_at(&i.about()?).code()?).into(),
        "gap_at_dwell" => centred(&i.lobe()?.gap_at(&i.about()?).code()?).into(),
        _ => {
            let (change, cam) = (i.about()?, i.cam());
            let flanks = Some(Flanks::OpeningShare(i.number()));
            let shift = spark_shift(&change, cam, flanks).code()?;
            vec![
                bits(shift.earlier.degrees()),
                bits(shift.uncertainty.number()),
            ]
        }
    })
}

fn point(call: &str, i: &mut Inputs<'_>) -> Answer {
    Ok(match call {
        "distributor_at_point" => {
            let (point, drive) = (i.point()?, Drive::new(i.number()).code()?);
            let shown = drive.at_rotor(point).code()?.degrees_before();
            vec![bits(shown), bits(ROTOR_U * drive.crank_turns())]
        }
        "point_at_distributor" => {
            let shown = DistributorAdvance::from_degrees_before(i.number()).code()?;
            let drive = Drive::new(i.number()).code()?;
            let point = drive.at_crank(shown).code()?.degrees_before();
            vec![bits(point), bits(ROTOR_U * drive.crank_turns())]
        }
        "dial_at_point" => {
            let (piston, dial) = (Piston::of_crank(i.slider()?), i.dial()?);
            let point = i.point()?;
            let travel = piston.travel(point).code()?;
            let u = piston.degrees_of(point, dial.travel_u_mm()).code()?;
            let shown = dial.reading(travel).code()?.mm();
            vec![bits(shown), bits(travel.mm()), bits(u)]
        }
        "point_at_dial" => {
            let (piston, dial) = (Piston::of_crank(i.slider()?), i.dial()?);
            let shown = PistonTravel::from_mm(i.number()).code()?;
            let travel = dial.travel(shown).code()?;
            let point = match i.whole() {
                1 => piston.before(travel).code()?,
                _ => piston.after(travel).code()?,
            };
            let u = piston.degrees_of(point, dial.travel_u_mm()).code()?;
            vec![bits(point.degrees_before()), bits(u)]
        }
        "rim_at_point" => {
            let point = i.point()?;
            let (pulley, by_tape) = i.rim()?;
            let mark = RimMark::of(pulley, point);
            let side = SIDES.iter().position(|side| *side == mark.side);
            vec![
                bits(mark.along_rim.mm()),
                json!(side.map_or(0, |at| at + 1)),
                bits(rim_u(pulley, by_tape)),
            ]
        }
        _ => {
            let along_rim = Length::from_mm(i.number()).code()?;
            let side = i.pick(SIDES);
            let (pulley, by_tape) = i.rim()?;
            let point = RimMark { along_rim, side }.point(pulley).code()?;
            vec![bits(point.degrees_before()), bits(rim_u(pulley, by_tape))]
        }
    })
}

fn coil(call: &str, i: &mut Inputs<'_>) -> Answer {
    if call == "copper_resistance" {
        let read = i.about()?;
        let read_at = Temperature::from_celsius(i.number()).code()?;
        let within = TemperatureDifference::from_kelvin(i.number()).code()?;
        let wanted = Temperature::from_celsius(i.number()).code()?;
        let found = resistance_at(&read, read_at, within, wanted, Conductor::Copper).code()?;
        return Ok(centred(&found.resistance).into());
    }
    let (circuit, dwell, cam) = i.circuit()?;
    if call == "weak_from_speed" {
        let (weak, below) = (i.whole(), i.number());
        let weak = match weak {
            1 => Weak::BelowShareOfCurrent(below),
            2 => Weak::BelowShareOfEnergy(below),
            3 => Weak::BelowCurrent(Current::from_amperes(below).code()?),
            _ => Weak::BelowEnergy(Energy::from_millijoules(below).code()?),
        };
        return Ok(centred(&circuit.speed_at(weak, cam, &dwell).code()?).into());
    }
    let speed = CrankSpeed::from_rpm(i.number()).code()?;
    let found = circuit.at_speed(cam, &dwell, speed).code()?;
    let mut out = vec![bits(found.closed.milliseconds())];
    out.extend(centred(&found.current));
    out.extend(centred(&found.energy));
    out.extend([bits(found.share_of_current), bits(found.share_of_energy)]);
    Ok(out)
}

/// See [`super::answer`].
pub(super) fn answer(call: &str, i: &mut Inputs<'_>) -> Answer {
    match call {
        "dwell_of_reading" | "reading_of_dwell" | "dwell_at_gap" | "gap_at_dwell"
        | "spark_shift" => breaker(call, i),
        "distributor_at_point"
        | "point_at_distributor"
        | "dial_at_point"
        | "point_at_dial"
        | "rim_at_point"
        | "point_at_rim" => point(call, i),
        "copper_resistance" | "charge_at_speed" | "weak_from_speed" => coil(call, i),
        other => super::timing::answer(other, i),
    }
}
