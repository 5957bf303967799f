"""Where the piston is at a crank angle, and where top dead centre is."""

from __future__ import annotations

from ctypes import c_double
from typing import Optional, Tuple

from ._columns import by
from ._library import double, doubles, pair
from ._structure import F64, Structure, byref, structure

__all__ = ("SliderCrank", "angles_at_drop", "dead_centres", "piston_drop", "tdc_from_stops")


@structure
class SliderCrank(Structure):
    """Crank radius, length of the rod between its centres, offset of the cylinder; millimetres."""

    crank_radius_mm: F64
    rod_mm: F64
    offset_mm: F64


def piston_drop(slider: SliderCrank, crank_deg: float) -> float:
    """How far the piston is below its highest place; millimetres."""
    return double("lw_piston_drop", byref(slider), c_double(crank_deg))


def angles_at_drop(slider: SliderCrank, drop_mm: float) -> Tuple[float, float]:
    """The two crank angles, in degrees, at which the piston is so far down."""
    return pair("lw_angles_at_drop", byref(slider), c_double(drop_mm))


def dead_centres(slider: SliderCrank) -> Tuple[float, float, float]:
    """Crank degrees of top and bottom dead centre, and the stroke in millimetres."""
    top, bottom, stroke = doubles("lw_dead_centres", 3, byref(slider))
    return top, bottom, stroke


def tdc_from_stops(
        rising_deg: float, falling_deg: float, uncertainty_deg: float, slider: Optional[SliderCrank] = None) -> Tuple[float, float]:
    """Top dead centre from the two angles at which a piston stop is met, and its standard uncertainty; degrees."""
    stops = map(c_double, (rising_deg, falling_deg, uncertainty_deg))
    return pair("lw_tdc_from_stops", *stops, by(slider))
