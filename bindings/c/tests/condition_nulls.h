/* Calls about condition, events and past services, with each of their pointers NULL in turn. */
#ifndef LASHWORK_TESTS_CONDITION_NULLS_H
#define LASHWORK_TESTS_CONDITION_NULLS_H

#include "condition_parts.h"

#define NULL_REFUSED(call) CHECK_STATUS(LW_STATUS_NULL_POINTER, call)

static void condition_nulls(void) {
  lw_cranking engine = nine_to_one();
  lw_compression shown = LW_INIT(lw_compression);
  double x = 7, y = 7;
  NULL_REFUSED(lw_expected_compression(NULL, 1.2, 1.3, &shown, &error));
  NULL_REFUSED(lw_expected_compression(&engine, 1.2, 1.3, NULL, &error));
  NULL_REFUSED(lw_implied_exponent(NULL, 900, 15, &x, &y, &error));
  NULL_REFUSED(lw_implied_exponent(&engine, 900, 15, NULL, &y, &error));
  NULL_REFUSED(lw_implied_exponent(&engine, 900, 15, &x, NULL, &error));
  NULL_REFUSED(lw_compression_in_other_air(900, 101, 90, NULL, &error));

  double dry[2] = {900, 890}, share[2] = {7, 7};
  lw_compression_readings read = LW_INIT(lw_compression_readings);
  read.rows = 2;
  read.dry_kpa = dry;
  lw_compression_verdict verdict = LW_INIT(lw_compression_verdict);
  verdict.next = 7;
  lw_cylinder_columns cylinders = LW_INIT(lw_cylinder_columns);
  cylinders.rows = 2;
  cylinders.share = share;
  NULL_REFUSED(lw_judge_compression(NULL, NULL, NULL, &verdict, &cylinders, &error));
  NULL_REFUSED(lw_judge_compression(&read, NULL, NULL, NULL, &cylinders, &error));
  NULL_REFUSED(lw_judge_compression(&read, NULL, NULL, &verdict, NULL, &error));
  cylinders.share = NULL;
  NULL_REFUSED(lw_judge_compression(&read, NULL, NULL, &verdict, &cylinders, &error));
  cylinders.share = share;
  read.dry_kpa = NULL;
  NULL_REFUSED(lw_judge_compression(&read, NULL, NULL, &verdict, &cylinders, &error));
  read.dry_kpa = dry;
  CHECK(share[0] == 7 && verdict.next == 7);
  /* Neither an engine nor a rule nor any other column is needed. */
  CHECK_STATUS(LW_STATUS_OK, lw_judge_compression(&read, NULL, NULL, &verdict, &cylinders, &error));
  CHECK(share[0] > 1 && verdict.next == 0 && verdict.verdict == 0);

  lw_leak_tester tester = eighty_psi();
  lw_leak leak = LW_INIT(lw_leak);
  NULL_REFUSED(lw_leak_area(NULL, 400, 4, 101, 0.5, &leak, &error));
  NULL_REFUSED(lw_leak_area(&tester, 400, 4, 101, 0.5, NULL, &error));
  NULL_REFUSED(lw_tester_would_show(NULL, 1, 101, &x, &error));
  NULL_REFUSED(lw_tester_would_show(&tester, 1, 101, NULL, &error));
  double stood[1] = {400}, air[1] = {101}, area[1] = {7};
  lw_leak_reading_columns in = LW_INIT(lw_leak_reading_columns);
  in.rows = 1;
  in.shown_kpa = stood;
  in.air_kpa = air;
  lw_leak_columns out = LW_INIT(lw_leak_columns);
  out.rows = 1;
  out.area_mm2 = area;
  NULL_REFUSED(lw_leak_of_columns(NULL, &in, &out, &error));
  NULL_REFUSED(lw_leak_of_columns(&tester, NULL, &out, &error));
  NULL_REFUSED(lw_leak_of_columns(&tester, &in, NULL, &error));
  in.air_kpa = NULL;
  NULL_REFUSED(lw_leak_of_columns(&tester, &in, &out, &error));
  in.air_kpa = air;
  in.shown_kpa = NULL;
  NULL_REFUSED(lw_leak_of_columns(&tester, &in, &out, &error));
  in.shown_kpa = stood;
  out.area_mm2 = NULL;
  NULL_REFUSED(lw_leak_of_columns(&tester, &in, &out, &error));
  CHECK(area[0] == 7);

  lw_adapter adapter = LW_INIT(lw_adapter);
  adapter.wrench_mm = 400;
  lw_bolt_friction bolt = LW_INIT(lw_bolt_friction);
  NULL_REFUSED(lw_wrench_setting(NULL, 50, &x, &error));
  NULL_REFUSED(lw_wrench_setting(&adapter, 50, NULL, &error));
  NULL_REFUSED(lw_torque_at_bolt(NULL, 50, &x, &error));
  NULL_REFUSED(lw_torque_at_bolt(&adapter, 50, NULL, &error));
  NULL_REFUSED(lw_wrench_uncertainty(200, 4, 80, NULL, &error));
  NULL_REFUSED(lw_nut_factor(NULL, &x, &error));
  NULL_REFUSED(lw_nut_factor(&bolt, NULL, &error));
  NULL_REFUSED(lw_preload_of_torque(100, 10, 0.2, LW_TIGHTENING_DRY_TORQUE, 0, NULL, &error));
  CHECK(x == 7 && y == 7);
}

