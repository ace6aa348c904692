//! Text for people.

use crate::{EXAMPLES, shophead};

#[test]
fn no_line_is_longer_than_asked_for() {
    for (typed, status) in EXAMPLES {
        for columns in [80, 40, 30] {
            // A splice has another width.
            let option = if typed.starts_with("splice") { "--columns" } else { "--width" };
            let run = shophead(&format!("{typed} {option} {columns}"));
            for line in run.printed(*status).lines() {
                assert!(line.chars().count() <= columns, "{columns} columns: {line:?}\n{run}");
                assert_eq!(line, line.trim_end(), "blanks at the end\n{run}");
            }
        }
    }
}

#[test]
fn without_a_terminal_the_text_is_80_columns() {
    let run = shophead("sources");
    let longest = run.printed(0).lines().map(|line| line.chars().count()).max();
    assert!((70..=80).contains(&longest.unwrap()), "{longest:?}");
}

#[test]
fn the_answer_comes_first_and_the_advice_once_at_the_end() {
    for (typed, first) in [
        (EXAMPLES[0].0, "MS20470AD4-6   3/8 long"),
        (EXAMPLES[1].0, "MS20470AD4   head accepted"),
        (EXAMPLES[2].0, "Open the hole for an oversize shank   NAS1242AD4   drill #27 (.144)"),
        (EXAMPLES[3].0, "MS20470AD4   carries 374 lbf a rivet, margin +0.08"),
        (EXAMPLES[4].0, "MS20470AD4   62 rivets on each side of the splice, over 10.000; develops 60.1 %"),
        (EXAMPLES[5].0, "MS20470D6-10   3/16 diameter, 5/8 long"),
    ] {
        let run = shophead(typed);
        assert_eq!(run.stdout.lines().next(), Some(first), "{run}");
        let advice = "Practice: handbook. Advisory only: the manuals of the type, approved data, local\n\
                      rules and a licensed person decide.\n";
        assert!(run.stdout.ends_with(advice), "{run}");
        assert_eq!(run.stdout.matches("Advisory").count(), 1, "{run}");
    }
}

#[test]
fn millimetres_are_written_as_such() {
    let run = shophead("length --layers 0.8mm,3.2mm --diameter 1/8 --units mm");
    let text = run.printed(0);
    assert!(text.contains("grip                 4.00 mm, no tolerance given"), "{run}");
    let words: Vec<&str> = text.split_whitespace().collect();
    let inches =
        words.windows(2).find(|pair| pair[1].trim_end_matches(['.', ',']) == "in" && pair[0].parse::<f64>().is_ok());
    assert_eq!(inches, None, "{run}");
    let run = shophead("joint --rivet MS20470AD4 --sheets 2024-T3:.032in,2024-T3:.125in --units mm");
    assert!(run.printed(0).starts_with("MS20470AD4   carries 1663 N a rivet\n"), "{run}");
}

#[test]
fn what_rests_on_memory_says_so() {
    let run = shophead(EXAMPLES[3].0);
    assert!(run.stdout.contains("diameter counted  .1285\n"), "the drill was read\n{run}");
    let run = shophead("joint --rivet MS20470E4 --sheets 2024-T3:.064,2024-T3:.064");
    assert!(run.stdout.contains("rivet shear") && run.stdout.contains("(memory)"), "{run}");
    let run = shophead("head --diameter 1/8");
    assert!(!run.stdout.contains("(memory)"), "every limit of a driven head was read: {run}");
    let run = shophead("part MS20426AD4-4");
    assert!(run.stdout.contains("\nshank              .124 to .128 (memory)\n"), "{run}");
}

#[test]
fn each_step_of_the_ladder_that_does_not_do_says_why() {
    let run = shophead(EXAMPLES[2].0);
    let steps = "\
keep: no  MS20470AD4
  Hole .141 is too large for this rivet, greatest .135.";
    assert!(run.printed(0).contains(steps), "{run}");
    assert!(run.stdout.contains("\noversize: yes  NAS1242AD4  drill #27\n"), "{run}");
}

#[test]
fn without_layers_a_hole_is_judged_by_its_size_and_the_text_says_so() {
    let run = shophead("hole --rivet MS20470AD4 --major .130");
    assert!(run.printed(0).starts_with("Keep the hole as it is   MS20470AD4\n"), "{run}");
    assert!(run.stdout.contains("CAUTION  Not checked: layers, edge distance, pitch not given."), "{run}");
    let run = shophead("hole --rivet MS20470AD4 --major .141 --edge .2");
    assert!(run.printed(1).starts_with("Stop and refer\n"), "{run}");
    let run = shophead("hole --rivet MS20470AD4 --major .130 --damage cracked");
    assert!(run.printed(1).contains("REFER    The hole is cracked. Stop"), "{run}");
}

#[test]
fn a_load_that_is_too_much_refers() {
    let sheets = "joint --rivet MS20470AD4 --sheets 2024-T3:.064,2024-T3:.125";
    // 388 lbf: 388 / (200 × 1.5 × 1.15) - 1 = +0.125; as an ultimate load 388 / (200 × 1.15) - 1 = +0.687.
    for (more, status, margin) in [
        ("--load 200", 0, "+0.12 under 200 lbf limit load, 345 lbf with its factors"),
        ("--load 200lbf --limit-load", 0, "+0.12 under"),
        ("--load 200 --ultimate-load", 0, "+0.69 under 200 lbf ultimate load, 230 lbf"),
        ("--load 200 --fitting-factor 1", 0, "+0.29 under"),
        ("--load 200 --safety-factor 2 --fitting-factor 1", 1, "-0.03 under"),
        ("--load 1100N", 1, "-0.09 under 247 lbf limit load"),
    ] {
        let run = shophead(&format!("{sheets} {more}"));
        assert!(run.printed(status).contains(&format!("margin            {margin}")), "{margin}\n{run}");
    }
}

#[test]
fn a_part_number_is_read_aloud() {
    let run = shophead("part MS20426AD4-4 an470d6-10");
    let text = run.printed(0);
    assert!(text.starts_with("MS20426AD4-4   1/8 diameter, 1/4 long, head included\n"), "{run}");
    assert!(text.contains("\n\nMS20470D6-10   3/16 diameter, 5/8 long\n"), "{run}");
    assert!(text.contains("Mind: AN470 is superseded by MS20470."), "{run}");
    assert!(text.contains("CAUTION  MS20470D6-10: Heat treat this rivet"), "{run}");
}

#[test]
fn help_is_short_with_one_dash_and_long_with_two() {
    let (short, long) = (shophead("-h"), shophead("--help"));
    assert!(short.printed(0).len() < long.printed(0).len());
    assert!(long.stdout.contains("Exit status:\n  0  done"), "{long}");
    for (command, _) in EXAMPLES.iter().map(|(typed, _)| typed.split_once(' ').unwrap_or((typed, ""))) {
        let (short, long) = (shophead(&format!("{command} -h")), shophead(&format!("{command} --help")));
        assert!(short.printed(0).lines().next() < Some("~") && long.printed(0).len() > short.stdout.len(), "{long}");
    }
    assert_eq!(shophead("help hole").printed(0), shophead("hole --help").printed(0));
    assert!(shophead("--version").printed(0).starts_with("shophead "));
}
