//! Log-likelihood tables of all readings under one source, and what each way changes in them.

use super::evidence::{Evidence, Seen, Source};
use super::likelihood::Gap;
use super::marginal::{Grid, Sums, shared_shift};
use super::model::{KindModel, Model, warmth_shift};
use super::reading_fault::{Slip, Way};
use crate::engine::CylinderIndex;
use crate::valve::{ValveId, ValveKind};
use alloc::vec::Vec;

/// One reading: its log-likelihood at every drift, as an ordinary valve of its kind and otherwise.
struct Row {
    valve: ValveId,
    inches: bool,
    gap: Gap,
    /// As an ordinary valve of its kind.
    plain: Vec<f64>,
    /// As an ordinary valve of the other kind.
    swapped: Vec<f64>,
    /// With either slip of the unit.
    slipped: [Vec<f64>; 2],
    /// As an outlier valve.
    unlike: f64,
}

/// What a way makes of one reading.
struct Change<'f> {
    reading: usize,
    kind: ValveKind,
    terms: Terms<'f>,
}

enum Terms<'f> {
    Table(&'f [f64]),
    Made(Vec<f64>),
}

impl Terms<'_> {
    fn list(&self) -> &[f64] {
        match self {
            Self::Table(list) => list,
            Self::Made(list) => list,
        }
    }
}

/// All readings compared with one source.
pub(super) struct Fit {
    pub(super) model: Model,
    grid: Grid,
    rows: Vec<Row>,
    sums: Sums,
    /// The logarithm of the marginal likelihood of 'no systematic fault'.
    pub(super) ln_nothing: f64,
}

/// The other kind of valve.
const fn other(kind: ValveKind) -> ValveKind {
    match kind {
        ValveKind::Intake => ValveKind::Exhaust,
        ValveKind::Exhaust => ValveKind::Intake,
    }
}

impl Fit {
    pub(super) fn of(readings: &[Seen], source: &Source, model: Model) -> Self {
        let grid = Grid::of(&model, readings.len());
        let rows: Vec<Row> = readings
            .iter()
            .map(|seen| row(seen, source, &model, grid))
            .collect();
        let mut sums = Sums::zero(grid.nodes().count());
        for row in &rows {
            sums.add(row.valve.kind, &row.plain, 1.0);
        }
        let ln_nothing = sums.ln_marginal(grid);
        Self {
            model,
            grid,
            rows,
            sums,
            ln_nothing,
        }
    }

    /// The logarithm of the marginal likelihood of the readings if this way holds; not for another
    /// source, which has a fit of its own, nor for warmth.
    pub(super) fn ln_marginal(&self, evidence: &Evidence, way: &Way) -> f64 {
        self.changed(&self.changes(evidence, way))
            .ln_marginal(self.grid)
    }

    /// The logarithm of the marginal likelihood if all lashes are changed by temperature, and by how much.
    pub(super) fn warm(&self, evidence: &Evidence) -> (f64, f64) {
        let (mean, spread) = warmth_shift(evidence.warming);
        shared_shift(self.grid, mean, spread, |drift| {
            let of = |kind| {
                let rows = self.rows.iter().filter(|r| r.valve.kind == kind);
                rows.map(|r| self.model.kind(kind).ln_ordinary(&r.gap, drift))
                    .sum()
            };
            (of(ValveKind::Intake), of(ValveKind::Exhaust))
        })
    }

    /// How much each reading speaks for a way against 'no systematic fault', given all other readings:
    /// natural logarithms.
    pub(super) fn support(&self, evidence: &Evidence, way: &Way) -> Vec<f64> {
        if let Way::NotCold(shift) = way {
            let shift = shift.mm();
            return self
                .rows
                .iter()
                .map(|r| {
                    let kind = self.model.kind(r.valve.kind);
                    kind.ln_ordinary(&r.gap, shift) - kind.ln_ordinary(&r.gap, 0.0)
                })
                .collect();
        }
        let changes = self.changes(evidence, way);
        let sums = self.changed(&changes);
        let with = self.given_the_rest(&sums, &changes);
        let without = self.given_the_rest(&self.sums, &[]);
        with.iter().zip(without).map(|(a, b)| a - b).collect()
    }

    /// The logarithm of the probability of each reading given all others.
    pub(super) fn predicted(&self) -> Vec<f64> {
        self.given_the_rest(&self.sums, &[])
    }

