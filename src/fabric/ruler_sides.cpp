#include "fabric/ruler_sides.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "fabric/mask_shape.h"
#include "fabric/ruler_contact.h"

namespace ridgetally {
namespace {

/// Whether two pieces have the same colours, light that falls off allowed for.
bool coloured_alike(const cv::Mat& bgr, const cv::Mat& a, const cv::Mat& b) {
    // Not swept. Within one fabric colours spread by 10 to 30 levels, those of stripes by more.
    constexpr double spreads_apart = 2.0;
    constexpr double light_levels = 10.0;
    std::array<cv::Scalar, 2> mean;
    std::array<cv::Scalar, 2> spread;
    cv::meanStdDev(bgr, mean[0], spread[0], a);
    cv::meanStdDev(bgr, mean[1], spread[1], b);
    for (int channel = 0; channel < 3; ++channel) {
        const double most = spreads_apart * std::max(spread[0][channel], spread[1][channel]) + light_levels;
        if (std::abs(mean[0][channel] - mean[1][channel]) > most) return false;
    }
    return true;
}

}  // namespace

bool one_fabric(const cv::Mat& bgr, const cv::Mat& a, const cv::Mat& b, const cv::Mat& ruler) {
    return cut_by_ruler(a, b, ruler) && coloured_alike(bgr, a, b);
}

Sides sides_of(const cv::Mat& bgr, const std::vector<cv::Mat>& pieces, const cv::Mat& ruler) {
    Sides sides{pieces.front().clone(), {}};
    const bool cut = touches_frame(pieces.front());
    for (std::size_t i = 1; i < pieces.size(); ++i) {
        const bool table_like = cut && touches_frame(pieces[i]);
        if (!table_like && one_fabric(bgr, pieces.front(), pieces[i], ruler))
            sides.all |= pieces[i];
        else
            sides.others.push_back(pieces[i]);
    }
    return sides;
}

}  // namespace ridgetally
