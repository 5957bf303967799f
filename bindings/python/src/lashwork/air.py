"""How dense the air is."""

from __future__ import annotations

from ctypes import c_double
from typing import Optional, Tuple

from ._columns import Columns, Numbers, answer, given
from ._library import double, made
from ._structure import F64, U32, Doubles, Size, Structure, Words, byref, structure, unused

__all__ = (
    "BAROMETER_DOUBTS", "SEA_LEVEL", "STATION", "AirDensity", "density_altitude", "density_at_height",
    "density_of_air", "density_of_columns")

STATION, SEA_LEVEL = 1, 2
BAROMETER_DOUBTS = (None, "set to sea level", "not set to sea level", "fits neither", "something else")


@structure
class _Air(Structure):
    barometer_kpa: F64
    pressure_uncertainty_kpa: F64
    celsius: F64
    uncertainty_kelvin: F64
    humidity_percent: F64
    humidity_uncertainty_percent: F64
    altitude_m: F64
    barometer: U32
    altitude_known: U32
    humidity_read: U32
    reserved: U32 = unused()


@structure
class AirDensity(Structure):
    """Density in kg/m3 from `low` to `high` with its standard uncertainty, over that of the standard atmosphere; the
    height in metres; `doubt` counts in BAROMETER_DOUBTS."""

    low_kg_m3: F64
    high_kg_m3: F64
    uncertainty_kg_m3: F64
    ratio: F64
    altitude_m: F64
    station_kpa: F64
    doubt: U32
    as_published: U32


@structure
class _AirColumns(Structure):
    rows: Size
    pressure_kpa: Doubles
    celsius: Doubles
    humidity_percent: Doubles
    pressure_uncertainty_kpa: F64
    uncertainty_kelvin: F64
    humidity_uncertainty_percent: F64


@structure
class _DensityColumns(Structure):
    rows: Size
    density_kg_m3: Doubles
    uncertainty_kg_m3: Doubles
    altitude_m: Doubles
    status: Words


def density_of_air(
        barometer_kpa: float, celsius: float, *, barometer: int, pressure_uncertainty_kpa: float, uncertainty_kelvin: float,
        humidity: Optional[Tuple[float, float]] = None, altitude_m: Optional[float] = None) -> AirDensity:
    """How dense the air is by readings: kilopascals, degrees Celsius, metres.

    `barometer` is STATION or SEA_LEVEL, which needs the height; `humidity` is per cent and their standard uncertainty,
    None if it was not read.
    """
    read = (barometer_kpa, pressure_uncertainty_kpa, celsius, uncertainty_kelvin, *(humidity or (0.0, 0.0)), altitude_m or 0.0)
    air = _Air(*read, barometer, altitude_m is not None, humidity is not None)
    return made(AirDensity, "lw_density_of_air", byref(air))


def density_at_height(altitude_m: float) -> AirDensity:
    """How dense the air is by the height alone."""
    return made(AirDensity, "lw_density_at_height", c_double(altitude_m))


def density_altitude(density_kg_m3: float) -> float:
    """The height in metres at which the standard atmosphere is as dense."""
    return double("lw_density_altitude", c_double(density_kg_m3))


def density_of_columns(
        pressure_kpa: Numbers, celsius: Numbers, humidity_percent: Numbers, *, pressure_uncertainty_kpa: float,
        uncertainty_kelvin: float, humidity_uncertainty_percent: float) -> Columns:
    """Densities of many readings in one call, by pressures of the place; a dict of columns."""
    air = given(
        _AirColumns, pressure_kpa=pressure_kpa, celsius=celsius, humidity_percent=humidity_percent,
        pressure_uncertainty_kpa=pressure_uncertainty_kpa, uncertainty_kelvin=uncertainty_kelvin,
        humidity_uncertainty_percent=humidity_uncertainty_percent)
    return answer(_DensityColumns, air.rows, "lw_density_of_columns", byref(air))
