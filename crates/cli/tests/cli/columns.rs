//! Rows are the answer of the JSON in another form: each column is a field of it, by its name and by what it says. `length`, `head`, `hole` and
//! `joint` have their own law, beside the batch.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use crate::{shophead, shophead_with};

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo/keel-skin");

/// One row of CSV, by its columns without their units.
type Row = BTreeMap<String, (String, Option<String>)>;

/// The answer of a command in rows.
struct Form {
    typed: String,
    /// What is fed to it.
    input: &'static str,
    status: i32,
    /// The piece of the result that a row is about.
    piece: fn(&Value, usize, &Row) -> Value,
    /// Each column with its field: of the piece, or behind `=` of the whole result.
    columns: &'static [(&'static str, &'static str)],
    /// Columns that are no field by themselves, and why.
    apart: &'static [(&'static str, &'static str)],
}

fn whole(result: &Value, _: usize, _: &Row) -> Value {
    result.clone()
}

/// A line of one list, then of the next.
fn nth(lists: &[&Value], index: usize) -> Value {
    lists.iter().flat_map(|list| list.as_array().expect("a list")).nth(index).expect("as many lines as rows").clone()
}

/// A row of the plan, or one of its holes with the name of its row.
fn of_plan(result: &Value, _: usize, row: &Row) -> Value {
    let rows = result["rows"].as_array().expect("rows");
    let of = rows.iter().find(|of| of["name"] == row["row"].0).expect("a row of that name");
    if row["hole"].0.is_empty() {
        let mut of = of.clone();
        of["row"] = of["name"].take();
        return of;
    }
    let number = row["hole"].0.parse().ok();
    let hole = |hole: &&Value| hole["hole_number"].as_u64() == number;
    let mut found = of["holes"].as_array().expect("holes").iter().find(hole).expect("a hole of that number").clone();
    found["row"] = of["name"].clone();
    found
}

const OF_PLAN: &[(&str, &str)] = &[
    ("row", "/row"),
    ("hole", "/hole_number"),
    ("disposition", "/disposition"),
    ("drill", "/drill"),
    ("part", "/part"),
    ("length", "/length"),
    ("rule_of_thumb_length", "/rule_of_thumb_length"),
    ("protrusion_max", "/protrusion/max"),
    ("window_height_min", "/window/height/min"),
    ("window_height_max", "/window/height/max"),
    ("window_diameter_min", "/window/diameter/min"),
    ("answer", "/answer/answer"),
];

const OF_ORDER: &[(&str, &str)] = &[
    ("part", "/part"),
    ("needed", "/needed"),
    ("spares", "/spares"),
    ("stock", "/stock"),
    ("buy", "/buy"),
    ("mass", "/mass"),
    ("pack", "/pack"),
    ("packs", "/packs"),
    ("description", "/description"),
    ("also_called", "/also_called"),
    ("alloy", "/alloy"),
    ("head", "/head"),
    ("diameter", "/diameter"),
    ("length", "/length"),
    ("job", "=/title"),
    ("date", "=/date"),
    ("why", "/why"),
    ("again", "/again"),
];

const OF_INSPECT: &[(&str, &str)] = &[
    ("row", "/row"),
    ("hole", "/hole"),
    ("rivet", "/rivet"),
    ("diameter_min", "/diameter/min"),
    ("diameter_max", "/diameter/max"),
    ("height_min", "/height/min"),
    ("height_max", "/height/max"),
    ("condition", "/condition"),
    ("remark", "/remark"),
    ("accepted", "/accepted"),
    ("remedy", "/remedy/do"),
    ("replacement", "/replacement"),
    ("by", "/taken/by"),
    ("date", "/taken/date"),
    ("gauge", "/taken/gauge"),
    ("batch", "/batch"),
];

const OF_GROUP: &[(&str, &str)] = &[
    ("part", "=/rivet"),
    ("x", "/x"),
    ("y", "/y"),
    ("fx", "/fx"),
    ("fy", "/fy"),
    ("load", "/load"),
    ("allowable", "/allowable"),
    ("margin", "/margin"),
    ("yield_margin", "/yield_margin"),
    ("edge_in_load", "/edge_in_load"),
];

