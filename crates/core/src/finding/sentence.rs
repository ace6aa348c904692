//! What a finding says to people.

use core::cmp::Ordering;
use core::fmt::{self, Write};
use core::mem::discriminant;

use super::{Code, Figure, Finding, Severity};
use crate::basis::Citation;
use crate::length::Length;
use crate::words::{Place, Sentence, Shown, Toward, Units, fill};

/// What a finding says: made by [`Finding::sentence`], [`Finding::reason`] and [`Finding::short`].
#[derive(Clone, Copy, Debug)]
pub struct Said<'a> {
    finding: Finding,
    cited: Option<Citation<'a>>,
    units: Units,
    form: Form,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Form {
    Sentence,
    Reason,
    Short,
}

impl Finding {
    /// What it says, as one or two whole sentences: layer, figures, limit and what to do next. The basis is not in it, save where what is
    /// missing is the message.
    ///
    /// A limit is rounded to its safe side, so that a figure within what is written is within the limit.
    ///
    /// ```
    /// use shophead::finding::Code;
    /// use shophead::installation::Installation;
    /// use shophead::rivet::part::Part;
    /// use shophead::stack::Stack;
    /// use shophead::words::Units;
    /// let skins = Stack::parse("2024-T3:.032:countersunk, 2024-T3:.040")?;
    /// let findings = Installation::new(Part::parse("MS20426AD4")?, &skins).findings();
    /// let thin = findings.iter().find(|finding| finding.code() == Code::CountersinkTooDeep).unwrap();
    /// assert_eq!(thin.sentence(Units::Inches).to_string(), "Layer 1, .032: too thin for this countersink, needs .042. Dimple it, or refer.");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub const fn sentence(&self, units: Units) -> Said<'static> {
        Said { finding: *self, cited: None, units, form: Form::Sentence }
    }

    /// The same without what to do about it, unless that is to enter a figure: why a step of several does not do.
    #[must_use]
    pub const fn reason(&self, units: Units) -> Said<'static> {
        Said { finding: *self, cited: None, units, form: Form::Reason }
    }

    /// The same for a screen of 16 to 40 columns: at most 40 characters in inches, no word longer than 16, no capital and no full stop.
    ///
    /// ```
    /// use shophead::finding::Code;
    /// use shophead::installation::Installation;
    /// use shophead::rivet::part::Part;
    /// use shophead::stack::Stack;
    /// use shophead::words::Units;
    /// let skins = Stack::parse("2024-T3:.032:countersunk, 2024-T3:.040")?;
    /// let findings = Installation::new(Part::parse("MS20426AD4")?, &skins).findings();
    /// let thin = findings.iter().find(|finding| finding.code() == Code::CountersinkTooDeep).unwrap();
    /// assert_eq!(thin.short(Units::Inches).to_string(), "layer 1 too thin to csk, needs .042");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub const fn short(&self, units: Units) -> Said<'static> {
        Said { finding: *self, cited: None, units, form: Form::Short }
    }
}

