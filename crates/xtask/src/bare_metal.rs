//! Proof that the core needs no operating system: it is built for a processor without one.

use crate::step::{Outcome, run};
use crate::toolchain::Target;

/// The target.
pub(crate) const BARE: Target = Target {
    name: "thumbv7em-none-eabihf",
    library: "core,alloc",
    features: "",
    links: false,
    directory: "target-bare",
};

/// Builds crate lashwork for the bare-metal target. Optimised or not, it needs the same; not optimised,
/// the library is built in a third of the time.
pub(crate) fn build() -> Outcome {
    let (mut build, _) = BARE.build()?;
    run(build.args(["--package", "lashwork"]))
}
