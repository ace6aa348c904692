//! What is told with a repair: the order of work, what is looked at, what must be asked.
//!
//! Each is a sentence of a document at hand in our own words. A repair lists those that hold for it.

use crate::basis::Basis;

/// What is done with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Kind {
    /// Asked of the holder of the type's data before work begins.
    Ask,
    /// Seen to while the repair is laid out.
    Design,
    /// Done in this order.
    Work,
    /// Looked at when it is done.
    Inspect,
}

impl Kind {
    /// Every kind, in the order in which they are told.
    pub const ALL: [Kind; 4] = [Kind::Ask, Kind::Design, Kind::Work, Kind::Inspect];

    /// The word used in output.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Kind::Ask => "ask",
            Kind::Design => "design",
            Kind::Work => "work",
            Kind::Inspect => "inspect",
        }
    }
}

/// One line each: variant, word, kind, sentence, where it stands.
macro_rules! told {
    ($( $variant:ident, $word:literal, $kind:ident, $sentence:literal, $basis:expr; )+) => {
        /// One thing that is told.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        #[non_exhaustive]
        pub enum Told { $( #[doc = $sentence] $variant, )+ }

        impl Told {
            /// Everything that can be told, in the order in which it is.
            pub const ALL: &'static [Told] = &[$( Told::$variant, )+];

            /// The stable word for it.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $( Told::$variant => $word, )+ }
            }

            /// What is done with it.
            #[must_use]
            pub const fn kind(self) -> Kind {
                match self { $( Told::$variant => Kind::$kind, )+ }
            }

            /// The sentence for a person.
            #[must_use]
            pub const fn sentence(self) -> &'static str {
                match self { $( Told::$variant => $sentence, )+ }
            }

            /// Where it stands.
            #[must_use]
            pub const fn basis(self) -> &'static Basis<'static> {
                match self { $( Told::$variant => const { &$basis }, )+ }
            }
        }
    };
}

