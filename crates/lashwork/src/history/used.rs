//! How long an engine has been in use, on each of the counts that a record can go by.

use super::HistoryError;
use alloc::borrow::ToOwned;
use core::fmt;
use serde::{Serialize, Serializer};

/// Days from 1 March of year 0 to 1 January 1970.
const TO_1970: i64 = 719_468;

/// A day of the calendar.
///
/// ```
/// use lashwork::history::Day;
/// let day = Day::parse("2020-02-29")?;
/// assert_eq!(day.to_string(), "2020-02-29");
/// assert_eq!(Day::parse("2020-03-01")?.number() - day.number(), 1);
/// assert!(Day::parse("2021-02-29").is_err() && Day::parse("29.2.2020").is_err());
/// # Ok::<(), lashwork::history::HistoryError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Day(i64);

impl Day {
    /// Reads a day as ISO 8601 writes it, years 1800 to 9999.
    ///
    /// # Errors
    /// [`HistoryError::Day`].
    pub fn parse(text: &str) -> Result<Self, HistoryError> {
        let refused = || HistoryError::Day {
            text: text.to_owned(),
        };
        let mut parts = text.trim().split('-');
        let mut part = |width: usize| {
            let part = parts.next().filter(|part| {
                part.len() == width && part.bytes().all(|byte| byte.is_ascii_digit())
            });
            part.and_then(|part| part.parse::<i64>().ok())
        };
        let read = (part(4), part(2), part(2));
        let (Some(year), Some(month), Some(day)) = read else {
            return Err(refused());
        };
        let found = Self::of(year, month, day);
        let is_there = parts.next().is_none() && year >= 1800 && (1..=12).contains(&month);
        if is_there && day >= 1 && found.civil() == (year, month, day) {
            Ok(found)
        } else {
            Err(refused())
        }
    }

    /// Years that begin in March have the leap day at their end.
    const fn of(year: i64, month: i64, day: i64) -> Self {
        let year = if month <= 2 { year - 1 } else { year };
        let in_year = (153 * ((month + 9) % 12) + 2) / 5 + day - 1;
        Self(year * 365 + year / 4 - year / 100 + year / 400 + in_year - TO_1970)
    }

    const fn civil(self) -> (i64, i64, i64) {
        let days = self.0 + TO_1970;
        let era = days / 146_097;
        let of_era = days % 146_097;
        let year = (of_era - of_era / 1_460 + of_era / 36_524 - of_era / 146_096) / 365;
        let of_year = of_era - (365 * year + year / 4 - year / 100);
        let month = (5 * of_year + 2) / 153;
        let day = of_year - (153 * month + 2) / 5 + 1;
        let month = if month < 10 { month + 3 } else { month - 9 };
        let year = year + era * 400 + if month <= 2 { 1 } else { 0 };
        (year, month, day)
    }

    /// The day so many days after 1 January 1970.
    ///
    /// # Errors
    /// [`HistoryError::Day`] for a number that is none, or outside the years 1800 to 9999.
    ///
    /// ```
    /// use lashwork::history::Day;
    /// assert_eq!(Day::numbered(18_321.7)?.to_string(), "2020-02-29");
    /// assert!(Day::numbered(f64::NAN).is_err());
    /// # Ok::<(), lashwork::history::HistoryError>(())
    /// ```
    pub fn numbered(days: f64) -> Result<Self, HistoryError> {
        let (first, last) = (Self::of(1800, 1, 1), Self::of(9999, 12, 31));
        let days = libm::floor(days);
        if (first.0 as f64..=last.0 as f64).contains(&days) {
            #[expect(clippy::cast_possible_truncation, reason = "a whole number in range")]
            Ok(Self(days as i64))
        } else {
            Err(HistoryError::Day {
                text: alloc::format!("{days} days"),
            })
        }
    }

    /// Days since 1 January 1970, negative before.
    #[must_use]
    pub const fn number(self) -> i64 {
        self.0
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day) = self.civil();
        write!(f, "{year:04}-{month:02}-{day:02}")
    }
}

impl Serialize for Day {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// What a record goes by.
///
/// ```
/// use lashwork::history::CountedBy;
/// assert_eq!(CountedBy::Distance.unit(), "km");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum CountedBy {
    /// Hours that the engine ran.
    Hours,
    /// How far it went.
    Distance,
    /// Days of the calendar.
    Days,
}

impl CountedBy {
    /// What wear follows more closely stands first.
    pub(super) const ALL: [Self; 3] = [Self::Hours, Self::Distance, Self::Days];

    /// Symbol of the unit it is counted in.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Hours => "h",
            Self::Distance => "km",
            Self::Days => "d",
        }
    }
}

impl fmt::Display for CountedBy {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Hours => "the hours run",
            Self::Distance => "the distance",
            Self::Days => "the day",
        })
    }
}

/// What a distance is said in.
///
/// ```
/// use lashwork::history::DistanceUnit;
/// assert_eq!(DistanceUnit::Mile.symbol(), "mi");
/// assert_eq!(DistanceUnit::Mile.kilometres(), 1.609_344);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DistanceUnit {
    /// Kilometres.
    Kilometre,
    /// Miles.
    Mile,
}

impl DistanceUnit {
    /// Its symbol.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Kilometre => "km",
            Self::Mile => "mi",
        }
    }

    /// Kilometres of one; of a mile exact since 1959.
    #[must_use]
    pub const fn kilometres(self) -> f64 {
        match self {
            Self::Kilometre => 1.0,
            Self::Mile => 1.609_344,
        }
    }
}

