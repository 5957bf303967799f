//! The linkage as a tree from the reference outwards.

use super::{BalanceError, JoinedBy, Joint};
use alloc::collections::VecDeque;
use alloc::vec::Vec;
use serde::Serialize;

/// A joint seen from the reference.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(super) struct Branch {
    /// Its place among the joints.
    pub(super) joint: usize,
    /// The throttle on the side of the reference.
    pub(super) near: usize,
    /// The throttle on the other side.
    pub(super) far: usize,
    /// Everything beyond, the far throttle first.
    pub(super) beyond: Vec<usize>,
}

/// Throttles, what joins them, and the one that has no screw.
///
/// A throttle with a stop screw of its own, joined to nothing, is joined to the reference by that screw.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::mixture::balance::{Joint, Linkage};
/// # fn example() -> Result<(), Vec<lashwork::mixture::balance::BalanceError>> {
/// // Two pairs with a screw each, and one from pair to pair; the second has none of its own.
/// let screws = [Joint::screw(0, 1), Joint::screw(2, 3), Joint::screw(1, 2)];
/// let four = Linkage::new(4, &[1], &screws)?;
/// assert_eq!(four.beyond(2), [2, 3]);
/// let loop_back = [Joint::screw(0, 1), Joint::screw(1, 2), Joint::screw(2, 0)];
/// let refused = Linkage::new(3, &[0], &loop_back).unwrap_err();
/// assert_eq!(refused[0].code(), "mixture.linkage-loop");
/// # Ok(())
/// # }
/// # example().unwrap();
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Linkage {
    count: usize,
    reference: usize,
    joints: Vec<Joint>,
    branches: Vec<Branch>,
    alike: bool,
}

impl Linkage {
    /// Fewest throttles to balance.
    pub const FEWEST: usize = 2;
    /// Most throttles.
    pub const MOST: usize = 12;

    /// Takes the number of throttles, the one to which the others are set, and the joints.
    ///
    /// # Errors
    /// Every problem found: [`BalanceError::Count`], [`BalanceError::NoReference`],
    /// [`BalanceError::TwoReferences`], [`BalanceError::NoSuchThrottle`], [`BalanceError::JoinedToItself`],
    /// [`BalanceError::Loop`], [`BalanceError::NoPath`].
    pub fn new(
        count: usize,
        references: &[usize],
        joints: &[Joint],
    ) -> Result<Self, Vec<BalanceError>> {
        let reference = reference_of(count, references, joints)?;
        let branches = branches(count, reference, joints);
        let reached = |throttle: &usize| {
            *throttle == reference || branches.iter().any(|branch| branch.far == *throttle)
        };
        let cut_off: Vec<BalanceError> = (0..count)
            .filter(|throttle| !reached(throttle))
            .map(|throttle| BalanceError::NoPath { throttle })
            .collect();
        if !cut_off.is_empty() {
            return Err(cut_off);
        }
        Ok(Self {
            count,
            reference,
            joints: joints.to_vec(),
            branches,
            alike: false,
        })
    }

    /// States that a turn of any screw does as much as one of any other, so that a trial of one serves all,
    /// each in its own sense.
    ///
    /// ```
    /// use lashwork::mixture::balance::{Joint, Linkage};
    /// let pair = Linkage::new(2, &[0], &[Joint::screw(0, 1)]).unwrap().screws_alike();
    /// assert!(pair.are_alike());
    /// ```
    #[must_use]
    pub fn screws_alike(mut self) -> Self {
        self.alike = true;
        self
    }

    /// Whether that was stated.
    #[must_use]
    pub const fn are_alike(&self) -> bool {
        self.alike
    }

    /// How many throttles there are.
    #[must_use]
    pub const fn count(&self) -> usize {
        self.count
    }

    /// The throttle to which the others are set.
    #[must_use]
    pub const fn reference(&self) -> usize {
        self.reference
    }

    /// The joints as given.
    #[must_use]
    pub fn joints(&self) -> &[Joint] {
        &self.joints
    }

