//! A layer as it is written in a list.

use shophead::length::{Bare, Length, ParseLengthError, Toleranced};
use shophead::material::Material;
use shophead::stack::{Layer, Preparation, Role};

/// Reads one layer of a list, `MATERIAL:THICKNESS:WORDS`, all but the thickness optional: `.032`, `2024-T3:.032+-.002`,
/// `clad 2024-T3:.063:countersunk:skin`. The words are those of [`Preparation`] and [`Role`]; a layer without a role is skin.
///
/// `material_of` knows the materials, and the names that a job gives them. A number without a unit is what `bare` says.
///
/// # Errors
/// One sentence: what, at which character, and what would be right.
///
/// ```
/// use shophead::length::Bare;
/// use shophead::material::Material;
/// use shophead_job::read::read_layer;
/// let known = |text: &str| Material::parse(text).map_err(|error| error.to_string());
/// let layer = read_layer("clad 2024-T3:.063+-.002:countersunk", Bare::Inches, &known)?;
/// assert_eq!(layer.thickness.max().to_string(), "0.065");
/// let error = read_layer("2024-T3:40", Bare::Inches, &known).unwrap_err();
/// assert_eq!(error, "40 in is thick for a layer (character 9); did you mean .040? If it is so thick, write 40in");
/// # Ok::<(), String>(())
/// ```
pub fn read_layer(
    item: &str,
    bare: Bare,
    material_of: &dyn Fn(&str) -> Result<Material, String>,
) -> Result<Layer, String> {
    let mut layer = Layer::of(Toleranced::exactly(Length::ZERO));
    let mut rest = item;
    // Words behind the thickness, from the last one on.
    while let Some((before, last)) = rest.rsplit_once(':') {
        if last.starts_with(|c: char| c == '.' || c.is_ascii_digit()) {
            // No word, but the thickness.
            break;
        }
        let word = last.trim().to_ascii_lowercase();
        if let Ok(preparation) = word.parse() {
            layer.preparation = preparation;
        } else if let Ok(role) = word.parse() {
            layer.role = role;
        } else if word.starts_with(|c: char| c.is_alphabetic()) {
            let preparations = Preparation::ALL.iter().map(|preparation| preparation.as_str());
            let words: Vec<&str> = preparations.chain(Role::ALL.iter().map(|role| role.as_str())).collect();
            let at = character(before).saturating_add(1);
            return Err(format!("this cannot follow a thickness (character {at}); right would be {}", or(&words)));
        } else {
            break;
        }
        rest = before;
    }
    let (material, thickness) = match rest.rsplit_once(':') {
        Some((material, thickness)) => (Some(material), thickness),
        None => (None, rest),
    };
    let read = Toleranced::parse_thickness(thickness.trim(), bare);
    if let Some(material) = material {
        layer.material = Some(material_of(material.trim()).map_err(|error| match error.split_once("; ") {
            Some((what, right)) => format!("{what} (character 1); {right}"),
            None => format!("{error} (character 1)"),
        })?);
    } else if read.is_err()
        && let Ok(material) = material_of(thickness)
    {
        return Err(format!(
            "the thickness is missing (character {}); right would be {material}:.032",
            character(rest)
        ));
    }
    layer.thickness = read.map_err(|error| {
        let start = material.map_or(0, character);
        let blanks = thickness.chars().take_while(|c| c.is_whitespace()).count();
        ParseLengthError::new(error.at.saturating_add(start).saturating_add(blanks), error.kind).to_string()
    })?;
    if layer.thickness.nominal() == Length::ZERO && thickness.trim() == "0" {
        return Err("a layer needs a thickness above zero; a decimal is written with a point, as in .032".to_owned());
    }
    Ok(layer)
}

/// The character behind a text, counted from 1.
fn character(before: &str) -> usize {
    before.chars().count().saturating_add(1)
}

/// `a, b or c`.
fn or(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [only] => (*only).to_owned(),
        [before @ .., last] => format!("{} or {last}", before.join(", ")),
    }
}
