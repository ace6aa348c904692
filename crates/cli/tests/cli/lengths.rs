//! Lengths and driven heads as the commands answer them: what one command says the others bear out.

use serde_json::Value;

use crate::{shophead, shophead_with};

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo/keel-skin");

/// Runs a batch over rows with these columns; the rows that come out.
fn batch(what: &str, practice: &str, header: &str, rows: &[String]) -> Vec<csv::StringRecord> {
    let text = format!("{header}\n{}\n", rows.join("\n"));
    let run = shophead_with(&format!("batch {what} --practice {practice}"), |command| command.write_stdin(text));
    assert!(matches!(run.status, Some(0 | 1)), "{run}");
    let mut reader = csv::Reader::from_reader(run.stdout.as_bytes());
    let columns = reader.headers().expect("a header").clone();
    let mut all = vec![columns];
    all.extend(reader.records().map(|record| record.expect("a row")));
    all
}

/// The cells of a column, without its head.
fn column(rows: &[csv::StringRecord], name: &str) -> Vec<String> {
    let at = rows[0].iter().position(|column| column == name).unwrap_or_else(|| panic!("no {name} in {:?}", rows[0]));
    rows[1..].iter().map(|row| row[at].to_owned()).collect()
}

/// Two series, five diameters, thirty-one grips from half a diameter to eight.
fn packs() -> Vec<String> {
    let mut rows = Vec::new();
    for (series, first) in [("MS20470", ""), ("MS20426", ":countersunk")] {
        for (diameter, thousandths) in [("3/32", 94), ("1/8", 125), ("5/32", 156), ("3/16", 188), ("1/4", 250)] {
            for step in 0..31 {
                let half = thousandths * 10 * (2 + step) / 8;
                rows.push(format!("{series},{diameter},\"{0}{first},{0}\"", format_args!("0.{half:04}+-.002")));
            }
        }
    }
    rows
}

/// Every length that is chosen, driven to either end of the window printed with it, is accepted by `head`: at its least width too, which the
/// window promises, and at the widths printed for the height to aim at, where that lies inside.
#[test]
fn head_accepts_what_length_says_to_drive_to() {
    for practice in ["handbook", "process"] {
        let rows = batch("length", practice, "series,diameter,layers", &packs());
        let [lengths, heights_min, heights_max, widths, predicted_min, predicted_max, height] = [
            "length_in",
            "window_height_min_in",
            "window_height_max_in",
            "window_diameter_min_in",
            "head_diameter_min_in",
            "head_diameter_max_in",
            "head_height_in",
        ]
        .map(|name| column(&rows, name));
        let (series, diameters) = (column(&rows, "series"), column(&rows, "diameter"));
        let mut heads = Vec::new();
        for at in (0..lengths.len()).filter(|at| !lengths[*at].is_empty()) {
            let mut measured = |wide: &str, high: &str| {
                heads.push(format!("{},{},{wide},{high}", series[at], diameters[at]));
            };
            measured(&widths[at], &heights_min[at]);
            measured(&widths[at], &heights_max[at]);
            measured(&predicted_min[at], &height[at]);
            measured(&predicted_max[at], &height[at]);
        }
        assert!(heads.len() > 900, "{practice}: {}", heads.len());
        let judged = batch("head", practice, "series,diameter,measured-diameter,measured-height", &heads);
        for (accepted, head) in column(&judged, "accepted").iter().zip(&heads) {
            assert_eq!(accepted, "true", "{practice}: {head}");
        }
    }
}

