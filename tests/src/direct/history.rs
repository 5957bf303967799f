//! The calls about past services, made from Rust.

use super::bits;
use super::calls::{Answer, Coded, Inputs};
use lashwork::history::{
    CountedBy, Day, Drift, DriftAnswer, DriftChoice, Figure, Look, Record, Reset, Service, Subject,
    Used, Visit, drift,
};
use lashwork::quantity::Lash;
use lashwork::tolerance::{DecisionRule, Estimate, Limits, Uncertainty};
use serde_json::{Value, json};

/// A row: when, the estimate if it was read, which valve, what it is (1 found, 2 left as set, 3 left as renewed).
struct Row {
    at: f64,
    low: f64,
    high: f64,
    u: f64,
    valve: usize,
    state: u8,
}

/// All that is stated of past services.
struct Past {
    rows: Vec<Row>,
    by: CountedBy,
    bedding_in: f64,
    scatter: Option<f64>,
}

impl Inputs<'_> {
    /// Columns of times, ends, uncertainties; which ends are open (4 for not read), valves, states; then what is
    /// stated of all.
    fn past(&mut self) -> Answer<Past> {
        let (at, low, high, u) = (
            self.column()?,
            self.column()?,
            self.column()?,
            self.column()?,
        );
        let (span, valve, state) = (self.numbers(), self.numbers(), self.numbers());
        let by = self.pick([CountedBy::Hours, CountedBy::Distance, CountedBy::Days]);
        let (bedding_in, scatter, known) = (self.number(), self.number(), self.whole() == 1);
        let whole = |column: &Option<Vec<f64>>, row: usize, usual: usize| -> usize {
            let number = column.as_ref().and_then(|all| all.get(row));
            number.map_or(usual, |number| {
                format!("{number}").parse().unwrap_or(usize::MAX)
            })
        };
        let rows = at.iter().enumerate().map(|(row, at)| {
            let number = |column: &[f64]| column.get(row).copied().unwrap_or(f64::NAN);
            let span = whole(&span, row, 1);
            Row {
                at: *at,
                low: if span >= 3 {
                    f64::NEG_INFINITY
                } else {
                    number(&low)
                },
                high: if span == 2 || span == 4 {
                    f64::INFINITY
                } else {
                    number(&high)
                },
                u: number(&u),
                valve: whole(&valve, row, 0),
                state: u8::try_from(whole(&state, row, 1)).unwrap_or(0),
            }
        });
        Ok(Past {
            rows: rows.collect(),
            by,
            bedding_in,
            scatter: known.then_some(scatter),
        })
    }

    fn band(&mut self) -> Answer<(Limits<Lash>, DecisionRule)> {
        Ok((self.limits()?, self.rule()?))
    }
}

impl Past {
    fn used(&self, at: f64) -> Answer<Used> {
        match self.by {
            CountedBy::Hours => Used::default().hours(at).code(),
            CountedBy::Distance => Used::default().kilometres(at).code(),
            CountedBy::Days => {
                let day = Day::numbered(at).code()?;
                if at.fract() == 0.0 {
                    Ok(Used::on(day))
                } else {
                    Err("history.day".to_owned())
                }
            }
        }
    }

    fn choice(&self) -> Answer<DriftChoice<Lash>> {
        let scatter = self.scatter.map(|mm| Uncertainty::from_mm(mm).code());
        Ok(DriftChoice {
            counted_by: Some(self.by),
            bedding_in: (self.bedding_in != 0.0).then_some(self.bedding_in),
            scatter: scatter.transpose()?,
        })
    }

    /// The record of those rows that are wanted, with one visit for what was found and left at a valve.
    fn record(&self, valves: usize, wanted: Option<usize>) -> Answer<Record<Lash>> {
        let name = |number: usize| Subject::new(&format!("valve {number}"), "exhaust");
        let mut record = Record::new("engine", (0..valves).map(name).collect()).code()?;
        let rows = self
            .rows
            .iter()
            .filter(|row| wanted.is_none_or(|valve| row.valve == valve));
        let rows: Vec<&Row> = rows.collect();
        let mut from = 0;
        while let Some(first) = rows.get(from) {
            let same = |row: &&&Row| row.at.to_bits() == first.at.to_bits();
            let here: Vec<&&Row> = rows.iter().skip(from).take_while(same).collect();
            let mut visits: Vec<(usize, Visit<Lash>)> = Vec::new();
            for row in &here {
                let valve = if wanted.is_some() { 0 } else { row.valve };
                let is_read = row.low.is_finite() || row.high.is_finite();
                let read = Estimate::from_numbers(row.low, row.high, row.u);
                let reset = match row.state {
                    1 => {
                        visits.push((valve, Visit::found(read.code()?)));
                        continue;
                    }
                    2 => Reset::Set,
                    _ => Reset::Renewed,
                };
                let left = is_read.then(|| read.code()).transpose()?;
                match visits.iter_mut().find(|(own, _)| *own == valve) {
                    Some((_, visit)) => *visit = visit.reset(reset),
                    None => visits.push((valve, Visit::unread().reset(reset))),
                }
                if let Some((_, visit)) = visits.iter_mut().find(|(own, _)| *own == valve) {
                    visit.left = left;
                }
            }
            let used = self.used(first.at)?;
            let engine = "engine".into();
            record
                .push(Service {
                    engine,
                    used,
                    visits,
                })
                .code()?;
            from += here.len();
        }
        Ok(record)
    }

