"""The copy of the sources with all changes in it, and the test programs made of it."""

import bisect
import hashlib
import json
import os
import re
import shutil
import subprocess
from pathlib import Path

from weave import Source

ROOT = Path(__file__).resolve().parents[4]
#: Packages whose tests, beside those of `tests`, are asked.
TESTED = ["lashwork-tests", "lashwork-wire", "lashwork-tails", "lashwork"]
CHANGED = ["lashwork", "lashwork-tails", "lashwork-wire"]
ROUNDS = 40

SWITCH = '''//! Which change is there: the number in `MUTANT`; `trace` writes those that are asked for to the file `MUTANT_TRACE`.
#![feature(core_intrinsics, const_eval_select)]
#![allow(internal_features)]

use std::io::Write;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering::Relaxed};

const UNREAD: u32 = u32::MAX;
const TRACE: u32 = u32::MAX - 1;
static CHOSEN: AtomicU32 = AtomicU32::new(UNREAD);
static SEEN: [AtomicBool; 1 << 15] = [const { AtomicBool::new(false) }; 1 << 15];

#[inline(always)]
pub const fn on(number: u32) -> bool {
    core::intrinsics::const_eval_select((number,), never, asked)
}

const fn never(_: u32) -> bool {
    false
}

#[inline]
fn asked(number: u32) -> bool {
    let chosen = CHOSEN.load(Relaxed);
    if chosen < TRACE { chosen == number } else { slowly(number, chosen) }
}

#[cold]
fn slowly(number: u32, chosen: u32) -> bool {
    if chosen == UNREAD {
        let said = std::env::var("MUTANT").unwrap_or_default();
        CHOSEN.store(if said == "trace" { TRACE } else { said.parse().unwrap_or(0) }, Relaxed);
        return asked(number);
    }
    if !SEEN[number as usize].swap(true, Relaxed) {
        let file = std::env::var("MUTANT_TRACE").expect("MUTANT_TRACE");
        let mut file = std::fs::OpenOptions::new().create(true).append(true).open(file).expect("a file");
        file.write_all(format!("{number}\\n").as_bytes()).expect("written");
    }
    false
}
'''


def tracked():
    """The files of the repository that are there."""
    names = subprocess.check_output(["git", "ls-files", "-z"], cwd=ROOT, text=True).split("\0")
    return sorted(name for name in names if name and (ROOT / name).is_file())


def fingerprints():
    """What tells these sources from others."""
    programs = [name for name in tracked() if name.endswith((".rs", ".toml", ".lock", ".json"))]
    return [f"{name} {hashlib.sha256((ROOT / name).read_bytes()).hexdigest()}" for name in programs]


def copy(into):
    """The tracked files, with the switch as one more package."""
    shutil.rmtree(into, ignore_errors=True)
    for name in tracked():
        (into / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy2(ROOT / name, into / name)
    switch = into / "crates/mutant-switch"
    (switch / "src").mkdir(parents=True)
    (switch / "src/lib.rs").write_text(SWITCH)
    (switch / "Cargo.toml").write_text(
        '[package]\nname = "mutant_switch"\nversion = "0.1.0"\nedition = "2024"\n[lib]\ntest = false\ndoctest = false\n'
    )
    workspace = into / "Cargo.toml"
    workspace.write_text(workspace.read_text().replace("members = [", 'members = ["crates/mutant-switch",', 1))
    for crate in CHANGED:
        manifest = into / "crates" / crate / "Cargo.toml"
        text = manifest.read_text()
        manifest.write_text(text.replace("[dependencies]", '[dependencies]\nmutant_switch = { path = "../mutant-switch" }', 1))
        root = f"crates/{crate}/src/lib.rs"
        (into / root).write_text(original(root).decode())


def original(file):
    """A file as it is, for programs with std: changes are written for them."""
    text = (ROOT / file).read_bytes()
    return text.replace(b"#![no_std]", b"          ").replace(b"#![forbid(unsafe_code)]", b"") if file.endswith("src/lib.rs") else text


def weave(tree, files, mutants):
    """Writes the files with the changes in them; returns the changes that it cannot weave."""
    by_file = {file: [] for file in files}
    for mutant in mutants:
        by_file[mutant.file].append(mutant)
    left = set()
    for file, of_file in by_file.items():
        source = Source(original(file))
        left |= {mutant.number for mutant in of_file if not source.add(mutant)}
        (tree / file).write_text(source.woven())
    return left


def cargo(tree, target, *words):
    own = {
        "CARGO_TARGET_DIR": str(target),
        "CARGO_INCREMENTAL": "0",
        "RUSTC_BOOTSTRAP": "mutant_switch",
        "RUSTFLAGS": "--cap-lints allow",
    }
    ran = subprocess.run(
        ["cargo", *words, "--message-format=json"], cwd=tree, env=os.environ | own, text=True, capture_output=True
    )
    return ran.returncode, [json.loads(line) for line in ran.stdout.splitlines() if line.startswith("{")], ran.stderr


def blamed(tree, messages):
    """The changes that the compiler's errors point at."""
    guilty = set()
    for message in messages:
        told = message.get("message", {})
        if message["reason"] != "compiler-message" or told.get("level") != "error":
            continue
        for span in filter(lambda it: (tree / it["file_name"]).exists(), map(outermost, told["spans"])):
            if (number := around(tree / span["file_name"], span["byte_start"], span["byte_end"])) is not None:
                guilty.add(number)
                break
    return guilty


def outermost(span):
    """Where a macro was called, for what the compiler met in it."""
    while expansion := span.get("expansion"):
        span = expansion["span"]
    return span


def around(file, start, end):
    """The change whose own text, or else whose choice, holds a stretch of the file; else the nearest before it."""
    text = file.read_bytes()
    asked = [(it.start(), int(it[1])) for it in re.finditer(rb"mutant_switch::on\((\d+)\)", text)]
    holding = [it for it in asked if it[0] < start and holds(text, it[0], end)]
    if holding:
        return holding[-1][1]
    inside = [number for at, number in asked if start <= at < end]
    if inside:
        return inside[0]
    before = bisect.bisect(asked, (start, 0)) - 1
    return asked[before][1] if before >= 0 else None


def holds(text, at, end):
    """Whether the braces behind a question reach to `end`."""
    opened = text.find(b"{", at)
    depth = 0
    for place in range(opened, min(end + 1, len(text))):
        depth += {123: 1, 125: -1}.get(text[place], 0)
        if depth == 0:
            return place >= end
    return opened != -1 and opened < end


def programs(work, mutants):
    """Test programs with every change that compiles, and what is known of the others."""
    tree, target = work / "tree", work / "target"
    copy(tree)
    outcomes = {}
    files = sorted({mutant.file for mutant in mutants})
    packages = [word for name in TESTED for word in ("-p", name)]
    for turn in range(ROUNDS):
        woven = [mutant for mutant in mutants if mutant.number not in outcomes]
        outcomes |= dict.fromkeys(weave(tree, files, woven), "not woven")
        changed = [word for name in CHANGED for word in ("-p", name)]
        words = ["check", *changed] if turn == 0 or guilty else ["test", "--no-run", *packages]
        code, messages, said = cargo(tree, target, *words)
        guilty = blamed(tree, messages)
        print(f"round {turn + 1}: {len(woven)} changes woven, {len(guilty)} do not compile", flush=True)
        outcomes |= dict.fromkeys(guilty, "not compiled")
        if code and not guilty:
            raise SystemExit(said[-4000:])
        if not code and words[0] == "test":
            return sorted(it["executable"] for it in messages if it.get("executable")), outcomes
    raise SystemExit("changes that do not compile come to no end")
