//! Faults planted in drawn engines, and whether the diagnosis found them.

use crate::engines::{
    Drawn, Kind, Leaves, PRINTED, Population, SIZES, draw, evidence, seen, source, turns,
};
use fastrand::Rng;
use lashwork::diagnosis::{Diagnosis, Evidence, ReadingFault, Status, Way, WrongStroke, diagnose};
use lashwork::engine::CylinderIndex;
use lashwork::quantity::LengthUnit;
use lashwork::valve::{ValveId, ValveKind};

/// The two specifications whose kinds differ by 0.10 mm and by 0.20 mm.
pub(crate) const APART_10: (Kind, Kind) = PRINTED[0];
pub(crate) const APART_20: (Kind, Kind) = PRINTED[4];

/// Whether the planted cause is reported first, or tied with the first, at the planted place.
pub(crate) fn found(diagnosis: &Diagnosis, cause: ReadingFault, at: impl Fn(&Way) -> bool) -> bool {
    let reported = diagnosis.causes.iter().find(|c| c.cause == cause);
    reported.is_some_and(|c| c.worth_checking && c.ways.iter().any(|w| at(&w.way)))
}

/// One planted fault: draws an engine, plants it, and says whether it was found.
pub(crate) type Trial = fn(&mut Rng) -> bool;

pub(crate) fn healthy(rng: &mut Rng, printed: (Kind, Kind), sizes: &[usize]) -> (Drawn, Leaves) {
    let population = [Population::Flat, Population::Worn, Population::Model][rng.usize(..3)];
    let cylinders = sizes[rng.usize(..sizes.len())];
    let drawn = draw(rng, population, printed, cylinders);
    (drawn, Leaves::metric(rng))
}

pub(crate) fn ask(evidence: &Evidence, cause: ReadingFault, at: impl Fn(&Way) -> bool) -> bool {
    found(&diagnose(evidence).unwrap(), cause, at)
}

/// Leaves marked in inches, the number of one written as millimetres.
pub(crate) fn slip_one(rng: &mut Rng) -> bool {
    let (drawn, leaves) = healthy(rng, APART_20, &SIZES);
    let mut evidence = evidence(&drawn, &leaves, LengthUnit::Millimetre);
    let inch = Leaves::inch(rng);
    let i = rng.usize(..drawn.lashes.len());
    let (valve, lash) = drawn.lashes[i];
    evidence.readings[i] = seen(valve, lash, &inch, LengthUnit::Millimetre, 1.0 / 25.4);
    ask(
        &evidence,
        ReadingFault::UnitSlipOne,
        |w| matches!(w, Way::SlipOne { reading, .. } if *reading == i),
    )
}

/// Metric leaves, the number of one written as inches.
pub(crate) fn slip_one_inch(rng: &mut Rng) -> bool {
    let (drawn, _) = healthy(rng, APART_10, &SIZES);
    let inch = Leaves::inch(rng);
    let mut evidence = evidence(&drawn, &inch, LengthUnit::Inch);
    let metric = Leaves::metric(rng);
    let i = rng.usize(..drawn.lashes.len());
    let (valve, lash) = drawn.lashes[i];
    evidence.readings[i] = seen(valve, lash, &metric, LengthUnit::Inch, 25.4);
    ask(
        &evidence,
        ReadingFault::UnitSlipOne,
        |w| matches!(w, Way::SlipOne { reading, .. } if *reading == i),
    )
}

/// Thousandths of an inch written as hundredths of a millimetre, on every reading.
pub(crate) fn slip_all(rng: &mut Rng) -> bool {
    let (drawn, leaves) = healthy(rng, APART_10, &SIZES);
    let mut evidence = evidence(&drawn, &leaves, LengthUnit::Millimetre);
    let inch = Leaves::inch(rng);
    let read = |(valve, lash): &(ValveId, f64)| {
        seen(*valve, *lash, &inch, LengthUnit::Millimetre, 1.0 / 2.54)
    };
    evidence.readings = drawn.lashes.iter().map(read).collect();
    ask(&evidence, ReadingFault::UnitSlipAll, |_| true)
}

pub(crate) fn exchange(evidence: &mut Evidence, of: impl Fn(CylinderIndex) -> bool) {
    for reading in &mut evidence.readings {
        if of(reading.valve.cylinder) {
            reading.valve.kind = match reading.valve.kind {
                ValveKind::Intake => ValveKind::Exhaust,
                ValveKind::Exhaust => ValveKind::Intake,
            };
        }
    }
}

pub(crate) fn swapped_all(rng: &mut Rng) -> bool {
    let (drawn, leaves) = healthy(rng, APART_10, &SIZES[1..]);
    let mut evidence = evidence(&drawn, &leaves, LengthUnit::Millimetre);
    exchange(&mut evidence, |_| true);
    ask(&evidence, ReadingFault::SwappedAll, |_| true)
}

pub(crate) fn swapped_cylinder(rng: &mut Rng) -> bool {
    let (drawn, leaves) = healthy(rng, APART_20, &SIZES);
    let mut evidence = evidence(&drawn, &leaves, LengthUnit::Millimetre);
    let cylinder = CylinderIndex::new(rng.usize(..drawn.cylinders));
    exchange(&mut evidence, |c| c == cylinder);
    ask(&evidence, ReadingFault::SwappedOneCylinder, |w| {
        *w == Way::SwappedCylinder(cylinder)
    })
}

