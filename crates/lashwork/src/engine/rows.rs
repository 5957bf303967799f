//! Which cylinders stand in one row, as far as their layout tells.

use super::{Cylinder, CylinderLabel, Engine};
use alloc::vec::Vec;

impl Engine {
    /// The rows of an engine whose cylinders are listed from one end to the other: those that point one way,
    /// in the order of the list. Of an engine without bank angles and sides all stand in one row; a star has no
    /// rows.
    ///
    /// ```
    /// use lashwork::engine::{CylinderLabel, Engine};
    /// let rows = Engine::inline_four_stroke(&[1, 3, 4, 2]).unwrap().rows();
    /// assert_eq!(rows, [[1, 2, 3, 4].map(CylinderLabel::numbered).to_vec()]);
    /// ```
    #[must_use]
    pub fn rows(&self) -> Vec<Vec<CylinderLabel>> {
        if self.is_radial() {
            return Vec::new();
        }
        let mut rows: Vec<(&Cylinder, Vec<CylinderLabel>)> = Vec::new();
        for cylinder in self.cylinders() {
            let is_one =
                |first: &Cylinder| first.bank == cylinder.bank && first.side == cylinder.side;
            match rows.iter_mut().find(|(first, _)| is_one(first)) {
                Some((_, row)) => row.push(cylinder.label.clone()),
                None => rows.push((cylinder, alloc::vec![cylinder.label.clone()])),
            }
        }
        rows.into_iter().map(|(_, row)| row).collect()
    }
}
