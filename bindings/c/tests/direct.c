/* Makes every direct call that IN/direct.tsv lists and writes what came out to OUT/direct.tsv. Knows
 * nothing of what is right; one judge compares all doors. A line is a name, a call and its inputs, tabs
 * between them, commas inside a list, "-" for what is left out. */
#include "balance_calls.h"
#include "condition_calls.h"
#include "engine_calls.h"
#include "history_calls.h"
#include "ignition_calls.h"
#include "judging_calls.h"
#include "mixture_calls.h"
#include "timing_calls.h"

/* One number out. */
#define ONE(call)                                                              \
  do {                                                                         \
    double x = 0;                                                              \
    lw_error *error = NULL;                                                    \
    if (done(call, &error)) {                                                   \
      put_bits(x);                                                             \
    }                                                                          \
  } while (0)

static lw_slider_crank slider_of(Inputs *in) {
  lw_slider_crank slider = LW_INIT(lw_slider_crank);
  slider.crank_radius_mm = number(in);
  slider.rod_mm = number(in);
  slider.offset_mm = number(in);
  return slider;
}

static lw_shim_fit fit_of(Inputs *in) {
  lw_shim_fit fit = LW_INIT(lw_shim_fit);
  fit.old_mm = number(in);
  fit.measured_mm = number(in);
  fit.target_mm = number(in);
  fit.ratio = number(in);
  return fit;
}

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
  } else if (is_one_of(call, " dwell_of_reading reading_of_dwell dwell_at_gap gap_at_dwell spark_shift ")) {
    breakers(call, in);
  } else if (is_one_of(call, " dial_at_point point_at_dial ")) {
    lw_slider_crank slider = slider_of(in);
    dials(call, in, &slider);
  } else if (is_one_of(call, " distributor_at_point point_at_distributor rim_at_point point_at_rim ")) {
    points(call, in);
  } else if (is_one_of(call, " copper_resistance charge_at_speed weak_from_speed ")) {
    coils(call, in);
  } else if (is_one_of(call, " advance_at_speed judge_strobe_columns fit_advance_curve ") ||
             strcmp(call, "weigh_advance_curve") == 0) {
    timings(call, in);
  } else if (strcmp(call, "balance_throttles") == 0) {
    balance(in);
  } else if (is_one_of(call, " parse_fuel air_fuel_ratio lambda_of_gas lambda_of_co lambda_of_columns density_of_air ") ||
             is_one_of(call, " density_at_height density_altitude density_of_columns fit_idle_curve idle_beside ")) {
    mixtures(call, in);
  } else if (is_one_of(call, " expected_compression implied_exponent compression_in_other_air judge_compression leak_area ") ||
             is_one_of(call, " tester_would_show leak_of_columns wrench_setting torque_at_bolt wrench_uncertainty ") ||
             is_one_of(call, " nut_factor preload_of_torque events_at_lash ")) {
    conditions(call, in);
  } else if (is_one_of(call, " drift_of_record forecast_of_record departures_of_record drift_of_columns ")) {
    histories(call, in);
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
