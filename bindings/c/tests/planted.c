/* Mistakes a caller could make, to prove that the tools of the other tests see them. */
#include "check.h"

static lw_engine *engine(void) {
  uint32_t order[1] = {1};
  lw_engine_parts parts = even_four_stroke(order, 1);
  lw_engine *made = NULL;
  CHECK_STATUS(LW_STATUS_OK, lw_engine_new(&parts, &made, &error));
  return made;
}

/* Says that arrays have two rows more than they have. */
static void overrun(void) {
  enum { HAS = 2, SAYS = 4 };
  double *column = calloc(HAS, sizeof *column);
  uint8_t *verdict = calloc(SAYS, 1);
  lw_reading_columns readings = LW_INIT(lw_reading_columns);
  readings.rows = SAYS;
  readings.low_mm = readings.high_mm = readings.uncertainty_mm = column;
  lw_judgement_columns out = LW_INIT(lw_judgement_columns);
  out.rows = SAYS;
  out.verdict = verdict;
  lw_limits limits = LW_INIT(lw_limits);
  limits.span = LW_SPAN_AT_LEAST;
  lw_rule rule = LW_INIT(lw_rule);
  rule.kind = LW_RULE_KIND_SIMPLE;
  lw_status status = lw_judge_columns(&readings, &limits, &rule, &out, NULL);
  printf("%s\n", lw_status_name(status));
  free(column);
  free(verdict);
}

int main(int count, char **words) {
  const char *mistake = count == 2 ? words[1] : "";
  if (strcmp(mistake, "none") == 0) {
    lw_engine_free(engine());
  } else if (strcmp(mistake, "leak") == 0) {
    CHECK(engine() != NULL);
  } else if (strcmp(mistake, "double-free") == 0) {
    lw_engine *twice = engine();
    lw_engine_free(twice);
    lw_engine_free(twice);
  } else if (strcmp(mistake, "overrun") == 0) {
    overrun();
  } else {
    fprintf(stderr, "usage: planted none | leak | double-free | overrun\n");
    return 2;
  }
  return failures == 0 ? 0 : 1;
}
