//! Cells and records of CSV as bytes.

use std::borrow::Cow;

use shophead_job::cell;
use shophead_job::diagnostic::escaped;

/// Appends a cell: in quotes where it needs them, and so that no spreadsheet takes it for a formula.
pub(super) fn push_cell(out: &mut Vec<u8>, cell: &[u8]) {
    push_in_quotes(out, &harmless(cell));
}

/// Appends a cell as it is, in quotes where it needs them.
pub(crate) fn push_in_quotes(out: &mut Vec<u8>, cell: &[u8]) {
    if cell.iter().any(|byte| matches!(byte, b',' | b'"' | b'\n' | b'\r')) {
        out.push(b'"');
        for byte in cell {
            if *byte == b'"' {
                out.push(b'"');
            }
            out.push(*byte);
        }
        out.push(b'"');
    } else {
        out.extend_from_slice(cell);
    }
}

/// Whether a cell has to be looked at before it is written as it is.
pub(super) fn may_be_formula(cell: &[u8]) -> bool {
    matches!(cell.first(), Some(b'=' | b'+' | b'-' | b'@' | b'\t' | b'\''))
}

/// As in the CSV of every command: a number may begin with a sign, and what an apostrophe was put in front of keeps that one.
pub(super) fn harmless(cell: &[u8]) -> Cow<'_, [u8]> {
    if !may_be_formula(cell) {
        return Cow::Borrowed(cell);
    }
    match str::from_utf8(cell) {
        Ok(text) if text.parse::<f64>().is_ok() => Cow::Borrowed(cell),
        Ok(text) => match cell::harmless(cell::original(text)) {
            Cow::Borrowed(text) => Cow::Borrowed(text.as_bytes()),
            Cow::Owned(text) => Cow::Owned(text.into_bytes()),
        },
        Err(_) => Cow::Owned([b"'", cell].concat()),
    }
}

/// Whole lines as a terminal may show them: what could steer it is written out. Line ends and tabs stay.
pub(super) fn on_terminal(lines: &[u8]) -> String {
    let text = String::from_utf8_lossy(lines);
    let pieces = text.split_inclusive(['\n', '\t']).map(|piece| match piece.strip_suffix(['\n', '\t']) {
        Some(rest) => escaped(rest) + piece.get(rest.len()..).unwrap_or_default(),
        None => escaped(piece),
    });
    pieces.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cell_is_written_so_that_it_stays_one_and_is_no_formula() {
        for (cell, written) in [
            ("", ""),
            ("a b", "a b"),
            (".032,.040", "\".032,.040\""),
            ("3\" long", "\"3\"\" long\""),
            ("two\nlines", "\"two\nlines\""),
            ("=1+1", "'=1+1"),
            ("'=1+1", "'=1+1"),
            ("-1.5", "-1.5"),
            ("+.003-.001", "'+.003-.001"),
            ("'s", "'s"),
        ] {
            let mut out = Vec::new();
            push_cell(&mut out, cell.as_bytes());
            assert_eq!(String::from_utf8(out).as_deref(), Ok(written), "{cell:?}");
        }
    }

    #[test]
    fn no_cell_steers_a_terminal() {
        for (lines, shown) in [
            (&b"a,b\n1,\"x\ny\"\n"[..], "a,b\n1,\"x\ny\"\n"),
            (b"\x1b[2J,\0,\x7f\t9\r,\xc2\x9b1m\n", "\\u{1b}[2J,\\u{0},\\u{7f}\t9\\u{d},\\u{9b}1m\n"),
            ("µ,\u{202e}x".as_bytes(), "µ,\\u{202e}x"),
            (b"\xff\n", "\u{fffd}\n"),
        ] {
            assert_eq!(on_terminal(lines), shown);
        }
    }
}
