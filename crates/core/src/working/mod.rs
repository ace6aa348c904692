//! The working behind an answer, step by step, so that somebody can redo it by hand and sign it.
//!
//! Each [`WorkedStep`] has an [`Equation`] (name and formula), the figures put into it, each with where it stands, and the result. A figure comes from a
//! document, from the shop, or from a step before: [`Origin`] says which.
//!
//! The steps are made from the question and its own answer: what an answer holds is taken from it, and what lies between is asked of the same
//! functions that made it. Nobody is handed a step who has not asked: an answer without its working costs nothing more.
//!
//! | function | shows |
//! |---|---|
//! | [`joint::of`] | what one rivet carries, its margins |
//! | [`joint::of_row`] | what rows carry, how they share it, their margins |
//! | [`between_rivets`] | the sheets between the rivets in compression |
//! | [`group::of`] | the shares of a group and its worst rivet |
//! | [`splice::of`] | how many rivets a splice needs, and in which rows |
//! | [`length::of`] | a length, and the head that it makes |
//! | [`hole::of`] | what becomes of a hole |
//! | [`strip::of`] | rows that are counted one by one |
//! | [`repair`] | patches, splices, seams of a panel, rows for a margin, bends |
//!
//! A formula is written with × for times, ² and ³, π, √( ), min( ), max( ), sum( ), and Σ( ) over what is listed once for every rivet;
//! up( ) and down( ) round to a whole number, near( ) to the nearest; ^ is to the power of, and ln, sinh, cosh and asinh are
//! as on a pocket calculator. `…` is every figure that is put in.

pub(crate) mod besides;
pub mod group;
pub mod hole;
pub mod joint;
pub mod length;
pub mod repair;
pub(crate) mod shares;
pub mod splice;
pub mod strip;
mod table;

use core::fmt::{self, Write};

use crate::basis::Basis;
use crate::length::Length;
use crate::material::Guarantee;
use crate::quantity::{Flexibility, Force, Mass, Stress};
use crate::words::Units;

pub use besides::between_rivets;
pub use table::{EQUATIONS, Equation, Symbol};
pub(crate) use table::{basis, rules, symbols};

/// What a value is of: how it is held, and its unit in either system.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum Kind {
    /// Inches.
    Length,
    /// Square inches.
    Area,
    /// Cubic inches.
    Volume,
    /// Pounds.
    Force,
    /// Pounds an inch.
    RunningLoad,
    /// Pounds per square inch.
    Stress,
    /// Inch-pounds.
    Moment,
    /// So many an inch or a millimetre.
    PerUnit,
    /// Inches per pound.
    Flexibility,
    /// Pounds of mass.
    Mass,
    /// Pounds of mass per cubic inch.
    Density,
    /// Degrees.
    Degrees,
    /// A plain number.
    Number,
    /// A number of things.
    Count,
}

impl Kind {
    /// The unit; empty for a plain number.
    #[must_use]
    pub const fn unit(self, units: Units) -> &'static str {
        match (self, units) {
            (Kind::Length, Units::Inches) => "in",
            (Kind::Length, Units::Millimetres) => "mm",
            (Kind::Area, Units::Inches) => "in²",
            (Kind::Area, Units::Millimetres) => "mm²",
            (Kind::Volume, Units::Inches) => "in³",
            (Kind::Volume, Units::Millimetres) => "mm³",
            (Kind::Force, Units::Inches) => "lbf",
            (Kind::Force, Units::Millimetres) => "N",
            (Kind::RunningLoad, Units::Inches) => "lbf/in",
            (Kind::RunningLoad, Units::Millimetres) => "N/mm",
            (Kind::Stress, Units::Inches) => "psi",
            (Kind::Stress, Units::Millimetres) => "MPa",
            (Kind::Moment, Units::Inches) => "in-lbf",
            (Kind::Moment, Units::Millimetres) => "N mm",
            (Kind::PerUnit, Units::Inches) => "/in",
            (Kind::PerUnit, Units::Millimetres) => "/mm",
            (Kind::Flexibility, Units::Inches) => "in/lbf",
            (Kind::Flexibility, Units::Millimetres) => "mm/N",
            (Kind::Mass, Units::Inches) => "lb",
            (Kind::Mass, Units::Millimetres) => "g",
            (Kind::Density, Units::Inches) => "lb/in³",
            (Kind::Density, Units::Millimetres) => "g/mm³",
            (Kind::Degrees, _) => "degrees",
            (Kind::Number | Kind::Count, _) => "",
        }
    }

    /// One of the held unit in millimetres, newtons and grams.
    fn metric(self) -> f64 {
        let (mm, newton, gram) = (25.4, Force::from_lbf(1.0).newtons(), Mass::from_lb(1.0).grams());
        match self {
            Kind::Length => mm,
            Kind::Area => mm * mm,
            Kind::Volume => mm * mm * mm,
            Kind::Force => newton,
            Kind::RunningLoad => newton / mm,
            Kind::Stress => newton / (mm * mm),
            Kind::Moment => newton * mm,
            Kind::PerUnit => mm.recip(),
            Kind::Flexibility => mm / newton,
            Kind::Mass => gram,
            Kind::Density => gram / (mm * mm * mm),
            Kind::Degrees | Kind::Number | Kind::Count => 1.0,
        }
    }
}

