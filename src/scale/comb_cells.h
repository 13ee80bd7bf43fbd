#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "scale/comb_search.h"

namespace ridgetally {

/// Comb cells of one picture size. `level` is the reduced (or enlarged) luma; `photo_px_per_level_px` takes
/// its pixels back to the photo's. Strokes 2.3 to 15 level pixels apart are found, where at least the share
/// `least_coherence` of the gradients agrees on a direction: 0 in noise, 1 for parallel strokes.
[[nodiscard]] std::vector<CombCell> comb_cells(const cv::Mat& level, double photo_px_per_level_px,
                                               double least_coherence);

}  // namespace ridgetally
