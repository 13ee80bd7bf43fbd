#include "image/resample.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

namespace ridgetally {
namespace {

/// Source pixels per target pixel at (x, y) of the target, along the axis where they are fewer; 0 on or
/// beyond the horizon of the transform.
double shrink_at(const Matrix3& m, double x, double y) {
    const double w = m[6] * x + m[7] * y + m[8];
    const double w_middle = m[8];
    if (w == 0.0 || (w > 0.0) != (w_middle > 0.0)) return 0.0;
    const double u = (m[0] * x + m[1] * y + m[2]) / w;
    const double v = (m[3] * x + m[4] * y + m[5]) / w;
    const double along_x = std::hypot(m[0] - u * m[6], m[3] - v * m[6]);
    const double along_y = std::hypot(m[1] - u * m[7], m[4] - v * m[7]);
    return std::min(along_x, along_y) / std::abs(w);
}

/// The smallest over corners, middles of the sides and centre of the target: the scale changes monotonically
/// with the distance from the horizon (Hartley and Zisserman, section 8.6).
double smallest_shrink(const Matrix3& source_from_target, const cv::Size& size) {
    double smallest = std::numeric_limits<double>::infinity();
    for (const double y : {0.0, 0.5, 1.0}) {
        for (const double x : {0.0, 0.5, 1.0})
            smallest = std::min(smallest, shrink_at(source_from_target, x * size.width, y * size.height));
    }
    return smallest;
}

/// The blocks of the source that the target shows, with two more all round for the interpolation; all of it
/// where the target reaches to the horizon.
cv::Rect part_shown(const Matrix3& m, const cv::Size& target, const cv::Size& source, int block) {
    const cv::Rect all({}, source);
    double left = source.width;
    double top = source.height;
    double right = 0.0;
    double bottom = 0.0;
    for (const double y : {-1.0, static_cast<double>(target.height)}) {
        for (const double x : {-1.0, static_cast<double>(target.width)}) {
            const double w = m[6] * x + m[7] * y + m[8];
            if (w * m[8] <= 0.0) return all;
            const double u = (m[0] * x + m[1] * y + m[2]) / w;
            const double v = (m[3] * x + m[4] * y + m[5]) / w;
            left = std::min(left, u);
            top = std::min(top, v);
            right = std::max(right, u);
            bottom = std::max(bottom, v);
        }
    }
    const auto from = [block](double at, int size) {
        return (static_cast<int>(std::clamp(at, 0.0, size - 1.0)) / block - 2) * block;
    };
    const auto to = [block](double at, int size) {
        return (static_cast<int>(std::clamp(at, 0.0, size - 1.0)) / block + 3) * block;
    };
    const cv::Point first(from(left, source.width), from(top, source.height));
    const cv::Point beyond(to(right, source.width), to(bottom, source.height));
    const cv::Rect part = cv::Rect(first, beyond) & all;
    return part.width < block || part.height < block ? all : part;
}

}  // namespace

cv::Mat shrunk(const cv::Mat& source, int factor) {
    if (factor < 1 || source.cols < factor || source.rows < factor)
        throw std::invalid_argument("shrunk: a whole block must fit into the picture");
    if (factor == 1) return source;
    const cv::Size blocks(source.cols / factor, source.rows / factor);
    cv::Mat result;
    cv::resize(source(cv::Rect(0, 0, blocks.width * factor, blocks.height * factor)), result, blocks, 0, 0,
               cv::INTER_AREA);
    return result;
}

cv::Mat resample(const cv::Mat& source, const Matrix3& source_from_target, const cv::Size& target_size,
                 const ResampleOptions& options) {
    if (source.empty() || target_size.width <= 0 || target_size.height <= 0)
        throw std::invalid_argument("resample: an empty picture");
    const double shrink = std::min({smallest_shrink(source_from_target, target_size),
                                    static_cast<double>(source.cols), static_cast<double>(source.rows)});
    const int factor = std::max(1, static_cast<int>(shrink));
    const cv::Rect part = part_shown(source_from_target, target_size, source.size(), factor);
    const double f = factor;
    const Matrix3 shrunk_from_source = {
        1 / f, 0, (1 - f - 2 * part.x) / (2 * f), 0, 1 / f, (1 - f - 2 * part.y) / (2 * f), 0, 0, 1};
    Matrix3 map = product(shrunk_from_source, source_from_target);
    cv::Mat target;
    cv::warpPerspective(
        shrunk(source(part), factor), target, cv::Mat(3, 3, CV_64F, map.data()), target_size,
        (options.interpolation == Interpolation::bicubic ? cv::INTER_CUBIC : cv::INTER_LINEAR) |
            cv::WARP_INVERSE_MAP,
        cv::BORDER_CONSTANT, options.outside);
    return target;
}

}  // namespace ridgetally
