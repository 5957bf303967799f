"""Engines whose parts agree: what fires when, and where to stop the crank."""

from __future__ import annotations

from ctypes import c_double, c_size_t, c_uint32, c_void_p
from typing import List, Optional, Tuple

from ._columns import Numbers, column
from ._library import call, filled, library, made, shown
from ._structure import F64, U32, Address, Size, Structure, byref, structure, u32, unused
from .document import Document, encoded

__all__ = (
    "CYLINDER_BY_CYLINDER", "FEWEST_STOPS", "FOUR_STROKE", "FULLY_OPEN_VALVE", "OPPOSITE_VALVE", "TWO_POSITION",
    "TWO_STROKE", "Engine", "Plan", "PlanCost", "Stop", "ValveCheck", "ValveTrain")

FOUR_STROKE, TWO_STROKE = 4, 2
CYLINDER_BY_CYLINDER, TWO_POSITION, FEWEST_STOPS, OPPOSITE_VALVE, FULLY_OPEN_VALVE = 1, 2, 3, 4, 5


@structure
class _EngineParts(Structure):
    cycle: U32
    intervals: U32
    sense: U32
    seen_from: U32
    numbering: U32
    cylinders: U32
    firing_order: Address
    intervals_deg: Address
    bank_deg: Address
    crankpin_deg: Address


@structure
class ValveTrain(Structure):
    """When the valves open and close, in crank degrees, and at which lash or lift that holds, in millimetres."""

    intake_opens_btdc_deg: F64
    intake_closes_abdc_deg: F64
    exhaust_opens_bbdc_deg: F64
    exhaust_closes_atdc_deg: F64
    guard_deg: F64
    intake_per_cylinder: U32
    exhaust_per_cylinder: U32
    events_at: U32
    reserved: U32 = unused()
    events_at_mm: F64 = 0.0
    greatest_lift_mm: F64 = 0.0
    running_intake_mm: F64 = 0.0
    running_exhaust_mm: F64 = 0.0


@structure
class PlanCost(Structure):
    """How many stops and changes of side a plan takes, and how far the crank is turned in all; degrees."""

    stops: Size
    walks: Size
    unreachable: Size
    total_turn_deg: F64


@structure
class Stop(Structure):
    """Where to stop the crank, how far that is from the stop before, and how far off it may be; degrees."""

    position_deg: F64
    turn_deg: F64
    checks: Size
    cues: Size
    firing_tdc_of: U32
    overlap_tdc_of: U32
    may_be_off_before_deg: F64
    may_be_off_after_deg: F64


@structure
class ValveCheck(Structure):
    """A valve that is checked, watched or not reached, and its margin in degrees."""

    cylinder: U32
    kind: U32
    number: U32
    reserved: U32 = unused()
    margin_deg: F64


class _Handle:
    def __init__(self, name: str, pointer: int) -> None:
        self._free, self._as_parameter_ = getattr(library, f"lw_{name}_free"), c_void_p(pointer)

    def __del__(self) -> None:
        if getattr(self, "_as_parameter_", None):
            self._free(self._as_parameter_)


class Engine(_Handle):
    """An engine whose parts agree. Cylinders count from 1; angles are degrees."""

    def __init__(
            self, firing_order: Numbers, cycle: int = FOUR_STROKE, intervals: int = 1, sense: int = 1, seen_from: int = 1,
            numbering: int = 1, intervals_deg: Optional[Numbers] = None, bank_deg: Optional[Numbers] = None,
            crankpin_deg: Optional[Numbers] = None) -> None:
        order = column(firing_order, c_uint32, "firing_order")
        named = {"intervals_deg": intervals_deg, "bank_deg": bank_deg, "crankpin_deg": crankpin_deg}
        lists = [(None, None) if values is None else column(values, c_double, name) for name, values in named.items()]
        parts = _EngineParts(
            cycle, intervals, sense, seen_from, numbering, len(firing_order), order[1], *(address for _, address in lists))
        self._hold(filled(c_void_p, "lw_engine_new", byref(parts)))

    @classmethod
    def of_document(cls, document: Document) -> Engine:
        """The engine of a document; raises LashworkError with every problem of it."""
        engine = cls.__new__(cls)
        found = encoded(document)
        engine._hold(filled(c_void_p, "lw_engine_of_document", found, c_size_t(len(found))))
        return engine

    def _hold(self, pointer: int) -> None:
        super().__init__("engine", pointer)
        self.cylinders: int = filled(c_size_t, "lw_engine_cylinders", self)

    def label(self, cylinder: int) -> str:
        """What a cylinder is called: its number, or the label that the document gives it."""
        return shown("lw_engine_label", self, u32(cylinder))

    def _offsets(self, name: str) -> List[float]:
        found, count = (c_double * self.cylinders)(), c_size_t()
        call(name, self, found, c_size_t(self.cylinders), byref(count))
        return list(found)

    def firing_offsets(self) -> List[float]:
        """Crank degrees from the first cylinder of the firing order to the firing of each."""
        return self._offsets("lw_firing_offsets")

    def tdc_offsets(self) -> List[float]:
        """Crank degrees from the first cylinder of the firing order to a top dead centre of each."""
        return self._offsets("lw_tdc_offsets")

    def rotor_angles(self) -> List[float]:
        """Where the rotor stands when each fires; degrees."""
        return self._offsets("lw_rotor_angles")

    def companion(self, cylinder: int) -> int:
        """The cylinder at overlap when this one fires; 0 if there is none."""
        return int(filled(c_uint32, "lw_companion", self, u32(cylinder)))

    def plan(self, train: ValveTrain, method: int, places: int = 1, start: int = 0) -> Optional[Plan]:
        """A stop plan by a method such as FEWEST_STOPS; None if the engine has none of that method."""
        pointer = filled(c_void_p, "lw_plan_new", self, byref(train), u32(method), u32(places), u32(start))
        return Plan(pointer) if pointer else None


class Plan(_Handle):
    """A stop plan: `cost`, `stops` (each with its cues and checks), and `unreachable` valves."""

    def __init__(self, pointer: int) -> None:
        super().__init__("plan", pointer)
        self.cost = made(PlanCost, "lw_plan_total", self)
        self.stops = [self._stop(i) for i in range(self.cost.stops)]
        self.unreachable = [self._valve("unreachable", i) for i in range(self.cost.unreachable)]

    def _valve(self, what: str, *indices: int) -> ValveCheck:
        return made(ValveCheck, "lw_plan_" + what, self, *map(c_size_t, indices))

    def _stop(self, index: int) -> Tuple[Stop, List[ValveCheck], List[ValveCheck]]:
        stop = made(Stop, "lw_plan_stop", self, c_size_t(index))
        cues = [self._valve("cue", index, i) for i in range(stop.cues)]
        return stop, cues, [self._valve("check", index, i) for i in range(stop.checks)]
