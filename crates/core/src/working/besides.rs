//! Beside shear in the sheets: along the axis of the rivet, between the rivets in compression, and what a rivet weighs, step by step.

use super::joint::of_sheet;
use super::{About, Input, Kind, Quantity, Working, rules, symbols};
use crate::basis::Basis;
use crate::installation::Installation;
use crate::joint::buckling::lowest_modulus;
use crate::joint::modes;
use crate::joint::strength::JointStrength;
use crate::length::Length;
use crate::material::Property;
use crate::practice::Name;
use crate::quantity::{Force, Mass, Stress};
use crate::rivet::mass::{cap_in3, cylinder_in3, frustum_in3, mass_each};
use crate::rivet::part::Part;
use crate::squeeze::flow_law;

symbols! {
    FSU = "Fsu", "shear strength of the sheet";
    HEAD_ON = "Dh", "diameter of the head that the sheet holds";
    THICKNESS = "t", "thickness of the sheet";
    PULL = "Th", "pull that tears the head through the sheet, an upper bound";
    SHEAR = "Ps", "shear of the rivet in all planes";
    PLANES = "n", "planes in which the rivet is sheared";
    THIN = "k", "factor on shear for thin sheet";
    ONE_PLANE = "P1", "shear of the rivet in one plane";
    FIFTH = "b", "part of the shear that a rivet may be pulled with";
    OF_SHEAR = "Tb", "that part of its shear";
    TENSION = "Tm", "the most that the rivet is to be pulled with";
    HEAD = "dh", "driven head to aim at";
    SHANK = "D", "nominal shank diameter";
    STRAIN = "x", "strain of the driven head";
    LAW = "Kf", "strength of the alloy as it is upset";
    HARDENS = "m", "how it hardens";
    SQUEEZE = "S", "force that forms the head";
    SCATTER = "v", "how far the tests lie beside the law";
    SQUEEZE_LEAST = "Sl", "force that forms the head, at least";
    SQUEEZE_MOST = "Sg", "force that forms the head, at most: choose the squeezer by it";
    FIXITY = "c", "how firmly the heads hold the sheet";
    MODULUS = "E", "modulus of the sheet in compression, the lowest that is published";
    PITCH = "p", "distance from rivet to rivet";
    ELASTIC = "Fe", "stress at which the sheet buckles between its rivets, elastic";
    SHARE = "v", "part of the compression yield up to which that holds";
    FCY = "Fcy", "compression yield of the sheet";
    UP_TO = "Fm", "stress up to which that holds";
    STANDS = "Fb", "compression that the sheet is sure to stand";
    COMPRESSION = "Fc", "compression asked about";
    PITCH_MOST = "px", "largest pitch for it";
    HEAD_DIAMETER = "A", "diameter of the manufactured head";
    HEAD_HEIGHT = "h", "height of the manufactured head";
    HEAD_VOLUME = "Vh", "volume of the head";
    LENGTH = "L", "length of the rivet";
    SHANK_VOLUME = "Vs", "volume of the shank";
    DENSITY = "g", "density of the rivet";
    EACH = "me", "mass of one rivet, an estimate";
}

