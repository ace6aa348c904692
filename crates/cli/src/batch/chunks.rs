//! Input in pieces of whole records, so that each can be read by itself.
//!
//! Where a record ends is told here and nowhere else: a line end inside quotes does not end one. A quote opens at the beginning of a
//! cell only, as the `csv` crate has it; a test holds the two against each other.
//!
//! What is held at a time is bounded. A quote that is still open after [`MOST_IN_RECORD`] bytes, or at the end, is never closed: its line
//! goes out as a piece of its own, and reading goes on with the next line.

use std::io::{self, Read};

use memchr::{memchr, memchr2, memchr3};

/// Bytes in a piece: some thousand rows, so that handing it over costs nothing beside answering it, and few enough to stay in the cache.
const PIECE: usize = 128 * 1024;
/// No row of a spreadsheet comes near.
pub(super) const MOST_IN_RECORD: usize = 1024 * 1024;

/// What tells records apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Form {
    /// CSV: a line end that is not in quotes.
    Csv,
    /// JSON Lines: every line end.
    Lines,
}

/// Some records.
#[derive(Debug, Default)]
pub(super) struct Piece {
    pub(super) bytes: Vec<u8>,
    /// Why this one line is no record; `None` for whole ones.
    pub(super) broken: Option<&'static str>,
    /// Something stands behind the quote that closes a cell.
    pub(super) has_text_behind_quote: bool,
}

/// Where in a record the scan stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum At {
    /// Outside quotes.
    Bare,
    InQuotes,
}

/// Reads pieces.
pub(super) struct Pieces<R> {
    from: R,
    form: Form,
    /// What was read and not yet handed out.
    held: Vec<u8>,
    /// So much of it was looked at.
    scanned: usize,
    /// So much of it is whole records.
    whole: usize,
    at: At,
    has_text_behind_quote: bool,
    /// The rest of a line that is too long is left out.
    skips_line: bool,
    begun: bool,
    ended: bool,
    /// Buffers that were used before.
    spare: Vec<Vec<u8>>,
}

const UNCLOSED: &str =
    "a quote is never closed; right would be one before and one behind the cell, and any quote in it twice";
const TOO_LONG: &str = "this row is longer than a mebibyte";
const MARK: &[u8] = b"\xef\xbb\xbf";

impl<R: Read> Pieces<R> {
    pub(super) fn new(from: R, form: Form) -> Pieces<R> {
        Pieces {
            from,
            form,
            held: Vec::new(),
            scanned: 0,
            whole: 0,
            at: At::Bare,
            has_text_behind_quote: false,
            skips_line: false,
            begun: false,
            ended: false,
            spare: Vec::new(),
        }
    }

    /// Whether nothing is left to hand out.
    pub(super) fn is_at_end(&self) -> bool {
        self.ended && self.held.is_empty()
    }

    /// Takes a buffer back.
    pub(super) fn reuse(&mut self, buffer: Vec<u8>) {
        self.spare.push(buffer);
    }

    /// The next piece, `None` at the end.
    pub(super) fn next(&mut self) -> io::Result<Option<Piece>> {
        loop {
            if self.whole >= PIECE || (self.ended && self.whole > 0) {
                return Ok(Some(self.cut(self.whole, None)));
            }
            let open = self.held.len() - self.whole;
            if open > MOST_IN_RECORD || (self.ended && open > 0) {
                if self.whole > 0 {
                    return Ok(Some(self.cut(self.whole, None)));
                }
                return Ok(Some(self.cut_broken()));
            }
            if self.ended {
                return Ok(None);
            }
            self.read()?;
            self.scan();
        }
    }

    fn read(&mut self) -> io::Result<()> {
        let before = self.held.len();
        self.held.resize(before + PIECE, 0);
        let read = loop {
            match self.from.read(&mut self.held[before..]) {
                Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
                read => break read,
            }
        };
        self.held.truncate(before + *read.as_ref().unwrap_or(&0));
        self.ended = read? == 0;
        if self.skips_line {
            match memchr2(b'\n', b'\r', &self.held) {
                Some(end) => {
                    self.held.drain(..=end);
                    self.skips_line = false;
                }
                None => self.held.clear(),
            }
        }
        if !self.begun && (self.held.len() >= MARK.len() || self.ended) {
            self.begun = true;
            if self.held.starts_with(MARK) {
                self.held.drain(..MARK.len());
            }
        }
        Ok(())
    }

    /// Finds the ends of records in what was read.
    fn scan(&mut self) {
        if !self.begun {
            return;
        }
        let held = &self.held[..];
        let mut at = self.scanned;
        if self.form == Form::Lines {
            if let Some(end) = memchr::memrchr(b'\n', &held[at..]) {
                self.whole = at + end + 1;
            }
            at = held.len();
            if self.ended {
                self.whole = at;
            }
            self.scanned = at;
            return;
        }
        loop {
            let rest = &held[at..];
            match self.at {
                At::Bare => match memchr3(b'"', b'\n', b'\r', rest) {
                    Some(found) => {
                        let place = at + found;
                        at = place + 1;
                        if held[place] != b'"' {
                            self.whole = at;
                        } else if place == self.whole || matches!(held[place - 1], b',' | b'\n' | b'\r') {
                            self.at = At::InQuotes;
                        }
                    }
                    None => {
                        at = held.len();
                        break;
                    }
                },
                At::InQuotes => match memchr(b'"', rest) {
                    Some(found) => {
                        let place = at + found;
                        match held.get(place + 1) {
                            Some(b'"') => at = place + 2,
                            None if !self.ended => {
                                at = place;
                                break;
                            }
                            next => {
                                at = place + 1;
                                self.at = At::Bare;
                                self.has_text_behind_quote |=
                                    next.is_some_and(|next| !matches!(next, b',' | b'\n' | b'\r'));
                            }
                        }
                    }
                    None => {
                        at = held.len();
                        break;
                    }
                },
            }
        }
        self.scanned = at;
        if self.ended && self.at == At::Bare {
            // The last line may lack its end.
            self.whole = held.len();
        }
    }

