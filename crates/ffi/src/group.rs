//! A group of rivets under a load in its plane.
#![allow(unsafe_code, reason = "a symbol that C can name counts as unsafe; there is no unsafe block here")]

use shophead::basis::{Basis, Document, Status};
use shophead::joint::group::{GroupRivet, PlaneLoad, Vector, share};
use shophead::joint::strength::Allowable;

use crate::basis::shophead_basis;
use crate::border::{In, Out, answer, shophead_room};
use crate::error::shophead_error;
use crate::error::shophead_error as E;
use crate::finding::{Sink, shophead_finding, shophead_span};
use crate::force::{finite, force};
use crate::joint::{factors, shophead_margin};
use crate::layout::shophead_point;
use crate::numbers::value_of;
use crate::text::shophead_text;

/// One rivet of a group.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_rivet {
    /// Its source.
    pub at: shophead_point,
    /// How much it takes beside the others: its shank area, its stiffness, or 1 where all are alike. Above zero; only ratios count.
    pub weight: f64,
    /// What it carries at failure, in pounds.
    pub allowable_lbf: f64,
    /// 1 where `allowable_lbf` is known, otherwise 0.
    pub allowable_known: u32,
    /// How well the allowable is supported, one of `enum shophead_status`; not looked at where it is not known.
    pub status: u32,
    /// The document that the allowable stands in; the caller's, or the library's from an answer of it. The answer points to it.
    pub document: shophead_text,
    /// The place in the document; may be empty. As above.
    pub place: shophead_text,
}

impl shophead_rivet {
    /// The document of an allowable, where that is known.
    fn document(&self) -> Result<Option<Document<'_>>, E> {
        if self.allowable_known == 0 {
            return Ok(None);
        }
        value_of::<Status>(self.status)?;
        Ok(Some(Document { document: self.document.read()?, place: self.place.read()? }))
    }

    /// A group may have more rivets than documents have numbers: the basis tells no more than how well the allowable is supported.
    fn read(&self) -> Result<GroupRivet, E> {
        let allowable = match self.allowable_known {
            0 => None,
            1 => {
                let basis = Basis::own_as(value_of(self.status)?, 0);
                Some(Allowable { force: force(self.allowable_lbf)?, basis })
            }
            _ => return Err(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER),
        };
        Ok(GroupRivet::new(self.at.read()?, finite(self.weight)?).allowable(allowable))
    }
}

/// A load in the plane of a group.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct shophead_plane_load {
    /// Along x, in pounds.
    pub x_lbf: f64,
    /// Along y, in pounds.
    pub y_lbf: f64,
    /// A point on its line.
    pub at: shophead_point,
    /// A moment besides, in inch-pounds, positive from x to y.
    pub moment_in_lbf: f64,
    /// Limit or ultimate, one of `enum shophead_load_kind`; not none.
    pub kind: u32,
    /// One of `enum shophead_factors` for the margins; 0 for no margins.
    pub factors: u32,
}

impl shophead_plane_load {
    fn read(&self) -> Result<PlaneLoad, E> {
        Ok(PlaneLoad::new(force(self.x_lbf)?, force(self.y_lbf)?, self.at.read()?, value_of(self.kind)?)
            .moment_in_lbf(finite(self.moment_in_lbf)?))
    }
}

/// Two components of a force, in pounds.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct shophead_vector {
    /// Along x.
    pub x_lbf: f64,
    /// Along y.
    pub y_lbf: f64,
}

impl shophead_vector {
    fn of(vector: Vector) -> shophead_vector {
        shophead_vector { x_lbf: vector.x.lbf(), y_lbf: vector.y.lbf() }
    }
}

/// The load that the plate puts on one rivet.
#[repr(C)]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct shophead_share {
    /// From the load as if it went through the centroid.
    pub direct: shophead_vector,
    /// From its moment about the centroid.
    pub torsional: shophead_vector,
    /// The size of both together, in pounds.
    pub size_lbf: f64,
}

