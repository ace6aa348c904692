//! Reading layers from a list.

use core::fmt;

use super::{Layer, Preparation, Role, Stack, StackError};
use crate::length::{Length, ParseLengthError, Toleranced};
use crate::material::{Material, ParseMaterialError};
use crate::practice::Practice;

/// Why a text is not a list of layers: in which item, counted from 1, and what is wrong with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct ParseStackError {
    /// Which item of the list.
    pub item: usize,
    /// What is wrong with it.
    pub kind: LayerErrorKind,
}

crate::words::errors! {
    /// What is wrong with a layer in a list.
    LayerErrorKind = (28, "not-layers", "A text is not a list of layers.",
        "not a list of layers", "right would be 2024-T3:.032, 2024-T3:.040")
    {
        Material(error: ParseMaterialError), "layer-material", "The material cannot be read.",
            "{error} (character 1)", "";
        UnknownWord { at: usize, "Where, counted from 1." },
            "layer-word", "Something behind the thickness that is neither a preparation nor a role, at this character.",
            "this cannot follow a thickness (character {at})", "right would be {}" (Words);
        NoThickness { material: Material, "The material."; at: usize, "Where, counted from 1." },
            "layer-without-thickness", "A material without a thickness, which is missing at this character.",
            "the thickness is missing (character {at})", "right would be {material}:.032";
        Zero, "layer-zero", "A plain `0`, as a decimal comma leaves it.",
            "a layer cannot be 0 thick", "write the decimal point, as in .032";
        | Thickness(ParseLengthError), "The thickness cannot be read.";
        | Stack(StackError), "The layer does not go on the stack.";
    }
}

/// Every word that may stand behind a thickness.
#[cfg(feature = "words")]
struct Words;

#[cfg(feature = "words")]
impl fmt::Display for Words {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let preparations = Preparation::ALL.iter().map(|preparation| preparation.as_str());
        crate::words::write_list(f, preparations.chain(Role::ALL.iter().map(|role| role.as_str())))
    }
}

crate::words::of_kind!(ParseStackError, LayerErrorKind);

impl fmt::Display for ParseStackError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "layer {}: {}", self.item, self.kind)
    }
}

impl core::error::Error for ParseStackError {}

impl Layer {
    /// Reads one layer: `MATERIAL:THICKNESS:WORDS`, all but the thickness optional. The words are a preparation or a role.
    ///
    /// # Errors
    /// [`LayerErrorKind`].
    ///
    /// ```
    /// use shophead::stack::{Layer, Preparation, Role};
    /// let skin = Layer::parse("clad 2024-T3:.040+-.001:countersunk")?;
    /// assert_eq!((skin.role, skin.preparation), (Role::Skin, Preparation::Countersunk));
    /// assert_eq!(Layer::parse(".005:sealant")?.role, Role::Sealant);
    /// # Ok::<(), shophead::stack::LayerErrorKind>(())
    /// ```
    pub fn parse(text: &str) -> Result<Layer, LayerErrorKind> {
        Layer::parse_by(text, &Material::parse)
    }

    fn parse_by(text: &str, read: &ReadMaterial<'_>) -> Result<Layer, LayerErrorKind> {
        let text = text.trim();
        let mut layer = Layer::of(Toleranced::exactly(Length::ZERO));
        let mut rest = text;
        // Words behind the thickness, from the last one on.
        while let Some((before, last)) = split_last(rest) {
            let word = last.trim();
            let is_word = |known: &str| known.eq_ignore_ascii_case(word);
            if let Some(preparation) = Preparation::ALL.iter().find(|known| is_word(known.as_str())) {
                layer.preparation = *preparation;
            } else if let Some(role) = Role::ALL.iter().find(|known| is_word(known.as_str())) {
                layer.role = *role;
            } else if word.starts_with(|c: char| c.is_alphabetic()) {
                return Err(LayerErrorKind::UnknownWord { at: character(before).saturating_add(1) });
            } else {
                break;
            }
            rest = before;
        }
        let (material, thickness) =
            split_last(rest).map_or((None, rest), |(material, thickness)| (Some(material), thickness));
        if let Some(material) = material {
            layer.material = Some(read(material).map_err(LayerErrorKind::Material)?);
        } else if !thickness.starts_with('.')
            && let Ok(material) = read(thickness)
        {
            return Err(LayerErrorKind::NoThickness { material, at: character(rest) });
        }
        let start = material.map_or(0, character);
        let blanks = thickness.chars().take_while(|c| c.is_whitespace()).count();
        layer.thickness = Toleranced::parse(thickness.trim()).map_err(|error| {
            let at = error.at.saturating_add(start).saturating_add(blanks);
            LayerErrorKind::Thickness(ParseLengthError { at, ..error })
        })?;
        if layer.thickness.nominal() == Length::ZERO && thickness.trim() == "0" {
            return Err(LayerErrorKind::Zero);
        }
        Ok(layer)
    }
}

