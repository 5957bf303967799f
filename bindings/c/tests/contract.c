/* What the header promises of every call: refusals instead of crashes, outputs untouched on failure. */
#include "condition_contract.h"

#include <math.h>
#include <stddef.h>

static void versions(void) {
  CHECK(LW_ABI_MATCHES());
  CHECK(strcmp(lw_version(), LW_VERSION) == 0);
  char parts[64];
  snprintf(parts, sizeof parts, "%d.%d.%d", LW_VERSION_MAJOR, LW_VERSION_MINOR, LW_VERSION_PATCH);
  CHECK(strcmp(lw_version(), parts) == 0);
  CHECK(strcmp(lw_status_name(LW_STATUS_OK), "c.ok") == 0);
  CHECK(strcmp(lw_status_name(LW_STATUS_PANIC), "c.panic") == 0);
  CHECK(strcmp(lw_status_name(4711), "c.unknown-status") == 0);
}

#define CHECK_SIZE(type) CHECK(lw_struct_size(#type, strlen(#type)) == sizeof(type))

static void sizes(void) {
  CHECK_SIZE(lw_text);
  CHECK_SIZE(lw_mark);
  CHECK_SIZE(lw_slider_crank);
  CHECK_SIZE(lw_estimate);
  CHECK_SIZE(lw_limits);
  CHECK_SIZE(lw_rule);
  CHECK_SIZE(lw_judgement);
  CHECK_SIZE(lw_reading_columns);
  CHECK_SIZE(lw_judgement_columns);
  CHECK_SIZE(lw_warmth);
  CHECK_SIZE(lw_screw);
  CHECK_SIZE(lw_screw_turn);
  CHECK_SIZE(lw_shim_fit);
  CHECK_SIZE(lw_shim_series);
  CHECK_SIZE(lw_shim_choice);
  CHECK_SIZE(lw_engine_parts);
  CHECK_SIZE(lw_valve_train);
  CHECK_SIZE(lw_plan_cost);
  CHECK_SIZE(lw_stop);
  CHECK_SIZE(lw_valve_check);
  CHECK_SIZE(lw_cranking);
  CHECK_SIZE(lw_compression_readings);
  CHECK_SIZE(lw_leak_reading_columns);
  CHECK_SIZE(lw_running_valve);
  CHECK_SIZE(lw_past_readings);
  CHECK_SIZE(lw_drift_columns);
  CHECK(lw_struct_size("lw_engine", 9) == 0 && lw_struct_size(NULL, 0) == 0);
}

static void freeing_nothing(void) {
  lw_text text = {NULL, 0};
  lw_text_free(NULL);
  lw_text_free(&text);
  lw_error_free(NULL);
  lw_engine_free(NULL);
  lw_plan_free(NULL);
  CHECK(strcmp(lw_error_message(NULL), "") == 0);
  CHECK(lw_error_status(NULL) == LW_STATUS_OK);
}

static void documents(void) {
  lw_text text = {NULL, 0};
  CHECK_STATUS(LW_STATUS_NULL_POINTER, lw_run(NULL, 0, &text, &error));
  CHECK_STATUS(LW_STATUS_NULL_POINTER, lw_run("{}", 2, NULL, &error));
  CHECK_STATUS(LW_STATUS_NULL_POINTER, lw_job_sheet(NULL, 0, &text, &error));
  CHECK_STATUS(LW_STATUS_NULL_POINTER, lw_job_sheet("{}", 2, NULL, &error));
  CHECK_STATUS(LW_STATUS_NULL_POINTER, lw_validate(NULL, 7, &error));
  CHECK_STATUS(LW_STATUS_NULL_POINTER, lw_document_schema(NULL, &error));
  CHECK_STATUS(LW_STATUS_OUT_OF_BOUNDS, lw_run("{}", SIZE_MAX, &text, &error));
  CHECK(lw_run(NULL, 0, &text, NULL) == LW_STATUS_NULL_POINTER);
  CHECK(text.data == NULL && text.len == 0);
  CHECK_STATUS(LW_STATUS_REFUSED, lw_validate("\xff\xfe", 2, &error));
  CHECK_STATUS(LW_STATUS_REFUSED, lw_job_sheet("", 0, &text, &error));
  CHECK(text.data == NULL);

  lw_error *error = NULL;
  CHECK(lw_validate("{\"lashwork\": 1, \"titel\": 1}", 27, &error) == LW_STATUS_REFUSED);
  CHECK(strstr(lw_error_message(error), "titel") != NULL);
  CHECK(strstr(lw_error_hint(error), "title") != NULL);
  CHECK(strchr(lw_error_place(error), '/') != NULL || lw_error_place(error)[0] == '\0');
  lw_error_free(error);

  CHECK_STATUS(LW_STATUS_OK, lw_document_schema(&text, &error));
  CHECK(text.len > 1000 && text.data[text.len] == '\0' && strlen(text.data) == text.len);
  lw_text_free(&text);
}

static void lengths(void) {
  lw_mark mark = LW_INIT(lw_mark);
  CHECK_STATUS(LW_STATUS_OK, lw_parse_length("0.006 in", 8, &mark, &error));
  CHECK(mark.nanometres == 152400 && mark.unit == LW_LENGTH_UNIT_INCH && mark.decimals == 3);
  CHECK(mark.struct_size == sizeof mark);
  char buffer[16];
  size_t needed = 0;
  CHECK_STATUS(LW_STATUS_SHORT_BUFFER, lw_show_length(&mark, NULL, 0, &needed, &error));
  CHECK(needed == 9);
  memset(buffer, 'x', sizeof buffer);
  CHECK_STATUS(LW_STATUS_SHORT_BUFFER, lw_show_length(&mark, buffer, 8, &needed, &error));
  CHECK(buffer[0] == 'x' && buffer[7] == 'x');
  CHECK_STATUS(LW_STATUS_OK, lw_show_length(&mark, buffer, 9, &needed, &error));
  CHECK(strcmp(buffer, "0.006 in") == 0);

  lw_mark before = mark;
  CHECK_STATUS(LW_STATUS_REFUSED, lw_parse_length("0.15", 4, &mark, &error));
  CHECK_STATUS(LW_STATUS_NOT_UTF8, lw_parse_length("\xff mm", 4, &mark, &error));
  CHECK_STATUS(LW_STATUS_NULL_POINTER, lw_parse_length(NULL, 4, &mark, &error));
  CHECK_STATUS(LW_STATUS_NULL_POINTER, lw_parse_length("1 mm", 4, NULL, &error));
  CHECK(memcmp(&before, &mark, sizeof mark) == 0);
  mark.unit = 99;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_show_length(&mark, buffer, 9, &needed, &error));
}

