//! What a check found.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use core::ffi::c_char;
use core::num::NonZeroU8;

use shophead::basis::{Citation, Document};
use shophead::fact::Facts;
use shophead::finding::{Figure, Finding, Findings};
use shophead::practice::Key;
use shophead::quantity::{Force, Stress};
use shophead::words::Units;

use crate::basis::shophead_basis;
use crate::border::{In, Out, Places, answer};
use crate::error::shophead_error;
use crate::error::shophead_error as E;
use crate::force::finite;
use crate::length::length;
use crate::numbers::value_of;
use crate::text::print;

/// How serious a finding is.
/// cbindgen:transparent-typedef
#[repr(transparent)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_severity(pub u32);

/// What kind of finding it is. `shophead_word` gives the word that other outputs of the project use for it.
/// cbindgen:transparent-typedef
#[repr(transparent)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_code(pub u32);
/// What a figure counts.
/// cbindgen:transparent-typedef
#[repr(transparent)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_figure_kind(pub u32);

/// One line a kind: name, number, what it is.
macro_rules! kinds {
    ($( $name:ident = $number:literal, $meaning:literal; )+) => {
        impl shophead_figure_kind {
            $(
                #[doc = $meaning]
                pub const $name: shophead_figure_kind = shophead_figure_kind($number);
            )+
        }

        /// The kinds: name in the header, number, what it is.
        pub static KINDS: &[(&str, u32, &str)] = &[$( (stringify!($name), $number, $meaning), )+];
    };
}

kinds! {
    SHOPHEAD_FIGURE_NONE = 0, "There is no figure.";
    SHOPHEAD_FIGURE_LENGTH = 1, "A length: nanometres in `whole`.";
    SHOPHEAD_FIGURE_FORCE = 2, "A force: pounds in `number`.";
    SHOPHEAD_FIGURE_STRESS = 3, "A stress: pounds per square inch in `number`.";
    SHOPHEAD_FIGURE_RATIO = 4, "A plain ratio, such as an edge margin or a margin of safety, in `number`. Of a limit `whole` is the key of a figure that can be entered in its place, as of `SHOPHEAD_FIGURE_KEY`, or 0.";
    SHOPHEAD_FIGURE_COUNT = 5, "A number of things in `whole`.";
    SHOPHEAD_FIGURE_FACTS = 6, "Facts that were not given: one bit each in `whole`, from the lowest layers, material, edge distance, pitch, row spacing, minor axis.";
    SHOPHEAD_FIGURE_KEY = 7, "What is not on file and can be entered in a limits file, as a number in `whole`; a sentence names it.";
}

/// A figure in a finding; the member that its kind does not name is 0.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_figure {
    /// What it counts, and which member holds it.
    pub kind: shophead_figure_kind,
    /// Nanometres, or a number of things.
    pub whole: i64,
    /// Pounds, pounds per square inch, or a ratio.
    pub number: f64,
}

