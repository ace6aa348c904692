//! A small generator: the same numbers for the same seed everywhere.

use shophead::length::{Length, Toleranced};

/// SplitMix64: a counter stepped by an odd constant, its bits mixed.
#[derive(Clone, Debug)]
pub(crate) struct Generator(u64);

impl Generator {
    pub(crate) fn new(seed: u64) -> Generator {
        Generator(seed)
    }

    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        bits ^ (bits >> 31)
    }

    /// From 0 to one less than `bound`.
    pub(crate) fn below(&mut self, bound: u32) -> u32 {
        ((u64::from(self.next() as u32) * u64::from(bound)) >> 32) as u32
    }

    pub(crate) fn between(&mut self, least: u32, most: u32) -> u32 {
        least + self.below(most - least + 1)
    }

    pub(crate) fn one_in(&mut self, count: u32) -> bool {
        self.below(count) == 0
    }

    pub(crate) fn pick<'l, T>(&mut self, list: &'l [T]) -> &'l T {
        &list[self.below(list.len() as u32) as usize]
    }

    /// A length in ten-thousandths of an inch, now and then in whole thousandths of a millimetre, rarely anything at all.
    pub(crate) fn length(&mut self, least: u32, most: u32) -> Length {
        let inches = self.between(least, most);
        let length = match self.below(16) {
            0 => Length::from_nanometres(i64::from(inches) * 2_540 / 1_000 * 1_000),
            1 => Length::from_nanometres(i64::from(inches) * 2_540 + i64::from(self.below(2_540))),
            2 if self.one_in(16) => Length::from_nanometres((self.next() as i64) >> self.between(23, 63)),
            _ => Length::from_nanometres(i64::from(inches) * 2_540),
        };
        length.unwrap_or(Length::ZERO)
    }

    pub(crate) fn toleranced(&mut self, least: u32, most: u32) -> Toleranced {
        let nominal = self.length(least, most);
        if self.one_in(3) {
            return Toleranced::exactly(nominal);
        }
        // A tolerance out of the wild end of lengths may be negative.
        let tolerance = |length: Length| length.max(Length::ZERO);
        let (below, above) = (tolerance(self.length(0, 50)), tolerance(self.length(0, 50)));
        Toleranced::new(nominal, below, above).expect("no tolerance is negative")
    }

    pub(crate) fn maybe(&mut self, least: u32, most: u32) -> Option<Length> {
        (!self.one_in(4)).then(|| self.length(least, most))
    }
}
