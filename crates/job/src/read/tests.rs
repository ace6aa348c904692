//! Reading as a whole: the demo, every kind of mistake, and files that somebody mangled.

use std::fmt::Write as _;
use std::io;
use std::path::Path;

use proptest::prelude::*;

use super::keys::{self, Keys};
use super::*;
use crate::model::{AnswerTo, NamedFile, Row};
use shophead::access::Clearance;
use shophead::hole::Damage;
use shophead::length::{Length, Toleranced};

const DEMO: &str = include_str!("../../demo/keel-skin/job.toml");
const DEMO_LIMITS: &str = include_str!("../../demo/keel-skin/shop-limits.toml");
const DEMO_HOLES: &str = include_str!("../../demo/keel-skin/holes.csv");
const DEMO_TRIM: &str = include_str!("../../demo/keel-skin/trim.csv");

const MARSH: &str = include_str!("../../demo/marsh-float/job.toml");
const MARSH_HOLES: &str = include_str!("../../demo/marsh-float/holes.csv");
const MARSH_TRIM: &str = include_str!("../../demo/marsh-float/trim.csv");

fn no_files(_: &Path) -> io::Result<Vec<u8>> {
    Err(io::ErrorKind::NotFound.into())
}

/// Reads a job beside which these files lie.
fn read_beside(text: &str, files: &[(&str, &str)]) -> Result<Job, ReadError> {
    let found = |path: &Path| {
        let file = files.iter().find(|(name, _)| Path::new(name) == path);
        file.map(|(_, text)| text.as_bytes().to_vec()).ok_or(io::ErrorKind::NotFound.into())
    };
    Job::read_from(text.into(), Path::new("job.toml"), &found)
}

fn demo(job: &str, limits: &str, holes: &str) -> Result<Job, ReadError> {
    read_beside(job, &[("shop-limits.toml", limits), ("holes.csv", holes), ("trim.csv", DEMO_TRIM)])
}

fn inch(text: &str) -> Length {
    Length::parse(text).expect(text)
}

/// The mistakes in a job, one a line.
fn mistakes<T>(read: Result<T, ReadError>) -> String {
    match read {
        Ok(_) => "nothing is wrong".into(),
        Err(error) => error.to_string(),
    }
}

/// A sound job in which tests replace single pieces.
const SOUND: &str = r#"title = "Panel"
practice = "handbook"
spares = "10 %"
[materials]
skin = "clad 2024-T3"
[[position]]
name = "upright"
[[position]]
name = "rolled"
[[row]]
name = "K1"
structure = "primary"
member = "spar-cap"
places = ["below-water-line"]
head = "flush"
installed = "MS20426AD5-8"
layers = [
    { role = "skin", material = "skin", thickness = ".063+-.002", preparation = "countersunk" },
    { role = "cap", material = "7075-T6", thickness = 0.190 },
]
count = 48
pitch = "7/8"
edge = 0.4375
clearance = { upright = "1.5", rolled = "open" }
[[row.hole]]
number = 7
major = ".171"
[[row.exception]]
holes = [1, "5-8"]
edge = "5/16"
"#;

fn sound_job() -> Job {
    read_beside(SOUND, &[]).unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn the_demo_reads_without_a_mistake() {
    let job = demo(DEMO, DEMO_LIMITS, DEMO_HOLES).unwrap_or_else(|error| panic!("{}", error.render(false)));
    assert_eq!(job.practice.name(), "handbook");
    assert_eq!((job.positions.len(), job.rows.len(), job.own_limits.limits.len()), (3, 15, 3));
    assert_eq!(job.own_limits.limits[0].document, "hull repair manual (demo)");
    assert_eq!(job.spares_percent, 10);
    let row = |name: &str| job.rows.iter().find(|row| row.name == name).expect(name);
    assert_eq!(row("F3").clearance, [Clearance::Closed, Clearance::Room(inch("3/8")), Clearance::Room(inch("2"))]);
    assert_eq!((row("D1").count, row("D1").points.as_ref().map(Vec::len)), (8, Some(8)));
    assert_eq!(row("F5").exceptions[0].stack.layers().len(), 4);
    let measured: Vec<u32> = row("B1").measured.iter().map(|hole| hole.number).collect();
    assert_eq!(measured, [1, 7], "one in the job, one in the holes file");
    assert_eq!(row("B1").measured[0].as_found.damage(), Damage::Gouged);
    assert_eq!(job.rows.iter().map(|row| row.measured.len()).sum::<usize>(), 23);
}

#[test]
fn the_demo_reads_from_the_disk() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/keel-skin");
    let job = Job::read(&folder.join("job.toml")).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(job.rows.len(), 15);
    assert_eq!(OwnLimits::read(&folder.join("shop-limits.toml")).expect("limits").limits.len(), 3);
    assert_eq!(read_holes(&folder.join("holes.csv"), &job).expect("holes").len(), 22);
}

#[test]
fn everything_a_row_says_arrives() {
    let job = sound_job();
    let row = &job.rows[0];
    assert_eq!((row.installed.to_string(), row.rivet.to_string()), ("MS20426AD5-8".into(), "MS20426AD5".into()));
    assert_eq!(row.layout.edge, Some(inch("7/16")), "a number without quotes is read digit by digit");
    assert_eq!(row.stack.layers()[1].thickness, Toleranced::exactly(inch(".190")));
    assert_eq!(row.stack.layers()[0].material.map(|material| material.to_string()), Some("clad 2024-T3".into()));
    assert_eq!(row.exceptions[0].holes, [1, 5, 6, 7, 8]);
    assert_eq!(row.exceptions[0].stack, row.stack);
    assert_eq!((row.exceptions[0].layout.edge, row.exceptions[0].layout.pitch), (Some(inch("5/16")), None));
    assert_eq!(row.measured[0].as_found.minor(), inch(".171"), "a round hole needs no minor axis");
    assert_eq!((row.rows_in_pattern, row.hole, row.layout.transverse_pitch), (1, None, None));
}

#[test]
fn optional_keys_of_a_row() {
    let rest = "hole-size = \".162+-.001\"\nrows-in-pattern = 2\ntransverse-pitch = \"1/2\"\nrivet = \"NAS1097AD5\"\n";
    let text = SOUND
        .replace("[[row.hole]]\nnumber = 7\nmajor = \".171\"\n", rest)
        .replace("head = \"flush\"", "head = \"reduced-flush\"");
    let row: Row = read_beside(&text, &[]).unwrap_or_else(|error| panic!("{error}")).rows.remove(0);
    assert_eq!(row.hole, Some(Toleranced::parse(".162+-.001").expect("a hole")));
    assert_eq!((row.rows_in_pattern, row.layout.transverse_pitch), (2, Some(inch("1/2"))));
    assert_eq!(row.rivet.to_string(), "NAS1097AD5");
}

#[test]
fn a_job_without_positions_compares_none() {
    let text = SOUND
        .replace("[[position]]\nname = \"upright\"\n[[position]]\nname = \"rolled\"\n", "")
        .replace("clearance = { upright = \"1.5\", rolled = \"open\" }\n", "");
    let job = read_beside(&text, &[]).unwrap_or_else(|error| panic!("{error}"));
    assert!(job.positions.is_empty() && job.rows[0].clearance.is_empty());
}

#[test]
fn points_may_stand_in_a_file() {
    let text = SOUND.replace("count = 48", "points = \"at.csv\"");
    let file = "\u{feff}id,y,x\r\n1,-1/2,1\r\n\r\n2,0,1.5\r\n3,0,2\r\n4,0,3\r\n5,0,4\r\n6,0,5\r\n7,0,6\r\n8,0,7\r\n";
    let job = read_beside(&text, &[("at.csv", file)]).unwrap_or_else(|error| panic!("{error}"));
    let points = job.rows[0].points.as_ref().expect("points");
    assert_eq!((job.rows[0].count, points[0].x, points[0].y), (8, inch("1"), inch("-.5")));
    for (file, told) in [
        ("", "at.csv:1:1: a points file is empty; right would be a first line x,y"),
        ("x,y\n", "job.toml:21:10: these are 0 points; right would be 1 to 100000"),
        ("x\n1\n", "at.csv:1:1: the column y is missing; right would be a first line x,y"),
        ("x,y\n1,\n", "at.csv:2:1: this line has no y; fill the cell or delete the line\njob.toml"),
    ] {
        let all = mistakes(read_beside(&text, &[("at.csv", file)]));
        assert!(all.contains(told.strip_suffix("\njob.toml").unwrap_or(told)), "{file:?}: {all}");
    }
}