    fn given_the_rest(&self, sums: &Sums, changes: &[Change<'_>]) -> Vec<f64> {
        let all = sums.ln_marginal(self.grid);
        let rows = self.rows.iter().enumerate();
        rows.map(|(i, row)| {
            let change = changes.iter().find(|c| c.reading == i);
            let (kind, terms) = change.map_or((row.valve.kind, row.plain.as_slice()), |c| {
                (c.kind, c.terms.list())
            });
            let mut rest = sums.clone();
            rest.add(kind, terms, -1.0);
            all - rest.ln_marginal(self.grid)
        })
        .collect()
    }

    fn changed(&self, changes: &[Change<'_>]) -> Sums {
        let mut sums = self.sums.clone();
        for change in changes {
            if let Some(row) = self.rows.get(change.reading) {
                sums.add(row.valve.kind, &row.plain, -1.0);
                sums.add(change.kind, change.terms.list(), 1.0);
            }
        }
        sums
    }

    fn changes(&self, evidence: &Evidence, way: &Way) -> Vec<Change<'_>> {
        let swap = |i: usize, row: &'_ Row| (i, other(row.valve.kind));
        let rows = self.rows.iter().enumerate();
        match way {
            Way::SlipOne { reading, slip } => rows
                .filter(|(i, _)| i == reading)
                .map(|(i, row)| slipped(i, row, *slip))
                .collect(),
            Way::SlipAll { inches, slip } => rows
                .filter(|(_, row)| row.inches == *inches)
                .map(|(i, row)| slipped(i, row, *slip))
                .collect(),
            Way::SwappedAll => rows.map(|(i, row)| exchanged(swap(i, row), row)).collect(),
            Way::SwappedCylinder(cylinder) => rows
                .filter(|(_, row)| row.valve.cylinder == *cylinder)
                .map(|(i, row)| exchanged(swap(i, row), row))
                .collect(),
            Way::WrongStroke(at) => {
                let lifted = evidence.one_turn_out.get(*at).map(|t| t.lifted.as_slice());
                rows.filter(|(_, row)| lifted.is_some_and(|all| all.contains(&row.valve)))
                    .map(|(reading, row)| {
                        let terms = row.plain.iter().map(|p| KindModel::ln_lifted(&row.gap, *p));
                        Change {
                            reading,
                            kind: row.valve.kind,
                            terms: Terms::Made(terms.collect()),
                        }
                    })
                    .collect()
            }
            Way::Unlike(reading) => rows
                .filter(|(i, _)| i == reading)
                .map(|(reading, row)| Change {
                    reading,
                    kind: row.valve.kind,
                    terms: Terms::Made(alloc::vec![row.unlike; row.plain.len()]),
                })
                .collect(),
            Way::OtherSource(_) | Way::NotCold(_) => Vec::new(),
        }
    }

    /// Which cylinders have a reading.
    pub(super) fn cylinders(&self) -> Vec<CylinderIndex> {
        let mut cylinders: Vec<CylinderIndex> =
            self.rows.iter().map(|r| r.valve.cylinder).collect();
        cylinders.sort();
        cylinders.dedup();
        cylinders
    }

    /// The readings with both ends, of all units or of those marked in inches or not.
    pub(super) fn closed(&self, inches: Option<bool>) -> impl Iterator<Item = usize> + '_ {
        let rows = self.rows.iter().enumerate();
        rows.filter(move |(_, r)| r.gap.is_closed() && inches.is_none_or(|i| i == r.inches))
            .map(|(i, _)| i)
    }
}

fn exchanged(at: (usize, ValveKind), row: &Row) -> Change<'_> {
    Change {
        reading: at.0,
        kind: at.1,
        terms: Terms::Table(&row.swapped),
    }
}

fn slipped(reading: usize, row: &Row, slip: Slip) -> Change<'_> {
    let [same, hundredths] = &row.slipped;
    Change {
        reading,
        kind: row.valve.kind,
        terms: Terms::Table(match slip {
            Slip::SameNumber => same,
            Slip::ThousandthsHundredths => hundredths,
        }),
    }
}

fn row(seen: &Seen, source: &Source, model: &Model, grid: Grid) -> Row {
    let felt = Gap::felt(&seen.felt);
    let kind = model.kind(seen.valve.kind);
    let table = |gap: &Gap, kind: &KindModel| -> Vec<f64> {
        grid.nodes()
            .map(|drift| kind.ln_ordinary(gap, drift))
            .collect()
    };
    let gap = felt.less(source.warmth);
    Row {
        valve: seen.valve,
        inches: seen.in_inches(),
        plain: table(&gap, kind),
        swapped: table(&gap, model.kind(other(seen.valve.kind))),
        slipped: Slip::BOTH.map(|slip| {
            // Of a leaf that would not go at all, or of one with nothing beyond, the number hardly
            // matters: it would fit any slip.
            let times = if felt.is_closed() {
                felt.times(slip.factor(seen.marked_in))
            } else {
                felt
            };
            table(&times.less(source.warmth), kind)
        }),
        unlike: kind.ln_unlike(&gap),
        gap,
    }
}
