"""lashwork from Python, through its C library: no compiler, nothing to install but the library.

    import lashwork as lw
    lw.length("0.006 in").mm                       # 0.1524
    lw.judge(lw.between("0.12 mm", "0.15 mm"), lw.limits("0.15 mm", "0.20 mm"), lw.GUARDED_TIGHT)

A refused value raises LashworkError with the kernel's code, message and hint. Columns of numpy are passed
as they are, without a copy; lists work too. The library is the file that LASHWORK_LIBRARY names, or
liblashwork where the system finds it.
"""

import ctypes
import ctypes.util
import json
import os
import re
from ctypes import POINTER, byref, c_char_p, c_double, c_int64, c_size_t, c_uint8, c_uint32, c_void_p

try:
    import numpy
except ImportError:  # Columns are then arrays of ctypes.
    numpy = None

ABI = 1
FOUR_STROKE, TWO_STROKE = 4, 2
MILLIMETRE, INCH, THOU, MICROMETRE = 1, 2, 3, 4
CELSIUS, FAHRENHEIT, KELVIN = 1, 2, 3
BETWEEN, AT_LEAST, AT_MOST = 1, 2, 3
GUARDED_TIGHT, GUARDED_EARLY, SIMPLE, ISO_14253_1 = (1, 0.0, 0.0), (5, 0.0, 0.0), (2, 0.0, 0.0), (3, 0.0, 0.0)
VERDICTS = ("refused", "in band", "below", "above", "cannot say")
CYLINDER_BY_CYLINDER, TWO_POSITION, FEWEST_STOPS, OPPOSITE_VALVE, FULLY_OPEN_VALVE = 1, 2, 3, 4, 5
METER_PERCENT = 100
CAM_AT_HALF_CRANK, CAM_ON_CRANK = 1, 2
HOSE_NOT_FITTED, HOSE_PLUGGED, HOSE_CONNECTED = 1, 2, 3
AHEAD, ON_THE_MARK, BEHIND = 1, 2, 3
BEFORE_TDC, AFTER_TDC = 1, 2
WEAK_SHARE_OF_CURRENT, WEAK_SHARE_OF_ENERGY, WEAK_CURRENT, WEAK_ENERGY = 1, 2, 3, 4
ROWS_REFUSED = 9
CLASS_00, CLASS_0, CLASS_I = 1, 2, 3
HC_NOT_READ, HC_HEXANE, HC_HEXANE_OF_PETROL, HC_PROPANE, HC_CARBON, HC_STATED = 1, 2, 3, 4, 5, 6
OXYGEN_WITH_CO, OXYGEN_WITH_HC, TOO_LEAN_TO_BURN, BEYOND_RUNNING, TOTAL_OFF = 1, 2, 4, 8, 16
GAS_CAUSES = (
    None, "air at the probe", "missed firing", "uneven cylinders", "air injection", "tester off", "other fuel", "something else")
STATION, SEA_LEVEL = 1, 2
BAROMETER_DOUBTS = (None, "set to sea level", "not set to sea level", "fits neither", "something else")
SCREW_IN_FUEL, SCREW_IN_AIR = 1, 2
LEAN, RICH = 1, 2
VACUUM, AIR_FLOW = 1, 2
RIGIDLY, SCREW, SCREW_CLOCKWISE_OPENS, SCREW_CLOCKWISE_CLOSES = 1, 2, 3, 4
PERCENT_OF_HIGHEST, DIFFERENCE, MINIMUM = 1, 2, 3
EVEN, LOW_THEN_BUILDS, STAYS_LOW = 1, 2, 3
COMPRESSION_NEXT = (None, "crank again", "clearances", "oil", "leak-down", "valve timing")
YIELD_OR_ANGLE, ELONGATION, TORQUE_TUNED, TORQUE_ESTIMATED, POWER_DRIVER, DRY_TORQUE, OILED_TORQUE, STATED = range(1, 9)
RAMP, RAMP_THEN_FLANK, MEASURED, HARMONIC = 1, 2, 3, 4
AT_LASH, AT_LIFT = 1, 2
EVENTS = ("intake opens", "intake closes", "exhaust opens", "exhaust closes", "intake duration", "exhaust duration", "overlap")
HOURS, DISTANCE, DAYS = 1, 2, 3
FOUND, LEFT_SET, LEFT_RENEWED = 1, 2, 3
LOOKS = ("refused", "now", "at", "not before", "not known", "too few")
WAYS = (None, "open", "close", "leave")
SENSES = (None, "clockwise", "anticlockwise")
NEXT_READINGS = (None, "throttle", "trial", "trial again")
CAUSES = (
    "nothing wrong", "static point off", "springs weak", "springs strong", "weights sticking", "end wrong", "used up at idle",
    "set with vacuum", "set at speed", "something else")


def _load():
    name = os.environ.get("LASHWORK_LIBRARY") or ctypes.util.find_library("lashwork")
    if name is None:
        raise ImportError("no liblashwork: set LASHWORK_LIBRARY to the shared library")
    library = ctypes.CDLL(name)
    if library.lw_abi_version() != ABI:
        raise ImportError(f"{name} has another binary interface than this module")
    for text in ("code", "message", "hint", "place"):
        getattr(library, "lw_error_" + text).restype = c_char_p
        getattr(library, "lw_error_" + text).argtypes = [c_void_p]
    library.lw_version.restype = c_char_p
    library.lw_struct_size.restype = c_size_t
    library.lw_error_row.argtypes = [c_void_p, POINTER(c_size_t)]
    library.lw_error_row.restype = ctypes.c_bool
    for free in ("error", "text", "engine", "plan"):
        getattr(library, f"lw_{free}_free").argtypes = [c_void_p]
        getattr(library, f"lw_{free}_free").restype = None
    return library


_library = _load()
version = _library.lw_version().decode()


class LashworkError(ValueError):
    """A value the kernel refuses, or a mistake in a call. `code` never changes its meaning."""

    def __init__(self, status, error):
        texts = {key: getattr(_library, "lw_error_" + key)(error).decode() for key in ("code", "message", "hint", "place")}
        super().__init__(texts["message"] + (f" ({texts['hint']})" if texts["hint"] else ""))
        self.status, self.code, self.hint, self.place = status, texts["code"], texts["hint"], texts["place"]
        row = c_size_t()
        self.row = row.value if _library.lw_error_row(error, byref(row)) else None


def _call(name, *arguments, but=()):
    error = c_void_p()
    status = getattr(_library, name)(*arguments, byref(error))
    if status == 0:
        return status
    try:
        if status not in but:
            raise LashworkError(status, error)
        return status
    finally:
        _library.lw_error_free(error)


def _structure(name, **fields):
    def start(self, *values, **named):
        ctypes.Structure.__init__(self, ctypes.sizeof(type(self)), *values, **named)

    kind = type(name, (ctypes.Structure,), {"_fields_": [("struct_size", c_size_t), *fields.items()], "__init__": start})
    in_c = "lw" + re.sub("([A-Z])", r"_\1", name.lstrip("_")).lower()
    if _library.lw_struct_size(in_c.encode(), c_size_t(len(in_c))) != ctypes.sizeof(kind):
        raise ImportError(f"the library knows another {in_c} than this module")
    return kind


