/* Direct calls about condition and events: compression, leaks, the head's bolts, valve events. */
#ifndef LASHWORK_TESTS_CONDITION_CALLS_H
#define LASHWORK_TESTS_CONDITION_CALLS_H

#include "balance_calls.h"
#include "mixture_calls.h"

#include <math.h>

/* An engine, and its crank at the end of it if that is known. */
static lw_cranking cranking_of(Inputs *in, lw_slider_crank *crank) {
  lw_cranking engine = LW_INIT(lw_cranking);
  engine.ratio = number(in);
  engine.ratio_uncertainty = number(in);
  engine.intake_closes_abdc_deg = number(in);
  engine.closes_uncertainty_deg = number(in);
  engine.air_kpa = number(in);
  engine.air_uncertainty_kpa = number(in);
  engine.closes_known = choice(in);
  engine.air_known = choice(in);
  int has_crank = choice(in) == 1;
  crank->struct_size = sizeof *crank;
  crank->crank_radius_mm = number(in);
  crank->rod_mm = number(in);
  crank->offset_mm = number(in);
  engine.crank = has_crank ? crank : NULL;
  return engine;
}

static void expected(const char *call, Inputs *in) {
  lw_slider_crank crank;
  lw_cranking engine = cranking_of(in, &crank);
  double first = number(in), second = number(in);
  lw_error *error = NULL;
  if (strcmp(call, "implied_exponent") == 0) {
    double x[2] = {0, 0};
    told(lw_implied_exponent(&engine, first, second, x, x + 1, &error), &error, x, 2);
    return;
  }
  lw_compression found = LW_INIT(lw_compression);
  if (done(lw_expected_compression(&engine, first, second, &found, &error), &error)) {
    put_bits(found.low_kpa);
    put_bits(found.high_kpa);
    put_bits(found.uncertainty_kpa);
    put_bits(found.effective_ratio);
  }
}

static void compressions(Inputs *in) {
  lw_compression_readings readings = LW_INIT(lw_compression_readings);
  size_t ignored = 0;
  double *dry = numbers(in, &readings.rows), *wet = numbers(in, &ignored);
  for (size_t i = 0; wet != NULL && i < ignored; ++i) {
    wet[i] = wet[i] < 0 ? INFINITY : wet[i];
  }
  uint32_t *rose = choices(in, &ignored), *head = choices(in, &ignored);
  readings.dry_kpa = dry;
  readings.wet_kpa = wet;
  readings.build_up = rose;
  readings.head = head;
  readings.air_kpa = number(in);
  readings.repeat_kpa = number(in);
  readings.gauge_kpa = number(in);
  readings.air_known = choice(in);
  readings.gauge_known = choice(in);
  readings.clearances_good = choice(in);
  lw_compression_rule rule = LW_INIT(lw_compression_rule);
  rule.kind = choice(in);
  rule.number = number(in);
  int has_engine = choice(in) == 1;
  lw_slider_crank crank;
  lw_cranking engine = LW_INIT(lw_cranking);
  if (has_engine) {
    engine = cranking_of(in, &crank);
  }
  lw_compression_verdict verdict = LW_INIT(lw_compression_verdict);
  lw_cylinder_columns found = LW_INIT(lw_cylinder_columns);
  double made[10][MOST_ITEMS];
  uint8_t verdicts[MOST_ITEMS];
  found.rows = readings.rows;
  double **columns[10] = {&found.share, &found.share_uncertainty, &found.expected_kpa, &found.expected_uncertainty_kpa,
                          &found.within, &found.sound, &found.rings, &found.valve, &found.gasket, &found.something_else};
  for (int i = 0; i < 10; ++i) {
    *columns[i] = made[i];
  }
  found.verdict = verdicts;
  lw_error *error = NULL;
  if (done(lw_judge_compression(&readings, has_engine ? &engine : NULL, rule.kind == 0 ? NULL : &rule, &verdict, &found, &error),
           &error)) {
    put_bits(verdict.limit_kpa);
    put_bits(verdict.within);
    put_bits(verdict.standard_kpa);
    put_bits(verdict.standard_uncertainty_kpa);
    put_bits(verdict.exponent);
    put_bits(verdict.exponent_uncertainty);
    put_whole(verdict.verdict);
    put_whole(verdict.next);
    for (size_t row = 0; row < readings.rows; ++row) {
      for (int i = 0; i < 10; ++i) {
        if (i == 5) {
          put_whole(verdicts[row]);
        }
        put_bits(made[i][row]);
      }
    }
  }
  free(dry);
  free(wet);
  free(rose);
  free(head);
}

