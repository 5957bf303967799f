//! Prints the job sheet of a document read from standard input.
use std::io::Read;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut document = Vec::new();
    std::io::stdin().read_to_end(&mut document)?;
    match lashwork_wire::job_sheet(&document) {
        Ok(text) => print!("{text}"),
        Err(text) => {
            print!("{text}");
            std::process::exit(1);
        }
    }
    Ok(())
}
