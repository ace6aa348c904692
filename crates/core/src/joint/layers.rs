//! How a load divides over more than two layers that the same rows hold together: skin, doubler and cap; two stacked doublers.
//!
//! # The chain with several plates
//!
//! Plates lie one on the other; row i joins each plate k to the next one by a spring of flexibility Cᵢₖ. With Sᵢₖ the load that has gone
//! over from the first k plates to the others up to row i, and Tᵢₖ = Tₖ - Sᵢₖ + Sᵢ,ₖ₋₁ what plate k then carries of the tension Tₖ that it
//! came with, the movement between neighbours at two rows differs by what both stretch between them:
//!
//! ```text
//! Cᵢₖ (Sᵢₖ - Sᵢ₋₁,ₖ) - Cᵢ₊₁,ₖ (Sᵢ₊₁,ₖ - Sᵢₖ) = (L / EAₖ) Tᵢₖ - (L / EAₖ₊₁) Tᵢ,ₖ₊₁
//! ```
//!
//! This is the chain of [`super::sharing`] with a plate more on each side; with two plates it is that chain. The system has a heavy
//! diagonal and is solved bay by bay by elimination. The shares are elastic.
//!
//! What a rivet is sheared by between two layers follows from statics alone, [`planes`]: the sum of what the layers above put on it.

use super::flexibility::{Fastening, Formula, JoinedPlate, flexibility};
use super::lap::{LapError, plate_of, rivet_modulus};
use super::sharing::{Passing, stiffness};
use super::strength::Shear;
use crate::basis::Basis;
use crate::length::Length;
use crate::practice::{HANDBOOK, Practice};
use crate::quantity::{Flexibility, Force, Stress};
use crate::rivet::part::Part;
use crate::setters::setters;
use crate::stack::Stack;

/// The most plates one on the other.
pub const MAX_PLATES: usize = 5;
/// The most planes between them.
const PLANES: usize = MAX_PLATES - 1;
/// The most rows in one chain.
pub const MAX_ROWS: usize = 32;

/// One row: a spring between each two plates.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct LayerRow {
    /// Flexibility of one fastener between plate k and the next; above zero. Those beyond the last plate are not looked at.
    pub flexibility: [Flexibility; PLANES],
    /// How many fasteners of the row are in the strip that carries the load.
    pub fasteners: u16,
}

impl LayerRow {
    /// So many fasteners, each this flexible in each plane.
    #[must_use]
    pub const fn new(flexibility: [Flexibility; PLANES], fasteners: u16) -> LayerRow {
        LayerRow { flexibility, fasteners }
    }
}

/// What lies between one row and the next.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct LayerBay {
    /// From row to row; above zero.
    pub length: Length,
    /// Modulus times area of each plate in the strip; above zero.
    pub ea: [Force; MAX_PLATES],
}

impl LayerBay {
    /// This long between two rows, each plate this stiff.
    #[must_use]
    pub const fn new(length: Length, ea: [Force; MAX_PLATES]) -> LayerBay {
        LayerBay { length, ea }
    }
}

crate::words::errors! {
    /// Why there is no answer.
    LayersError {
        TooFewPlates = _, "layers-too-few", "Fewer than two plates.",
            "a joint needs at least two layers that carry load";
        TooManyPlates = _, "layers-too-many", "More than [`MAX_PLATES`].",
            "at most {MAX_PLATES} layers that carry load";
        TooFewRows = _, "layers-too-few-rows", "No rows, or a single one: the shares of one row follow from what comes in and goes out.",
            "layers share a load between at least two rows";
        TooManyRows = _, "layers-too-many-rows", "More than [`MAX_ROWS`].",
            "at most {MAX_ROWS} rows one behind the other";
        BaysDoNotFit = _, "layers-bays", "Not one bay fewer than rows.",
            "give one bay fewer than rows";
        EndsDoNotFit = _, "layers-ends", "Not as many tensions at the end as at the start.",
            "give every layer a load at either end, zero where it has none";
        NotInBalance = _, "layers-not-in-balance", "What goes out is not what comes in.",
            "the loads that go out must add up to those that come in";
        NotPositive = _, "layers-not-positive", "A flexibility, a stiffness, a length or a number of fasteners that is not above zero.",
            "flexibility, stiffness, distance and number of rivets must be above zero";
        NoLoad = _, "layers-no-load", "The load is zero or not a number.",
            "the load is zero; right would be 1000lbf";
        OutOfRange = _, "layers-out-of-range", "The figures are so far apart that a share is not a number.",
            "no shares come out of these stiffnesses; they are too far apart";
    }
}

