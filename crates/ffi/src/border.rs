//! The border: every pointer that a C program hands over is looked at here, and nowhere else.
//!
//! [`In`] is a pointer to read from, [`Out`] one to write to. Both are the bare pointer in memory, so that a function that takes them has
//! the C signature it seems to have. They hold anything until `In::one`, `In::list`, `Out::place` or their like have looked: not
//! NULL, aligned, not longer than memory can be.
//!
//! What cannot be checked is promised by the caller, in the header and in [`In::new`]: that the memory behind a pointer is there, is
//! set, stays as it is during the call, and that what is written does not overlap what is read. All unsafe code of this crate
//! rests on that promise.
#![allow(unsafe_code, reason = "following a pointer cannot be done without it; it is done here only")]

use core::ffi::c_char;
use core::marker::PhantomData;
use core::mem::MaybeUninit;

use crate::error::shophead_error as E;
use crate::text::shophead_text;

/// Types of which every value of every member is one: whole numbers, floating-point numbers, pointers that are not followed
/// before they were looked at.
///
/// # Safety
/// Any bytes that are set must be a value of the type.
pub unsafe trait Plain: Copy + 'static {}

/// One line a type.
macro_rules! plain {
    ($( $name:ty, )+) => { $(
        // SAFETY: a number, or a `repr(C)` struct of numbers and of pointers of this module. A test reads the header and fails where
        // one of these has a member of another type.
        unsafe impl Plain for $name {}
    )+ };
}

plain! {
    c_char,
    shophead_text,
    crate::length::shophead_toleranced,
    crate::length::shophead_range,
    crate::part::shophead_part,
    crate::basis::shophead_basis,
    crate::finding::shophead_figure,
    crate::finding::shophead_finding,
    crate::practice::shophead_value,
    crate::practice::shophead_limit,
    crate::practice::shophead_practice,
    crate::stack::shophead_layer,
    crate::select::shophead_length_query,
    crate::head::shophead_measured,
    crate::head::shophead_defect,
    crate::hole::shophead_hole,
    crate::hole::shophead_found_hole,
    crate::hole::shophead_hole_query,
    crate::layout::shophead_row,
    crate::layout::shophead_point,
    crate::layout::shophead_edge,
    crate::joint::shophead_load,
    crate::joint::shophead_joint,
    crate::group::shophead_rivet,
    crate::group::shophead_yielding,
    crate::group::shophead_plane_load,
}

/// A pointer to what is read: one value, or the first of several.
/// cbindgen:transparent-typedef
#[repr(transparent)]
#[derive(Clone, Copy, Debug)]
pub struct In<T> {
    pointer: *const T,
}

impl<T> In<T> {
    /// A pointer as a C program would hand it over.
    ///
    /// # Safety
    /// Unless it is NULL or misaligned it must, whenever a function is called with it, point to as many values of `T` as the function
    /// reads, all of them set, and they must stay there unchanged until the function has returned.
    #[must_use]
    pub const unsafe fn new(pointer: *const T) -> In<T> {
        In { pointer }
    }
}

impl<T: Plain> In<T> {
    /// The value.
    pub(crate) fn one(&self) -> Result<&T, E> {
        let pointer = looked_at(self.pointer)?;
        // SAFETY: not NULL, aligned; the value is there, set and unchanged for the call by the promise of `In::new`, and a `Plain` type
        // has no wrong values.
        Ok(unsafe { &*pointer })
    }

    /// So many values. None at all may be NULL.
    pub(crate) fn list(&self, count: usize) -> Result<&[T], E> {
        if count == 0 {
            return Ok(&[]);
        }
        let pointer = looked_at(self.pointer)?;
        fits::<T>(count)?;
        // SAFETY: as in `one`, for `count` values, which together are no longer than memory can be.
        Ok(unsafe { core::slice::from_raw_parts(pointer, count) })
    }
}

impl In<c_char> {
    /// So many bytes of UTF-8. None at all may be NULL.
    pub(crate) fn text(&self, length: usize) -> Result<&str, E> {
        if length == 0 {
            return Ok("");
        }
        let pointer = looked_at(self.pointer)?.cast::<u8>();
        fits::<u8>(length)?;
        // SAFETY: not NULL, no longer than memory can be; the bytes are there, set and unchanged for the call by the promise of
        // `In::new`.
        let bytes = unsafe { core::slice::from_raw_parts(pointer, length) };
        core::str::from_utf8(bytes).map_err(|_| E::SHOPHEAD_ERROR_NOT_UTF8)
    }

    /// The bytes of a text that goes out.
    pub(crate) const fn of(text: &str) -> In<c_char> {
        In { pointer: text.as_ptr().cast() }
    }
}

/// A pointer to what is written: one value, or the first of several.
/// cbindgen:transparent-typedef
#[repr(transparent)]
#[derive(Clone, Copy, Debug)]
pub struct Out<T> {
    pointer: *mut T,
}

impl<T> Out<T> {
    /// A pointer as a C program would hand it over.
    ///
    /// # Safety
    /// Unless it is NULL or misaligned it must point to as many places for a `T` as the function is told of, writable, not read and not
    /// written by anybody else until the function has returned, and none of them part of what the function reads.
    #[must_use]
    pub const unsafe fn new(pointer: *mut T) -> Out<T> {
        Out { pointer }
    }
}

