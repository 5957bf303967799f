//! Packages of a Debian-like distribution.

use crate::output::say;
use crate::step::{Outcome, run};
use std::process::{Command, Stdio};
use std::sync::OnceLock;

/// Whether this process may install packages with apt-get.
pub(crate) fn may_install() -> bool {
    let asked = |program: &str, argument: &str| {
        let mut command = Command::new(program);
        command.arg(argument).stderr(Stdio::null()).output()
    };
    let is_root = asked("id", "-u").is_ok_and(|found| found.stdout.trim_ascii() == b"0");
    is_root && asked("apt-get", "--version").is_ok_and(|found| found.status.success())
}

/// Installs packages, or upgrades those that are there.
pub(crate) fn install(packages: &[&str]) -> Outcome {
    refresh();
    let mut words = vec!["install", "-y", "-qq", "--no-install-recommends"];
    words.extend(packages);
    run(apt_get().args(words))
}

/// Gets the package lists, once a run: those of a machine that is new are missing or old, and old lists
/// name versions that are too old or gone.
fn refresh() {
    static DONE: OnceLock<()> = OnceLock::new();
    DONE.get_or_init(|| {
        // Without a network the lists that are there may still do; the install says so if not.
        if let Err(why) = run(apt_get().args(["update", "-qq"])) {
            say!("{why}; going on with the package lists that are there");
        }
    });
}

fn apt_get() -> Command {
    let mut command = Command::new("apt-get");
    command.env("DEBIAN_FRONTEND", "noninteractive");
    command
}