/// What a rivet is sheared by between each two layers, from what each layer puts on it: the sum of those above.
///
/// ```
/// use shophead::joint::layers::planes;
/// use shophead::quantity::Force;
/// // Skin and doubler pull on a cap: 300 and 100 lbf in, 400 out.
/// let loads = [300.0, 100.0, -400.0].map(Force::from_lbf);
/// let sheared: Vec<f64> = planes(&loads).map(Force::lbf).collect();
/// assert_eq!(sheared, [300.0, 400.0]);
/// ```
pub fn planes(on_rivet: &[Force]) -> impl Iterator<Item = Force> {
    let count = on_rivet.len().saturating_sub(1);
    on_rivet.iter().take(count).scan(Force::ZERO, |sum, load| {
        *sum = Force::from_lbf(sum.lbf() + load.lbf());
        Some(*sum)
    })
}

/// The answer: what has gone over each plane behind each row.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Layers {
    /// For each row.
    gone_over: heapless::Vec<[f64; PLANES], MAX_ROWS>,
    fasteners: heapless::Vec<u16, MAX_ROWS>,
    start: heapless::Vec<Force, MAX_PLATES>,
    /// Where the chain stands.
    pub basis: Basis,
}

/// One row under load.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct LayerShare {
    /// What one fastener is sheared by between each two plates.
    pub planes: heapless::Vec<Force, PLANES>,
    /// What passes the row in each plate, all fasteners together.
    pub plates: heapless::Vec<Passing, MAX_PLATES>,
    /// What one fastener takes from each plate; negative where it gives.
    pub bearing: heapless::Vec<Force, MAX_PLATES>,
}

/// Where a fastener carries: between two plates, or in one, each counted from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum FastenerPlace {
    /// Sheared between this plate and the next.
    Plane(u8),
    /// Pressed against this plate.
    Plate(u8),
}

/// The place of a fastener with the least strength for its load.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct WeakestPlace {
    /// The row, counted from 0.
    pub row: usize,
    /// Where in the fastener.
    pub place: FastenerPlace,
    /// The load there, without its sign.
    pub load: Force,
    /// What the fastener carries there.
    pub carries: Force,
}

impl Layers {
    /// How many rows.
    #[must_use]
    pub fn rows(&self) -> usize {
        self.gone_over.len()
    }

    /// A row, counted from 0; `None` where there is none.
    #[must_use]
    pub fn row(&self, index: usize) -> Option<LayerShare> {
        let after = self.gone_over.get(index)?;
        let before = index.checked_sub(1).and_then(|index| self.gone_over.get(index)).copied().unwrap_or_default();
        let fasteners = f64::from(*self.fasteners.get(index)?);
        let mut share =
            LayerShare { planes: heapless::Vec::new(), plates: heapless::Vec::new(), bearing: heapless::Vec::new() };
        let (mut above_before, mut above_after) = (0.0, 0.0);
        let planes = self.start.len().saturating_sub(1);
        let steps = before.iter().zip(after).take(planes).map(|(before, after)| (*before, *after));
        // Nothing goes over below the last plate.
        for (start, (before, after)) in self.start.iter().zip(steps.chain([(0.0, 0.0)])) {
            let tension = |below: f64, above: f64| start.lbf() - below + above;
            let (came, went) = (tension(before, above_before), tension(after, above_after));
            // Cannot fail: the plates have been counted.
            let _ = share.plates.push(Passing::between(came, went));
            let _ = share.bearing.push(Force::from_lbf((came - went) / fasteners));
            (above_before, above_after) = (before, after);
        }
        for (before, after) in before.iter().zip(after).take(planes) {
            let _ = share.planes.push(Force::from_lbf((after - before) / fasteners));
        }
        Some(share)
    }

    /// The row, counted from 0, whose fastener has most to carry in any of its planes or plates, where that is, and how much.
    #[must_use]
    pub fn most_on_one(&self) -> Option<(usize, FastenerPlace, Force)> {
        let alike = Force::from_lbf(1.0);
        self.weakest_place(alike, &[alike; MAX_PLATES]).map(|worst| (worst.row, worst.place, worst.load))
    }

