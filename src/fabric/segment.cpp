#include "fabric/segment.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "fabric/colour_histogram.h"

namespace ridgetally {
namespace {

/// Evidence of one pixel, nats: a histogram of a few thousand pixels knows no odds beyond e^3.
constexpr double most_evidence = 3.0;
constexpr double neighbour_sigma_px = 2.0;
constexpr double neighbour_weight = 4.0;
constexpr int agreement_steps = 6;
constexpr float shade_weight = 0.3F;

/// The picture as it would look in the fabric's shadow, at several depths: nobody can learn the shade from
/// the open table, and it lies just where the border is.
std::array<cv::Mat, 3> shaded(const cv::Mat& bgr) {
    std::array<cv::Mat, 3> shades;
    constexpr std::array<double, 3> depths = {0.8, 0.6, 0.4};
    for (std::size_t i = 0; i < shades.size(); ++i) {
        cv::Mat dark;
        bgr.convertTo(dark, CV_8U, depths[i]);
        cv::cvtColor(dark, shades[i], cv::COLOR_BGR2YCrCb);
    }
    return shades;
}

cv::Mat evidence_of(const SegmentTask& task) {
    cv::Mat ycc;
    cv::cvtColor(task.bgr, ycc, cv::COLOR_BGR2YCrCb);
    ColourHistogram fabric;
    ColourHistogram table;
    const auto shades = shaded(task.bgr);
    for (int y = 0; y < ycc.rows; ++y) {
        for (int x = 0; x < ycc.cols; ++x) {
            const bool ruler = task.keep_out.at<uchar>(y, x) != 0;
            const auto& colour = ycc.at<cv::Vec3b>(y, x);
            if (task.likely.at<uchar>(y, x) != 0 && !ruler) {
                fabric.add(colour, 1.0F);
            } else if (task.table.at<uchar>(y, x) != 0 || ruler) {
                table.add(colour, 1.0F);
                for (const auto& shade : shades) table.add(shade.at<cv::Vec3b>(y, x), shade_weight);
            }
        }
    }
    fabric.finish();
    table.finish();
    cv::Mat evidence(ycc.size(), CV_32F);
    for (int y = 0; y < ycc.rows; ++y) {
        for (int x = 0; x < ycc.cols; ++x) {
            const auto& colour = ycc.at<cv::Vec3b>(y, x);
            const double e = fabric.log_density(colour) - table.log_density(colour);
            evidence.at<float>(y, x) = static_cast<float>(std::clamp(e, -most_evidence, most_evidence));
        }
    }
    return evidence;
}

}  // namespace

cv::Mat segment_fabric(const SegmentTask& task) {
    cv::Mat evidence = evidence_of(task);
    evidence.setTo(most_evidence * 3, task.sure);
    evidence.setTo(-most_evidence * 3, ~task.possible);
    evidence.setTo(-most_evidence * 3, task.keep_out);
    // tanh(logit / 2) = 1 - 2 / (1 + exp(logit)) is the expected label of -1 or 1.
    cv::Mat logit = evidence.clone();
    cv::Mat label;
    for (int step = 0; step < agreement_steps; ++step) {
        cv::exp(logit, label);
        label = 1.0 - 2.0 / (1.0 + label);
        cv::GaussianBlur(label, label, {}, neighbour_sigma_px);
        logit = evidence + neighbour_weight * label;
    }
    return logit > 0.0;
}

}  // namespace ridgetally
