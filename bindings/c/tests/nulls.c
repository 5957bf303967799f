/* Every call that can fail, with each of its pointers NULL in turn: a status, no crash, nothing written. */
#include "condition_nulls.h"

#define REFUSED_NULL(call) CHECK_STATUS(LW_STATUS_NULL_POINTER, call)

static void quantities(void) {
  lw_mark mark = LW_INIT(lw_mark);
  mark.unit = LW_LENGTH_UNIT_MILLIMETRE;
  char buffer[32];
  size_t needed = 7;
  double x = 7;
  REFUSED_NULL(lw_parse_length(NULL, 4, &mark, &error));
  REFUSED_NULL(lw_parse_length("1 mm", 4, NULL, &error));
  REFUSED_NULL(lw_show_length(NULL, buffer, sizeof buffer, &needed, &error));
  REFUSED_NULL(lw_show_length(&mark, NULL, sizeof buffer, &needed, &error));
  REFUSED_NULL(lw_show_length(&mark, buffer, sizeof buffer, NULL, &error));
  REFUSED_NULL(lw_convert_length(1, 1, 2, NULL, &error));
  REFUSED_NULL(lw_convert_temperature(1, 1, 2, NULL, &error));
  REFUSED_NULL(lw_parse_temperature(NULL, 4, &x, &error));
  REFUSED_NULL(lw_parse_temperature("20 C", 4, NULL, &error));
  REFUSED_NULL(lw_parse_crank_angle(NULL, 5, &x, &error));
  REFUSED_NULL(lw_parse_crank_angle("5 deg", 5, NULL, &error));
  CHECK(x == 7 && needed == 7);
}

static void cranks(void) {
  lw_slider_crank slider = LW_INIT(lw_slider_crank);
  slider.crank_radius_mm = 40;
  slider.rod_mm = 140;
  double a = 7, b = 7, c = 7;
  REFUSED_NULL(lw_piston_drop(NULL, 10, &a, &error));
  REFUSED_NULL(lw_piston_drop(&slider, 10, NULL, &error));
  REFUSED_NULL(lw_angles_at_drop(NULL, 1, &a, &b, &error));
  REFUSED_NULL(lw_angles_at_drop(&slider, 1, NULL, &b, &error));
  REFUSED_NULL(lw_angles_at_drop(&slider, 1, &a, NULL, &error));
  REFUSED_NULL(lw_dead_centres(NULL, &a, &b, &c, &error));
  REFUSED_NULL(lw_dead_centres(&slider, NULL, &b, &c, &error));
  REFUSED_NULL(lw_dead_centres(&slider, &a, NULL, &c, &error));
  REFUSED_NULL(lw_dead_centres(&slider, &a, &b, NULL, &error));
  REFUSED_NULL(lw_tdc_from_stops(350, 10, 1, &slider, NULL, &b, &error));
  REFUSED_NULL(lw_tdc_from_stops(350, 10, 1, &slider, &a, NULL, &error));
  CHECK(a == 7 && b == 7 && c == 7);
  CHECK_STATUS(LW_STATUS_OK, lw_tdc_from_stops(350, 10, 1, NULL, &a, &b, &error));
}

