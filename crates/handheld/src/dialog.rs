//! The questions of each job: their order, what an entry means, and the way back.
//!
//! The state is the list of questions answered so far and the answers. Which question comes next follows from them, so going back is
//! taking the last one off the list.

use core::fmt;

use heapless::Vec;
use shophead::damage::{DamageKind, Damaged};
use shophead::drill::parse_hole;
use shophead::hole::{AsFound, AsFoundError, Damage};
use shophead::joint::strength::Shear;
use shophead::length::{Interval, Length, ParseLengthError, Toleranced};
use shophead::material::{Material, ParseMaterialError};
use shophead::practice::{Case, Practice};
use shophead::rivet::part::{ParsePartError, Part};
use shophead::rivet::{CATALOGUE, Series, Size};
use shophead::stack::{Layer, MAX_LAYERS, Preparation, Stack, StackError};
use shophead::structure::Member;
use shophead::upset::Defect;
use shophead::words::Shown;

use crate::report::Spaced;
use crate::screen::{FIXED_SPACE, MAX_ENTRY};
use crate::units::Units;

/// What can be asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Job {
    Length,
    Head,
    Hole,
    Edge,
    Number,
    Strength,
}

impl Job {
    pub(crate) const ALL: [(Job, &'static str); 6] = [
        (Job::Length, "length"),
        (Job::Head, "driven\u{a0}head"),
        (Job::Hole, "hole"),
        (Job::Edge, "edge,\u{a0}pitch"),
        (Job::Number, "part\u{a0}no."),
        (Job::Strength, "strength"),
    ];

    /// The questions in order; [`Question::Thickness`] stands for all of the layers, a defect or damage also for its measures.
    const fn questions(self) -> &'static [Question] {
        use Question::{
            Alloy, Damage, Defect, Diameter, Edge, HeadDiameter, HeadHeight, HeadLowest, HeadNarrowest, Hole, Major,
            Member, Minor, Number, Pitch, Rivet, Rows, Shear, Thickness, Transverse,
        };
        match self {
            Job::Length => &[Rivet, Alloy, Diameter, Thickness, Hole],
            Job::Head => &[Rivet, Alloy, Diameter, HeadDiameter, HeadNarrowest, HeadHeight, HeadLowest, Defect],
            Job::Hole => &[Rivet, Alloy, Diameter, Thickness, Major, Minor, Damage, Edge, Pitch, Rows, Member],
            Job::Edge => &[Rivet, Alloy, Diameter, Edge, Pitch, Transverse, Rows],
            Job::Number => &[Number],
            Job::Strength => &[Rivet, Alloy, Diameter, Thickness, Edge, Pitch, Shear],
        }
    }

    /// Whether the sheets' materials and holes count.
    const fn wants_material(self) -> bool {
        matches!(self, Job::Hole | Job::Strength)
    }
}

/// A question.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Question {
    Rivet,
    Alloy,
    Diameter,
    Number,
    Thickness,
    Material,
    Preparation,
    Hole,
    HeadDiameter,
    HeadNarrowest,
    HeadHeight,
    HeadLowest,
    Defect,
    CrackCount,
    CrackFreeCircle,
    CracksMeet,
    MarkDepth,
    MarkedHead,
    /// By how much a head stands proud or low, or what is left of it.
    Left,
    Feeler,
    Rim,
    Major,
    Minor,
    Damage,
    OverDamage,
    CrackLength,
    CorrosionLength,
    CorrosionDepth,
    Edge,
    Pitch,
    Transverse,
    Rows,
    Member,
    Shear,
}

/// Each layer asks for three things at most, and no job has more than thirteen other questions.
const MAX_QUESTIONS: usize = MAX_LAYERS * 3 + 14;

/// What was answered.
#[derive(Clone, Debug)]
pub(crate) struct Answers {
    pub(crate) series: Option<&'static Series<'static>>,
    /// Which of the series' materials.
    material_code: Option<&'static str>,
    pub(crate) rivet: Option<Part<'static>>,
    layers: Vec<Layer, MAX_LAYERS>,
    layers_done: bool,
    /// As measured; `None` for one that the practice would drill.
    pub(crate) hole: Option<Toleranced>,
    pub(crate) head_diameter: Option<Length>,
    /// Of a head that is out of round.
    head_narrowest: Option<Length>,
    head_height: Option<Length>,
    /// Of a head that is tipped or stepped.
    head_lowest: Option<Length>,
    pub(crate) defect: Option<Defect>,
    pub(crate) major: Option<Length>,
    pub(crate) minor: Option<Length>,
    pub(crate) damage: Damage,
    /// The longest axis with the score or the second hole in it.
    over_damage: Option<Length>,
    /// Of a crack or of corrosion.
    damage_length: Option<Length>,
    damage_depth: Option<Length>,
    pub(crate) edge: Option<Length>,
    pub(crate) pitch: Option<Length>,
    pub(crate) transverse: Option<Length>,
    pub(crate) rows: u8,
    pub(crate) member: Member,
    pub(crate) shear: Shear,
}

