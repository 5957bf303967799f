/* Takes the shared documents through the C door: for every name in LIST, the answer and the sheet of
 * IN/name.request are written to OUT. Knows nothing of what is right; one judge compares all doors. */
#include "check.h"

static char *read_file(const char *folder, const char *name, const char *ending, size_t *len) {
  char path[1024];
  snprintf(path, sizeof path, "%s/%s%s", folder, name, ending);
  FILE *file = fopen(path, "rb");
  if (file == NULL) {
    perror(path);
    exit(2);
  }
  fseek(file, 0, SEEK_END);
  long size = ftell(file);
  rewind(file);
  char *bytes = malloc((size_t)size + 1);
  if (bytes == NULL || fread(bytes, 1, (size_t)size, file) != (size_t)size) {
    fprintf(stderr, "%s: not read\n", path);
    exit(2);
  }
  fclose(file);
  bytes[size] = '\0';
  *len = (size_t)size;
  return bytes;
}

static void write_file(const char *folder, const char *name, const char *ending, const char *bytes,
                       size_t len) {
  char path[1024];
  snprintf(path, sizeof path, "%s/%s%s", folder, name, ending);
  FILE *file = fopen(path, "wb");
  if (file == NULL || fwrite(bytes, 1, len, file) != len || fclose(file) != 0) {
    perror(path);
    exit(2);
  }
}

static void answer(const char *in, const char *out, const char *name) {
  size_t len = 0;
  char *request = read_file(in, name, ".request", &len);
  /* A copy of just the right size, so that a read beyond the end is seen. */
  char *exact = malloc(len > 0 ? len : 1);
  memcpy(exact, request, len);
  free(request);

  lw_text text = {NULL, 0};
  CHECK_STATUS(LW_STATUS_OK, lw_run(exact, len, &text, &error));
  CHECK(text.data != NULL && text.data[text.len] == '\0');
  write_file(out, name, ".answer", text.data, text.len);
  lw_text_free(&text);
  lw_text_free(&text);

  lw_error *refused = NULL;
  lw_status status = lw_job_sheet(exact, len, &text, &refused);
  CHECK(status == LW_STATUS_OK || status == LW_STATUS_REFUSED);
  if (status == LW_STATUS_OK) {
    write_file(out, name, ".sheet", text.data, text.len);
    lw_text full = {NULL, 0};
    CHECK_STATUS(LW_STATUS_OK, lw_full_sheet(exact, len, &full, NULL));
    write_file(out, name, ".full", full.data, full.len);
    lw_text_free(&full);
  } else {
    CHECK(text.data == NULL);
    const char *code = lw_error_code(refused);
    write_file(out, name, ".sheet", code, strlen(code));
    CHECK(lw_full_sheet(exact, len, &text, NULL) == status && text.data == NULL);
    write_file(out, name, ".full", code, strlen(code));
  }
  lw_text_free(&text);
  lw_error_free(refused);
  CHECK(lw_validate(exact, len, NULL) == status);
  free(exact);
}

int main(int count, char **words) {
  if (count != 3) {
    fprintf(stderr, "usage: doors IN OUT\n");
    return 2;
  }
  size_t len = 0;
  char *list = read_file(words[1], "names", ".txt", &len);
  for (char *name = strtok(list, "\n"); name != NULL; name = strtok(NULL, "\n")) {
    answer(words[1], words[2], name);
  }
  free(list);
  return finish("documents");
}
