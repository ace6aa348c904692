//! Where on the aircraft a repair is, and whether a published method applies there.

use super::told::Told;
use crate::basis::Basis;
use crate::finding::{Code, Finding, Severity};
use crate::structure::Place;

/// Whether a repair is sized there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Sizing {
    /// It is sized.
    Sized,
    /// It is sized, and something has to be seen to besides.
    SizedWith(Told),
    /// No method of the documents at hand applies: nothing is sized.
    Refused,
}

/// One line a place: variant, number for C, word, what it means, whether a repair is sized, where that stands.
macro_rules! sites {
    ($( $variant:ident = $number:literal, $word:literal, $meaning:literal, $sizing:expr, $basis:expr; )+) => {
        /// Where a repair is.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        #[non_exhaustive]
        pub enum Site { $( #[doc = $meaning] $variant, )+ }

        crate::words::worded! { Site, "site" { $( $variant = $number, $word, $meaning; )+ } }

        impl Site {
            /// Whether a repair is sized there.
            #[must_use]
            pub const fn sizing(self) -> Sizing {
                match self { $( Site::$variant => $sizing, )+ }
            }

            /// What is referred where nothing is sized; `None` where a repair is.
            #[must_use]
            pub fn refusal(self) -> Option<Finding> {
                let found = Finding::new(Code::NoPublishedMethod, Severity::Refer, self.basis());
                matches!(self.sizing(), Sizing::Refused).then_some(found)
            }

            /// Where that stands.
            #[must_use]
            pub const fn basis(self) -> Basis {
                match self { $( Site::$variant => $basis, )+ }
            }
        }
    };
}

sites! {
    Skin = 1, "skin", "Stressed skin, unpressurised.", Sizing::Sized, Basis::AC43_P4_58E_AND_F;
    LowerWing = 2, "lower-wing", "The lower surface of a stressed-skin wing.", Sizing::SizedWith(Told::LowerWing), Basis::AC43_P4_58J_4;
    BelowWaterLine = 3, "below-water-line", "The bottom of a float or hull.", Sizing::SizedWith(Told::FloatTest), Basis::AC43_HULLS;
    FluidTight = 4, "fluid-tight", "A tank or another fluid-tight area.", Sizing::SizedWith(Told::Tank), Basis::AC43_TANKS;
    AirIntake = 5, "air-intake", "Where a loose part can reach an engine.", Sizing::SizedWith(Told::SolidOnly), Basis::AC43_HEAVILY_STRESSED;
    HeavilyStressed = 6, "heavily-stressed", "Another heavily stressed place.", Sizing::SizedWith(Told::SolidOnly), Basis::AC43_HEAVILY_STRESSED;
    Pressurised = 7, "pressurised", "Skin of a pressure cabin.", Sizing::Refused, Basis::NO_METHOD_CABIN;
    FatigueCritical = 8, "fatigue-critical", "A place that the type's data call fatigue-critical.", Sizing::Refused, Basis::NO_METHOD_FATIGUE;
    SparCap = 9, "spar-cap", "The cap of a spar, keel or main beam itself.", Sizing::Refused, Basis::AC43_SPAR_CAPS;
    Control = 10, "control", "A control surface, its hinges and brackets.", Sizing::Refused, Basis::AC43_P4_36A;
    MainFitting = 11, "main-fitting", "A wing attach or landing gear fitting.", Sizing::Refused, Basis::AC43_P4_60;
    Rib = 12, "rib", "A rib.", Sizing::Refused, Basis::AC43_P4_58C;
    Edge = 13, "edge", "A leading edge, trailing edge or tip strip.", Sizing::Refused, Basis::AC43_P4_58D;
    Tube = 14, "tube", "A tube or strut.", Sizing::Refused, Basis::AC43_P4_51_4_58A;
    Casting = 15, "casting", "A casting.", Sizing::Refused, Basis::AC43_P4_61;
}

/// A place of a job file.
impl From<Place> for Site {
    fn from(place: Place) -> Site {
        match place {
            Place::FluidTight => Site::FluidTight,
            Place::BelowWaterLine => Site::BelowWaterLine,
            Place::AirIntake => Site::AirIntake,
            Place::Control => Site::Control,
            Place::MainFitting => Site::MainFitting,
            Place::HeavilyStressed => Site::HeavilyStressed,
        }
    }
}

/// The first of the places where nothing is sized.
///
/// ```
/// use shophead::repair::site::{Site, refused};
/// assert_eq!(refused(&[Site::Skin, Site::Pressurised]), Some(Site::Pressurised));
/// assert_eq!(refused(&[Site::Skin, Site::BelowWaterLine]), None);
/// ```
#[must_use]
pub fn refused(sites: &[Site]) -> Option<Site> {
    sites.iter().copied().find(|site| site.sizing() == Sizing::Refused)
}
