//! The engine: checked parts and when each cylinder fires.

use super::check::{crank, firing};
use super::{
    Cylinder, CylinderIndex, CylinderLabel, EngineAssumption, EngineError, EngineParts, Numbering,
    Rotation,
};
use crate::quantity::{CrankAngle, Cycle, CyclePosition, DistributorAngle};
use alloc::vec::Vec;
use serde::Serialize;

/// How near to 360 degrees apart two firings are for the cylinders to be companions, in degrees.
const COMPANION_SLACK: f64 = 1e-6;

/// An engine whose order, intervals and geometry have been found to agree.
///
/// Positions are crank degrees after the firing top dead centre of the first cylinder in the
/// order. A [`CylinderIndex`] this engine did not hand out is read as that first cylinder.
///
/// ```
/// use lashwork::engine::{
///     layout, CylinderLabel, End, Engine, EngineParts, Intervals, Numbering, Rotation, Sense,
/// };
/// use lashwork::quantity::{CrankAngle, Cycle, CyclePosition};
/// let engine = Engine::new(EngineParts {
///     cycle: Cycle::FourStroke,
///     cylinders: layout::inline(4, &[]),
///     order: [1, 3, 4, 2].map(CylinderLabel::numbered).to_vec(),
///     intervals: Intervals::Even,
///     rotation: Rotation { sense: Sense::Clockwise, seen_from: End::Free },
///     numbering: Numbering::FromFreeEnd,
/// })
/// .unwrap();
/// let three = engine.index_of(&CylinderLabel::numbered(3)).unwrap();
/// assert_eq!(engine.firing_position(three).degrees(), 180.0);
/// let start = CyclePosition::new(Cycle::FourStroke, CrankAngle::ZERO);
/// assert_eq!(engine.own_phase(three, start).degrees(), 540.0);
/// let companion = engine.companion(three).and_then(|i| engine.cylinder(i)).unwrap();
/// assert_eq!(companion.label.as_str(), "2");
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Engine {
    cycle: Cycle,
    cylinders: Vec<Cylinder>,
    order: Vec<CylinderIndex>,
    /// One for each cylinder, in the order of the list.
    firing: Vec<CyclePosition>,
    rotation: Rotation,
    numbering: Numbering,
    assumptions: Vec<EngineAssumption>,
}

impl Engine {
    /// Checks the parts and works out when each cylinder fires.
    ///
    /// With even or listed intervals, and bank and crankpin angles on all cylinders, both must give
    /// the same top dead centres within 0.1 degree. Listed intervals may miss the cycle by 0.01
    /// degree, for rounded sevenths; the last one then takes up the rest.
    ///
    /// # Errors
    /// Every problem found, not only the first: no cylinders, a label twice, an order that is no
    /// permutation, a wrong number of intervals, an interval not above zero, a wrong sum, missing
    /// geometry. Only if there are none, disagreement of geometry with order and intervals.
    ///
    /// ```
    /// use lashwork::engine::{
    ///     layout, CylinderLabel, End, Engine, EngineParts, Intervals, Numbering, Rotation, Sense,
    /// };
    /// use lashwork::quantity::Cycle;
    /// let problems = Engine::new(EngineParts {
    ///     cycle: Cycle::FourStroke,
    ///     cylinders: layout::inline(4, &[]),
    ///     order: [1, 3, 3, 2].map(CylinderLabel::numbered).to_vec(),
    ///     intervals: Intervals::Even,
    ///     rotation: Rotation { sense: Sense::Clockwise, seen_from: End::Free },
    ///     numbering: Numbering::FromFreeEnd,
    /// })
    /// .unwrap_err();
    /// let codes: Vec<_> = problems.iter().map(|p| p.code()).collect();
    /// assert_eq!(codes, ["engine.order-twice", "engine.order-missing"]);
    /// ```
    pub fn new(parts: EngineParts) -> Result<Self, Vec<EngineError>> {
        let found = firing(&parts)?;
        let start = CyclePosition::new(parts.cycle, CrankAngle::ZERO);
        let firing = (0..parts.cylinders.len())
            .map(|place| {
                let in_order = found.order.iter().position(|i| i.get() == place);
                let degrees = in_order.and_then(|at| found.along_order.get(at));
                degrees.map_or(start, |d| start.turned(crank(*d)))
            })
            .collect();
        Ok(Self {
            cycle: parts.cycle,
            cylinders: parts.cylinders,
            order: found.order,
            firing,
            rotation: parts.rotation,
            numbering: parts.numbering,
            assumptions: found.assumptions,
        })
    }

