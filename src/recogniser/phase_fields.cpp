#include "recogniser/phase_fields.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <vector>

namespace ridgetally {
namespace {

std::vector<double> mean_logits(const cv::Mat& kinds, const cv::Mat& weight) {
    cv::Mat coarse;
    cv::resize(weight, coarse, kinds.size(), 0.0, 0.0, cv::INTER_AREA);
    std::vector<cv::Mat> planes;
    cv::split(kinds, planes);
    const double total = std::max(cv::sum(coarse)[0], 1e-6);
    std::vector<double> mean;
    for (const cv::Mat& plane : planes) mean.push_back(plane.dot(coarse) / total);
    return mean;
}

}  // namespace

KindProbabilities kinds_of(const cv::Mat& kinds, const cv::Mat& weight, double temperature) {
    std::vector<double> mean = mean_logits(kinds, weight);
    for (double& logit : mean) logit /= temperature;
    KindProbabilities out;
    double sum = 0.0;
    const double top = *std::max_element(mean.begin(), mean.begin() + recognised_family_count);
    for (std::size_t i = 0; i < out.family.size(); ++i) sum += out.family[i] = std::exp(mean[i] - top);
    for (double& p : out.family) p /= sum;
    const double flat = mean.at(recognised_family_count);
    const double round = mean.at(recognised_family_count + 1);
    out.round = 1.0 / (1.0 + std::exp(flat - round));
    return out;
}

}  // namespace ridgetally