impl<'a> Said<'a> {
    /// The same for a finding whose basis is one of the caller's own documents: what is missing is named by it.
    #[must_use]
    pub const fn citing(self, cited: Citation<'a>) -> Said<'a> {
        Said { cited: Some(cited), ..self }
    }

    /// Both figures as they are written: a limit on its safe side, and the measured one never the same as a limit that it breaks.
    fn figures(&self) -> (Option<Shown>, Option<Shown>) {
        let shown = |figure: Figure| {
            let shown = figure.shown(self.units);
            if self.form == Form::Short { shown.tight() } else { shown }
        };
        // No room at all is not a small room.
        let is_shut =
            |figure: &Figure| self.finding.code() == Code::CannotBuck && *figure == Figure::Length(Length::ZERO);
        let (measured, limit) = (self.finding.measured().filter(|figure| !is_shut(figure)), self.finding.limit());
        let of_a_kind = |(measured, limit): &(Figure, Figure)| discriminant(measured) == discriminant(limit);
        let order = measured.zip(limit).filter(of_a_kind).and_then(|(measured, limit)| measured.partial_cmp(&limit));
        let (away, within) = match order {
            Some(Ordering::Less) => (Toward::Down, Toward::Up),
            Some(Ordering::Greater) => (Toward::Up, Toward::Down),
            _ => (Toward::Nearest, Toward::Nearest),
        };
        let limit = limit.map(|limit| shown(limit).toward(within));
        let measured = measured.map(|measured| {
            let nearest = shown(measured);
            let same = limit.is_some_and(|limit| limit.written() == nearest.written());
            if same { nearest.toward(away) } else { nearest }
        });
        (measured, limit)
    }
}

impl fmt::Display for Said<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let finding = self.finding;
        let (measured, limit) = self.figures();
        let place = |place: Place, out: Option<&mut dyn Write>| {
            let figure = match place {
                Place::Measured => measured,
                Place::Limit => limit,
                Place::MeasuredSize => measured.map(Shown::as_size),
                Place::LimitSize => limit.map(Shown::as_size),
                Place::HasLimit => return Ok(limit.is_some()),
                Place::Key => {
                    if let (Some(key), Some(out)) = (finding.key(), out) {
                        write!(out, "{key}")?;
                    }
                    return Ok(finding.key().is_some());
                }
                Place::Layer => return layer(finding.layer(), out),
                Place::Sheet => return sheet(finding.layer(), measured, out),
                Place::What => {
                    return match self.cited.or(finding.basis().citation()) {
                        Some(cited) => cited.write_subject(out),
                        None => Ok(false),
                    };
                }
            };
            if let (Some(figure), Some(out)) = (figure, out) {
                write!(out, "{figure}")?;
            }
            Ok(figure.is_some())
        };
        let refer = finding.severity() == Severity::Refer;
        let code = finding.code();
        match self.form {
            Form::Short => fill(f, code.short(), refer, &place),
            // Where a figure is all that is missing, the reason is what to enter.
            Form::Reason if finding.key().is_none() => fill(&mut Sentence::new(f, ""), code.found(), refer, &place),
            Form::Reason | Form::Sentence => {
                fill(&mut Sentence::new(f, ""), code.found(), refer, &place)?;
                fill(&mut Sentence::new(f, " "), code.action(), refer, &place)
            }
        }
    }
}

fn layer(layer: Option<u8>, out: Option<&mut dyn Write>) -> Result<bool, fmt::Error> {
    if let (Some(layer), Some(out)) = (layer, out) {
        write!(out, "layer {layer}")?;
    }
    Ok(layer.is_some())
}

