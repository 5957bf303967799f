#include <lashwork.h>

#include <cstdio>

int main() {
  lw_slider_crank slider = LW_INIT(lw_slider_crank);
  slider.crank_radius_mm = 45;
  slider.rod_mm = 150;
  double drop = 0;
  lw_status status = lw_piston_drop(&slider, 180, &drop, nullptr);
  std::printf("lashwork %s: %g mm down\n", lw_version(), drop);
  return status == LW_STATUS_OK && drop == 90 ? 0 : 1;
}
