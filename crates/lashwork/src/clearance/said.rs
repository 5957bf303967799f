//! A verdict in the words of lash, no stronger than its probability.

use crate::tolerance::{Firmness, Probabilities, Verdict};

/// A verdict in the words of lash, no stronger than its probability: from 95 % on as it is, below that
/// with its doubt.
///
/// ```
/// use lashwork::clearance::said;
/// use lashwork::quantity::Lash;
/// use lashwork::tolerance::{Estimate, HasLimits, Limits, Uncertainty, Verdict, judge};
/// let limits: Limits<Lash> = "0.15 mm to 0.25 mm".parse()?;
/// let word = |low, high| -> Result<_, Box<dyn std::error::Error>> {
///     let felt = Estimate::between(Lash::from_mm(low)?, Lash::from_mm(high)?, Uncertainty::ZERO)?;
///     let judged = judge(&felt, &limits, &Lash::USUAL_RULE);
///     Ok(said(judged.verdict, &judged.probabilities))
/// };
/// assert_eq!(word(0.10, 0.12)?, "tight");
/// assert_eq!(word(0.10, 0.18)?, "probably tight");
/// assert_eq!(word(0.20, 0.22)?, "in band");
/// assert_eq!(word(0.20, 0.28)?, "probably in band");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub const fn said(verdict: Verdict, p: &Probabilities) -> &'static str {
    match (verdict, Firmness::of(verdict, p)) {
        (Verdict::CannotSay, _) | (_, Firmness::CannotSay) => "cannot say",
        (_, Firmness::NotShownOut) => Firmness::NOT_SHOWN_OUT,
        (Verdict::Below, Firmness::Firm) => "tight",
        (Verdict::Below, _) => "probably tight",
        (Verdict::Above, Firmness::Firm) => "loose",
        (Verdict::Above, _) => "probably loose",
        (Verdict::InBand, Firmness::Firm) => "in band",
        (Verdict::InBand, _) => "probably in band",
    }
}