static void readings(void) {
  lw_estimate estimate = LW_INIT(lw_estimate), changed = LW_INIT(lw_estimate);
  estimate.span = changed.span = LW_SPAN_BETWEEN;
  lw_limits limits = LW_INIT(lw_limits);
  limits.span = LW_SPAN_BETWEEN;
  lw_rule rule = LW_INIT(lw_rule);
  rule.kind = LW_RULE_KIND_SIMPLE;
  lw_judgement judgement = LW_INIT(lw_judgement);
  lw_warmth warmth = LW_INIT(lw_warmth);
  double a = 7, b = 7;
  REFUSED_NULL(lw_judge(NULL, &limits, &rule, &judgement, &error));
  REFUSED_NULL(lw_judge(&estimate, NULL, &rule, &judgement, &error));
  REFUSED_NULL(lw_judge(&estimate, &limits, NULL, &judgement, &error));
  REFUSED_NULL(lw_judge(&estimate, &limits, &rule, NULL, &error));
  REFUSED_NULL(lw_estimate_changed(NULL, 0, 0, &changed, &error));
  REFUSED_NULL(lw_estimate_changed(&estimate, 0, 0, NULL, &error));
  REFUSED_NULL(lw_estimate_from_leaves(LW_SPAN_BETWEEN, 100000, 200000, 0, 0, NULL, &error));
  REFUSED_NULL(lw_warmth_shift(NULL, &a, &b, &error));
  REFUSED_NULL(lw_warmth_shift(&warmth, NULL, &b, &error));
  REFUSED_NULL(lw_warmth_shift(&warmth, &a, NULL, &error));
  uint32_t may_judge = 7;
  REFUSED_NULL(lw_warmth_not_known(20, 2, 20, NULL, &b, &error));
  REFUSED_NULL(lw_warmth_not_known(20, 2, 20, &may_judge, NULL, &error));
  CHECK(may_judge == 7);
  CHECK(a == 7 && b == 7);

  double low = 0.1, high = 0.2, u = 0.01;
  uint8_t verdict = 7;
  lw_reading_columns in = LW_INIT(lw_reading_columns);
  in.rows = 1;
  in.low_mm = &low;
  in.high_mm = &high;
  in.uncertainty_mm = &u;
  lw_judgement_columns out = LW_INIT(lw_judgement_columns);
  out.rows = 1;
  out.verdict = &verdict;
  REFUSED_NULL(lw_judge_columns(NULL, &limits, &rule, &out, &error));
  REFUSED_NULL(lw_judge_columns(&in, NULL, &rule, &out, &error));
  REFUSED_NULL(lw_judge_columns(&in, &limits, NULL, &out, &error));
  REFUSED_NULL(lw_judge_columns(&in, &limits, &rule, NULL, &error));
  const double **columns[3] = {&in.low_mm, &in.high_mm, &in.uncertainty_mm};
  for (int i = 0; i < 3; ++i) {
    const double *kept = *columns[i];
    *columns[i] = NULL;
    REFUSED_NULL(lw_judge_columns(&in, &limits, &rule, &out, &error));
    *columns[i] = kept;
  }
  out.verdict = NULL;
  REFUSED_NULL(lw_judge_columns(&in, &limits, &rule, &out, &error));
  CHECK(verdict == 7);
}

static void adjustments(void) {
  lw_screw screw = LW_INIT(lw_screw);
  lw_screw_turn turn = LW_INIT(lw_screw_turn);
  lw_shim_fit fit = LW_INIT(lw_shim_fit);
  fit.old_mm = fit.ratio = 1;
  lw_shim_series series = LW_INIT(lw_shim_series);
  lw_shim_choice choice = LW_INIT(lw_shim_choice);
  int64_t wanted = 7;
  double x = 7;
  REFUSED_NULL(lw_pitch_per_inch(26, NULL, &error));
  REFUSED_NULL(lw_turn_screw(NULL, 0.1, &turn, &error));
  REFUSED_NULL(lw_turn_screw(&screw, 0.1, NULL, &error));
  REFUSED_NULL(lw_shim_wanted(NULL, &wanted, &error));
  REFUSED_NULL(lw_shim_wanted(&fit, NULL, &error));
  REFUSED_NULL(lw_lash_with_shim(NULL, 1000000, &x, &error));
  REFUSED_NULL(lw_lash_with_shim(&fit, 1000000, NULL, &error));
  REFUSED_NULL(lw_choose_shim(NULL, &series, 1, &choice, &error));
  REFUSED_NULL(lw_choose_shim(&fit, NULL, 1, &choice, &error));
  REFUSED_NULL(lw_choose_shim(&fit, &series, 1, NULL, &error));
  CHECK(wanted == 7 && x == 7);
}