_Text = type("_Text", (ctypes.Structure,), {"_fields_": [("data", c_void_p), ("len", c_size_t)]})
_Mark = _structure("_Mark", nanometres=c_int64, unit=c_uint32, decimals=c_uint32)
SliderCrank = _structure("SliderCrank", crank_radius_mm=c_double, rod_mm=c_double, offset_mm=c_double)
Estimate = _structure("Estimate", span=c_uint32, reserved=c_uint32, low_mm=c_double, high_mm=c_double, uncertainty_mm=c_double)
Limits = _structure("Limits", span=c_uint32, reserved=c_uint32, lower_nm=c_int64, upper_nm=c_int64)
_Rule = _structure("_Rule", kind=c_uint32, reserved=c_uint32, below=c_double, above=c_double)
CHANCES = ("below_least", "below_most", "in_band_least", "in_band_most", "above_least", "above_most")
Judgement = _structure("Judgement", verdict=c_uint32, provable=c_uint32, **dict.fromkeys(CHANCES, c_double))
Warmth = _structure("Warmth", **dict.fromkeys(("mm_per_kelvin", "mm_per_kelvin_uncertainty", "at_celsius", "at_uncertainty_kelvin", "reference_celsius"), c_double))
Screw = _structure("Screw", pitch_mm=c_double, rocker_ratio=c_double, seat=c_uint32, inward_closes=c_uint32)
ScrewTurn = _structure("ScrewTurn", angle_deg=c_double, travel_mm=c_double, direction=c_uint32, reserved=c_uint32)
ShimFit = _structure("ShimFit", old_mm=c_double, measured_mm=c_double, target_mm=c_double, ratio=c_double)
ShimSeries = _structure("ShimSeries", first_nm=c_int64, last_nm=c_int64, step_nm=c_int64)
ShimChoice = _structure("ShimChoice", size_nm=c_int64, predicted_lash_mm=c_double, error_mm=c_double)
GapAndDwell = _structure(
    "GapAndDwell", gap_mm=c_double, gap_uncertainty_mm=c_double, dwell_deg=c_double, dwell_uncertainty_deg=c_double,
    lobes=c_uint32, unusual_gap=c_uint32)
Dial = _structure("Dial", uncertainty_mm=c_double, plug_hole_deg=c_double)
PrimaryCircuit = _structure(
    "PrimaryCircuit", supply_v=c_double, supply_uncertainty_v=c_double, resistance_ohm=c_double, resistance_uncertainty_ohm=c_double,
    inductance_mh=c_double, inductance_uncertainty_mh=c_double, dwell_deg=c_double, dwell_uncertainty_deg=c_double,
    lobes=c_uint32, cam=c_uint32)
Charge = _structure("Charge", **dict.fromkeys((
    "closed_ms", "current_a", "current_uncertainty_a", "energy_mj", "energy_uncertainty_mj", "share_of_current", "share_of_energy"), c_double))
_ReadingColumns = _structure("_ReadingColumns", rows=c_size_t, low_mm=c_void_p, high_mm=c_void_p, uncertainty_mm=c_void_p)
_JudgementColumns = _structure("_JudgementColumns", rows=c_size_t, verdict=c_void_p, provable=c_void_p, **dict.fromkeys(CHANCES, c_void_p), status=c_void_p)
_AdvanceCurve = _structure(
    "_AdvanceCurve", points=c_size_t, speed_rpm=c_void_p, least_deg=c_void_p, most_deg=c_void_p, ends=c_uint32, reserved=c_uint32)
PrintedTiming = _structure(
    "PrintedTiming", span=c_uint32, reserved=c_uint32, lower_btdc_deg=c_double, upper_btdc_deg=c_double, printed_rpm=c_double)
_StrobeColumns = _structure(
    "_StrobeColumns", rows=c_size_t, read_btdc_deg=c_void_p, rpm=c_void_p, uncertainty_deg=c_void_p,
    speed_uncertainty_rpm=c_double, lamp_delay_us=c_double, hose=c_uint32, reserved=c_uint32)
POINT = ("low_btdc_deg", "high_btdc_deg", "uncertainty_deg")
_PointColumns = _structure("_PointColumns", rows=c_size_t, **dict.fromkeys(POINT, c_void_p))
_CurvePrior = _structure(
    "_CurvePrior", fault=c_double, capsule_deg=c_double, capsule_uncertainty_deg=c_double, capsule_known=c_uint32, reserved=c_uint32)
CurveFit = _structure(
    "CurveFit", **dict.fromkeys((
        "static_btdc_deg", "static_uncertainty_deg", "scale", "scale_uncertainty", "end_deg", "end_uncertainty_deg", "scatter"), c_double),
    degrees_of_freedom=c_size_t)
Fuel = _structure("Fuel", **dict.fromkeys(("hydrogen", "oxygen", "nitrogen"), c_double))
_ExhaustGas = _structure(
    "_ExhaustGas", **dict.fromkeys(("co2_percent", "co_percent", "o2_percent", "hc_ppm", "hc_factor", "no_ppm"), c_double),
    **dict.fromkeys(("hydrocarbons", "tester", "no_read", "reserved"), c_uint32))
Lambda = _structure(
    "Lambda", **dict.fromkeys(("value", "uncertainty", "spindt", "air_fuel_ratio", "behind_air_low", "behind_air_high"), c_double),
    contradictions=c_uint32, cause=c_uint32)
LambdaRange = _structure(
    "LambdaRange", span=c_uint32, reserved=c_uint32,
    **dict.fromkeys(("low", "high", "uncertainty", "burnt_out", "co2_percent"), c_double))
_GasColumns = _structure(
    "_GasColumns", rows=c_size_t, **dict.fromkeys(("co2_percent", "co_percent", "o2_percent", "hc_ppm"), c_void_p),
    hc_factor=c_double, hydrocarbons=c_uint32, tester=c_uint32)
_LAMBDAS = {"lambda": c_double, "uncertainty": c_double, "contradiction": c_uint8, "status": c_uint32}
_LambdaColumns = _structure("_LambdaColumns", rows=c_size_t, **dict.fromkeys(_LAMBDAS, c_void_p))
_Air = _structure(
    "_Air", **dict.fromkeys((
        "barometer_kpa", "pressure_uncertainty_kpa", "celsius", "uncertainty_kelvin", "humidity_percent",
        "humidity_uncertainty_percent", "altitude_m"), c_double),
    **dict.fromkeys(("barometer", "altitude_known", "humidity_read", "reserved"), c_uint32))
AirDensity = _structure(
    "AirDensity", **dict.fromkeys(("low_kg_m3", "high_kg_m3", "uncertainty_kg_m3", "ratio", "altitude_m", "station_kpa"), c_double),
    doubt=c_uint32, as_published=c_uint32)
_AirColumns = _structure(
    "_AirColumns", rows=c_size_t, **dict.fromkeys(("pressure_kpa", "celsius", "humidity_percent"), c_void_p),
    **dict.fromkeys(("pressure_uncertainty_kpa", "uncertainty_kelvin", "humidity_uncertainty_percent"), c_double))
_DENSITIES = {"density_kg_m3": c_double, "uncertainty_kg_m3": c_double, "altitude_m": c_double, "status": c_uint32}
_DensityColumns = _structure("_DensityColumns", rows=c_size_t, **dict.fromkeys(_DENSITIES, c_void_p))
_IdleReadings = _structure(
    "_IdleReadings", rows=c_size_t, turns_out=c_void_p, rpm=c_void_p, scatter_rpm=c_double, screw=c_uint32, reserved=c_uint32)
