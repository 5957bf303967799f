"""Where the valves open and close at the lash they run with."""

from __future__ import annotations

from typing import Iterable, Optional, Tuple

from ._columns import Columns, address, room
from ._library import call
from ._structure import F64, U32, Address, Doubles, Size, Structure, byref, structure, unused
from .crank import SliderCrank

__all__ = (
    "AT_LASH", "AT_LIFT", "EVENTS", "HARMONIC", "MEASURED", "RAMP", "RAMP_THEN_FLANK", "EffectiveRatio", "Flank",
    "RunningValve", "events_at_lash")

RAMP, RAMP_THEN_FLANK, MEASURED, HARMONIC = 1, 2, 3, 4
AT_LASH, AT_LIFT = 1, 2
EVENTS = ("intake opens", "intake closes", "exhaust opens", "exhaust closes", "intake duration", "exhaust duration", "overlap")


@structure
class Flank(Structure):
    """One side of a cam's lobe: millimetres, millimetres a degree, degrees. `kind` is RAMP and so on."""

    kind: U32
    reserved: U32 = unused()
    ramp_mm: F64
    ramp_mm_per_deg: F64
    flank_mm_per_deg: F64
    thin_mm: F64
    thick_mm: F64
    apart_deg: F64
    lift_mm: F64
    duration_deg: F64


@structure
class _RunningValve(Structure):
    opening: Address
    closing: Address
    lash_mm: F64
    lash_uncertainty_mm: F64
    holds_at_mm: F64
    rocker_ratio: F64
    holds_at: U32
    reserved: U32 = unused()


@structure
class _PrintedEvents(Structure):
    intake_opens_btdc_deg: F64
    intake_closes_abdc_deg: F64
    exhaust_opens_bbdc_deg: F64
    exhaust_closes_atdc_deg: F64
    compression_ratio: F64
    crank: Address
    ratio_known: U32
    reserved: U32 = unused()


@structure
class _EventColumns(Structure):
    rows: Size
    low_deg: Doubles
    high_deg: Doubles
    uncertainty_deg: Doubles
    printed_deg: Doubles


@structure
class EffectiveRatio(Structure):
    """The effective compression ratio by the printed closing and by the running one, with its standard uncertainty."""

    printed: F64
    running: F64
    uncertainty: F64


class RunningValve:
    """A valve as it runs: its lash and standard uncertainty, the lash or lift (AT_LASH, AT_LIFT) at which the printed
    events hold, both in millimetres, the sides of its lobe, and valve movement over cam movement."""

    def __init__(
            self, lash_mm: float, lash_uncertainty_mm: float, holds_at: int, holds_at_mm: float, opening: Flank, closing: Flank,
            rocker_ratio: float = 1.0) -> None:
        self._kept = (opening, closing)
        numbers = (lash_mm, lash_uncertainty_mm, holds_at_mm, rocker_ratio)
        self._as_parameter_ = byref(_RunningValve(address(opening), address(closing), *numbers, holds_at))


def events_at_lash(
        printed_deg: Iterable[float], intake: RunningValve, exhaust: RunningValve, *, compression_ratio: Optional[float] = None,
        crank: Optional[SliderCrank] = None) -> Tuple[Columns, EffectiveRatio]:
    """Where the valves open and close at the lash they run with: columns of EVENTS in crank degrees, and the effective
    compression ratio.

    `printed_deg` are intake opens before top dead centre, closes after bottom, exhaust opens before bottom, closes after
    top dead centre. An end that is not there is infinite.
    """
    stated = (compression_ratio or 0.0, address(crank), compression_ratio is not None)
    intake_opens, intake_closes, exhaust_opens, exhaust_closes = printed_deg
    printed = _PrintedEvents(intake_opens, intake_closes, exhaust_opens, exhaust_closes, *stated)
    found, columns = room(_EventColumns, len(EVENTS))
    ratio = EffectiveRatio.empty()
    call("lw_events_at_lash", byref(printed), intake, exhaust, byref(found), byref(ratio))
    return columns, ratio
