//! Whether what a leaf says about the gap may be believed.

use super::{BreakerAssumption, BreakerError, Dwell, LobeModel};
use crate::quantity::ContactGap;
use crate::tolerance::Estimate;
use crate::tolerance::known::known;
use alloc::vec::Vec;
use serde::Serialize;

/// What the faces of the contacts look like.
///
/// ```
/// use lashwork::ignition::breaker::Contacts;
/// assert_ne!(Contacts::WornFlat, Contacts::Pitted);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Contacts {
    /// New.
    New,
    /// Used, but flat and parallel.
    WornFlat,
    /// A crater in one face and a peak on the other.
    Pitted,
}

/// What a leaf between the contacts says about the gap.
///
/// ```
/// use lashwork::ignition::breaker::{Contacts, gap_evidence};
/// use lashwork::quantity::ContactGap;
/// use lashwork::tolerance::{Estimate, Uncertainty, Verdict};
/// let leaf = ContactGap::from_mm(0.40)?;
/// let leaf = Estimate::between(leaf, leaf, Uncertainty::from_number(0.01)?)?;
/// let band = "0.35 mm to 0.45 mm".parse()?;
/// let flat = gap_evidence(&leaf, Some(Contacts::WornFlat));
/// assert_eq!(flat.gap.judged_by(&band).verdict, Verdict::InBand);
/// // On pitted contacts the same leaf proves nothing but that the gap is no narrower.
/// let pitted = gap_evidence(&leaf, Some(Contacts::Pitted));
/// assert!(!pitted.leaf_suffices);
/// assert_eq!(pitted.gap.judged_by(&band).verdict, Verdict::CannotSay);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GapEvidence {
    /// What is known of the gap.
    pub gap: Estimate<ContactGap>,
    /// Whether the leaf alone may decide; where not, read the dwell, or file or replace the contacts.
    pub leaf_suffices: bool,
    /// What is taken for granted.
    pub assumptions: Vec<BreakerAssumption>,
}

/// What a leaf says about the gap, given the look of the contacts. Between pitted ones it rests on the
/// peak, so that the gap is at least what it says, and how much more is not known. Where nothing is
/// stated they are taken as flat, and that is listed.
///
/// # Source
/// TM 10-3930-607-15, p. 121: no feeler gauge on used contacts, whose roughness makes it impossible to set
/// the opening by one.
#[must_use]
pub fn gap_evidence(leaf: &Estimate<ContactGap>, contacts: Option<Contacts>) -> GapEvidence {
    let pitted = contacts == Some(Contacts::Pitted);
    let gap = match (pitted, leaf.low()) {
        (true, Some(low)) => Estimate::at_least(low, leaf.normal_uncertainty()),
        _ => *leaf,
    };
    let assumed = contacts
        .is_none()
        .then_some(BreakerAssumption::ContactsFlat);
    GapEvidence {
        gap,
        leaf_suffices: !pitted,
        assumptions: assumed.into_iter().collect(),
    }
}

/// What leaf and dwell say together.
///
/// ```
/// use lashwork::ignition::breaker::LeafFinding;
/// assert_ne!(LeafFinding::Agree, LeafFinding::LeafShowsLess);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum LeafFinding {
    /// Within two standard uncertainties.
    Agree,
    /// The leaf shows less gap than the dwell: pitted contacts, or uneven lobes.
    LeafShowsLess,
    /// The leaf shows more gap than the dwell: not on the highest point of a lobe, a worn shaft, or
    /// another scale of the meter.
    LeafShowsMore,
}

/// A leaf's gap held against the gap that goes with the dwell.
///
/// ```
/// use lashwork::ignition::breaker::{
///     Dwell, GapAndDwell, GapSizes, LeafFinding, LobeModel, Lobes,
/// };
/// use lashwork::quantity::ContactGap;
/// use lashwork::tolerance::{Estimate, Uncertainty};
/// let book = GapAndDwell::exact(ContactGap::from_mm(0.40)?, Dwell::from_degrees(52.0)?)?;
/// let lobe = LobeModel::from_pair(&book, Lobes::new(4)?, GapSizes::Usual)?;
/// let leaf = ContactGap::from_mm(0.40)?;
/// let leaf = Estimate::between(leaf, leaf, Uncertainty::from_number(0.01)?)?;
/// let dwell = Dwell::from_degrees(46.0)?;
/// let dwell = Estimate::between(dwell, dwell, Uncertainty::from_number(1.0)?)?;
/// let both = lobe.leaf_against_dwell(&leaf, &dwell)?;
/// // Leaf right, dwell low.
/// assert_eq!(both.finding, LeafFinding::LeafShowsLess);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LeafAgainstDwell {
    /// The gap that goes with the dwell.
    pub gap_by_dwell: Estimate<ContactGap>,
    /// Standard deviations by which the leaf shows more.
    pub deviations: f64,
    /// What follows.
    pub finding: LeafFinding,
}

/// Two readings without any uncertainty still differ by what no leaf tells apart, in millimetres.
const LEAST_MM: f64 = 0.005;

impl LobeModel {
    /// Holds a leaf against a dwell of the same contacts.
    ///
    /// # Errors
    /// As [`Self::gap_at`].
    ///
    /// # Source
    /// Leaf right but dwell low or unequal means pitted contacts or uneven lobes: a repair guide's page on
    /// dwell adjustment of 1972 to 1986 trucks.
    pub fn leaf_against_dwell(
        &self,
        leaf: &Estimate<ContactGap>,
        dwell: &Estimate<Dwell>,
    ) -> Result<LeafAgainstDwell, BreakerError> {
        let one_sided = BreakerError::OneSided { what: "the gap" };
        let (felt, felt_u) = known(leaf).ok_or_else(|| one_sided.clone())?;
        let gap_by_dwell = self.gap_at(dwell)?;
        let (by_dwell, by_dwell_u) = known(&gap_by_dwell).ok_or(one_sided)?;
        let u = libm::hypot(felt_u, by_dwell_u).max(LEAST_MM);
        let deviations = (felt - by_dwell) / u;
        let finding = if deviations < -2.0 {
            LeafFinding::LeafShowsLess
        } else if deviations > 2.0 {
            LeafFinding::LeafShowsMore
        } else {
            LeafFinding::Agree
        };
        Ok(LeafAgainstDwell {
            gap_by_dwell,
            deviations,
            finding,
        })
    }
}
