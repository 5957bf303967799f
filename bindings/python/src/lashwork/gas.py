"""Fuels, and what the exhaust gas says of the mixture."""

from __future__ import annotations

from ctypes import c_double, c_size_t
from typing import Optional

from ._columns import Columns, Numbers, answer, given
from ._library import double, made
from ._structure import F64, U32, Bytes, Doubles, Size, Structure, Words, byref, structure, unused

__all__ = (
    "BEYOND_RUNNING", "CLASS_0", "CLASS_00", "CLASS_I", "GAS_CAUSES", "HC_CARBON", "HC_HEXANE",
    "HC_HEXANE_OF_PETROL", "HC_NOT_READ", "HC_PROPANE", "HC_STATED", "OXYGEN_WITH_CO", "OXYGEN_WITH_HC",
    "TOO_LEAN_TO_BURN", "TOTAL_OFF", "Fuel", "Lambda", "LambdaRange", "air_fuel_ratio", "fuel", "lambda_of_co",
    "lambda_of_columns", "lambda_of_gas")

CLASS_00, CLASS_0, CLASS_I = 1, 2, 3
HC_NOT_READ, HC_HEXANE, HC_HEXANE_OF_PETROL, HC_PROPANE, HC_CARBON, HC_STATED = 1, 2, 3, 4, 5, 6
OXYGEN_WITH_CO, OXYGEN_WITH_HC, TOO_LEAN_TO_BURN, BEYOND_RUNNING, TOTAL_OFF = 1, 2, 4, 8, 16
GAS_CAUSES = (
    None, "air at the probe", "missed firing", "uneven cylinders", "air injection", "tester off", "other fuel", "something else")


@structure
class Fuel(Structure):
    """A fuel by its atoms to one of carbon."""

    hydrogen: F64
    oxygen: F64
    nitrogen: F64


@structure
class _ExhaustGas(Structure):
    co2_percent: F64
    co_percent: F64
    o2_percent: F64
    hc_ppm: F64
    hc_factor: F64
    no_ppm: F64
    hydrocarbons: U32
    tester: U32
    no_read: U32
    reserved: U32 = unused()


@structure
class Lambda(Structure):
    """Lambda and its standard uncertainty, by Spindt's formula, mass of air over fuel; `contradictions` is a sum of
    OXYGEN_WITH_CO and so on, `cause` counts in GAS_CAUSES."""

    value: F64
    uncertainty: F64
    spindt: F64
    air_fuel_ratio: F64
    behind_air_low: F64
    behind_air_high: F64
    contradictions: U32
    cause: U32


@structure
class LambdaRange(Structure):
    """Lambda from carbon monoxide alone: between `low` and `high`, with the standard uncertainty of the ends."""

    span: U32
    reserved: U32 = unused()
    low: F64
    high: F64
    uncertainty: F64
    burnt_out: F64
    co2_percent: F64


@structure
class _GasColumns(Structure):
    rows: Size
    co2_percent: Doubles
    co_percent: Doubles
    o2_percent: Doubles
    hc_ppm: Doubles
    hc_factor: F64
    hydrocarbons: U32
    tester: U32


@structure
class _LambdaColumns(Structure):
    rows: Size
    value: Doubles
    uncertainty: Doubles
    contradiction: Bytes
    status: Words


def fuel(name: str) -> Fuel:
    """A fuel by its name, such as "E10" or "LPG", or by a formula such as "C8H18"."""
    encoded = name.encode()
    return made(Fuel, "lw_parse_fuel", encoded, c_size_t(len(encoded)))


def air_fuel_ratio(fuel: Fuel) -> float:
    """The mass of dry air that burns a mass of the fuel."""
    return double("lw_air_fuel_ratio", byref(fuel))


def lambda_of_gas(
        co2_percent: float, co_percent: float, o2_percent: float, hc_ppm: float, fuel: Fuel, *, tester: int, hydrocarbons: int,
        hc_factor: float = 0.0, no_ppm: Optional[float] = None) -> Lambda:
    """Lambda of one analysis of the exhaust gas, with its uncertainty and what does not fit together.

    Per cent and parts per million by volume; `tester` is CLASS_00, CLASS_0 or CLASS_I, `hydrocarbons` what `hc_ppm`
    counts as (HC_HEXANE and so on).
    """
    read = (co2_percent, co_percent, o2_percent, hc_ppm, hc_factor, no_ppm or 0.0)
    gas = _ExhaustGas(*read, hydrocarbons, tester, no_ppm is not None)
    return made(Lambda, "lw_lambda_of_gas", byref(gas), byref(fuel))


def lambda_of_co(co_percent: float, uncertainty_percent: float, fuel: Fuel) -> LambdaRange:
    """Lambda from carbon monoxide alone; per cent by volume and their standard uncertainty."""
    return made(LambdaRange, "lw_lambda_of_co", c_double(co_percent), c_double(uncertainty_percent), byref(fuel))


def lambda_of_columns(
        co2_percent: Numbers, co_percent: Numbers, o2_percent: Numbers, hc_ppm: Numbers, fuel: Fuel, *, tester: int,
        hydrocarbons: int, hc_factor: float = 0.0) -> Columns:
    """Lambda of many analyses in one call; columns `lambda`, `uncertainty`, `contradiction` (the first), `status`."""
    gas = given(
        _GasColumns, co2_percent=co2_percent, co_percent=co_percent, o2_percent=o2_percent, hc_ppm=hc_ppm,
        hc_factor=hc_factor, hydrocarbons=hydrocarbons, tester=tester)
    found = answer(_LambdaColumns, gas.rows, "lw_lambda_of_columns", byref(gas), byref(fuel))
    # A field of a class cannot have this name.
    return {"lambda" if name == "value" else name: array for name, array in found.items()}