    /// The place where a fastener has most to carry beside what it carries there: `shear` in each plane, `bearing` in each plate.
    #[must_use]
    pub fn weakest_place(&self, shear: Force, bearing: &[Force]) -> Option<WeakestPlace> {
        let mut worst: Option<WeakestPlace> = None;
        for row in 0..self.rows() {
            let share = self.row(row)?;
            let planes =
                share.planes.iter().zip(1_u8..).map(|(load, plane)| (FastenerPlace::Plane(plane), load, shear));
            let plates = share.bearing.iter().zip(bearing).zip(1_u8..);
            let plates = plates.map(|((load, carries), plate)| (FastenerPlace::Plate(plate), load, *carries));
            for (place, load, carries) in planes.chain(plates) {
                let load = Force::from_lbf(load.lbf().abs());
                // As with the peak: a hair more is no more.
                let is_worse = |worst: WeakestPlace| {
                    load.lbf() * worst.carries.lbf() > worst.load.lbf() * carries.lbf() * (1.0 + 1e-9)
                };
                if worst.is_none_or(is_worse) {
                    worst = Some(WeakestPlace { row, place, load, carries });
                }
            }
        }
        worst
    }

    /// The most that any plate but this one, counted from 0, carries past a row.
    #[must_use]
    pub fn most_beside(&self, plate: usize) -> Force {
        let mut most = 0.0_f64;
        for share in (0..self.rows()).filter_map(|row| self.row(row)) {
            for (index, passing) in share.plates.iter().enumerate() {
                if index != plate {
                    most = most.max(passing.gross.lbf().abs());
                }
            }
        }
        Force::from_lbf(most)
    }

    /// The row, counted from 0, and the plane, counted from 1, in which a fastener is sheared most, and by how much.
    #[must_use]
    pub fn peak(&self) -> Option<(usize, usize, Force)> {
        let mut peak: Option<(usize, usize, Force)> = None;
        for row in 0..self.rows() {
            for (plane, force) in self.row(row)?.planes.iter().enumerate() {
                let size = Force::from_lbf(force.lbf().abs());
                // A hair more is no more, so that the row named does not hang on the last bit.
                if peak.is_none_or(|(_, _, most)| size.lbf() > most.lbf() * (1.0 + 1e-9)) {
                    peak = Some((row, plane.saturating_add(1), size));
                }
            }
        }
        peak
    }
}

type Block = [[f64; PLANES]; PLANES];

/// As many as there is room for: all of them, since they were counted.
fn listed<T, const N: usize>(items: impl Iterator<Item = T>) -> heapless::Vec<T, N> {
    let mut list = heapless::Vec::new();
    for item in items.take(N) {
        let _ = list.push(item);
    }
    list
}

/// How rows share a load over several plates.
///
/// `start` and `end` are the tensions in each plate before the first row and behind the last; `bays[i]` lies between `rows[i]` and
/// `rows[i + 1]`.
///
/// # Errors
/// [`LayersError`]; a NaN or an infinity never comes out.
///
/// ```
/// use shophead::joint::layers::{LayerBay, LayerRow, MAX_PLATES, share};
/// use shophead::length::Length;
/// use shophead::quantity::{Flexibility, Force};
/// // 900 lbf out of a skin into a cap, with a doubler between them that ends with the rows.
/// let row = LayerRow::new([Flexibility::from_in_per_lbf(1e-5); 4], 1);
/// let bay = LayerBay::new(Length::INCH, [Force::from_lbf(4e5); MAX_PLATES]);
/// let [start, end] = [[900.0, 0.0, 0.0], [0.0, 0.0, 900.0]].map(|ends| ends.map(Force::from_lbf));
/// let found = share(&[row; 4], &[bay; 3], &start, &end)?;
/// let all: f64 = (0..4).filter_map(|row| found.row(row)).map(|row| row.planes[0].lbf()).sum();
/// assert!((all - 900.0).abs() < 1e-9, "all of it leaves the skin");
/// # Ok::<(), shophead::joint::layers::LayersError>(())
/// ```
pub fn share(rows: &[LayerRow], bays: &[LayerBay], start: &[Force], end: &[Force]) -> Result<Layers, LayersError> {
    let planes = check(rows, bays, start, end)?;
    let mut found = Layers {
        gone_over: heapless::Vec::new(),
        fasteners: listed(rows.iter().map(|row| row.fasteners)),
        start: listed(start.iter().copied()),
        basis: if start.len() > 2 { Basis::LAYERS_CHAIN } else { Basis::DOUBLER_CHAIN },
    };
    // What has gone over behind the last row is known.
    let mut last = [0.0; PLANES];
    let mut sum = 0.0;
    for ((last, start), end) in last.iter_mut().zip(start).zip(end).take(planes) {
        sum += start.lbf() - end.lbf();
        *last = sum;
    }
    // Going forward every S is written as constant + slopes × the next one, going back they are filled in.
    let mut forward = heapless::Vec::<([f64; PLANES], Block), MAX_ROWS>::new();
    let (mut constant, mut slopes): ([f64; PLANES], Block) = ([0.0; PLANES], [[0.0; PLANES]; PLANES]);
    for ((row, next), bay) in rows.iter().zip(rows.iter().skip(1)).zip(bays) {
        (constant, slopes) = eliminate(row, next, bay, start, planes, &constant, &slopes);
        if !constant.iter().chain(slopes.iter().flatten()).all(|figure| figure.is_finite()) {
            return Err(LayersError::OutOfRange);
        }
        // Cannot fail: the rows have been counted.
        let _ = forward.push((constant, slopes));
    }
    let mut behind = last;
    let mut backward = heapless::Vec::<[f64; PLANES], MAX_ROWS>::new();
    let _ = backward.push(last);
    for (constant, slopes) in forward.iter().rev() {
        let mut here = *constant;
        for (here, slopes) in here.iter_mut().zip(slopes) {
            *here += slopes.iter().zip(&behind).map(|(slope, behind)| slope * behind).sum::<f64>();
        }
        behind = here;
        let _ = backward.push(here);
    }
    if !backward.iter().flatten().all(|figure| figure.is_finite()) {
        return Err(LayersError::OutOfRange);
    }
    found.gone_over = listed(backward.iter().rev().copied());
    Ok(found)
}