impl<T: Copy> Out<T> {
    /// Where one value goes.
    pub(crate) fn place(&self) -> Result<Place<'_, T>, E> {
        looked_at(self.pointer.cast_const())?;
        Ok(Place { pointer: self.pointer, life: PhantomData })
    }

    /// Where so many values go. None at all may be NULL.
    pub(crate) fn places(&self, capacity: usize) -> Result<Places<'_, T>, E> {
        if capacity > 0 {
            looked_at(self.pointer.cast_const())?;
            fits::<T>(capacity)?;
        }
        Ok(Places { pointer: self.pointer, capacity, life: PhantomData })
    }
}

/// A place that was looked at.
pub(crate) struct Place<'o, T> {
    pointer: *mut T,
    life: PhantomData<&'o T>,
}

impl<T: Copy> Place<'_, T> {
    /// Writes the value.
    pub(crate) fn put(self, value: T) {
        // SAFETY: not NULL, aligned, looked at by `Out::place`; writable by the promise of `Out::new`.
        unsafe { self.pointer.write(value) };
    }
}

/// Places that were looked at.
pub(crate) struct Places<'o, T> {
    pointer: *mut T,
    capacity: usize,
    life: PhantomData<&'o T>,
}

impl<T: Copy> Places<'_, T> {
    /// An error unless so many values go in.
    pub(crate) fn need(&self, count: usize) -> Result<(), E> {
        if count <= self.capacity { Ok(()) } else { Err(E::SHOPHEAD_ERROR_BUFFER_TOO_SMALL) }
    }

    /// Writes one value, if there is a place for it.
    pub(crate) fn put(&mut self, index: usize, value: T) {
        if index < self.capacity {
            // SAFETY: not NULL, aligned, one of `capacity` places looked at by `Out::places`; writable by the promise of `Out::new`.
            unsafe { self.pointer.add(index).write(value) };
        }
    }
}

/// A piece of room to work in: 32 bytes that the caller keeps and never reads.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct shophead_room {
    /// Not to be looked at.
    words: [u64; 4],
}

/// Room of the caller's that is being handed out.
pub(crate) struct Room<'r> {
    rest: &'r mut [MaybeUninit<u8>],
}

impl Out<shophead_room> {
    /// So many pieces of room. None at all may be NULL.
    pub(crate) fn room(&self, pieces: usize) -> Result<Room<'_>, E> {
        if pieces == 0 {
            return Ok(Room { rest: &mut [] });
        }
        looked_at(self.pointer.cast_const())?;
        fits::<shophead_room>(pieces)?;
        let bytes = pieces.saturating_mul(size_of::<shophead_room>());
        // SAFETY: not NULL, no longer than memory; writable and nobody else's by the promise of `Out::new`. Nothing is said about
        // what stands in it.
        let rest = unsafe { core::slice::from_raw_parts_mut(self.pointer.cast(), bytes) };
        Ok(Room { rest })
    }
}

impl<'r> Room<'r> {
    /// Lays values out in the room, one behind the other; an error where they do not go in.
    pub(crate) fn lay<T: Copy>(
        &mut self,
        values: impl ExactSizeIterator<Item = Result<T, E>>,
    ) -> Result<&'r mut [T], E> {
        let count = values.len();
        if count == 0 {
            return Ok(&mut []);
        }
        let full = || E::SHOPHEAD_ERROR_BUFFER_TOO_SMALL;
        let rest = core::mem::take(&mut self.rest);
        let skipped = rest.as_ptr().align_offset(align_of::<T>());
        let (_, rest) = rest.split_at_mut_checked(skipped).ok_or_else(full)?;
        let bytes = count.checked_mul(size_of::<T>()).ok_or_else(full)?;
        let (taken, rest) = rest.split_at_mut_checked(bytes).ok_or_else(full)?;
        self.rest = rest;
        let start = taken.as_mut_ptr().cast::<T>();
        let mut laid = 0_usize;
        for value in values.take(count) {
            let value = value?;
            // SAFETY: `taken` begins where a `T` may, holds `count` of them, and `laid` is less than `count`.
            unsafe { start.add(laid).write(value) };
            laid = laid.saturating_add(1);
        }
        // SAFETY: the first `laid` values were just written; `taken` is handed out only here, for as long as the room is.
        Ok(unsafe { core::slice::from_raw_parts_mut(start, laid) })
    }
}

fn looked_at<T>(pointer: *const T) -> Result<*const T, E> {
    if pointer.is_null() {
        Err(E::SHOPHEAD_ERROR_NULL)
    } else if pointer.is_aligned() {
        Ok(pointer)
    } else {
        Err(E::SHOPHEAD_ERROR_MISALIGNED)
    }
}

fn fits<T>(count: usize) -> Result<(), E> {
    let bytes = count.checked_mul(size_of::<T>()).and_then(|bytes| isize::try_from(bytes).ok());
    if bytes.is_some() { Ok(()) } else { Err(E::SHOPHEAD_ERROR_COUNT_OUT_OF_RANGE) }
}

/// Runs the inside of a function and turns its outcome into the number that C gets.
pub(crate) fn answer(inside: impl FnOnce() -> Result<(), E>) -> E {
    match inside() {
        Ok(()) => E::SHOPHEAD_OK,
        Err(error) => error,
    }
}