/// README's first example, and what `head` says of it.
#[test]
fn the_first_example_is_accepted_where_it_is_driven_as_told() {
    let answer = shophead("length --layers .032,.040,.125 --diameter 1/8 --format json").json(0);
    let window = &answer["result"]["window"];
    let inches = |value: &Value| value["in"].as_f64().expect("a length");
    for high in ["min", "max"].map(|end| inches(&window["height"][end])) {
        let wide = inches(&window["diameter"]["min"]);
        let typed = format!("head --diameter 1/8 --measured-diameter {wide} --measured-height {high} --format json");
        assert_eq!(shophead(&typed).json(0)["result"]["accepted"], true, "{typed}");
    }
    // Wider than the training sheet's greatest is worth a look and rejects nothing.
    let wide = shophead("head --diameter 1/8 --measured-diameter .221 --measured-height .063 --format json").json(0);
    assert_eq!(wide["result"]["accepted"], true);
    assert_eq!(
        (&wide["findings"][0]["code"], &wide["findings"][0]["severity"]),
        (&"head-too-wide".into(), &"caution".into())
    );
}

/// Sweep of grips to four diameters in sheets of .004 either way: the rule of thumb is never cut short, whatever the practice.
#[test]
fn a_length_is_never_shorter_than_the_rule_of_thumb() {
    for practice in ["handbook", "process"] {
        let mut rows = Vec::new();
        for (diameter, thousandths) in [("3/32", 94), ("1/8", 125), ("5/32", 156), ("3/16", 188)] {
            for hundredths in (50..400).step_by(7) {
                rows.push(format!("{diameter},0.{:04}+-.004", thousandths * hundredths / 10));
            }
        }
        let answers = batch("length", practice, "diameter,layers", &rows);
        let number = |text: &String| text.parse::<f64>().ok();
        let lengths = column(&answers, "length_in");
        let mut kept = 0;
        for ((length, rule), row) in lengths.iter().zip(column(&answers, "rule_of_thumb_length_in")).zip(&rows) {
            let length = number(length).unwrap_or_else(|| panic!("{practice}: no length for {row}"));
            let rule = number(&rule).expect("a rule");
            assert!(length >= rule, "{practice} {row}: {length}, rule {rule}");
            kept += u32::from(length == rule);
        }
        assert!(kept * 10 > u32::try_from(rows.len()).expect("few") * 8, "{practice}: the rule is kept {kept} times");
    }
}

/// Every row of the demo takes the rule's length, and its window is that of its size.
#[test]
fn the_demo_takes_the_rule_of_thumb_in_every_row() {
    // Of 3/32, 1/8, 5/32 and 3/16: heights from and to, least width.
    let handbook = [
        (0.028_125, 0.05, 0.121_875),
        (0.0375, 0.07, 0.1625),
        (0.046_875, 0.092, 0.203_125),
        (0.056_25, 0.105, 0.243_75),
    ];
    let process = [(0.038, 0.05, 0.122), (0.05, 0.07, 0.163), (0.062, 0.092, 0.203), (0.075, 0.105, 0.244)];
    for (practice, windows) in [("handbook", handbook), ("process", process)] {
        let plan = shophead(&format!("plan {DEMO}/job.toml --practice {practice} --format json")).json(1);
        let rows = plan["result"]["rows"].as_array().expect("rows");
        let told: Vec<String> = rows
            .iter()
            .map(|row| format!("{} {}", row["name"].as_str().expect("a name"), row["part"].as_str().expect("a part")))
            .collect();
        let of = |rows: &str, part: &str| rows.split(' ').map(|row| format!("{row} {part}")).collect::<Vec<_>>();
        let mut wanted = of("K1 K2", "MS20426AD5-9");
        wanted.extend(of("K3", "MS20470AD6-13"));
        wanted.extend(of("C1 C2 F2 F3 F4 F5 S1 S2", "MS20426AD4-5"));
        wanted.extend(of("A1 A2", "MS20470AD5-6"));
        wanted.extend(of("D1", "MS20470AD4-5"));
        wanted.extend(of("B1", "MS20470AD3-3"));
        assert_eq!(told, wanted, "{practice}");
        for row in rows {
            assert_eq!(row["length"], row["rule_of_thumb_length"], "{} {practice}", row["name"]);
            let dash = row["part"].as_str().and_then(|part| part.split("AD").nth(1)).expect("a size").as_bytes()[0];
            let window = &row["window"];
            let (low, high, wide) = windows[usize::from(dash - b'3')];
            for (value, inches) in
                [(&window["height"]["min"], low), (&window["height"]["max"], high), (&window["diameter"]["min"], wide)]
            {
                let told = value["in"].as_f64().expect("a length");
                assert!((told - inches).abs() < 1e-7, "{} {practice}: {told}, not {inches}", row["name"]);
            }
        }
    }
}

