//! The facts about a rivet in its pack as they were typed, for the one question that the core answers.

use clap::Args;
use shophead::installation::Installation;
use shophead::joint::flexibility::Formula;
use shophead::joint::margin::{Factors, Load};
use shophead::joint::sharing::Transfer;
use shophead::joint::strength::Shear;
use shophead::layout::RowLayout;
use shophead::length::Toleranced;
use shophead::material::DrivenShear;
use shophead::practice::Practice;
use shophead::quantity::Stress;
use shophead::rivet::part::Part;
use shophead::stack::Stack;
use shophead::structure::{Member, Structure};

use crate::context::Context;
use crate::exit::Stop;
use crate::input;

/// What the rivet goes into and what was there before: the same for every command.
#[derive(Debug, Default, Args)]
#[command(next_help_heading = "Where it goes")]
pub(crate) struct PlaceArgs {
    /// How much hangs on it: primary, secondary. On primary structure a missing edge distance, pitch or material is referred.
    #[arg(long, value_name = "WORD")]
    pub(crate) structure: Option<String>,
    /// What the row runs along: skin, spar-cap, longeron, stringer, frame, rib, other.
    #[arg(long, value_name = "WORD")]
    pub(crate) member: Option<String>,
    /// The rivet that was there before: MS20470AD4. The same one is as the maker built it.
    #[arg(long, value_name = "PART")]
    pub(crate) installed: Option<String>,
    /// The layers that were there before, where they change.
    #[arg(long, value_name = "LIST", requires = "installed")]
    pub(crate) installed_layers: Option<String>,
}

/// What is known of a rivet in its pack.
pub(crate) struct Facts {
    pub(crate) rivet: Part<'static>,
    pub(crate) stack: Option<Stack>,
    pub(crate) hole: Option<Toleranced>,
    pub(crate) layout: RowLayout,
    pub(crate) rows: u16,
    pub(crate) staggered: bool,
    pub(crate) structure: Option<Structure>,
    pub(crate) member: Option<Member>,
    pub(crate) installed: Option<Part<'static>>,
    pub(crate) installed_stack: Option<Stack>,
    pub(crate) shear: Shear,
    pub(crate) load: Option<(Load, Factors)>,
    pub(crate) driven: Option<&'static DrivenShear>,
    pub(crate) transfer: Transfer,
    /// The layers of a pack by which the load comes and goes.
    pub(crate) by_layers: (Option<u8>, Option<u8>),
    /// `None` for every formula that is for rivets.
    pub(crate) formula: Option<Formula>,
    pub(crate) rivet_modulus: Option<Stress>,
}

impl Facts {
    /// A rivet, and where it goes.
    pub(crate) fn of(rivet: Part<'static>, place: &PlaceArgs, context: &Context<'_>) -> Result<Facts, Stop> {
        let mut facts = Facts::of_rivet(rivet);
        facts.put(place, context)?;
        Ok(facts)
    }

    /// Takes where it goes.
    pub(crate) fn put(&mut self, place: &PlaceArgs, context: &Context<'_>) -> Result<(), Stop> {
        let PlaceArgs { structure, member, installed, installed_layers } = place;
        self.structure = structure.as_deref().map(|text| input::word("--structure", text)).transpose()?;
        self.member = member.as_deref().map(|text| input::word("--member", text)).transpose()?;
        self.installed = installed.as_deref().map(|text| input::part("--installed", text)).transpose()?;
        if let Some(text) = installed_layers {
            self.installed_stack =
                Some(input::layers("--installed-layers", text, None, context.bare, context.practice)?);
        }
        Ok(())
    }

    /// A rivet of which nothing more is known.
    pub(crate) fn of_rivet(rivet: Part<'static>) -> Facts {
        Facts {
            rivet: rivet.without_length(),
            stack: None,
            hole: None,
            layout: RowLayout::default(),
            rows: 1,
            staggered: false,
            structure: None,
            member: None,
            installed: None,
            installed_stack: None,
            shear: Shear::Single,
            load: None,
            driven: None,
            transfer: Transfer::Lap,
            by_layers: (None, None),
            formula: None,
            rivet_modulus: None,
        }
    }

    /// How the rivet was driven, by the temper that this leaves, where its alloy has a strength for each way.
    pub(crate) fn driven(rivet: &Part<'_>, temper: Option<&str>) -> Result<Option<&'static DrivenShear>, Stop> {
        let Some(temper) = temper else { return Ok(None) };
        let known = rivet.alloy().driven_shears();
        let named =
            |driven: &&DrivenShear| driven.temper.is_some_and(|known| known.eq_ignore_ascii_case(temper.trim()));
        known.iter().find(named).map(Some).ok_or_else(|| {
            let tempers: Vec<&str> = known.iter().filter_map(|driven| driven.temper).collect();
            let right = if tempers.is_empty() {
                "none is known".to_owned()
            } else {
                format!("right would be {}", tempers.join(" or "))
            };
            Stop::wrong(format_args!(
                "--driven \"{temper}\": {} is not driven to this temper; {right}",
                rivet.alloy().alloy()
            ))
        })
    }

    /// The question.
    pub(crate) fn question<'q, 'a>(&'q self, practice: &'a Practice<'a>) -> Installation<'q, 'a> {
        let question = match &self.stack {
            Some(stack) => Installation::new(self.rivet, stack),
            None => Installation::without_layers(self.rivet),
        };
        // A question is moved with every fact, so that only what was given is said.
        let mut question = question.by(practice).layout(self.layout);
        if self.rows != 1 {
            question = question.rows(self.rows);
        }
        if self.shear != Shear::Single {
            question = question.shear(self.shear);
        }
        if self.transfer != Transfer::Lap {
            question = question.transfer(self.transfer);
        }
        if let (Some(_), _) | (_, Some(_)) = self.by_layers {
            question = question.by_layers(self.by_layers.0, self.by_layers.1);
        }
        if let Some(driven) = self.driven {
            question = question.driven(driven);
        }
        if let Some(formula) = self.formula {
            question = question.formula(formula);
        }
        if let Some(modulus) = self.rivet_modulus {
            question = question.rivet_modulus(modulus);
        }
        if let Some(hole) = self.hole {
            question = question.in_hole(hole);
        }
        if self.staggered {
            question = question.staggered();
        }
        if let Some(structure) = self.structure {
            question = question.structure(structure);
        }
        if let Some(member) = self.member {
            question = question.member(member);
        }
        if let Some(installed) = self.installed {
            question = question.in_place_of(installed);
        }
        if let Some(stack) = &self.installed_stack {
            question = question.in_place_of_layers(stack);
        }
        if let Some((load, factors)) = self.load {
            question = question.load(load, factors);
        }
        question
    }
}
