#include "rectify/mark_problem.h"

#include <algorithm>
#include <cmath>

namespace ridgetally {
namespace {

/// Two graduations of one rule are cut or printed together; how far their lengths may differ is left at a
/// relative 0.1 %, half of what class II of MI-008 (Directive 2014/32/EU, annex X) allows a 30 cm rule.
constexpr double stretch_std = 0.001;
/// How far marks may be from square to their line: 0.035 mm in 10 mm, the squareness JIS B 7516 asks of the
/// end of a rule (from a transcription).
constexpr double skew_std = 0.0035;

/// Where the parameters of a problem lie in the vector that is fitted: pose, bend where fitted, then the skew
/// of the first line, then offset, across, stretch and skew of each further line.
struct Layout {
    std::size_t bend = pose_parameters;
    std::size_t first_skew = 0;
    std::size_t size = 0;

    explicit Layout(const MarkProblem& problem) {
        first_skew = bend + (problem.bent ? 2U : 0U);
        size = first_skew + 1U + 4U * (problem.lines.size() - 1U);
    }
    [[nodiscard]] std::size_t line(std::size_t k) const { return first_skew + 1U + 4U * (k - 1U); }
};

/// What a fit moves.
struct Estimate {
    CameraPose pose;
    Bend bend;
    std::vector<LinePlacement> placements;
};

Estimate moved_by(const MarkProblem& problem, const std::vector<double>& p) {
    const Layout layout(problem);
    PoseDelta delta{};
    std::copy_n(p.begin(), pose_parameters, delta.begin());
    Estimate result{moved(problem.pose, problem.anchor, delta), problem.bend, {}};
    if (problem.bent) {
        result.bend.curvature += p[layout.bend];
        result.bend.twist += p[layout.bend + 1];
    }
    for (const SeenLine& line : problem.lines) result.placements.push_back(line.placement);
    result.placements.front().skew += p[layout.first_skew];
    for (std::size_t k = 1; k < problem.lines.size(); ++k) {
        auto& placement = result.placements[k];
        placement.offset_mm += p[layout.line(k)];
        placement.across_mm += p[layout.line(k) + 1];
        placement.stretch += p[layout.line(k) + 2];
        placement.skew += p[layout.line(k) + 3];
    }
    return result;
}

void add_priors(const PosePriors& priors, const Estimate& estimate, std::vector<double>& values) {
    const Vector3 normal = plane_normal(estimate.pose);
    values.push_back(std::log(estimate.pose.focal_px / priors.focal_px) / priors.focal_relative_std);
    values.push_back(normal[0] / priors.tilt_std_rad);
    values.push_back(normal[1] / priors.tilt_std_rad);
    for (const auto& placement : estimate.placements) {
        values.push_back(placement.skew / skew_std);
        values.push_back(placement.stretch / stretch_std);
    }
}

/// Calls `visit` with what `estimate` leaves of every mark of a line.
template <typename Visit>
void visit_residuals(const MarkProblem& problem, std::size_t line, const Estimate& estimate, Visit visit) {
    const PhotoFromObject photo_from_object = photo_from_plane(estimate.pose, 0.0);
    const LineOnObject on_object(estimate.placements[line], estimate.bend, problem.anchor.x);
    for (const SeenMark& mark : problem.lines[line].marks)
        visit(mark_residual(mark, on_object.mark(mark.position_mm), photo_from_object));
}

Residuals normalised_residuals(const MarkProblem& problem, const Estimate& estimate) {
    Residuals result;
    std::size_t marks = 0;
    for (const SeenLine& line : problem.lines) marks += line.marks.size();
    result.values.reserve(3 * (marks + 1) + 2 * problem.lines.size());
    for (std::size_t k = 0; k < problem.lines.size(); ++k) {
        const auto& noise = problem.lines[k].noise;
        visit_residuals(problem, k, estimate, [&](const MarkResidual& r) {
            result.values.push_back(r.along / noise.along);
            result.values.push_back(r.across / noise.across);
            result.values.push_back(r.direction / noise.direction);
        });
    }
    result.robust_count = result.values.size();
    add_priors(problem.priors, estimate, result.values);
    return result;
}

/// Sizes of the central differences: far below what matters, far above rounding.
std::vector<double> difference_steps(const MarkProblem& problem) {
    std::vector<double> steps = {1e-5, 1e-5, 1e-5, 1e-6, 1e-3, 1e-3, 1e-6};
    if (problem.bent) steps.insert(steps.end(), {1e-8, 1e-10});
    steps.push_back(1e-6);
    for (std::size_t k = 1; k < problem.lines.size(); ++k)
        steps.insert(steps.end(), {1e-4, 1e-4, 1e-6, 1e-6});
    return steps;
}

}  // namespace

std::vector<MarkResidual> residuals_of(const MarkProblem& problem, std::size_t line) {
    Estimate present{problem.pose, problem.bend, {}};
    for (const SeenLine& seen : problem.lines) present.placements.push_back(seen.placement);
    std::vector<MarkResidual> result;
    result.reserve(problem.lines[line].marks.size());
    visit_residuals(problem, line, present, [&](const MarkResidual& r) { result.push_back(r); });
    return result;
}

void estimate_noise(MarkProblem& problem, Repetition repetition) {
    const double expected = problem.priors.point_noise_px;
    const auto estimate = [&](const std::vector<double>& residuals, int fitted, double usual) {
        const double noise = noise_of(residuals, fitted, usual);
        return repetition == Repetition::ignored ? noise : noise * std::sqrt(repetition_of(residuals, noise));
    };
    for (std::size_t k = 0; k < problem.lines.size(); ++k) {
        std::vector<double> along, across, direction;
        for (const auto& r : residuals_of(problem, k)) {
            along.push_back(r.along);
            across.push_back(r.across);
            if (r.direction != 0.0) direction.push_back(r.direction);
        }
        // A tip against its foot carries the noise of both ends.
        problem.lines[k].noise = {estimate(along, 3, expected), estimate(across, 2, expected),
                                  estimate(direction, 2, expected * std::sqrt(2.0))};
    }
}

LeastSquaresFit settle(MarkProblem& problem, Loss loss, bool with_covariance) {
    LeastSquaresOptions options;
    options.loss = loss;
    options.with_covariance = with_covariance;
    const auto model = [&](const std::vector<double>& p) {
        return normalised_residuals(problem, moved_by(problem, p));
    };
    auto fit = fit_least_squares(model, std::vector<double>(Layout(problem).size, 0.0),
                                 difference_steps(problem), options);
    const Estimate settled = moved_by(problem, fit.parameters);
    problem.pose = settled.pose;
    problem.bend = settled.bend;
    for (std::size_t k = 0; k < problem.lines.size(); ++k) problem.lines[k].placement = settled.placements[k];
    return fit;
}

}  // namespace ridgetally
