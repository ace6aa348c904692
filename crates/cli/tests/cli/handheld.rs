//! The session of a shop instrument, from piped input.

use crate::{shophead, shophead_with};

#[test]
fn a_session_answers_what_is_keyed_in_and_ends_with_its_input() {
    // Past the first pages to the menu, then a part number.
    let keys = ".\n5\nMS20470AD4-5\n.\n";
    let run = shophead_with("handheld --columns 40 --lines 8", |run| run.write_stdin(keys));
    let text = run.printed(0);
    assert!(text.contains("MS20470AD4-5") && text.contains("5/16"), "{run}");
    assert!(text.lines().all(|line| line.chars().count() <= 40), "{run}");
}

/// What every command takes is taken, or refused: never passed over.
#[test]
fn a_session_begins_with_the_units_and_the_practice_asked_for() {
    let keys = "1\nMS20470AD4\n.5\n.6\n\n\n\nP\nQ\n";
    let run =
        |more: &str| shophead_with(&format!("handheld --columns 40 --lines 8{more}"), |run| run.write_stdin(keys));
    let (inches, millimetres) = (run(" --units in"), run(" --units mm"));
    assert!(inches.printed(0).contains("grip 1.100\n"), "{inches}");
    assert!(millimetres.printed(0).contains("grip 1.10mm\n"), "{millimetres}");
    // The next one after that is shown by P.
    assert!(run("").printed(0).contains("practice: process"), "the handbooks come first");
    assert!(run(" --practice process").printed(0).contains("practice: handbook"), "and last");
    for typed in ["handheld --limits -", "handheld --format json", "handheld -o talk.txt"] {
        assert!(!shophead(typed).refused().is_empty(), "{typed}");
    }
}

#[test]
fn a_terminal_that_is_no_small_one_is_refused() {
    for (typed, told) in [("handheld --columns 10", "16 to 40 columns"), ("handheld --lines 9", "2 to 8 lines")] {
        assert!(shophead(typed).refused().contains(told), "{typed}");
    }
}

/// A limits file counts in the session as in every other command: its limits, its materials, and it stays in the list of practices.
#[test]
fn a_session_takes_a_shop_s_limits_and_materials() {
    let folder = tempfile::tempdir().expect("a folder");
    let own = folder.path().join("own.toml");
    let file = "title = \"Boat shed\"\ndocument = \"mill certificate\"\nlimit.edge-distance-least = \".777\"\n\
                [material.2219-T87]\ntension_ultimate = \"63 ksi\"\nbearing_ultimate_20 = \"100 ksi\"\n";
    std::fs::write(&own, file).expect("the limits");
    let talk = |more: &str, keys: &str| {
        let typed = format!("handheld --columns 40 --lines 8{more}");
        shophead_with(&typed, |run| run.write_stdin(keys)).printed(0).to_owned()
    };
    let limits = format!(" --limits {}", own.display());
    let strength = "6\nMS20470AD5\n.063\n2219-T87\n.063\n\n\n.5\n\n1\n.\nQ\n";
    let (known, unknown) = (talk(&limits, strength), talk("", strength));
    assert!(unknown.contains("a shop enters") && unknown.contains("material.NAME"), "{unknown}");
    assert!(!known.contains("material.NAME") && known.contains("carries"), "{known}");
    let edge = "4\nMS20470AD4\n.5\n\n\n\n.\nP\nP\nP\nQ\n";
    let (shop, built_in) = (talk(&limits, edge), talk("", edge));
    assert!(shop.contains(".777") && !built_in.contains(".777"), "{shop}");
    // Handbook, process, and the shop's own again.
    assert!(shop.contains("practice: process") && shop.matches(".777").count() >= 2, "{shop}");
    let missing = shophead(&format!("handheld --limits {}", folder.path().join("none.toml").display()));
    assert!(
        missing.status == Some(3) && missing.stdout.is_empty() && missing.stderr.contains("none.toml"),
        "{missing}"
    );
}