/// Heads of the width that the plan once printed for row A1, at the height to aim at: none is rejected.
#[test]
fn inspect_accepts_the_widths_that_a_sound_length_makes() {
    let driven = "row,hole,diameter,height\nA1,1,.276,.078\nA1,2,.262,.078\nA1,4,.290,.078\n";
    let run = shophead_with(&format!("inspect {DEMO}/job.toml driven.csv --format json"), |command| {
        let file = command.get_current_dir().expect("a folder").join("driven.csv");
        std::fs::write(file, driven).expect("written");
        command
    });
    let answer: Value = serde_json::from_str(&run.stdout).expect("an answer");
    assert_eq!((&answer["result"]["accepted"], &answer["result"]["rejected"]), (&3.into(), &0.into()), "{run}");
}

/// Two .040 sheets and 3/32 rivets: 1/4, as the question bank prints it, in both practices; and the -4 of the two examples in 1/8.
#[test]
fn the_printed_examples_are_answered_as_printed() {
    for practice in ["handbook", "process"] {
        for (layers, diameter, part) in [
            (".040,.040", "3/32", "MS20470AD3-4"),
            (".032,.032", "1/8", "MS20470AD4-4"),
            (".040,.040", "1/8", "MS20470AD4-4"),
        ] {
            let typed = format!("length --layers {layers} --diameter {diameter} --practice {practice}");
            let run = shophead(&typed);
            assert!(run.printed(0).starts_with(&format!("{part} ")), "{run}");
            assert!(!run.stdout.contains("Why not the rule"), "{run}");
        }
    }
    // The specification prints no rule for lengths: whose it is stands beside it.
    let run = shophead("length --layers .032,.032 --diameter 1/8 --practice process");
    assert!(run.stdout.contains("rounded 1/4 [FAA-H-8083-31]"), "{run}");
}

/// A dimpled pack thinner than the head is deep is answered; the tail pays for the whole straight hole.
#[test]
fn dimples_are_in_the_balance_and_said_to_be_worked_out() {
    let dimpled = "length --series MS20426 --diameter 3/32 --layers";
    let thin = shophead(&format!("{dimpled} .016:dimpled,.016:dimpled"));
    assert!(thin.printed(0).starts_with("MS20426AD3-3 "), "{thin}");
    let answer = shophead(&format!("{dimpled} .032:dimpled,.032:dimpled --format json")).json(0);
    let result = &answer["result"];
    assert_eq!(result["part"], "MS20426AD3-3");
    // .094² (.1875 - .036) less .098² times .064 of straight hole, .047 high: 1.32 diameters wide.
    let shank: f64 = 3.0 / 32.0;
    let wide = ((shank * shank * (0.1875 - 0.036) - 0.098 * 0.098 * 0.064) / (shank / 2.0)).sqrt();
    // Driven so high, the one with the least metal would be too narrow: it is left lower, and comes out wider.
    let (height, nominal) = (&result["head"]["height"]["in"], &result["head"]["diameter"]["nominal"]["in"]);
    let (height, nominal) = (height.as_f64().expect("a height"), nominal.as_f64().expect("a width"));
    assert!((nominal * nominal * height - wide * wide * shank / 2.0).abs() < 1e-6, "{nominal} by {height}");
    let half = &result["serves"][0];
    assert_eq!(half["part"], "MS20426AD3-3.5");
    let codes: Vec<&Value> = answer["findings"].as_array().expect("findings").iter().map(|one| &one["code"]).collect();
    assert!(codes.contains(&&Value::from("dimple-computed")), "{codes:?}");
}

