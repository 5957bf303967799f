#include <lashwork.h>

#include <stdio.h>

int main(void) {
  if (!LW_ABI_MATCHES()) {
    return 2;
  }
  double mm = 0;
  lw_error *error = NULL;
  lw_status status =
      lw_convert_length(6, LW_LENGTH_UNIT_THOU, LW_LENGTH_UNIT_MILLIMETRE, &mm, &error);
  printf("lashwork %s: 6 thou are %g mm%s\n", lw_version(), mm, lw_error_message(error));
  lw_error_free(error);
  return status == LW_STATUS_OK && mm == 0.1524 ? 0 : 1;
}
