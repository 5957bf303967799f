//! What each cause shows, and how often.
//!
//! # Sources
//! That a sign points to a cause is published:
//! - low dry and up with oil: rings; no better with oil: valves; two neighbours, no better: gasket; oil about
//!   15 ml: GM service texts (2006, 2010);
//! - air heard at the exhaust: exhaust valve, at the intake: intake valve, at the breather: rings: AOPA, 2016;
//!   into the water: gasket or crack: common practice, no source;
//! - all low with steady low vacuum: late valve timing, or an even ring leak: US Army OD 1001;
//! - seats that sink close the clearance, all of them alike where the fuel has no lead: SAE 710841 and 861550 by their
//!   abstracts;
//! - a rubbing block that wears makes the dwell grow and the spark late: maker's manual, 1970s;
//! - much oxygen with much carbon monoxide: misfire or a leak at the probe; plugs by their colour: common
//!   practice, no source.
//!
//! How often it shows so is this library's choice throughout.

use super::Cause;

/// A cause in one of its forms: in all cylinders or in one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Form {
    /// It leaks, and has not sunk.
    Burnt,
    /// It leaks, and has closed its clearance by sinking.
    Sunk,
    /// It was set so.
    Tight,
    /// It closed since it was set.
    Closed,
    /// The nose of the lobe: the clearance stays.
    Nose,
    /// The follower or its seat: the clearance opens.
    Follower,
    Tooth,
    RingsAll,
    RingsOne,
    Gasket,
    AirAll,
    AirOne,
    SparkAll,
    SparkOne,
    Late,
    Rich,
    Lean,
    /// A leak that may pass: carbon under a valve, bores dry from standing. No cause, but it looks like one.
    Passing,
    /// What is not weighed here.
    Else,
}

impl Form {
    pub(super) const ALL: [Self; 19] = [
        Self::Burnt,
        Self::Sunk,
        Self::Tight,
        Self::Closed,
        Self::Nose,
        Self::Follower,
        Self::Tooth,
        Self::RingsAll,
        Self::RingsOne,
        Self::Gasket,
        Self::AirAll,
        Self::AirOne,
        Self::SparkAll,
        Self::SparkOne,
        Self::Late,
        Self::Rich,
        Self::Lean,
        Self::Passing,
        Self::Else,
    ];

    /// The cause; none of what is none, or is not weighed.
    pub(super) const fn cause(self) -> Option<Cause> {
        Some(match self {
            Self::Burnt | Self::Sunk => Cause::ValveBurnt,
            Self::Tight | Self::Closed => Cause::ValveTight,
            Self::Nose | Self::Follower => Cause::CamWorn,
            Self::Tooth => Cause::CamToothOut,
            Self::RingsAll | Self::RingsOne => Cause::RingsWorn,
            Self::Gasket => Cause::HeadGasket,
            Self::AirAll | Self::AirOne => Cause::IntakeLeak,
            Self::SparkAll | Self::SparkOne => Cause::SparkWeak,
            Self::Late => Cause::SparkLate,
            Self::Rich => Cause::MixtureRich,
            Self::Lean => Cause::MixtureLean,
            Self::Passing | Self::Else => return None,
        })
    }
}

/// One kind of sign: what it shows of a sound engine or cylinder comes first among its outcomes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    Lash,
    Drift,
    /// Beside a clearance that was found tight, or loose, of which it was reckoned.
    DriftOfTight,
    DriftOfLoose,
    Seats,
    Compression,
    Leak,
    Plug,
    Pressure,
    Monoxide,
    Unburnt,
    Oxygen,
    Lambda,
    Timing,
    Dwell,
}