const OF_SPLICE: &[(&str, &str)] = &[
    ("rivet", "/rivet"),
    ("width", "/width"),
    ("rivets_per_inch", "/rivets_per_inch"),
    ("rivets_total", "/rivets_total"),
    ("governing", "/governing"),
    ("from", "/from"),
    ("strength_rivets_total", "/strength/rivets_total"),
    ("rows", "/rows/rows"),
    ("per_row", "/rows/per_row"),
    ("pitch", "/rows/pitch"),
    ("develops", "/rows/efficiency"),
    ("better_rows", "/better/rows"),
    ("better_develops", "/better/efficiency"),
    ("example_total", "/example/total"),
];

const OF_PART: &[(&str, &str)] = &[
    ("written", "/written"),
    ("part", "/part"),
    ("series", "/series"),
    ("head", "/head"),
    ("alloy", "/alloy"),
    ("alloy_letters", "/alloy_letters"),
    ("diameter", "/diameter"),
    ("length", "/length"),
];

const OF_SOURCES: &[(&str, &str)] = &[
    ("group", "/group"),
    ("what", "/what"),
    ("value", "/value"),
    ("document", "/document"),
    ("place", "/place"),
    ("status", "/status"),
];

const OF_POINTS: &[(&str, &str)] =
    &[("x", "/x"), ("y", "/y"), ("diameter", "/diameter"), ("part", "/part"), ("row", "/row"), ("counts", "/counts")];

const OF_TRIED: &[(&str, &str)] = &[
    ("rivet", "/rivet"),
    ("rows", "/rows"),
    ("pitch", "/pitch"),
    ("edge", "/edge"),
    ("sheet", "/gauge"),
    ("margin", "/margin"),
    ("share", "/share"),
    ("carries_per_inch", "/carries_per_inch"),
];

const OF_STRIP: &[(&str, &str)] = &[
    ("carries", "/carries"),
    ("efficiency", "/efficiency"),
    ("shear", "/all_rivets_in_shear"),
    ("bearing", "/all_rivets_in_bearing"),
    ("margin", "/margin"),
];

const OF_BEND: &[(&str, &str)] = &[
    ("material", "/material"),
    ("thickness", "/thickness"),
    ("angle", "/degrees"),
    ("radius", "/radius"),
    ("setback", "/setback"),
    ("radius_least", "/radius_least"),
    ("radius_most", "/radius_most"),
];

/// A row of a stack by one formula, its planes by their numbers.
fn of_layers(result: &Value, _: usize, row: &Row) -> Value {
    let every = result["rows"]["layers"].as_array().expect("formulas");
    let by = every.iter().find(|by| by["formula"] == row["formula"].0).expect("a formula of that name");
    let number: usize = row["row"].0.parse().expect("a number");
    let planes = by["rows"][number - 1]["planes"].as_array().expect("planes").iter().enumerate();
    let planes: serde_json::Map<_, _> =
        planes.map(|(index, load)| (format!("plane_{}", index + 1), load.clone())).collect();
    let mut found = Value::Object(planes);
    found["formula"] = by["formula"].clone();
    found["row"] = number.into();
    found["margin"] = by["margin"].clone();
    found
}

const OF_LAYERS: &[(&str, &str)] = &[
    ("formula", "/formula"),
    ("row", "/row"),
    ("plane_1", "/plane_1"),
    ("plane_2", "/plane_2"),
    ("plane_3", "/plane_3"),
    ("plane_4", "/plane_4"),
    ("margin", "/margin"),
];