/// A figure of the working: a number and what it is of.
///
/// ```
/// use shophead::length::Length;
/// use shophead::quantity::Force;
/// use shophead::words::Units;
/// use shophead::working::Quantity;
/// let hole = Quantity::of(Length::parse(".1285")?);
/// assert_eq!((hole.shown(Units::Inches).to_string(), hole.kind().unit(Units::Inches)), ("0.1285".into(), "in"));
/// assert_eq!(hole.shown(Units::Millimetres).to_string(), "3.2639");
/// // Six figures: enough to redo the next step with.
/// assert_eq!(Quantity::of(Force::from_lbf(389.067_352)).shown(Units::Inches).to_string(), "389.067");
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Quantity {
    kind: Kind,
    held: f64,
}

impl Quantity {
    /// A figure as it is held: in inches, pounds, degrees.
    #[must_use]
    pub const fn new(kind: Kind, held: f64) -> Quantity {
        Quantity { kind, held }
    }

    /// Of a typed quantity.
    #[must_use]
    pub fn of(quantity: impl Into<Quantity>) -> Quantity {
        quantity.into()
    }

    /// A plain number.
    #[must_use]
    pub const fn number(number: f64) -> Quantity {
        Quantity { kind: Kind::Number, held: number }
    }

    /// So many.
    #[must_use]
    pub fn count(count: impl Into<f64>) -> Quantity {
        Quantity { kind: Kind::Count, held: count.into() }
    }

    /// What it is of.
    #[must_use]
    pub const fn kind(self) -> Kind {
        self.kind
    }

    /// The number in inches and pounds, or in millimetres, newtons and grams.
    #[must_use]
    pub fn number_in(self, units: Units) -> f64 {
        match units {
            Units::Inches => self.held,
            Units::Millimetres => self.held * self.kind.metric(),
        }
    }

    /// The number as it is printed, without its unit: a length exactly as far as six decimals go, anything else with six figures.
    #[must_use]
    pub fn shown(self, units: Units) -> ShownQuantity {
        ShownQuantity { number: self.number_in(units), is_length: self.kind == Kind::Length }
    }
}

macro_rules! values {
    ($( $from:ty, $kind:ident, $read:ident; )+) => { $(
        impl core::convert::From<$from> for Quantity {
            fn from(quantity: $from) -> Quantity {
                Quantity { kind: Kind::$kind, held: quantity.$read() }
            }
        }
    )+ };
}

values! {
    Length, Length, to_inches_f64;
    Force, Force, lbf;
    Stress, Stress, psi;
    Mass, Mass, lb;
    Flexibility, Flexibility, in_per_lbf;
}

/// The number of a [`Quantity`], printed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShownQuantity {
    number: f64,
    is_length: bool,
}

/// How many figures are printed.
const FIGURES: i32 = 6;