    /// The throttles beyond a joint, seen from the reference, the nearest first; none if there is no such
    /// joint.
    #[must_use]
    pub fn beyond(&self, joint: usize) -> &[usize] {
        let found = self.branches.iter().find(|branch| branch.joint == joint);
        found.map_or(&[], |branch| &branch.beyond)
    }

    /// Joints from the reference outwards.
    pub(super) fn branches(&self) -> &[Branch] {
        &self.branches
    }

    pub(super) fn joined_by(&self, joint: usize) -> Option<JoinedBy> {
        self.joints.get(joint).map(|joint| joint.by)
    }

    /// For each throttle the number of its rigid group; that of the reference is 0.
    pub(super) fn groups(&self) -> Vec<usize> {
        let mut group = alloc::vec![0; self.count];
        let mut next = 1;
        for branch in &self.branches {
            let own = if self.joined_by(branch.joint) == Some(JoinedBy::Rigidly) {
                group.get(branch.near).copied().unwrap_or(0)
            } else {
                next += 1;
                next - 1
            };
            if let Some(place) = group.get_mut(branch.far) {
                *place = own;
            }
        }
        group
    }
}

fn reference_of(
    count: usize,
    references: &[usize],
    joints: &[Joint],
) -> Result<usize, Vec<BalanceError>> {
    if !(Linkage::FEWEST..=Linkage::MOST).contains(&count) {
        return Err(alloc::vec![BalanceError::Count { got: count }]);
    }
    let mut problems = Vec::new();
    let mut there = |throttle: usize| {
        if throttle >= count {
            problems.push(BalanceError::NoSuchThrottle { throttle, count });
        }
    };
    for throttle in references
        .iter()
        .chain(joints.iter().flat_map(|j| &j.between))
    {
        there(*throttle);
    }
    match references {
        [] => problems.push(BalanceError::NoReference),
        [_] => {}
        [first, second, ..] => problems.push(BalanceError::TwoReferences {
            first: *first,
            second: *second,
        }),
    }
    if problems.is_empty() {
        problems = loops(count, joints);
    }
    match references.first() {
        Some(reference) if problems.is_empty() => Ok(*reference),
        _ => Err(problems),
    }
}

/// Joints between throttles that are joined already.
fn loops(count: usize, joints: &[Joint]) -> Vec<BalanceError> {
    let mut part: Vec<usize> = (0..count).collect();
    let mut problems = Vec::new();
    for (place, joint) in joints.iter().enumerate() {
        let [one, other] = joint.between;
        let of = |throttle: usize| part.get(throttle).copied();
        if one == other {
            problems.push(BalanceError::JoinedToItself { joint: place });
        } else if of(one) == of(other) {
            problems.push(BalanceError::Loop {
                joint: place,
                one,
                other,
            });
        } else if let Some((keep, drop)) = of(one).zip(of(other)) {
            for own in part.iter_mut().filter(|own| **own == drop) {
                *own = keep;
            }
        }
    }
    problems
}

/// Breadth first, so that what is nearer to the reference comes earlier.
fn branches(count: usize, reference: usize, joints: &[Joint]) -> Vec<Branch> {
    let mut found: Vec<Branch> = Vec::new();
    let mut waiting = VecDeque::from([reference]);
    while let Some(near) = waiting.pop_front() {
        for (place, joint) in joints.iter().enumerate() {
            let [one, other] = joint.between;
            let far = if one == near { other } else { one };
            let is_here = one == near || other == near;
            if !is_here || found.iter().any(|branch| branch.joint == place) {
                continue;
            }
            found.push(Branch {
                joint: place,
                near,
                far,
                beyond: Vec::with_capacity(count),
            });
            waiting.push_back(far);
        }
    }
    let ways: Vec<(usize, usize)> = found.iter().map(|b| (b.near, b.far)).collect();
    for branch in &mut found {
        branch.beyond.push(branch.far);
        // A way further out comes later in the list than the way to its near end.
        for (near, far) in &ways {
            if branch.beyond.contains(near) && *far != branch.far {
                branch.beyond.push(*far);
            }
        }
    }
    found
}
