//! What the reference suite shares: reading a fixture, comparing it cell by cell, keeping account of known misfits.
//!
//! A fixture is a CSV file in `fixtures/` with the source of every row in it. Only rows whose `status` says that the
//! document was read count as proof ([`Row::is_read`]).

pub mod person;

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;

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

/// Reads `fixtures/NAME.csv`.
#[must_use]
pub fn fixture(name: &str) -> Vec<Row> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures").join(name).with_extension("csv");
    let mut reader = csv::Reader::from_path(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let headings = reader.headers().expect("a heading line").clone();
    let rows = reader.records().map(|record| {
        let record = record.unwrap_or_else(|error| panic!("{name}: {error}"));
        let line = record.position().map_or(0, csv::Position::line);
        let cells = headings.iter().map(str::to_owned).zip(record.iter().map(str::to_owned)).collect();
        Row { fixture: name.to_owned(), line, cells }
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
