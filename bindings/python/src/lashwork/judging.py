"""What leaves say about a lash, and what a printed band says to it."""

from __future__ import annotations

import math
from ctypes import c_double, c_uint32
from typing import Any, Dict, NamedTuple, Optional, Tuple

from ._columns import Columns, Numbers, Stated, address, answer, by, each, given, of_all
from ._library import call, library, made, pair
from ._structure import F64, I64, U32, Address, Bytes, Doubles, Size, Structure, Words, byref, i64, structure, u32, unused
from .quantity import length

__all__ = (
    "AT_LEAST", "AT_MOST", "BETWEEN", "GUARDED_EARLY", "GUARDED_TIGHT", "ISO_14253_1", "SIMPLE", "VERDICTS",
    "Estimate", "Judgement", "Limits", "Rule", "Warmth", "between", "changed", "estimate_from_leaves", "judge",
    "judge_columns", "limits", "warmth_not_known", "warmth_shift")

BETWEEN, AT_LEAST, AT_MOST = 1, 2, 3
VERDICTS = ("refused", "in band", "below", "above", "cannot say")


class Rule(NamedTuple):
    """A decision rule, and the risks it allows below and above where its kind states none."""

    kind: int
    below: float = 0.0
    above: float = 0.0


GUARDED_TIGHT, GUARDED_EARLY, SIMPLE, ISO_14253_1 = Rule(1), Rule(5), Rule(2), Rule(3)


@structure
class _Rule(Structure):
    kind: U32
    reserved: U32 = unused()
    below: F64
    above: F64


def rule_of(rule: Tuple[int, float, float]) -> _Rule:
    """A rule as C takes it."""
    return _Rule(*rule)


@structure
class Estimate(Structure):
    """What a reading says about the lash; millimetres. `span` is BETWEEN, AT_LEAST or AT_MOST."""

    span: U32
    reserved: U32 = unused()
    low_mm: F64
    high_mm: F64
    uncertainty_mm: F64


@structure
class Limits(Structure):
    """A printed band; whole nanometres. `span` is BETWEEN, AT_LEAST or AT_MOST."""

    span: U32
    reserved: U32 = unused()
    lower_nm: I64
    upper_nm: I64


@structure
class Judgement(Structure):
    """`verdict` counts in VERDICTS; `provable` is 1 if any reading as good as this one could be found in band;
    probabilities from 0 to 1, each from its least to its most."""

    verdict: U32
    provable: U32
    below_least: F64
    below_most: F64
    in_band_least: F64
    in_band_most: F64
    above_least: F64
    above_most: F64


@structure
class Warmth(Structure):
    """How a lash follows the temperature of the metal: millimetres, kelvin, degrees Celsius."""

    mm_per_kelvin: F64
    mm_per_kelvin_uncertainty: F64
    at_celsius: F64
    at_uncertainty_kelvin: F64
    reference_celsius: F64


def estimate_from_leaves(span: int, goes_nm: int, refuses_nm: int, tolerance_nm: int, hand_nm: int) -> Estimate:
    """The estimate by the leaf that goes and the one that does not; whole nanometres."""
    numbers = map(i64, (goes_nm, refuses_nm, tolerance_nm, hand_nm))
    return made(Estimate, "lw_estimate_from_leaves", u32(span), *numbers)


def between(goes: str, refuses: str, tolerance: Optional[str] = None, hand: Optional[str] = None) -> Estimate:
    """One leaf goes and the next does not; texts with units.

    `tolerance` is half the width of what a leaf may be off, `hand` the standard uncertainty of the hand at each end;
    None takes what the kernel assumes where nothing is stated.
    """
    stated = [
        assumed() if text is None else length(text).nanometres
        for text, assumed in ((tolerance, library.lw_assumed_leaf_tolerance_nm), (hand, library.lw_assumed_hand_nm))]
    return estimate_from_leaves(BETWEEN, length(goes).nanometres, length(refuses).nanometres, *stated)


def changed(estimate: Estimate, change_mm: float, uncertainty_mm: float) -> Estimate:
    """The estimate after a change of lash with its standard uncertainty; millimetres."""
    return made(Estimate, "lw_estimate_changed", byref(estimate), c_double(change_mm), c_double(uncertainty_mm))


def warmth_shift(warmth: Warmth) -> Tuple[float, float]:
    """Change of lash from the reference to the temperature of the reading, and its standard uncertainty; millimetres."""
    return pair("lw_warmth_shift", byref(warmth))