/// What is replaced, by what, and what is told about it.
const MISTAKES: &[(&str, &str, &str)] = &[
    // keys
    (
        "title = \"Panel\"\n",
        "",
        "job.toml:1:1: the job has no title; right would be title = \"Keel skin panel, frames 2 to 6\"",
    ),
    ("title = \"Panel\"", "title = \" \"", "job.toml:1:9: title is empty; write something or leave the key out"),
    ("title = \"Panel\"", "title = 5", "job.toml:1:9: title is a number; right would be a text in quotes"),
    (
        "title = \"Panel\"",
        "title = \"a\\u001b[2J\"",
        "job.toml:1:9: title holds a control or direction character: \"a\\u{1b}[2J\"; write it on one line, without hidden characters",
    ),
    ("spares", "sparse", "job.toml:3:1: a job has no key \"sparse\"; right would be \"spares\""),
    ("pitch = ", "pich = ", "job.toml:22:1: a row has no key \"pich\"; right would be \"pitch\""),
    ("pitch = ", "pitch = \"1\"\npitch = ", "job.toml:23:1: \"pitch\" is already said in this table; keep one of both"),
    (
        "count = 48",
        "count = 48\nxyzzy = 1",
        "job.toml:22:1: a row has no key \"xyzzy\"; right would be \"name\", \"about\", \"structure\", \"member\", \"places\", \"head\", \"installed\", \"rivet\", \"layers\", \"installed-layers\", \"count\", \"points\", \"start\", \"along\", \"pitch\", \"edge\", \"transverse-pitch\", \"pattern\", \"rows-in-pattern\", \"clearance\", \"hole-size\", \"hole\" or \"exception\"",
    ),
    // TOML
    ("pitch = \"7/8\"", "pitch = 7/8", "job.toml:22:9: 7/8 needs quotes; right would be \"7/8\""),
    (
        "edge = 0.4375",
        "edge = .4375",
        "job.toml:23:8: a number without quotes has digits before and after its point; right would be 0.75 or \".75\"",
    ),
    (
        "edge = 0.4375",
        "edge =",
        "job.toml:23:7: a value is missing; right would be a text in quotes, a number or a list",
    ),
    (
        "name = \"K1\"",
        "name = \"K1",
        "job.toml:11:11: this text is not closed; close it with a quote before the end of the line",
    ),
    (
        "edge = 0.4375",
        "edge = 0,4375",
        "job.toml:23:9: there is text after the value; right would be a decimal with a point, or a list in [ ]",
    ),
    ("[materials]", "[materials", "job.toml:4:11: this is not TOML: unclosed table, expected `]`"),
    // words
    (
        "practice = \"handbook\"",
        "practice = \"handbok\"",
        "job.toml:2:12: practice cannot be \"handbok\"; right would be \"handbook\"",
    ),
    (
        "practice = \"handbook\"",
        "practice = \"mine\"",
        "job.toml:2:12: practice cannot be \"mine\"; right would be \"handbook\" or \"process\"",
    ),
    (
        "\"primary\"",
        "\"tertiary\"",
        "job.toml:12:13: structure cannot be \"tertiary\"; right would be \"primary\" or \"secondary\"",
    ),
    ("\"spar-cap\"", "\"Spar cap\"", "job.toml:13:10: member cannot be \"Spar cap\"; right would be \"spar-cap\""),
    (
        "[\"below-water-line\"]",
        "[\"below-waterline\"]",
        "job.toml:14:11: a place cannot be \"below-waterline\"; right would be \"below-water-line\"",
    ),
    (
        "[\"below-water-line\"]",
        "\"below-water-line\"",
        "job.toml:14:10: places is a text; right would be a list in [ ]",
    ),
    ("role = \"cap\"", "role = \"capp\"", "job.toml:19:14: role cannot be \"capp\"; right would be \"cap\""),
    (
        "\"countersunk\"",
        "\"countersink\"",
        "job.toml:18:81: preparation cannot be \"countersink\"; right would be \"countersunk\"",
    ),
    (
        "major = \".171\"",
        "major = \".171\"\ncondition = \"bent\"",
        "job.toml:28:13: condition cannot be \"bent\"; right would be \"sound\", \"cracked\", \"corroded\", \"figure-eight\", \"gouged\" or \"deep-countersink\"",
    ),
    // part numbers and heads
    (
        "MS20426AD5-8",
        "MS20426AD7-8",
        "job.toml:16:23: installed: this is not a diameter known for MS20426 (character 10); right would be MS20426AD6-8 or MS20426AD8-8",
    ),
    (
        "head = \"flush\"",
        "head = \"universal\"",
        "job.toml:15:8: the head of MS20426 is flush; right would be \"flush\", or another rivet",
    ),
    ("head = \"flush\"", "head = \"fush\"", "job.toml:15:8: head cannot be \"fush\"; right would be \"flush\""),
    (
        "head = \"flush\"",
        "rivet = \"MS20426AD5-9\"",
        "job.toml:15:9: rivet has a length, but the plan chooses lengths; right would be \"MS20426AD5\"",
    ),
    (
        "head = \"flush\"",
        "rivet = \"MS20470AD5\"",
        "job.toml:17:10: the head is protruding, but a layer is countersunk or dimpled; leave the preparation out, or take a rivet with a flush head",
    ),
    (
        ", preparation = \"countersunk\"",
        "",
        "job.toml:17:10: the head is flush, but no layer is countersunk or dimpled; the layer that takes the head needs preparation = \"countersunk\" or \"dimpled\"",
    ),
    // materials
    (
        "material = \"7075-T6\"",
        "material = \"7075-T9\"",
        "job.toml:19:32: \"7075-T9\": 7075 is not on file in this temper; on file are 7075-T6, 7075-T62, 7075-T651, 7075-T73, 7075-T76, 7075-T6511; a shop enters another in its limits file, as material.NAME",
    ),
    (
        "material = \"skin\"",
        "material = \"skn\"",
        "job.toml:18:33: \"skn\" is neither named in [materials] nor a material; right would be \"skin\"",
    ),
    (
        "skin = \"clad 2024-T3\"",
        "skin = \"clad 2042-T3\"",
        "job.toml:5:8: \"skin\": no such sheet alloy on file; on file are 2024, 5052, 6061, 7075, 2014, 2017, 4130; a shop enters another in its limits file, as material.NAME",
    ),
    (
        "skin = \"clad 2024-T3\"",
        "skin = \"clad 2024-T3\"\n7075-T6 = \"2024-T3\"",
        "job.toml:6:1: \"7075-T6\" is itself a material; give another name",
    ),
    // numbers and lengths
    (
        "\"10 %\"",
        "\"ten\"",
        "job.toml:3:10: spares cannot be \"ten\"; right would be a whole percentage from 0 to 1000, such as \"10 %\"",
    ),
    ("\"10 %\"", "-1", "job.toml:3:10: spares cannot be -1; right would be a whole number from 0 to 1000"),
    ("count = 48", "count = 0", "job.toml:21:9: count cannot be 0; right would be a whole number from 1 to 100000"),
    (
        "count = 48",
        "count = 99999999999999999999999999",
        "job.toml:21:9: count cannot be 99999999999999999999999999; right would be a whole number from 1 to 100000",
    ),
    ("count = 48", "count = \"48\"", "job.toml:21:9: count is a text; right would be a whole number from 1 to 100000"),
    ("count = 48\n", "", "job.toml:10:1: row K1 has neither count nor points; right would be count = 48, or points"),
    (
        "count = 48",
        "count = 48\npoints = [[1, 2]]",
        "job.toml:21:9: row K1 has count and points; leave one of both out: every point is a hole",
    ),
    (
        "count = 48",
        "points = [[1, 2, 3]]",
        "job.toml:21:11: a point has two coordinates, not 3; right would be [\"1\", \"1/2\"]",
    ),
    (
        "count = 48",
        "points = 5",
        "job.toml:21:10: points is neither a list nor a file; right would be [[\"1\", \"0\"], [\"2\", \"0\"]] or \"points.csv\"",
    ),
    (
        "pitch = \"7/8\"",
        "pitch = \"0,875\"",
        "job.toml:22:11: pitch: a decimal is written with a point, not a comma (character 2); right would be .125, 1/8, 1-1/2 or 3.2mm",
    ),
    ("pitch = \"7/8\"", "pitch = \"-7/8\"", "job.toml:22:9: pitch must be above zero; right would be \"3/8\""),
    (
        "pitch = \"7/8\"",
        "pitch = inf",
        "job.toml:22:9: pitch: a digit is missing (character 1); right would be .125, 1/8, 1-1/2 or 3.2mm",
    ),
    (
        "pitch = \"7/8\"",
        "pitch = 1e300",
        "job.toml:22:10: pitch: the units are in and mm (character 2); right would be .125, 1/8, 1-1/2 or 3.2mm",
    ),
    (
        "pitch = \"7/8\"",
        "pitch = true",
        "job.toml:22:9: pitch is true or false; right would be a text in quotes or a number",
    ),
    (
        "0.190",
        "\".002+-.002\"",
        "job.toml:19:55: thickness must be above zero, also at the lower end of its tolerance; right would be \".032+-.002\"",
    ),
    ("number = 7", "number = 49", "job.toml:26:10: number cannot be 49; right would be a whole number from 1 to 48"),
    (
        "major = \".171\"",
        "major = \"0\"",
        "job.toml:27:9: hole: a hole needs a diameter above zero; right would be .1285",
    ),
    (
        "major = \".171\"",
        "major = \".171\"\nminor = \".172\"",
        "job.toml:28:9: hole: the minor axis is longer than the major one; enter the longer one as major",
    ),
    (
        "count = 48",
        "count = 48\nrows-in-pattern = 256",
        "job.toml:22:19: rows-in-pattern cannot be 256; right would be a whole number from 1 to 255",
    ),
    // layers
    (
        "{ role = \"cap\", material = \"7075-T6\", thickness = 0.190 },",
        "\"cap\"",
        "job.toml:19:5: a layer is a text; right would be a table { role = \"skin\", thickness = \".032\" }",
    ),
    (
        ", thickness = 0.190",
        "",
        "job.toml:19:5: this layer has no thickness; right would be thickness = \".032+-.002\"",
    ),
    // names
    (
        "name = \"rolled\"",
        "name = \"upright\"",
        "job.toml:9:8: the name \"upright\" is already taken, at job.toml:7; give another name",
    ),
    ("name = \"K1\"", "name = \"\"", "job.toml:11:8: name is empty; write something or leave the key out"),
    (
        "member = \"spar-cap\"\n",
        "",
        "job.toml:10:1: row K1 has no member; right would be member = \"skin\", or what else the row runs along",
    ),
    // clearance
    (
        "clearance = { upright = \"1.5\", rolled = \"open\" }\n",
        "",
        "job.toml:10:1: row K1 has no clearance in position upright; right would be \"closed\", \"open\" or a length\njob.toml:10:1: row K1 has no clearance in position rolled; right would be \"closed\", \"open\" or a length",
    ),
    (
        ", rolled = \"open\"",
        "",
        "job.toml:24:13: row K1 has no clearance in position rolled; right would be \"closed\", \"open\" or a length",
    ),
    ("\"open\"", "\"opn\"", "job.toml:24:41: clearance cannot be \"opn\"; right would be \"open\""),
    (
        "\"open\"",
        "\"none\"",
        "job.toml:24:41: clearance cannot be \"none\"; right would be \"closed\", \"open\" or a length",
    ),
    ("\"open\"", "0", "job.toml:24:41: rolled must be above zero; right would be \"3/8\""),
    (
        "rolled = \"open\"",
        "roled = \"open\"",
        "job.toml:24:13: row K1 has no clearance in position rolled; right would be \"closed\", \"open\" or a length\njob.toml:24:32: the job has no position \"roled\"; right would be \"rolled\"",
    ),
    (
        "clearance = {",
        "clearance = [] # {",
        "job.toml:24:13: clearance is a list; right would be { position = \"1.5\" }, with \"closed\", \"open\" or a length for each position",
    ),
    // holes and exceptions
    (
        "[[row.exception]]",
        "[[row.hole]]\nnumber = 7\nmajor = \".170\"\n[[row.exception]]",
        "job.toml:29:10: hole 7 of row K1 is measured twice, first at job.toml:25; keep one of both",
    ),
    ("[1, \"5-8\"]", "[1, \"5-8\", 6]", "job.toml:29:20: hole 6 is already excepted, at job.toml:29; keep one of both"),
    (
        "[1, \"5-8\"]",
        "[\"8-5\"]",
        "job.toml:29:10: a hole cannot be \"8-5\"; right would be a number from 1 to 48, or a range such as \"5-8\"",
    ),
    ("[1, \"5-8\"]", "[49]", "job.toml:29:10: a hole cannot be 49; right would be a whole number from 1 to 48"),
    ("[1, \"5-8\"]", "[]", "job.toml:29:9: there are no holes; right would be [3, \"5-8\"]"),
    (
        "[1, \"5-8\"]\nedge = \"5/16\"",
        "[1]",
        "job.toml:28:1: this exception is the same as its row; right would be layers, edge, pitch, transverse-pitch or clearance of its own",
    ),
];

