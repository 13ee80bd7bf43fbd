#include "rectify/mark_pose.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "core/median.h"
#include "rectify/mark_problem.h"

namespace ridgetally {
namespace {

constexpr std::size_t fewest_marks_of_further_lines = 4;

LeastSquaresFit settle_fully(MarkProblem& problem) {
    settle(problem, Loss::huber, false);
    for (const Loss loss : {Loss::huber, Loss::biweight, Loss::biweight}) {
        estimate_noise(problem, Repetition::ignored);
        settle(problem, loss, false);
    }
    estimate_noise(problem, Repetition::counted);
    return settle(problem, Loss::biweight, true);
}

/// Bow of the feet of the first line against a straight one: the factor of the second Legendre polynomial,
/// which is square to any straight line, with its standard uncertainty, px.
struct Bow {
    double px = 0.0;
    double std_px = 0.0;
};

std::optional<Bow> bow_of(const MarkProblem& problem) {
    constexpr std::size_t fewest_marks = 8;
    const auto& marks = problem.lines.front().marks;
    if (marks.size() < fewest_marks) return std::nullopt;
    const auto residuals = residuals_of(problem, 0);
    const double half = 0.5 * (marks.back().position_mm - marks.front().position_mm);
    const auto shape = [&](std::size_t i) {
        const double x = (marks[i].position_mm - problem.anchor.x) / half;
        return x * x - 1.0 / 3.0;
    };
    double norm = 0.0;
    double product = 0.0;
    for (std::size_t i = 0; i < residuals.size(); ++i) {
        norm += shape(i) * shape(i);
        product += shape(i) * residuals[i].across;
    }
    if (norm <= 0.0) return std::nullopt;
    std::vector<double> rest;
    for (std::size_t i = 0; i < residuals.size(); ++i)
        rest.push_back(residuals[i].across - product / norm * shape(i));
    return Bow{product / norm, noise_of(rest, 3, problem.priors.point_noise_px) / std::sqrt(norm)};
}

/// More than its noise and more than a pixel, so that what a lens leaves is no bend.
bool is_bent(const MarkProblem& problem) {
    const auto bow = bow_of(problem);
    return bow && std::abs(bow->px) > 1.0 && std::abs(bow->px) > 5.0 * bow->std_px;
}

/// Puts a further line where the pose says it lies.
LinePlacement placement_of(const std::vector<SeenMark>& marks, const ObjectFromPhoto& object_from_photo) {
    LinePlacement placement;
    const ObjectPoint first = object_from_photo(marks.front().foot_px);
    const ObjectPoint last = object_from_photo(marks.back().foot_px);
    placement.sign = last.x > first.x ? 1.0 : -1.0;
    std::vector<double> offsets, across;
    for (const auto& mark : marks) {
        const ObjectPoint foot = object_from_photo(mark.foot_px);
        offsets.push_back(foot.x - placement.sign * mark.position_mm);
        across.push_back(foot.y);
    }
    placement.offset_mm = median_of(offsets);
    placement.across_mm = median_of(across);
    return placement;
}

/// Does the second pose lie where the first, less certain one allows it, tilt by tilt? Four standard
/// deviations either way.
bool agrees(const MarkProblem& before, const cv::Mat_<double>& covariance, const MarkProblem& after) {
    // Rotation from before to after, in the object's frame, small: its vector is the skew part.
    const Matrix3 back = {before.pose.rotation[0], before.pose.rotation[3], before.pose.rotation[6],
                          before.pose.rotation[1], before.pose.rotation[4], before.pose.rotation[7],
                          before.pose.rotation[2], before.pose.rotation[5], before.pose.rotation[8]};
    const Matrix3 turn = product(back, after.pose.rotation);
    const double x = 0.5 * (turn[7] - turn[5]);
    const double y = 0.5 * (turn[2] - turn[6]);
    return std::abs(x) < 4.0 * std::sqrt(covariance(about_x, about_x)) &&
           std::abs(y) < 4.0 * std::sqrt(covariance(about_y, about_y));
}

/// Unevenness of the first line after the fit.
double unevenness(const MarkProblem& problem) {
    std::vector<double> positions, residuals;
    const auto project = photo_from_plane(problem.pose, 0.0);
    const auto left = residuals_of(problem, 0);
    const auto& marks = problem.lines.front().marks;
    for (std::size_t i = 0; i < marks.size(); ++i) {
        positions.push_back(marks[i].position_mm);
        residuals.push_back(left[i].along / px_per_mm_along(project, {marks[i].position_mm, 0.0}, 1.0, 0.0));
    }
    return unevenness_of(positions, residuals);
}

/// Adds one further graduation where it agrees with what is known; says why where it does not.
void add_line(MarkProblem& problem, LeastSquaresFit& fit, const MarkLine& line, double correction,
              std::vector<std::string>& notes) {
    if (line.marks.size() < fewest_marks_of_further_lines) {
        notes.emplace_back("a further graduation with too few marks was left out");
        return;
    }
    const auto back = inverse(photo_from_plane(problem.pose, 0.0));
    if (!back || !fit.settled) return;
    MarkProblem trial = problem;
    SeenLine seen;
    seen.marks = seen_marks(line, correction);
    seen.placement = placement_of(seen.marks, *back);
    seen.noise = problem.lines.front().noise;
    trial.lines.push_back(std::move(seen));
    auto trial_fit = settle_fully(trial);
    if (!trial_fit.settled || !agrees(problem, fit.covariance, trial)) {
        notes.emplace_back("a further graduation that does not lie in the same plane was left out");
        return;
    }
    problem = std::move(trial);
    fit = std::move(trial_fit);
}

}  // namespace

PoseEstimate pose_from_marks(const std::vector<MarkLine>& lines, double correction,
                             const PosePriors& priors) {
    MarkProblem problem;
    problem.priors = priors;
    SeenLine first;
    first.marks = seen_marks(lines.front(), correction);
    problem.anchor = {0.5 * (first.marks.front().position_mm + first.marks.back().position_mm), 0.0};
    problem.pose = upright_pose(first.marks, problem.anchor, priors);
    first.noise = {priors.point_noise_px, priors.point_noise_px, priors.point_noise_px * std::sqrt(2.0)};
    problem.lines.push_back(std::move(first));
    auto fit = settle_fully(problem);
    PoseEstimate result;
    if (fit.settled && is_bent(problem)) {
        problem.bent = true;
        fit = settle_fully(problem);
        result.notes.emplace_back("the graduation is bent; followed as a curve");
    }
    for (std::size_t k = 1; k < lines.size(); ++k) add_line(problem, fit, lines[k], correction, result.notes);
    result.pose = problem.pose;
    result.anchor_mm = problem.anchor;
    result.bend = problem.bend;
    result.uneven_relative_std = unevenness(problem);
    result.settled = fit.settled;
    if (fit.settled) result.covariance = pose_part(fit.covariance);
    return result;
}

}  // namespace ridgetally
