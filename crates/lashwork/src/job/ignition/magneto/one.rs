//! One magneto: what was read of it, against the book.

use super::answer::OneMagnetoReport;
use super::request::{Magneto, OneMagneto};
use super::{MagnetoField, Refused, advise};
use crate::engine::Sense;
use crate::ignition::magneto::{
    ContactsAdvice, EGap, ExternalAnswer, ExternalTiming, ImpulseCoupling, InternalTiming,
    MagnetoCaution, MagnetoError, MagnetoSpeed, Which,
};
use crate::ignition::point::MARK_HALF_WIDTH;
use crate::job::assumptions::Assumptions;
use crate::job::ignition::IgnitionPlace;
use crate::job::ignition::leaves;
use crate::job::ignition::mark::assume_mark;
use crate::job::known::Known;
use crate::job::problem::Problem;
use crate::job::work::{Before, MeasuredReport, Sides, judged, told};
use crate::quantity::{Advance, ContactGap, LengthUnit};
use crate::tolerance::{Estimate, HasLimits, Limits, Measurand, Uncertainty};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

const E_GAP: Sides = Sides {
    below: "opens too early",
    above: "opens too late",
};
const SPARK: Sides = Sides {
    below: "too late",
    above: "too early",
};

/// Half the width of a rectangle that a reading of the rotor's place is taken to lie in, in degrees of the
/// magneto. Common practice, no source.
const ROTOR_MARK: f64 = 1.0;

/// What is inside, as far as it was read.
#[derive(Clone, Copy)]
pub(super) enum Inside {
    NotRead,
    /// Only the place was read.
    NoGap,
    /// Only the gap was read.
    NoEGap,
    /// The leaf rests on the peak of pitted contacts.
    Pitted,
    Judged(ContactsAdvice),
}

/// What was found of one.
pub(super) struct Found {
    pub(super) which: Option<Which>,
    pub(super) inside: Inside,
    pub(super) e_gap: Option<(Estimate<EGap>, Limits<EGap>)>,
    pub(super) gap: Option<(Estimate<ContactGap>, Limits<ContactGap>)>,
    pub(super) spark: Option<Spark>,
    pub(super) speed: Option<MagnetoSpeed>,
    impulse: Option<Impulse>,
}

/// Where it sparks.
#[derive(Clone, Copy)]
pub(super) struct Spark {
    pub(super) read: Estimate<Advance>,
    pub(super) limits: Limits<Advance>,
    pub(super) speed: MagnetoSpeed,
    pub(super) rotor: Option<Sense>,
    pub(super) answer: ExternalAnswer,
}

/// Where its impulse coupling trips.
struct Impulse {
    running: Advance,
    trips: Advance,
    /// Where it sparks, and where the coupling trips, once the body is set.
    once_set: Option<(Advance, Advance)>,
    coupling: ImpulseCoupling,
}

/// Reads what was stated of one.
pub(super) fn read(
    asked: &Magneto,
    one: &OneMagneto,
    i: usize,
    known: Known<'_>,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Result<Found, Refused> {
    let section = |what| Refused::NotStated(MagnetoField::Section, what);
    let mut found = Found {
        which: one.which,
        inside: Inside::NotRead,
        e_gap: None,
        gap: None,
        spark: None,
        speed: speed(one, i, known)?,
        impulse: None,
    };
    if let Some(at) = one.e_gap {
        let limits = asked.e_gap_limits;
        let limits = limits.ok_or_else(|| section("the book's angle past neutral"))?;
        let u = e_gap_u(one, assumptions).map_err(Refused::at(MagnetoField::Magneto(i)))?;
        let read = Estimate::between(at, at, u);
        found.e_gap = Some((read.map_err(Refused::at(MagnetoField::Magneto(i)))?, limits));
    }
    let mut leaf_suffices = true;
    if let Some(felt) = &one.gap {
        let limits = asked.gap_limits;
        let limits = limits.ok_or_else(|| section("the book's gap of the contacts"))?;
        let place = IgnitionPlace::Magneto(MagnetoField::Gap(i));
        let inches = known.shown.inches;
        let felt = leaves::evidence(felt, one.look, inches, place, assumptions, problems);
        if let Some(felt) = felt {
            leaf_suffices = felt.leaf_suffices;
            found.gap = Some((felt.gap, limits));
        }
    }
    found.inside = match (found.e_gap, found.gap) {
        (None, None) => Inside::NotRead,
        (Some(_), None) => Inside::NoGap,
        (None, Some(_)) => Inside::NoEGap,
        _ if !leaf_suffices => Inside::Pitted,
        (Some((e_gap, e_gap_limits)), Some((gap, gap_limits))) => {
            let timing = InternalTiming {
                e_gap,
                e_gap_limits,
                gap,
                gap_limits,
            };
            Inside::Judged(timing.judged().advice)
        }
    };
    if let Some(at) = one.sparks_at {
        let limits = asked.limits;
        let limits = limits.ok_or_else(|| section("the book's ignition point"))?;
        let field = MagnetoField::Spark(i);
        let u = spark_u(one, assumptions).map_err(Refused::at(field))?;
        let read = Estimate::between(at, at, u).map_err(Refused::at(field))?;
        let speed = found.speed.ok_or(no_speed(i))?;
        // Which way to turn is told against the rotor; its sense, where stated, only puts it in words.
        let timing = ExternalTiming {
            read,
            limits,
            speed,
            rotor: one.rotor.unwrap_or(Sense::Clockwise),
        };
        let answer = timing.judged().map_err(Refused::at(field))?;
        found.spark = Some(Spark {
            read,
            limits,
            speed,
            rotor: one.rotor,
            answer,
        });
    }
    if let Some(lag) = one.lag {
        let field = MagnetoField::Lag(i);
        let coupling = ImpulseCoupling::new(lag, found.speed.ok_or(no_speed(i))?);
        let coupling = coupling.map_err(Refused::at(field))?;
        let running = one.sparks_at.or_else(|| aim(asked.limits.as_ref()?));
        let running = running.ok_or_else(|| section("the book's ignition point"))?;
        let trips = coupling.trips_at(running).map_err(Refused::at(field))?;
        let off = found
            .spark
            .as_ref()
            .filter(|spark| spark.answer.turn.is_some());
        let once_set = off.and_then(|spark| aim(&spark.limits)).map(|aim| {
            let trips = coupling.trips_at(aim).map_err(Refused::at(field));
            trips.map(|trips| (aim, trips))
        });
        found.impulse = Some(Impulse {
            running,
            trips,
            once_set: once_set.transpose()?,
            coupling,
        });
    }
    Ok(found)
}