IdleCrown = _structure(
    "IdleCrown", **dict.fromkeys((
        "best_turns", "best_uncertainty_turns", "from_turns", "to_turns", "speed_rpm", "speed_uncertainty_rpm", "lopsided"), c_double),
    **dict.fromkeys(("clearly_lopsided", "seen", "rises_toward", "reserved"), c_uint32))
_Linkage = _structure(
    "_Linkage", throttles=c_size_t, joints=c_size_t, one=c_void_p, other=c_void_p, joined_by=c_void_p, reference=c_uint32, screws_alike=c_uint32)
_ThrottleLooks = _structure(
    "_ThrottleLooks", rows=c_size_t, throttle=c_void_p, shown=c_void_p,
    **dict.fromkeys(("scatter", "between_gauges", "allowed", "ambient_kpa"), c_double), gauge=c_uint32, ambient_known=c_uint32)
_TrialTurns = _structure(
    "_TrialTurns", rows=c_size_t, **dict.fromkeys(("joint", "turn_deg", "before", "after", "unmoved_before", "unmoved_after"), c_void_p))
Balance = _structure(
    "Balance", moves=c_size_t, **dict.fromkeys(("spread", "scatter", "degrees_of_freedom", "within", "doubt_deg", "then_deg"), c_double),
    verdict=c_uint32, next=c_uint32, next_index=c_uint32, shafts=c_uint32)
STANDS = {**dict.fromkeys(("reading", "uncertainty", "over_reference", "over_uncertainty"), c_double), "verdict": c_uint8}
_ThrottleColumns = _structure("_ThrottleColumns", rows=c_size_t, **dict.fromkeys(STANDS, c_void_p))
MOVES = {
    "joint": c_uint32, "to_match": c_uint32, "change": c_double, "change_uncertainty": c_double, "way": c_uint32, "way_right": c_double,
    "sense": c_uint32, "turn_deg": c_double, "turn_uncertainty_deg": c_double, "per_turn": c_double, "per_turn_uncertainty": c_double}
_MoveColumns = _structure("_MoveColumns", rows=c_size_t, **dict.fromkeys(MOVES, c_void_p))
SHAFTS = {"joint": c_uint32, **dict.fromkeys(("difference", "difference_uncertainty"), c_double), "verdict": c_uint8}
_ShaftColumns = _structure("_ShaftColumns", rows=c_size_t, **dict.fromkeys(SHAFTS, c_void_p))
_Cranking = _structure(
    "_Cranking", **dict.fromkeys((
        "ratio", "ratio_uncertainty", "intake_closes_abdc_deg", "closes_uncertainty_deg", "air_kpa", "air_uncertainty_kpa"), c_double),
    crank=c_void_p, closes_known=c_uint32, air_known=c_uint32)
Compression = _structure(
    "Compression", **dict.fromkeys(("low_kpa", "high_kpa", "uncertainty_kpa", "effective_ratio"), c_double))
_CompressionRule = _structure("_CompressionRule", kind=c_uint32, reserved=c_uint32, number=c_double)
_CompressionReadings = _structure(
    "_CompressionReadings", rows=c_size_t, **dict.fromkeys(("dry_kpa", "wet_kpa", "build_up", "head"), c_void_p),
    **dict.fromkeys(("air_kpa", "repeat_kpa", "gauge_kpa"), c_double),
    **dict.fromkeys(("air_known", "gauge_known", "clearances_good", "reserved"), c_uint32))
CompressionVerdict = _structure(
    "CompressionVerdict", **dict.fromkeys((
        "limit_kpa", "within", "standard_kpa", "standard_uncertainty_kpa", "exponent", "exponent_uncertainty"), c_double),
    verdict=c_uint32, next=c_uint32)
CYLINDERS = {
    **dict.fromkeys(("share", "share_uncertainty", "expected_kpa", "expected_uncertainty_kpa", "within"), c_double), "verdict": c_uint8,
    **dict.fromkeys(("sound", "rings", "valve", "gasket", "something_else"), c_double)}
_CylinderColumns = _structure("_CylinderColumns", rows=c_size_t, **dict.fromkeys(CYLINDERS, c_void_p))
LeakTester = _structure(
    "LeakTester", **dict.fromkeys(("supply_kpa", "supply_uncertainty_kpa", "orifice_mm", "orifice_uncertainty_mm"), c_double))
Leak = _structure(
    "Leak", **dict.fromkeys(("area_mm2", "uncertainty_mm2", "hole_mm", "over_orifice", "percent_lost"), c_double),
    orifice_choked=c_uint32, leak_choked=c_uint32)
_LeakReadingColumns = _structure(
    "_LeakReadingColumns", rows=c_size_t, shown_kpa=c_void_p, air_kpa=c_void_p, shown_uncertainty_kpa=c_double, air_uncertainty_kpa=c_double)
LEAKS = {**dict.fromkeys(("area_mm2", "uncertainty_mm2", "hole_mm"), c_double), "status": c_uint32}
_LeakColumns = _structure("_LeakColumns", rows=c_size_t, **dict.fromkeys(LEAKS, c_void_p))
Adapter = _structure("Adapter", **dict.fromkeys(("wrench_mm", "adapter_mm", "turned_deg"), c_double))
BoltFriction = _structure("BoltFriction", **dict.fromkeys(("diameter_mm", "pitch_mm", "bearing_mm", "thread", "head"), c_double))
Preload = _structure(
    "Preload", **dict.fromkeys(("least_kn", "middle_kn", "most_kn", "scatter_from_percent", "scatter_to_percent"), c_double))
Flank = _structure(
    "Flank", kind=c_uint32, reserved=c_uint32, **dict.fromkeys((
        "ramp_mm", "ramp_mm_per_deg", "flank_mm_per_deg", "thin_mm", "thick_mm", "apart_deg", "lift_mm", "duration_deg"), c_double))
_RunningValve = _structure(
    "_RunningValve", opening=c_void_p, closing=c_void_p,
    **dict.fromkeys(("lash_mm", "lash_uncertainty_mm", "holds_at_mm", "rocker_ratio"), c_double), holds_at=c_uint32, reserved=c_uint32)
_PrintedEvents = _structure(
    "_PrintedEvents", **dict.fromkeys((
        "intake_opens_btdc_deg", "intake_closes_abdc_deg", "exhaust_opens_bbdc_deg", "exhaust_closes_atdc_deg", "compression_ratio"), c_double),
    crank=c_void_p, ratio_known=c_uint32, reserved=c_uint32)
EVENT_COLUMNS = dict.fromkeys(("low_deg", "high_deg", "uncertainty_deg", "printed_deg"), c_double)
_EventColumns = _structure("_EventColumns", rows=c_size_t, **dict.fromkeys(EVENT_COLUMNS, c_void_p))
EffectiveRatio = _structure("EffectiveRatio", **dict.fromkeys(("printed", "running", "uncertainty"), c_double))
_PastReadings = _structure(
    "_PastReadings", rows=c_size_t, **dict.fromkeys(("at", "low_mm", "high_mm", "uncertainty_mm", "valve", "state"), c_void_p),
    bedding_in=c_double, scatter_mm=c_double, counted_by=c_uint32, scatter_known=c_uint32)
Drift = _structure(
    "Drift", **dict.fromkeys(("rate", "rate_uncertainty", "rate_low", "rate_high", "scatter_mm", "spread"), c_double), lacking=c_size_t)
