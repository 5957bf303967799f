/* Judges a table of readings against printed limits.
 *
 *     judge_csv READINGS.csv
 *
 * A line is: cylinder, valve, lower limit, upper limit, leaf that goes, leaf that does not. Lengths carry
 * their unit ("0.15 mm", "6 thou"); a leaf that was not tried is left empty. Quotes and '#' comments are
 * understood; every mistake is told with its line, and the other lines go on.
 *
 * Leaves are taken to be off by half the tolerance that lashwork takes for a leaf of unknown make. The
 * engine maker's manual comes first.
 */
#include <lashwork.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FIELDS = 6, LINE = 1024 };

static const char *const NAMES[FIELDS] = {"cylinder",    "valve",     "lower limit",
                                          "upper limit", "leaf goes", "leaf does not"};

typedef struct Row {
  char text[LINE];
  char *field[FIELDS];
} Row;

/* Trims blanks at both ends. */
static char *trimmed(char *text) {
  text += strspn(text, " \t");
  size_t len = strlen(text);
  while (len > 0 && strchr(" \t\r\n", text[len - 1]) != NULL) {
    text[--len] = '\0';
  }
  return text;
}

/* Splits a line at its commas, except within quotes; returns how many fields, or -1 for a quote that does
 * not end. */
static int split(Row *row) {
  int count = 0;
  char *at = row->text;
  for (;;) {
    char *start = at + strspn(at, " \t");
    char *end;
    if (*start == '"') {
      char *to = ++start;
      for (at = start; *at != '\0'; ++at) {
        if (at[0] == '"' && at[1] != '"') {
          break;
        }
        at += at[0] == '"';
        *to++ = *at;
      }
      if (*at == '\0') {
        return -1;
      }
      end = at + 1;
      at = end + strcspn(end, ",");
      *to = '\0';
    } else {
      at = start + strcspn(start, ",");
    }
    int is_last = *at == '\0';
    *at = '\0';
    if (count < FIELDS) {
      row->field[count] = trimmed(start);
    }
    ++count;
    if (is_last) {
      return count;
    }
    ++at;
  }
}

/* Says what is wrong with a field, in the kernel's words. */
static int complain(const char *file, int line, int field, lw_error *error) {
  fprintf(stderr, "%s:%d: %s: %s", file, line, NAMES[field], lw_error_message(error));
  if (lw_error_hint(error)[0] != '\0') {
    fprintf(stderr, " (%s)", lw_error_hint(error));
  }
  fprintf(stderr, " [%s]\n", lw_error_code(error));
  lw_error_free(error);
  return 0;
}

/* Reads the two ends of something from two fields, of which one may be empty. */
static int ends(const char *file, int line, const Row *row, int first, uint32_t *span,
                int64_t nanometres[2]) {
  int has[2];
  for (int i = 0; i < 2; ++i) {
    const char *text = row->field[first + i];
    lw_mark mark = LW_INIT(lw_mark);
    lw_error *error = NULL;
    has[i] = text[0] != '\0';
    if (has[i] && lw_parse_length(text, strlen(text), &mark, &error) != LW_STATUS_OK) {
      return complain(file, line, first + i, error);
    }
    nanometres[i] = mark.nanometres;
  }
  if (!has[0] && !has[1]) {
    fprintf(stderr, "%s:%d: neither %s nor %s is given\n", file, line, NAMES[first],
            NAMES[first + 1]);
    return 0;
  }
  *span = has[0] && has[1] ? LW_SPAN_BETWEEN : has[0] ? LW_SPAN_AT_LEAST : LW_SPAN_AT_MOST;
  return 1;
}

static const char *words(uint32_t verdict) {
  switch (verdict) {
  case LW_VERDICT_IN_BAND:
    return "in band";
  case LW_VERDICT_BELOW:
    return "TIGHT";
  case LW_VERDICT_ABOVE:
    return "loose";
  default:
    return "cannot say";
  }
}

/* A probability, or between what it lies. */
static const char *chance(double least, double most, char text[32]) {
  if (least == most) {
    snprintf(text, 32, "%.1f %%", 100 * most);
  } else {
    snprintf(text, 32, "%.1f %% to %.1f %%", 100 * least, 100 * most);
  }
  return text;
}

static int judge(const char *file, int line, const Row *row) {
  lw_limits limits = LW_INIT(lw_limits);
  int64_t limit[2], leaf[2];
  uint32_t leaves = 0;
  if (!ends(file, line, row, 2, &limits.span, limit) || !ends(file, line, row, 4, &leaves, leaf)) {
    return 0;
  }
  limits.lower_nm = limit[0];
  limits.upper_nm = limit[1];
  lw_estimate estimate = LW_INIT(lw_estimate);
  lw_error *error = NULL;
  if (lw_estimate_from_leaves(leaves, leaf[0], leaf[1], lw_assumed_leaf_tolerance_nm(),
                              lw_assumed_hand_nm(), &estimate, &error) != LW_STATUS_OK) {
    return complain(file, line, 4, error);
  }
  lw_rule rule = LW_INIT(lw_rule);
  rule.kind = LW_RULE_KIND_GUARDED_TIGHT;
  lw_judgement found = LW_INIT(lw_judgement);
  if (lw_judge(&estimate, &limits, &rule, &found, &error) != LW_STATUS_OK) {
    return complain(file, line, 2, error);
  }
  char tight[32], loose[32];
  printf("%-4s %-8s %-10s  tight %s, loose %s%s\n", row->field[0], row->field[1],
         words(found.verdict), chance(found.below_least, found.below_most, tight),
         chance(found.above_least, found.above_most, loose),
         found.provable ? "" : "; no such reading could prove this band");
  return 1;
}

int main(int count, char **arguments) {
  if (count != 2 || !LW_ABI_MATCHES()) {
    fprintf(stderr, "usage: judge_csv READINGS.csv (with lashwork of ABI %d)\n", LW_ABI_VERSION);
    return 2;
  }
  FILE *file = fopen(arguments[1], "r");
  if (file == NULL) {
    perror(arguments[1]);
    return 2;
  }
  static Row row;
  int line = 0, judged = 0, wrong = 0;
  while (fgets(row.text, LINE, file) != NULL) {
    ++line;
    if (strchr(row.text, '\n') == NULL && !feof(file)) {
      fprintf(stderr, "%s:%d: longer than %d bytes\n", arguments[1], line, LINE - 2);
      return 2;
    }
    char *start = trimmed(row.text);
    if (start[0] == '\0' || start[0] == '#') {
      continue;
    }
    int fields = split(&row);
    if (fields != FIELDS) {
      const char *why = fields < 0 ? "a quote does not end" : "not six fields";
      fprintf(stderr, "%s:%d: %s\n", arguments[1], line, why);
      ++wrong;
    } else if (strcmp(row.field[0], NAMES[0]) != 0) {
      int done = judge(arguments[1], line, &row);
      judged += done;
      wrong += !done;
    }
  }
  fclose(file);
  printf("%d judged, %d with mistakes\n", judged, wrong);
  return wrong == 0 ? 0 : 1;
}
