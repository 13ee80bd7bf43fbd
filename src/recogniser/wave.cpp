#include "recogniser/wave.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <opencv2/imgproc.hpp>

namespace ridgetally {
namespace {

// Frequencies this near the peak (cycles per sample) count as the same wave: an uneven hand moves the local
// frequency by a fifth of that of a 22 px stitch seen at half resolution.
constexpr double near_peak = 0.045;

/// Log-parabolic offset of a peak between neighbours a, b, c (J. Smith, X. Serra, PARSHL, 1987).
double offset_of_peak(float a, float b, float c) {
    constexpr float least = 1e-12F;
    const double la = std::log(std::max(a, least));
    const double lb = std::log(std::max(b, least));
    const double lc = std::log(std::max(c, least));
    const double bend = la - 2.0 * lb + lc;
    return std::abs(bend) < 1e-9 ? 0.0 : std::clamp(0.5 * (la - lc) / bend, -0.5, 0.5);
}

double signed_bin(int bin, int size) { return bin < size / 2 ? bin : bin - size; }

cv::Mat power_spectrum(const cv::Mat& field, const cv::Mat& weight, int size) {
    cv::Mat hann;
    cv::createHanningWindow(hann, field.size(), CV_32FC1);
    const cv::Mat scaled = weight.mul(hann);
    cv::Mat both;
    cv::merge(std::vector<cv::Mat>{scaled, scaled}, both);
    cv::Mat padded = cv::Mat::zeros(size, size, CV_32FC2);
    padded(cv::Rect({0, 0}, field.size())) = field.mul(both);
    cv::dft(padded, padded, 0, field.rows);
    std::vector<cv::Mat> parts;
    cv::split(padded, parts);
    return parts[0].mul(parts[0]) + parts[1].mul(parts[1]);
}

std::complex<double> lag_product(const cv::Mat& field, const cv::Mat& weight, int dx, int dy) {
    std::complex<double> sum;
    for (int y = 0; y + dy < field.rows; ++y) {
        const auto* z = field.ptr<cv::Vec2f>(y);
        const auto* z1 = field.ptr<cv::Vec2f>(y + dy);
        const auto* w = weight.ptr<float>(y);
        const auto* w1 = weight.ptr<float>(y + dy);
        for (int x = 0; x + dx < field.cols; ++x) {
            const std::complex<double> here(z[x][0], z[x][1]);
            const std::complex<double> there(z1[x + dx][0], z1[x + dx][1]);
            sum += static_cast<double>(std::min(w[x], w1[x + dx])) * there * std::conj(here);
        }
    }
    return sum;
}

double refined_along(const cv::Mat& field, const cv::Mat& weight, double start, bool along_x) {
    double f = start;
    const int most = (along_x ? field.cols : field.rows) / 3;
    for (int lag = 1; lag <= most; lag *= 2) {
        const auto product =
            along_x ? lag_product(field, weight, lag, 0) : lag_product(field, weight, 0, lag);
        if (std::abs(product) < 1e-9) break;
        const double expected = 2.0 * std::numbers::pi * f * lag;
        const double rest = std::arg(product * std::polar(1.0, -expected));
        f += rest / (2.0 * std::numbers::pi * lag);
    }
    return f;
}

}  // namespace

Wave strongest_wave(const cv::Mat& field, const cv::Mat& weight) {
    const int size = cv::getOptimalDFTSize(field.rows + field.rows / 4);
    const cv::Mat power = power_spectrum(field, weight, size);
    cv::Point peak;
    cv::minMaxLoc(power, nullptr, nullptr, nullptr, &peak);
    const auto at = [&](int x, int y) { return power.at<float>((y + size) % size, (x + size) % size); };
    const double dx = offset_of_peak(at(peak.x - 1, peak.y), at(peak.x, peak.y), at(peak.x + 1, peak.y));
    const double dy = offset_of_peak(at(peak.x, peak.y - 1), at(peak.x, peak.y), at(peak.x, peak.y + 1));
    Wave wave;
    wave.frequency = {(signed_bin(peak.x, size) + dx) / size, (signed_bin(peak.y, size) + dy) / size};
    const int reach = std::max(1, cvRound(near_peak * size));
    double near = 0.0;
    for (int y = -reach; y <= reach; ++y) {
        for (int x = -reach; x <= reach; ++x) {
            if (x * x + y * y <= reach * reach) near += at(peak.x + x, peak.y + y);
        }
    }
    wave.concentration = near / (cv::sum(power)[0] + 1e-12);
    std::vector<cv::Mat> parts;
    cv::split(field, parts);
    cv::Mat length;
    cv::magnitude(parts[0], parts[1], length);
    wave.length = length.dot(weight) / std::max(cv::sum(weight)[0], 1.0);
    return wave;
}

cv::Point2d refined_frequency(const cv::Mat& field, const cv::Mat& weight, cv::Point2d start) {
    return {refined_along(field, weight, start.x, true), refined_along(field, weight, start.y, false)};
}

}  // namespace ridgetally
