//! Stop plans side by side, and which of them is recommended.

pub(in crate::job) mod answer;
mod offer;
mod recommend;
pub(in crate::job) mod sheet;
pub(in crate::job) mod written;

use crate::engine::{CylinderIndex, Pulley};
use crate::job::assumptions::Assumptions;
use crate::job::text::{ValveNames, rim_marks};
use crate::quantity::CyclePosition;
use crate::valve::{Method, StoppingPoints, ValveTrain};
use alloc::vec::Vec;
use answer::StopsReport;
use offer::Offer;

/// Where the crank can be stopped, where it is now, and what the book says of it.
///
/// ```
/// use lashwork::job::clearance::StopOptions;
/// use lashwork::quantity::{CrankAngle, Cycle};
/// use lashwork::valve::{Method, StoppingPoints, present_position};
/// let from = present_position(Cycle::FourStroke, CrankAngle::from_degrees(35.0)?)?;
/// let choice = StopOptions {
///     places: Some(StoppingPoints::AnyAngle),
///     from: Some(from),
///     prescribed: Some(Method::OppositeValve),
///     ..StopOptions::default()
/// };
/// assert_ne!(choice, StopOptions::default());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StopOptions {
    /// Where it can be stopped; not stated, each cylinder's top dead centre, or any angle if those do
    /// not serve every valve that has a window. Which was taken is listed as an assumption.
    pub places: Option<StoppingPoints>,
    /// Where it is now, if the turning to the first stop is to count.
    pub from: Option<CyclePosition>,
    /// The cylinder to start with; free if not given.
    pub start: Option<CylinderIndex>,
    /// The way the book prescribes for this cam; it overrides what would be recommended.
    pub prescribed: Option<Method>,
    /// Whether the cam ring of a radial engine floats on its spigot, so that the springs of open valves
    /// may push it aside. Not stated, it is taken to float, which is listed as an assumption.
    pub ring_floats: Option<bool>,
}

impl StopOptions {
    /// The same for a crank that was found to stand there: the turning counts from there, and the plans
    /// begin with what comes first.
    ///
    /// ```
    /// use lashwork::job::clearance::StopOptions;
    /// use lashwork::quantity::{CrankAngle, Cycle};
    /// use lashwork::valve::present_position;
    /// let found = present_position(Cycle::FourStroke, CrankAngle::from_degrees(360.0)?)?;
    /// assert_eq!(StopOptions::default().found_at(found).from, Some(found));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn found_at(&self, position: CyclePosition) -> Self {
        Self {
            from: Some(position),
            start: None,
            ..self.clone()
        }
    }
}

/// What plans are made from.
#[derive(Clone, Copy)]
pub(in crate::job) struct Stops<'r> {
    pub(in crate::job) options: &'r StopOptions,
    pub(in crate::job) train: &'r ValveTrain<'r>,
    pub(in crate::job) pulley: Option<Pulley>,
    pub(in crate::job) names: ValveNames<'r>,
}

/// The plans of a job.
pub(in crate::job) fn plans(asked: Stops<'_>, listed: &mut Assumptions) -> StopsReport {
    let engine = asked.train.engine();
    let places = match &asked.options.places {
        Some(places) => places.clone(),
        None => assumed_places(asked.train, listed),
    };
    let offer = Offer::made(asked.options, asked.train, &places);
    offer.assume(listed);
    let ring = recommend::Ring::of(engine, asked.options.ring_floats);
    if ring.is_assumed() && asked.options.prescribed.is_none() {
        let text = "whether the cam ring floats not stated: taken to float, so that only the \
                    cylinder at its firing top dead centre is checked";
        listed.bears_on_place("valve.ring-floats", text);
    }
    let against: Vec<_> = offer
        .plans
        .iter()
        .map(|plan| recommend::against(plan, ring))
        .collect();
    let chosen = recommend::recommend(&offer, &against, asked.options.prescribed);
    let (recommended, none_recommended) = match chosen {
        Ok(recommended) => (Some(recommended), None),
        Err(why) => (None, Some(why)),
    };
    StopsReport {
        places: written::places(&places),
        pulley_marks: asked.pulley.map(|_| rim_marks(engine.rotation())),
        plans: offer
            .plans
            .iter()
            .zip(against)
            .map(|(plan, against)| written::plan(asked, &places, plan, against))
            .collect(),
        not_offered: offer.not_offered,
        recommended,
        none_recommended,
    }
}

/// Dead centres, unless there is a valve that only other angles serve.
fn assumed_places(train: &ValveTrain, listed: &mut Assumptions) -> StoppingPoints {
    let centres = StoppingPoints::DeadCentres.positions(train.engine());
    let served = train.valves().into_iter().all(|valve| {
        let none = train.window(valve.kind).is_none();
        none || centres.iter().any(|p| train.margin(valve, *p).is_some())
    });
    let (places, text) = if served {
        let text = "places where the crank can be stopped not stated: each cylinder's top dead \
                    centre taken";
        (StoppingPoints::DeadCentres, text)
    } else {
        let text = "places where the crank can be stopped not stated: any angle taken, with a \
                    degree wheel, as the dead centres do not serve every valve";
        (StoppingPoints::AnyAngle, text)
    };
    listed.add("valve.places", text);
    places
}

/// What each way round is called.
pub(in crate::job) fn words(method: Method) -> &'static str {
    match method {
        Method::CylinderByCylinder => "cylinder by cylinder",
        Method::TwoPosition => "two positions one turn apart",
        Method::FewestStops => "fewest stops",
        Method::OppositeValve => "by the opposite valve",
        Method::FullyOpenValve => "by the fully open valve",
    }
}
