//! Numbers that look thrown and are always the same: every check can be seen again.

/// A sequence that follows from its seed alone (splitmix64, a public algorithm, from memory).
#[derive(Debug, Clone)]
pub struct Dice(u64);

impl Dice {
    /// The sequence of one number under a seed.
    pub fn of(seed: u64, number: u64) -> Self {
        let mut dice = Dice(seed);
        let start = dice.any();
        Dice(start ^ number.wrapping_mul(0xD134_2543_DE82_EF95))
    }

    /// Any number.
    pub fn any(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number under `count`; 0 for a count of 0.
    pub fn below(&mut self, count: usize) -> usize {
        self.any().checked_rem(count as u64).unwrap_or(0) as usize
    }

    /// Once in `count` times.
    pub fn once_in(&mut self, count: usize) -> bool {
        self.below(count) == 0
    }

    /// One of them.
    pub fn pick<'a, T>(&mut self, among: &'a [T]) -> &'a T {
        &among[self.below(among.len())]
    }

    /// A number between two.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.any() >> 11) as f64 / (1u64 << 53) as f64
    }
}