    /// Hands out the beginning of what is held.
    fn cut(&mut self, length: usize, broken: Option<&'static str>) -> Piece {
        let mut rest = self.spare.pop().unwrap_or_default();
        rest.clear();
        rest.extend_from_slice(&self.held[length..]);
        let mut bytes = std::mem::replace(&mut self.held, rest);
        bytes.truncate(length);
        self.scanned = self.scanned.saturating_sub(length);
        self.whole = 0;
        Piece { bytes, broken, has_text_behind_quote: std::mem::take(&mut self.has_text_behind_quote) }
    }

    /// Hands out the first line of a record that does not end, and looks at the rest afresh.
    fn cut_broken(&mut self) -> Piece {
        let (length, why) = match memchr2(b'\n', b'\r', &self.held) {
            Some(end) => (end + 1, UNCLOSED),
            None if self.ended => (self.held.len(), UNCLOSED),
            None => {
                self.skips_line = true;
                (self.held.len(), TOO_LONG)
            }
        };
        let mut piece = self.cut(length, Some(why));
        if self.skips_line {
            piece.bytes.truncate(PIECE);
        }
        self.scanned = 0;
        self.at = At::Bare;
        self.scan();
        piece
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Gives a few bytes at a time.
    struct Drops<'b>(&'b [u8], usize);

    impl Read for Drops<'_> {
        fn read(&mut self, to: &mut [u8]) -> io::Result<usize> {
            let count = self.1.min(self.0.len()).min(to.len());
            let (now, later) = self.0.split_at(count);
            to[..count].copy_from_slice(now);
            self.0 = later;
            Ok(count)
        }
    }

    fn records(bytes: &[u8]) -> Vec<csv::ByteRecord> {
        let mut reader = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(bytes);
        reader.byte_records().map(|record| record.expect("bytes in memory")).collect()
    }

    /// Every piece, and the ends that the scan found after so many bytes.
    fn pieces(bytes: &[u8], drop: usize, form: Form) -> Vec<Piece> {
        let mut pieces = Pieces::new(Drops(bytes, drop), form);
        let mut all = Vec::new();
        while let Some(piece) = pieces.next().expect("bytes in memory") {
            all.push(piece);
        }
        assert!(pieces.is_at_end());
        all
    }

    #[test]
    fn an_open_quote_costs_its_line_and_no_other() {
        let all = pieces(b"a,b\n1,\"2\n3,4\n", 3, Form::Csv);
        let texts: Vec<_> = all.iter().map(|piece| (piece.bytes.as_slice(), piece.broken.is_some())).collect();
        assert_eq!(texts, [(&b"a,b\n"[..], false), (b"1,\"2\n", true), (b"3,4\n", false)]);
    }

    #[test]
    fn an_open_quote_in_a_long_file_is_told_without_holding_the_file() {
        let mut bytes = b"1,\"2\n".to_vec();
        bytes.extend(b"3,4\n".repeat(MOST_IN_RECORD));
        let all = pieces(&bytes, PIECE, Form::Csv);
        assert_eq!((all[0].bytes.as_slice(), all[0].broken), (&b"1,\"2\n"[..], Some(UNCLOSED)));
        assert!(all[1..].iter().all(|piece| piece.broken.is_none() && piece.bytes.len() < 2 * MOST_IN_RECORD));
        assert_eq!(all.iter().map(|piece| piece.bytes.len()).sum::<usize>(), bytes.len());
    }

    #[test]
    fn a_line_without_end_is_left_out_up_to_its_end() {
        let mut bytes = vec![b'x'; 3 * MOST_IN_RECORD];
        bytes.extend(b"\n1,2\n");
        for form in [Form::Csv, Form::Lines] {
            let all = pieces(&bytes, PIECE, form);
            assert_eq!(all[0].broken, Some(TOO_LONG));
            assert!(all[0].bytes.len() <= PIECE);
            assert_eq!(all[1].bytes, b"1,2\n");
        }
    }

    #[test]
    fn a_mark_at_the_beginning_is_no_part_of_the_first_cell() {
        for drop in 1..5 {
            assert_eq!(pieces(b"\xef\xbb\xbf\"a\nb\",c\n", drop, Form::Csv)[0].bytes, b"\"a\nb\",c\n");
        }
    }

    proptest! {
        /// Cut after every record that the scan has found, the pieces read together as the whole.
        #[test]
        fn records_end_where_the_csv_crate_has_them_end(text in "[ab,\"\n\r]{0,40}", drop in 1_usize..7) {
            let bytes = text.as_bytes();
            let mut scan = Pieces::new(Drops(bytes, drop), Form::Csv);
            let (mut cut, mut open) = (Vec::new(), false);
            loop {
                scan.read().expect("bytes in memory");
                scan.scan();
                if scan.whole > 0 {
                    let whole = scan.whole;
                    cut.extend(records(&scan.cut(whole, None).bytes));
                }
                if scan.ended {
                    open |= !scan.held.is_empty();
                    cut.extend(records(&scan.held));
                    break;
                }
            }
            // The crate takes an open quote for a cell up to the end; so does whoever reads the rest in one piece.
            prop_assert_eq!(cut, records(bytes), "open: {}", open);
        }
    }
}
