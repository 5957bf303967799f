//! How much of the evidence that the model reckons is borne out by simulated engines.
//!
//! # Method
//! What the model reckons of a cause, in decibans above what was taken before, is carried through one rising line of three
//! pieces, the same for all causes: what speaks against a cause stays, nothing seen stays nothing. The knots are the grades
//! of [`super::Strength`]. The three slopes are those of greatest likelihood (a logistic regression whose offset is what was taken
//! before) on 9,000 engines of the held-out generator, seeds from 1,000,000 on; the other seeds and the other generators
//! had no part in it. It is calibration as in M. Kull, T. Silva Filho and P. Flach, "Beta calibration", AISTATS 2017, but of
//! evidence in place of probabilities, so that what is met before anything is seen stays what it is.
//!
//! # Why it is not straight
//! One look that speaks for something makes all that a slight cause leaves unseen likelier than two grades of it can say; and
//! looks that agree are not strangers to each other.

/// From so many decibans on, one that is reckoned is borne out by so many.
pub const BORNE_OUT: [(f64, f64); 3] = [(0.0, 1.86), (5.0, 0.71), (15.0, 0.52)];

/// How many decibans are borne out, of so many that the model reckons.
///
/// ```
/// use lashwork::causes::borne_out;
/// // What speaks against a cause stays; a weak sign for it says more than was reckoned, a heavy one less.
/// assert_eq!(borne_out(-7.0), -7.0);
/// assert!(borne_out(3.0) > 5.0 && borne_out(40.0) < 30.0);
/// ```
#[must_use]
pub fn borne_out(reckoned: f64) -> f64 {
    let ends = BORNE_OUT.iter().skip(1).map(|(from, _)| *from);
    let pieces = BORNE_OUT.iter().zip(ends.chain([f64::INFINITY]));
    let above: f64 = pieces
        .map(|((from, slope), to)| slope * (reckoned.min(to) - from).max(0.0))
        .sum();
    above + reckoned.min(0.0)
}
