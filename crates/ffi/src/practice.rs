//! Sets of limits: the built-in ones by name, a shop's own laid on top value by value.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use core::ffi::c_char;

use shophead::basis::{Basis, Document};
use shophead::length::{Length, Toleranced};
use shophead::material::{EnteredSheet, Material, RivetAlloy};
use shophead::practice::{
    Case, Dimension, EnterError, Entered, EnteredJoint, Entry, HANDBOOK, HeadScope, Key, LengthRounding, Limit,
    LimitKind, Name, PROCESS, ParseValueError, Practice, Scope, Value,
};
use shophead::quantity::{Force, Stress};
use shophead::rivet::part::Part;
use shophead::stack::Preparation;

use crate::basis::shophead_basis;
use crate::border::{In, Out, answer};
use crate::error::shophead_error;
use crate::error::shophead_error as E;
use crate::length::{length, optional, or_none, shophead_toleranced};
use crate::material::{material, number};
use crate::numbers::{numbered, value_of};
use crate::part::{case, rows, shophead_part};
use crate::text::{print, shophead_text};

/// A built-in set of limits. `shophead_number` gives the number for a name.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_built_in {
    /// `handbook`: AC 43.13-1B and FAA-H-8083-31B, with MIL-HDBK-5; where they are silent MIL-R-47196A(MI).
    SHOPHEAD_BUILT_IN_HANDBOOK = 1,
    /// `process`: MIL-R-47196A(MI); where it is silent AC 43.13-1B, FAA-H-8083-31B and MIL-HDBK-5.
    SHOPHEAD_BUILT_IN_PROCESS = 2,
}

/// The number of each practice.
pub(crate) static BUILT: [(shophead_built_in, &Practice<'static>); 2] = [
    (shophead_built_in::SHOPHEAD_BUILT_IN_HANDBOOK, &HANDBOOK),
    (shophead_built_in::SHOPHEAD_BUILT_IN_PROCESS, &PROCESS),
];

/// Which limit of a practice is meant. `shophead_word` gives the word that a limits file uses.
/// cbindgen:transparent-typedef
#[repr(transparent)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_limit_name(pub u32);
/// Heads a limit holds for; 0 for any.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_head_scope {
    /// Heads that stand proud.
    SHOPHEAD_HEAD_SCOPE_PROTRUDING = 1,
    /// Heads that lie in the sheet.
    SHOPHEAD_HEAD_SCOPE_FLUSH = 2,
    /// Flush heads in dimpled sheet.
    SHOPHEAD_HEAD_SCOPE_DIMPLED = 3,
    /// Any head, after a step up.
    SHOPHEAD_HEAD_SCOPE_ANY_AFTER_STEP_UP = 4,
    /// Heads that stand proud, after a step up.
    SHOPHEAD_HEAD_SCOPE_PROTRUDING_AFTER_STEP_UP = 5,
    /// Heads that lie in the sheet, after a step up.
    SHOPHEAD_HEAD_SCOPE_FLUSH_AFTER_STEP_UP = 6,
    /// Flush heads in dimpled sheet, after a step up.
    SHOPHEAD_HEAD_SCOPE_DIMPLED_AFTER_STEP_UP = 7,
}

impl shophead_head_scope {
    /// The heads that a number means, and whether only after a step up.
    fn read(number: u32) -> Result<(Option<HeadScope>, bool), E> {
        const SCOPES: [(shophead_head_scope, Option<HeadScope>, bool); 7] = [
            (shophead_head_scope::SHOPHEAD_HEAD_SCOPE_PROTRUDING, Some(HeadScope::Protruding), false),
            (shophead_head_scope::SHOPHEAD_HEAD_SCOPE_FLUSH, Some(HeadScope::Flush), false),
            (shophead_head_scope::SHOPHEAD_HEAD_SCOPE_DIMPLED, Some(HeadScope::Dimpled), false),
            (shophead_head_scope::SHOPHEAD_HEAD_SCOPE_ANY_AFTER_STEP_UP, None, true),
            (shophead_head_scope::SHOPHEAD_HEAD_SCOPE_PROTRUDING_AFTER_STEP_UP, Some(HeadScope::Protruding), true),
            (shophead_head_scope::SHOPHEAD_HEAD_SCOPE_FLUSH_AFTER_STEP_UP, Some(HeadScope::Flush), true),
            (shophead_head_scope::SHOPHEAD_HEAD_SCOPE_DIMPLED_AFTER_STEP_UP, Some(HeadScope::Dimpled), true),
        ];
        if number == 0 {
            return Ok((None, false));
        }
        let scope = SCOPES.iter().find(|(known, ..)| *known as u32 == number);
        scope.map(|(_, head, stepped)| (*head, *stepped)).ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)
    }
}

