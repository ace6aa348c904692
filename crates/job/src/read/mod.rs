#![doc = include_str!("../../JOB-FILE.md")]

mod answers;
mod cursor;
mod driven;
mod figures;
mod files;
mod holes;
mod job;
mod keys;
mod layer;
mod limits;
mod panel;
mod points;
mod row;
mod rows_file;
mod seams;
mod settings;
mod sheet;
mod source;
mod stock;

use std::fmt;
use std::io;
use std::path::{Path, PathBuf};

pub use answers::ANSWER_COLUMNS;
use cursor::Value;
pub use driven::{DrivenFile, DrivenHead, DrivenLine, seen_words};
pub use files::{Disk, Files, bytes_of};
pub use holes::{CLEARED, COLUMNS, GAUGED, HoleLine, HoleRecord, HolesFile};
use holes::{RowKey, SaidHoles};
pub use layer::read_layer;
pub use points::GroupPoint;
pub use seams::FactorySeam;
pub use settings::Settings;
use shophead::length::Bare;
use shophead::material::Material;
use shophead::rivet::Series;
use source::{Mistakes, Source, quoted};
pub use stock::ColumnNames;

use crate::diagnostic::{Diagnostic, escaped, is_unseen};
use crate::model::{Answer, Job, OwnLimits};
use crate::order::Shelf;

/// The most mistakes told in one go. Somebody who has more starts with these.
pub const MAX_MISTAKES: usize = 20;

/// The most bytes of a file: more than a million measured holes. What is larger is refused before it fills the memory.
pub const MAX_BYTES: usize = 32 * 1024 * 1024;

/// The most bytes of a job file and of a limits file: what is said in them takes many times as much room once it is read.
pub const MAX_TOML: usize = 8 * 1024 * 1024;

/// The most bytes of a line of CSV.
pub const MAX_LINE: usize = 1024 * 1024;

/// The most columns of a CSV file.
pub const MAX_COLUMNS: usize = 1_000;

/// The most holes of a row.
pub const MAX_COUNT: u32 = 100_000;

/// The most marks that an edge is marked out from.
pub const MAX_MARKS: u32 = 10_000;

/// The most spare rivets, in percent of those needed.
pub const MAX_SPARES_PERCENT: u32 = 1_000;

/// Why a file could not be read.
#[derive(Debug)]
pub enum ReadError {
    /// The file could not be opened or read.
    Io {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// The file was read, but what it says is wrong: the first [`MAX_MISTAKES`] mistakes in file order, at least one.
    Content(Vec<Diagnostic>),
}

impl ReadError {
    /// For people: every mistake with its line.
    #[must_use]
    pub fn render(&self, colour: bool) -> String {
        match self {
            ReadError::Io { .. } => format!("{self}\n"),
            ReadError::Content(mistakes) => {
                let mut shown: Vec<String> = mistakes.iter().map(|mistake| mistake.render(colour)).collect();
                if mistakes.len() >= MAX_MISTAKES {
                    shown.push(format!("these are the first {MAX_MISTAKES} mistakes; there may be more\n"));
                }
                shown.join("\n")
            }
        }
    }
}

/// One line a mistake, without a line end after the last.
impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ReadError::Io { path, source } => {
                write!(f, "cannot read {}: {source}", escaped(&path.display().to_string()))
            }
            ReadError::Content(mistakes) => {
                for (index, mistake) in mistakes.iter().enumerate() {
                    let end = if index == 0 { "" } else { "\n" };
                    write!(f, "{end}{mistake}")?;
                }
                Ok(())
            }
        }
    }
}

impl std::error::Error for ReadError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            ReadError::Io { source, .. } => Some(source),
            ReadError::Content(_) => None,
        }
    }
}

/// Where files named in a file are looked for.
struct Folder<'f> {
    path: PathBuf,
    files: &'f dyn Files,
    mistakes: &'f Mistakes,
}

/// A file in which a number without a unit is the same as in the one that names it.
fn alike<'f>(file: Source<'f>, value: &Value<'_>) -> Source<'f> {
    file.bare.set(value.source.bare.get());
    file
}