/// How fast it turns, as stated or by its sparks.
fn speed(one: &OneMagneto, i: usize, known: Known<'_>) -> Result<Option<MagnetoSpeed>, Refused> {
    let Some(sparks) = one.sparks_per_turn else {
        return Ok(one.speed);
    };
    let at = || Refused::at(MagnetoField::Speed(i));
    let (cylinders, cycle) = (known.engine.cylinders().len(), known.engine.cycle());
    let by_sparks = MagnetoSpeed::for_sparks(cylinders, cycle, usize::from(sparks)).map_err(at())?;
    let agreed = one
        .speed
        .map_or(Ok(by_sparks), |stated| stated.agreeing(by_sparks));
    agreed.map(Some).map_err(at())
}

const fn no_speed(i: usize) -> Refused {
    Refused::NotStated(MagnetoField::Magneto(i), "how fast the magneto turns")
}

fn e_gap_u(
    one: &OneMagneto,
    assumptions: &mut Assumptions,
) -> Result<Uncertainty<EGap>, MagnetoError> {
    if let Some(u) = one.e_gap_uncertainty {
        return Ok(u);
    }
    assumptions.bears_on_verdict(
        "ignition.e-gap-uncertainty",
        format!(
            "uncertainty of the place of a magneto's rotor not stated: anywhere within {ROTOR_MARK} of its degrees either way taken"
        ),
    );
    Ok(Uncertainty::from_number(ROTOR_MARK / libm::sqrt(3.0))?)
}

fn spark_u(
    one: &OneMagneto,
    assumptions: &mut Assumptions,
) -> Result<Uncertainty<Advance>, MagnetoError> {
    if let Some(u) = one.uncertainty {
        return Ok(u);
    }
    assume_mark(assumptions);
    Ok(Uncertainty::from_number(MARK_HALF_WIDTH / libm::sqrt(3.0))?)
}

/// The middle of the book's band.
pub(super) fn aim(limits: &Limits<Advance>) -> Option<Advance> {
    let (low, high) = limits.lower().zip(limits.upper())?;
    let middle = f64::midpoint(low.degrees_before(), high.degrees_before());
    Advance::from_degrees_before(middle).ok()
}

impl Found {
    /// What must be said where its impulse coupling trips.
    pub(super) fn kicks(&self) -> Option<MagnetoCaution> {
        let impulse = self.impulse.as_ref()?;
        impulse.coupling.caution(impulse.trips)
    }

    /// As the report tells it.
    pub(super) fn report(&self, before: &Before, unit: LengthUnit) -> OneMagnetoReport {
        let e_gap = self.e_gap.as_ref().map(|(read, limits)| {
            let said = said(read, "deg past neutral");
            judged(said, read, limits, &EGap::USUAL_RULE, E_GAP)
        });
        let gap = self.gap.as_ref().map(|(read, limits)| {
            let said = leaves::said_gap(read, unit);
            judged(
                said,
                read,
                limits,
                &ContactGap::USUAL_RULE,
                leaves::GAP_SIDES,
            )
        });
        let spark = self.spark.as_ref().map(Spark::report);
        let impulse = self.impulse.as_ref().map(Impulse::said);
        OneMagnetoReport {
            which: self.which,
            e_gap,
            gap,
            spark,
            impulse,
            advice: advise::one(self, before),
        }
    }
}

impl Impulse {
    fn said(&self) -> String {
        let once_set = self.once_set.map_or_else(String::new, |(aim, trips)| {
            format!("; set to {}, it trips at {}", aim.show(1), trips.show(1))
        });
        format!(
            "running at {}, the coupling trips at {}, {:.1} crank deg later{once_set}",
            self.running.show(1),
            self.trips.show(1),
            self.coupling.at_crank().degrees()
        )
    }
}

impl Spark {
    fn report(&self) -> MeasuredReport {
        let found = self.read.centre().zip(self.read.standard_uncertainty());
        let said = found.map_or_else(
            || String::from("one end only"),
            |(at, u)| format!("{}, u {:.1} deg", at.show(1), u.number()),
        );
        told(said, self.limits.to_string(), &self.answer.judgement, SPARK)
    }
}

fn said<Q: Measurand>(read: &Estimate<Q>, unit: &str) -> String {
    let found = read.centre().zip(read.standard_uncertainty());
    found.map_or_else(
        || String::from("one end only"),
        |(at, u)| format!("{:.1} {unit}, u {:.1} deg", at.number(), u.number()),
    )
}