/// When something was, on every count that is known.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::history::{CountedBy, Day, Used};
/// let used = Used::on(Day::parse("2019-04-27")?).hours(412.5)?;
/// assert_eq!(used.count(CountedBy::Hours), Some(412.5));
/// assert_eq!(used.count(CountedBy::Distance), None);
/// assert_eq!(Used::default().miles(10_000.0)?.count(CountedBy::Distance), Some(16_093.44));
/// assert_eq!(Used::default().hours(-1.0).unwrap_err().code(), "history.count");
/// # Ok::<(), lashwork::history::HistoryError>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Used {
    day: Option<Day>,
    hours: Option<f64>,
    /// As stated, and in what.
    distance: Option<(f64, DistanceUnit)>,
}

impl Used {
    /// Most hours that are accepted.
    pub const MAX_HOURS: f64 = 1e6;
    /// Most kilometres that are accepted.
    pub const MAX_KILOMETRES: f64 = 1e7;

    /// On a day.
    #[must_use]
    pub const fn on(day: Day) -> Self {
        Self {
            day: Some(day),
            hours: None,
            distance: None,
        }
    }

    /// After so many hours run.
    ///
    /// # Errors
    /// [`HistoryError::Count`].
    pub fn hours(self, hours: f64) -> Result<Self, HistoryError> {
        Ok(Self {
            hours: Some(count(hours, Self::MAX_HOURS, "h")?),
            ..self
        })
    }

    /// After so many kilometres.
    ///
    /// # Errors
    /// [`HistoryError::Count`].
    pub fn kilometres(self, kilometres: f64) -> Result<Self, HistoryError> {
        self.far(kilometres, DistanceUnit::Kilometre)
    }

    /// After so many miles.
    ///
    /// # Errors
    /// [`HistoryError::Count`].
    pub fn miles(self, miles: f64) -> Result<Self, HistoryError> {
        self.far(miles, DistanceUnit::Mile)
    }

    fn far(self, distance: f64, unit: DistanceUnit) -> Result<Self, HistoryError> {
        let max = Self::MAX_KILOMETRES / unit.kilometres();
        Ok(Self {
            distance: Some((count(distance, max, unit.symbol())?, unit)),
            ..self
        })
    }

    /// What its distance was stated in, if it states one.
    #[must_use]
    pub fn distance_unit(&self) -> Option<DistanceUnit> {
        self.distance.map(|(_, unit)| unit)
    }

    /// After what a meter shows, written with its unit: `412.5 h`, `58000 km`, `36,4 mi`.
    ///
    /// # Errors
    /// [`HistoryError::Meter`], [`HistoryError::Count`].
    ///
    /// ```
    /// use lashwork::Refusal;
    /// use lashwork::history::{CountedBy, Used};
    /// let used = Used::default().shown("58000 km")?.shown("412,5 h")?;
    /// assert_eq!(used.count(CountedBy::Distance), Some(58_000.0));
    /// assert_eq!(used.count(CountedBy::Hours), Some(412.5));
    /// assert_eq!(used.shown("58000").unwrap_err().code(), "history.meter");
    /// # Ok::<(), lashwork::history::HistoryError>(())
    /// ```
    pub fn shown(self, text: &str) -> Result<Self, HistoryError> {
        let refused = || HistoryError::Meter {
            text: text.to_owned(),
        };
        let (number, unit) = text.trim().split_once(' ').ok_or_else(refused)?;
        let is_number = number
            .bytes()
            .all(|byte| byte.is_ascii_digit() || byte == b'.' || byte == b',');
        let number = number.replace(',', ".").parse::<f64>();
        let number = number.ok().filter(|_| is_number).ok_or_else(refused)?;
        match unit.trim() {
            "h" => self.hours(number),
            "km" => self.kilometres(number),
            "mi" => self.miles(number),
            _ => Err(refused()),
        }
    }

    /// Where it stands on a count, in its unit; days count from 1 January 1970.
    #[must_use]
    pub fn count(&self, by: CountedBy) -> Option<f64> {
        match by {
            CountedBy::Hours => self.hours,
            CountedBy::Distance => {
                let far = self.distance;
                far.map(|(distance, unit)| distance * unit.kilometres())
            }
            CountedBy::Days => self.day.map(|day| day.number() as f64),
        }
    }

    /// The first count on which this lies before another: what it states, what the other does, and the unit.
    pub(super) fn before(&self, other: &Self) -> Option<(f64, f64, &'static str)> {
        CountedBy::ALL.into_iter().find_map(|by| {
            let (own, others) = (self.count(by)?, other.count(by)?);
            let is_before = own < others;
            match (by, self.distance, other.distance) {
                // As both were stated.
                (CountedBy::Distance, Some((own, unit)), Some((others, same))) if unit == same => {
                    is_before.then_some((own, others, unit.symbol()))
                }
                _ => is_before.then_some((own, others, by.unit())),
            }
        })
    }

    pub(super) fn is_nowhere(&self) -> bool {
        *self == Self::default()
    }

    /// What is stated here, and where nothing is, what was stated before.
    pub(super) fn or(&self, before: &Self) -> Self {
        Self {
            day: self.day.or(before.day),
            hours: self.hours.or(before.hours),
            distance: self.distance.or(before.distance),
        }
    }
}

fn count(got: f64, max: f64, unit: &'static str) -> Result<f64, HistoryError> {
    if (0.0..=max).contains(&got) {
        Ok(got)
    } else {
        Err(HistoryError::Count { got, max, unit })
    }
}
