"""The balance of throttles: which screws to turn, which way and how far."""

from __future__ import annotations

from typing import Any, Optional, Sequence, Tuple

from ._columns import Columns, Numbers, by, given, room
from ._library import call
from ._structure import F64, U32, Bytes, Doubles, Size, Structure, Words, byref, structure
from .judging import rule_of

__all__ = (
    "AIR_FLOW", "NEXT_READINGS", "RIGIDLY", "SCREW", "SCREW_CLOCKWISE_CLOSES", "SCREW_CLOCKWISE_OPENS", "SENSES",
    "VACUUM", "WAYS", "Balance", "Linkage", "balance_throttles")

VACUUM, AIR_FLOW = 1, 2
RIGIDLY, SCREW, SCREW_CLOCKWISE_OPENS, SCREW_CLOCKWISE_CLOSES = 1, 2, 3, 4
WAYS = (None, "open", "close", "leave")
SENSES = (None, "clockwise", "anticlockwise")
NEXT_READINGS = (None, "throttle", "trial", "trial again")


@structure
class _Linkage(Structure):
    throttles: Size
    joints: Size
    one: Words
    other: Words
    joined_by: Words
    reference: U32
    screws_alike: U32


@structure
class _ThrottleLooks(Structure):
    rows: Size
    throttle: Words
    shown: Doubles
    scatter: F64
    between_gauges: F64
    allowed: F64
    ambient_kpa: F64
    gauge: U32
    ambient_known: U32


@structure
class _TrialTurns(Structure):
    rows: Size
    joint: Words
    turn_deg: Doubles
    before: Doubles
    after: Doubles
    unmoved_before: Doubles
    unmoved_after: Doubles


@structure
class Balance(Structure):
    """The balance as a whole: how many moves there are, the spread, and what to read next (NEXT_READINGS)."""

    moves: Size
    spread: F64
    scatter: F64
    degrees_of_freedom: F64
    within: F64
    doubt_deg: F64
    then_deg: F64
    verdict: U32
    next: U32
    next_index: U32
    shafts: U32


@structure
class _ThrottleColumns(Structure):
    rows: Size
    reading: Doubles
    uncertainty: Doubles
    over_reference: Doubles
    over_uncertainty: Doubles
    verdict: Bytes


@structure
class _MoveColumns(Structure):
    rows: Size
    joint: Words
    to_match: Words
    change: Doubles
    change_uncertainty: Doubles
    way: Words
    way_right: Doubles
    sense: Words
    turn_deg: Doubles
    turn_uncertainty_deg: Doubles
    per_turn: Doubles
    per_turn_uncertainty: Doubles


@structure
class _ShaftColumns(Structure):
    rows: Size
    joint: Words
    difference: Doubles
    difference_uncertainty: Doubles
    verdict: Bytes


class Linkage:
    """What moves what: joints (throttle, throttle, what joins them), and the throttle the others are set to; all from 0."""

    def __init__(self, throttles: int, reference: int, joints: Sequence[Tuple[int, int, int]], screws_alike: bool = False) -> None:
        one, other, joined_by = zip(*joints) if joints else ((), (), ())
        made: Any = given(
            _Linkage, "joints", throttles=throttles, one=one, other=other, joined_by=joined_by, reference=reference,
            screws_alike=screws_alike)
        self.throttles, self.joints, self._as_parameter_ = throttles, len(joints), byref(made)


def balance_throttles(
        linkage: Linkage, throttle: Numbers, shown: Numbers, trials: Sequence[Tuple[float, ...]] = (),
        rule: Optional[Tuple[int, float, float]] = None, *, gauge: int, scatter: float = 0.0, between_gauges: float = 0.0,
        allowed: float = 0.0, ambient_kpa: Optional[float] = None) -> Tuple[Balance, Columns, Columns, Columns]:
    """Which screws to turn, which way and how far: the whole, columns of throttles, columns of moves in the order of
    work, columns of pairs on one shaft.

    `shown` is in the gauge's unit (VACUUM or AIR_FLOW), `ambient_kpa` in kilopascals. `trials` are (joint, degrees
    clockwise, before, after), each with what an unmoved throttle showed before and after as well, or none of them.
    """
    looks = given(
        _ThrottleLooks, throttle=throttle, shown=shown, scatter=scatter, between_gauges=between_gauges, allowed=allowed,
        ambient_kpa=ambient_kpa or 0.0, gauge=gauge, ambient_known=ambient_kpa is not None)
    named: Any = dict(zip(_TrialTurns._columns, zip(*trials)))
    turns = given(_TrialTurns, **named) if trials else None
    throttles, stands = room(_ThrottleColumns, linkage.throttles)
    made, moves = room(_MoveColumns, linkage.joints)
    pairs, shafts = room(_ShaftColumns, linkage.joints)
    whole = Balance.empty()
    stated = (linkage, byref(looks), by(turns), by(rule_of(rule) if rule else None))
    call("lw_balance_throttles", *stated, *map(byref, (whole, throttles, made, pairs)))
    told = {name: array[:whole.moves] for name, array in moves.items()}
    return whole, stands, told, {name: array[:whole.shafts] for name, array in shafts.items()}
