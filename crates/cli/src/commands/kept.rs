//! What was worked out for the rivets that a batch has asked about so far.
//!
//! A fleet has a few rivets and many holes. Which rivet is meant, and which of all limits hold for it, is found once: half of what an
//! answer about a length takes would be looking for limits.

use shophead::practice::{Case, HeadScope, Limit, Name, Practice, Scope};

use crate::args::RivetArgs;
use crate::exit::Stop;
use crate::input::Rivet;

/// More rivets than any fleet has; then it begins anew.
const MOST: usize = 64;

/// The rivets, as they were asked for.
#[derive(Default)]
pub(crate) struct Kept<'a>(Vec<Known<'a>>);

/// A rivet and its limits.
pub(crate) struct Known<'a> {
    asked: [Option<String>; 3],
    pub(crate) rivet: Rivet,
    /// Those that hold for it, before all others.
    pub(crate) limits: Vec<Limit<'a>>,
}

fn asked(args: &RivetArgs) -> [Option<&str>; 3] {
    [Some(&args.diameter), Some(&args.series), args.alloy.as_deref()]
}

impl<'a> Kept<'a> {
    /// The rivet that is asked for.
    pub(crate) fn of(&mut self, args: &RivetArgs, practice: &Practice<'a>) -> Result<&Known<'a>, Stop> {
        let wanted = asked(args);
        let is_it = |known: &Known<'_>| known.asked.iter().map(Option::as_deref).eq(wanted);
        let at = match self.0.iter().position(is_it) {
            Some(at) => at,
            None => {
                let rivet = Rivet::of(args)?;
                let case = Case::of(rivet.part.series().head, rivet.part.alloy(), rivet.part.size());
                if self.0.len() == MOST {
                    self.0.clear();
                }
                let limits = foremost(practice, &case);
                self.0.push(Known { asked: wanted.map(|text| text.map(str::to_owned)), rivet, limits });
                self.0.len() - 1
            }
        };
        Ok(&self.0[at])
    }
}

/// The limits of a practice as a shop's own, those that hold for one case in front: each names everything about the case, so that it is
/// found first there and holds nowhere else. Whatever is asked about any case, the answer is the practice's.
fn foremost<'a>(practice: &Practice<'a>, case: &Case) -> Vec<Limit<'a>> {
    let head = if case.head.is_flush() { HeadScope::Flush } else { HeadScope::Protruding };
    let scope =
        Scope { head: Some(head), alloy: Some(case.alloy), diameter: Some(case.diameter), rows: Some(case.rows) };
    let found = Name::ALL.iter().filter_map(|name| practice.find(*name, case)).map(|limit| Limit { scope, ..*limit });
    found.chain(practice.own().iter().copied()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use shophead::basis::Basis;
    use shophead::length::Length;
    use shophead::practice::{BUILT_IN, Value};
    use shophead::rivet::CATALOGUE;

    fn cases() -> Vec<Case> {
        let mut cases = Vec::new();
        for series in CATALOGUE {
            for material in series.materials {
                cases.extend(series.sizes.iter().map(|size| Case::of(series.head, material.alloy, size)));
            }
        }
        cases.extend(cases.clone().iter().map(|case| case.in_rows(2)));
        cases
    }

    /// Also about other cases than the one whose limits stand in front, and with limits of the shop's own.
    #[test]
    fn what_stands_in_front_changes_no_limit() {
        let all = cases();
        let own = |scope, ten_thousandths| Limit {
            name: Name::HoleGreatest,
            scope,
            value: Value::Length(Length::from_ten_thousandths(ten_thousandths)),
            basis: Basis::shop("shop", "limit"),
        };
        let case = all[all.len() / 3];
        let own = [own(Scope::ANY, 1500), own(Scope { diameter: Some(case.diameter), ..Scope::ANY }, 1600)];
        for practice in BUILT_IN {
            for practice in [*practice, practice.with_own(&own)] {
                for front in all.iter().step_by(7) {
                    let limits = foremost(&practice, front);
                    let with_front = practice.with_own(&limits);
                    for case in all.iter().step_by(11).chain([front]) {
                        for name in Name::ALL {
                            let figures = |limit: &Limit<'_>| (limit.value, limit.basis.to_string());
                            let (found, wanted) = (with_front.find(*name, case), practice.find(*name, case));
                            assert_eq!(found.map(figures), wanted.map(figures), "{name} {case:?}");
                        }
                    }
                }
            }
        }
    }
}
