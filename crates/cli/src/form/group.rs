//! The answer of `shophead group`.

use serde::Serialize;

use super::{Allowable, Basis, Force, GivenLength, Length, LoadKind, Margin, Mode, Nth, Point};

/// The answer.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Answer<'a> {
    /// The rivet without its length; a diameter in the file goes before its own.
    pub(crate) rivet: String,
    /// The middle of the group.
    pub(crate) centroid: Point,
    /// The rivets in the order of the file.
    pub(crate) rivets: Vec<Rivet<'a>>,
    /// The rivet that governs.
    pub(crate) worst: Option<Worst>,
    /// The rivet with the greatest load, counted from 1.
    pub(crate) most_loaded: Nth,
    /// The margin of the worst rivet; null where no strength is known.
    pub(crate) margin: Option<Margin<'a>>,
    /// The margin of the rivet whose sheets yield first, at limit load; null where a yield is not known.
    pub(crate) yield_margin: Option<Margin<'a>>,
    /// The two rivets that are closest; null for a single one.
    pub(crate) closest: Option<Closest>,
    /// The load as given.
    pub(crate) load: Load,
    /// The moment about the centroid.
    pub(crate) moment: Moment,
    /// Where the group turns about; null where it does not turn.
    pub(crate) rotation_centre: Option<Point>,
    /// What a rivet of each size carries.
    pub(crate) strengths: Vec<Strength<'a>>,
    /// Source of the method.
    pub(crate) basis: Basis<'a>,
}

/// One rivet.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Rivet<'a> {
    /// Its place along x.
    pub(crate) x: Length,
    /// Its place along y.
    pub(crate) y: Length,
    /// Its load along x.
    pub(crate) fx: Force,
    /// Its load along y.
    pub(crate) fy: Force,
    /// Its load.
    pub(crate) load: Force,
    /// Its part of the load itself.
    pub(crate) direct: Components,
    /// Its part of the moment.
    pub(crate) torsional: Components,
    /// Its diameter.
    pub(crate) diameter: Length,
    /// What it carries; null where it is not published.
    pub(crate) allowable: Option<Allowable<'a>>,
    /// Its margin, without unit; null where its strength is not known.
    pub(crate) margin: Option<f64>,
    /// Its margin at yield under the limit load, without unit; null where that is not known.
    pub(crate) yield_margin: Option<f64>,
    /// To the edge in the direction of its load, forward or back: what its strength counts.
    pub(crate) edge_in_load: Length,
}

/// The two rivets that are closest.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Closest {
    /// Their lines among the points, counted from 1.
    pub(crate) rivets: [Nth; 2],
    /// From centre to centre.
    pub(crate) distance: Length,
}

/// A force along both axes.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Components {
    /// Along x.
    pub(crate) fx: Force,
    /// Along y.
    pub(crate) fy: Force,
}

/// The rivet that governs.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Worst {
    /// Its line among the points, counted from 1.
    pub(crate) rivet: Nth,
    /// Its place along x.
    pub(crate) x: Length,
    /// Its place along y.
    pub(crate) y: Length,
    /// Its load.
    pub(crate) load: Force,
}

/// The load as given.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Load {
    /// Along x.
    pub(crate) fx: Force,
    /// Along y.
    pub(crate) fy: Force,
    /// A point on its line.
    pub(crate) at: Point,
    /// A moment besides; null where none was given.
    pub(crate) moment: Option<Moment>,
    /// Which load it is.
    pub(crate) kind: LoadKind,
}

/// A moment in both units.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Moment {
    /// In inch-pounds.
    pub(crate) in_lbf: f64,
    /// In newton metres.
    pub(crate) n_m: f64,
}

/// What a rivet of one size, hole and edge distance carries.
#[derive(Debug, Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(crate) struct Strength<'a> {
    /// The rivet in this size.
    pub(crate) rivet: String,
    /// Its hole as measured; null where it is taken as drilled.
    pub(crate) hole: Option<Length>,
    /// Distance from the centre to the nearest edge.
    pub(crate) edge: GivenLength<'a>,
    /// Whether it was given.
    pub(crate) edge_given: bool,
    /// What it carries.
    pub(crate) allowable: Option<Allowable<'a>>,
    /// What fails first.
    pub(crate) governing: Option<Mode>,
}
