/* Direct calls about mixture: exhaust gas, air, idle. */
#ifndef LASHWORK_TESTS_MIXTURE_CALLS_H
#define LASHWORK_TESTS_MIXTURE_CALLS_H

#include "ignition_calls.h"

/* Ends a line for a call whose refused rows are marked. */
static int rows_done(lw_status status, lw_error **error) {
  if (status == LW_STATUS_ROWS_REFUSED) {
    lw_error_free(*error);
    *error = NULL;
    status = LW_STATUS_OK;
  }
  return done(status, error);
}

static lw_fuel fuel_of(Inputs *in) {
  lw_fuel fuel = LW_INIT(lw_fuel);
  fuel.hydrogen = number(in);
  fuel.oxygen = number(in);
  fuel.nitrogen = number(in);
  return fuel;
}

static void fuels(const char *call, Inputs *in) {
  lw_error *error = NULL;
  if (strcmp(call, "parse_fuel") == 0) {
    lw_fuel fuel = LW_INIT(lw_fuel);
    const char *name = word(in);
    if (done(lw_parse_fuel(name, strlen(name), &fuel, &error), &error)) {
      put_bits(fuel.hydrogen);
      put_bits(fuel.oxygen);
      put_bits(fuel.nitrogen);
    }
    return;
  }
  lw_fuel fuel = fuel_of(in);
  double x = 0;
  told(lw_air_fuel_ratio(&fuel, &x, &error), &error, &x, 1);
}

static void one_gas(Inputs *in) {
  lw_exhaust_gas gas = LW_INIT(lw_exhaust_gas);
  gas.co2_percent = number(in);
  gas.co_percent = number(in);
  gas.o2_percent = number(in);
  gas.hc_ppm = number(in);
  gas.hc_factor = number(in);
  gas.no_ppm = number(in);
  gas.hydrocarbons = choice(in);
  gas.tester = choice(in);
  gas.no_read = choice(in);
  lw_fuel fuel = fuel_of(in);
  lw_lambda found = LW_INIT(lw_lambda);
  lw_error *error = NULL;
  if (done(lw_lambda_of_gas(&gas, &fuel, &found, &error), &error)) {
    put_bits(found.lambda);
    put_bits(found.uncertainty);
    put_bits(found.spindt);
    put_bits(found.air_fuel_ratio);
    put_bits(found.behind_air_low);
    put_bits(found.behind_air_high);
    put_whole(found.contradictions);
    put_whole(found.cause);
  }
}

static void co_alone(Inputs *in) {
  double co = number(in), uncertainty = number(in);
  lw_fuel fuel = fuel_of(in);
  lw_lambda_range found = LW_INIT(lw_lambda_range);
  lw_error *error = NULL;
  if (done(lw_lambda_of_co(co, uncertainty, &fuel, &found, &error), &error)) {
    put_whole(found.span);
    put_bits(found.low);
    put_bits(found.high);
    put_bits(found.uncertainty);
    put_bits(found.burnt_out);
    put_bits(found.co2_percent);
  }
}

static void gas_columns(Inputs *in) {
  lw_gas_columns gas = LW_INIT(lw_gas_columns);
  double *read[4];
  for (int i = 0; i < 4; ++i) {
    read[i] = numbers(in, &gas.rows);
  }
  gas.co2_percent = read[0];
  gas.co_percent = read[1];
  gas.o2_percent = read[2];
  gas.hc_ppm = read[3];
  gas.hc_factor = number(in);
  gas.hydrocarbons = choice(in);
  gas.tester = choice(in);
  lw_fuel fuel = fuel_of(in);
  lw_lambda_columns found = LW_INIT(lw_lambda_columns);
  found.rows = gas.rows;
  double *numbers_out = malloc(2 * gas.rows * sizeof *numbers_out);
  uint8_t *doubts = malloc(gas.rows);
  found.lambda = numbers_out;
  found.uncertainty = numbers_out + gas.rows;
  found.contradiction = doubts;
  lw_error *error = NULL;
  if (rows_done(lw_lambda_of_columns(&gas, &fuel, &found, &error), &error)) {
    for (size_t i = 0; i < gas.rows; ++i) {
      put_bits(found.lambda[i]);
      put_bits(found.uncertainty[i]);
      put_whole(doubts[i]);
    }
  }
  for (int i = 0; i < 4; ++i) {
    free(read[i]);
  }
  free(numbers_out);
  free(doubts);
}

