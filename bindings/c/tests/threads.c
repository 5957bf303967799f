/* Handles shared by threads: all get the same answers at the same time as one alone. */
#include "check.h"

#include <pthread.h>

enum { THREADS = 8, ROUNDS = 200 };

static const char DOCUMENT[] = "{\"lashwork\": 1, \"title\": \"shared\", \"engine\": 3}";

typedef struct Shared {
  const lw_engine *engine;
  const lw_plan *plan;
  double offsets[4];
  double turn;
  lw_text answer;
} Shared;

#ifdef LASHWORK_RACE
/* Planted: one place for what all threads are given, which a tool for races must see. */
static lw_plan_cost raced = LW_INIT(lw_plan_cost);
#endif

static void *work(void *given) {
  const Shared *shared = given;
  size_t wrong = 0;
  for (int round = 0; round < ROUNDS; ++round) {
    double offsets[4] = {0};
    size_t count = 0;
    wrong += lw_firing_offsets(shared->engine, offsets, 4, &count, NULL) != LW_STATUS_OK;
    wrong += memcmp(offsets, shared->offsets, sizeof offsets) != 0;
    lw_plan_cost cost = LW_INIT(lw_plan_cost);
    wrong += lw_plan_total(shared->plan, &cost, NULL) != LW_STATUS_OK;
    wrong += cost.total_turn_deg != shared->turn;
#ifdef LASHWORK_RACE
    wrong += lw_plan_total(shared->plan, &raced, NULL) != LW_STATUS_OK;
#endif
    lw_error *error = NULL;
    wrong += lw_companion(shared->engine, (uint32_t)round + 5, &(uint32_t){0}, &error) !=
             LW_STATUS_OUT_OF_BOUNDS;
    char number[16];
    snprintf(number, sizeof number, " %d ", round + 5);
    wrong += strstr(lw_error_message(error), number) == NULL;
    lw_error_free(error);
    if (round % 20 == 0) {
      lw_text answer = {NULL, 0};
      wrong += lw_run(DOCUMENT, sizeof DOCUMENT - 1, &answer, NULL) != LW_STATUS_OK;
      wrong += answer.len != shared->answer.len ||
               memcmp(answer.data, shared->answer.data, answer.len) != 0;
      lw_text_free(&answer);
    }
  }
  return (void *)wrong;
}

int main(void) {
  uint32_t order[4] = {1, 3, 4, 2};
  lw_engine_parts parts = even_four_stroke(order, 4);
  lw_engine *engine = NULL;
  CHECK_STATUS(LW_STATUS_OK, lw_engine_new(&parts, &engine, &error));
  lw_valve_train train = LW_INIT(lw_valve_train);
  train.intake_opens_btdc_deg = 12;
  train.intake_closes_abdc_deg = 54;
  train.exhaust_opens_bbdc_deg = 54;
  train.exhaust_closes_atdc_deg = 12;
  train.intake_per_cylinder = train.exhaust_per_cylinder = 1;
  lw_plan *plan = NULL;
  CHECK_STATUS(LW_STATUS_OK, lw_plan_new(engine, &train, LW_METHOD_FEWEST_STOPS,
                                         LW_PLACES_DEAD_CENTRES, 0, &plan, &error));
  Shared shared = {.engine = engine, .plan = plan};
  size_t count = 0;
  CHECK_STATUS(LW_STATUS_OK, lw_firing_offsets(engine, shared.offsets, 4, &count, &error));
  lw_plan_cost cost = LW_INIT(lw_plan_cost);
  CHECK_STATUS(LW_STATUS_OK, lw_plan_total(plan, &cost, &error));
  shared.turn = cost.total_turn_deg;
  CHECK_STATUS(LW_STATUS_OK, lw_run(DOCUMENT, sizeof DOCUMENT - 1, &shared.answer, &error));

  pthread_t threads[THREADS];
  for (int i = 0; i < THREADS; ++i) {
    CHECK(pthread_create(&threads[i], NULL, work, &shared) == 0);
  }
  for (int i = 0; i < THREADS; ++i) {
    void *wrong = NULL;
    CHECK(pthread_join(threads[i], &wrong) == 0);
    CHECK(wrong == NULL);
  }
  lw_text_free(&shared.answer);
  lw_plan_free(plan);
  lw_engine_free(engine);
  return finish("threads");
}
