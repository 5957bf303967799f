/* SPDX-License-Identifier: MIT OR Apache-2.0
 *
 * Written by `cargo xtask header` from bindings/c/src; do not edit.
 *
 * lashwork: computation kernel for the service of older piston engines: valve clearance, ignition, mixture, condition and
 *           what past services say.
 *
 * It computes. The engine maker's manual, local codes and licensed practice come first.
 *
 * RULES OF EVERY CALL
 *
 * Status     Every call that can fail returns an lw_status. Any call may give LW_STATUS_NULL_POINTER,
 *            LW_STATUS_MISALIGNED and LW_STATUS_PANIC; with a structure LW_STATUS_STRUCT_SIZE, with a
 *            choice LW_STATUS_UNKNOWN_VALUE, with text LW_STATUS_NOT_UTF8, with a buffer
 *            LW_STATUS_SHORT_BUFFER, with an index, a cylinder or a length LW_STATUS_OUT_OF_BOUNDS. What
 *            the kernel refuses gives LW_STATUS_REFUSED, and the error's code says what it was.
 *            Outputs are written on LW_STATUS_OK only; the exceptions are the size that a short buffer
 *            needs, and LW_STATUS_ROWS_REFUSED, where every row is written and the refused are marked.
 * Errors     The last parameter of such a call is a place for an lw_error, or NULL if it is not wanted. It
 *            is written on failure only; the caller frees it with lw_error_free. No last error
 *            is kept anywhere.
 * Pointers   May not be NULL unless the call says so; a NULL is refused with a status. Memory of the
 *            caller is used during the call only, except in handles, texts and errors that the call says
 *            it makes. Arrays of one call must not overlap. The last lines of a call's comment state the
 *            caller's obligations; a program that breaks them has undefined behaviour.
 * Structures Begin with struct_size. Set it to the sizeof of the structure, for input and for output:
 *            LW_INIT does. Later releases may add fields at the end; an older program then still works. Fields
 *            that are only written are never read. What is reserved must be zero.
 * Numbers    Units are in the names: _mm, _nm, _mm2, _m, _deg, _turns, _rpm, _celsius, _kelvin, _kpa, _kg_m3, _kn, _newton_m,
 *            _percent, _ppm, _v, _a, _ohm, _mh, _mj, _ms, _us; _btdc_deg counts before top dead centre, negative after it. A
 *            length that is exact by nature (a mark, a limit, a shim) is a whole number of nanometres. Angles, lengths and
 *            temperatures are finite and in range, or refused with the range. NaN is refused.
 * Choices    Are uint32_t in, with the values of the enumeration named there; any other number is refused.
 * Text       In: UTF-8 with its length in bytes, no NUL needed. Out: UTF-8 followed by a NUL. Where the
 *            caller gives a buffer, `needed` gets the bytes that it takes, the NUL included; so a call
 *            with capacity 0 asks for the size.
 * Threads    Any call may be made from any thread. Handles, errors and texts never change once made, and
 *            may be shared; a pointer to const is read, never written. Only one thread may free it, once
 *            nothing uses it any more. The library has no state.
 * Copies     Two builds may be loaded side by side, each with its own names (dlopen with RTLD_LOCAL). A
 *            handle, a text or an error goes back to the one that made it.
 * Panics     A defect inside becomes LW_STATUS_PANIC; it never leaves the library as anything else.
 */

#ifndef LASHWORK_H
#define LASHWORK_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#if defined(__GNUC__)
#define LW_MUST_USE __attribute__((warn_unused_result))
#else
#define LW_MUST_USE
#endif

/** A zeroed structure that states its size: lw_limits limits = LW_INIT(lw_limits); */
#ifdef __cplusplus
template <typename Structure> inline Structure lw_init_structure() {
  Structure made = Structure();
  made.struct_size = sizeof(Structure);
  return made;
}
#define LW_INIT(type) lw_init_structure<type>()
#else
#define LW_INIT(type) { .struct_size = sizeof(type) }
#endif

/** Whether the library that is loaded has the binary interface of this header. */
#define LW_ABI_MATCHES() (lw_abi_version() == LW_ABI_VERSION)

/** The release this header belongs to; the library's own: lw_version(). */
#define LW_VERSION "0.1.0"
#define LW_VERSION_MAJOR 0
#define LW_VERSION_MINOR 1
#define LW_VERSION_PATCH 0


/**
 * Number of the binary interface. It changes when a program built against an older header could no
 * longer work; the shared library carries it in its name.
 */
#define LW_ABI_VERSION 1

/**
 * The outcome of a call. Numbers are never reused.
 */
enum lw_status
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Done; every output is written.
   */
  LW_STATUS_OK = 0,
  /**
   * A pointer that may not be NULL is NULL.
   */
  LW_STATUS_NULL_POINTER = 1,
  /**
   * A pointer is not aligned for what it points to.
   */
  LW_STATUS_MISALIGNED = 2,
  /**
   * The `struct_size` of a structure is not one this library knows.
   */
  LW_STATUS_STRUCT_SIZE = 3,
  /**
   * An integer is not a value of the enumeration it was given for.
   */
  LW_STATUS_UNKNOWN_VALUE = 4,
  /**
   * Text is not UTF-8.
   */
  LW_STATUS_NOT_UTF8 = 5,
  /**
   * A buffer or array is too short; the size it needs was written, nothing else.
   */
  LW_STATUS_SHORT_BUFFER = 6,
  /**
   * An index or a length is beyond the end.
   */
  LW_STATUS_OUT_OF_BOUNDS = 7,
  /**
   * The kernel refuses the values; the error says why, with a code.
   */
  LW_STATUS_REFUSED = 8,
  /**
   * At least one row of a column was refused and is marked; all other rows are done.
   */
  LW_STATUS_ROWS_REFUSED = 9,
  /**
   * A defect of the library, caught inside it; outputs must not be used.
   */
  LW_STATUS_PANIC = 10,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_status lw_status;
#else
typedef uint32_t lw_status;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * Which way to turn the screw, seen from the screwdriver's end.
 */
enum lw_direction
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * In: clockwise with a right-hand thread.
   */
  LW_DIRECTION_IN = 1,
  /**
   * Out.
   */
  LW_DIRECTION_OUT = 2,
  /**
   * Not at all.
   */
  LW_DIRECTION_NONE = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_direction lw_direction;
#else
typedef uint32_t lw_direction;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * A kind of valve.
 */
enum lw_valve_kind
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Intake.
   */
  LW_VALVE_KIND_INTAKE = 1,
  /**
   * Exhaust.
   */
  LW_VALVE_KIND_EXHAUST = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_valve_kind lw_valve_kind;
#else
typedef uint32_t lw_valve_kind;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * How many crank degrees a cycle has.
 */
enum lw_cycle
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * 360 degrees.
   */
  LW_CYCLE_TWO_STROKE = 2,
  /**
   * 720 degrees.
   */
  LW_CYCLE_FOUR_STROKE = 4,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_cycle lw_cycle;
#else
typedef uint32_t lw_cycle;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * Where the firing intervals come from.
 */
enum lw_intervals
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * All equal: even firing.
   */
  LW_INTERVALS_EVEN = 1,
  /**
   * As `intervals_deg` lists them.
   */
  LW_INTERVALS_LISTED = 2,
  /**
   * From `bank_deg` and `crankpin_deg`.
   */
  LW_INTERVALS_FROM_GEOMETRY = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_intervals lw_intervals;
#else
typedef uint32_t lw_intervals;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * Which way round the crank turns, seen from an end.
 */
enum lw_sense
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Clockwise.
   */
  LW_SENSE_CLOCKWISE = 1,
  /**
   * Anticlockwise.
   */
  LW_SENSE_ANTICLOCKWISE = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_sense lw_sense;
#else
typedef uint32_t lw_sense;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * An end of the engine.
 */
enum lw_end
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * The end without the flywheel or propeller.
   */
  LW_END_FREE = 1,
  /**
   * The end that delivers the power.
   */
  LW_END_OUTPUT = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_end lw_end;
#else
typedef uint32_t lw_end;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * From which end the cylinders are counted.
 */
enum lw_numbering
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Cylinder 1 is at the free end.
   */
  LW_NUMBERING_FROM_FREE_END = 1,
  /**
   * Cylinder 1 is at the output end.
   */
  LW_NUMBERING_FROM_OUTPUT_END = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_numbering lw_numbering;
#else
typedef uint32_t lw_numbering;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * How stops are chosen.
 */
enum lw_method
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Each cylinder at its firing top dead centre, in firing order.
   */
  LW_METHOD_CYLINDER_BY_CYLINDER = 1,
  /**
   * Two positions one turn (360 degrees) apart.
   */
  LW_METHOD_TWO_POSITION = 2,
  /**
   * As few stops as the places that can be found allow.
   */
  LW_METHOD_FEWEST_STOPS = 3,
  /**
   * Each cylinder's intake where its exhaust begins to open, its exhaust where its intake has just
   * closed.
   */
  LW_METHOD_OPPOSITE_VALVE = 4,
  /**
   * Each valve while the same kind in the cylinder that fires a turn away is fully open; in engines
   * without such a cylinder, while the one that comes nearest to it is.
   */
  LW_METHOD_FULLY_OPEN_VALVE = 5,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_method lw_method;
#else
typedef uint32_t lw_method;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * Which crank positions can be found.
 */
enum lw_places
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * The firing and overlap top dead centre of each cylinder.
   */
  LW_PLACES_DEAD_CENTRES = 1,
  /**
   * Any angle, with a degree wheel.
   */
  LW_PLACES_ANY_ANGLE = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_places lw_places;
#else
typedef uint32_t lw_places;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * Where printed cam events hold.
 */
enum lw_events_at
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * With the valves set to a lash: the events are where they leave and reach their seats.
   */
  LW_EVENTS_AT_LASH = 1,
  /**
   * With the valves lifted so far off their seats, at the lash the engine runs with.
   */
  LW_EVENTS_AT_LIFT = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_events_at lw_events_at;
#else
typedef uint32_t lw_events_at;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * A unit of length.
 */
enum lw_length_unit
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Millimetre.
   */
  LW_LENGTH_UNIT_MILLIMETRE = 1,
  /**
   * Inch, 25.4 mm exactly.
   */
  LW_LENGTH_UNIT_INCH = 2,
  /**
   * Thousandth of an inch.
   */
  LW_LENGTH_UNIT_THOU = 3,
  /**
   * Micrometre.
   */
  LW_LENGTH_UNIT_MICROMETRE = 4,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_length_unit lw_length_unit;
#else
typedef uint32_t lw_length_unit;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * A unit of temperature.
 */
enum lw_temperature_unit
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Degrees Celsius.
   */
  LW_TEMPERATURE_UNIT_CELSIUS = 1,
  /**
   * Degrees Fahrenheit.
   */
  LW_TEMPERATURE_UNIT_FAHRENHEIT = 2,
  /**
   * Kelvin.
   */
  LW_TEMPERATURE_UNIT_KELVIN = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_temperature_unit lw_temperature_unit;
#else
typedef uint32_t lw_temperature_unit;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * Which ends something has.
 */
enum lw_span
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * From a low value to a high one.
   */
  LW_SPAN_BETWEEN = 1,
  /**
   * From a low value up; the high one is ignored.
   */
  LW_SPAN_AT_LEAST = 2,
  /**
   * Up to a high value; the low one is ignored.
   */
  LW_SPAN_AT_MOST = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_span lw_span;
#else
typedef uint32_t lw_span;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * How certain one must be before a lash is called in the band, below or above it.
 */
enum lw_rule_kind
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Not below when P(below) is 5 % or less, below from 50 %; not above up to 50 %, above beyond: the
   * usual rule for lash, and for lash only.
   */
  LW_RULE_KIND_GUARDED_TIGHT = 1,
  /**
   * Simple acceptance of JCGM 106: each side is accepted up to 50 %.
   */
  LW_RULE_KIND_SIMPLE = 2,
  /**
   * ISO 14253-1: in the band, below, or above when that is 95 % probable.
   */
  LW_RULE_KIND_ISO14253_PART1 = 3,
  /**
   * Each side with the confidence that the rule states.
   */
  LW_RULE_KIND_GUARDED = 4,
  /**
   * Not above when P(above) is 5 % or less, above from 50 %; not below up to 50 %, below beyond: the usual
   * rule for ignition points, where above is early. For those only.
   */
  LW_RULE_KIND_GUARDED_EARLY = 5,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_rule_kind lw_rule_kind;
#else
typedef uint32_t lw_rule_kind;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * The verdict on a lash against limits.
 */
enum lw_verdict
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Nothing: the row was refused.
   */
  LW_VERDICT_REFUSED = 0,
  /**
   * In the band.
   */
  LW_VERDICT_IN_BAND = 1,
  /**
   * Below the band: too little lash (tight); an ignition point that is late.
   */
  LW_VERDICT_BELOW = 2,
  /**
   * Above the band: too much lash (loose); an ignition point that is early.
   */
  LW_VERDICT_ABOVE = 3,
  /**
   * Cannot say: the reading does not decide it under the rule.
   */
  LW_VERDICT_CANNOT_SAY = 4,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_verdict lw_verdict;
#else
typedef uint32_t lw_verdict;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * Where the adjusting screw sits.
 */
enum lw_screw_seat
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * At the valve's end of the rocker.
   */
  LW_SCREW_SEAT_VALVE_SIDE = 1,
  /**
   * At the pushrod's or cam's end of the rocker.
   */
  LW_SCREW_SEAT_CAM_SIDE = 2,
  /**
   * The nut on the stud a rocker pivots on.
   */
  LW_SCREW_SEAT_PIVOT = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_screw_seat lw_screw_seat;
#else
typedef uint32_t lw_screw_seat;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * Which shim of a series to take.
 */
enum lw_shim_rounding
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * The nearest to the wanted one.
   */
  LW_SHIM_ROUNDING_NEAREST = 1,
  /**
   * The nearest that leaves no less lash than wanted.
   */
  LW_SHIM_ROUNDING_NEVER_TIGHTER = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_shim_rounding lw_shim_rounding;
#else
typedef uint32_t lw_shim_rounding;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * A scale of a dwell meter that is not in degrees.
 */
enum lw_meter_scale
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Per cent of the time.
   */
  LW_METER_SCALE_PERCENT = 100,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_meter_scale lw_meter_scale;
#else
typedef uint32_t lw_meter_scale;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * What turns the breaker's cam.
 */
enum lw_cam_speed
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * A distributor or camshaft of a four-stroke: once in two turns of the crank.
   */
  LW_CAM_SPEED_HALF_CRANK = 1,
  /**
   * The crank itself.
   */
  LW_CAM_SPEED_CRANK = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_cam_speed lw_cam_speed;
#else
typedef uint32_t lw_cam_speed;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * Where a mark stands beside the mark for top dead centre of the same cylinder.
 */
enum lw_mark_side
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Ahead of it in the running direction: this mark passes the pointer first.
   */
  LW_MARK_SIDE_AHEAD = 1,
  /**
   * On it.
   */
  LW_MARK_SIDE_ON = 2,
  /**
   * Behind it, against the running direction.
   */
  LW_MARK_SIDE_BEHIND = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_mark_side lw_mark_side;
#else
typedef uint32_t lw_mark_side;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * Which of the two points at which the piston is so far down.
 */
enum lw_tdc_side
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * The one before top dead centre.
   */
  LW_TDC_SIDE_BEFORE = 1,
  /**
   * The one after it.
   */
  LW_TDC_SIDE_AFTER = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_tdc_side lw_tdc_side;
#else
typedef uint32_t lw_tdc_side;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * From when a spark is called weak.
 */
enum lw_weak
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Below this share of the current that flows in the end, above 0 and below 1.
   */
  LW_WEAK_SHARE_OF_CURRENT = 1,
  /**
   * Below this share of the energy that is stored in the end, above 0 and below 1.
   */
  LW_WEAK_SHARE_OF_ENERGY = 2,
  /**
   * Below so many amperes.
   */
  LW_WEAK_CURRENT = 3,
  /**
   * Below so many millijoules.
   */
  LW_WEAK_ENERGY = 4,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_weak lw_weak;
#else
typedef uint32_t lw_weak;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * What became of the vacuum hose while a lamp was read. There is no default: it is worth many degrees.
 */
enum lw_hose
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * The distributor has no vacuum capsule.
   */
  LW_HOSE_NOT_FITTED = 1,
  /**
   * Pulled off at the distributor and plugged.
   */
  LW_HOSE_PLUGGED = 2,
  /**
   * Left on. What the capsule then adds is not known here, so that every row is refused; a document can
   * say it.
   */
  LW_HOSE_CONNECTED = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_hose lw_hose;
#else
typedef uint32_t lw_hose;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * Why a distributor does not follow its curve.
 */
enum lw_curve_cause
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * The body stands wrong; the advance is sound.
   */
  LW_CURVE_CAUSE_STATIC_POINT_OFF = 1,
  /**
   * Springs are weak or stretched: too much advance at a speed.
   */
  LW_CURVE_CAUSE_SPRINGS_WEAK = 2,
  /**
   * Springs are too strong, or the shaft binds: too little.
   */
  LW_CURVE_CAUSE_SPRINGS_STRONG = 3,
  /**
   * Weights or plate stick: erratic, or too little first and then all at once.
   */
  LW_CURVE_CAUSE_WEIGHTS_STICKING = 4,
  /**
   * The advance ends too soon or too late: stop, slot or wrong weights.
   */
  LW_CURVE_CAUSE_END_WRONG = 5,
  /**
   * Some of the advance is out at idle already: right there, short at speed. Turning the body does not cure
   * it.
   */
  LW_CURVE_CAUSE_USED_UP_AT_IDLE = 6,
  /**
   * The static point was set with the vacuum hose connected.
   */
  LW_CURVE_CAUSE_SET_WITH_VACUUM = 7,
  /**
   * The static figure was set with the engine running where the weights were out.
   */
  LW_CURVE_CAUSE_SET_AT_SPEED = 8,
  /**
   * More than one of these, or something not weighed.
   */
  LW_CURVE_CAUSE_SOMETHING_ELSE = 9,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_curve_cause lw_curve_cause;
#else
typedef uint32_t lw_curve_cause;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * The accuracy class on the plate of an exhaust tester, by OIML R 99. There is no default.
 */
enum lw_tester
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Class 00.
   */
  LW_TESTER_CLASS00 = 1,
  /**
   * Class 0.
   */
  LW_TESTER_CLASS0 = 2,
  /**
   * Class I.
   */
  LW_TESTER_CLASS_I = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_tester lw_tester;
#else
typedef uint32_t lw_tester;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * What a tester counts as one hydrocarbon. There is no default: it is worth several hundredths of lambda.
 */
enum lw_hydrocarbons
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Hydrocarbons were not read and are taken as none: the mixture looks leaner than it is.
   */
  LW_HYDROCARBONS_NOT_READ = 1,
  /**
   * Shown as hexane, six atoms of carbon, as testers of garages do.
   */
  LW_HYDROCARBONS_HEXANE = 2,
  /**
   * Shown as hexane, and counted twice, because such testers see about half of what petrol leaves.
   */
  LW_HYDROCARBONS_HEXANE_OF_PETROL = 3,
  /**
   * Shown as propane, three atoms of carbon.
   */
  LW_HYDROCARBONS_PROPANE = 4,
  /**
   * Shown as atoms of carbon, as flame ionisation does.
   */
  LW_HYDROCARBONS_CARBON = 5,
  /**
   * As many atoms of carbon as `hc_factor` says, 1 to 20.
   */
  LW_HYDROCARBONS_STATED = 6,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_hydrocarbons lw_hydrocarbons;