/// How a computed rivet length is rounded to one that exists.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_rounding {
    /// To the next longer standard length.
    SHOPHEAD_ROUNDING_LONGER = 1,
    /// To the nearest standard length; midway, to the longer.
    SHOPHEAD_ROUNDING_NEAREST = 2,
}

numbered! {
    LengthRounding, shophead_rounding [
        Longer = SHOPHEAD_ROUNDING_LONGER,
        Nearest = SHOPHEAD_ROUNDING_NEAREST,
    ]
}

/// What kind of value a limit has.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum shophead_value_kind {
    /// No limit.
    SHOPHEAD_VALUE_NONE = 0,
    /// A length by itself: `nm`.
    SHOPHEAD_VALUE_LENGTH = 1,
    /// So many nominal shank diameters and a length: `num / den` times the diameter, and `nm`.
    SHOPHEAD_VALUE_DIAMETERS = 2,
    /// The largest shank and a length: `nm` over it.
    SHOPHEAD_VALUE_OVER_SHANK = 3,
    /// A ratio or a share: `num / den`.
    SHOPHEAD_VALUE_FRACTION = 4,
    /// A whole number: `num`.
    SHOPHEAD_VALUE_COUNT = 5,
    /// A way of rounding: `num`, one of `enum shophead_rounding`.
    SHOPHEAD_VALUE_ROUNDING = 6,
    /// A length with its tolerance, for a figure by its key: `nm`, and so many nanometres more (`num`) or less (`den`).
    SHOPHEAD_VALUE_TOLERANCED = 7,
    /// A stress, for a figure by its key: `num` pounds per square inch.
    SHOPHEAD_VALUE_STRESS = 8,
    /// A force, for a figure by its key: `num / den` pounds.
    SHOPHEAD_VALUE_FORCE = 9,
    /// What a tested joint carries, for a figure by its key: `num` pounds at failure, `den` pounds at yield or 0 where that is not known, in a
    /// sheet that is `nm` thick.
    SHOPHEAD_VALUE_JOINT = 10,
}

const LENGTH: u32 = shophead_value_kind::SHOPHEAD_VALUE_LENGTH as u32;
const DIAMETERS: u32 = shophead_value_kind::SHOPHEAD_VALUE_DIAMETERS as u32;
const OVER_SHANK: u32 = shophead_value_kind::SHOPHEAD_VALUE_OVER_SHANK as u32;
const FRACTION: u32 = shophead_value_kind::SHOPHEAD_VALUE_FRACTION as u32;
const COUNT: u32 = shophead_value_kind::SHOPHEAD_VALUE_COUNT as u32;
const ROUNDING: u32 = shophead_value_kind::SHOPHEAD_VALUE_ROUNDING as u32;
const TOLERANCED: u32 = shophead_value_kind::SHOPHEAD_VALUE_TOLERANCED as u32;
const STRESS: u32 = shophead_value_kind::SHOPHEAD_VALUE_STRESS as u32;
const FORCE: u32 = shophead_value_kind::SHOPHEAD_VALUE_FORCE as u32;
const JOINT: u32 = shophead_value_kind::SHOPHEAD_VALUE_JOINT as u32;

/// The value of a limit. Members that its kind does not name are 0 and are not looked at.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct shophead_value {
    /// One of `enum shophead_value_kind`.
    pub kind: u32,
    /// Top of a multiple, ratio or share; a whole number; a way of rounding.
    pub num: u32,
    /// Bottom of a multiple, ratio or share; not 0.
    pub den: u32,
    /// Not used; 0.
    pub unused: u32,
    /// A length, or what is added to a multiple or to the shank.
    pub nm: i64,
}

impl shophead_value {
    fn of(value: Value) -> shophead_value {
        let (kind, num, den, nm) = value.for_c();
        shophead_value { kind, num, den, unused: 0, nm }
    }

    /// A length above zero for a figure by its key.
    fn toleranced(&self) -> Result<Toleranced, E> {
        let (above, below) = match self.kind {
            LENGTH => (0, 0),
            TOLERANCED => (self.num, self.den),
            _ => return Err(E::SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT),
        };
        let (above, below) = (length(i64::from(above))?, length(i64::from(below))?);
        Toleranced::new(length(self.nm)?, below, above).map_err(|_| not_a_value())
    }

    fn stress(&self) -> Result<Stress, E> {
        if self.kind == STRESS {
            Ok(Stress::from_psi(f64::from(self.num)))
        } else {
            Err(E::SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT)
        }
    }

