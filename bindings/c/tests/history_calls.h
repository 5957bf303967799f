/* Direct calls about past services. */
#ifndef LASHWORK_TESTS_HISTORY_CALLS_H
#define LASHWORK_TESTS_HISTORY_CALLS_H

#include "condition_calls.h"

/* Readings, with the columns that they point to. */
typedef struct Past {
  lw_past_readings readings;
  double *columns[4];
  uint32_t *valve;
  uint8_t *state;
} Past;

static Past past_of(Inputs *in) {
  Past past = {.readings = LW_INIT(lw_past_readings)};
  lw_past_readings *readings = &past.readings;
  size_t ignored = 0;
  for (int i = 0; i < 4; ++i) {
    past.columns[i] = numbers(in, &readings->rows);
  }
  /* An end that is not there is infinite in a column. */
  uint32_t *span = choices(in, &ignored);
  for (size_t row = 0; span != NULL && row < readings->rows; ++row) {
    past.columns[1][row] = span[row] >= 3 ? -INFINITY : past.columns[1][row];
    past.columns[2][row] = span[row] == 2 || span[row] == 4 ? INFINITY : past.columns[2][row];
  }
  free(span);
  past.valve = choices(in, &ignored);
  uint32_t *state = choices(in, &ignored);
  past.state = state == NULL ? NULL : malloc(readings->rows);
  for (size_t row = 0; state != NULL && row < readings->rows; ++row) {
    past.state[row] = (uint8_t)state[row];
  }
  free(state);
  readings->at = past.columns[0];
  readings->low_mm = past.columns[1];
  readings->high_mm = past.columns[2];
  readings->uncertainty_mm = past.columns[3];
  readings->valve = past.valve;
  readings->state = past.state;
  readings->counted_by = choice(in);
  readings->bedding_in = number(in);
  readings->scatter_mm = number(in);
  readings->scatter_known = choice(in);
  return past;
}

static void past_free(Past *past) {
  for (int i = 0; i < 4; ++i) {
    free(past->columns[i]);
  }
  free(past->valve);
  free(past->state);
}

static void drift_of_record(Inputs *in, const Past *past, size_t valves) {
  lw_limits limits = limits_of(in);
  lw_rule rule = rule_of(in);
  lw_drift whole = LW_INIT(lw_drift);
  lw_valve_drift_columns found = LW_INIT(lw_valve_drift_columns);
  double made[7][MOST_ITEMS];
  uint8_t look[MOST_ITEMS];
  found.rows = valves;
  found.rate = made[0];
  found.rate_uncertainty = made[1];
  found.rate_low = made[2];
  found.rate_high = made[3];
  found.look_at = made[4];
  found.odd_evidence = made[5];
  found.odd_needed = made[6];
  found.look = look;
  lw_error *error = NULL;
  if (!done(lw_drift_of_record(&past->readings, valves, &limits, &rule, &whole, &found, &error), &error)) {
    return;
  }
  put_bits(whole.rate);
  put_bits(whole.rate_uncertainty);
  put_bits(whole.rate_low);
  put_bits(whole.rate_high);
  put_bits(whole.scatter_mm);
  put_bits(whole.spread);
  put_whole((int64_t)whole.lacking);
  for (size_t valve = 0; valve < valves; ++valve) {
    for (int i = 0; i < 7; ++i) {
      if (i == 4) {
        put_whole(look[valve]);
      }
      put_bits(made[i][valve]);
    }
  }
}

static void forecast_of_record(Inputs *in, const Past *past, size_t valves) {
  double made[6][MOST_ITEMS];
  lw_forecast_columns found = LW_INIT(lw_forecast_columns);
  found.rows = valves;
  found.found_mm = made[0];
  found.found_uncertainty_mm = made[1];
  found.found_low_mm = made[2];
  found.found_high_mm = made[3];
  found.line_mm = made[4];
  found.line_uncertainty_mm = made[5];
  lw_error *error = NULL;
  if (done(lw_forecast_of_record(&past->readings, valves, number(in), &found, &error), &error)) {
    put_rows(made, 6, valves);
  }
}

static void departures_of_record(Inputs *in, const Past *past, size_t valves) {
  double made[4][MOST_ITEMS];
  lw_departure_columns found = LW_INIT(lw_departure_columns);
  found.rows = MOST_ITEMS;
  found.at = made[0];
  found.off = made[1];
  found.above = made[2];
  found.below = made[3];
  size_t valve = (size_t)whole(in), count = 0;
  lw_error *error = NULL;
  if (done(lw_departures_of_record(&past->readings, valves, valve, &found, &count, &error), &error)) {
    put_rows(made, 4, count);
  }
}

static void drift_of_columns(Inputs *in, const Past *past, size_t valves) {
  lw_limits limits = limits_of(in);
  lw_rule rule = rule_of(in);
  double made[3][MOST_ITEMS];
  uint8_t look[MOST_ITEMS];
  lw_drift_columns found = LW_INIT(lw_drift_columns);
  found.rows = valves;
  found.rate = made[0];
  found.rate_uncertainty = made[1];
  found.look = look;
  found.look_at = made[2];
  lw_error *error = NULL;
  if (rows_done(lw_drift_of_columns(&past->readings, valves, &limits, &rule, &found, &error), &error)) {
    for (size_t valve = 0; valve < valves; ++valve) {
      put_bits(made[0][valve]);
      put_bits(made[1][valve]);
      put_whole(look[valve]);
      put_bits(made[2][valve]);
    }
  }
}

static void histories(const char *call, Inputs *in) {
  Past past = past_of(in);
  size_t valves = (size_t)whole(in);
  if (strcmp(call, "drift_of_record") == 0) {
    drift_of_record(in, &past, valves);
  } else if (strcmp(call, "forecast_of_record") == 0) {
    forecast_of_record(in, &past, valves);
  } else if (strcmp(call, "departures_of_record") == 0) {
    departures_of_record(in, &past, valves);
  } else {
    drift_of_columns(in, &past, valves);
  }
  past_free(&past);
}

#endif
