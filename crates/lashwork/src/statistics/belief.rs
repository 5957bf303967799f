//! Belief over things that exclude each other: its sum, its doubt, and what a look takes away of it.
//!
//! # Source
//! Bayes' rule; C. E. Shannon, "A mathematical theory of communication", 1948: entropy and mutual information.

use alloc::vec::Vec;

/// The logarithm of a share that a sum of doubles does not see, be there thousands of it.
const NOTHING_BESIDE: f64 = -50.0;

/// The logarithm of a sum of numbers given by their logarithms; minus infinity of none.
pub(crate) fn ln_sum(terms: impl Iterator<Item = f64> + Clone) -> f64 {
    let great = terms.clone().fold(f64::NEG_INFINITY, f64::max);
    if great == f64::NEG_INFINITY {
        return great;
    }
    // What is smaller than a double can tell beside the greatest costs time and changes nothing.
    let sum: f64 = terms
        .map(|t| t - great)
        .filter(|t| *t > NOTHING_BESIDE)
        .map(libm::exp)
        .sum();
    great + libm::log(sum)
}

/// The doubt in something that has these chances, in bits.
///
/// ```
/// use lashwork::statistics::entropy;
/// assert_eq!(entropy(&[0.25; 4]), 2.0);
/// assert_eq!(entropy(&[1.0, 0.0]), 0.0);
/// ```
#[must_use]
pub fn entropy(chances: &[f64]) -> f64 {
    let part = |p: &f64| if *p > 0.0 { -p * libm::log2(*p) } else { 0.0 };
    chances.iter().map(part).sum()
}

/// The doubt that a look is expected to take away, in bits: the mutual information of what it finds and what is
/// the case, from the probability of each case and the chances of what the look finds then.
///
/// ```
/// use lashwork::statistics::expected_bits;
/// // A look that tells two equal cases apart is worth one bit; one that finds the same either way, nothing.
/// assert_eq!(expected_bits([(0.5, vec![1.0, 0.0]), (0.5, vec![0.0, 1.0])]), 1.0);
/// assert_eq!(expected_bits([(0.5, vec![0.3, 0.7]), (0.5, vec![0.3, 0.7])]), 0.0);
/// ```
#[must_use]
pub fn expected_bits(cases: impl IntoIterator<Item = (f64, Vec<f64>)>) -> f64 {
    let mut together: Vec<f64> = Vec::new();
    let mut noise = 0.0;
    for (probability, chances) in cases {
        noise += probability * entropy(&chances);
        together.resize(chances.len(), 0.0);
        for (sum, chance) in together.iter_mut().zip(&chances) {
            *sum += probability * chance;
        }
    }
    entropy(&together) - noise
}
