//! Where in the mixture section something is wrong.

use core::fmt;

/// Where in the mixture section something is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum MixturePlace {
    /// The section as a whole.
    Section,
    /// The air around.
    Air,
    /// The fuel.
    Fuel,
    /// The fuel level.
    Float(FloatField),
    /// The jets.
    Jets(JetsField),
    /// The balance.
    Balance(BalanceField),
    /// Idle speed and mixture.
    Idle(IdleField),
    /// The vacuum gauge.
    Gauge(GaugeField),
    /// The exhaust gas.
    Gas(GasField),
}

/// What of the fuel level is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum FloatField {
    /// All of it together.
    Section,
    /// The levels.
    Chambers,
    /// One of the levels.
    Chamber(usize),
    /// The fuel they were read with.
    ReadWith,
    /// Density of the fuel that is burnt.
    Density,
    /// How deep the float sits.
    Immersion,
    /// What weighs on the float.
    Body,
    /// How far the jet is under the mark.
    JetUnderMark,
    /// The nozzle.
    Nozzle,
}

/// What of the jets is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum JetsField {
    /// All of it together.
    Section,
    /// The air they were chosen for.
    SetFor,
    /// The jets that are fitted.
    Fitted,
    /// One of the jets.
    Jet(usize),
    /// Its circuit.
    Circuit(usize),
    /// Its number.
    Number(usize),
    /// The maker's table of its numbers.
    Table(usize),
    /// The sizes there are of it.
    Sizes(usize),
    /// One of those: first the jet, then the size.
    Size(usize, usize),
    /// The book's steps.
    Steps(usize),
}

/// What of the balance is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum BalanceField {
    /// All of it together.
    Section,
    /// The throttles.
    Throttles,
    /// The one to which the others are set.
    Reference,
    /// The joints.
    Joints,
    /// One of the joints.
    Joint(usize),
    /// What was read.
    Readings(BalanceWay),
    /// What was read at one throttle.
    Reading(BalanceWay, usize),
    /// One look at the gauge there.
    Shown(BalanceWay, usize, usize),
    /// The trial turns.
    Trials(BalanceWay),
    /// One of the trial turns.
    Trial(BalanceWay, usize),
    /// The allowed difference.
    Allowed(BalanceWay),
    /// What is known of the cylinders behind the throttles.
    Cylinders(CylindersField),
}

/// How throttles were read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum BalanceWay {
    /// By the vacuum behind each.
    Vacuum,
    /// By the flow through each.
    Flow,
}

/// What of the cylinders behind the throttles is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum CylindersField {
    /// All of it together.
    Section,
    /// How nearly alike the throttles were set.
    SetAlike,
    /// The flow through each.
    Flows,
    /// The flow through one.
    Flow(usize),
    /// From what share on a difference matters.
    MattersFrom,
}

impl fmt::Display for BalanceField {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let nth = |i: &usize| i.saturating_add(1);
        match self {
            Self::Joint(i) => write!(f, "joint {} of the balance", nth(i)),
            Self::Reading(_, i) => write!(f, "reading {} of the balance", nth(i)),
            Self::Shown(_, i, j) => {
                write!(f, "look {} of reading {} of the balance", nth(j), nth(i))
            }
            Self::Trial(_, i) => write!(f, "trial {} of the balance", nth(i)),
            Self::Cylinders(CylindersField::Flow(i)) => {
                write!(f, "flow {} of the balance", nth(i))
            }
            Self::Section => f.pad("the balance"),
            Self::Throttles => f.pad("the throttles of the balance"),
            Self::Reference => f.pad("the reference of the balance"),
            Self::Joints => f.pad("the joints of the balance"),
            Self::Readings(_) => f.pad("the readings of the balance"),
            Self::Trials(_) => f.pad("the trials of the balance"),
            Self::Allowed(_) => f.pad("the allowed difference of the balance"),
            Self::Cylinders(_) => f.pad("the cylinders behind the throttles"),
        }
    }
}

/// What of the idle is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum IdleField {
    /// All of it together.
    Section,
    /// The readings.
    Readings,
    /// One of the readings.
    Reading(usize),
    /// Where the book wants the screw.
    Rule,
    /// The rise of the speed on leaning.
    Rise,
}

/// What of the vacuum gauge is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum GaugeField {
    /// All of it together.
    Section,
    /// The level.
    Level,
    /// How far the needle drops.
    Drop,
    /// Cylinders on the manifold.
    Cylinders,
    /// The chance of a wrong look.
    Misread,
}

/// What of the exhaust gas is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum GasField {
    /// All of it together.
    Section,
    /// Carbon monoxide.
    CarbonMonoxide,
    /// Carbon dioxide.
    CarbonDioxide,
    /// Oxygen.
    Oxygen,
    /// Hydrocarbons.
    Hydrocarbons,
    /// What a molecule of hydrocarbon counts for.
    HydrocarbonFactor,
    /// Nitric oxide.
    NitricOxide,
    /// The uncertainties that are stated.
    Uncertainty,
}

impl fmt::Display for MixturePlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Self::Balance(field) = self {
            return field.fmt(f);
        }
        f.pad(match self {
            Self::Section | Self::Balance(_) => "the mixture section",
            Self::Air => "the air around",
            Self::Fuel => "the fuel",
            Self::Float(_) => "the fuel level",
            Self::Jets(_) => "the jets",
            Self::Idle(_) => "idle speed and mixture",
            Self::Gauge(_) => "the vacuum gauge",
            Self::Gas(_) => "the exhaust gas",
        })
    }
}