    /// A fraction or a force.
    fn quotient(&self, kind: u32) -> Result<f64, E> {
        if self.kind != kind {
            return Err(E::SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT);
        }
        let found = f64::from(self.num) / f64::from(self.den);
        if found.is_finite() && found > 0.0 { Ok(found) } else { Err(not_a_value()) }
    }

    /// A value of the kind that the limit asks for, as the reader of a limits file would give it.
    fn read(&self, name: Name) -> Result<Value, E> {
        let (num, den) = (self.num, self.den);
        let nm = || {
            length(self.nm)
                .and_then(|nm| if nm < Length::ZERO { Err(ParseValueError::Negative.into()) } else { Ok(nm) })
        };
        let (kind, value) = match self.kind {
            LENGTH => (LimitKind::Length, Value::Length(nm()?)),
            DIAMETERS => (LimitKind::Length, Value::Diameters { num, den, plus: nm()? }),
            OVER_SHANK => (LimitKind::Length, Value::OverShank(nm()?)),
            FRACTION => (LimitKind::Fraction, Value::Fraction { num, den }),
            COUNT => (LimitKind::Count, Value::Count(num)),
            ROUNDING => (LimitKind::Rounding, Value::Rounding(value_of(num)?)),
            TOLERANCED | STRESS | FORCE | JOINT => return Err(E::SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT),
            _ => return Err(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER),
        };
        if matches!(self.kind, DIAMETERS | FRACTION) && den == 0 {
            Err(ParseValueError::NotARatio.into())
        } else if kind == name.kind() {
            Ok(value)
        } else {
            Err(E::SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT)
        }
    }
}

/// In the place of the name of a limit: a figure by the key that a finding names, as in `not on file`.
pub const SHOPHEAD_BY_KEY: u32 = 0xFFFF_FFFF;

/// One of a shop's own limits, from its own approved documents; or a figure that a finding says is not on file. Such a one has
/// `SHOPHEAD_BY_KEY` for its name, its key in `diameter_nm` (`whole` of the finding's limit, or what `shophead_key_parse` reads), 0 in `head`,
/// `alloy` and `rows`, and the figure in `value`: dimensions of a series and bend radii as lengths, strengths of sheets and of rivet alloys as
/// stresses, tension of a rivet as a force, a density as a fraction in pounds per cubic inch, a limit as what it is. A protruding head needs
/// its diameter and its height.
///
/// A tested joint, of a key that begins with `flush` or `plain`, has the sheet's material in `rows`, one of `enum shophead_preparation` in
/// `head` (of a plain joint 0 as well), and a value of kind `SHOPHEAD_VALUE_JOINT`. It was tested at an edge distance of two diameters unless
/// another figure of the same key stands right behind it, a length: the edge distance.
///
/// Figures of a material that is not on file make it one of the shop's own: `SHOPHEAD_OWN_MATERIAL`.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_limit {
    /// Which, one of `enum shophead_limit_name`, or `SHOPHEAD_BY_KEY`.
    pub name: u32,
    /// Only for these heads, one of `enum shophead_head_scope`; 0 for any.
    pub head: u32,
    /// Only for this rivet alloy, one of `enum shophead_alloy`; 0 for any.
    pub alloy: u32,
    /// Only for patterns of so many rows; 0 for any.
    pub rows: u32,
    /// Only for this nominal shank diameter; `SHOPHEAD_NONE` for any. Of a figure its key.
    pub diameter_nm: i64,
    /// How much.
    pub value: shophead_value,
    /// The document that it stands in. The caller's; findings that rest on this limit point to it.
    pub document: shophead_text,
    /// The place in the document; may be empty. The caller's, as above.
    pub place: shophead_text,
}