static void ignition(void) {
  lw_gap_and_dwell pair = LW_INIT(lw_gap_and_dwell);
  pair.gap_mm = 0.4;
  pair.dwell_deg = 52;
  pair.lobes = 4;
  double a = 7, b = 7, c = 7;
  REFUSED_NULL(lw_dwell_of_reading(50, LW_METER_SCALE_PERCENT, 4, NULL, &error));
  REFUSED_NULL(lw_reading_of_dwell(50, LW_METER_SCALE_PERCENT, 4, NULL, &error));
  REFUSED_NULL(lw_dwell_at_gap(NULL, 0.4, 0, &a, &b, &error));
  REFUSED_NULL(lw_dwell_at_gap(&pair, 0.4, 0, NULL, &b, &error));
  REFUSED_NULL(lw_dwell_at_gap(&pair, 0.4, 0, &a, NULL, &error));
  REFUSED_NULL(lw_gap_at_dwell(NULL, 52, 0, &a, &b, &error));
  REFUSED_NULL(lw_gap_at_dwell(&pair, 52, 0, NULL, &b, &error));
  REFUSED_NULL(lw_gap_at_dwell(&pair, 52, 0, &a, NULL, &error));
  REFUSED_NULL(lw_spark_shift(1, 0, LW_CAM_SPEED_CRANK, 0.5, NULL, &b, &error));
  REFUSED_NULL(lw_spark_shift(1, 0, LW_CAM_SPEED_CRANK, 0.5, &a, NULL, &error));

  lw_slider_crank slider = LW_INIT(lw_slider_crank);
  slider.crank_radius_mm = 27;
  slider.rod_mm = 100;
  lw_dial dial = LW_INIT(lw_dial);
  uint32_t side = 7;
  REFUSED_NULL(lw_distributor_at_point(10, 2, NULL, &b, &error));
  REFUSED_NULL(lw_distributor_at_point(10, 2, &a, NULL, &error));
  REFUSED_NULL(lw_point_at_distributor(10, 2, NULL, &b, &error));
  REFUSED_NULL(lw_point_at_distributor(10, 2, &a, NULL, &error));
  REFUSED_NULL(lw_dial_at_point(NULL, &dial, 22, &a, &b, &c, &error));
  REFUSED_NULL(lw_dial_at_point(&slider, NULL, 22, &a, &b, &c, &error));
  REFUSED_NULL(lw_dial_at_point(&slider, &dial, 22, NULL, &b, &c, &error));
  REFUSED_NULL(lw_dial_at_point(&slider, &dial, 22, &a, NULL, &c, &error));
  REFUSED_NULL(lw_dial_at_point(&slider, &dial, 22, &a, &b, NULL, &error));
  REFUSED_NULL(lw_point_at_dial(NULL, &dial, 2, LW_TDC_SIDE_BEFORE, &a, &b, &error));
  REFUSED_NULL(lw_point_at_dial(&slider, NULL, 2, LW_TDC_SIDE_BEFORE, &a, &b, &error));
  REFUSED_NULL(lw_point_at_dial(&slider, &dial, 2, LW_TDC_SIDE_BEFORE, NULL, &b, &error));
  REFUSED_NULL(lw_point_at_dial(&slider, &dial, 2, LW_TDC_SIDE_BEFORE, &a, NULL, &error));
  REFUSED_NULL(lw_rim_at_point(10, 120, 0, NULL, &side, &b, &error));
  REFUSED_NULL(lw_rim_at_point(10, 120, 0, &a, NULL, &b, &error));
  REFUSED_NULL(lw_rim_at_point(10, 120, 0, &a, &side, NULL, &error));
  REFUSED_NULL(lw_point_at_rim(10, LW_MARK_SIDE_AHEAD, 120, 0, NULL, &b, &error));
  REFUSED_NULL(lw_point_at_rim(10, LW_MARK_SIDE_AHEAD, 120, 0, &a, NULL, &error));

  lw_primary_circuit circuit = LW_INIT(lw_primary_circuit);
  circuit.supply_v = 12;
  circuit.resistance_ohm = 3;
  circuit.inductance_mh = 10;
  circuit.dwell_deg = 60;
  circuit.lobes = 4;
  circuit.cam = LW_CAM_SPEED_HALF_CRANK;
  lw_charge charge = LW_INIT(lw_charge);
  REFUSED_NULL(lw_copper_resistance(3, 0, 80, 0, 20, NULL, &b, &error));
  REFUSED_NULL(lw_copper_resistance(3, 0, 80, 0, 20, &a, NULL, &error));
  REFUSED_NULL(lw_charge_at_speed(NULL, 3000, &charge, &error));
  REFUSED_NULL(lw_charge_at_speed(&circuit, 3000, NULL, &error));
  REFUSED_NULL(lw_weak_from_speed(NULL, LW_WEAK_ENERGY, 30, &a, &b, &error));
  REFUSED_NULL(lw_weak_from_speed(&circuit, LW_WEAK_ENERGY, 30, NULL, &b, &error));
  REFUSED_NULL(lw_weak_from_speed(&circuit, LW_WEAK_ENERGY, 30, &a, NULL, &error));
  CHECK(a == 7 && b == 7 && c == 7 && side == 7);

  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_spark_shift(1, 0, 0, 0.5, &a, &b, &error));
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_point_at_dial(&slider, &dial, 2, 0, &a, &b, &error));
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_point_at_rim(10, 0, 120, 0, &a, &b, &error));
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_rim_at_point(10, 120, 2, &a, &side, &b, &error));
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_weak_from_speed(&circuit, 0, 30, &a, &b, &error));
  pair.unusual_gap = 2;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_dwell_at_gap(&pair, 0.4, 0, &a, &b, &error));
  circuit.cam = 0;
  CHECK_STATUS(LW_STATUS_UNKNOWN_VALUE, lw_charge_at_speed(&circuit, 3000, &charge, &error));
}