impl shophead_figure {
    fn read(&self) -> Result<Option<Figure>, E> {
        use shophead_figure_kind as Kind;
        Ok(match self.kind {
            Kind::SHOPHEAD_FIGURE_NONE => None,
            Kind::SHOPHEAD_FIGURE_LENGTH => Some(Figure::Length(length(self.whole)?)),
            Kind::SHOPHEAD_FIGURE_FORCE => Some(Figure::Force(Force::from_lbf(finite(self.number)?))),
            Kind::SHOPHEAD_FIGURE_STRESS => Some(Figure::Stress(Stress::from_psi(finite(self.number)?))),
            Kind::SHOPHEAD_FIGURE_RATIO => Some(Figure::Ratio(finite(self.number)?)),
            Kind::SHOPHEAD_FIGURE_COUNT => {
                let count = u32::try_from(self.whole).map_err(|_| E::SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE)?;
                Some(Figure::Count(count))
            }
            Kind::SHOPHEAD_FIGURE_FACTS => {
                let bits = u8::try_from(self.whole).map_err(|_| E::SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE)?;
                Some(Figure::Facts(Facts::from_bits(bits)))
            }
            Kind::SHOPHEAD_FIGURE_KEY => {
                let number = self.whole.cast_unsigned();
                Some(Figure::Key(Key::from_number(number).ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)?))
            }
            _ => return Err(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER),
        })
    }

    fn of(figure: Option<Figure>) -> shophead_figure {
        let (kind, whole, number) = figure.map_or((0, 0, 0.0), Figure::for_c);
        shophead_figure { kind: shophead_figure_kind(kind), whole, number }
    }

    /// The limit of a finding, with the key of what can be entered in place of a ratio.
    fn limit_of(finding: &Finding) -> shophead_figure {
        let limit = shophead_figure::of(finding.limit());
        match (limit.kind, finding.key()) {
            (shophead_figure_kind::SHOPHEAD_FIGURE_RATIO, Some(key)) => {
                shophead_figure { whole: key.number().cast_signed(), ..limit }
            }
            _ => limit,
        }
    }

    /// The key beside a ratio.
    fn key(&self) -> Result<Option<Key>, E> {
        if self.kind != shophead_figure_kind::SHOPHEAD_FIGURE_RATIO || self.whole == 0 {
            return Ok(None);
        }
        Key::from_number(self.whole.cast_unsigned()).map(Some).ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)
    }
}

/// One finding.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_finding {
    /// What kind.
    pub code: shophead_code,
    /// How serious.
    pub severity: shophead_severity,
    /// The layer it concerns, counted from 1 on the side of the manufactured head; 0 where it concerns no single one.
    pub layer: u32,
    /// What was measured or computed, where a figure tells it.
    pub measured: shophead_figure,
    /// The limit it was checked against, where that is a figure.
    pub limit: shophead_figure,
    /// Where the limit comes from.
    pub basis: shophead_basis,
}

/// Which findings of the caller's array belong to an answer.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_span {
    /// The place of the first in the array, counted from 0.
    pub first: u32,
    /// How many.
    pub count: u32,
    /// 1 where all are there, 0 where there were more than `SHOPHEAD_MAX_FINDINGS`; the less serious ones are then missing.
    pub complete: u32,
}

/// An array of so many findings holds those of any function that does not say otherwise.
pub const SHOPHEAD_MAX_FINDINGS: usize = 36;

/// The caller's array of findings, filled from the start.
pub(crate) struct Sink<'o> {
    places: Places<'o, shophead_finding>,
    filled: usize,
}

impl<'o> Sink<'o> {
    pub(crate) fn new(findings: &'o Out<shophead_finding>, capacity: usize) -> Result<Sink<'o>, E> {
        Ok(Sink { places: findings.places(capacity)?, filled: 0 })
    }

    /// An error unless all of these go in. Called before anything is written.
    pub(crate) fn need<'f, const N: usize>(&self, all: impl IntoIterator<Item = &'f Findings<N>>) -> Result<(), E> {
        self.need_room(all.into_iter().map(|findings| findings.iter().len()).fold(0, usize::saturating_add))
    }

    /// An error unless so many go in. Called before anything is written.
    pub(crate) fn need_room(&self, count: usize) -> Result<(), E> {
        self.places.need(count)
    }