static lw_leak_tester tester_of(Inputs *in) {
  lw_leak_tester tester = LW_INIT(lw_leak_tester);
  tester.supply_kpa = number(in);
  tester.supply_uncertainty_kpa = number(in);
  tester.orifice_mm = number(in);
  tester.orifice_uncertainty_mm = number(in);
  return tester;
}

static void leak_columns(Inputs *in, const lw_leak_tester *tester) {
  lw_leak_reading_columns readings = LW_INIT(lw_leak_reading_columns);
  double *shown = numbers(in, &readings.rows), *air = numbers(in, &readings.rows);
  readings.shown_kpa = shown;
  readings.air_kpa = air;
  readings.shown_uncertainty_kpa = number(in);
  readings.air_uncertainty_kpa = number(in);
  double made[3][MOST_ITEMS];
  lw_leak_columns found = LW_INIT(lw_leak_columns);
  found.rows = readings.rows;
  found.area_mm2 = made[0];
  found.uncertainty_mm2 = made[1];
  found.hole_mm = made[2];
  lw_error *error = NULL;
  if (rows_done(lw_leak_of_columns(tester, &readings, &found, &error), &error)) {
    put_rows(made, 3, readings.rows);
  }
  free(shown);
  free(air);
}

static void leaks(const char *call, Inputs *in) {
  lw_leak_tester tester = tester_of(in);
  lw_error *error = NULL;
  if (strcmp(call, "leak_of_columns") == 0) {
    leak_columns(in, &tester);
  } else if (strcmp(call, "tester_would_show") == 0) {
    double area = number(in), air = number(in), x = 0;
    told(lw_tester_would_show(&tester, area, air, &x, &error), &error, &x, 1);
  } else {
    double shown = number(in), shown_u = number(in), air = number(in), air_u = number(in);
    lw_leak found = LW_INIT(lw_leak);
    if (done(lw_leak_area(&tester, shown, shown_u, air, air_u, &found, &error), &error)) {
      put_bits(found.area_mm2);
      put_bits(found.uncertainty_mm2);
      put_bits(found.hole_mm);
      put_bits(found.over_orifice);
      put_bits(found.percent_lost);
      put_whole(found.orifice_choked);
      put_whole(found.leak_choked);
    }
  }
}

static void adapters(const char *call, Inputs *in) {
  lw_adapter adapter = LW_INIT(lw_adapter);
  adapter.wrench_mm = number(in);
  adapter.adapter_mm = number(in);
  adapter.turned_deg = number(in);
  double torque = number(in), x = 0;
  lw_error *error = NULL;
  if (strcmp(call, "wrench_setting") == 0) {
    told(lw_wrench_setting(&adapter, torque, &x, &error), &error, &x, 1);
  } else {
    told(lw_torque_at_bolt(&adapter, torque, &x, &error), &error, &x, 1);
  }
}

static void bolts(const char *call, Inputs *in) {
  lw_error *error = NULL;
  double x = 0;
  if (strcmp(call, "wrench_uncertainty") == 0) {
    double most = number(in), percent = number(in), set = number(in);
    told(lw_wrench_uncertainty(most, percent, set, &x, &error), &error, &x, 1);
  } else if (strcmp(call, "nut_factor") == 0) {
    lw_bolt_friction bolt = LW_INIT(lw_bolt_friction);
    bolt.diameter_mm = number(in);
    bolt.pitch_mm = number(in);
    bolt.bearing_mm = number(in);
    bolt.thread = number(in);
    bolt.head = number(in);
    told(lw_nut_factor(&bolt, &x, &error), &error, &x, 1);
  } else if (strcmp(call, "preload_of_torque") == 0) {
    double torque = number(in), diameter = number(in), factor = number(in);
    uint32_t kind = choice(in);
    lw_preload found = LW_INIT(lw_preload);
    if (done(lw_preload_of_torque(torque, diameter, factor, kind, number(in), &found, &error), &error)) {
      put_bits(found.least_kn);
      put_bits(found.middle_kn);
      put_bits(found.most_kn);
      put_bits(found.scatter_from_percent);
      put_bits(found.scatter_to_percent);
    }
  } else {
    adapters(call, in);
  }
}

