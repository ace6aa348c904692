//! What the reference suite shares: reading a fixture, comparing it cell by cell, keeping account of known misfits.
//!
//! A fixture is a CSV file in `fixtures/` with the source of every row in it. Only rows whose `status` says that the
//! document was read count as proof ([`Row::is_read`]).

pub mod known;
pub mod person;
pub mod prelude;

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

/// One row of a fixture.
#[derive(Debug, Clone)]
pub struct Row {
    fixture: String,
    line: u64,
    cells: BTreeMap<String, String>,
}

impl Row {
    /// The cell under a heading; panics when there is no such column, since that is a mistake in the test.
    #[must_use]
    pub fn text(&self, column: &str) -> &str {
        self.cells.get(column).unwrap_or_else(|| panic!("{}: no column {column}", self.fixture))
    }

    /// Whether there is such a column.
    #[must_use]
    pub fn has(&self, column: &str) -> bool {
        self.cells.contains_key(column)
    }

    /// The cell as a number; `None` when it is empty.
    #[must_use]
    pub fn number(&self, column: &str) -> Option<f64> {
        let text = self.text(column);
        (!text.is_empty()).then(|| text.parse().unwrap_or_else(|_| panic!("{}: {column} is {text:?}", self.place())))
    }

    /// One figure out of a cell `given` such as `pitch=75 d=25 points=0,0|1,0`.
    #[must_use]
    pub fn given(&self, key: &str) -> Option<&str> {
        self.text("given").split(' ').find_map(|pair| pair.strip_prefix(key)?.strip_prefix('='))
    }

    /// The same as a number; panics when it is missing, since that is a mistake in the test.
    #[must_use]
    pub fn figure(&self, key: &str) -> f64 {
        let text = self.given(key).unwrap_or_else(|| panic!("{}: no {key}", self.place()));
        text.parse().unwrap_or_else(|_| panic!("{}: {key}={text}", self.place()))
    }

    /// A cell of figures with bars between: `0.356|0.289|0.356`.
    #[must_use]
    pub fn numbers(&self, column: &str) -> Vec<f64> {
        list(self.text(column)).unwrap_or_else(|| panic!("{}: {column}", self.place()))
    }

    /// Whether the row was read in its document (or in a reproduction of it), so that it counts as proof.
    #[must_use]
    pub fn is_read(&self) -> bool {
        self.text("status").starts_with("read")
    }

    /// File and line, for messages.
    #[must_use]
    pub fn place(&self) -> String {
        format!("{}.csv:{}", self.fixture, self.line)
    }
}

/// Figures with bars between.
#[must_use]
pub fn list(text: &str) -> Option<Vec<f64>> {
    text.split('|').map(|figure| figure.parse().ok()).collect()
}

/// Names a cell and what is to stand in it instead, `FIXTURE LINE COLUMN VALUE`: for the test that every figure is compared.
pub const CHANGE: &str = "SHOPHEAD_FIXTURE_CHANGE";

/// Names a file to which each fixture that is read is added, with the test that reads it.
pub const TRACE: &str = "SHOPHEAD_FIXTURE_TRACE";

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures")
}