VALVE_DRIFTS = {
    **dict.fromkeys(("rate", "rate_uncertainty", "rate_low", "rate_high"), c_double), "look": c_uint8,
    **dict.fromkeys(("look_at", "odd_evidence", "odd_needed"), c_double)}
_ValveDriftColumns = _structure("_ValveDriftColumns", rows=c_size_t, **dict.fromkeys(VALVE_DRIFTS, c_void_p))
FORECASTS = dict.fromkeys(
    ("found_mm", "found_uncertainty_mm", "found_low_mm", "found_high_mm", "line_mm", "line_uncertainty_mm"), c_double)
_ForecastColumns = _structure("_ForecastColumns", rows=c_size_t, **dict.fromkeys(FORECASTS, c_void_p))
DEPARTURES = dict.fromkeys(("at", "off", "above", "below"), c_double)
_DepartureColumns = _structure("_DepartureColumns", rows=c_size_t, **dict.fromkeys(DEPARTURES, c_void_p))
DRIFTS = {"rate": c_double, "rate_uncertainty": c_double, "look": c_uint8, "look_at": c_double, "status": c_uint32}
_DriftColumns = _structure("_DriftColumns", rows=c_size_t, **dict.fromkeys(DRIFTS, c_void_p))
_EngineParts = _structure(
    "_EngineParts", cycle=c_uint32, intervals=c_uint32, sense=c_uint32, seen_from=c_uint32, numbering=c_uint32, cylinders=c_uint32,
    firing_order=c_void_p, intervals_deg=c_void_p, bank_deg=c_void_p, crankpin_deg=c_void_p)
ValveTrain = _structure(
    "ValveTrain", intake_opens_btdc_deg=c_double, intake_closes_abdc_deg=c_double, exhaust_opens_bbdc_deg=c_double,
    exhaust_closes_atdc_deg=c_double, guard_deg=c_double, intake_per_cylinder=c_uint32, exhaust_per_cylinder=c_uint32,
    events_at=c_uint32, reserved=c_uint32, events_at_mm=c_double, greatest_lift_mm=c_double,
    running_intake_mm=c_double, running_exhaust_mm=c_double)
PlanCost = _structure("PlanCost", stops=c_size_t, walks=c_size_t, unreachable=c_size_t, total_turn_deg=c_double)
Stop = _structure("Stop", position_deg=c_double, turn_deg=c_double, checks=c_size_t, cues=c_size_t, firing_tdc_of=c_uint32, overlap_tdc_of=c_uint32, may_be_off_before_deg=c_double, may_be_off_after_deg=c_double)
ValveCheck = _structure("ValveCheck", cylinder=c_uint32, kind=c_uint32, number=c_uint32, reserved=c_uint32, margin_deg=c_double)


def _doubles(name, count, *arguments):
    found = [c_double() for _ in range(count)]
    _call(name, *arguments, *map(byref, found))
    return found[0].value if count == 1 else tuple(f.value for f in found)


def _made(kind, name, *arguments):
    made = kind()
    _call(name, *arguments, byref(made))
    return made


def _document(document):
    if isinstance(document, dict):
        document = json.dumps(document)
    return document.encode() if isinstance(document, str) else bytes(document)


def _text_of(name, *arguments):
    text = _Text()
    _call(name, *arguments, byref(text))
    try:
        return ctypes.string_at(text.data, text.len)
    finally:
        _library.lw_text_free(byref(text))


def run(document):
    """The answer to a document (text, bytes or a dict) as bytes of JSON: a report, or all its problems."""
    document = _document(document)
    return _text_of("lw_run", document, c_size_t(len(document)))


def job_sheet(document):
    """The job sheet of one page; raises LashworkError with every problem of a refused document."""
    document = _document(document)
    return _text_of("lw_job_sheet", document, c_size_t(len(document))).decode()


def full_sheet(document):
    """The page and everything behind it; raises as job_sheet does."""
    document = _document(document)
    return _text_of("lw_full_sheet", document, c_size_t(len(document))).decode()


def validate(document):
    """Raises LashworkError with every problem if `run` would answer with problems."""
    document = _document(document)
    _call("lw_validate", document, c_size_t(len(document)))


def document_schema():
    return json.loads(_text_of("lw_document_schema"))


class Length:
    """An exact length as it was written."""

    def __init__(self, nanometres, unit=MILLIMETRE, decimals=2):
        self.nanometres, self.unit, self.decimals = nanometres, unit, decimals

    @property
    def mm(self):
        return convert_length(self.nanometres / 1000, MICROMETRE, MILLIMETRE)

    def __str__(self):
        mark, needed = _Mark(self.nanometres, self.unit, self.decimals), c_size_t()
        _call("lw_show_length", byref(mark), None, c_size_t(0), byref(needed), but=(6,))
        buffer = ctypes.create_string_buffer(needed.value)
        _call("lw_show_length", byref(mark), buffer, needed, byref(needed))
        return buffer.value.decode()


def _parse(name, text, out):
    text = text.encode()
    _call(name, text, c_size_t(len(text)), byref(out))
    return out


def length(text):
    """Reads a length with its unit, such as "0.15 mm" or "0.006 in", exactly."""
    mark = _parse("lw_parse_length", text, _Mark())
    return Length(mark.nanometres, mark.unit, mark.decimals)


def temperature(text):
    """Reads a temperature with its unit; degrees Celsius."""
    return _parse("lw_parse_temperature", text, c_double()).value


def crank_angle(text):
    """Reads a crank angle with its unit; degrees."""
    return _parse("lw_parse_crank_angle", text, c_double()).value


def convert_length(value, unit, to):
    return _doubles("lw_convert_length", 1, c_double(value), c_uint32(unit), c_uint32(to))


def convert_temperature(value, unit, to):
    return _doubles("lw_convert_temperature", 1, c_double(value), c_uint32(unit), c_uint32(to))


def piston_drop(slider, crank_deg):
    return _doubles("lw_piston_drop", 1, byref(slider), c_double(crank_deg))


def angles_at_drop(slider, drop_mm):
    return _doubles("lw_angles_at_drop", 2, byref(slider), c_double(drop_mm))


def dead_centres(slider):
    """Crank degrees of top and bottom dead centre, and the stroke in millimetres."""
    return _doubles("lw_dead_centres", 3, byref(slider))


def tdc_from_stops(rising_deg, falling_deg, uncertainty_deg, slider=None):
    stops = (c_double(rising_deg), c_double(falling_deg), c_double(uncertainty_deg))
    return _doubles("lw_tdc_from_stops", 2, *stops, byref(slider) if slider else None)


def estimate_from_leaves(span, goes_nm, refuses_nm, tolerance_nm, hand_nm):
    numbers = (c_uint32(span), *map(c_int64, (goes_nm, refuses_nm, tolerance_nm, hand_nm)))
    return _made(Estimate, "lw_estimate_from_leaves", *numbers)


def between(goes, refuses, tolerance="0.00889 mm", hand="0.008 mm"):
    """One leaf goes and the next does not; `tolerance` is half the width of what a leaf may be off, `hand` the
    standard uncertainty of the hand at each end."""
    return estimate_from_leaves(BETWEEN, *(length(text).nanometres for text in (goes, refuses, tolerance, hand)))


