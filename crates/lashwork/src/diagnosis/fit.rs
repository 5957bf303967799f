//! All readings under one source: log-likelihood tables for every spread the engine's ordinary valves
//! may have, and what each way changes in them.

use super::evidence::{Evidence, Seen, Source};
use super::likelihood::{Gap, ln_add, ln_sum};
use super::marginal::{Grid, Sums, shared_shift};
use super::model::{KindModel, Model, ODD_SHARES, SEVERAL_SHARE, SPREADS, warmth_shift};
use super::reading_fault::{Slip, Way};
use crate::engine::CylinderIndex;
use crate::valve::{ValveId, ValveKind};
use alloc::vec::Vec;

/// One reading: its log-likelihood at every drift, as an ordinary valve of its kind and otherwise.
struct Row {
    valve: ValveId,
    gap: Gap,
    /// As an ordinary valve of its kind.
    plain: Vec<f64>,
    /// As an ordinary valve of the other kind.
    swapped: Vec<f64>,
    /// With either slip of the unit.
    slipped: [Vec<f64>; 2],
    /// As a valve set too wide and too tight by thousandths of an inch for hundredths of a millimetre.
    set_wrong: [Vec<f64>; 2],
    /// As an odd valve, wherever its kind has drifted.
    odd: f64,
}

/// The readings if ordinary valves spread so many times as wide as the band says.
struct Spread {
    ln_prior: f64,
    times: f64,
    model: Model,
    grid: Grid,
    rows: Vec<Row>,
}

/// What a way makes of one reading.
struct Change {
    reading: usize,
    kind: ValveKind,
    terms: Vec<f64>,
}

/// A spread with a share of odd valves.
struct Population {
    /// The place of its spread.
    spread: usize,
    share: f64,
    /// The logarithm of the prior of both.
    ln_prior: f64,
    /// Each reading as a valve of its kind.
    plain: Vec<Vec<f64>>,
    sums: Sums,
}

/// All readings compared with one source.
pub(super) struct Fit {
    /// With the spread the band says.
    pub(super) model: Model,
    spreads: Vec<Spread>,
    /// Every spread, without odd valves and with some.
    ordinary: Vec<Population>,
    /// Every spread with so many odd valves that no single cause is left.
    in_disarray: Vec<Population>,
    /// What is known of a reading whatever the spread.
    closed: Vec<(bool, bool)>,
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

/// A log-likelihood if a share of the valves is odd, for one reading.
fn with_odd(odd: f64, share: f64) -> impl Fn(f64) -> f64 {
    let (ln_rest, ln_odd) = (libm::log(1.0 - share), libm::log(share) + odd);
    move |ln| {
        if share > 0.0 {
            ln_add(ln_rest + ln, ln_odd)
        } else {
            ln
        }
    }
}

impl Row {
    fn terms(&self, table: &[f64], share: f64) -> Vec<f64> {
        let with_odd = with_odd(self.odd, share);
        table.iter().map(|ln| with_odd(*ln)).collect()
    }
}

impl Population {
    fn of(place: usize, spread: &Spread, share: f64, ln_prior: f64) -> Self {
        let rows = spread.rows.iter();
        let plain: Vec<Vec<f64>> = rows.map(|row| row.terms(&row.plain, share)).collect();
        let mut sums = Sums::zero(spread.grid.nodes().count());
        for (row, terms) in spread.rows.iter().zip(&plain) {
            sums.add(row.valve.kind, terms, 1.0);
        }
        Self {
            spread: place,
            share,
            ln_prior,
            plain,
            sums,
        }
    }

    fn changed(&self, spread: &Spread, changes: &[Change]) -> Sums {
        let mut sums = self.sums.clone();
        for change in changes {
            let row = spread.rows.get(change.reading);
            if let (Some(row), Some(plain)) = (row, self.plain.get(change.reading)) {
                sums.add(row.valve.kind, plain, -1.0);
                sums.add(change.kind, &change.terms, 1.0);
            }
        }
        sums
    }

