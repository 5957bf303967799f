//! The location of something in a document.

/// A place, as the way to it from the whole document. Only a fault writes it out.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Place<'p> {
    /// The whole document.
    Document,
    /// A field of the object that stands there.
    Field(&'p Place<'p>, &'p str),
    /// An item of the list that stands there.
    Item(&'p Place<'p>, usize),
}

impl Place<'_> {
    /// The place as a JSON pointer (RFC 6901).
    pub(crate) fn pointer(&self) -> String {
        match self {
            Self::Document => String::new(),
            Self::Field(of, key) => of.pointer() + "/" + &key.replace('~', "~0").replace('/', "~1"),
            Self::Item(of, index) => of.pointer() + "/" + &index.to_string(),
        }
    }
}
