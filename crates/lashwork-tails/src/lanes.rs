//! Many readings side by side: each freed of what a linear effect did to it, then split at limits of its own.
//!
//! All rows go through the same steps whatever their values, so that the compiler puts two, four or eight of
//! them into one register. A row has the bits of the same steps taken alone; one that needs another way, because
//! something in it is narrow, sharp or tiny, says so.
#![expect(
    clippy::indexing_slicing,
    reason = "all arrays have as many rows, and one number counts through them: what fills registers"
)]
#![expect(
    clippy::needless_bitwise_bool,
    reason = "a branch on what each row decides differently keeps rows apart"
)]
#![expect(
    clippy::inline_always,
    reason = "what is called elsewhere cannot stand side by side in a register"
)]

#[cfg(doc)]
use super::RectangularNormal;
use super::proportion::Proportion;
use super::rectangular_normal::{Tail, over};
use super::tail_fit::ramps;

/// How many rows are worked on at once.
pub const LANES: usize = 32;

/// What is narrow is not usual; without a division a little more is not.
const NOT_NARROW: f64 = 1.0 + 1e-9;

/// A number for each row.
pub type Lane = [f64; LANES];

/// Readings, each a [`RectangularNormal`] with limits, infinite where there is none.
///
/// What is not a number makes a row that is not usual, and harms no other.
#[derive(Clone, Copy, Debug)]
pub struct Lanes<'l> {
    /// Lower ends.
    pub a: &'l Lane,
    /// Upper ends.
    pub b: &'l Lane,
    /// Standard deviations of the normal parts.
    pub u: &'l Lane,
    /// Lower limits.
    pub low: &'l Lane,
    /// Upper limits.
    pub high: &'l Lane,
    /// What moved them, if anything did.
    pub effect: Option<Effect<'l>>,
}

/// What moved readings, each by a [`Proportion`].
#[derive(Clone, Copy, Debug)]
pub struct Effect<'l> {
    /// By how much that differs.
    pub rise: &'l Lane,
    /// Standard uncertainty of that.
    pub rise_u: &'l Lane,
    /// What each unit of it does.
    pub slope: &'l Lane,
    /// Standard uncertainty of that.
    pub slope_u: &'l Lane,
}

/// What comes of the rows.
#[derive(Clone, Debug)]
pub struct Worked {
    /// What the effect did, taken off again.
    pub change: Lane,
    /// Standard uncertainty of that.
    pub change_u: Lane,
    /// Lower ends without it.
    pub a: Lane,
    /// Upper ends without it.
    pub b: Lane,
    /// Standard deviations of the normal parts with that of the change.
    pub u: Lane,
    /// Chances to lie below the lower limit.
    pub below: Lane,
    /// Chances to lie inside.
    pub inside: Lane,
    /// Chances to lie above the upper limit.
    pub above: Lane,
    /// Whether the row may be worked out side by side; of any other nothing here holds.
    pub usual: [bool; LANES],
}

impl Worked {
    /// Room for what comes.
    pub const EMPTY: Self = Self {
        change: [0.0; LANES],
        change_u: [0.0; LANES],
        a: [0.0; LANES],
        b: [0.0; LANES],
        u: [0.0; LANES],
        below: [0.0; LANES],
        inside: [0.0; LANES],
        above: [0.0; LANES],
        usual: [false; LANES],
    };

    /// Works the rows out.
    ///
    /// ```
    /// use lashwork_tails::{LANES, Lanes, RectangularNormal, Worked};
    /// let rows = Lanes {
    ///     a: &[0.10; LANES], b: &[0.15; LANES], u: &[0.01; LANES],
    ///     low: &[0.12; LANES], high: &[0.20; LANES], effect: None,
    /// };
    /// let mut found = Worked::EMPTY;
    /// found.fill(&rows);
    /// let alone = RectangularNormal { a: 0.10, b: 0.15, u: 0.01 }.split(Some(0.12), Some(0.20));
    /// assert!(found.usual[7]);
    /// assert_eq!((found.below[7], found.inside[7], found.above[7]), alone);
    /// ```
    pub fn fill(&mut self, rows: &Lanes<'_>) {
        self.worked(rows, libm::sqrt);
    }

