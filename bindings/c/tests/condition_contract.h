/* What the calls about condition, events and past services promise beyond their numbers. */
#ifndef LASHWORK_TESTS_CONDITION_CONTRACT_H
#define LASHWORK_TESTS_CONDITION_CONTRACT_H

#include "condition_parts.h"

#include <math.h>

/* A row that is no reading refuses the call, or is marked; what is reserved and what is no choice is refused. */
static void compression_contract(void) {
  double dry[3] = {900, 890, -5}, share[3] = {7, 7, 7};
  lw_compression_readings read = LW_INIT(lw_compression_readings);
  read.rows = 3;
  read.dry_kpa = dry;
  lw_compression_verdict verdict = LW_INIT(lw_compression_verdict);
  lw_cylinder_columns cylinders = LW_INIT(lw_cylinder_columns);
  cylinders.rows = 2;
  cylinders.share = share;
#define JUDGED(rule) lw_judge_compression(&read, NULL, rule, &verdict, &cylinders, &error)
  CHECK_STATUS(LW_STATUS_SHORT_BUFFER, JUDGED(NULL));
  cylinders.rows = 3;
  CHECK_STATUS(LW_STATUS_REFUSED, JUDGED(NULL));
  dry[2] = NAN;
  lw_error *why = NULL;
  CHECK(lw_judge_compression(&read, NULL, NULL, &verdict, &cylinders, &why) == LW_STATUS_REFUSED);
  size_t row = 9;
  CHECK(lw_error_row(why, &row) && row == 2);
  lw_error_free(why);
  dry[2] = 880;
  uint32_t rose[3] = {0, 3, 4};
  read.build_up = rose;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, JUDGED(NULL));
  read.build_up = NULL;
  uint32_t *reserved[4] = {&read.reserved, &read.air_known, &read.gauge_known, &read.clearances_good};
  for (int i = 0; i < 4; ++i) {
    *reserved[i] = 2;
    CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, JUDGED(NULL));
    *reserved[i] = 0;
  }
  lw_compression_rule rule = LW_INIT(lw_compression_rule);
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, JUDGED(&rule));
  rule.kind = LW_COMPRESSION_RULE_KIND_PERCENT_OF_HIGHEST;
  rule.number = 75;
  CHECK(share[0] == 7);
  CHECK_STATUS(LW_STATUS_OK, JUDGED(&rule));
  CHECK(verdict.verdict == LW_VERDICT_IN_BAND && verdict.limit_kpa == 675 && share[0] > 1 && share[2] < 1);
#undef JUDGED
  lw_cranking engine = nine_to_one();
  engine.air_known = 2;
  lw_compression shown = LW_INIT(lw_compression);
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_expected_compression(&engine, 1.2, 1.3, &shown, &error));
  lw_preload force = LW_INIT(lw_preload);
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_preload_of_torque(100, 10, 0.2, 9, 0, &force, &error));
}

static void leak_contract(void) {
  lw_leak_tester tester = eighty_psi();
  double shown[3] = {413.69, 600, 275.79}, air[3] = {101.325, 101.325, 84.3}, area[3] = {9, 9, 9};
  uint32_t status[3] = {99, 99, 99};
  lw_leak_reading_columns in = LW_INIT(lw_leak_reading_columns);
  in.rows = 3;
  in.shown_kpa = shown;
  in.air_kpa = air;
  in.shown_uncertainty_kpa = 4;
  lw_leak_columns out = LW_INIT(lw_leak_columns);
  out.rows = 2;
  out.area_mm2 = area;
  out.status = status;
  CHECK_STATUS(LW_STATUS_SHORT_BUFFER, lw_leak_of_columns(&tester, &in, &out, &error));
  out.rows = 3;
  in.air_uncertainty_kpa = -1;
  CHECK_STATUS(LW_STATUS_REFUSED, lw_leak_of_columns(&tester, &in, &out, &error));
  in.air_uncertainty_kpa = 0.5;
  CHECK(area[0] == 9);
  lw_error *why = NULL;
  CHECK(lw_leak_of_columns(&tester, &in, &out, &why) == LW_STATUS_ROWS_REFUSED);
  size_t row = 9;
  CHECK(lw_error_row(why, &row) && row == 1 && strcmp(lw_error_code(why), "condition.leak-over-supply") == 0);
  lw_error_free(why);
  CHECK(fabs(area[0] - 0.85819) < 1e-4 && isnan(area[1]) && area[2] > area[0]);
  CHECK(status[0] == LW_STATUS_OK && status[1] == LW_STATUS_REFUSED && status[2] == LW_STATUS_OK);
}

static void events_contract(void) {
  lw_flank flank = ramp_of(0.4, 0.02);
  lw_running_valve valve = with_lash(0.5, &flank);
  lw_printed_events printed = usual_events();
  double low[7] = {77}, high[7];
  lw_event_columns found = LW_INIT(lw_event_columns);
  found.rows = 6;
  found.low_deg = low;
  found.high_deg = high;
  lw_effective_ratio ratio = LW_INIT(lw_effective_ratio);
#define EVENTS lw_events_at_lash(&printed, &valve, &valve, &found, &ratio, &error)
  CHECK_STATUS(LW_STATUS_SHORT_BUFFER, EVENTS);
  found.rows = 7;
  uint32_t *choices[6] = {&flank.kind, &flank.reserved, &valve.holds_at, &valve.reserved, &printed.ratio_known, &printed.reserved};
  for (int i = 0; i < 6; ++i) {
    uint32_t kept = *choices[i];
    *choices[i] = 77;
    CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, EVENTS);
    *choices[i] = kept;
  }
  CHECK(low[0] == 77);
  CHECK_STATUS(LW_STATUS_OK, EVENTS);
  /* The ramp ends under the lash: one end only. */
  CHECK(low[LW_EVENT_ROW_INTAKE_CLOSES] == -INFINITY && high[LW_EVENT_ROW_INTAKE_CLOSES] == 25);
  CHECK(isnan(ratio.printed) && isnan(ratio.running) && isnan(ratio.uncertainty));
