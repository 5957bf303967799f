"""Leaks as areas, by the two pressures of a leak-down tester. Hold the crank before air is let in."""

from __future__ import annotations

from ctypes import c_double

from ._columns import Columns, Numbers, answer, given
from ._library import double, made
from ._structure import F64, U32, Doubles, Size, Structure, Words, byref, structure

__all__ = ("Leak", "LeakTester", "leak_area", "leak_of_columns", "tester_would_show")


@structure
class LeakTester(Structure):
    """A leak-down tester: supply in kilopascals and orifice in millimetres, each with its standard uncertainty."""

    supply_kpa: F64
    supply_uncertainty_kpa: F64
    orifice_mm: F64
    orifice_uncertainty_mm: F64


@structure
class Leak(Structure):
    """A leak: its area in mm2 with its standard uncertainty, the hole of that area in millimetres, over the orifice."""

    area_mm2: F64
    uncertainty_mm2: F64
    hole_mm: F64
    over_orifice: F64
    percent_lost: F64
    orifice_choked: U32
    leak_choked: U32


@structure
class _LeakReadingColumns(Structure):
    rows: Size
    shown_kpa: Doubles
    air_kpa: Doubles
    shown_uncertainty_kpa: F64
    air_uncertainty_kpa: F64


@structure
class _LeakColumns(Structure):
    rows: Size
    area_mm2: Doubles
    uncertainty_mm2: Doubles
    hole_mm: Doubles
    status: Words


def leak_area(tester: LeakTester, shown_kpa: float, shown_uncertainty_kpa: float, air_kpa: float, air_uncertainty_kpa: float) -> Leak:
    """How large a leak is. Hold the crank before air is let in."""
    given_to_it = (shown_kpa, shown_uncertainty_kpa, air_kpa, air_uncertainty_kpa)
    return made(Leak, "lw_leak_area", byref(tester), *map(c_double, given_to_it))


def tester_would_show(tester: LeakTester, area_mm2: float, air_kpa: float) -> float:
    """What a tester would show of a leak; kilopascals."""
    return double("lw_tester_would_show", byref(tester), c_double(area_mm2), c_double(air_kpa))


def leak_of_columns(
        tester: LeakTester, shown_kpa: Numbers, air_kpa: Numbers, *, shown_uncertainty_kpa: float, air_uncertainty_kpa: float) -> Columns:
    """The areas of many leaks in one call; a dict of columns."""
    readings = given(
        _LeakReadingColumns, shown_kpa=shown_kpa, air_kpa=air_kpa, shown_uncertainty_kpa=shown_uncertainty_kpa,
        air_uncertainty_kpa=air_uncertainty_kpa)
    return answer(_LeakColumns, readings.rows, "lw_leak_of_columns", byref(tester), byref(readings))