    fn fitted(&self, valves: usize, wanted: Option<usize>) -> Answer<DriftAnswer<Lash>> {
        drift(&self.record(valves, wanted)?, "exhaust", &self.choice()?).code()
    }
}

fn figure(figure: Figure) -> [f64; 4] {
    [
        figure.value,
        figure.standard_uncertainty,
        figure.low,
        figure.high,
    ]
}

fn look(
    drift: &Drift<Lash>,
    valve: usize,
    (limits, rule): &(Limits<Lash>, DecisionRule),
) -> Answer<(u8, f64)> {
    Ok(match drift.look_next(valve, limits, rule).code()? {
        Look::Now(due) => (1, due.at),
        Look::At(due) => (2, due.at),
        Look::NotBefore(at) => (3, at),
        Look::NotKnown(_) => (4, f64::NAN),
    })
}

fn whole(i: &mut Inputs<'_>) -> usize {
    usize::try_from(i.whole()).unwrap_or(usize::MAX)
}

fn of_record(i: &mut Inputs<'_>) -> Answer {
    let (past, valves) = (i.past()?, whole(i));
    let band = i.band()?;
    let mut out: Vec<Value> = Vec::new();
    match past.fitted(valves, None)? {
        DriftAnswer::TooFew(few) => {
            out.extend([f64::NAN; 6].map(bits));
            out.push(json!(few.more));
            for _ in 0..valves {
                out.extend([f64::NAN; 4].map(bits));
                out.push(json!(5));
                out.extend([f64::NAN; 3].map(bits));
            }
        }
        DriftAnswer::Fitted(drift) => {
            let of = figure(drift.rate());
            out.extend(
                of.into_iter()
                    .chain([drift.scatter(), drift.spread()])
                    .map(bits),
            );
            out.push(json!(0));
            for valve in 0..valves {
                let rate = drift.rate_of(valve).ok_or("no rate")?;
                out.extend(figure(rate).map(bits));
                let (what, at) = look(&drift, valve, &band)?;
                out.extend([json!(what), bits(at)]);
                let odd = drift.standings().find(|it| it.subject == valve);
                let odd = odd.map_or([f64::NAN; 2], |it| [it.evidence, it.needed]);
                out.extend(odd.map(bits));
            }
        }
    }
    Ok(out)
}

fn forecast(i: &mut Inputs<'_>) -> Answer {
    let (past, valves, at) = (i.past()?, whole(i), i.number());
    let found = past.fitted(valves, None)?;
    let mut out = Vec::new();
    for valve in 0..valves {
        let one = match &found {
            DriftAnswer::TooFew(_) => None,
            DriftAnswer::Fitted(drift) => drift.predicted(valve, at).code()?.ok(),
        };
        let numbers = one.map_or([f64::NAN; 6], |one| {
            let [value, u, low, high] = figure(one.found);
            [
                value,
                u,
                low,
                high,
                one.line.value,
                one.line.standard_uncertainty,
            ]
        });
        out.extend(numbers.map(bits));
    }
    Ok(out)
}

fn departures(i: &mut Inputs<'_>) -> Answer {
    let (past, valves, valve) = (i.past()?, whole(i), whole(i));
    let found = match past.fitted(valves, None)? {
        DriftAnswer::TooFew(_) => Vec::new(),
        DriftAnswer::Fitted(drift) => drift.departures(valve),
    };
    let rows = found
        .iter()
        .flat_map(|it| [it.at, it.off, it.above, it.below]);
    Ok(rows.map(bits).collect())
}

/// Each valve by the call for a record, whose answer the columns must give to the bit.
fn of_columns(i: &mut Inputs<'_>) -> Answer {
    let (past, valves) = (i.past()?, whole(i));
    let band = i.band()?;
    past.choice()?;
    let mut out = Vec::new();
    for valve in 0..valves {
        let one = || -> Answer<([f64; 3], u8)> {
            let drift = match past.fitted(1, Some(valve))? {
                DriftAnswer::TooFew(_) => return Ok(([f64::NAN; 3], 5)),
                DriftAnswer::Fitted(drift) => drift,
            };
            let rate = drift.rate();
            let (what, at) = look(&drift, 0, &band)?;
            Ok(([rate.value, rate.standard_uncertainty, at], what))
        };
        let ([rate, u, at], what) = one().unwrap_or(([f64::NAN; 3], 0));
        out.extend([bits(rate), bits(u), json!(what), bits(at)]);
    }
    Ok(out)
}

/// See [`super::answer`].
pub(super) fn answer(call: &str, i: &mut Inputs<'_>) -> Answer {
    match call {
        "drift_of_record" => of_record(i),
        "forecast_of_record" => forecast(i),
        "departures_of_record" => departures(i),
        "drift_of_columns" => of_columns(i),
        other => Err(format!("no such call: {other}")),
    }
}