#[test]
fn every_mistake_is_told_where_it_is_and_what_would_be_right() {
    for (piece, replaced, told) in MISTAKES {
        assert!(SOUND.contains(piece), "{piece}");
        let text = SOUND.replacen(piece, replaced, 1);
        assert_eq!(mistakes(read_beside(&text, &[])), *told, "{piece} -> {replaced}");
    }
}

/// What stands behind a sound job: a piece, and what is told about it. The job itself ends before line 31.
const AROUND: &[(&str, &str)] = &[
    (
        "[[edge]]\nname = \"aft\"",
        "31:1: edge aft has neither points nor stations; right would be stations = \"trim.csv\", or points",
    ),
    (
        "[[edge]]\nname = \"aft\"\npoints = [[0, 0]]",
        "33:10: an edge has at least two points; right would be one at each end",
    ),
    (
        "[[edge]]\nname = \"aft\"\nstations = [[0, 0], [2, 0], [1, 0]]",
        "33:12: stations: station 3 is not past the one before it; give rising stations",
    ),
    (
        "[[edge]]\nname = \"aft\"\nstations = [[0, 0], [200, 0]]\nevery = \".001\"",
        "34:9: that makes 200000 marks; right would be at most 10000",
    ),
    (
        "[[edge]]\nname = \"aft\"\npoints = [[0, 0], [2, 0]]\nrows = [\"K2\"]",
        "34:9: the job has no row \"K2\"; right would be \"K1\"",
    ),
    ("[[damage]]\nkind = \"crock\"\nplace = \"here\"", "32:8: kind cannot be \"crock\"; right would be \"crack\""),
    (
        "[[damage]]\nkind = \"crack\"",
        "31:1: this damage has no place; right would be place = \"skin, two inches aft of frame 3\"",
    ),
    (
        "[[damage]]\nkind = \"crack\"\nplace = \"here\"\nhole = 3",
        "34:8: a hole needs its row; right would be row = \"K1\" beside it",
    ),
    (
        "[[damage]]\nkind = \"crack\"\nplace = \"here\"\nrow = \"K1\"\nhole = 49",
        "35:8: hole cannot be 49; right would be a whole number from 1 to 48",
    ),
    (
        "[[look]]\nplace = \"here\"",
        "31:1: this place to look at has no why; right would be why = \"sealant was found loose\"",
    ),
    (
        "[minutes]\ndrill-out = \"1:30\"",
        "32:13: drill-out: not a number of minutes; right would be 30 or 1.25, to a thousandth and up to 100000",
    ),
    (
        "[minutes]\nset-up = { upside = 3 }",
        "32:12: the job has no position \"upside\"; right would be \"upright\" or \"rolled\"",
    ),
];

#[test]
fn mistakes_round_the_rows_are_told_as_well() {
    for (piece, told) in AROUND {
        assert_eq!(mistakes(read_beside(&format!("{SOUND}{piece}\n"), &[])), format!("job.toml:{told}"), "{piece}");
    }
}

#[test]
fn a_straight_row_knows_where_its_holes_are() {
    let straight = SOUND.replace("count = 48", "count = 48\nstart = [\"1\", \"2\"]\nalong = [\"0\", \"-3\"]");
    let job = read_beside(&straight, &[]).unwrap_or_else(|error| panic!("{error}"));
    let place = job.rows[0].place_of(3).expect("a place");
    assert_eq!((place.x, place.y), (inch("1"), inch("1/4")));
    assert_eq!(sound_job().rows[0].place_of(3), None);
    for (piece, told) in [
        (
            "count = 48\nstart = [1, 2]",
            "job.toml:22:9: start and along go together; right would be start = [\"1\", \"0\"] and along = [\"1\", \"0\"]",
        ),
        (
            "count = 48\nstart = [1, 2]\nalong = [0, 0]",
            "job.toml:23:9: along is zero and gives no direction; right would be [\"1\", \"0\"]",
        ),
    ] {
        assert_eq!(mistakes(read_beside(&SOUND.replace("count = 48", piece), &[])), told, "{piece}");
    }
    let far = straight.replace("pitch = \"7/8\"", "pitch = \"9999\"");
    assert!(mistakes(read_beside(&far, &[])).contains("the last hole lies more than a kilometre away"));
    let unpitched = straight.replace("pitch = \"7/8\"\n", "");
    assert!(
        mistakes(read_beside(&unpitched, &[])).contains("has a start but no pitch; right would be pitch = \"3/4\"")
    );
}

#[test]
fn the_job_s_minutes_come_before_the_shop_s() {
    let text = format!("limits = \"l.toml\"\n{SOUND}[minutes]\ndrill-out = 1.5\nset-up = {{ upright = 20 }}\n");
    let limits = "title = \"t\"\ndocument = \"d\"\n[minutes]\nset-up = 30\ndrill-out = 9\ndrive-open = 2\n\
                  [[limit]]\nname = \"bar-thickness\"\nvalue = \".4\"\nplace = \"p\"\n";
    let job = read_beside(&text, &[("l.toml", limits)]).unwrap_or_else(|error| panic!("{error}"));
    let minutes = |minutes: Option<shophead::access::Minutes>| minutes.map(|minutes| minutes.to_string());
    let set_up: Vec<_> = job.positions.iter().map(|position| minutes(job.set_up(position))).collect();
    assert_eq!(set_up, [Some("20".to_owned()), Some("30".to_owned())]);
    let rates = job.rates();
    assert_eq!(minutes(rates.drill_out).as_deref(), Some("1.5"));
    assert_eq!(minutes(rates.drive_open).as_deref(), Some("2"));
    assert_eq!(rates.drive_close, None);
}

#[test]
fn a_row_name_is_its_own() {
    let again = SOUND.split_once("[[row]]").map(|(_, row)| format!("[[row]]{row}")).expect("a row");
    let told = mistakes(read_beside(&format!("{SOUND}{again}"), &[]));
    assert_eq!(told, "job.toml:32:8: the name \"K1\" is already taken, at job.toml:11; give another name");
}

#[test]
fn an_empty_job_lacks_everything() {
    for text in ["", "\u{feff}", "\r\n", "# nothing\n"] {
        let told = mistakes(read_beside(text, &[]));
        let wanted = "job.toml:1:1: the job has no title; right would be title = \"Keel skin panel, frames 2 to 6\"\n\
                      job.toml:1:1: the job has no row; begin one with [[row]], or name a rows file";
        assert_eq!(told, wanted, "{text:?}");
    }
}

#[test]
fn a_stack_is_not_higher_than_core_allows() {
    let layer = "    { role = \"cap\", thickness = 0.190 },\n";
    let text = SOUND.replace("]\ncount", &format!("{}]\ncount", layer.repeat(7)));
    assert_eq!(mistakes(read_beside(&text, &[])), "job.toml:17:10: layers: at most 8 layers in one pack");
}