/// The names of all fixtures.
///
/// # Panics
/// Where the folder cannot be read.
#[must_use]
pub fn fixtures() -> Vec<String> {
    let files =
        std::fs::read_dir(folder()).expect("the folder of fixtures").map(|entry| entry.expect("an entry").path());
    let mut names: Vec<String> =
        files.map(|path| path.file_stem().expect("a name").to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

/// Every cell of a fixture in which something stands: its line, its column, what it says.
#[must_use]
pub fn cells(name: &str) -> Vec<(u64, String, String)> {
    let cells = |row: Row| row.cells.into_iter().map(move |(column, cell)| (row.line, column, cell));
    fixture(name).into_iter().flat_map(cells).filter(|(_, _, cell)| !cell.is_empty()).collect()
}

/// Does to a row what [`CHANGE`] asks for.
fn change(row: &mut Row) {
    let Ok(asked) = std::env::var(CHANGE) else { return };
    let words: Vec<&str> = asked.splitn(4, ' ').collect();
    let [fixture, line, column, value] = words.as_slice() else { panic!("{CHANGE} is {asked:?}") };
    if *fixture == row.fixture && *line == row.line.to_string() {
        let cell = row.cells.get_mut(*column).unwrap_or_else(|| panic!("{fixture}: no column {column}"));
        (*value).clone_into(cell);
    }
}

fn trace(name: &str) {
    let Ok(file) = std::env::var(TRACE) else { return };
    let mut file = std::fs::OpenOptions::new().append(true).open(file).expect("a file");
    let test = std::thread::current().name().unwrap_or_default().to_owned();
    std::io::Write::write_all(&mut file, format!("{name} {test}\n").as_bytes()).expect("written");
}

/// Reads `fixtures/NAME.csv`.
#[must_use]
pub fn fixture(name: &str) -> Vec<Row> {
    trace(name);
    let path = folder().join(name).with_extension("csv");
    let mut reader = csv::Reader::from_path(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let headings = reader.headers().expect("a heading line").clone();
    let rows = reader.records().map(|record| {
        let record = record.unwrap_or_else(|error| panic!("{name}: {error}"));
        let line = record.position().map_or(0, csv::Position::line);
        let cells = headings.iter().map(str::to_owned).zip(record.iter().map(str::to_owned)).collect();
        let mut row = Row { fixture: name.to_owned(), line, cells };
        change(&mut row);
        row
    });
    let rows: Vec<Row> = rows.collect();
    assert!(!rows.is_empty(), "{name}: no rows");
    rows
}

/// A cell whose printed value is itself off: named, with how far, so that no tolerance is loosened for it.
#[derive(Debug, Clone, Copy)]
pub struct Misfit {
    /// The name under which the cell is compared.
    pub cell: &'static str,
    /// Why the printed value is not what the rule gives.
    pub reason: &'static str,
}

/// Compares cell by cell and reports all differences at once.
///
/// A cell listed as a misfit must differ: once it agrees, the listing fails and must go.
#[derive(Debug)]
pub struct Comparison {
    misfits: &'static [Misfit],
    seen: Vec<&'static str>,
    report: String,
    compared: usize,
}

impl Comparison {
    /// A comparison with these known misfits.
    #[must_use]
    pub fn with_misfits(misfits: &'static [Misfit]) -> Comparison {
        Comparison { misfits, seen: Vec::new(), report: String::new(), compared: 0 }
    }

    /// Compares numbers; `tolerance` is absolute, and the caller says why it is what it is.
    pub fn close(&mut self, cell: &str, printed: f64, computed: f64, tolerance: f64) {
        self.judge(cell, (printed - computed).abs() <= tolerance, &printed, &computed);
    }

    /// Compares exactly.
    pub fn equal<T: PartialEq + std::fmt::Debug>(&mut self, cell: &str, printed: T, computed: T) {
        let agree = printed == computed;
        self.judge(cell, agree, &printed, &computed);
    }

    fn judge(&mut self, cell: &str, agree: bool, printed: &dyn std::fmt::Debug, computed: &dyn std::fmt::Debug) {
        self.compared += 1;
        match (self.misfits.iter().find(|misfit| misfit.cell == cell), agree) {
            (None, true) => {}
            (None, false) => {
                writeln!(self.report, "{cell}: printed {printed:?}, computed {computed:?}").expect("a string");
            }
            (Some(misfit), false) => self.seen.push(misfit.cell),
            (Some(misfit), true) => {
                writeln!(self.report, "{cell}: listed as a misfit ({}) but agrees; delete the listing", misfit.reason)
                    .expect("a string");
            }
        }
    }

    /// Fails with every difference found, with listed misfits that were never met, and when fewer than `least` cells were compared.
    pub fn finish(mut self, least: usize) {
        for misfit in self.misfits {
            if !self.seen.contains(&misfit.cell) && !self.report.contains(misfit.cell) {
                writeln!(self.report, "{}: listed as a misfit but never compared", misfit.cell).expect("a string");
            }
        }
        assert!(self.report.is_empty(), "{} cells compared\n{}", self.compared, self.report);
        assert!(self.compared >= least, "only {} cells compared, expected at least {least}", self.compared);
    }
}