/* A structure of a later release, with fields that this library does not know. */
typedef struct later_limits {
  lw_limits known;
  double later;
} later_limits;

static void structures_that_grow(void) {
  lw_estimate estimate = LW_INIT(lw_estimate);
  estimate.span = LW_SPAN_BETWEEN;
  estimate.low_mm = 0.16;
  estimate.high_mm = 0.18;
  estimate.uncertainty_mm = 0.002;
  lw_rule rule = LW_INIT(lw_rule);
  rule.kind = LW_RULE_KIND_GUARDED_TIGHT;
  later_limits limits = {.known = {.struct_size = sizeof(later_limits),
                                   .span = LW_SPAN_BETWEEN,
                                   .lower_nm = 150000,
                                   .upper_nm = 200000}};
  lw_judgement judgement = LW_INIT(lw_judgement);
  CHECK_STATUS(LW_STATUS_OK, lw_judge(&estimate, &limits.known, &rule, &judgement, &error));
  CHECK(judgement.verdict == LW_VERDICT_IN_BAND && judgement.provable == 1);
  limits.later = 1.0;
  CHECK_STATUS(LW_STATUS_STRUCT_SIZE, lw_judge(&estimate, &limits.known, &rule, &judgement, &error));
  limits.known.struct_size = sizeof(lw_limits);
  CHECK_STATUS(LW_STATUS_OK, lw_judge(&estimate, &limits.known, &rule, &judgement, &error));
  limits.known.struct_size = 8;
  CHECK_STATUS(LW_STATUS_STRUCT_SIZE, lw_judge(&estimate, &limits.known, &rule, &judgement, &error));
  /* It ends within a field: no header has such a size. */
  limits.known.struct_size = sizeof(later_limits) - 4;
  CHECK_STATUS(LW_STATUS_STRUCT_SIZE, lw_judge(&estimate, &limits.known, &rule, &judgement, &error));
  limits.known.struct_size = SIZE_MAX;
  CHECK_STATUS(LW_STATUS_STRUCT_SIZE, lw_judge(&estimate, &limits.known, &rule, &judgement, &error));

  struct {
    lw_judgement known;
    double later;
  } wide = {.known = {.struct_size = sizeof wide}, .later = 5.0};
  limits.known.struct_size = sizeof(lw_limits);
  CHECK_STATUS(LW_STATUS_OK, lw_judge(&estimate, &limits.known, &rule, &wide.known, &error));
  CHECK(wide.known.struct_size == sizeof wide && wide.later == 0.0);
}

static void judging(void) {
  lw_estimate estimate = LW_INIT(lw_estimate);
  estimate.span = LW_SPAN_BETWEEN;
  estimate.low_mm = 0.12;
  estimate.high_mm = 0.15;
  lw_limits limits = LW_INIT(lw_limits);
  limits.span = LW_SPAN_AT_LEAST;
  limits.lower_nm = 150000;
  lw_rule rule = LW_INIT(lw_rule);
  rule.kind = LW_RULE_KIND_SIMPLE;
  lw_judgement judgement = LW_INIT(lw_judgement);
  CHECK_STATUS(LW_STATUS_OK, lw_judge(&estimate, &limits, &rule, &judgement, &error));
  CHECK(judgement.verdict == LW_VERDICT_BELOW && judgement.below_least == 1.0);

  CHECK_STATUS(LW_STATUS_NULL_POINTER, lw_judge(NULL, &limits, &rule, &judgement, &error));
  CHECK_STATUS(LW_STATUS_NULL_POINTER, lw_judge(&estimate, NULL, &rule, &judgement, &error));
  CHECK_STATUS(LW_STATUS_NULL_POINTER, lw_judge(&estimate, &limits, NULL, &judgement, &error));
  CHECK_STATUS(LW_STATUS_NULL_POINTER, lw_judge(&estimate, &limits, &rule, NULL, &error));
  const char *inside = (const char *)&estimate + 1;
  CHECK_STATUS(LW_STATUS_MISALIGNED, lw_judge((const lw_estimate *)(const void *)inside, &limits,
                                              &rule, &judgement, &error));
  rule.kind = 0;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_judge(&estimate, &limits, &rule, &judgement, &error));
  rule.kind = LW_RULE_KIND_GUARDED;
  CHECK_STATUS(LW_STATUS_REFUSED, lw_judge(&estimate, &limits, &rule, &judgement, &error));
  rule.kind = LW_RULE_KIND_SIMPLE;
  estimate.span = 4;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_judge(&estimate, &limits, &rule, &judgement, &error));
  estimate.span = LW_SPAN_BETWEEN;
  uint32_t *reserved[3] = {&estimate.reserved, &limits.reserved, &rule.reserved};
  for (int i = 0; i < 3; ++i) {
    *reserved[i] = 1;
    CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_judge(&estimate, &limits, &rule, &judgement, &error));
    *reserved[i] = 0;
  }
  estimate.low_mm = 0.16;
  CHECK_STATUS(LW_STATUS_REFUSED, lw_judge(&estimate, &limits, &rule, &judgement, &error));
  estimate.low_mm = NAN;
  CHECK(judgement.verdict == LW_VERDICT_BELOW);

  lw_error *error = NULL;
  CHECK(lw_judge(&estimate, &limits, &rule, &judgement, &error) == LW_STATUS_REFUSED);
  CHECK(strcmp(lw_error_code(error), "quantity.out-of-range") == 0);
  double range[3] = {0, 0, 0};
  CHECK(lw_error_range(error, range) && isnan(range[0]) && range[1] == -20 && range[2] == 20);
  size_t row = 7;
  CHECK(!lw_error_row(error, &row) && row == 7);
  lw_error_free(error);
}