static void put_density(const lw_air_density *found) {
  put_bits(found->low_kg_m3);
  put_bits(found->high_kg_m3);
  put_bits(found->uncertainty_kg_m3);
  put_bits(found->ratio);
  put_bits(found->altitude_m);
  put_bits(found->station_kpa);
  put_whole(found->doubt);
  put_whole(found->as_published);
}

static void one_air(Inputs *in) {
  lw_air air = LW_INIT(lw_air);
  air.barometer_kpa = number(in);
  air.pressure_uncertainty_kpa = number(in);
  air.celsius = number(in);
  air.uncertainty_kelvin = number(in);
  air.humidity_percent = number(in);
  air.humidity_uncertainty_percent = number(in);
  air.altitude_m = number(in);
  air.barometer = choice(in);
  air.altitude_known = choice(in);
  air.humidity_read = choice(in);
  lw_air_density found = LW_INIT(lw_air_density);
  lw_error *error = NULL;
  if (done(lw_density_of_air(&air, &found, &error), &error)) {
    put_density(&found);
  }
}

static void air_columns(Inputs *in) {
  lw_air_columns air = LW_INIT(lw_air_columns);
  double *read[3];
  for (int i = 0; i < 3; ++i) {
    read[i] = numbers(in, &air.rows);
  }
  air.pressure_kpa = read[0];
  air.celsius = read[1];
  air.humidity_percent = read[2];
  air.pressure_uncertainty_kpa = number(in);
  air.uncertainty_kelvin = number(in);
  air.humidity_uncertainty_percent = number(in);
  lw_density_columns found = LW_INIT(lw_density_columns);
  found.rows = air.rows;
  double *made = malloc(3 * air.rows * sizeof *made);
  found.density_kg_m3 = made;
  found.uncertainty_kg_m3 = made + air.rows;
  found.altitude_m = made + 2 * air.rows;
  lw_error *error = NULL;
  if (rows_done(lw_density_of_columns(&air, &found, &error), &error)) {
    for (size_t i = 0; i < air.rows; ++i) {
      for (size_t j = 0; j < 3; ++j) {
        put_bits(made[j * air.rows + i]);
      }
    }
  }
  for (int i = 0; i < 3; ++i) {
    free(read[i]);
  }
  free(made);
}

static void idles(const char *call, Inputs *in) {
  lw_idle_readings readings = LW_INIT(lw_idle_readings);
  double *turns = numbers(in, &readings.rows), *rpm = numbers(in, &readings.rows);
  readings.turns_out = turns;
  readings.rpm = rpm;
  readings.scatter_rpm = number(in);
  readings.screw = choice(in);
  lw_error *error = NULL;
  if (strcmp(call, "idle_beside") == 0) {
    uint32_t side = choice(in);
    double x[2] = {0, 0};
    told(lw_idle_beside(&readings, side, number(in), x, x + 1, &error), &error, x, 2);
  } else {
    lw_idle_crown crown = LW_INIT(lw_idle_crown);
    if (done(lw_fit_idle_curve(&readings, &crown, &error), &error)) {
      put_bits(crown.best_turns);
      put_bits(crown.best_uncertainty_turns);
      put_bits(crown.from_turns);
      put_bits(crown.to_turns);
      put_bits(crown.speed_rpm);
      put_bits(crown.speed_uncertainty_rpm);
      put_bits(crown.lopsided);
      put_whole(crown.clearly_lopsided);
      put_whole(crown.seen);
      put_whole(crown.rises_toward);
    }
  }
  free(turns);
  free(rpm);
}

static void mixtures(const char *call, Inputs *in) {
  lw_error *error = NULL;
  if (strcmp(call, "lambda_of_gas") == 0) {
    one_gas(in);
  } else if (strcmp(call, "lambda_of_co") == 0) {
    co_alone(in);
  } else if (strcmp(call, "lambda_of_columns") == 0) {
    gas_columns(in);
  } else if (strcmp(call, "density_of_air") == 0) {
    one_air(in);
  } else if (strcmp(call, "density_of_columns") == 0) {
    air_columns(in);
  } else if (strcmp(call, "density_altitude") == 0) {
    double x = 0;
    told(lw_density_altitude(number(in), &x, &error), &error, &x, 1);
  } else if (strcmp(call, "density_at_height") == 0) {
    lw_air_density found = LW_INIT(lw_air_density);
    if (done(lw_density_at_height(number(in), &found, &error), &error)) {
      put_density(&found);
    }
  } else if (strcmp(call, "parse_fuel") == 0 || strcmp(call, "air_fuel_ratio") == 0) {
    fuels(call, in);
  } else {
    idles(call, in);
  }
}

#endif