#else
typedef uint32_t lw_hydrocarbons;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * Gases that cannot stand side by side. Each is one bit, so that several can be told in one number.
 */
enum lw_gas_contradiction
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Much oxygen beside much carbon monoxide: one says lean, the other rich.
   */
  LW_GAS_CONTRADICTION_OXYGEN_WITH_CARBON_MONOXIDE = 1,
  /**
   * Much oxygen beside unburnt fuel.
   */
  LW_GAS_CONTRADICTION_OXYGEN_WITH_HYDROCARBONS = 2,
  /**
   * Leaner than a spark lights, and yet burnt.
   */
  LW_GAS_CONTRADICTION_TOO_LEAN_TO_BURN = 4,
  /**
   * Lambda under 0.6 or over 2, where no spark engine runs.
   */
  LW_GAS_CONTRADICTION_BEYOND_RUNNING = 8,
  /**
   * The gases and what goes with them do not make 100 %.
   */
  LW_GAS_CONTRADICTION_TOTAL_OFF = 16,
  /**
   * Another, of a later library.
   */
  LW_GAS_CONTRADICTION_SOMETHING_ELSE = 128,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_gas_contradiction lw_gas_contradiction;
#else
typedef uint32_t lw_gas_contradiction;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * What may be behind gases that do not fit together; 0 stands for nothing.
 */
enum lw_gas_cause
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Air gets in between cylinder and probe.
   */
  LW_GAS_CAUSE_AIR_AT_PROBE = 1,
  /**
   * A cylinder does not fire and sends its charge through.
   */
  LW_GAS_CAUSE_MISSED_FIRING = 2,
  /**
   * Some cylinders are rich, others lean.
   */
  LW_GAS_CAUSE_UNEVEN_CYLINDERS = 3,
  /**
   * The engine blows air into its exhaust by design.
   */
  LW_GAS_CAUSE_AIR_INJECTION = 4,
  /**
   * The tester is off.
   */
  LW_GAS_CAUSE_TESTER_OFF = 5,
  /**
   * The fuel is another one than stated.
   */
  LW_GAS_CAUSE_OTHER_FUEL = 6,
  /**
   * Another, of a later library.
   */
  LW_GAS_CAUSE_SOMETHING_ELSE = 7,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_gas_cause lw_gas_cause;
#else
typedef uint32_t lw_gas_cause;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * What a barometer shows. There is no default: at 1500 m one is a sixth over the other.
 */
enum lw_barometer
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * The pressure of the place: a mercury column, a tester's own sensor.
   */
  LW_BAROMETER_STATION = 1,
  /**
   * Set to read as at sea level: a weather report, an airfield (QNH), a barometer in a living room.
   */
  LW_BAROMETER_SEA_LEVEL = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_barometer lw_barometer;
#else
typedef uint32_t lw_barometer;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * A barometer that does not fit the height it was read at; 0 stands for none.
 */
enum lw_barometer_doubt
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Stated as that of the place, but it seems set to sea level: the air is then reckoned too dense.
   */
  LW_BAROMETER_DOUBT_SET_TO_SEA_LEVEL = 1,
  /**
   * Stated as set to sea level, but it seems to show the pressure of the place.
   */
  LW_BAROMETER_DOUBT_NOT_SET = 2,
  /**
   * It fits neither.
   */
  LW_BAROMETER_DOUBT_FITS_NEITHER = 3,
  /**
   * Another, of a later library.
   */
  LW_BAROMETER_DOUBT_SOMETHING_ELSE = 4,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_barometer_doubt lw_barometer_doubt;
#else
typedef uint32_t lw_barometer_doubt;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * What a mixture screw does. There is no default.
 */
enum lw_mixture_screw
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * It lets in fuel, or mixture: out is richer.
   */
  LW_MIXTURE_SCREW_FUEL = 1,
  /**
   * It lets in air: out is leaner.
   */
  LW_MIXTURE_SCREW_AIR = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_mixture_screw lw_mixture_screw;
#else
typedef uint32_t lw_mixture_screw;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * A side of the place where the speed is highest; 0 stands for neither.
 */
enum lw_mixture_side
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Less fuel.
   */
  LW_MIXTURE_SIDE_LEAN = 1,
  /**
   * More fuel.
   */
  LW_MIXTURE_SIDE_RICH = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_mixture_side lw_mixture_side;
#else
typedef uint32_t lw_mixture_side;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * What the gauge at the throttles shows. There is no default.
 */
enum lw_throttle_gauge
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Vacuum behind the throttle, in kilopascals under the air around: less as it opens.
   */
  LW_THROTTLE_GAUGE_VACUUM = 1,
  /**
   * Air through it, in kilograms an hour: more as it opens.
   */
  LW_THROTTLE_GAUGE_AIR_FLOW = 2,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_throttle_gauge lw_throttle_gauge;
#else
typedef uint32_t lw_throttle_gauge;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * What joins two throttles.
 */
enum lw_joined_by
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * A common shaft: nothing to adjust.
   */
  LW_JOINED_BY_RIGIDLY = 1,
  /**
   * A screw that moves everything beyond it, seen from the reference.
   */
  LW_JOINED_BY_SCREW = 2,
  /**
   * Such a screw, of which it is known that clockwise opens.
   */
  LW_JOINED_BY_SCREW_CLOCKWISE_OPENS = 3,
  /**
   * Such a screw, of which it is known that clockwise closes.
   */
  LW_JOINED_BY_SCREW_CLOCKWISE_CLOSES = 4,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_joined_by lw_joined_by;
#else
typedef uint32_t lw_joined_by;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * Which way throttles go.
 */
enum lw_throttle_way
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Further open.
   */
  LW_THROTTLE_WAY_OPEN = 1,
  /**
   * Further shut.
   */
  LW_THROTTLE_WAY_CLOSE = 2,
  /**
   * Neither.
   */
  LW_THROTTLE_WAY_LEAVE = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_throttle_way lw_throttle_way;
#else
typedef uint32_t lw_throttle_way;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * What to read next; 0 stands for nothing that would tell more.
 */
enum lw_next_reading
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * A throttle once more.
   */
  LW_NEXT_READING_THROTTLE = 1,
  /**
   * The throttles before and after a known turn of a screw, without which there is no amount.
   */
  LW_NEXT_READING_TRIAL = 2,
  /**
   * Such a trial once more.
   */
  LW_NEXT_READING_TRIAL_AGAIN = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_next_reading lw_next_reading;
#else
typedef uint32_t lw_next_reading;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * A printed rule for compression. There is no default: books disagree.
 */
enum lw_compression_rule_kind
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * The lowest cylinder at least so many per cent of the highest, 50 to 100.
   */
  LW_COMPRESSION_RULE_KIND_PERCENT_OF_HIGHEST = 1,
  /**
   * At most so many kilopascals from the lowest to the highest.
   */
  LW_COMPRESSION_RULE_KIND_DIFFERENCE = 2,
  /**
   * Every cylinder at least so many kilopascals, as printed for sea level; it is carried to the air of the place.
   */
  LW_COMPRESSION_RULE_KIND_MINIMUM = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_compression_rule_kind lw_compression_rule_kind;
#else
typedef uint32_t lw_compression_rule_kind;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * How the gauge rose over the strokes.
 */
enum lw_build_up
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * High at the first stroke, and evenly on to its end.
   */
  LW_BUILD_UP_EVEN = 1,
  /**
   * Low at the first stroke, building with each.
   */
  LW_BUILD_UP_LOW_THEN_BUILDS = 2,
  /**
   * Low at the first stroke, and not building.
   */
  LW_BUILD_UP_STAYS_LOW = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_build_up lw_build_up;
#else
typedef uint32_t lw_build_up;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * What to do next about low compression.
 */
enum lw_compression_next
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Crank again, as it should be.
   */
  LW_COMPRESSION_NEXT_CRANK_AGAIN = 1,
  /**
   * Valve clearances: a tight valve alone lowers a cylinder.
   */
  LW_COMPRESSION_NEXT_CLEARANCES = 2,
  /**
   * The low cylinders again with oil.
   */
  LW_COMPRESSION_NEXT_OIL = 3,
  /**
   * Leak-down of the low cylinders.
   */
  LW_COMPRESSION_NEXT_LEAK_DOWN = 4,
  /**
   * Valve timing, since all cylinders are low alike.
   */
  LW_COMPRESSION_NEXT_VALVE_TIMING = 5,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_compression_next lw_compression_next;
#else
typedef uint32_t lw_compression_next;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * How a bolt is tightened, and how far its force then scatters about the middle, in per cent either way.
 */
enum lw_tightening
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * To yield, or by an angle: 5 to 12 %.
   */
  LW_TIGHTENING_YIELD_OR_ANGLE = 1,
  /**
   * By elongation, or hydraulically: 9 to 23 %.
   */
  LW_TIGHTENING_ELONGATION = 2,
  /**
   * By a torque that was found on the joint itself: 17 to 23 %.
   */
  LW_TIGHTENING_TORQUE_TUNED = 3,
  /**
   * By a torque from a friction that was estimated: 23 to 28 %.
   */
  LW_TIGHTENING_TORQUE_ESTIMATED = 4,
  /**
   * By a power driver: 26 to 43 %.
   */
  LW_TIGHTENING_POWER_DRIVER = 5,
  /**
   * By a torque on threads as received: 35 %.
   */
  LW_TIGHTENING_DRY_TORQUE = 6,
  /**
   * By a torque on oiled threads: 25 %.
   */
  LW_TIGHTENING_OILED_TORQUE = 7,
  /**
   * As the call states.
   */
  LW_TIGHTENING_STATED = 8,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_tightening lw_tightening;
#else
typedef uint32_t lw_tightening;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * How the side of a lobe is known where the lash is taken up.
 */
enum lw_flank_kind
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * A ramp; how the flank goes on beyond it is not known.
   */
  LW_FLANK_KIND_RAMP = 1,
  /**
   * A ramp, and the slope of the flank beyond it.
   */
  LW_FLANK_KIND_RAMP_THEN_FLANK = 2,
  /**
   * A slope measured with two leaves at the valve.
   */
  LW_FLANK_KIND_MEASURED = 3,
  /**
   * No ramp: the lobe lifts harmonically.
   */
  LW_FLANK_KIND_HARMONIC = 4,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_flank_kind lw_flank_kind;
#else
typedef uint32_t lw_flank_kind;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * The rows of `lw_event_columns`, in their order.
 */
enum lw_event_row
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Where the intake opens, in degrees before top dead centre.
   */
  LW_EVENT_ROW_INTAKE_OPENS = 0,
  /**
   * Where the intake closes, in degrees after bottom dead centre.
   */
  LW_EVENT_ROW_INTAKE_CLOSES = 1,
  /**
   * Where the exhaust opens, in degrees before bottom dead centre.
   */
  LW_EVENT_ROW_EXHAUST_OPENS = 2,
  /**
   * Where the exhaust closes, in degrees after top dead centre.
   */
  LW_EVENT_ROW_EXHAUST_CLOSES = 3,
  /**
   * For how many degrees the intake is open.
   */
  LW_EVENT_ROW_INTAKE_DURATION = 4,
  /**
   * For how many degrees the exhaust is open.
   */
  LW_EVENT_ROW_EXHAUST_DURATION = 5,
  /**
   * For how many degrees both are open; negative if never.
   */
  LW_EVENT_ROW_OVERLAP = 6,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_event_row lw_event_row;
#else
typedef uint32_t lw_event_row;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * What time is counted by. There is no default.
 */
enum lw_counted_by
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Hours that the engine ran.
   */
  LW_COUNTED_BY_HOURS = 1,
  /**
   * Kilometres.
   */
  LW_COUNTED_BY_DISTANCE = 2,
  /**
   * Whole days since 1 January 1970, negative before.
   */
  LW_COUNTED_BY_DAYS = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_counted_by lw_counted_by;
#else
typedef uint32_t lw_counted_by;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * What a row of past readings is.
 */
enum lw_past_state
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint8_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * As found, before anything was done.
   */
  LW_PAST_STATE_FOUND = 1,
  /**
   * As left after it was set; its parts stayed.
   */
  LW_PAST_STATE_LEFT_SET = 2,
  /**
   * As left after parts were renewed, ground or retorqued, which bed in.
   */
  LW_PAST_STATE_LEFT_RENEWED = 3,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_past_state lw_past_state;
#else
typedef uint8_t lw_past_state;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * When to look at a valve next.
 */
enum lw_look
#if defined(__cplusplus) || __STDC_VERSION__ >= 202311L
  : uint32_t
#endif // defined(__cplusplus) || __STDC_VERSION__ >= 202311L
 {
  /**
   * Nothing: the row was refused.
   */
  LW_LOOK_REFUSED = 0,
  /**
   * The rule does not accept it even now.
   */
  LW_LOOK_NOW = 1,
  /**
   * At the time that is given, at the latest.
   */
  LW_LOOK_AT = 2,
  /**
   * Not before the time that is given, which is as far as is looked ahead.
   */
  LW_LOOK_NOT_BEFORE = 3,
  /**
   * It was not read since it was last set, or from one side only.
   */
  LW_LOOK_NOT_KNOWN = 4,
  /**
   * Fewer readings than a drift takes.
   */
  LW_LOOK_TOO_FEW = 5,
};
#ifndef __cplusplus
#if __STDC_VERSION__ >= 202311L
typedef enum lw_look lw_look;
#else
typedef uint32_t lw_look;
#endif // __STDC_VERSION__ >= 202311L
#endif // __cplusplus

/**
 * An engine whose parts agree. It never changes.
 */
typedef struct lw_engine lw_engine;

/**
 * Why a call was refused. Made by a call that was given a place for it, owned by the caller, who
 * gives it back with `lw_error_free`. It never changes, so threads may share it.
 */
typedef struct lw_error lw_error;

/**
 * A stop plan. It never changes and no longer needs the engine.
 */
typedef struct lw_plan lw_plan;

/**
 * A screw to turn.
 */
typedef struct lw_screw {
  /**
   * Size of this structure, `sizeof(lw_screw)`.
   */
  size_t struct_size;
  /**
   * Pitch of the thread in millimetres, 0.1 to 5; `lw_pitch_per_inch` gives it for an inch thread.
   */
  double pitch_mm;
  /**
   * Rocker ratio: movement of the valve over movement of the cam side, 0.3 to 4; 1 without a rocker.
   */
  double rocker_ratio;
  /**
   * Where it sits: a value of `lw_screw_seat`.
   */
  uint32_t seat;
  /**
   * 1 if turning it in closes the gap, 0 if it opens the gap.
   */
  uint32_t inward_closes;
} lw_screw;

/**
 * How a screw is to be turned.
 */
typedef struct lw_screw_turn {
  /**
   * Size of this structure, `sizeof(lw_screw_turn)`.
   */
  size_t struct_size;
  /**
   * By how many degrees; positive in, negative out.
   */
  double angle_deg;
  /**
   * How far the screw moves, in millimetres; positive closes the gap.
   */
  double travel_mm;
  /**
   * Which way.
   */
  lw_direction direction;
  /**
   * Zero.
   */
  uint32_t reserved;
} lw_screw_turn;

/**
 * A shim to be changed.
 */
typedef struct lw_shim_fit {
  /**
   * Size of this structure, `sizeof(lw_shim_fit)`.
   */
  size_t struct_size;
  /**
   * Thickness of the fitted shim in millimetres, 0.01 to 50.
   */
  double old_mm;
  /**
   * The lash found with it, in millimetres, -20 to 20.
   */
  double measured_mm;
  /**
   * The lash wanted, in millimetres, -20 to 20.
   */
  double target_mm;
  /**
   * Change of lash for a change of shim, 0.1 to 5; 1 for a shim on a bucket.
   */
  double ratio;
} lw_shim_fit;

/**
 * Shim sizes available: from the thinnest to the thickest in equal steps, in whole nanometres.
 */
typedef struct lw_shim_series {
  /**
   * Size of this structure, `sizeof(lw_shim_series)`.
   */
  size_t struct_size;
  /**
   * The thinnest, 10000 (0.01 mm) or more.
   */
  int64_t first_nm;
  /**
   * The thickest, up to 50000000 (50 mm); whole steps from the thinnest.
   */
  int64_t last_nm;
  /**
   * Step from one size to the next, above zero; at most 10000 sizes.
   */
  int64_t step_nm;
} lw_shim_series;

/**
 * A shim that was chosen and what it leads to.
 */
typedef struct lw_shim_choice {
  /**
   * Size of this structure, `sizeof(lw_shim_choice)`.
   */
  size_t struct_size;
  /**
   * The size in whole nanometres.
   */
  int64_t size_nm;
  /**
   * The lash it should give, in millimetres.
   */
  double predicted_lash_mm;
  /**
   * That minus the lash wanted, in millimetres.
   */
  double error_mm;
} lw_shim_choice;

/**
 * Readings by a stroboscopic lamp, one per row; columns as in `lw_reading_columns`.
 */
typedef struct lw_strobe_columns {
  /**
   * Size of this structure, `sizeof(lw_strobe_columns)`.
   */
  size_t struct_size;
  /**
   * How many readings.
   */
  size_t rows;
  /**
   * What the mark shows, in crank degrees before top dead centre, negative after it.
   */
  const double *read_btdc_deg;
  /**
   * Speeds of the crank in turns a minute.
   */
  const double *rpm;
  /**
   * Standard uncertainties of reading the mark in crank degrees, 0 to 90.
   */
  const double *uncertainty_deg;
  /**
   * Standard uncertainty of all speeds in turns a minute, 0 to 1000.
   */
  double speed_uncertainty_rpm;
  /**
   * How long after the spark the lamp flashes, in microseconds, 0 to 1000.
   */
  double lamp_delay_us;
  /**
   * The vacuum hose, for all rows: a value of `lw_hose`.
   */
  uint32_t hose;
  /**
   * Reserved: zero; any other number is refused, so that a later release can use it.
   */
  uint32_t reserved;
} lw_strobe_columns;

/**
 * Centrifugal advance by speed as a book prints it, all at the crank, from the lowest speed up; read in
 * straight lines between the points, and never beyond the last unless the advance ends there.
 */
typedef struct lw_advance_curve {
  /**
   * Size of this structure, `sizeof(lw_advance_curve)`.
   */
  size_t struct_size;
  /**
   * How many points, 1 to 100.
   */
  size_t points;
  /**
   * Speeds of the crank in turns a minute, rising.
   */
  const double *speed_rpm;
  /**
   * The least advance there in crank degrees, from 0, not falling.
   */
  const double *least_deg;
  /**
   * The most, not below the least; may be the same column where one figure is printed.
   */
  const double *most_deg;
  /**
   * 1 if the book says that the advance ends at the last point, else 0.
   */
  uint32_t ends;
  /**
   * Reserved: zero; any other number is refused, so that a later release can use it.
   */
  uint32_t reserved;
} lw_advance_curve;

/**
 * The ignition point as printed, without vacuum. A point on a limit is in the band.
 */
typedef struct lw_printed_timing {
  /**
   * Size of this structure, `sizeof(lw_printed_timing)`.
   */
  size_t struct_size;
  /**
   * Which limits it has: a value of `lw_span`.
   */
  uint32_t span;
  /**
   * Reserved: zero; any other number is refused, so that a later release can use it.
   */
  uint32_t reserved;
  /**
   * The latest point in crank degrees before top dead centre, negative after it; ignored if there is none.
   */
  double lower_btdc_deg;
  /**
   * The earliest point; ignored if there is none.
   */
  double upper_btdc_deg;
  /**
   * The crank speed that the figure is printed for, in turns a minute; 0 for the standing engine.
   */
  double printed_rpm;
} lw_printed_timing;