/// Rows of one rivet, all alike, through every load-carrying layer of a stack, on a strip of one pitch.
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub struct StackRows<'s, 'p> {
    /// The rivet.
    pub rivet: &'s Part<'p>,
    /// What it goes through.
    pub stack: &'s Stack,
    /// From rivet to rivet: the width of the strip.
    pub pitch: Length,
    /// From row to row.
    pub apart: Length,
    /// How many rows.
    pub rows: u8,
    /// The layer that brings the load before the first row, by its number in the stack.
    pub from: u8,
    /// The layer that takes it away behind the last one; the same layer where the others only lie on it, as doublers do.
    pub to: u8,
    /// The load on one pitch.
    pub load: Force,
    /// Modulus of the rivet; `None` takes that of aluminium for an aluminium rivet.
    pub rivet_modulus: Option<Stress>,
    /// Where what is known of the sheets comes from.
    pub practice: &'s Practice<'p>,
}

impl<'s, 'p> StackRows<'s, 'p> {
    /// Rows under one pound, as far apart as their rivets, of published sheets; the load comes by the first layer and leaves by the second one
    /// that are named.
    #[must_use]
    pub const fn new(rivet: &'s Part<'p>, stack: &'s Stack, pitch: Length, rows: u8, (from, to): (u8, u8)) -> Self {
        StackRows {
            rivet,
            stack,
            pitch,
            apart: pitch,
            rows,
            from,
            to,
            load: Force::from_lbf(1.0),
            rivet_modulus: None,
            practice: &HANDBOOK,
        }
    }

    setters! {
        /// From row to row.
        apart: Length;
        /// The load on one pitch.
        load: Force;
        /// Modulus of the rivet.
        rivet_modulus: Option<Stress>;
        /// Where what is known of the sheets comes from.
        practice: &'s Practice<'p>;
    }
}