    /// Writes these, and tells where they stand.
    pub(crate) fn put<const N: usize>(&mut self, findings: &Findings<N>, documents: &[Document<'_>]) -> shophead_span {
        let narrow = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
        let first = narrow(self.filled);
        for finding in findings {
            self.places.put(self.filled, one(finding, documents));
            self.filled = self.filled.saturating_add(1);
        }
        shophead_span { first, count: narrow(findings.iter().len()), complete: u32::from(findings.is_complete()) }
    }
}

fn one(finding: &Finding, documents: &[Document<'_>]) -> shophead_finding {
    shophead_finding {
        code: finding.code().into(),
        severity: finding.severity().into(),
        layer: finding.layer().map_or(0, u32::from),
        measured: shophead_figure::of(finding.measured()),
        limit: shophead_figure::limit_of(finding),
        basis: shophead_basis::of(finding.basis(), documents),
    }
}

/// One answer whose findings are all it says: they are checked for room, written, and their span goes to its place.
pub(crate) fn put_findings(
    findings: &Findings,
    documents: &[Document<'_>],
    list: Out<shophead_finding>,
    capacity: usize,
    span: Out<shophead_span>,
) -> Result<(), E> {
    let place = span.place()?;
    let mut sink = Sink::new(&list, capacity)?;
    sink.need([findings])?;
    place.put(sink.put(findings, documents));
    Ok(())
}

/// The units that figures are written in.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_units {
    /// Inches, as the trade writes them, and pounds.
    SHOPHEAD_UNITS_INCHES = 1,
    /// Millimetres and newtons.
    SHOPHEAD_UNITS_MILLIMETRES = 2,
}

/// How much of a finding is said.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_saying {
    /// What was found and what to do about it.
    SHOPHEAD_SAYING_SENTENCE = 1,
    /// What was found only.
    SHOPHEAD_SAYING_REASON = 2,
    /// A few words for a screen of 16 to 40 columns.
    SHOPHEAD_SAYING_SHORT = 3,
}

/// Writes what a finding says: the same words as every other output of the project.
///
/// Takes: `finding`, as one of the functions here wrote it; `units`, one of `enum shophead_units`; `saying`, one of
/// `enum shophead_saying`. Writes: the words into `buffer`, which has room for `capacity` bytes, with a zero byte after them; their length
/// without the zero byte into `length`. `SHOPHEAD_TEXT_MAX` bytes always suffice, but for the texts of a shop's own documents, which the words
/// hold where a document is what is missing.
///
/// Errors: `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, also where the code is `SHOPHEAD_CODE_UNKNOWN`; `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`,
/// `SHOPHEAD_ERROR_NOT_FINITE` and `SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE` for a figure or a layer that no finding has; `SHOPHEAD_ERROR_NOT_UTF8`,
/// `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_finding_say(
    finding: In<shophead_finding>,
    units: u32,
    saying: u32,
    buffer: Out<c_char>,
    capacity: usize,
    length: Out<usize>,
) -> shophead_error {
    const INCHES: u32 = shophead_units::SHOPHEAD_UNITS_INCHES as u32;
    const MILLIMETRES: u32 = shophead_units::SHOPHEAD_UNITS_MILLIMETRES as u32;
    const SENTENCE: u32 = shophead_saying::SHOPHEAD_SAYING_SENTENCE as u32;
    const REASON: u32 = shophead_saying::SHOPHEAD_SAYING_REASON as u32;
    const SHORT: u32 = shophead_saying::SHOPHEAD_SAYING_SHORT as u32;
    answer(|| {
        let asked = finding.one()?;
        let units = match units {
            INCHES => Units::Inches,
            MILLIMETRES => Units::Millimetres,
            _ => return Err(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER),
        };
        let layer = u8::try_from(asked.layer).map_err(|_| E::SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE)?;
        let status = value_of(asked.basis.status.0)?;
        let (code, severity) = (value_of(asked.code.0)?, value_of(asked.severity.0)?);
        let (layer, measured, limit) = (NonZeroU8::new(layer), asked.measured.read()?, asked.limit.read()?);
        let found = Finding::read_back(code, severity, status, layer, measured, limit).or_enter(asked.limit.key()?);
        let cited = Citation { document: asked.basis.document.read()?, place: asked.basis.place.read()?, status };
        let said = match saying {
            SENTENCE => found.sentence(units),
            REASON => found.reason(units),
            SHORT => found.short(units),
            _ => return Err(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER),
        };
        print(&said.citing(cited), buffer, capacity, length)
    })
}