#[test]
fn all_mistakes_are_told_in_file_order_up_to_a_limit() {
    let text = SOUND.replace("\"7/8\"", "\"x\"").replace("handbook", "hand").replace("0.190", "\"y\"");
    let Err(ReadError::Content(found)) = read_beside(&text, &[]) else { panic!("three mistakes") };
    let lines: Vec<usize> = found.iter().map(|mistake| mistake.place().line).collect();
    assert_eq!(lines, [2, 19, 22]);
    let mut many = String::from("title = \"x\"\n");
    for number in 0..100 {
        let _ = writeln!(many, "key{number} = 1");
    }
    let error = read_beside(&many, &[]).expect_err("a hundred mistakes");
    let ReadError::Content(found) = &error else { panic!("mistakes") };
    assert_eq!(found.len(), MAX_MISTAKES);
    assert_eq!(found[0].place().line, 1, "that there is no row comes first");
    assert_eq!(found[1].place().line, 2);
    assert!(error.render(false).ends_with("these are the first 20 mistakes; there may be more\n"));
}

#[test]
fn a_file_that_is_not_there_is_no_mistake_in_the_job() {
    let text = format!("limits = \"gone.csv\"\n{SOUND}").replace("\"7/8\"", "\"x\"");
    let error = read_beside(&text, &[]).expect_err("no such file");
    assert!(matches!(&error, ReadError::Io { path, .. } if path == Path::new("gone.csv")), "{error}");
    assert!(matches!(Job::read(Path::new("no/such/job.toml")), Err(ReadError::Io { .. })));
}

#[test]
fn a_holes_file_may_come_with_the_survey() {
    let text = format!("holes = \"holes.csv\"\n{SOUND}");
    let named = |is_there| Some(NamedFile { name: "holes.csv".into(), is_there });
    let job = read_beside(&text, &[]).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!((job.holes_file, job.rows[0].measured.len()), (named(false), 1));
    let job = read_beside(&text, &[("holes.csv", "row,hole,major\nK1,8,.163\n")]).expect("a job");
    assert_eq!((job.holes_file, job.rows[0].measured.len()), (named(true), 2));
    assert_eq!(sound_job().holes_file, None);
    // A file that is there and cannot be read is not one that comes later.
    let broken = |path: &Path| {
        if path.ends_with("holes.csv") { Err(io::ErrorKind::PermissionDenied.into()) } else { no_files(path) }
    };
    let error = Job::read_from(text.into(), Path::new("job.toml"), &broken).expect_err("it cannot be read");
    assert!(matches!(error, ReadError::Io { .. }), "{error}");
}

#[test]
fn a_tolerance_reads_as_people_and_office_programs_write_it() {
    let plain = read_beside(SOUND, &[]).expect("a job").rows[0].stack.clone();
    for written in [".063+/-.002", ".063\u{b1}.002", ".063+\u{2013}.002", ".063+\u{2212}.002", ".063+.002\u{2013}.002"]
    {
        let job = read_beside(&SOUND.replace(".063+-.002", written), &[]).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(job.rows[0].stack, plain, "{written}");
    }
    let job = read_beside(&SOUND.replace("\"5-8\"", "\"5\u{2013}8\""), &[]).expect("an en dash in a range");
    assert_eq!(job.rows[0].exceptions[0].holes, [1, 5, 6, 7, 8]);
}

#[test]
fn a_thickness_without_its_point_is_answered_with_what_was_meant() {
    for (written, told) in [
        ("\"040\"", "thickness: the point is missing (character 1); did you mean .040?"),
        (
            "\"40\"",
            "thickness: 40 in is thick for a layer (character 1); did you mean .040? If it is so thick, write 40in",
        ),
        ("63", "thickness: 63 in is thick for a layer (character 1); did you mean .063? If it is so thick, write 63in"),
        ("\"1.25\"", "thickness: 1.250 in is thick for a layer (character 1); if it is so thick, write 1.250in"),
    ] {
        let error = read_beside(&SOUND.replace("0.190", written), &[]);
        assert_eq!(mistakes(error), format!("job.toml:19:{}: {told}", if written.starts_with('"') { 56 } else { 55 }));
    }
    for written in ["\"1.25in\"", "\"1-1/4\"", "\"31.75mm\""] {
        let job = read_beside(&SOUND.replace("0.190", written), &[]).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(job.rows[0].stack.layers()[1].thickness, Toleranced::exactly(inch("1.25")));
    }
    let metric = SOUND.replace("spares =", "units = \"mm\"\nspares =").replace("0.190", "40");
    let told = mistakes(read_beside(&metric, &[]));
    assert!(
        told.contains("thickness: 40 mm is thick for a layer (character 1); if it is so thick, write 40mm"),
        "{told}"
    );
}

#[test]
fn files_are_looked_for_beside_the_job() {
    let asked = std::cell::RefCell::new(Vec::new());
    let files = |path: &Path| {
        asked.borrow_mut().push(path.to_owned());
        Ok(b"row,hole,major\n".to_vec())
    };
    let text = format!("holes = \"survey/h.csv\"\n{SOUND}");
    Job::read_from(text.into(), Path::new("jobs/keel/job.toml"), &files).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(asked.into_inner(), [Path::new("jobs/keel/survey/h.csv")]);
}

/// What is not meant is refused before it fills the memory, and in few words.
#[test]
fn what_is_longer_than_any_file_is_refused() {
    let told = |error: ReadError| {
        let shown = error.render(false);
        assert!(shown.len() < 1_000, "{} bytes", shown.len());
        error.to_string()
    };
    let group = |bytes: Vec<u8>| {
        read_group_from(bytes, Path::new("x"), &shophead::rivet::MS20470, Bare::Inches).expect_err("too long")
    };
    let name_it = "name the file that is meant; no job, list or record is that long";
    for bytes in [vec![0; MAX_BYTES + 1], vec![b'x'; MAX_BYTES + 1], vec![b'\n'; MAX_BYTES + 1]] {
        let wanted = format!("x:1:1: this file is larger than 32 MiB; {name_it}");
        let job = Job::read_from(bytes.clone(), Path::new("x"), &no_files).expect_err("too long");
        assert_eq!((told(job), told(group(bytes))), (wanted.clone(), wanted));
    }
    let toml = format!("title = \"{}\"\n", "x".repeat(MAX_TOML));
    let wanted = format!("x:1:1: this file is larger than 8 MiB; {name_it}");
    assert_eq!(told(Job::read_from(toml.clone().into(), Path::new("x"), &no_files).expect_err("too long")), wanted);
    assert_eq!(told(OwnLimits::read_from(toml.into(), Path::new("x")).expect_err("too long")), wanted);
    let wanted = "this line is longer than a mebibyte; name the file that is meant; no row of a list is that long";
    for (text, place) in [
        ("x".repeat(MAX_LINE + 1), "x:1:1"),
        (format!("x,y\n1,0\n{}\n", "1".repeat(MAX_LINE)), "x:3:1"),
        (format!("x,y\r1,\"{}\"", "0".repeat(MAX_LINE)), "x:1:5"),
    ] {
        assert_eq!(told(group(text.into())), format!("{place}: {wanted}"));
    }
    let wide = format!("x,y{}\n", ",z".repeat(MAX_COLUMNS));
    assert_eq!(told(group(wide.into())), "x:1:1: these are 1002 columns; right would be no more than 1000");
}

/// A job that somebody else has written may be kept to its folder.
#[test]
fn a_job_names_no_file_where_it_may_not() {
    struct Kept;
    impl Files for Kept {
        fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
            panic!("{} is read", path.display())
        }
        fn may_name(&self, path: &Path) -> bool {
            path == Path::new("jobs/holes.csv")
        }
    }
    let job = "title = \"a\"\nholes = \"/etc/passwd\"\nlimits = \"../l.toml\"\n";
    let told = mistakes(Job::read_from(job.into(), Path::new("jobs/job.toml"), &Kept));
    let outside = "this file lies outside the folder of the job; put it into that folder, and name it there";
    assert!(told.contains(&format!("jobs/job.toml:2:9: {outside}")), "{told}");
    assert!(told.contains(&format!("jobs/job.toml:3:10: {outside}")), "{told}");
}

#[test]
fn crlf_line_ends_and_a_byte_order_mark_change_nothing() {
    let dressed = |text: &str| format!("\u{feff}{}", text.replace('\n', "\r\n"));
    let plain = demo(DEMO, DEMO_LIMITS, DEMO_HOLES).expect("the demo");
    let read = demo(&dressed(DEMO), &dressed(DEMO_LIMITS), &dressed(DEMO_HOLES)).expect("the demo");
    assert_eq!(format!("{plain:?}"), format!("{read:?}"));
    for (piece, replaced, told) in MISTAKES {
        let text = dressed(&SOUND.replacen(piece, replaced, 1));
        assert_eq!(mistakes(read_beside(&text, &[])), *told, "{piece} -> {replaced}");
    }
}

#[test]
fn bytes_that_are_no_text_are_told_by_place() {
    let error = Job::read_from(b"title = \"a\"\nx = \"\xff\"".to_vec(), Path::new("job.toml"), &no_files);
    assert_eq!(mistakes(error), "job.toml:2:6: this is not UTF-8 text; save the file as UTF-8");
}

#[test]
fn names_that_would_steer_a_terminal_are_refused_and_shown_harmless() {
    for hostile in ["K\\u001b[2J1", "K\\u202e1", "K\\n1", "K\\u0000"] {
        let text = SOUND.replace("\"K1\"", &format!("\"{hostile}\""));
        let told = mistakes(read_beside(&text, &[]));
        assert!(told.starts_with("job.toml:11:8: name holds a control or direction character"), "{told:?}");
        assert!(!told.contains(is_unseen), "{told:?}");
    }
}

// Holes files.

fn holes_told(text: &str) -> String {
    mistakes(read_holes_from(text.into(), Path::new("h.csv"), &sound_job()))
}

