//! Versions as programs print them, and whether one is enough.

use std::cmp::Ordering;
use std::fmt;

/// Numbers between dots, the most important first.
#[derive(Debug, Clone)]
pub(crate) struct Version(Vec<u64>);

impl Version {
    /// The first numbers with a dot between them in what a program prints of itself.
    pub(crate) fn find(printed: &str) -> Option<Self> {
        let is_part = |c: char| c.is_ascii_digit() || c == '.';
        printed
            .split(|c| !is_part(c))
            .find_map(|word| Self::parse(word.trim_matches('.')).filter(|found| found.0.len() > 1))
    }

    /// Numbers between dots and nothing else.
    pub(crate) fn parse(text: &str) -> Option<Self> {
        let numbers: Result<Vec<u64>, _> = text.split('.').map(str::parse).collect();
        numbers.ok().map(Self)
    }

    fn major(&self) -> Option<&u64> {
        self.0.first()
    }

    /// Whether this one is enough. Where several are stated, each holds for its own major number,
    /// one between them is not enough, and one above the last is.
    pub(crate) fn is_enough(&self, least: &[&str]) -> bool {
        let stated = || least.iter().filter_map(|text| Self::parse(text));
        let of_its_own = stated().find(|one| one.major() == self.major());
        match of_its_own.or_else(|| stated().next_back()) {
            Some(one) => self >= &one,
            None => false,
        }
    }
}

/// A number that is not stated counts as zero: 1.88 is 1.88.0.
impl Ord for Version {
    fn cmp(&self, other: &Self) -> Ordering {
        let length = self.0.len().max(other.0.len());
        let padded = |numbers: &[u64]| -> Vec<u64> {
            let zeros = std::iter::repeat(0);
            numbers.iter().copied().chain(zeros).take(length).collect()
        };
        padded(&self.0).cmp(&padded(&other.0))
    }
}

impl PartialOrd for Version {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Version {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Version {}

impl fmt::Display for Version {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let numbers: Vec<String> = self.0.iter().map(u64::to_string).collect();
        f.write_str(&numbers.join("."))
    }
}

#[cfg(test)]
mod tests {
    use super::Version;

    #[test]
    fn finds_the_version_in_what_programs_print() {
        for (printed, expected) in [
            ("gcc (Debian 12.2.0-14+deb12u1) 12.2.1\nCopyright", "12.2.0"),
            ("Debian clang version 14.0.6\nTarget: x86_64", "14.0.6"),
            ("valgrind-3.19.0", "3.19.0"),
            ("cmake version 3.25.1", "3.25.1"),
            ("GNU Make 4.3\nBuilt for x86_64-pc-linux-gnu", "4.3"),
            ("LuaJIT 2.1.0-beta3 -- Copyright (C) 2005", "2.1.0"),
            ("Python 3.11.2", "3.11.2"),
            ("v20.19.2", "20.19.2"),
            (
                "Chromium 148.0.7778.167 built on Debian GNU/Linux 12",
                "148.0.7778.167",
            ),
            ("rustc 1.95.0 (59807616e 2026-04-14)", "1.95.0"),
            ("release 2 of something. 7.1", "7.1"),
        ] {
            let found = Version::find(printed).map(|found| found.to_string());
            assert_eq!(found.as_deref(), Some(expected), "{printed}");
        }
        for nothing in ["", "not found", "version 7", "x86_64", "..."] {
            assert_eq!(Version::find(nothing), None, "{nothing}");
        }
    }

    fn is_enough(found: &str, least: &[&str]) -> bool {
        Version::parse(found).unwrap().is_enough(least)
    }

    #[test]
    fn numbers_are_compared_as_numbers() {
        for (found, least) in [
            ("1.88", "1.88.0"),
            ("1.88.0", "1.88"),
            ("1.100", "1.88"),
            ("10.0", "9.9"),
            ("4.0", "3.20"),
        ] {
            assert!(is_enough(found, &[least]), "{found} for {least}");
        }
        for (found, least) in [
            ("1.85.0", "1.88"),
            ("1.9", "1.88"),
            ("1.88.0", "1.88.1"),
            ("9.9", "10"),
            ("3.16.3", "3.20"),
        ] {
            assert!(!is_enough(found, &[least]), "{found} for {least}");
        }
    }

    #[test]
    fn each_major_number_has_its_own_least() {
        let node = ["20.19", "22.12"];
        for found in ["20.19.0", "20.20.2", "22.12", "22.23.3", "23.0", "26.12.1"] {
            assert!(is_enough(found, &node), "{found}");
        }
        for found in ["18.20.4", "20.18.3", "21.7.3", "22.11.0"] {
            assert!(!is_enough(found, &node), "{found}");
        }
        assert!(!is_enough("1.0", &[]));
    }
}
