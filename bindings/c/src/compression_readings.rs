//! Cranking compression of all cylinders of an engine: what was read, and the printed rule.

use crate::boundary::Outcome;
use crate::compression::if_known;
use crate::judging::zero;
use crate::pointers::{Record, items, optional_items};
use crate::quantity::choose;
use lashwork::condition::compression::{
    BuildUp, CompressionRule, CompressionTest, CylinderReading, HeadRows,
};
use lashwork::engine::CylinderLabel;
use lashwork::quantity::{GaugePressure, PressureDifference};
use lashwork::tolerance::Uncertainty;

/// A printed rule for compression. There is no default: books disagree.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_compression_rule_kind {
    /// The lowest cylinder at least so many per cent of the highest, 50 to 100.
    PercentOfHighest = 1,
    /// At most so many kilopascals from the lowest to the highest.
    Difference = 2,
    /// Every cylinder at least so many kilopascals, as printed for sea level; it is carried to the air of the place.
    Minimum = 3,
}

/// How the gauge rose over the strokes.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_build_up {
    /// High at the first stroke, and evenly on to its end.
    Even = 1,
    /// Low at the first stroke, building with each.
    LowThenBuilds = 2,
    /// Low at the first stroke, and not building.
    StaysLow = 3,
}

/// A printed rule.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_compression_rule {
    /// Size of this structure, `sizeof(lw_compression_rule)`.
    pub struct_size: usize,
    /// Which rule: a value of `lw_compression_rule_kind`.
    pub kind: u32,
    /// Reserved: zero; any other number is refused, so that a later release can use it.
    pub reserved: u32,
    /// Its number, in the unit of the kind.
    pub number: f64,
}

/// What a gauge showed of each cylinder; columns as in `lw_reading_columns`. Cylinders are rows, and count from 0.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_compression_readings {
    /// Size of this structure, `sizeof(lw_compression_readings)`.
    pub struct_size: usize,
    /// How many cylinders.
    pub rows: usize,
    /// Without oil, in kilopascals over the air around.
    pub dry_kpa: *const f64,
    /// With oil on the piston; infinity where it was not read so; NULL if none was.
    pub wet_kpa: *const f64,
    /// How the gauge rose, dry: values of `lw_build_up`, 0 where that was not noted; NULL if it was for none.
    pub build_up: *const u32,
    /// Under which head each cylinder stands, any numbers; rows of one number are neighbours in their order, and
    /// share its gasket. NULL for heads of their own.
    pub head: *const u32,
    /// Pressure of the place in kilopascals; ignored if it is not known, and where an engine is given.
    pub air_kpa: f64,
    /// Standard deviation between two readings of one cylinder, in kilopascals; 0 if not stated: 15 is then taken.
    pub repeat_kpa: f64,
    /// That of the gauge itself, the same for all; ignored if it is not stated.
    pub gauge_kpa: f64,
    /// 1 if the pressure of the place is known, else 0: that of sea level is then taken.
    pub air_known: u32,
    /// 1 if the gauge's own is stated, else 0: 20 kilopascals are then taken.
    pub gauge_known: u32,
    /// 1 if the valve clearances are known to be within their limits, else 0.
    pub clearances_good: u32,
    /// Reserved: zero; any other number is refused, so that a later release can use it.
    pub reserved: u32,
}

// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_compression_rule {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers, floats and raw pointers only.
unsafe impl Record for lw_compression_readings {
    const FIRST_SIZE: usize = size_of::<Self>();
}
const KINDS: [(u32, lw_compression_rule_kind); 3] = [
    (
        lw_compression_rule_kind::PercentOfHighest as u32,
        lw_compression_rule_kind::PercentOfHighest,
    ),
    (
        lw_compression_rule_kind::Difference as u32,
        lw_compression_rule_kind::Difference,
    ),
    (
        lw_compression_rule_kind::Minimum as u32,
        lw_compression_rule_kind::Minimum,
    ),
];

const BUILD_UPS: [(u32, Option<BuildUp>); 4] = [
    (0, None),
    (lw_build_up::Even as u32, Some(BuildUp::Even)),
    (
        lw_build_up::LowThenBuilds as u32,
        Some(BuildUp::LowThenBuilds),
    ),
    (lw_build_up::StaysLow as u32, Some(BuildUp::StaysLow)),
];