/**
 * The curve as this distributor follows it: `static + min(scale x table, end)`, by least squares. What the
 * readings do not tell is NaN.
 */
typedef struct lw_curve_fit {
  /**
   * Size of this structure, `sizeof(lw_curve_fit)`.
   */
  size_t struct_size;
  /**
   * The static point in crank degrees before top dead centre, negative after it.
   */
  double static_btdc_deg;
  /**
   * Its standard uncertainty in crank degrees, with what all readings share.
   */
  double static_uncertainty_deg;
  /**
   * How many times the printed advance it has on the rise: above 1 for springs that give way too much.
   */
  double scale;
  /**
   * Its standard uncertainty.
   */
  double scale_uncertainty;
  /**
   * The advance where it ends, in crank degrees over the static point.
   */
  double end_deg;
  /**
   * Its standard uncertainty in crank degrees.
   */
  double end_uncertainty_deg;
  /**
   * Scatter of the readings over their uncertainties.
   */
  double scatter;
  /**
   * Readings more than the fit needs.
   */
  size_t degrees_of_freedom;
} lw_curve_fit;

/**
 * What is known before the readings. There is no default.
 */
typedef struct lw_curve_prior {
  /**
   * Size of this structure, `sizeof(lw_curve_prior)`.
   */
  size_t struct_size;
  /**
   * Probability of any fault of the advance, above 0 and below 1.
   */
  double fault;
  /**
   * What the vacuum capsule gives at idle in crank degrees; ignored if it is not known.
   */
  double capsule_deg;
  /**
   * Its standard uncertainty in crank degrees, 0 or more; ignored if it is not known.
   */
  double capsule_uncertainty_deg;
  /**
   * 1 if it is known what the capsule gives, else 0.
   */
  uint32_t capsule_known;
  /**
   * Reserved: zero; any other number is refused, so that a later release can use it.
   */
  uint32_t reserved;
} lw_curve_prior;

/**
 * Readings of the air.
 */
typedef struct lw_air {
  /**
   * Size of this structure, `sizeof(lw_air)`.
   */
  size_t struct_size;
  /**
   * What the barometer shows, in kilopascals.
   */
  double barometer_kpa;
  /**
   * Standard uncertainty of the pressure of the place in kilopascals, 0 or more.
   */
  double pressure_uncertainty_kpa;
  /**
   * Temperature where the engine breathes, in degrees Celsius, -60 to 80.
   */
  double celsius;
  /**
   * Its standard uncertainty in kelvin, 0 or more.
   */
  double uncertainty_kelvin;
  /**
   * Relative humidity in per cent; ignored if it was not read.
   */
  double humidity_percent;
  /**
   * Its standard uncertainty in per cent; ignored if it was not read.
   */
  double humidity_uncertainty_percent;
  /**
   * Height over the sea in metres; ignored if it is not known.
   */
  double altitude_m;
  /**
   * What the barometer shows: a value of `lw_barometer`.
   */
  uint32_t barometer;
  /**
   * 1 if the height is known, else 0; a barometer set to sea level is then refused.
   */
  uint32_t altitude_known;
  /**
   * 1 if the humidity was read, else 0; anything from none to 100 % is then left open.
   */
  uint32_t humidity_read;
  /**
   * Reserved: zero; any other number is refused, so that a later release can use it.
   */
  uint32_t reserved;
} lw_air;

/**
 * How dense the air is.
 */
typedef struct lw_air_density {
  /**
   * Size of this structure, `sizeof(lw_air_density)`.
   */
  size_t struct_size;
  /**
   * Density from this, in kilograms a cubic metre.
   */
  double low_kg_m3;
  /**
   * To this; the same where the humidity was read.
   */
  double high_kg_m3;
  /**
   * Standard uncertainty of both.
   */
  double uncertainty_kg_m3;
  /**
   * The middle over the density of the standard atmosphere at sea level.
   */
  double ratio;
  /**
   * Density altitude: the height in metres at which the standard atmosphere is as dense; NaN outside -1524 to
   * 6096 m.
   */
  double altitude_m;
  /**
   * Pressure of the place in kilopascals.
   */
  double station_kpa;
  /**
   * What is doubtful about the barometer: a value of `lw_barometer_doubt`, or 0.
   */
  uint32_t doubt;
  /**
   * 1 if the formula was published for such air, else 0: it is then off by less than a thousandth.
   */
  uint32_t as_published;
} lw_air_density;

/**
 * What moves what: joints between throttles, as a tree. Throttles and joints count from 0 here; the texts of errors
 * count from 1. A throttle with a stop screw of its own, joined to nothing, is joined to the reference by that screw.
 */
typedef struct lw_linkage {
  /**
   * Size of this structure, `sizeof(lw_linkage)`.
   */
  size_t struct_size;
  /**
   * How many throttles, 2 to 12.
   */
  size_t throttles;
  /**
   * How many joints: one fewer.
   */
  size_t joints;
  /**
   * The throttle on one side of each joint.
   */
  const uint32_t *one;
  /**
   * The throttle on its other side.
   */
  const uint32_t *other;
  /**
   * What joins them: values of `lw_joined_by`.
   */
  const uint32_t *joined_by;
  /**
   * The throttle to which the others are set: the one that has no screw of its own.
   */
  uint32_t reference;
  /**
   * 1 if a turn of any screw does as much as one of any other, so that a trial of one serves all; else 0.
   */
  uint32_t screws_alike;
} lw_linkage;

/**
 * What the gauge showed each time somebody looked, all at one speed of the engine, in any order.
 */
typedef struct lw_throttle_looks {
  /**
   * Size of this structure, `sizeof(lw_throttle_looks)`.
   */
  size_t struct_size;
  /**
   * How many looks.
   */
  size_t rows;
  /**
   * At which throttle, from 0.
   */
  const uint32_t *throttle;
  /**
   * What it showed, in the unit of `gauge`.
   */
  const double *shown;
  /**
   * Standard deviation of a single look; 0 if it is to be seen from repeated looks.
   */
  double scatter;
  /**
   * Standard deviation from gauge to gauge where each throttle has its own; 0 if one gauge was moved.
   */
  double between_gauges;
  /**
   * By how much the greatest may be over the least; 0 if no book says it, and nothing is then judged.
   */
  double allowed;
  /**
   * Pressure of the air around in kilopascals; ignored if it is not known.
   */
  double ambient_kpa;
  /**
   * What the gauge shows: a value of `lw_throttle_gauge`.
   */
  uint32_t gauge;
  /**
   * 1 if the pressure of the air around is known, else 0: that of the standard atmosphere at sea level is then taken.
   */
  uint32_t ambient_known;
} lw_throttle_looks;

/**
 * Screws turned by a known amount, and what the gauge showed before and after.
 */
typedef struct lw_trial_turns {
  /**
   * Size of this structure, `sizeof(lw_trial_turns)`.
   */
  size_t struct_size;
  /**
   * How many trials; 0 if nothing was tried.
   */
  size_t rows;
  /**
   * Which screw, by its joint from 0.
   */
  const uint32_t *joint;
  /**
   * How far it was turned in degrees, positive clockwise.
   */
  const double *turn_deg;
  /**
   * What a throttle beyond it showed before.
   */
  const double *before;
  /**
   * What the same throttle showed after.
   */
  const double *after;
  /**
   * What a throttle that does not move showed before; NULL if none was read.
   */
  const double *unmoved_before;
  /**
   * What that one showed after; NULL if none was read.
   */
  const double *unmoved_after;
} lw_trial_turns;

/**
 * A decision rule. There is no default: it is the caller's choice.
 */
typedef struct lw_rule {
  /**
   * Size of this structure, `sizeof(lw_rule)`.
   */
  size_t struct_size;
  /**
   * Which rule: a value of `lw_rule_kind`.
   */
  uint32_t kind;
  /**
   * Reserved: zero; any other number is refused, so that a later release can use it.
   */
  uint32_t reserved;
  /**
   * For `LW_RULE_KIND_GUARDED`: how certain "not below" must be, 0.5 (no guard) up to below 1; other
   * rules ignore it.
   */
  double below_confidence;
  /**
   * For `LW_RULE_KIND_GUARDED`: how certain "not above" must be, 0.5 (no guard) up to below 1; other
   * rules ignore it.
   */
  double above_confidence;
} lw_rule;

/**
 * What a balance comes to, as a whole. Readings and differences are in the unit of the gauge.
 */
typedef struct lw_balance {
  /**
   * Size of this structure, `sizeof(lw_balance)`.
   */
  size_t struct_size;
  /**
   * How many moves were written.
   */
  size_t moves;
  /**
   * How far the greatest mean is over the least.
   */
  double spread;
  /**
   * Standard deviation of a single look, as it was taken.
   */
  double scatter;
  /**
   * On how many repeated looks that rests; NaN if it was stated.
   */
  double degrees_of_freedom;
  /**
   * The probability that greatest less least is within what is allowed; NaN if nothing was stated.
   */
  double within;
  /**
   * The doubt of all turns together now, in degrees; NaN if the next reading is none or a first trial.
   */
  double doubt_deg;
  /**
   * And after the next reading.
   */
  double then_deg;
  /**
   * The verdict on greatest less least: a value of `lw_verdict`; 0 if nothing was stated.
   */
  uint32_t verdict;
  /**
   * What to read next: a value of `lw_next_reading`, or 0.
   */
  uint32_t next;
  /**
   * The throttle to read, or the joint of the screw to try, from 0; 0 if it is nothing.
   */
  uint32_t next_index;
  /**
   * How many pairs of throttles on one shaft there are.
   */
  uint32_t shafts;
} lw_balance;

/**
 * Where the throttles go as they stand, one per row, in their order. Every column may be NULL.
 */
typedef struct lw_throttle_columns {
  /**
   * Size of this structure, `sizeof(lw_throttle_columns)`.
   */
  size_t struct_size;
  /**
   * How many rows there is room for, in every column; not fewer than throttles.
   */
  size_t rows;
  /**
   * Mean readings.
   */
  double *reading;
  /**
   * Their standard uncertainties.
   */
  double *uncertainty;
  /**
   * How far each is over the reference.
   */
  double *over_reference;
  /**
   * Standard uncertainties of that; 0 for the reference itself.
   */
  double *over_uncertainty;
  /**
   * Whether that is within what is allowed: values of `lw_verdict`; 0 for the reference, or if nothing was stated.
   */
  uint8_t *verdict;
} lw_throttle_columns;

/**
 * Where it goes what each screw has to do, one per row, in the order of work: from the reference outwards. Every
 * column except `joint` may be NULL.
 */
typedef struct lw_move_columns {
  /**
   * Size of this structure, `sizeof(lw_move_columns)`.
   */
  size_t struct_size;
  /**
   * How many rows there is room for, in every column; not fewer than joints.
   */
  size_t rows;
  /**
   * The screw, by its joint from 0.
   */
  uint32_t *joint;
  /**
   * The throttle to which it sets those beyond, from 0.
   */
  uint32_t *to_match;
  /**
   * By how much their readings have to change.
   */
  double *change;
  /**
   * Standard uncertainties of that.
   */
  double *change_uncertainty;
  /**
   * Which way the throttles go: values of `lw_throttle_way`.
   */
  uint32_t *way;
  /**
   * The probability that this way is the right one.
   */
  double *way_right;
  /**
   * Which way the screw goes: values of `lw_sense`; 0 where that is not known.
   */
  uint32_t *sense;
  /**
   * How far, in degrees, positive clockwise; NaN without clear trials.
   */
  double *turn_deg;
  /**
   * Standard uncertainties of that, in degrees.
   */
  double *turn_uncertainty_deg;
  /**
   * Change of the reading for a whole turn clockwise, from trials; NaN without.
   */
  double *per_turn;
  /**
   * Standard uncertainties of that.
   */
  double *per_turn_uncertainty;
} lw_move_columns;

/**
 * Where the pairs of throttles on one shaft go, one per row, from the reference outwards: no screw of the linkage
 * mends what they differ by. Every column except `joint` may be NULL.
 */
typedef struct lw_shaft_columns {
  /**
   * Size of this structure, `sizeof(lw_shaft_columns)`.
   */
  size_t struct_size;
  /**
   * How many rows there is room for, in every column; not fewer than joints.
   */
  size_t rows;
  /**
   * Their joint, from 0.
   */
  uint32_t *joint;
  /**
   * How far the throttle that is further from the reference reads over the other.
   */
  double *difference;
  /**
   * Standard uncertainties of that.
   */
  double *difference_uncertainty;
  /**
   * Whether that is within what is allowed: values of `lw_verdict`; 0 if nothing was stated.
   */
  uint8_t *verdict;
} lw_shaft_columns;

/**
 * A contact gap and the dwell that a book prints for it, over so many lobes.
 */
typedef struct lw_gap_and_dwell {
  /**
   * Size of this structure, `sizeof(lw_gap_and_dwell)`.
   */
  size_t struct_size;
  /**
   * The gap in millimetres, 0.1 to 1 unless it is stated to be unusual.
   */
  double gap_mm;
  /**
   * Its standard uncertainty in millimetres, 0 to 1: the band, the rounding.
   */
  double gap_uncertainty_mm;
  /**
   * The dwell in degrees of the cam, above 0 and below 360 over the lobes.
   */
  double dwell_deg;
  /**
   * Its standard uncertainty in degrees, 0 to 90.
   */
  double dwell_uncertainty_deg;
  /**
   * Lobes of the cam, 1 to 12.
   */
  uint32_t lobes;
  /**
   * 1 if the book is stated to print a gap outside 0.1 to 1 mm, else 0.
   */
  uint32_t unusual_gap;
} lw_gap_and_dwell;

/**
 * The primary circuit of a coil and the breaker that closes it.
 */
typedef struct lw_primary_circuit {
  /**
   * Size of this structure, `sizeof(lw_primary_circuit)`.
   */
  size_t struct_size;
  /**
   * Voltage across coil, ballast and leads with the contacts closed, above 0.
   */
  double supply_v;
  /**
   * Its standard uncertainty in volts, 0 or more.
   */
  double supply_uncertainty_v;
  /**
   * Resistance of all of them together, as warm as they run, in ohms.
   */
  double resistance_ohm;
  /**
   * Its standard uncertainty in ohms, 0 or more.
   */
  double resistance_uncertainty_ohm;
  /**
   * Inductance of the primary winding in millihenries.
   */
  double inductance_mh;
  /**
   * Its standard uncertainty in millihenries, 0 or more.
   */
  double inductance_uncertainty_mh;
  /**
   * Dwell in degrees of the cam, above 0 and below 360 over the lobes.
   */
  double dwell_deg;
  /**
   * Its standard uncertainty in degrees, 0 to 90.
   */
  double dwell_uncertainty_deg;
  /**
   * Lobes of the cam, 1 to 12.
   */
  uint32_t lobes;
  /**
   * What turns the cam: a value of `lw_cam_speed`.
   */
  uint32_t cam;
} lw_primary_circuit;

/**
 * What a coil holds when the contacts open. The inductance is taken as constant.
 */
typedef struct lw_charge {
  /**
   * Size of this structure, `sizeof(lw_charge)`.
   */
  size_t struct_size;
  /**
   * How long the contacts were closed, in milliseconds.
   */
  double closed_ms;
  /**
   * The current in amperes.
   */
  double current_a;
  /**
   * Its standard uncertainty in amperes.
   */
  double current_uncertainty_a;
  /**
   * The energy in millijoules.
   */
  double energy_mj;
  /**
   * Its standard uncertainty in millijoules.
   */
  double energy_uncertainty_mj;
  /**
   * The current over what it would be in the end, 0 to 1.
   */
  double share_of_current;
  /**
   * The energy over what it would be in the end, 0 to 1.
   */
  double share_of_energy;
} lw_charge;

/**
 * How the lash of a valve follows temperature, and the temperature of the engine when it was read.
 */
typedef struct lw_warmth {
  /**
   * Size of this structure, `sizeof(lw_warmth)`.
   */
  size_t struct_size;
  /**
   * Change of lash in millimetres per kelvin; positive if the gap opens as the engine warms. Finite;
   * the change it leads to is -40 to 40 mm.
   */
  double mm_per_kelvin;
  /**
   * Standard uncertainty of that, 0 or more.
   */
  double mm_per_kelvin_uncertainty;
  /**
   * Temperature of the engine when read, degrees Celsius, -273.15 to 2000.
   */
  double at_celsius;
  /**
   * Standard uncertainty of that in kelvin, 0 to 2500.
   */
  double at_uncertainty_kelvin;
  /**
   * Reference temperature of the specification, degrees Celsius, -273.15 to 2000.
   */
  double reference_celsius;
} lw_warmth;

/**
 * Readings, one per row. A column is a contiguous array of `rows` items: a later release can add a
 * column at the end of the structure, so the size of a row never changes. With no rows the columns are
 * ignored and may be NULL.
 *
 * The columns from `lower_mm` on may be NULL. Where `warmth` and all columns of temperature and coefficient
 * are NULL, the ends are taken to be the lash at the temperature for which the limits hold.
 */
typedef struct lw_reading_columns {
  /**
   * Size of this structure, `sizeof(lw_reading_columns)`.
   */
  size_t struct_size;
  /**
   * How many readings.
   */
  size_t rows;
  /**
   * Lower ends in millimetres, as `low_mm` of `lw_estimate`; minus infinity where there is none.
   */
  const double *low_mm;
  /**
   * Upper ends in millimetres, as `high_mm` of `lw_estimate`; infinity where there is none.
   */
  const double *high_mm;
  /**
   * Standard uncertainties of the ends in millimetres, 0 to 40.
   */
  const double *uncertainty_mm;
  /**
   * Lower limits in millimetres, -10000 to 10000, instead of the one of all rows; infinite or NaN where there
   * is none.
   */
  const double *lower_mm;
  /**
   * Upper limits, likewise. A row needs one of the two.
   */
  const double *upper_mm;
  /**
   * Temperatures of the metal as `at_celsius` of `lw_warmth`, instead of the one of all rows; NaN where it
   * was not taken.
   */
  const double *at_celsius;
  /**
   * As `at_uncertainty_kelvin` of `lw_warmth`.
   */
  const double *at_uncertainty_kelvin;
  /**
   * As `reference_celsius` of `lw_warmth`. Of limits for a cold engine, with no temperature printed, 20; and
   * 10 K over the root of three goes into the uncertainty of the temperature, as the root of the sum of
   * squares.
   */
  const double *reference_celsius;
  /**
   * As `mm_per_kelvin` of `lw_warmth`; NaN where nothing says how the lash follows.
   */
  const double *mm_per_kelvin;
  /**
   * As `mm_per_kelvin_uncertainty` of `lw_warmth`.
   */
  const double *mm_per_kelvin_uncertainty;
  /**
   * What holds for all rows, where its column is NULL. NULL: not known.
   */
  const struct lw_warmth *warmth;
} lw_reading_columns;

/**
 * A band of lash as printed. A lash on a limit is in the band.
 */
typedef struct lw_limits {
  /**
   * Size of this structure, `sizeof(lw_limits)`.
   */
  size_t struct_size;
  /**
   * Which limits it has: a value of `lw_span`.
   */
  uint32_t span;
  /**
   * Reserved: zero; any other number is refused, so that a later release can use it.
   */
  uint32_t reserved;
  /**
   * The lower limit in whole nanometres, up to ten metres either way; ignored if there is none.
   */
  int64_t lower_nm;
  /**
   * The upper limit in whole nanometres, not below the lower; ignored if there is none.
   */
  int64_t upper_nm;
} lw_limits;

