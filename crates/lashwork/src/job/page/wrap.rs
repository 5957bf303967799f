//! Lines no wider than the page.

use alloc::string::String;

/// Characters in a line of the page.
pub(in crate::job) const WIDTH: usize = 100;

/// Writes `text` behind `lead`, broken between words where the page ends; what goes on stands under
/// where the text began.
pub(in crate::job) fn write(out: &mut String, lead: &str, text: &str) {
    let indent = lead.chars().count();
    out.push_str(lead);
    let mut at = indent;
    for (i, word) in text.split_whitespace().enumerate() {
        let wide = word.chars().count();
        if i > 0 && at + 1 + wide > WIDTH {
            out.push('\n');
            out.extend(core::iter::repeat_n(' ', indent));
            at = indent;
        } else if i > 0 {
            out.push(' ');
            at += 1;
        }
        out.push_str(word);
        at += wide;
    }
    out.push('\n');
}

/// Room to write in by hand, at the right edge: behind the last line, or below it where that has no space.
pub(in crate::job) fn room(out: &mut String, word: &str) {
    let room = alloc::format!("{word} [_______]");
    let wide = room.chars().count();
    let last = out.trim_end_matches('\n').rsplit('\n').next();
    let mut at = last.map_or(0, |last| last.chars().count());
    if at + 1 + wide <= WIDTH {
        out.truncate(out.trim_end_matches('\n').len());
    } else {
        at = 0;
    }
    let space = WIDTH.saturating_sub(at + wide);
    out.extend(core::iter::repeat_n(' ', space));
    out.push_str(&room);
    out.push('\n');
}

/// `text` in a column so wide, with at least one space behind it.
pub(super) fn column(text: &str, wide: usize) -> String {
    let mut cell = String::from(text);
    let short = wide.saturating_sub(cell.chars().count()).max(1);
    cell.extend(core::iter::repeat_n(' ', short));
    cell
}

/// Writes a row of cells, each in its column; behind one that is too wide the row goes on in the next
/// line.
pub(super) fn row<const N: usize>(out: &mut String, cells: [(&str, usize); N], last: &str) {
    let mut start = 0;
    for (text, wide) in cells {
        let cell = column(text, wide);
        let too_wide = cell.chars().count() > wide;
        out.push_str(&cell);
        start += wide;
        if too_wide {
            out.push('\n');
            out.extend(core::iter::repeat_n(' ', start));
        }
    }
    out.push_str(last);
    out.truncate(out.trim_end_matches(' ').len());
    out.push('\n');
}