def changed(estimate, change_mm, uncertainty_mm):
    return _made(Estimate, "lw_estimate_changed", byref(estimate), c_double(change_mm), c_double(uncertainty_mm))


def warmth_shift(warmth):
    """Change of lash from the reference to the temperature of the reading, and its uncertainty; mm."""
    return _doubles("lw_warmth_shift", 2, byref(warmth))


def limits(lower, upper):
    """A printed band, from texts with units; None for an end that is not printed."""
    span = AT_MOST if lower is None else AT_LEAST if upper is None else BETWEEN
    nm = [0 if text is None else length(text).nanometres for text in (lower, upper)]
    return Limits(span, 0, *nm)


def _rule(rule):
    return _Rule(rule[0], 0, rule[1], rule[2])


def judge(estimate, band, rule):
    return _made(Judgement, "lw_judge", byref(estimate), byref(band), byref(_rule(rule)))


def _column(values, kind):
    """The values as an array that C can read, and its address; what numpy holds rightly is not copied."""
    if numpy is not None:
        array = numpy.ascontiguousarray(values, dtype=kind)
        return array, array.ctypes.data
    array = (kind * len(values))(*values)
    return array, ctypes.addressof(array)


def _empty(rows, kind):
    if numpy is not None:
        array = numpy.empty(rows, dtype=kind)
        return array, array.ctypes.data
    array = (kind * rows)()
    return array, ctypes.addressof(array)


def _columns(*columns):
    """Columns of one length as C can read them, and that length."""
    columns = [_column(c, c_double) for c in columns]
    rows = len(columns[0][0])
    if any(len(array) != rows for array, _ in columns):
        raise ValueError("columns differ in length")
    return columns, rows


_JUDGED = {"verdict": c_uint8, "provable": c_uint8, **dict.fromkeys(CHANCES, c_double), "status": c_uint32}


def judge_columns(low_mm, high_mm, uncertainty_mm, band, rule):
    """Judges many readings in one call; a dict of columns. An end that is not there is infinite; a refused
    row has verdict 0 and a status."""
    inputs, rows = _columns(low_mm, high_mm, uncertainty_mm)
    outputs = {name: _empty(rows, kind) for name, kind in _JUDGED.items()}
    readings = _ReadingColumns(rows, *(address for _, address in inputs))
    judgements = _JudgementColumns(rows, *(address for _, address in outputs.values()))
    _call("lw_judge_columns", byref(readings), byref(band), byref(_rule(rule)), byref(judgements), but=(ROWS_REFUSED,))
    return {name: array for name, (array, _) in outputs.items()}


def pitch_per_inch(threads):
    return _doubles("lw_pitch_per_inch", 1, c_double(threads))


def turn_screw(screw, change_mm):
    return _made(ScrewTurn, "lw_turn_screw", byref(screw), c_double(change_mm))


def shim_wanted(fit):
    return _made(c_int64, "lw_shim_wanted", byref(fit)).value


def lash_with_shim(fit, size_nm):
    return _doubles("lw_lash_with_shim", 1, byref(fit), c_int64(size_nm))


def choose_shim(fit, series, rounding=1):
    return _made(ShimChoice, "lw_choose_shim", byref(fit), byref(series), c_uint32(rounding))


def dwell_of_reading(shown, scale, lobes):
    """Degrees of dwell over so many lobes; `scale` is the cylinders the meter's scale is for, or METER_PERCENT."""
    return _doubles("lw_dwell_of_reading", 1, c_double(shown), c_uint32(scale), c_uint32(lobes))


def reading_of_dwell(dwell_deg, scale, lobes):
    return _doubles("lw_reading_of_dwell", 1, c_double(dwell_deg), c_uint32(scale), c_uint32(lobes))


def dwell_at_gap(pair, gap_mm, uncertainty_mm):
    """The dwell in degrees and its standard uncertainty."""
    return _doubles("lw_dwell_at_gap", 2, byref(pair), c_double(gap_mm), c_double(uncertainty_mm))


def gap_at_dwell(pair, dwell_deg, uncertainty_deg):
    """The gap in millimetres and its standard uncertainty."""
    return _doubles("lw_gap_at_dwell", 2, byref(pair), c_double(dwell_deg), c_double(uncertainty_deg))


def spark_shift(change_deg, uncertainty_deg, cam, opening_share):
    """Crank degrees by which the spark comes earlier, and their standard uncertainty."""
    return _doubles("lw_spark_shift", 2, c_double(change_deg), c_double(uncertainty_deg), c_uint32(cam), c_double(opening_share))


def distributor_at_point(btdc_deg, crank_turns):
    """Degrees of the distributor, and the standard uncertainty in crank degrees of a point read there."""
    return _doubles("lw_distributor_at_point", 2, c_double(btdc_deg), c_double(crank_turns))


def point_at_distributor(distributor_btdc_deg, crank_turns):
    """Crank degrees before top dead centre and their standard uncertainty; so of all that begin with point."""
    return _doubles("lw_point_at_distributor", 2, c_double(distributor_btdc_deg), c_double(crank_turns))


def dial_at_point(slider, dial, btdc_deg):
    """What the dial shows, how far the piston is down, both in mm; the standard uncertainty of such a point."""
    return _doubles("lw_dial_at_point", 3, byref(slider), byref(dial), c_double(btdc_deg))


def point_at_dial(slider, dial, dial_mm, side=BEFORE_TDC):
    return _doubles("lw_point_at_dial", 2, byref(slider), byref(dial), c_double(dial_mm), c_uint32(side))


def rim_at_point(btdc_deg, diameter_mm, by_tape):
    """Millimetres along the rim from the TDC mark, on which side, the standard uncertainty of such a point."""
    along, side, uncertainty = c_double(), c_uint32(), c_double()
    given = (c_double(btdc_deg), c_double(diameter_mm), c_uint32(by_tape))
    _call("lw_rim_at_point", *given, *map(byref, (along, side, uncertainty)))
    return along.value, side.value, uncertainty.value


def point_at_rim(along_rim_mm, side, diameter_mm, by_tape):
    given = (c_double(along_rim_mm), c_uint32(side), c_double(diameter_mm), c_uint32(by_tape))
    return _doubles("lw_point_at_rim", 2, *given)


def copper_resistance(read_ohm, uncertainty_ohm, read_at_celsius, read_at_uncertainty_kelvin, wanted_at_celsius):
    """The resistance of a winding at another temperature, and its standard uncertainty; ohms."""
    given = (read_ohm, uncertainty_ohm, read_at_celsius, read_at_uncertainty_kelvin, wanted_at_celsius)
    return _doubles("lw_copper_resistance", 2, *map(c_double, given))


def charge_at_speed(circuit, rpm):
    """What the coil holds when the contacts open."""
    return _made(Charge, "lw_charge_at_speed", byref(circuit), c_double(rpm))


def weak_from_speed(circuit, weak, below):
    """The crank speed above which the coil is weak, and its standard uncertainty."""
    return _doubles("lw_weak_from_speed", 2, byref(circuit), c_uint32(weak), c_double(below))


class AdvanceCurve:
    """Centrifugal advance by crank speed, in crank degrees; `ends` says that it goes no further after the last."""

    def __init__(self, speed_rpm, least_deg, most_deg, ends):
        self._kept, points = _columns(speed_rpm, least_deg, most_deg)
        self._as_parameter_ = byref(_AdvanceCurve(points, *(address for _, address in self._kept), ends))


