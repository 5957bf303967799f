//! Engines and marks for stop plans.

use lashwork::engine::{
    CylinderLabel, End, Engine, EngineParts, Intervals, Numbering, Rotation, Sense, layout,
};
use lashwork::quantity::{CrankAngle, Cycle, CyclePosition};
use lashwork::valve::{Mark, Marks, StoppingPoints};
use std::error::Error;

/// An even-firing engine whose cylinders stand on two sides by turns of three in the order.
///
/// # Errors
/// None with a number of cylinders from 1 on.
pub fn two_sided_engine(cylinders: usize) -> Result<Engine, Box<dyn Error>> {
    let side = |i: usize| {
        if (i / 3).is_multiple_of(2) {
            "left"
        } else {
            "right"
        }
    };
    let listed = layout::inline(cylinders, &[]).into_iter().enumerate();
    let parts = EngineParts {
        cycle: Cycle::FourStroke,
        cylinders: listed.map(|(i, c)| c.on_side(side(i))).collect(),
        order: (1..=cylinders).map(CylinderLabel::numbered).collect(),
        intervals: Intervals::Even,
        rotation: Rotation {
            sense: Sense::Clockwise,
            seen_from: End::Free,
        },
        numbering: Numbering::FromFreeEnd,
    };
    Engine::new(parts).map_err(|problems| format!("{problems:?}").into())
}

/// Twelve marks, one every 30 degrees.
///
/// # Errors
/// None.
pub fn marks() -> Result<StoppingPoints, Box<dyn Error>> {
    let tdc = CyclePosition::new(Cycle::FourStroke, CrankAngle::ZERO);
    let mut marks = Vec::new();
    for i in 0..12 {
        let at = f64::from(i) * 30.0;
        marks.push(Mark::new(
            format!("{at}"),
            tdc,
            CrankAngle::from_degrees(at)?,
        )?);
    }
    let made = Marks::new(marks).map_err(|problems| format!("{problems:?}"))?;
    Ok(StoppingPoints::Marks(made))
}
