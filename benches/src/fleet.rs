//! Readings of many invented engines, as columns.

/// How many readings: few enough for a processor's own memory, and those of a fleet.
pub const SIZES: [usize; 2] = [10_000, 1_000_000];

/// Readings between neighbouring leaves, each with limits, temperature and coefficient of its own.
#[derive(Debug)]
pub struct Fleet {
    /// Lower ends, mm.
    pub low: Vec<f64>,
    /// Upper ends, mm.
    pub high: Vec<f64>,
    /// Standard uncertainty of the ends, mm.
    pub u: Vec<f64>,
    /// Lower limits, mm.
    pub lower: Vec<f64>,
    /// Upper limits, mm.
    pub upper: Vec<f64>,
    /// Temperature of the metal, degrees Celsius.
    pub celsius: Vec<f64>,
    /// Its standard uncertainty, K.
    pub kelvin: Vec<f64>,
    /// Temperature of the limits, degrees Celsius.
    pub reference: Vec<f64>,
    /// Change of lash, mm/K.
    pub slope: Vec<f64>,
    /// Its standard uncertainty, mm/K.
    pub slope_u: Vec<f64>,
}

impl Fleet {
    /// So many, the same readings every time; `crates/xtask/python/beside.py` makes them too.
    #[must_use]
    pub fn of(rows: usize) -> Self {
        let spread = |step: usize, from: f64, to: f64| -> Vec<f64> {
            let share = |row| (row * step % rows) as f64 / rows as f64;
            (0..rows)
                .map(|row| from + (to - from) * share(row))
                .collect()
        };
        let model = |row: usize| (row % 7) as f64;
        let lower: Vec<f64> = (0..rows).map(|row| 0.10 + 0.05 * model(row)).collect();
        let low: Vec<f64> = spread(37, -0.1, 0.15)
            .iter()
            .zip(&lower)
            .map(|(by, l)| l + by)
            .collect();
        Self {
            high: low.iter().map(|low| low + 0.05).collect(),
            low,
            u: spread(61, 0.003, 0.008),
            upper: (0..rows)
                .map(|row| 0.17 + 0.05 * model(row) + 0.01 * (row % 3) as f64)
                .collect(),
            lower,
            celsius: spread(89, 10.0, 80.0),
            kelvin: spread(97, 1.0, 3.0),
            reference: (0..rows)
                .map(|row| if row % 5 == 0 { 80.0 } else { 20.0 })
                .collect(),
            slope: spread(53, 0.0002, 0.0012),
            slope_u: spread(53, 0.000_02, 0.000_12),
        }
    }

    /// A row after the other, in the order of the fields.
    pub fn rows(&self) -> impl Iterator<Item = [f64; 10]> {
        let all = [
            &self.low,
            &self.high,
            &self.u,
            &self.lower,
            &self.upper,
            &self.celsius,
            &self.kelvin,
            &self.reference,
            &self.slope,
            &self.slope_u,
        ];
        (0..self.low.len())
            .map(move |row| all.map(|column| column.get(row).copied().unwrap_or(f64::NAN)))
    }
}