const fn circular(place: &'static str) -> Basis<'static> {
    Basis::published("AC 43.13-1B", place)
}

const fn handbook(place: &'static str) -> Basis<'static> {
    Basis::published("FAA-H-8083-31B", place)
}

told! {
    // asked first
    Method, "method", Ask, "Ask for the type's own repair of this place. It goes before any handbook.", circular("para 4-57g, 4-58j");
    Authority, "authority", Ask, "Ask who approves it: handbook methods are typical and give no authority by themselves.", handbook("p 4-91");
    AllowableDamage, "allowable-damage", Ask, "Ask how much damage is allowed here, and how critical the area is.", Basis::published("US Army AL0992", "p 62, Stress Intensity");
    Monocoque, "monocoque", Ask, "Extensive damage to a stressed shell: get the maker's or other approved data.", circular("para 4-52");
    MajorRepair, "major-repair", Ask, "More than 6 in of stressed skin, an added seam or another material: a major repair. Use its form and its approval.", handbook("p 4-93");
    NextRow, "next-row", Ask, "Look at the next parallel row inboard or forward. Its rivet size goes before the rule for the sheet.", handbook("p 4-86");
    NoAccess, "no-access", Ask, "No room behind: take type, size, spacing and number of blind rivets from the type's manual only.", handbook("p 4-92");
    Approval, "blind-approval", Ask, "Blind rivets or special fasteners: get the maker's or the authority's approval first.", circular("para 4-57e, 4-57f caution");
    FlangeStrength, "flange-strength", Ask, "Have the strength of this flange splice shown: the circular's figure asks for it.", circular("para 4-58j, figure 4-19");
    LowerWing, "lower-wing", Ask, "Lower wing surface: keep to every rule of the stringer splice. This is where they matter most.", circular("para 4-58j(4)");
    WeightAndBalance, "weight-and-balance", Ask, "Add the mass to the record. Rotorcraft: the manual says whether balance is checked.", circular("para 10-1");

    // laid out
    EqualStrength, "equal-strength", Design, "Make it as strong as it was, no stronger and no stiffer.", circular("para 4-50b, 4-37b");
    NoMoreRivets, "no-more-rivets", Design, "Use no more rivets than needed: too strong a repair moves the flexing to its edge.", handbook("p 4-86");
    StressPath, "stress-path", Design, "Carry the load on without an abrupt change of section.", circular("para 4-38");
    Rigidity, "rigidity", Design, "Restore stiffness too, where a flange or a corrugation is dented or cracked.", circular("para 4-50c");
    SameMaterial, "same-material", Design, "Use the same material and thickness. Another alloy: compare strengths in the strength handbook.", circular("para 4-50c, 4-53, 4-58b");
    CladOutside, "clad", Design, "Unpainted: use clad sheet.", circular("para 4-53a");
    NoAnnealed, "no-annealed", Design, "Annealed sheet does not go into a structural repair.", circular("para 4-53b");
    Notches7075, "notches-7075", Design, "7075: no notches, no small radii, no rapid changes of section. Form T6 hardly at all: it cracks.", circular("para 4-58b");
    HeadsOff, "heads-off", Design, "Put no rivets where the load pulls the heads off.", circular("para 4-57g(3)");
    BackLap, "back-lap", Design, "Back a lap of thin sheets with a stiffener section.", circular("para 4-57g(3)");
    RowsUnequal, "rows-unequal", Design, "Rows do not share alike: no row may come above what its rivets carry.", circular("para 4-38a");
    StackedDoublers, "stacked-doublers", Design, "Stacked doublers may stand for one thick sheet: each row only as thick as its load needs.", circular("para 4-38b");
    ExistingPattern, "existing-pattern", Design, "Keep the spacing and edge distance that were there, unless they are suspect.", circular("para 4-57c");
    CopyNotEnough, "copy-not-enough", Design, "Cut-outs or doublers at the edge: copying the seam may not do. Size the splice.", circular("para 4-58g");
    SolidOnly, "solid-only", Design, "Solid rivets only: no blind rivets here.", circular("para 4-57f(1), (2)");
    OtherShapes, "other-shapes", Design, "Other flush shapes may be used, like those for plywood.", circular("para 4-58f");
    Thicker, "thicker-alone", Design, "A thicker sheet alone need not cure a crack: find the cause.", circular("para 4-59b");
    Across, "across-damage", Design, "Lay the reinforcement across the damage.", circular("para 4-59b");
    Symmetric, "symmetric", Design, "Place the splice parts symmetrically about the middle of the member.", circular("para 4-58j(1)");
    EveryElement, "every-element", Design, "Attach to as many legs as it takes that the splice bends neither way.", circular("para 4-58j(1)");
    TensionToo, "tension-too", Design, "Size it for tension and for compression.", circular("para 4-58j");
    EndHoles, "end-holes", Design, "Tension: end rivets no larger than the skin's.", circular("para 4-58j(2)");
    Outermost, "outermost-holes", Design, "The member must not fail at the outermost holes.", circular("para 4-58j(2)");
    BulbRow, "bulb-row", Design, "Start the row of a bulbed leg back from the ends, staggered.", circular("para 4-58j(2)");
    TaperEnds, "taper-ends", Design, "Taper the ends of the backing angle and make it shorter than the splice bar.", circular("para 4-58j(3)");
    StaggerSplices, "stagger-splices", Design, "Several stringers side by side: do not splice them in one line.", circular("para 4-58j(4)");
    SpreadRivets, "spread-rivets", Design, "Spread the rivets over the whole plate.", circular("para 4-58n");
    FreeFlange, "free-flange", Design, "Splice the free flange too, by a flange of the plate.", circular("para 4-58n");
    FrameBuckles, "frame-buckles", Design, "Deep thin frames fail by twisting: the free flange buckles first.", circular("para 4-58n");
    OneFastener, "one-fastener", Design, "Use one kind of fastener. Bolts beside rivets: ream their holes to size.", circular("para 4-58m(2)");
    BendLine, "bend-line", Design, "Bend across the grain. Drill relief holes at the ends of bend lines, smooth the edges.", circular("para 4-55b");

    // done
    OldRepair, "old-repair", Work, "An older repair beside it: take it out and into this one.", handbook("p 4-92");
    Buckled, "buckled", Work, "Do not count on a part that has buckled: splice over it or replace it.", handbook("p 4-86");
    Trim, "trim", Work, "Cut the damage out to sound metal. Round every corner.", circular("para 4-58f");
    StopDrill, "stop-drill", Work, "Stop drill both ends of the crack, 3/32 or 1/8.", circular("para 4-59a");
    SharpCorners, "sharp-corners", Work, "Stop drill sharp corners 3/32 before the patch goes on.", handbook("p 4-96, fig 4-174");
    TreatFirst, "treat-first", Work, "Heat treat before riveting. Quench fast, in cold water, and straighten at once.", circular("para 4-54, 4-54a");
    NoReheat, "no-reheat", Work, "2017 and 2024: never above 212 F again, primer baking too.", circular("para 4-54b");
    NoLocalHeat, "no-local-heat", Work, "Never heat a heat-treated member in one spot to bend or flatten it.", circular("para 4-58i");
    Mark, "mark", Work, "Mark with neither graphite pencil nor scriber.", circular("para 6-91c");
    Holes, "holes", Work, "Drill to the strength handbook's size: round, straight, no cracks, deburred.", circular("para 4-52a(1), 4-58");
    HolesFirst, "holes-first", Work, "Drill, countersink, surface treat and prime the holes before the doubler goes on.", circular("para 6-134e");
    ChamferEdge, "chamfer-edge", Work, "Chamfer the patch 45 degrees over half its thickness. Bend its edge down 5 degrees over the edge distance.", handbook("p 4-96, fig 4-175");
    TurnIn, "turn-in", Work, "Turn the doubler in through the opening. Rivet the filler to it.", handbook("p 4-96, Flush Patch");
    FlushMethod, "flush-method", Work, "Flush riveting: take the method from the type's manual.", circular("para 4-58");
    Anodise, "anodise", Work, "After cutting and drilling: anodise or conversion coat.", circular("para 6-134d");
    CoatAgain, "coat-again", Work, "Conversion coat older than 48 h: coat again before primer.", circular("para 6-136j");
    Protect, "protect", Work, "Protect it as the original was, or better where it corrodes more easily.", circular("para 6-29");
    SealDoubler, "seal-doubler", Work, "Outside doubler: seal and insulate. Sealant under it fills every void.", circular("para 6-134c, 6-134f");
    DriveWet, "drive-wet", Work, "Drive the rivets wet: sealant squeezes out at every head and edge.", circular("para 6-134g");
    Fillet, "fillet", Work, "Lay a fillet of sealant round the edge, let it cure, paint.", circular("para 6-134h");
    RivetSet, "rivet-set", Work, "Use a rivet set a little flatter than the head.", circular("para 4-58");
    Tank, "tank", Work, "Tank: same material, and a sealing compound that fuel does not dissolve.", circular("para 8-32");
    FloatSeams, "float-seams", Work, "Float or hull: seal the seams with fabric and compound.", circular("para 9-9a(2)");

    // looked at
    DrivenRivets, "driven-rivets", Inspect, "Driven rivets: straight, tight, no cracks, not over-driven.", circular("para 4-58");
    Neighbours, "neighbours", Inspect, "Look at the rivets outside the repair: none may be harmed.", circular("para 4-58");
    FloatTest, "float-test", Inspect, "Float or hull: fill with water and let it stand 24 h.", circular("para 9-9a(2)");
}

/// The most that is told with one repair.
pub const MAX_TOLD: usize = 72;

/// What is told with one repair: each once, in the order of [`Told::ALL`].
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tell {
    told: heapless::Vec<Told, MAX_TOLD>,
}

impl Tell {
    /// Adds one, unless it is there.
    pub(super) fn tell(&mut self, told: Told) {
        if let Err(place) = self.told.binary_search(&told) {
            // There is room for all of them: see below.
            let _ = self.told.insert(place, told);
        }
    }

    /// Adds several.
    pub(super) fn all(&mut self, told: &[Told]) {
        told.iter().for_each(|told| self.tell(*told));
    }

    /// What is told, in order.
    pub fn iter(&self) -> impl Iterator<Item = Told> + '_ {
        self.told.iter().copied()
    }

    /// What is told of one kind.
    pub fn of(&self, kind: Kind) -> impl Iterator<Item = Told> + '_ {
        self.iter().filter(move |told| told.kind() == kind)
    }

    /// Whether this is told.
    #[must_use]
    pub fn has(&self, told: Told) -> bool {
        self.told.contains(&told)
    }
}

const _: () = assert!(Told::ALL.len() <= MAX_TOLD);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sentence_is_one_and_has_a_word_of_its_own() {
        for (index, told) in Told::ALL.iter().enumerate() {
            assert!(told.sentence().ends_with('.') && told.sentence().len() < 140, "{told:?}");
            assert!(Told::ALL.iter().skip(index + 1).all(|other| other.word() != told.word()), "{told:?}");
            assert!(!told.basis().place.is_empty());
        }
    }

    #[test]
    fn what_is_told_stands_in_order_and_once() {
        let mut tell = Tell::default();
        tell.all(&[Told::Neighbours, Told::Method, Told::Neighbours, Told::Trim]);
        assert!(tell.iter().eq([Told::Method, Told::Trim, Told::Neighbours]));
        assert!(tell.of(Kind::Work).eq([Told::Trim]) && tell.has(Told::Method) && !tell.has(Told::Tank));
    }
}
