//! Text as it was written, in a message.

use core::fmt::{self, Write};

/// Text between quotation marks, with what would break a line or end the quotation escaped.
///
/// Not `{:?}`: that escapes by tables of all of Unicode, which are large in a WebAssembly file.
///
/// ```
/// use lashwork::quantity::Quoted;
/// assert_eq!(Quoted("0.15 \"\n").to_string(), r#""0.15 \"\n""#);
/// assert_eq!(Quoted("5 µm").to_string(), "\"5 µm\"");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Quoted<'t>(pub &'t str);

impl fmt::Display for Quoted<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_char('"')?;
        for letter in self.0.chars() {
            if letter.is_control() || matches!(letter, '"' | '\\') {
                letter
                    .escape_default()
                    .try_for_each(|part| f.write_char(part))?;
            } else {
                f.write_char(letter)?;
            }
        }
        f.write_char('"')
    }
}
