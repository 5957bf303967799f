"""Cranking compression: what to expect, and what the cylinders say together."""

from __future__ import annotations

from ctypes import c_double
from typing import Optional, Tuple

from ._columns import Columns, Numbers, address, by, given, room
from ._library import call, double, made, pair
from ._structure import F64, U32, Address, Bytes, Doubles, Size, Structure, Words, byref, structure, unused
from .crank import SliderCrank

__all__ = (
    "COMPRESSION_NEXT", "DIFFERENCE", "EVEN", "LOW_THEN_BUILDS", "MINIMUM", "PERCENT_OF_HIGHEST", "STAYS_LOW",
    "Compression", "CompressionVerdict", "Cranking", "compression_in_other_air", "expected_compression",
    "implied_exponent", "judge_compression")

PERCENT_OF_HIGHEST, DIFFERENCE, MINIMUM = 1, 2, 3
EVEN, LOW_THEN_BUILDS, STAYS_LOW = 1, 2, 3
COMPRESSION_NEXT = (None, "crank again", "clearances", "oil", "leak-down", "valve timing")


@structure
class _Cranking(Structure):
    ratio: F64
    ratio_uncertainty: F64
    intake_closes_abdc_deg: F64
    closes_uncertainty_deg: F64
    air_kpa: F64
    air_uncertainty_kpa: F64
    crank: Address
    closes_known: U32
    air_known: U32


@structure
class Compression(Structure):
    """What a gauge should show, in kilopascals over the air around, from `low` to `high` with its standard uncertainty."""

    low_kpa: F64
    high_kpa: F64
    uncertainty_kpa: F64
    effective_ratio: F64


@structure
class _CompressionRule(Structure):
    kind: U32
    reserved: U32 = unused()
    number: F64


@structure
class _CompressionReadings(Structure):
    rows: Size
    dry_kpa: Doubles
    wet_kpa: Doubles
    build_up: Words
    head: Words
    air_kpa: F64
    repeat_kpa: F64
    gauge_kpa: F64
    air_known: U32
    gauge_known: U32
    clearances_good: U32
    reserved: U32 = unused()


@structure
class CompressionVerdict(Structure):
    """All cylinders by the rule and by their mates; kilopascals. `next` counts in COMPRESSION_NEXT."""

    limit_kpa: F64
    within: F64
    standard_kpa: F64
    standard_uncertainty_kpa: F64
    exponent: F64
    exponent_uncertainty: F64
    verdict: U32
    next: U32


@structure
class _CylinderColumns(Structure):
    rows: Size
    share: Doubles
    share_uncertainty: Doubles
    expected_kpa: Doubles
    expected_uncertainty_kpa: Doubles
    within: Doubles
    verdict: Bytes
    sound: Doubles
    rings: Doubles
    valve: Doubles
    gasket: Doubles
    something_else: Doubles


class Cranking:
    """An engine that is cranked, and where.

    `ratio`, `closes_abdc_deg` (crank degrees) and `air_kpa` are values with their standard uncertainty; without the
    last two, or without `crank`, what is usual is taken.
    """

    def __init__(
            self, ratio: Tuple[float, float], closes_abdc_deg: Optional[Tuple[float, float]] = None,
            air_kpa: Optional[Tuple[float, float]] = None, crank: Optional[SliderCrank] = None) -> None:
        self._kept = crank
        pairs = (*ratio, *(closes_abdc_deg or (0.0, 0.0)), *(air_kpa or (0.0, 0.0)))
        made = _Cranking(*pairs, address(crank), closes_abdc_deg is not None, air_kpa is not None)
        self._as_parameter_ = byref(made)


def expected_compression(engine: Cranking, exponent_low: float, exponent_high: float) -> Compression:
    """What a compression gauge should show of a good cylinder."""
    return made(Compression, "lw_expected_compression", engine, c_double(exponent_low), c_double(exponent_high))


def implied_exponent(engine: Cranking, shown_kpa: float, uncertainty_kpa: float) -> Tuple[float, float]:
    """The exponent of compression that a reading implies, and its standard uncertainty."""
    return pair("lw_implied_exponent", engine, c_double(shown_kpa), c_double(uncertainty_kpa))


def compression_in_other_air(shown_kpa: float, here_kpa: float, there_kpa: float) -> float:
    """What the gauge would show in other air, with all else the same; kilopascals."""
    return double("lw_compression_in_other_air", *map(c_double, (shown_kpa, here_kpa, there_kpa)))


def judge_compression(
        dry_kpa: Numbers, wet_kpa: Optional[Numbers] = None, build_up: Optional[Numbers] = None, head: Optional[Numbers] = None, *,
        rule: Optional[Tuple[int, float]] = None, engine: Optional[Cranking] = None, air_kpa: Optional[float] = None,
        repeat_kpa: float = 0.0, gauge_kpa: Optional[float] = None,
        clearances_good: bool = False) -> Tuple[CompressionVerdict, Columns]:
    """Judges the compression of all cylinders: the whole, and columns of cylinders; kilopascals.

    `wet_kpa` is infinite where it was not read, `build_up` 0 where it was not noted; rows with one number in `head`
    are neighbours under one head. `rule` is a kind such as PERCENT_OF_HIGHEST and its number.
    """
    readings = given(
        _CompressionReadings, dry_kpa=dry_kpa, wet_kpa=wet_kpa, build_up=build_up, head=head, air_kpa=air_kpa or 0.0,
        repeat_kpa=repeat_kpa, gauge_kpa=gauge_kpa or 0.0, air_known=air_kpa is not None, gauge_known=gauge_kpa is not None,
        clearances_good=clearances_good)
    found, columns = room(_CylinderColumns, readings.rows)
    verdict = CompressionVerdict.empty()
    by_rule = by(_CompressionRule(*rule) if rule else None)
    call("lw_judge_compression", byref(readings), engine, by_rule, byref(verdict), byref(found))
    return verdict, columns
