//! One or more leaves laid together.

use super::FeelerError;
use super::leaf::{Leaf, not_negative};
use crate::quantity::{Marked, Nominal};
use alloc::vec::Vec;
use core::fmt;
use core::str::FromStr;
use serde::Serialize;
use serde::ser::{SerializeStruct, Serializer};

/// How the tolerances of the leaves of a stack add up.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Combination {
    /// The plain sum: every leaf at the same end of its tolerance. The cautious one, taken unless
    /// another is chosen.
    #[default]
    WorstCase,
    /// The root of the sum of squares: leaves independent of each other.
    RootSumSquare,
}

/// One or more leaves felt together; never empty. A single one needs no memory of its own.
///
/// What it shows it also reads, the leaves then being without a stated tolerance.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::feeler::{Leaf, Stack};
/// use lashwork::quantity::Marked;
/// let leaf = |text| Marked::parse(text).map(Leaf::new);
/// let stack = Stack::new(vec![leaf("0.10 mm")?, leaf("0.05 mm")?])?;
/// assert_eq!(stack.to_string(), "0.10 mm + 0.05 mm");
/// assert_eq!("0.10 mm + 0.05 mm".parse(), Ok(stack.clone()));
/// assert_eq!(stack.thickness(), Marked::parse("0.15 mm")?.nominal());
/// assert_eq!(Stack::new(Vec::new()).unwrap_err().code(), "feeler.no-leaves");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stack {
    leaves: Leaves,
    thickness: Nominal,
}

/// One, or more than one, so that equal stacks are equal values.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Leaves {
    One(Leaf),
    Several(Vec<Leaf>),
}

impl Stack {
    /// Lays leaves together, in the order they are to be named.
    ///
    /// # Errors
    /// [`FeelerError::NoLeaves`]; [`FeelerError::LeafNotPositive`]; [`FeelerError::Negative`] for a
    /// tolerance; [`FeelerError::Quantity`] for a sum over ten metres.
    pub fn new(leaves: Vec<Leaf>) -> Result<Self, FeelerError> {
        match leaves.as_slice() {
            [] => return Err(FeelerError::NoLeaves { what: "stack" }),
            [leaf] => return Self::of(*leaf),
            _ => {}
        }
        let mut thickness = Nominal::ZERO;
        for leaf in &leaves {
            leaf.check()?;
            thickness = thickness.plus(leaf.nominal())?;
        }
        Ok(Self {
            leaves: Leaves::Several(leaves),
            thickness,
        })
    }

    /// A single leaf.
    ///
    /// # Errors
    /// [`FeelerError::LeafNotPositive`]; [`FeelerError::Negative`] for a tolerance.
    ///
    /// ```
    /// use lashwork::feeler::{Leaf, Stack};
    /// use lashwork::quantity::Marked;
    /// let leaf = Leaf::new(Marked::parse("0.10 mm")?);
    /// assert_eq!(Stack::of(leaf)?, Stack::new(vec![leaf])?);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn of(leaf: Leaf) -> Result<Self, FeelerError> {
        leaf.check()?;
        Ok(Self::of_checked(leaf))
    }

    /// A single leaf of a set, which has checked it.
    pub(super) const fn of_checked(leaf: Leaf) -> Self {
        Self {
            thickness: leaf.nominal(),
            leaves: Leaves::One(leaf),
        }
    }

    /// The leaves in the order they are named.
    #[must_use]
    pub fn leaves(&self) -> &[Leaf] {
        match &self.leaves {
            Leaves::One(leaf) => core::slice::from_ref(leaf),
            Leaves::Several(leaves) => leaves,
        }
    }

    /// The exact sum of the marks.
    #[must_use]
    pub const fn thickness(&self) -> Nominal {
        self.thickness
    }

    /// True if at least one leaf states no tolerance of its own.
    #[must_use]
    pub fn needs_default(&self) -> bool {
        self.leaves().iter().any(|leaf| leaf.tolerance.is_none())
    }

    /// Half width of the stack's tolerance in millimetres; `default` is taken for each leaf that
    /// states none (see [`assumed_leaf_tolerance`](super::assumed_leaf_tolerance)), `joint` for what lies
    /// between each two (see [`assumed_joint`](super::assumed_joint)).
    ///
    /// The two combinations agree for a single leaf; for `k` leaves of tolerance `t` they are
    /// `k t` and `t sqrt k`. Joints add plainly in both: the same oil is in all of them.
    ///
    /// # Errors
    /// [`FeelerError::Negative`] for a `default` or a `joint` below zero.
    ///
    /// # Source
    /// Worst-case and statistical stacking; root of the sum of squares as JCGM 100:2008, 5.1.2.
    ///
    /// ```
    /// use lashwork::feeler::{Combination, Leaf, Stack, assumed_joint, assumed_leaf_tolerance};
    /// use lashwork::quantity::Marked;
    /// let leaf = Leaf::new(Marked::parse("0.010 in")?);
    /// let four = Stack::new(vec![leaf; 4])?;
    /// let (t, joint) = (assumed_leaf_tolerance(), assumed_joint());
    /// let worst = four.tolerance(Combination::WorstCase, t, joint)?;
    /// let likely = four.tolerance(Combination::RootSumSquare, t, joint)?;
    /// assert!((worst - 4.0 * t.mm() - 3.0 * joint.mm()).abs() < 1e-12);
    /// assert!((likely - 2.0 * t.mm() - 3.0 * joint.mm()).abs() < 1e-12);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn tolerance(
        &self,
        combination: Combination,
        default: Marked,
        joint: Marked,
    ) -> Result<f64, FeelerError> {
        not_negative("the tolerance taken for a leaf", default)?;
        not_negative("the joint between two leaves", joint)?;
        let each = self
            .leaves()
            .iter()
            .map(|leaf| leaf.tolerance.unwrap_or(default).mm());
        let leaves: f64 = match combination {
            Combination::WorstCase => each.sum(),
            Combination::RootSumSquare => libm::sqrt(each.map(|t| t * t).sum()),
        };
        let joints: f64 = self.leaves().iter().skip(1).map(|_| joint.mm()).sum();
        Ok(leaves + joints)
    }
}

const AND: &str = " + ";

impl fmt::Display for Stack {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, leaf) in self.leaves().iter().enumerate() {
            if i > 0 {
                f.write_str(AND)?;
            }
            write!(f, "{}", leaf.mark)?;
        }
        Ok(())
    }
}

/// Reads the marks that `Display` writes: `0.10 mm + 0.05 mm`.
impl FromStr for Stack {
    type Err = FeelerError;

    fn from_str(text: &str) -> Result<Self, FeelerError> {
        let marks = text.split(AND.trim()).map(Marked::parse);
        Self::new(
            marks
                .map(|mark| mark.map(Leaf::new))
                .collect::<Result<_, _>>()?,
        )
    }
}

impl Serialize for Stack {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_struct("Stack", 2)?;
        map.serialize_field("leaves", self.leaves())?;
        map.serialize_field("thickness", &self.thickness)?;
        map.end()
    }
}