/// What the shelf offers for a row is a length that its row lists as good, so that no hole that it is offered for is short of metal.
#[test]
fn the_shelf_offers_only_what_the_plan_lists_as_good() {
    let plan = shophead(&format!("plan {DEMO}/job.toml --format json")).json(1);
    let order = shophead(&format!("order {DEMO}/job.toml --stock {DEMO}/stock.csv --format json")).json(1);
    let alternatives = order["result"]["alternatives"].as_array().expect("alternatives");
    assert!(!alternatives.is_empty());
    for one in alternatives {
        for name in one["rows"].as_array().expect("rows") {
            let rows = plan["result"]["rows"].as_array().expect("rows");
            let row = rows.iter().find(|row| &row["name"] == name).expect("a row of the plan");
            let good = row["serves"].as_array().expect("a list");
            assert!(good.iter().any(|other| other["part"] == one["alternative"]), "{name}: {one}");
        }
        assert!(!one["window"].is_null(), "{one}");
    }
}

/// In a pack of many diameters what is said of every hole at once is what is said of each as measured: a length is refused only for holes that
/// have none.
#[test]
fn a_thick_pack_is_answered_for_every_hole_that_is_measured() {
    let answer = |typed: &str| -> Value { serde_json::from_str(&shophead(typed).stdout).expect("an answer") };
    let refused = |answer: &Value| {
        answer["findings"].as_array().expect("findings").iter().any(|one| one["code"] == "no-length-fits")
    };
    let (mut with, mut without) = (0, 0);
    for practice in ["handbook", "process"] {
        for layers in ["1.1in", "1.1in+-.01", "1.2in+-.01", "1.3in"] {
            let asked = format!("length --layers {layers} --diameter 1/8 --practice {practice} --format json");
            let whole = answer(&asked);
            let ranges = whole["result"]["by_hole"].as_array().expect("a list");
            for ten_thousandths in (1285..=1320).step_by(5) {
                let hole = f64::from(ten_thousandths) / 10_000.0;
                let covers = |range: &&Value| {
                    let end = |end: &str| range["hole"][end]["in"].as_f64().expect("a length");
                    end("min") - 1e-9 <= hole && hole <= end("max") + 1e-9
                };
                let said = match ranges.iter().find(covers) {
                    Some(range) => !range["part"].is_null() || !range["cut"].is_null(),
                    None => !whole["result"]["part"].is_null(),
                };
                let measured = answer(&format!("{asked} --hole {hole}"));
                assert_eq!(refused(&measured), !said, "{asked} --hole {hole}");
                assert!(!said || !refused(&whole), "{asked}");
                *(if said { &mut with } else { &mut without }) += 1;
            }
        }
    }
    assert!(with > 40 && without > 0, "{with} {without}");
}

/// Where no one height is right for every rivet, the holes and shanks for which there is one are named; where there is none at all, that.
#[test]
fn without_a_window_head_names_the_holes_and_shanks_that_have_one() {
    let run = shophead("head --diameter 1/8 --length 1/4 --grip .160 --width 200");
    assert!(run.printed(1).contains("there is one in holes up to .1299, or with a shank from .1255."), "{run}");
    // The same hole and shank, measured: D² (L - .010) - H² G is .1625² times .0375 and more.
    let measured = shophead("head --diameter 1/8 --length 1/4 --grip .160 --hole .1299 --width 200");
    assert!(measured.printed(0).contains("drive to .0375"), "{measured}");
    let never = shophead("head --diameter 1/8 --length 3/16 --grip .160 --width 200");
    assert!(never.printed(1).contains("too little metal for a driven head, in any hole."), "{never}");
}
