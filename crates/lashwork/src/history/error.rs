//! Why a record cannot be kept or read.

use super::CountedBy;
use crate::Refusal;
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;
use alloc::string::String;

/// Why a record cannot be kept or read.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::history::Day;
/// assert_eq!(Day::parse("2021-02-29").unwrap_err().code(), "history.day");
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum HistoryError {
    /// Not a day of the calendar.
    #[error("{text:?} is no day of the calendar")]
    Day {
        /// What was written.
        text: String,
    },
    /// What is no reading of a meter.
    #[error("{text:?} is no number of hours or a distance with its unit")]
    Meter {
        /// What was written.
        text: String,
    },
    /// Hours or a distance that no engine has run.
    #[error("{got} {unit} is outside 0 to {max} {unit}")]
    Count {
        /// The refused number.
        got: f64,
        /// The most that is accepted.
        max: f64,
        /// The unit.
        unit: &'static str,
    },
    /// A record without a name for its engine or for one of its subjects, or without subjects.
    #[error("the record has no name for {of}")]
    NoName {
        /// For what.
        of: &'static str,
    },
    /// Two subjects of one name.
    #[error("{name:?} is in the record twice")]
    NamedTwice {
        /// The name.
        name: String,
    },
    /// A service of another engine.
    #[error("service {} is of engine {got:?}, the record is of {expected:?}", .service + 1)]
    OtherEngine {
        /// Which service, from 0.
        service: usize,
        /// Whose it is.
        got: String,
        /// Whose the record is.
        expected: String,
    },
    /// A service before the one before it.
    #[error("service {} is at {got} {unit}, before the {before} {unit} that stood there already", .service + 1)]
    TimeBackwards {
        /// Which service, from 0.
        service: usize,
        /// What it states.
        got: f64,
        /// What was stated last.
        before: f64,
        /// The unit.
        unit: &'static str,
    },
    /// A service that does not say when it was.
    #[error("service {} does not say when it was", .service + 1)]
    NoTime {
        /// Which service, from 0.
        service: usize,
    },
    /// A reading of something that the record does not name.
    #[error("service {} has a reading of subject {}, the record names {count}", .service + 1, .subject + 1)]
    NoSubject {
        /// Which service, from 0.
        service: usize,
        /// Which subject, from 0.
        subject: usize,
        /// How many there are.
        count: usize,
    },
    /// One subject twice in a service.
    #[error("service {} has {name:?} twice", .service + 1)]
    TwiceInService {
        /// Which service, from 0.
        service: usize,
        /// The subject.
        name: String,
    },
    /// A reading as left where nothing was set.
    #[error("{name:?} has a reading as left in service {}, but was not set there", .service + 1)]
    LeftWithoutReset {
        /// Which service, from 0.
        service: usize,
        /// The subject.
        name: String,
    },
    /// A reading as left that was taken before the setting.
    #[error(
        "the reading of {name:?} as left is from {got} {unit}, before the setting at {reset} {unit} it belongs to"
    )]
    ReadBeforeReset {
        /// The subject.
        name: String,
        /// When it was read.
        got: f64,
        /// When it was set.
        reset: f64,
        /// The unit.
        unit: &'static str,
    },
    /// The services cannot be counted by what was asked for.
    #[error("service {} does not state {by}", .service + 1)]
    NotCounted {
        /// Which service, from 0.
        service: usize,
        /// By what.
        by: CountedBy,
    },
    /// No single count is stated by all services.
    #[error("no count is stated by all services")]
    NoCommonCount,
    /// A kind that no subject has.
    #[error("no subject is of kind {kind:?}")]
    NoKind {
        /// What was asked for.
        kind: String,
    },
    /// A length of bedding-in that is not above nought.
    #[error("a bedding-in of {got} is not above nought and finite")]
    BeddingIn {
        /// The refused number.
        got: f64,
    },
    /// A place in time that is not a number, or lies before the record's last service.
    #[error("{got} is not a time from {from} on")]
    At {
        /// The refused number.
        got: f64,
        /// The first that can be asked for.
        from: f64,
    },
    /// More subjects than any engine has.
    #[error("{got} subjects are more than {max}")]
    TooManySubjects {
        /// The refused number.
        got: usize,
        /// The most that is accepted.
        max: usize,
    },
    /// Columns of unequal lengths.
    #[error("columns of {first} and of {other} rows")]
    ColumnLengths {
        /// Rows of the first.
        first: usize,
        /// Rows of another.
        other: usize,
    },
    /// Rows of one subject that do not stand together, or of none that there is.
    #[error(
        "row {row} is of subject {subject}, after rows of {before}; there are {count} subjects, from 0"
    )]
    NotTogether {
        /// Which row, from 0.
        row: usize,
        /// Its subject.
        subject: u32,
        /// That of the row before.
        before: u32,
        /// How many subjects there are.
        count: usize,
    },
    /// An uncertainty or an estimate that cannot be.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
}

