/* Makes every direct call that IN/direct.tsv lists and writes what came out to OUT/direct.tsv. Knows
 * nothing of what is right; one judge compares all doors. A line is a name, a call and its inputs, tabs
 * between them, commas inside a list, "-" for what is left out. */
#include "lines.h"

static lw_slider_crank slider_of(Inputs *in) {
  lw_slider_crank slider = LW_INIT(lw_slider_crank);
  slider.crank_radius_mm = number(in);
  slider.rod_mm = number(in);
  slider.offset_mm = number(in);
  return slider;
}

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
  rule.tight_confidence = number(in);
  rule.loose_confidence = number(in);
  return rule;
}

static lw_shim_fit fit_of(Inputs *in) {
  lw_shim_fit fit = LW_INIT(lw_shim_fit);
  fit.old_mm = number(in);
  fit.measured_mm = number(in);
  fit.target_mm = number(in);
  fit.ratio = number(in);
  return fit;
}

static lw_status engine_of(Inputs *in, lw_engine **engine, lw_error **error) {
  lw_engine_parts parts = LW_INIT(lw_engine_parts);
  parts.cycle = choice(in);
  parts.intervals = choice(in);
  parts.sense = choice(in);
  parts.seen_from = choice(in);
  parts.numbering = choice(in);
  size_t count = 0;
  double *order = numbers(in, &count);
  uint32_t *numbered = malloc(count * sizeof *numbered);
  for (size_t i = 0; i < count; ++i) {
    numbered[i] = (uint32_t)order[i];
  }
  parts.cylinders = (uint32_t)count;
  parts.firing_order = numbered;
  double *lists[3];
  for (int i = 0; i < 3; ++i) {
    lists[i] = numbers(in, &count);
  }
  parts.intervals_deg = lists[0];
  parts.bank_deg = lists[1];
  parts.crankpin_deg = lists[2];
  lw_status status = lw_engine_new(&parts, engine, error);
  free(order);
  free(numbered);
  for (int i = 0; i < 3; ++i) {
    free(lists[i]);
  }
  return status;
}

static void put_estimate(const lw_estimate *e) {
  put_whole(e->span);
  put_bits(e->low_mm);
  put_bits(e->high_mm);
  put_bits(e->uncertainty_mm);
}

typedef lw_status (*Offsets)(const lw_engine *, double *, size_t, size_t *, lw_error **);

static void offsets(Inputs *in, Offsets call) {
  lw_engine *engine = NULL;
  lw_error *error = NULL;
  lw_status status = engine_of(in, &engine, &error);
  double found[MOST_ITEMS];
  size_t count = 0;
  if (status == LW_STATUS_OK) {
    status = call(engine, found, MOST_ITEMS, &count, &error);
  }
  if (done(status, &error)) {
    for (size_t i = 0; i < count; ++i) {
      put_bits(found[i]);
    }
  }
  lw_engine_free(engine);
}

static void put_valve(const lw_valve_check *check) {
  put_whole(check->cylinder);
  put_whole((int64_t)check->kind);
  put_whole(check->number);
}

static void put_plan(const lw_plan *plan) {
  lw_plan_cost cost = LW_INIT(lw_plan_cost);
  CHECK_STATUS(LW_STATUS_OK, lw_plan_total(plan, &cost, &error));
  put_whole((int64_t)cost.stops);
  put_whole((int64_t)cost.walks);
  put_whole((int64_t)cost.unreachable);
  put_bits(cost.total_turn_deg);
  for (size_t i = 0; i < cost.stops; ++i) {
    lw_stop stop = LW_INIT(lw_stop);
    CHECK_STATUS(LW_STATUS_OK, lw_plan_stop(plan, i, &stop, &error));
    put_bits(stop.position_deg);
    put_bits(stop.turn_deg);
    put_whole(stop.firing_tdc_of);
    put_whole(stop.overlap_tdc_of);
    put_whole((int64_t)stop.cues);
    put_whole((int64_t)stop.checks);
    lw_valve_check valve = LW_INIT(lw_valve_check);
    for (size_t j = 0; j < stop.cues; ++j) {
      CHECK_STATUS(LW_STATUS_OK, lw_plan_cue(plan, i, j, &valve, &error));
      put_whole(valve.cylinder);
      put_whole((int64_t)valve.kind);
    }
    for (size_t j = 0; j < stop.checks; ++j) {
      CHECK_STATUS(LW_STATUS_OK, lw_plan_check(plan, i, j, &valve, &error));
      put_valve(&valve);
      put_bits(valve.margin_deg);
    }
  }
  for (size_t i = 0; i < cost.unreachable; ++i) {
    lw_valve_check valve = LW_INIT(lw_valve_check);
    CHECK_STATUS(LW_STATUS_OK, lw_plan_unreachable(plan, i, &valve, &error));
    put_valve(&valve);
  }
}