impl Kind {
    /// Percent of each outcome in a sound one.
    pub(super) const fn sound(self) -> &'static [f64] {
        match self {
            Self::Lash => &[96.5, 0.4, 3.1],
            Self::Drift => &[99.6, 0.2, 0.2],
            // A clearance that was read wrong, or set wrong last time, makes both.
            Self::DriftOfTight => &[75.0, 24.5, 0.5],
            Self::DriftOfLoose => &[75.0, 0.5, 24.5],
            Self::Seats => &[90.0, 10.0],
            Self::Compression => &[98.2, 0.7, 1.1],
            Self::Leak => &[96.5, 0.7, 0.7, 1.8, 0.3],
            Self::Plug => &[90.0, 4.0, 2.5, 2.0, 1.5],
            Self::Pressure => &[90.0, 7.0, 3.0],
            Self::Monoxide => &[95.0, 2.5, 2.5],
            Self::Unburnt => &[93.0, 7.0],
            Self::Oxygen => &[92.0, 8.0],
            Self::Lambda => &[92.0, 4.0, 4.0],
            Self::Timing => &[99.4, 0.4, 0.2],
            Self::Dwell => &[94.0, 3.0, 3.0],
        }
    }

    /// Whether the cause is just this sign: a spark found late is late, however slightly.
    pub(super) const fn is(self, form: Form) -> bool {
        matches!(
            (self, form),
            (Self::Lash, Form::Tight | Form::Closed)
                | (Self::Timing, Form::Late)
                | (Self::Monoxide | Self::Lambda, Form::Rich)
        )
    }

    /// Percent of each outcome under a plain cause.
    #[expect(
        clippy::match_same_arms,
        reason = "a row a sign and cause, each changed by itself"
    )]
    pub(super) const fn plain(self, form: Form) -> &'static [f64] {
        use Form as F;
        match (self, form) {
            (Self::Lash, F::Sunk) => &[33.0, 64.0, 3.0],
            (Self::Lash, F::Tight | F::Closed) => &[2.0, 97.0, 1.0],
            (Self::Lash, F::Follower) => &[10.0, 2.0, 88.0],
            (Self::Lash, F::Else) => &[86.0, 6.0, 8.0],
            (Self::Drift | Self::DriftOfTight | Self::DriftOfLoose, F::Sunk | F::Closed) => {
                &[12.0, 86.0, 2.0]
            }
            (Self::Drift | Self::DriftOfTight | Self::DriftOfLoose, F::Follower) => {
                &[10.0, 2.0, 88.0]
            }
            (Self::Drift, F::Else) => &[90.0, 5.0, 5.0],
            (Self::Seats, F::Sunk | F::Closed) => &[55.0, 45.0],
            (Self::Compression, F::Burnt | F::Sunk) => &[10.0, 8.0, 82.0],
            (Self::Compression, F::Tight | F::Closed) => &[66.0, 3.0, 31.0],
            (Self::Compression, F::Nose | F::Follower) => &[55.0, 5.0, 40.0],
            (Self::Compression, F::RingsOne) => &[8.0, 77.0, 15.0],
            (Self::Compression, F::RingsAll) => &[89.0, 8.0, 3.0],
            (Self::Compression, F::Gasket) => &[8.0, 6.0, 86.0],
            (Self::Compression, F::Else) => &[82.0, 7.0, 11.0],
            (Self::Compression, F::Passing) => &[25.0, 35.0, 40.0],
            (Self::Leak, F::Passing) => &[25.0, 18.0, 18.0, 37.0, 2.0],
            (Self::Unburnt, F::Passing) => &[70.0, 30.0],
            (Self::Leak, F::Burnt | F::Sunk) => &[8.0, 68.0, 18.0, 3.0, 3.0],
            (Self::Leak, F::Tight | F::Closed) => &[62.0, 24.0, 10.0, 3.0, 1.0],
            (Self::Leak, F::RingsOne) => &[8.0, 2.0, 2.0, 86.0, 2.0],
            (Self::Leak, F::RingsAll) => &[20.0, 2.0, 2.0, 75.0, 1.0],
            (Self::Leak, F::Gasket) => &[8.0, 2.0, 3.0, 4.0, 83.0],
            (Self::Leak, F::Else) => &[80.0, 5.0, 5.0, 5.0, 5.0],
            (Self::Plug, F::Burnt | F::Sunk) => &[42.0, 24.0, 6.0, 6.0, 22.0],
            (Self::Plug, F::Tight | F::Closed) => &[62.0, 14.0, 16.0, 2.0, 6.0],
            (Self::Plug, F::Nose | F::Follower | F::Tooth) => &[70.0, 15.0, 6.0, 4.0, 5.0],
            (Self::Plug, F::RingsOne) => &[20.0, 8.0, 1.0, 68.0, 3.0],
            (Self::Plug, F::RingsAll) => &[45.0, 8.0, 2.0, 43.0, 2.0],
            (Self::Plug, F::Gasket) => &[40.0, 14.0, 13.0, 4.0, 29.0],
            (Self::Plug, F::AirAll) => &[22.0, 1.0, 66.0, 2.0, 9.0],
            (Self::Plug, F::AirOne) => &[25.0, 4.0, 52.0, 3.0, 16.0],
            (Self::Plug, F::SparkOne) => &[14.0, 26.0, 2.0, 6.0, 52.0],
            (Self::Plug, F::SparkAll) => &[31.0, 35.0, 1.0, 3.0, 30.0],
            (Self::Plug, F::Late) => &[72.0, 12.0, 10.0, 3.0, 3.0],
            (Self::Plug, F::Rich) => &[8.0, 82.0, 1.0, 3.0, 6.0],
            (Self::Plug, F::Lean) => &[20.0, 1.0, 68.0, 2.0, 9.0],
            (Self::Plug, F::Passing) => &[70.0, 6.0, 4.0, 17.0, 3.0],
            (Self::Plug, F::Else) => &[68.0, 10.0, 8.0, 7.0, 7.0],
            (Self::Pressure, F::Tooth) => &[20.0, 75.0, 5.0],
            (Self::Pressure, F::RingsAll) => &[22.0, 77.0, 1.0],
            (Self::Pressure, F::Else) => &[78.0, 14.0, 8.0],
            (Self::Monoxide, F::Rich) => &[8.0, 91.0, 1.0],
            (Self::Monoxide, F::Lean) => &[12.0, 1.0, 87.0],
            (Self::Monoxide, F::AirAll) => &[14.0, 2.0, 84.0],
            (Self::Monoxide, F::AirOne) => &[55.0, 8.0, 37.0],
            (Self::Monoxide, F::SparkAll | F::SparkOne) => &[65.0, 15.0, 20.0],
            (Self::Monoxide, F::Else) => &[66.0, 17.0, 17.0],
            (Self::Unburnt, F::Burnt | F::Sunk | F::Gasket) => &[18.0, 82.0],
            (Self::Unburnt, F::AirOne) => &[30.0, 70.0],
            (Self::Unburnt, F::Tight | F::Closed | F::Tooth | F::RingsAll) => &[48.0, 52.0],
            (Self::Unburnt, F::Nose | F::Follower | F::RingsOne | F::Else) => &[60.0, 40.0],
            (Self::Unburnt, F::AirAll | F::Lean) => &[32.0, 68.0],
            (Self::Unburnt, F::Rich) => &[37.0, 63.0],
            (Self::Unburnt, F::SparkOne) => &[6.0, 94.0],
            (Self::Unburnt, F::SparkAll) => &[15.0, 85.0],
            (Self::Oxygen, F::Burnt | F::Sunk | F::Gasket) => &[30.0, 70.0],
            (
                Self::Oxygen,
                F::Tight | F::Closed | F::Nose | F::Follower | F::RingsOne | F::Else,
            ) => &[65.0, 35.0],
            (Self::Oxygen, F::AirAll | F::AirOne) => &[17.0, 83.0],
            (Self::Oxygen, F::SparkOne | F::SparkAll | F::Lean) => &[13.0, 87.0],
            (Self::Oxygen, F::Rich) => &[96.0, 4.0],
            (Self::Lambda, F::Rich) => &[7.0, 92.0, 1.0],
            (Self::Lambda, F::Lean) => &[8.0, 1.0, 91.0],
            (Self::Lambda, F::AirAll) => &[20.0, 2.0, 78.0],
            (Self::Lambda, F::AirOne) => &[40.0, 4.0, 56.0],
            (Self::Lambda, F::SparkOne | F::SparkAll) => &[60.0, 8.0, 32.0],
            (Self::Lambda, F::Else) => &[66.0, 17.0, 17.0],
            (Self::Timing, F::Late) => &[2.0, 97.0, 1.0],
            (Self::Timing, F::Else) => &[74.0, 13.0, 13.0],
            (Self::Dwell, F::Late) => &[50.0, 47.0, 3.0],
            (Self::Dwell, F::SparkAll) => &[55.0, 12.0, 33.0],
            (Self::Dwell, F::Else) => &[76.0, 12.0, 12.0],
            _ => self.sound(),
        }
    }
}