impl Answers {
    const fn new() -> Answers {
        Answers {
            series: None,
            material_code: None,
            rivet: None,
            layers: Vec::new(),
            layers_done: false,
            hole: None,
            head_diameter: None,
            head_narrowest: None,
            head_height: None,
            head_lowest: None,
            defect: None,
            major: None,
            minor: None,
            damage: Damage::None,
            over_damage: None,
            damage_length: None,
            damage_depth: None,
            edge: None,
            pitch: None,
            transverse: None,
            rows: 1,
            member: Member::Skin,
            shear: Shear::Single,
        }
    }

    /// The layers as a stack.
    pub(crate) fn stack(&self) -> Result<Stack, StackError> {
        let mut stack = Stack::new();
        for layer in &self.layers {
            stack.push(*layer)?;
        }
        Ok(stack)
    }
}

/// Why an entry is not taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Refusal {
    Length(ParseLengthError),
    Hole(shophead::drill::ParseHoleError),
    Part(ParsePartError<'static>),
    Material(ParseMaterialError),
    Stack(StackError),
    AsFound(AsFoundError),
    AboveGreatest,
    BelowLongest,
    NotPositive,
    OneOf(u8),
    Empty,
    NoLayer,
    Doubtful(Shown),
    NoSuchAlloy,
    NoSuchDiameter,
    NoAssumedHole,
    Count,
    Percent,
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Refusal::Length(error) => error.fmt(f),
            Refusal::Hole(error) => error.fmt(f),
            Refusal::Part(error) => error.fmt(f),
            Refusal::Material(error) => error.fmt(f),
            Refusal::Stack(error) => error.fmt(f),
            Refusal::AsFound(error) => error.fmt(f),
            Refusal::AboveGreatest => f.write_str("this is more than the greatest; enter the least"),
            Refusal::BelowLongest => f.write_str("this is less than the longest without it"),
            Refusal::NotPositive => f.write_str("this must be above zero"),
            Refusal::OneOf(last) => write!(f, "enter 1 to {last}"),
            Refusal::Empty => f.write_str("an entry is needed here"),
            Refusal::Doubtful(length) => write!(f, "{length}? enter it again if it is so"),
            Refusal::NoLayer => f.write_str("at least one layer is needed"),
            Refusal::NoSuchAlloy => f.write_str("the series has no such material; ? lists them"),
            Refusal::NoSuchDiameter => f.write_str("the series has no such diameter; ? lists them"),
            Refusal::NoAssumedHole => f.write_str("no drill is known for this rivet: measure the hole"),
            Refusal::Count => f.write_str("enter a whole number from 1 to 99"),
            Refusal::Percent => f.write_str("enter a percentage, 0 to 100"),
        }
    }
}

/// Defects that an inspector can enter with a digit or two, by the words of a driven record. What is measured of them is asked for afterwards.
const DEFECTS: [Option<Defect>; 20] = [
    None,
    Some(Defect::GapUnderHead),
    Some(Defect::Tipped),
    Some(Defect::Loose),
    Some(Defect::BuckledShank),
    Some(Defect::SheetsApart),
    Some(Defect::SheetDamaged),
    Some(Defect::Cracks { count: 1, innermost: None, meeting: false }),
    Some(Defect::ToolMark { depth: Length::ZERO, head_height: Length::ZERO }),
    Some(Defect::Proud(Length::ZERO)),
    Some(Defect::NotchedShank),
    Some(Defect::GapUnderManufacturedHead),
    Some(Defect::GapUnderDrivenHead { feeler: Length::ZERO, rim_percent: 0 }),
    Some(Defect::SheetsApartAtEdge(Length::ZERO)),
    Some(Defect::Stepped),
    Some(Defect::Clinched),
    Some(Defect::ManufacturedCracks { innermost: None }),
    Some(Defect::Flattened(Length::ZERO)),
    Some(Defect::Low(Length::ZERO)),
    Some(Defect::Shaved(Length::ZERO)),
];

