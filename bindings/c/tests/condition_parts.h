/* What calls about condition, events and past services are tried with. */
#ifndef LASHWORK_TESTS_CONDITION_PARTS_H
#define LASHWORK_TESTS_CONDITION_PARTS_H

#include "check.h"

static inline lw_cranking nine_to_one(void) {
  lw_cranking engine = LW_INIT(lw_cranking);
  engine.ratio = 9;
  return engine;
}

static inline lw_leak_tester eighty_psi(void) {
  lw_leak_tester tester = LW_INIT(lw_leak_tester);
  tester.supply_kpa = 551.58;
  tester.supply_uncertainty_kpa = 3;
  tester.orifice_mm = 1.016;
  tester.orifice_uncertainty_mm = 0.01;
  return tester;
}

static inline lw_flank ramp_of(double mm, double mm_per_deg) {
  lw_flank flank = LW_INIT(lw_flank);
  flank.kind = LW_FLANK_KIND_RAMP;
  flank.ramp_mm = mm;
  flank.ramp_mm_per_deg = mm_per_deg;
  return flank;
}

static inline lw_running_valve with_lash(double mm, const lw_flank *flank) {
  lw_running_valve valve = LW_INIT(lw_running_valve);
  valve.opening = valve.closing = flank;
  valve.lash_mm = mm;
  valve.lash_uncertainty_mm = 0.01;
  valve.holds_at = LW_EVENTS_AT_LASH;
  valve.holds_at_mm = 0.15;
  valve.rocker_ratio = 1;
  return valve;
}

static inline lw_printed_events usual_events(void) {
  lw_printed_events printed = LW_INIT(lw_printed_events);
  printed.intake_opens_btdc_deg = printed.exhaust_closes_atdc_deg = 15;
  printed.intake_closes_abdc_deg = printed.exhaust_opens_bbdc_deg = 50;
  return printed;
}

/* Four readings of one valve that closes. */
static inline lw_past_readings closing(const double *at, const double *mm, const double *u) {
  lw_past_readings readings = LW_INIT(lw_past_readings);
  readings.rows = 4;
  readings.at = at;
  readings.low_mm = readings.high_mm = mm;
  readings.uncertainty_mm = u;
  readings.counted_by = LW_COUNTED_BY_HOURS;
  return readings;
}

#endif