pub(crate) fn other_specification(rng: &mut Rng) -> bool {
    let (drawn, leaves) = healthy(rng, APART_10, &SIZES[2..]);
    let mut evidence = evidence(&drawn, &leaves, LengthUnit::Millimetre);
    let less = |k: Kind| (k.0 - 0.10, k.1, k.2);
    let believed = source((less(drawn.printed.0), less(drawn.printed.1)));
    evidence.sources.insert(0, believed);
    ask(&evidence, ReadingFault::OtherSpecification, |w| {
        *w == Way::OtherSource(1)
    })
}

pub(crate) fn one_turn_out(
    rng: &mut Rng,
    pick: impl Fn(&mut Rng, &[WrongStroke]) -> usize,
) -> bool {
    let (mut drawn, leaves) = healthy(rng, APART_10, &SIZES);
    let ways = turns(drawn.cylinders);
    let way = pick(rng, &ways);
    lift(&mut drawn, &ways[way].lifted);
    let evidence = evidence(&drawn, &leaves, LengthUnit::Millimetre);
    ask(&evidence, ReadingFault::OneTurnOut, |w| {
        *w == Way::WrongStroke(way)
    })
}

pub(crate) fn all_stops_out(rng: &mut Rng) -> bool {
    one_turn_out(rng, |_, _| 0)
}

pub(crate) fn table_out(rng: &mut Rng) -> bool {
    // On some engines the table lifts the same valves as the walk, and is no way of its own.
    one_turn_out(rng, |_, ways| {
        ways.iter().position(|w| w.two_position).unwrap_or(0)
    })
}

pub(crate) fn one_stop_out(rng: &mut Rng) -> bool {
    one_turn_out(rng, |rng, ways| {
        let one: Vec<usize> = (0..ways.len())
            .filter(|i| ways[*i].cylinder.is_some())
            .collect();
        one[rng.usize(..one.len())]
    })
}

/// All lashes changed alike.
pub(crate) fn shift_all(drawn: &mut Drawn, by: f64) {
    for (_, lash) in &mut drawn.lashes {
        *lash += by;
    }
}

/// Valves held off their base circle show no gap.
pub(crate) fn lift(drawn: &mut Drawn, lifted: &[ValveId]) {
    for (valve, lash) in &mut drawn.lashes {
        if lifted.contains(valve) {
            *lash = 0.0;
        }
    }
}

pub(crate) fn not_cold(rng: &mut Rng) -> bool {
    let (mut drawn, leaves) = healthy(rng, APART_10, &SIZES[1..]);
    let shift = if rng.bool() { 0.12 } else { -0.12 };
    shift_all(&mut drawn, shift);
    let evidence = evidence(&drawn, &leaves, LengthUnit::Millimetre);
    ask(
        &evidence,
        ReadingFault::NotCold,
        |w| matches!(w, Way::NotCold(by) if by.mm() * shift > 0.0),
    )
}

pub(crate) fn unlike(rng: &mut Rng, off: f64, kind: ValveKind) -> bool {
    let (mut drawn, leaves) = healthy(rng, APART_20, &SIZES);
    let of_kind: Vec<usize> = (0..drawn.lashes.len())
        .filter(|i| drawn.lashes[*i].0.kind == kind)
        .collect();
    let i = of_kind[rng.usize(..of_kind.len())];
    drawn.lashes[i].1 += off;
    let found = diagnose(&evidence(&drawn, &leaves, LengthUnit::Millimetre)).unwrap();
    // Named, the right way, and not taken for something that concerns all.
    let named = found.odd_valves.first();
    named.is_some_and(|odd| odd.reading == i && odd.is_looser() == (off > 0.0))
        && found.status == Status::OddValves
}

pub(crate) fn one_loose(rng: &mut Rng) -> bool {
    unlike(rng, 0.30, ValveKind::Intake)
}

pub(crate) fn one_shut(rng: &mut Rng) -> bool {
    unlike(rng, -0.35, ValveKind::Exhaust)
}

/// All screws set with thousandths of an inch taken for hundredths of a millimetre, or the reverse.
pub(crate) fn set_wrong(rng: &mut Rng) -> bool {
    let (mut drawn, leaves) = healthy(rng, APART_10, &SIZES);
    let times = if rng.bool() { 2.54 } else { 1.0 / 2.54 };
    for (_, lash) in &mut drawn.lashes {
        *lash *= times;
    }
    let evidence = evidence(&drawn, &leaves, LengthUnit::Millimetre);
    ask(&evidence, ReadingFault::UnitSlipAll, |_| true)
}

/// Every planted fault with its size.
pub(crate) const TRIALS: [(&str, Trial); 13] = [
    ("unit slip, one reading: inch number as mm", slip_one),
    ("unit slip, one reading: mm number as inch", slip_one_inch),
    ("unit slip, all: thousandths as hundredths", slip_all),
    ("all screws set 2.54 times wrong", set_wrong),
    ("exchanged, all; kinds 0.10 mm apart", swapped_all),
    ("exchanged, one cylinder; 0.20 mm apart", swapped_cylinder),
    ("another source fits, 0.10 mm away", other_specification),
    ("one turn out, all stops", all_stops_out),
    ("one turn out, two-position table", table_out),
    ("one turn out, one cylinder's stop", one_stop_out),
    ("not cold, all moved by 0.12 mm", not_cold),
    ("one intake loose by 0.30 mm", one_loose),
    ("one exhaust closed up by 0.35 mm", one_shut),
];
