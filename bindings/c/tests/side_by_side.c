/* Two builds of the library in one program, under different names: each answers with its own code, and
 * what one made goes back to it. Arguments: the two files. */
#include "check.h"

#include <dlfcn.h>

typedef struct Copy {
  void *library;
  uint32_t (*abi_version)(void);
  lw_status (*engine_new)(const lw_engine_parts *, lw_engine **, lw_error **);
  lw_status (*firing_offsets)(const lw_engine *, double *, size_t, size_t *, lw_error **);
  void (*engine_free)(lw_engine *);
  lw_status (*document_schema)(lw_text *, lw_error **);
  void (*text_free)(lw_text *);
  const char *(*error_code)(const lw_error *);
  void (*error_free)(lw_error *);
} Copy;

/* Writes where a call is into a pointer to a function; C has no cast for that. */
static void find(const Copy *copy, const char *name, void *pointer) {
  void *found = dlsym(copy->library, name);
  CHECK(found != NULL);
  memcpy(pointer, &found, sizeof found);
}

static Copy load(const char *path) {
  Copy copy = {.library = dlopen(path, RTLD_NOW | RTLD_LOCAL)};
  if (copy.library == NULL) {
    fprintf(stderr, "%s\n", dlerror());
    exit(2);
  }
  find(&copy, "lw_abi_version", &copy.abi_version);
  find(&copy, "lw_engine_new", &copy.engine_new);
  find(&copy, "lw_firing_offsets", &copy.firing_offsets);
  find(&copy, "lw_engine_free", &copy.engine_free);
  find(&copy, "lw_document_schema", &copy.document_schema);
  find(&copy, "lw_text_free", &copy.text_free);
  find(&copy, "lw_error_code", &copy.error_code);
  find(&copy, "lw_error_free", &copy.error_free);
  return copy;
}

typedef struct Made {
  lw_engine *engine;
  lw_error *error;
  lw_text schema;
} Made;

static Made make(const Copy *copy, const uint32_t *order, uint32_t cylinders) {
  Made made = {NULL, NULL, {NULL, 0}};
  lw_engine_parts parts = even_four_stroke(order, cylinders);
  CHECK(copy->engine_new(&parts, &made.engine, NULL) == LW_STATUS_OK);
  parts.cycle = 77;
  lw_engine *none = NULL;
  CHECK(copy->engine_new(&parts, &none, &made.error) == LW_STATUS_UNKNOWN_VALUE && none == NULL);
  CHECK(copy->document_schema(&made.schema, NULL) == LW_STATUS_OK);
  return made;
}

static void use(const Copy *copy, const Made *made, double third) {
  double offsets[8];
  size_t count = 0;
  CHECK(copy->firing_offsets(made->engine, offsets, 8, &count, NULL) == LW_STATUS_OK);
  CHECK(offsets[2] == third);
  CHECK(strcmp(copy->error_code(made->error), "c.unknown-value") == 0);
}

static void unmake(const Copy *copy, Made *made) {
  copy->engine_free(made->engine);
  copy->error_free(made->error);
  copy->text_free(&made->schema);
}

int main(int count, char **words) {
  if (count != 3) {
    fprintf(stderr, "usage: side_by_side LIBRARY LIBRARY\n");
    return 2;
  }
  const uint32_t four[4] = {1, 3, 4, 2}, three[3] = {1, 3, 2};
  Copy one = load(words[1]), other = load(words[2]);
  CHECK(one.library != other.library && one.engine_new != other.engine_new);
  CHECK(one.abi_version() == LW_ABI_VERSION && other.abi_version() == LW_ABI_VERSION);
  Made first = make(&one, four, 4), second = make(&other, three, 3);
  CHECK(first.schema.len == second.schema.len && first.schema.data != second.schema.data);
  use(&one, &first, 180);
  use(&other, &second, 240);
  unmake(&one, &first);
  CHECK(dlclose(one.library) == 0);
  use(&other, &second, 240);
  unmake(&other, &second);
  CHECK(dlclose(other.library) == 0);
  return finish("side by side");
}
