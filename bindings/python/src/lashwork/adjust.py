"""How to set a lash: by a screw, by shims."""

from __future__ import annotations

from ctypes import c_double, c_int64

from ._library import double, filled, made
from ._structure import F64, I64, U32, Structure, byref, i64, structure, u32, unused

__all__ = (
    "Screw", "ScrewTurn", "ShimChoice", "ShimFit", "ShimSeries", "choose_shim", "lash_with_shim", "pitch_per_inch",
    "shim_wanted", "turn_screw")


@structure
class Screw(Structure):
    """An adjusting screw: pitch in millimetres, valve movement over screw movement, where it sits, and whether turning
    it in closes the gap."""

    pitch_mm: F64
    rocker_ratio: F64
    seat: U32
    inward_closes: U32


@structure
class ScrewTurn(Structure):
    """How far to turn (degrees), how far the screw moves (millimetres), and which way."""

    angle_deg: F64
    travel_mm: F64
    direction: U32
    reserved: U32 = unused()


@structure
class ShimFit(Structure):
    """The shim that is in, the lash measured with it, the lash wanted (millimetres), and gap over shim."""

    old_mm: F64
    measured_mm: F64
    target_mm: F64
    ratio: F64


@structure
class ShimSeries(Structure):
    """The shims there are; whole nanometres."""

    first_nm: I64
    last_nm: I64
    step_nm: I64


@structure
class ShimChoice(Structure):
    """A shim of a series (whole nanometres), and the lash it should give (millimetres)."""

    size_nm: I64
    predicted_lash_mm: F64
    error_mm: F64


def pitch_per_inch(threads: float) -> float:
    """The pitch of a screw by its threads per inch; millimetres."""
    return double("lw_pitch_per_inch", c_double(threads))


def turn_screw(screw: Screw, change_mm: float) -> ScrewTurn:
    """How to turn a screw for a change of lash in millimetres."""
    return made(ScrewTurn, "lw_turn_screw", byref(screw), c_double(change_mm))


def shim_wanted(fit: ShimFit) -> int:
    """The size of shim that would give the target; whole nanometres."""
    return int(filled(c_int64, "lw_shim_wanted", byref(fit)))


def lash_with_shim(fit: ShimFit, size_nm: int) -> float:
    """The lash that a shim of so many nanometres should give; millimetres."""
    return double("lw_lash_with_shim", byref(fit), i64(size_nm))


def choose_shim(fit: ShimFit, series: ShimSeries, rounding: int = 1) -> ShimChoice:
    """The shim of a series to fit."""
    return made(ShimChoice, "lw_choose_shim", byref(fit), byref(series), u32(rounding))