impl shophead_limit {
    /// What a figure is for; `None` of a limit by its name.
    fn entry(&self) -> Result<Option<Entry>, E> {
        if self.name != SHOPHEAD_BY_KEY {
            return Ok(None);
        }
        let key = Key::from_number(self.diameter_nm.cast_unsigned());
        let entry = key.and_then(Key::entry).ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)?;
        let is_joint = self.value.kind == JOINT && matches!(entry, Entry::FlushJoint(..) | Entry::PlainJoint(..));
        if self.alloy != 0 || !is_joint && (self.head, self.rows) != (0, 0) {
            return Err(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER);
        }
        Ok(Some(entry))
    }

    /// The material that a figure by its key is of.
    fn material(&self) -> Result<Material, E> {
        match self.entry()? {
            Some(Entry::Sheet(material, _) | Entry::BendRadius(material) | Entry::Density(material)) => Ok(material),
            _ => Err(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER),
        }
    }

    fn document(&self) -> Result<Document<'_>, E> {
        Ok(Document { document: self.document.read()?, place: self.place.read()? })
    }

    /// The limit and its document, which has this place in the practice's list; no limit where it is another figure.
    fn read(&self, place: usize) -> Result<(Option<Limit>, Document<'_>), E> {
        let basis = Basis::own(place);
        match self.entry()? {
            None => {}
            Some(Entry::Limit(name)) => {
                let limit = Limit::new(name, Scope::ANY, self.value.read(name)?, basis);
                return Ok((Some(limit), self.document()?));
            }
            Some(_) => return Ok((None, self.document()?)),
        }
        let name: Name = value_of(self.name)?;
        let (head, stepped) = shophead_head_scope::read(self.head)?;
        let scope = Scope::ANY
            .head(head)
            .stepped(stepped)
            .alloy(if self.alloy == 0 { None } else { Some(value_of::<RivetAlloy>(self.alloy)?) })
            .diameter(optional(self.diameter_nm)?)
            .rows(if self.rows == 0 { None } else { Some(rows(self.rows)?) });
        // A diameter left at 0 would make a limit that never holds.
        if scope.diameter.is_some_and(|diameter| diameter <= Length::ZERO) {
            return Err(E::SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE);
        }
        Ok((Some(Limit::new(name, scope, self.value.read(name)?, basis)), self.document()?))
    }
}

/// A material of the shop's own: this, and the place in the practice's list, from 0, of a figure by its key of that material. Such a number is
/// good wherever that practice is handed over too.
pub const SHOPHEAD_OWN_MATERIAL: u32 = 0x8000_0000;

/// The material under a number, which may be one of these figures'.
fn material_among(number: u32, own: &[shophead_limit]) -> Result<Material, E> {
    match number.checked_sub(SHOPHEAD_OWN_MATERIAL) {
        None => material(number),
        Some(place) => {
            let named = usize::try_from(place).ok().and_then(|place| own.get(place));
            named.ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)?.material()
        }
    }
}

/// The most limits of a shop's own that one practice takes.
pub const SHOPHEAD_MAX_OWN_LIMITS: usize = 64;

/// A set of limits: a built-in one, and a shop's own on top of it. A limit of the shop's comes before any built-in one for the same
/// case. It holds no memory of its own: it may be copied, and threads may share it.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_practice {
    /// The set underneath, one of `enum shophead_built_in`.
    pub built_in: u32,
    /// Not used; 0.
    pub unused: u32,
    /// The shop's own limits, the caller's; may be NULL where there are none. They and their texts must last while the practice is used.
    pub own: In<shophead_limit>,
    /// How many; at most `SHOPHEAD_MAX_OWN_LIMITS`.
    pub own_count: usize,
}

impl shophead_practice {
    /// Calls `f` with the practice.
    pub(crate) fn with<R>(&self, f: impl for<'p> FnOnce(&'p Practice<'p>) -> Result<R, E>) -> Result<R, E> {
        let built = BUILT.iter().find(|(number, _)| *number as u32 == self.built_in);
        let (_, built) = built.ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)?;
        match self.own.list(self.own_count)? {
            [] => f(built),
            own => with_own(built, own, f),
        }
    }

    /// The material under a number, 0 for one that is not known.
    pub(crate) fn material(&self, number: u32) -> Result<Option<Material>, E> {
        if number == 0 { Ok(None) } else { material_among(number, self.own.list(self.own_count)?).map(Some) }
    }

    /// The number of a material: of one that is on file, or of one that a figure is of.
    pub(crate) fn number_of(&self, material: Material) -> Result<u32, E> {
        if !material.is_own() {
            return Ok(number(Some(material)));
        }
        let own = self.own.list(self.own_count)?;
        let place = own.iter().position(|figure| figure.material() == Ok(material));
        let place = place.and_then(|place| u32::try_from(place).ok());
        place.map(|place| SHOPHEAD_OWN_MATERIAL | place).ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)
    }
}

/// Out of line: the limits take six kilobytes of stack, which a practice without any need not have.
#[inline(never)]
fn with_own<R>(
    built: &Practice<'static>,
    limits: &[shophead_limit],
    f: impl for<'p> FnOnce(&'p Practice<'p>) -> Result<R, E>,
) -> Result<R, E> {
    let mut own = heapless::Vec::<Limit, SHOPHEAD_MAX_OWN_LIMITS>::new();
    let mut documents = heapless::Vec::<Document<'_>, SHOPHEAD_MAX_OWN_LIMITS>::new();
    for (place, limit) in limits.iter().enumerate() {
        let (limit, document) = limit.read(place)?;
        if let Some(limit) = limit {
            own.push(limit).map_err(|_| E::SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE)?;
        }
        documents.push(document).map_err(|_| E::SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE)?;
    }
    let practice = built.with_own(&own, &documents);
    if own.len() == limits.len() { f(&practice) } else { with_figures(&practice, limits, f) }
}

