"""Contacts and coil: gap, dwell, the shift of the spark, what the coil holds."""

from __future__ import annotations

from ctypes import c_double
from typing import Tuple

from ._library import double, made, pair
from ._structure import F64, U32, Structure, byref, structure, u32

__all__ = (
    "CAM_AT_HALF_CRANK", "CAM_ON_CRANK", "METER_PERCENT", "WEAK_CURRENT", "WEAK_ENERGY", "WEAK_SHARE_OF_CURRENT",
    "WEAK_SHARE_OF_ENERGY", "Charge", "GapAndDwell", "PrimaryCircuit", "charge_at_speed", "copper_resistance",
    "dwell_at_gap", "dwell_of_reading", "gap_at_dwell", "reading_of_dwell", "spark_shift", "weak_from_speed")

METER_PERCENT = 100
CAM_AT_HALF_CRANK, CAM_ON_CRANK = 1, 2
WEAK_SHARE_OF_CURRENT, WEAK_SHARE_OF_ENERGY, WEAK_CURRENT, WEAK_ENERGY = 1, 2, 3, 4


@structure
class GapAndDwell(Structure):
    """A gap in millimetres and the dwell in degrees that was read with it, each with its standard uncertainty."""

    gap_mm: F64
    gap_uncertainty_mm: F64
    dwell_deg: F64
    dwell_uncertainty_deg: F64
    lobes: U32
    unusual_gap: U32


@structure
class PrimaryCircuit(Structure):
    """The coil's primary circuit: volts, ohms, millihenries, degrees of dwell, each with its standard uncertainty."""

    supply_v: F64
    supply_uncertainty_v: F64
    resistance_ohm: F64
    resistance_uncertainty_ohm: F64
    inductance_mh: F64
    inductance_uncertainty_mh: F64
    dwell_deg: F64
    dwell_uncertainty_deg: F64
    lobes: U32
    cam: U32


@structure
class Charge(Structure):
    """What a coil holds when the contacts open: milliseconds, amperes, millijoules, and shares of what it could hold."""

    closed_ms: F64
    current_a: F64
    current_uncertainty_a: F64
    energy_mj: F64
    energy_uncertainty_mj: F64
    share_of_current: F64
    share_of_energy: F64


def dwell_of_reading(shown: float, scale: int, lobes: int) -> float:
    """Degrees of dwell over so many lobes; `scale` is the cylinders the meter's scale is for, or METER_PERCENT."""
    return double("lw_dwell_of_reading", c_double(shown), u32(scale), u32(lobes))


def reading_of_dwell(dwell_deg: float, scale: int, lobes: int) -> float:
    """What a meter shows of a dwell in degrees."""
    return double("lw_reading_of_dwell", c_double(dwell_deg), u32(scale), u32(lobes))


def dwell_at_gap(pair_read: GapAndDwell, gap_mm: float, uncertainty_mm: float) -> Tuple[float, float]:
    """The dwell in degrees and its standard uncertainty."""
    return pair("lw_dwell_at_gap", byref(pair_read), c_double(gap_mm), c_double(uncertainty_mm))


def gap_at_dwell(pair_read: GapAndDwell, dwell_deg: float, uncertainty_deg: float) -> Tuple[float, float]:
    """The gap in millimetres and its standard uncertainty."""
    return pair("lw_gap_at_dwell", byref(pair_read), c_double(dwell_deg), c_double(uncertainty_deg))


def spark_shift(change_deg: float, uncertainty_deg: float, cam: int, opening_share: float) -> Tuple[float, float]:
    """Crank degrees by which the spark comes earlier, and their standard uncertainty."""
    return pair("lw_spark_shift", c_double(change_deg), c_double(uncertainty_deg), u32(cam), c_double(opening_share))


def copper_resistance(
        read_ohm: float, uncertainty_ohm: float, read_at_celsius: float, read_at_uncertainty_kelvin: float,
        wanted_at_celsius: float) -> Tuple[float, float]:
    """The resistance of a winding at another temperature, and its standard uncertainty; ohms."""
    given = (read_ohm, uncertainty_ohm, read_at_celsius, read_at_uncertainty_kelvin, wanted_at_celsius)
    return pair("lw_copper_resistance", *map(c_double, given))


def charge_at_speed(circuit: PrimaryCircuit, rpm: float) -> Charge:
    """What the coil holds when the contacts open, at a crank speed in 1/min."""
    return made(Charge, "lw_charge_at_speed", byref(circuit), c_double(rpm))


def weak_from_speed(circuit: PrimaryCircuit, weak: int, below: float) -> Tuple[float, float]:
    """The crank speed above which the coil is weak, and its standard uncertainty; 1/min."""
    return pair("lw_weak_from_speed", byref(circuit), u32(weak), c_double(below))