impl lw_compression_rule {
    pub(crate) fn typed(&self) -> Outcome<CompressionRule> {
        zero("rule.reserved", self.reserved)?;
        let kilopascals = self.number;
        Ok(match choose("rule.kind", self.kind, &KINDS)? {
            lw_compression_rule_kind::PercentOfHighest => CompressionRule::ratio(self.number)?,
            lw_compression_rule_kind::Difference => {
                CompressionRule::difference(PressureDifference::from_kilopascals(kilopascals)?)?
            }
            lw_compression_rule_kind::Minimum => {
                CompressionRule::minimum(GaugePressure::from_kilopascals(kilopascals)?)?
            }
        })
    }
}

fn label(row: usize) -> CylinderLabel {
    CylinderLabel::numbered(row.saturating_add(1))
}

impl lw_compression_readings {
    /// # Safety
    /// The columns have the rows they say.
    unsafe fn readings(&self) -> Outcome<Vec<CylinderReading>> {
        let rows = self.rows;
        // SAFETY: passed on under the same contract.
        let (dry, wet, build_up) = unsafe {
            (
                items("readings.dry_kpa", self.dry_kpa, rows)?,
                optional_items("readings.wet_kpa", self.wet_kpa, rows)?,
                optional_items("readings.build_up", self.build_up, rows)?,
            )
        };
        let one = |(row, dry): (usize, &f64)| -> Outcome<CylinderReading> {
            let wet = wet.and_then(|wet| wet.get(row));
            let read = wet.filter(|wet| **wet != f64::INFINITY);
            let rose = build_up.and_then(|all| all.get(row)).copied();
            Ok(CylinderReading {
                cylinder: label(row),
                dry: GaugePressure::from_kilopascals(*dry)?,
                wet: read
                    .map(|wet| GaugePressure::from_kilopascals(*wet))
                    .transpose()?,
                build_up: choose("readings.build_up", rose.unwrap_or(0), &BUILD_UPS)?,
            })
        };
        let all = dry.iter().enumerate();
        all.map(|(row, dry)| one((row, dry)).map_err(|why| why.at_row(row)))
            .collect()
    }

    /// Cylinders that stand under one head, in their order.
    ///
    /// # Safety
    /// The column has the rows it says.
    unsafe fn heads(&self) -> Outcome<HeadRows> {
        // SAFETY: passed on under the same contract.
        let head = unsafe { optional_items("readings.head", self.head, self.rows) }?;
        let mut rows: Vec<(u32, Vec<CylinderLabel>)> = Vec::new();
        for (row, head) in head.unwrap_or_default().iter().enumerate() {
            match rows.iter_mut().find(|(own, _)| own == head) {
                Some((_, under)) => under.push(label(row)),
                None => rows.push((*head, vec![label(row)])),
            }
        }
        Ok(HeadRows::new(
            rows.into_iter().map(|(_, under)| under).collect(),
        )?)
    }

    /// # Safety
    /// The columns have the rows they say.
    pub(crate) unsafe fn typed(&self) -> Outcome<CompressionTest> {
        zero("readings.reserved", self.reserved)?;
        let known = [(0, false), (1, true)];
        let gauge = choose("readings.gauge_known", self.gauge_known, &known)?;
        let good = choose("readings.clearances_good", self.clearances_good, &known)?;
        let repeat = Uncertainty::from_number(self.repeat_kpa)?;
        // SAFETY: passed on under the same contract.
        let (readings, rows) = unsafe { (self.readings()?, self.heads()?) };
        Ok(CompressionTest {
            readings,
            rows,
            air: if_known("readings.air_known", self.air_known, (self.air_kpa, 0.0))?,
            repeat: Some(repeat).filter(|u| u.number() > 0.0),
            gauge: if gauge {
                Some(Uncertainty::from_number(self.gauge_kpa)?)
            } else {
                None
            },
            clearances_good: good.then_some(true),
            ..CompressionTest::default()
        })
    }
}