static void timing(void) {
  double speeds[2] = {1000, 2200}, advance[2] = {0, 20};
  lw_advance_curve curve = LW_INIT(lw_advance_curve);
  curve.points = 2;
  curve.speed_rpm = speeds;
  curve.least_deg = curve.most_deg = advance;
  double a = 7, b = 7;
  REFUSED_NULL(lw_advance_at_speed(NULL, 1600, &a, &b, &error));
  REFUSED_NULL(lw_advance_at_speed(&curve, 1600, NULL, &b, &error));
  REFUSED_NULL(lw_advance_at_speed(&curve, 1600, &a, NULL, &error));
  CHECK(a == 7 && b == 7);

  double read = 20, rpm = 1600, u = 0.5;
  uint8_t verdict = 7;
  lw_strobe_columns in = LW_INIT(lw_strobe_columns);
  in.rows = 1;
  in.read_btdc_deg = &read;
  in.rpm = &rpm;
  in.uncertainty_deg = &u;
  in.hose = LW_HOSE_PLUGGED;
  lw_printed_timing printed = LW_INIT(lw_printed_timing);
  printed.span = LW_SPAN_BETWEEN;
  printed.lower_btdc_deg = 8;
  printed.upper_btdc_deg = 12;
  lw_rule rule = LW_INIT(lw_rule);
  rule.kind = LW_RULE_KIND_GUARDED_EARLY;
  lw_judgement_columns out = LW_INIT(lw_judgement_columns);
  out.rows = 1;
  out.verdict = &verdict;
  REFUSED_NULL(lw_judge_strobe_columns(NULL, &curve, &printed, &rule, &out, NULL, &error));
  REFUSED_NULL(lw_judge_strobe_columns(&in, &curve, NULL, &rule, &out, NULL, &error));
  REFUSED_NULL(lw_judge_strobe_columns(&in, &curve, &printed, NULL, &out, NULL, &error));
  REFUSED_NULL(lw_judge_strobe_columns(&in, &curve, &printed, &rule, NULL, NULL, &error));
  const double **columns[6] = {&in.read_btdc_deg, &in.rpm,          &in.uncertainty_deg,
                               &curve.speed_rpm,  &curve.least_deg, &curve.most_deg};
  for (int i = 0; i < 6; ++i) {
    const double *kept = *columns[i];
    *columns[i] = NULL;
    REFUSED_NULL(lw_judge_strobe_columns(&in, &curve, &printed, &rule, &out, NULL, &error));
    *columns[i] = kept;
  }
  out.verdict = NULL;
  REFUSED_NULL(lw_judge_strobe_columns(&in, &curve, &printed, &rule, &out, NULL, &error));
  CHECK(verdict == 7);
  /* Neither the points nor any column of theirs has to be wanted, nor a curve to be printed. */
  out.verdict = &verdict;
  CHECK_STATUS(LW_STATUS_OK, lw_judge_strobe_columns(&in, &curve, &printed, &rule, &out, NULL, &error));
  CHECK(verdict == LW_VERDICT_IN_BAND);
  lw_point_columns points = LW_INIT(lw_point_columns);
  points.rows = 1;
  CHECK_STATUS(LW_STATUS_OK, lw_judge_strobe_columns(&in, &curve, &printed, &rule, &out, &points, &error));
  CHECK_STATUS(LW_STATUS_ROWS_REFUSED, lw_judge_strobe_columns(&in, NULL, &printed, &rule, &out, &points, &error));
  CHECK(verdict == LW_VERDICT_REFUSED);

  double reads[3] = {10, 20, 30}, rpms[3] = {900, 1600, 2200}, us[3] = {0.5, 0.5, 0.5};
  in.rows = 3;
  in.read_btdc_deg = reads;
  in.rpm = rpms;
  in.uncertainty_deg = us;
  lw_curve_fit fit = LW_INIT(lw_curve_fit);
  lw_curve_prior prior = LW_INIT(lw_curve_prior);
  prior.fault = 0.5;
  double probability[10];
  size_t count = 0;
  REFUSED_NULL(lw_fit_advance_curve(NULL, &curve, &printed, &fit, &error));
  REFUSED_NULL(lw_fit_advance_curve(&in, NULL, &printed, &fit, &error));
  REFUSED_NULL(lw_fit_advance_curve(&in, &curve, NULL, &fit, &error));
  REFUSED_NULL(lw_fit_advance_curve(&in, &curve, &printed, NULL, &error));
  REFUSED_NULL(lw_weigh_advance_curve(NULL, &curve, &printed, &prior, probability, 10, &count, &error));
  REFUSED_NULL(lw_weigh_advance_curve(&in, NULL, &printed, &prior, probability, 10, &count, &error));
  REFUSED_NULL(lw_weigh_advance_curve(&in, &curve, NULL, &prior, probability, 10, &count, &error));
  REFUSED_NULL(lw_weigh_advance_curve(&in, &curve, &printed, NULL, probability, 10, &count, &error));
  REFUSED_NULL(lw_weigh_advance_curve(&in, &curve, &printed, &prior, NULL, 10, &count, &error));
  REFUSED_NULL(lw_weigh_advance_curve(&in, &curve, &printed, &prior, probability, 10, NULL, &error));
}

