/* What the C tests share: a check that tells where it failed and goes on, and a file read whole. */
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

static inline int finish(const char *name) {
  printf("%s: %d checks, %d failed\n", name, checks, failures);
  return failures == 0 && checks > 0 ? 0 : 1;
}

#endif
