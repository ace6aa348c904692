//! Rivet dimensions. Nearly every row is recalled: the test is that the product carries the row as it stands and says so.

use shophead::basis::Status;
use shophead::drill::parse_hole;
use shophead::length::{Interval, Length};
use shophead::rivet::part::Part;
use shophead::rivet::{CATALOGUE, Head, HeadSize, MS20426, MS20470, Series};
use shophead_tests::{Comparison, Row, fixture};

fn series(name: &str) -> &'static Series<'static> {
    CATALOGUE.iter().find(|series| series.name == name).unwrap_or_else(|| panic!("no series {name}"))
}

fn length(row: &Row, column: &str) -> Option<Length> {
    let text = row.text(column);
    (!text.is_empty()).then(|| Length::parse(text).unwrap_or_else(|error| panic!("{}: {error}", row.place())))
}

fn interval(row: &Row, min: &str, max: &str) -> Option<Interval> {
    Some(Interval::new(length(row, min)?, length(row, max)?).expect("in order"))
}

#[test]
fn every_tabulated_dimension_is_carried_and_marked_as_recalled() {
    let mut table = Comparison::with_misfits(&[]);
    for row in fixture("rivet-dimensions") {
        let name = row.text("standard").split(" / ").next().unwrap_or_default();
        let tabulated = !row.text("shank_min_in").is_empty() && !row.is_read();
        if !tabulated {
            continue;
        }
        let series = series(name);
        let dash = row.text("dash_dia").parse().expect("a dash number");
        let size = series.size(dash).unwrap_or_else(|| panic!("{}: no size", row.place()));
        let cell = |column: &str| format!("{name} {dash} {column}");
        table.equal(&cell("nominal"), length(&row, "nominal_dia"), Some(size.shank_nominal));
        table.equal(&cell("standard"), length(&row, "nominal_dia"), Some(size.standard_diameter()));
        table.equal(&cell("shank"), interval(&row, "shank_min_in", "shank_max_in"), size.shank);
        let head = HeadSize::new(
            length(&row, "head_dia_nom_in").expect("a head diameter"),
            length(&row, "head_height_nom_in").expect("a head height"),
            size.basis,
        )
        .diameter(interval(&row, "head_dia_min_in", "head_dia_max_in"))
        .height(interval(&row, "head_height_min_in", "head_height_max_in"));
        table.equal(&cell("head"), Some(head), size.head);
        let angle = row.text("csk_angle_deg").parse().ok();
        table.equal(&cell("angle"), angle, series.head.cone_degrees());
        let tolerance = row.text("length_tolerance_in").strip_prefix("+-").map(|text| Length::parse(text).unwrap());
        table.equal(
            &cell("length tolerance"),
            tolerance,
            series.length_tolerance.map(|tolerance| tolerance.either_way),
        );
        let overall = row.text("length_measured") == "overall, head included";
        table.equal(&cell("measured"), overall, series.head.is_flush());
        table.equal(&cell("step"), row.text("length_step") == "1/16; 1/32 as half size", series.half_lengths.is_some());
        table.equal(&cell("status"), Status::Memory, size.basis.status());
    }
    // 8 + 8 + 5 sizes of 9 cells.
    table.finish(189);
}

#[test]
fn no_size_of_the_three_tabulated_series_is_without_a_row() {
    let rows = fixture("rivet-dimensions");
    for name in ["MS20470", "MS20426", "NAS1097"] {
        for size in series(name).sizes {
            let found = rows.iter().any(|row| {
                row.text("standard").starts_with(name)
                    && row.text("dash_dia") == size.dash.to_string()
                    && !row.text("shank_min_in").is_empty()
            });
            assert!(found, "{name} {}", size.dash);
        }
    }
}

#[test]
fn the_countersink_limits_that_were_read_lie_about_the_recalled_flush_heads() {
    let mut table = Comparison::with_misfits(&[]);
    for row in fixture("rivet-dimensions").iter().filter(|row| row.is_read()) {
        if !row.text("standard").starts_with("100 deg countersink") {
            continue;
        }
        let dash = row.text("dash_dia").parse().expect("a dash number");
        let limits = interval(row, "head_dia_min_in", "head_dia_max_in").expect("limits");
        let shank = MS20426.size(dash).map(|size| size.standard_diameter());
        table.equal(&format!("shank {dash}"), length(row, "nominal_dia"), shank);
        let head = MS20426.size(dash).and_then(|size| size.head_diameter_nominal());
        // The middle of the limits, exactly.
        let middle = Length::from_nanometres((limits.min().nanometres() + limits.max().nanometres()) / 2);
        table.equal(&format!("countersink {dash}"), middle, head);
    }
    table.finish(6);
}

/// Also of a series of which little is known: its sizes by their dash numbers, and the angle of its head.
#[test]
fn every_row_of_a_series_agrees_with_it_as_far_as_it_says_anything() {
    let mut table = Comparison::with_misfits(&[]);
    for row in fixture("rivet-dimensions") {
        let angle: Option<u16> = row.text("csk_angle_deg").parse().ok();
        let name = row.text("standard").split(" / ").next().unwrap_or_default();
        let Some(series) = CATALOGUE.iter().find(|series| series.name == name) else {
            // Rows about no series of ours: countersinks, and the old numbers of one.
            table.equal(
                &format!("{} angle", row.place()),
                true,
                angle.is_none_or(|angle| Some(angle) == MS20426.head.cone_degrees()),
            );
            continue;
        };
        if let Some(angle) = angle {
            table.equal(&format!("{} angle", row.place()), Some(angle), series.head.cone_degrees());
        }
        // How long each step of the dash number is; 1/32 where halves are allowed as well is told in words.
        if let Ok(step) = Length::parse(row.text("length_step").split(';').next().unwrap_or_default()) {
            let material = series.materials.first().expect("a material").code;
            let size = series.sizes.first().expect("a size").dash;
            let part = Part::parse(&format!("{name}{material}{size}-5")).ok().and_then(|part| part.length());
            table.equal(&format!("{} step", row.place()), step.checked_mul(5), part);
        }
        if let (Ok(dash), Some(nominal)) = (row.text("dash_dia").parse(), length(&row, "nominal_dia")) {
            let size = series.size(dash).map(|size| size.standard_diameter());
            table.equal(&format!("{} size", row.place()), Some(nominal), size);
        }
    }
    table.finish(40);
}