rules! { LIST:
    THROUGH = "pull-through", "Pull that tears the head through the sheet", PULL, "Fsu × π × Dh × t";
    OF_ONE_PLANE = "shear-of-one-plane", "Shear of the rivet in one plane, thin sheet left out", ONE_PLANE, "Ps / n / k";
    OF_ONE_PLANE_THICK = "shear-of-one-plane-thick", "Shear of the rivet in one plane", ONE_PLANE, "Ps / n";
    PART_OF_SHEAR = "tension-of-shear", "What a rivet may be pulled with, by its shear", OF_SHEAR, "b × P1", TENSION_SHARE;
    TENSION_LEAST = "tension-most", "The most that the rivet is to be pulled with", TENSION, "min(…)";
    STRAINED = "head-strain", "Strain of the driven head", STRAIN, "2 × ln(dh / D)", SQUEEZE_TESTS;
    SQUEEZED = "squeeze", "Force that forms the head", SQUEEZE, "π / 4 × dh² × Kf × x^m", SQUEEZE_TESTS;
    SQUEEZED_LEAST = "squeeze-least", "Force that forms the head, at least", SQUEEZE_LEAST, "S × (1 - v)", SQUEEZE_TESTS;
    SQUEEZED_MOST = "squeeze-most", "Force that forms the head, at most", SQUEEZE_MOST, "S × (1 + v)", SQUEEZE_TESTS;
    BUCKLES = "buckles", "Stress at which the sheet buckles between its rivets, elastic", ELASTIC, "c × π² × E / 12 × (t / p)²", BUCKLING_COLUMN;
    HOLDS_TO = "buckles-elastic-to", "Stress up to which that holds", UP_TO, "v × Fcy";
    STANDS_AT = "buckles-stands", "Compression that the sheet is sure to stand", STANDS, "min(Fe, Fm)";
    LARGEST = "buckles-pitch", "Largest pitch for the compression asked about", PITCH_MOST, "π × t × √(c × E / (12 × Fc))", BUCKLING_COLUMN;
    CAP = "head-cap", "Volume of a protruding head, as a cap", HEAD_VOLUME, "π × h / 6 × (3 × (A / 2)² + h²)";
    CONE = "head-cone", "Volume of a flush head", HEAD_VOLUME, "π × h / 12 × (A² + A × D + D²)";
    SHANK_ALL = "shank-volume", "Volume of the shank", SHANK_VOLUME, "π / 4 × D² × L";
    SHANK_BELOW = "shank-volume-flush", "Volume of the shank below a flush head", SHANK_VOLUME, "π / 4 × D² × (L - h)";
    RIVET_MASS = "rivet-mass", "Mass of one rivet, an estimate", EACH, "(Vh + Vs) × g";
}

/// Along the axis, as [`Installation::axial`] found it.
pub(crate) fn axial(
    question: &Installation<'_, '_>,
    found: &JointStrength,
    shear: Option<Input<'static>>,
    work: &mut Working<'_>,
) {
    let axial = question.axial(found);
    let mut parts = heapless::Vec::<Input<'static>, 3>::new();
    if let (Some(shear), Some(one)) = (shear, found.shear_of_one_plane()) {
        let planes = Input::given(PLANES, Quantity::count(question.shear_planes().planes()));
        let shear = shear.called(SHEAR);
        let one = match found.thin_sheet_factor {
            Some(factor) => {
                let thin = Input::new(THIN, Quantity::number(factor), Basis::HDBK5J_T8_1_2_1B);
                work.step(&OF_ONE_PLANE, About::Whole, &[shear, planes, thin], one.force)
            }
            None => work.step(&OF_ONE_PLANE_THICK, About::Whole, &[shear, planes], one.force),
        };
        let (part, basis) = modes::TENSION_SHARE;
        let part = Input::new(FIFTH, Quantity::number(part), basis);
        let most = Force::from_lbf(part.held() * one.held());
        let _ = parts.push(work.step(&PART_OF_SHEAR, About::Whole, &[part, one], most));
    }
    for (held, pull) in question.held().into_iter().zip(axial.pull) {
        let (Some((head, number, layer)), Some(pull)) = (held, pull) else { continue };
        let thickness = layer.thickness.nominal();
        let sheet = layer.material.map(|material| question.practice().sheet(material, thickness));
        let Some(fsu) = sheet.and_then(|sheet| of_sheet(FSU, Property::ShearUltimate, &sheet)) else { continue };
        let figures = [fsu, Input::new(HEAD_ON, head.value, head.basis), Input::given(THICKNESS, thickness)];
        let _ = parts.push(work.step(&THROUGH, About::Layer(number), &figures, pull));
    }
    if let Some(tension) = axial.tension {
        work.step(&TENSION_LEAST, About::Whole, &parts, tension.force);
    }
    let (Some((_, squeeze)), Some(head), Some(law)) =
        (axial.squeeze, question.head_wanted(), flow_law(question.rivet().alloy()))
    else {
        return;
    };
    let size = question.rivet().size();
    let head = Input::new(HEAD, head.value, head.basis);
    let strained = [head, Input::new(SHANK, size.shank_nominal, size.basis)];
    let strain = work.step(&STRAINED, About::Whole, &strained, Quantity::number(squeeze.strain));
    let of_law = |symbol, value: Quantity| Input::new(symbol, value, law.basis);
    let figures = [head, of_law(LAW, law.strength.into()), strain, of_law(HARDENS, Quantity::number(law.hardening))];
    let force = work.step(&SQUEEZED, About::Whole, &figures, squeeze.force);
    let scatter = |part| [force, of_law(SCATTER, Quantity::number(part))];
    work.step(&SQUEEZED_LEAST, About::Whole, &scatter(law.below), squeeze.least);
    work.step(&SQUEEZED_MOST, About::Whole, &scatter(law.above), squeeze.greatest);
}

