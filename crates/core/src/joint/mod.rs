//! What a riveted joint carries: one rivet in its sheets, margins, and how many rivets a splice needs.
//!
//! | module | answers |
//! |---|---|
//! | [`strength`] | what one rivet carries in these sheets, and what fails first |
//! | [`through`] | the same for a rivet through a stack of layers |
//! | [`margin`] | how much is left under a load, with which factors |
//! | [`compare`] | whether a new rivet is as strong as the one it replaces; which alloy may stand in for which |
//! | [`splice`] | rivets an inch, in total and in rows: by the published tables and from one's own strengths |
//! | [`row`] | strength an inch of a row, as installed and as planned |
//! | [`group`] | how a load beside the middle of a group divides over its rivets |
//! | [`sharing`] | how rows one behind the other share a load |
//! | [`lap`] | the same for a rivet through named sheets, by a named formula |
//! | [`flexibility`] | how far one fastener gives, for the sharing |
//! | [`strip`] | rows that are not alike: one rivet, then three, then one; the weakest line through a sheet |
//! | [`layers`] | how a load divides over more than two layers |
//! | [`combined`] | shear and tension on one rivet together |
//! | [`buckling`] | sheet that buckles between its rivets |
//! | [`modes`] | the plain formulas, one a failure mode |
//! | [`thin_sheet`] | the factor on rivet shear in thin sheet |
//! | [`hole_table`], [`shear_table`], [`flush_table`], [`ac43_table`], [`substitution_table`] | the published figures, one table a file |
//!
//! Strengths are for rigid joints at room temperature. The diameter that counts in shear and bearing is the nominal hole, because a
//! driven rivet fills it; a larger hole adds nothing.

pub mod ac43_table;
pub mod buckling;
pub mod combined;
pub mod compare;
pub mod flexibility;
pub mod flush_table;
pub mod group;
pub mod hole_table;
pub mod lap;
pub mod layers;
pub mod margin;
pub mod modes;
pub mod through;
pub mod row;
pub mod sharing;
pub mod shear_table;
pub mod splice;
pub mod strength;
pub mod strip;
pub mod substitution_table;
pub mod thin_sheet;
