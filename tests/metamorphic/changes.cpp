#include "metamorphic/changes.h"

#include <gtest/gtest.h>

#include <cmath>
#include <opencv2/imgproc.hpp>

namespace ridgetally::blackbox {
namespace {

cv::Mat turned(const cv::Mat& m, int code) {
    cv::Mat out;
    cv::rotate(m, out, code);
    return out;
}

/// Kept as far from the 0.3 megapixels below which photos are refused as the photos allow.
cv::Mat scaled_to(const cv::Mat& m, double factor) {
    cv::Mat out;
    cv::resize(m, out, {}, factor, factor, factor < 1.0 ? cv::INTER_AREA : cv::INTER_CUBIC);
    return out;
}

}  // namespace

const std::vector<Change>& changes() {
    static const std::vector<Change> all = {
        {"quarter turn", [](const cv::Mat& m) { return turned(m, cv::ROTATE_90_CLOCKWISE); }},
        {"half turn", [](const cv::Mat& m) { return turned(m, cv::ROTATE_180); }},
        {"smaller", [](const cv::Mat& m) { return scaled_to(m, 0.75); }},
        {"larger", [](const cv::Mat& m) { return scaled_to(m, 1.3); }},
        {"darker", [](const cv::Mat& m) { return cv::Mat(m * 0.75); }},
        {"mirrored",
         [](const cv::Mat& m) {
             cv::Mat out;
             cv::flip(m, out, 1);
             return out;
         }},
    };
    return all;
}

synthetic::Variety even_work(StitchFamily family) {
    synthetic::Variety v;
    v.family = family;
    v.megapixels = 1.6;
    v.max_tilt_deg = 6.0;
    v.max_unevenness = 0.05;
    v.partial_share = 0.0;
    return v;
}

synthetic::Shot in_good_light(synthetic::Shot shot) {
    shot.scene.camera.k1 = 0.0;
    shot.scene.light.glare = 0.0;
    return shot;
}

void expect_agreement(const Measured& one, const Measured& other, const std::string& what) {
    EXPECT_LT(std::abs(one.value - other.value), coverage_factor_95 * std::hypot(one.std, other.std))
        << what << ": " << one.value << " and " << other.value;
}

}  // namespace ridgetally::blackbox
