//! Where in the ignition section something is wrong.

use core::fmt;

/// Where in the ignition section something is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum IgnitionPlace {
    /// The section as a whole.
    Section,
    /// The distributor.
    Distributor,
    /// The leads.
    Leads(LeadsField),
    /// The contacts.
    Contacts(ContactsField),
    /// Coil, condenser and plugs.
    Electrics(ElectricsField),
    /// The timing.
    Timing(TimingField),
    /// How evenly the cylinders fire.
    Evenness(EvennessField),
    /// The magnetos.
    Magneto(MagnetoField),
    /// The ignition point to be said by every tool.
    Point,
}

/// What of the leads is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum LeadsField {
    /// All of it together.
    Section,
    /// How sparks get to the plugs.
    Delivery,
    /// The teeth of the distributor's gear.
    Teeth,
    /// One of the looks.
    Look(usize),
    /// One of the other firing orders.
    OtherOrder(usize),
    /// The chance of a wrong look.
    Misread,
    /// How much each fault is believed in.
    Priors,
}

impl fmt::Display for LeadsField {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Look(i) => return write!(f, "look {} at the leads", i.saturating_add(1)),
            Self::OtherOrder(i) => {
                return write!(f, "other firing order {}", i.saturating_add(1));
            }
            Self::Section => "the leads",
            Self::Delivery => "how sparks get to the plugs",
            Self::Teeth => "the teeth of the distributor's gear",
            Self::Misread => "the chance of a wrong look",
            Self::Priors => "how much each fault of the leads is believed in",
        })
    }
}

/// How evenness was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum EvenWay {
    /// By a lamp, each cylinder at its own mark.
    Timing,
    /// By the flashes on the ring of a stand.
    Ring,
    /// By dwell.
    Dwell,
}

/// What of the evenness is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum EvennessField {
    /// All readings together.
    Readings(EvenWay),
    /// One of them.
    Reading(EvenWay, usize),
    /// The uncertainty of the readings.
    Uncertainty(EvenWay),
    /// The book's tolerance.
    Tolerance,
    /// Where the follower runs on the cam.
    Cam,
}

impl fmt::Display for EvennessField {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::Reading(_, i) => {
                return write!(f, "reading {} of the evenness", i.saturating_add(1));
            }
            Self::Readings(_) => "the readings of the evenness",
            Self::Uncertainty(_) => "the uncertainty of the readings of the evenness",
            Self::Tolerance => "the tolerance of the evenness",
            Self::Cam => "where the follower runs on the cam",
        })
    }
}

/// What of coil, condenser and plugs is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum ElectricsField {
    /// One of the resistors.
    Resistor(usize),
    /// The coil at speed.
    Coil,
    /// The plugs.
    Plug,
}

/// What of the magnetos is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum MagnetoField {
    /// All of them together.
    Section,
    /// One of them.
    Magneto(usize),
    /// The gap of its contacts.
    Gap(usize),
    /// How fast it turns.
    Speed(usize),
    /// The lag of its impulse coupling.
    Lag(usize),
    /// Where it sparks.
    Spark(usize),
    /// How far apart two may be.
    Apart,
    /// The test of each alone.
    Drop,
}

impl fmt::Display for MagnetoField {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let one = |f: &mut fmt::Formatter<'_>, what: &str, i: usize| {
            write!(f, "{what}magneto {}", i.saturating_add(1))
        };
        match self {
            Self::Magneto(i) => one(f, "", *i),
            Self::Gap(i) => one(f, "the gap of ", *i),
            Self::Speed(i) => one(f, "the speed of ", *i),
            Self::Lag(i) => one(f, "the impulse coupling of ", *i),
            Self::Spark(i) => one(f, "the spark of ", *i),
            Self::Section => f.pad("the magnetos"),
            Self::Apart => f.pad("how far apart the magnetos may be"),
            Self::Drop => f.pad("the test of each magneto alone"),
        }
    }
}

/// What of the contacts is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum ContactsField {
    /// All of it together.
    Section,
    /// What the leaves said.
    Gap,
    /// The book's gap.
    GapLimits,
    /// What the meter showed.
    Dwell,
    /// What it showed at speed.
    DwellFaster,
    /// The book's dwell.
    DwellLimits,
    /// The printed pair.
    Pair,
    /// The second printed pair.
    SecondPair,
}

/// What of the timing is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum TimingField {
    /// The book's ignition point, with its tables.
    Limits,
    /// Where to set it.
    SetTo,
    /// What was read.
    Reading,
    /// What was read at several speeds.
    Curve,
}

impl TimingField {
    const fn words(self) -> &'static str {
        match self {
            Self::Limits => "the book's ignition point",
            Self::SetTo => "where to set the ignition point",
            Self::Reading => "the reading of the ignition point",
            Self::Curve => "the readings of the advance",
        }
    }
}

impl ContactsField {
    const fn words(self) -> &'static str {
        match self {
            Self::Section => "the contacts",
            Self::Gap => "the gap of the contacts",
            Self::GapLimits => "the book's gap of the contacts",
            Self::Dwell => "the dwell",
            Self::DwellFaster => "the dwell at speed",
            Self::DwellLimits => "the book's dwell",
            Self::Pair => "the printed pair of gap and dwell",
            Self::SecondPair => "the second printed pair of gap and dwell",
        }
    }
}

impl fmt::Display for IgnitionPlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Self::Electrics(ElectricsField::Resistor(i)) = self {
            return write!(f, "resistor {}", i.saturating_add(1));
        }
        if let Self::Leads(field) = self {
            return field.fmt(f);
        }
        if let Self::Evenness(field) = self {
            return field.fmt(f);
        }
        if let Self::Magneto(field) = self {
            return field.fmt(f);
        }
        f.pad(match self {
            Self::Section | Self::Leads(_) | Self::Evenness(_) | Self::Magneto(_) => {
                "the ignition section"
            }
            Self::Distributor => "the distributor",
            Self::Contacts(field) => field.words(),
            Self::Electrics(ElectricsField::Coil) => "the coil",
            Self::Electrics(_) => "the plugs",
            Self::Timing(field) => field.words(),
            Self::Point => "the ignition point",
        })
    }
}
