#include "rectify/refine_tilt.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/median.h"
#include "core/units.h"
#include "rectify/describe.h"
#include "rectify/least_squares.h"

namespace ridgetally {
namespace {

constexpr std::size_t kinds = 2;
/// After the pose, by kind: logarithm of the pitch, drift along x and along y of the object.
constexpr std::size_t parameters_a_kind = 3;
constexpr std::size_t parameter_count = pose_parameters + kinds * parameters_a_kind;

/// The samples' extent on the object, for the drift.
struct Extent {
    ObjectPoint middle;
    double half_mm = 1.0;
};

struct TiltProblem {
    const Rectification* before = nullptr;
    const std::vector<PitchSample>* samples = nullptr;
    std::array<PoseDelta, pose_parameters> moves{};  ///< Cholesky factor of the prior covariance
    double height_mm = 0.0;
    double drift_std = 0.0;
    Extent extent;
    std::array<double, kinds> start_log_pitch{};
};

PoseDelta delta_of(const TiltProblem& problem, const std::vector<double>& p) {
    PoseDelta delta{};
    for (std::size_t j = 0; j < delta.size(); ++j)
        for (std::size_t i = j; i < delta.size(); ++i) delta[i] += problem.moves[j][i] * p[j];
    return delta;
}

struct ObjectStep {
    ObjectPoint at;
    double log_length = 0.0;
};

ObjectStep on_object(const PitchSample& sample, const ObjectFromPhoto& back) {
    const ObjectPoint a =
        back(PhotoPoint{sample.at_px.x - 0.5 * sample.step_x_px, sample.at_px.y - 0.5 * sample.step_y_px});
    const ObjectPoint b =
        back(PhotoPoint{sample.at_px.x + 0.5 * sample.step_x_px, sample.at_px.y + 0.5 * sample.step_y_px});
    return {{0.5 * (a.x + b.x), 0.5 * (a.y + b.y)}, std::log(std::hypot(b.x - a.x, b.y - a.y))};
}

ObjectFromPhoto back_of(const TiltProblem& problem, const std::vector<double>& p) {
    const CameraPose pose =
        moved(problem.before->pose, problem.before->reference_middle_mm, delta_of(problem, p));
    // A pose without an inverse lies far outside the prior: the old one stands in, the prior tells the rest.
    return inverse(photo_from_plane(pose, problem.height_mm))
        .value_or(*inverse(photo_from_plane(problem.before->pose, problem.height_mm)));
}

/// Samples first, robust; then the pose in units of its prior and the drifts in theirs.
Residuals residuals_at(const TiltProblem& problem, const std::vector<double>& p) {
    const ObjectFromPhoto back = back_of(problem, p);
    Residuals result;
    for (const auto& sample : *problem.samples) {
        const auto kind = static_cast<std::size_t>(sample.kind);
        const double* own = p.data() + pose_parameters + kind * parameters_a_kind;
        const ObjectStep step = on_object(sample, back);
        const double x = (step.at.x - problem.extent.middle.x) / problem.extent.half_mm;
        const double y = (step.at.y - problem.extent.middle.y) / problem.extent.half_mm;
        const double expected = problem.start_log_pitch[kind] + own[0] + own[1] * x + own[2] * y;
        result.values.push_back((step.log_length - expected) / sample.relative_std);
    }
    result.robust_count = result.values.size();
    for (std::size_t i = 0; i < pose_parameters; ++i) result.values.push_back(p[i]);
    for (std::size_t kind = 0; kind < kinds; ++kind) {
        const double* own = p.data() + pose_parameters + kind * parameters_a_kind;
        // The pitch itself is free, but a kind without samples must not leave it open.
        result.values.push_back(own[0] / 10.0);
        result.values.push_back(2.0 * own[1] / problem.drift_std);
        result.values.push_back(2.0 * own[2] / problem.drift_std);
    }
    return result;
}

TiltProblem problem_of(const Rectification& before, const std::vector<PitchSample>& samples, double height_mm,
                       const RefineTiltOptions& options) {
    TiltProblem problem{
        &before, &samples, independent_moves(before.covariance), height_mm, options.drift_relative_std,
        {},      {}};
    const ObjectFromPhoto back = *inverse(photo_from_plane(before.pose, height_mm));
    ObjectPoint low{1e300, 1e300};
    ObjectPoint high{-1e300, -1e300};
    std::array<std::vector<double>, kinds> lengths;
    for (const auto& sample : samples) {
        const ObjectStep step = on_object(sample, back);
        low = {std::min(low.x, step.at.x), std::min(low.y, step.at.y)};
        high = {std::max(high.x, step.at.x), std::max(high.y, step.at.y)};
        lengths[static_cast<std::size_t>(sample.kind)].push_back(step.log_length);
    }
    problem.extent = {{0.5 * (low.x + high.x), 0.5 * (low.y + high.y)},
                      std::max(1e-6, 0.5 * std::max(high.x - low.x, high.y - low.y))};
    for (std::size_t kind = 0; kind < kinds; ++kind) {
        if (!lengths[kind].empty()) problem.start_log_pitch[kind] = median_of(lengths[kind]);
    }
    return problem;
}

/// Covariance of the pose: the prior's moves carry that of the fit.
PoseCovariance covariance_of(const TiltProblem& problem, const cv::Mat_<double>& fit) {
    PoseCovariance result{};
    for (int i = 0; i < pose_parameters; ++i)
        for (int j = 0; j < pose_parameters; ++j)
            for (int a = 0; a <= i; ++a)
                for (int b = 0; b <= j; ++b)
                    result[place_of(i, j)] +=
                        problem.moves[static_cast<std::size_t>(a)][static_cast<std::size_t>(i)] * fit(a, b) *
                        problem.moves[static_cast<std::size_t>(b)][static_cast<std::size_t>(j)];
    return result;
}

double angle_between_deg(const Vector3& a, const Vector3& b) {
    const double dot = a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
    return std::acos(std::clamp(dot, -1.0, 1.0)) * degrees_per_radian;
}

}  // namespace

PitchSample pitch_sample(PitchKind kind, const RectifiedPoint& at, double step_x, double step_y,
                         double relative_std, const PhotoFromRectified& photo_from_rectified) {
    const PhotoPoint a = photo_from_rectified(RectifiedPoint{at.x - 0.5 * step_x, at.y - 0.5 * step_y});
    const PhotoPoint b = photo_from_rectified(RectifiedPoint{at.x + 0.5 * step_x, at.y + 0.5 * step_y});
    return {kind, {0.5 * (a.x + b.x), 0.5 * (a.y + b.y)}, b.x - a.x, b.y - a.y, relative_std};
}

Outcome<RefinedTilt> refine_tilt(const Rectification& rectification, const std::vector<PitchSample>& samples,
                                 double height_mm, const RefineTiltOptions& options) {
    if (samples.size() < options.fewest_samples)
        return Refusal{"rectify", "too-few-pitches",
                       "too few stitches were measured to tell the tilt from them",
                       "show more of the fabric"};
    const TiltProblem problem = problem_of(rectification, samples, height_mm, options);
    const auto fit = fit_least_squares([&](const auto& p) { return residuals_at(problem, p); },
                                       std::vector<double>(parameter_count, 0.0),
                                       std::vector<double>(parameter_count, 1e-4));
    if (!fit.settled)
        return Refusal{"rectify", "bad-geometry", "the fabric's pitches fit no plane",
                       "lay the fabric flat and do not stretch it"};
    RefinedTilt result;
    result.rectification = rectification;
    result.rectification.pose =
        moved(rectification.pose, rectification.reference_middle_mm, delta_of(problem, fit.parameters));
    result.rectification.covariance = covariance_of(problem, fit.covariance);
    describe(result.rectification);
    result.moved_deg =
        angle_between_deg(plane_normal(rectification.pose), plane_normal(result.rectification.pose));
    double chi_square = 0.0;
    for (std::size_t i = 0; i < samples.size(); ++i)
        chi_square += fit.weights[i] * fit.residuals[i] * fit.residuals[i];
    // Two pitches and two tilts are spent on the samples.
    result.chi_square_per_degree = chi_square / std::max(1.0, static_cast<double>(samples.size()) - 4.0);
    return result;
}

}  // namespace ridgetally