const MEETING: [(bool, &str); 2] = [(false, "no"), (true, "yes")];

const SHEARS: [(Shear, &str); 2] = [(Shear::Single, "single"), (Shear::Double, "double")];

/// A job with the questions answered so far.
#[derive(Debug)]
pub(crate) struct Dialog {
    pub(crate) job: Job,
    asked: Vec<Question, MAX_QUESTIONS>,
    pub(crate) answers: Answers,
    /// A measure that is larger than such a thing is and was asked about; entered again it is taken.
    doubted: Option<(Question, Length)>,
}

impl Dialog {
    /// A job from its beginning; the rivet of the last one is offered again.
    pub(crate) fn new(job: Job, rivet: Option<Part<'static>>) -> Dialog {
        let rivet = rivet.map(|rivet| rivet.without_length());
        Dialog { job, asked: Vec::new(), answers: Answers { rivet, ..Answers::new() }, doubted: None }
    }

    /// The question to ask now; `None` when all are answered.
    pub(crate) fn question(&self) -> Option<Question> {
        let Some(last) = self.asked.last() else { return self.job.questions().first().copied() };
        let answers = &self.answers;
        let is_flush = answers.rivet.is_some_and(|rivet| rivet.series().head.is_flush());
        match last {
            Question::Rivet if answers.series.is_none() => self.after(Question::Diameter),
            Question::HeadDiameter if answers.head_diameter.is_none() => None,
            Question::Defect => match answers.defect {
                Some(Defect::Cracks { .. }) => Some(Question::CrackCount),
                Some(Defect::ToolMark { .. }) => Some(Question::MarkDepth),
                Some(Defect::Proud(_) | Defect::Low(_) | Defect::Flattened(_) | Defect::Shaved(_)) => {
                    Some(Question::Left)
                }
                Some(Defect::ManufacturedCracks { .. }) => Some(Question::CrackFreeCircle),
                Some(
                    Defect::GapUnderDrivenHead { .. }
                    | Defect::SheetsApart
                    | Defect::SheetsApartBy(_)
                    | Defect::SheetsApartAtEdge(_),
                ) => Some(Question::Feeler),
                _ => self.after(Question::Defect),
            },
            Question::CrackCount => Some(Question::CrackFreeCircle),
            Question::CrackFreeCircle if matches!(answers.defect, Some(Defect::Cracks { .. })) => {
                Some(Question::CracksMeet)
            }
            Question::Feeler if matches!(answers.defect, Some(Defect::GapUnderDrivenHead { .. })) => {
                Some(Question::Rim)
            }
            Question::MarkDepth => Some(Question::MarkedHead),
            Question::CrackFreeCircle
            | Question::CracksMeet
            | Question::MarkedHead
            | Question::Left
            | Question::Feeler
            | Question::Rim => self.after(Question::Defect),
            Question::Damage => match answers.damage {
                Damage::FigureEight | Damage::Gouged => Some(Question::OverDamage),
                Damage::Cracked => Some(Question::CrackLength),
                Damage::Corroded => Some(Question::CorrosionLength),
                _ => self.after(Question::Damage),
            },
            Question::CorrosionLength => Some(Question::CorrosionDepth),
            Question::OverDamage | Question::CrackLength | Question::CorrosionDepth => self.after(Question::Damage),
            Question::Thickness if answers.layers_done => self.after(Question::Thickness),
            Question::Thickness if self.job.wants_material() => Some(Question::Material),
            Question::Thickness | Question::Material if is_flush => Some(Question::Preparation),
            Question::Thickness | Question::Material | Question::Preparation => {
                if answers.layers.is_full() {
                    self.after(Question::Thickness)
                } else {
                    Some(Question::Thickness)
                }
            }
            last => self.after(*last),
        }
    }

    fn after(&self, question: Question) -> Option<Question> {
        let mut rest = self.job.questions().iter().skip_while(|known| **known != question);
        rest.next();
        rest.next().copied()
    }

    /// Takes back the last answer; `false` when there is none.
    pub(crate) fn back(&mut self) -> bool {
        match self.asked.pop() {
            None => return false,
            Some(Question::Thickness) if self.answers.layers_done => self.answers.layers_done = false,
            Some(Question::Thickness) => {
                self.answers.layers.pop();
            }
            Some(_) => {}
        }
        true
    }

