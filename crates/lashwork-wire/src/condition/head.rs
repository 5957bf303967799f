//! The head's bolts in a document.

use crate::problem::{Problem, is_short, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::condition::head::{Adapter, Bolt, RockerPivot, Scatter, Tightening, Wrench};
use lashwork::job::condition::{BoltForce, Head, HeadBolts, HeadField, TorqueUnit};
use lashwork::quantity::{AxisAngle, Length, Torque};

named!(HeadBolts as "HeadBoltsDoc" {
    /// Nothing is said.
    NotStated = "not_stated",
    /// As the book asks, and not touched since the valves were measured.
    Settled = "settled",
    /// To be tightened.
    Due = "due",
    /// Tightened after the valves were measured.
    TightenedSince = "tightened_since",
});

named!(TorqueUnit as "TorqueUnitDoc" {
    NewtonMetre = "Nm",
    KilogramForceMetre = "kgf m",
    PoundFoot = "lbf ft",
});

named!(Tightening as "TighteningDoc" {
    /// To yield, or by an angle.
    YieldOrAngle = "yield_or_angle",
    /// By elongation, or hydraulically.
    Elongation = "elongation",
    /// By a torque that was found on the joint itself.
    TorqueTuned = "torque_tuned",
    /// By a torque from a friction that was estimated.
    TorqueEstimated = "torque_estimated",
    /// By a power driver.
    PowerDriver = "power_driver",
    /// By a torque on threads as received.
    DryTorque = "dry_torque",
    /// By a torque on oiled threads.
    OiledTorque = "oiled_torque",
});

parts! {
    /// The head's bolts.
    HeadDoc {
        /// Where they stand.
        bolts_are: W<HeadBolts>,
        /// The bolts and where they stand on the head.
        bolts: Option<Vec<BoltDoc>>,
        /// The maker's order, by name.
        order: Option<Vec<String>>,
        /// The printed torque.
        torque: Option<Q<Torque>>,
        /// The same printed once more, in another unit or another book.
        also_printed: Option<Q<Torque>>,
        /// The wrench.
        wrench: Option<WrenchDoc>,
        /// What is between the wrench and the bolt.
        adapter: Option<AdapterDoc>,
        /// What is known of a bolt, for the force along it.
        bolt: Option<BoltForceDoc>,
        /// How far the head goes down when it is tightened.
        settling: Option<SettlingDoc>,
        /// The unit in which torques are said; Nm if not stated.
        unit: Option<W<TorqueUnit>>,
    }
    /// A bolt and where it stands.
    BoltDoc {
        name: String,
        /// Along the head, from any corner.
        along: Q<Length>,
        /// Across it.
        across: Q<Length>,
        /// The groups are tightened one after the other: 0 for the long bolts, 1 for short ones beside them; 0 if
        /// not stated.
        group: Option<u8>,
    }
    /// A torque wrench.
    WrenchDoc {
        /// The end of its scale.
        scale_end: Q<Torque>,
        /// The deviation it is allowed, in per cent.
        class_percent: f64,
    }
    /// What is between the wrench and the bolt.
    AdapterDoc {
        /// Of the wrench, from its drive to the middle of the grip.
        wrench_length: Q<Length>,
        /// Of the adapter, from the drive to the bolt.
        length: Q<Length>,
        /// How far it is turned out of the wrench's line: 0 straight on, 90 square; 0 if not stated.
        turned: Option<Q<AxisAngle>>,
    }
    /// What the force along a bolt follows from.
    BoltForceDoc {
        /// Nominal diameter.
        diameter: Q<Length>,
        /// Torque over force and diameter: about 0.2 for plain dry steel, less for oiled.
        nut_factor: f64,
        /// How it is tightened, which says how far the force scatters.
        tightening: W<Tightening>,
    }
    /// How far the head goes down, and what that does to the lash.
    SettlingDoc {
        down: Q<Length>,
        /// Valve movement over pushrod movement, where the rockers stand on the head and pushrods come from the
        /// block; left out where the camshaft is in the head.
        pushrod_rocker_ratio: Option<f64>,
    }
}

const AT: &str = "/condition/head";

/// What is known of them, in typed values.
pub(super) fn head(doc: HeadDoc, problems: &mut Vec<Problem>) -> Option<Head> {
    let mut made = Head::default();
    made.stand = doc.bolts_are.0;
    let bolts = doc.bolts.unwrap_or_default();
    let order = doc.order.unwrap_or_default();
    let is_short = is_short(&bolts, &format!("{AT}/bolts"), problems)
        && is_short(&order, &format!("{AT}/order"), problems);
    if !is_short {
        return None;
    }
    let bolt = |doc: &BoltDoc| Bolt {
        group: doc.group.unwrap_or(0),
        ..Bolt::new(&doc.name, doc.along.0.mm(), doc.across.0.mm())
    };
    made.bolts = bolts.iter().map(bolt).collect();
    made.order = order;
    made.torque = doc.torque.map(|it| it.0);
    made.also_printed = doc.also_printed.map(|it| it.0);
    if let Some(doc) = doc.wrench {
        let wrench = Wrench::new(doc.scale_end.0, doc.class_percent);
        made.wrench = Some(value(
            problems,
            format!("{AT}/wrench/class_percent"),
            wrench,
        )?);
    }
    if let Some(doc) = doc.adapter {
        let turned = doc.turned.map_or(AxisAngle::ZERO, |it| it.0);
        let adapter = Adapter::new(doc.wrench_length.0, doc.length.0, turned);
        made.adapter = Some(value(problems, format!("{AT}/adapter"), adapter)?);
    }
    made.bolt = doc.bolt.map(|doc| BoltForce {
        diameter: doc.diameter.0,
        nut_factor: doc.nut_factor,
        scatter: Scatter::of(doc.tightening.0),
    });
    made.settling = doc.settling.map(|doc| {
        let pivot = doc
            .pushrod_rocker_ratio
            .map_or(RockerPivot::CamInHead, |ratio| {
                RockerPivot::PushrodsFromBlock { ratio }
            });
        (doc.down.0, pivot)
    });
    made.unit = doc.unit.map_or_else(TorqueUnit::default, |word| word.0);
    Some(made)
}

/// Where a field stands in the condition section.
pub(super) fn pointer(field: HeadField) -> String {
    use HeadField as F;
    let rest = match field {
        F::Bolts => "/bolts",
        F::Order => "/order",
        F::Torque => "/torque",
        F::AlsoPrinted => "/also_printed",
        F::Wrench => "/wrench",
        F::Bolt => "/bolt",
        F::Settling => "/settling",
        _ => "",
    };
    format!("/head{rest}")
}
