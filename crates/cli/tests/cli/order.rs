//! `shophead order` on the demo job: the shelf, what else on it would do, the tools.

use serde_json::Value;

use crate::{shophead, shophead_with};

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../job/demo/keel-skin");

fn ordered(more: &str) -> Value {
    shophead(&format!("order {DEMO}/job.toml --stock {DEMO}/stock.csv --format json {more}")).json(1)["result"].clone()
}

fn line<'v>(result: &'v Value, part: &str) -> &'v Value {
    let lines = result["lines"].as_array().expect("lines");
    lines.iter().find(|line| line["part"] == part).unwrap_or_else(|| panic!("no {part}"))
}

#[test]
fn what_is_bought_comes_in_packs_and_stepped_holes_get_their_oversize_rivets() {
    let result = ordered("");
    let of = |part: &str| ["needed", "spares", "stock", "buy"].map(|key| line(&result, part)[key].as_u64().expect(key));
    assert_eq!(of("MS20426AD5-9"), [93, 10, 0, 103]);
    assert_eq!(of("MS20426AD4-5"), [280, 28, 60, 300], "248 are missing, a pack holds 100");
    assert_eq!(of("MS20470AD5-6"), [56, 6, 0, 100], "62 are missing, a pack holds 50");
    assert_eq!(of("NAS1242AD5-6")[0], 2, "two holes of row A1 take an oversize shank");
}

#[test]
fn another_length_on_the_shelf_is_named_where_it_is_within_limits() {
    let result = ordered("");
    let alternatives = result["alternatives"].as_array().expect("alternatives");
    let named: Vec<(&str, &str, u64, u64)> = alternatives
        .iter()
        .map(|one| {
            let text = |key: &str| one[key].as_str().expect("text");
            let number = |key: &str| one[key].as_u64().expect("a number");
            (text("part"), text("alternative"), number("free"), number("holes"))
        })
        .collect();
    // The long -6 is on the shelf too, but its tail would fold in these packs.
    assert_eq!(named, [("MS20426AD4-5", "MS20426AD4-4.5", 80, 280), ("MS20426AD5-9", "MS20426AD5-8", 140, 93)]);
    assert_eq!(alternatives[1]["rows"], serde_json::json!(["K1", "K2"]));
    let without = shophead(&format!("order {DEMO}/job.toml --format json")).json(1);
    assert_eq!(without["result"]["alternatives"], serde_json::json!([]), "no shelf, no alternatives");
    let text = shophead(&format!("order {DEMO}/job.toml --stock {DEMO}/stock.csv"));
    assert!(
        text.printed(1)
            .contains("MS20426AD5-8 for MS20426AD5-9: 140 free\n  for 93 holes: K1, K2\n  drive to .047 to "),
        "{text}"
    );
}

#[test]
fn every_tool_is_listed_once() {
    let result = ordered("");
    let tools = result["tools"].as_array().expect("tools");
    let kinds: Vec<&str> = tools.iter().map(|tool| tool["kind"].as_str().expect("a kind")).collect();
    let mut seen: Vec<&str> = Vec::new();
    for kind in &kinds {
        if seen.last() != Some(kind) {
            assert!(!seen.contains(kind), "{kind} stands in two places");
            seen.push(kind);
        }
    }
    assert_eq!(seen, ["head-drill", "punch", "hole-drill-or-reamer", "hole-gauge"]);
    let of = |kind: &str, key: &str, value: &str| {
        tools.iter().find(|tool| tool["kind"] == kind && tool[key] == value).unwrap_or_else(|| panic!("{kind} {value}"))
    };
    assert_eq!(of("head-drill", "drill", "#31")["holes"], 296);
    assert_eq!(of("hole-drill-or-reamer", "drill", "#27")["rows"], serde_json::json!(["D1"]));
    let gauge = of("hole-gauge", "rivet", "MS20426AD4");
    assert_eq!(
        (&gauge["min"]["in"], &gauge["max"]["in"]),
        (&0.128.into(), &0.133.into()),
        "the largest shank; the shop's own limit"
    );
    let text = shophead(&format!("order {DEMO}/job.toml"));
    assert!(text.printed(1).contains("\nTools\n"), "{text}");
    assert!(text.stdout.contains("drill or reamer #27 (.144) to open up: 1 hole\n  D1\n"), "{text}");
}