    /// The same on a processor with AVX2, to the bit.
    ///
    /// # Safety
    /// Where the compiler does not know that the processor has AVX2, the caller must.
    #[cfg(target_arch = "x86_64")]
    #[target_feature(enable = "avx2")]
    pub fn fill_by_avx2(&mut self, rows: &Lanes<'_>) {
        self.worked(rows, |x| root(x));
    }

    /// The same on a processor with AVX-512 (foundation, bytes and words, double and quad words, and these on
    /// shorter registers), to the bit.
    ///
    /// # Safety
    /// Where the compiler does not know that the processor has it, the caller must.
    #[cfg(target_arch = "x86_64")]
    #[target_feature(enable = "avx512f,avx512bw,avx512dq,avx512vl")]
    pub fn fill_by_avx512(&mut self, rows: &Lanes<'_>) {
        self.worked(rows, |x| root(x));
    }

    #[inline(always)]
    fn worked(&mut self, rows: &Lanes<'_>, root: impl Fn(f64) -> f64) {
        self.usual = [true; LANES];
        if let Some(effect) = &rows.effect {
            self.free_of(effect, rows, root);
        } else {
            (self.a, self.b, self.u) = (*rows.a, *rows.b, *rows.u);
        }
        self.split(rows.low, rows.high);
    }

    #[inline(always)]
    fn free_of(&mut self, effect: &Effect<'_>, rows: &Lanes<'_>, root: impl Fn(f64) -> f64) {
        let mut sum = [0.0; LANES];
        let mut larger = [0.0; LANES];
        let mut alone = [false; LANES];
        for i in 0..LANES {
            let one = Proportion {
                rise: effect.rise[i],
                rise_u: effect.rise_u[i],
                slope: effect.slope[i],
                slope_u: effect.slope_u[i],
            };
            self.change[i] = one.change();
            let (by_slope, by_rise) = one.spreads();
            let squares = Squares::of(by_slope, by_rise);
            (sum[i], larger[i], alone[i]) = (squares.sum, squares.larger, squares.alone);
            self.usual[i] &= squares.in_range;
        }
        for i in 0..LANES {
            let root = root(sum[i]);
            self.change_u[i] = if alone[i] { larger[i] } else { root };
        }
        for i in 0..LANES {
            let squares = Squares::of(rows.u[i], self.change_u[i]);
            (sum[i], larger[i], alone[i]) = (squares.sum, squares.larger, squares.alone);
            self.usual[i] &= squares.in_range;
        }
        for i in 0..LANES {
            let root = root(sum[i]);
            self.u[i] = if alone[i] { larger[i] } else { root };
            self.a[i] = rows.a[i] + -self.change[i];
            self.b[i] = rows.b[i] + -self.change[i];
        }
    }

    /// As [`RectangularNormal::split`] does.
    #[inline(always)]
    fn split(&mut self, low: &Lane, high: &Lane) {
        let mut width = [0.0; LANES];
        let mut lower = Tails::NONE;
        let mut upper = Tails::NONE;
        let mut reciprocal = [0.0; LANES];
        for i in 0..LANES {
            let (a, b, u) = (self.a[i], self.b[i], self.u[i]);
            width[i] = (b - a) / u;
            reciprocal[i] = 1.0 / width[i];
            let below = Tail::at((low[i] - b) / u, (low[i] - a) / u);
            let above = Tail::at((high[i] - b) / u, (high[i] - a) / u);
            lower.put(i, below);
            upper.put(i, above);
            self.usual[i] &= (width[i] > 0.0)
                & (width[i] < f64::INFINITY)
                & !below.is_narrow(width[i])
                & !above.is_narrow(width[i]);
        }
        let lower = lower.chances(&reciprocal);
        let upper = upper.chances(&reciprocal);
        for i in 0..LANES {
            let (below, above_low) = lower.sides(i);
            let (below_high, above) = upper.sides(i);
            let outside = below + above;
            let (a, b, u) = (self.a[i], self.b[i], self.u[i]);
            let band = high[i] - low[i];
            let most_above = above >= below;
            let beyond = if most_above { a - high[i] } else { low[i] - b };
            let beyond = if beyond > 0.0 { beyond } else { 0.0 };
            let difference = if most_above {
                below_high - below
            } else {
                above_low - above
            };
            let mostly_out = if difference > 0.0 { difference } else { 0.0 };
            let both = if outside <= 0.5 {
                1.0 - outside
            } else {
                mostly_out
            };
            let inside = if low[i] == f64::NEG_INFINITY {
                below_high
            } else if high[i] == f64::INFINITY {
                above_low
            } else {
                both
            };
            self.usual[i] &= (outside <= 0.5) | (band * (u + beyond) > NOT_NARROW * u * u);
            (self.below[i], self.inside[i], self.above[i]) = (below, inside, above);
        }
    }
}

