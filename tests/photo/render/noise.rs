//! Chance and smooth noise: everything follows from a seed.

/// A stream of pseudo-random numbers: xorshift64* (from memory). Same seed, same stream.
pub(crate) struct Dice(u64);

impl Dice {
    /// A stream of its own for each seed, zero included.
    pub(crate) fn new(seed: u64) -> Self {
        let mut dice = Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ 0xD1B5_4A32_D192_ED03);
        if dice.0 == 0 {
            dice.0 = 1;
        }
        // Neighbouring seeds begin alike; a few rounds part them.
        for _ in 0..4 {
            dice.next();
        }
        dice
    }

    /// The next 64 bits.
    pub(crate) fn next(&mut self) -> u64 {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        self.0.wrapping_mul(0x2545_F491_4F6C_DD1D)
    }

    /// An even number from `low` to `high`.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// One of the choices.
    pub(crate) fn pick<T: Copy>(&mut self, choices: &[T]) -> T {
        let index = self.between(0.0, choices.len() as f64) as usize;
        choices[index.min(choices.len() - 1)]
    }

    /// About a normal number of mean 0 and standard deviation 1: the sum of four even ones, which is enough for pixels.
    pub(crate) fn normal(&mut self) -> f32 {
        let bits = self.next();
        let sum =
            (bits & 0xFFFF) + ((bits >> 16) & 0xFFFF) + ((bits >> 32) & 0xFFFF) + (bits >> 48);
        // Each part has the variance 65 536² / 12, so the sum has the deviation 65 536 / √3.
        (sum as f32 - 131_070.0) / 37_837.2
    }
}

/// A number from −1 to 1 for a point of the grid.
fn at_grid(column: i32, row: i32, seed: u32) -> f32 {
    let mut bits = (column as u32)
        .wrapping_mul(0x8DA6_B343)
        .wrapping_add((row as u32).wrapping_mul(0xD816_3841))
        .wrapping_add(seed.wrapping_mul(0xCB1A_B31F));
    bits = (bits ^ (bits >> 15)).wrapping_mul(0x2C1B_3C6D);
    bits = (bits ^ (bits >> 12)).wrapping_mul(0x297A_2D39);
    bits ^= bits >> 15;
    bits as f32 / 2_147_483_648.0 - 1.0
}

/// Smooth noise from −1 to 1 with features of about one unit.
pub(crate) fn smooth(x: f64, y: f64, seed: u32) -> f32 {
    let (column, row) = (x.floor(), y.floor());
    let (across, along) = (ease((x - column) as f32), ease((y - row) as f32));
    let (column, row) = (column as i32, row as i32);
    let upper = mix(
        at_grid(column, row, seed),
        at_grid(column + 1, row, seed),
        across,
    );
    let lower = mix(
        at_grid(column, row + 1, seed),
        at_grid(column + 1, row + 1, seed),
        across,
    );
    mix(upper, lower, along)
}

/// A number from −1 to 1 for a whole number.
pub(crate) fn of_index(index: i32, seed: u32) -> f32 {
    at_grid(index, 7, seed)
}

/// From `low` to `high` in a straight line.
pub(crate) fn mix(low: f32, high: f32, share: f32) -> f32 {
    low + (high - low) * share
}

/// From 0 to 1 without a corner at either end.
pub(crate) fn ease(share: f32) -> f32 {
    let share = share.clamp(0.0, 1.0);
    share * share * (3.0 - 2.0 * share)
}
