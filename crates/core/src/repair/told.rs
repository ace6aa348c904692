//! What is told with a repair: the order of work, what is looked at, what must be asked.
//!
//! Each is a sentence of a document at hand in our own words. A repair lists those that hold for it.

use crate::basis::Basis;

crate::words::words! {
    /// What is done with it, in the order in which they are told.
    #[non_exhaustive]
    ToldKind, "kind of advice" {
        Ask = 1, "ask", "Asked of the holder of the type's data before work begins.";
        Design = 2, "design", "Seen to while the repair is laid out.";
        Work = 3, "work", "Done in this order.";
        Inspect = 4, "inspect", "Looked at when it is done.";
    }
}

/// One line each: variant, number for C, word, kind, the sentence, where it stands.
macro_rules! told {
    ($( $variant:ident = $number:literal, $word:literal, $kind:ident, $sentence:literal, $basis:expr; )+) => {
        /// One thing that is told.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        #[non_exhaustive]
        pub enum Told { $( #[doc = $sentence] $variant, )+ }

        crate::words::worded! { Told, "advice" { $( $variant = $number, $word, $sentence; )+ } }

        impl Told {
            /// What is done with it.
            #[must_use]
            pub const fn kind(self) -> ToldKind {
                match self { $( Told::$variant => ToldKind::$kind, )+ }
            }

            /// Its source.
            #[must_use]
            pub const fn basis(self) -> Basis {
                match self { $( Told::$variant => $basis, )+ }
            }
        }
    };
}

told! {
    // asked first
    Method = 1, "method", Ask, "Ask for the type's own repair of this place. It goes before any handbook.", Basis::AC43_P4_57G_4_58J;
    Authority = 2, "authority", Ask, "Ask who approves it: handbook methods are typical and give no authority by themselves.", Basis::FAA_31B_P_4_91;
    AllowableDamage = 3, "allowable-damage", Ask, "Ask how much damage is allowed here, and how critical the area is.", Basis::ARMY_0992_P_62_STRESS_INTENSITY;
    Monocoque = 4, "monocoque", Ask, "Extensive damage to a stressed shell: get the maker's or other approved data.", Basis::AC43_P4_52;
    MajorRepair = 5, "major-repair", Ask, "More than 6 in of stressed skin, an added seam or another material: a major repair. Use its form and its approval.", Basis::FAA_31B_P_4_93;
    NextRow = 6, "next-row", Ask, "Look at the next parallel row inboard or forward. Its rivet size goes before the rule for the sheet.", Basis::FAA_31B_P_4_86;
    NoAccess = 7, "no-access", Ask, "No room behind: take type, size, spacing and number of blind rivets from the type's manual only.", Basis::FAA_31B_P_4_92;
    Approval = 8, "blind-approval", Ask, "Blind rivets or special fasteners: get the maker's or the authority's approval first.", Basis::AC43_P4_57E_4_57F_CAUTION;
    FlangeStrength = 9, "flange-strength", Ask, "Have the strength of this flange splice shown: the circular's figure asks for it.", Basis::AC43_P4_58J_F_4_19;
    LowerWing = 10, "lower-wing", Ask, "Lower wing surface: keep to every rule of the stringer splice. This is where they matter most.", Basis::AC43_P4_58J_4;
    WeightAndBalance = 11, "weight-and-balance", Ask, "Add the mass to the record. Rotorcraft: the manual says whether balance is checked.", Basis::AC43_P10_1;

    // laid out
    EqualStrength = 12, "equal-strength", Design, "Make it as strong as it was, no stronger and no stiffer.", Basis::AC43_P4_50B_4_37B;
    NoMoreRivets = 13, "no-more-rivets", Design, "Use no more rivets than needed: too strong a repair moves the flexing to its edge.", Basis::FAA_31B_P_4_86;
    StressPath = 14, "stress-path", Design, "Carry the load on without an abrupt change of section.", Basis::AC43_P4_38;
    Rigidity = 15, "rigidity", Design, "Restore stiffness too, where a flange or a corrugation is dented or cracked.", Basis::AC43_P4_50C;
    SameMaterial = 16, "same-material", Design, "Use the same material and thickness. Another alloy: compare strengths in the strength handbook.", Basis::AC43_P4_50C_4_53_4_58B;
    CladOutside = 17, "clad", Design, "Unpainted: use clad sheet.", Basis::AC43_P4_53A;
    NoAnnealed = 18, "no-annealed", Design, "Annealed sheet does not go into a structural repair.", Basis::AC43_P4_53B;
    Notches7075 = 19, "notches-7075", Design, "7075: no notches, no small radii, no rapid changes of section. Form T6 hardly at all: it cracks.", Basis::AC43_P4_58B;
    HeadsOff = 20, "heads-off", Design, "Put no rivets where the load pulls the heads off.", Basis::AC43_P4_57G_3;
    BackLap = 21, "back-lap", Design, "Back a lap of thin sheets with a stiffener section.", Basis::AC43_P4_57G_3;
    RowsUnequal = 22, "rows-unequal", Design, "Rows do not share alike: no row may come above what its rivets carry.", Basis::AC43_P4_38A;
    StackedDoublers = 23, "stacked-doublers", Design, "Stacked doublers may stand for one thick sheet: each row only as thick as its load needs.", Basis::AC43_P4_38B;
    ExistingPattern = 24, "existing-pattern", Design, "Keep the spacing and edge distance that were there, unless they are suspect.", Basis::AC43_P4_57C;
    CopyNotEnough = 25, "copy-not-enough", Design, "Cut-outs or doublers at the edge: copying the seam may not do. Size the splice.", Basis::AC43_P4_58G;
    WholePanel = 26, "whole-panel", Design, "Extensive damage: replace the whole panel, from one member to the next.", Basis::AC43_P4_58E;
    SeamsOnMembers = 27, "seams-on-members", Design, "Put the new seams along stiffening members and bulkheads.", Basis::AC43_P4_58E;
    SolidOnly = 28, "solid-only", Design, "Solid rivets only: no blind rivets here.", Basis::AC43_P4_57F_1_2;
    OtherShapes = 29, "other-shapes", Design, "Other flush shapes may be used, like those for plywood.", Basis::AC43_P4_58F;
    Thicker = 30, "thicker-alone", Design, "A thicker sheet alone need not cure a crack: find the cause.", Basis::AC43_P4_59B;
    Across = 31, "across-damage", Design, "Lay the reinforcement across the damage.", Basis::AC43_P4_59B;
    Symmetric = 32, "symmetric", Design, "Place the splice parts symmetrically about the middle of the member.", Basis::AC43_P4_58J_1;
    EveryElement = 33, "every-element", Design, "Attach to as many legs as it takes that the splice bends neither way.", Basis::AC43_P4_58J_1;
    TensionToo = 34, "tension-too", Design, "Size it for tension and for compression.", Basis::AC43_P4_58J;
    EndHoles = 35, "end-holes", Design, "Tension: end rivets no larger than the skin's.", Basis::AC43_P4_58J_2;
    Outermost = 36, "outermost-holes", Design, "The member must not fail at the outermost holes.", Basis::AC43_P4_58J_2;
    BulbRow = 37, "bulb-row", Design, "Start the row of a bulbed leg back from the ends, staggered.", Basis::AC43_P4_58J_2;
    FillGap = 38, "fill-gap", Design, "Fill the gap between the ends: 1/64 of room at either end.", Basis::ARMY_0992_P84;
    TaperEnds = 39, "taper-ends", Design, "Taper the ends of the backing angle and make it shorter than the splice bar.", Basis::AC43_P4_58J_3;
    StaggerSplices = 40, "stagger-splices", Design, "Several stringers side by side: do not splice them in one line.", Basis::AC43_P4_58J_4;
    SpreadRivets = 41, "spread-rivets", Design, "Spread the rivets over the whole plate.", Basis::AC43_P4_58N;
    FreeFlange = 42, "free-flange", Design, "Splice the free flange too, by a flange of the plate.", Basis::AC43_P4_58N;
    FrameBuckles = 43, "frame-buckles", Design, "Deep thin frames fail by twisting: the free flange buckles first.", Basis::AC43_P4_58N;
    OneFastener = 44, "one-fastener", Design, "Use one kind of fastener. Bolts beside rivets: ream their holes to size.", Basis::AC43_P4_58M_2;
    BendLine = 45, "bend-line", Design, "Bend across the grain. Drill relief holes at the ends of bend lines, smooth the edges.", Basis::AC43_P4_55B;

    // done
    OldRepair = 46, "old-repair", Work, "An older repair beside it: take it out and into this one.", Basis::FAA_31B_P_4_92;
    Buckled = 47, "buckled", Work, "Do not count on a part that has buckled: splice over it or replace it.", Basis::FAA_31B_P_4_86;
    Trim = 48, "trim", Work, "Cut the damage out to sound metal. Round every corner.", Basis::AC43_P4_58F;
    StopDrill = 49, "stop-drill", Work, "Stop drill both ends of the crack, 3/32 or 1/8.", Basis::AC43_P4_59A;
    SharpCorners = 50, "sharp-corners", Work, "Stop drill sharp corners 3/32 before the patch goes on.", Basis::FAA_31B_P_4_96_FIG_4_174;
    TreatFirst = 51, "treat-first", Work, "Heat treat before riveting. Quench fast, in cold water, and straighten at once.", Basis::AC43_P4_54_4_54A;
    NoReheat = 52, "no-reheat", Work, "2017 and 2024: never above 212 F again, primer baking too.", Basis::AC43_P4_54B;
    NoLocalHeat = 53, "no-local-heat", Work, "Never heat a heat-treated member in one spot to bend or flatten it.", Basis::AC43_P4_58I;
    Mark = 54, "mark", Work, "Mark with neither graphite pencil nor scriber.", Basis::AC43_P6_91C;
    Holes = 55, "holes", Work, "Drill to the strength handbook's size: round, straight, no cracks, deburred.", Basis::AC43_P4_52A_1_4_58;
    HolesFirst = 56, "holes-first", Work, "Drill, countersink, surface treat and prime the holes before the doubler goes on.", Basis::AC43_P6_134E;
    ChamferEdge = 57, "chamfer-edge", Work, "Chamfer the patch 45 degrees over half its thickness. Bend its edge down 5 degrees over the edge distance.", Basis::FAA_31B_P_4_96_FIG_4_175;
    TurnIn = 58, "turn-in", Work, "Turn the doubler in through the opening. Rivet the filler to it.", Basis::FAA_31B_P_4_96_FLUSH_PATCH;
    FlushMethod = 59, "flush-method", Work, "Flush riveting: take the method from the type's manual.", Basis::AC43_P4_58;
    Anodise = 60, "anodise", Work, "After cutting and drilling: anodise or conversion coat.", Basis::AC43_P6_134D;
    CoatAgain = 61, "coat-again", Work, "Conversion coat older than 48 h: coat again before primer.", Basis::AC43_P6_136J;
    Protect = 62, "protect", Work, "Protect it as the original was, or better where it corrodes more easily.", Basis::AC43_P6_29;
    SealDoubler = 63, "seal-doubler", Work, "Sealant under the doubler fills every void. Outside: seal and insulate it.", Basis::AC43_P6_134C_6_134F;
    DriveWet = 64, "drive-wet", Work, "Drive the rivets wet: sealant squeezes out at every head and edge.", Basis::AC43_P6_134G;
    Fillet = 65, "fillet", Work, "Lay a fillet of sealant round the edge, let it cure, paint.", Basis::AC43_P6_134H;
    RivetSet = 66, "rivet-set", Work, "Use a rivet set a little flatter than the head.", Basis::AC43_P4_58;
    Tank = 67, "tank", Work, "Tank: same material, and a sealing compound that fuel does not dissolve.", Basis::AC43_P8_32;
    FloatSeams = 68, "float-seams", Work, "Float or hull: seal the seams with fabric and compound.", Basis::AC43_P9_9A_2;

    // looked at
    DrivenRivets = 69, "driven-rivets", Inspect, "Driven rivets: straight, tight, no cracks, not over-driven.", Basis::AC43_P4_58;
    Neighbours = 70, "neighbours", Inspect, "Look at the rivets outside the repair: none may be harmed.", Basis::AC43_P4_58;
    FloatTest = 71, "float-test", Inspect, "Float or hull: fill with water and let it stand 24 h.", Basis::AC43_P9_9A_2;
}

/// The most that is told with one repair.
pub const MAX_TOLD: usize = 80;

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

    /// Adds what is told with another.
    pub fn extend(&mut self, other: &Tell) {
        other.iter().for_each(|told| self.tell(told));
    }

    /// What is told, in order.
    pub fn iter(&self) -> impl Iterator<Item = Told> + '_ {
        self.told.iter().copied()
    }

    /// What is told of one kind.
    pub fn of(&self, kind: ToldKind) -> impl Iterator<Item = Told> + '_ {
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
    fn every_sentence_is_one_and_was_read() {
        for (index, told) in Told::ALL.iter().enumerate() {
            assert!(told.meaning().ends_with('.') && told.meaning().len() < 140, "{told:?}");
            let is_other = |other: &Told| other.as_str() != told.as_str() && other.number() != told.number();
            assert!(Told::ALL.iter().skip(index + 1).all(is_other), "{told:?}");
            assert_eq!(told.basis().status(), crate::basis::Status::Published, "{told:?}");
        }
    }

    #[test]
    fn what_is_told_stands_in_order_and_once() {
        let mut tell = Tell::default();
        tell.all(&[Told::Neighbours, Told::Method, Told::Neighbours, Told::Trim]);
        assert!(tell.iter().eq([Told::Method, Told::Trim, Told::Neighbours]));
        assert!(tell.of(ToldKind::Work).eq([Told::Trim]) && tell.has(Told::Method) && !tell.has(Told::Tank));
        let mut other = Tell::default();
        other.all(&[Told::Tank, Told::Trim]);
        tell.extend(&other);
        assert!(tell.iter().count() == 4 && tell.has(Told::Tank));
        tell.extend(&Tell::default());
        assert!(tell.iter().count() == 4);
    }
}