static void columns(void) {
  double low[3] = {0.16, NAN, 0.30};
  double high[3] = {0.18, 0.18, 0.35};
  double uncertainty[3] = {0.002, 0.002, 0.002};
  uint8_t verdict[3] = {9, 9, 9};
  double tight[3] = {9, 9, 9};
  uint32_t status[3] = {99, 99, 99};
  lw_reading_columns readings = LW_INIT(lw_reading_columns);
  readings.rows = 3;
  readings.low_mm = low;
  readings.high_mm = high;
  readings.uncertainty_mm = uncertainty;
  lw_judgement_columns out = LW_INIT(lw_judgement_columns);
  out.rows = 2;
  out.verdict = verdict;
  out.below_most = tight;
  out.status = status;
  lw_limits limits = LW_INIT(lw_limits);
  limits.span = LW_SPAN_BETWEEN;
  limits.lower_nm = 150000;
  limits.upper_nm = 200000;
  lw_rule rule = LW_INIT(lw_rule);
  rule.kind = LW_RULE_KIND_GUARDED_TIGHT;
  CHECK_STATUS(LW_STATUS_SHORT_BUFFER, lw_judge_columns(&readings, &limits, &rule, &out, &error));
  CHECK(verdict[0] == 9 && status[0] == 99);
  out.rows = 3;
  lw_error *error = NULL;
  CHECK(lw_judge_columns(&readings, &limits, &rule, &out, &error) == LW_STATUS_ROWS_REFUSED);
  size_t row = 0;
  CHECK(lw_error_row(error, &row) && row == 1);
  CHECK(lw_error_status(error) == LW_STATUS_ROWS_REFUSED);
  CHECK(strcmp(lw_error_code(error), "quantity.out-of-range") == 0);
  lw_error_free(error);
  CHECK(verdict[0] == LW_VERDICT_IN_BAND && status[0] == LW_STATUS_OK);
  CHECK(verdict[1] == LW_VERDICT_REFUSED && status[1] == LW_STATUS_REFUSED && isnan(tight[1]));
  CHECK(verdict[2] == LW_VERDICT_ABOVE && status[2] == LW_STATUS_OK && tight[2] < 1e-9);

  low[1] = 0.17;
  out.verdict = NULL;
  CHECK_STATUS(LW_STATUS_NULL_POINTER, lw_judge_columns(&readings, &limits, &rule, &out, &error));
  out.verdict = verdict;
  readings.low_mm = NULL;
  CHECK_STATUS(LW_STATUS_NULL_POINTER, lw_judge_columns(&readings, &limits, &rule, &out, &error));
  readings.low_mm = (const double *)(const void *)((const char *)low + 4);
  CHECK_STATUS(LW_STATUS_MISALIGNED, lw_judge_columns(&readings, &limits, &rule, &out, &error));
  readings.low_mm = low;
  readings.rows = SIZE_MAX;
  out.rows = SIZE_MAX;
  CHECK_STATUS(LW_STATUS_OUT_OF_BOUNDS, lw_judge_columns(&readings, &limits, &rule, &out, &error));
  readings.rows = out.rows = 3;
  low[1] = -INFINITY;
  high[2] = INFINITY;
  CHECK_STATUS(LW_STATUS_OK, lw_judge_columns(&readings, &limits, &rule, &out, &error));
  CHECK(status[1] == LW_STATUS_OK && verdict[2] == LW_VERDICT_ABOVE);
  high[1] = INFINITY;
  CHECK_STATUS(LW_STATUS_ROWS_REFUSED, lw_judge_columns(&readings, &limits, &rule, &out, &error));
  CHECK(status[1] == LW_STATUS_REFUSED && status[2] == LW_STATUS_OK);
}

/* Each row has the bits of one reading that goes its way alone: the change taken off, then judged. */
static void warm_columns(void) {
  enum { ROWS = 5 };
  double low[ROWS] = {0.16, 0.10, 0.25, 0.16, 0.16}, high[ROWS] = {0.18, 0.15, 0.30, 0.18, 0.18};
  double uncertainty[ROWS] = {0.002, 0.004, 0.003, 0.002, 0.002};
  double lower[ROWS] = {0.15, 0.10, NAN, 0.15, NAN}, upper[ROWS] = {0.20, INFINITY, 0.25, 0.20, INFINITY};
  double at[ROWS] = {45, 12, 80, 70, 20}, slope[ROWS] = {0.0004, -0.0003, 0.0006, NAN, 0.0004};
  double low_out[ROWS], high_out[ROWS], u_out[ROWS], below[ROWS], above[ROWS];
  uint8_t verdict[ROWS], at_reference[ROWS];
  uint32_t status[ROWS];
  lw_warmth warmth = LW_INIT(lw_warmth);
  warmth.at_celsius = NAN;
  warmth.at_uncertainty_kelvin = 2;
  warmth.reference_celsius = 20;
  warmth.mm_per_kelvin = NAN;
  warmth.mm_per_kelvin_uncertainty = 0.00005;
  lw_reading_columns readings = LW_INIT(lw_reading_columns);
  readings.rows = ROWS;
  readings.low_mm = low;
  readings.high_mm = high;
  readings.uncertainty_mm = uncertainty;
  readings.lower_mm = lower;
  readings.upper_mm = upper;
  readings.at_celsius = at;
  readings.mm_per_kelvin = slope;
  readings.warmth = &warmth;
  lw_judgement_columns out = LW_INIT(lw_judgement_columns);
  out.rows = ROWS;
  out.verdict = verdict;
  out.status = status;
  out.below_most = below;
  out.above_least = above;
  out.low_mm = low_out;
  out.high_mm = high_out;
  out.uncertainty_mm = u_out;
  out.at_reference = at_reference;
  lw_rule rule = LW_INIT(lw_rule);
  rule.kind = LW_RULE_KIND_GUARDED_TIGHT;
  lw_error *error = NULL;
  CHECK(lw_judge_columns(&readings, NULL, &rule, &out, &error) == LW_STATUS_ROWS_REFUSED);
  size_t row = 0;
  CHECK(lw_error_row(error, &row) && row == 4);
  CHECK(strcmp(lw_error_code(error), "tolerance.no-limit") == 0);
  lw_error_free(error);
  error = NULL;
  CHECK(verdict[4] == LW_VERDICT_REFUSED && isnan(low_out[4]) && at_reference[4] == 0);
  for (int i = 0; i < 3; ++i) {
    warmth.at_celsius = at[i];
    warmth.mm_per_kelvin = slope[i];
    double change = 0, u = 0;
    CHECK(lw_warmth_shift(&warmth, &change, &u, &error) == LW_STATUS_OK);
    lw_estimate estimate = LW_INIT(lw_estimate);
    estimate.span = LW_SPAN_BETWEEN;
    estimate.low_mm = low[i];
    estimate.high_mm = high[i];
    estimate.uncertainty_mm = uncertainty[i];
    CHECK(lw_estimate_changed(&estimate, -change, u, &estimate, &error) == LW_STATUS_OK);
    CHECK(low_out[i] == estimate.low_mm && high_out[i] == estimate.high_mm);
    CHECK(u_out[i] == estimate.uncertainty_mm && at_reference[i] == 1);
    lw_limits limits = LW_INIT(lw_limits);
    limits.span = i == 0 ? LW_SPAN_BETWEEN : i == 1 ? LW_SPAN_AT_LEAST : LW_SPAN_AT_MOST;
    limits.lower_nm = i == 0 ? 150000 : 100000;
    limits.upper_nm = i == 0 ? 200000 : 250000;
    lw_judgement alone = LW_INIT(lw_judgement);
    CHECK(lw_judge(&estimate, &limits, &rule, &alone, &error) == LW_STATUS_OK);
    CHECK(verdict[i] == alone.verdict && below[i] == alone.below_most && above[i] == alone.above_least);
  }
  /* 50 K, and nothing says what they do. */
  double u = 0;
  uint32_t may_judge = 1;
  CHECK(lw_warmth_not_known(70, 2, 20, &may_judge, &u, &error) == LW_STATUS_OK);
  CHECK(may_judge == 0 && at_reference[3] == 0 && verdict[3] == LW_VERDICT_CANNOT_SAY);
  CHECK(low_out[3] == low[3] && u_out[3] > u && status[3] == LW_STATUS_OK);
  /* No header ends within a pointer. */
  readings.struct_size = offsetof(lw_reading_columns, lower_mm) + 4;
  CHECK_STATUS(LW_STATUS_STRUCT_SIZE, lw_judge_columns(&readings, NULL, &rule, &out, &error));
  /* An older program knows neither of the later columns. */
  readings.struct_size = offsetof(lw_reading_columns, lower_mm);
  out.struct_size = offsetof(lw_judgement_columns, low_mm);
  lw_limits limits = LW_INIT(lw_limits);
  limits.span = LW_SPAN_AT_MOST;
  limits.upper_nm = 150000;
  low_out[0] = 9;
  CHECK(lw_judge_columns(&readings, &limits, &rule, &out, &error) == LW_STATUS_OK);
  CHECK(verdict[3] == LW_VERDICT_ABOVE && verdict[1] == LW_VERDICT_IN_BAND && low_out[0] == 9);
}

