#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "lattice/lattice.h"
#include "lattice/phase.h"

namespace ridgetally {

/// Boundaries between rows over the whole mask, numbered from the top: lines of equal phase,
/// `rows_per_period` of them a turn.
[[nodiscard]] std::vector<Ridge> row_ridges(const std::vector<PhaseField>& row_fields, const cv::Mat& mask,
                                            int rows_per_period);

/// Boundaries between the stitches of the row in the middle of the mask, numbered from the left: short
/// strokes from the row's upper ridge to its lower one. Empty where no two row ridges pass the middle.
[[nodiscard]] std::vector<Ridge> stitch_ridges(const std::vector<PhaseField>& stitch_fields,
                                               const std::vector<Ridge>& rows, const cv::Mat& mask,
                                               int stitches_per_period);

}  // namespace ridgetally