#[test]
fn a_row_of_csv_is_a_part_and_the_last_ones_say_what_is_not_ordered() {
    let run = shophead(&format!("order {DEMO}/job.toml --stock {DEMO}/stock.csv --format csv --date 2026-11-25"));
    assert_eq!(run.status, Some(1), "{run}");
    assert!(run.stdout.starts_with("part,needed,spares,stock,buy,mass_lb,pack,packs,description,"), "{run}");
    let mut reader = csv::Reader::from_reader(run.stdout.as_bytes());
    let header = reader.headers().expect("a header").clone();
    let cell = |record: &csv::StringRecord, name: &str| {
        let at = header.iter().position(|column| column == name).unwrap_or_else(|| panic!("no column {name}"));
        record[at].to_owned()
    };
    let records: Vec<csv::StringRecord> = reader.records().map(|record| record.expect("a record")).collect();
    let (parts, left): (Vec<_>, Vec<_>) = records.iter().partition(|record| !cell(record, "part").is_empty());
    let result = ordered("");
    assert_eq!(parts.len(), result["lines"].as_array().expect("lines").len());
    let bought = parts.iter().find(|record| cell(record, "part") == "MS20426AD4-5").expect("a part");
    for (column, wanted) in [
        ("packs", "3"),
        ("description", "solid rivet, 100 degree flush head, 2117-T4, 1/8 in diameter, 5/16 in long, head included"),
        ("also_called", "NASM20426AD4-5"),
        ("alloy", "2117-T4"),
        ("date", "2026-11-25"),
        ("job", "Keel skin panel, frames 2 to 6"),
        (
            "holes",
            "C1 1-11, 14-60; C2 1-7, 9-60; F2 1-2, 4-22; F3 1-9, 11-22; F4 1-20, 22; F5 1-21; S1 1-16, 18-40; S2 1-40",
        ),
    ] {
        assert_eq!(cell(bought, column), wanted, "{column}");
    }
    let not_ordered: u32 =
        left.iter().map(|record| cell(record, "not_ordered").parse::<u32>().expect("a number")).sum();
    assert_eq!(not_ordered, 10);
    let cracked = left.iter().find(|record| cell(record, "holes") == "K1 31").expect("the cracked hole");
    assert!(cell(cracked, "why").contains("The hole is cracked"), "{run}");
    // Whoever reads only the table is told all the same.
    assert!(run.stderr.contains("note: not in the order: row K1 hole 31, 1 hole: The hole is cracked"), "{run}");
    let measured = run.stderr.lines().next().expect("a line");
    assert!(
        measured.starts_with("note: 465 of 488 holes not measured yet: they may take other rivets. Measure: "),
        "{run}"
    );
    assert_eq!(run.stderr.lines().count(), 1 + left.len(), "{run}");
    let codes: Vec<&str> =
        result["not_ordered"].as_array().expect("a list").iter().filter_map(|left| left["codes"][0].as_str()).collect();
    assert!(codes.contains(&"hole-cracked"), "{codes:?}");
}

/// A job of two rows; the edge distance of the second refers it as a whole.
const TWO_ROWS: &str = "title = \"P\"\nspares = 0\n[[row]]\nname = \"K1\"\nstructure = \"secondary\"\nmember = \"frame\"\n\
    installed = \"MS20470AD4-5\"\nlayers = [{ role = \"skin\", thickness = \".04\" }, { role = \"tab\", thickness = \".04\" }]\n\
    count = 4\nedge = \"3/8\"\npitch = \"3/4\"\n[[row]]\nname = \"K2\"\nstructure = \"secondary\"\nmember = \"frame\"\n\
    installed = \"MS20470AD4-5\"\nlayers = [{ role = \"skin\", thickness = \".04\" }, { role = \"tab\", thickness = \".04\" }]\n\
    count = 6\nedge = \"EDGE\"\npitch = \"3/4\"\n";

