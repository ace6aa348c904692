//! Answers that were given before.
//!
//! The holes of a fleet are much alike: most rows ask what a row shortly before asked. A table of fixed size keeps the answers of the
//! last questions. A question has a few places where it can stand; where none is free it takes that of another, in turn. What that saves
//! is in `benches/ratios.md`.

/// Places in the table. At some 300 bytes each that is a few megabytes a worker.
const PLACES: usize = 1 << 14;
/// Where one question can stand: so many places side by side.
const WAYS: usize = 4;
/// Longer questions and answers are not kept.
const LONGEST: usize = 4 * 1024;
/// After so many questions it is asked whether the table is worth its while: whether one in so many was known. If not, it rests.
const LOOKED_AT: usize = 2_048;
const WORTH_IT: usize = 32;
const RESTS: usize = 16 * LOOKED_AT;

/// What became of a row.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Outcome {
    #[default]
    Answered,
    /// Answered, with a finding that says refer.
    Refers,
    /// The row is wrong.
    Wrong,
}

#[derive(Clone, Debug, Default)]
struct Place {
    hash: u64,
    question: Vec<u8>,
    answer: Vec<u8>,
    outcome: Outcome,
}

/// The table.
pub(super) struct Cache {
    places: Vec<Place>,
    /// Counts the answers that were written.
    turn: usize,
    /// How many were asked since the table was last looked at, and how many of them were known.
    asked: usize,
    known: usize,
    /// So many rows are answered without the table.
    rests: usize,
}

impl Cache {
    pub(super) fn new() -> Cache {
        Cache { places: Vec::new(), turn: 0, asked: 0, known: 0, rests: 0 }
    }

    /// Whether to ask for the next row. Where rows hardly ever ask the same again, most are answered without.
    #[inline]
    pub(super) fn is_of_use(&mut self) -> bool {
        if self.asked == LOOKED_AT {
            if self.known * WORTH_IT < self.asked {
                self.rests = RESTS;
            }
            (self.asked, self.known) = (0, 0);
        }
        if self.rests > 0 {
            self.rests -= 1;
            return false;
        }
        true
    }

    /// Adds the answer to a question: the one given before, or the one that `answer` adds now.
    pub(super) fn answer(
        &mut self,
        question: &[u8],
        out: &mut Vec<u8>,
        answer: impl FnOnce(&mut Vec<u8>) -> Outcome,
    ) -> Outcome {
        if self.places.is_empty() {
            self.places.resize(PLACES, Place::default());
        }
        self.asked += 1;
        let hash = hash(question);
        let first = (hash >> 32) as usize % (PLACES / WAYS) * WAYS;
        let places = &mut self.places[first..first + WAYS];
        if let Some(place) = places.iter().find(|place| place.hash == hash && place.question == question) {
            self.known += 1;
            out.extend_from_slice(&place.answer);
            return place.outcome;
        }
        self.turn += 1;
        let place = &mut places[self.turn % WAYS];
        let start = out.len();
        let outcome = answer(out);
        let added = out.get(start..).unwrap_or_default();
        if question.len() <= LONGEST && added.len() <= LONGEST {
            place.hash = hash;
            place.question.clear();
            place.question.extend_from_slice(question);
            place.answer.clear();
            place.answer.extend_from_slice(added);
            place.outcome = outcome;
        }
        outcome
    }
}

/// A number for a question, eight bytes at a time. Two questions with the same number only share their places, and no more than [`WAYS`]
/// are ever compared: nobody gains by making them.
fn hash(question: &[u8]) -> u64 {
    /// An odd number whose bits look random: that of the golden ratio.
    const MIX: u64 = 0x9e37_79b9_7f4a_7c15;
    let (words, rest) = question.as_chunks::<8>();
    let mut last = [0; 8];
    last[..rest.len()].copy_from_slice(rest);
    let start = (question.len() as u64).wrapping_mul(MIX);
    words.iter().chain([&last]).fold(start, |hash, word| {
        let mixed = (hash ^ u64::from_le_bytes(*word)).wrapping_mul(MIX);
        mixed ^ (mixed >> 29)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_question_is_answered_once_and_never_with_the_answer_to_another() {
        let mut cache = Cache::new();
        let mut out = b"before".to_vec();
        let mut asked = 0;
        for round in 0..2 {
            for number in 0..PLACES as u32 * 2 {
                let question = number.to_le_bytes();
                out.truncate(6);
                let outcome = cache.answer(&question, &mut out, |out| {
                    asked += 1;
                    out.extend(question);
                    if number % 2 == 0 { Outcome::Refers } else { Outcome::Wrong }
                });
                assert_eq!(out, [&b"before"[..], &question].concat(), "round {round}");
                assert_eq!(outcome == Outcome::Refers, number % 2 == 0);
            }
        }
        for _ in 0..2 {
            cache.answer(b"the same", &mut out, |_| {
                asked += 1;
                Outcome::Answered
            });
        }
        assert!(asked <= PLACES * 4 + 1, "{asked}");
    }

    #[test]
    fn the_table_rests_where_rows_do_not_repeat_and_comes_back() {
        let mut cache = Cache::new();
        let mut out = Vec::new();
        let mut used = |count: u32, question: &dyn Fn(u32) -> u32| {
            let of_use = |number: &u32| {
                let is = cache.is_of_use();
                if is {
                    cache.answer(&question(*number).to_le_bytes(), &mut out, |_| Outcome::Answered);
                }
                is
            };
            (0..count).filter(of_use).count()
        };
        let rows = (RESTS + LOOKED_AT) as u32;
        assert_eq!(used(rows, &|number| number), LOOKED_AT);
        // Asked again, it finds what repeats and stays.
        assert_eq!(used(rows, &|number| number % 100), rows as usize);
    }
}