    /// Two-stroke or four-stroke.
    #[must_use]
    pub const fn cycle(&self) -> Cycle {
        self.cycle
    }

    /// The cylinders as listed.
    #[must_use]
    pub fn cylinders(&self) -> &[Cylinder] {
        &self.cylinders
    }

    /// The places of all cylinders, in the order of the list.
    pub fn indices(&self) -> impl Iterator<Item = CylinderIndex> + use<> {
        (0..self.cylinders.len()).map(CylinderIndex::new)
    }

    /// The place of the cylinder with this name; none if there is none.
    #[must_use]
    pub fn index_of(&self, label: &CylinderLabel) -> Option<CylinderIndex> {
        let place = self.cylinders.iter().position(|c| c.label == *label)?;
        Some(CylinderIndex::new(place))
    }

    /// The cylinder at a place; none if the engine has no such place.
    #[must_use]
    pub fn cylinder(&self, index: CylinderIndex) -> Option<&Cylinder> {
        self.cylinders.get(index.get())
    }

    /// The firing order.
    #[must_use]
    pub fn order(&self) -> &[CylinderIndex] {
        &self.order
    }

    /// Crank degrees from each firing to the next, along the order; the last one leads back to the
    /// first cylinder, so that all together make a cycle.
    #[must_use]
    pub fn intervals(&self) -> Vec<CrankAngle> {
        let at = |i: &CylinderIndex| self.firing_position(*i);
        let nexts = self.order.iter().skip(1).map(at);
        let mut all: Vec<CrankAngle> = self
            .order
            .iter()
            .zip(nexts)
            .map(|(from, to)| at(from).forward_to(to))
            .collect();
        let last = self.order.last().map_or(0.0, |i| at(i).degrees());
        all.push(crank(self.cycle.degrees() - last));
        all
    }

    /// Where a cylinder fires: crank degrees after the firing of the first cylinder of the order.
    #[must_use]
    pub fn firing_position(&self, index: CylinderIndex) -> CyclePosition {
        let found = self.firing.get(index.get()).copied();
        found.unwrap_or_else(|| CyclePosition::new(self.cycle, CrankAngle::ZERO))
    }

    /// Where a cylinder is in its own cycle when the crank stands at `crank`: 0 is its firing top
    /// dead centre.
    #[must_use]
    pub fn own_phase(&self, index: CylinderIndex, crank: CyclePosition) -> CyclePosition {
        let turned = self.firing_position(index).forward_to(crank);
        CyclePosition::new(self.cycle, turned)
    }

    /// Where the crank stands when a cylinder is at `phase` of its own cycle.
    ///
    /// This is [`Engine::own_phase`] the other way round.
    #[must_use]
    pub fn crank_at(&self, index: CylinderIndex, phase: CyclePosition) -> CyclePosition {
        self.firing_position(index).turned(crank(phase.degrees()))
    }

    /// The cylinder at overlap top dead centre when this one fires: it fires 360 degrees away,
    /// within a millionth of a degree. None if there is none, and on a two-stroke engine.
    #[must_use]
    pub fn companion(&self, index: CylinderIndex) -> Option<CylinderIndex> {
        if self.cycle == Cycle::TwoStroke || self.cylinder(index).is_none() {
            return None;
        }
        let here = self.firing_position(index);
        self.order.iter().copied().find(|other| {
            let apart = here.forward_to(self.firing_position(*other)).degrees();
            (apart - 360.0).abs() <= COMPANION_SLACK
        })
    }

    /// How far a distributor rotor turns from the firing of the first cylinder of the order to the
    /// firing of this one.
    #[must_use]
    pub fn rotor_angle(&self, index: CylinderIndex) -> DistributorAngle {
        crank(self.firing_position(index).degrees()).at_distributor(self.cycle)
    }

    /// The running direction.
    #[must_use]
    pub const fn rotation(&self) -> Rotation {
        self.rotation
    }

    /// How cylinders are numbered.
    #[must_use]
    pub const fn numbering(&self) -> &Numbering {
        &self.numbering
    }

    /// What had to be taken for granted; empty if nothing.
    #[must_use]
    pub fn assumptions(&self) -> &[EngineAssumption] {
        &self.assumptions
    }
}
