#pragma once

#include <functional>
#include <opencv2/core.hpp>
#include <vector>

namespace ridgetally {

/// Residuals in units of their standard deviation. The first `robust_count` are observations and may hold
/// outliers; the rest are priors and count in full.
struct Residuals {
    std::vector<double> values;
    std::size_t robust_count = 0;
};

/// How an observation far from the model is played down (Huber and Ronchetti, Robust Statistics, 2nd ed.,
/// sections 4.8 and 7.8; tuning constants for 95 % efficiency under the normal law: 1.345 and 4.685).
enum class Loss { plain, huber, biweight };

struct LeastSquaresOptions {
    Loss loss = Loss::huber;
    int most_steps = 60;              ///< Levenberg-Marquardt steps; 10 to 20 are usual here
    double smallest_progress = 1e-6;  ///< fall of the cost below which it has settled: half a chi-square, so
                                      ///< a thousandth of a standard uncertainty is left to go
    bool with_covariance = true;      ///< costs as much as a step
};

struct LeastSquaresFit {
    std::vector<double> parameters;
    std::vector<double> residuals;  ///< at the solution
    std::vector<double> weights;    ///< of the residuals, 0 to 1
    cv::Mat_<double> covariance;    ///< inverse of the weighted normal matrix; empty unless asked for
    double cost = 0.0;              ///< half the sum of the losses
    bool settled = false;           ///< false where it ran out of steps or the normal matrix is singular
};

/// Levenberg-Marquardt with reweighting and numeric derivatives (Marquardt, J. SIAM 11, 1963; damping scaled
/// by the diagonal). `steps` are the sizes of the central differences, one a parameter.
[[nodiscard]] LeastSquaresFit fit_least_squares(
    const std::function<Residuals(const std::vector<double>&)>& model, std::vector<double> start,
    const std::vector<double>& steps, const LeastSquaresOptions& options = {});

}  // namespace ridgetally
