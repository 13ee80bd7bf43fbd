#include "rectify/match_pose.h"

#include <algorithm>
#include <cmath>

#include "rectify/least_squares.h"
#include "rectify/mark_noise.h"

namespace ridgetally {
namespace {

/// Similarity that brings points to their centroid and a mean distance of sqrt(2) from it.
template <typename Get>
Matrix3 normalising(const std::vector<PlaneMatch>& matches, const Get& get) {
    double x = 0.0, y = 0.0, distance = 0.0;
    const double n = static_cast<double>(matches.size());
    for (const auto& m : matches) {
        x += get(m).x / n;
        y += get(m).y / n;
    }
    for (const auto& m : matches) distance += std::hypot(get(m).x - x, get(m).y - y) / n;
    const double s = distance > 0.0 ? std::sqrt(2.0) / distance : 1.0;
    return {s, 0, -s * x, 0, s, -s * y, 0, 0, 1};
}

double length_of(const Vector3& v) { return std::sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]); }

Vector3 cross(const Vector3& a, const Vector3& b) {
    return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

/// Nearest rotation to a matrix (Frobenius norm) by its singular value decomposition.
Matrix3 nearest_rotation(const Vector3& a, const Vector3& b, const Vector3& c) {
    const cv::Matx33d m(a[0], b[0], c[0], a[1], b[1], c[1], a[2], b[2], c[2]);
    cv::Matx31d w;
    cv::Matx33d u, vt;
    cv::SVD::compute(m, w, u, vt);
    const cv::Matx33d r = u * vt;
    Matrix3 result{};
    std::copy(std::begin(r.val), std::end(r.val), result.begin());
    return result;
}

ObjectPoint middle_of(const std::vector<PlaneMatch>& matches) {
    ObjectPoint middle;
    for (const auto& m : matches) {
        middle.x += m.object_mm.x / static_cast<double>(matches.size());
        middle.y += m.object_mm.y / static_cast<double>(matches.size());
    }
    return middle;
}

/// Least squares over the pose and the object's shape (the last parameter: relative change of y against x).
struct MatchProblem {
    const std::vector<PlaneMatch>* matches = nullptr;
    CameraPose pose;
    ObjectPoint anchor;
    PosePriors priors;
    double shape_std = 1e-6;
    double noise_px = 0.5;

    [[nodiscard]] std::vector<double> point_residuals(const CameraPose& camera, double shape) const {
        const auto project = photo_from_plane(camera, 0.0);
        std::vector<double> values;
        for (const auto& m : *matches) {
            const ObjectPoint p{m.object_mm.x, anchor.y + (m.object_mm.y - anchor.y) * (1.0 + shape)};
            const PhotoPoint seen = project(p);
            values.push_back(m.photo_px.x - seen.x);
            values.push_back(m.photo_px.y - seen.y);
        }
        return values;
    }

    [[nodiscard]] CameraPose at(const std::vector<double>& p) const {
        PoseDelta delta{};
        std::copy_n(p.begin(), pose_parameters, delta.begin());
        return moved(pose, anchor, delta);
    }

    [[nodiscard]] Residuals residuals(const std::vector<double>& p) const {
        const CameraPose camera = at(p);
        Residuals result{point_residuals(camera, p[pose_parameters]), 0};
        for (auto& value : result.values) value /= noise_px;
        const Vector3 normal = plane_normal(camera);
        result.values.push_back(std::log(camera.focal_px / priors.focal_px) / priors.focal_relative_std);
        result.values.push_back(normal[0] / priors.tilt_std_rad);
        result.values.push_back(normal[1] / priors.tilt_std_rad);
        result.values.push_back(p[pose_parameters] / shape_std);
        return result;
    }
};

}  // namespace

