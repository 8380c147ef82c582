//! Numbers that look thrown and are always the same: every check can be seen again.

use stillwood_core::record::Id;

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

    /// The sequence that follows from a seed as it is.
    pub fn of_seed(seed: u64) -> Self {
        Dice(seed)
    }

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

    /// From 0 to 1.
    pub fn even(&mut self) -> f64 {
        (self.any() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Standard normal (Box and Muller).
    pub fn normal(&mut self) -> f64 {
        let radius = (-2.0 * libm::log(1.0 - self.even())).sqrt();
        radius * libm::cos(std::f64::consts::TAU * self.even())
    }

    /// Spread evenly, with standard deviation 1.
    pub fn flat(&mut self) -> f64 {
        (2.0 * self.even() - 1.0) * 3.0_f64.sqrt()
    }

    /// Once in `count` times.
    pub fn once_in(&mut self, count: usize) -> bool {
        self.below(count) == 0
    }

    pub fn pick<'a, T>(&mut self, among: &'a [T]) -> &'a T {
        &among[self.below(among.len())]
    }

    /// A number between two.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.even()
    }

    /// A number between two, to a tenth.
    pub fn tenth(&mut self, low: usize, high: usize) -> f64 {
        (low * 10 + self.below((high - low) * 10)) as f64 / 10.0
    }

    /// An id of a moment, in milliseconds since 1970.
    pub fn id(&mut self, ms: u64) -> Id {
        let (a, b) = (self.any().to_le_bytes(), self.any().to_le_bytes());
        let random: [u8; 10] = std::array::from_fn(|i| if i < 8 { a[i] } else { b[i - 8] });
        Id::version_7(ms, &random)
    }

    /// The same things in no order.
    pub fn shuffle<T>(&mut self, things: &mut [T]) {
        for i in (1..things.len()).rev() {
            things.swap(i, self.below(i + 1));
        }
    }
}