    /// The logarithm of prior times marginal likelihood.
    fn ln_marginal(&self, spread: &Spread, changes: &[Change]) -> f64 {
        self.ln_prior + self.changed(spread, changes).ln_marginal(spread.grid)
    }

    /// The same without each reading in turn.
    fn without_each(&self, spread: &Spread, changes: &[Change]) -> Vec<f64> {
        let sums = self.changed(spread, changes);
        let [intake, exhaust] =
            [ValveKind::Intake, ValveKind::Exhaust].map(|kind| sums.ln_of_kind(kind, spread.grid));
        let rows = spread.rows.iter().zip(&self.plain).enumerate();
        rows.map(|(i, (row, plain))| {
            let change = changes.iter().find(|change| change.reading == i);
            let (kind, terms) = change.map_or((row.valve.kind, plain), |c| (c.kind, &c.terms));
            // Only its own kind changes.
            let mut rest = sums.clone();
            rest.add(kind, terms, -1.0);
            let own = rest.ln_of_kind(kind, spread.grid);
            let others = match kind {
                ValveKind::Intake => exhaust,
                ValveKind::Exhaust => intake,
            };
            self.ln_prior + own + others
        })
        .collect()
    }

    /// The readings that a way changes.
    fn changes(&self, spread: &Spread, evidence: &Evidence, way: &Way) -> Vec<Change> {
        let rows = spread.rows.iter().zip(&evidence.readings).enumerate();
        let of = |keep: &dyn Fn(usize, &Row, &Seen) -> bool,
                  kind: &dyn Fn(ValveKind) -> ValveKind,
                  terms: &dyn Fn(&Row) -> Vec<f64>| {
            rows.clone()
                .filter(|(i, (row, seen))| keep(*i, row, seen))
                .map(|(reading, (row, _))| Change {
                    reading,
                    kind: kind(row.valve.kind),
                    terms: terms(row),
                })
                .collect()
        };
        let own = |kind| kind;
        let slipped = |slip: Slip| move |row: &Row| row.terms(row.slip(slip), self.share);
        let swapped = |row: &Row| row.terms(&row.swapped, self.share);
        match way {
            Way::SlipOne { reading, slip } => of(&|i, _, _| i == *reading, &own, &slipped(*slip)),
            Way::SlipAll { inches, slip } => of(
                &|_, _, seen| seen.in_inches() == *inches,
                &own,
                &slipped(*slip),
            ),
            Way::SetAll { wider } => of(&|_, _, _| true, &own, &|row| {
                let [wide, tight] = &row.set_wrong;
                row.terms(if *wider { wide } else { tight }, self.share)
            }),
            Way::SwappedAll => of(&|_, _, _| true, &other, &swapped),
            Way::SwappedCylinder(cylinder) => of(
                &|_, row, _| row.valve.cylinder == *cylinder,
                &other,
                &swapped,
            ),
            Way::WrongStroke(at) => {
                let lifted = evidence.one_turn_out.get(*at).map(|t| t.lifted.as_slice());
                of(
                    &|_, row, _| lifted.is_some_and(|all| all.contains(&row.valve)),
                    &own,
                    &|row| {
                        let plain = row.terms(&row.plain, self.share);
                        let each = plain.iter().map(|p| KindModel::ln_lifted(&row.gap, *p));
                        each.collect()
                    },
                )
            }
            Way::OtherSource(_) | Way::NotCold(_) | Way::Several => Vec::new(),
        }
    }
}

impl Row {
    const fn slip(&self, slip: Slip) -> &Vec<f64> {
        let [same, hundredths] = &self.slipped;
        match slip {
            Slip::SameNumber => same,
            Slip::ThousandthsHundredths => hundredths,
        }
    }
}

impl Fit {
    /// The readings under a source; `believed` has the tables that ways need, another source none.
    pub(super) fn of(readings: &[Seen], source: &Source, model: Model, believed: bool) -> Self {
        let spreads: Vec<Spread> = SPREADS
            .iter()
            .map(|(times, prior)| {
                let wider = model.spread_by(*times);
                let grid = Grid::of(&wider, readings.len());
                let rows = readings.iter();
                Spread {
                    ln_prior: libm::log(*prior),
                    times: *times,
                    rows: rows
                        .map(|seen| row(seen, source, &wider, grid, believed))
                        .collect(),
                    model: wider,
                    grid,
                }
            })
            .collect();
        let closed = readings
            .iter()
            .map(|seen| (Gap::felt(&seen.felt).is_closed(), seen.in_inches()));
        let populations = |shares: &[(f64, f64)]| -> Vec<Population> {
            let each = spreads.iter().enumerate().flat_map(|(i, spread)| {
                shares.iter().map(move |(share, prior)| {
                    let ln_prior = spread.ln_prior + libm::log(*prior);
                    Population::of(i, spread, *share, ln_prior)
                })
            });
            each.collect()
        };
        let mut fit = Self {
            model,
            closed: closed.collect(),
            ordinary: populations(&ODD_SHARES),
            in_disarray: if believed {
                populations(&[(SEVERAL_SHARE, 1.0)])
            } else {
                Vec::new()
            },
            spreads,
            ln_nothing: 0.0,
        };
        fit.ln_nothing = fit.sum(&fit.ordinary, |_, _| Vec::new());
        fit
    }

