//! A job written both ways, its rows as tables and as lines of a CSV file, is the same job.

use std::fmt::Write as _;
use std::io;
use std::path::Path;

use proptest::prelude::*;

use super::*;

fn read(job: &str, files: &[(&str, &str)]) -> Result<Job, ReadError> {
    let found = |path: &Path| {
        let file = files.iter().find(|(name, _)| Path::new(name) == path);
        file.map(|(_, text)| text.as_bytes().to_vec()).ok_or(io::ErrorKind::NotFound.into())
    };
    Job::read_from(job.into(), Path::new("job.toml"), &found)
}

fn told<T: std::fmt::Debug>(read: Result<T, ReadError>) -> String {
    match read {
        Ok(_) => "nothing is wrong".into(),
        Err(error) => error.to_string(),
    }
}

const HEAD: &str = "title = \"Panel\"\nrows = \"rows.csv\"\n[materials]\nskin = \"clad 2024-T3\"\n";
const POSITIONS: [&str; 2] = ["upright", "on its side"];

/// A layer: material, thickness, preparation, role.
type Layer = (Option<&'static str>, &'static str, &'static str, &'static str);

/// An exception: layers; edge, pitch and transverse pitch; the room behind it in one position; about.
type Excepted = (Option<Vec<Layer>>, [Option<&'static str>; 3], Option<(&'static str, &'static str)>, String);

/// What a row may say, before it is written either way. Each text stands as it does in a CSV cell.
#[derive(Clone, Debug)]
struct Said {
    about: String,
    structure: &'static str,
    member: &'static str,
    places: Vec<&'static str>,
    says_head: bool,
    family: &'static str,
    size: u8,
    other_rivet: bool,
    layers: Vec<Layer>,
    installed_layers: Option<Vec<Layer>>,
    places_of_holes: Holes,
    pitch: Option<&'static str>,
    edge: Option<&'static str>,
    transverse: Option<&'static str>,
    pattern: Option<String>,
    rows_in_pattern: Option<u8>,
    clearances: [&'static str; 2],
    hole_size: Option<&'static str>,
    exceptions: Vec<Excepted>,
    measured: Vec<(u32, &'static str, &'static str, &'static str)>,
}

#[derive(Clone, Debug)]
enum Holes {
    Count(u32),
    Line(u32, [&'static str; 2], [&'static str; 2]),
    Points(Vec<[&'static str; 2]>),
}

impl Holes {
    fn count(&self) -> u32 {
        match self {
            Holes::Count(count) | Holes::Line(count, ..) => *count,
            Holes::Points(points) => points.len() as u32,
        }
    }
}

fn length() -> impl Strategy<Value = &'static str> {
    prop::sample::select(vec!["3/8", ".4375", "0.5", "1-1/8", "19mm", "7/8in", "1 1/4"])
}

fn coordinate() -> impl Strategy<Value = &'static str> {
    prop::sample::select(vec!["0", "1", "-1/2", "2.25", "-30mm", "4in", "5.125"])
}

fn layers(flush: bool) -> impl Strategy<Value = Vec<Layer>> {
    let material = prop::option::of(prop::sample::select(vec!["skin", "7075-T6", "clad 2024-T3"]));
    let thickness = prop::sample::select(vec![".032", ".040+-.002", "1.6mm", "1/8", ".063+.003-.001", "1.25in"]);
    let role = prop::sample::select(vec!["skin", "doubler", "cap", "rib-flange", "stringer", "tab"]);
    prop::collection::vec((material, thickness, Just("plain"), role), 1..4).prop_map(move |mut layers| {
        if flush {
            layers[0].2 = "countersunk";
        }
        layers
    })
}

/// A text that a person writes, with whatever a spreadsheet makes of it.
fn words() -> impl Strategy<Value = String> {
    prop::sample::select(vec!["", "keel cap, port", "=1+1", "12\" from \"A\"", "-x", "'quoted'", "Frame 3: aft"])
        .prop_map(str::to_owned)
}

fn said() -> impl Strategy<Value = Said> {
    let holes = prop_oneof![
        (1_u32..40).prop_map(Holes::Count),
        (1_u32..40, [coordinate(), coordinate()], coordinate().prop_map(|y| ["1", y]))
            .prop_map(|(count, start, along)| Holes::Line(count, start, along)),
        prop::collection::vec([coordinate(), coordinate()], 1..6).prop_map(Holes::Points),
    ];
    let places = prop::sample::subsequence(vec!["fluid-tight", "below-water-line", "heavily-stressed"], 0..3);
    let room = || prop::sample::select(vec!["closed", "open", "1.5", "3/4", "40mm"]);
    (any::<bool>(), holes, places)
        .prop_flat_map(move |(flush, holes, places)| {
            let count = holes.count();
            let own_room = (prop::sample::select(POSITIONS.to_vec()), room());
            let distances = [(); 3].map(|()| prop::option::of(length()));
            let exception = (prop::option::of(layers(flush)), distances, prop::option::of(own_room), words());
            let measured =
                prop::sample::subsequence((1..=count.min(6)).collect::<Vec<u32>>(), 0..=count.min(3) as usize);
            let measured = measured.prop_flat_map(|numbers| {
                let of = |number| {
                    let size = prop::sample::select(vec![".163", "4.1mm", "11/64"]);
                    let way = prop::sample::select(vec!["", "along", "across"]);
                    (Just(number), size, way, prop::sample::select(vec!["", "#27", "F"]))
                };
                numbers.into_iter().map(of).collect::<Vec<_>>()
            });
            (
                (Just(flush), Just(holes), Just(places), words(), any::<bool>(), any::<bool>(), 3_u8..6),
                (
                    prop::sample::select(vec!["primary", "secondary"]),
                    prop::sample::select(vec!["skin", "frame", "spar-cap", "other"]),
                ),
                (
                    (layers(flush), prop::option::of(layers(flush))),
                    length(),
                    prop::option::of(length()),
                    prop::option::of(length()),
                ),
                (prop::option::of(Just("aft lap".to_owned())), prop::option::of(1_u8..4), [room(), room()]),
                (
                    prop::option::of(prop::sample::select(vec![".170+-.001", "4.2mm"])),
                    prop::collection::vec(exception, 0..3),
                    measured,
                ),
            )
        })
        .prop_map(
            |(
                (flush, holes, places, about, says_head, other_rivet, size),
                (structure, member),
                ((layers, installed_layers), pitch, edge, transverse),
                (pattern, rows_in_pattern, clearances),
                (hole_size, exceptions, measured),
            )| Said {
                about,
                structure,
                member,
                places,
                says_head,
                family: if flush { "MS20426AD" } else { "MS20470AD" },
                size,
                other_rivet,
                layers,
                installed_layers,
                pitch: matches!(holes, Holes::Line(..)).then_some(pitch).or((size > 4).then_some(pitch)),
                places_of_holes: holes,
                edge,
                transverse,
                pattern,
                rows_in_pattern,
                clearances,
                hole_size,
                exceptions,
                measured,
            },
        )
}

impl Said {
    /// Which holes the exceptions are about: one hole each, as far as there are holes.
    fn excepted(&self) -> Vec<(u32, &Excepted)> {
        let differs = |(layers, distances, room, _): &&Excepted| {
            layers.is_some() || distances.iter().any(Option::is_some) || room.is_some()
        };
        self.exceptions
            .iter()
            .filter(differs)
            .zip(1..=self.places_of_holes.count())
            .map(|(one, hole)| (hole, one))
            .collect()
    }

    fn head(&self) -> &'static str {
        if self.family == "MS20426AD" { "flush" } else { "universal" }
    }

    fn as_table(&self, name: &str) -> String {
        let mut text = String::new();
        let list = |layers: &[Layer]| {
            let layer = |(material, thickness, preparation, role): &Layer| {
                let material = material.map_or_else(String::new, |material| format!("material = {material:?}, "));
                format!("{{ role = {role:?}, {material}thickness = {thickness:?}, preparation = {preparation:?} }}")
            };
            layers.iter().map(layer).collect::<Vec<_>>().join(", ")
        };
        let _ = writeln!(
            text,
            "[[row]]\nname = {name:?}\nabout = {:?}\nstructure = {:?}\nmember = {:?}",
            self.about, self.structure, self.member
        );
        let _ = writeln!(
            text,
            "places = {:?}\ninstalled = \"{}{}-6\"\nlayers = [{}]",
            self.places,
            self.family,
            self.size,
            list(&self.layers)
        );
        if let Some(layers) = &self.installed_layers {
            let _ = writeln!(text, "installed-layers = [{}]", list(layers));
        }
        if self.says_head {
            let _ = writeln!(text, "head = {:?}", self.head());
        }
        if self.other_rivet {
            let _ = writeln!(text, "rivet = \"{}{}\"", self.family, self.size + 1);
        }
        let _ = match &self.places_of_holes {
            Holes::Count(count) => writeln!(text, "count = {count}"),
            Holes::Line(count, start, along) => writeln!(text, "count = {count}\nstart = {start:?}\nalong = {along:?}"),
            Holes::Points(points) => writeln!(text, "points = {points:?}"),
        };
        let lengths = [
            ("pitch", self.pitch),
            ("edge", self.edge),
            ("transverse-pitch", self.transverse),
            ("hole-size", self.hole_size),
        ];
        for (key, length) in lengths {
            if let Some(length) = length {
                let _ = writeln!(text, "{key} = {length:?}");
            }
        }
        if let Some(pattern) = &self.pattern {
            let _ = writeln!(text, "pattern = {pattern:?}");
        }
        if let Some(rows) = self.rows_in_pattern {
            let _ = writeln!(text, "rows-in-pattern = {rows}");
        }
        let [one, other] = self.clearances;
        let _ = writeln!(text, "clearance = {{ {:?} = {one:?}, {:?} = {other:?} }}", POSITIONS[0], POSITIONS[1]);
        for (number, major, direction, opened) in &self.measured {
            let _ = writeln!(text, "[[row.hole]]\nnumber = {number}\nmajor = {major:?}");
            for (key, word) in [("direction", direction), ("opened", opened)] {
                if !word.is_empty() {
                    let _ = writeln!(text, "{key} = {word:?}");
                }
            }
        }
        for (hole, (layers, distances, room, about)) in self.excepted() {
            let _ = writeln!(text, "[[row.exception]]\nholes = [{hole}]\nabout = {about:?}");
            if let Some(layers) = layers {
                let _ = writeln!(text, "layers = [{}]", list(layers));
            }
            for (key, distance) in ["edge", "pitch", "transverse-pitch"].iter().zip(distances) {
                if let Some(distance) = distance {
                    let _ = writeln!(text, "{key} = {distance:?}");
                }
            }
            if let Some((position, room)) = room {
                let _ = writeln!(text, "clearance = {{ {position:?} = {room:?} }}");
            }
        }
        text
    }

    /// Its line in the rows file and those of its exceptions.
    fn as_lines(&self, name: &str) -> Vec<Vec<(&'static str, String)>> {
        let list = |layers: &[Layer]| {
            let layer = |(material, thickness, preparation, role): &Layer| {
                let material = material.map_or_else(String::new, |material| format!("{material}:"));
                let preparation = if *preparation == "plain" { String::new() } else { format!(":{preparation}") };
                // What is usual is left out.
                let role = if *role == "skin" { String::new() } else { format!(":{role}") };
                format!("{material}{thickness}{preparation}{role}")
            };
            layers.iter().map(layer).collect::<Vec<_>>().join(", ")
        };
        let point = |[x, y]: &[&str; 2]| format!("{x} {y}");
        let (count, start, along, points) = match &self.places_of_holes {
            Holes::Count(count) => (count.to_string(), String::new(), String::new(), String::new()),
            Holes::Line(count, start, along) => (count.to_string(), point(start), point(along), String::new()),
            Holes::Points(points) => (
                String::new(),
                String::new(),
                String::new(),
                points.iter().map(point).collect::<Vec<_>>().join("; ") + ";",
            ),
        };
        // A single point needs no semicolon; with one it must not make another.
        let points = points.trim_end_matches(';').to_owned();
        let text = |text: Option<&str>| text.unwrap_or_default().to_owned();
        let [one, other] = self.clearances;
        let row = vec![
            ("row", name.to_owned()),
            ("about", crate::cell::harmless(&self.about).into_owned()),
            ("structure", self.structure.to_owned()),
            ("member", self.member.to_owned()),
            ("places", self.places.join(", ")),
            ("installed", format!("{}{}-6", self.family, self.size)),
            ("rivet", if self.other_rivet { format!("{}{}", self.family, self.size + 1) } else { String::new() }),
            ("head", if self.says_head { self.head().to_owned() } else { String::new() }),
            ("layers", list(&self.layers)),
            ("installed_layers", self.installed_layers.as_deref().map_or_else(String::new, list)),
            ("count", count),
            ("start", start),
            ("along", along),
            ("points", points),
            ("pitch", text(self.pitch)),
            ("edge", text(self.edge)),
            ("transverse_pitch", text(self.transverse)),
            ("hole_size", text(self.hole_size)),
            ("pattern", text(self.pattern.as_deref())),
            ("rows_in_pattern", self.rows_in_pattern.map_or_else(String::new, |rows| rows.to_string())),
            ("clearances", format!("{}={one}; {}={other}", POSITIONS[0], POSITIONS[1])),
        ];
        let exceptions = self.excepted().into_iter().map(|(hole, (layers, distances, room, about))| {
            vec![
                ("row", name.to_owned()),
                ("holes", hole.to_string()),
                ("about", crate::cell::harmless(about).into_owned()),
                ("layers", layers.as_deref().map_or_else(String::new, list)),
                ("edge", text(distances[0])),
                ("pitch", text(distances[1])),
                ("transverse_pitch", text(distances[2])),
                ("clearances", room.map_or_else(String::new, |(position, room)| format!("{position}={room}"))),
            ]
        });
        std::iter::once(row).chain(exceptions).collect()
    }
}

/// A rows file of these lines, its columns in the order of `columns`.
fn csv(lines: &[Vec<(&'static str, String)>], columns: &[&'static str]) -> String {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(columns).expect("bytes in memory");
    for line in lines {
        let cell = |column: &&str| line.iter().find(|(name, _)| name == column).map_or("", |(_, cell)| cell.as_str());
        writer.write_record(columns.iter().map(cell)).expect("bytes in memory");
    }
    String::from_utf8(writer.into_inner().expect("bytes in memory")).expect("UTF-8")
}

proptest! {
    #[test]
    fn a_job_written_both_ways_is_the_same_job(
        rows in prop::collection::vec(said(), 1..4),
        order in Just(keys::ROWS_FILE.names.to_vec()).prop_shuffle(),
    ) {
        let positions: String = POSITIONS.iter().map(|name| format!("[[position]]\nname = {name:?}\n")).collect();
        let materials = "[materials]\nskin = \"clad 2024-T3\"\n";
        let named = || rows.iter().zip(1..).map(|(row, number)| (row, format!("K{number}")));
        let mut tables = format!("title = \"Panel\"\n{materials}{positions}");
        let mut lines = Vec::new();
        let mut holes = "row,hole,major,direction,opened\n".to_owned();
        for (row, name) in named() {
            tables.push_str(&row.as_table(&name));
            lines.extend(row.as_lines(&name));
            for (number, major, direction, opened) in &row.measured {
                let _ = writeln!(holes, "{name},{number},{major},{direction},{opened}");
            }
        }
        let as_tables = read(&tables, &[]).unwrap_or_else(|error| panic!("{error}\n{tables}"));
        let job = format!("title = \"Panel\"\nrows = \"rows.csv\"\nholes = \"holes.csv\"\n{materials}{positions}");
        let file = csv(&lines, &order);
        let mut as_lines = read(&job, &[("rows.csv", &file), ("holes.csv", &holes)]).unwrap_or_else(|error| panic!("{error}\n{file}"));
        as_lines.holes_file = None;
        prop_assert_eq!(format!("{as_tables:#?}"), format!("{as_lines:#?}"), "{}\n{}", tables, file);
    }
}

/// A sound file in which tests replace single pieces.
const SOUND: &str = "row,layers,installed,count,pitch,edge,structure,member,places,holes\n\
    K1,\"skin:.032,7075-T6:.040:rib-flange\",MS20470AD4-5,12,3/4,3/8,primary,frame,\"below-water-line, fluid-tight\",\n\
    K1,\"skin:.032,.025:tab,7075-T6:.040:rib-flange\",,,,5/16,,,,3 5-7\n";

#[test]
fn a_slip_in_a_cell_is_told_at_its_place() {
    assert_eq!(told(read(HEAD, &[("rows.csv", SOUND)])), "nothing is wrong");
    for (piece, replaced, wanted) in [
        (
            "7075-T6:.040:rib",
            "7075-T6:40:rib",
            "rows.csv:2:15: \"7075-T6:40:rib-flange\": 40 in is thick for a layer (character 9); did you mean .040? If it is so thick, write 40in",
        ),
        (
            "skin:.032,7075",
            "skim:.032,7075",
            "rows.csv:2:5: \"skim:.032\": \"skim\" is neither named in [materials] nor a material (character 1); right would be \"skin\"",
        ),
        (
            "7075-T6:.040:rib",
            "7075-T6:.040:ribb",
            "rows.csv:2:15: \"7075-T6:.040:ribb-flange\": this cannot follow a thickness (character 14)",
        ),
        (
            ",primary,",
            ",prime,",
            "rows.csv:2:64: structure cannot be \"prime\"; right would be \"primary\" or \"secondary\"",
        ),
        (",frame,", ",,", "rows.csv:2:1: row K1 has no member; fill its cell in the column member"),
        (
            ", fluid-tight",
            ", fluid-tigth",
            "rows.csv:2:97: a place cannot be \"fluid-tigth\"; right would be \"fluid-tight\"",
        ),
        (",12,", ",twelve,", "rows.csv:2:53: count cannot be twelve; right would be a whole number from 1 to 100000"),
        (",3/4,3/8,", ",0,3/8,", "rows.csv:2:56: pitch must be above zero"),
        (
            "3 5-7",
            "3 5-13",
            "rows.csv:3:62: a hole cannot be \"5-13\"; right would be a number from 1 to 12, or a range such as \"5-8\"",
        ),
        ("K1,\"skin:.032,.025", "K2,\"skin:.032,.025", "rows.csv:3:1: no line of this file is row \"K2\""),
        (",,,,5/16", ",AD4,,,5/16", "rows.csv:3:49: an exception has no installed of its own"),
        (",edge,", ",ege,", "rows.csv:1:34: column 6 is \"ege\"; right would be edge, or a name less like it"),
    ] {
        assert!(SOUND.contains(piece), "{piece}");
        let text = told(read(HEAD, &[("rows.csv", &SOUND.replacen(piece, replaced, 1))]));
        assert!(text.starts_with(wanted), "{piece} -> {replaced}: {text}");
    }
    let empty = told(read(HEAD, &[("rows.csv", "row,layers\n")]));
    assert!(
        empty.starts_with("rows.csv:1:1: there is no row in this file yet; fill in one line a row, such as K1,"),
        "{empty}"
    );
    let twice = format!(
        "{HEAD}[[row]]\nname = \"K1\"\nstructure = \"primary\"\nmember = \"frame\"\ninstalled = \"MS20470AD4-5\"\nlayers = [{{ role = \"skin\", thickness = \".04\" }}]\ncount = 2\n"
    );
    let twice = told(read(&twice, &[("rows.csv", SOUND)]));
    assert_eq!(twice, "rows.csv:2:1: the name \"K1\" is already taken, at job.toml:6; give another name");
}

#[test]
fn capitals_other_columns_and_a_byte_order_mark_do_no_harm() {
    let plain = read(HEAD, &[("rows.csv", SOUND)]).expect("a job");
    let dressed = SOUND.replace("primary", "Primary").replace("row,layers", "Row,Layers").replace('\n', "\r\n");
    let dressed = format!("\u{feff}{dressed}");
    assert_eq!(
        format!("{plain:?}"),
        format!("{:?}", read(HEAD, &[("rows.csv", &dressed)]).unwrap_or_else(|error| panic!("{error}")))
    );
    let more: String = SOUND.lines().zip(["who", "me", "you"]).map(|(line, who)| format!("{who},{line}\n")).collect();
    assert_eq!(
        format!("{plain:?}"),
        format!("{:?}", read(HEAD, &[("rows.csv", &more)]).unwrap_or_else(|error| panic!("{error}")))
    );
}