/**
 * Where the verdicts go, one per row. Every column except `verdict` may be NULL; with no rows, that one
 * too.
 */
typedef struct lw_judgement_columns {
  /**
   * Size of this structure, `sizeof(lw_judgement_columns)`.
   */
  size_t struct_size;
  /**
   * How many rows there is room for, in every column.
   */
  size_t rows;
  /**
   * Values of `lw_verdict`; `LW_VERDICT_REFUSED` for a refused row.
   */
  uint8_t *verdict;
  /**
   * As `provable` of `lw_judgement`; 0 for a refused row.
   */
  uint8_t *provable;
  /**
   * As `below_least` of `lw_judgement`; NaN for a refused row, like all probabilities.
   */
  double *below_least;
  /**
   * As `below_most` of `lw_judgement`.
   */
  double *below_most;
  /**
   * As `in_band_least`.
   */
  double *in_band_least;
  /**
   * As `in_band_most`.
   */
  double *in_band_most;
  /**
   * As `above_least`.
   */
  double *above_least;
  /**
   * As `above_most`.
   */
  double *above_most;
  /**
   * Values of `lw_status`: `LW_STATUS_OK`, or why the row was refused.
   */
  uint32_t *status;
  /**
   * Lower ends at the temperature for which the limits hold, in millimetres; minus infinity where there is
   * none, NaN for a refused row. This and what follows is of readings of lash: `lw_judge_columns` alone
   * writes it.
   */
  double *low_mm;
  /**
   * Upper ends, likewise.
   */
  double *high_mm;
  /**
   * Standard uncertainties of these ends, in millimetres.
   */
  double *uncertainty_mm;
  /**
   * 1 where the ends hold at the temperature for which the limits do; else 0: nothing says how the lash
   * follows, the uncertainty has what that may do to it, and the verdict is `LW_VERDICT_CANNOT_SAY`, as
   * with `lw_warmth_not_known`. 0 for a refused row.
   */
  uint8_t *at_reference;
} lw_judgement_columns;

/**
 * Crank, rod and piston pin of one cylinder.
 */
typedef struct lw_slider_crank {
  /**
   * Size of this structure, `sizeof(lw_slider_crank)`.
   */
  size_t struct_size;
  /**
   * Half the stroke without an offset, in millimetres, above 0 to 2500.
   */
  double crank_radius_mm;
  /**
   * Rod between centres in millimetres, longer than radius and offset together, to 10000.
   */
  double rod_mm;
  /**
   * Offset of the pin or the bore in millimetres, positive toward the side the crankpin moves to from
   * 0 to 180 degrees.
   */
  double offset_mm;
} lw_slider_crank;

/**
 * An engine that is cranked, and where.
 */
typedef struct lw_cranking {
  /**
   * Size of this structure, `sizeof(lw_cranking)`.
   */
  size_t struct_size;
  /**
   * The printed compression ratio, 3 to 25.
   */
  double ratio;
  /**
   * Its standard uncertainty: skimmed heads, carbon.
   */
  double ratio_uncertainty;
  /**
   * Where the intake closes at the running lash, in degrees after bottom dead centre; of a two-stroke, where the
   * exhaust port closes. Ignored if it is not known.
   */
  double intake_closes_abdc_deg;
  /**
   * Its standard uncertainty in degrees; ignored if it is not known.
   */
  double closes_uncertainty_deg;
  /**
   * Pressure of the place in kilopascals, not that of a barometer set to sea level; ignored if it is not known.
   */
  double air_kpa;
  /**
   * Its standard uncertainty in kilopascals; ignored if it is not known.
   */
  double air_uncertainty_kpa;
  /**
   * Crank and rod; NULL for the usual proportion of 1 to 3.5.
   */
  const struct lw_slider_crank *crank;
  /**
   * 1 if it is known where the intake closes, else 0: 30 to 70 degrees are then taken.
   */
  uint32_t closes_known;
  /**
   * 1 if the pressure of the place is known, else 0: that of sea level is then taken.
   */
  uint32_t air_known;
} lw_cranking;

/**
 * What a gauge should show.
 */
typedef struct lw_compression {
  /**
   * Size of this structure, `sizeof(lw_compression)`.
   */
  size_t struct_size;
  /**
   * With the lower exponent, in kilopascals over the air around.
   */
  double low_kpa;
  /**
   * With the upper exponent.
   */
  double high_kpa;
  /**
   * Standard uncertainty of both ends in kilopascals: ratio, closing and air.
   */
  double uncertainty_kpa;
  /**
   * How many times the charge is compressed from where the intake closes.
   */
  double effective_ratio;
} lw_compression;

/**
 * What a gauge showed of each cylinder; columns as in `lw_reading_columns`. Cylinders are rows, and count from 0.
 */
typedef struct lw_compression_readings {
  /**
   * Size of this structure, `sizeof(lw_compression_readings)`.
   */
  size_t struct_size;
  /**
   * How many cylinders.
   */
  size_t rows;
  /**
   * Without oil, in kilopascals over the air around.
   */
  const double *dry_kpa;
  /**
   * With oil on the piston; infinity where it was not read so; NULL if none was.
   */
  const double *wet_kpa;
  /**
   * How the gauge rose, dry: values of `lw_build_up`, 0 where that was not noted; NULL if it was for none.
   */
  const uint32_t *build_up;
  /**
   * Under which head each cylinder stands, any numbers; rows of one number are neighbours in their order, and
   * share its gasket. NULL for heads of their own.
   */
  const uint32_t *head;
  /**
   * Pressure of the place in kilopascals; ignored if it is not known, and where an engine is given.
   */
  double air_kpa;
  /**
   * Standard deviation between two readings of one cylinder, in kilopascals; 0 if not stated: 15 is then taken.
   */
  double repeat_kpa;
  /**
   * That of the gauge itself, the same for all; ignored if it is not stated.
   */
  double gauge_kpa;
  /**
   * 1 if the pressure of the place is known, else 0: that of sea level is then taken.
   */
  uint32_t air_known;
  /**
   * 1 if the gauge's own is stated, else 0: 20 kilopascals are then taken.
   */
  uint32_t gauge_known;
  /**
   * 1 if the valve clearances are known to be within their limits, else 0.
   */
  uint32_t clearances_good;
  /**
   * Reserved: zero; any other number is refused, so that a later release can use it.
   */
  uint32_t reserved;
} lw_compression_readings;

/**
 * A printed rule.
 */
typedef struct lw_compression_rule {
  /**
   * Size of this structure, `sizeof(lw_compression_rule)`.
   */
  size_t struct_size;
  /**
   * Which rule: a value of `lw_compression_rule_kind`.
   */
  uint32_t kind;
  /**
   * Reserved: zero; any other number is refused, so that a later release can use it.
   */
  uint32_t reserved;
  /**
   * Its number, in the unit of the kind.
   */
  double number;
} lw_compression_rule;

/**
 * What the readings say of the engine.
 */
typedef struct lw_compression_verdict {
  /**
   * Size of this structure, `sizeof(lw_compression_verdict)`.
   */
  size_t struct_size;
  /**
   * The least that a cylinder may show here by the rule, in kilopascals; NaN without a rule.
   */
  double limit_kpa;
  /**
   * The probability that no cylinder is under it; NaN without a rule.
   */
  double within;
  /**
   * What the good cylinders show, in kilopascals; NaN if none is.
   */
  double standard_kpa;
  /**
   * Its standard uncertainty; NaN likewise.
   */
  double standard_uncertainty_kpa;
  /**
   * The exponent of compression that they imply; NaN without an engine.
   */
  double exponent;
  /**
   * Its standard uncertainty; NaN without an engine.
   */
  double exponent_uncertainty;
  /**
   * The verdict on the engine by the rule: a value of `lw_verdict`; 0 without a rule.
   */
  uint32_t verdict;
  /**
   * What to do next: a value of `lw_compression_next`; 0 if every cylinder is sound.
   */
  uint32_t next;
} lw_compression_verdict;

/**
 * Where the cylinders go, one per row. Every column except `share` may be NULL.
 */
typedef struct lw_cylinder_columns {
  /**
   * Size of this structure, `sizeof(lw_cylinder_columns)`.
   */
  size_t struct_size;
  /**
   * How many rows there is room for, in every column.
   */
  size_t rows;
  /**
   * What it shows over what it should show by the good cylinders beside it; NaN if there is none. So is all that
   * follows from it.
   */
  double *share;
  /**
   * Its standard uncertainty.
   */
  double *share_uncertainty;
  /**
   * What it should show, in kilopascals.
   */
  double *expected_kpa;
  /**
   * Its standard uncertainty in kilopascals.
   */
  double *expected_uncertainty_kpa;
  /**
   * The probability that it is within the rule; NaN without a rule.
   */
  double *within;
  /**
   * The verdict by the rule: values of `lw_verdict`; 0 without a rule.
   */
  uint8_t *verdict;
  /**
   * How probable it is that nothing is wrong with it. The shares of causes are not calibrated.
   */
  double *sound;
  /**
   * Rings, piston or bore.
   */
  double *rings;
  /**
   * A valve that does not close.
   */
  double *valve;
  /**
   * The head gasket to a neighbour.
   */
  double *gasket;
  /**
   * Something that is not weighed here.
   */
  double *something_else;
} lw_cylinder_columns;

/**
 * Text made by the library: `len` bytes of UTF-8 at `data`, followed by a NUL that `len` does not
 * count. Owned by the caller, who gives it back with `lw_text_free`. Text of the library holds no
 * other NUL; a JSON answer escapes it.
 */
typedef struct lw_text {
  /**
   * The first byte; NULL after `lw_text_free`.
   */
  char *data;
  /**
   * The number of bytes before the NUL.
   */
  size_t len;
} lw_text;

/**
 * What was read of valves over the years, one reading per row, in the order of time; rows of one time are one service.
 * A setting begins a new line at the same rate.
 */
typedef struct lw_past_readings {
  /**
   * Size of this structure, `sizeof(lw_past_readings)`.
   */
  size_t struct_size;
  /**
   * How many rows.
   */
  size_t rows;
  /**
   * When, in the unit of `counted_by`.
   */
  const double *at;
  /**
   * Lower ends in millimetres; minus infinity where there is none. A row as left that has neither end was set, but
   * not read.
   */
  const double *low_mm;
  /**
   * Upper ends in millimetres; infinity where there is none.
   */
  const double *high_mm;
  /**
   * Standard uncertainties of the ends in millimetres, 0 to 40.
   */
  const double *uncertainty_mm;
  /**
   * Which valve, from 0; NULL if all are of one.
   */
  const uint32_t *valve;
  /**
   * Values of `lw_past_state`; NULL if all were found.
   */
  const uint8_t *state;
  /**
   * How long new parts bed in, in the unit of `counted_by`; 0 if it is not known: up to the first reading after
   * them.
   */
  double bedding_in;
  /**
   * How far readings of one state scatter from service to service, in millimetres, besides what they state; ignored
   * if it is not known.
   */
  double scatter_mm;
  /**
   * What time is counted by: a value of `lw_counted_by`.
   */
  uint32_t counted_by;
  /**
   * 1 if the scatter is known, else 0: it is then seen from the readings.
   */
  uint32_t scatter_known;
} lw_past_readings;

/**
 * The drift of all the valves together, odd ones left out. Rates are millimetres in a unit of the count, negative
 * where the lash closes; with too few readings they are NaN.
 */
typedef struct lw_drift {
  /**
   * Size of this structure, `sizeof(lw_drift)`.
   */
  size_t struct_size;
  /**
   * The rate, as likely passed as not.
   */
  double rate;
  /**
   * Its standard uncertainty; of very few readings it may be large beside the interval.
   */
  double rate_uncertainty;
  /**
   * The rate is above this with 97.5 %.
   */
  double rate_low;
  /**
   * The rate is below this with 97.5 %.
   */
  double rate_high;
  /**
   * How far readings scatter about the lines, in millimetres, besides what they state.
   */
  double scatter_mm;
  /**
   * How far the rates of the valves lie apart, as a standard deviation.
   */
  double spread;
  /**
   * Readings that it lacks, at other times without a setting between; 0 if there are enough.
   */
  size_t lacking;
} lw_drift;

/**
 * Where the valves go, one per row. Every column except `look` may be NULL.
 */
typedef struct lw_valve_drift_columns {
  /**
   * Size of this structure, `sizeof(lw_valve_drift_columns)`.
   */
  size_t struct_size;
  /**
   * How many rows there is room for, in every column.
   */
  size_t rows;
  /**
   * The rate of each valve, as `rate` of `lw_drift`.
   */
  double *rate;
  /**
   * Its standard uncertainty.
   */
  double *rate_uncertainty;
  /**
   * As `rate_low`.
   */
  double *rate_low;
  /**
   * As `rate_high`.
   */
  double *rate_high;
  /**
   * When to look next: values of `lw_look`.
   */
  uint8_t *look;
  /**
   * The time that goes with it; NaN where none does.
   */
  double *look_at;
  /**
   * How many times more probable its readings are if it moves unlike its mates; NaN with too few mates.
   */
  double *odd_evidence;
  /**
   * How many times it takes to say so; NaN likewise.
   */
  double *odd_needed;
} lw_valve_drift_columns;

/**
 * Where the drifts go, one valve per row. Every column except `look` may be NULL; with no valves, that one too.
 */
typedef struct lw_drift_columns {
  /**
   * Size of this structure, `sizeof(lw_drift_columns)`.
   */
  size_t struct_size;
  /**
   * How many rows there is room for, in every column.
   */
  size_t rows;
  /**
   * As `rate` of `lw_drift`; NaN for a refused row, and with too few readings.
   */
  double *rate;
  /**
   * Its standard uncertainty; NaN likewise.
   */
  double *rate_uncertainty;
  /**
   * When to look next: values of `lw_look`; `LW_LOOK_REFUSED` for a refused row.
   */
  uint8_t *look;
  /**
   * The time that goes with it; NaN where none does.
   */
  double *look_at;
  /**
   * Values of `lw_status`: `LW_STATUS_OK`, or why the valve was refused.
   */
  uint32_t *status;
} lw_drift_columns;

/**
 * What an engine is made from. Cylinders are numbered from 1; cylinder n has place n - 1 in every array
 * except `firing_order` and `intervals_deg`, which run in the order of firing.
 */
typedef struct lw_engine_parts {
  /**
   * Size of this structure, `sizeof(lw_engine_parts)`.
   */
  size_t struct_size;
  /**
   * A value of `lw_cycle`.
   */
  uint32_t cycle;
  /**
   * A value of `lw_intervals`.
   */
  uint32_t intervals;
  /**
   * A value of `lw_sense`.
   */
  uint32_t sense;
  /**
   * The end it is seen from: a value of `lw_end`.
   */
  uint32_t seen_from;
  /**
   * A value of `lw_numbering`.
   */
  uint32_t numbering;
  /**
   * How many cylinders, 1 to 64.
   */
  uint32_t cylinders;
  /**
   * `cylinders` cylinder numbers, in the order in which they fire.
   */
  const uint32_t *firing_order;
  /**
   * `cylinders` crank angles from each firing to the next, the last back to the first, in degrees,
   * each above 0 and together one cycle; NULL unless they are listed.
   */
  const double *intervals_deg;
  /**
   * `cylinders` directions of the bores round the crank axis in degrees, in the running direction;
   * NULL if not known. Given together with `crankpin_deg`; they must agree with the intervals.
   */
  const double *bank_deg;
  /**
   * `cylinders` directions of the crankpins in degrees, in the running direction; NULL if not known.
   */
  const double *crankpin_deg;
} lw_engine_parts;

/**
 * What is known of a lash: it lies between two values, or on one side of one, and those are known with
 * a normal standard uncertainty.
 */
typedef struct lw_estimate {
  /**
   * Size of this structure, `sizeof(lw_estimate)`.
   */
  size_t struct_size;
  /**
   * Which ends it has: a value of `lw_span`.
   */
  uint32_t span;
  /**
   * Reserved: zero; any other number is refused, so that a later release can use it.
   */
  uint32_t reserved;
  /**
   * The lower end in millimetres, -20 to 20; ignored if there is none.
   */
  double low_mm;
  /**
   * The upper end in millimetres, -20 to 20, not below the lower; ignored if there is none.
   */
  double high_mm;
  /**
   * Standard uncertainty of the ends in millimetres, 0 to 40.
   */
  double uncertainty_mm;
} lw_estimate;

/**
 * Where what will be found goes, one valve per row. Every column except `found_mm` may be NULL. NaN where nothing is
 * said of a valve.
 */
typedef struct lw_forecast_columns {
  /**
   * Size of this structure, `sizeof(lw_forecast_columns)`.
   */
  size_t struct_size;
  /**
   * How many rows there is room for, in every column.
   */
  size_t rows;
  /**
   * Where a reading will be, in millimetres: as likely below as above.
   */
  double *found_mm;
  /**
   * Standard uncertainty of it, with the scatter from service to service, but without what a leaf adds.
   */
  double *found_uncertainty_mm;
  /**
   * It is above this with 97.5 %.
   */
  double *found_low_mm;
  /**
   * It is below this with 97.5 %.
   */
  double *found_high_mm;
  /**
   * Where the line itself is.
   */
  double *line_mm;
  /**
   * Standard uncertainty of that.
   */
  double *line_uncertainty_mm;
} lw_forecast_columns;

/**
 * Where departures of one valve go, in the order of time. Every column except `off` may be NULL.
 */
typedef struct lw_departure_columns {
  /**
   * Size of this structure, `sizeof(lw_departure_columns)`.
   */
  size_t struct_size;
  /**
   * How many rows there is room for, in every column; there are never more than rows of readings.
   */
  size_t rows;
  /**
   * When it was read.
   */
  double *at;
  /**
   * How far it is off what its kind does since the reading before, in standard deviations.
   */
  double *off;
  /**
   * Running sum above.
   */
  double *above;
  /**
   * Running sum below.
   */
  double *below;
} lw_departure_columns;

/**
 * A fuel by the atoms of other elements for each atom of carbon. `lw_parse_fuel` fills it for a name.
 */
typedef struct lw_fuel {
  /**
   * Size of this structure, `sizeof(lw_fuel)`.
   */
  size_t struct_size;
  /**
   * Atoms of hydrogen, 0 to 4.
   */
  double hydrogen;
  /**
   * Atoms of oxygen, 0 to 2.
   */
  double oxygen;
  /**
   * Atoms of nitrogen, 0 to 2.
   */
  double nitrogen;
} lw_fuel;

/**
 * An adapter between the drive of a torque wrench and the bolt.
 */
typedef struct lw_adapter {
  /**
   * Size of this structure, `sizeof(lw_adapter)`.
   */
  size_t struct_size;
  /**
   * From the wrench's drive to the middle of its grip, in millimetres, 80 to 3000.
   */
  double wrench_mm;
  /**
   * From the drive to the bolt, in millimetres, 0 to 1000.
   */
  double adapter_mm;
  /**
   * How far the adapter is turned out of the wrench's line, in degrees: 0 straight on, 90 square, 180 folded back.
   */
  double turned_deg;
} lw_adapter;

/**
 * A bolt's thread and head, and their friction.
 */