/// Out of line as well: a shop's figures take some forty kilobytes of stack, which limits alone need not have.
#[inline(never)]
fn with_figures<R>(
    practice: &Practice<'_>,
    figures: &[shophead_limit],
    f: impl for<'p> FnOnce(&'p Practice<'p>) -> Result<R, E>,
) -> Result<R, E> {
    let mut entered = Entered::new();
    for (place, figure) in figures.iter().enumerate() {
        if let Some(entry) = figure.entry()? {
            enter(&mut entered, figures, place, entry)?;
        }
    }
    f(&practice.with_entered(&entered))
}

/// `SHOPHEAD_ERROR_NOT_A_VALUE`.
fn not_a_value() -> E {
    ParseValueError::NotARatio.into()
}

fn refused(error: EnterError) -> E {
    match error {
        EnterError::Full => E::SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE,
        _ => not_a_value(),
    }
}

/// Enters a figure, with whatever of the list belongs to the same head or sheet.
fn enter(entered: &mut Entered, figures: &[shophead_limit], place: usize, entry: Entry) -> Result<(), E> {
    let Some(figure) = figures.get(place) else { return Ok(()) };
    let (value, basis) = (&figure.value, Basis::own(place));
    match entry {
        Entry::Size(series, dash, Dimension::Shank) => {
            entered.shank(series, dash, value.toleranced()?, basis).map_err(refused)?;
        }
        Entry::Size(series, dash, _) => {
            let of_head = |dimension| {
                let is_it = |other: &&shophead_limit| {
                    matches!(other.entry(), Ok(Some(Entry::Size(of, size, known)))
                        if of.name == series.name && size == dash && known == dimension)
                };
                figures.iter().find(is_it).map(|other| other.value.toleranced()).transpose()
            };
            let (diameter, height) = (of_head(Dimension::HeadDiameter)?, of_head(Dimension::HeadHeight)?);
            entered.head(series, dash, diameter, height, basis).map_err(refused)?;
        }
        Entry::Sheet(material, _) | Entry::BendRadius(material) | Entry::Density(material) => {
            if entered.sheets().iter().any(|sheet| sheet.material() == material) {
                // It came with an earlier one of the same sheet.
                return Ok(());
            }
            let mut sheet = EnteredSheet::new(material, basis);
            for other in figures {
                sheet = match other.entry()? {
                    Some(Entry::Sheet(of, property)) if of == material => sheet.with(property, other.value.stress()?),
                    Some(Entry::BendRadius(of)) if of == material => {
                        sheet.with_bend_radius(other.value.toleranced()?.nominal())
                    }
                    Some(Entry::Density(of)) if of == material => {
                        sheet.with_density_lb_in3(other.value.quotient(FRACTION)?)
                    }
                    _ => sheet,
                };
            }
            entered.sheet(sheet).map_err(refused)?;
        }
        Entry::Shear(alloy) => entered.shear(alloy, value.stress()?, basis).map_err(refused)?,
        Entry::Tension(series, alloy, dash) => {
            let size = series.size(dash).ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)?;
            let code = series.material_of(alloy).ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)?.code;
            let force = Force::from_lbf(value.quotient(FORCE)?);
            entered.tension(&Part::new(series, code, size)?, force, basis).map_err(refused)?;
        }
        Entry::FlushJoint(series, alloy, dash) | Entry::PlainJoint(series, alloy, dash) => {
            if value.kind == LENGTH {
                // The edge distance of the joint before it.
                let of_joint = place.checked_sub(1).and_then(|before| figures.get(before));
                let is_of_it = of_joint.is_some_and(|joint| {
                    joint.name == SHOPHEAD_BY_KEY
                        && joint.diameter_nm == figure.diameter_nm
                        && joint.value.kind == JOINT
                });
                return if is_of_it { Ok(()) } else { Err(E::SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT) };
            }
            let size = series.size(dash).ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)?;
            let code = series.material_of(alloy).ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)?.code;
            let part = Part::new(series, code, size)?;
            let (is_plain, seat) = (matches!(entry, Entry::PlainJoint(..)), figure.head);
            let seat = if is_plain && seat == 0 { Preparation::Plain } else { value_of(seat)? };
            if is_plain != (seat == Preparation::Plain) {
                return Err(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER);
            }
            entered.joint(tested(&part, seat, figures, place)?).map_err(refused)?;
        }
        Entry::Limit(_) => {}
        _ => return Err(E::SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT),
    }
    Ok(())
}

