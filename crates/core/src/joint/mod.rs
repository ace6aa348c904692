//! What a riveted joint carries: one rivet in its sheets, margins, and how many rivets a splice needs.
//!
//! | module | answers |
//! |---|---|
//! | [`strength`] | what one rivet carries in these sheets, and what gives way first |
//! | [`pack`] | the same for a rivet through a stack of layers |
//! | [`margin`] | how much is left under a load, with which factors |
//! | [`compare`] | whether a new rivet is as strong as the one it replaces; which alloy may stand in for which |
//! | [`splice`] | rivets an inch, in total and in rows: by the published tables and from one's own strengths |
//! | [`modes`] | the plain formulas, one a failure mode |
//! | [`thin_sheet`] | the factor on rivet shear in thin sheet |
//! | [`hole_table`], [`shear_table`], [`flush_table`], [`ac43_table`], [`substitution_table`] | the published figures, one table a file |
//!
//! Groups under an eccentric load and the sharing of load along rows are not here yet; they will stand beside these modules and
//! take their strengths from [`strength`].
//!
//! Strengths are for rigid joints at room temperature. The diameter that counts in shear and bearing is the nominal hole, because a
//! driven rivet fills it; a larger hole adds nothing.

pub mod ac43_table;
pub mod compare;
pub mod flush_table;
pub mod hole_table;
pub mod margin;
pub mod modes;
pub mod pack;
pub mod shear_table;
pub mod splice;
pub mod strength;
pub mod substitution_table;
pub mod thin_sheet;