def warmth_not_known(at_celsius: float, at_uncertainty_kelvin: float, reference_celsius: float) -> Tuple[bool, float]:
    """Whether a lash may be judged by limits that hold at another temperature, where nothing says how it follows.

    False means that the verdict is "cannot say", whatever `judge` says; the standard uncertainty in millimetres of what
    the difference may do to the lash, 0 where it may be judged.
    """
    may_judge, uncertainty = c_uint32(), c_double()
    given_to_it = map(c_double, (at_celsius, at_uncertainty_kelvin, reference_celsius))
    call("lw_warmth_not_known", *given_to_it, byref(may_judge), byref(uncertainty))
    return bool(may_judge.value), uncertainty.value


def limits(lower: Optional[str], upper: Optional[str]) -> Limits:
    """A printed band, from texts with units; None for an end that is not printed."""
    span = AT_MOST if lower is None else AT_LEAST if upper is None else BETWEEN
    ends = [0 if text is None else length(text).nanometres for text in (lower, upper)]
    return Limits(span, *ends)


def judge(estimate: Estimate, band: Limits, rule: Tuple[int, float, float]) -> Judgement:
    """Judges one estimate by one band under one rule."""
    return made(Judgement, "lw_judge", byref(estimate), byref(band), byref(rule_of(rule)))


@structure
class _ReadingColumns(Structure):
    rows: Size
    low_mm: Doubles
    high_mm: Doubles
    uncertainty_mm: Doubles
    lower_mm: Doubles = None
    upper_mm: Doubles = None
    at_celsius: Doubles = None
    at_uncertainty_kelvin: Doubles = None
    reference_celsius: Doubles = None
    mm_per_kelvin: Doubles = None
    mm_per_kelvin_uncertainty: Doubles = None
    warmth: Address = None


@structure
class _JudgementColumns(Structure):
    rows: Size
    verdict: Bytes
    provable: Bytes
    below_least: Doubles
    below_most: Doubles
    in_band_least: Doubles
    in_band_most: Doubles
    above_least: Doubles
    above_most: Doubles
    status: Words
    low_mm: Doubles = None
    high_mm: Doubles = None
    uncertainty_mm: Doubles = None
    at_reference: Bytes = None


_OF_LASH = ("low_mm", "high_mm", "uncertainty_mm", "at_reference")


def warmth_of_all(**stated: Stated) -> Optional[Warmth]:
    """What of the fields of Warmth is one number for all rows; None if nothing is."""
    numbers: Dict[str, Any] = {name: number for name, number in stated.items() if of_all(number)}
    fields: Dict[str, Any] = dict.fromkeys(Warmth._given, math.nan)
    return Warmth(**{**fields, **numbers}) if numbers else None


def judge_columns(
        low_mm: Numbers, high_mm: Numbers, uncertainty_mm: Numbers, band: Optional[Limits], rule: Tuple[int, float, float], *,
        lower_mm: Stated = None, upper_mm: Stated = None, at_celsius: Stated = None, at_uncertainty_kelvin: Stated = None,
        reference_celsius: Stated = None, mm_per_kelvin: Stated = None, mm_per_kelvin_uncertainty: Stated = None) -> Columns:
    """Judges many readings in one call, each at the temperature of its limits; a dict of columns.

    Millimetres; an end that is not there is infinite. `lower_mm` and `upper_mm` stand for the limits of `band`, which may
    then be None; NaN where a row has no such limit. The others are the fields of Warmth. Each is a column, or one number
    for all rows. Without any of Warmth the readings are taken to be those at the temperature of the limits; NaN in
    `at_celsius` says that it was not taken, NaN in `mm_per_kelvin` that nothing says how the lash follows.

    The columns are named as the fields of Judgement; `low_mm`, `high_mm` and `uncertainty_mm` are the reading at the
    temperature of the limits, if `at_reference` is 1. A refused row has verdict 0, NaN, and a `status` other than 0.
    """
    rows = len(low_mm)
    warm: Dict[str, Any] = {
        "at_celsius": at_celsius, "at_uncertainty_kelvin": at_uncertainty_kelvin, "reference_celsius": reference_celsius,
        "mm_per_kelvin": mm_per_kelvin, "mm_per_kelvin_uncertainty": mm_per_kelvin_uncertainty}
    warmth = warmth_of_all(**warm)
    columns: Dict[str, Any] = {name: None if of_all(column) else column for name, column in warm.items()}
    readings = given(
        _ReadingColumns, low_mm=low_mm, high_mm=high_mm, uncertainty_mm=uncertainty_mm, lower_mm=each(lower_mm, rows),
        upper_mm=each(upper_mm, rows), **columns, warmth=address(warmth))
    by_what = (byref(readings), by(band), byref(rule_of(rule)))
    return answer(_JudgementColumns, readings.rows, "lw_judge_columns", *by_what)
