#include "pipeline/ruler_height.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "image/masks.h"

namespace ridgetally {
namespace {

constexpr FaceHeight soft_tape{0.4, 0.3};
constexpr FaceHeight wood{3.0, 1.0};
constexpr FaceHeight steel_or_plastic{1.3, 0.7};

/// Mean colour of the body.
cv::Scalar body_colour_hsv(const Photo& photo, const std::vector<PhotoPoint>& outline_px) {
    const cv::Mat& bgr = photo.colour.bgr;
    const cv::Mat inside = polygon_mask({outline_px}, 1.0 / photo.colour.reduction, bgr.size());
    const cv::Scalar mean = cv::mean(bgr, inside);
    cv::Mat pixel(1, 1, CV_8UC3, mean);
    cv::cvtColor(pixel, pixel, cv::COLOR_BGR2HSV);
    const auto hsv = pixel.at<cv::Vec3b>(0, 0);
    return {static_cast<double>(hsv[0]), static_cast<double>(hsv[1]), static_cast<double>(hsv[2])};
}

}  // namespace

FaceHeight ruler_face_height(const Photo& photo, const ScaleReference& reference,
                             const std::optional<double>& told_mm) {
    if (told_mm) return {*told_mm, told_thickness_std_mm};
    if (reference.kind != "ruler" || reference.outline_px.size() < 3) return steel_or_plastic;
    const cv::Scalar hsv = body_colour_hsv(photo, reference.outline_px);
    // Hue in half degrees: yarn-shop yellow lies at 22 to 35 and strong; bare wood at 8 to 22, half as
    // strong. Bounds chosen on development pictures under their lamps; a warm lamp on steel can pass for
    // wood, so the heights stay wide.
    const bool yellow = hsv[0] >= 22 && hsv[0] <= 36 && hsv[1] > 130;
    const bool brown = hsv[0] >= 7 && hsv[0] < 24 && hsv[1] > 55 && hsv[1] < 190;
    if (yellow) return soft_tape;
    return brown ? wood : steel_or_plastic;
}

}  // namespace ridgetally