/// The tested joint at a place of the list.
fn tested(
    part: &Part<'static>,
    seat: Preparation,
    figures: &[shophead_limit],
    place: usize,
) -> Result<EnteredJoint, E> {
    let Some(figure) = figures.get(place) else { return Err(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER) };
    let value = &figure.value;
    if value.kind != JOINT {
        return Err(E::SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT);
    }
    let material = material_among(figure.rows, figures)?;
    let pounds = |number: u32| Force::from_lbf(f64::from(number));
    let joint = EnteredJoint::new(part, seat, (material, length(value.nm)?), pounds(value.num), Basis::own(place));
    let joint = if value.den == 0 { joint } else { joint.yielding_at(pounds(value.den)) };
    let edge = place.checked_add(1).and_then(|behind| figures.get(behind)).filter(|behind| {
        (behind.name, behind.diameter_nm, behind.value.kind) == (SHOPHEAD_BY_KEY, figure.diameter_nm, LENGTH)
    });
    Ok(match edge {
        Some(edge) => joint.at_edge(length(edge.value.nm)?),
        None => joint,
    })
}

/// Reads a key of a limits file: `series.NAS1241.head_height.4`, `material.A286.tension_ultimate`, `flush.MS20426AD4`, `limit.pitch-least`. A
/// material that is not on file is one of a shop's own.
///
/// Takes: `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `key`, for `diameter_nm` of a `shophead_limit` by its key; the number
/// holds while the library is loaded and may be another in another version of it.
///
/// Errors: `SHOPHEAD_ERROR_NOT_A_KEY` (`shophead_explain` says why), `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_NULL`,
/// `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_key_parse(text: In<c_char>, length: usize, key: Out<i64>) -> shophead_error {
    answer(|| {
        let place = key.place()?;
        place.put(Key::parse(text.text(length)?)?.number().cast_signed());
        Ok(())
    })
}

/// Prints a key as a limits file writes it.
///
/// Takes: `key`, from `shophead_key_parse` or `whole` of a finding's limit. Writes: the text into `buffer`, which has room for `capacity` bytes,
/// with a zero byte after it; its length without the zero byte into `length`. Both are the caller's.
///
/// Errors: `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_key_print(
    key: i64,
    buffer: Out<c_char>,
    capacity: usize,
    length: Out<usize>,
) -> shophead_error {
    answer(|| {
        let key = Key::from_number(key.cast_unsigned()).ok_or(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER)?;
        print(&key, buffer, capacity, length)
    })
}

/// Reads the value of a limit as a limits file writes it: `.163`, `1.5 D`, `2 D + 1/16`, `shank + .004`, `2/3`, `20 %`, `10`, `nearest`.
///
/// Takes: `name`, one of `enum shophead_limit_name`; `text`, `length` bytes of UTF-8; the caller's, not kept. Writes: `value`.
///
/// Errors: `SHOPHEAD_ERROR_NOT_A_VALUE`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_NULL`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_value_parse(
    name: u32,
    text: In<c_char>,
    length: usize,
    value: Out<shophead_value>,
) -> shophead_error {
    answer(|| {
        let place = value.place()?;
        let read = Value::parse(value_of(name)?, text.text(length)?)?;
        place.put(shophead_value::of(read));
        Ok(())
    })
}

/// Prints the value of a limit as a limits file writes it.
///
/// Takes: `name`, one of `enum shophead_limit_name`; `value`, the caller's. Writes: the text into `buffer`, which has room for `capacity`
/// bytes, with a zero byte after it; its length without the zero byte into `length`. Both are the caller's.
///
/// Errors: `SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT`, `SHOPHEAD_ERROR_NOT_A_VALUE`, `SHOPHEAD_ERROR_UNKNOWN_NUMBER`,
/// `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_value_print(
    name: u32,
    value: In<shophead_value>,
    buffer: Out<c_char>,
    capacity: usize,
    length: Out<usize>,
) -> shophead_error {
    answer(|| print(&value.one()?.read(value_of(name)?)?, buffer, capacity, length))
}

/// A limit that applies to a case.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_applies {
    /// The value as the practice has it; its kind is `SHOPHEAD_VALUE_NONE` where no limit applies.
    pub value: shophead_value,
    /// The value as a length, where it is one: so many diameters worked out. `SHOPHEAD_NONE` otherwise.
    pub length_nm: i64,
    /// Where it comes from.
    pub basis: shophead_basis,
}

