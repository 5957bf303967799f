//! Judges one gap: the program in README.md.
fn main() -> Result<(), Box<dyn std::error::Error>> {
    use lashwork::{feeler::Reading, tolerance::Limits};

    let reading: Reading = "0.12 mm goes, 0.15 mm does not".parse()?;
    let limits: Limits<_> = "0.006 in to 0.010 in".parse()?;
    let found = reading.estimate()?.judged_by(&limits);
    println!(
        "{} with {:.1} %",
        found.verdict,
        100.0 * found.probabilities.below.least
    );
    Ok(())
}