impl fmt::Display for ShownQuantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Zero has no sign.
        let number = if self.number == 0.0 { 0.0 } else { self.number };
        let size = libm::fabs(number);
        let before = if size >= 1.0 { libm::floor(libm::log10(size)) as i32 } else { 0 };
        let after = if size > 0.0 && size < 1.0 { -libm::floor(libm::log10(size)) as i32 } else { 0 };
        if after > FIGURES || before > 11 {
            return write!(f, "{number:.5e}");
        }
        let decimals = match (self.is_length, size < 1.0) {
            (true, _) => FIGURES,
            (false, true) => FIGURES.saturating_sub(1).saturating_add(after.max(1)),
            (false, false) => FIGURES.saturating_sub(1).saturating_sub(before).max(0),
        };
        // Zeros at the end say nothing.
        let mut text = heapless::String::<64>::new();
        write!(text, "{number:.decimals$}", decimals = usize::try_from(decimals).unwrap_or(0))?;
        let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
        f.write_str(if text == "-0" { "0" } else { text })
    }
}

/// Where a figure comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Origin {
    /// A document, common practice, memory, or as it was given: what the basis cites; and how the handbook guarantees it, where it does.
    Basis(Basis, Option<Guarantee>),
    /// The result of a step, by its number, counted from 1.
    Step(u16),
}

/// Several figures put in as one: one for every rivet, in their order.
pub type Each<'e> = &'e dyn Fn(usize) -> Option<Quantity>;

/// A figure put into a formula.
#[derive(Clone, Copy)]
#[non_exhaustive]
pub struct Input<'e> {
    /// What stands for it in the formula, and what that means.
    pub symbol: Symbol,
    /// What it is; of several, the first.
    pub value: Quantity,
    /// All of several.
    pub each: Option<Each<'e>>,
    /// Where it comes from.
    pub origin: Origin,
    /// What it belongs to, where that is another than the step's.
    pub about: About,
}

impl fmt::Debug for Input<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Input")
            .field("symbol", &self.symbol)
            .field("value", &self.value)
            .field("origin", &self.origin)
            .finish()
    }
}

impl<'e> Input<'e> {
    /// A figure from a document or from the shop.
    #[must_use]
    pub fn new(symbol: Symbol, value: impl Into<Quantity>, basis: Basis) -> Input<'static> {
        Input { symbol, value: value.into(), each: None, origin: Origin::Basis(basis, None), about: About::Whole }
    }

    /// As it was given.
    #[must_use]
    pub fn given(symbol: Symbol, value: impl Into<Quantity>) -> Input<'static> {
        Input::new(symbol, value, Basis::AS_GIVEN)
    }

    /// The same, guaranteed as the handbook says.
    #[must_use]
    pub const fn guaranteed(self, guarantee: Guarantee) -> Input<'e> {
        match self.origin {
            Origin::Basis(basis, _) => Input { origin: Origin::Basis(basis, Some(guarantee)), ..self },
            Origin::Step(_) => self,
        }
    }

    /// The same, of this.
    #[must_use]
    pub const fn about(self, about: About) -> Input<'e> {
        Input { about, ..self }
    }

    /// The same by another symbol.
    #[must_use]
    pub const fn called(self, symbol: Symbol) -> Input<'e> {
        Input { symbol, ..self }
    }
}

/// What a step or a figure is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum About {
    /// All of it.
    Whole,
    /// A layer, counted from 1 on the side of the manufactured head.
    Layer(u8),
    /// A rivet, counted from 1.
    Rivet(u32),
    /// A row, counted from 1.
    Row(u16),
    /// A leg, counted from 1.
    Leg(u8),
    /// A row in a layer, each counted from 1.
    RowOfLayer(u16, u8),
    /// A row between two layers, each counted from 1.
    RowOfPlane(u16, u8),
    /// Something with a name of its own.
    Named(&'static str),
    /// One of several of a name, counted from 1.
    Numbered(&'static str, u16),
    /// A factory seam of a side, each counted from 1.
    FactorySeam(u16, u16),
}

/// What it is about in a few words; nothing for all of it.
impl fmt::Display for About {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            About::Whole => Ok(()),
            About::Layer(layer) => write!(f, "sheet {layer}"),
            About::Rivet(rivet) => write!(f, "rivet {rivet}"),
            About::Row(row) => write!(f, "row {row}"),
            About::Leg(leg) => write!(f, "leg {leg}"),
            About::RowOfLayer(row, layer) => write!(f, "row {row}, sheet {layer}"),
            About::RowOfPlane(row, plane) => write!(f, "row {row}, plane {plane}"),
            About::Named(name) => f.write_str(name),
            About::Numbered(name, number) => write!(f, "{name} {number}"),
            About::FactorySeam(side, seam) => write!(f, "side {side}, factory seam {seam}"),
        }
    }
}

