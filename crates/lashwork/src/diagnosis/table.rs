//! Log-likelihood tables: every reading at every drift, in each role a way may give it.

use super::evidence::{Seen, Source};
use super::likelihood::{Gap, ln_add};
use super::marginal::Grid;
use super::model::{KindModel, Model};
use super::reading_fault::Slip;
use super::role::{Follows, Role};
use crate::valve::{ValveId, ValveKind};
use alloc::vec::Vec;

/// One reading: its log-likelihood at every drift, as an ordinary valve of its kind and otherwise.
pub(super) struct Row {
    pub(super) valve: ValveId,
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
        Self {
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

    /// The kind it drifts with in a role, and its log-likelihoods where a share of the valves is odd.
    pub(super) fn terms(&self, role: Role, share: f64) -> (ValveKind, Vec<f64>) {
        let [same, hundredths] = &self.slipped;
        let [wide, tight] = &self.set_wrong;
        let own = self.valve.kind;
        let (kind, table) = match role.follows {
            Follows::Own => (own, &self.plain),
            Follows::OtherKind => (other(own), &self.swapped),
            Follows::Slipped(Slip::SameNumber) => (own, same),
            Follows::Slipped(Slip::ThousandthsHundredths) => (own, hundredths),
            Follows::SetWrong { wider: true } => (own, wide),
            Follows::SetWrong { wider: false } => (own, tight),
        };
        let (ln_rest, ln_odd) = (libm::log(1.0 - share), libm::log(share) + self.odd);
        let each = table.iter().map(|ln| {
            let ln = if share > 0.0 {
                ln_add(ln_rest + ln, ln_odd)
            } else {
                *ln
            };
            if role.lifted {
                KindModel::ln_lifted(&self.gap, ln)
            } else {
                ln
            }
        });
        (kind, each.collect())
    }

    /// The probability that it is odd at every drift, where such a share of the valves is; `terms` are
    /// its own.
    pub(super) fn odd<'t>(&self, terms: &'t [f64], share: f64) -> impl Iterator<Item = f64> + 't {
        let ln_odd = libm::log(share) + self.odd;
        terms.iter().map(move |ln| libm::exp(ln_odd - ln))
    }
}