/// How the material of a layer is read.
type ReadMaterial<'m> = dyn Fn(&str) -> Result<Material, ParseMaterialError> + 'm;

/// To split by: by the character itself, the compiler leaves a panic in.
fn is_comma(c: char) -> bool {
    c == ','
}

impl Stack {
    /// Reads layers from a list with commas between, the side of the manufactured head first: `.032, clad 2024-T3:.040, .250+-.005`.
    ///
    /// # Errors
    /// [`ParseStackError`].
    ///
    /// ```
    /// use shophead::stack::Stack;
    /// let layers = Stack::parse("2024-T3:.063:countersunk, .005:sealant, 2024-T3:.125")?;
    /// assert_eq!(layers.layers().len(), 3);
    /// let error = Stack::parse(".032, 2024-T3").unwrap_err();
    /// # #[cfg(feature = "words")]
    /// assert_eq!(error.to_string(), "layer 2: the thickness is missing (character 8); right would be 2024-T3:.032");
    /// # Ok::<(), shophead::stack::ParseStackError>(())
    /// ```
    pub fn parse(text: &str) -> Result<Stack, ParseStackError> {
        Stack::parse_by(text, &Material::parse)
    }

    fn parse_by(text: &str, read: &ReadMaterial<'_>) -> Result<Stack, ParseStackError> {
        let mut stack = Stack::new();
        for (item, text) in (1..).zip(text.split(is_comma)) {
            let layer = Layer::parse_by(text, read).map_err(|kind| ParseStackError { item, kind })?;
            stack.push(layer).map_err(|error| ParseStackError { item, kind: LayerErrorKind::Stack(error) })?;
        }
        Ok(stack)
    }
}

impl Practice<'_> {
    /// Reads layers as [`Stack::parse`] does; their materials may also be those that the shop entered figures for.
    ///
    /// # Errors
    /// As [`Stack::parse`].
    ///
    /// ```
    /// use shophead::basis::Basis;
    /// use shophead::material::{EnteredSheet, Material, Property};
    /// use shophead::practice::{Entered, HANDBOOK};
    /// use shophead::quantity::Stress;
    /// let mut entered = Entered::new();
    /// let sheet = EnteredSheet::new(Material::own("2219-T87")?, Basis::own(0));
    /// entered.sheet(sheet.with(Property::TensionUltimate, Stress::from_ksi(63.0)))?;
    /// let layers = HANDBOOK.with_entered(&entered).layers("2219-T87:.063, 2024-T3:.125")?;
    /// assert_eq!(layers.layers().len(), 2);
    /// assert!(HANDBOOK.layers("2219-T87:.063, 2024-T3:.125").is_err());
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    pub fn layers(&self, text: &str) -> Result<Stack, ParseStackError> {
        Stack::parse_by(text, &|text| self.material(text))
    }
}

/// What stands before the last colon and behind it.
fn split_last(text: &str) -> Option<(&str, &str)> {
    let colon = text.bytes().rposition(|byte| byte == b':')?;
    Some((text.get(..colon)?, text.get(colon.saturating_add(1)..)?))
}

/// The character behind a text, counted from 1.
fn character(before: &str) -> usize {
    before.chars().count().saturating_add(1)
}

#[cfg(all(test, feature = "words"))]
mod tests {
    extern crate std;
    use super::*;
    use std::string::ToString;

    #[test]
    fn every_refusal_says_what_is_wrong_and_what_would_be_right() {
        for (list, sentence) in [
            (
                ".032, 2024-T3:.040:wavy",
                "layer 2: this cannot follow a thickness (character 14); right would be plain, countersunk, dimpled, skin, doubler, \
                 cap, rib-flange, stringer, tab, shim or sealant",
            ),
            ("2024-T3", "layer 1: the thickness is missing (character 8); right would be 2024-T3:.032"),
            (".032, 0", "layer 2: a layer cannot be 0 thick; write the decimal point, as in .032"),
        ] {
            assert_eq!(Stack::parse(list).map_err(|error| error.to_string()), Err(sentence.into()), "{list}");
        }
    }
}