#[test]
fn holes_are_found_by_column_name() {
    let text =
        "who, Major ,HOLE,row,remark\nme,\".171\",7,K1,\"long, \"\"fore\"\" and aft\"\n,,,,\n\nme, 3/16 ,8,K1,\n";
    let lines = read_holes_from(text.into(), Path::new("h.csv"), &sound_job()).unwrap_or_else(|e| panic!("{e}"));
    let read: Vec<_> = lines.iter().map(|line| (line.row, line.hole.number, line.hole.as_found.major())).collect();
    assert_eq!(read, [(0, 7, inch(".171")), (0, 8, inch("3/16"))]);
    assert_eq!(lines[0].hole.remark, "long, \"fore\" and aft");
}

#[test]
fn every_mistake_in_a_holes_file_is_told() {
    const HEAD: &str = "row,hole,major,minor,condition,remark\n";
    for (text, told) in [
        (
            "",
            "h.csv:1:1: a holes file is empty; right would be a first line row,hole,major,minor,condition,direction,opened,by,date,gauge,remark",
        ),
        (
            "row;hole;major\nK1;7;0,163\n",
            "h.csv:1:1: the columns are separated by semicolons; separate them by commas, and write decimals with a point",
        ),
        (
            "row\thole\tmajor\n",
            "h.csv:1:1: the columns are separated by tabs; separate them by commas, and write decimals with a point",
        ),
        (
            "row,hole\n",
            "h.csv:1:1: the column major is missing; right would be a first line row,hole,major,minor,condition,direction,opened,by,date,gauge,remark",
        ),
        ("row,hole,major,hole\n", "h.csv:1:16: there are two columns hole; keep one of both"),
        (
            "row,hole,major\nK1,7,0,163\n",
            "h.csv:2:1: this line has 4 cells, the header 3; a decimal is written with a point, and a text with a comma in it in quotes",
        ),
        (
            "row,hole,major\nK1,7,\"0,163\"\n",
            "h.csv:2:6: major: a decimal is written with a point, not a comma (character 2); right would be .125, 1/8, 1-1/2 or 3.2mm",
        ),
        (
            "row,hole,major\nK1\n",
            "h.csv:2:1: this line has 1 cell, the header 3; a decimal is written with a point, and a text with a comma in it in quotes",
        ),
        ("row,hole,major\nK1,7,\".163\n", "h.csv:2:6: this quote is never closed; close it before the end of the cell"),
        (
            "row,hole,major\nK1,7,\".163\"x\n",
            "h.csv:2:12: there is text after the closing quote; put the whole cell in quotes, and write a quote in it twice",
        ),
        ("row,hole,major\nK9,7,.163\n", "h.csv:2:1: the job has no row \"K9\"; right would be \"K1\""),
        (
            "row,hole,major\nK1,49,.163\n",
            "h.csv:2:4: hole cannot be \"49\"; right would be a whole number from 1 to 48",
        ),
        ("row,hole,major\nK1,0,.163\n", "h.csv:2:4: hole cannot be \"0\"; right would be a whole number from 1 to 48"),
        ("row,hole,major\nK1,,.163\n", "h.csv:2:1: this line has no hole; fill the cell or delete the line"),
        (
            "row,hole,major,remark\nK1,7,.163,",
            "h.csv:2:1: this line has no line end, so it may have been cut off; complete it and end it; a survey that goes on with this file puts such a line aside by itself",
        ),
        (
            "row,hole,major\nK1,7,.163\u{1b}\n",
            "h.csv:2:6: this cell holds a control or direction character: \".163\\u{1b}\"; write it on one line, without hidden characters",
        ),
    ] {
        assert!(holes_told(text).starts_with(told), "{text:?}: {}", holes_told(text));
    }
    for (line, told) in [
        (
            "K1,7,.163,.164,,",
            "h.csv:2:11: hole: the minor axis is longer than the major one; enter the longer one as major",
        ),
        ("K1,7,.163,,craked,", "h.csv:2:12: condition cannot be \"craked\"; right would be \"cracked\""),
        ("K1,7,0,,,", "h.csv:2:6: hole: a hole needs a diameter above zero; right would be .1285"),
    ] {
        assert_eq!(holes_told(&format!("{HEAD}{line}\n")), told, "{line}");
    }
    for (cells, told) in [
        ("up,", "h.csv:2:11: direction cannot be \"up\"; right would be \"along\" or \"across\""),
        (",27", "h.csv:2:12: opened: "),
    ] {
        let text = format!("row,hole,major,direction,opened\nK1,7,.163,{cells}\n");
        assert!(holes_told(&text).starts_with(told), "{}", holes_told(&text));
    }
}

#[test]
fn a_hole_in_the_job_and_in_the_holes_file_names_both_places() {
    let text = format!("holes = \"h.csv\"\n{SOUND}");
    let told = mistakes(read_beside(&text, &[("h.csv", "row,hole,major\nK1,8,.17\nK1,7,.171\n")]));
    assert_eq!(told, "h.csv:3:1: hole 7 of row K1 is measured twice, first at job.toml:26; keep one of both");
}

#[test]
fn a_later_line_of_a_holes_file_replaces_an_earlier_one() {
    let text = "row,hole,major,remark\nK1,7,.163,\nK1,8,.159,'-5 deg\nK1,7,.164,again\n";
    let sound = sound_job();
    let lines = read_holes_from(text.into(), Path::new("h.csv"), &sound).expect("holes");
    let said: Vec<(u32, Length, &str)> =
        lines.iter().map(|line| (line.hole.number, line.hole.as_found.major(), line.hole.remark.as_str())).collect();
    assert_eq!(said, [(8, inch(".159"), "-5 deg"), (7, inch(".164"), "again")]);
    assert_eq!(read_holes_file_from(text.into(), Path::new("h.csv"), &sound).expect("holes").records.len(), 3);
    let job = read_beside(
        &format!("holes = \"h.csv\"\n{}", SOUND.replace("[[row.hole]]\nnumber = 7\nmajor = \".171\"\n", "")),
        &[("h.csv", text)],
    );
    let job = job.unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(job.rows[0].measured.iter().map(|hole| hole.number).collect::<Vec<_>>(), [7, 8]);
}

// Answers files.

/// A second row like the first.
fn row_named(name: &str) -> String {
    let row = SOUND.split("[[row]]").nth(1).expect("a row").split("[[row.hole]]").next().expect("its own keys");
    format!("[[row]]{}", row.replace("\"K1\"", &format!("{name:?}")))
}

#[test]
fn an_answer_arrives_as_it_was_given() {
    let text = "hole,row,answer,by,document,date,finding,measured,drill,rivet,note\n\
                7,K1,Oversize,A. Example,\"concession 17, rev B\",2026-11-25,hole-over-limit step-needs-approval,.171 x .161 gouged,#16,NAS1241AD5-8,wet\n\
                ,K1,keep,A. Example,concession 18,2026-11-25,edge-distance-short,.29,,,\n\
                ,job,keep,A. Example,concession 18,2026-11-25,no-position-serves,none,,,\n";
    let job = read_beside(&format!("answers = \"a.csv\"\n{SOUND}"), &[("a.csv", text)])
        .unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(job.answers_file, Some(NamedFile { name: "a.csv".into(), is_there: true }));
    let [hole, row, whole] = job.answers.as_slice() else { panic!("three answers") };
    assert_eq!((&hole.to, hole.ruling.as_str(), hole.by.as_str()), (&AnswerTo::Hole(0, 7), "oversize", "A. Example"));
    assert_eq!((hole.document.as_str(), hole.date.to_string()), ("concession 17, rev B", "2026-11-25".to_owned()));
    let found = hole.given_for.hole.expect("the measure of a hole");
    assert_eq!((found.major(), found.minor(), found.damage()), (inch(".171"), inch(".161"), Damage::Gouged));
    assert_eq!(
        (hole.rivet.map(|part| part.to_string()).as_deref(), hole.drill.map(|drill| drill.to_string()).as_deref()),
        (Some("NAS1241AD5-8"), Some("#16"))
    );
    assert_eq!((&row.to, row.given_for.text.as_str()), (&AnswerTo::Row(0), ".29"));
    assert_eq!((&whole.to, whole.given_for.hole), (&AnswerTo::Job, None));
    let none = read_beside(&format!("answers = \"a.csv\"\n{SOUND}"), &[]).expect("nobody has answered yet");
    assert_eq!((none.answers_file, none.answers.len()), (Some(NamedFile { name: "a.csv".into(), is_there: false }), 0));
}