/// How rows share a load over the layers of a stack by one of the published formulas, taken plane by plane.
///
/// # Errors
/// [`StackRowsError`].
///
/// ```
/// use shophead::joint::flexibility::Formula;
/// use shophead::joint::layers::{StackRows, through_stack};
/// use shophead::length::{Length, Toleranced};
/// use shophead::material::Material;
/// use shophead::quantity::Force;
/// use shophead::rivet::part::Part;
/// use shophead::stack::{Layer, Stack};
/// let mut stack = Stack::new();
/// for thickness in [".032", ".040", ".063"] {
///     let layer = Layer::of(Toleranced::parse(thickness)?);
///     stack.push(layer.material(Material::parse("2024-T3")?))?;
/// }
/// let pitch = Length::parse("3/4")?;
/// let rivet = Part::parse("MS20470AD4")?;
/// let rows = StackRows::new(&rivet, &stack, pitch, 4, (1, 3)).load(Force::from_lbf(800.0));
/// let found = through_stack(&rows, Formula::Stp927Riveted)?;
/// // Between the skin and what lies under it all of the load goes over.
/// let all: f64 = (0..4).filter_map(|row| found.row(row)).map(|row| row.planes[0].lbf()).sum();
/// assert!((all - 800.0).abs() < 1e-6);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn through_stack(rows: &StackRows<'_, '_>, formula: Formula) -> Result<Layers, StackRowsError> {
    let (modulus, modulus_basis) = rivet_modulus(rows.rivet, rows.rivet_modulus).map_err(StackRowsError::Lap)?;
    let mut basis = formula.basis();
    if let Some(modulus_basis) = modulus_basis {
        basis = basis.weaker(modulus_basis);
    }
    let mut plates = heapless::Vec::<JoinedPlate, MAX_PLATES>::new();
    let mut bay = LayerBay { length: rows.apart, ea: [Force::from_lbf(1.0); MAX_PLATES] };
    let (mut start, mut end) = ([Force::ZERO; MAX_PLATES], [Force::ZERO; MAX_PLATES]);
    for (number, layer) in rows.stack.numbered_load_carrying() {
        let (plate, sheet_basis) = plate_of(layer, rows.practice)?;
        basis = basis.weaker(sheet_basis);
        let index = plates.len();
        plates.push(plate).map_err(|_| StackRowsError::Layers(LayersError::TooManyPlates))?;
        let put = |cells: &mut [Force; MAX_PLATES], force| {
            if let Some(cell) = cells.get_mut(index) {
                *cell = force;
            }
        };
        put(&mut bay.ea, stiffness(plate.modulus, rows.pitch, plate.thickness));
        if number == rows.from {
            put(&mut start, rows.load);
        }
        if number == rows.to {
            put(&mut end, rows.load);
        }
    }
    if start.iter().chain(&end).filter(|load| **load != Force::ZERO).count() != 2 {
        return Err(StackRowsError::NoSuchLayer);
    }
    let mut row = LayerRow { flexibility: [Flexibility::from_in_per_lbf(0.0); PLANES], fasteners: 1 };
    for (cell, (above, below)) in row.flexibility.iter_mut().zip(plates.iter().zip(plates.iter().skip(1))) {
        let fastening = Fastening {
            diameter: rows.rivet.diameter(),
            modulus,
            shear_modulus: None,
            shear: Shear::Single,
            plates: [*above, *below],
        };
        *cell = flexibility(formula, &fastening).map_err(|error| StackRowsError::Lap(LapError::Flexibility(error)))?;
    }
    let all = [row; MAX_ROWS];
    let rows = all.get(..usize::from(rows.rows)).ok_or(StackRowsError::Layers(LayersError::TooManyRows))?;
    let bays = [bay; MAX_ROWS];
    let bays = bays.get(..rows.len().saturating_sub(1)).unwrap_or_default();
    let (Some(start), Some(end)) = (start.get(..plates.len()), end.get(..plates.len())) else {
        return Err(StackRowsError::Layers(LayersError::TooManyPlates));
    };
    let mut found = share(rows, bays, start, end).map_err(StackRowsError::Layers)?;
    found.basis = found.basis.weaker(basis);
    Ok(found)
}

crate::words::errors! {
    /// Why a stack has no shares.
    StackRowsError {
        NoSuchLayer = _, "pack-layer", "The load comes from, or goes to, no load-carrying layer.",
            "the load comes and goes by layers that carry load; they count from 1";
        | Lap(LapError), "A modulus or a flexibility is missing.";
        | Layers(LayersError), "The shares could not be worked out.";
    }
}

fn check(rows: &[LayerRow], bays: &[LayerBay], start: &[Force], end: &[Force]) -> Result<usize, LayersError> {
    let plates = start.len();
    let planes = match plates.checked_sub(1) {
        None | Some(0) => return Err(LayersError::TooFewPlates),
        Some(planes) if planes > PLANES => return Err(LayersError::TooManyPlates),
        Some(planes) => planes,
    };
    match rows.len() {
        0 | 1 => return Err(LayersError::TooFewRows),
        count if count > MAX_ROWS => return Err(LayersError::TooManyRows),
        _ => {}
    }
    if bays.len().checked_add(1) != Some(rows.len()) {
        return Err(LayersError::BaysDoNotFit);
    }
    if end.len() != plates {
        return Err(LayersError::EndsDoNotFit);
    }
    let positive = |figure: f64| figure.is_finite() && figure > 0.0;
    let row_is_good = |row: &LayerRow| {
        row.fasteners > 0 && row.flexibility.iter().take(planes).all(|flexibility| positive(flexibility.in_per_lbf()))
    };
    let bay_is_good =
        |bay: &LayerBay| bay.length > Length::ZERO && bay.ea.iter().take(plates).all(|ea| positive(ea.lbf()));
    if !rows.iter().all(row_is_good) || !bays.iter().all(bay_is_good) {
        return Err(LayersError::NotPositive);
    }
    let ends = || start.iter().chain(end).map(|load| load.lbf());
    if !ends().all(f64::is_finite) || ends().all(|load| load == 0.0) {
        return Err(LayersError::NoLoad);
    }
    let sum = |loads: &[Force]| loads.iter().map(|load| load.lbf()).sum::<f64>();
    let size: f64 = ends().map(f64::abs).sum();
    if (sum(start) - sum(end)).abs() > 1e-9 * size { Err(LayersError::NotInBalance) } else { Ok(planes) }
}

