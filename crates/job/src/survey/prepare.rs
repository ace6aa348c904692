//! Making a holes file fit to be gone on with.

use crate::diagnostic::is_unseen;
use crate::read::{add_columns, cells_of, may_be_cut_off};

/// The first line of a new file.
pub const HEADER: &str = "row,hole,major,minor,condition,direction,opened,by,date,gauge,remark\n";

/// A file as a survey goes on with it.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Prepared {
    /// What is to stand in it.
    pub content: Vec<u8>,
    /// What stood behind its last line end and was no whole line.
    pub torn: Option<Vec<u8>>,
    /// How its lines end.
    pub line_end: &'static str,
}

/// Makes an old file, or none, fit to be gone on with.
///
/// - No file, an empty one, or one with only a part of the header in it gets its header.
/// - A last line without a line end gets one if it is whole: as many cells as the header, every quote closed, nothing in it that cannot
///   be seen, and not ending with a comma or a quote. Otherwise a crash may have cut it off: it is taken out and handed back. A survey
///   writes the last cell of a line in quotes, so that no part of its lines passes for a whole one.
/// - Columns that a survey writes and the file does not have are added at the end.
///
/// What is wrong in the lines themselves is left to whoever reads them.
///
/// ```
/// use shophead_job::survey::prepare;
/// let prepared = prepare(Some(b"row,hole,major,minor,condition,direction,opened,by,date,gauge,remark\nK1,7,.163,,sound,,,,,,\"\"\nK1,8,.1"));
/// assert_eq!(prepared.torn.as_deref(), Some(&b"K1,8,.1"[..]));
/// assert!(prepared.content.ends_with(b"sound,,,,,,\"\"\n"));
/// ```
#[must_use]
pub fn prepare(old: Option<&[u8]>) -> Prepared {
    let Some(old) = old.filter(|old| !is_blank(old) && !HEADER.as_bytes().starts_with(old)) else {
        return Prepared { content: HEADER.into(), torn: None, line_end: "\n" };
    };
    let mut content = old.to_vec();
    let crlf = content.windows(2).any(|pair| pair == b"\r\n");
    let line_end = if crlf { "\r\n" } else { "\n" };
    let mut torn = None;
    let last = content.iter().rposition(|byte| matches!(byte, b'\n' | b'\r')).map_or(0, |end| end + 1);
    if last < content.len() {
        if last == 0 || is_whole(&content, last) {
            content.extend_from_slice(line_end.as_bytes());
        } else {
            torn = Some(content.split_off(last));
        }
    }
    if let Some(wider) = std::str::from_utf8(&content).ok().and_then(add_columns) {
        content = wider.into_bytes();
    }
    Prepared { content, torn, line_end }
}

fn is_blank(bytes: &[u8]) -> bool {
    let text = bytes.strip_prefix("\u{feff}".as_bytes()).unwrap_or(bytes);
    text.iter().all(|byte| byte.is_ascii_whitespace())
}

/// Whether what stands behind the last line end could be a whole line that only lacks its own.
fn is_whole(content: &[u8], last: usize) -> bool {
    let (before, tail) = content.split_at(last);
    let (Ok(before), Ok(tail)) = (std::str::from_utf8(before), std::str::from_utf8(tail)) else { return false };
    let before = before.strip_prefix('\u{feff}').unwrap_or(before);
    let header =
        before.lines().find_map(|line| cells_of(line).filter(|cells| cells.iter().any(|cell| !cell.is_empty())));
    let cells = cells_of(tail);
    !tail.contains(|c| is_unseen(c) && c != '\t')
        && !may_be_cut_off(tail)
        && header.zip(cells).is_some_and(|(header, cells)| header.len() == cells.len())
}
