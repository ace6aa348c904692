//! Limits looked up once for all that ask for them.

use shophead::practice::{Case, CaseLimits, Practice};

use crate::model::Job;
use crate::plan::each_case;

/// The limits of some cases, for [`Practice::with_cases`].
///
/// ```
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// use shophead::practice::{Case, HANDBOOK};
/// use shophead::rivet::part::Part;
/// use shophead_job::ahead::Ahead;
/// let case = Case::for_part(&Part::parse("MS20470AD4")?);
/// let mut ahead = Ahead::default();
/// ahead.look_up(&HANDBOOK, &case);
/// # #[cfg(target_pointer_width = "64")]
/// assert!(HANDBOOK.with_cases(ahead.cases()).knows(&case));
/// # Ok(())
/// # }
/// ```
#[derive(Clone, Debug, Default)]
pub struct Ahead {
    places: Vec<Option<CaseLimits>>,
}

impl Ahead {
    /// For the rivets of an ordinary file, and for those of any: more than that are looked up whenever they are asked for.
    const PLACES: usize = 64;
    const MOST_PLACES: usize = 1024;
    /// Looking up all limits of a case takes as long as a dozen holes, and a row has half a dozen cases.
    const HOLES_WORTH_IT: usize = 100;

    /// Those of the rivets of a job and of what its holes may be stepped up to; none where it has only a few holes.
    #[must_use]
    pub fn of_job(job: &Job, practice: &Practice<'_>) -> Ahead {
        let mut ahead = Ahead::default();
        if job.rows.iter().map(|row| row.measured.len()).sum::<usize>() >= Ahead::HOLES_WORTH_IT {
            each_case(job, practice, &mut |case| ahead.look_up(practice, &case));
        }
        ahead
    }

    /// The list of them.
    #[must_use]
    pub fn cases(&self) -> &[Option<CaseLimits>] {
        &self.places
    }

    /// Looks up the limits of a case, where it is new.
    pub fn look_up(&mut self, practice: &Practice<'_>, case: &Case) {
        if practice.with_cases(&self.places).knows(case) {
            return;
        }
        let mut limits = Some(practice.case_limits(case));
        while let Some(homeless) = limits.take() {
            limits = homeless.put_into(&mut self.places);
            if limits.is_some() {
                let places = (self.places.len() * 2).max(Ahead::PLACES);
                if places > Ahead::MOST_PLACES {
                    return;
                }
                let known = std::mem::replace(&mut self.places, vec![None; places]);
                // There are twice as many places as before; what should find none all the same is looked up again.
                known.into_iter().flatten().for_each(|known| drop(known.put_into(&mut self.places)));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::Plan;
    use crate::prelude::demo;

    #[test]
    fn a_job_of_many_holes_has_its_limits_at_hand_and_the_same_plan() {
        let mut job = demo("keel-skin");
        let measured: usize = job.rows.iter().map(|row| row.measured.len()).sum();
        assert!(measured > 0 && Ahead::of_job(&job, job.practice).cases().is_empty(), "few holes, {measured}");
        let row = job.rows.iter_mut().find(|row| !row.measured.is_empty()).expect("one was measured");
        let more = (1..=Ahead::HOLES_WORTH_IT as u32)
            .map(|number| crate::model::MeasuredHole { number, ..row.measured[0].clone() });
        row.measured = more.collect();
        row.count = row.count.max(Ahead::HOLES_WORTH_IT as u32);
        let (own, documents) = job.own_limits.lists();
        let practice = job.practice.with_own(&own, &documents);
        let ahead = Ahead::of_job(&job, &practice);
        let at_hand = practice.with_cases(ahead.cases());
        for row in &job.rows {
            assert!(at_hand.knows(&Case::for_part(&row.installed).in_rows(row.rows_in_pattern)), "{}", row.name);
        }
        let said = |plan: &Plan<'_>| -> Vec<String> {
            let holes = plan.rows.iter().flat_map(|row| &row.holes);
            holes.map(|hole| format!("{} {:?} {:?}", hole.number, hole.answer, hole.findings)).collect()
        };
        assert_eq!(said(&Plan::make(&job, &at_hand)), said(&Plan::make(&job, &practice)));
    }
}