#[test]
fn every_mistake_in_an_answers_file_is_told() {
    const HEAD: &str = "row,hole,answer,by,document,date,finding,measured,rivet,drill,note\n";
    const LINE: &str = "K1,7,keep,A. Example,concession 17,2026-11-25,hole-cracked,.171,,,";
    let told = |line: &str| {
        mistakes(read_beside(&format!("answers = \"a.csv\"\n{SOUND}"), &[("a.csv", &format!("{HEAD}{line}\n"))]))
    };
    assert_eq!(told(LINE), "nothing is wrong");
    for (piece, replaced, wanted) in [
        ("K1,7", "K9,7", "a.csv:2:1: the job has no row \"K9\"; right would be \"K1\""),
        ("K1,7", "K1,49", "a.csv:2:4: hole cannot be \"49\"; right would be a whole number from 1 to 48"),
        ("K1,7", "damage 1,", "a.csv:2:1: the job has no row \"damage 1\""),
        ("keep", "kept", "a.csv:2:6: answer cannot be \"kept\"; right would be \"keep\""),
        ("keep", "rivet", "a.csv:2:6: the answer rivet names no rivet; right would be MS20470AD5 in the column rivet"),
        ("keep", "hole", "a.csv:2:6: the answer hole names no drill; right would be #21 in the column drill"),
        ("A. Example", "", "a.csv:2:1: this line has no by; fill the cell or delete the line"),
        ("concession 17", "", "a.csv:2:1: this line has no document"),
        ("2026-11-25", "25.11.2026", "a.csv:2:36: \"25.11.2026\" is no date; right would be 2026-11-25"),
        ("2026-11-25", "2026-02-30", "a.csv:2:36: \"2026-02-30\" is no date"),
        ("hole-cracked", "hole-craked", "a.csv:2:47: \"hole-craked\" is no finding; right would be \"hole-cracked\""),
        (",.171,", ",,", "a.csv:2:1: this line has no measured"),
        (",.171,,", ",.171,MS20470AD7,", "a.csv:2:65: rivet: this is not a diameter known for MS20470"),
        (",.171,,,", ",.171,,#99,", "a.csv:2:66: drill: no such number drill"),
        ("keep,A", "blind,A", "a.csv:2:6: a blind rivet is not taken in row K1, not even as an answer: "),
    ] {
        assert!(LINE.contains(piece), "{piece}");
        let text = told(&LINE.replacen(piece, replaced, 1));
        assert!(text.starts_with(wanted), "{piece} -> {replaced}: {text}");
    }
    // Where nothing bars it, the manual's blind rivet is taken, and has to be named.
    let secondary = SOUND
        .replace("\"primary\"", "\"secondary\"")
        .replace("\"spar-cap\"", "\"rib\"")
        .replace("[\"below-water-line\"]", "[]");
    let job = format!("answers = \"a.csv\"\n{secondary}");
    let of = |line: String| read_beside(&job, &[("a.csv", &format!("{HEAD}{line}\n"))]);
    assert!(mistakes(of(LINE.replace("keep", "blind"))).contains("the answer blind names no rivet"));
    let read =
        of(LINE.replace("keep", "blind").replace(".171,,", ".171,XYZ-5-4,")).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!((read.answers[0].blind.as_deref(), read.answers[0].rivet), (Some("XYZ-5-4"), None));
}

// Driven files.

#[test]
fn every_mistake_in_a_driven_file_is_told() {
    const HEAD: &str = "row,hole,diameter,height,condition,remark\n";
    let read = |line: &str| read_driven_from(format!("{HEAD}{line}\n").into(), Path::new("d.csv"), &sound_job());
    for (line, told) in [
        ("K9,1,.2,.1,,", "d.csv:2:1: the job has no row \"K9\"; right would be \"K1\""),
        ("K1,49,.2,.1,,", "d.csv:2:4: hole cannot be \"49\"; right would be a whole number from 1 to 48"),
        (
            "K1,1,,,,good",
            "d.csv:2:1: this line says nothing about its rivet; measure the head, or write sound in the column condition when it was looked at only",
        ),
        (
            "K1,1,.2.3,.1,,",
            "d.csv:2:6: diameter: this does not belong in a length (character 3); right would be .125, 1/8, 1-1/2 or 3.2mm",
        ),
        (
            "K1,1,0,.1,,",
            "d.csv:2:6: diameter must be above zero; right would be .180, or \".180,.190\" where the head is out of round or tipped",
        ),
        ("K1,1,,,loos,", "d.csv:2:8: condition cannot be \"loos\"; right would be \"loose\""),
        ("K1,1,,,sound loose,", "d.csv:2:8: condition says sound and something else too; keep one of both"),
        ("K1,1,,,proud,", "d.csv:2:8: \"proud\" does not say what belongs to proud; right would be proud:.010"),
        ("K1,1,,,proud:-.01,", "d.csv:2:8: proud must be above zero; right would be proud:.010"),
        ("K1,1,,,gap:.1,", "d.csv:2:8: \"gap:.1\" does not say what belongs to gap; right would be gap"),
        (
            "K1,1,,,cracks:x,",
            "d.csv:2:8: \"cracks:x\" lacks the number of cracks; right would be cracks:2, or cracks:2:.150 with the circle that the innermost reaches",
        ),
    ] {
        assert_eq!(mistakes(read(line)), told, "{line}");
    }
    let file = read("K1,1,\".19,.18\",.1,cracks:2:.15 proud:.003 notched tool-mark:.01,'=x").expect("a driven file");
    let line = &file.lines[0];
    assert_eq!(line.head.diameter, shophead::length::Interval::new(inch(".18"), inch(".19")).ok());
    assert_eq!(line.head.seen.len(), 4);
    assert_eq!(line.remark, "=x");
    for word in seen_words() {
        let figures = match word {
            "proud" | "tool-mark" | "low" | "shaved" | "flattened" | "sheets-apart-edge" => ":.01",
            "gap-driven" => ":.002:30",
            _ => "",
        };
        let file = read(&format!("K1,1,,,{word}{figures},")).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(file.lines[0].head.seen.len(), usize::from(word != "sound"), "{word}");
    }
}

#[test]
fn a_long_holes_file_is_read_whole() {
    let mut job = sound_job();
    job.rows[0].count = MAX_COUNT;
    let mut text = String::from("row,hole,major\n");
    for hole in 1..=MAX_COUNT {
        let _ = writeln!(text, "K1,{hole},.163");
    }
    let lines = read_holes_from(text.clone().into(), Path::new("h.csv"), &job).expect("holes");
    assert_eq!(lines.len(), MAX_COUNT as usize);
    // The same with every line wrong: told up to the limit, and no slower.
    let Err(ReadError::Content(found)) = read_holes_from(text.replace("K1", "K9").into(), Path::new("h.csv"), &job)
    else {
        panic!("every line is wrong")
    };
    assert_eq!(found.len(), MAX_MISTAKES);
    assert_eq!(found[19].place().line, 21);
}

// Stock files.

fn shelf(text: &str, columns: &ColumnNames) -> Result<crate::order::Shelf, ReadError> {
    read_stock_from(text.into(), Path::new("s.csv"), columns)
}

#[test]
fn every_mistake_in_a_stock_file_is_told() {
    for (text, told) in [
        (
            "part\n",
            "s.csv:1:1: the column on_hand is missing; the columns here are part; name the one that is meant: on_hand=NAME",
        ),
        (
            "part,on_hand\nMS20470AD4-5,many\n",
            "s.csv:2:14: on_hand cannot be \"many\"; right would be a whole number, such as 40",
        ),
        (
            "part,on_hand\nMS20470AD4-5,1.5\n",
            "s.csv:2:14: on_hand cannot be \"1.5\"; right would be a whole number, such as 40",
        ),
        (
            "part,on_hand,pack\nMS20470AD4-5,1,0\n",
            "s.csv:2:16: pack cannot be \"0\"; right would be a whole number, 1 or more",
        ),
        (
            "part,on_hand\nMS20470AD4-5\n",
            "s.csv:2:1: this line has 1 cell, the header 2; a decimal is written with a point, and a text with a comma in it in quotes",
        ),
    ] {
        assert_eq!(mistakes(shelf(text, &[])), told, "{text}");
    }
    let error = shelf("Item,Qty\nMS20470AD4-5,1\n", &[("part", "Part".into()), ("on_hand", "Qty".into())]);
    assert_eq!(
        mistakes(error),
        "s.csv:1:1: the column Part is missing; the columns here are Item, Qty; name the one that is meant: part=NAME"
    );
    let stock = shelf("part,on_hand\nMS20426AD4-5, 60 \n", &[]).expect("stock").stock;
    assert_eq!((stock[0].on_hand, stock[0].pack), (60, 1));
}

#[test]
fn a_whole_shelf_is_read_as_it_comes() {
    let text = "Part Number;Bin;Qty On Hand;Std Pack\r\n\
                MS20470AD4-5;A1;40.0;100\r\n\
                AN3-5A;A2;7;\r\n\
                ms20470ad4-5;B7;1,200;250\r\n\
                AN470AD4-5;B8;60 EA;\r\n\
                MS20470AD4-6;C1;-3;\r\n\
                MS20470AD4-7;C2;;\r\n\
                MS20470AD4;C3;9;\r\n\
                MS20470AD7-5;C4;9;\r\n\
                ;C5;9;\r\n\
                \"'=SUM(A1)\";C6;0;\r\n";
    let columns =
        [("part", "part number".to_owned()), ("on_hand", "Qty On Hand".to_owned()), ("pack", "Std Pack".to_owned())];
    let shelf = shelf(text, &columns).unwrap_or_else(|error| panic!("{error}"));
    let stock: Vec<(String, u32, u32)> =
        shelf.stock.iter().map(|one| (one.part.to_string(), one.on_hand, one.pack)).collect();
    let wanted = [("MS20470AD4-5", 1300, 250), ("MS20470AD4-6", 0, 1), ("MS20470AD4-7", 0, 1)];
    assert_eq!(
        stock,
        wanted.map(|(part, on_hand, pack)| (part.to_owned(), on_hand, pack)),
        "lots are added up, old names known"
    );
    assert_eq!(shelf.foreign, 3);
    let notes: Vec<String> = shelf.notes.iter().map(|note| format!("{}: {}", note.line, note.what)).collect();
    let begins = [
        "4: MS20470AD4-5: a pack of 250 here, of 100 before: 250 counts",
        "6: MS20470AD4-6: -3 on hand is below zero: counted as none",
        "7: MS20470AD4-7: on hand is empty: counted as none",
        "8: MS20470AD4 has no length: left out",
        "9: \"MS20470AD7-5\": this is not a diameter known for MS20470",
        "10: no part number: left out",
    ];
    assert_eq!(notes.len(), begins.len(), "{notes:#?}");
    for (note, begin) in notes.iter().zip(begins) {
        assert!(note.starts_with(begin), "{note}");
    }
}

// Limits files.