/* 20 degrees from 1000 to 2200 turns a minute. */
static lw_advance_curve rising(void) {
  static double speeds[2] = {1000, 2200}, advance[2] = {0, 20};
  lw_advance_curve curve = LW_INIT(lw_advance_curve);
  curve.points = 2;
  curve.speed_rpm = speeds;
  curve.least_deg = curve.most_deg = advance;
  return curve;
}

/* Four strobe readings with the hose plugged. */
static lw_strobe_columns four_read(const double *read, const double *rpm, const double *u) {
  lw_strobe_columns in = LW_INIT(lw_strobe_columns);
  in.rows = 4;
  in.read_btdc_deg = read;
  in.rpm = rpm;
  in.uncertainty_deg = u;
  in.hose = LW_HOSE_PLUGGED;
  return in;
}

/* From 8 to 12 degrees. */
static lw_printed_timing eight_to_twelve(void) {
  lw_printed_timing printed = LW_INIT(lw_printed_timing);
  printed.span = LW_SPAN_BETWEEN;
  printed.lower_btdc_deg = 8;
  printed.upper_btdc_deg = 12;
  return printed;
}

/* A curve is fitted to all rows or to none; the error names the row, and the room that is needed is told. */
static void fits(void) {
  lw_advance_curve curve = rising();
  curve.ends = 1;
  double read[4] = {10, 20, 30, 30}, rpm[4] = {800, 1600, 2200, 2600}, u[4] = {0.5, 0.5, 0.5, 0.5};
  lw_strobe_columns in = four_read(read, rpm, u);
  lw_printed_timing printed = eight_to_twelve();
  lw_curve_fit fit = LW_INIT(lw_curve_fit);
  fit.static_btdc_deg = 77;
  rpm[2] = -1;
  lw_error *why = NULL;
  CHECK(lw_fit_advance_curve(&in, &curve, &printed, &fit, &why) == LW_STATUS_REFUSED);
  size_t row = 9;
  CHECK(lw_error_row(why, &row) && row == 2);
  lw_error_free(why);
  CHECK(fit.static_btdc_deg == 77);
  rpm[2] = 2200;
  CHECK_STATUS(LW_STATUS_OK, lw_fit_advance_curve(&in, &curve, &printed, &fit, &error));
  /* On the printed line: from 10 degrees, once the table, ending 20 over it. */
  CHECK(fit.static_btdc_deg > 9.999 && fit.static_btdc_deg < 10.001);
  CHECK(fit.scale > 0.999 && fit.scale < 1.001 && fit.end_deg > 19.999 && fit.end_deg < 20.001);

  lw_curve_prior prior = LW_INIT(lw_curve_prior);
  prior.fault = 0.5;
  double probability[10];
  size_t count = 0;
#define WEIGHED(room) lw_weigh_advance_curve(&in, &curve, &printed, &prior, probability, room, &count, &error)
  CHECK_STATUS(LW_STATUS_SHORT_BUFFER, WEIGHED(9));
  CHECK(count == LW_CURVE_CAUSE_SOMETHING_ELSE + 1);
  prior.capsule_known = 2;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, WEIGHED(10));
  prior.capsule_known = 0;
  prior.reserved = 1;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, WEIGHED(10));
  prior.reserved = 0;
  CHECK_STATUS(LW_STATUS_OK, WEIGHED(10));
  double sum = 0;
  for (size_t i = 0; i < count; ++i) {
    sum += probability[i] == probability[i] ? probability[i] : 0;
  }
  CHECK(probability[0] > 0.8 && sum > 0.999999 && sum < 1.000001);
#undef WEIGHED
}