    /// Answers the question that is asked now.
    pub(crate) fn take(
        &mut self,
        question: Question,
        text: &str,
        units: Units,
        practice: &Practice<'_>,
    ) -> Result<(), Refusal> {
        let positive = |text: &str| match units.length(text) {
            Ok(length) if length > Length::ZERO => Ok(length),
            Ok(_) => Err(Refusal::NotPositive),
            Err(error) => Err(Refusal::Length(error)),
        };
        let where_known = |text: &str| if text.is_empty() { Ok(None) } else { positive(text).map(Some) };
        self.doubt(question, text, units)?;
        match question {
            Question::Rivet => self.take_rivet(text)?,
            Question::Alloy => self.take_alloy(text)?,
            Question::Diameter => self.take_diameter(text, units)?,
            Question::Number => self.answers.rivet = Some(Part::parse(text).map_err(Refusal::Part)?),
            Question::Thickness => self.take_layer(text, units)?,
            Question::Material => self.take_material(text, practice)?,
            Question::Preparation => {
                let preparation = *one_of(Preparation::ALL, text)?;
                self.change_last_layer(|layer| layer.preparation = preparation);
            }
            Question::Hole if text.is_empty() => {
                self.answers.hole = None;
                self.hole(practice).ok_or(Refusal::NoAssumedHole)?;
            }
            Question::Hole => self.answers.hole = Some(Toleranced::exactly(self.measured_hole(text, units)?)),
            Question::HeadDiameter => self.answers.head_diameter = where_known(text)?,
            Question::HeadNarrowest => {
                self.answers.head_narrowest = not_above(where_known(text)?, self.answers.head_diameter)?;
            }
            Question::HeadHeight => self.answers.head_height = Some(positive(text)?),
            Question::HeadLowest => self.answers.head_lowest = not_above(where_known(text)?, self.answers.head_height)?,
            Question::Defect => self.answers.defect = *one_of(&DEFECTS, text)?,
            Question::CrackCount => {
                let cracks = if text.is_empty() { 1 } else { u32::from(count(text)?) };
                self.measure_defect(|defect| {
                    if let Defect::Cracks { count, .. } = defect {
                        *count = cracks;
                    }
                });
            }
            Question::CrackFreeCircle => {
                let circle = where_known(text)?;
                self.measure_defect(|defect| {
                    if let Defect::Cracks { innermost, .. } | Defect::ManufacturedCracks { innermost } = defect {
                        *innermost = circle;
                    }
                });
            }
            Question::CracksMeet => {
                let (meet, _) = *one_of(&MEETING, text)?;
                self.measure_defect(|defect| {
                    if let Defect::Cracks { meeting, .. } = defect {
                        *meeting = meet;
                    }
                });
            }
            Question::MarkDepth => {
                let deep = positive(text)?;
                self.measure_defect(|defect| {
                    if let Defect::ToolMark { depth, .. } = defect {
                        *depth = deep;
                    }
                });
            }
            Question::MarkedHead => {
                let high = where_known(text)?.or_else(|| self.head_height_nominal()).ok_or(Refusal::Empty)?;
                self.measure_defect(|defect| {
                    if let Defect::ToolMark { head_height, .. } = defect {
                        *head_height = high;
                    }
                });
            }
            Question::Left => {
                let measured = positive(text)?;
                self.measure_defect(|defect| {
                    if let Defect::Proud(by) | Defect::Low(by) | Defect::Flattened(by) | Defect::Shaved(by) = defect {
                        *by = measured;
                    }
                });
            }
            Question::Feeler if text.is_empty() => match self.answers.defect {
                Some(Defect::SheetsApart | Defect::SheetsApartBy(_)) => {
                    self.answers.defect = Some(Defect::SheetsApart);
                }
                _ => return Err(Refusal::Empty),
            },
            Question::Feeler => {
                let goes_in = positive(text)?;
                self.measure_defect(|defect| match defect {
                    Defect::GapUnderDrivenHead { feeler, .. } | Defect::SheetsApartAtEdge(feeler) => *feeler = goes_in,
                    other => *other = Defect::SheetsApartBy(goes_in),
                });
            }
            Question::Rim => {
                const ALL_ROUND: u8 = 100;
                let percent = text.parse().ok().filter(|percent| *percent <= ALL_ROUND).ok_or(Refusal::Percent)?;
                self.measure_defect(|defect| {
                    if let Defect::GapUnderDrivenHead { rim_percent, .. } = defect {
                        *rim_percent = percent;
                    }
                });
            }
            Question::Major => self.answers.major = Some(self.measured_hole(text, units)?),
            Question::Minor => {
                let minor = if text.is_empty() { None } else { Some(self.measured_hole(text, units)?) };
                let major = self.answers.major.unwrap_or(Length::ZERO);
                AsFound::new(major, minor.unwrap_or(major), Damage::None).map_err(Refusal::AsFound)?;
                self.answers.minor = minor;
            }
            Question::Damage => self.answers.damage = *one_of(Damage::ALL, text)?,
            Question::OverDamage => {
                let over = if text.is_empty() { None } else { Some(self.measured_hole(text, units)?) };
                if over < self.answers.major.filter(|_| over.is_some()) {
                    return Err(Refusal::BelowLongest);
                }
                self.answers.over_damage = over;
            }
            Question::CrackLength | Question::CorrosionLength => self.answers.damage_length = where_known(text)?,
            Question::CorrosionDepth => self.answers.damage_depth = where_known(text)?,
            Question::Edge if self.job == Job::Strength => self.answers.edge = Some(positive(text)?),
            Question::Edge => self.answers.edge = where_known(text)?,
            Question::Pitch => self.answers.pitch = where_known(text)?,
            Question::Transverse => self.answers.transverse = where_known(text)?,
            Question::Rows => self.answers.rows = if text.is_empty() { 1 } else { count(text)? },
            Question::Member => self.answers.member = *one_of(Member::ALL, text)?,
            Question::Shear => self.answers.shear = one_of(&SHEARS, text)?.0,
        }
        // As many places as there can be questions.
        let _ = self.asked.push(question);
        Ok(())
    }

