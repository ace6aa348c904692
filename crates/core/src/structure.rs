//! What a row belongs to: structure, member, and places with rules of their own.

use crate::words::words;

words! {
    /// How much hangs on a row.
    #[non_exhaustive]
    Structure, "structure" {
        Primary = 1, "primary", "Carries flight, ground, water or pressure loads: its failure would endanger the aircraft.";
        Secondary = 2, "secondary", "Everything else.";
    }
}

words! {
    /// The member that a row runs along.
    #[non_exhaustive]
    Member, "member" {
        Skin = 1, "skin", "Skin to skin.";
        SparCap = 2, "spar-cap", "The cap of a spar, keel or main beam.";
        Longeron = 3, "longeron", "A longeron.";
        Stringer = 4, "stringer", "A stringer or stiffener.";
        Frame = 5, "frame", "A frame or bulkhead.";
        Rib = 6, "rib", "A rib.";
        Other = 7, "other", "Anything else.";
    }
}

words! {
    /// A place with rules of its own.
    #[non_exhaustive]
    Place, "place" {
        FluidTight = 1, "fluid-tight", "In a tank or another fluid-tight area.";
        BelowWaterLine = 2, "below-water-line", "Below the water line, on the bottom of a float or hull.";
        AirIntake = 3, "air-intake", "Where a loose part could be drawn into an engine.";
        Control = 4, "control", "On a control surface, its hinges and brackets, or in the control system.";
        MainFitting = 5, "main-fitting", "At a wing attachment or landing gear fitting.";
        HeavilyStressed = 6, "heavily-stressed", "In another heavily stressed place.";
    }
}