/// The limit of a practice that applies to a rivet in a pattern.
///
/// Takes: `practice`; `name`, one of `enum shophead_limit_name`; `part`, whose length does not matter; `rows` of the pattern, 1 to 255.
/// Practice and part are the caller's. Writes: `applies`.
///
/// Errors: `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE`, those of a shop's own limits, those of a part,
/// `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_practice_find(
    practice: In<shophead_practice>,
    name: u32,
    part: In<shophead_part>,
    rows: u32,
    applies: Out<shophead_applies>,
) -> shophead_error {
    answer(|| {
        let place = applies.place()?;
        let name: Name = value_of(name)?;
        let case = case(&part.one()?.read()?, rows)?;
        place.put(practice.one()?.with(|practice| Ok(shophead_applies::of(practice, name, &case)))?);
        Ok(())
    })
}

/// The limit of a practice that applies to a rivet which took the place of a smaller one in its hole.
///
/// Takes: as `shophead_practice_find`; `dimpled`, 1 where the sheets under a flush head are dimpled, otherwise 0. Writes: `applies`.
///
/// Errors: as `shophead_practice_find`; `SHOPHEAD_ERROR_UNKNOWN_NUMBER` where `dimpled` is neither 0 nor 1.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_practice_find_after_step_up(
    practice: In<shophead_practice>,
    name: u32,
    part: In<shophead_part>,
    rows: u32,
    dimpled: u32,
    applies: Out<shophead_applies>,
) -> shophead_error {
    answer(|| {
        let place = applies.place()?;
        let name: Name = value_of(name)?;
        let case = case(&part.one()?.read()?, rows)?.stepped_up();
        let case = match dimpled {
            0 => case,
            1 => case.in_dimples(),
            _ => return Err(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER),
        };
        place.put(practice.one()?.with(|practice| Ok(shophead_applies::of(practice, name, &case)))?);
        Ok(())
    })
}

impl shophead_applies {
    fn of(practice: &Practice<'_>, name: Name, case: &Case) -> shophead_applies {
        let none = shophead_value { kind: 0, num: 0, den: 0, unused: 0, nm: 0 };
        let found = practice.find(name, case);
        shophead_applies {
            value: found.map_or(none, |limit| shophead_value::of(limit.value)),
            length_nm: or_none(practice.length(name, case).map(|given| given.value)),
            basis: found.map_or(shophead_basis::NONE, |limit| shophead_basis::of(limit.basis, practice.documents())),
        }
    }
}

/// The hole to count on where none was measured: as drilled with the practice's drill, at most at its limit; where the practice knows
/// none, one as wide as the shank.
///
/// Takes: `practice`; `part`, whose length does not matter; both the caller's. Writes: `hole`, with the least as the nominal one;
/// `basis`, where it comes from.
///
/// Errors: as `shophead_practice_find`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_practice_hole(
    practice: In<shophead_practice>,
    part: In<shophead_part>,
    hole: Out<shophead_toleranced>,
    basis: Out<shophead_basis>,
) -> shophead_error {
    answer(|| {
        let (hole, basis) = (hole.place()?, basis.place()?);
        let case = case(&part.one()?.read()?, 1)?;
        let (assumed, stands) = practice.one()?.with(|practice| {
            let assumed = practice.assumed_hole(&case);
            Ok((Toleranced::from_least(assumed.value), shophead_basis::of(assumed.basis, practice.documents())))
        })?;
        hole.put(shophead_toleranced::of(assumed));
        basis.put(stands);
        Ok(())
    })
}

#[cfg(test)]
mod tests {
    use shophead::finding::Code;
    use shophead::installation::Installation;
    use shophead::joint::combined::Carries;
    use shophead::joint::strength::Allowable;
    use shophead::material::{Material, Property};
    use shophead::practice::Value as CoreValue;
    use shophead::repair::bend;
    use shophead::stack::Stack;

    use super::*;

    fn figure(key: Key, kind: shophead_value_kind, (num, den): (u32, u32), nm: i64) -> shophead_limit {
        shophead_limit {
            name: SHOPHEAD_BY_KEY,
            head: 0,
            alloy: 0,
            rows: 0,
            diameter_nm: key.number().cast_signed(),
            value: shophead_value { kind: kind as u32, num, den, unused: 0, nm },
            document: shophead_text::of("part standard in the shop"),
            place: shophead_text::of("sheet 2"),
        }
    }