#[test]
fn the_shortest_tabulated_length_is_that_of_the_old_table() {
    let rows = fixture("rivet-dimensions");
    let row = rows.iter().find(|row| row.text("standard").starts_with("AN470")).expect("the AN470 row");
    assert!(row.is_read());
    let shortest = row.number("length_min_16ths").map(|count| Length::from_64ths(count as i16 * 4));
    let dashes: Vec<u8> = row.text("dash_dia").split(", ").map(|dash| dash.parse().unwrap()).collect();
    for size in MS20470.sizes {
        let expected = shortest.filter(|_| dashes.contains(&size.dash));
        assert_eq!(size.shortest_tabulated, expected, "{}", size.dash);
    }
}

#[test]
fn series_without_known_dimensions_carry_none() {
    for name in ["NAS9313", "MS20427", "MS20615", "MS20613", "NAS1198"] {
        for size in series(name).sizes {
            assert_eq!((size.shank, size.head), (None, None), "{name} {}", size.dash);
        }
    }
    for name in ["MS20427", "MS20615", "MS20613", "NAS1198", "NAS1241", "NAS1242"] {
        assert_eq!(series(name).basis.status(), Status::Memory, "{name}");
    }
}

#[test]
fn oversize_shanks_are_carried_as_computed_and_marked_as_recalled() {
    let mut table = Comparison::with_misfits(&[]);
    for row in fixture("oversize-rivets") {
        let name = row.text("standard");
        if row.text("dash_dia").is_empty() {
            continue;
        }
        let printed = length(&row, "hole_drill_in");
        let drill = parse_hole(row.text("hole_drill")).ok();
        table.equal(&format!("{} drill", row.place()), printed, drill);
        if !name.starts_with("NAS124") {
            let size = row.text("dash_dia").parse().ok().and_then(|dash| series(name).size(dash));
            table.equal(
                &format!("{} size", row.place()),
                length(&row, "standard_dia"),
                size.map(|size| size.standard_diameter()),
            );
            continue;
        }
        assert!(!row.is_read(), "{}: read by now: change the basis and this test", row.place());
        let series = series(name);
        let dash = row.text("dash_dia").parse().expect("a dash number");
        let size = series.size(dash).unwrap_or_else(|| panic!("{}: no size", row.place()));
        let cell = |column: &str| format!("{name} {dash} {column}");
        table.equal(&cell("standard"), length(&row, "standard_dia"), Some(size.standard_diameter()));
        table.equal(&cell("step"), Length::parse(row.text("oversize_step")).ok(), Some(series.oversize));
        table.equal(&cell("shank"), length(&row, "shank_nominal_in"), Some(size.shank_nominal));
        let by_trade_decimal = length(&row, "shank_trade_decimal").and_then(|shank| series.size_for_diameter(shank));
        table.equal(&cell("trade decimal"), Some(dash), by_trade_decimal.map(|size| size.dash));
        table.equal(&cell("head"), row.text("head_dia_in").is_empty(), size.head.is_none());
        table.equal(&cell("status"), Status::Memory, size.basis.status());
        // The tolerance of the standard shank, +.003 -.001.
        let limits = size.shank.expect("limits");
        table.equal(
            &cell("below"),
            limits.min().checked_add(Length::from_ten_thousandths(10)),
            Some(size.shank_nominal),
        );
        table.equal(
            &cell("above"),
            limits.max().checked_sub(Length::from_ten_thousandths(30)),
            Some(size.shank_nominal),
        );
        // The row's drill is the smallest that clears the largest shank.
        let drill = length(&row, "hole_drill_in").expect("a drill");
        table.equal(&cell("enters"), true, limits.max() < drill);
        let flush = row.text("head_type") == "100 deg flush";
        table.equal(&cell("flush"), flush, series.head.is_flush());
    }
    table.finish(100);
}

#[test]
fn standard_series_step_up_to_the_oversize_series_with_their_head() {
    for (name, oversize) in [("MS20470", "NAS1242"), ("MS20426", "NAS1241"), ("NAS1097", "NAS1241")] {
        let over = series(name).oversize_series.expect("one");
        assert_eq!(over.name, oversize);
        // And back, to the sizes of the one with the same head.
        let standard = CATALOGUE.iter().find(|other| other.head == over.head && other.oversize_series == Some(over));
        assert_eq!(Some(over.standard_sizes), standard.map(|standard| standard.sizes));
    }
    assert_eq!(series("NAS1242").head, Head::Universal);
    assert!(CATALOGUE.iter().filter(|series| series.oversize > Length::ZERO).all(|s| s.oversize_series.is_none()));
}

/// 3.4.2 of MIL-R-47196A(MI): the next diameter listed in the part standard.
#[test]
fn the_next_size_is_the_next_that_the_standard_lists() {
    for series in CATALOGUE {
        for pair in series.sizes.windows(2) {
            let [size, next] = pair else { unreachable!() };
            assert_eq!(series.next_size(size), Some(next));
        }
        assert_eq!(series.sizes.last().and_then(|size| series.next_size(size)), None);
    }
}
