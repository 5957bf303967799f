//! The engine: checked parts and when each cylinder fires.

use super::firing_check::firing;
use super::link_rods::{self, Rod};
use super::{
    CamRing, CamRingError, Cylinder, CylinderIndex, CylinderLabel, DeadCentres, EngineAssumption,
    EngineError, EngineParts, LinkRods, LinkRodsError, Numbering, Rotation, layout,
};
use crate::quantity::{CrankAngle, Cycle, CyclePosition, DistributorAngle, Length};
use alloc::vec::Vec;
use serde::Serialize;

/// Places of the crank nearer than this are one, in degrees: sevenths, ninths and elevenths of a cycle
/// written with three decimals, and far less than a crank can be set by hand. This library's choice.
pub(crate) const SAME_PLACE: f64 = 0.01;

/// An engine whose order, intervals and geometry have been found to agree.
///
/// Positions are crank degrees after the firing top dead centre of the first cylinder in the
/// order. A [`CylinderIndex`] this engine did not hand out is read as that first cylinder.
///
/// ```
/// use lashwork::engine::{CylinderLabel, Engine};
/// use lashwork::quantity::{CrankAngle, Cycle, CyclePosition};
/// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2]).unwrap();
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
    /// One for each cylinder, in the order of the list; empty without link rods.
    linked: Vec<Rod>,
    cam_ring: Option<CamRing>,
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
    /// use lashwork::Refusal;
    /// use lashwork::engine::Engine;
    /// let problems = Engine::inline_four_stroke(&[1, 3, 3, 2]).unwrap_err();
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
                degrees.map_or(start, |d| start.turned(CrankAngle::computed(*d)))
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
            linked: Vec::new(),
            cam_ring: None,
        })
    }

    /// With master and link rods, which move where each piston tops; order and firing positions stay.
    /// Knuckle pins without a direction are listed as an assumption.
    ///
    /// # Errors
    /// Every problem found: a cylinder without a rod, with two or unknown, banks or crankpins not
    /// known, a link rod on the master of another crankpin, rods that cannot turn.
    ///
    /// ```
    /// use lashwork::engine::{layout, CylinderLabel, Engine, LinkRod, LinkRods};
    /// use lashwork::quantity::Length;
    /// # fn example() -> Result<(), Box<dyn std::error::Error>> {
    /// let five = Engine::builder(layout::radial(5)).order([1, 3, 5, 2, 4]).build()
    ///     .map_err(|problems| format!("{problems:?}"))?;
    /// let mm = |mm| Length::from_mm(mm).expect("a rod's length");
    /// let link = |cylinder| LinkRod {
    ///     cylinder: CylinderLabel::numbered(cylinder),
    ///     knuckle_radius: mm(50.0),
    ///     knuckle: None,
    ///     length: mm(200.0),
    /// };
    /// let rods = LinkRods {
    ///     master: CylinderLabel::numbered(1),
    ///     crank_radius: mm(60.0),
    ///     master_rod: mm(250.0),
    ///     links: (2..=5).map(link).collect(),
    /// };
    /// let five = five.with_link_rods(&[rods]).map_err(|problems| format!("{problems:?}"))?;
    /// let three = five.index_of(&CylinderLabel::numbered(3)).ok_or("no cylinder 3")?;
    /// // Fires 144 degrees after cylinder 1, tops a little later.
    /// assert!((five.firing_position(three).degrees() - 144.0).abs() < 1e-9);
    /// assert!((five.dead_centre(three).degrees() - 146.58).abs() < 0.01);
    /// # Ok(())
    /// # }
    /// # example().unwrap();
    /// ```
    pub fn with_link_rods(mut self, rows: &[LinkRods]) -> Result<Self, Vec<LinkRodsError>> {
        self.linked = link_rods::rods(&self.cylinders, rows)?;
        let assumed = rows
            .iter()
            .flat_map(|r| &r.links)
            .find(|l| l.knuckle.is_none());
        if let Some(link) = assumed {
            self.assumptions.push(EngineAssumption::KnucklesAtBanks {
                cylinder: link.cylinder.clone(),
            });
        }
        Ok(self)
    }

    /// With a cam ring in each row.
    ///
    /// # Errors
    /// [`CamRingError`] if the ring does not serve a row or does not go with the firing order.
    pub fn with_cam_ring(self, ring: CamRing) -> Result<Self, CamRingError> {
        ring.check(self.cycle, &self.cylinders, &self.firing)?;
        Ok(Self {
            cam_ring: Some(ring),
            ..self
        })
    }

    /// The cam ring, if one was described.
    #[must_use]
    pub const fn cam_ring(&self) -> Option<CamRing> {
        self.cam_ring
    }

    /// Whether its cylinders stand round the crank: master and link rods or a cam ring were described,
    /// or the cylinders of one crankpin point all ways, so that no half circle holds them.
    ///
    /// ```
    /// use lashwork::engine::{Engine, layout};
    /// let five = Engine::builder(layout::radial(5)).order([1, 3, 5, 2, 4]).build().unwrap();
    /// assert!(five.is_radial());
    /// assert!(!Engine::inline_four_stroke(&[1, 3, 4, 2]).unwrap().is_radial());
    /// ```
    #[must_use]
    pub fn is_radial(&self) -> bool {
        !self.linked.is_empty()
            || self.cam_ring.is_some()
            || self
                .cylinders
                .iter()
                .any(|c| layout::is_star(&self.cylinders, c))
    }

    /// The cylinders whose crankpins point the way this one's does, itself among them, in the order
    /// of the list: a row of a radial engine. Empty if its crankpin angle is not known.
    #[must_use]
    pub fn row_of(&self, index: CylinderIndex) -> Vec<CylinderLabel> {
        let one = self.cylinder(index);
        one.map_or_else(Vec::new, |c| link_rods::same_pin(&self.cylinders, c))
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
        all.push(CrankAngle::computed(self.cycle.degrees() - last));
        all
    }

    /// Where a cylinder fires: crank degrees after the firing of the first cylinder of the order.
    #[must_use]
    pub fn firing_position(&self, index: CylinderIndex) -> CyclePosition {
        let found = self.firing.get(index.get()).copied();
        found.unwrap_or_else(|| CyclePosition::new(self.cycle, CrankAngle::ZERO))
    }

    /// Where a cylinder's piston stands at its firing top dead centre. With link rods that is not where
    /// it fires by order and cam: the rod tops it before or after. Without, and with an offset piston
    /// pin, from whose true dead centre an engine is timed, it is the firing position.
    #[must_use]
    pub fn dead_centre(&self, index: CylinderIndex) -> CyclePosition {
        let shift = self
            .linked
            .get(index.get())
            .map_or(CrankAngle::ZERO, |rod| rod.centres().top);
        self.firing_position(index).turned(shift)
    }

    /// Where a cylinder's piston turns round, counted from where its crankpin points along its bore,
    /// and its stroke; none if neither its crank and rod nor link rods were described.
    #[must_use]
    pub fn dead_centres(&self, index: CylinderIndex) -> Option<DeadCentres> {
        self.rod(index).map(|rod| rod.centres())
    }

    /// How far a piston is below its top when its cylinder stands at `phase` of its own cycle; none if
    /// neither its crank and rod nor link rods were described.
    ///
    /// ```
    /// use lashwork::engine::{Engine, PinOffset, SliderCrank, layout};
    /// use lashwork::quantity::{AxisAngle, CrankAngle, CyclePosition, Length};
    /// # fn example() -> Result<(), Box<dyn std::error::Error>> {
    /// let mm = |mm| Length::from_mm(mm);
    /// let crank = SliderCrank::new(mm(50.0)?, mm(200.0)?, PinOffset::ZERO)?;
    /// let one = layout::inline(1, &[AxisAngle::from_degrees(0.0)?]);
    /// let one = one.into_iter().map(|cylinder| cylinder.with_crank(crank)).collect();
    /// let single = Engine::builder(one).order([1]).build()
    ///     .map_err(|problems| format!("{problems:?}"))?;
    /// let at = |deg| CrankAngle::from_degrees(deg).map(|a| CyclePosition::new(single.cycle(), a));
    /// let down = single.piston_drop(single.order()[0], at(450.0)?).ok_or("a rod is known")?;
    /// assert!((down.mm() - 56.35083).abs() < 5e-6);
    /// # Ok(())
    /// # }
    /// # example().unwrap();
    /// ```
    #[must_use]
    pub fn piston_drop(&self, index: CylinderIndex, phase: CyclePosition) -> Option<Length> {
        let rod = self.rod(index)?;
        // An engine with an offset pin is timed from its true dead centre, one with link rods not.
        let timed_from = match rod {
            Rod::Crankpin(crank) => crank.tdc_angle(),
            Rod::Knuckle(_) => CrankAngle::ZERO,
        };
        let past = timed_from + CrankAngle::computed(phase.degrees());
        Some(rod.piston_drop(past))
    }

    /// How many crank degrees before and after its firing position a piston stands so far below its
    /// top, as a share of its stroke from 0 to 1; the first is negative where a link rod tops it that
    /// late. None if its rod was not described.
    ///
    /// ```
    /// use lashwork::engine::{Engine, PinOffset, SliderCrank, layout};
    /// use lashwork::quantity::{AxisAngle, Length};
    /// # fn example() -> Result<(), Box<dyn std::error::Error>> {
    /// let mm = |mm| Length::from_mm(mm);
    /// let crank = SliderCrank::new(mm(50.0)?, mm(200.0)?, PinOffset::ZERO)?;
    /// let one = layout::inline(1, &[AxisAngle::from_degrees(0.0)?]);
    /// let one = one.into_iter().map(|cylinder| cylinder.with_crank(crank)).collect();
    /// let single = Engine::builder(one).order([1]).build()
    ///     .map_err(|problems| format!("{problems:?}"))?;
    /// // Half the stroke down it is before a quarter turn: the rod leans.
    /// let (before, after) = single.piston_away(single.order()[0], 0.5).ok_or("a rod is known")?;
    /// assert!((after.degrees() - 82.82).abs() < 0.01);
    /// assert!((before.degrees() - after.degrees()).abs() < 1e-9);
    /// # Ok(())
    /// # }
    /// # example().unwrap();
    /// ```
    #[must_use]
    pub fn piston_away(
        &self,
        index: CylinderIndex,
        share_of_stroke: f64,
    ) -> Option<(CrankAngle, CrankAngle)> {
        let rod = self.rod(index)?;
        let centres = rod.centres();
        let wanted = share_of_stroke * centres.stroke.mm();
        let timed_from = match rod {
            Rod::Crankpin(_) => centres.top,
            Rod::Knuckle(_) => CrankAngle::ZERO,
        };
        let (top, bottom) = (centres.top.degrees(), 180.0 + centres.bottom.degrees());
        // From top to bottom the piston only goes down, either way round.
        let reached = |bottom: f64| {
            let (mut short, mut far) = (top, bottom);
            for _ in 0..60 {
                let middle = f64::midpoint(short, far);
                if rod.piston_drop(CrankAngle::computed(middle)).mm() < wanted {
                    short = middle;
                } else {
                    far = middle;
                }
            }
            f64::midpoint(short, far) - timed_from.degrees()
        };
        let (before, after) = (-reached(bottom - 360.0), reached(bottom));
        Some((CrankAngle::computed(before), CrankAngle::computed(after)))
    }

    fn rod(&self, index: CylinderIndex) -> Option<Rod> {
        let own = || self.cylinder(index)?.crank.map(Rod::Crankpin);
        self.linked.get(index.get()).copied().or_else(own)
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
        self.firing_position(index)
            .turned(CrankAngle::computed(phase.degrees()))
    }

    /// The cylinder at overlap top dead centre when this one fires: it fires 360 degrees away,
    /// within a hundredth of a degree, for intervals written with three decimals or more. None if
    /// there is none, and on a two-stroke engine.
    #[must_use]
    pub fn companion(&self, index: CylinderIndex) -> Option<CylinderIndex> {
        if self.cycle == Cycle::TwoStroke || self.cylinder(index).is_none() {
            return None;
        }
        let here = self.firing_position(index);
        let there = here.turned(CrankAngle::TURN);
        let off = |other: &CylinderIndex| {
            let fires = self.firing_position(*other);
            let (on, back) = (fires.forward_to(there), there.forward_to(fires));
            on.degrees().min(back.degrees())
        };
        let others = self.order.iter().copied();
        let nearest = others.min_by(|a, b| off(a).total_cmp(&off(b)))?;
        (off(&nearest) <= SAME_PLACE).then_some(nearest)
    }

    /// How far a distributor rotor turns from the firing of the first cylinder of the order to the
    /// firing of this one.
    #[must_use]
    pub fn rotor_angle(&self, index: CylinderIndex) -> DistributorAngle {
        CrankAngle::computed(self.firing_position(index).degrees()).at_distributor(self.cycle)
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

    pub(super) fn assume(&mut self, assumption: EngineAssumption) {
        self.assumptions.push(assumption);
    }

    /// What had to be taken for granted; empty if nothing.
    #[must_use]
    pub fn assumptions(&self) -> &[EngineAssumption] {
        &self.assumptions
    }
}
