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
}

impl Cache {
    pub(super) fn new() -> Cache {
        Cache { places: Vec::new(), turn: 0 }
    }

    /// The answer to a question: the one given before, or the one that `answer` writes now.
    pub(super) fn answer<'c>(
        &'c mut self,
        question: &[u8],
        scratch: &'c mut Vec<u8>,
        answer: impl FnOnce(&mut Vec<u8>) -> Outcome,
    ) -> (&'c [u8], Outcome) {
        if self.places.is_empty() {
            self.places.resize(PLACES, Place::default());
        }
        let hash = hash(question);
        let first = (hash >> 32) as usize % (PLACES / WAYS) * WAYS;
        let places = &mut self.places[first..first + WAYS];
        if let Some(known) = places.iter().position(|place| place.hash == hash && place.question == question) {
            let place = &places[known];
            return (&place.answer, place.outcome);
        }
        self.turn += 1;
        let place = &mut places[self.turn % WAYS];
        scratch.clear();
        let outcome = answer(scratch);
        if question.len() <= LONGEST && scratch.len() <= LONGEST {
            place.hash = hash;
            place.question.clear();
            place.question.extend_from_slice(question);
            place.answer.clear();
            place.answer.extend_from_slice(scratch);
            place.outcome = outcome;
        }
        (scratch, outcome)
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
        let mut scratch = Vec::new();
        let mut asked = 0;
        for round in 0..2 {
            for number in 0..PLACES as u32 * 2 {
                let question = number.to_le_bytes();
                let (answer, outcome) = cache.answer(&question, &mut scratch, |out| {
                    asked += 1;
                    out.extend(question);
                    if number % 2 == 0 { Outcome::Refers } else { Outcome::Wrong }
                });
                assert_eq!(answer, question, "round {round}");
                assert_eq!(outcome == Outcome::Refers, number % 2 == 0);
            }
        }
        for _ in 0..2 {
            cache.answer(b"the same", &mut scratch, |_| {
                asked += 1;
                Outcome::Answered
            });
        }
        assert!(asked <= PLACES * 4 + 1, "{asked}");
    }
}