/* Strobe readings: refused rows are marked, the others judged; a rule for lash is none for timing. */
static void strobes(void) {
  lw_advance_curve curve = rising();
  double read[4] = {20, 36, 24, 16}, rpm[4] = {1600, 3000, 1600, 1600}, u[4] = {0.5, 0.5, 0.5, 0.5};
  lw_strobe_columns in = four_read(read, rpm, u);
  lw_printed_timing printed = eight_to_twelve();
  lw_rule rule = LW_INIT(lw_rule);
  rule.kind = LW_RULE_KIND_GUARDED_EARLY;
  uint8_t verdict[4] = {9, 9, 9, 9};
  uint32_t status[4];
  double low[4];
  lw_judgement_columns out = LW_INIT(lw_judgement_columns);
  out.rows = 4;
  out.verdict = verdict;
  out.status = status;
  lw_point_columns points = LW_INIT(lw_point_columns);
  points.rows = 3;
  points.low_btdc_deg = low;
#define STROBES lw_judge_strobe_columns(&in, &curve, &printed, &rule, &out, &points, &error)
  CHECK_STATUS(LW_STATUS_SHORT_BUFFER, STROBES);
  points.rows = 4;
  out.rows = 3;
  CHECK_STATUS(LW_STATUS_SHORT_BUFFER, STROBES);
  out.rows = 4;
  rule.kind = LW_RULE_KIND_GUARDED_TIGHT;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, STROBES);
  rule.kind = LW_RULE_KIND_GUARDED_EARLY;
  lw_judgement judgement = LW_INIT(lw_judgement);
  lw_estimate estimate = LW_INIT(lw_estimate);
  lw_limits limits = LW_INIT(lw_limits);
  estimate.span = limits.span = LW_SPAN_BETWEEN;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_judge(&estimate, &limits, &rule, &judgement, &error));
  in.hose = 0;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, STROBES);
  in.hose = LW_HOSE_PLUGGED;
  in.reserved = 1;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, STROBES);
  in.reserved = 0;
  curve.ends = 2;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, STROBES);
  curve.ends = 0;
  curve.points = 0;
  CHECK_STATUS(LW_STATUS_REFUSED, STROBES);
  curve.points = 2;
  CHECK(verdict[0] == 9);
  lw_error *why = NULL;
  CHECK(lw_judge_strobe_columns(&in, &curve, &printed, &rule, &out, &points, &why) ==
        LW_STATUS_ROWS_REFUSED);
  size_t row = 9;
  CHECK(lw_error_row(why, &row) && row == 1);
  CHECK(strcmp(lw_error_code(why), "ignition.beyond-curve") == 0);
  lw_error_free(why);
  CHECK(status[0] == LW_STATUS_OK && status[1] == LW_STATUS_REFUSED && status[3] == LW_STATUS_OK);
  /* 20 degrees over 1200 rpm: 10 of them at 1600. */
  CHECK(verdict[0] == LW_VERDICT_IN_BAND && low[0] == 10 && low[1] != low[1]);
  CHECK(verdict[1] == LW_VERDICT_REFUSED);
  CHECK(verdict[2] == LW_VERDICT_ABOVE && low[2] == 14);
  CHECK(verdict[3] == LW_VERDICT_BELOW && low[3] == 6);
  in.rows = 0;
  CHECK_STATUS(LW_STATUS_OK, STROBES);
#undef STROBES
}

/* Gases that cannot be side by side are an answer, others a refusal; columns mark their rows. */
static void gases(void) {
  lw_fuel fuel = LW_INIT(lw_fuel);
  CHECK_STATUS(LW_STATUS_OK, lw_parse_fuel("E0", 2, &fuel, &error));
  CHECK(fuel.hydrogen == 1.85 && fuel.oxygen == 0 && fuel.nitrogen == 0);
  CHECK_STATUS(LW_STATUS_REFUSED, lw_parse_fuel("petrol", 6, &fuel, &error));
  lw_exhaust_gas gas = LW_INIT(lw_exhaust_gas);
  gas.co2_percent = 12.7;
  gas.co_percent = 3.3;
  gas.o2_percent = 2.6;
  gas.hydrocarbons = LW_HYDROCARBONS_NOT_READ;
  gas.tester = LW_TESTER_CLASS0;
  gas.hc_ppm = gas.hc_factor = gas.no_ppm = -1; /* ignored */
  lw_lambda found = LW_INIT(lw_lambda);
#define GAS lw_lambda_of_gas(&gas, &fuel, &found, &error)
  CHECK_STATUS(LW_STATUS_OK, GAS);
  CHECK(found.struct_size == sizeof found && found.lambda > 1 && found.behind_air_high < 0.96);
  CHECK(found.contradictions & LW_GAS_CONTRADICTION_OXYGEN_WITH_CARBON_MONOXIDE);
  CHECK(found.cause == LW_GAS_CAUSE_AIR_AT_PROBE);
  gas.tester = 0;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, GAS);
  gas.tester = LW_TESTER_CLASS0;
  gas.hydrocarbons = 0;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, GAS);
  gas.hydrocarbons = LW_HYDROCARBONS_HEXANE;
  CHECK_STATUS(LW_STATUS_REFUSED, GAS);
  gas.hc_ppm = 250;
  gas.no_read = 2;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, GAS);
  gas.no_read = 1;
  CHECK_STATUS(LW_STATUS_REFUSED, GAS);
  gas.no_read = 0;
  gas.reserved = 1;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, GAS);
#undef GAS

  double co2[3] = {14.7, 0, 12.7}, co[3] = {0.5, 0, 3.3}, o2[3] = {0.5, 20.9, 2.6}, ppm[3] = {100, 0, 250};
  double lambda[3] = {9, 9, 9};
  uint8_t doubt[3];
  uint32_t status[3];
  lw_gas_columns in = LW_INIT(lw_gas_columns);
  in.rows = 3;
  in.co2_percent = co2;
  in.co_percent = co;
  in.o2_percent = o2;
  in.hc_ppm = ppm;
  in.hydrocarbons = LW_HYDROCARBONS_NOT_READ;
  in.tester = LW_TESTER_CLASS0;
  lw_lambda_columns out = LW_INIT(lw_lambda_columns);
  out.rows = 2;
  out.lambda = lambda;
  out.contradiction = doubt;
  out.status = status;