typedef struct lw_bolt_friction {
  /**
   * Size of this structure, `sizeof(lw_bolt_friction)`.
   */
  size_t struct_size;
  /**
   * Nominal diameter in millimetres, 2 to 100.
   */
  double diameter_mm;
  /**
   * Pitch of the thread in millimetres.
   */
  double pitch_mm;
  /**
   * Middle diameter in millimetres of what bears under the head or the nut.
   */
  double bearing_mm;
  /**
   * Friction in the thread, 0.02 to 0.5.
   */
  double thread;
  /**
   * Friction under the head, 0.02 to 0.5.
   */
  double head;
} lw_bolt_friction;

/**
 * The force along a bolt that a torque leaves.
 */
typedef struct lw_preload {
  /**
   * Size of this structure, `sizeof(lw_preload)`.
   */
  size_t struct_size;
  /**
   * The least by the scatter, in kilonewtons.
   */
  double least_kn;
  /**
   * By the torque and the nut factor, in kilonewtons.
   */
  double middle_kn;
  /**
   * The most by the scatter, in kilonewtons.
   */
  double most_kn;
  /**
   * How far it scatters either way, in per cent: the least that is published.
   */
  double scatter_from_percent;
  /**
   * The most that is published, which the ends above are for.
   */
  double scatter_to_percent;
} lw_preload;

/**
 * Steady speeds at places of the mixture screw, in any order; throttle stop untouched, engine warm.
 */
typedef struct lw_idle_readings {
  /**
   * Size of this structure, `sizeof(lw_idle_readings)`.
   */
  size_t struct_size;
  /**
   * How many, 4 to 24, at 3 different places or more.
   */
  size_t rows;
  /**
   * Turns out from where the screw seats lightly, 0 to 100.
   */
  const double *turns_out;
  /**
   * Speeds of the crank in turns a minute, above 0.
   */
  const double *rpm;
  /**
   * Standard deviation of a single speed in turns a minute; 0 if it is to be seen from the readings.
   */
  double scatter_rpm;
  /**
   * What the screw does: a value of `lw_mixture_screw`.
   */
  uint32_t screw;
  /**
   * Reserved: zero; any other number is refused, so that a later release can use it.
   */
  uint32_t reserved;
} lw_idle_readings;

/**
 * The top of the parabola through the readings. Where they do not show it, `seen` is 0 and its numbers are NaN.
 */
typedef struct lw_idle_crown {
  /**
   * Size of this structure, `sizeof(lw_idle_crown)`.
   */
  size_t struct_size;
  /**
   * Where the speed is highest, in turns out.
   */
  double best_turns;
  /**
   * Its standard uncertainty in turns.
   */
  double best_uncertainty_turns;
  /**
   * With 95 % it is from here.
   */
  double from_turns;
  /**
   * To here.
   */
  double to_turns;
  /**
   * The speed there in turns a minute.
   */
  double speed_rpm;
  /**
   * Its standard uncertainty in turns a minute.
   */
  double speed_uncertainty_rpm;
  /**
   * How lopsided the readings are: the cubic coefficient over its standard uncertainty; NaN if there are too few
   * to tell.
   */
  double lopsided;
  /**
   * 1 if they are clearly more lopsided than a parabola, with 95 %, else 0: the best place may then be off by more
   * than is stated; read closer to it.
   */
  uint32_t clearly_lopsided;
  /**
   * 1 if the readings show where the speed is highest, else 0.
   */
  uint32_t seen;
  /**
   * If they do not: the side on which it still rises, a value of `lw_mixture_side`, or 0 if they do not show that
   * either.
   */
  uint32_t rises_toward;
  /**
   * Zero.
   */
  uint32_t reserved;
} lw_idle_crown;

/**
 * A dial gauge in the plug hole, at rest on the crown and set to nought at top dead centre.
 */
typedef struct lw_dial {
  /**
   * Size of this structure, `sizeof(lw_dial)`.
   */
  size_t struct_size;
  /**
   * Standard uncertainty of what it shows in millimetres, 0 to 1.
   */
  double uncertainty_mm;
  /**
   * How far the plug hole leans from the bore, in degrees, 0 to 60.
   */
  double plug_hole_deg;
} lw_dial;

/**
 * A verdict and what it rests on. A probability is at least `_least` and at most `_most`; for an
 * estimate with two ends they are equal.
 */
typedef struct lw_judgement {
  /**
   * Size of this structure, `sizeof(lw_judgement)`.
   */
  size_t struct_size;
  /**
   * The verdict: a value of `lw_verdict`.
   */
  uint32_t verdict;
  /**
   * 1; or 0 when the uncertainty is so large that no reading could be accepted under the rule.
   */
  uint32_t provable;
  /**
   * Least probability to lie below the lower limit, 0 to 1.
   */
  double below_least;
  /**
   * The greatest.
   */
  double below_most;
  /**
   * Least probability to lie in the band, 0 to 1.
   */
  double in_band_least;
  /**
   * The greatest.
   */
  double in_band_most;
  /**
   * Least probability to lie above the upper limit, 0 to 1.
   */
  double above_least;
  /**
   * The greatest.
   */
  double above_most;
} lw_judgement;

/**
 * One analysis of dry exhaust gas, as the tester shows it.
 */
typedef struct lw_exhaust_gas {
  /**
   * Size of this structure, `sizeof(lw_exhaust_gas)`.
   */
  size_t struct_size;
  /**
   * Carbon dioxide in per cent by volume, above 0 to 16.5.
   */
  double co2_percent;
  /**
   * Carbon monoxide in per cent.
   */
  double co_percent;
  /**
   * Oxygen in per cent, 0 to 20.95.
   */
  double o2_percent;
  /**
   * Hydrocarbons in ppm; ignored if they were not read.
   */
  double hc_ppm;
  /**
   * Atoms of carbon for each of them; ignored unless `hydrocarbons` says that it is stated.
   */
  double hc_factor;
  /**
   * Nitric oxide in ppm; ignored if it was not read.
   */
  double no_ppm;
  /**
   * What was counted as one of the hydrocarbons: a value of `lw_hydrocarbons`.
   */
  uint32_t hydrocarbons;
  /**
   * Class of the tester: a value of `lw_tester`.
   */
  uint32_t tester;
  /**
   * 1 if nitric oxide was read, else 0; it is then taken as none.
   */
  uint32_t no_read;
  /**
   * Reserved: zero; any other number is refused, so that a later release can use it.
   */
  uint32_t reserved;
} lw_exhaust_gas;

/**
 * Lambda of one analysis, with what speaks against it.
 */
typedef struct lw_lambda {
  /**
   * Size of this structure, `sizeof(lw_lambda)`.
   */
  size_t struct_size;
  /**
   * Lambda by Brettschneider's balance of atoms. It is the engine's mixture only if `contradictions` is 0.
   */
  double lambda;
  /**
   * Its standard uncertainty, from the class of the tester.
   */
  double uncertainty;
  /**
   * Lambda by Spindt; NaN for a fuel with much oxygen, of which that formula knows nothing.
   */
  double spindt;
  /**
   * Lambda times the air-fuel ratio that burns this fuel, by mass.
   */
  double air_fuel_ratio;
  /**
   * If air at the probe may be behind it: the least lambda of the mixture before that air; else NaN.
   */
  double behind_air_low;
  /**
   * The most lambda of it; NaN if it is not known.
   */
  double behind_air_high;
  /**
   * What does not fit: the sum of values of `lw_gas_contradiction`; 0 if all does.
   */
  uint32_t contradictions;
  /**
   * What the gases speak for most as the cause of the first of them: a value of `lw_gas_cause`, or 0.
   */
  uint32_t cause;
} lw_lambda;

/**
 * Lambda from carbon monoxide alone.
 */
typedef struct lw_lambda_range {
  /**
   * Size of this structure, `sizeof(lw_lambda_range)`.
   */
  size_t struct_size;
  /**
   * Which ends it has: a value of `lw_span`; at least, where there is little carbon monoxide.
   */
  uint32_t span;
  /**
   * Zero.
   */
  uint32_t reserved;
  /**
   * The lower end, of a burn that leaves hydrocarbons.
   */
  double low;
  /**
   * The upper end, of a burn that leaves oxygen; NaN if there is none.
   */
  double high;
  /**
   * Standard uncertainty of the ends.
   */
  double uncertainty;
  /**
   * Lambda with neither left.
   */
  double burnt_out;
  /**
   * Carbon dioxide that goes with it, in per cent.
   */
  double co2_percent;
} lw_lambda_range;

/**
 * A leak-down tester: a regulator, an orifice, and a gauge on the cylinder behind it.
 */
typedef struct lw_leak_tester {
  /**
   * Size of this structure, `sizeof(lw_leak_tester)`.
   */
  size_t struct_size;
  /**
   * What the regulator shows, in kilopascals over the air around, 100 to 1500.
   */
  double supply_kpa;
  /**
   * Its standard uncertainty in kilopascals.
   */
  double supply_uncertainty_kpa;
  /**
   * Diameter of the orifice in millimetres, 0.2 to 6.
   */
  double orifice_mm;
  /**
   * Its standard uncertainty in millimetres.
   */
  double orifice_uncertainty_mm;
} lw_leak_tester;

/**
 * How large a leak is.
 */
typedef struct lw_leak {
  /**
   * Size of this structure, `sizeof(lw_leak)`.
   */
  size_t struct_size;
  /**
   * The area through which the cylinder leaks, in square millimetres: what may be compared and kept.
   */
  double area_mm2;
  /**
   * Its standard uncertainty.
   */
  double uncertainty_mm2;
  /**
   * Diameter of one round hole as large, in millimetres.
   */
  double hole_mm;
  /**
   * Area over that of the tester's orifice.
   */
  double over_orifice;
  /**
   * Part of the supply that this tester shows as lost, in per cent; another shows another.
   */
  double percent_lost;
  /**
   * 1 if the flow through the orifice is choked, else 0.
   */
  uint32_t orifice_choked;
  /**
   * 1 if the flow through the leak is choked, else 0.
   */
  uint32_t leak_choked;
} lw_leak;

/**
 * Readings with one tester, one per row, each in the air of its day; columns as in `lw_reading_columns`.
 */
typedef struct lw_leak_reading_columns {
  /**
   * Size of this structure, `sizeof(lw_leak_reading_columns)`.
   */
  size_t struct_size;
  /**
   * How many readings.
   */
  size_t rows;
  /**
   * What stood in the cylinder, in kilopascals over the air around.
   */
  const double *shown_kpa;
  /**
   * Pressure of the air around in kilopascals, 30 to 110.
   */
  const double *air_kpa;
  /**
   * Standard uncertainty of all that is shown, in kilopascals.
   */
  double shown_uncertainty_kpa;
  /**
   * Standard uncertainty of all pressures of the air, in kilopascals.
   */
  double air_uncertainty_kpa;
} lw_leak_reading_columns;

/**
 * Where the areas go, one per row. Every column except `area_mm2` may be NULL; with no rows, that one too.
 */
typedef struct lw_leak_columns {
  /**
   * Size of this structure, `sizeof(lw_leak_columns)`.
   */
  size_t struct_size;
  /**
   * How many rows there is room for, in every column.
   */
  size_t rows;
  /**
   * As `area_mm2` of `lw_leak`; NaN for a refused row.
   */
  double *area_mm2;
  /**
   * Its standard uncertainty; NaN for a refused row.
   */
  double *uncertainty_mm2;
  /**
   * As `hole_mm` of `lw_leak`; NaN for a refused row.
   */
  double *hole_mm;
  /**
   * Values of `lw_status`: `LW_STATUS_OK`, or why the row was refused.
   */
  uint32_t *status;
} lw_leak_columns;

/**
 * Analyses by one tester on one fuel, one per row; columns as in `lw_reading_columns`.
 */
typedef struct lw_gas_columns {
  /**
   * Size of this structure, `sizeof(lw_gas_columns)`.
   */
  size_t struct_size;
  /**
   * How many analyses.
   */
  size_t rows;
  /**
   * Carbon dioxide in per cent, as `co2_percent` of `lw_exhaust_gas`.
   */
  const double *co2_percent;
  /**
   * Carbon monoxide in per cent.
   */
  const double *co_percent;
  /**
   * Oxygen in per cent.
   */
  const double *o2_percent;
  /**
   * Hydrocarbons in ppm.
   */
  const double *hc_ppm;
  /**
   * As `hc_factor` of `lw_exhaust_gas`, for all rows.
   */
  double hc_factor;
  /**
   * What was counted as one of the hydrocarbons, for all rows: a value of `lw_hydrocarbons`; in columns they
   * must have been read.
   */
  uint32_t hydrocarbons;
  /**
   * Class of the tester: a value of `lw_tester`.
   */
  uint32_t tester;
} lw_gas_columns;

/**
 * Where lambda goes, one per row. Every column except `lambda` may be NULL; with no rows, that one too.
 */
typedef struct lw_lambda_columns {
  /**
   * Size of this structure, `sizeof(lw_lambda_columns)`.
   */
  size_t struct_size;
  /**
   * How many rows there is room for, in every column.
   */
  size_t rows;
  /**
   * As `lambda` of `lw_lambda`; NaN for a refused row.
   */
  double *lambda;
  /**
   * Its standard uncertainty; NaN for a refused row.
   */
  double *uncertainty;
  /**
   * The first thing that does not fit: a value of `lw_gas_contradiction`; 0 if all does.
   */
  uint8_t *contradiction;
  /**
   * Values of `lw_status`: `LW_STATUS_OK`, or why the row was refused.
   */
  uint32_t *status;
} lw_lambda_columns;

/**
 * Readings of the air with the same instruments, one per row; columns as in `lw_reading_columns`.
 */
typedef struct lw_air_columns {
  /**
   * Size of this structure, `sizeof(lw_air_columns)`.
   */
  size_t struct_size;
  /**
   * How many readings.
   */
  size_t rows;
  /**
   * Pressure of the place in kilopascals, not that of a barometer set to sea level.
   */
  const double *pressure_kpa;
  /**
   * Temperature in degrees Celsius.
   */
  const double *celsius;
  /**
   * Relative humidity in per cent.
   */
  const double *humidity_percent;
  /**
   * Standard uncertainty of all pressures in kilopascals.
   */
  double pressure_uncertainty_kpa;
  /**
   * Standard uncertainty of all temperatures in kelvin.
   */
  double uncertainty_kelvin;
  /**
   * Standard uncertainty of all humidities in per cent.
   */
  double humidity_uncertainty_percent;
} lw_air_columns;

/**
 * Where the densities go, one per row. Every column except `density_kg_m3` may be NULL; with no rows, that one
 * too.
 */
typedef struct lw_density_columns {
  /**
   * Size of this structure, `sizeof(lw_density_columns)`.
   */
  size_t struct_size;
  /**
   * How many rows there is room for, in every column.
   */
  size_t rows;
  /**
   * Density in kilograms a cubic metre; NaN for a refused row.
   */
  double *density_kg_m3;
  /**
   * Its standard uncertainty; NaN for a refused row.
   */
  double *uncertainty_kg_m3;
  /**
   * As `altitude_m` of `lw_air_density`; NaN for a refused row as well.
   */
  double *altitude_m;
  /**
   * Values of `lw_status`: `LW_STATUS_OK`, or why the row was refused.
   */
  uint32_t *status;
} lw_density_columns;

/**
 * Valves and cam events as a manual prints them, in crank degrees, -60 to 120; an event on the other
 * side of dead centre is negative.
 *
 * A valve with a large lash leaves its seat late and is back early: printed for a larger lash than the
 * engine runs with, or for a lift, events say less of the base circle than they seem to. What the last
 * fields state is worked out as in a document with `events.at`; all of them zero, the events are taken
 * as there without it: every valve is off its base circle 25 degrees longer at both ends.
 */
typedef struct lw_valve_train {
  /**
   * Size of this structure, `sizeof(lw_valve_train)`.
   */
  size_t struct_size;
  /**
   * Intake opens before top dead centre.
   */
  double intake_opens_btdc_deg;
  /**
   * Intake closes after bottom dead centre.
   */
  double intake_closes_abdc_deg;
  /**
   * Exhaust opens before bottom dead centre.
   */
  double exhaust_opens_bbdc_deg;
  /**
   * Exhaust closes after top dead centre.
   */
  double exhaust_closes_atdc_deg;
  /**
   * Guard: how far from the events the cam ramps reach, 0 to 180.
   */
  double guard_deg;
  /**
   * Intake valves of a cylinder, 1 to 4.
   */
  uint32_t intake_per_cylinder;
  /**
   * Exhaust valves of a cylinder, 1 to 4.
   */
  uint32_t exhaust_per_cylinder;
  /**
   * Where the events hold: a value of `lw_events_at`; 0 if it is not stated.
   */
  uint32_t events_at;
  /**
   * Zero.
   */
  uint32_t reserved;
  /**
   * The lash or lift at which they hold, in millimetres, up to a quarter of the greatest lift.
   */
  double events_at_mm;
  /**
   * The greatest lift of the valves in millimetres, 1 to 60; 0 if it is not known: 8 is then taken.
   */
  double greatest_lift_mm;
  /**
   * The lash with which the intake valves run, in millimetres; where books differ, the least. With 0 a
   * valve is off its base circle longest.
   */
  double running_intake_mm;
  /**
   * The same of the exhaust valves.
   */
  double running_exhaust_mm;
} lw_valve_train;

/**
 * What a plan costs.
 */
typedef struct lw_plan_cost {
  /**
   * Size of this structure, `sizeof(lw_plan_cost)`.
   */
  size_t struct_size;
  /**
   * How many stops.
   */
  size_t stops;
  /**
   * Changes from one side of the engine to the other.
   */
  size_t walks;
  /**
   * Valves that cannot be checked at any stop, because their cams leave no arc to read them.
   */
  size_t unreachable;
  /**
   * Crank degrees from the first stop to the last, all forward. Of the fewest stops it is the least
   * that leaves as much margin as can be had, of which 30 degrees are enough.
   */
  double total_turn_deg;
} lw_plan_cost;

/**
 * One stop.
 */
typedef struct lw_stop {
  /**
   * Size of this structure, `sizeof(lw_stop)`.
   */
  size_t struct_size;
  /**
   * Crank degrees after firing top dead centre of the first cylinder in the firing order.
   */
  double position_deg;
  /**
   * Crank degrees to turn forward from the stop before; 0 at the first.
   */
  double turn_deg;
  /**
   * The valves to check here.
   */
  size_t checks;
  /**
   * The valves whose own movement shows that the stop is reached.
   */
  size_t cues;
  /**
   * The cylinder whose firing top dead centre this is, from 1; 0 if there is none. Both its valves are
   * shut and slack.
   */
  uint32_t firing_tdc_of;
  /**
   * The cylinder whose overlap top dead centre this is, from 1; 0 if there is none. Its valves rock.
   */
  uint32_t overlap_tdc_of;
  /**
   * Crank degrees by which the crank may be short of the stop with every valve to check still inside
   * its arc.
   */
  double may_be_off_before_deg;
  /**
   * The same past the stop.
   */
  double may_be_off_after_deg;
} lw_stop;

/**
 * One valve, and how far the crank is from the end of the arc in which it may be read.
 */
typedef struct lw_valve_check {
  /**
   * Size of this structure, `sizeof(lw_valve_check)`.
   */
  size_t struct_size;
  /**
   * Cylinder, from 1.
   */
  uint32_t cylinder;
  /**
   * Intake or exhaust: a value of `lw_valve_kind`.
   */
  lw_valve_kind kind;
  /**
   * Which of its kind at that cylinder, from 1; 0 in a cue, where all of the kind move.
   */
  uint32_t number;
  /**
   * Zero.
   */
  uint32_t reserved;
  /**
   * Crank degrees to the nearer end of its arc, the guard left out; 0 in a cue and for a valve that
   * cannot be checked at any stop.
   */
  double margin_deg;
} lw_valve_check;

