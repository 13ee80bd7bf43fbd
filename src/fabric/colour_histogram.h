#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace ridgetally {

/// How often each colour occurs in some part of a picture: a smoothed three-dimensional histogram of YCbCr
/// bytes (ITU-R BT.601: linear, so it needs none of the tables of CIE L*a*b*, whose making took 0.1 s a run).
class ColourHistogram {
  public:
    void add(const cv::Vec3b& ycc, float weight) { counts_[index(ycc)] += weight; }

    /// Smooths and normalises; call once, after the last add and before the first log_density.
    void finish();

    /// Logarithm of the part of the pixels that have this colour's cell; never minus infinity.
    [[nodiscard]] float log_density(const cv::Vec3b& ycc) const { return counts_[index(ycc)]; }

  private:
    static constexpr int bins = 24;  // of 256 levels: 11 levels each, about the noise of a phone photo

    static std::size_t index(const cv::Vec3b& ycc) {
        const auto bin = [](int level) { return static_cast<std::size_t>(level * bins / 256); };
        return (bin(ycc[0]) * bins + bin(ycc[1])) * bins + bin(ycc[2]);
    }
    void smooth_along(std::size_t stride);

    std::vector<float> counts_ = std::vector<float>(std::size_t{bins} * bins * bins);
};

}  // namespace ridgetally
