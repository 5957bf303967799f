/* The direct call about throttles that share the work. */
#ifndef LASHWORK_TESTS_BALANCE_CALLS_H
#define LASHWORK_TESTS_BALANCE_CALLS_H

#include "judging_calls.h"

/* A list of whole numbers on the heap, of just the right size. */
static uint32_t *choices(Inputs *in, size_t *count) {
  double *found = numbers(in, count);
  uint32_t *list = found == NULL ? NULL : malloc(*count * sizeof *list);
  for (size_t i = 0; i < *count; ++i) {
    list[i] = (uint32_t)found[i];
  }
  free(found);
  return list;
}

static void put_balance(const lw_balance *found, const lw_throttle_columns *throttles,
                        const lw_move_columns *moves, const lw_shaft_columns *shafts) {
  put_whole((int64_t)found->moves);
  put_bits(found->spread);
  put_bits(found->scatter);
  put_bits(found->degrees_of_freedom);
  put_bits(found->within);
  put_bits(found->doubt_deg);
  put_bits(found->then_deg);
  put_whole(found->verdict);
  put_whole(found->next);
  put_whole(found->next_index);
  put_whole(found->shafts);
  for (size_t i = 0; i < throttles->rows; ++i) {
    put_bits(throttles->reading[i]);
    put_bits(throttles->uncertainty[i]);
    put_bits(throttles->over_reference[i]);
    put_bits(throttles->over_uncertainty[i]);
    put_whole(throttles->verdict[i]);
  }
  for (size_t i = 0; i < found->moves; ++i) {
    put_whole(moves->joint[i]);
    put_whole(moves->to_match[i]);
    put_bits(moves->change[i]);
    put_bits(moves->change_uncertainty[i]);
    put_whole(moves->way[i]);
    put_bits(moves->way_right[i]);
    put_whole(moves->sense[i]);
    put_bits(moves->turn_deg[i]);
    put_bits(moves->turn_uncertainty_deg[i]);
    put_bits(moves->per_turn[i]);
    put_bits(moves->per_turn_uncertainty[i]);
  }
  for (size_t i = 0; i < found->shafts; ++i) {
    put_whole(shafts->joint[i]);
    put_bits(shafts->difference[i]);
    put_bits(shafts->difference_uncertainty[i]);
    put_whole(shafts->verdict[i]);
  }
}

static void balance(Inputs *in) {
  lw_linkage linkage = LW_INIT(lw_linkage);
  linkage.throttles = choice(in);
  linkage.reference = choice(in);
  linkage.screws_alike = choice(in);
  uint32_t *whole_lists[5];
  for (int i = 0; i < 3; ++i) {
    whole_lists[i] = choices(in, &linkage.joints);
  }
  linkage.one = whole_lists[0];
  linkage.other = whole_lists[1];
  linkage.joined_by = whole_lists[2];
  lw_throttle_looks looks = LW_INIT(lw_throttle_looks);
  looks.throttle = whole_lists[3] = choices(in, &looks.rows);
  double *lists[6];
  looks.shown = lists[0] = numbers(in, &looks.rows);
  looks.scatter = number(in);
  looks.between_gauges = number(in);
  looks.allowed = number(in);
  looks.ambient_kpa = number(in);
  looks.gauge = choice(in);
  looks.ambient_known = choice(in);
  lw_trial_turns trials = LW_INIT(lw_trial_turns);
  size_t ignored = 0;
  trials.joint = whole_lists[4] = choices(in, &trials.rows);
  trials.turn_deg = lists[1] = numbers(in, &ignored);
  trials.before = lists[2] = numbers(in, &ignored);
  trials.after = lists[3] = numbers(in, &ignored);
  trials.unmoved_before = lists[4] = numbers(in, &ignored);
  trials.unmoved_after = lists[5] = numbers(in, &ignored);
  lw_rule rule = rule_of(in);
  uint8_t verdicts[2][MOST_ITEMS];
  uint32_t whole_columns[5][MOST_ITEMS];
  double columns[13][MOST_ITEMS];
  lw_throttle_columns throttles = LW_INIT(lw_throttle_columns);
  throttles.rows = linkage.throttles;
  throttles.reading = columns[0];
  throttles.uncertainty = columns[1];
  throttles.over_reference = columns[2];
  throttles.over_uncertainty = columns[3];
  throttles.verdict = verdicts[0];
  lw_move_columns moves = LW_INIT(lw_move_columns);
  moves.rows = linkage.joints;
  moves.joint = whole_columns[0];
  moves.to_match = whole_columns[1];
  moves.change = columns[4];
  moves.change_uncertainty = columns[5];
  moves.way = whole_columns[2];
  moves.way_right = columns[6];
  moves.sense = whole_columns[3];
  moves.turn_deg = columns[7];
  moves.turn_uncertainty_deg = columns[8];
  moves.per_turn = columns[9];
  moves.per_turn_uncertainty = columns[10];
  lw_shaft_columns shafts = LW_INIT(lw_shaft_columns);
  shafts.rows = linkage.joints;
  shafts.joint = whole_columns[4];
  shafts.difference = columns[11];
  shafts.difference_uncertainty = columns[12];
  shafts.verdict = verdicts[1];
  lw_balance found = LW_INIT(lw_balance);
  lw_error *error = NULL;
  if (done(lw_balance_throttles(&linkage, &looks, trials.rows == 0 ? NULL : &trials,
                                rule.kind == 0 ? NULL : &rule, &found, &throttles, &moves, &shafts, &error),
           &error)) {
    put_balance(&found, &throttles, &moves, &shafts);
  }
  for (int i = 0; i < 5; ++i) {
    free(whole_lists[i]);
  }
  for (int i = 0; i < 6; ++i) {
    free(lists[i]);
  }
}

#endif
