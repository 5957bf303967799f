/* Reading the inputs of a direct call from a line, and writing what came out. */
#ifndef LASHWORK_TESTS_LINES_H
#define LASHWORK_TESTS_LINES_H

#include "check.h"

#include <inttypes.h>

enum { MOST_INPUTS = 64, MOST_ITEMS = 64 };

typedef struct Inputs {
  char *word[MOST_INPUTS];
  int count;
  int next;
} Inputs;

static char *word(Inputs *in) {
  if (in->next >= in->count) {
    fprintf(stderr, "too few inputs\n");
    exit(2);
  }
  return in->word[in->next++];
}

static inline double number(Inputs *in) { return strtod(word(in), NULL); }
static int64_t whole(Inputs *in) { return (int64_t)strtoll(word(in), NULL, 10); }
static uint32_t choice(Inputs *in) { return (uint32_t)whole(in); }

/* A list on the heap, of just the right size, so that a read beyond its end is seen. */
static double *numbers(Inputs *in, size_t *count) {
  char *text = word(in);
  *count = 0;
  if (strcmp(text, "-") == 0) {
    return NULL;
  }
  double found[MOST_ITEMS];
  for (char *at = text; *count < MOST_ITEMS;) {
    found[(*count)++] = strtod(at, &at);
    if (*at != ',') {
      break;
    }
    ++at;
  }
  double *list = malloc(*count * sizeof *list);
  memcpy(list, found, *count * sizeof *list);
  return list;
}

static FILE *out = NULL;

static void put_whole(int64_t value) { fprintf(out, "\t%" PRId64, value); }
static void put_bits(double value) {
  uint64_t bits = 0x7ff8000000000000u;
  if (value == value) {
    memcpy(&bits, &value, sizeof bits);
  }
  fprintf(out, "\t0x%016" PRIx64, bits);
}

/* Columns of so many rows each, row by row. */
static void put_rows(double (*columns)[MOST_ITEMS], size_t count, size_t rows) {
  for (size_t row = 0; row < rows; ++row) {
    for (size_t i = 0; i < count; ++i) {
      put_bits(columns[i][row]);
    }
  }
}

/* Ends a line for a refused call; true if the call went well. */
static int done(lw_status status, lw_error **error) {
  if (status == LW_STATUS_OK) {
    fprintf(out, "\tok");
  } else {
    fprintf(out, "\t%s", lw_error_code(*error));
  }
  lw_error_free(*error);
  return status == LW_STATUS_OK;
}

#endif