    /// The logarithm of the marginal likelihood over populations that a way changes.
    fn sum(
        &self,
        populations: &[Population],
        changes: impl Fn(&Population, &Spread) -> Vec<Change>,
    ) -> f64 {
        let each = self.with_spread(populations);
        let each: Vec<f64> = each
            .map(|(p, spread)| p.ln_marginal(spread, &changes(p, spread)))
            .collect();
        ln_sum(each.into_iter())
    }

    fn with_spread<'f>(
        &'f self,
        populations: &'f [Population],
    ) -> impl Iterator<Item = (&'f Population, &'f Spread)> {
        let each = populations.iter();
        each.filter_map(|p| Some((p, self.spreads.get(p.spread)?)))
    }

    /// The logarithm of the marginal likelihood of the readings if this way holds; not for another
    /// source, which has a fit of its own, nor for warmth.
    pub(super) fn ln_marginal(&self, evidence: &Evidence, way: &Way) -> f64 {
        if *way == Way::Several {
            return self.sum(&self.in_disarray, |_, _| Vec::new());
        }
        self.sum(&self.ordinary, |p, spread| p.changes(spread, evidence, way))
    }

    /// The logarithm of the marginal likelihood if all lashes are changed by temperature, and by how much.
    pub(super) fn warm(&self, evidence: &Evidence) -> (f64, f64) {
        let (mean, spread) = warmth_shift(evidence.warming);
        let each: Vec<(f64, f64)> = self
            .with_spread(&self.ordinary)
            .map(|(p, all)| {
                let of_kind = |kind| {
                    let rows = all.rows.iter().filter(move |r| r.valve.kind == kind);
                    let each: Vec<_> = rows
                        .map(|r| {
                            let ordinary = all.model.kind(kind).ln_ordinary_of(&r.gap);
                            let with_odd = with_odd(r.odd, p.share);
                            move |drift| with_odd(ordinary(drift))
                        })
                        .collect();
                    move |drift| each.iter().map(|ln| ln(drift)).sum()
                };
                let (intake, exhaust) = (of_kind(ValveKind::Intake), of_kind(ValveKind::Exhaust));
                let (ln, shift) = shared_shift(all.grid, mean, spread, |d| (intake(d), exhaust(d)));
                (p.ln_prior + ln, shift)
            })
            .collect();
        let all = ln_sum(each.iter().map(|(ln, _)| *ln));
        let shift = each.iter().map(|(ln, by)| by * libm::exp(ln - all)).sum();
        (all, shift)
    }

    /// How many times as wide as the band says the ordinary valves of this engine spread, on the mean.
    pub(super) fn spread_times(&self) -> f64 {
        let each = self.with_spread(&self.ordinary);
        each.map(|(p, spread)| {
            spread.times * libm::exp(p.ln_marginal(spread, &[]) - self.ln_nothing)
        })
        .sum()
    }

