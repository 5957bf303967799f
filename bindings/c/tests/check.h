/* What the C tests share: a check that tells where it failed and goes on, and an engine. */
#ifndef LASHWORK_TESTS_CHECK_H
#define LASHWORK_TESTS_CHECK_H

#include "lashwork.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int failures = 0;
static int checks = 0;

#define CHECK(condition)                                                       \
  do {                                                                         \
    ++checks;                                                                  \
    if (!(condition)) {                                                        \
      ++failures;                                                              \
      fprintf(stderr, "%s:%d: %s\n", __FILE__, __LINE__, #condition);          \
    }                                                                          \
  } while (0)

/* A call that must end so, with an error of just that status and some text, which is freed. */
#define CHECK_STATUS(wanted, call)                                             \
  do {                                                                         \
    lw_error *error = NULL;                                                    \
    lw_status got = (call);                                                    \
    ++checks;                                                                  \
    if (got != (lw_status)(wanted)) {                                          \
      ++failures;                                                              \
      fprintf(stderr, "%s:%d: %s gave %s: %s\n", __FILE__, __LINE__, #call,    \
              lw_status_name(got), lw_error_message(error));                   \
    }                                                                          \
    CHECK(lw_error_status(error) == got);                                      \
    CHECK((got == LW_STATUS_OK) == (error == NULL));                           \
    CHECK((error != NULL) == (strlen(lw_error_message(error)) > 0));           \
    CHECK((error != NULL) == (strlen(lw_error_code(error)) > 0));              \
    lw_error_free(error);                                                      \
  } while (0)

/* An even-firing four-stroke, to be numbered and turned as most are. */
static inline lw_engine_parts even_four_stroke(const uint32_t *order, uint32_t cylinders) {
  lw_engine_parts parts = LW_INIT(lw_engine_parts);
  parts.cycle = LW_CYCLE_FOUR_STROKE;
  parts.intervals = LW_INTERVALS_EVEN;
  parts.sense = LW_SENSE_CLOCKWISE;
  parts.seen_from = LW_END_FREE;
  parts.numbering = LW_NUMBERING_FROM_FREE_END;
  parts.cylinders = cylinders;
  parts.firing_order = order;
  return parts;
}

static inline int finish(const char *name) {
  printf("%s: %d checks, %d failed\n", name, checks, failures);
  return failures == 0 && checks > 0 ? 0 : 1;
}

#endif