/// One limit of each row: how far its two ends are from it, and whether it is seen in a mirror.
struct Tails {
    near: Lane,
    far: Lane,
    turned: [bool; LANES],
}

/// The small chance of each row at one limit.
struct Chances {
    small: Lane,
    turned: [bool; LANES],
}

impl Tails {
    const NONE: Self = Self {
        near: [0.0; LANES],
        far: [0.0; LANES],
        turned: [false; LANES],
    };

    #[inline(always)]
    fn put(&mut self, i: usize, tail: Tail) {
        (self.near[i], self.far[i], self.turned[i]) = (tail.p, tail.q, tail.turned);
    }

    #[inline(always)]
    fn chances(self, reciprocal: &Lane) -> Chances {
        let mut small = [0.0; LANES];
        for i in 0..LANES {
            // Both at once: each constant is loaded once.
            let [near, far] = ramps([self.near[i], self.far[i]]);
            small[i] = over(near - far, reciprocal[i]);
        }
        Chances {
            small,
            turned: self.turned,
        }
    }
}

impl Chances {
    /// Below and above the limit.
    #[inline(always)]
    fn sides(&self, i: usize) -> (f64, f64) {
        let (small, rest) = (self.small[i], 1.0 - self.small[i]);
        if self.turned[i] {
            (rest, small)
        } else {
            (small, rest)
        }
    }
}

/// A sum of two squares so exact that its root has the bits of `libm::hypot`.
struct Squares {
    sum: f64,
    larger: f64,
    /// The smaller one does not count.
    alone: bool,
    in_range: bool,
}

impl Squares {
    /// Of two numbers that are not negative.
    #[inline(always)]
    fn of(x: f64, y: f64) -> Self {
        /// Splits a number into halves whose products are exact.
        const SPLIT: f64 = 134_217_729.0;
        let (larger, smaller) = if x > y { (x, y) } else { (y, x) };
        let square = |x: f64| {
            let shifted = x * SPLIT;
            let high = x - shifted + shifted;
            let low = x - high;
            let square = x * x;
            (square, high * high - square + 2.0 * high * low + low * low)
        };
        let (hx, lx) = square(larger);
        let (hy, ly) = square(smaller);
        let exponents =
            (larger.to_bits() >> 52).cast_signed() - (smaller.to_bits() >> 52).cast_signed();
        let alone = (smaller == 0.0) | (exponents > 64);
        Self {
            sum: ly + lx + hy + hx,
            larger,
            alone,
            in_range: (larger < 1e150) & ((larger > 1e-120) | (smaller == 0.0)),
        }
    }
}

/// The root in a form that the compiler puts side by side; that of `libm` it takes as it is.
#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "sse2")]
#[inline]
fn root(x: f64) -> f64 {
    use core::arch::x86_64::{_mm_cvtsd_f64, _mm_set_sd, _mm_sqrt_sd};
    let x = _mm_set_sd(x);
    _mm_cvtsd_f64(_mm_sqrt_sd(x, x))
}
