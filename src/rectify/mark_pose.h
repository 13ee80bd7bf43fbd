#pragma once

#include <vector>

#include "rectify/mark_model.h"
#include "rectify/pose_estimate.h"

namespace ridgetally {

/// Camera over the marks: robust least squares on the marks' places along and across the line and on their
/// directions, all lines at once, with the priors. The first line must hold two marks or more at different
/// positions. A further line is left out, with a note, where it holds fewer than four marks or would turn the
/// plane further than the first line allows.
[[nodiscard]] PoseEstimate pose_from_marks(const std::vector<MarkLine>& lines, double correction,
                                           const PosePriors& priors);

/// Pose straight above a line: the place, direction and mean scale of its marks, no tilt.
[[nodiscard]] CameraPose upright_pose(const std::vector<SeenMark>& marks, const ObjectPoint& anchor,
                                      const PosePriors& priors);

}  // namespace ridgetally
