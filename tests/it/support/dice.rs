//! Chance that repeats itself: the same seed throws the same numbers on every machine.

/// `SplitMix64` (Steele, Lea and Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014).
#[derive(Debug, Clone)]
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) const fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// From `least` to `most`, both of them thrown.
    pub(crate) fn between(&mut self, least: u64, most: u64) -> u64 {
        least + self.bits() % (most - least + 1)
    }

    /// From `least` up to `most`.
    pub(crate) fn real(&mut self, least: f64, most: f64) -> f64 {
        let part = (self.bits() >> 11) as f64 / (1_u64 << 53) as f64;
        least + part * (most - least)
    }

    /// True once in `of` throws.
    pub(crate) fn once_in(&mut self, of: u64) -> bool {
        self.between(1, of) == 1
    }

    pub(crate) fn one_of<T: Copy>(&mut self, these: &[T]) -> T {
        these[usize::try_from(self.between(0, these.len() as u64 - 1)).unwrap()]
    }
}

/// How many rounds a property is tried in: the share that every run can afford, or what `POTSIDE_ROUNDS` says.
pub(crate) fn rounds(share: u64) -> u64 {
    std::env::var("POTSIDE_ROUNDS").map_or(share, |rounds| rounds.parse().unwrap())
}