fn folder_with(files: &[(&str, &str)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in files {
        std::fs::write(folder.path().join(name), text).expect("written");
    }
    folder
}

#[test]
fn a_row_that_is_referred_is_not_ordered() {
    let needed = |edge: &str| {
        let folder = folder_with(&[("job.toml", &TWO_ROWS.replace("EDGE", edge))]);
        let run = shophead(&format!("order {}/job.toml --format json", folder.path().display()));
        let json: Value = serde_json::from_str(&run.stdout).expect("JSON");
        let result = &json["result"];
        (run.status, result["lines"][0]["needed"].clone(), result["not_ordered"].clone())
    };
    assert_eq!(needed("3/8"), (Some(0), 10.into(), serde_json::json!([])));
    let (status, count, left) = needed("1/8");
    assert_eq!((status, &count), (Some(1), &4.into()));
    assert_eq!(
        (&left[0]["row"], &left[0]["whole_row"], &left[0]["holes"]),
        (&"K2".into(), &true.into(), &serde_json::json!([1, 2, 3, 4, 5, 6]))
    );
    assert!(left[0]["codes"].as_array().expect("codes").contains(&"edge-distance-short".into()), "{left}");
}

#[test]
fn a_row_whose_holes_are_too_large_is_referred_and_not_ordered() {
    let job = TWO_ROWS.replace("EDGE", "3/8").replacen("count = 6", "count = 6\nhole-size = \".170\"", 1);
    let folder =
        folder_with(&[("job.toml", &job.replace("secondary", "primary").replace("\"frame\"", "\"spar-cap\""))]);
    let run = shophead(&format!("order {}/job.toml --format json", folder.path().display()));
    let json: Value = serde_json::from_str(&run.stdout).expect("JSON");
    assert_eq!(run.status, Some(1), "{run}");
    let left = json["result"]["not_ordered"].as_array().expect("a list");
    assert!(left.iter().any(|left| left["row"] == "K2" && left["whole_row"] == true), "{left:#?}");
    let goes_to_it = |line: &Value| line["goes_into"].as_array().expect("rows").iter().any(|row| row["row"] == "K2");
    assert!(!json["result"]["lines"].as_array().expect("lines").iter().any(goes_to_it), "{run}");
}

#[test]
fn a_workbook_has_every_sheet_and_texts_stay_texts() {
    use calamine::{Data, Reader, open_workbook_from_rs};
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("order.xlsx");
    let typed = format!("order {DEMO}/job.toml --stock {DEMO}/stock.csv --date 2026-11-25 --format xlsx");
    let run = shophead(&format!("{typed} --output {}", path.display()));
    assert_eq!((run.status, run.stdout.as_str()), (Some(1), ""), "{run}");
    let bytes = std::fs::read(&path).expect("a workbook");
    // The same order makes the same file.
    let again = folder.path().join("again.xlsx");
    assert_eq!(shophead(&format!("{typed} --output {}", again.display())).status, Some(1));
    assert_eq!(std::fs::read(again).expect("a workbook"), bytes);
    let mut book: calamine::Xlsx<_> = open_workbook_from_rs(std::io::Cursor::new(&bytes)).expect("a workbook");
    assert_eq!(book.sheet_names(), ["Order", "Not ordered", "Alternatives", "Tools", "About"]);
    let mut sheet = |name: &str| -> Vec<Vec<Data>> {
        book.worksheet_range(name).expect(name).rows().map(<[Data]>::to_vec).collect()
    };
    let order = sheet("Order");
    let column = |rows: &[Vec<Data>], name: &str| {
        rows[0]
            .iter()
            .position(|cell| cell == &Data::String(name.to_owned()))
            .unwrap_or_else(|| panic!("no column {name}"))
    };
    let result = ordered("");
    assert_eq!(order.len() - 1, result["lines"].as_array().expect("lines").len());
    let part = column(&order, "part");
    let line = order.iter().find(|row| row[part] == Data::String("MS20426AD4-5".into())).expect("a part");
    for (name, wanted) in
        [("diameter", "1/8"), ("length", "5/16"), ("date", "2026-11-25"), ("also called", "NASM20426AD4-5")]
    {
        assert_eq!(line[column(&order, name)], Data::String(wanted.into()), "a text, no date");
    }
    for (name, wanted) in [("needed", 280.0), ("spares", 28.0), ("on hand", 60.0), ("buy", 300.0), ("packs", 3.0)] {
        assert_eq!(line[column(&order, name)], Data::Float(wanted), "{name}");
    }
    assert_eq!(sheet("Not ordered").len() - 1, result["not_ordered"].as_array().expect("a list").len());
    let others = sheet("Alternatives");
    assert_eq!(others.len() - 1, result["alternatives"].as_array().expect("a list").len());
    assert!(
        matches!(&others[1][column(&others, "drive to")], Data::String(window) if window.contains(" high, at least "))
    );
    assert!(matches!(&others[1][column(&others, "head it makes")], Data::String(head) if head.contains(" wide at ")));
    assert_eq!(sheet("Tools").len() - 1, result["tools"].as_array().expect("a list").len());
    assert!(
        sheet("About").iter().any(|row| matches!(&row[1], Data::String(said) if said.starts_with("Advisory only")))
    );
    let run = shophead("length --layers .032,.125 --diameter 1/8 --format xlsx");
    assert_eq!(run.refused(), "error: --format xlsx: there is no workbook of this; order has one\n");
}

#[test]
fn an_alternative_tells_its_head_and_the_holes_that_it_does_not_do_for() {
    let result = ordered("");
    for other in result["alternatives"].as_array().expect("alternatives") {
        let (min, max) = (&other["head"]["diameter"]["min"]["in"], &other["head"]["diameter"]["max"]["in"]);
        assert!(min.as_f64() > Some(0.12) && min.as_f64() <= max.as_f64(), "{other}");
        // Every hole of the part is either one that it does for, or told.
        let part = line(&result, other["part"].as_str().expect("a part"));
        let not_for: usize = other["not_for"]
            .as_array()
            .expect("a list")
            .iter()
            .map(|row| row["holes"].as_array().expect("holes").len())
            .sum();
        assert_eq!(
            other["holes"].as_u64().expect("a number") as usize + not_for,
            part["needed"].as_u64().expect("a number") as usize,
            "{other}"
        );
    }
}

#[test]
fn a_whole_shelf_is_ordered_against_as_it_comes() {
    let shelf = "Part Number,Qty On Hand\nMS20470AD4-4,3\nAN3-5A,40\nMS20470AD4-4,2\nMS20470AD4-5,-1\nMS20470AD4-6,\n";
    let folder = folder_with(&[("job.toml", &TWO_ROWS.replace("EDGE", "3/8")), ("shelf.csv", shelf)]);
    let path = folder.path().display();
    let order = format!("order {path}/job.toml --stock {path}/shelf.csv");
    let run = shophead(&order);
    assert!(
        run.refused().contains("the columns here are Part Number, Qty On Hand; name the one that is meant: part=NAME"),
        "{run}"
    );
    let order = format!("{order} --columns part=Part_Number,on_hand=Qty_On_Hand");
    let json = shophead(&format!("{order} --format json")).json(0);
    let shelf = &json["result"]["shelf"];
    assert_eq!((&shelf["parts"], &shelf["foreign"]), (&3.into(), &1.into()));
    assert_eq!(json["result"]["lines"][0]["stock"], 5, "both lots");
    let run = shophead(&format!("{order} --format csv"));
    assert_eq!(
        run.stderr,
        "note: 10 of 10 holes not measured yet: they may take other rivets.\n\
         note: 1 line of the stock list is about another part and left out.\n\
         note: stock list, line 5: MS20470AD4-5: -1 on hand is below zero: counted as none\n\
         note: stock list, line 6: MS20470AD4-6: on hand is empty: counted as none\n",
        "{run}"
    );
    let run = shophead(&order.replace("on_hand=", "onhand="));
    assert!(
        run.refused()
            .contains("--columns \"onhand\": a stock list has no such column; right would be part, on_hand or pack"),
        "{run}"
    );
}

#[test]
fn bag_labels_are_written_beside_the_order() {
    let folder = folder_with(&[("job.toml", &TWO_ROWS.replace("EDGE", "3/8"))]);
    let path = folder.path().display();
    let run = shophead(&format!("order {path}/job.toml --labels {path}/labels.html"));
    run.printed(0);
    let html = std::fs::read_to_string(folder.path().join("labels.html")).expect("labels");
    let page = scraper::Html::parse_document(&html);
    let label = scraper::Selector::parse(".label").expect("a selector");
    assert_eq!(page.select(&label).count(), 2, "one part, two rows");
    let run = shophead(&format!("order {path}/job.toml --labels {path}/job.toml"));
    assert!(run.refused().contains("is a file that is read here"), "{run}");
}

#[test]
fn the_date_is_that_of_the_day_unless_it_is_said() {
    let folder = folder_with(&[("job.toml", &TWO_ROWS.replace("EDGE", "3/8"))]);
    let order = format!("order {}/job.toml --format json", folder.path().display());
    let run = shophead_with(&order, |command| command.env("SOURCE_DATE_EPOCH", "1795564800"));
    assert_eq!(run.json(0)["result"]["date"], "2026-11-25");
    assert_eq!(shophead(&format!("{order} --date 2026-02-28")).json(0)["result"]["date"], "2026-02-28");
    let run = shophead(&format!("{order} --date 2026-02-30"));
    assert_eq!(run.refused(), "error: --date \"2026-02-30\": this is no date; right would be 2026-11-25\n");
    let today = shophead(&order).json(0)["result"]["date"].as_str().expect("a date").to_owned();
    assert!(today.len() == 10 && today.parse::<jiff::civil::Date>().is_ok(), "{today}");
}