#define COLUMNS lw_lambda_of_columns(&in, &fuel, &out, &error)
  CHECK_STATUS(LW_STATUS_SHORT_BUFFER, COLUMNS);
  out.rows = 3;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, COLUMNS);
  in.hydrocarbons = LW_HYDROCARBONS_HEXANE;
  in.tester = 4;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, COLUMNS);
  in.tester = LW_TESTER_CLASS0;
  CHECK(lambda[0] == 9);
  lw_error *why = NULL;
  CHECK(lw_lambda_of_columns(&in, &fuel, &out, &why) == LW_STATUS_ROWS_REFUSED);
  size_t row = 9;
  CHECK(lw_error_row(why, &row) && row == 1);
  CHECK(strcmp(lw_error_code(why), "mixture.no-carbon-dioxide") == 0);
  lw_error_free(why);
  CHECK(status[0] == LW_STATUS_OK && status[1] == LW_STATUS_REFUSED && status[2] == LW_STATUS_OK);
  CHECK(doubt[0] == 0 && doubt[1] == 0);
  CHECK(doubt[2] == LW_GAS_CONTRADICTION_OXYGEN_WITH_CARBON_MONOXIDE);
  CHECK(lambda[0] > 1 && lambda[0] < 1.02 && lambda[1] != lambda[1]);
  in.rows = 0;
  CHECK_STATUS(LW_STATUS_OK, COLUMNS);
#undef COLUMNS
}

static void airs(void) {
  lw_air air = LW_INIT(lw_air);
  air.barometer_kpa = 101.325;
  air.celsius = 15;
  air.barometer = LW_BAROMETER_SEA_LEVEL;
  lw_air_density found = LW_INIT(lw_air_density);
  lw_error *why = NULL;
  CHECK(lw_density_of_air(&air, &found, &why) == LW_STATUS_REFUSED);
  CHECK(strcmp(lw_error_code(why), "mixture.no-altitude") == 0);
  lw_error_free(why);
  air.altitude_m = 1524;
  air.altitude_known = 1;
  CHECK_STATUS(LW_STATUS_OK, lw_density_of_air(&air, &found, &error));
  /* The standard atmosphere has 84.307 kPa at 5000 ft. */
  CHECK(fabs(found.station_kpa - 84.307) < 0.01 && found.doubt == 0 && found.as_published == 1);
  CHECK(found.low_kg_m3 < found.high_kg_m3);
  air.barometer = LW_BAROMETER_STATION;
  CHECK_STATUS(LW_STATUS_OK, lw_density_of_air(&air, &found, &error));
  CHECK(found.station_kpa == 101.325 && found.doubt == LW_BAROMETER_DOUBT_SET_TO_SEA_LEVEL);
  air.uncertainty_kelvin = -1;
  CHECK(lw_density_of_air(&air, &found, &why) == LW_STATUS_REFUSED);
  CHECK(strcmp(lw_error_code(why), "mixture.air-temperature-uncertainty") == 0);
  lw_error_free(why);
  air.uncertainty_kelvin = 0;
  air.humidity_read = 2;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_density_of_air(&air, &found, &error));
  air.humidity_read = 1;
  air.humidity_percent = 101;
  air.altitude_known = 0;
  CHECK(lw_density_of_air(&air, &found, &why) == LW_STATUS_REFUSED);
  double range[3];
  CHECK(lw_error_range(why, range) && range[0] == 101 && range[2] == 100);
  lw_error_free(why);
  air.humidity_percent = 50;
  air.barometer = 0;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_density_of_air(&air, &found, &error));
  CHECK_STATUS(LW_STATUS_OK, lw_density_at_height(0, &found, &error));
  CHECK(fabs(found.low_kg_m3 - 1.225) < 1e-4 && found.ratio == 1);

  double kpa[3] = {200, 101.325, 10}, celsius[3] = {15, 15, 15}, percent[3] = {0, 0, 0}, density[3] = {9, 9, 9};
  lw_air_columns in = LW_INIT(lw_air_columns);
  in.rows = 3;
  in.pressure_kpa = kpa;
  in.celsius = celsius;
  in.humidity_percent = percent;
  lw_density_columns out = LW_INIT(lw_density_columns);
  out.rows = 1;
  out.density_kg_m3 = density;
  CHECK_STATUS(LW_STATUS_SHORT_BUFFER, lw_density_of_columns(&in, &out, &error));
  out.rows = 3;
  in.pressure_uncertainty_kpa = -1;
  CHECK_STATUS(LW_STATUS_REFUSED, lw_density_of_columns(&in, &out, &error));
  in.pressure_uncertainty_kpa = 0.1;
  in.uncertainty_kelvin = -1;
  CHECK_STATUS(LW_STATUS_REFUSED, lw_density_of_columns(&in, &out, &error));
  in.uncertainty_kelvin = 1;
  CHECK(density[1] == 9);
  /* Of two refused rows the error is about the first. */
  CHECK(lw_density_of_columns(&in, &out, &why) == LW_STATUS_ROWS_REFUSED);
  size_t row = 9;
  CHECK(lw_error_row(why, &row) && row == 0);
  lw_error_free(why);
  CHECK(density[0] != density[0] && density[2] != density[2] && fabs(density[1] - 1.2255) < 1e-3);
}

static void idling(void) {
  double turns[5] = {1, 1.25, 1.5, 1.75, 2}, rpm[5] = {680, 695, 700, 695, 680}, lean = 0, u = 0;
  lw_idle_readings in = LW_INIT(lw_idle_readings);
  in.rows = 5;
  in.turns_out = turns;
  in.rpm = rpm;
  in.scatter_rpm = 1;
  in.screw = LW_MIXTURE_SCREW_AIR;
  lw_idle_crown crown = LW_INIT(lw_idle_crown);
  CHECK_STATUS(LW_STATUS_OK, lw_fit_idle_curve(&in, &crown, &error));
  CHECK(crown.seen == 1 && fabs(crown.best_turns - 1.5) < 1e-9 && fabs(crown.speed_rpm - 700) < 1e-9);
  /* 20 rpm less half a turn on; a screw in the air goes out to be leaner. */
  CHECK_STATUS(LW_STATUS_OK, lw_idle_beside(&in, LW_MIXTURE_SIDE_LEAN, 20, &lean, &u, &error));
  CHECK(fabs(lean - 2) < 1e-9 && u > 0);
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_idle_beside(&in, 0, 20, &lean, &u, &error));
  in.screw = 0;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_fit_idle_curve(&in, &crown, &error));
  in.screw = LW_MIXTURE_SCREW_FUEL;
  in.reserved = 1;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_fit_idle_curve(&in, &crown, &error));
  in.reserved = 0;
  turns[3] = -1;
  lw_error *why = NULL;
  CHECK(lw_fit_idle_curve(&in, &crown, &why) == LW_STATUS_REFUSED);
  size_t row = 9;
  CHECK(lw_error_row(why, &row) && row == 3);
  lw_error_free(why);
  turns[3] = 1.75;
  in.rows = 2;
  CHECK_STATUS(LW_STATUS_REFUSED, lw_fit_idle_curve(&in, &crown, &error));
  rpm[0] = 660;
  rpm[1] = 680;
  rpm[3] = 720;
  in.rows = 4;
  CHECK_STATUS(LW_STATUS_OK, lw_fit_idle_curve(&in, &crown, &error));
  CHECK(crown.seen == 0 && crown.best_turns != crown.best_turns && crown.rises_toward == LW_MIXTURE_SIDE_RICH);
}

