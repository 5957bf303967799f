//! One reading judged: what the README shows.

use lashwork::{feeler::Reading, tolerance::Limits};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let reading: Reading = "0.12 mm goes, 0.15 mm does not".parse()?;
    let limits: Limits<_> = "0.006 in to 0.010 in".parse()?;
    let found = reading.estimate()?.judged_by(&limits);
    let percent = 100.0 * found.probabilities.below.least;
    println!("{} with {percent:.1} %", found.verdict);
    Ok(())
}
