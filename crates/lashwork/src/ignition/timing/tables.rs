//! What the tables add between what a figure is printed for and a reading.

use super::piecewise::{At, Piecewise};
use super::{CentrifugalCurve, Hose, PrintedTiming, Taken, TimingError, VacuumCurve};
use crate::quantity::CrankSpeed;
use core::cmp::Ordering;

impl PrintedTiming<'_> {
    /// What the weights add from what the figure is printed for to a reading.
    pub(super) fn by_speed(&self, taken: &Taken) -> Result<At, TimingError> {
        let (Taken::Running(read), printed) = (taken, self.printed_for) else {
            return match self.printed_for {
                Taken::Standing => Ok(At::default()),
                Taken::Running(printed) => self.more(None, Some(printed.speed)),
            };
        };
        match printed {
            Taken::Running(printed) if printed.speed == read.speed => {
                // The table cancels; how steep it is still tells what a wrong speed does.
                let table = self.centrifugal.map(CentrifugalCurve::table);
                let slope = table.and_then(|t| t.at(read.speed.rpm()).ok());
                Ok(At {
                    slope: slope.map_or(0.0, |at| at.slope),
                    ..At::default()
                })
            }
            Taken::Running(printed) => self.more(Some(read.speed), Some(printed.speed)),
            Taken::Standing => self.more(Some(read.speed), None),
        }
    }

    fn more(
        &self,
        read: Option<CrankSpeed>,
        printed: Option<CrankSpeed>,
    ) -> Result<At, TimingError> {
        let Some(speed) = read.or(printed) else {
            return Ok(At::default());
        };
        let table = self.centrifugal.map(CentrifugalCurve::table);
        let table = table.ok_or(TimingError::NoCurve { speed })?;
        let at = |speed: Option<CrankSpeed>| {
            speed.map_or(Ok(At::default()), |speed| table.at(speed.rpm()))
        };
        Ok(difference(
            at(read)?,
            at(printed)?,
            read.partial_cmp(&printed),
        ))
    }

    /// What the capsule adds, and how much more it may add where its vacuum was not read.
    pub(super) fn by_vacuum(&self, taken: &Taken) -> Result<(At, f64), TimingError> {
        let hose = |taken: &Taken| match taken {
            Taken::Standing => Hose::Plugged,
            Taken::Running(running) => running.hose,
        };
        let speed = |taken: &Taken| match taken {
            Taken::Standing => None,
            Taken::Running(running) => Some(running.speed),
        };
        let (read, printed) = (hose(taken), hose(&self.printed_for));
        let alike = match (read, printed) {
            (Hose::Connected(Some(read)), Hose::Connected(Some(printed))) => read == printed,
            // One engine at one speed draws one vacuum, whatever it is.
            (Hose::Connected(None), Hose::Connected(None)) => {
                speed(taken) == speed(&self.printed_for)
            }
            _ => false,
        };
        if alike {
            return Ok((At::default(), 0.0));
        }
        let table = || -> Result<&Piecewise, TimingError> {
            let table = self.vacuum.map(VacuumCurve::table);
            table.ok_or(TimingError::VacuumNotKnown)
        };
        let at = |hose: Hose| match hose {
            Hose::NotFitted | Hose::Plugged => Ok(At::default()),
            Hose::Connected(Some(vacuum)) => table()?.at(vacuum.kilopascals()),
            Hose::Connected(None) => Err(TimingError::VacuumNotKnown),
        };
        if read == Hose::Connected(None) {
            let table = table()?;
            return if table.ends() {
                let off = difference(At::default(), at(printed)?, None);
                Ok((off, table.last().most))
            } else {
                Err(TimingError::VacuumNotKnown)
            };
        }
        Ok((difference(at(read)?, at(printed)?, None), 0.0))
    }
}

/// The first less the second. Where it is known which of the two lies further up the same table, the
/// difference has that sign.
fn difference(a: At, b: At, first_lies: Option<Ordering>) -> At {
    let (least, most) = (a.least - b.most, a.most - b.least);
    At {
        least: match first_lies {
            Some(Ordering::Greater) => least.max(0.0),
            _ => least,
        },
        most: match first_lies {
            Some(Ordering::Less) => most.min(0.0),
            _ => most,
        },
        slope: a.slope,
    }
}
