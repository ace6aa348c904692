//! A new job: the files that it begins with, and ten questions that fill in its first rows.
//!
//! [`Start`] makes the text of every file. [`Ask`] asks for a title and for rows; like a survey it knows nothing of terminals: it is
//! given what somebody typed and answers with lines to show. Each answer is tried in the reader of job files, so that what is accepted
//! reads.
//!
//! ```
//! use shophead_job::start::Ask;
//! let mut ask = Ask::new();
//! for typed in ["Access panel, left", "B1", "MS20470AD3-4", ".032,.040", "12", "3/4", "3/8", "secondary", "frame", "1.5", ""] {
//!     assert!(!ask.is_over());
//!     let told = ask.hear(typed);
//!     assert!(told.is_empty(), "{told:?}");
//! }
//! assert!(ask.is_over());
//! assert!(ask.start().rows.lines().nth(1).unwrap().starts_with("B1,\".032,.040\",MS20470AD3-4,"));
//! ```

use std::cell::RefCell;
use std::io;
use std::path::{Path, PathBuf};

use shophead::rivet::part::Part;

use crate::cell::{bare_or_in_quotes, harmless, original};
use crate::diagnostic::is_unseen;
use crate::model::Job;
use crate::read::{Files, ReadError};
use crate::{answers, survey};

/// The name of the rows file.
pub const ROWS: &str = "rows.csv";
const HOLES: &str = "holes.csv";
const ANSWERS: &str = "answers.csv";
/// The name of the job file.
pub const JOB: &str = "job.toml";
/// The position that rows are asked about.
const POSITION: &str = "place";
const COLUMNS: [&str; 12] = [
    "row",
    "layers",
    "installed",
    "count",
    "pitch",
    "edge",
    "structure",
    "member",
    "places",
    "clearances",
    "about",
    "holes",
];

/// What a new job begins with.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Start {
    /// What the job is.
    pub title: String,
    /// The work positions; without any none is compared.
    pub positions: Vec<String>,
    /// The rows file.
    pub rows: String,
    /// Files that the rows name, by their names.
    pub points: Vec<(PathBuf, Vec<u8>)>,
}

impl Start {
    /// With no row yet.
    #[must_use]
    pub fn empty(title: &str) -> Start {
        Start { title: title.to_owned(), positions: Vec::new(), rows: header(), points: Vec::new() }
    }

    /// With the rows of a spreadsheet; its positions are those that its clearances name. `file` is what the rows are called in messages,
    /// and points files that they name are looked for beside it, in `files`.
    ///
    /// # Errors
    /// What is wrong in the rows.
    pub fn from_rows(title: &str, rows: Vec<u8>, file: &Path, files: &dyn Files) -> Result<Start, ReadError> {
        let mut start = Start { rows: String::from_utf8_lossy(&rows).into_owned(), ..Start::empty(title) };
        start.positions = positions_in(&start.rows);
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        let job = start.job().replace(&format!("\nrows = {}", quoted(ROWS)), &format!("\nrows = {}", quoted(&name)));
        let points = RefCell::new(Vec::new());
        let found = |path: &Path| {
            if path == file {
                return Ok(rows.clone());
            }
            if path == file.with_file_name(HOLES) || path == file.with_file_name(ANSWERS) {
                return Err(io::ErrorKind::NotFound.into());
            }
            let bytes = files.read(path)?;
            let name = path.strip_prefix(file.parent().unwrap_or(Path::new(""))).unwrap_or(path).to_owned();
            points.borrow_mut().push((name, bytes.clone()));
            Ok(bytes)
        };
        Job::read_from(job.into(), &file.with_file_name(JOB), &found)?;
        Ok(Start { points: points.into_inner(), ..start })
    }

    /// Every file, by its name.
    #[must_use]
    pub fn files(&self) -> Vec<(PathBuf, Vec<u8>)> {
        let files = [
            (JOB, self.job()),
            (ROWS, self.rows.clone()),
            (HOLES, survey::HEADER.to_owned()),
            (ANSWERS, answers::header()),
            ("stock.csv", "part,on_hand,pack\n".to_owned()),
            ("driven.csv", "row,hole,diameter,height,condition,by,date,gauge,batch,driven_by,remark\n".to_owned()),
            ("README.txt", README.to_owned()),
        ];
        let files = files.into_iter().map(|(name, text)| (name.into(), text.into_bytes()));
        files.chain(self.points.iter().cloned()).collect()
    }

