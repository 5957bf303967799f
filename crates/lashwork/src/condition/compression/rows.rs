//! Which cylinders stand side by side under one head.

use super::CompressionError;
use crate::engine::{CylinderLabel, Engine};
use alloc::vec::Vec;
use serde::Serialize;

/// Rows of cylinders, each under one head, in the order in which they stand; neighbours share its gasket.
///
/// ```
/// use lashwork::condition::compression::HeadRows;
/// use lashwork::engine::CylinderLabel;
/// let n = CylinderLabel::numbered;
/// let vee = HeadRows::new(vec![vec![n(1), n(3), n(5)], vec![n(2), n(4), n(6)]])?;
/// assert!(vee.are_neighbours(&n(3), &n(5)) && !vee.are_neighbours(&n(1), &n(2)));
/// assert!(HeadRows::new(vec![vec![n(1), n(1)]]).is_err());
/// # Ok::<(), lashwork::condition::compression::CompressionError>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(transparent)]
pub struct HeadRows(Vec<Vec<CylinderLabel>>);

impl HeadRows {
    /// Takes rows as they stand; none for heads of their own.
    ///
    /// # Errors
    /// [`CompressionError::TwiceInRows`].
    pub fn new(rows: Vec<Vec<CylinderLabel>>) -> Result<Self, CompressionError> {
        let mut seen: Vec<&CylinderLabel> = Vec::new();
        for cylinder in rows.iter().flatten() {
            if seen.contains(&cylinder) {
                let cylinder = cylinder.clone();
                return Err(CompressionError::TwiceInRows { cylinder });
            }
            seen.push(cylinder);
        }
        Ok(Self(rows))
    }

    /// Those that the layout of an engine tells: [`Engine::rows`].
    ///
    /// ```
    /// use lashwork::condition::compression::HeadRows;
    /// use lashwork::engine::{CylinderLabel, Engine};
    /// let n = CylinderLabel::numbered;
    /// let rows = HeadRows::of_engine(&Engine::inline_four_stroke(&[1, 3, 4, 2]).unwrap());
    /// assert!(rows.are_neighbours(&n(2), &n(3)) && !rows.are_neighbours(&n(1), &n(3)));
    /// ```
    #[must_use]
    pub fn of_engine(engine: &Engine) -> Self {
        Self(engine.rows())
    }

    /// The rows.
    #[must_use]
    pub fn rows(&self) -> &[Vec<CylinderLabel>] {
        &self.0
    }

    /// Whether two cylinders stand side by side.
    #[must_use]
    pub fn are_neighbours(&self, one: &CylinderLabel, other: &CylinderLabel) -> bool {
        self.0.iter().any(|row| {
            let pairs = row.iter().zip(row.iter().skip(1));
            pairs
                .into_iter()
                .any(|(a, b)| (a == one && b == other) || (a == other && b == one))
        })
    }
}