/**
 * An exact length as it was written: a mark on a leaf, a printed limit, a shim.
 */
typedef struct lw_mark {
  /**
   * Size of this structure, `sizeof(lw_mark)`.
   */
  size_t struct_size;
  /**
   * The length in whole nanometres, up to ten metres either way.
   */
  int64_t nanometres;
  /**
   * The unit it was written in: a value of `lw_length_unit`.
   */
  uint32_t unit;
  /**
   * How many decimals it was written with, 0 to 9.
   */
  uint32_t decimals;
} lw_mark;

/**
 * Events as printed.
 */
typedef struct lw_printed_events {
  /**
   * Size of this structure, `sizeof(lw_printed_events)`.
   */
  size_t struct_size;
  /**
   * Intake opens, degrees before top dead centre.
   */
  double intake_opens_btdc_deg;
  /**
   * Intake closes, degrees after bottom dead centre.
   */
  double intake_closes_abdc_deg;
  /**
   * Exhaust opens, degrees before bottom dead centre.
   */
  double exhaust_opens_bbdc_deg;
  /**
   * Exhaust closes, degrees after top dead centre.
   */
  double exhaust_closes_atdc_deg;
  /**
   * The printed compression ratio, 3 to 25; ignored if it is not known.
   */
  double compression_ratio;
  /**
   * Crank and rod; NULL for the usual proportion of 1 to 3.5.
   */
  const struct lw_slider_crank *crank;
  /**
   * 1 if the compression ratio is known, else 0.
   */
  uint32_t ratio_known;
  /**
   * Reserved: zero; any other number is refused, so that a later release can use it.
   */
  uint32_t reserved;
} lw_printed_events;

/**
 * One side of a lobe. Fields of other kinds are ignored.
 */
typedef struct lw_flank {
  /**
   * Size of this structure, `sizeof(lw_flank)`.
   */
  size_t struct_size;
  /**
   * How it is known: a value of `lw_flank_kind`.
   */
  uint32_t kind;
  /**
   * Reserved: zero; any other number is refused, so that a later release can use it.
   */
  uint32_t reserved;
  /**
   * Of a ramp: its height at the follower in millimetres, 0.02 to 2.
   */
  double ramp_mm;
  /**
   * Of a ramp: its rise in millimetres in a degree of the cam, 0.001 to 0.3.
   */
  double ramp_mm_per_deg;
  /**
   * Of a ramp then flank: the rise of the flank in millimetres in a degree of the cam.
   */
  double flank_mm_per_deg;
  /**
   * Measured: the thinner leaf in millimetres.
   */
  double thin_mm;
  /**
   * Measured: the thicker leaf in millimetres.
   */
  double thick_mm;
  /**
   * Measured: crank degrees between where the one is just gripped and the other.
   */
  double apart_deg;
  /**
   * Harmonic: greatest lift at the valve in millimetres, 1 to 60.
   */
  double lift_mm;
  /**
   * Harmonic: crank degrees from base circle to base circle, 120 to 420.
   */
  double duration_deg;
} lw_flank;

/**
 * A valve as it runs.
 */
typedef struct lw_running_valve {
  /**
   * Size of this structure, `sizeof(lw_running_valve)`.
   */
  size_t struct_size;
  /**
   * Where the lash is taken up on opening.
   */
  const struct lw_flank *opening;
  /**
   * Where it comes back on closing.
   */
  const struct lw_flank *closing;
  /**
   * Its lash in millimetres.
   */
  double lash_mm;
  /**
   * Standard uncertainty of it in millimetres.
   */
  double lash_uncertainty_mm;
  /**
   * The lash or the lift in millimetres at which the printed events hold.
   */
  double holds_at_mm;
  /**
   * Valve movement over cam movement, 0.3 to 3.
   */
  double rocker_ratio;
  /**
   * Which of the two that is: a value of `lw_events_at`.
   */
  uint32_t holds_at;
  /**
   * Reserved: zero; any other number is refused, so that a later release can use it.
   */
  uint32_t reserved;
} lw_running_valve;

/**
 * Where the events go, seven rows in the order of `lw_event_row`. Every column except `low_deg` may be NULL.
 */
typedef struct lw_event_columns {
  /**
   * Size of this structure, `sizeof(lw_event_columns)`.
   */
  size_t struct_size;
  /**
   * How many rows there is room for, in every column: 7.
   */
  size_t rows;
  /**
   * Lower ends in degrees; minus infinity where the ramp ends under the lash and there is none.
   */
  double *low_deg;
  /**
   * Upper ends in degrees; infinity where there is none.
   */
  double *high_deg;
  /**
   * Standard uncertainties of the ends in degrees, by the lash.
   */
  double *uncertainty_deg;
  /**
   * As printed, in degrees.
   */
  double *printed_deg;
} lw_event_columns;

/**
 * How many times the charge is compressed from where the intake closes.
 */
typedef struct lw_effective_ratio {
  /**
   * Size of this structure, `sizeof(lw_effective_ratio)`.
   */
  size_t struct_size;
  /**
   * With the closing as printed; NaN if the compression ratio is not known, or the closing has one end only.
   */
  double printed;
  /**
   * At the running lash; NaN likewise.
   */
  double running;
  /**
   * Its standard uncertainty by the lash; NaN likewise.
   */
  double uncertainty;
} lw_effective_ratio;

/**
 * Where the points that were judged go, one per row: each reading brought to what the figure is printed for,
 * from the lower end to the upper; NaN for a refused row. Every column may be NULL.
 */
typedef struct lw_point_columns {
  /**
   * Size of this structure, `sizeof(lw_point_columns)`.
   */
  size_t struct_size;
  /**
   * How many rows there is room for, in every column.
   */
  size_t rows;
  /**
   * Lower ends in crank degrees before top dead centre.
   */
  double *low_btdc_deg;
  /**
   * Upper ends.
   */
  double *high_btdc_deg;
  /**
   * Standard uncertainties of both ends in crank degrees.
   */
  double *uncertainty_deg;
} lw_point_columns;