def advance_at_speed(curve, rpm):
    """The least and the most that the curve allows; crank degrees."""
    return _doubles("lw_advance_at_speed", 2, curve, c_double(rpm))


def judge_strobe_columns(read_btdc_deg, rpm, uncertainty_deg, printed, rule, curve=None, *, hose, speed_uncertainty_rpm, lamp_delay_us):
    """Judges many strobe readings in one call; a dict of columns, with the points that were judged. Below is
    late, above is early; a refused row has verdict 0 and a status."""
    inputs, rows = _columns(read_btdc_deg, rpm, uncertainty_deg)
    readings = _StrobeColumns(rows, *(address for _, address in inputs), speed_uncertainty_rpm, lamp_delay_us, hose)
    outputs = {name: _empty(rows, kind) for name, kind in _JUDGED.items()}
    ends = {name: _empty(rows, c_double) for name in POINT}
    judgements = _JudgementColumns(rows, *(address for _, address in outputs.values()))
    points = _PointColumns(rows, *(address for _, address in ends.values()))
    given = (byref(readings), curve, byref(printed), byref(_rule(rule)), byref(judgements), byref(points))
    _call("lw_judge_strobe_columns", *given, but=(ROWS_REFUSED,))
    return {name: array for name, (array, _) in {**outputs, **ends}.items()}


def _strobes(columns, hose, speed_uncertainty_rpm, lamp_delay_us):
    inputs, rows = _columns(*columns)
    return inputs, _StrobeColumns(rows, *(address for _, address in inputs), speed_uncertainty_rpm, lamp_delay_us, hose)


def fit_advance_curve(read_btdc_deg, rpm, uncertainty_deg, printed, curve, *, hose, speed_uncertainty_rpm, lamp_delay_us):
    """How this distributor follows its curve: static point, scale and end, each with its uncertainty; NaN for what
    the readings do not tell."""
    kept, readings = _strobes((read_btdc_deg, rpm, uncertainty_deg), hose, speed_uncertainty_rpm, lamp_delay_us)
    fit = CurveFit()
    _call("lw_fit_advance_curve", byref(readings), curve, byref(printed), byref(fit))
    return fit


def weigh_advance_curve(read_btdc_deg, rpm, uncertainty_deg, printed, curve, *, fault, capsule=None, hose, speed_uncertainty_rpm, lamp_delay_us):
    """Why it does not follow its curve: a probability for each of CAUSES, NaN for what these readings could not
    show. `capsule` is what the vacuum capsule gives at idle and its standard uncertainty."""
    kept, readings = _strobes((read_btdc_deg, rpm, uncertainty_deg), hose, speed_uncertainty_rpm, lamp_delay_us)
    prior = _CurvePrior(fault, *(capsule or (0.0, 0.0)), capsule is not None)
    found, count = (c_double * len(CAUSES))(), c_size_t()
    _call("lw_weigh_advance_curve", byref(readings), curve, byref(printed), byref(prior), found, c_size_t(len(found)), byref(count))
    return list(found[:count.value])


def fuel(name):
    """A fuel by its name, such as "E10" or "LPG", or by a formula such as "C8H18"."""
    name = name.encode()
    return _made(Fuel, "lw_parse_fuel", name, c_size_t(len(name)))


def air_fuel_ratio(fuel):
    """The mass of dry air that burns a mass of the fuel."""
    return _doubles("lw_air_fuel_ratio", 1, byref(fuel))


def lambda_of_gas(co2_percent, co_percent, o2_percent, hc_ppm, fuel, *, tester, hydrocarbons, hc_factor=0.0, no_ppm=None):
    """Lambda of one analysis of the exhaust gas, with its uncertainty and what does not fit together."""
    read = (co2_percent, co_percent, o2_percent, hc_ppm, hc_factor, no_ppm or 0.0)
    gas = _ExhaustGas(*read, hydrocarbons, tester, no_ppm is not None)
    return _made(Lambda, "lw_lambda_of_gas", byref(gas), byref(fuel))


def lambda_of_co(co_percent, uncertainty_percent, fuel):
    """Lambda from carbon monoxide alone."""
    return _made(LambdaRange, "lw_lambda_of_co", c_double(co_percent), c_double(uncertainty_percent), byref(fuel))


def _found(kinds, structure, name, rows, *given):
    """Columns that a call fills; a refused row has a status and NaN."""
    outputs = {key: _empty(rows, kind) for key, kind in kinds.items()}
    found = structure(rows, *(address for _, address in outputs.values()))
    _call(name, *given, byref(found), but=(ROWS_REFUSED,))
    return {key: array for key, (array, _) in outputs.items()}


def lambda_of_columns(co2_percent, co_percent, o2_percent, hc_ppm, fuel, *, tester, hydrocarbons, hc_factor=0.0):
    """Lambda of many analyses in one call; a dict of columns, of the contradictions the first."""
    inputs, rows = _columns(co2_percent, co_percent, o2_percent, hc_ppm)
    gas = _GasColumns(rows, *(address for _, address in inputs), hc_factor, hydrocarbons, tester)
    return _found(_LAMBDAS, _LambdaColumns, "lw_lambda_of_columns", rows, byref(gas), byref(fuel))


def density_of_air(barometer_kpa, celsius, *, barometer, pressure_uncertainty_kpa, uncertainty_kelvin, humidity=None, altitude_m=None):
    """How dense the air is by readings. `barometer` is STATION or SEA_LEVEL, which needs the height; `humidity` is
    per cent and their standard uncertainty, None if it was not read."""
    read = (barometer_kpa, pressure_uncertainty_kpa, celsius, uncertainty_kelvin, *(humidity or (0.0, 0.0)), altitude_m or 0.0)
    air = _Air(*read, barometer, altitude_m is not None, humidity is not None)
    return _made(AirDensity, "lw_density_of_air", byref(air))


def density_at_height(altitude_m):
    """How dense the air is by the height alone."""
    return _made(AirDensity, "lw_density_at_height", c_double(altitude_m))


def density_altitude(density_kg_m3):
    """The height in metres at which the standard atmosphere is as dense."""
    return _doubles("lw_density_altitude", 1, c_double(density_kg_m3))


def density_of_columns(pressure_kpa, celsius, humidity_percent, *, pressure_uncertainty_kpa, uncertainty_kelvin, humidity_uncertainty_percent):
    """Densities of many readings in one call, by pressures of the place; a dict of columns."""
    inputs, rows = _columns(pressure_kpa, celsius, humidity_percent)
    u = (pressure_uncertainty_kpa, uncertainty_kelvin, humidity_uncertainty_percent)
    air = _AirColumns(rows, *(address for _, address in inputs), *u)
    return _found(_DENSITIES, _DensityColumns, "lw_density_of_columns", rows, byref(air))


def _idle(turns_out, rpm, screw, scatter_rpm):
    inputs, rows = _columns(turns_out, rpm)
    return inputs, _IdleReadings(rows, *(address for _, address in inputs), scatter_rpm, screw)


def fit_idle_curve(turns_out, rpm, *, screw, scatter_rpm=0.0):
    """Where the mixture screw gives the highest speed, if the readings show that."""
    kept, readings = _idle(turns_out, rpm, screw, scatter_rpm)
    return _made(IdleCrown, "lw_fit_idle_curve", byref(readings))


