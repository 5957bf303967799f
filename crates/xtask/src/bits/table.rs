//! The lines of every place side by side: a row a file of vectors, a column a place.

use std::collections::BTreeMap;
use std::fmt::Write as _;

/// What stands for a digest where a place does not offer a call.
const NOT_OFFERED: &str = "-";

/// Digests by file and name.
type Digests = BTreeMap<(String, String), String>;

/// What one place answered.
struct Place {
    name: String,
    digests: Digests,
}

/// What every place answered; the others are compared with the first.
pub(crate) struct Table {
    first: Place,
    others: Vec<Place>,
}

/// What a place has in one file: how many answers it does not offer, and the names of those that differ.
#[derive(Default)]
struct Cell<'a> {
    asked: usize,
    left_out: usize,
    differing: Vec<&'a str>,
}

impl Cell<'_> {
    fn text(&self) -> String {
        let offered = self.asked - self.left_out;
        match (self.differing.len(), offered) {
            (0, 0) => NOT_OFFERED.to_owned(),
            (0, _) if self.left_out == 0 => "same".to_owned(),
            (0, _) => format!("same ({offered})"),
            (differing, _) => format!("{differing} DIFFER"),
        }
    }
}

impl Table {
    /// A table of one place.
    pub(crate) fn new(name: &str, lines: &str) -> Result<Self, String> {
        let first = place(name, lines)?;
        if first.digests.values().any(|digest| digest == NOT_OFFERED) {
            return Err(format!("{name}, the first, must answer everything"));
        }
        let others = Vec::new();
        Ok(Self { first, others })
    }

    /// One place more.
    pub(crate) fn add(&mut self, name: &str, lines: &str) -> Result<(), String> {
        self.others.push(place(name, lines)?);
        Ok(())
    }

    /// The table in Markdown, and every place and file with a difference, the first vector named.
    pub(crate) fn judge(&self) -> (String, Vec<String>) {
        let names = self.others.iter().map(|place| place.name.as_str());
        let mut text = format!("| vectors | answers in {} |", self.first.name);
        names.for_each(|name| _ = write!(text, " {name} |"));
        text += "\n|---|---|";
        self.others.iter().for_each(|_| text += "---|");
        let mut found = Vec::new();
        let mut files: Vec<&str> = self.first.digests.keys().map(|(file, _)| &**file).collect();
        files.dedup();
        for file in files {
            let of_file = self.first.digests.keys().filter(|(of, _)| of == file);
            let _ = write!(text, "\n| {file} | {} |", of_file.count());
            for place in &self.others {
                let cell = self.cell(file, place);
                let _ = write!(text, " {} |", cell.text());
                if let Some(name) = cell.differing.first() {
                    let count = cell.differing.len();
                    found.push(format!(
                        "{}: {count} of {file} DIFFERENT from {}, first {name}",
                        place.name, self.first.name
                    ));
                }
            }
        }
        for place in &self.others {
            let unknown = place
                .digests
                .keys()
                .find(|key| !self.first.digests.contains_key(*key));
            if let Some((file, name)) = unknown {
                found.push(format!(
                    "{}: {name} of {file} was not asked for",
                    place.name
                ));
            }
        }
        (text, found)
    }

    /// How many answers and places there are.
    pub(crate) fn size(&self) -> (usize, usize) {
        (self.first.digests.len(), 1 + self.others.len())
    }

    fn cell<'a>(&'a self, file: &str, place: &Place) -> Cell<'a> {
        let mut cell = Cell::default();
        for (key, digest) in &self.first.digests {
            if key.0 != file {
                continue;
            }
            cell.asked += 1;
            // What is not there is a difference too: only a place itself may say that it does not offer a call.
            match place.digests.get(key) {
                Some(same) if same == digest => {}
                Some(none) if none == NOT_OFFERED => cell.left_out += 1,
                _ => cell.differing.push(&key.1),
            }
        }
        cell
    }
}

/// Takes the lines of a place apart.
fn place(name: &str, lines: &str) -> Result<Place, String> {
    let mut digests = Digests::new();
    for line in lines.lines() {
        let words: Vec<&str> = line.split('\t').collect();
        let [file, vector, digest] = words.as_slice() else {
            return Err(format!("{name}: not a line of a vector: {line:?}"));
        };
        let key = ((*file).to_owned(), (*vector).to_owned());
        if digests.insert(key, (*digest).to_owned()).is_some() {
            return Err(format!("{name}: {vector} of {file} is there twice"));
        }
    }
    if digests.is_empty() {
        return Err(format!("{name}: no answers"));
    }
    let name = name.to_owned();
    Ok(Place { name, digests })
}

#[cfg(test)]
mod tests {
    use super::Table;

    const HERE: &str = "a.json\ta-1\t00\na.json\ta-2\t01\nb.json\tb-1\t02\n";

    fn beside(lines: &str) -> (String, Vec<String>) {
        let mut table = Table::new("here", HERE).unwrap();
        table.add("there", lines).unwrap();
        table.judge()
    }

    #[test]
    fn the_same_lines_in_any_order_are_the_same() {
        let (text, found) = beside("b.json\tb-1\t02\na.json\ta-2\t01\na.json\ta-1\t00\n");
        assert_eq!(found, [""; 0]);
        assert_eq!(
            text,
            "| vectors | answers in here | there |\n|---|---|---|\n\
             | a.json | 2 | same |\n| b.json | 1 | same |"
        );
    }

    #[test]
    fn a_difference_is_counted_and_the_first_vector_named() {
        let (text, found) = beside("a.json\ta-1\t10\na.json\ta-2\t11\nb.json\tb-1\t02\n");
        assert_eq!(found, ["there: 2 of a.json DIFFERENT from here, first a-1"]);
        assert!(text.contains("| a.json | 2 | 2 DIFFER |\n| b.json | 1 | same |"));
    }

    #[test]
    fn what_is_missing_or_was_not_asked_for_is_a_difference() {
        let (_, found) = beside("a.json\ta-1\t00\na.json\ta-3\t01\nb.json\tb-1\t02\n");
        assert_eq!(
            found,
            [
                "there: 1 of a.json DIFFERENT from here, first a-2",
                "there: a-3 of a.json was not asked for"
            ]
        );
    }

    #[test]
    fn a_place_may_say_that_it_does_not_offer_a_call_but_not_the_first() {
        let (text, found) = beside("a.json\ta-1\t-\na.json\ta-2\t01\nb.json\tb-1\t-\n");
        assert_eq!(found, [""; 0]);
        assert!(text.contains("same (1) |\n| b.json | 1 | - |"), "{text}");
        assert!(Table::new("here", "a.json\ta-1\t-\n").is_err());
    }

    #[test]
    fn lines_that_are_none_are_refused() {
        for lines in ["", "a.json\ta-1\n", "a.json\ta-1\t00\na.json\ta-1\t00\n"] {
            assert!(Table::new("here", lines).is_err(), "{lines:?}");
        }
    }
}