static void planned(Inputs *in) {
  lw_engine *engine = NULL;
  lw_plan *plan = NULL;
  lw_error *error = NULL;
  lw_status status = engine_of(in, &engine, &error);
  lw_valve_train train = LW_INIT(lw_valve_train);
  train.intake_opens_btdc_deg = number(in);
  train.intake_closes_abdc_deg = number(in);
  train.exhaust_opens_bbdc_deg = number(in);
  train.exhaust_closes_atdc_deg = number(in);
  train.guard_deg = number(in);
  train.intake_per_cylinder = choice(in);
  train.exhaust_per_cylinder = choice(in);
  uint32_t method = choice(in);
  uint32_t places = choice(in);
  uint32_t start = choice(in);
  if (status == LW_STATUS_OK) {
    status = lw_plan_new(engine, &train, method, places, start, &plan, &error);
  }
  lw_engine_free(engine);
  if (done(status, &error)) {
    if (plan == NULL) {
      put_whole(0);
    } else {
      put_plan(plan);
    }
  }
  lw_plan_free(plan);
}

static void judged_columns(Inputs *in) {
  lw_limits limits = limits_of(in);
  lw_rule rule = rule_of(in);
  size_t rows = 0;
  double *spans = numbers(in, &rows);
  uint8_t *span = spans != NULL ? malloc(rows) : NULL;
  for (size_t i = 0; spans != NULL && i < rows; ++i) {
    span[i] = (uint8_t)spans[i];
  }
  lw_reading_columns readings = LW_INIT(lw_reading_columns);
  double *low = numbers(in, &rows);
  double *high = numbers(in, &rows);
  double *uncertainty = numbers(in, &rows);
  readings.rows = rows;
  readings.low_mm = low;
  readings.high_mm = high;
  readings.uncertainty_mm = uncertainty;
  readings.span = span;
  uint8_t *bytes = malloc(2 * rows);
  double *chances = malloc(6 * rows * sizeof *chances);
  lw_judgement_columns columns = LW_INIT(lw_judgement_columns);
  columns.rows = rows;
  columns.verdict = bytes;
  columns.provable = bytes + rows;
  columns.tight_least = chances;
  columns.tight_most = chances + rows;
  columns.in_band_least = chances + 2 * rows;
  columns.in_band_most = chances + 3 * rows;
  columns.loose_least = chances + 4 * rows;
  columns.loose_most = chances + 5 * rows;
  lw_error *error = NULL;
  lw_status status = lw_judge_columns(&readings, &limits, &rule, &columns, &error);
  if (status == LW_STATUS_ROWS_REFUSED) {
    lw_error_free(error);
    error = NULL;
    status = LW_STATUS_OK;
  }
  if (done(status, &error)) {
    for (size_t i = 0; i < rows; ++i) {
      put_whole(bytes[i]);
      put_whole(bytes[rows + i]);
      for (size_t j = 0; j < 6; ++j) {
        put_bits(chances[j * rows + i]);
      }
    }
  }
  free(spans);
  free(span);
  free(low);
  free(high);
  free(uncertainty);
  free(bytes);
  free(chances);
}

/* One number out. */
#define ONE(call)                                                              \
  do {                                                                         \
    double x = 0;                                                              \
    lw_error *error = NULL;                                                    \
    if (done(call, &error)) {                                                   \
      put_bits(x);                                                             \
    }                                                                          \
  } while (0)