def idle_beside(turns_out, rpm, side, under_rpm, *, screw, scatter_rpm=0.0):
    """Where the speed is so much under the highest on the LEAN or the RICH side; turns out and their standard
    uncertainty."""
    kept, readings = _idle(turns_out, rpm, screw, scatter_rpm)
    return _doubles("lw_idle_beside", 2, byref(readings), c_uint32(side), c_double(under_rpm))


class Linkage:
    """What moves what: joints (throttle, throttle, what joins them), and the throttle the others are set to; all from 0."""

    def __init__(self, throttles, reference, joints, screws_alike=False):
        self._kept = [_column(column, c_uint32) for column in zip(*joints)]
        made = _Linkage(throttles, len(joints), *(address for _, address in self._kept), reference, screws_alike)
        self.throttles, self.joints, self._as_parameter_ = throttles, len(joints), byref(made)


def balance_throttles(
        linkage, throttle, shown, trials=(), rule=None, *, gauge, scatter=0.0, between_gauges=0.0, allowed=0.0, ambient_kpa=None):
    """Which screws to turn, which way and how far; the whole, columns of throttles, columns of moves in the order of
    work, columns of pairs on one shaft. `trials` are (joint, degrees clockwise, before, after), each with what an unmoved throttle showed before and
    after as well, or none of them."""
    kept = [_column(throttle, c_uint32), _column(shown, c_double)]
    stated = (scatter, between_gauges, allowed, ambient_kpa or 0.0, gauge, ambient_kpa is not None)
    looks = _ThrottleLooks(len(shown), *(address for _, address in kept), *stated)
    columns = [_column(column, c_double if at else c_uint32) for at, column in enumerate(zip(*trials))]
    turns = byref(_TrialTurns(len(trials), *(address for _, address in columns))) if trials else None
    stands = {key: _empty(linkage.throttles, kind) for key, kind in STANDS.items()}
    moves = {key: _empty(linkage.joints, kind) for key, kind in MOVES.items()}
    throttles = _ThrottleColumns(linkage.throttles, *(address for _, address in stands.values()))
    made = _MoveColumns(linkage.joints, *(address for _, address in moves.values()))
    shafts = {key: _empty(linkage.joints, kind) for key, kind in SHAFTS.items()}
    pairs = _ShaftColumns(linkage.joints, *(address for _, address in shafts.values()))
    whole = Balance()
    given = (linkage, byref(looks), turns, byref(_rule(rule)) if rule else None)
    _call("lw_balance_throttles", *given, byref(whole), byref(throttles), byref(made), byref(pairs))
    told = {key: array[:whole.moves] for key, (array, _) in moves.items()}
    paired = {key: array[:whole.shafts] for key, (array, _) in shafts.items()}
    return whole, {key: array for key, (array, _) in stands.items()}, told, paired


class Cranking:
    """An engine that is cranked, and where. `ratio`, `closes_abdc_deg` and `air_kpa` are values with their standard
    uncertainty; without the last two, or without `crank`, what is usual is taken."""

    def __init__(self, ratio, closes_abdc_deg=None, air_kpa=None, crank=None):
        self._kept = crank
        pairs = (*ratio, *(closes_abdc_deg or (0.0, 0.0)), *(air_kpa or (0.0, 0.0)))
        address = ctypes.addressof(crank) if crank else None
        self._as_parameter_ = byref(_Cranking(*pairs, address, closes_abdc_deg is not None, air_kpa is not None))


def expected_compression(engine, exponent_low, exponent_high):
    """What a compression gauge should show of a good cylinder."""
    return _made(Compression, "lw_expected_compression", engine, c_double(exponent_low), c_double(exponent_high))


def implied_exponent(engine, shown_kpa, uncertainty_kpa):
    """The exponent of compression that a reading implies, and its standard uncertainty."""
    return _doubles("lw_implied_exponent", 2, engine, c_double(shown_kpa), c_double(uncertainty_kpa))


def compression_in_other_air(shown_kpa, here_kpa, there_kpa):
    """What the gauge would show in other air, with all else the same; kilopascals."""
    return _doubles("lw_compression_in_other_air", 1, *map(c_double, (shown_kpa, here_kpa, there_kpa)))


def judge_compression(
        dry_kpa, wet_kpa=None, build_up=None, head=None, *, rule=None, engine=None, air_kpa=None, repeat_kpa=0.0, gauge_kpa=None,
        clearances_good=False):
    """Judges the compression of all cylinders: the whole, and columns of cylinders. `wet_kpa` is infinite where it was
    not read, `build_up` 0 where it was not noted; rows with one number in `head` are neighbours under one head. `rule`
    is a kind such as PERCENT_OF_HIGHEST and its number."""
    lists = [(dry_kpa, c_double), (wet_kpa, c_double), (build_up, c_uint32), (head, c_uint32)]
    kept = [(None, None) if values is None else _column(values, kind) for values, kind in lists]
    rows = len(dry_kpa)
    stated = (air_kpa or 0.0, repeat_kpa, gauge_kpa or 0.0, air_kpa is not None, gauge_kpa is not None, clearances_good)
    readings = _CompressionReadings(rows, *(address for _, address in kept), *stated)
    by = byref(_CompressionRule(rule[0], 0, rule[1])) if rule else None
    outputs = {key: _empty(rows, kind) for key, kind in CYLINDERS.items()}
    found = _CylinderColumns(rows, *(address for _, address in outputs.values()))
    verdict = CompressionVerdict()
    _call("lw_judge_compression", byref(readings), engine, by, byref(verdict), byref(found))
    return verdict, {key: array for key, (array, _) in outputs.items()}


def leak_area(tester, shown_kpa, shown_uncertainty_kpa, air_kpa, air_uncertainty_kpa):
    """How large a leak is. Hold the crank before air is let in."""
    given = (shown_kpa, shown_uncertainty_kpa, air_kpa, air_uncertainty_kpa)
    return _made(Leak, "lw_leak_area", byref(tester), *map(c_double, given))


def tester_would_show(tester, area_mm2, air_kpa):
    """What a tester would show of a leak; kilopascals."""
    return _doubles("lw_tester_would_show", 1, byref(tester), c_double(area_mm2), c_double(air_kpa))


def leak_of_columns(tester, shown_kpa, air_kpa, *, shown_uncertainty_kpa, air_uncertainty_kpa):
    """The areas of many leaks in one call; a dict of columns."""
    inputs, rows = _columns(shown_kpa, air_kpa)
    readings = _LeakReadingColumns(rows, *(address for _, address in inputs), shown_uncertainty_kpa, air_uncertainty_kpa)
    return _found(LEAKS, _LeakColumns, "lw_leak_of_columns", rows, byref(tester), byref(readings))


def wrench_setting(adapter, at_bolt):
    """What to set on a wrench with an adapter for a torque at the bolt; newton metres."""
    return _doubles("lw_wrench_setting", 1, byref(adapter), c_double(at_bolt))


def torque_at_bolt(adapter, set_to):
    """What the bolt gets of a torque that is set; newton metres."""
    return _doubles("lw_torque_at_bolt", 1, byref(adapter), c_double(set_to))


def wrench_uncertainty(most, percent, set_to):
    """The standard uncertainty of a torque that is set on a wrench; newton metres."""
    return _doubles("lw_wrench_uncertainty", 1, *map(c_double, (most, percent, set_to)))


def nut_factor(bolt):
    """Torque over force and diameter, from the frictions of thread and head."""
    return _doubles("lw_nut_factor", 1, byref(bolt))


