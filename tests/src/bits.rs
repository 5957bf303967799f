//! A digest of an answer, by which answers of different machines and languages are compared.

use fnv::FnvHasher;
use std::hash::Hasher;

/// The place of a digest in a line, where what answers does not offer the call.
pub const NOT_OFFERED: &str = "-";

/// FNV-1a of 64 bits over the parts of an answer, with their lengths in front, in sixteen hexadecimal digits.
#[must_use]
pub fn digest(parts: &[&[u8]]) -> String {
    let mut hasher = FnvHasher::default();
    for part in parts {
        // Not as a number: that would be hashed as it lies in the memory of this machine.
        hasher.write(part.len().to_string().as_bytes());
        hasher.write(b":");
        hasher.write(part);
    }
    format!("{:016x}", hasher.finish())
}

/// A line of a vector: its file, its name and a digest, tabs between them.
#[must_use]
pub fn line(file: &str, name: &str, digest: &str) -> String {
    format!("{file}\t{name}\t{digest}\n")
}
