"""Lengths, temperatures and crank angles, read with their units."""

from __future__ import annotations

from ctypes import c_double, c_size_t
from typing import Any

from ._library import call, double, shown
from ._structure import I64, U32, Structure, byref, structure, u32

__all__ = (
    "CELSIUS", "FAHRENHEIT", "INCH", "KELVIN", "MICROMETRE", "MILLIMETRE", "THOU", "Length", "convert_length",
    "convert_temperature", "crank_angle", "length", "temperature")

MILLIMETRE, INCH, THOU, MICROMETRE = 1, 2, 3, 4
CELSIUS, FAHRENHEIT, KELVIN = 1, 2, 3


@structure
class _Mark(Structure):
    nanometres: I64
    unit: U32
    decimals: U32


class Length:
    """An exact length as it was written: whole nanometres, the unit it is shown in, and how many decimals.

    >>> str(length("0.006 in"))
    '0.006 in'
    """

    def __init__(self, nanometres: int, unit: int = MILLIMETRE, decimals: int = 2) -> None:
        self.nanometres, self.unit, self.decimals = nanometres, unit, decimals

    @property
    def mm(self) -> float:
        """The length in millimetres."""
        return convert_length(self.nanometres / 1000, MICROMETRE, MILLIMETRE)

    def __str__(self) -> str:
        return shown("lw_show_length", byref(_Mark(self.nanometres, self.unit, self.decimals)))

    def __repr__(self) -> str:
        return f"length({str(self)!r})"


def _parse(name: str, text: str, out: Any) -> Any:
    if not isinstance(text, str):
        raise TypeError(f"text with its unit is needed, such as \"0.15 mm\", not {text!r}")
    encoded = text.encode()
    call(name, encoded, c_size_t(len(encoded)), byref(out))
    return out


def length(text: str) -> Length:
    """Reads a length with its unit, such as "0.15 mm" or "0.006 in", exactly.

    >>> length("0.006 in").mm
    0.1524
    """
    mark = _parse("lw_parse_length", text, _Mark.empty())
    return Length(mark.nanometres, mark.unit, mark.decimals)


def temperature(text: str) -> float:
    """Reads a temperature with its unit; degrees Celsius.

    >>> temperature("68 F")
    20.0
    """
    return float(_parse("lw_parse_temperature", text, c_double()).value)


def crank_angle(text: str) -> float:
    """Reads a crank angle with its unit; degrees."""
    return float(_parse("lw_parse_crank_angle", text, c_double()).value)


def convert_length(value: float, unit: int, to: int) -> float:
    """A length in another unit: MILLIMETRE, INCH, THOU, MICROMETRE."""
    return double("lw_convert_length", c_double(value), u32(unit), u32(to))


def convert_temperature(value: float, unit: int, to: int) -> float:
    """A temperature on another scale: CELSIUS, FAHRENHEIT, KELVIN."""
    return double("lw_convert_temperature", c_double(value), u32(unit), u32(to))