    /// Asks once about a measure that is larger than such a thing is: without a unit `40` is more likely meant for `.040`.
    fn doubt(&mut self, question: Question, text: &str, units: Units) -> Result<(), Refusal> {
        const TWELVE: i64 = 12;
        let most = match question {
            Question::Rivet | Question::Alloy | Question::Diameter | Question::Number | Question::Material => {
                return Ok(());
            }
            Question::Preparation | Question::Defect | Question::CrackCount | Question::CracksMeet => return Ok(()),
            Question::Damage | Question::Rows | Question::Member | Question::Shear | Question::Rim => return Ok(()),
            Question::Edge
            | Question::Pitch
            | Question::Transverse
            | Question::CrackLength
            | Question::CorrosionLength => Length::INCH.checked_mul(TWELVE).unwrap_or(Length::MAX),
            _ => Length::INCH,
        };
        let doubted = self.doubted.take();
        let nominal = text.split(['T', 't', '+']).next().unwrap_or(text).trim();
        let is_bare = nominal.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.');
        let length = units.length(nominal).ok().filter(|length| is_bare && *length > most);
        match length.map(|length| (question, length)) {
            Some(asked) if doubted != Some(asked) => {
                self.doubted = Some(asked);
                Err(Refusal::Doubtful(units.show(asked.1)))
            }
            _ => Ok(()),
        }
    }

    fn measure_defect(&mut self, measure: impl FnOnce(&mut Defect)) {
        if let Some(defect) = &mut self.answers.defect {
            measure(defect);
        }
    }

    /// Height of the manufactured head, where the tables have it.
    fn head_height_nominal(&self) -> Option<Length> {
        self.answers.rivet.and_then(|rivet| rivet.size().head_height_nominal())
    }

    /// A digit picks a series, a part number the whole rivet, nothing the rivet of the last job.
    fn take_rivet(&mut self, text: &str) -> Result<(), Refusal> {
        if text.is_empty() {
            self.answers.series = None;
            return if self.answers.rivet.is_some() { Ok(()) } else { Err(Refusal::Empty) };
        }
        if text.bytes().all(|byte| byte.is_ascii_digit()) {
            self.answers.series = Some(one_of(CATALOGUE, text)?);
            return Ok(());
        }
        let part = Part::parse(text).map_err(Refusal::Part)?;
        self.answers.series = None;
        self.answers.rivet = Some(part.without_length());
        Ok(())
    }

    fn take_alloy(&mut self, text: &str) -> Result<(), Refusal> {
        let Some(series) = self.answers.series else { return Ok(()) };
        let material = if text.bytes().all(|byte| byte.is_ascii_digit()) {
            one_of(series.materials, text)?
        } else {
            series.material(text).ok_or(Refusal::NoSuchAlloy)?
        };
        self.answers.material_code = Some(material.code);
        Ok(())
    }