#ifdef __cplusplus
extern "C" {
#endif // __cplusplus

/**
 * The pitch in millimetres of a thread with so many turns to the inch, 5.08 to 254 (5 to 0.1 mm).
 *
 * `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `pitch_mm` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE lw_status lw_pitch_per_inch(double threads, double *pitch_mm, struct lw_error **error);

/**
 * How far and which way a screw is turned for a change of lash.
 *
 * `change_mm` is wanted minus now, -40 to 40; positive opens. No memory is allocated. `error` may be
 * NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_turn_screw(const struct lw_screw *screw,
                        double change_mm,
                        struct lw_screw_turn *turn,
                        struct lw_error **error);

/**
 * The shim that would give exactly the lash wanted, in whole nanometres.
 *
 * No memory is allocated. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `fit` states its size, or is NULL; `wanted_nm` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_shim_wanted(const struct lw_shim_fit *fit,
                         int64_t *wanted_nm,
                         struct lw_error **error);

/**
 * The lash that a shim of a size would give, in millimetres.
 *
 * `size_nm` 10000 (0.01 mm) to 50000000 (50 mm). No memory is allocated. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `fit` states its size, or is NULL; `lash_mm` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_lash_with_shim(const struct lw_shim_fit *fit,
                            int64_t size_nm,
                            double *lash_mm,
                            struct lw_error **error);

/**
 * The shim of a series to fit.
 *
 * `rounding` is a value of `lw_shim_rounding`. Refused if the wanted size is outside the series. No memory is
 * allocated. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_choose_shim(const struct lw_shim_fit *fit,
                         const struct lw_shim_series *series,
                         uint32_t rounding,
                         struct lw_shim_choice *choice,
                         struct lw_error **error);

/**
 * Fits the curve as this distributor follows it to strobe readings at several speeds.
 *
 * `readings` are 2 to 100, in any order, without vacuum; their uncertainties above 0 are those by which one
 * differs from another. `printed` needs a limit. A row that is no reading refuses the call, and the error
 * names it (`lw_error_row`). The verdict on each reading by itself is that of `lw_judge_strobe_columns`.
 * `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
 * writable.
 */
LW_MUST_USE
lw_status lw_fit_advance_curve(const struct lw_strobe_columns *readings,
                               const struct lw_advance_curve *curve,
                               const struct lw_printed_timing *printed,
                               struct lw_curve_fit *fit,
                               struct lw_error **error);

/**
 * Weighs why a distributor does not follow its curve, by strobe readings at several speeds.
 *
 * `probability` gets one number for each cause, at the number of its `lw_curve_cause`, and at 0 the probability
 * that nothing is wrong; together they are 1. NaN stands at a cause that these readings could not show. It has
 * room for `capacity` numbers and may be NULL if that is 0; `count` gets how many there are. `readings` as in
 * `lw_fit_advance_curve`. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; their columns have the rows they say; `probability` is
 * writable for `capacity` numbers; `count` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_weigh_advance_curve(const struct lw_strobe_columns *readings,
                                 const struct lw_advance_curve *curve,
                                 const struct lw_printed_timing *printed,
                                 const struct lw_curve_prior *prior,
                                 double *probability,
                                 size_t capacity,
                                 size_t *count,
                                 struct lw_error **error);

/**
 * How dense the air is, by CIPM-2007, from barometer, thermometer and hygrometer.
 *
 * With the height the barometer is checked against it, and one that is set to sea level brought to the place by
 * the standard atmosphere. Taken for granted: 400 ppm of carbon dioxide. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_density_of_air(const struct lw_air *air,
                            struct lw_air_density *found,
                            struct lw_error **error);

/**
 * How dense the air is by the height alone: the standard atmosphere of ISO 2533.
 *
 * `altitude_m` -1600 to 11000. Its uncertainty is what weather and season leave, which is much. `error` may be
 * NULL. Any thread.
 *
 * The caller sees to it:
 * `found` states its size, or is NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_density_at_height(double altitude_m,
                               struct lw_air_density *found,
                               struct lw_error **error);

/**
 * The height at which the standard atmosphere is as dense, in metres; refused outside -1524 to 6096 m.
 *
 * `density_kg_m3` in kilograms a cubic metre. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `altitude_m` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_density_altitude(double density_kg_m3,
                              double *altitude_m,
                              struct lw_error **error);

/**
 * Which screw of a linkage to turn, which way and how far, so that the throttles share the work.
 *
 * `trials` may be NULL, and so may `throttles` and `shafts`; `rule` may be NULL for simple acceptance, and is not one for lash or
 * ignition points. Without trials there are ways, but no amounts. Each move is what is left to do once those before
 * it are done. A row that is no reading refuses the call, and the error names it (`lw_error_row`); trials of a screw
 * whose sense was stated the other way round refuse it as well. Taken for granted: that throttles beyond one screw
 * move alike, and readings in a straight line with the turn. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
 * writable.
 */
LW_MUST_USE
lw_status lw_balance_throttles(const struct lw_linkage *linkage,
                               const struct lw_throttle_looks *looks,
                               const struct lw_trial_turns *trials,
                               const struct lw_rule *rule,
                               struct lw_balance *balance,
                               const struct lw_throttle_columns *throttles,
                               const struct lw_move_columns *moves,
                               const struct lw_shaft_columns *shafts,
                               struct lw_error **error);

/**
 * The dwell over so many lobes, in degrees of the cam, of what a meter shows on one of its scales.
 *
 * `scale` is the number of cylinders that the scale is made for, 1 to 12, or `LW_METER_SCALE_PERCENT`;
 * `lobes` those of the cam, 1 to 12. `shown` above 0 and below the end of the scale. `error` may be NULL.
 * Any thread.
 *
 * The caller sees to it:
 * `dwell_deg` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_dwell_of_reading(double shown,
                              uint32_t scale,
                              uint32_t lobes,
                              double *dwell_deg,
                              struct lw_error **error);

/**
 * What a meter shows on one of its scales for a dwell over so many lobes: degrees, or per cent.
 *
 * `scale` and `lobes` as in `lw_dwell_of_reading`; `dwell_deg` above 0 and below 360 over the lobes.
 * `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `shown` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_reading_of_dwell(double dwell_deg,
                              uint32_t scale,
                              uint32_t lobes,
                              double *shown,
                              struct lw_error **error);

/**
 * The dwell that goes with a gap, by the lobe through a printed pair, and its standard uncertainty; both
 * in degrees of the cam.
 *
 * `gap_mm` from 0 up to what the cam lifts at the contacts, its standard uncertainty 0 to 1. Away from the
 * pair the change of dwell is taken as right within half of itself, for real lobes are not all of one shape.
 * `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `pair` states its size, or is NULL; the outputs are writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_dwell_at_gap(const struct lw_gap_and_dwell *pair,
                          double gap_mm,
                          double gap_uncertainty_mm,
                          double *dwell_deg,
                          double *dwell_uncertainty_deg,
                          struct lw_error **error);

/**
 * The gap that goes with a dwell, by the lobe through a printed pair, and its standard uncertainty; both
 * in millimetres.
 *
 * `dwell_deg` above 0 and below 360 over the lobes, its standard uncertainty 0 to 90. `error` may be NULL.
 * Any thread.
 *
 * The caller sees to it:
 * `pair` states its size, or is NULL; the outputs are writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_gap_at_dwell(const struct lw_gap_and_dwell *pair,
                          double dwell_deg,
                          double dwell_uncertainty_deg,
                          double *gap_mm,
                          double *gap_uncertainty_mm,
                          struct lw_error **error);

/**
 * How much earlier the spark comes when the dwell changes, in crank degrees, and its standard uncertainty;
 * negative is later.
 *
 * `change_deg` in degrees of the cam, positive for more dwell, -360 to 360; its standard uncertainty 0 to
 * 180. `cam` is a value of `lw_cam_speed`. `opening_share` is the share of the change that falls on the
 * flank which opens the contacts, 0 to 1: 0.5 for a lobe with two equal flanks. `error` may be NULL. Any
 * thread.
 *
 * The caller sees to it:
 * The outputs are writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_spark_shift(double change_deg,
                         double change_uncertainty_deg,
                         uint32_t cam,
                         double opening_share,
                         double *earlier_deg,
                         double *earlier_uncertainty_deg,
                         struct lw_error **error);

/**
 * The resistance of a copper winding at another temperature than it was read at, in ohms, and its standard
 * uncertainty.
 *
 * `read_ohm` with its standard uncertainty; `read_at_celsius` -50 to 250 with the standard uncertainty
 * `read_at_uncertainty_kelvin`; `wanted_at_celsius` -50 to 250. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The outputs are writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_copper_resistance(double read_ohm,
                               double read_uncertainty_ohm,
                               double read_at_celsius,
                               double read_at_uncertainty_kelvin,
                               double wanted_at_celsius,
                               double *resistance_ohm,
                               double *resistance_uncertainty_ohm,
                               struct lw_error **error);

/**
 * What a coil holds when the contacts open at a speed.
 *
 * `rpm` of the crank, above 0. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_charge_at_speed(const struct lw_primary_circuit *circuit,
                             double rpm,
                             struct lw_charge *charge,
                             struct lw_error **error);

/**
 * The crank speed above which a coil is weak, in turns a minute, and its standard uncertainty.
 *
 * `weak` is a value of `lw_weak`, and `below` the number that goes with it. Refused where the coil never
 * holds so much. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `circuit` states its size, or is NULL; the outputs are writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_weak_from_speed(const struct lw_primary_circuit *circuit,
                             uint32_t weak,
                             double below,
                             double *rpm,
                             double *uncertainty_rpm,
                             struct lw_error **error);

/**
 * Judges many readings, each brought to the temperature of its limits, under one rule.
 *
 * Every row gets what `lw_warmth_shift`, `lw_estimate_changed` with minus the change, and `lw_judge` give for
 * it, to the bit; where nothing says how the lash follows the temperature, what `lw_warmth_not_known` says.
 * `limits` are those of all rows, and may be NULL where the readings have a column of limits. A row that
 * cannot be judged (crossed ends or limits, NaN, no end or no limit at all, no reference) is marked in
 * `verdict` and `status`, and the others are still judged; the call then returns `LW_STATUS_ROWS_REFUSED`,
 * with the first such row in the error (`lw_error_row`). Any other failure means that nothing was written,
 * but after `LW_STATUS_PANIC` some rows may have been written. No memory is allocated unless a row is
 * refused. Columns to write must not overlap. Rows do not depend on one another: several threads may each
 * judge a part. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
 * writable.
 */
LW_MUST_USE
lw_status lw_judge_columns(const struct lw_reading_columns *readings,
                           const struct lw_limits *limits,
                           const struct lw_rule *rule,
                           const struct lw_judgement_columns *judgements,
                           struct lw_error **error);

/**
 * What a compression gauge should show of a good cylinder, at the end of the strokes, throttle open, all plugs out.
 *
 * `exponent_low` to `exponent_high` is the exponent of compression, 1 (isothermal) to 1.41 (adiabatic); 1.15 to 1.30
 * is what printed pressures imply with printed ratios, and the good cylinders of the engine say it better
 * (`lw_implied_exponent`). `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL, and so does the crank; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_expected_compression(const struct lw_cranking *engine,
                                  double exponent_low,
                                  double exponent_high,
                                  struct lw_compression *expected,
                                  struct lw_error **error);

/**
 * The exponent of compression that a reading implies, and its standard uncertainty.
 *
 * `shown_kpa` is what the gauge shows over the air around, `shown_uncertainty_kpa` its standard uncertainty. An
 * exponent under 1 or over 1.41 is no exponent: ratio, closing, air or gauge are not as stated, or the cylinder
 * leaks. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `engine` states its size, or is NULL, and so does its crank; the outputs are writable or NULL; `error` is NULL or
 * writable.
 */
LW_MUST_USE
lw_status lw_implied_exponent(const struct lw_cranking *engine,
                              double shown_kpa,
                              double shown_uncertainty_kpa,
                              double *exponent,
                              double *uncertainty,
                              struct lw_error **error);

/**
 * What the gauge would show in other air, with all else the same: it goes with the pressure of the air, not with its
 * density, for which some printed factors are.
 *
 * Pressures of the air 30 to 110 kPa. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `there_shows_kpa` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_compression_in_other_air(double shown_kpa,
                                      double here_kpa,
                                      double there_kpa,
                                      double *there_shows_kpa,
                                      struct lw_error **error);

/**
 * Judges the cranking compression of all cylinders of an engine: by a printed rule, against the good ones beside each,
 * and what may be the matter.
 *
 * `engine` may be NULL, and so may `rule`. Keep the ignition from firing and clear of plug holes and of what turns. A
 * row that is no reading refuses the call, and the error names it (`lw_error_row`). Taken for granted: a warm
 * engine, all plugs out, throttle open, a good battery; that good cylinders differ by 3 %; and how often each cause
 * is met, so that their shares are not calibrated. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL, and so does the crank of the engine; their columns have the rows they
 * say; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_judge_compression(const struct lw_compression_readings *readings,
                               const struct lw_cranking *engine,
                               const struct lw_compression_rule *rule,
                               struct lw_compression_verdict *verdict,
                               const struct lw_cylinder_columns *cylinders,
                               struct lw_error **error);

/**
 * How far the piston is below its top dead centre, in millimetres.
 *
 * `crank_deg` counts from the line through the crank's centre parallel to the bore, in the running
 * direction, -720000 to 720000. No memory is allocated. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `slider` states its size, or is NULL; `drop_mm` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_piston_drop(const struct lw_slider_crank *slider,
                         double crank_deg,
                         double *drop_mm,
                         struct lw_error **error);

/**
 * The crank angles, before and after top dead centre, at which the piston is that far down; degrees as in
 * `lw_piston_drop`.
 *
 * `drop_mm` 0 to the stroke. No memory is allocated. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `slider` states its size, or is NULL; the outputs are writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_angles_at_drop(const struct lw_slider_crank *slider,
                            double drop_mm,
                            double *before_deg,
                            double *after_deg,
                            struct lw_error **error);

/**
 * Crank angles of top and bottom dead centre, degrees as in `lw_piston_drop`, and the stroke in
 * millimetres. With an offset they are not 0, 180 and twice the radius.
 *
 * No memory is allocated. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `slider` states its size, or is NULL; the outputs are writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_dead_centres(const struct lw_slider_crank *slider,
                          double *tdc_deg,
                          double *bdc_deg,
                          double *stroke_mm,
                          struct lw_error **error);

/**
 * Where on a degree wheel top dead centre is, from the two readings at which the piston meets a stop,
 * or is at one height on a dial gauge.
 *
 * `rising_deg` is read before top dead centre, `falling_deg` after it, less than half a turn later, the
 * wheel counting up in the running direction, -720000 to 720000; both with the standard uncertainty
 * `reading_uncertainty_deg`, 0 or more. `slider` may be NULL: then the pin has no offset. No memory is
 * allocated. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `slider` states its size, or is NULL; the outputs are writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_tdc_from_stops(double rising_deg,
                            double falling_deg,
                            double reading_uncertainty_deg,
                            const struct lw_slider_crank *slider,
                            double *tdc_deg,
                            double *tdc_uncertainty_deg,
                            struct lw_error **error);

/**
 * Answers a document with JSON: `{"report": ...}`, or `{"problems": [...]}` if it cannot be accepted.
 *
 * `document` is `len` bytes, UTF-8 JSON as `lw_document_schema` describes it, at most 4 MiB; read only
 * during the call. A document that is refused still gives `LW_STATUS_OK`: the answer then lists every
 * problem with its place, code, message and hint. On `LW_STATUS_OK` `answer` holds text owned by the
 * caller; otherwise it is untouched. `error` may be NULL. Any thread, several at once.
 *
 * The caller sees to it:
 * `document` is readable for `len` bytes and `answer` is writable, or they are NULL; `error` is NULL or
 * writable.
 */
LW_MUST_USE
lw_status lw_run(const char *document,
                 size_t len,
                 struct lw_text *answer,
                 struct lw_error **error);

/**
 * Answers a document with the job sheet of one page, for a printer.
 *
 * `document` as in `lw_run`. `LW_STATUS_REFUSED` if it cannot be accepted: the error then has every
 * problem in a line of its message, and the code and place of the first. On `LW_STATUS_OK` `sheet`
 * holds text owned by the caller; otherwise it is untouched. `error` may be NULL. Any thread, several
 * at once.
 *
 * The caller sees to it:
 * As `lw_run`.
 */
LW_MUST_USE
lw_status lw_job_sheet(const char *document,
                       size_t len,
                       struct lw_text *sheet,
                       struct lw_error **error);

/**
 * Answers a document with the full sheet: the page of `lw_job_sheet` and everything behind it.
 *
 * Arguments, answer and errors as those of `lw_job_sheet`.
 *
 * The caller sees to it:
 * As `lw_run`.
 */
LW_MUST_USE
lw_status lw_full_sheet(const char *document,
                        size_t len,
                        struct lw_text *sheet,
                        struct lw_error **error);

/**
 * Whether `lw_run` would answer a document with a report, and if not, why.
 *
 * `document` as in `lw_run`. `LW_STATUS_OK` if it is accepted, `LW_STATUS_REFUSED` if not: the error
 * then has every problem in a line of its message, and the code and place of the first. `error` may be
 * NULL. Any thread, several at once.
 *
 * The caller sees to it:
 * `document` is readable for `len` bytes or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_validate(const char *document,
                      size_t len,
                      struct lw_error **error);

/**
 * The JSON Schema of a document.
 *
 * On `LW_STATUS_OK` `schema` holds text owned by the caller; otherwise it is untouched. `error` may be
 * NULL. Any thread, several at once.
 *
 * The caller sees to it:
 * `schema` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_document_schema(struct lw_text *schema,
                             struct lw_error **error);

/**
 * Fits how fast the lash of the valves of one kind of one engine changes, and says when to look at each next: when the
 * chance of finding it out of the limits passes what the rule allows.
 *
 * `readings` are those of `valves` valves, up to 1024, that are taken to change at like rates, such as all exhaust valves; those
 * with few readings borrow from their mates, and one that moves unlike them is told (`odd_evidence`, at most 5 % of
 * kinds have a false one). With too few readings the answer says how many it lacks, and `look` is
 * `LW_LOOK_TOO_FEW`. A row that is no reading, or lies before another, refuses the call, and the error names it
 * (`lw_error_row`). Taken for granted: that the change between settings is steady. It says when to look, not that a
 * valve is good until then. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
 * writable.
 */
LW_MUST_USE
lw_status lw_drift_of_record(const struct lw_past_readings *readings,
                             size_t valves,
                             const struct lw_limits *limits,
                             const struct lw_rule *rule,
                             struct lw_drift *whole,
                             const struct lw_valve_drift_columns *found,
                             struct lw_error **error);

/**
 * The drift of many valves in one call, each by its own readings alone: of any engines.
 *
 * Every valve gets what `lw_drift_of_record` gives for its rows as those of a single valve, to the bit. Rows of a valve
 * stand together, in the order of time, and the valves in the order of their numbers, 0 to `valves` less one; a valve
 * without rows has too few. A valve with a row that is no reading, or lies before another, is marked in `look` and
 * `status`, and the others are still worked out; the call then returns `LW_STATUS_ROWS_REFUSED`, with the first such
 * valve in the error (`lw_error_row`). Any other failure means that nothing was written, but after
 * `LW_STATUS_PANIC` some rows may have been written. Columns must not overlap. Valves of one engine know more together:
 * `lw_drift_of_record`. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
 * writable.
 */
LW_MUST_USE
lw_status lw_drift_of_columns(const struct lw_past_readings *readings,
                              size_t valves,
                              const struct lw_limits *limits,
                              const struct lw_rule *rule,
                              const struct lw_drift_columns *found,
                              struct lw_error **error);

/**
 * Makes an engine and checks that its parts agree.
 *
 * On `LW_STATUS_OK` `engine` gets a handle owned by the caller, who gives it back with
 * `lw_engine_free`. `LW_STATUS_REFUSED` has every contradiction in a line of its message. `error` may
 * be NULL. Any thread.
 *
 * The caller sees to it:
 * `parts` states its size and its arrays are as long as it says, or it is NULL; `engine` is writable or
 * NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_engine_new(const struct lw_engine_parts *parts,
                        struct lw_engine **engine,
                        struct lw_error **error);

/**
 * Takes the engine of a document. Cylinders are numbered from 1 in the order in which it lists them.
 *
 * `document` is `len` bytes as in `lw_run`; every part of it must be acceptable. Otherwise as
 * `lw_engine_new`.
 *
 * The caller sees to it:
 * `document` is readable for `len` bytes or NULL; `engine` is writable or NULL; `error` is NULL or
 * writable.
 */
LW_MUST_USE
lw_status lw_engine_of_document(const char *document,
                                size_t len,
                                struct lw_engine **engine,
                                struct lw_error **error);

/**
 * Frees an engine; NULL is allowed. Once for each engine. Plans made from it stay valid.
 *
 * The caller sees to it:
 * `engine` is NULL or a handle that was not freed and that nothing uses any more.
 */
void lw_engine_free(struct lw_engine *engine);

/**
 * How many cylinders the engine has.
 *
 * `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `engine` is a handle or NULL; `count` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_engine_cylinders(const struct lw_engine *engine,
                              size_t *count,
                              struct lw_error **error);

/**
 * What a cylinder is called: its number, or the label that a document gives it.
 *
 * `cylinder` counts from 1. `buffer` has room for `capacity` bytes and may be NULL if that is 0;
 * `needed` gets the bytes it takes, the NUL included. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `engine` is a handle or NULL; `buffer` is writable for `capacity` bytes; `needed` is writable or
 * NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_engine_label(const struct lw_engine *engine,
                          uint32_t cylinder,
                          char *buffer,
                          size_t capacity,
                          size_t *needed,
                          struct lw_error **error);

/**
 * Crank degrees from the first cylinder of the firing order to the firing of each, 0 to the cycle.
 *
 * Place n - 1 is cylinder n. `offsets_deg` has room for `capacity` numbers and may be NULL if that is 0;
 * `count` gets how many there are. `LW_STATUS_SHORT_BUFFER` if there is less room. `error` may be NULL.
 * Any thread.
 *
 * The caller sees to it:
 * `engine` is a handle or NULL; `offsets_deg` is writable for `capacity` numbers; `count` is writable or
 * NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_firing_offsets(const struct lw_engine *engine,
                            double *offsets_deg,
                            size_t capacity,
                            size_t *count,
                            struct lw_error **error);

/**
 * Crank degrees from the first cylinder of the firing order, as it fires, to where the piston of each
 * is at its firing top dead centre, 0 to the cycle. With link rods, which a document can describe,
 * that is not quite where it fires.
 *
 * Array, `capacity`, `count` and `error` as in `lw_firing_offsets`. Any thread.
 *
 * The caller sees to it:
 * As `lw_firing_offsets`.
 */
LW_MUST_USE
lw_status lw_tdc_offsets(const struct lw_engine *engine,
                         double *offsets_deg,
                         size_t capacity,
                         size_t *count,
                         struct lw_error **error);

/**
 * Degrees of the distributor's rotor from the first cylinder of the firing order to each.
 *
 * Array, `capacity`, `count` and `error` as in `lw_firing_offsets`. Any thread.
 *
 * The caller sees to it:
 * As `lw_firing_offsets`.
 */
LW_MUST_USE
lw_status lw_rotor_angles(const struct lw_engine *engine,
                          double *angles_deg,
                          size_t capacity,
                          size_t *count,
                          struct lw_error **error);

/**
 * The cylinder at overlap when `cylinder` fires; 0 if there is none.
 *
 * Cylinders count from 1. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `engine` is a handle or NULL; `companion` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_companion(const struct lw_engine *engine,
                       uint32_t cylinder,
                       uint32_t *companion,
                       struct lw_error **error);

/**
 * The status that came with the error; `LW_STATUS_OK` for NULL. Any thread.
 *
 * The caller sees to it:
 * `error` is NULL or an error that was not freed.
 */
LW_MUST_USE lw_status lw_error_status(const struct lw_error *error);

/**
 * A code that never changes its meaning: "quantity.no-unit" from the kernel, "c.null-pointer" from the
 * call itself.
 *
 * Never NULL; NUL-terminated UTF-8 that lives as long as the error; empty for NULL. Any thread.
 *
 * The caller sees to it:
 * `error` is NULL or an error that was not freed.
 */
LW_MUST_USE
const char *lw_error_code(const struct lw_error *error);

/**
 * What is wrong, with the values. A document or an engine may have several things wrong, one per line.
 *
 * Never NULL; NUL-terminated UTF-8 that lives as long as the error; empty for NULL. Any thread.
 *
 * The caller sees to it:
 * `error` is NULL or an error that was not freed.
 */
LW_MUST_USE
const char *lw_error_message(const struct lw_error *error);

/**
 * What to do about it; may be empty.
 *
 * Never NULL; NUL-terminated UTF-8 that lives as long as the error; empty for NULL. Any thread.
 *
 * The caller sees to it:
 * `error` is NULL or an error that was not freed.
 */
LW_MUST_USE const char *lw_error_hint(const struct lw_error *error);

/**
 * Where it is: the parameter, or the JSON pointer of the first problem of a document; may be empty.
 *
 * Never NULL; NUL-terminated UTF-8 that lives as long as the error; empty for NULL. Any thread.
 *
 * The caller sees to it:
 * `error` is NULL or an error that was not freed.
 */
LW_MUST_USE const char *lw_error_place(const struct lw_error *error);

/**
 * The first refused row of a column, from 0; false, and `row` untouched, if the error is not about a row.
 * Any thread.
 *
 * The caller sees to it:
 * `error` is NULL or an error that was not freed; `row` is NULL or writable.
 */
LW_MUST_USE
bool lw_error_row(const struct lw_error *error,
                  size_t *row);

/**
 * The number that was refused, and the least and greatest accepted, in the unit the message names;
 * false, and nothing written, if the error is not about a range. Any thread.
 *
 * The caller sees to it:
 * `error` is NULL or an error that was not freed; `got_least_greatest` is NULL or writable for three.
 */
LW_MUST_USE
bool lw_error_range(const struct lw_error *error,
                    double *got_least_greatest);

/**
 * Frees an error; NULL is allowed. Once for each error.
 *
 * The caller sees to it:
 * `error` is NULL or an error that was not freed and that nothing uses any more.
 */
void lw_error_free(struct lw_error *error);

/**
 * Half the width of the thickness tolerance that the kernel takes for a leaf of unknown make, in
 * nanometres. Any thread.
 */
LW_MUST_USE int64_t lw_assumed_leaf_tolerance_nm(void);

/**
 * The standard uncertainty that the kernel takes of the hand at each end of a reading where it is not
 * stated, in nanometres. Any thread.
 */
LW_MUST_USE
int64_t lw_assumed_hand_nm(void);

/**
 * The estimate that one leaf which goes and one which does not stand for, or either alone.
 *
 * `span` is of `lw_span`: `LW_SPAN_AT_LEAST` if only `goes_nm` was tried and went, `LW_SPAN_AT_MOST`
 * if `refuses_nm` is the thinnest and did not go. Marks in whole nanometres, above zero to 20 mm,
 * `goes_nm` below `refuses_nm`; the one that `span` leaves out is not looked at. `tolerance_nm` is
 * half the width of the leaves' thickness tolerance, 0 or more, taken as rectangular; `hand_nm` is the
 * standard uncertainty of the hand at each end, 0 or more. No memory is allocated. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `estimate` states its size, or is NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_estimate_from_leaves(uint32_t span,
                                  int64_t goes_nm,
                                  int64_t refuses_nm,
                                  int64_t tolerance_nm,
                                  int64_t hand_nm,
                                  struct lw_estimate *estimate,
                                  struct lw_error **error);

/**
 * What valves of one kind of one engine will be found at, at a time, in the unit of the count.
 *
 * `readings` and `valves` as in `lw_drift_of_record`; `at` not before the first reading since a valve was last set.
 * With too few readings, and for valves of which nothing is said, all is NaN. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
 * writable.
 */
LW_MUST_USE
lw_status lw_forecast_of_record(const struct lw_past_readings *readings,
                                size_t valves,
                                double at,
                                const struct lw_forecast_columns *found,
                                struct lw_error **error);

/**
 * How one valve departs from the rate of its kind from service to service, with the running sums of that (CUSUM, slack
 * one half), for a chart; whether it is odd, `lw_drift_of_record` says.
 *
 * `readings` and `valves` as there; `valve` from 0. `count` gets how many departures there are; none with too few
 * readings. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; their columns have the rows they say; `count` is writable or NULL;
 * `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_departures_of_record(const struct lw_past_readings *readings,
                                  size_t valves,
                                  size_t valve,
                                  const struct lw_departure_columns *found,
                                  size_t *count,
                                  struct lw_error **error);

/**
 * Reads what a fuel is made of: a share of ethanol such as "E10", "ethanol", "methanol", "propane", "LPG",
 * "methane", "CNG", "nitromethane", or a formula such as "C8H18" or "CH1.85".
 *
 * "petrol" is refused: what is sold as such holds up to 10 % of ethanol, and that changes the air it needs by
 * 4 %. `name` is `len` bytes. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `name` is readable for `len` bytes or NULL; `fuel` states its size, or is NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_parse_fuel(const char *name,
                        size_t len,
                        struct lw_fuel *fuel,
                        struct lw_error **error);

/**
 * The mass of dry air that burns a mass of the fuel.
 *
 * `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `fuel` states its size, or is NULL; `air_fuel_ratio` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_air_fuel_ratio(const struct lw_fuel *fuel,
                            double *air_fuel_ratio,
                            struct lw_error **error);

/**
 * What to set on a wrench with an adapter for a torque at the bolt; newton metres.
 *
 * Where the maker prints the setting for a tool of his own, that counts. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `adapter` states its size, or is NULL; `set_newton_m` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_wrench_setting(const struct lw_adapter *adapter,
                            double at_bolt_newton_m,
                            double *set_newton_m,
                            struct lw_error **error);

/**
 * What the bolt gets of a torque that is set on a wrench with an adapter; newton metres.
 *
 * `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `adapter` states its size, or is NULL; `at_bolt_newton_m` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_torque_at_bolt(const struct lw_adapter *adapter,
                            double set_newton_m,
                            double *at_bolt_newton_m,
                            struct lw_error **error);

/**
 * The standard uncertainty, in newton metres, of a torque that is set on a wrench.
 *
 * `most_newton_m` is the end of its scale, `percent` the deviation it is allowed, 0.5 to 20 %. A torque under a fifth of
 * the scale or over its end is refused. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `uncertainty_newton_m` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_wrench_uncertainty(double most_newton_m,
                                double percent,
                                double set_newton_m,
                                double *uncertainty_newton_m,
                                struct lw_error **error);

/**
 * Torque over force and diameter, from the frictions of thread and head.
 *
 * `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `bolt` states its size, or is NULL; `factor` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_nut_factor(const struct lw_bolt_friction *bolt,
                        double *factor,
                        struct lw_error **error);

/**
 * The force along a bolt that a torque leaves, with its scatter.
 *
 * `factor` is the nut factor, 0.08 to 0.5: about 0.2 for plain dry steel, less for oiled. `tightening` is a value of
 * `lw_tightening`, `stated_percent` its scatter either way if that is `LW_TIGHTENING_STATED`, else ignored. The
 * maker's torque, and whether it is for dry or oiled threads, comes first. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `preload` states its size, or is NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_preload_of_torque(double torque_newton_m,
                               double diameter_mm,
                               double factor,
                               uint32_t tightening,
                               double stated_percent,
                               struct lw_preload *preload,
                               struct lw_error **error);

/**
 * Fits a parabola to speeds at places of the mixture screw: where the speed is highest, if the readings show that.
 *
 * Taken for granted: that the curve is a parabola, and that nothing else was moved between the readings. A row
 * that is no reading refuses the call, and the error names it (`lw_error_row`). `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
 * writable.
 */
LW_MUST_USE
lw_status lw_fit_idle_curve(const struct lw_idle_readings *readings,
                            struct lw_idle_crown *crown,
                            struct lw_error **error);

/**
 * Where the speed is so many turns a minute under the highest, in turns out of the screw, with the standard
 * uncertainty: what a book calls the lean drop.
 *
 * `side` is a value of `lw_mixture_side`; `under_rpm` is above 0. Refused where the readings do not show where the
 * speed is highest. `readings` as in `lw_fit_idle_curve`. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `readings` states its size, or is NULL, and its columns have the rows they say; the outputs are writable or
 * NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_idle_beside(const struct lw_idle_readings *readings,
                         uint32_t side,
                         double under_rpm,
                         double *turns_out,
                         double *uncertainty_turns,
                         struct lw_error **error);

/**
 * An ignition point in degrees of the distributor, and the standard uncertainty in crank degrees of a
 * point that is read there.
 *
 * `btdc_deg` in crank degrees before top dead centre, negative after it, -180 to 180. `crank_turns` are
 * those of the crank for one turn of the distributor, 0.25 to 8: 2 on a four-stroke engine. `error` may be
 * NULL. Any thread.
 *
 * The caller sees to it:
 * The outputs are writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_distributor_at_point(double btdc_deg,
                                  double crank_turns,
                                  double *distributor_btdc_deg,
                                  double *point_uncertainty_deg,
                                  struct lw_error **error);

/**
 * The ignition point of what a distributor's scale shows, in crank degrees before top dead centre, and its
 * standard uncertainty.
 *
 * `distributor_btdc_deg` in degrees of the distributor, -180 to 180; `crank_turns` as in
 * `lw_distributor_at_point`. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The outputs are writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_point_at_distributor(double distributor_btdc_deg,
                                  double crank_turns,
                                  double *btdc_deg,
                                  double *point_uncertainty_deg,
                                  struct lw_error **error);

/**
 * What a dial gauge shows at an ignition point and how far the piston is down, in millimetres, and the
 * standard uncertainty in crank degrees of a point that is read so.
 *
 * `btdc_deg` as in `lw_distributor_at_point`, from the piston's own top dead centre. `error` may be NULL. Any
 * thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; the outputs are writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_dial_at_point(const struct lw_slider_crank *slider,
                           const struct lw_dial *dial,
                           double btdc_deg,
                           double *dial_mm,
                           double *travel_mm,
                           double *point_uncertainty_deg,
                           struct lw_error **error);

/**
 * The ignition point of what a dial gauge shows, in crank degrees before top dead centre, and its standard
 * uncertainty.
 *
 * `dial_mm` 0 up to what the dial shows at the stroke; `side` is a value of `lw_tdc_side`. `error` may be
 * NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; the outputs are writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_point_at_dial(const struct lw_slider_crank *slider,
                           const struct lw_dial *dial,
                           double dial_mm,
                           uint32_t side,
                           double *btdc_deg,
                           double *point_uncertainty_deg,
                           struct lw_error **error);

/**
 * Where the mark for an ignition point stands on the rim: millimetres along it from the mark for top dead
 * centre, a value of `lw_mark_side`, and the standard uncertainty in crank degrees of a point by it.
 *
 * `btdc_deg` as in `lw_distributor_at_point`; `diameter_mm` 1 to 10000; `by_tape` 1 where the mark is laid
 * off with a tape, 0 where it is the maker's. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The outputs are writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_rim_at_point(double btdc_deg,
                          double diameter_mm,
                          uint32_t by_tape,
                          double *along_rim_mm,
                          uint32_t *side,
                          double *point_uncertainty_deg,
                          struct lw_error **error);

/**
 * The ignition point of a mark on the rim, in crank degrees before top dead centre, and its standard
 * uncertainty.
 *
 * `along_rim_mm` from the mark for top dead centre, 0 up to half the way round; `side` is a value of
 * `lw_mark_side`; `diameter_mm` and `by_tape` as in `lw_rim_at_point`. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The outputs are writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_point_at_rim(double along_rim_mm,
                          uint32_t side,
                          double diameter_mm,
                          uint32_t by_tape,
                          double *btdc_deg,
                          double *point_uncertainty_deg,
                          struct lw_error **error);

/**
 * Judges an estimate against limits under a rule: the probabilities and the verdict.
 *
 * No memory is allocated. `LW_STATUS_REFUSED` for crossed ends or limits, an uncertainty or confidence
 * out of range, NaN. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The four structures state their size, or are NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_judge(const struct lw_estimate *estimate,
                   const struct lw_limits *limits,
                   const struct lw_rule *rule,
                   struct lw_judgement *judgement,
                   struct lw_error **error);

/**
 * The estimate after the lash has changed by an amount that is itself uncertain and independent of the
 * reading: a thermal correction is minus the change that `lw_warmth_shift` gives.
 *
 * `change_mm` -40 to 40, positive opens; `change_uncertainty_mm` its standard uncertainty, 0 to 40.
 * `changed` may be `estimate` itself. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The two structures state their size, or are NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_estimate_changed(const struct lw_estimate *estimate,
                              double change_mm,
                              double change_uncertainty_mm,
                              struct lw_estimate *changed,
                              struct lw_error **error);

/**
 * Lambda of one analysis of the exhaust gas, and what does not fit together.
 *
 * Taken for granted: dry gas, hydrogen by the water-gas equilibrium, an exact factor of the hydrocarbons, and,
 * where nothing contradicts it, that no air was added before the probe. With a contradiction the number is that
 * of the formula, not the engine's: do not lean a mixture out by it. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_lambda_of_gas(const struct lw_exhaust_gas *gas,
                           const struct lw_fuel *fuel,
                           struct lw_lambda *found,
                           struct lw_error **error);

/**
 * Lambda from carbon monoxide alone; the other gases follow from the fuel.
 *
 * `co_percent` 0 to 16, with its standard uncertainty. Taken for granted: hydrogen by the water-gas equilibrium,
 * a good burn, which leaves a little oxygen or hydrocarbons at most, and that no air was added before the
 * probe. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_lambda_of_co(double co_percent,
                          double co_uncertainty_percent,
                          const struct lw_fuel *fuel,
                          struct lw_lambda_range *found,
                          struct lw_error **error);

/**
 * How large a leak is, by the two pressures on the tester, its orifice and the air around.
 *
 * Hold the crank before air is let in: it turns it, and a propeller with it. `shown_kpa` is what stands in the
 * cylinder over the air around, 2 % of the supply up to all of it; `air_kpa` the pressure of the air, 30 to 110; each
 * with its standard uncertainty. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_leak_area(const struct lw_leak_tester *tester,
                       double shown_kpa,
                       double shown_uncertainty_kpa,
                       double air_kpa,
                       double air_uncertainty_kpa,
                       struct lw_leak *leak,
                       struct lw_error **error);

/**
 * What a tester would show of a leak of so many square millimetres, in kilopascals over the air around.
 *
 * `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `tester` states its size, or is NULL; `shown_kpa` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_tester_would_show(const struct lw_leak_tester *tester,
                               double area_mm2,
                               double air_kpa,
                               double *shown_kpa,
                               struct lw_error **error);

/**
 * The areas of many leaks in one call.
 *
 * Every row gets what `lw_leak_area` gives for it, to the bit. A row that is no reading of this tester (over the
 * supply, under 2 % of it, air outside 30 to 110 kPa, NaN) is marked in `status`, and the others are still worked
 * out; the call then returns `LW_STATUS_ROWS_REFUSED`, with the first such row in the error (`lw_error_row`). Any
 * other failure means that nothing was written, but after `LW_STATUS_PANIC` some rows may have been written. No
 * memory is allocated unless a row is refused. Columns must not overlap. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
 * writable.
 */
LW_MUST_USE
lw_status lw_leak_of_columns(const struct lw_leak_tester *tester,
                             const struct lw_leak_reading_columns *readings,
                             const struct lw_leak_columns *found,
                             struct lw_error **error);

/**
 * Lambda of many analyses in one call.
 *
 * Every row gets what `lw_lambda_of_gas` gives for it, to the bit. A row that is no exhaust gas (no carbon
 * dioxide, NaN, more oxygen than air has) is marked in `status`, and the others are still worked out; the call
 * then returns `LW_STATUS_ROWS_REFUSED`, with the first such row in the error (`lw_error_row`). Any other failure
 * means that nothing was written, but after `LW_STATUS_PANIC` some rows may have been written. No memory is
 * allocated unless a row is refused. Columns must not overlap. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
 * writable.
 */
LW_MUST_USE
lw_status lw_lambda_of_columns(const struct lw_gas_columns *gas,
                               const struct lw_fuel *fuel,
                               const struct lw_lambda_columns *found,
                               struct lw_error **error);

/**
 * The density of the air of many readings in one call.
 *
 * Every row gets what `lw_density_of_air` gives for a reading of the pressure of the place with its humidity, to
 * the bit. A row that no engine breathes (outside 20 to 120 kPa or -60 to 80 degrees Celsius, NaN) is marked in
 * `status`, and the others are still worked out; the call then returns `LW_STATUS_ROWS_REFUSED`, with the first
 * such row in the error (`lw_error_row`). Any other failure means that nothing was written, but after
 * `LW_STATUS_PANIC` some rows may have been written. No memory is allocated unless a row is refused. Columns must
 * not overlap. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
 * writable.
 */
LW_MUST_USE
lw_status lw_density_of_columns(const struct lw_air_columns *air,
                                const struct lw_density_columns *found,
                                struct lw_error **error);

/**
 * Plans where to stop.
 *
 * `method` is a value of `lw_method`. `places` is a value of `lw_places`, used by the fewest stops only.
 * `start` is a cylinder, from 1, at whose firing top dead centre to begin; 0 leaves it to the plan, and
 * two positions then begin at the first of the firing order; the fewest stops ignore it. On
 * `LW_STATUS_OK` `plan` gets a handle owned by the caller, who gives it back with `lw_plan_free`; NULL
 * if the engine has no plan of that method, because some valve could not be read at either position.
 * `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `engine` is a handle or NULL; `train` states its size, or is NULL; `plan` is writable or NULL; `error`
 * is NULL or writable.
 */
LW_MUST_USE
lw_status lw_plan_new(const struct lw_engine *engine,
                      const struct lw_valve_train *train,
                      uint32_t method,
                      uint32_t places,
                      uint32_t start,
                      struct lw_plan **plan,
                      struct lw_error **error);

/**
 * Frees a plan; NULL is allowed. Once for each plan.
 *
 * The caller sees to it:
 * `plan` is NULL or a handle that was not freed and that nothing uses any more.
 */
void lw_plan_free(struct lw_plan *plan);

/**
 * What a plan costs.
 *
 * `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `plan` is a handle or NULL; `cost` states its size, or is NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_plan_total(const struct lw_plan *plan,
                        struct lw_plan_cost *cost,
                        struct lw_error **error);

/**
 * One stop of a plan; `index` counts from 0, in the order in which they are made.
 *
 * `LW_STATUS_OUT_OF_BOUNDS` after the last. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `plan` is a handle or NULL; `stop` states its size, or is NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_plan_stop(const struct lw_plan *plan,
                       size_t index,
                       struct lw_stop *stop,
                       struct lw_error **error);

/**
 * One valve to check at a stop; both indices count from 0.
 *
 * `LW_STATUS_OUT_OF_BOUNDS` after the last. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `plan` is a handle or NULL; `check` states its size, or is NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_plan_check(const struct lw_plan *plan,
                        size_t stop,
                        size_t index,
                        struct lw_valve_check *check,
                        struct lw_error **error);

/**
 * One valve to watch at a stop: with the opposite valve an exhaust valve that begins to open, or an
 * intake valve that has just closed; with the fully open valve one that is fully open. Both indices
 * count from 0.
 *
 * `LW_STATUS_OUT_OF_BOUNDS` after the last. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `plan` is a handle or NULL; `cue` states its size, or is NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_plan_cue(const struct lw_plan *plan,
                      size_t stop,
                      size_t index,
                      struct lw_valve_check *cue,
                      struct lw_error **error);

/**
 * One valve that cannot be checked at any stop; `index` counts from 0.
 *
 * `LW_STATUS_OUT_OF_BOUNDS` after the last. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `plan` is a handle or NULL; `check` states its size, or is NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_plan_unreachable(const struct lw_plan *plan,
                              size_t index,
                              struct lw_valve_check *check,
                              struct lw_error **error);

/**
 * Reads a length with its unit, such as "0.15 mm", "0,15 mm", "0.006 in" or "6 thou", exactly.
 *
 * `text` is `len` bytes of UTF-8. A number without a unit is refused (`LW_STATUS_REFUSED`), so are an
 * unknown unit and anything finer than a nanometre. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `text` is readable for `len` bytes or NULL; `mark` is a structure that states its size, or NULL;
 * `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_parse_length(const char *text,
                          size_t len,
                          struct lw_mark *mark,
                          struct lw_error **error);

/**
 * Writes an exact length as text in its unit with its decimals, rounded half to even where they are too
 * few.
 *
 * `buffer` has room for `capacity` bytes and may be NULL if that is 0; `needed` gets the bytes it
 * takes, the NUL included. `LW_STATUS_SHORT_BUFFER` if there is less room. `error` may be NULL. Any
 * thread.
 *
 * The caller sees to it:
 * `mark` is a structure that states its size, or NULL; `buffer` is writable for `capacity` bytes;
 * `needed` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_show_length(const struct lw_mark *mark,
                         char *buffer,
                         size_t capacity,
                         size_t *needed,
                         struct lw_error **error);

/**
 * A length in another unit.
 *
 * `from` and `to` are values of `lw_length_unit`. Off by at most one unit in the last place; use
 * `lw_mark` for what must stay exact. Infinity and NaN are kept. `error` may be NULL. Any
 * thread.
 *
 * The caller sees to it:
 * `converted` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_convert_length(double value,
                            uint32_t from,
                            uint32_t to,
                            double *converted,
                            struct lw_error **error);

/**
 * Reads a temperature with its unit, such as "20 C", "68 F" or "293.15 K", in degrees Celsius.
 *
 * `text` is `len` bytes of UTF-8. Below absolute zero or above 2000 C is refused. `error` may be NULL.
 * Any thread.
 *
 * The caller sees to it:
 * `text` is readable for `len` bytes or NULL; `celsius` is writable or NULL; `error` is NULL or
 * writable.
 */
LW_MUST_USE
lw_status lw_parse_temperature(const char *text,
                               size_t len,
                               double *celsius,
                               struct lw_error **error);

/**
 * A temperature in another unit.
 *
 * `from` and `to` are values of `lw_temperature_unit`. Below absolute zero, above 2000 C and NaN are
 * refused. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `converted` is writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_convert_temperature(double value,
                                 uint32_t from,
                                 uint32_t to,
                                 double *converted,
                                 struct lw_error **error);

/**
 * Reads a crank angle with its unit, such as "12 deg", in degrees.
 *
 * `text` is `len` bytes of UTF-8. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `text` is readable for `len` bytes or NULL; `degrees` is writable or NULL; `error` is NULL or
 * writable.
 */
LW_MUST_USE
lw_status lw_parse_crank_angle(const char *text,
                               size_t len,
                               double *degrees,
                               struct lw_error **error);

/**
 * Where the valves open and close at the lash they run with, how long they are open, and how many times the charge is
 * then compressed.
 *
 * `found` needs room for seven rows, in the order of `lw_event_row`; `ratio` may be NULL. Taken for granted: that the
 * ramps are those of the maker's cam, not worn. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL, and so do the flanks and the crank they point to; the columns have
 * the rows they say; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_events_at_lash(const struct lw_printed_events *printed,
                            const struct lw_running_valve *intake,
                            const struct lw_running_valve *exhaust,
                            const struct lw_event_columns *found,
                            struct lw_effective_ratio *ratio,
                            struct lw_error **error);

/**
 * The name of a status, such as "c.short-buffer"; "c.unknown-status" for any other number.
 *
 * Never NULL; NUL-terminated, static, not to be freed. Any thread.
 */
LW_MUST_USE const char *lw_status_name(uint32_t status);

/**
 * Frees text and empties the structure, so that freeing it again does nothing.
 *
 * `text` may be NULL, and so may its `data`. One thread at a time for one text.
 *
 * The caller sees to it:
 * `text` is NULL or points to a structure that is zeroed or that a call of this library wrote.
 */
void lw_text_free(struct lw_text *text);

/**
 * The change of lash from the reference to the temperature of the reading, and its standard
 * uncertainty, in millimetres. Subtract it from a reading: `lw_estimate_changed` with minus the change.
 *
 * No memory is allocated. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * `warmth` states its size, or is NULL; the outputs are writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_warmth_shift(const struct lw_warmth *warmth,
                          double *change_mm,
                          double *change_uncertainty_mm,
                          struct lw_error **error);

/**
 * Whether a lash may be judged by limits that hold at another temperature, where nothing says how it
 * follows: 1 if the engine is near the reference and known to be; else 0, and then the verdict is
 * `LW_VERDICT_CANNOT_SAY` whatever `lw_judge` says, for a single reading as for a row of columns.
 *
 * `at_celsius` and its standard uncertainty as in `lw_warmth`; `uncertainty_mm` gets the standard
 * uncertainty of what the difference may do to the lash, 0 where it may be judged. No memory is
 * allocated. `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The outputs are writable or NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_warmth_not_known(double at_celsius,
                              double at_uncertainty_kelvin,
                              double reference_celsius,
                              uint32_t *may_judge,
                              double *uncertainty_mm,
                              struct lw_error **error);

/**
 * The least and the most centrifugal advance that a curve allows at a speed, in crank degrees.
 *
 * `rpm` of the crank, 0 or more; beyond the last point it is refused unless the curve ends there. `error`
 * may be NULL. Any thread.
 *
 * The caller sees to it:
 * `curve` states its size, or is NULL, and its columns have the points they say; the outputs are writable or
 * NULL; `error` is NULL or writable.
 */
LW_MUST_USE
lw_status lw_advance_at_speed(const struct lw_advance_curve *curve,
                              double rpm,
                              double *least_deg,
                              double *most_deg,
                              struct lw_error **error);

/**
 * Judges many strobe readings against one printed ignition point under one rule: each is brought to what
 * the figure is printed for by the curve, and judged there. `LW_VERDICT_BELOW` is too late,
 * `LW_VERDICT_ABOVE` too early.
 *
 * `curve` may be NULL; a reading that would need one is then refused. `points` may be NULL. A row that
 * cannot be judged (beyond the curve, NaN, an advance that no engine has) is marked in `verdict` and `status`,
 * and the others are still judged; the call then returns `LW_STATUS_ROWS_REFUSED`, with the first such row
 * in the error (`lw_error_row`). Any other failure means that nothing was written, but after
 * `LW_STATUS_PANIC` some rows may have been written. Columns that are written must not overlap any other.
 * `error` may be NULL. Any thread.
 *
 * The caller sees to it:
 * The structures state their size, or are NULL; their columns have the rows they say; `error` is NULL or
 * writable.
 */
LW_MUST_USE
lw_status lw_judge_strobe_columns(const struct lw_strobe_columns *readings,
                                  const struct lw_advance_curve *curve,
                                  const struct lw_printed_timing *printed,
                                  const struct lw_rule *rule,
                                  const struct lw_judgement_columns *judgements,
                                  const struct lw_point_columns *points,
                                  struct lw_error **error);

/**
 * The number of the binary interface of the library that is loaded.
 *
 * Compare it with `LW_ABI_VERSION` of the header, or use `LW_ABI_MATCHES()`. Any thread.
 */
LW_MUST_USE uint32_t lw_abi_version(void);

/**
 * The release of the library that is loaded, such as "0.1.0".
 *
 * Never NULL; NUL-terminated, static, not to be freed. Any thread.
 */
LW_MUST_USE const char *lw_version(void);

/**
 * The size of a structure as this library knows it, by its name, such as "lw_estimate"; 0 for an unknown
 * name. Languages that declare the structures again can check themselves with it.
 *
 * `name` is `len` bytes. Any thread.
 *
 * The caller sees to it:
 * `name` is readable for `len` bytes or NULL.
 */
LW_MUST_USE
size_t lw_struct_size(const char *name,
                      size_t len);

#ifdef __cplusplus
}  // extern "C"
#endif  // __cplusplus

#endif  /* LASHWORK_H */
