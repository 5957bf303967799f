//! Judges one gap with typed values, without a document: the piece of code in README.md.
use lashwork::feeler::{Combination, Leaf, Reading, Stack, assumed_leaf_tolerance};
use lashwork::quantity::Marked;
use lashwork::tolerance::{DecisionRule, LashEstimate, LashUncertainty, Limits, Verdict, judge};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let leaf = |text| -> Result<Stack, Box<dyn std::error::Error>> {
        Ok(Stack::new(vec![Leaf::new(Marked::parse(text)?)])?)
    };
    // 0.12 mm goes in, 0.15 mm does not.
    let reading = Reading::between(leaf("0.12 mm")?, leaf("0.15 mm")?)?;
    let felt = reading.felt(Combination::WorstCase, assumed_leaf_tolerance(), None)?;
    let (Some(low), Some(high)) = (felt.low, felt.high) else {
        return Err("the gap is open at one end".into());
    };
    let u = LashUncertainty::from_mm(felt.standard_uncertainty_mm)?;
    let estimate = LashEstimate::between(low, high, u)?;

    let limits = Limits::between(Marked::parse("0.006 in")?, Marked::parse("0.010 in")?)?;
    let judgement = judge(&estimate, &limits, &DecisionRule::guarded_tight());
    assert_eq!(judgement.verdict, Verdict::Tight);
    println!(
        "tight with {:.1} %",
        judgement.probabilities.tight.least * 100.0
    );
    Ok(())
}