static void balancing(void) {
  uint32_t one[2] = {0, 1}, other[2] = {1, 2}, by[2] = {LW_JOINED_BY_SCREW, LW_JOINED_BY_SCREW};
  uint32_t at[3] = {0, 1, 2}, joint[2] = {9, 9}, sense[2] = {9, 9}, way[2] = {9, 9};
  double shown[3] = {26, 30, 28}, turn = 90, before = 30, after = 28, deg[2] = {9, 9};
  lw_linkage linkage = LW_INIT(lw_linkage);
  linkage.throttles = 3;
  linkage.joints = 2;
  linkage.one = one;
  linkage.other = other;
  linkage.joined_by = by;
  lw_throttle_looks looks = LW_INIT(lw_throttle_looks);
  looks.rows = 3;
  looks.throttle = at;
  looks.shown = shown;
  looks.scatter = 0.05;
  looks.gauge = LW_THROTTLE_GAUGE_VACUUM;
  lw_trial_turns trials = LW_INIT(lw_trial_turns);
  trials.rows = 1;
  trials.joint = one;
  trials.turn_deg = &turn;
  trials.before = &before;
  trials.after = &after;
  lw_rule rule = LW_INIT(lw_rule);
  rule.kind = LW_RULE_KIND_GUARDED_TIGHT;
  lw_balance found = LW_INIT(lw_balance);
  lw_move_columns moves = LW_INIT(lw_move_columns);
  moves.rows = 1;
  moves.joint = joint;
  moves.sense = sense;
  moves.way = way;
  moves.turn_deg = deg;
#define BALANCE lw_balance_throttles(&linkage, &looks, &trials, &rule, &found, NULL, &moves, NULL, &error)
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, BALANCE);
  rule.kind = LW_RULE_KIND_SIMPLE;
  CHECK_STATUS(LW_STATUS_SHORT_BUFFER, BALANCE);
  moves.rows = 2;
  looks.gauge = 0;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, BALANCE);
  looks.gauge = LW_THROTTLE_GAUGE_VACUUM;
  looks.ambient_known = 2;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, BALANCE);
  looks.ambient_known = 0;
  by[1] = 5;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, BALANCE);
  by[1] = LW_JOINED_BY_SCREW;
  linkage.screws_alike = 2;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, BALANCE);
  linkage.screws_alike = 0;
  other[1] = 0;
  CHECK_STATUS(LW_STATUS_REFUSED, BALANCE);
  other[1] = 2;
  shown[2] = -1;
  lw_error *why = NULL;
  CHECK(lw_balance_throttles(&linkage, &looks, &trials, &rule, &found, NULL, &moves, NULL, &why) == LW_STATUS_REFUSED);
  size_t row = 9;
  CHECK(lw_error_row(why, &row) && row == 2);
  lw_error_free(why);
  shown[2] = 28;
  CHECK(joint[0] == 9 && found.moves == 0);
  CHECK_STATUS(LW_STATUS_OK, BALANCE);
#undef BALANCE
  /* 4 kPa too much vacuum, 2 less for a quarter turn clockwise: half a turn clockwise opens. Then the third has 2 kPa
   * less than the second, and its screw was not tried. */
  CHECK(found.moves == 2 && joint[0] == 0 && joint[1] == 1 && deg[0] == 180 && deg[1] != deg[1]);
  CHECK(way[0] == LW_THROTTLE_WAY_OPEN && way[1] == LW_THROTTLE_WAY_CLOSE);
  CHECK(sense[0] == LW_SENSE_CLOCKWISE && sense[1] == 0);
  CHECK(found.next == LW_NEXT_READING_TRIAL && found.next_index == 1 && found.spread == 4);
  CHECK(found.verdict == 0 && found.within != found.within);
}

/* An empty container has no array. */
static void no_rows(void) {
  lw_reading_columns readings = LW_INIT(lw_reading_columns);
  lw_judgement_columns out = LW_INIT(lw_judgement_columns);
  lw_limits limits = LW_INIT(lw_limits);
  limits.span = LW_SPAN_AT_MOST;
  limits.upper_nm = 200000;
  lw_rule rule = LW_INIT(lw_rule);
  rule.kind = LW_RULE_KIND_SIMPLE;
  CHECK_STATUS(LW_STATUS_OK, lw_judge_columns(&readings, &limits, &rule, &out, &error));
  out.rows = 5;
  CHECK_STATUS(LW_STATUS_OK, lw_judge_columns(&readings, &limits, &rule, &out, &error));
  readings.rows = 1;
  CHECK_STATUS(LW_STATUS_NULL_POINTER, lw_judge_columns(&readings, &limits, &rule, &out, &error));
}