    fn job(&self) -> String {
        let positions: String =
            self.positions.iter().map(|name| format!("[[position]]\nname = {}\n\n", quoted(name))).collect();
        let example = if positions.is_empty() { EXAMPLE_POSITION } else { "" };
        JOB_FILE.replace("TITLE", &quoted(&self.title)).replace("EXAMPLE\n", example).replace("POSITIONS\n", &positions)
    }
}

/// A text as TOML writes it; what cannot be seen is not in it.
fn quoted(text: &str) -> String {
    let text: String = text.chars().filter(|c| !is_unseen(*c)).collect();
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}

fn header() -> String {
    COLUMNS.join(",") + "\n"
}

/// The positions that the clearances of a rows file name, in the order in which they come.
fn positions_in(rows: &str) -> Vec<String> {
    let mut lines = rows.trim_start_matches('\u{feff}').lines().filter_map(crate::read::cells_of);
    let header = lines.next().unwrap_or_default();
    let Some(column) = header.iter().position(|name| name.eq_ignore_ascii_case("clearances")) else {
        return Vec::new();
    };
    let mut names: Vec<String> = Vec::new();
    for line in lines {
        let cell = line.get(column).map_or("", |cell| original(cell));
        for (name, _) in cell.split([',', ';']).filter_map(|part| part.split_once('=')) {
            if !names.iter().any(|known| known == name.trim()) {
                names.push(name.trim().to_owned());
            }
        }
    }
    names
}

/// A question about a row, with the column that its answer stands in.
struct Question {
    column: &'static str,
    /// What is asked.
    ask: &'static str,
}

const QUESTIONS: [Question; 9] = [
    Question { column: "row", ask: "Row, its name" },
    Question { column: "installed", ask: "Rivet in it now" },
    Question { column: "layers", ask: "Layers, head side first" },
    Question { column: "count", ask: "How many rivets" },
    Question { column: "pitch", ask: "Pitch" },
    Question { column: "edge", ask: "Edge distance" },
    Question { column: "structure", ask: "primary or secondary" },
    Question { column: "member", ask: "It runs along a" },
    Question { column: "clearances", ask: "Room behind it" },
];

/// The words that may be shortened to their beginning.
const SHORT: [(&str, &[&str]); 2] = [
    ("structure", &["primary", "secondary"]),
    ("member", &["skin", "spar-cap", "longeron", "stringer", "frame", "rib", "other"]),
];

/// The questions: a title, then nine about each row. Enter keeps what the row before has.
#[derive(Debug, Default)]
pub struct Ask {
    title: Option<String>,
    rows: Vec<[String; QUESTIONS.len()]>,
    /// The answers of the row that is asked about.
    row: Vec<String>,
    over: bool,
}

impl Ask {
    /// Before the first question.
    #[must_use]
    pub fn new() -> Ask {
        Ask::default()
    }

    /// Lines to show at the beginning.
    #[must_use]
    pub fn greeting(&self) -> Vec<String> {
        vec![
            "Ten questions. Lengths in inches: .032, 3/8, 19mm. ? helps.".to_owned(),
            "From the second row on Enter keeps what the row before has.".to_owned(),
        ]
    }

    /// Whether nothing more is asked.
    #[must_use]
    pub const fn is_over(&self) -> bool {
        self.over
    }

    /// How many rows are whole.
    #[must_use]
    pub const fn rows(&self) -> usize {
        self.rows.len()
    }

    /// What stands before the cursor.
    #[must_use]
    pub fn prompt(&self) -> String {
        if self.title.is_none() {
            return "What is the job? > ".to_owned();
        }
        let Some(question) = QUESTIONS.get(self.row.len()) else { return String::new() };
        let ask = question.ask;
        match self.before(self.row.len()) {
            _ if question.column == "row" && !self.rows.is_empty() => {
                format!("{ask}; Enter when there is no other > ")
            }
            Some(before) => format!("{ask} [{before}] > "),
            None => format!("{ask} > "),
        }
    }

    /// What the row before has there.
    fn before(&self, question: usize) -> Option<&str> {
        self.rows.last().and_then(|row| row.get(question)).map(String::as_str).filter(|before| !before.is_empty())
    }

