//! What the rules without figures are about.

crate::words::words! {
    /// What a rule of [`RULES`](super::RULES) is about, in the order of the calculation.
    #[non_exhaustive]
    Topic, "topic of a rule" {
        Lengths = 1, "rules of lengths", "Choosing a length and a diameter.";
        DrivenHeads = 2, "rules of driven heads", "Driven heads.";
        Holes = 3, "rules of holes", "Holes and patterns of holes.";
        DamageAndCuts = 4, "rules of damage and cuts", "Damage beside the holes, and the cut along an edge.";
        JointStrength = 5, "rules of joint strength", "What one rivet carries.";
        RowsAndGroups = 6, "rules of rows and groups", "What rows and groups carry.";
        Splices = 7, "rules of splices", "Splices.";
        Repairs = 8, "rules of repairs", "Sizing repairs.";
        AccessAndRemoval = 9, "rules of access and removal", "Access and removal.";
    }
}
