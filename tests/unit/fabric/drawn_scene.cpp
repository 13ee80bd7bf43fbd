#include "unit/fabric/drawn_scene.h"

#include <opencv2/imgproc.hpp>

namespace ridgetally::test {
namespace {

/// An ellipse of yarn, twisted: dark strokes across it, and a shadow.
void draw_loop(cv::Mat& bgr, const cv::Rect& around, const cv::Scalar& yarn_bgr) {
    constexpr int thick_px = 14;
    const cv::Point middle = (around.tl() + around.br()) / 2;
    const cv::Size half = around.size() / 2;
    cv::ellipse(bgr, middle, half, 0.0, 0.0, 360.0, yarn_bgr * 0.3, 2 * thick_px);  // its shadow
    cv::ellipse(bgr, middle, half, 0.0, 0.0, 360.0, yarn_bgr, thick_px);
    std::vector<cv::Point> along;
    cv::ellipse2Poly(middle, half, 0, 0, 360, 4, along);
    const cv::Point slant(thick_px / 2 - 2, thick_px / 2 - 2);
    for (const cv::Point& at : along) cv::line(bgr, at - slant, at + slant, yarn_bgr * 0.3, 2);
}

}  // namespace

Photo drawn(const DrawnScene& scene) {
    cv::Mat bgr(scene.size_px, CV_8UC3, scene.table_bgr);
    cv::rectangle(bgr, scene.fabric, scene.fabric_bgr, cv::FILLED);
    constexpr int gap_px = 14;
    for (int y = scene.fabric.y + gap_px; y + 4 < scene.fabric.br().y; y += gap_px) {
        for (int x = scene.fabric.x + gap_px; x + 4 < scene.fabric.br().x; x += gap_px)
            cv::circle(bgr, {x, y}, 3, scene.fabric_bgr * 0.3, cv::FILLED);
    }
    if (!scene.tail_loop.empty()) draw_loop(bgr, scene.tail_loop, scene.fabric_bgr);
    if (!scene.ruler.empty()) cv::rectangle(bgr, scene.ruler, {235, 235, 235}, cv::FILLED);
    cv::Mat grain(bgr.size(), CV_16SC3);
    cv::RNG random(7);
    random.fill(grain, cv::RNG::NORMAL, 0.0, scene.table_grain);
    cv::Mat noisy;
    cv::add(bgr, grain, noisy, cv::noArray(), CV_8U);
    if (!scene.burnt_out.empty()) cv::rectangle(noisy, scene.burnt_out, cv::Scalar::all(255), cv::FILLED);
    Photo photo = photo_from_pixels(noisy);
    photo.file = "drawn";
    return photo;
}

cv::Mat mask_of(cv::Size size, const cv::Rect& part) {
    cv::Mat mask = cv::Mat::zeros(size, CV_8U);
    mask(part & cv::Rect({}, size)).setTo(255);
    return mask;
}

std::vector<PhotoPoint> corners_of(const cv::Rect& part) {
    const auto corner = [](int x, int y) {
        return PhotoPoint{static_cast<double>(x), static_cast<double>(y)};
    };
    return {corner(part.x, part.y), corner(part.br().x, part.y), corner(part.br().x, part.br().y),
            corner(part.x, part.br().y)};
}

}  // namespace ridgetally::test
