/* Direct calls about ignition: breaker, ignition point, coil. */
#ifndef LASHWORK_TESTS_IGNITION_CALLS_H
#define LASHWORK_TESTS_IGNITION_CALLS_H

#include "lines.h"

/* Ends a line with the numbers of a call that has just been made. */
static int told(lw_status status, lw_error **error, const double *values, int count) {
  int is_done = done(status, error);
  for (int i = 0; is_done && i < count; ++i) {
    put_bits(values[i]);
  }
  return is_done;
}

static lw_gap_and_dwell pair_of(Inputs *in) {
  lw_gap_and_dwell pair = LW_INIT(lw_gap_and_dwell);
  pair.gap_mm = number(in);
  pair.gap_uncertainty_mm = number(in);
  pair.dwell_deg = number(in);
  pair.dwell_uncertainty_deg = number(in);
  pair.lobes = choice(in);
  pair.unusual_gap = choice(in);
  return pair;
}

static void breakers(const char *call, Inputs *in) {
  lw_error *error = NULL;
  double x[2] = {0, 0};
  if (strcmp(call, "dwell_of_reading") == 0 || strcmp(call, "reading_of_dwell") == 0) {
    double value = number(in);
    uint32_t scale = choice(in), lobes = choice(in);
    lw_status status = call[0] == 'd' ? lw_dwell_of_reading(value, scale, lobes, x, &error)
                                      : lw_reading_of_dwell(value, scale, lobes, x, &error);
    told(status, &error, x, 1);
  } else if (strcmp(call, "spark_shift") == 0) {
    double change = number(in), uncertainty = number(in);
    uint32_t cam = choice(in);
    double share = number(in);
    told(lw_spark_shift(change, uncertainty, cam, share, x, x + 1, &error), &error, x, 2);
  } else {
    lw_gap_and_dwell pair = pair_of(in);
    double at = number(in), uncertainty = number(in);
    lw_status status = call[0] == 'd' ? lw_dwell_at_gap(&pair, at, uncertainty, x, x + 1, &error)
                                      : lw_gap_at_dwell(&pair, at, uncertainty, x, x + 1, &error);
    told(status, &error, x, 2);
  }
}

static lw_dial dial_of(Inputs *in) {
  lw_dial dial = LW_INIT(lw_dial);
  dial.uncertainty_mm = number(in);
  dial.plug_hole_deg = number(in);
  return dial;
}

static void dials(const char *call, Inputs *in, const lw_slider_crank *slider) {
  lw_error *error = NULL;
  double x[3] = {0, 0, 0};
  lw_dial dial = dial_of(in);
  double at = number(in);
  if (call[0] == 'd') {
    told(lw_dial_at_point(slider, &dial, at, x, x + 1, x + 2, &error), &error, x, 3);
  } else {
    uint32_t side = choice(in);
    told(lw_point_at_dial(slider, &dial, at, side, x, x + 1, &error), &error, x, 2);
  }
}

static void points(const char *call, Inputs *in) {
  lw_error *error = NULL;
  double x[2] = {0, 0};
  double at = number(in);
  if (strcmp(call, "distributor_at_point") == 0) {
    told(lw_distributor_at_point(at, number(in), x, x + 1, &error), &error, x, 2);
  } else if (strcmp(call, "point_at_distributor") == 0) {
    told(lw_point_at_distributor(at, number(in), x, x + 1, &error), &error, x, 2);
  } else if (strcmp(call, "rim_at_point") == 0) {
    double diameter = number(in);
    uint32_t side = 0;
    lw_status status = lw_rim_at_point(at, diameter, choice(in), x, &side, x + 1, &error);
    if (told(status, &error, x, 1)) {
      put_whole(side);
      put_bits(x[1]);
    }
  } else {
    uint32_t side = choice(in);
    double diameter = number(in);
    told(lw_point_at_rim(at, side, diameter, choice(in), x, x + 1, &error), &error, x, 2);
  }
}

static lw_primary_circuit circuit_of(Inputs *in) {
  lw_primary_circuit circuit = LW_INIT(lw_primary_circuit);
  circuit.supply_v = number(in);
  circuit.supply_uncertainty_v = number(in);
  circuit.resistance_ohm = number(in);
  circuit.resistance_uncertainty_ohm = number(in);
  circuit.inductance_mh = number(in);
  circuit.inductance_uncertainty_mh = number(in);
  circuit.dwell_deg = number(in);
  circuit.dwell_uncertainty_deg = number(in);
  circuit.lobes = choice(in);
  circuit.cam = choice(in);
  return circuit;
}

static void coils(const char *call, Inputs *in) {
  lw_error *error = NULL;
  double x[2] = {0, 0};
  if (strcmp(call, "copper_resistance") == 0) {
    double read = number(in), read_u = number(in);
    double at = number(in), at_u = number(in), wanted = number(in);
    told(lw_copper_resistance(read, read_u, at, at_u, wanted, x, x + 1, &error), &error, x, 2);
    return;
  }
  lw_primary_circuit circuit = circuit_of(in);
  if (strcmp(call, "weak_from_speed") == 0) {
    uint32_t weak = choice(in);
    told(lw_weak_from_speed(&circuit, weak, number(in), x, x + 1, &error), &error, x, 2);
    return;
  }
  lw_charge c = LW_INIT(lw_charge);
  if (done(lw_charge_at_speed(&circuit, number(in), &c, &error), &error)) {
    const double found[7] = {c.closed_ms,        c.current_a,
                             c.current_uncertainty_a, c.energy_mj,
                             c.energy_uncertainty_mj, c.share_of_current,
                             c.share_of_energy};
    for (int i = 0; i < 7; ++i) {
      put_bits(found[i]);
    }
  }
}

#endif