    fn take_diameter(&mut self, text: &str, units: Units) -> Result<(), Refusal> {
        let Some(series) = self.answers.series else { return Ok(()) };
        let size = match text.parse::<u8>() {
            Ok(dash) => series.size(dash),
            Err(_) => series.size_for_diameter(units.length(text).map_err(Refusal::Length)?),
        };
        let size = size.ok_or(Refusal::NoSuchDiameter)?;
        let code = self.answers.material_code.unwrap_or_default();
        let rivet = Part::new(series, code, size).map_err(|_| Refusal::NoSuchAlloy)?;
        self.answers.rivet = Some(rivet);
        Ok(())
    }

    fn take_layer(&mut self, text: &str, units: Units) -> Result<(), Refusal> {
        if text.is_empty() {
            if self.answers.layers.is_empty() {
                return Err(Refusal::NoLayer);
            }
            self.answers.layers_done = true;
            return Ok(());
        }
        let thickness = units.toleranced(text).map_err(Refusal::Length)?;
        let before = self.answers.layers.last().copied();
        let layer = Layer::of(thickness).material(before.and_then(|layer| layer.material));
        let mut stack = self.answers.stack().map_err(Refusal::Stack)?;
        stack.push(layer).map_err(Refusal::Stack)?;
        // The stack has as many places.
        let _ = self.answers.layers.push(layer);
        Ok(())
    }

    /// A number of the list, or a name, `C` before it for clad; nothing for that of the layer before.
    fn take_material(&mut self, text: &str, practice: &Practice<'_>) -> Result<(), Refusal> {
        if text.is_empty() {
            return Ok(());
        }
        let material = if let Ok(number) = text.parse::<u8>()
            && usize::from(number) <= Material::known().len()
        {
            let index = usize::from(number).checked_sub(1).ok_or(Refusal::OneOf(materials()))?;
            Material::known().nth(index).ok_or(Refusal::OneOf(materials()))?
        } else {
            let clad = text.strip_prefix(['C', 'c']).filter(|rest| rest.starts_with(|c: char| c.is_ascii_digit()));
            let mut name: heapless::String<{ MAX_ENTRY + 5 }> = heapless::String::new();
            // Both fit: an entry is no longer than MAX_ENTRY.
            let _ = name.push_str(if clad.is_some() { "clad " } else { "" });
            let _ = name.push_str(clad.unwrap_or(text));
            practice.material(&name).map_err(Refusal::Material)?
        };
        self.change_last_layer(|layer| layer.material = Some(material));
        Ok(())
    }

    fn change_last_layer(&mut self, change: impl FnOnce(&mut Layer)) {
        if let Some(layer) = self.answers.layers.last_mut() {
            change(layer);
        }
    }

    /// The hole as measured, else as the practice drills it; `None` where it names no drill.
    pub(crate) fn hole(&self, practice: &Practice<'_>) -> Option<Toleranced> {
        let assumed = || self.case().and_then(|case| practice.hole_for(&case));
        self.answers.hole.or_else(|| assumed().map(|hole| Toleranced::from_least(hole.value)))
    }

    /// A drill such as `#30`, or a length in the units of the session.
    fn measured_hole(&self, text: &str, units: Units) -> Result<Length, Refusal> {
        match units.length(text) {
            Ok(length) if length > Length::ZERO => Ok(length),
            Ok(_) => Err(Refusal::NotPositive),
            Err(_) => parse_hole(text).map_err(Refusal::Hole),
        }
    }

    /// What the practice is asked for.
    pub(crate) fn case(&self) -> Option<Case> {
        let rivet = self.answers.rivet?;
        Some(Case::of(rivet.series().head, rivet.alloy(), rivet.size()).in_rows(self.answers.rows))
    }

