//! Tier 3: what all readings of an engine say together.
//!
//! One reading says whether one valve is right. All together may say that the readings are not
//! what they seem: a unit slipped, intake and exhaust were exchanged, the wrong page was open, the
//! crank stood a turn out, the metal was warm. Each is a model of how the readings come about; its
//! probability is weighed against 'no systematic fault' by Bayes' theorem. Apart from that, every
//! valve far from its kind is named ([`OddValve`], a rule of its own), and beside those every one that is
//! to be measured once more ([`ApartValve`], by the same models).
//!
//! # Models
//! - Reading: a bracket of leaves with a normal doubt of its ends. Its likelihood is the probability
//!   that the true lash, blurred by that doubt, lies in the bracket (on the one side of it that is
//!   known; after a light drag the density).
//! - No systematic fault: the lash of each valve is normal about the set value of its kind; standard
//!   deviation `hypot(half the band / sqrt 3, 0.015 mm)`, with the leave-alone band if one is
//!   printed, times what this engine spreads: 1, 1.5, 2.25 or 3.4 with probabilities 0.55, 0.25,
//!   0.14 and 0.06, so that a neglected engine is compared with itself and not with the band alone; but no
//!   wider than 30 % of the set value, or than the band says. 3 % of valves are worn: twice as wide. All valves of a kind share a drift, normal with
//!   `hypot(0.025 mm, doubt of the thermal correction)`, integrated out: wear, and the hand.
//! - Odd valves: three engines in a hundred have some, a tenth of their valves, normal about the set value
//!   with the set value, or eight times the usual spread if that is more. Whatever else is the matter
//!   with an engine, it may have them as well, so that one bad valve among good ones does not look
//!   like a fault of all.
//! - Unit slip, on one reading or on all that are marked in one unit: the number stands in the wrong
//!   unit (25.4), or thousandths of an inch and hundredths of a millimetre are confused (2.54). A reading
//!   with one end counts as it stands: its number would fit any slip. Or all valves were last set so:
//!   2.54 times too wide, or too tight; there a reading with one end counts in full.
//! - Exchanged, everywhere or in one cylinder: each valve follows the limits of the other kind.
//! - Other specification: all valves follow another source at hand, applying or not; they lie about
//!   its set values as widely as about the assumed ones.
//! - One turn out: the valves that are then off their base circle show no gap, normal about 0 with
//!   0.02 mm; one in twenty was read well all the same.
//! - Not cold: all lashes are shifted alike; normal either way with a spread that is given, or, where parts or a
//!   coefficient tell how the lash follows, about the effect of 30 K with half of it as spread; in both
//!   cases cut off at two spreads.
//! - Several: two of what concerns the whole engine at once (exchanged everywhere, a turn out at all stops,
//!   not cold), or every second valve is odd: more than one thing is wrong, or something not weighed here.
//!   Odd valves may come with any cause, and a cylinder that is exchanged or a turn out shows beside
//!   any other.
//!
//! All numbers are this library's choice; the report states those that a job depends on.
//!
//! # Prior and report
//! A stated probability of a systematic fault, shared equally among the causes that can show in these
//! readings, and within a cause among its ways. Two things at once have three times the product of the
//! probabilities of both, as the hand that made one fault makes another, out of the share of several. Causes are reported only when 'no systematic fault'
//! is left with 10 % or less; with less than half of it the engine is undecided, and a cause that has more
//! than half is named as probable. With prior `p` an engine that follows the model of 'no systematic fault'
//! is then reported with a probability below `p / (1 - p) / 9` (Markov's inequality for a Bayes
//! factor): 1.2 % at the usual prior of 0.1, at most; the simulation in `tests` finds far fewer.
//!
//! # What it cannot tell
//! Whether a unit slipped while writing or when the valves were last set, and likewise whether
//! readings or settings were exchanged: the numbers are the same.
//!
//! Uses `quantity`, `statistics`, `tolerance`, `engine` and `valve`; `job` brings the readings.

mod answer;
mod evidence;
mod fit;
mod likelihood;
mod marginal;
mod model;
mod odd;
mod one_turn_out;
mod population;
mod reading_fault;
mod role;
mod table;
mod ways;
mod weigh;

pub use answer::{Diagnosis, Status, WeighedCause, WeighedWay};
pub use evidence::{DiagnosisError, Evidence, Prior, Seen, Source, Warming, WrongStroke};
pub use model::{KindModel, Model};
pub(crate) use model::{PROBABLY, UNNOTICED, WIDEST, limits_of_report, warmth_shift};
pub(crate) use odd::{APART_FROM, ODD_BESIDE_FROM, ODD_FROM};
pub use odd::{ApartValve, KindOff, OddValve};
pub use one_turn_out::one_turn_out;
pub use reading_fault::{ReadingFault, Slip, Way, Whole};
pub use weigh::diagnose;