#undef EVENTS
}

static void history_contract(void) {
  double at[4] = {0, 50, 100, 150}, mm[4] = {0.300, 0.281, 0.262, 0.239}, u[4] = {0, 0, 0, 0};
  uint32_t valve[4] = {0, 0, 1, 1}, status[2] = {99, 99};
  uint8_t state[4] = {LW_PAST_STATE_FOUND, LW_PAST_STATE_FOUND, LW_PAST_STATE_FOUND, 9}, look[2] = {77, 77};
  double rate[2] = {7, 7}, look_at[2] = {7, 7};
  lw_past_readings past = closing(at, mm, u);
  lw_limits limits = LW_INIT(lw_limits);
  limits.span = LW_SPAN_AT_LEAST;
  limits.lower_nm = 200000;
  lw_rule rule = LW_INIT(lw_rule);
  rule.kind = LW_RULE_KIND_GUARDED_TIGHT;
  lw_drift_columns found = LW_INIT(lw_drift_columns);
  found.rows = 1;
  found.look = look;
  found.rate = rate;
  found.look_at = look_at;
  found.status = status;
#define DRIFTS(valves) lw_drift_of_columns(&past, valves, &limits, &rule, &found, &error)
  CHECK_STATUS(LW_STATUS_SHORT_BUFFER, DRIFTS(2));
  found.rows = 2;
  uint32_t *choices[2] = {&past.counted_by, &past.scatter_known};
  for (int i = 0; i < 2; ++i) {
    uint32_t kept = *choices[i];
    *choices[i] = 77;
    CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, DRIFTS(1));
    *choices[i] = kept;
  }
  past.state = state;
  lw_error *why = NULL;
  CHECK(lw_drift_of_columns(&past, 1, &limits, &rule, &found, &why) == LW_STATUS_UNKNOWN_VALUE);
  size_t row = 9;
  CHECK(lw_error_row(why, &row) && row == 3);
  lw_error_free(why);
  past.state = NULL;
  CHECK(look[0] == 77 && rate[0] == 7);
  CHECK_STATUS(LW_STATUS_OK, DRIFTS(1));
  CHECK(look[0] == LW_LOOK_AT && look_at[0] > 210 && look_at[0] < 240 && fabs(rate[0] + 0.000404) < 1e-6);
  /* The second valve is read backwards; the first is still told. */
  past.valve = valve;
  at[3] = 60;
  CHECK(lw_drift_of_columns(&past, 2, &limits, &rule, &found, &why) == LW_STATUS_ROWS_REFUSED);
  CHECK(lw_error_row(why, &row) && row == 1 && strcmp(lw_error_code(why), "history.time-backwards") == 0);
  lw_error_free(why);
  CHECK(look[0] == LW_LOOK_TOO_FEW && isnan(rate[0]) && status[0] == LW_STATUS_OK);
  CHECK(look[1] == LW_LOOK_REFUSED && isnan(look_at[1]) && status[1] == LW_STATUS_REFUSED);
  valve[0] = 1;
  CHECK_STATUS(LW_STATUS_REFUSED, DRIFTS(2));
#undef DRIFTS
  at[3] = 150;
  past.valve = NULL;
  lw_drift whole = LW_INIT(lw_drift);
  lw_valve_drift_columns of = LW_INIT(lw_valve_drift_columns);
  of.rows = 1;
  of.look = look;
  at[2] = 40;
  CHECK(lw_drift_of_record(&past, 1, &limits, &rule, &whole, &of, &why) == LW_STATUS_REFUSED);
  CHECK(lw_error_row(why, &row) && row == 2);
  lw_error_free(why);
  at[2] = 100;
  CHECK_STATUS(LW_STATUS_OK, lw_drift_of_record(&past, 1, &limits, &rule, &whole, &of, &error));
  CHECK(whole.rate == rate[0] || fabs(whole.rate + 0.000404) < 1e-6);
  CHECK(whole.lacking == 0 && whole.rate_low < whole.rate && whole.rate < whole.rate_high);
  past.rows = 2;
  CHECK_STATUS(LW_STATUS_OK, lw_drift_of_record(&past, 1, &limits, &rule, &whole, &of, &error));
  CHECK(whole.lacking == 1 && isnan(whole.rate) && look[0] == LW_LOOK_TOO_FEW);
  past.rows = 4;
  double off[3];
  size_t count = 0;
  lw_departure_columns departures = LW_INIT(lw_departure_columns);
  departures.rows = 2;
  departures.off = off;
  CHECK_STATUS(LW_STATUS_SHORT_BUFFER, lw_departures_of_record(&past, 1, 0, &departures, &count, &error));
  CHECK(count == 3);
  departures.rows = 3;
  CHECK_STATUS(LW_STATUS_OK, lw_departures_of_record(&past, 1, 0, &departures, &count, &error));
  CHECK_STATUS(LW_STATUS_OUT_OF_BOUNDS, lw_departures_of_record(&past, 1, 1, &departures, &count, &error));
  CHECK_STATUS(LW_STATUS_REFUSED, lw_departures_of_record(&past, SIZE_MAX, 0, &departures, &count, &error));
}

static void condition_contract(void) {
  compression_contract();
  leak_contract();
  events_contract();
  history_contract();
}

#endif