static lw_flank flank_of(Inputs *in) {
  lw_flank flank = LW_INIT(lw_flank);
  flank.kind = choice(in);
  flank.ramp_mm = number(in);
  flank.ramp_mm_per_deg = number(in);
  flank.flank_mm_per_deg = number(in);
  flank.thin_mm = number(in);
  flank.thick_mm = number(in);
  flank.apart_deg = number(in);
  flank.lift_mm = number(in);
  flank.duration_deg = number(in);
  return flank;
}

static lw_running_valve running_of(Inputs *in, lw_flank flanks[2]) {
  lw_running_valve valve = LW_INIT(lw_running_valve);
  valve.lash_mm = number(in);
  valve.lash_uncertainty_mm = number(in);
  valve.holds_at_mm = number(in);
  valve.rocker_ratio = number(in);
  valve.holds_at = choice(in);
  flanks[0] = flank_of(in);
  flanks[1] = flank_of(in);
  valve.opening = flanks;
  valve.closing = flanks + 1;
  return valve;
}

static void valve_events(Inputs *in) {
  lw_printed_events printed = LW_INIT(lw_printed_events);
  printed.intake_opens_btdc_deg = number(in);
  printed.intake_closes_abdc_deg = number(in);
  printed.exhaust_opens_bbdc_deg = number(in);
  printed.exhaust_closes_atdc_deg = number(in);
  printed.compression_ratio = number(in);
  printed.ratio_known = choice(in);
  int has_crank = choice(in) == 1;
  lw_slider_crank crank = LW_INIT(lw_slider_crank);
  crank.crank_radius_mm = number(in);
  crank.rod_mm = number(in);
  crank.offset_mm = number(in);
  printed.crank = has_crank ? &crank : NULL;
  lw_flank flanks[4];
  lw_running_valve intake = running_of(in, flanks), exhaust = running_of(in, flanks + 2);
  enum { ROWS = LW_EVENT_ROW_OVERLAP + 1 };
  double made[4][MOST_ITEMS];
  lw_event_columns found = LW_INIT(lw_event_columns);
  found.rows = ROWS;
  found.low_deg = made[0];
  found.high_deg = made[1];
  found.uncertainty_deg = made[2];
  found.printed_deg = made[3];
  lw_effective_ratio ratio = LW_INIT(lw_effective_ratio);
  lw_error *error = NULL;
  if (done(lw_events_at_lash(&printed, &intake, &exhaust, &found, &ratio, &error), &error)) {
    put_rows(made, 4, ROWS);
    put_bits(ratio.printed);
    put_bits(ratio.running);
    put_bits(ratio.uncertainty);
  }
}

static void conditions(const char *call, Inputs *in) {
  if (strcmp(call, "judge_compression") == 0) {
    compressions(in);
  } else if (strcmp(call, "events_at_lash") == 0) {
    valve_events(in);
  } else if (strcmp(call, "compression_in_other_air") == 0) {
    double shown = number(in), here = number(in), x = 0;
    lw_error *error = NULL;
    told(lw_compression_in_other_air(shown, here, number(in), &x, &error), &error, &x, 1);
  } else if (strcmp(call, "expected_compression") == 0 || strcmp(call, "implied_exponent") == 0) {
    expected(call, in);
  } else if (strstr(" leak_area tester_would_show leak_of_columns ", call) != NULL) {
    leaks(call, in);
  } else {
    bolts(call, in);
  }
}

#endif