/* One input, one output, and columns that may not be left out. */
static void mixture(void) {
  lw_fuel fuel = LW_INIT(lw_fuel);
  fuel.hydrogen = 1.85;
  double x = 7, y = 7;
  REFUSED_NULL(lw_parse_fuel(NULL, 3, &fuel, &error));
  REFUSED_NULL(lw_parse_fuel("E10", 3, NULL, &error));
  REFUSED_NULL(lw_air_fuel_ratio(NULL, &x, &error));
  REFUSED_NULL(lw_air_fuel_ratio(&fuel, NULL, &error));
  lw_exhaust_gas gas = LW_INIT(lw_exhaust_gas);
  gas.co2_percent = 14;
  gas.hydrocarbons = LW_HYDROCARBONS_NOT_READ;
  gas.tester = LW_TESTER_CLASS0;
  lw_lambda lambda = LW_INIT(lw_lambda);
  lw_lambda_range range = LW_INIT(lw_lambda_range);
  REFUSED_NULL(lw_lambda_of_gas(NULL, &fuel, &lambda, &error));
  REFUSED_NULL(lw_lambda_of_gas(&gas, NULL, &lambda, &error));
  REFUSED_NULL(lw_lambda_of_gas(&gas, &fuel, NULL, &error));
  REFUSED_NULL(lw_lambda_of_co(3, 0.1, NULL, &range, &error));
  REFUSED_NULL(lw_lambda_of_co(3, 0.1, &fuel, NULL, &error));
  lw_air air = LW_INIT(lw_air);
  air.barometer_kpa = 100;
  air.barometer = LW_BAROMETER_STATION;
  lw_air_density density = LW_INIT(lw_air_density);
  REFUSED_NULL(lw_density_of_air(NULL, &density, &error));
  REFUSED_NULL(lw_density_of_air(&air, NULL, &error));
  REFUSED_NULL(lw_density_at_height(0, NULL, &error));
  REFUSED_NULL(lw_density_altitude(1.225, NULL, &error));

  double one = 14, none = 0;
  lw_gas_columns gases = LW_INIT(lw_gas_columns);
  gases.rows = 1;
  gases.co2_percent = &one;
  gases.co_percent = gases.o2_percent = gases.hc_ppm = &none;
  gases.hydrocarbons = LW_HYDROCARBONS_HEXANE;
  gases.tester = LW_TESTER_CLASS0;
  lw_lambda_columns lambdas = LW_INIT(lw_lambda_columns);
  lambdas.rows = 1;
  lambdas.lambda = &x;
  REFUSED_NULL(lw_lambda_of_columns(NULL, &fuel, &lambdas, &error));
  REFUSED_NULL(lw_lambda_of_columns(&gases, NULL, &lambdas, &error));
  REFUSED_NULL(lw_lambda_of_columns(&gases, &fuel, NULL, &error));
  double kpa = 100, celsius = 20, percent = 50;
  lw_air_columns airs = LW_INIT(lw_air_columns);
  airs.rows = 1;
  airs.pressure_kpa = &kpa;
  airs.celsius = &celsius;
  airs.humidity_percent = &percent;
  lw_density_columns densities = LW_INIT(lw_density_columns);
  densities.rows = 1;
  densities.density_kg_m3 = &x;
  REFUSED_NULL(lw_density_of_columns(NULL, &densities, &error));
  REFUSED_NULL(lw_density_of_columns(&airs, NULL, &error));
  const double **columns[7] = {&gases.co2_percent, &gases.co_percent, &gases.o2_percent,
                               &gases.hc_ppm,      &airs.pressure_kpa, &airs.celsius,
                               &airs.humidity_percent};
  for (int i = 0; i < 7; ++i) {
    const double *kept = *columns[i];
    *columns[i] = NULL;
    if (i < 4) {
      REFUSED_NULL(lw_lambda_of_columns(&gases, &fuel, &lambdas, &error));
    } else {
      REFUSED_NULL(lw_density_of_columns(&airs, &densities, &error));
    }
    *columns[i] = kept;
  }
  lambdas.lambda = densities.density_kg_m3 = NULL;
  REFUSED_NULL(lw_lambda_of_columns(&gases, &fuel, &lambdas, &error));
  REFUSED_NULL(lw_density_of_columns(&airs, &densities, &error));

  double turns[4] = {1, 1.5, 2, 2.5}, rpm[4] = {800, 850, 848, 795};
  lw_idle_readings idle = LW_INIT(lw_idle_readings);
  idle.rows = 4;
  idle.turns_out = turns;
  idle.rpm = rpm;
  idle.scatter_rpm = 4;
  idle.screw = LW_MIXTURE_SCREW_FUEL;
  lw_idle_crown crown = LW_INIT(lw_idle_crown);
  REFUSED_NULL(lw_fit_idle_curve(NULL, &crown, &error));
  REFUSED_NULL(lw_fit_idle_curve(&idle, NULL, &error));
  REFUSED_NULL(lw_idle_beside(NULL, LW_MIXTURE_SIDE_LEAN, 20, &x, &y, &error));
  REFUSED_NULL(lw_idle_beside(&idle, LW_MIXTURE_SIDE_LEAN, 20, NULL, &y, &error));
  REFUSED_NULL(lw_idle_beside(&idle, LW_MIXTURE_SIDE_LEAN, 20, &x, NULL, &error));
  idle.rpm = NULL;
  REFUSED_NULL(lw_fit_idle_curve(&idle, &crown, &error));
  idle.rpm = rpm;
  idle.turns_out = NULL;
  REFUSED_NULL(lw_fit_idle_curve(&idle, &crown, &error));
  CHECK(x == 7 && y == 7);
}

