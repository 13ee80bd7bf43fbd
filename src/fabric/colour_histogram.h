#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace ridgetally {

/// How often each colour occurs in some part of a picture: a smoothed three-dimensional histogram of CIE
/// L*a*b* bytes.
class ColourHistogram {
  public:
    void add(const cv::Vec3b& lab, float weight) { counts_[index(lab)] += weight; }

    /// Smooths and normalises; call once, after the last add and before the first log_density.
    void finish();

    /// Logarithm of the part of the pixels that have this colour's cell; never minus infinity.
    [[nodiscard]] float log_density(const cv::Vec3b& lab) const { return counts_[index(lab)]; }

  private:
    static constexpr int bins = 24;  // of 256 levels: 11 levels each, about the noise of a phone photo

    static std::size_t index(const cv::Vec3b& lab) {
        const auto bin = [](int level) { return static_cast<std::size_t>(level * bins / 256); };
        return (bin(lab[0]) * bins + bin(lab[1])) * bins + bin(lab[2]);
    }
    void smooth_along(std::size_t stride);

    std::vector<float> counts_ = std::vector<float>(std::size_t{bins} * bins * bins);
};

}  // namespace ridgetally