    fn help(&self) -> Vec<String> {
        let column = QUESTIONS.get(self.row.len()).filter(|_| self.title.is_some()).map_or("title", |one| one.column);
        let help: &[&str] = match column {
            "row" => &["A short name, such as K1: it goes on the card, the map and the bags."],
            "installed" => &["Its part number, MS20470AD4-5; without the length where that is not known."],
            "layers" => &[
                "Thicknesses with commas, the sheet under the manufactured head first: .032,.040",
                "Material, tolerance and what is special, with colons: clad 2024-T3:.063+-.002:countersunk,7075-T6:.190:cap",
            ],
            "count" => &["A whole number."],
            "pitch" | "edge" => &["A length: 3/4, .75, 19mm. Enter where it is not known yet."],
            "structure" => &["How much hangs on it; p or s."],
            "member" => {
                &["skin, spar-cap, longeron, stringer, frame, rib or other; the beginning of the word is enough."]
            }
            "clearances" => &[
                "From the far side of the layers to whatever is behind them: a length, closed or open.",
                "Enter where it is not known yet.",
            ],
            _ => &["A title for plan, card and order: Keel skin panel, frames 2 to 6"],
        };
        help.iter().map(|line| (*line).to_owned()).collect()
    }

    /// Takes what was typed; answers with what is wrong, if anything is.
    pub fn hear(&mut self, typed: &str) -> Vec<String> {
        let typed = typed.trim();
        if typed == "?" {
            return self.help();
        }
        if typed.contains(is_unseen) {
            return vec!["Not taken: it has a hidden character.".to_owned()];
        }
        if self.title.is_none() {
            if typed.is_empty() {
                return vec!["A job needs a title, such as Keel skin panel, frames 2 to 6.".to_owned()];
            }
            self.title = Some(typed.to_owned());
            return Vec::new();
        }
        let Some(question) = QUESTIONS.get(self.row.len()) else { return Vec::new() };
        if question.column == "row" && typed.is_empty() && !self.rows.is_empty() {
            self.over = true;
            return Vec::new();
        }
        let answer = match typed {
            "" => self.before(self.row.len()).unwrap_or_default().to_owned(),
            typed => lengthened(question.column, typed),
        };
        self.row.push(answer);
        if let Some(wrong) = self.wrong() {
            self.row.pop();
            return vec![format!("Not taken: {wrong}.")];
        }
        if self.row.len() == QUESTIONS.len() {
            let row: [String; QUESTIONS.len()] =
                std::array::from_fn(|at| self.row.get(at).cloned().unwrap_or_default());
            self.rows.push(row);
            self.row.clear();
        }
        Vec::new()
    }

    /// What the reader of job files says of the answers so far, with sound ones for what is still to be asked.
    fn wrong(&self) -> Option<String> {
        let flush =
            self.row.get(1).and_then(|part| Part::parse(part).ok()).is_some_and(|part| part.series().head.is_flush());
        let sound = |column: &str| match column {
            "layers" if flush => ".063:countersunk,.063",
            "layers" => ".063,.063",
            "installed" => "MS20470AD4",
            "count" => "1",
            "structure" => "secondary",
            "member" => "skin",
            _ => "",
        };
        let mut row: [String; QUESTIONS.len()] = std::array::from_fn(|_| String::new());
        for ((place, question), at) in row.iter_mut().zip(&QUESTIONS).zip(0..) {
            *place = self.row.get(at).cloned().unwrap_or_else(|| sound(question.column).to_owned());
        }
        let rows: Vec<&[String; QUESTIONS.len()]> = self.rows.iter().chain([&row]).collect();
        let start = self.start_of(&rows);
        let no_files = |path: &Path| {
            if path == Path::new(ROWS) {
                Ok(start.rows.clone().into_bytes())
            } else {
                Err(io::ErrorKind::NotFound.into())
            }
        };
        match Job::read_from(start.job().into(), Path::new(JOB), &no_files) {
            Ok(_) => None,
            Err(ReadError::Content(mistakes)) => mistakes.first().map(|mistake| match &mistake.help {
                Some(help) => format!("{}; {help}", mistake.message),
                None => mistake.message.clone(),
            }),
            Err(other) => Some(other.to_string()),
        }
    }

