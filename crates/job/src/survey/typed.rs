//! What somebody types at a hole.

use shophead::drill::Drill;
use shophead::hole::{Damage, Direction};
use shophead::length::{Bare, Length};

use super::LETTERS;

/// A measure as it was typed.
pub(super) struct Typed {
    pub(super) major: Length,
    pub(super) minor: Option<Length>,
    pub(super) damage: Damage,
    pub(super) direction: Option<Direction>,
    pub(super) opened: Opened,
    pub(super) remark: String,
}

/// What was typed about opening a hole.
pub(super) enum Opened {
    /// Nothing.
    NotSaid,
    /// With the drill that was named when it was measured before.
    AsSaid,
    /// With this one.
    To(Drill),
    /// It was not opened after all.
    Not,
}

/// Which way the longest axis lies.
fn direction_of(word: &str) -> Option<Direction> {
    match word {
        "al" => Some(Direction::Along),
        "ac" => Some(Direction::Across),
        word => word.parse().ok(),
    }
}

/// What a letter or a word says is wrong.
fn damage_of(word: &str) -> Option<Damage> {
    let lower = word.to_ascii_lowercase();
    let mut chars = lower.chars();
    let letter = match (chars.next(), chars.next()) {
        (Some(letter), None) => LETTERS.iter().find(|(known, _)| *known == letter).map(|(_, damage)| *damage),
        _ => None,
    };
    letter.or_else(|| lower.parse().ok())
}

/// `MAJOR [MINOR] [DAMAGE] [DIRECTION] [o DRILL] [REMARK]`.
pub(super) fn parse(typed: &str, bare: Bare) -> Result<Typed, String> {
    let spaced = typed.replacen('*', " ", 1);
    let mut words = spaced.split_whitespace().peekable();
    let axis = |words: &mut std::iter::Peekable<std::str::SplitWhitespace<'_>>| {
        let begins = |word: &&str| word.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | '#' | ','));
        let Some(mut word) = words.next_if(begins).map(str::to_owned) else { return Ok(None) };
        if let Some(unit) = words.next_if(|word| matches!(*word, "mm" | "in")) {
            word.push_str(unit);
        }
        length(&word, bare).map(Some)
    };
    let major = axis(&mut words)?.ok_or("a measure is missing")?;
    words.next_if(|word| word.eq_ignore_ascii_case("x"));
    let minor = axis(&mut words)?;
    // Whichever was measured first, the longest axis is the longest.
    let (major, minor) = match minor {
        Some(minor) if minor > major => (minor, Some(major)),
        minor => (major, minor),
    };
    let mut typed =
        Typed { major, minor, damage: Damage::None, direction: None, opened: Opened::NotSaid, remark: String::new() };
    // Each once; the first word that is none of them begins the remark.
    let (mut has_damage, mut has_opened) = (false, false);
    while let Some(word) = words.peek() {
        let lower = word.to_ascii_lowercase();
        if let Some(damage) = damage_of(word).filter(|_| !has_damage) {
            (typed.damage, has_damage) = (damage, true);
        } else if let Some(direction) = direction_of(&lower).filter(|_| typed.direction.is_none()) {
            typed.direction = Some(direction);
        } else if matches!(lower.as_str(), "o" | "opened") && !has_opened {
            has_opened = true;
            words.next();
            typed.opened = match words.peek() {
                Some(word) if *word == "-" => Opened::Not,
                Some(word) if word.starts_with(|c: char| c == '#' || c.is_ascii_digit()) || word.len() == 1 => {
                    Opened::To(Drill::parse(word).map_err(|error| error.to_string())?)
                }
                _ => {
                    typed.opened = Opened::AsSaid;
                    continue;
                }
            };
        } else {
            break;
        }
        words.next();
    }
    let remark: Vec<&str> = words.collect();
    let remark = remark.join(" ");
    remark.strip_prefix(':').unwrap_or(&remark).trim().clone_into(&mut typed.remark);
    Ok(typed)
}

fn length(word: &str, bare: Bare) -> Result<Length, String> {
    if word.starts_with('#') {
        return Drill::parse(word).map(Drill::diameter).map_err(|error| error.to_string());
    }
    Length::parse_hole(word, bare).map_err(|error| error.to_string())
}

/// `12-30 good`, `12 good`: from hole, to hole, and what is said of them.
pub(super) fn range(typed: &str) -> Option<(u32, u32, &str)> {
    let end = typed.find(char::is_whitespace).unwrap_or(typed.len());
    let (numbers, rest) = typed.split_at(end);
    let rest = rest.trim();
    let (first, last) = match numbers.split_once(['-', '\u{2013}']) {
        Some(ends) => ends,
        // `12 good`: one hole by its number.
        None if rest == "clear" || rest.starts_with("good") => (numbers, numbers),
        None => return None,
    };
    Some((first.parse().ok()?, last.parse().ok()?, rest))
}

/// The same with the points that were left out: `.161 .160 g` of `161 160 g`.
pub(super) fn with_points(typed: &str) -> String {
    let is_without = |word: &str| word.len() > 1 && word.chars().all(|c| c.is_ascii_digit());
    let mut is_measure = true;
    let words = typed.split_whitespace().map(|word| {
        is_measure &= word.starts_with(|c: char| c.is_ascii_digit() || c == '.') || matches!(word, "x" | "*");
        if is_measure && is_without(word) { format!(".{word}") } else { word.to_owned() }
    });
    words.collect::<Vec<_>>().join(" ")
}
