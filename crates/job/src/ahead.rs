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