def preload_of_torque(torque, diameter_mm, factor, tightening, stated_percent=0.0):
    """The force along a bolt that a torque in newton metres leaves, with its scatter."""
    numbers = map(c_double, (torque, diameter_mm, factor))
    return _made(Preload, "lw_preload_of_torque", *numbers, c_uint32(tightening), c_double(stated_percent))


class RunningValve:
    """A valve as it runs: its lash and standard uncertainty, the lash or lift (AT_LASH, AT_LIFT) at which the printed
    events hold, the sides of its lobe, and valve movement over cam movement."""

    def __init__(self, lash_mm, lash_uncertainty_mm, holds_at, holds_at_mm, opening, closing, rocker_ratio=1.0):
        self._kept = (opening, closing)
        numbers = (lash_mm, lash_uncertainty_mm, holds_at_mm, rocker_ratio, holds_at)
        self._as_parameter_ = byref(_RunningValve(ctypes.addressof(opening), ctypes.addressof(closing), *numbers))


def events_at_lash(printed_deg, intake, exhaust, *, compression_ratio=None, crank=None):
    """Where the valves open and close at the lash they run with: columns of EVENTS, and the effective compression
    ratio. `printed_deg` are intake opens before top dead centre, closes after bottom, exhaust opens before bottom,
    closes after top dead centre. An end that is not there is infinite."""
    address = ctypes.addressof(crank) if crank else None
    printed = _PrintedEvents(*printed_deg, compression_ratio or 0.0, address, compression_ratio is not None)
    outputs = {key: _empty(len(EVENTS), kind) for key, kind in EVENT_COLUMNS.items()}
    found = _EventColumns(len(EVENTS), *(address for _, address in outputs.values()))
    ratio = EffectiveRatio()
    _call("lw_events_at_lash", byref(printed), intake, exhaust, byref(found), byref(ratio))
    return {key: array for key, (array, _) in outputs.items()}, ratio


class PastReadings:
    """What past services read of valves, one reading a row, in the order of time: when, in the unit of `counted_by`
    (HOURS, DISTANCE, DAYS); both ends in millimetres, infinite where there is none; their standard uncertainty; which
    valve, from 0; FOUND, LEFT_SET or LEFT_RENEWED."""

    def __init__(self, at, low_mm, high_mm, uncertainty_mm, valve=None, state=None, *, counted_by, bedding_in=0.0, scatter_mm=None):
        columns, rows = _columns(at, low_mm, high_mm, uncertainty_mm)
        whole = [(None, None) if c is None else _column(c, kind) for c, kind in ((valve, c_uint32), (state, c_uint8))]
        if any(array is not None and len(array) != rows for array, _ in whole):
            raise ValueError("columns differ in length")
        self._kept = [*columns, *whole]
        addresses = (address for _, address in self._kept)
        stated = (bedding_in, scatter_mm or 0.0, counted_by, scatter_mm is not None)
        self.rows, self._as_parameter_ = rows, byref(_PastReadings(rows, *addresses, *stated))


def drift_of_record(readings, valves, band, rule):
    """How fast the lash of the valves of one kind of one engine changes, and when to look next: the whole, and columns
    of valves; `look` counts in LOOKS."""
    whole = Drift()
    outputs = {key: _empty(valves, kind) for key, kind in VALVE_DRIFTS.items()}
    found = _ValveDriftColumns(valves, *(address for _, address in outputs.values()))
    _call("lw_drift_of_record", readings, c_size_t(valves), byref(band), byref(_rule(rule)), byref(whole), byref(found))
    return whole, {key: array for key, (array, _) in outputs.items()}


def forecast_of_record(readings, valves, at):
    """What the valves will be found at, at a time; a dict of columns."""
    return _found(FORECASTS, _ForecastColumns, "lw_forecast_of_record", valves, readings, c_size_t(valves), c_double(at))


def departures_of_record(readings, valves, valve):
    """How one valve departs from the rate of its kind, with the running sums; a dict of columns."""
    outputs = {key: _empty(readings.rows, kind) for key, kind in DEPARTURES.items()}
    found, count = _DepartureColumns(readings.rows, *(address for _, address in outputs.values())), c_size_t()
    _call("lw_departures_of_record", readings, c_size_t(valves), c_size_t(valve), byref(found), byref(count))
    return {key: array[:count.value] for key, (array, _) in outputs.items()}


def drift_of_columns(readings, valves, band, rule):
    """The drift of many valves, each by itself, in one call; a dict of columns. Rows of a valve stand together."""
    given = (readings, c_size_t(valves), byref(band), byref(_rule(rule)))
    return _found(DRIFTS, _DriftColumns, "lw_drift_of_columns", valves, *given)


class _Handle:
    def __init__(self, name, pointer):
        self._free, self._as_parameter_ = getattr(_library, f"lw_{name}_free"), pointer

    def __del__(self):
        if getattr(self, "_as_parameter_", None):
            self._free(self._as_parameter_)


class Engine(_Handle):
    """An engine whose parts agree. Cylinders count from 1."""

    def __init__(self, firing_order, cycle=FOUR_STROKE, intervals=1, sense=1, seen_from=1, numbering=1,
                 intervals_deg=None, bank_deg=None, crankpin_deg=None):
        order = _column(firing_order, c_uint32)
        lists = [(None, None) if c is None else _column(c, c_double) for c in (intervals_deg, bank_deg, crankpin_deg)]
        parts = _EngineParts(cycle, intervals, sense, seen_from, numbering, len(firing_order), order[1], *(a for _, a in lists))
        super().__init__("engine", _made(c_void_p, "lw_engine_new", byref(parts)))
        self.cylinders = len(firing_order)

    def _offsets(self, name):
        found, count = (c_double * self.cylinders)(), c_size_t()
        _call(name, self, found, c_size_t(self.cylinders), byref(count))
        return list(found)

    def firing_offsets(self):
        return self._offsets("lw_firing_offsets")

    def tdc_offsets(self):
        return self._offsets("lw_tdc_offsets")

    def rotor_angles(self):
        return self._offsets("lw_rotor_angles")

    def companion(self, cylinder):
        return _made(c_uint32, "lw_companion", self, c_uint32(cylinder)).value

    def plan(self, train, method, places=1, start=0):
        """A stop plan; None if the engine has none of that method."""
        numbers = (c_uint32(method), c_uint32(places), c_uint32(start))
        pointer = _made(c_void_p, "lw_plan_new", self, byref(train), *numbers)
        return Plan(pointer) if pointer else None


class Plan(_Handle):
    """A stop plan: `cost`, `stops` (each with its `cues` and `checks`), and `unreachable` valves."""

    def __init__(self, pointer):
        super().__init__("plan", pointer)
        self.cost = _made(PlanCost, "lw_plan_total", self)
        self.stops = [self._stop(i) for i in range(self.cost.stops)]
        self.unreachable = [self._valve("unreachable", i) for i in range(self.cost.unreachable)]

    def _valve(self, what, *indices):
        return _made(ValveCheck, "lw_plan_" + what, self, *map(c_size_t, indices))

    def _stop(self, index):
        stop = _made(Stop, "lw_plan_stop", self, c_size_t(index))
        cues = [self._valve("cue", index, i) for i in range(stop.cues)]
        return stop, cues, [self._valve("check", index, i) for i in range(stop.checks)]
