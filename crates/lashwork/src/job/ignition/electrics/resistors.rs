//! Windings, ballast and leads against the book, at its temperature.

use super::answer::ResistorReport;
use super::said;
use crate::ignition::electrics::{Conductor, ElectricsError, resistance_at};
use crate::job::assumptions::Assumptions;
use crate::job::work::{Sides, judged};
use crate::quantity::{Resistance, Temperature, TemperatureDifference, TemperatureUnit};
use crate::tolerance::{Estimate, HasLimits, Limits};
use alloc::format;
use alloc::string::{String, ToString};

/// A winding, a ballast resistor or a lead.
///
/// ```
/// use lashwork::ignition::electrics::Conductor;
/// use lashwork::job::ignition::Resistor;
/// use lashwork::quantity::Resistance;
/// use lashwork::tolerance::{Estimate, Uncertainty};
/// let read = Resistance::parse("3.2 ohm")?;
/// let read = Estimate::between(read, read, Uncertainty::from_number(0.02)?)?;
/// let coil = Resistor::new("coil primary", Conductor::Copper, read);
/// assert!(!coil.in_primary && coil.read_at.is_none());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Resistor {
    /// What it is.
    pub name: String,
    /// What it is made of.
    pub conductor: Conductor,
    /// What was measured.
    pub read: Estimate<Resistance>,
    /// How warm it was; at the book's temperature if not stated.
    pub read_at: Option<Temperature>,
    /// Standard uncertainty of that; 3 K if not stated.
    pub within: Option<TemperatureDifference>,
    /// What the book asks for.
    pub limits: Option<Limits<Resistance>>,
    /// At which temperature; 20 C if not stated.
    pub book_at: Option<Temperature>,
    /// Whether it is part of the primary circuit.
    pub in_primary: bool,
    /// How warm it runs; as it was measured if not stated.
    pub runs_at: Option<Temperature>,
}

impl Resistor {
    /// What was measured, the rest not stated.
    #[must_use]
    pub fn new(name: &str, conductor: Conductor, read: Estimate<Resistance>) -> Self {
        Self {
            name: name.to_string(),
            conductor,
            read,
            read_at: None,
            within: None,
            limits: None,
            book_at: None,
            in_primary: false,
            runs_at: None,
        }
    }

    /// At a temperature.
    pub(super) fn at(
        &self,
        wanted: Temperature,
        assumptions: &mut Assumptions,
    ) -> Result<Estimate<Resistance>, ElectricsError> {
        let within = self.within.unwrap_or(ASSUMED_WITHIN);
        let read_at = self.taken_at();
        let there = resistance_at(&self.read, read_at, within, wanted, self.conductor)?;
        assumptions.add_all(&there.assumption);
        Ok(there.resistance)
    }

    /// How warm it was when it was measured, as far as stated.
    pub(super) fn taken_at(&self) -> Temperature {
        let book = self.book_at.unwrap_or(Temperature::ISO_1);
        self.read_at.unwrap_or(book)
    }
}

/// Common practice, no source.
const ASSUMED_WITHIN: TemperatureDifference = TemperatureDifference::of_kelvin::<3>();

const SIDES: Sides = Sides {
    below: "too low",
    above: "too high",
};

pub(super) fn report(
    asked: &Resistor,
    shown: TemperatureUnit,
    assumptions: &mut Assumptions,
) -> Result<ResistorReport, ElectricsError> {
    let book = asked.book_at.unwrap_or(Temperature::ISO_1);
    let there = asked.at(book, assumptions)?;
    let is_copper = asked.conductor == Conductor::Copper;
    if is_copper && asked.read_at.is_none() {
        let text = format!(
            "how warm {} was is not stated: {} taken, as in the book",
            asked.name,
            book.show(shown, 0)
        );
        assumptions.add("ignition.winding-temperature", text);
    }
    let centre = there.centre();
    let what = "the resistance";
    let resistance = centre.ok_or(ElectricsError::OneSided { what })?;
    let judged = asked.limits.as_ref().map(|limits| {
        let rule = Resistance::USUAL_RULE;
        judged(said(&there, 2), &there, limits, &rule, SIDES)
    });
    let text = if is_copper {
        format!(
            "read at {}, taken to {}",
            asked.taken_at().show(shown, 0),
            book.show(shown, 0)
        )
    } else {
        format!("{}: as read", asked.conductor.words())
    };
    Ok(ResistorReport {
        name: asked.name.clone(),
        resistance,
        judged,
        text,
    })
}