/// Between the rivets, as [`Installation::buckling`] finds it, sheet by sheet.
pub fn between_rivets(question: &Installation<'_, '_>, compression: Option<Stress>, work: &mut Working<'_>) {
    let (Some(stack), Some(pitch_length)) = (question.layers(), question.pitch_given()) else { return };
    let (practice, case) = (question.practice(), question.case());
    for ((number, layer), buckling) in stack.numbered_load_carrying().zip(question.buckling(compression)) {
        let thickness_length = layer.thickness.nominal();
        let Some(sheet) = layer.material.map(|material| practice.sheet(material, thickness_length)) else { continue };
        let (Some(found), Some(fixity), Some(share), Some(modulus), Some(fcy)) = (
            buckling.ok().and_then(|buckling| buckling.found),
            practice.fraction(Name::InterRivetFixity, &case),
            practice.fraction(Name::InterRivetElasticShare, &case),
            lowest_modulus(&sheet),
            of_sheet(FCY, Property::CompressionYield, &sheet),
        ) else {
            continue;
        };
        let about = About::Layer(number);
        let quotient = |(over, under): (u32, u32)| Quantity::number(f64::from(over) / f64::from(under));
        let fixity = Input::new(FIXITY, quotient(fixity.value), fixity.basis);
        let modulus = Input::new(MODULUS, modulus, sheet.basis_of(Property::Modulus));
        let (thickness, pitch) = (Input::given(THICKNESS, thickness_length), Input::given(PITCH, pitch_length));
        let elastic = work.step(&BUCKLES, about, &[fixity, modulus, thickness, pitch], found.elastic);
        let share = Input::new(SHARE, quotient(share.value), share.basis);
        let up_to = work.step(&HOLDS_TO, about, &[share, fcy], found.elastic_up_to);
        work.step(&STANDS_AT, about, &[elastic, up_to], found.stands());
        if let (Some(most), Some(compression)) = (found.largest_pitch, compression) {
            let figures = [thickness, fixity, modulus, Input::given(COMPRESSION, compression)];
            work.step(&LARGEST, about, &figures, most);
        }
    }
}

/// The mass of one rivet, as [`mass_each`] finds it; `None` where it is not known.
pub(crate) fn rivet_mass(part: &Part<'_>, about: About, work: &mut Working<'_>) -> Option<Input<'static>> {
    let (density, density_basis) = part.alloy().density_lb_in3()?;
    let mass: Mass = mass_each(part, density)?;
    let (size, length) = (part.size(), part.length()?);
    let head = size.head?;
    let height = size.head_height_counted(part.series().head)?;
    let volume = |cubic: f64| Quantity::new(Kind::Volume, cubic);
    let diameter = Input::new(HEAD_DIAMETER, head.diameter_nominal, head.basis);
    let (high, shank) =
        (Input::new(HEAD_HEIGHT, height, head.basis), Input::new(SHANK, size.shank_nominal, size.basis));
    let long = Input::given(LENGTH, length);
    let (head, below) = if part.series().head.is_flush() {
        let cone = volume(frustum_in3(head.diameter_nominal, size.shank_nominal, height));
        let below = volume(cylinder_in3(size.shank_nominal, length.checked_sub(height).unwrap_or(Length::ZERO)));
        (
            work.step(&CONE, about, &[high, diameter, shank], cone),
            work.step(&SHANK_BELOW, about, &[shank, long, high], below),
        )
    } else {
        let cap = volume(cap_in3(head.diameter_nominal, height));
        let all = volume(cylinder_in3(size.shank_nominal, length));
        (work.step(&CAP, about, &[high, diameter], cap), work.step(&SHANK_ALL, about, &[shank, long], all))
    };
    let density = Input::new(DENSITY, Quantity::new(Kind::Density, density), density_basis);
    Some(work.step(&RIVET_MASS, about, &[head, below, density], mass))
}