/// How a load divides over a group.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_group {
    /// The centroid of the weighted positions, to the nanometre.
    pub centroid: shophead_point,
    /// The point about which the plate turns; `SHOPHEAD_NONE` both where there is none.
    pub rotation_centre: shophead_point,
    /// The sum of r² about the centroid, each counted with its weight over the greatest weight, in square inches.
    pub polar_in2: f64,
    /// Moment of the load about the centroid, in inch-pounds, positive from x to y.
    pub moment_in_lbf: f64,
    /// The rivet with the greatest load, counted from 0; the first where several are equal.
    pub most_loaded: usize,
    /// The rivet with the least margin, counted from 0; 0 where `margin` is not known.
    pub worst: usize,
    /// Its margin; not known where no factors were given or a strength is not known.
    pub margin: shophead_margin,
    /// The weakest basis in it.
    pub basis: shophead_basis,
    /// Which of the caller's findings belong to it.
    pub findings: shophead_span,
}

/// One rivet of a group, and the load at which it yields.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_yielding {
    /// The rivet.
    pub rivet: shophead_rivet,
    /// The load on it at which a sheet yields, in pounds; it stands where the allowable does.
    pub yield_lbf: f64,
    /// 1 where `yield_lbf` is known, otherwise 0.
    pub yield_known: u32,
}

impl shophead_yielding {
    fn read(&self) -> Result<GroupRivet, E> {
        let yields = match self.yield_known {
            0 => None,
            1 => {
                let basis = Basis::own_as(value_of(self.rivet.status)?, 0);
                Some(Allowable { force: force(self.yield_lbf)?, basis })
            }
            _ => return Err(E::SHOPHEAD_ERROR_UNKNOWN_NUMBER),
        };
        Ok((self.rivet.read()?).yields(yields))
    }
}

/// The rivet of a group that yields first.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_yielded {
    /// Which, counted from 0; 0 where `margin` is not known.
    pub worst: usize,
    /// Its margin at yield under the limit load; not known where no factors were given, or where a strength or a yield is not known.
    pub margin: shophead_margin,
    /// Which of the caller's findings belong to it: those of the group, and that it yields under the limit load.
    pub findings: shophead_span,
}

/// So many pieces of room for each rivet suffice for `shophead_group_share`.
pub const SHOPHEAD_ROOM_PER_RIVET: usize = 4;

const _: () = assert!(
    size_of::<GroupRivet>() <= SHOPHEAD_ROOM_PER_RIVET * size_of::<shophead_room>(),
    "a rivet needs more room: raise the version of the interface"
);