    fn with<R>(own: &[shophead_limit], f: impl FnOnce(&Practice<'_>) -> R) -> Result<R, E> {
        with_own(&HANDBOOK, own, |practice| Ok(f(practice)))
    }

    #[test]
    fn what_a_finding_names_is_entered_by_its_key() {
        let layers = Stack::parse("2024-T3:.080:countersunk, 2024-T3:.125").unwrap();
        let rivet = Part::parse("NAS1241AD4").unwrap();
        let between = |practice: &Practice<'_>| {
            let answer = Installation::new(rivet, &layers).by(practice).length().unwrap();
            answer.findings.iter().find(|finding| finding.code() == Code::HeadBetween).copied()
        };
        let key = between(&HANDBOOK).and_then(|finding| finding.key()).expect("a key");
        let height = figure(key, shophead_value_kind::SHOPHEAD_VALUE_LENGTH, (0, 0), 914_400);
        assert_eq!(with(&[height], between), Ok(None));
        // The document comes with it.
        let cited = with(&[height], |practice| {
            let size = practice.rivet(rivet).size().head.expect("a head");
            practice.cite(size.basis).document == "part standard in the shop"
        });
        assert_eq!(cited, Ok(true));
    }

    #[test]
    fn every_kind_of_figure_is_entered_and_a_wrong_one_is_refused() {
        use shophead_value_kind as Kind;
        let material = Material::parse("2024-T36").unwrap();
        let part = Part::parse("MS20470AD4").unwrap();
        let thickness = Length::parse(".040").unwrap();
        let (tension, bearing) =
            (Key::of_sheet(material, Property::TensionUltimate), Key::of_sheet(material, Property::BearingUltimate20));
        let own = [
            figure(tension, Kind::SHOPHEAD_VALUE_STRESS, (64_000, 0), 0),
            figure(bearing, Kind::SHOPHEAD_VALUE_STRESS, (120_000, 0), 0),
            figure(Key::of_density(material), Kind::SHOPHEAD_VALUE_FRACTION, (1, 10), 0),
            figure(Key::of_bend_radius(material), Kind::SHOPHEAD_VALUE_LENGTH, (0, 0), 3_175_000),
            figure(Key::of_shear(part.alloy()), Kind::SHOPHEAD_VALUE_STRESS, (28_000, 0), 0),
            figure(Key::of_tension(&part).unwrap(), Kind::SHOPHEAD_VALUE_FORCE, (120, 1), 0),
            figure(
                Key::of_size(&part, Dimension::Shank).unwrap(),
                Kind::SHOPHEAD_VALUE_TOLERANCED,
                (25_400, 25_400),
                3_175_000,
            ),
            figure(Key::of_limit(Name::CrackLengthGreatest), Kind::SHOPHEAD_VALUE_LENGTH, (0, 0), 6_350_000),
        ];
        let found = with(&own, |practice| {
            let sheet = practice.sheet(material, thickness);
            let shear = Allowable { force: Force::from_lbf(1.0), basis: Basis::own(0) };
            assert_eq!(sheet.ftu().map(|ftu| ftu.psi()), Some(64_000.0));
            assert_eq!(sheet.fbru_20().map(|fbru| fbru.psi()), Some(120_000.0));
            assert_eq!(sheet.density_lb_in3().map(|(density, _)| density), Some(0.1));
            let radius = bend::least_radius(material, thickness, practice).expect("a radius");
            assert_eq!(radius.value.min().nanometres(), 3_175_000);
            assert_eq!(practice.entered_shear(part.alloy()).map(|(shear, _)| shear.psi()), Some(28_000.0));
            assert_eq!(Carries::of(&part, shear, practice).tension.map(|tension| tension.force.lbf()), Some(120.0));
            let shank = practice.rivet(part).size().shank.expect("a shank");
            assert_eq!((shank.min().nanometres(), shank.max().nanometres()), (3_149_600, 3_200_400));
            practice.find(Name::CrackLengthGreatest, &Case::for_part(&part)).map(|limit| limit.value)
        });
        assert_eq!(found, Ok(Some(CoreValue::Length(Length::parse("1/4").unwrap()))));
        for (own, error) in [
            (figure(tension, Kind::SHOPHEAD_VALUE_LENGTH, (0, 0), 1), E::SHOPHEAD_ERROR_VALUE_NOT_FOR_LIMIT),
            (figure(Key::of_shear(part.alloy()), Kind::SHOPHEAD_VALUE_STRESS, (0, 0), 0), not_a_value()),
            (shophead_limit { diameter_nm: 0, ..own[0] }, E::SHOPHEAD_ERROR_UNKNOWN_NUMBER),
            (shophead_limit { rows: 1, ..own[0] }, E::SHOPHEAD_ERROR_UNKNOWN_NUMBER),
        ] {
            assert_eq!(with(&[own], |_| ()), Err(error), "{own:?}");
        }
    }
}
