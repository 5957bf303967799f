"""How fast the lash changes over the years, and when to look next."""

from __future__ import annotations

from ctypes import c_double, c_size_t
from typing import Optional, Tuple

from ._columns import Columns, Numbers, answer, given, room
from ._library import call
from ._structure import F64, U32, Bytes, Doubles, Size, Structure, Words, byref, structure, whole
from .judging import Limits, rule_of

__all__ = (
    "DAYS", "DISTANCE", "FOUND", "HOURS", "LEFT_RENEWED", "LEFT_SET", "LOOKS", "Drift", "PastReadings",
    "departures_of_record", "drift_of_columns", "drift_of_record", "forecast_of_record")

HOURS, DISTANCE, DAYS = 1, 2, 3
FOUND, LEFT_SET, LEFT_RENEWED = 1, 2, 3
LOOKS = ("refused", "now", "at", "not before", "not known", "too few")


@structure
class _PastReadings(Structure):
    rows: Size
    at: Doubles
    low_mm: Doubles
    high_mm: Doubles
    uncertainty_mm: Doubles
    valve: Words
    state: Bytes
    bedding_in: F64
    scatter_mm: F64
    counted_by: U32
    scatter_known: U32


@structure
class Drift(Structure):
    """The rate of one kind of valves in millimetres a unit of time, and what is lacking to say it."""

    rate: F64
    rate_uncertainty: F64
    rate_low: F64
    rate_high: F64
    scatter_mm: F64
    spread: F64
    lacking: Size


@structure
class _ValveDriftColumns(Structure):
    rows: Size
    rate: Doubles
    rate_uncertainty: Doubles
    rate_low: Doubles
    rate_high: Doubles
    look: Bytes
    look_at: Doubles
    odd_evidence: Doubles
    odd_needed: Doubles


@structure
class _ForecastColumns(Structure):
    rows: Size
    found_mm: Doubles
    found_uncertainty_mm: Doubles
    found_low_mm: Doubles
    found_high_mm: Doubles
    line_mm: Doubles
    line_uncertainty_mm: Doubles


@structure
class _DepartureColumns(Structure):
    rows: Size
    at: Doubles
    off: Doubles
    above: Doubles
    below: Doubles


@structure
class _DriftColumns(Structure):
    rows: Size
    rate: Doubles
    rate_uncertainty: Doubles
    look: Bytes
    look_at: Doubles
    status: Words


class PastReadings:
    """What past services read of valves, one reading a row, in the order of time.

    `at` is when, in the unit of `counted_by` (HOURS, DISTANCE in kilometres, DAYS since 1970); both ends in millimetres,
    infinite where there is none; their standard uncertainty; which valve, from 0; FOUND, LEFT_SET or LEFT_RENEWED.
    """

    def __init__(
            self, at: Numbers, low_mm: Numbers, high_mm: Numbers, uncertainty_mm: Numbers, valve: Optional[Numbers] = None,
            state: Optional[Numbers] = None, *, counted_by: int, bedding_in: float = 0.0, scatter_mm: Optional[float] = None) -> None:
        readings = given(
            _PastReadings, at=at, low_mm=low_mm, high_mm=high_mm, uncertainty_mm=uncertainty_mm, valve=valve, state=state,
            bedding_in=bedding_in, scatter_mm=scatter_mm or 0.0, counted_by=counted_by, scatter_known=scatter_mm is not None)
        self.rows, self._as_parameter_ = readings.rows, byref(readings)


def size(value: int) -> c_size_t:
    """A count as C takes it."""
    found: c_size_t = whole(c_size_t, value)
    return found


def drift_of_record(
        readings: PastReadings, valves: int, band: Limits, rule: Tuple[int, float, float]) -> Tuple[Drift, Columns]:
    """How fast the lash of the valves of one kind of one engine changes, and when to look next: the whole, and columns
    of valves; `look` counts in LOOKS."""
    whole_kind = Drift.empty()
    found, columns = room(_ValveDriftColumns, valves)
    by_what = (readings, size(valves), byref(band), byref(rule_of(rule)))
    call("lw_drift_of_record", *by_what, byref(whole_kind), byref(found))
    return whole_kind, columns


def forecast_of_record(readings: PastReadings, valves: int, at: float) -> Columns:
    """What the valves will be found at, at a time; a dict of columns in millimetres."""
    return answer(_ForecastColumns, valves, "lw_forecast_of_record", readings, size(valves), c_double(at))


def departures_of_record(readings: PastReadings, valves: int, valve: int) -> Columns:
    """How one valve departs from the rate of its kind, with the running sums; a dict of columns."""
    found, columns = room(_DepartureColumns, readings.rows)
    count = c_size_t()
    call("lw_departures_of_record", readings, size(valves), size(valve), byref(found), byref(count))
    return {name: array[:count.value] for name, array in columns.items()}


def drift_of_columns(readings: PastReadings, valves: int, band: Limits, rule: Tuple[int, float, float]) -> Columns:
    """The drift of many valves, each by itself, in one call; a dict of columns. Rows of a valve stand together.

    Rates in millimetres a unit of time; `look` counts in LOOKS; a valve that is refused has look 0 and a status.
    """
    by_what = (readings, size(valves), byref(band), byref(rule_of(rule)))
    return answer(_DriftColumns, valves, "lw_drift_of_columns", *by_what)