/// The equations of one bay, with those of the bay before put in: S = constant + slopes × the next S.
fn eliminate(
    row: &LayerRow,
    next: &LayerRow,
    bay: &LayerBay,
    start: &[Force],
    planes: usize,
    constant: &[f64; PLANES],
    slopes: &Block,
) -> ([f64; PLANES], Block) {
    let spring =
        |row: &LayerRow| row.flexibility.map(|flexibility| flexibility.in_per_lbf() / f64::from(row.fasteners));
    let (here, there) = (spring(row), spring(next));
    let stretch = bay.ea.map(|ea| bay.length.to_inches_f64() / ea.lbf());
    // One line a plane: [matrix | right side | what multiplies the next S].
    let mut lines = heapless::Vec::<([f64; PLANES], f64, [f64; PLANES]), PLANES>::new();
    let above = stretch.iter().zip(start);
    let below = stretch.iter().zip(start).skip(1);
    for (plane, ((a, came_above), (b, came_below))) in above.zip(below).enumerate().take(planes) {
        let at = |figures: &[f64; PLANES], plane: usize| figures.get(plane).copied().unwrap_or(0.0);
        let (c, c_next) = (at(&here, plane), at(&there, plane));
        let mut matrix = [0.0; PLANES];
        for (other, cell) in matrix.iter_mut().enumerate() {
            if other == plane {
                *cell = c + c_next + a + b;
            } else if other.checked_add(1) == Some(plane) {
                *cell = -a;
            } else if plane.checked_add(1) == Some(other) {
                *cell = -b;
            }
            // -Cᵢ Sᵢ₋₁ with Sᵢ₋₁ = constant + slopes × S.
            *cell -= c * slopes.get(plane).map_or(0.0, |slopes| at(slopes, other));
        }
        let right = a * came_above.lbf() - b * came_below.lbf() + c * at(constant, plane);
        let mut onward = [0.0; PLANES];
        if let Some(cell) = onward.get_mut(plane) {
            *cell = c_next;
        }
        // Cannot fail: there are no more planes than places.
        let _ = lines.push((matrix, right, onward));
    }
    solve(lines, planes)
}