    /// What was answered so far, as the beginning of a job: the rows that are whole.
    #[must_use]
    pub fn start(&self) -> Start {
        self.start_of(&self.rows.iter().collect::<Vec<_>>())
    }

    fn start_of(&self, rows: &[&[String; QUESTIONS.len()]]) -> Start {
        let answer = |row: &[String; QUESTIONS.len()], column: &str| {
            let at = QUESTIONS.iter().position(|question| question.column == column);
            at.and_then(|at| row.get(at)).cloned().unwrap_or_default()
        };
        let has_room = rows.iter().any(|row| !answer(row, "clearances").is_empty());
        let line = |row: &&[String; QUESTIONS.len()]| {
            let cell = |column: &&str| match (*column, answer(row, column)) {
                ("clearances", room) if has_room && room.is_empty() => format!("{POSITION}=closed"),
                ("clearances", room) if has_room => format!("{POSITION}={room}"),
                (_, answer) => answer,
            };
            let cells: Vec<String> =
                COLUMNS.iter().map(|column| bare_or_in_quotes(&harmless(&cell(column))).into_owned()).collect();
            cells.join(",") + "\n"
        };
        Start {
            title: self.title.clone().unwrap_or_default(),
            positions: if has_room { vec![POSITION.to_owned()] } else { Vec::new() },
            rows: header() + &rows.iter().map(line).collect::<String>(),
            points: Vec::new(),
        }
    }
}

/// A word that was shortened to its beginning, where only one begins so.
fn lengthened(column: &str, typed: &str) -> String {
    let known = SHORT.iter().find(|(name, _)| *name == column).map(|(_, words)| *words).unwrap_or_default();
    let lower = typed.to_ascii_lowercase();
    let mut meant = known.iter().filter(|word| word.starts_with(&lower));
    match (meant.next(), meant.next()) {
        (Some(word), None) => (*word).to_owned(),
        _ => typed.to_owned(),
    }
}

const EXAMPLE_POSITION: &str = "\
# [[position]]
# name = \"upright\"
# about = \"on the trolley, floor panels in\"
";

const JOB_FILE: &str = "\
# A job: one panel. A line that begins with # is a remark; take the # away to use what it says.
# shophead plan job.toml    reads this file and says what is wrong or still missing.

# What the job is.
title = TITLE

# What a number without a unit is, here and in the CSV files: \"in\" or \"mm\".
units = \"in\"

# Whose limits hold: \"handbook\" or \"process\". The limits of your own manuals come on top, from a limits file.
practice = \"handbook\"
# limits = \"shop-limits.toml\"

# The rows, one line each. Open it in a spreadsheet, and keep fractions as text.
rows = \"rows.csv\"

# Measured holes: shophead survey job.toml holes.csv
holes = \"holes.csv\"

# Answers to what was referred: shophead answer writes them into it.
answers = \"answers.csv\"

# Spare rivets to order, in percent of those needed.
spares = \"10 %\"

# Which way is forward and which inboard in the coordinates of points, for the map: x, -x, y or -y in quotes.
# forward = \"y\"
# inboard = \"-x\"

# Your own names for sheet materials, to be used in the layers: skin:.032+-.002
[materials]
# skin = \"clad 2024-T3\"

# Where the work may stand, one [[position]] each. The column clearances of rows.csv then says how much room is behind each
# row in each of them: upright=1.5; rolled=open. What cannot be reached at all is closed.
EXAMPLE
POSITIONS
# More that a job can have, one table each: edges that the panel is cut to, damage beside the holes, other places to look at.
# [[edge]]
# name = \"aft edge\"
# stations = \"trim.csv\"
#
# [[damage]]
# kind = \"corrosion\"
# place = \"keel cap, two inches aft of frame 3\"
#
# [[look]]
# place = \"keel cap under the tank\"
# why = \"the sealant was loose\"
";

