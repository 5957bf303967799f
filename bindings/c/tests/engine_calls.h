/* Direct calls on an engine and on a stop plan. */
#ifndef LASHWORK_TESTS_ENGINE_CALLS_H
#define LASHWORK_TESTS_ENGINE_CALLS_H

#include "lines.h"

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
  train.events_at = choice(in);
  train.events_at_mm = number(in);
  train.greatest_lift_mm = number(in);
  train.running_intake_mm = number(in);
  train.running_exhaust_mm = number(in);
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

#endif