    /// The question in a few words, and the list to choose from where there is a short one.
    pub(crate) fn write_prompt(&self, question: Question, f: &mut dyn fmt::Write) -> fmt::Result {
        match question {
            Question::Rivet => f.write_str("rivet?"),
            Question::Alloy => f.write_str("alloy?"),
            Question::Diameter => f.write_str("diam. in 32nds?"),
            Question::Number => f.write_str("part number?"),
            Question::Thickness => write!(f, "layer {}?", self.answers.layers.len().saturating_add(1)),
            Question::Material => f.write_str("material?"),
            Question::Preparation => f.write_str("its hole?"),
            Question::Hole => f.write_str("hole?"),
            Question::HeadDiameter => f.write_str("head diameter?"),
            Question::HeadNarrowest => f.write_str("where narrowest?"),
            Question::HeadHeight => f.write_str("head height?"),
            Question::HeadLowest => f.write_str("where lowest?"),
            Question::CrackCount => f.write_str("cracks?"),
            Question::CrackFreeCircle => f.write_str("circle they reach?"),
            Question::CracksMeet => f.write_str("do any meet?"),
            Question::MarkDepth => f.write_str("mark, how deep?"),
            Question::MarkedHead => f.write_str("marked head, height?"),
            Question::Left => f.write_str(match self.answers.defect {
                Some(Defect::Low(_)) => "low by?",
                Some(Defect::Flattened(_)) => "height left?",
                Some(Defect::Shaved(_)) => "width left?",
                _ => "proud by?",
            }),
            Question::Feeler => f.write_str("feeler?"),
            Question::Rim => f.write_str("% of the rim?"),
            Question::OverDamage => f.write_str("longest over it?"),
            Question::CrackLength => f.write_str("crack, how long?"),
            Question::CorrosionLength => f.write_str("corroded, how long?"),
            Question::CorrosionDepth => f.write_str("how deep?"),
            Question::Defect => f.write_str("defect?"),
            Question::Major => f.write_str("hole, longest?"),
            Question::Minor => f.write_str("hole, shortest?"),
            Question::Damage => f.write_str("damage?"),
            Question::Edge => f.write_str("edge distance?"),
            Question::Pitch => f.write_str("pitch?"),
            Question::Transverse => f.write_str("between rows?"),
            Question::Rows => f.write_str("rows?"),
            Question::Member => f.write_str("member?"),
            Question::Shear => f.write_str("shear?"),
        }
    }

    /// What may be entered: a numbered list, or what nothing entered means. `all` asks for the long lists too.
    pub(crate) fn write_choices(&self, question: Question, all: bool, f: &mut dyn fmt::Write) -> fmt::Result {
        match question {
            Question::Rivet => {
                if let Some(rivet) = self.answers.rivet {
                    write!(f, "enter={rivet} ")?;
                }
                numbered(f, CATALOGUE.iter().map(|series| series.name))?;
                f.write_str("or a part number")
            }
            Question::Alloy => {
                let Some(series) = self.answers.series else { return Ok(()) };
                for (material, number) in series.materials.iter().zip(1_u8..) {
                    let (code, alloy) = (material.code, material.alloy.alloy());
                    write!(f, "{number}{FIXED_SPACE}{code}")?;
                    f.write_str(if code.is_empty() { "" } else { "\u{a0}" })?;
                    write!(f, "{alloy} ")?;
                }
                Ok(())
            }
            Question::Diameter => {
                let sizes: &[Size] = self.answers.series.map_or(&[], |series| series.sizes);
                for size in sizes {
                    write!(f, "{} ", size.dash)?;
                }
                Ok(())
            }
            Question::Number => f.write_str(if all { "such as MS20470AD4-6" } else { "" }),
            Question::Thickness if self.answers.layers.is_empty() => f.write_str("manufactured head side first"),
            Question::Thickness => f.write_str("enter=no more"),
            Question::Material => {
                match self.answers.layers.last().and_then(|layer| layer.material) {
                    Some(material) => write!(f, "enter={material} ")?,
                    None => f.write_str("enter=not known ")?,
                }
                if !all {
                    return f.write_str("?=list");
                }
                for (material, number) in Material::known().zip(1_u8..) {
                    let clad = if material.is_clad() { "C" } else { "" };
                    let dash = if material.temper().is_empty() { "" } else { "-" };
                    write!(f, "{number}{FIXED_SPACE}{clad}{}{dash}{} ", material.alloy(), material.temper())?;
                }
                Ok(())
            }
            Question::Preparation => numbered(f, Preparation::ALL.iter().map(|preparation| preparation.as_str())),
            Question::Hole => f.write_str("enter=as drilled"),
            Question::HeadDiameter => f.write_str("enter=limits only"),
            Question::HeadHeight | Question::Major | Question::MarkDepth => Ok(()),
            Question::Left | Question::Rim => Ok(()),
            Question::Feeler => f.write_str(match self.answers.defect {
                Some(Defect::SheetsApart | Defect::SheetsApartBy(_)) => "enter=not measured",
                _ => "the thickest that goes in",
            }),
            Question::HeadNarrowest => f.write_str("enter=round"),
            Question::HeadLowest => f.write_str("enter=even"),
            Question::CrackCount => f.write_str("enter=1"),
            Question::CrackFreeCircle
            | Question::CrackLength
            | Question::CorrosionLength
            | Question::CorrosionDepth => f.write_str("enter=not measured"),
            Question::CracksMeet => numbered(f, MEETING.iter().map(|(_, word)| *word)),
            Question::MarkedHead if self.head_height_nominal().is_some() => f.write_str("enter=as tabulated"),
            Question::MarkedHead => Ok(()),
            Question::OverDamage => f.write_str("enter=the longest"),
            Question::Defect => {
                for (defect, number) in DEFECTS.iter().zip(1_u8..) {
                    let word = defect.as_ref().map_or("none", |defect| defect.kind().as_str());
                    write!(f, "{number}{FIXED_SPACE}{} ", Spaced(word))?;
                }
                Ok(())
            }
            Question::Minor => f.write_str("enter=round"),
            Question::Damage => numbered(f, Damage::ALL.iter().map(|damage| damage.as_str())),
            Question::Edge if self.job == Job::Strength => Ok(()),
            Question::Edge | Question::Pitch | Question::Transverse => f.write_str("enter=not known"),
            Question::Rows => f.write_str("enter=1"),
            Question::Member => numbered(f, Member::ALL.iter().map(|member| member.as_str())),
            Question::Shear => numbered(f, SHEARS.iter().map(|(_, word)| *word)),
        }
    }