impl<'f> Folder<'f> {
    fn of(file: &Path, files: &'f dyn Files, mistakes: &'f Mistakes) -> Folder<'f> {
        Folder { path: file.parent().unwrap_or(Path::new("")).to_owned(), files, mistakes }
    }

    /// Opens the file that a value names.
    fn open(&self, value: &Value<'_>) -> Option<Source<'f>> {
        let path = self.path_of(value)?;
        self.mistakes.open(path, self.files).map(|file| alike(file, value))
    }

    /// Opens a file that need not be there yet: `Some(None)` where it is not.
    fn open_if_there(&self, value: &Value<'_>) -> Option<Option<Source<'f>>> {
        let path = self.path_of(value)?;
        let file = self.mistakes.open_if_there(path, self.files)?;
        Some(file.map(|file| alike(file, value)))
    }

    /// Where the file lies that a value names, if it may lie there.
    fn path_of(&self, value: &Value<'_>) -> Option<PathBuf> {
        let path = self.path.join(value.filled_text()?);
        if !self.files.may_name(&path) {
            value.mistake("this file lies outside the folder of the job", "put it into that folder, and name it there");
            return None;
        }
        Some(path)
    }
}

impl Job {
    /// Reads a job file and the files that it names.
    ///
    /// # Errors
    /// [`ReadError`]: which file could not be read, or every mistake in them.
    pub fn read(path: &Path) -> Result<Job, ReadError> {
        let mistakes = Mistakes::default();
        let disk = Disk::anywhere();
        let job = mistakes.open(path.to_owned(), &disk).and_then(|source| {
            let folder = Folder::of(path, &disk, &mistakes);
            job::job(&source, &folder, None)
        });
        mistakes.result(job)
    }

    /// Reads a job from its text. `file` is what it is called in messages; the files that it names are looked for beside that, in
    /// `files`.
    ///
    /// # Errors
    /// As [`Job::read`].
    ///
    /// ```
    /// use shophead_job::model::Job;
    /// use shophead_job::read::ReadError;
    /// use std::path::Path;
    /// let text = r#"
    /// title = "Bracket"
    /// [[row]]
    /// name = "B1"
    /// structure = "secondary"
    /// member = "other"
    /// installed = "MS20470AD3-4"
    /// layers = [{ role = "rib-flange", thickness = ".040" }, { role = "tab", thickness = ".032" }]
    /// count = 12
    /// "#;
    /// let no_files = |_: &Path| Err(std::io::ErrorKind::NotFound.into());
    /// let job = Job::read_from(text.into(), Path::new("job.toml"), &no_files)?;
    /// assert_eq!(job.rows[0].rivet.to_string(), "MS20470AD3");
    ///
    /// let slip = text.replace("\"tab\"", "\"tap\"");
    /// let error = Job::read_from(slip.into(), Path::new("job.toml"), &no_files).unwrap_err();
    /// assert_eq!(error.to_string(), "job.toml:8:65: role cannot be \"tap\"; right would be \"cap\" or \"tab\"");
    /// # Ok::<(), ReadError>(())
    /// ```
    pub fn read_from(text: Vec<u8>, file: &Path, files: &dyn Files) -> Result<Job, ReadError> {
        Job::read_beside(text, file, files, None)
    }

    /// The same beside limits that do not stand in the job: a layer may be of a material that they name.
    ///
    /// # Errors
    /// As [`Job::read`].
    pub fn read_beside(
        text: Vec<u8>,
        file: &Path,
        files: &dyn Files,
        limits: Option<&OwnLimits>,
    ) -> Result<Job, ReadError> {
        let mistakes = Mistakes::default();
        let job = mistakes.source(file, text).and_then(|source| {
            let folder = Folder::of(file, files, &mistakes);
            job::job(&source, &folder, limits)
        });
        mistakes.result(job)
    }
}

impl OwnLimits {
    /// Reads a limits file.
    ///
    /// # Errors
    /// As [`Job::read`].
    pub fn read(path: &Path) -> Result<OwnLimits, ReadError> {
        let mistakes = Mistakes::default();
        let read = mistakes.open(path.to_owned(), &Disk::anywhere()).and_then(|source| limits::own_limits(&source));
        mistakes.result(read)
    }

    /// Reads limits from their text; `file` is what it is called in messages.
    ///
    /// # Errors
    /// As [`Job::read`].
    pub fn read_from(text: Vec<u8>, file: &Path) -> Result<OwnLimits, ReadError> {
        let mistakes = Mistakes::default();
        let read = mistakes.source(file, text).and_then(|source| limits::own_limits(&source));
        mistakes.result(read)
    }
}

impl Settings {
    /// Reads a settings file from its text; `file` is what it is called in messages.
    ///
    /// # Errors
    /// As [`Job::read`].
    ///
    /// ```
    /// use shophead_job::read::Settings;
    /// use std::path::Path;
    /// let settings = Settings::read_from("practice = \"process\"\n".into(), Path::new("shop.toml"))?;
    /// assert_eq!(settings.practice.map(|practice| practice.name()), Some("process"));
    /// let error = Settings::read_from("unit = \"mm\"\n".into(), Path::new("shop.toml")).unwrap_err();
    /// assert_eq!(error.to_string(), "shop.toml:1:1: a settings file has no key \"unit\"; right would be \"units\"");
    /// # Ok::<(), shophead_job::read::ReadError>(())
    /// ```
    pub fn read_from(text: Vec<u8>, file: &Path) -> Result<Settings, ReadError> {
        let mistakes = Mistakes::default();
        let read = mistakes.source(file, text).and_then(|source| settings::settings(&source));
        mistakes.result(read)
    }
}

/// Reads a holes file against the rows of a job, in the order of the file. Of several lines for one hole the last one counts; one
/// that clears the hole leaves it out.
///
/// # Errors
/// As [`Job::read`].
pub fn read_holes(path: &Path, job: &Job) -> Result<Vec<HoleLine>, ReadError> {
    let mistakes = Mistakes::default();
    let lines = mistakes.open(path.to_owned(), &Disk::anywhere()).map(|source| hole_lines(&source, job));
    mistakes.result(lines)
}

/// Reads a holes file from its text; `file` is what it is called in messages.
///
/// # Errors
/// As [`read_holes`].
pub fn read_holes_from(text: Vec<u8>, file: &Path, job: &Job) -> Result<Vec<HoleLine>, ReadError> {
    let mistakes = Mistakes::default();
    let lines = mistakes.source(file, text).map(|source| hole_lines(&source, job));
    mistakes.result(lines)
}

/// Reads a holes file whole, with the lines that later ones replace; `file` is what it is called in messages.
///
/// # Errors
/// As [`read_holes`].
pub fn read_holes_file_from(text: Vec<u8>, file: &Path, job: &Job) -> Result<HolesFile, ReadError> {
    let mistakes = Mistakes::default();
    let read = mistakes.source(file, text).and_then(|source| holes::file(of(job, &source), &row_keys(job)));
    mistakes.result(read)
}

/// Reads an answers file from its text against a job, in the order of the file; `file` is what it is called in messages.
///
/// # Errors
/// As [`Job::read`].
pub fn read_answers_from(text: Vec<u8>, file: &Path, job: &Job) -> Result<Vec<Answer>, ReadError> {
    let mistakes = Mistakes::default();
    let read = mistakes.source(file, text).map(|source| {
        let known = answers::Known {
            rows: &job.rows,
            edges: job.edges.iter().map(|edge| edge.name.as_str()).collect(),
            damage: job.damage.len(),
        };
        answers::answers(of(job, &source), &known)
    });
    mistakes.result(read)
}

/// Reads a driven file against the rows of a job, in the order of the file.
///
/// # Errors
/// As [`Job::read`].
pub fn read_driven(path: &Path, job: &Job) -> Result<DrivenFile, ReadError> {
    let mistakes = Mistakes::default();
    let read = mistakes.open(path.to_owned(), &Disk::anywhere());
    let read = read.and_then(|source| driven::file(of(job, &source), &row_keys(job)));
    mistakes.result(read)
}

/// Reads a driven file from its text; `file` is what it is called in messages.
///
/// # Errors
/// As [`read_driven`].
pub fn read_driven_from(text: Vec<u8>, file: &Path, job: &Job) -> Result<DrivenFile, ReadError> {
    let mistakes = Mistakes::default();
    let read = mistakes.source(file, text).and_then(|source| driven::file(of(job, &source), &row_keys(job)));
    mistakes.result(read)
}

/// The cells of one line of a CSV file by itself, without its line end; `None` when its quotes do not hold together.
pub(crate) fn cells_of(line: &str) -> Option<Vec<String>> {
    sheet::cells_of(line)
}

/// Whether a line without its line end could be a part of one that was written with its last cell in quotes.
pub(crate) fn may_be_cut_off(line: &str) -> bool {
    holes::may_be_cut_off(line)
}

/// The text of a holes file with the columns that it lacks, empty, behind its own; `None` when it lacks none or cannot be read.
pub(crate) fn add_columns(text: &str) -> Option<String> {
    let mistakes = Mistakes::default();
    let source = mistakes.source(Path::new(""), text.into())?;
    let sheet = sheet::sheet(&source, &keys::HOLES_FILE, &["row", "hole", "major"])?;
    let columns = keys::HOLES_FILE.names.iter().zip(sheet.columns.iter());
    let lacking: Vec<&str> = columns.filter(|(_, place)| place.is_none()).map(|(name, _)| *name).collect();
    if lacking.is_empty() {
        return None;
    }
    let header = sheet.header.last().map_or(0, |cell| cell.span.end);
    let mut ends = vec![(header, lacking.iter().map(|name| format!(",{name}")).collect::<String>())];
    ends.extend(sheet.records.iter().map(|record| (record.span.end, ",".repeat(lacking.len()))));
    let mark = if text.starts_with('\u{feff}') { "\u{feff}" } else { "" };
    let mut wider = String::from(mark);
    let mut done = 0;
    for (end, more) in ends {
        wider.push_str(source.text.get(done..end)?);
        wider.push_str(&more);
        done = end;
    }
    wider.push_str(source.text.get(done..)?);
    Some(wider)
}

/// Reads a stock file; `columns` says what its columns are called where they are not called part, on_hand and pack.
///
/// # Errors
/// As [`Job::read`].
pub fn read_stock(path: &Path, columns: &ColumnNames) -> Result<Shelf, ReadError> {
    let mistakes = Mistakes::default();
    let shelf = mistakes.open(path.to_owned(), &Disk::anywhere()).and_then(|source| stock::shelf(&source, columns));
    mistakes.result(shelf)
}

/// Reads a stock file from its text; `file` is what it is called in messages.
///
/// A whole shelf may be in it as it comes: lines about other parts are counted and left out, the lots of one part added up, and what is less
/// than zero or not said is explained by line.
///
/// # Errors
/// As [`read_stock`].
///
/// ```
/// use shophead_job::read::read_stock_from;
/// use std::path::Path;
/// let text = "Part Number;Qty\nMS20470AD4-5;40\nAN3-5A;7\nMS20470AD4-5;25\nMS20470AD4-6;-3\n";
/// let columns = [("part", "Part Number".to_owned()), ("on_hand", "Qty".to_owned())];
/// let shelf = read_stock_from(text.into(), Path::new("shelf.csv"), &columns)?;
/// assert_eq!((shelf.stock[0].on_hand, shelf.foreign), (65, 1));
/// assert_eq!(shelf.notes[0].what, "MS20470AD4-6: -3 on hand is below zero: counted as none");
/// # Ok::<(), shophead_job::read::ReadError>(())
/// ```
pub fn read_stock_from(text: Vec<u8>, file: &Path, columns: &ColumnNames) -> Result<Shelf, ReadError> {
    let mistakes = Mistakes::default();
    let shelf = mistakes.source(file, text).and_then(|source| stock::shelf(&source, columns));
    mistakes.result(shelf)
}

/// Reads the rivets of a group: columns x, y and, where sizes are mixed, diameter; a number without a unit is what `bare` says.
///
/// # Errors
/// As [`Job::read`]; a diameter that the series does not have is a mistake.
pub fn read_group(path: &Path, series: &'static Series<'static>, bare: Bare) -> Result<Vec<GroupPoint>, ReadError> {
    let mistakes = Mistakes::default();
    let points = mistakes.open(path.to_owned(), &Disk::anywhere()).and_then(|source| {
        source.bare.set(bare);
        points::group(&source, series)
    });
    mistakes.result(points)
}

/// Reads the rivets of a group from their text; `file` is what it is called in messages.
///
/// # Errors
/// As [`read_group`].
///
/// ```
/// use shophead::length::Bare;
/// use shophead::rivet::MS20470;
/// use shophead_job::read::read_group_from;
/// let file = std::path::Path::new("points.csv");
/// let points = read_group_from("x,y,diameter\n0,0,\n1.5,0,5/32\n".into(), file, &MS20470, Bare::Inches)?;
/// assert_eq!((points.len(), points[0].size), (2, None));
/// let error = read_group_from("x,y,diameter\n0,0,.130\n".into(), file, &MS20470, Bare::Inches).unwrap_err();
/// assert!(error.to_string().starts_with("points.csv:2:5: MS20470 does not come in this diameter"));
/// # Ok::<(), shophead_job::read::ReadError>(())
/// ```
pub fn read_group_from(
    text: Vec<u8>,
    file: &Path,
    series: &'static Series<'static>,
    bare: Bare,
) -> Result<Vec<GroupPoint>, ReadError> {
    let mistakes = Mistakes::default();
    let points = mistakes.source(file, text).and_then(|source| {
        source.bare.set(bare);
        points::group(&source, series)
    });
    mistakes.result(points)
}

/// Reads the factory seams of a panel from their text; `file` is what it is called in messages, a number without a unit what `bare` says,
/// `own` the shop's own materials.
///
/// # Errors
/// As [`Job::read`].
///
/// ```
/// use shophead::length::Bare;
/// use shophead_job::read::read_seams_from;
/// let file = std::path::Path::new("seams.csv");
/// let text = "side,length,layers,rivet,pitch,edge,rows\nforward,12,\".032,.032\",MS20470AD4,3/4,1/4,2\n";
/// let seams = read_seams_from(text.into(), file, Bare::Inches, &[])?;
/// assert_eq!((seams[0].side.as_str(), seams[0].rows), ("forward", 2));
/// let error = read_seams_from(text.replace("3/4", "0").into(), file, Bare::Inches, &[]).unwrap_err();
/// assert!(error.to_string().starts_with("seams.csv:2:35: pitch must be above zero"), "{error}");
/// # Ok::<(), shophead_job::read::ReadError>(())
/// ```
pub fn read_seams_from(
    text: Vec<u8>,
    file: &Path,
    bare: Bare,
    own: &[Material],
) -> Result<Vec<FactorySeam>, ReadError> {
    let mistakes = Mistakes::default();
    let seams = mistakes.source(file, text).and_then(|source| {
        source.bare.set(bare);
        seams::seams(&source, own)
    });
    mistakes.result(seams)
}

fn hole_lines(source: &Source<'_>, job: &Job) -> Vec<HoleLine> {
    holes::lines(of(job, source), &row_keys(job), &mut SaidHoles::default())
}

/// A file of a job: a number without a unit is in it what it is in the job.
fn of<'s, 'm>(job: &Job, file: &'s Source<'m>) -> &'s Source<'m> {
    file.bare.set(job.bare);
    file
}

fn row_keys(job: &Job) -> Vec<RowKey> {
    job.rows.iter().map(|row| RowKey { name: row.name.clone(), count: Some(row.count) }).collect()
}

#[cfg(test)]
mod rows_tests;
#[cfg(test)]
mod tests;
