//! The test of each magneto alone on the running engine.

use super::answer::MagnetoDropReport;
use super::request::DropRead;
use super::{MagnetoField, Refused, advise};
use crate::ignition::magneto::{DropTest, MagnetoCaution};
use crate::job::assumptions::Assumptions;
use crate::job::ignition::judged::{Sides, told};
use crate::quantity::CrankSpeed;
use alloc::format;
use alloc::vec::Vec;

/// Standard uncertainty of a speed where none is stated, in revolutions a minute. Common practice, no
/// source.
const SPEED_U: f64 = 10.0;

const DROP: Sides = Sides {
    below: "faster on one",
    above: "drops too much",
};
const WEAKER: Sides = Sides {
    below: "the left one is weaker",
    above: "the right one is weaker",
};

/// What the test shows.
pub(super) struct Tested {
    pub(super) report: MagnetoDropReport,
    pub(super) cautions: Vec<MagnetoCaution>,
}

/// Works it out; `settled` where nothing that was read of the magnetos themselves is left to do.
pub(super) fn report(
    asked: &DropRead,
    settled: bool,
    assumptions: &mut Assumptions,
) -> Result<Tested, Refused> {
    let at = MagnetoField::Drop;
    let reading = if let Some(u) = asked.uncertainty {
        u
    } else {
        assumptions.bears_on_verdict(
            "ignition.drop-uncertainty",
            format!("uncertainty of the speeds of the test of each magneto alone not stated: {SPEED_U} rpm (standard) taken"),
        );
        CrankSpeed::from_rpm(SPEED_U).map_err(Refused::at(at))?
    };
    let test = DropTest {
        both: asked.both,
        left_alone: asked.left_alone,
        right_alone: asked.right_alone,
        reading,
        most_drop: asked.most_drop,
        most_difference: asked.most_difference,
    };
    let answer = test.judged().map_err(Refused::at(at))?;
    let rows = answer.drops.iter().map(|drop| {
        let slower = drop.drop.rpm();
        let side = if slower < 0.0 { "faster" } else { "slower" };
        format!(
            "on the {} one alone {:.0} rpm {side}, u {:.0} rpm",
            drop.alone,
            slower.abs(),
            drop.standard_uncertainty.rpm()
        )
    });
    let judged = answer.drops.iter().zip(rows.clone());
    let judged = judged.filter_map(|(drop, said)| {
        let limits = format!("at most {}", test.most_drop?);
        Some(told(said, limits, &drop.judgement?, DROP))
    });
    let difference = format!(
        "they differ by {:.0} rpm, u {:.0} rpm",
        answer.difference.rpm().abs(),
        answer.difference_uncertainty.rpm()
    );
    let limits = format!("at most {}", test.most_difference);
    Ok(Tested {
        report: MagnetoDropReport {
            judged: judged.collect(),
            drops: rows.collect(),
            difference: told(difference, limits, &answer.difference_judgement, WEAKER),
            advice: advise::drop(&answer.findings, settled),
            findings: answer.findings,
        },
        cautions: answer.cautions,
    })
}
