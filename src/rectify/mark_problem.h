#pragma once

#include <vector>

#include "rectify/least_squares.h"
#include "rectify/mark_noise.h"
#include "rectify/mark_pose.h"

namespace ridgetally {

/// One graduation as seen, where it is thought to lie, and how noisy its marks are.
struct SeenLine {
    std::vector<SeenMark> marks;
    LinePlacement placement;
    MarkNoise noise;
};

/// What is fitted: the current estimate and the marks it must explain.
struct MarkProblem {
    CameraPose pose;
    ObjectPoint anchor;
    Bend bend;
    bool bent = false;  ///< whether the bend is fitted
    std::vector<SeenLine> lines;
    PosePriors priors;
};

/// What is left of every mark of one line, px.
[[nodiscard]] std::vector<MarkResidual> residuals_of(const MarkProblem& problem, std::size_t line);

/// Whether neighbouring residuals that resemble each other count as fewer than they are.
enum class Repetition { ignored, counted };

/// Sets the noise of every line from its residuals.
void estimate_noise(MarkProblem& problem, Repetition repetition);

/// Moves the problem to its best fit.
LeastSquaresFit settle(MarkProblem& problem, Loss loss, bool with_covariance);

}  // namespace ridgetally