    /// How much each reading speaks for a way against 'no systematic fault', given all other readings:
    /// natural logarithms.
    pub(super) fn support(&self, evidence: &Evidence, way: &Way) -> Vec<f64> {
        if let Way::NotCold(shift) = way {
            let shift = shift.mm();
            let rows = self.spreads.first().into_iter().flat_map(|s| &s.rows);
            return rows
                .map(|r| {
                    let kind = self.model.kind(r.valve.kind);
                    kind.ln_ordinary(&r.gap, shift) - kind.ln_ordinary(&r.gap, 0.0)
                })
                .collect();
        }
        let with = if *way == Way::Several {
            self.given_the_rest(&self.in_disarray, |_, _| Vec::new())
        } else {
            self.given_the_rest(&self.ordinary, |p, spread| p.changes(spread, evidence, way))
        };
        let without = self.predicted();
        with.iter().zip(without).map(|(a, b)| a - b).collect()
    }

    /// The logarithm of the probability of each reading given all others.
    pub(super) fn predicted(&self) -> Vec<f64> {
        self.given_the_rest(&self.ordinary, |_, _| Vec::new())
    }

    fn given_the_rest(
        &self,
        populations: &[Population],
        changes: impl Fn(&Population, &Spread) -> Vec<Change>,
    ) -> Vec<f64> {
        let each: Vec<(f64, Vec<f64>)> = self
            .with_spread(populations)
            .map(|(p, spread)| {
                let changes = changes(p, spread);
                (
                    p.ln_marginal(spread, &changes),
                    p.without_each(spread, &changes),
                )
            })
            .collect();
        let all = ln_sum(each.iter().map(|(ln, _)| *ln));
        let count = each.first().map_or(0, |(_, rest)| rest.len());
        (0..count)
            .map(|i| all - ln_sum(each.iter().filter_map(|(_, rest)| rest.get(i)).copied()))
            .collect()
    }

    /// Which cylinders have a reading.
    pub(super) fn cylinders(&self) -> Vec<CylinderIndex> {
        let rows = self.spreads.first().into_iter().flat_map(|s| &s.rows);
        let mut cylinders: Vec<CylinderIndex> = rows.map(|r| r.valve.cylinder).collect();
        cylinders.sort();
        cylinders.dedup();
        cylinders
    }

    /// The readings with both ends, of all units or of those marked in inches or not.
    pub(super) fn closed(&self, inches: Option<bool>) -> impl Iterator<Item = usize> + '_ {
        let rows = self.closed.iter().enumerate();
        rows.filter(move |(_, (closed, inch))| *closed && inches.is_none_or(|i| i == *inch))
            .map(|(i, _)| i)
    }
}

fn row(seen: &Seen, source: &Source, model: &Model, grid: Grid, believed: bool) -> Row {
    let felt = Gap::felt(&seen.felt);
    let kind = model.kind(seen.valve.kind);
    let table = |gap: &Gap, kind: &KindModel| -> Vec<f64> {
        let nodes = grid.nodes();
        nodes.map(kind.ln_ordinary_of(gap)).collect()
    };
    let needed = |gap: &Gap, kind: &KindModel| {
        if believed {
            table(gap, kind)
        } else {
            Vec::new()
        }
    };
    let gap = felt.less(source.warmth);
    let hundredths = Slip::ThousandthsHundredths.factor(seen.marked_in);
    let wide = hundredths.max(1.0 / hundredths);
    Row {
        valve: seen.valve,
        plain: table(&gap, kind),
        swapped: needed(&gap, model.kind(other(seen.valve.kind))),
        slipped: Slip::BOTH.map(|slip| {
            // Of a leaf that would not go at all, or of one with nothing beyond, the number hardly
            // matters: it would fit any slip.
            let times = if felt.is_closed() {
                felt.times(slip.factor(seen.marked_in))
            } else {
                felt
            };
            needed(&times.less(source.warmth), kind)
        }),
        // A screw set wrong leaves a true gap, so a reading with one end says what it says.
        set_wrong: [wide, 1.0 / wide].map(|times| needed(&gap, &kind.set_to_times(times))),
        odd: kind.ln_odd(&gap),
        gap,
    }
}
