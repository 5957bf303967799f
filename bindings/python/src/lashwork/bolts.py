"""Head bolts: a wrench with an adapter, and the force that a torque leaves."""

from __future__ import annotations

from ctypes import c_double

from ._library import double, made
from ._structure import F64, Structure, byref, structure, u32

__all__ = (
    "DRY_TORQUE", "ELONGATION", "OILED_TORQUE", "POWER_DRIVER", "STATED", "TORQUE_ESTIMATED", "TORQUE_TUNED",
    "YIELD_OR_ANGLE", "Adapter", "BoltFriction", "Preload", "nut_factor", "preload_of_torque", "torque_at_bolt",
    "wrench_setting", "wrench_uncertainty")

YIELD_OR_ANGLE, ELONGATION, TORQUE_TUNED, TORQUE_ESTIMATED, POWER_DRIVER, DRY_TORQUE, OILED_TORQUE, STATED = range(1, 9)


@structure
class Adapter(Structure):
    """A wrench and what is put on it: lengths in millimetres, how far it is turned in degrees."""

    wrench_mm: F64
    adapter_mm: F64
    turned_deg: F64


@structure
class BoltFriction(Structure):
    """A bolt: diameter, pitch and the diameter its head bears on in millimetres; friction of thread and head."""

    diameter_mm: F64
    pitch_mm: F64
    bearing_mm: F64
    thread: F64
    head: F64


@structure
class Preload(Structure):
    """The force along a bolt in kilonewtons, and the scatter of the way it was tightened in per cent."""

    least_kn: F64
    middle_kn: F64
    most_kn: F64
    scatter_from_percent: F64
    scatter_to_percent: F64


def wrench_setting(adapter: Adapter, at_bolt: float) -> float:
    """What to set on a wrench with an adapter for a torque at the bolt; newton metres."""
    return double("lw_wrench_setting", byref(adapter), c_double(at_bolt))


def torque_at_bolt(adapter: Adapter, set_to: float) -> float:
    """What the bolt gets of a torque that is set; newton metres."""
    return double("lw_torque_at_bolt", byref(adapter), c_double(set_to))


def wrench_uncertainty(most: float, percent: float, set_to: float) -> float:
    """The standard uncertainty of a torque that is set on a wrench; newton metres."""
    return double("lw_wrench_uncertainty", *map(c_double, (most, percent, set_to)))


def nut_factor(bolt: BoltFriction) -> float:
    """Torque over force and diameter, from the frictions of thread and head."""
    return double("lw_nut_factor", byref(bolt))


def preload_of_torque(torque: float, diameter_mm: float, factor: float, tightening: int, stated_percent: float = 0.0) -> Preload:
    """The force along a bolt that a torque in newton metres leaves, with its scatter."""
    numbers = map(c_double, (torque, diameter_mm, factor))
    return made(Preload, "lw_preload_of_torque", *numbers, u32(tightening), c_double(stated_percent))
