#include "image/pyramid.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

namespace ridgetally {

GreyPyramid grey_pyramid(const cv::Mat& grey) {
    constexpr std::size_t most_levels = 5;
    constexpr int least_side_px = 200;
    GreyPyramid pyramid{grey};
    while (pyramid.size() < most_levels &&
           std::min(pyramid.back().cols, pyramid.back().rows) >= least_side_px) {
        cv::Mat half;
        cv::resize(pyramid.back(), half, {}, 0.5, 0.5, cv::INTER_AREA);
        pyramid.push_back(half);
    }
    return pyramid;
}

const cv::Mat& level_of_at_least(const GreyPyramid& pyramid, int long_side_px) {
    if (pyramid.empty()) throw std::invalid_argument("level_of_at_least: an empty pyramid");
    const auto large_enough = [long_side_px](const cv::Mat& level) {
        return std::max(level.cols, level.rows) >= long_side_px;
    };
    const auto found = std::find_if(pyramid.rbegin(), pyramid.rend(), large_enough);
    return found == pyramid.rend() ? pyramid.front() : *found;
}

}  // namespace ridgetally
