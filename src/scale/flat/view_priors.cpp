#include "scale/flat/view_priors.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

namespace ridgetally {

ViewPriors view_priors(const Photo& photo) {
    constexpr double assumed_focal_35mm = 26.0;
    constexpr double frame_diagonal_mm = 43.267;  // CIPA DC-008, tag 41989
    const auto told = focal_length_px(photo);
    ViewPriors view;
    view.focal_known = told.has_value();
    view.focal_px =
        told.value_or(assumed_focal_35mm / frame_diagonal_mm * std::hypot(photo.grey.cols, photo.grey.rows));
    view.principal_px = {0.5 * (photo.grey.cols - 1), 0.5 * (photo.grey.rows - 1)};
    return view;
}

ViewPriors scaled_view(const ViewPriors& view, double scale) {
    ViewPriors result = view;
    result.focal_px = view.focal_px * scale;
    result.principal_px = (view.principal_px + cv::Point2d(0.5, 0.5)) * scale - cv::Point2d(0.5, 0.5);
    return result;
}

cv::Point2d unscaled(const cv::Point2d& p, double scale) {
    return (p + cv::Point2d(0.5, 0.5)) * (1.0 / scale) - cv::Point2d(0.5, 0.5);
}

FlatSearch flat_search(const Photo& photo) {
    constexpr double small_side_px = 1000.0;
    FlatSearch search;
    search.bgr = photo.colour.bgr;
    search.view = scaled_view(view_priors(photo), 1.0 / photo.colour.reduction);
    search.scale = std::min(1.0, small_side_px / std::max(search.bgr.cols, search.bgr.rows));
    cv::resize(search.bgr, search.small_bgr, cv::Size(), search.scale, search.scale, cv::INTER_AREA);
    return search;
}

}  // namespace ridgetally
