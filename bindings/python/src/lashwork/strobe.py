"""The advance as a lamp shows it: judged, fitted, and why it does not follow its curve."""

from __future__ import annotations

from ctypes import c_double, c_size_t
from typing import Any, List, Optional, Tuple

from ._columns import Columns, Numbers, answer, given, room
from ._library import call, made, pair
from ._structure import F64, U32, Doubles, Size, Structure, byref, structure, unused
from .judging import _OF_LASH, _JudgementColumns, rule_of

__all__ = (
    "CAUSES", "HOSE_CONNECTED", "HOSE_NOT_FITTED", "HOSE_PLUGGED", "AdvanceCurve", "CurveFit", "PrintedTiming",
    "advance_at_speed", "fit_advance_curve", "judge_strobe_columns", "weigh_advance_curve")

HOSE_NOT_FITTED, HOSE_PLUGGED, HOSE_CONNECTED = 1, 2, 3
CAUSES = (
    "nothing wrong", "static point off", "springs weak", "springs strong", "weights sticking", "end wrong", "used up at idle",
    "set with vacuum", "set at speed", "something else")


@structure
class _AdvanceCurve(Structure):
    points: Size
    speed_rpm: Doubles
    least_deg: Doubles
    most_deg: Doubles
    ends: U32
    reserved: U32 = unused()


@structure
class PrintedTiming(Structure):
    """The band that is printed for the timing, in crank degrees before top dead centre, and the speed it holds at."""

    span: U32
    reserved: U32 = unused()
    lower_btdc_deg: F64
    upper_btdc_deg: F64
    printed_rpm: F64


@structure
class _StrobeColumns(Structure):
    rows: Size
    read_btdc_deg: Doubles
    rpm: Doubles
    uncertainty_deg: Doubles
    speed_uncertainty_rpm: F64
    lamp_delay_us: F64
    hose: U32
    reserved: U32 = unused()


@structure
class _PointColumns(Structure):
    rows: Size
    low_btdc_deg: Doubles
    high_btdc_deg: Doubles
    uncertainty_deg: Doubles


@structure
class _CurvePrior(Structure):
    fault: F64
    capsule_deg: F64
    capsule_uncertainty_deg: F64
    capsule_known: U32
    reserved: U32 = unused()


@structure
class CurveFit(Structure):
    """How a distributor follows its curve: crank degrees and a scale, each with its standard uncertainty; NaN for what
    the readings do not tell."""

    static_btdc_deg: F64
    static_uncertainty_deg: F64
    scale: F64
    scale_uncertainty: F64
    end_deg: F64
    end_uncertainty_deg: F64
    scatter: F64
    degrees_of_freedom: Size


class AdvanceCurve:
    """Centrifugal advance by crank speed (1/min), in crank degrees; `ends` says that it goes no further after the last."""

    def __init__(self, speed_rpm: Numbers, least_deg: Numbers, most_deg: Numbers, ends: int) -> None:
        curve = given(_AdvanceCurve, "points", speed_rpm=speed_rpm, least_deg=least_deg, most_deg=most_deg, ends=ends)
        self._as_parameter_ = byref(curve)


def advance_at_speed(curve: AdvanceCurve, rpm: float) -> Tuple[float, float]:
    """The least and the most that the curve allows; crank degrees."""
    return pair("lw_advance_at_speed", curve, c_double(rpm))


def judge_strobe_columns(
        read_btdc_deg: Numbers, rpm: Numbers, uncertainty_deg: Numbers, printed: PrintedTiming, rule: Tuple[int, float, float],
        curve: Optional[AdvanceCurve] = None, *, hose: int, speed_uncertainty_rpm: float, lamp_delay_us: float) -> Columns:
    """Judges many strobe readings in one call; a dict of columns, with the points that were judged.

    Below is late, above is early; a refused row has verdict 0 and a status.
    """
    readings = _strobes(read_btdc_deg, rpm, uncertainty_deg, hose, speed_uncertainty_rpm, lamp_delay_us)
    points, ends = room(_PointColumns, readings.rows)
    by_what = (byref(readings), curve, byref(printed), byref(rule_of(rule)))
    found = answer(
        _JudgementColumns, readings.rows, "lw_judge_strobe_columns", *by_what, after=(byref(points),), but=_OF_LASH)
    return {**found, **ends}


def _strobes(read: Numbers, rpm: Numbers, uncertainty: Numbers, hose: int, speed: float, delay: float) -> _StrobeColumns:
    stated: Any = {"read_btdc_deg": read, "rpm": rpm, "uncertainty_deg": uncertainty}
    return given(_StrobeColumns, **stated, speed_uncertainty_rpm=speed, lamp_delay_us=delay, hose=hose)


def fit_advance_curve(
        read_btdc_deg: Numbers, rpm: Numbers, uncertainty_deg: Numbers, printed: PrintedTiming, curve: Optional[AdvanceCurve],
        *, hose: int, speed_uncertainty_rpm: float, lamp_delay_us: float) -> CurveFit:
    """How this distributor follows its curve: static point, scale and end."""
    readings = _strobes(read_btdc_deg, rpm, uncertainty_deg, hose, speed_uncertainty_rpm, lamp_delay_us)
    return made(CurveFit, "lw_fit_advance_curve", byref(readings), curve, byref(printed))


def weigh_advance_curve(
        read_btdc_deg: Numbers, rpm: Numbers, uncertainty_deg: Numbers, printed: PrintedTiming, curve: Optional[AdvanceCurve],
        *, fault: float, capsule: Optional[Tuple[float, float]] = None, hose: int, speed_uncertainty_rpm: float,
        lamp_delay_us: float) -> List[float]:
    """Why it does not follow its curve: a probability for each of CAUSES, NaN for what these readings could not show.

    `fault` is the probability beforehand that anything is wrong; `capsule` what the vacuum capsule gives at idle and
    its standard uncertainty, crank degrees.
    """
    readings = _strobes(read_btdc_deg, rpm, uncertainty_deg, hose, speed_uncertainty_rpm, lamp_delay_us)
    prior = _CurvePrior(fault, *(capsule or (0.0, 0.0)), capsule is not None)
    found, count = (c_double * len(CAUSES))(), c_size_t()
    given_to_it = (byref(readings), curve, byref(printed), byref(prior))
    call("lw_weigh_advance_curve", *given_to_it, found, c_size_t(len(found)), byref(count))
    return list(found[:count.value])
