#include "unit/lattice/drawn_fabric.h"

#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/random.h"

namespace ridgetally::test {
namespace {

constexpr int sub = 4;  // fractional bits of cv::line
constexpr double one = 1 << sub;
constexpr double mid_grey = 128.0;

void stroke(cv::Mat& picture, double x0, double y0, double x1, double y1, int width) {
    cv::line(picture, cv::Point(static_cast<int>(x0 * one), static_cast<int>(y0 * one)),
             cv::Point(static_cast<int>(x1 * one), static_cast<int>(y1 * one)), cv::Scalar(200), width,
             cv::LINE_AA, sub);
}

}  // namespace

cv::Mat draw(const DrawnFabric& f) {
    cv::Mat bytes(f.size, CV_8U, cv::Scalar(60));
    Random random(f.seed);
    const double c = std::cos(f.turn_rad);
    const double s = std::sin(f.turn_rad);
    const int reach =
        static_cast<int>(std::hypot(f.size.width, f.size.height) / std::min(f.stitch_px, f.row_px)) / 2 + 3;
    const int width = std::max(2, static_cast<int>(f.stitch_px / 5));
    const auto place = [&](double x, double y) {
        return cv::Point2d(0.5 * f.size.width + c * x - s * y, 0.5 * f.size.height + s * x + c * y);
    };
    for (int row = -reach; row <= reach; ++row) {
        for (int stitch = -reach; stitch <= reach; ++stitch) {
            const double x = (stitch + f.shift_per_row * row + random.normal(0.0, f.scatter)) * f.stitch_px;
            const double y = row * f.row_px;
            const bool bar = f.faces == 2 && (row % 2 != 0);
            const cv::Point2d low = place(x, y + 0.35 * f.row_px);
            const cv::Point2d left =
                place(x - (bar ? 0.38 : 0.3) * f.stitch_px, y - (bar ? 0.1 : 0.35) * f.row_px);
            const cv::Point2d right =
                place(x + (bar ? 0.38 : 0.3) * f.stitch_px, y - (bar ? 0.1 : 0.35) * f.row_px);
            if (bar) {
                stroke(bytes, left.x, left.y, right.x, right.y, width);
            } else {
                stroke(bytes, left.x, left.y, low.x, low.y, width);
                stroke(bytes, low.x, low.y, right.x, right.y, width);
            }
        }
    }
    cv::Mat picture;
    bytes.convertTo(picture, CV_32F);
    if (f.noise_grey > 0.0) picture += noise_picture(f.size, f.noise_grey, random.next()) - mid_grey;
    return picture;
}

cv::Mat noise_picture(cv::Size size, double std_grey, unsigned long long seed) {
    Random random(seed);
    cv::Mat picture(size, CV_32F);
    for (auto it = picture.begin<float>(); it != picture.end<float>(); ++it) {
        *it = static_cast<float>(random.normal(mid_grey, std_grey));
    }
    return picture;
}

}  // namespace ridgetally::test