fn forms() -> Vec<Form> {
    let form = |typed: &str, status, piece, columns| Form {
        typed: typed.to_owned(),
        input: "",
        status,
        piece,
        columns,
        apart: &[],
    };
    let tried: fn(&Value, usize, &Row) -> Value = |result, _, _| result["rows"]["solved"]["found"].clone();
    let points: fn(&Value, usize, &Row) -> Value = |result, index, _| nth(&[&result["points"]], index);
    let rows = "repair rows --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.063 --load 500";
    vec![
        Form {
            apart: &[("count", "the holes that have no line of their own")],
            ..form(&format!("plan {DEMO}/job.toml"), 1, of_plan, OF_PLAN)
        },
        Form {
            apart: &[
                ("holes", "those of `goes_into` or of `holes`, in ranges, as people write them"),
                ("not_ordered", "how many `holes` of `not_ordered`"),
            ],
            ..form(
                &format!("order {DEMO}/job.toml --stock {DEMO}/stock.csv"),
                1,
                |result, index, _| nth(&[&result["lines"], &result["not_ordered"]], index),
                OF_ORDER,
            )
        },
        form(
            &format!("inspect {DEMO}/job.toml {DEMO}/driven.csv"),
            1,
            |result, index, _| nth(&[&result["lines"]], index),
            OF_INSPECT,
        ),
        Form {
            input: "x,y\n0,0\n1.25,0\n0,.75\n2,2\n",
            apart: &[("rivet", "its place in `rivets`, counted from 1"), ("worst", "whether `worst` is this one")],
            ..form(
                "group - --load 100,60 --at 3,1 --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.040 --edge 1/2",
                0,
                |result, index, _| nth(&[&result["rivets"]], index),
                OF_GROUP,
            )
        },
        Form {
            apart: &[("table", "the number in `table.place`")],
            ..form("splice --sheet clad_2024-T3:.040 --width 10 --rivet AD4 --rows 2", 1, whole, OF_SPLICE)
        },
        Form {
            apart: &[("warnings", "their sentences in one")],
            ..form(
                "part MS20470AD4-5 NAS1097AD4 an470d6-10",
                0,
                |result, index, _| nth(&[&result["parts"]], index),
                OF_PART,
            )
        },
        form("sources", 0, |result, index, _| nth(&[&result["sources"]], index), OF_SOURCES),
        form("repair patch --sheet clad_2024-T3:.032 --hole 2x1-1/2 --taper stepped:.020", 0, points, OF_POINTS),
        form(
            "repair splice stringer --shape angle --material 2024-T3 --leg .6x.040 --leg .6x.040,skin=.032 --gap 1",
            0,
            points,
            OF_POINTS,
        ),
        form(
            &format!("repair panel {DEMO}/../hull-side/seams.csv --skin clad_2024-T3:.040 --size 24x18"),
            0,
            points,
            OF_POINTS,
        ),
        form(
            "repair rows --rivet MS20470AD4 --sheets 2024-T3:.040,2024-T3:.050,2024-T3:.063 --edge .3 --pitch .75 --rows 4 \
             --row-spacing .5 --load 900 --across .75 --from 1 --to 3",
            1,
            of_layers,
            OF_LAYERS,
        ),
        form(&format!("{rows} --solve pitch"), 0, tried, OF_TRIED),
        form(&format!("{rows} --rows 2 --pitch 1"), 1, |result, _, _| result["rows"]["as_asked"].clone(), OF_TRIED),
        Form {
            apart: &[("counts", "`counts` with dashes"), ("gives_way", "`governing` in a few words")],
            ..form(
                &format!("{rows} --counts 1-2-1 --across 1-1/2"),
                0,
                |result, _, _| result["rows"]["strip"].clone(),
                OF_STRIP,
            )
        },
        form("repair bend --material 2024-T3 --thickness .040", 0, |result, _, _| result["bend"].clone(), OF_BEND),
    ]
}

/// A column without its unit, and the unit.
fn without_unit(column: &str) -> (&str, Option<&str>) {
    let units = ["in", "mm", "lbf", "n", "lb", "g"];
    let found = column.rsplit_once('_').filter(|(_, unit)| units.contains(unit));
    found.map_or((column, None), |(name, unit)| (name, Some(unit)))
}

/// Whether a cell says what stands in the field.
fn says(cell: &str, unit: Option<&str>, field: &Value) -> bool {
    match unit.and_then(|unit| field.get(unit)).unwrap_or(field) {
        Value::Null => cell.is_empty(),
        Value::String(word) => cell == word,
        Value::Bool(is) => cell == is.to_string(),
        Value::Array(words) => cell == words.iter().filter_map(Value::as_str).collect::<Vec<_>>().join(" "),
        Value::Number(number) => {
            // As many places as a cell has; a ratio is never more than it is.
            let off = match unit {
                Some("in") => 5.1e-6,
                Some("mm") => 5.1e-4,
                Some("lb") => 5.1e-5,
                Some("g") => 5.1e-2,
                Some(_) => 1.1e-3,
                None => 1.1e-4,
            };
            let figure = number.as_f64().expect("a figure");
            cell.parse::<f64>().is_ok_and(|written| (written - figure).abs() <= off)
        }
        Value::Object(_) => false,
    }
}