static void quantities(const char *call, Inputs *in) {
  lw_error *error = NULL;
  if (strcmp(call, "parse_length") == 0) {
    lw_mark mark = LW_INIT(lw_mark);
    const char *text = word(in);
    lw_status status = lw_parse_length(text, strlen(text), &mark, &error);
    if (done(status, &error)) {
      put_whole(mark.nanometres);
      put_whole(mark.unit);
      put_whole(mark.decimals);
    }
  } else if (strcmp(call, "show_length") == 0) {
    lw_mark mark = LW_INIT(lw_mark);
    mark.nanometres = whole(in);
    mark.unit = choice(in);
    mark.decimals = choice(in);
    char text[64] = "";
    size_t needed = 0;
    lw_status status = lw_show_length(&mark, text, sizeof text, &needed, &error);
    if (done(status, &error)) {
      fprintf(out, "\t%s", text);
    }
  } else if (strcmp(call, "convert_length") == 0) {
    double value = number(in);
    uint32_t from = choice(in);
    uint32_t to = choice(in);
    ONE(lw_convert_length(value, from, to, &x, &error));
  } else if (strcmp(call, "convert_temperature") == 0) {
    double value = number(in);
    uint32_t from = choice(in);
    uint32_t to = choice(in);
    ONE(lw_convert_temperature(value, from, to, &x, &error));
  } else if (strcmp(call, "parse_temperature") == 0) {
    const char *text = word(in);
    ONE(lw_parse_temperature(text, strlen(text), &x, &error));
  } else if (strcmp(call, "parse_crank_angle") == 0) {
    const char *text = word(in);
    ONE(lw_parse_crank_angle(text, strlen(text), &x, &error));
  } else {
    fprintf(stderr, "no such call: %s\n", call);
    exit(2);
  }
}

static void cranks(const char *call, Inputs *in) {
  lw_error *error = NULL;
  double a = 0, b = 0, c = 0;
  if (strcmp(call, "tdc_from_stops") == 0) {
    double rising = number(in), falling = number(in), uncertainty = number(in);
    int has_slider = strcmp(in->word[in->next], "-") != 0;
    lw_slider_crank slider = slider_of(in);
    lw_status status = lw_tdc_from_stops(rising, falling, uncertainty, has_slider ? &slider : NULL,
                                         &a, &b, &error);
    if (done(status, &error)) {
      put_bits(a);
      put_bits(b);
    }
    return;
  }
  lw_slider_crank slider = slider_of(in);
  if (strcmp(call, "piston_drop") == 0) {
    double at = number(in);
    ONE(lw_piston_drop(&slider, at, &x, &error));
  } else if (strcmp(call, "angles_at_drop") == 0) {
    lw_status status = lw_angles_at_drop(&slider, number(in), &a, &b, &error);
    if (done(status, &error)) {
      put_bits(a);
      put_bits(b);
    }
  } else {
    lw_status status = lw_dead_centres(&slider, &a, &b, &c, &error);
    if (done(status, &error)) {
      put_bits(a);
      put_bits(b);
      put_bits(c);
    }
  }
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
      const double p[6] = {j.tight_least,  j.tight_most,  j.in_band_least,
                           j.in_band_most, j.loose_least, j.loose_most};
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
    int64_t goes = whole(in), refuses = whole(in), tolerance = whole(in);
    lw_estimate estimate = LW_INIT(lw_estimate);
    lw_status status =
        lw_estimate_from_leaves(span, goes, refuses, tolerance, &estimate, &error);
    if (done(status, &error)) {
      put_estimate(&estimate);
    }
  }
}