static void engines(void) {
  uint32_t order[4] = {1, 3, 4, 2};
  lw_engine_parts parts = even_four_stroke(order, 4);
  lw_engine *engine = NULL;
  CHECK_STATUS(LW_STATUS_OK, lw_engine_new(&parts, &engine, &error));
  double offsets[4];
  size_t count = 0;
  CHECK_STATUS(LW_STATUS_SHORT_BUFFER, lw_firing_offsets(engine, offsets, 3, &count, &error));
  CHECK(count == 4);
  CHECK_STATUS(LW_STATUS_OK, lw_firing_offsets(engine, offsets, 4, &count, &error));
  CHECK(offsets[0] == 0 && offsets[1] == 540 && offsets[2] == 180 && offsets[3] == 360);
  CHECK_STATUS(LW_STATUS_OK, lw_rotor_angles(engine, offsets, 4, &count, &error));
  CHECK(offsets[1] == 270);
  uint32_t companion = 9;
  CHECK_STATUS(LW_STATUS_OK, lw_companion(engine, 3, &companion, &error));
  CHECK(companion == 2);
  CHECK_STATUS(LW_STATUS_OUT_OF_BOUNDS, lw_companion(engine, 0, &companion, &error));
  CHECK_STATUS(LW_STATUS_OUT_OF_BOUNDS, lw_companion(engine, 5, &companion, &error));
  CHECK_STATUS(LW_STATUS_NULL_POINTER, lw_companion(NULL, 1, &companion, &error));
  char label[8];
  CHECK_STATUS(LW_STATUS_OK, lw_engine_label(engine, 3, label, sizeof label, &count, &error));
  CHECK(strcmp(label, "3") == 0);

  lw_valve_train train = LW_INIT(lw_valve_train);
  train.intake_opens_btdc_deg = 12;
  train.intake_closes_abdc_deg = 54;
  train.exhaust_opens_bbdc_deg = 54;
  train.exhaust_closes_atdc_deg = 12;
  train.guard_deg = 20;
  train.intake_per_cylinder = 1;
  train.exhaust_per_cylinder = 1;
  lw_plan *plan = NULL;
  CHECK_STATUS(LW_STATUS_OK, lw_plan_new(engine, &train, LW_METHOD_TWO_POSITION, 0, 0, &plan, &error));
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_plan_new(engine, &train, 0, 0, 0, &plan, &error));
  CHECK_STATUS(LW_STATUS_OUT_OF_BOUNDS, lw_plan_new(engine, &train, 1, 0, 9, &plan, &error));
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_plan_new(engine, &train, 3, 0, 0, &plan, &error));
  /* Events printed for 1 mm of lash, run with 0.2 mm: nearer to the ends of the arcs than if they were
   * printed for the lash the engine runs with. */
  double least[3];
  for (int i = 0; i < 3; ++i) {
    lw_valve_train other = train;
    other.events_at = i == 2 ? 0 : LW_EVENTS_AT_LASH;
    other.events_at_mm = i == 0 ? 0.2 : 1.0;
    other.running_intake_mm = other.running_exhaust_mm = 0.2;
    lw_plan *by_one = NULL;
    CHECK_STATUS(LW_STATUS_OK, lw_plan_new(engine, &other, 1, 0, 0, &by_one, &error));
    lw_valve_check nearest = LW_INIT(lw_valve_check);
    CHECK_STATUS(LW_STATUS_OK, lw_plan_check(by_one, 0, 0, &nearest, &error));
    least[i] = nearest.margin_deg;
    lw_plan_free(by_one);
  }
  /* Intake: 720 - 540 - 54 - 20 = 106 degrees. Open for 246, by harmonic lift to 8 mm: asin(sqrt(1/8)) is
   * 0.11502 of pi, asin(sqrt(0.2/8)) 0.05053; 246 / (1 - 0.23005) x 0.06449 = 20.6. */
  CHECK(least[0] == 106 && fabs(least[0] - least[1] - 20.6) < 0.05);
  CHECK(least[2] == 106 - 25);
  train.events_at = 7;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_plan_new(engine, &train, 1, 0, 0, &plan, &error));
  train.events_at = 0;
  train.exhaust_per_cylinder = 300;
  CHECK_STATUS(LW_STATUS_REFUSED, lw_plan_new(engine, &train, 1, 0, 0, &plan, &error));
  lw_engine_free(engine);
  lw_plan_cost cost = LW_INIT(lw_plan_cost);
  CHECK_STATUS(LW_STATUS_OK, lw_plan_total(plan, &cost, &error));
  CHECK(cost.stops == 2 && cost.total_turn_deg == 360);
  size_t seen = 0;
  for (size_t i = 0; i < cost.stops; ++i) {
    lw_stop stop = LW_INIT(lw_stop);
    CHECK_STATUS(LW_STATUS_OK, lw_plan_stop(plan, i, &stop, &error));
    for (size_t j = 0; j < stop.checks; ++j) {
      lw_valve_check check = LW_INIT(lw_valve_check);
      CHECK_STATUS(LW_STATUS_OK, lw_plan_check(plan, i, j, &check, &error));
      CHECK(check.cylinder >= 1 && check.cylinder <= 4 && check.margin_deg > 0);
      ++seen;
    }
    lw_valve_check beyond = LW_INIT(lw_valve_check);
    CHECK_STATUS(LW_STATUS_OUT_OF_BOUNDS, lw_plan_check(plan, i, stop.checks, &beyond, &error));
  }
  CHECK(seen == 8);
  lw_stop stop = LW_INIT(lw_stop);
  CHECK_STATUS(LW_STATUS_OUT_OF_BOUNDS, lw_plan_stop(plan, cost.stops, &stop, &error));
  lw_plan_free(plan);

  order[3] = 7;
  engine = NULL;
  CHECK_STATUS(LW_STATUS_REFUSED, lw_engine_new(&parts, &engine, &error));
  CHECK(engine == NULL);
  parts.cylinders = 0;
  CHECK_STATUS(LW_STATUS_REFUSED, lw_engine_new(&parts, &engine, &error));
  parts.cylinders = 4000000000u;
  CHECK_STATUS(LW_STATUS_OUT_OF_BOUNDS, lw_engine_new(&parts, &engine, &error));
  parts.cylinders = 4;
  parts.firing_order = NULL;
  CHECK_STATUS(LW_STATUS_NULL_POINTER, lw_engine_new(&parts, &engine, &error));
  CHECK_STATUS(LW_STATUS_REFUSED, lw_engine_of_document("{}", 2, &engine, &error));
  CHECK(engine == NULL);
}

#ifdef LASHWORK_INJECTED_PANIC
lw_status lw_injected_panic(lw_error **error);

static void panics(void) {
  CHECK_STATUS(LW_STATUS_PANIC, lw_injected_panic(&error));
  CHECK(lw_injected_panic(NULL) == LW_STATUS_PANIC);
}
#else
static void panics(void) {}
#endif

int main(void) {
  versions();
  sizes();
  freeing_nothing();
  documents();
  lengths();
  structures_that_grow();
  judging();
  columns();
  warm_columns();
  strobes();
  fits();
  gases();
  airs();
  idling();
  condition_contract();
  balancing();
  no_rows();
  engines();
  panics();
  return finish("contract");
}
