/* Direct calls on readings: one by one, and columns of them. */
#ifndef LASHWORK_TESTS_JUDGING_CALLS_H
#define LASHWORK_TESTS_JUDGING_CALLS_H

#include <math.h>

#include "lines.h"

static lw_estimate estimate_of(Inputs *in) {
  lw_estimate estimate = LW_INIT(lw_estimate);
  estimate.span = choice(in);
  estimate.low_mm = number(in);
  estimate.high_mm = number(in);
  estimate.uncertainty_mm = number(in);
  return estimate;
}

static lw_limits limits_of(Inputs *in) {
  lw_limits limits = LW_INIT(lw_limits);
  limits.span = choice(in);
  limits.lower_nm = whole(in);
  limits.upper_nm = whole(in);
  return limits;
}

static lw_rule rule_of(Inputs *in) {
  lw_rule rule = LW_INIT(lw_rule);
  rule.kind = choice(in);
  rule.below_confidence = number(in);
  rule.above_confidence = number(in);
  return rule;
}

static void put_estimate(const lw_estimate *e) {
  put_whole(e->span);
  put_bits(e->low_mm);
  put_bits(e->high_mm);
  put_bits(e->uncertainty_mm);
}

enum { OWN_COLUMNS = 7, CHANCES = 6, ENDS = 3 };

/* A column that may be left out; one number says the same of all rows. */
static double *column(Inputs *in, size_t rows) {
  size_t count = 0;
  double *found = numbers(in, &count);
  if (found == NULL || count == rows) {
    return found;
  }
  double *all = malloc(rows * sizeof *all);
  for (size_t i = 0; i < rows; ++i) {
    all[i] = found[0];
  }
  free(found);
  return all;
}

static void judged_columns(Inputs *in) {
  lw_limits limits = limits_of(in);
  lw_rule rule = rule_of(in);
  size_t rows = 0;
  double *spans = numbers(in, &rows);
  lw_reading_columns readings = LW_INIT(lw_reading_columns);
  double *low = numbers(in, &rows);
  double *high = numbers(in, &rows);
  double *uncertainty = numbers(in, &rows);
  /* An end that is not there is infinite in a column. */
  for (size_t i = 0; spans != NULL && i < rows; ++i) {
    low[i] = spans[i] == LW_SPAN_AT_MOST ? -INFINITY : low[i];
    high[i] = spans[i] == LW_SPAN_AT_LEAST ? INFINITY : high[i];
  }
  double *own[OWN_COLUMNS];
  for (int i = 0; i < OWN_COLUMNS; ++i) {
    own[i] = column(in, rows);
  }
  readings.rows = rows;
  readings.low_mm = low;
  readings.high_mm = high;
  readings.uncertainty_mm = uncertainty;
  readings.lower_mm = own[0];
  readings.upper_mm = own[1];
  readings.at_celsius = own[2];
  readings.at_uncertainty_kelvin = own[3];
  readings.reference_celsius = own[4];
  readings.mm_per_kelvin = own[5];
  readings.mm_per_kelvin_uncertainty = own[6];
  uint8_t *bytes = malloc(3 * rows);
  double *numbers_out = malloc((CHANCES + ENDS) * rows * sizeof *numbers_out);
  lw_judgement_columns columns = LW_INIT(lw_judgement_columns);
  columns.rows = rows;
  columns.verdict = bytes;
  columns.provable = bytes + rows;
  columns.at_reference = bytes + 2 * rows;
  columns.below_least = numbers_out;
  columns.below_most = numbers_out + rows;
  columns.in_band_least = numbers_out + 2 * rows;
  columns.in_band_most = numbers_out + 3 * rows;
  columns.above_least = numbers_out + 4 * rows;
  columns.above_most = numbers_out + 5 * rows;
  columns.low_mm = numbers_out + 6 * rows;
  columns.high_mm = numbers_out + 7 * rows;
  columns.uncertainty_mm = numbers_out + 8 * rows;
  lw_error *error = NULL;
  /* No limits of all rows where no span is stated. */
  const lw_limits *of_all = limits.span == 0 ? NULL : &limits;
  lw_status status = lw_judge_columns(&readings, of_all, &rule, &columns, &error);
  if (status == LW_STATUS_ROWS_REFUSED) {
    lw_error_free(error);
    error = NULL;
    status = LW_STATUS_OK;
  }
  if (done(status, &error)) {
    for (size_t i = 0; i < rows; ++i) {
      put_whole(bytes[i]);
      put_whole(bytes[rows + i]);
      for (size_t j = 0; j < CHANCES + ENDS; ++j) {
        put_bits(numbers_out[j * rows + i]);
      }
      put_whole(bytes[2 * rows + i]);
    }
  }
  for (int i = 0; i < OWN_COLUMNS; ++i) {
    free(own[i]);
  }
  free(spans);
  free(low);
  free(high);
  free(uncertainty);
  free(bytes);
  free(numbers_out);
}

static void judgings(const char *call, Inputs *in) {
  lw_error *error = NULL;
  if (strcmp(call, "judge_columns") == 0) {
    judged_columns(in);
  } else if (strcmp(call, "judge") == 0) {
    lw_estimate estimate = estimate_of(in);
    lw_limits limits = limits_of(in);
    lw_rule rule = rule_of(in);
    lw_judgement j = LW_INIT(lw_judgement);
    if (done(lw_judge(&estimate, &limits, &rule, &j, &error), &error)) {
      put_whole((int64_t)j.verdict);
      put_whole(j.provable);
      const double p[6] = {j.below_least,  j.below_most,  j.in_band_least,
                           j.in_band_most, j.above_least, j.above_most};
      for (int i = 0; i < 6; ++i) {
        put_bits(p[i]);
      }
    }
  } else if (strcmp(call, "warmth_shift") == 0) {
    lw_warmth warmth = LW_INIT(lw_warmth);
    warmth.mm_per_kelvin = number(in);
    warmth.mm_per_kelvin_uncertainty = number(in);
    warmth.at_celsius = number(in);
    warmth.at_uncertainty_kelvin = number(in);
    warmth.reference_celsius = number(in);
    double change = 0, uncertainty = 0;
    if (done(lw_warmth_shift(&warmth, &change, &uncertainty, &error), &error)) {
      put_bits(change);
      put_bits(uncertainty);
    }
  } else if (strcmp(call, "estimate_changed") == 0) {
    lw_estimate estimate = estimate_of(in);
    double change = number(in), uncertainty = number(in);
    if (done(lw_estimate_changed(&estimate, change, uncertainty, &estimate, &error), &error)) {
      put_estimate(&estimate);
    }
  } else {
    uint32_t span = choice(in);
    int64_t goes = whole(in), refuses = whole(in), tolerance = whole(in), hand = whole(in);
    lw_estimate estimate = LW_INIT(lw_estimate);
    lw_status status =
        lw_estimate_from_leaves(span, goes, refuses, tolerance, hand, &estimate, &error);
    if (done(status, &error)) {
      put_estimate(&estimate);
    }
  }
}

#endif
