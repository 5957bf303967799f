//! Log-likelihood tables: every reading at every drift, in each role a way may give it.

use super::evidence::{Seen, Source};
use super::likelihood::{Gap, ln_add};
use super::marginal::{Grid, part};
use super::model::{KindModel, Model};
use super::reading_fault::Slip;
use super::role::{Follows, Role};
use crate::valve::{ValveId, ValveKind};
use alloc::vec::Vec;
use core::ops::Range;

/// One reading: its log-likelihood at every drift, as an ordinary valve of its kind and otherwise.
pub(super) struct Row {
    pub(super) valve: ValveId,
    gap: Gap,
    /// As an ordinary valve of its kind.
    plain: Vec<f64>,
    /// As an ordinary valve of the other kind.
    swapped: Vec<f64>,
    /// With either slip of the unit; at the nodes without a shift alone, as the next.
    slipped: [Vec<f64>; 2],
    /// As a valve set too wide and too tight by thousandths of an inch for hundredths of a millimetre.
    set_wrong: [Vec<f64>; 2],
    /// As an odd valve, wherever its kind has drifted.
    odd: f64,
}

/// The readings if ordinary valves spread so many times as wide as the band says.
pub(super) struct Spread {
    pub(super) ln_prior: f64,
    pub(super) times: f64,
    pub(super) grid: Grid,
    pub(super) rows: Vec<Row>,
}

/// The other kind of valve.
const fn other(kind: ValveKind) -> ValveKind {
    match kind {
        ValveKind::Intake => ValveKind::Exhaust,
        ValveKind::Exhaust => ValveKind::Intake,
    }
}

impl Row {
    /// A reading under a source; `believed` has the tables that ways need, another source none.
    pub(super) fn of(
        seen: &Seen,
        source: &Source,
        model: &Model,
        grid: &Grid,
        believed: bool,
    ) -> Self {
        let felt = Gap::felt(&seen.felt);
        let kind = model.kind(seen.valve.kind);
        let table = |gap: &Gap, kind: &KindModel| -> Vec<f64> {
            let nodes = grid.nodes();
            nodes.map(kind.ln_ordinary_of(gap)).collect()
        };
        let unshifted = grid.about(0);
        let needed = |gap: &Gap, kind: &KindModel| -> Vec<f64> {
            if !believed {
                return Vec::new();
            }
            let nodes = grid.nodes().skip(unshifted.start);
            let nodes = nodes.take(unshifted.len());
            nodes.map(kind.ln_ordinary_of(gap)).collect()
        };
        let gap = felt.less(source.warmth);
        let hundredths = Slip::ThousandthsHundredths.factor(seen.marked_in);
        let wide = hundredths.max(1.0 / hundredths);
        Self {
            valve: seen.valve,
            plain: table(&gap, kind),
            swapped: if believed {
                table(&gap, model.kind(other(seen.valve.kind)))
            } else {
                Vec::new()
            },
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

    /// Its log-likelihoods in the role of an ordinary valve at every node, where a share of the valves is odd.
    pub(super) fn plain(&self, share: f64) -> Vec<f64> {
        self.with_odd(&self.plain, share)
    }

    fn with_odd(&self, table: &[f64], share: f64) -> Vec<f64> {
        if share <= 0.0 {
            return table.to_vec();
        }
        let (ln_rest, ln_odd) = (libm::log(1.0 - share), libm::log(share) + self.odd);
        let each = table.iter().map(|ln| ln_add(ln_rest + ln, ln_odd));
        each.collect()
    }

    /// The kind it drifts with in a role, and its log-likelihoods at some of the nodes; `plain` are those of
    /// an ordinary valve there. Of numbers that slipped and of screws set wrong only drifts without a shift
    /// are known.
    pub(super) fn terms(
        &self,
        role: Role,
        share: f64,
        nodes: &Range<usize>,
        plain: &[f64],
    ) -> (ValveKind, Vec<f64>) {
        let [same, hundredths] = &self.slipped;
        let [wide, tight] = &self.set_wrong;
        let own = self.valve.kind;
        let with_odd = |table: &[f64]| self.with_odd(table, share);
        let (kind, mut terms) = match role.follows {
            Follows::Own => (own, plain.to_vec()),
            Follows::OtherKind => (other(own), with_odd(part(&self.swapped, nodes))),
            Follows::Slipped(Slip::SameNumber) => (own, with_odd(same)),
            Follows::Slipped(Slip::ThousandthsHundredths) => (own, with_odd(hundredths)),
            Follows::SetWrong { wider: true } => (own, with_odd(wide)),
            Follows::SetWrong { wider: false } => (own, with_odd(tight)),
        };
        if role.lifted {
            let lifted = KindModel::ln_lifted_of(&self.gap);
            for ln in &mut terms {
                *ln = lifted(*ln);
            }
        }
        (kind, terms)
    }

    /// The probability that it is odd at every drift, where such a share of the valves is; `terms` are
    /// its own.
    pub(super) fn odd<'t>(&self, terms: &'t [f64], share: f64) -> impl Iterator<Item = f64> + 't {
        let ln_odd = libm::log(share) + self.odd;
        terms.iter().map(move |ln| libm::exp(ln_odd - ln))
    }
}
