"""The speed at idle over the turns of the mixture screw."""

from __future__ import annotations

from ctypes import c_double
from typing import Tuple

from ._columns import Numbers, given
from ._library import made, pair
from ._structure import F64, U32, Doubles, Size, Structure, byref, structure, u32, unused

__all__ = ("LEAN", "RICH", "SCREW_IN_AIR", "SCREW_IN_FUEL", "IdleCrown", "fit_idle_curve", "idle_beside")

SCREW_IN_FUEL, SCREW_IN_AIR = 1, 2
LEAN, RICH = 1, 2


@structure
class _IdleReadings(Structure):
    rows: Size
    turns_out: Doubles
    rpm: Doubles
    scatter_rpm: F64
    screw: U32
    reserved: U32 = unused()


@structure
class IdleCrown(Structure):
    """Where the speed is highest: turns out with their standard uncertainty, from where to where it may lie, and the
    speed there in 1/min."""

    best_turns: F64
    best_uncertainty_turns: F64
    from_turns: F64
    to_turns: F64
    speed_rpm: F64
    speed_uncertainty_rpm: F64
    lopsided: F64
    clearly_lopsided: U32
    seen: U32
    rises_toward: U32
    reserved: U32 = unused()


def fit_idle_curve(turns_out: Numbers, rpm: Numbers, *, screw: int, scatter_rpm: float = 0.0) -> IdleCrown:
    """Where the mixture screw gives the highest speed, if the readings show that."""
    readings = given(_IdleReadings, turns_out=turns_out, rpm=rpm, scatter_rpm=scatter_rpm, screw=screw)
    return made(IdleCrown, "lw_fit_idle_curve", byref(readings))


def idle_beside(
        turns_out: Numbers, rpm: Numbers, side: int, under_rpm: float, *, screw: int, scatter_rpm: float = 0.0) -> Tuple[float, float]:
    """Where the speed is so much under the highest on the LEAN or the RICH side; turns out and their standard
    uncertainty."""
    readings = given(_IdleReadings, turns_out=turns_out, rpm=rpm, scatter_rpm=scatter_rpm, screw=screw)
    return pair("lw_idle_beside", byref(readings), u32(side), c_double(under_rpm))
