/* Direct calls about ignition timing: a curve, and columns of strobe readings. */
#ifndef LASHWORK_TESTS_TIMING_CALLS_H
#define LASHWORK_TESTS_TIMING_CALLS_H

#include "judging_calls.h"

typedef struct Curve {
  lw_advance_curve curve;
  double *columns[3];
} Curve;

static Curve curve_of(Inputs *in) {
  Curve made = {.curve = LW_INIT(lw_advance_curve)};
  for (int i = 0; i < 3; ++i) {
    made.columns[i] = numbers(in, &made.curve.points);
  }
  made.curve.speed_rpm = made.columns[0];
  made.curve.least_deg = made.columns[1];
  made.curve.most_deg = made.columns[2];
  made.curve.ends = choice(in);
  return made;
}

static void free_curve(Curve *made) {
  for (int i = 0; i < 3; ++i) {
    free(made->columns[i]);
  }
}

static lw_printed_timing printed_of(Inputs *in) {
  lw_printed_timing printed = LW_INIT(lw_printed_timing);
  printed.span = choice(in);
  printed.lower_btdc_deg = number(in);
  printed.upper_btdc_deg = number(in);
  printed.printed_rpm = number(in);
  return printed;
}

typedef struct Strobes {
  lw_strobe_columns readings;
  double *columns[3];
} Strobes;

static Strobes strobes_of(Inputs *in) {
  Strobes made = {.readings = LW_INIT(lw_strobe_columns)};
  made.readings.speed_uncertainty_rpm = number(in);
  made.readings.lamp_delay_us = number(in);
  made.readings.hose = choice(in);
  for (int i = 0; i < 3; ++i) {
    made.columns[i] = numbers(in, &made.readings.rows);
  }
  made.readings.read_btdc_deg = made.columns[0];
  made.readings.rpm = made.columns[1];
  made.readings.uncertainty_deg = made.columns[2];
  return made;
}

static void free_strobes(Strobes *made) {
  for (int i = 0; i < 3; ++i) {
    free(made->columns[i]);
  }
}

static void strobe_columns(Inputs *in) {
  Curve made = curve_of(in);
  lw_printed_timing printed = printed_of(in);
  lw_rule rule = rule_of(in);
  Strobes given = strobes_of(in);
  size_t rows = given.readings.rows;
  uint8_t *bytes = malloc(2 * rows);
  double *found = malloc(9 * rows * sizeof *found);
  lw_judgement_columns columns = LW_INIT(lw_judgement_columns);
  columns.rows = rows;
  columns.verdict = bytes;
  columns.provable = bytes + rows;
  columns.below_least = found;
  columns.below_most = found + rows;
  columns.in_band_least = found + 2 * rows;
  columns.in_band_most = found + 3 * rows;
  columns.above_least = found + 4 * rows;
  columns.above_most = found + 5 * rows;
  lw_point_columns points = LW_INIT(lw_point_columns);
  points.rows = rows;
  points.low_btdc_deg = found + 6 * rows;
  points.high_btdc_deg = found + 7 * rows;
  points.uncertainty_deg = found + 8 * rows;
  lw_error *error = NULL;
  const lw_advance_curve *curve = made.columns[0] == NULL ? NULL : &made.curve;
  lw_status status =
      lw_judge_strobe_columns(&given.readings, curve, &printed, &rule, &columns, &points, &error);
  if (status == LW_STATUS_ROWS_REFUSED) {
    lw_error_free(error);
    error = NULL;
    status = LW_STATUS_OK;
  }
  if (done(status, &error)) {
    for (size_t i = 0; i < rows; ++i) {
      put_whole(bytes[i]);
      put_whole(bytes[rows + i]);
      for (size_t j = 0; j < 9; ++j) {
        put_bits(found[j * rows + i]);
      }
    }
  }
  free_curve(&made);
  free_strobes(&given);
  free(bytes);
  free(found);
}

static void fitted(Inputs *in) {
  Curve made = curve_of(in);
  lw_printed_timing printed = printed_of(in);
  Strobes given = strobes_of(in);
  lw_curve_fit fit = LW_INIT(lw_curve_fit);
  lw_error *error = NULL;
  if (done(lw_fit_advance_curve(&given.readings, &made.curve, &printed, &fit, &error), &error)) {
    put_bits(fit.static_btdc_deg);
    put_bits(fit.static_uncertainty_deg);
    put_bits(fit.scale);
    put_bits(fit.scale_uncertainty);
    put_bits(fit.end_deg);
    put_bits(fit.end_uncertainty_deg);
    put_bits(fit.scatter);
    put_whole((int64_t)fit.degrees_of_freedom);
  }
  free_curve(&made);
  free_strobes(&given);
}

static void weighed(Inputs *in) {
  Curve made = curve_of(in);
  lw_printed_timing printed = printed_of(in);
  lw_curve_prior prior = LW_INIT(lw_curve_prior);
  prior.fault = number(in);
  prior.capsule_known = choice(in);
  prior.capsule_deg = number(in);
  prior.capsule_uncertainty_deg = number(in);
  Strobes given = strobes_of(in);
  double probability[LW_CURVE_CAUSE_SOMETHING_ELSE + 1];
  size_t count = 0;
  lw_error *error = NULL;
  if (done(lw_weigh_advance_curve(&given.readings, &made.curve, &printed, &prior, probability,
                                  LW_CURVE_CAUSE_SOMETHING_ELSE + 1, &count, &error),
           &error)) {
    for (size_t i = 0; i < count; ++i) {
      put_bits(probability[i]);
    }
  }
  free_curve(&made);
  free_strobes(&given);
}

static void timings(const char *call, Inputs *in) {
  if (strcmp(call, "judge_strobe_columns") == 0) {
    strobe_columns(in);
    return;
  }
  if (strcmp(call, "fit_advance_curve") == 0) {
    fitted(in);
    return;
  }
  if (strcmp(call, "weigh_advance_curve") == 0) {
    weighed(in);
    return;
  }
  lw_error *error = NULL;
  double least = 0, most = 0;
  Curve made = curve_of(in);
  if (done(lw_advance_at_speed(&made.curve, number(in), &least, &most, &error), &error)) {
    put_bits(least);
    put_bits(most);
  }
  free_curve(&made);
}

#endif
