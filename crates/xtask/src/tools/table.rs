//! Every program that the checks start and Rust does not bring, and the least version of each.

/// A program, what asks it for its version, and where it comes from.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Tool {
    /// What is started.
    pub(crate) program: &'static str,
    /// Arguments that make it print its version, and fail if it cannot be used.
    pub(crate) ask: &'static [&'static str],
    /// The least version; where several are stated, each is that of its major number.
    pub(crate) least: &'static [&'static str],
    /// The packages of the distribution that have it.
    pub(crate) packages: &'static [&'static str],
    /// Files that must be there as well.
    pub(crate) files: &'static [&'static str],
    /// What it is for, and why not an older one.
    pub(crate) purpose: &'static str,
}

/// What most rows have in common.
pub(crate) const PLAIN: Tool = Tool {
    program: "",
    ask: &["--version"],
    least: &[],
    packages: &[],
    files: &[],
    purpose: "",
};

/// What a compiler that builds the library for a target from its source must be: the version of the
/// workspace.
const RUST: &str = env!("CARGO_PKG_RUST_VERSION");

pub(crate) const GCC: Tool = Tool {
    program: "gcc",
    least: &["9"],
    packages: &["gcc"],
    purpose: "compiles the C tests, up to -std=c2x",
    ..PLAIN
};

pub(crate) const GXX: Tool = Tool {
    program: "g++",
    least: &["10"],
    packages: &["g++"],
    purpose: "compiles the header, up to -std=c++20",
    ..PLAIN
};

pub(crate) const CLANG: Tool = Tool {
    program: "clang",
    least: &["10"],
    packages: &["clang"],
    purpose: "compiles the header, up to -std=c2x and -std=c++20",
    ..PLAIN
};

pub(crate) const VALGRIND: Tool = Tool {
    program: "valgrind",
    least: &["3.18"],
    packages: &["valgrind"],
    purpose: "watches the C tests; reads DWARF 5",
    ..PLAIN
};

pub(crate) const CMAKE: Tool = Tool {
    program: "cmake",
    least: &["3.20"],
    packages: &["cmake"],
    purpose: "builds a consumer of the C library; `ctest --test-dir`",
    ..PLAIN
};

pub(crate) const MAKE: Tool = Tool {
    program: "make",
    least: &["4.0"],
    packages: &["make"],
    purpose: "builds what cmake plans",
    ..PLAIN
};

pub(crate) const PKG_CONFIG: Tool = Tool {
    program: "pkg-config",
    least: &["0.29"],
    packages: &["pkg-config"],
    purpose: "finds the installed C library",
    ..PLAIN
};

pub(crate) const LUAJIT: Tool = Tool {
    program: "luajit",
    ask: &["-v"],
    least: &["2.1"],
    packages: &["luajit"],
    purpose: "calls the C library from Lua",
    ..PLAIN
};

pub(crate) const PYTHON: Tool = Tool {
    program: "python3",
    // Without ensurepip an environment comes without pip.
    ask: &["-c", "import ensurepip, sys; print(sys.version)"],
    least: &["3.11"],
    packages: &["python3", "python3-venv"],
    purpose: "calls the C library from Python; the pinned numpy asks for this version",
    ..PLAIN
};

pub(crate) const NODE: Tool = Tool {
    program: "node",
    least: &["20.19", "22.12"],
    packages: &["nodejs"],
    purpose: "runs the npm package; loads a module by `require`",
    ..PLAIN
};

pub(crate) const NPM: Tool = Tool {
    program: "npm",
    least: &["9.0"],
    packages: &["npm"],
    purpose: "installs the pinned packages of npm",
    ..PLAIN
};

/// Node and npm as packages of npm, for a distribution whose node is too old; the first name is
/// completed with the processor's.
pub(crate) const NODE_FROM_NPM: [&str; 2] = ["22.23.3", "10.9.9"];

pub(crate) const CHROMIUM: Tool = Tool {
    program: "/usr/bin/chromium-headless-shell",
    least: &["111"],
    packages: &["chromium-headless-shell"],
    purpose: "runs the page; the oldest that the page is built for, without windows: half the work",
    ..PLAIN
};

pub(crate) const SCRIPT: Tool = Tool {
    program: "script",
    least: &["2.33"],
    packages: &["bsdutils"],
    purpose: "gives the program a terminal in its tests",
    ..PLAIN
};

pub(crate) const DOXYGEN: Tool = Tool {
    program: "doxygen",
    least: &["1.9.2"],
    packages: &["doxygen"],
    purpose: "writes the header as pages, and fails on a warning",
    ..PLAIN
};

pub(crate) const JAVA: Tool = Tool {
    program: "java",
    least: &["17"],
    packages: &["default-jre-headless"],
    purpose: "runs Spark; the pinned one asks for this version",
    ..PLAIN
};

/// The distribution's compiler, where the one in use lacks a target.
pub(crate) const RUSTC: Tool = Tool {
    program: "/usr/bin/rustc",
    least: &[RUST],
    packages: &["rustc-web", "rust-web-src"],
    files: &["/usr/lib/rustlib/src/rust/library/core/Cargo.toml"],
    purpose: "builds Rust's library from its source for a target that the compiler in use lacks",
    ..PLAIN
};

pub(crate) const LINKER: Tool = Tool {
    program: "wasm-ld",
    least: &["14"],
    packages: &["lld"],
    purpose: "links WebAssembly where no `rust-lld` came with the compiler",
    ..PLAIN
};