static void events_nulls(void) {
  lw_flank flank = ramp_of(0.4, 0.02);
  lw_running_valve valve = with_lash(0.25, &flank);
  lw_printed_events printed = usual_events();
  double low[7] = {77};
  lw_event_columns found = LW_INIT(lw_event_columns);
  found.rows = 7;
  found.low_deg = low;
  NULL_REFUSED(lw_events_at_lash(NULL, &valve, &valve, &found, NULL, &error));
  NULL_REFUSED(lw_events_at_lash(&printed, NULL, &valve, &found, NULL, &error));
  NULL_REFUSED(lw_events_at_lash(&printed, &valve, NULL, &found, NULL, &error));
  NULL_REFUSED(lw_events_at_lash(&printed, &valve, &valve, NULL, NULL, &error));
  found.low_deg = NULL;
  NULL_REFUSED(lw_events_at_lash(&printed, &valve, &valve, &found, NULL, &error));
  found.low_deg = low;
  lw_running_valve flat = valve;
  flat.opening = NULL;
  NULL_REFUSED(lw_events_at_lash(&printed, &flat, &valve, &found, NULL, &error));
  flat.opening = &flank;
  flat.closing = NULL;
  NULL_REFUSED(lw_events_at_lash(&printed, &valve, &flat, &found, NULL, &error));
  CHECK(low[0] == 77);
  /* Neither the ratio nor any other column is needed. */
  CHECK_STATUS(LW_STATUS_OK, lw_events_at_lash(&printed, &valve, &valve, &found, NULL, &error));
  CHECK(low[LW_EVENT_ROW_INTAKE_OPENS] > 4.9 && low[LW_EVENT_ROW_INTAKE_OPENS] < 5.1);
}

static void history_nulls(void) {
  double at[4] = {0, 50, 100, 150}, mm[4] = {0.300, 0.281, 0.262, 0.239}, u[4] = {0, 0, 0, 0}, x[8] = {7};
  uint8_t look[1] = {77};
  size_t count = 7;
  lw_past_readings past = closing(at, mm, u);
  lw_limits limits = LW_INIT(lw_limits);
  limits.span = LW_SPAN_AT_LEAST;
  limits.lower_nm = 200000;
  lw_rule rule = LW_INIT(lw_rule);
  rule.kind = LW_RULE_KIND_GUARDED_TIGHT;
  lw_drift whole = LW_INIT(lw_drift);
  lw_valve_drift_columns valves = LW_INIT(lw_valve_drift_columns);
  lw_drift_columns drifts = LW_INIT(lw_drift_columns);
  lw_forecast_columns forecasts = LW_INIT(lw_forecast_columns);
  lw_departure_columns departures = LW_INIT(lw_departure_columns);
  valves.rows = drifts.rows = forecasts.rows = 1;
  valves.look = drifts.look = look;
  forecasts.found_mm = departures.off = x;
  departures.rows = 4;
  NULL_REFUSED(lw_drift_of_record(NULL, 1, &limits, &rule, &whole, &valves, &error));
  NULL_REFUSED(lw_drift_of_record(&past, 1, NULL, &rule, &whole, &valves, &error));
  NULL_REFUSED(lw_drift_of_record(&past, 1, &limits, NULL, &whole, &valves, &error));
  NULL_REFUSED(lw_drift_of_record(&past, 1, &limits, &rule, NULL, &valves, &error));
  NULL_REFUSED(lw_drift_of_record(&past, 1, &limits, &rule, &whole, NULL, &error));
  NULL_REFUSED(lw_forecast_of_record(NULL, 1, 200, &forecasts, &error));
  NULL_REFUSED(lw_forecast_of_record(&past, 1, 200, NULL, &error));
  NULL_REFUSED(lw_departures_of_record(NULL, 1, 0, &departures, &count, &error));
  NULL_REFUSED(lw_departures_of_record(&past, 1, 0, NULL, &count, &error));
  NULL_REFUSED(lw_departures_of_record(&past, 1, 0, &departures, NULL, &error));
  NULL_REFUSED(lw_drift_of_columns(NULL, 1, &limits, &rule, &drifts, &error));
  NULL_REFUSED(lw_drift_of_columns(&past, 1, NULL, &rule, &drifts, &error));
  NULL_REFUSED(lw_drift_of_columns(&past, 1, &limits, NULL, &drifts, &error));
  NULL_REFUSED(lw_drift_of_columns(&past, 1, &limits, &rule, NULL, &error));
  const double **columns[4] = {&past.at, &past.low_mm, &past.high_mm, &past.uncertainty_mm};
  for (int i = 0; i < 4; ++i) {
    const double *kept = *columns[i];
    *columns[i] = NULL;
    NULL_REFUSED(lw_drift_of_record(&past, 1, &limits, &rule, &whole, &valves, &error));
    NULL_REFUSED(lw_drift_of_columns(&past, 1, &limits, &rule, &drifts, &error));
    *columns[i] = kept;
  }
  valves.look = drifts.look = NULL;
  forecasts.found_mm = departures.off = NULL;
  NULL_REFUSED(lw_drift_of_record(&past, 1, &limits, &rule, &whole, &valves, &error));
  NULL_REFUSED(lw_drift_of_columns(&past, 1, &limits, &rule, &drifts, &error));
  NULL_REFUSED(lw_forecast_of_record(&past, 1, 200, &forecasts, &error));
  /* How many there are is written, as for any room that is short. */
  NULL_REFUSED(lw_departures_of_record(&past, 1, 0, &departures, &count, &error));
  CHECK(look[0] == 77 && x[0] == 7 && whole.rate == 0 && count == 3);
}

#endif