#[test]
fn each_column_of_every_command_says_what_its_field_of_the_json_says() {
    for form in forms() {
        for units in ["in", "mm"] {
            let run = |format: &str| {
                shophead_with(&format!("{} --format {format}", form.typed), |run| {
                    run.env("SHOPHEAD_UNITS", units).write_stdin(form.input)
                })
            };
            let (json, csv) = (run("json"), run("csv"));
            assert_eq!((json.status, csv.status), (Some(form.status), Some(form.status)), "{csv}");
            let json: Value = serde_json::from_str(&json.stdout).expect("JSON");
            let result = &json["result"];
            let mut reader = csv::Reader::from_reader(csv.stdout.as_bytes());
            let columns: Vec<String> = reader.headers().expect("a header").iter().map(str::to_owned).collect();
            let (mut count, mut refers) = (0, 0);
            for (index, record) in reader.records().enumerate() {
                let record = record.expect("rows of one length");
                let split = columns.iter().zip(&record).map(|(column, cell)| {
                    let (name, unit) = without_unit(column);
                    (name.to_owned(), (cell.to_owned(), unit.map(str::to_owned)))
                });
                let row: Row = split.collect();
                let piece = (form.piece)(result, index, &row);
                for (name, (cell, unit)) in &row {
                    let place = form.columns.iter().find(|(column, _)| column == name).map(|(_, place)| *place);
                    let Some(place) = place else {
                        let is_known = ["severity", "findings"].contains(&name.as_str());
                        assert!(
                            is_known || form.apart.iter().any(|(column, _)| column == name),
                            "{}: no field for {name}",
                            form.typed
                        );
                        continue;
                    };
                    let field = match place.strip_prefix('=') {
                        Some(place) => result.pointer(place),
                        None => piece.pointer(place),
                    };
                    let field = field.unwrap_or(&Value::Null);
                    assert!(
                        says(cell, unit.as_deref(), field),
                        "{}: {name} {cell:?}, but {place} {field} of {piece}",
                        form.typed
                    );
                }
                let named = |name: &str| row.get(name).map_or("", |(cell, _)| cell.as_str());
                let findings = || json["findings"].as_array().expect("findings").iter();
                for code in named("findings").split(' ').filter(|code| !code.is_empty()) {
                    assert!(findings().any(|finding| finding["code"] == code), "{}: {code}", form.typed);
                }
                let severity = named("severity");
                assert!(severity.is_empty() || findings().any(|finding| finding["severity"] == severity), "{severity}");
                count += 1;
                refers += u32::from(severity == "refer" || !named("not_ordered").is_empty());
            }
            assert!(count > 0, "{}", form.typed);
            // A script that reads the rows alone learns that something must be referred.
            assert_eq!(refers > 0, form.status == 1, "{}", form.typed);
            for (name, place) in form.columns {
                assert!(
                    columns.iter().any(|column| without_unit(column).0 == *name),
                    "{}: {name} for {place} is no column",
                    form.typed
                );
            }
        }
    }
}

#[test]
fn a_cell_that_says_something_else_is_seen() {
    for (cell, unit, field) in [
        ("0.250", Some("in"), json!({ "in": 0.2501, "mm": 6.35 })),
        ("AD", None, json!("D")),
        ("", None, json!("D")),
        ("0.1", None, Value::Null),
        ("true", None, json!(false)),
        ("a c", None, json!(["a", "b"])),
        ("1.25", None, json!({ "value": 1.25 })),
    ] {
        assert!(!says(cell, unit, &field), "{cell}: {field}");
    }
}

/// No command that answers in rows is left out.
#[test]
fn every_command_that_answers_in_rows_is_compared() {
    let own_law = ["length", "head", "hole", "joint"];
    let none = [
        "survey",
        "new",
        "handheld",
        "batch",
        "card",
        "map",
        "template",
        "answer",
        "schema",
        "completions",
        "man",
        "help",
    ];
    let help = shophead("--help");
    let commands = help.printed(0).lines().skip_while(|line| *line != "Commands:").skip(1);
    let commands = commands.take_while(|line| !line.is_empty()).filter_map(|line| line.split_whitespace().next());
    let forms = forms();
    let mut count = 0;
    for command in commands.filter(|command| !own_law.contains(command) && !none.contains(command)) {
        assert!(forms.iter().any(|form| form.typed.split(' ').next() == Some(command)), "{command}");
        count += 1;
    }
    assert!(count > 5, "{count}");
}