    /// The hole as measured, what is scored or drilled twice counted in.
    pub(crate) fn as_found(&self) -> Option<AsFound> {
        let answers = &self.answers;
        let major = answers.major?;
        let minor = answers.minor.unwrap_or(major);
        AsFound::new(self.over_damage().unwrap_or(major), minor, answers.damage).ok()
    }

    fn over_damage(&self) -> Option<Length> {
        let is_measured_over = matches!(self.answers.damage, Damage::FigureEight | Damage::Gouged);
        self.answers.over_damage.filter(|_| is_measured_over)
    }

    /// A crack or corrosion at the hole, which is also judged as damage of the sheet.
    pub(crate) fn damaged(&self) -> Option<Damaged> {
        let kind = match self.answers.damage {
            Damage::Cracked => DamageKind::Crack,
            Damage::Corroded => DamageKind::Corrosion,
            _ => return None,
        };
        let depth = self.answers.damage_depth.filter(|_| kind == DamageKind::Corrosion);
        // In which layer it is was not asked, so its share of one cannot be told.
        Some(Damaged::new(kind).length(self.answers.damage_length).depth(depth))
    }

    /// The head as measured; both measures or none.
    pub(crate) fn measured_head(&self) -> Option<(Interval, Interval)> {
        let answers = &self.answers;
        let between = |least: Option<Length>, max| Interval::of(least.unwrap_or(max), max);
        Some((
            between(answers.head_narrowest, answers.head_diameter?),
            between(answers.head_lowest, answers.head_height?),
        ))
    }
}

fn materials() -> u8 {
    u8::try_from(Material::known().len()).unwrap_or(u8::MAX)
}

/// `1 plain 2 countersunk`, each on one line.
pub(crate) fn numbered(f: &mut dyn fmt::Write, words: impl Iterator<Item = &'static str>) -> fmt::Result {
    for (word, number) in words.zip(1_u8..) {
        write!(f, "{number}{FIXED_SPACE}{word} ")?;
    }
    Ok(())
}

/// The entry of a list with this number, the first for nothing entered.
pub(crate) fn one_of<'l, T>(list: &'l [T], text: &str) -> Result<&'l T, Refusal> {
    let refusal = Refusal::OneOf(u8::try_from(list.len()).unwrap_or(u8::MAX));
    let number = if text.is_empty() { 1 } else { text.parse::<usize>().map_err(|_| refusal)? };
    number.checked_sub(1).and_then(|index| list.get(index)).ok_or(refusal)
}

fn not_above(least: Option<Length>, greatest: Option<Length>) -> Result<Option<Length>, Refusal> {
    match (least, greatest) {
        (Some(least), Some(greatest)) if least > greatest => Err(Refusal::AboveGreatest),
        _ => Ok(least),
    }
}

fn count(text: &str) -> Result<u8, Refusal> {
    const MOST: u8 = 99;
    text.parse().ok().filter(|count| (1..=MOST).contains(count)).ok_or(Refusal::Count)
}

#[cfg(test)]
mod tests {
    use super::*;
    use shophead::upset::DefectKind;

    #[test]
    fn every_kind_of_defect_can_be_entered_once() {
        for kind in DefectKind::ALL {
            let numbers = DEFECTS.iter().flatten().filter(|defect| defect.kind() == *kind).count();
            assert_eq!(numbers, 1, "{kind}");
        }
        assert_eq!(DEFECTS.len(), DefectKind::ALL.len() + 1);
    }
}