std::optional<PhotoFromObject> homography_through(const std::vector<PlaneMatch>& matches) {
    if (matches.size() < 4) return std::nullopt;
    const auto photo = [](const PlaneMatch& m) { return cv::Point2d(m.photo_px.x, m.photo_px.y); };
    const auto object = [](const PlaneMatch& m) { return cv::Point2d(m.object_mm.x, m.object_mm.y); };
    const Matrix3 tp = normalising(matches, photo);
    const Matrix3 to = normalising(matches, object);
    cv::Mat_<double> a(static_cast<int>(2 * matches.size()), 9, 0.0);
    for (int i = 0; i < static_cast<int>(matches.size()); ++i) {
        const auto& m = matches[static_cast<std::size_t>(i)];
        const double x = to[0] * m.object_mm.x + to[2], y = to[4] * m.object_mm.y + to[5];
        const double u = tp[0] * m.photo_px.x + tp[2], v = tp[4] * m.photo_px.y + tp[5];
        const double rows[2][9] = {{x, y, 1, 0, 0, 0, -u * x, -u * y, -u},
                                   {0, 0, 0, x, y, 1, -v * x, -v * y, -v}};
        for (int j = 0; j < 9; ++j) {
            a(2 * i, j) = rows[0][j];
            a(2 * i + 1, j) = rows[1][j];
        }
    }
    cv::Mat_<double> values, vectors;
    cv::eigen(a.t() * a, values, vectors);
    // A second direction without cost means that the points do not pin the plane down.
    if (values(7, 0) < 1e-9 * values(0, 0)) return std::nullopt;
    Matrix3 h{};
    for (int j = 0; j < 9; ++j) h[static_cast<std::size_t>(j)] = vectors(8, j);
    const auto back = inverse(tp);
    if (!back) return std::nullopt;
    const Matrix3 result = product(*back, product(h, to));
    if (determinant(result) == 0.0) return std::nullopt;
    return PhotoFromObject{result};
}

std::optional<CameraPose> pose_of(const PhotoFromObject& homography, const PosePriors& priors) {
    const Matrix3& h = homography.matrix;
    const auto column = [&](std::size_t j) -> Vector3 {
        return {(h[j] - priors.principal_px.x * h[6 + j]) / priors.focal_px,
                (h[3 + j] - priors.principal_px.y * h[6 + j]) / priors.focal_px, h[6 + j]};
    };
    const Vector3 a = column(0), b = column(1), t = column(2);
    double scale = 2.0 / (length_of(a) + length_of(b));
    if (t[2] < 0.0) scale = -scale;
    const auto times = [&](const Vector3& v) -> Vector3 {
        return {scale * v[0], scale * v[1], scale * v[2]};
    };
    CameraPose pose;
    pose.focal_px = priors.focal_px;
    pose.focal_source = priors.focal_source;
    pose.principal_px = priors.principal_px;
    pose.rotation = nearest_rotation(times(a), times(b), cross(times(a), times(b)));
    pose.translation_mm = times(t);
    if (!(pose.translation_mm[2] > 0.0) || !(plane_normal(pose)[2] > 0.0)) return std::nullopt;
    return pose;
}

PoseEstimate pose_from_matches(const std::vector<PlaneMatch>& matches, double object_relative_std,
                               const PosePriors& priors) {
    PoseEstimate result;
    const auto homography = homography_through(matches);
    const auto start = homography ? pose_of(*homography, priors) : std::nullopt;
    if (!start) return result;
    MatchProblem problem{&matches, *start, middle_of(matches), priors, 0.0, priors.point_noise_px};
    problem.shape_std = std::max(1e-6, std::sqrt(2.0) * object_relative_std);
    const std::vector<double> steps = {1e-5, 1e-5, 1e-5, 1e-6, 1e-3, 1e-3, 1e-6, 1e-6};
    LeastSquaresOptions options;
    options.loss = Loss::plain;
    LeastSquaresFit fit;
    for (int round = 0; round < 2; ++round) {
        fit = fit_least_squares([&](const auto& p) { return problem.residuals(p); },
                                std::vector<double>(pose_parameters + 1, 0.0), steps, options);
        result.settled = fit.settled;
        if (!fit.settled) return result;
        result.pose = problem.at(fit.parameters);
        problem.noise_px = noise_of(problem.point_residuals(result.pose, fit.parameters[pose_parameters]),
                                    pose_parameters, priors.point_noise_px);
    }
    result.anchor_mm = problem.anchor;
    result.covariance = pose_part(fit.covariance);
    return result;
}

}  // namespace ridgetally
