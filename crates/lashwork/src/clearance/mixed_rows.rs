//! A stretch of rows of which some are judged alone.

use super::ClearanceError;
use super::reading_rows::{ReadingRow, ReadingRows};
use crate::statistics::{LANES, Lane};
use alloc::vec::Vec;

/// Columns that are held, to put single rows in.
pub(super) struct MixedRows {
    verdict: [u8; LANES],
    provable: [bool; LANES],
    probabilities: [Lane; 6],
    ends: [Lane; 3],
    at_reference: [bool; LANES],
    refused: Vec<(usize, ClearanceError)>,
}

impl MixedRows {
    /// With all rows as they came side by side.
    pub(super) fn of(rows: &ReadingRows<'_>) -> Self {
        Self {
            verdict: *rows.verdict,
            provable: *rows.provable,
            probabilities: rows.probabilities.map(|column| *column),
            ends: [*rows.low, *rows.high, *rows.u],
            at_reference: *rows.at_reference,
            refused: Vec::new(),
        }
    }

    /// Puts one row in its place, or refuses it.
    #[expect(clippy::indexing_slicing, reason = "a place of so many")]
    pub(super) fn put(
        &mut self,
        at: usize,
        row: usize,
        judged: Result<ReadingRow, ClearanceError>,
    ) {
        let judged = judged.unwrap_or_else(|why| {
            self.refused.push((row, why));
            ReadingRow::REFUSED
        });
        self.verdict[at] = judged.judged.verdict;
        self.provable[at] = judged.judged.provable;
        let chances = self
            .probabilities
            .iter_mut()
            .zip(judged.judged.probabilities);
        let ends = self
            .ends
            .iter_mut()
            .zip([judged.low, judged.high, judged.u]);
        for (column, number) in chances.chain(ends) {
            column[at] = number;
        }
        self.at_reference[at] = judged.at_reference;
    }

    /// To be written.
    pub(super) fn lent(&self, from: usize, count: usize) -> ReadingRows<'_> {
        let [low, high, u] = &self.ends;
        ReadingRows {
            from,
            count,
            verdict: &self.verdict,
            provable: &self.provable,
            probabilities: self.probabilities.each_ref(),
            low,
            high,
            u,
            at_reference: &self.at_reference,
            refused: &self.refused,
        }
    }
}