impl Refusal for HistoryError {
    fn code(&self) -> &'static str {
        match self {
            Self::Day { .. } => "history.day",
            Self::Meter { .. } => "history.meter",
            Self::Count { .. } => "history.count",
            Self::NoName { .. } => "history.no-name",
            Self::NamedTwice { .. } => "history.named-twice",
            Self::OtherEngine { .. } => "history.other-engine",
            Self::TimeBackwards { .. } => "history.time-backwards",
            Self::NoTime { .. } => "history.no-time",
            Self::NoSubject { .. } => "history.no-subject",
            Self::TwiceInService { .. } => "history.twice-in-service",
            Self::LeftWithoutReset { .. } => "history.left-without-reset",
            Self::ReadBeforeReset { .. } => "history.read-before-reset",
            Self::NotCounted { .. } => "history.not-counted",
            Self::NoCommonCount => "history.no-common-count",
            Self::NoKind { .. } => "history.no-kind",
            Self::BeddingIn { .. } => "history.bedding-in",
            Self::At { .. } => "history.at",
            Self::TooManySubjects { .. } => "history.too-many-subjects",
            Self::ColumnLengths { .. } => "history.column-lengths",
            Self::NotTogether { .. } => "history.not-together",
            Self::Tolerance(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::Day { .. } => "write a day as 2019-04-27",
            Self::Meter { .. } => {
                "write what the meter shows with h, km or mi, as in \"412.5 h\" or \"58000 km\""
            }
            Self::Count { .. } => "give what the meter shows, in the unit asked for",
            Self::NoName { .. } => "name the engine and every valve, as they are called each time",
            Self::NamedTwice { .. } => "give every valve a name of its own",
            Self::OtherEngine { .. } => "keep one record for each engine",
            Self::TimeBackwards { .. } => {
                "check day and meter; after a change of meter add what the old one showed"
            }
            Self::NoTime { .. } => "give the day, the hours or the distance",
            Self::NoSubject { .. } => "name the subjects when the record is begun",
            Self::TwiceInService { .. } => "give one entry, with what was found and what was left",
            Self::LeftWithoutReset { .. } => "say that it was set, or give the reading as found",
            Self::ReadBeforeReset { .. } => "give it as found, or correct when it was read",
            Self::NotCounted { .. } => "state it for all services, or count by something else",
            Self::NoCommonCount => "state the day of every service",
            Self::NoKind { .. } => "ask for a kind of the record",
            Self::BeddingIn { .. } => "give the length of bedding-in in what the record counts by",
            Self::At { .. } => "ask for a time after the last service",
            Self::TooManySubjects { .. } => "give the valves of one kind of one engine",
            Self::ColumnLengths { .. } => "give every column as many rows",
            Self::NotTogether { .. } => {
                "sort the rows by subject, then by time, and count subjects from 0"
            }
            Self::Tolerance(inner) => return inner.hint(),
        })
    }
}