static void throttles(void) {
  uint32_t near_end = 0, far_end = 1, by = LW_JOINED_BY_SCREW, at[2] = {0, 1}, joint = 7;
  double shown[2] = {26, 30}, turn = 90, before = 30, after = 28;
  lw_linkage linkage = LW_INIT(lw_linkage);
  linkage.throttles = 2;
  linkage.joints = 1;
  linkage.one = &near_end;
  linkage.other = &far_end;
  linkage.joined_by = &by;
  lw_throttle_looks looks = LW_INIT(lw_throttle_looks);
  looks.rows = 2;
  looks.throttle = at;
  looks.shown = shown;
  looks.scatter = 0.1;
  looks.gauge = LW_THROTTLE_GAUGE_VACUUM;
  lw_trial_turns trials = LW_INIT(lw_trial_turns);
  trials.rows = 1;
  trials.joint = &near_end;
  trials.turn_deg = &turn;
  trials.before = trials.unmoved_before = &before;
  trials.after = trials.unmoved_after = &after;
  lw_balance found = LW_INIT(lw_balance);
  lw_throttle_columns stands = LW_INIT(lw_throttle_columns);
  stands.rows = 2;
  lw_move_columns moves = LW_INIT(lw_move_columns);
  moves.rows = 1;
  moves.joint = &joint;
  uint32_t shaft = 7;
  lw_shaft_columns shafts = LW_INIT(lw_shaft_columns);
  shafts.rows = 1;
  shafts.joint = &shaft;
#define BALANCE lw_balance_throttles(&linkage, &looks, &trials, NULL, &found, &stands, &moves, &shafts, &error)
  REFUSED_NULL(lw_balance_throttles(NULL, &looks, NULL, NULL, &found, NULL, &moves, NULL, &error));
  REFUSED_NULL(lw_balance_throttles(&linkage, NULL, NULL, NULL, &found, NULL, &moves, NULL, &error));
  REFUSED_NULL(lw_balance_throttles(&linkage, &looks, NULL, NULL, NULL, NULL, &moves, NULL, &error));
  REFUSED_NULL(lw_balance_throttles(&linkage, &looks, NULL, NULL, &found, NULL, NULL, NULL, &error));
  const uint32_t **places[5] = {&linkage.one, &linkage.other, &linkage.joined_by, &looks.throttle, &trials.joint};
  for (int i = 0; i < 5; ++i) {
    const uint32_t *kept = *places[i];
    *places[i] = NULL;
    REFUSED_NULL(BALANCE);
    *places[i] = kept;
  }
  const double **columns[6] = {&looks.shown,  &trials.turn_deg,       &trials.before,
                               &trials.after, &trials.unmoved_before, &trials.unmoved_after};
  for (int i = 0; i < 6; ++i) {
    const double *kept = *columns[i];
    *columns[i] = NULL;
    REFUSED_NULL(BALANCE);
    *columns[i] = kept;
  }
  moves.joint = NULL;
  REFUSED_NULL(BALANCE);
  CHECK(joint == 7 && found.moves == 0);
  moves.joint = &joint;
  shafts.joint = NULL;
  REFUSED_NULL(BALANCE);
  shafts.joint = &shaft;
  /* Neither the throttles nor any column of theirs has to be wanted, nor a trial to be made. */
  trials.unmoved_before = trials.unmoved_after = NULL;
  CHECK_STATUS(LW_STATUS_OK, BALANCE);
  CHECK_STATUS(LW_STATUS_OK, lw_balance_throttles(&linkage, &looks, NULL, NULL, &found, NULL, &moves, NULL, &error));
  CHECK(joint == 0 && found.moves == 1 && found.shafts == 0 && shaft == 7);
#undef BALANCE
}