/// Gauss without pivoting: the diagonal outweighs its line.
fn solve(
    mut lines: heapless::Vec<([f64; PLANES], f64, [f64; PLANES]), PLANES>,
    planes: usize,
) -> ([f64; PLANES], Block) {
    for pivot in 0..planes {
        let Some(top) = lines.get(pivot).copied() else { break };
        let diagonal = top.0.get(pivot).copied().unwrap_or(1.0);
        for (index, line) in lines.iter_mut().enumerate() {
            if index == pivot {
                let over = |cell: &mut f64| *cell /= diagonal;
                line.0.iter_mut().for_each(over);
                line.1 /= diagonal;
                line.2.iter_mut().for_each(over);
                continue;
            }
            let factor = line.0.get(pivot).copied().unwrap_or(0.0) / diagonal;
            for (cell, above) in line.0.iter_mut().zip(&top.0) {
                *cell -= factor * above;
            }
            line.1 -= factor * top.1;
            for (cell, above) in line.2.iter_mut().zip(&top.2) {
                *cell -= factor * above;
            }
        }
    }
    let (mut constant, mut slopes) = ([0.0; PLANES], [[0.0; PLANES]; PLANES]);
    for ((line, constant), slopes) in lines.iter().zip(&mut constant).zip(&mut slopes) {
        (*constant, *slopes) = (line.1, line.2);
    }
    (constant, slopes)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::joint::sharing::{self, Bay, SharingRow, Transfer};

    fn row(flexibility: f64) -> LayerRow {
        LayerRow { flexibility: [Flexibility::from_in_per_lbf(flexibility); PLANES], fasteners: 1 }
    }

    fn bay(ea: [f64; MAX_PLATES]) -> LayerBay {
        LayerBay { length: Length::INCH, ea: ea.map(Force::from_lbf) }
    }

    #[test]
    fn with_two_plates_it_is_the_chain_of_two() {
        let ea = [3e5, 5e5, 1.0, 1.0, 1.0];
        for (transfer, end) in [(Transfer::Lap, [0.0, 700.0]), (Transfer::Doubler, [700.0, 0.0])] {
            let found =
                share(&[row(1e-5); 5], &[bay(ea); 4], &[700.0, 0.0].map(Force::from_lbf), &end.map(Force::from_lbf));
            let chain_row = SharingRow { flexibility: Flexibility::from_in_per_lbf(1e-5), fasteners: 1 };
            let chain_bay = Bay { length: Length::INCH, ea_a: Force::from_lbf(3e5), ea_b: Force::from_lbf(5e5) };
            let chain = sharing::share(&[chain_row; 5], &[chain_bay; 4], transfer, Force::from_lbf(700.0)).unwrap();
            let found = found.unwrap();
            for (index, by_chain) in chain.rows().enumerate() {
                let row = found.row(index).unwrap();
                assert!((row.planes[0].lbf() - by_chain.load.lbf()).abs() < 1e-9);
                assert!((row.plates[1].gross.lbf() - by_chain.in_b.gross.lbf()).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn a_plate_between_two_alike_takes_nothing_net_in_the_middle_of_symmetry() {
        // Two equal outer plates pull on the one between them: each plane carries half.
        let ea = [2e5, 4e5, 2e5, 1.0, 1.0];
        let [start, end] = [[100.0, 0.0, 100.0], [0.0, 200.0, 0.0]].map(|ends| ends.map(Force::from_lbf));
        let found = share(&[row(1e-5); 3], &[bay(ea); 2], &start, &end).unwrap();
        for index in 0..3 {
            let row = found.row(index).unwrap();
            assert!((row.planes[0].lbf() + row.planes[1].lbf()).abs() < 1e-9, "{row:?}");
        }
        assert_eq!(found.peak().map(|(row, plane, _)| (row, plane)), Some((0, 1)));
        assert_eq!(found.row(3), None);
    }

    #[test]
    fn what_is_no_chain_is_an_error() {
        let (rows, bays) = ([row(1e-5); 2], [bay([1e5; MAX_PLATES])]);
        let lbf = |loads: [f64; 3]| loads.map(Force::from_lbf);
        let (start, end) = (lbf([100.0, 0.0, 0.0]), lbf([0.0, 0.0, 100.0]));
        let error = |rows: &[LayerRow], bays: &[LayerBay], start: &[Force], end: &[Force]| {
            share(rows, bays, start, end).unwrap_err()
        };
        assert_eq!(error(&rows, &bays, &start[..1], &end[..1]), LayersError::TooFewPlates);
        assert_eq!(error(&rows, &bays, &[Force::ZERO; 6], &[Force::ZERO; 6]), LayersError::TooManyPlates);
        assert_eq!(error(&rows[..1], &[], &start, &end), LayersError::TooFewRows);
        assert_eq!(error(&[rows[0]; MAX_ROWS + 1], &bays, &start, &end), LayersError::TooManyRows);
        assert_eq!(error(&rows, &[], &start, &end), LayersError::BaysDoNotFit);
        assert_eq!(error(&rows, &bays, &start, &end[..2]), LayersError::EndsDoNotFit);
        assert_eq!(error(&rows, &bays, &start, &lbf([0.0, 0.0, 90.0])), LayersError::NotInBalance);
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(error(&[row(bad), rows[1]], &bays, &start, &end), LayersError::NotPositive, "{bad}");
            assert_eq!(error(&rows, &[bay([bad; MAX_PLATES])], &start, &end), LayersError::NotPositive, "{bad}");
        }
        let bare = LayerRow { fasteners: 0, ..rows[0] };
        assert_eq!(error(&[bare, rows[1]], &bays, &start, &end), LayersError::NotPositive);
        assert_eq!(error(&rows, &bays, &[Force::ZERO; 3], &[Force::ZERO; 3]), LayersError::NoLoad);
        let none = LayerBay { length: Length::ZERO, ..bays[0] };
        assert_eq!(error(&rows, &[none], &start, &end), LayersError::NotPositive);
        let tiny = bay([f64::MIN_POSITIVE; MAX_PLATES]);
        assert_eq!(error(&rows, &[LayerBay { length: Length::MAX, ..tiny }], &start, &end), LayersError::OutOfRange);
    }

    #[test]
    fn what_goes_out_may_differ_by_a_billionth_of_all_loads() {
        let (rows, bays) = ([row(1e-5); 2], [bay([1e5; MAX_PLATES])]);
        for (out, error) in [(1e9 - 1.0, None), (1e9 - 1.5, Some(LayersError::NotInBalance))] {
            let [start, end] = [[1e9 + 1.0, 0.0], [0.0, out]].map(|ends| ends.map(Force::from_lbf));
            assert_eq!(share(&rows, &bays, &start, &end).err(), error, "{out}");
        }
    }

    #[test]
    fn two_plates_stand_where_the_doubler_does_and_more_of_them_where_the_layers_do() {
        let (rows, bays) = ([row(1e-5); 2], [bay([1e5; MAX_PLATES])]);
        let [start, end] = [[100.0, 0.0, 0.0], [0.0, 100.0, 0.0]].map(|ends| ends.map(Force::from_lbf));
        let basis = |plates: usize| share(&rows, &bays, &start[..plates], &end[..plates]).unwrap().basis;
        assert_eq!((basis(2), basis(3)), (Basis::DOUBLER_CHAIN, Basis::LAYERS_CHAIN));
    }

    /// Two alike rows between two alike plates: 50 lbf each.
    #[test]
    fn the_weakest_place_is_where_least_is_carried_for_the_load() {
        let (rows, bays) = ([row(1e-5); 2], [bay([1e5; MAX_PLATES])]);
        let [start, end] = [[100.0, 0.0], [0.0, 100.0]].map(|ends| ends.map(Force::from_lbf));
        let found = share(&rows, &bays, &start, &end).unwrap();
        for (shear, bearing, place, carries) in [
            (300.0, [200.0, 400.0], FastenerPlace::Plate(1), 200.0),
            (300.0, [400.0, 200.0], FastenerPlace::Plate(2), 200.0),
            (300.0, [400.0, 500.0], FastenerPlace::Plane(1), 300.0),
            (0.5, [0.25, 0.75], FastenerPlace::Plate(1), 0.25),
        ] {
            let weakest = found.weakest_place(Force::from_lbf(shear), &bearing.map(Force::from_lbf)).unwrap();
            assert_eq!((weakest.row, weakest.place, weakest.carries.lbf()), (0, place, carries));
            assert!((weakest.load.lbf() - 50.0).abs() < 1e-9);
        }
    }

    #[test]
    fn where_nothing_goes_over_the_first_place_is_named() {
        let (rows, bays) = ([row(1e-5); 3], [bay([1e5; MAX_PLATES]); 2]);
        let alike = [Force::from_lbf(100.0); 3];
        let found = share(&rows, &bays, &alike, &alike).unwrap();
        assert_eq!(found.peak(), Some((0, 1, Force::ZERO)));
        assert_eq!(found.most_on_one(), Some((0, FastenerPlace::Plane(1), Force::ZERO)));
    }

    /// Two rows between plates alike, p / EA 1e-5: the first takes (1e-5 + C₂) / (C₁ + C₂ + 2e-5) of the load.
    #[test]
    fn the_stiffer_row_has_the_peak_however_small_the_load() {
        let bays = [bay([1e5; MAX_PLATES])];
        let [start, end] = [[1.0, 0.0], [0.0, 1.0]].map(|ends| ends.map(Force::from_lbf));
        for (flexibility, stiffer) in [([2e-5, 1e-5], 1), ([1e-5, 2e-5], 0)] {
            let found = share(&flexibility.map(row), &bays, &start, &end).unwrap();
            let (row, plane, most) = found.peak().unwrap();
            assert_eq!((row, plane), (stiffer, 1));
            assert!((most.lbf() - 0.6).abs() < 1e-12);
            assert_eq!(found.most_on_one(), Some((stiffer, FastenerPlace::Plane(1), most)));
            assert!((found.most_beside(0).lbf() - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn there_may_be_as_many_plates_and_rows_as_there_is_room_for() {
        let (mut start, mut end) = ([Force::ZERO; MAX_PLATES], [Force::ZERO; MAX_PLATES]);
        (start[0], end[MAX_PLATES - 1]) = (Force::from_lbf(100.0), Force::from_lbf(100.0));
        let bays = [bay([1e5; MAX_PLATES]); MAX_ROWS - 1];
        let found = share(&[row(1e-5); MAX_ROWS], &bays, &start, &end).unwrap();
        assert_eq!((found.rows(), found.row(0).unwrap().planes.len()), (MAX_ROWS, PLANES));
        // All of it goes over every plane.
        for plane in 0..PLANES {
            let over: f64 = (0..MAX_ROWS).map(|row| found.row(row).unwrap().planes[plane].lbf()).sum();
            assert!((over - 100.0).abs() < 1e-9, "{plane}: {over}");
        }
    }
}