const README: &str = "\
A riveting job for shophead.

  job.toml     the job: title, limits, positions
  rows.csv     the rows of rivets, one line each:
                 row         its name: K1
                 layers      the sheet under the manufactured head first: \"clad 2024-T3:.063+-.002:countersunk,7075-T6:.190:cap\"
                 installed   what is in the holes now: MS20426AD5-8
                 count       how many rivets: 48
                 pitch       from hole to hole: 7/8
                 edge        to the nearest edge of any layer: 7/16
                 structure   primary or secondary
                 member      skin, spar-cap, longeron, stringer, frame, rib or other
                 places      fluid-tight, below-water-line, air-intake, control, main-fitting, heavily-stressed
                 clearances  the room behind it in each position: upright=1.5; rolled=open
                 about       what it joins
                 holes       a line with this filled in is about these holes of the row only: 1 5-8; it has layers or edge of their own
  holes.csv    holes as measured; the survey fills it in
  answers.csv  who answered what was referred, under which document
  stock.csv    what is on the shelf: part, on_hand, pack
  driven.csv   driven rivets as measured and looked at

In this order:
  shophead plan job.toml
  shophead survey job.toml holes.csv
  shophead answer job.toml --row K1 --hole 7 --answer oversize --by NAME --document TEXT   for what is referred
  shophead order job.toml --stock stock.csv
  shophead card job.toml -o card.html
  shophead inspect job.toml driven.csv

Advisory only: the manuals of the type, approved data, local rules and a licensed person decide.
";

#[cfg(test)]
mod tests {
    use super::*;

    fn read(start: &Start) -> Job {
        let files = start.files();
        let found = |path: &Path| {
            let file = files.iter().find(|(name, _)| name == path);
            file.map(|(_, bytes)| bytes.clone()).ok_or(io::ErrorKind::NotFound.into())
        };
        Job::read_from(start.job().into(), Path::new(JOB), &found)
            .unwrap_or_else(|error| panic!("{error}\n{}", start.rows))
    }

    fn answered(lines: &[&str]) -> (Ask, Vec<String>) {
        let mut ask = Ask::new();
        let told = lines.iter().flat_map(|line| ask.hear(line)).collect();
        (ask, told)
    }

    const FIRST: [&str; 10] = ["Panel", "K1", "MS20470AD4-5", ".032,.040", "12", "3/4", "3/8", "p", "fr", "1.5"];

    #[test]
    fn ten_answers_make_a_job_and_enter_keeps_what_the_row_before_has() {
        let (mut ask, told) = answered(&FIRST);
        assert_eq!((told, ask.rows()), (Vec::new(), 1));
        for typed in ["K2", "", "", "20", "", "", "s", "", "", ""] {
            assert_eq!(ask.hear(typed), Vec::<String>::new(), "{typed:?}");
        }
        assert!(ask.is_over());
        let job = read(&ask.start());
        let [one, other] = job.rows.as_slice() else { panic!("two rows") };
        assert_eq!((one.member.as_str(), one.structure.as_str(), one.count), ("frame", "primary", 12));
        assert_eq!(
            (other.structure.as_str(), other.count, other.installed, &other.stack),
            ("secondary", 20, one.installed, &one.stack)
        );
        assert_eq!((job.positions.len(), one.clearance.len()), (1, 1));
    }

    #[test]
    fn what_is_not_known_may_be_left_out() {
        let (mut ask, told) = answered(&["Panel", "K1", "MS20470AD4", ".032,.040", "12", "", "", "s", "sk", ""]);
        assert_eq!(told, Vec::<String>::new());
        ask.hear("");
        let job = read(&ask.start());
        assert_eq!((job.rows[0].layout.pitch, job.rows[0].layout.edge, job.positions.len()), (None, None, 0));
    }

    #[test]
    fn an_answer_that_would_not_read_is_asked_for_again() {
        for (at, typed, wanted) in [
            (0, "", "A job needs a title"),
            (1, "", "Not taken: this row has no row; fill its cell in the column row"),
            (2, "MS20470AD7", "Not taken: installed: "),
            (3, "40,.040", "Not taken: \"40\": 40 in is thick for a layer (character 1); did you mean .040?"),
            (3, ".032:countersunk,.040", "Not taken: the head is protruding, but a layer is countersunk or dimpled"),
            (4, "twelve", "Not taken: count cannot be twelve"),
            (5, "0,75", "Not taken: pitch: a decimal is written with a point"),
            (7, "x", "Not taken: structure cannot be \"x\"; right would be \"primary\" or \"secondary\""),
            (8, "s", "Not taken: member cannot be \"s\""),
            (9, "shut", "Not taken: clearance cannot be \"shut\""),
            (9, "\u{1b}", "Not taken: it has a hidden character."),
        ] {
            let (mut ask, told) = answered(&FIRST[..at]);
            assert_eq!(told, Vec::<String>::new());
            let prompt = ask.prompt();
            let told = ask.hear(typed);
            assert!(told.first().is_some_and(|told| told.starts_with(wanted)), "{typed}: {told:?}");
            assert_eq!(ask.prompt(), prompt, "it is asked again");
            assert!(!ask.hear("?").is_empty() && ask.prompt() == prompt, "and helped with");
        }
        // A flush rivet needs its seat, which is asked for after it.
        let (mut ask, _) = answered(&["Panel", "K1", "MS20426AD4-5"]);
        assert!(ask.hear(".063,.040")[0].contains("the head is flush, but no layer is countersunk or dimpled"));
        assert_eq!(ask.hear(".063:countersunk,.040"), Vec::<String>::new());
    }