static void handles(void) {
  const uint32_t order[2] = {1, 2};
  lw_engine_parts parts = even_four_stroke(order, 2);
  lw_engine *engine = NULL;
  REFUSED_NULL(lw_engine_new(NULL, &engine, &error));
  REFUSED_NULL(lw_engine_new(&parts, NULL, &error));
  REFUSED_NULL(lw_engine_of_document(NULL, 2, &engine, &error));
  REFUSED_NULL(lw_engine_of_document("{}", 2, NULL, &error));
  CHECK(engine == NULL);
  CHECK_STATUS(LW_STATUS_OK, lw_engine_new(&parts, &engine, &error));

  size_t count = 7;
  uint32_t companion = 7;
  double offsets[2];
  char label[8];
  REFUSED_NULL(lw_engine_cylinders(NULL, &count, &error));
  REFUSED_NULL(lw_engine_cylinders(engine, NULL, &error));
  REFUSED_NULL(lw_engine_label(NULL, 1, label, sizeof label, &count, &error));
  REFUSED_NULL(lw_engine_label(engine, 1, NULL, sizeof label, &count, &error));
  REFUSED_NULL(lw_engine_label(engine, 1, label, sizeof label, NULL, &error));
  REFUSED_NULL(lw_companion(NULL, 1, &companion, &error));
  REFUSED_NULL(lw_companion(engine, 1, NULL, &error));
  lw_status (*arrays[3])(const lw_engine *, double *, size_t, size_t *, lw_error **) = {
      lw_firing_offsets, lw_tdc_offsets, lw_rotor_angles};
  for (int i = 0; i < 3; ++i) {
    REFUSED_NULL(arrays[i](NULL, offsets, 2, &count, &error));
    REFUSED_NULL(arrays[i](engine, NULL, 2, &count, &error));
    REFUSED_NULL(arrays[i](engine, offsets, 2, NULL, &error));
  }
  CHECK(count == 7 && companion == 7);

  lw_valve_train train = LW_INIT(lw_valve_train);
  train.intake_per_cylinder = train.exhaust_per_cylinder = 1;
  lw_plan *plan = NULL;
  REFUSED_NULL(lw_plan_new(NULL, &train, 1, 1, 0, &plan, &error));
  REFUSED_NULL(lw_plan_new(engine, NULL, 1, 1, 0, &plan, &error));
  REFUSED_NULL(lw_plan_new(engine, &train, 1, 1, 0, NULL, &error));
  CHECK_STATUS(LW_STATUS_OK, lw_plan_new(engine, &train, 1, 1, 0, &plan, &error));
  lw_plan_cost cost = LW_INIT(lw_plan_cost);
  lw_stop stop = LW_INIT(lw_stop);
  lw_valve_check check = LW_INIT(lw_valve_check);
  REFUSED_NULL(lw_plan_total(NULL, &cost, &error));
  REFUSED_NULL(lw_plan_total(plan, NULL, &error));
  REFUSED_NULL(lw_plan_stop(NULL, 0, &stop, &error));
  REFUSED_NULL(lw_plan_stop(plan, 0, NULL, &error));
  REFUSED_NULL(lw_plan_check(NULL, 0, 0, &check, &error));
  REFUSED_NULL(lw_plan_check(plan, 0, 0, NULL, &error));
  REFUSED_NULL(lw_plan_cue(NULL, 0, 0, &check, &error));
  REFUSED_NULL(lw_plan_cue(plan, 0, 0, NULL, &error));
  REFUSED_NULL(lw_plan_unreachable(NULL, 0, &check, &error));
  REFUSED_NULL(lw_plan_unreachable(plan, 0, NULL, &error));
  lw_plan_free(plan);
  lw_engine_free(engine);
}

/* What may be asked of no error at all. */
static void no_error(void) {
  CHECK(strcmp(lw_error_code(NULL), "") == 0 && strcmp(lw_error_message(NULL), "") == 0);
  CHECK(strcmp(lw_error_hint(NULL), "") == 0 && strcmp(lw_error_place(NULL), "") == 0);
  CHECK(!lw_error_row(NULL, NULL) && !lw_error_range(NULL, NULL));
  CHECK(lw_struct_size(NULL, 9) == 0);
}

int main(void) {
  quantities();
  cranks();
  readings();
  adjustments();
  ignition();
  timing();
  mixture();
  throttles();
  condition_nulls();
  events_nulls();
  history_nulls();
  handles();
  no_error();
  return finish("nulls");
}
