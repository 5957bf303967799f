//! A printed table with a least and a most column, read in straight lines between its rows.

use super::TimingError;
use alloc::vec::Vec;

/// One row: where, and the least and the most there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Row {
    pub x: f64,
    pub least: f64,
    pub most: f64,
}

/// What a table says at a place, and the steepest it is there, of both columns and either side of a row.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct At {
    pub least: f64,
    pub most: f64,
    pub slope: f64,
}

impl At {
    pub(super) fn middle(self) -> f64 {
        f64::midpoint(self.least, self.most)
    }

    /// Whether it is anything but nothing.
    pub(super) fn acts(self) -> bool {
        self.most > 0.0 || self.least < 0.0
    }

    pub(super) fn half(self) -> f64 {
        (self.most - self.least) / 2.0
    }
}

/// A table whose places rise and whose columns do not fall.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Piecewise {
    rows: Vec<Row>,
    ends: bool,
    what: &'static str,
    unit: &'static str,
}

impl Piecewise {
    pub(super) const MOST_ROWS: usize = 100;

    pub(super) fn new(
        rows: Vec<Row>,
        ends: bool,
        what: &'static str,
        unit: &'static str,
    ) -> Result<Self, TimingError> {
        if rows.is_empty() || rows.len() > Self::MOST_ROWS {
            return Err(TimingError::CurveRows {
                what,
                got: rows.len(),
            });
        }
        for (point, row) in (1..).zip(&rows) {
            // Written so that what is no number is refused.
            let in_order = row.least >= 0.0 && row.least <= row.most;
            if !in_order {
                return Err(TimingError::CurveColumns {
                    what,
                    point,
                    least: row.least,
                    most: row.most,
                });
            }
        }
        for (point, pair) in (2..).zip(rows.windows(2)) {
            let [before, row] = pair else { continue };
            if row.x <= before.x {
                return Err(TimingError::CurveNotRising {
                    what,
                    point,
                    before: before.x,
                    got: row.x,
                    unit,
                });
            }
            if row.least < before.least || row.most < before.most {
                return Err(TimingError::CurveFalls { what, point });
            }
        }
        Ok(Self {
            rows,
            ends,
            what,
            unit,
        })
    }

    pub(super) const fn ends(&self) -> bool {
        self.ends
    }

    pub(super) fn first(&self) -> Row {
        self.rows.first().copied().unwrap_or(Row {
            x: 0.0,
            least: 0.0,
            most: 0.0,
        })
    }

    pub(super) fn last(&self) -> Row {
        self.rows.last().copied().unwrap_or(self.first())
    }

    /// Where it bends, from nothing to its last row, or on to `up_to` if it ends there. Its least may jump at
    /// the first row: just short of that it is a corner, too.
    pub(super) fn corners(&self, up_to: f64) -> Vec<f64> {
        let (first, last) = (self.first(), self.last());
        let mut corners = Vec::new();
        if first.x > 0.0 {
            corners.push(0.0);
            if first.least > 0.0 {
                corners.push(first.x.next_down());
            }
        }
        corners.extend(self.rows.iter().map(|row| row.x));
        if self.ends && up_to > last.x {
            corners.push(up_to);
        }
        corners
    }

    /// Nothing below a first row of nothing; below any other, from nothing up to that row. Above the last
    /// row the same as there, if the table ends there.
    pub(super) fn at(&self, x: f64) -> Result<At, TimingError> {
        let (first, last) = (self.first(), self.last());
        if x > last.x {
            return if self.ends {
                Ok(At {
                    least: last.least,
                    most: last.most,
                    slope: 0.0,
                })
            } else {
                Err(TimingError::BeyondCurve {
                    what: self.what,
                    last: last.x,
                    got: x,
                    unit: self.unit,
                })
            };
        }
        if x < first.x {
            return Ok(At {
                least: 0.0,
                most: first.most,
                slope: 0.0,
            });
        }
        let mut found = At {
            least: first.least,
            most: first.most,
            slope: 0.0,
        };
        for pair in self.rows.windows(2) {
            let [a, b] = pair else { continue };
            if x < a.x || x > b.x {
                continue;
            }
            let width = b.x - a.x;
            let share = (x - a.x) / width;
            let slope = ((b.least - a.least) / width).max((b.most - a.most) / width);
            found = At {
                least: a.least + share * (b.least - a.least),
                most: a.most + share * (b.most - a.most),
                slope: found.slope.max(slope),
            };
        }
        Ok(found)
    }
}