    #[test]
    fn a_title_with_quotes_and_a_name_that_looks_like_a_formula_arrive_as_they_are() {
        let mut lines = FIRST;
        (lines[0], lines[1]) = ("12\" panel, \\port\\", "=K1");
        let (mut ask, told) = answered(&lines);
        assert_eq!(told, Vec::<String>::new());
        ask.hear("");
        let job = read(&ask.start());
        assert_eq!((job.title.as_str(), job.rows[0].name.as_str()), ("12\" panel, \\port\\", "=K1"));
    }

    #[test]
    fn a_folder_without_rows_says_what_to_fill_in() {
        let start = Start::empty("Panel");
        let found = |path: &Path| {
            if path == Path::new(ROWS) {
                Ok(start.rows.clone().into_bytes())
            } else {
                Err(io::ErrorKind::NotFound.into())
            }
        };
        let error = Job::read_from(start.job().into(), Path::new(JOB), &found).expect_err("no row").to_string();
        assert!(error.starts_with("rows.csv:1:1: there is no row in this file yet; fill in one line a row"), "{error}");
        // Every line that is commented out reads once the mark is taken away.
        let mut live = start
            .job()
            .replace("# limits = \"shop-limits.toml\"\n", "")
            .replace("[[edge]]\n# name", "[[look]]\n# place")
            .replace("# stations = \"trim.csv\"", "# why = \"x\"");
        for line in ["# skin = ", "# [[", "# name", "# about", "# kind", "# place", "# why"] {
            live = live.replace(&format!("\n{line}"), &format!("\n{}", &line[2..]));
        }
        let rows = format!("{}K1,\"skin:.032,.040\",MS20470AD4-5,12,3/4,3/8,primary,frame,,upright=1.5,,\n", header());
        let found = |path: &Path| {
            if path == Path::new(ROWS) { Ok(rows.clone().into_bytes()) } else { Err(io::ErrorKind::NotFound.into()) }
        };
        let job = Job::read_from(live.clone().into(), Path::new(JOB), &found)
            .unwrap_or_else(|error| panic!("{error}\n{live}"));
        assert_eq!((job.positions.len(), job.damage.len(), job.looks.len()), (1, 1, 2));
    }

    #[test]
    fn the_rows_of_a_spreadsheet_bring_their_positions_and_points() {
        let rows = "row,layers,installed,count,points,structure,member,clearances\n\
                    K1,\".032,.040\",MS20470AD4-5,12,,primary,frame,upright=1.5; rolled=open\n\
                    K2,\".032,.040\",MS20470AD4-5,,drain.csv,primary,frame,\"rolled=closed, upright=2\"\n";
        let disk = |path: &Path| match path.to_str() {
            Some("in/drain.csv") => Ok(b"x,y\n0,0\n1,0\n".to_vec()),
            _ => Err(io::ErrorKind::NotFound.into()),
        };
        let start = |rows: &str| Start::from_rows("Panel", rows.into(), Path::new("in/sheet.csv"), &disk);
        let sound = start(rows).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(sound.positions, ["upright", "rolled"]);
        let job = read(&sound);
        assert_eq!((job.rows[0].count, job.rows[1].count), (12, 2), "the points come along");
        let error = start(&rows.replace("frame", "frme")).expect_err("a slip").to_string();
        assert!(error.starts_with("in/sheet.csv:2:"), "{error}");
    }
}