static void adjustments(const char *call, Inputs *in) {
  lw_error *error = NULL;
  if (strcmp(call, "pitch_per_inch") == 0) {
    double threads = number(in);
    ONE(lw_pitch_per_inch(threads, &x, &error));
  } else if (strcmp(call, "turn_screw") == 0) {
    lw_screw screw = LW_INIT(lw_screw);
    screw.pitch_mm = number(in);
    screw.rocker_ratio = number(in);
    screw.seat = choice(in);
    screw.inward_closes = choice(in);
    lw_screw_turn turn = LW_INIT(lw_screw_turn);
    if (done(lw_turn_screw(&screw, number(in), &turn, &error), &error)) {
      put_bits(turn.angle_deg);
      put_bits(turn.travel_mm);
      put_whole((int64_t)turn.direction);
    }
  } else if (strcmp(call, "shim_wanted") == 0) {
    lw_shim_fit fit = fit_of(in);
    int64_t wanted = 0;
    if (done(lw_shim_wanted(&fit, &wanted, &error), &error)) {
      put_whole(wanted);
    }
  } else if (strcmp(call, "lash_with_shim") == 0) {
    lw_shim_fit fit = fit_of(in);
    int64_t size = whole(in);
    ONE(lw_lash_with_shim(&fit, size, &x, &error));
  } else {
    lw_shim_fit fit = fit_of(in);
    lw_shim_series series = LW_INIT(lw_shim_series);
    series.first_nm = whole(in);
    series.last_nm = whole(in);
    series.step_nm = whole(in);
    lw_shim_choice found = LW_INIT(lw_shim_choice);
    if (done(lw_choose_shim(&fit, &series, choice(in), &found, &error), &error)) {
      put_whole(found.size_nm);
      put_bits(found.predicted_lash_mm);
      put_bits(found.error_mm);
    }
  }
}

static void companion(Inputs *in) {
  lw_engine *engine = NULL;
  lw_error *error = NULL;
  lw_status status = engine_of(in, &engine, &error);
  uint32_t found = 0;
  if (status == LW_STATUS_OK) {
    status = lw_companion(engine, choice(in), &found, &error);
  }
  if (done(status, &error)) {
    put_whole(found);
  }
  lw_engine_free(engine);
}

static int is_one_of(const char *call, const char *list) {
  const char *found = strstr(list, call);
  return found != NULL && found[-1] == ' ' && found[strlen(call)] == ' ';
}

static void dispatch(const char *call, Inputs *in) {
  if (strcmp(call, "firing_offsets") == 0) {
    offsets(in, lw_firing_offsets);
  } else if (strcmp(call, "tdc_offsets") == 0) {
    offsets(in, lw_tdc_offsets);
  } else if (strcmp(call, "rotor_angles") == 0) {
    offsets(in, lw_rotor_angles);
  } else if (strcmp(call, "companion") == 0) {
    companion(in);
  } else if (strcmp(call, "plan") == 0) {
    planned(in);
  } else if (is_one_of(call, " piston_drop angles_at_drop dead_centres tdc_from_stops ")) {
    cranks(call, in);
  } else if (is_one_of(call, " judge judge_columns warmth_shift estimate_changed ") ||
             strcmp(call, "estimate_from_leaves") == 0) {
    judgings(call, in);
  } else if (is_one_of(call, " pitch_per_inch turn_screw shim_wanted lash_with_shim ") ||
             strcmp(call, "choose_shim") == 0) {
    adjustments(call, in);
  } else {
    quantities(call, in);
  }
}

int main(int count, char **words) {
  if (count != 3) {
    fprintf(stderr, "usage: direct IN OUT\n");
    return 2;
  }
  char path[1024];
  snprintf(path, sizeof path, "%s/direct.tsv", words[1]);
  FILE *in = fopen(path, "r");
  snprintf(path, sizeof path, "%s/direct.tsv", words[2]);
  out = fopen(path, "w");
  if (in == NULL || out == NULL) {
    perror(path);
    return 2;
  }
  static char line[1 << 16];
  while (fgets(line, sizeof line, in) != NULL) {
    line[strcspn(line, "\n")] = '\0';
    Inputs inputs = {.count = 0, .next = 0};
    const char *name = strtok(line, "\t");
    const char *call = strtok(NULL, "\t");
    for (char *w = strtok(NULL, "\t"); w != NULL && inputs.count < MOST_INPUTS;
         w = strtok(NULL, "\t")) {
      inputs.word[inputs.count++] = w;
    }
    fprintf(out, "%s", name);
    ++checks;
    dispatch(call, &inputs);
    fprintf(out, "\n");
  }
  fclose(in);
  fclose(out);
  return finish("direct calls");
}