/// One step.
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub struct WorkedStep<'e> {
    /// Which, counted from 1.
    pub number: u16,
    /// Its name and formula.
    pub rule: &'static Equation,
    /// What it is about.
    pub about: About,
    /// The figures put in, in the order in which they stand in the formula.
    pub figures: &'e [Input<'e>],
    /// How many each list among them has.
    pub listed: usize,
    /// What comes out.
    pub result: Quantity,
}

/// Takes the steps as they are made.
pub struct Working<'w> {
    say: &'w mut dyn FnMut(&WorkedStep<'_>),
    number: u16,
    about: About,
}

impl<'w> Working<'w> {
    /// Hands every step to `say`.
    pub fn new(say: &'w mut dyn FnMut(&WorkedStep<'_>)) -> Working<'w> {
        Working { say, number: 0, about: About::Whole }
    }

    /// From here on steps of the whole are of this.
    pub fn of(&mut self, about: About) {
        self.about = about;
    }

    /// A step; its result is a figure for the next ones.
    pub(crate) fn step(
        &mut self,
        rule: &'static Equation,
        about: About,
        figures: &[Input<'_>],
        result: impl Into<Quantity>,
    ) -> Input<'static> {
        self.step_over(rule, about, figures, 0, result)
    }

    /// A step with lists among its figures.
    pub(crate) fn step_over(
        &mut self,
        rule: &'static Equation,
        about: About,
        figures: &[Input<'_>],
        listed: usize,
        result: impl Into<Quantity>,
    ) -> Input<'static> {
        self.number = self.number.saturating_add(1);
        let about = if about == About::Whole { self.about } else { about };
        let step = WorkedStep { number: self.number, rule, about, figures, listed, result: result.into() };
        (self.say)(&step);
        Input { symbol: rule.result, value: step.result, each: None, origin: Origin::Step(self.number), about }
    }
}

impl Input<'_> {
    /// The number as it is held.
    pub(crate) fn held(&self) -> f64 {
        self.value.held
    }
}

#[cfg(test)]
mod tests {
    use core::fmt::Write as _;

    use super::*;

    #[test]
    fn a_figure_says_its_symbol_its_value_and_where_it_comes_from() {
        let symbol = Symbol { text: "t", meaning: "thickness" };
        let mut text = heapless::String::<512>::new();
        write!(text, "{:?}", Input::given(symbol, Quantity::number(0.125))).unwrap();
        for part in ["thickness", "0.125", "origin"] {
            assert!(text.contains(part), "{text}");
        }
    }

    #[test]
    fn a_number_is_printed_as_it_would_be_written() {
        let said = |kind, held| {
            let mut text = heapless::String::<64>::new();
            write!(text, "{}", Quantity::new(kind, held).shown(Units::Inches)).unwrap();
            text
        };
        for (held, number, length) in [
            (0.0, "0", "0"),
            (-0.0, "0", "0"),
            (1.0, "1", "1"),
            (-0.125, "-0.125", "-0.125"),
            (0.1234567, "0.123457", "0.123457"),
            (0.001234567, "0.00123457", "0.001235"),
            (0.0000001, "1.00000e-7", "1.00000e-7"),
            (0.0000012345678, "0.00000123457", "0.000001"),
            (9.999994, "9.99999", "9.999994"),
            (12.3456789, "12.3457", "12.345679"),
            (123456.7, "123457", "123456.7"),
            (100000.0, "100000", "100000"),
            (99999999999.0, "99999999999", "99999999999"),
            (999999999999.0, "999999999999", "999999999999"),
            (1.0e12, "1.00000e12", "1.00000e12"),
            (-2.5e-9, "-2.50000e-9", "-2.50000e-9"),
        ] {
            assert_eq!((said(Kind::Number, held).as_str(), said(Kind::Length, held).as_str()), (number, length));
        }
    }
}
