//! An engine from the little that must be stated about it.

use super::{
    Cylinder, CylinderLabel, End, Engine, EngineAssumption, EngineError, EngineParts, Intervals,
    Numbering, Rotation, Sense, layout,
};
use crate::quantity::{CrankAngle, Cycle};
use alloc::vec::Vec;

/// What is taken where it is not stated; each is listed as an [`EngineAssumption`].
const USUAL_ROTATION: Rotation = Rotation {
    sense: Sense::Clockwise,
    seen_from: End::Free,
};

/// Puts an engine together step by step; begun by [`Engine::builder`].
///
/// Four-stroke and evenly firing unless told otherwise. A running direction or numbering that is not
/// stated is taken as usual, clockwise seen from the free end and counted from there, and listed in
/// [`Engine::assumptions`].
///
/// ```
/// use lashwork::engine::{End, Engine, Numbering, Rotation, Sense, layout};
/// let five = Engine::builder(layout::radial(5))
///     .order([1, 3, 5, 2, 4])
///     .rotation(Rotation { sense: Sense::Anticlockwise, seen_from: End::Output })
///     .numbering(Numbering::Stated("from the top, as it turns".into()))
///     .build()
///     .unwrap();
/// assert_eq!(five.intervals()[0].degrees(), 144.0);
/// assert!(five.assumptions().is_empty());
/// ```
#[derive(Clone, Debug)]
#[must_use = "call `build` for the engine"]
pub struct EngineBuilder {
    cycle: Cycle,
    cylinders: Vec<Cylinder>,
    order: Vec<CylinderLabel>,
    intervals: Intervals,
    rotation: Option<Rotation>,
    numbering: Option<Numbering>,
}

impl EngineBuilder {
    /// One turn of the crank makes a cycle.
    pub fn two_stroke(self) -> Self {
        Self {
            cycle: Cycle::TwoStroke,
            ..self
        }
    }

    /// The firing order of cylinders that are numbered, as those of [`layout`] are.
    pub fn order(self, numbers: impl IntoIterator<Item = usize>) -> Self {
        self.order_by_label(numbers.into_iter().map(CylinderLabel::numbered))
    }

    /// The firing order; the order of the list if none is stated.
    ///
    /// ```
    /// use lashwork::engine::{Cylinder, CylinderLabel, Engine};
    /// let (left, right): (CylinderLabel, CylinderLabel) = ("L".parse()?, "R".parse()?);
    /// let twin = Engine::builder([&left, &right].map(|l| Cylinder::new(l.clone())).to_vec())
    ///     .order_by_label([right.clone(), left])
    ///     .build();
    /// assert_eq!(twin.unwrap().index_of(&right).map(|i| i.get()), Some(1));
    /// # Ok::<(), lashwork::engine::EngineError>(())
    /// ```
    pub fn order_by_label(self, labels: impl IntoIterator<Item = CylinderLabel>) -> Self {
        Self {
            order: labels.into_iter().collect(),
            ..self
        }
    }

    /// Crank degrees from each firing to the next along the order, the way back to the first included.
    ///
    /// ```
    /// use lashwork::engine::{Engine, layout};
    /// use lashwork::quantity::CrankAngle;
    /// let twin = Engine::builder(layout::inline(2, &[]))
    ///     .intervals([CrankAngle::of_degrees::<405>(), CrankAngle::of_degrees::<315>()])
    ///     .build()
    ///     .unwrap();
    /// assert_eq!(twin.firing_position(twin.order()[1]).degrees(), 405.0);
    /// ```
    pub fn intervals(self, intervals: impl IntoIterator<Item = CrankAngle>) -> Self {
        Self {
            intervals: Intervals::Listed(intervals.into_iter().collect()),
            ..self
        }
    }

    /// Firings as the bank and crankpin angles of all cylinders put them.
    ///
    /// ```
    /// use lashwork::engine::{Engine, layout};
    /// use lashwork::quantity::AxisAngle;
    /// let crank = [AxisAngle::ZERO, AxisAngle::of_degrees::<180>()];
    /// let twin = Engine::builder(layout::inline(2, &crank)).from_geometry().build().unwrap();
    /// assert_eq!(twin.intervals()[0].degrees(), 180.0);
    /// ```
    pub fn from_geometry(self) -> Self {
        Self {
            intervals: Intervals::FromGeometry,
            ..self
        }
    }

    /// The running direction.
    pub fn rotation(self, rotation: Rotation) -> Self {
        Self {
            rotation: Some(rotation),
            ..self
        }
    }

    /// How the cylinders are numbered.
    pub fn numbering(self, numbering: Numbering) -> Self {
        Self {
            numbering: Some(numbering),
            ..self
        }
    }

    /// Checks what was stated and works out when each cylinder fires.
    ///
    /// # Errors
    /// As [`Engine::new`].
    ///
    /// ```
    /// use lashwork::Refusal;
    /// use lashwork::engine::{Engine, layout};
    /// let refused = Engine::builder(layout::inline(3, &[])).order([1, 3, 3]).build().unwrap_err();
    /// let codes: Vec<_> = refused.iter().map(|p| p.code()).collect();
    /// assert_eq!(codes, ["engine.order-twice", "engine.order-missing"]);
    /// ```
    pub fn build(self) -> Result<Engine, Vec<EngineError>> {
        let order = if self.order.is_empty() {
            self.cylinders.iter().map(|c| c.label.clone()).collect()
        } else {
            self.order
        };
        let (unstated_rotation, unstated_numbering) =
            (self.rotation.is_none(), self.numbering.is_none());
        let mut engine = Engine::new(EngineParts {
            cycle: self.cycle,
            cylinders: self.cylinders,
            order,
            intervals: self.intervals,
            rotation: self.rotation.unwrap_or(USUAL_ROTATION),
            numbering: self.numbering.unwrap_or(Numbering::FromFreeEnd),
        })?;
        if unstated_rotation {
            engine.assume(EngineAssumption::RotationNotStated);
        }
        if unstated_numbering {
            engine.assume(EngineAssumption::NumberingNotStated);
        }
        Ok(engine)
    }
}

impl Engine {
    /// Begins with the cylinders, as listed by hand or by [`layout`].
    pub const fn builder(cylinders: Vec<Cylinder>) -> EngineBuilder {
        EngineBuilder {
            cycle: Cycle::FourStroke,
            cylinders,
            order: Vec::new(),
            intervals: Intervals::Even,
            rotation: None,
            numbering: None,
        }
    }

    /// A four-stroke engine of one row of numbered cylinders that fire evenly, in this order.
    ///
    /// # Errors
    /// As [`Engine::new`].
    ///
    /// ```
    /// use lashwork::engine::Engine;
    /// let four = Engine::inline_four_stroke(&[1, 3, 4, 2]).unwrap();
    /// assert_eq!(four.intervals()[0].degrees(), 180.0);
    /// assert_eq!(four.assumptions().len(), 2);
    /// assert!(Engine::inline_four_stroke(&[1, 3, 4, 4]).is_err());
    /// ```
    pub fn inline_four_stroke(order: &[usize]) -> Result<Self, Vec<EngineError>> {
        let cylinders = layout::inline(order.len(), &[]);
        Self::builder(cylinders)
            .order(order.iter().copied())
            .build()
    }
}