#[test]
fn a_limits_file_has_no_more_limits_than_documents_have_numbers() {
    let text = format!("title = \"t\"\n{}", "[[limit]]\n".repeat(8_192));
    let told = mistakes(OwnLimits::read_from(text.into(), Path::new("l.toml")));
    assert_eq!(told, "l.toml:1:1: the limits file has 8192 limits; at most 8191 are read");
}

#[test]
fn every_mistake_in_a_limits_file_is_told() {
    const HEAD: &str = "title = \"t\"\ndocument = \"d\"\n[[limit]]\nplace = \"p\"\n";
    for (text, told) in [
        (
            "",
            "l.toml:1:1: the limits file has no title; right would be title = \"Boat shed limits\"\nl.toml:1:1: the limits file has no limit; begin one with [[limit]]",
        ),
        (
            "title = \"t\"\n[[limit]]\nname = \"pitch-least\"\nvalue = \"3 D\"\nplace = \"p\"\n",
            "l.toml:2:1: this limit has no document; right would be document = \"structural repair manual\", here or for the whole file",
        ),
    ] {
        assert_eq!(mistakes(OwnLimits::read_from(text.into(), Path::new("l.toml"))), told, "{text:?}");
    }
    for (rest, told) in [
        (
            "name = \"pitch-lest\"\nvalue = \"3 D\"",
            "l.toml:5:8: name cannot be \"pitch-lest\"; right would be \"pitch-least\"",
        ),
        ("name = \"pitch-least\"", "l.toml:3:1: this limit has no value; right would be value = \".133\""),
        (
            "name = \"pitch-least\"\nvalue = \"D3\"",
            "l.toml:6:9: pitch-least: not a ratio; right would be 3, 2/3, 1.5 or 20 %",
        ),
        (
            "name = \"pattern-steps-count\"\nvalue = \"1.5\"",
            "l.toml:6:9: pattern-steps-count: not a whole number; right would be 10",
        ),
        (
            "name = \"pitch-least\"\nvalue = \"3 D\"\nhead = \"universal\"",
            "l.toml:7:8: head cannot be \"universal\"; right would be \"protruding\", \"flush\" or \"dimpled\"",
        ),
        (
            "name = \"pitch-least\"\nvalue = \"3 D\"\nafter = \"repair\"",
            "l.toml:7:9: after cannot be \"repair\"; right would be \"step-up\"",
        ),
        (
            "name = \"pitch-least\"\nvalue = \"3 D\"\ndiameter = \".130\"",
            "l.toml:7:12: no series has a shank of \".130\"; right would be a nominal shank diameter such as \"1/8\"",
        ),
        (
            "name = \"pitch-least\"\nvalue = \"3 D\"\nrows = 0",
            "l.toml:7:8: rows cannot be 0; right would be a whole number from 1 to 255",
        ),
        (
            "name = \"pitch-least\"\nvalue = \"3 D\"\n[[limit]]\nname = \"pitch-least\"\nvalue = \"4 D\"\nplace = \"q\"",
            "l.toml:7:1: pitch-least is said twice for the same rivets, first at l.toml:3; keep one of both",
        ),
    ] {
        let text = format!("{HEAD}{rest}\n");
        assert_eq!(mistakes(OwnLimits::read_from(text.into(), Path::new("l.toml"))), told, "{rest:?}");
    }
    let alloy = |word: &str| {
        let text = format!("{HEAD}name = \"pitch-least\"\nvalue = \"3 D\"\nalloy = {word}\n");
        OwnLimits::read_from(text.into(), Path::new("l.toml"))
    };
    assert!(
        mistakes(alloy("\"XX\""))
            .starts_with("l.toml:7:9: \"XX\" is no rivet alloy; right would be letters such as AD")
    );
    assert!(
        mistakes(alloy("\"C\""))
            .starts_with("l.toml:7:9: the letters \"C\" mean another alloy in each series; right would be ")
    );
    for word in ["\"AD\"", "\"2117\"", "2117"] {
        let limits = alloy(word).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(limits.limits[0].scope.alloy, Some(shophead::material::RivetAlloy::Al2117), "{word}");
    }
}

#[test]
fn a_diameter_to_three_decimals_is_that_of_the_series() {
    let text = "title = \"t\"\ndocument = \"d\"\n[[limit]]\nname = \"hole-greatest\"\nvalue = 0.164\nplace = \"p\"\ndiameter = 0.156\n";
    let limits = OwnLimits::read_from(text.into(), Path::new("l.toml")).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(limits.limits[0].scope.diameter, Some(inch("5/32")), "otherwise the limit would never hold");
}

/// A limits file with nothing but this in it besides its title and document.
fn figures(rest: &str) -> Result<OwnLimits, ReadError> {
    OwnLimits::read_from(format!("title = \"t\"\ndocument = \"d\"\n{rest}\n").into(), Path::new("l.toml"))
}

#[test]
fn every_mistake_in_a_shop_s_figures_is_told_with_its_place() {
    for (rest, told) in [
        ("limit.hole-greatst = \".135\"", "l.toml:3:7: \"hole-greatst\" is no limit; right would be \"hole-greatest\""),
        ("limit.hole-greatest = \"wide\"", "l.toml:3:23: hole-greatest: "),
        (
            "series.NAS1241.head_hight.4 = \".036\"",
            "l.toml:3:16: a series has no key \"head_hight\"; right would be \"head_height\"",
        ),
        (
            "series.NAS1241.head_height.7 = \".036\"",
            "l.toml:3:28: NAS1241 has no size \"7\"; right would be a dash number: 3, 4, 5, 6, 8",
        ),
        (
            "series.NAS1242.head_height.4 = \".050\"",
            "l.toml:3:32: 4: a protruding head needs its diameter and its height; right would be head_diameter.4",
        ),
        (
            "series.NAS1241.shank.4 = \".190+-.002\"",
            "l.toml:3:26: 4: the limits of the shank leave out its nominal diameter; right would be",
        ),
        (
            "series.NAS1241.head_diameter.4 = \".130\"",
            "l.toml:3:34: 4: the head must be wider than the shank; right would be",
        ),
        (
            "series.NAS1341.head_height.4 = \".036\"",
            "l.toml:3:8: \"NAS1341\" is not a series known here; right would be \"NAS1241\"",
        ),
        ("series.AN425.head_height.4 = \".036\"", "l.toml:3:8: AN425 has a 78 degree countersunk head"),
        (
            "material.2024-T3511.shear_ultimate = \"38\"",
            "l.toml:3:38: shear_ultimate: a stress needs its unit: psi, ksi, msi, MPa or GPa; right would be 20ksi or 140MPa",
        ),
        (
            "material.2024-T3511.shear_ultimate = \"-1 ksi\"",
            "l.toml:3:38: shear_ultimate must be above zero; right would be \"38 ksi\"",
        ),
        (
            "material.2024-T35-of-mine.shear_ultimate = \"38 ksi\"",
            "l.toml:3:10: \"2024-T35-of-mine\": the name of a material has letters, figures and hyphens, at most 11, and perhaps clad; right would be clad 2024-T861",
        ),
        ("[material.2024-T3]\nbasis = \"A\"", "l.toml:3:1: material 2024-T3 has no figure; right would be"),
        (
            "[[material.4130]]\nmodulus = \"29 msi\"\n[[material.4130]]\nthickness = \".1\"\nmodulus = \"29 msi\"",
            "l.toml:5:1: 4130: it is entered twice; right would be one table for each range of thickness",
        ),
        (
            "[material.4130]\nthickness = \".2 to .1\"\nmodulus = \"29 msi\"",
            "l.toml:4:13: thickness cannot be \".2 to .1\"; right would be \".050 to .249\"",
        ),
        (
            "material.A286.density = \".287 kg\"",
            "l.toml:3:25: density cannot be \".287 kg\"; right would be \".101 lb/in3\" or \"2.80 g/cm3\"",
        ),
        (
            "[flush.MS20426AD4]\nmaterial = \"A286\"\nthickness = \".04\"\nseat = \"dimpled\"\nultimate = 300",
            "l.toml:4:12: material: no such sheet alloy on file",
        ),
        ("tension.MS20470AD4.ultimate = 0", "l.toml:3:31: ultimate: "),
        ("[tension.MS20470AD4]\nplace = \"p\"", "l.toml:3:1: tension of MS20470AD4 has no ultimate; right would be"),
        ("rivet.2118.shear_ultimate = \"30 ksi\"", "l.toml:3:7: \"2118\" is no rivet alloy; right would be "),
        ("[rivet.2117]\nplace = \"p\"", "l.toml:3:1: rivet 2117 has no shear_ultimate; right would be"),
        (
            "[flush.MS20470AD4]\nultimate = 300",
            "l.toml:3:8: MS20470 has no flush head; right would be a flush rivet such as MS20426AD4",
        ),
        (
            "[flush.MS20426AD4]\nmaterial = \"2024-T3\"\nthickness = \".04\"\nseat = \"sunk\"\nultimate = 300",
            "l.toml:6:8: seat cannot be \"sunk\"; right would be \"countersunk\" or \"dimpled\"",
        ),
    ] {
        let found = mistakes(figures(rest));
        assert!(found.starts_with(told) && !found.contains('\n'), "{rest:?}: {found}");
    }
    let lonely =
        OwnLimits::read_from("title = \"t\"\n[rivet.2117]\nshear_ultimate = \"30 ksi\"\n".into(), Path::new("l.toml"));
    assert!(mistakes(lonely).starts_with("l.toml:2:1: rivet 2117 has no document; right would be document ="));
}