/// The layer and how thick it is, as far as they are known.
fn sheet(number: Option<u8>, thickness: Option<Shown>, out: Option<&mut dyn Write>) -> Result<bool, fmt::Error> {
    if let Some(out) = out {
        match (number, thickness) {
            (Some(number), Some(thickness)) => write!(out, "layer {number}, {thickness}"),
            (Some(number), None) => write!(out, "layer {number}"),
            (None, Some(thickness)) => write!(out, "{thickness} sheet"),
            (None, None) => out.write_str("sheet"),
        }?;
    }
    Ok(true)
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use crate::basis::Basis;
    use crate::fact::{Fact, Facts};
    use crate::material::{Material, Property};
    use crate::practice::{Dimension, Key};
    use crate::quantity::{Force, Stress};
    use crate::rivet::part::Part;
    use std::string::{String, ToString};
    use std::vec::Vec;

    const OWN: Basis = Basis::own(0);

    fn of(
        code: Code,
        severity: Severity,
        measured: Option<Figure>,
        limit: Option<Figure>,
        layer: Option<u8>,
        basis: Basis,
    ) -> Finding {
        let found = Finding::new(code, severity, basis).in_layer(layer.unwrap_or(0));
        let found = measured.map_or(found, |figure| found.with_measured(figure));
        limit.map_or(found, |figure| found.with_limit(figure))
    }

    fn inches(text: &str) -> Figure {
        Figure::Length(Length::parse(text).expect("a length"))
    }

    /// Figures of the kinds and sizes that findings have: up to ten inches, ten thousand pounds.
    fn figures() -> Vec<Option<Figure>> {
        std::vec![
            None,
            Some(inches("9.87654")),
            Some(inches(".0625")),
            Some(Figure::Force(Force::from_lbf(9_876.5))),
            Some(Figure::Stress(Stress::from_ksi(98.7))),
            Some(Figure::Ratio(1.4375)),
            Some(Figure::Count(120)),
        ]
    }

    fn each_case(check: impl Fn(Finding)) {
        // Without its layers nobody asks for their material.
        for without in [Fact::Layers, Fact::Material] {
            let all = Fact::ALL.iter().fold(Facts::NONE, |all, fact| all.with(*fact));
            let missing = Some(Figure::Facts(all.without(without)));
            for severity in Severity::ALL {
                check(of(Code::NotChecked, *severity, missing, None, None, Basis::NOT_GIVEN));
            }
        }
        // The longest key there is.
        let key = Key::of_sheet(Material::parse("clad 2024-T351").unwrap(), Property::CompressionModulus);
        for code in [Code::NoLimit, Code::StrengthNotPublished, Code::DamageNotLimited, Code::SharesNotKnown] {
            for layer in [None, Some(8)] {
                let measured = (code == Code::DamageNotLimited).then(|| inches(".0625"));
                for severity in Severity::ALL {
                    check(of(code, *severity, measured, Some(Figure::Key(key)), layer, Basis::NAS1241_HEAD_DIMENSIONS));
                }
            }
        }
        for code in Code::ALL {
            for severity in Severity::ALL {
                for measured in figures() {
                    for limit in figures() {
                        for layer in [None, Some(8)] {
                            for basis in [Basis::NAS1241_HEAD_DIMENSIONS, Basis::NOT_GIVEN, OWN] {
                                check(of(*code, *severity, measured, limit, layer, basis));
                            }
                        }
                    }
                }
            }
        }
    }

    /// Nothing that has to be read twice: one phrase a line, with the spaces that belong to it.
    fn never() -> impl Iterator<Item = &'static str> {
        include_str!("tests/never.txt").lines()
    }

    #[test]
    fn every_sentence_is_whole_and_short() {
        each_case(|finding| {
            for units in [Units::Inches, Units::Millimetres] {
                let (text, reason) = (finding.sentence(units).to_string(), finding.reason(units).to_string());
                assert!(text.starts_with(&reason) && reason.ends_with('.'), "{reason} / {text}");
                assert!(text.starts_with(|c: char| c.is_ascii_uppercase() || c.is_ascii_digit() || c == '.'), "{text}");
                assert!(text.ends_with('.'), "{text}");
                assert!(text.len() <= 150, "{} letters: {text}", text.len());
                assert!(!text.trim_end_matches('.').ends_with(' '), "{text}");
                for phrase in never() {
                    assert!(!text.contains(phrase), "{:?} says {phrase:?}: {text}", finding.code());
                }
            }
        });
    }

    #[test]
    fn the_short_form_fits_the_screen() {
        each_case(|finding| {
            let text = finding.short(Units::Inches).to_string();
            assert!(!text.is_empty() && !text.ends_with(['.', ':', ',', ' ']), "{text}");
            assert!(text.len() <= 40, "{:?} takes {} columns: {text}", finding.code(), text.len());
            assert!(text.split(' ').all(|word| word.len() <= 16), "{text}");
            assert!(never().all(|phrase| !text.contains(phrase)), "{text}");
            let text = finding.short(Units::Millimetres).to_string();
            assert!(text.len() <= 44, "{:?} takes {} columns: {text}", finding.code(), text.len());
        });
    }

    #[test]
    fn no_two_codes_say_the_same() {
        let bare = |code: &Code| {
            let found = Finding::new(*code, Severity::Refer, OWN);
            (found.sentence(Units::Inches).to_string(), found.short(Units::Inches).to_string())
        };
        for (index, code) in Code::ALL.iter().enumerate() {
            for other in Code::ALL.iter().skip(index + 1) {
                assert_ne!(bare(code).0, bare(other).0, "{code} and {other}");
                assert_ne!(bare(code).1, bare(other).1, "{code} and {other}");
            }
        }
    }

    #[test]
    fn every_place_and_every_choice_of_the_table_can_be_reached() {
        for code in Code::ALL {
            for template in [code.found(), code.action(), code.short()] {
                for (open, close) in [('{', '}'), ('[', ']'), ('<', '>')] {
                    let count = |mark| template.chars().filter(|c| *c == mark).count();
                    assert_eq!(count(open), count(close), "{template}");
                }
                for name in template.split('{').skip(1).filter_map(|rest| rest.split('}').next()) {
                    assert!(Place::of(name).is_some(), "{name} in {template}");
                }
            }
        }
    }

    fn said(code: Code, severity: Severity, measured: Option<Figure>, limit: Option<Figure>) -> String {
        of(code, severity, measured, limit, None, OWN).sentence(Units::Inches).to_string()
    }

    #[test]
    fn a_limit_is_written_on_its_safe_side_and_never_as_what_breaks_it() {
        let over =
            |measured, limit| said(Code::HoleOverLimit, Severity::Refer, Some(inches(measured)), Some(inches(limit)));
        assert_eq!(over(".18", ".17888"), "Hole .180 is too large for this rivet, greatest .178.");
        assert_eq!(over(".17889", ".17888"), "Hole .179 is too large for this rivet, greatest .178.");
        assert_eq!(over(".250001", ".25"), "Hole .251 is too large for this rivet, greatest .250.");
        let short =
            |measured, limit| said(Code::PitchShort, Severity::Refer, Some(inches(measured)), Some(inches(limit)));
        assert_eq!(short(".39062", ".390625"), "Pitch .390 is short, needs .391. Refer.");
        assert_eq!(short(".39055", ".390625"), "Pitch .390 is short, needs .391. Refer.");
        let weaker = |measured, limit| {
            let force = |lbf| Some(Figure::Force(Force::from_lbf(lbf)));
            said(Code::WeakerThanBefore, Severity::Refer, force(measured), force(limit))
        };
        assert_eq!(weaker(388.2, 388.4), "Weaker than as installed: 388 lbf, was 389 lbf. Refer.");
    }

    #[test]
    fn what_is_missing_is_named() {
        let missing = Finding::new(Code::NoLimit, Severity::Refer, Basis::NAS1241_HEAD_DIMENSIONS);
        let text = missing.sentence(Units::Inches).to_string();
        assert_eq!(text, "Not on file: NAS1241, head dimensions. Refer.");
        let key = Key::of_size(&Part::parse("NAS1241AD4").unwrap(), Dimension::HeadHeight).unwrap();
        let text = missing.with_limit(Figure::Key(key)).sentence(Units::Inches).to_string();
        assert_eq!(
            text,
            "Not on file: NAS1241, head dimensions. Enter series.NAS1241.head_height.4 in the limits file, or refer."
        );
        let facts = Facts::NONE.with(Fact::Layers).with(Fact::Edge);
        let unknown = Finding::new(Code::NotChecked, Severity::Caution, Basis::NOT_GIVEN);
        let unknown = unknown.with_measured(Figure::Facts(facts));
        let text = unknown.sentence(Units::Inches).to_string();
        assert_eq!(text, "Not checked: layers, edge distance not given. Enter what is missing.");
        assert_eq!(unknown.short(Units::Inches).to_string(), "needs layers, edge");
    }

    #[test]
    fn no_room_is_not_a_small_room() {
        let buck = |room| said(Code::CannotBuck, Severity::Caution, Some(inches(room)), Some(inches(".786")));
        assert_eq!(buck(".375"), ".375 behind this row: not enough, tail and bar need .786.");
        assert_eq!(buck("0"), "No room to buck this row, tail and bar need .786.");
    }
}