/// How a load in its plane divides over a group of rivets, by the elastic vector method.
///
/// Takes: `rivets`, an array of `count`; `load`; both the caller's. `room`, an array of `room_count`, is the caller's to work in:
/// `SHOPHEAD_ROOM_PER_RIVET` for each rivet suffice; what stands in it before and after does not matter. Writes: `group`; `shares`, an
/// array of the caller's with room for `share_capacity`, one for each rivet in the order given; `findings`, an array of the caller's with
/// room for `finding_capacity` (`SHOPHEAD_MAX_FINDINGS` always suffices).
///
/// Errors: those named `SHOPHEAD_ERROR_GROUP_...` and `SHOPHEAD_ERROR_MARGIN_...`, `SHOPHEAD_ERROR_NOT_FINITE`,
/// `SHOPHEAD_ERROR_UNKNOWN_NUMBER`, `SHOPHEAD_ERROR_LENGTH_OUT_OF_RANGE`, `SHOPHEAD_ERROR_NOT_UTF8`, `SHOPHEAD_ERROR_BUFFER_TOO_SMALL`,
/// `SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE`, `SHOPHEAD_ERROR_NULL`, `SHOPHEAD_ERROR_MISALIGNED`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_group_share(
    rivets: In<shophead_rivet>,
    count: usize,
    load: In<shophead_plane_load>,
    room: Out<shophead_room>,
    room_count: usize,
    group: Out<shophead_group>,
    shares: Out<shophead_share>,
    share_capacity: usize,
    findings: Out<shophead_finding>,
    finding_capacity: usize,
) -> shophead_error {
    answer(|| {
        let place = group.place()?;
        let mut places = shares.places(share_capacity)?;
        let mut sink = Sink::new(&findings, finding_capacity)?;
        let (given, load) = (rivets.list(count)?, load.one()?);
        let factors = if load.factors == 0 { None } else { Some(factors(load.factors)?) };
        let load = load.read()?;
        let mut room = room.room(room_count)?;
        for rivet in given {
            rivet.document()?;
        }
        let members: &[GroupRivet] = room.lay(given.iter().map(shophead_rivet::read))?;
        let found = share(members, load, factors)?;
        places.need(members.len())?;
        sink.need([&found.findings])?;
        let document_of = |rivet: Option<usize>| match rivet.and_then(|rivet| given.get(rivet)) {
            Some(rivet) => rivet.document(),
            None => Ok(None),
        };
        for (index, part) in found.shares().enumerate() {
            let written = shophead_share {
                direct: shophead_vector::of(part.direct),
                torsional: shophead_vector::of(part.torsional),
                size_lbf: part.total().size().lbf(),
            };
            places.put(index, written);
        }
        place.put(shophead_group {
            centroid: shophead_point::of(Some(found.centroid)),
            rotation_centre: shophead_point::of(found.rotation_centre),
            polar_in2: found.polar_in2,
            moment_in_lbf: found.moment_in_lbf,
            most_loaded: found.most_loaded,
            worst: found.worst.map_or(0, |worst| worst.rivet),
            margin: shophead_margin::of(found.worst.as_ref().map(|worst| &worst.margin)),
            basis: shophead_basis::of(found.basis, document_of(found.weakest)?.as_slice()),
            findings: sink.put(&found.findings, document_of(found.worst.map(|worst| worst.rivet))?.as_slice()),
        });
        Ok(())
    })
}

/// Which rivet of a group yields first under the limit load, by the elastic vector method.
///
/// Takes: `rivets`, an array of `count`; `load`; both the caller's. `room`, an array of `room_count`, is the caller's to work in:
/// `SHOPHEAD_ROOM_PER_RIVET` for each rivet suffice; what stands in it before and after does not matter. Writes: `yielded`; `findings`, an
/// array of the caller's with room for `finding_capacity` (`SHOPHEAD_MAX_FINDINGS` always suffices).
///
/// Errors: as `shophead_group_share`.
#[unsafe(no_mangle)]
pub extern "C" fn shophead_group_yield(
    rivets: In<shophead_yielding>,
    count: usize,
    load: In<shophead_plane_load>,
    room: Out<shophead_room>,
    room_count: usize,
    yielded: Out<shophead_yielded>,
    findings: Out<shophead_finding>,
    finding_capacity: usize,
) -> shophead_error {
    answer(|| {
        let place = yielded.place()?;
        let mut sink = Sink::new(&findings, finding_capacity)?;
        let (given, load) = (rivets.list(count)?, load.one()?);
        let factors = if load.factors == 0 { None } else { Some(factors(load.factors)?) };
        let load = load.read()?;
        let mut room = room.room(room_count)?;
        for yielding in given {
            yielding.rivet.document()?;
        }
        let members: &[GroupRivet] = room.lay(given.iter().map(shophead_yielding::read))?;
        let found = share(members, load, factors)?;
        sink.need([&found.findings])?;
        let document = match found.worst_yield.or(found.worst).and_then(|worst| given.get(worst.rivet)) {
            Some(yielding) => yielding.rivet.document()?,
            None => None,
        };
        place.put(shophead_yielded {
            worst: found.worst_yield.map_or(0, |worst| worst.rivet),
            margin: shophead_margin::of(found.worst_yield.as_ref().map(|worst| &worst.margin)),
            findings: sink.put(&found.findings, document.as_slice()),
        });
        Ok(())
    })
}
