#include "rectify/mark_pose.h"

#include <algorithm>
#include <cmath>

#include "rectify/least_squares.h"
#include "rectify/mark_noise.h"

namespace ridgetally {
namespace {

/// Two graduations of one rule are cut or printed together; how far their lengths may differ is left at a
/// relative 0.1 %, half of what class II of MI-008 (Directive 2014/32/EU, annex X) allows a 30 cm rule.
constexpr double stretch_std = 0.001;

struct SeenLine {
    std::vector<SeenMark> marks;
    LinePlacement placement;
    MarkNoise noise;
};

/// What is being fitted: the current estimate, and how parameters are laid out around it.
struct Problem {
    CameraPose pose;
    ObjectPoint anchor;
    Bend bend;
    bool bent = false;
    std::vector<SeenLine> lines;
    PosePriors priors;

    [[nodiscard]] std::size_t bend_at() const { return pose_parameters; }
    [[nodiscard]] std::size_t line_at(std::size_t line) const {
        return pose_parameters + (bent ? 2U : 0U) + 3U * (line - 1U);
    }
    [[nodiscard]] std::size_t size() const { return line_at(lines.size()); }
};

/// The problem with its parameters moved by `p`.
Problem at(const Problem& problem, const std::vector<double>& p) {
    Problem result = problem;
    PoseDelta delta{};
    std::copy_n(p.begin(), pose_parameters, delta.begin());
    result.pose = moved(problem.pose, problem.anchor, delta);
    if (problem.bent) {
        result.bend.curvature += p[problem.bend_at()];
        result.bend.twist += p[problem.bend_at() + 1];
    }
    for (std::size_t k = 1; k < problem.lines.size(); ++k) {
        auto& placement = result.lines[k].placement;
        placement.offset_mm += p[problem.line_at(k)];
        placement.across_mm += p[problem.line_at(k) + 1];
        placement.stretch += p[problem.line_at(k) + 2];
    }
    return result;
}

std::vector<MarkResidual> residuals_of(const Problem& problem, std::size_t line) {
    const auto& seen = problem.lines[line];
    const PhotoFromObject photo_from_object = photo_from_plane(problem.pose, 0.0);
    std::vector<MarkResidual> result;
    result.reserve(seen.marks.size());
    for (const auto& mark : seen.marks) {
        const auto object = mark_on_object(mark.position_mm, seen.placement, problem.bend, problem.anchor.x);
        result.push_back(mark_residual(mark, object, photo_from_object));
    }
    return result;
}

Residuals normalised_residuals(const Problem& problem) {
    Residuals result;
    for (std::size_t k = 0; k < problem.lines.size(); ++k) {
        const auto& noise = problem.lines[k].noise;
        for (const auto& r : residuals_of(problem, k)) {
            result.values.push_back(r.along / noise.along);
            result.values.push_back(r.across / noise.across);
            result.values.push_back(r.direction / noise.direction);
        }
    }
    result.robust_count = result.values.size();
    const auto& priors = problem.priors;
    const Vector3 normal = plane_normal(problem.pose);
    result.values.push_back(std::log(problem.pose.focal_px / priors.focal_px) / priors.focal_relative_std);
    result.values.push_back(normal[0] / priors.tilt_std_rad);
    result.values.push_back(normal[1] / priors.tilt_std_rad);
    for (std::size_t k = 1; k < problem.lines.size(); ++k)
        result.values.push_back(problem.lines[k].placement.stretch / stretch_std);
    return result;
}

/// Sizes of the central differences: far below what matters, far above rounding.
std::vector<double> difference_steps(const Problem& problem) {
    std::vector<double> steps = {1e-5, 1e-5, 1e-5, 1e-6, 1e-3, 1e-3, 1e-6};
    if (problem.bent) steps.insert(steps.end(), {1e-8, 1e-10});
    for (std::size_t k = 1; k < problem.lines.size(); ++k) steps.insert(steps.end(), {1e-4, 1e-4, 1e-6});
    return steps;
}

LeastSquaresFit fit_once(Problem& problem, Loss loss) {
    LeastSquaresOptions options;
    options.loss = loss;
    auto fit =
        fit_least_squares([&](const std::vector<double>& p) { return normalised_residuals(at(problem, p)); },
                          std::vector<double>(problem.size(), 0.0), difference_steps(problem), options);
    problem = at(problem, fit.parameters);
    return fit;
}

enum class Correlation { ignored, counted };

void estimate_noise(Problem& problem, Correlation correlation) {
    for (std::size_t k = 0; k < problem.lines.size(); ++k) {
        std::vector<double> along, across, direction;
        for (const auto& r : residuals_of(problem, k)) {
            along.push_back(r.along);
            across.push_back(r.across);
            if (r.direction != 0.0) direction.push_back(r.direction);
        }
        const auto estimate = [&](const std::vector<double>& residuals, int fitted, double expected) {
            const double noise = noise_of(residuals, fitted, expected);
            return correlation == Correlation::ignored ? noise
                                                       : noise * std::sqrt(repetition_of(residuals, noise));
        };
        const double expected = problem.priors.point_noise_px;
        // A tip against its foot carries the noise of both ends.
        problem.lines[k].noise = {estimate(along, 3, expected), estimate(across, 2, expected),
                                  estimate(direction, 2, expected * std::sqrt(2.0))};
    }
}

LeastSquaresFit fit_fully(Problem& problem) {
    fit_once(problem, Loss::huber);
    for (int round = 0; round < 3; ++round) {
        estimate_noise(problem, Correlation::ignored);
        fit_once(problem, round == 0 ? Loss::huber : Loss::biweight);
    }
    estimate_noise(problem, Correlation::counted);
    return fit_once(problem, Loss::biweight);
}

/// Is the line of feet bent by more than its noise and more than a pixel? From a parabola through the across
/// residuals of the first line.
bool is_bent(const Problem& problem) {
    const auto& line = problem.lines.front();
    const auto residuals = residuals_of(problem, 0);
    if (line.marks.size() < 8) return false;
    const double half = 0.5 * (line.marks.back().position_mm - line.marks.front().position_mm);
    double norm = 0.0;
    double product = 0.0;
    for (std::size_t i = 0; i < residuals.size(); ++i) {
        const double x = (line.marks[i].position_mm - problem.anchor.x) / half;
        const double shape = x * x - 1.0 / 3.0;  // second Legendre polynomial: square to any straight line
        norm += shape * shape;
        product += shape * std::clamp(residuals[i].across, -10.0, 10.0);
    }
    if (norm <= 0.0) return false;
    std::vector<double> rest;
    const double bow_px = product / norm;
    for (std::size_t i = 0; i < residuals.size(); ++i) {
        const double x = (line.marks[i].position_mm - problem.anchor.x) / half;
        rest.push_back(residuals[i].across - bow_px * (x * x - 1.0 / 3.0));
    }
    const double noise = noise_of(rest, 3, problem.priors.point_noise_px);
    return std::abs(bow_px) > 1.0 && std::abs(bow_px) * std::sqrt(norm) > 5.0 * noise;
}

/// Puts a further line where the pose of the first says it lies.
void place(SeenLine& line, const Problem& problem) {
    const auto back = inverse(photo_from_plane(problem.pose, 0.0));
    if (!back) return;
    const ObjectPoint first = (*back)(line.marks.front().foot_px);
    const ObjectPoint last = (*back)(line.marks.back().foot_px);
    line.placement.sign = last.x > first.x ? 1.0 : -1.0;
    std::vector<double> offsets, across;
    for (const auto& mark : line.marks) {
        const ObjectPoint foot = (*back)(mark.foot_px);
        offsets.push_back(foot.x - line.placement.sign * mark.position_mm);
        across.push_back(foot.y);
    }
    const auto median = [](std::vector<double>& v) {
        const auto middle = v.begin() + static_cast<std::ptrdiff_t>(v.size() / 2);
        std::nth_element(v.begin(), middle, v.end());
        return *middle;
    };
    line.placement.offset_mm = median(offsets);
    line.placement.across_mm = median(across);
}

PoseEstimate estimate_from(const Problem& problem, const LeastSquaresFit& fit) {
    PoseEstimate result;
    result.pose = problem.pose;
    result.anchor_mm = problem.anchor;
    result.bend = problem.bend;
    result.settled = fit.settled;
    for (int i = 0; i < pose_parameters && fit.settled; ++i)
        for (int j = 0; j < pose_parameters; ++j)
            result.covariance[static_cast<std::size_t>(i * pose_parameters + j)] = fit.covariance(i, j);
    return result;
}

}  // namespace

PoseEstimate pose_from_marks(const std::vector<MarkLine>& lines, double correction,
                             const PosePriors& priors) {
    Problem problem;
    problem.priors = priors;
    SeenLine first;
    first.marks = seen_marks(lines.front(), correction);
    problem.anchor = {0.5 * (first.marks.front().position_mm + first.marks.back().position_mm), 0.0};
    problem.pose = upright_pose(first.marks, problem.anchor, priors);
    first.noise = {priors.point_noise_px, priors.point_noise_px, priors.point_noise_px * std::sqrt(2.0)};
    problem.lines.push_back(first);
    auto fit = fit_fully(problem);
    if (is_bent(problem)) {
        problem.bent = true;
        fit = fit_fully(problem);
    }
    for (std::size_t k = 1; k < lines.size(); ++k) {
        if (lines[k].marks.size() < 4) continue;
        SeenLine line;
        line.marks = seen_marks(lines[k], correction);
        line.noise = first.noise;
        place(line, problem);
        problem.lines.push_back(std::move(line));
    }
    if (problem.lines.size() > 1) fit = fit_fully(problem);
    return estimate_from(problem, fit);
}

}  // namespace ridgetally
