"""One ignition point by every tool: distributor, dial in the plug hole, tape on the rim."""

from __future__ import annotations

from ctypes import c_double, c_uint32
from typing import Tuple

from ._library import call, doubles, pair
from ._structure import F64, Structure, byref, structure, u32
from .crank import SliderCrank

__all__ = (
    "AFTER_TDC", "AHEAD", "BEFORE_TDC", "BEHIND", "ON_THE_MARK", "Dial", "dial_at_point", "distributor_at_point",
    "point_at_dial", "point_at_distributor", "point_at_rim", "rim_at_point")

AHEAD, ON_THE_MARK, BEHIND = 1, 2, 3
BEFORE_TDC, AFTER_TDC = 1, 2


@structure
class Dial(Structure):
    """A dial in the plug hole: its standard uncertainty in millimetres, how far the hole leans in degrees."""

    uncertainty_mm: F64
    plug_hole_deg: F64


def distributor_at_point(btdc_deg: float, crank_turns: float) -> Tuple[float, float]:
    """Degrees of the distributor, and the standard uncertainty in crank degrees of a point read there."""
    return pair("lw_distributor_at_point", c_double(btdc_deg), c_double(crank_turns))


def point_at_distributor(distributor_btdc_deg: float, crank_turns: float) -> Tuple[float, float]:
    """Crank degrees before top dead centre and their standard uncertainty; so of all that begin with point."""
    return pair("lw_point_at_distributor", c_double(distributor_btdc_deg), c_double(crank_turns))


def dial_at_point(slider: SliderCrank, dial: Dial, btdc_deg: float) -> Tuple[float, float, float]:
    """What the dial shows, how far the piston is down, both in millimetres; the standard uncertainty of such a point."""
    shown, down, uncertainty = doubles("lw_dial_at_point", 3, byref(slider), byref(dial), c_double(btdc_deg))
    return shown, down, uncertainty


def point_at_dial(slider: SliderCrank, dial: Dial, dial_mm: float, side: int = BEFORE_TDC) -> Tuple[float, float]:
    """The point at which the dial shows so many millimetres, BEFORE_TDC or AFTER_TDC."""
    return pair("lw_point_at_dial", byref(slider), byref(dial), c_double(dial_mm), u32(side))


def rim_at_point(btdc_deg: float, diameter_mm: float, by_tape: int) -> Tuple[float, int, float]:
    """Millimetres along the rim from the TDC mark, on which side, the standard uncertainty of such a point."""
    along, side, uncertainty = c_double(), c_uint32(), c_double()
    given = (c_double(btdc_deg), c_double(diameter_mm), u32(by_tape))
    call("lw_rim_at_point", *given, byref(along), byref(side), byref(uncertainty))
    return along.value, side.value, uncertainty.value


def point_at_rim(along_rim_mm: float, side: int, diameter_mm: float, by_tape: int) -> Tuple[float, float]:
    """The point so many millimetres along the rim, AHEAD of the mark, ON_THE_MARK or BEHIND it."""
    given = (c_double(along_rim_mm), u32(side), c_double(diameter_mm), u32(by_tape))
    return pair("lw_point_at_rim", *given)