#[test]
fn every_property_that_the_core_knows_is_a_key_of_a_material() {
    for property in shophead::material::Property::ALL {
        assert!(keys::MATERIAL.names.contains(&property.as_str()), "{property}");
        let read = figures(&format!("material.\"clad 2024-T3\".{property} = \"12.5 ksi\""));
        let sheet = read.unwrap_or_else(|error| panic!("{error}")).entered.sheets()[0];
        assert_eq!(sheet.figure(*property), Some(shophead::quantity::Stress::from_ksi(12.5)), "{property}");
    }
}

// The document.

/// The keys in the tables of a section of `JOB-FILE.md`.
fn documented(section: &str) -> Vec<&'static str> {
    let document = include_str!("../../JOB-FILE.md");
    let start = document.find(&format!("\n## {section}\n")).unwrap_or_else(|| panic!("no section {section}"));
    let body = document[start + 4..].split("\n## ").next().unwrap_or_default();
    body.lines().filter_map(|line| line.strip_prefix("| `")?.split('`').next()).collect()
}

#[test]
fn the_document_and_the_reader_know_the_same_keys() {
    let sections: [(&str, &Keys); 26] = [
        ("Job", &keys::JOB),
        ("Position", &keys::POSITION),
        ("Minutes", &keys::MINUTES),
        ("Row", &keys::ROW),
        ("Edge", &keys::EDGE),
        ("Damage", &keys::DAMAGE),
        ("Look", &keys::LOOK),
        ("Trim file", &keys::TRIM_FILE),
        ("Layer", &keys::LAYER),
        ("Hole", &keys::HOLE),
        ("Exception", &keys::EXCEPTION),
        ("Rows file", &keys::ROWS_FILE),
        ("Limits file", &keys::LIMITS),
        ("Limit", &keys::LIMIT),
        ("Series in the limits file", &keys::SERIES),
        ("Materials in the limits file", &keys::MATERIAL),
        ("Rivets in the limits file", &keys::RIVET),
        ("Flush joints in the limits file", &keys::FLUSH),
        ("Plain joints in the limits file", &keys::PLAIN),
        ("Tension in the limits file", &keys::TENSION),
        ("Holes file", &keys::HOLES_FILE),
        ("Answers file", &keys::ANSWERS_FILE),
        ("Points file", &keys::POINTS_FILE),
        ("Stock file", &keys::STOCK_FILE),
        ("Driven file", &keys::DRIVEN_FILE),
        ("Seams file", &keys::SEAMS_FILE),
    ];
    for (section, keys) in sections {
        assert_eq!(documented(section), keys.names, "{section}");
    }
}

#[test]
fn the_document_names_every_word_and_its_examples_read() {
    let document = include_str!("../../JOB-FILE.md");
    let words = shophead::structure::Member::ALL.iter().map(|member| member.as_str());
    let words = words.chain(shophead::structure::Place::ALL.iter().map(|place| place.as_str()));
    let words = words.chain(shophead::stack::Role::ALL.iter().map(|role| role.as_str()));
    let words = words.chain(shophead::damage::DamageKind::ALL.iter().map(|kind| kind.as_str()));
    let words = words.chain(Damage::ALL.iter().map(|damage| damage.as_str()));
    let words = words.chain(seen_words());
    for word in words {
        assert!(document.contains(&format!("`{word}`")), "{word}");
    }
    let example = |mark: &str, number: usize| {
        document
            .split(&format!("```{mark}\n"))
            .nth(number)
            .and_then(|rest| rest.split("```").next())
            .expect("an example")
    };
    read_beside(example("toml", 1), &[]).unwrap_or_else(|error| panic!("{error}"));
    let limits = |number| OwnLimits::read_from(example("toml", number).into(), Path::new("l.toml"));
    limits(2).unwrap_or_else(|error| panic!("{error}"));
    let figures = limits(3).unwrap_or_else(|error| panic!("{error}"));
    let entered = &figures.entered;
    assert_eq!((figures.limits.len(), entered.sizes().count(), entered.shears().count()), (1, 1, 1));
    assert_eq!((entered.sheets().len(), entered.joints().len(), figures.cited.len()), (1, 1, 2));
    let demo = demo(DEMO, DEMO_LIMITS, DEMO_HOLES).expect("the demo reads");
    let seams = read_seams_from(example("csv", 8).into(), Path::new("s.csv"), Bare::Inches, &[]);
    assert_eq!(seams.unwrap_or_else(|error| panic!("{error}")).len(), 2);
    read_driven_from(example("csv", 7).into(), Path::new("d.csv"), &demo).unwrap_or_else(|error| panic!("{error}"));
    read_holes_from(example("csv", 2).into(), Path::new("h.csv"), &sound_job())
        .unwrap_or_else(|error| panic!("{error}"));
    let job = format!("answers = \"a.csv\"\n{SOUND}{}", row_named("K2"));
    let read = read_beside(&job, &[("a.csv", example("csv", 3))]).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(read.answers.len(), 3);
    let head = SOUND.split("[[row]]").next().expect("what stands before the rows");
    let rows = format!("rows = \"rows.csv\"\n{head}");
    read_beside(&rows, &[("rows.csv", example("csv", 1))]).unwrap_or_else(|error| panic!("{error}"));
    let points = SOUND.replace("count = 48", "points = \"p.csv\"");
    let points = points.split("[[row.hole]]").next().expect("a row").to_owned();
    read_beside(&points, &[("p.csv", example("csv", 4))]).unwrap_or_else(|error| panic!("{error}"));
    let edge = format!("{SOUND}[[edge]]\nname = \"aft\"\nstations = \"trim.csv\"\n");
    read_beside(&edge, &[("trim.csv", example("csv", 5))]).unwrap_or_else(|error| panic!("{error}"));
}

// Mangled files.

/// A change that an editor, a download or a cat on the keyboard makes.
#[derive(Clone, Debug)]
enum Mangle {
    Delete(prop::sample::Index, usize),
    Insert(prop::sample::Index, Vec<u8>),
    Truncate(prop::sample::Index),
}

fn mangles() -> impl Strategy<Value = Vec<Mangle>> {
    let telling = prop::sample::select(b"\"'[]{}=,.#\n\r\t-+%0\x00\xff\xe2\x80\xae".as_slice());
    let bytes = prop::collection::vec(prop_oneof![telling, any::<u8>()], 1..4);
    let at = any::<prop::sample::Index>;
    let one = prop_oneof![
        4 => (at(), 1..20_usize).prop_map(|(at, count)| Mangle::Delete(at, count)),
        4 => (at(), bytes).prop_map(|(at, bytes)| Mangle::Insert(at, bytes)),
        1 => at().prop_map(Mangle::Truncate),
    ];
    prop::collection::vec(one, 1..6)
}

fn mangled(text: &str, mangles: &[Mangle]) -> Vec<u8> {
    let mut bytes = text.as_bytes().to_vec();
    for mangle in mangles {
        let index = |at: &prop::sample::Index| at.index(bytes.len() + 1);
        match mangle {
            Mangle::Delete(at, count) => {
                let at = index(at);
                bytes.drain(at..(at + count).min(bytes.len()));
            }
            Mangle::Insert(at, new) => {
                let at = index(at);
                bytes.splice(at..at, new.iter().copied());
            }
            Mangle::Truncate(at) => bytes.truncate(index(at)),
        }
    }
    bytes
}

/// Whatever is told about a mangled file can be shown, and steers no terminal.
fn shown_harmless<T>(read: Result<T, ReadError>) -> Result<(), TestCaseError> {
    if let Err(ReadError::Content(found)) = &read {
        prop_assert!(!found.is_empty() && found.len() <= MAX_MISTAKES);
        for mistake in found {
            let unseen = |text: &str| text.chars().any(|c| is_unseen(c) && c != '\n');
            prop_assert!(!unseen(&mistake.one_line()), "{:?}", mistake.one_line());
            let rendered = mistake.render(false);
            prop_assert!(!unseen(&rendered), "{rendered:?}");
            let place = mistake.place();
            prop_assert!(rendered.contains(&format!(":{}:{}", place.line, place.column)), "{rendered}\n{place:?}");
        }
    }
    Ok(())
}

proptest! {
    #[test]
    fn a_mangled_job_never_panics(mangles in mangles()) {
        let files = |path: &Path| match path.to_str() {
            Some("holes.csv") => Ok(DEMO_HOLES.into()),
            Some("shop-limits.toml") => Ok(DEMO_LIMITS.into()),
            Some("trim.csv") => Ok(DEMO_TRIM.into()),
            _ => Err(io::ErrorKind::NotFound.into()),
        };
        shown_harmless(Job::read_from(mangled(DEMO, &mangles), Path::new("job.toml"), &files))?;
        shown_harmless(Job::read_from(mangled(SOUND, &mangles), Path::new("job.toml"), &files))?;
        let beside = |path: &Path| match path.to_str() {
            Some("holes.csv") => Ok(MARSH_HOLES.into()),
            Some("trim.csv") => Ok(mangled(MARSH_TRIM, &mangles)),
            _ => Err(io::ErrorKind::NotFound.into()),
        };
        shown_harmless(Job::read_from(mangled(MARSH, &mangles), Path::new("job.toml"), &beside))?;
        shown_harmless(Job::read_from(MARSH.into(), Path::new("job.toml"), &beside))?;
    }

    #[test]
    fn a_mangled_limits_file_never_panics(mangles in mangles()) {
        shown_harmless(OwnLimits::read_from(mangled(DEMO_LIMITS, &mangles), Path::new("l.toml")))?;
    }

    #[test]
    fn a_mangled_holes_file_never_panics(mangles in mangles()) {
        let job = sound_job();
        shown_harmless(read_holes_from(mangled(DEMO_HOLES, &mangles), Path::new("h.csv"), &job))?;
    }
}
