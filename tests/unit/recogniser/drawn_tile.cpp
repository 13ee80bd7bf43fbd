#include "unit/recogniser/drawn_tile.h"

#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>
#include <string>

#include "synthetic/render.h"

namespace ridgetally::test {
namespace {

synthetic::Fabric fabric_of(Drawn what) {
    synthetic::Fabric fabric;
    fabric.tail = false;
    switch (what) {
        case Drawn::sc_round:
            fabric.worked = Worked::round;
            fabric.round_shift = 0.15;
            break;
        case Drawn::hdc_round:
            fabric.family = StitchFamily::hdc;
            fabric.worked = Worked::round;
            fabric.row_pitch_mm = 7.8;
            fabric.rows = 16;
            break;
        case Drawn::dc_flat:
            fabric.family = StitchFamily::dc;
            fabric.row_pitch_mm = 10.6;
            fabric.rows = 12;
            break;
        case Drawn::stockinette:
            fabric.family = StitchFamily::stockinette;
            fabric.row_pitch_mm = 4.5;
            fabric.rows = 28;
            fabric.yarn_radius_ratio = 0.24;
            break;
    }
    return fabric;
}

}  // namespace

Recogniser shipped_recogniser() {
    return load_recogniser(std::string(RIDGETALLY_SOURCE_DIR) + "/models/recogniser").value();
}

cv::Mat formula_tile(int side_px) {
    cv::Mat tile(side_px, side_px, CV_32FC1);
    for (int y = 0; y < side_px; ++y) {
        for (int x = 0; x < side_px; ++x) {
            tile.at<float>(y, x) =
                static_cast<float>(std::sin(0.37 * x) + std::cos(0.23 * y) * std::sin(0.11 * x + 0.05 * y));
        }
    }
    return tile;
}

cv::Mat chevron_tile(int side_px) {
    constexpr double pi = std::numbers::pi;
    cv::Mat tile(side_px, side_px, CV_32FC1);
    for (int y = 0; y < side_px; ++y) {
        for (int x = 0; x < side_px; ++x) {
            const double u = x / 16.0 - std::floor(x / 16.0);
            const double down = y / 12.0 + 0.7 * std::abs(u - 0.5);
            tile.at<float>(y, x) =
                static_cast<float>(1.2 * std::cos(2.0 * pi * down) - std::cos(4.0 * pi * u));
        }
    }
    return tile;
}

cv::Mat plane_wave(cv::Size size, cv::Point2d frequency) {
    cv::Mat field(size, CV_32FC2);
    for (int y = 0; y < size.height; ++y) {
        for (int x = 0; x < size.width; ++x) {
            const double phase = 2.0 * std::numbers::pi * (frequency.x * x + frequency.y * y);
            field.at<cv::Vec2f>(y, x) = {static_cast<float>(std::cos(phase)),
                                         static_cast<float>(std::sin(phase))};
        }
    }
    return field;
}

DrawnSwatch drawn_swatch(Drawn what, double angle_deg) {
    synthetic::Scene scene;
    scene.camera.width_px = 800;
    scene.camera.height_px = 800;
    scene.camera.distance_mm = 300.0;
    scene.camera.focal35_mm = 40.0;
    scene.fabrics = {fabric_of(what)};
    scene.fabrics.front().angle_deg = angle_deg;
    const auto picture = synthetic::render(scene);
    const auto& truth = picture.truth;
    const double px_per_mm = truth.focal_px / (truth.camera_distance_mm - truth.fabric_lift_mm.front());
    DrawnSwatch out;
    out.bgr = picture.bgr;
    out.stitch_pitch_px = truth.fabrics.front().stitch_pitch_mm * px_per_mm;
    out.row_pitch_px = truth.fabrics.front().row_pitch_mm * px_per_mm;
    out.row_direction_rad = angle_deg * std::numbers::pi / 180.0;
    std::vector<cv::Point> outline;
    for (const auto& p : truth.fabric_outlines_px.front()) outline.emplace_back(cvRound(p.x), cvRound(p.y));
    out.mask = cv::Mat::zeros(out.bgr.size(), CV_8UC1);
    cv::fillPoly(out.mask, std::vector<std::vector<cv::Point>>{outline}, cv::Scalar(255));
    cv::erode(out.mask, out.mask, cv::Mat::ones(9, 9, CV_8UC1));
    return out;
}

}  // namespace ridgetally::test
