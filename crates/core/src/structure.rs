//! What a row belongs to: structure, member, and places with rules of their own.

/// One line a value: variant, the word in a job file, what it means.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $( $variant:ident, $word:literal, $meaning:literal; )+ }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        #[non_exhaustive]
        pub enum $name { $( #[doc = $meaning] $variant, )+ }

        impl $name {
            /// Every value.
            pub const ALL: &'static [$name] = &[$( $name::$variant, )+];

            /// The word for it.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $( $name::$variant => $word, )+ }
            }

            /// The value with this word.
            #[must_use]
            pub fn from_word(word: &str) -> Option<$name> {
                $name::ALL.iter().copied().find(|known| known.word() == word)
            }
        }
    };
}

words! {
    /// How much hangs on a row.
    Structure {
        Primary, "primary", "Carries flight, ground, water or pressure loads: its failure would endanger the aircraft.";
        Secondary, "secondary", "Everything else.";
    }
}

words! {
    /// The member that a row runs along.
    Member {
        Skin, "skin", "Skin to skin.";
        SparCap, "spar-cap", "The cap of a spar, keel or main beam.";
        Longeron, "longeron", "A longeron.";
        Stringer, "stringer", "A stringer or stiffener.";
        Frame, "frame", "A frame or bulkhead.";
        Rib, "rib", "A rib.";
        Other, "other", "Anything else.";
    }
}

words! {
    /// A place with rules of its own.
    Place {
        FluidTight, "fluid-tight", "A tank or another fluid-tight area.";
        BelowWaterLine, "below-water-line", "The bottom of a float or hull.";
        AirIntake, "air-intake", "Where a loose part could be drawn into an engine.";
        Control, "control", "Control surfaces, hinges, hinge brackets, control actuating systems.";
        MainFitting, "main-fitting", "Wing attachment and landing gear fittings.";
        HeavilyStressed, "heavily-stressed", "Another heavily stressed place.";
    }
}
