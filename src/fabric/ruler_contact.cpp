#include "fabric/ruler_contact.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

namespace ridgetally {
namespace {

/// Less of the outline along the ruler is a corner or a tail that came too near: a square swatch that the
/// ruler covers one side of has 25 %. Not swept.
constexpr double least_contact_part = 0.08;
/// Of 120 drawn swatches, 16 of 18 with the ruler on the table had 0.18 or less, all 18 with it on the fabric
/// 0.23 or more.
constexpr double least_side_part = 0.20;

/// How much of the piece's outline lies along the ruler.
double contact_part(const cv::Mat& piece, const cv::Mat& ruler) {
    cv::Mat inner;
    cv::erode(piece, inner, cv::Mat::ones(3, 3, CV_8U));
    const cv::Mat rim = piece & ~inner;
    cv::Mat near;
    cv::dilate(ruler, near, cv::Mat::ones(5, 5, CV_8U));
    return static_cast<double>(cv::countNonZero(rim & near)) / std::max(1, cv::countNonZero(rim));
}

cv::Point middle_of_mask(const cv::Mat& mask) {
    const cv::Moments m = cv::moments(mask, true);
    return {static_cast<int>(m.m10 / m.m00), static_cast<int>(m.m01 / m.m00)};
}

bool ruler_between(const cv::Mat& a, const cv::Mat& b, const cv::Mat& ruler) {
    cv::LineIterator line(ruler, middle_of_mask(a), middle_of_mask(b));
    for (int i = 0; i < line.count; ++i, ++line) {
        if (**line != 0) return true;
    }
    return false;
}

}  // namespace

bool cut_by_ruler(const cv::Mat& a, const cv::Mat& b, const cv::Mat& ruler) {
    return cv::countNonZero(ruler) > 0 && contact_part(a, ruler) > least_side_part &&
           contact_part(b, ruler) > least_contact_part && ruler_between(a, b, ruler);
}

RulerContact ruler_contact(const cv::Mat& fabric, const cv::Mat& ruler) {
    const double part = cv::countNonZero(ruler) > 0 ? contact_part(fabric, ruler) : 0.0;
    if (part <= least_contact_part) return RulerContact::apart;
    return part > least_side_part ? RulerContact::beside : RulerContact::near;
}

}  // namespace ridgetally
