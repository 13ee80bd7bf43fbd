#include "fabric/fabric_patch.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/units.h"
#include "image/resample.h"

namespace ridgetally {
namespace {

struct Extent {
    double left = 0.0;
    double top = 0.0;
    double right = 0.0;
    double bottom = 0.0;
};

/// Bounding box, in plane millimetres turned by -rotation, of the region's outline.
Extent extent_of(const PatchSource& source, const ObjectFromPhoto& plane_from_photo, double rotation_rad) {
    Extent box{1e300, 1e300, -1e300, -1e300};
    const double c = std::cos(rotation_rad);
    const double s = std::sin(rotation_rad);
    for (const auto& corner : source.region.outline_px) {
        const auto p = plane_from_photo(corner);
        const double x = c * p.x + s * p.y;
        const double y = -s * p.x + c * p.y;
        box = {std::min(box.left, x), std::min(box.top, y), std::max(box.right, x), std::max(box.bottom, y)};
    }
    return box;
}

}  // namespace

PhotoPoint middle_of(const FabricRegion& region) {
    const cv::Moments m = cv::moments(region.mask, true);
    const double scale = region.overview_from_photo;
    return {(m.m10 / m.m00 + 0.5) / scale - 0.5, (m.m01 / m.m00 + 0.5) / scale - 0.5};
}

double plane_direction_rad(const PhotoFromObject& photo_from_plane, const PhotoPoint& at, double photo_deg) {
    const auto plane_from_photo = inverse(photo_from_plane);
    if (!plane_from_photo) return photo_deg / degrees_per_radian;
    const double step = 1.0;
    const auto a = (*plane_from_photo)(at);
    const auto b = (*plane_from_photo)(PhotoPoint{at.x + step * std::cos(photo_deg / degrees_per_radian),
                                                  at.y + step * std::sin(photo_deg / degrees_per_radian)});
    return std::atan2(b.y - a.y, b.x - a.x);
}

std::optional<FabricPatch> cut_patch(const PatchSource& source, const PatchOptions& options) {
    const auto plane_from_photo = inverse(source.photo_from_plane);
    if (!plane_from_photo || source.region.outline_px.empty()) return std::nullopt;
    const Extent box = extent_of(source, *plane_from_photo, options.rotation_rad);
    const double scale = options.px_per_mm;
    const int width =
        std::min(options.most_side_px, static_cast<int>(std::ceil((box.right - box.left) * scale)));
    const int height =
        std::min(options.most_side_px, static_cast<int>(std::ceil((box.bottom - box.top) * scale)));
    if (width < 16 || height < 16) return std::nullopt;
    const double c = std::cos(options.rotation_rad);
    const double s = std::sin(options.rotation_rad);
    // The middle of the box stays the middle of the patch where the patch is smaller.
    const double left = 0.5 * (box.left + box.right) - 0.5 * width / scale;
    const double top = 0.5 * (box.top + box.bottom) - 0.5 * height / scale;
    const Projective<frame::ObjectMm, frame::RectifiedPx> plane_from_patch{
        {c / scale, -s / scale, c * left - s * top, s / scale, c / scale, s * left + c * top, 0, 0, 1}};

    FabricPatch patch;
    patch.px_per_mm = scale;
    patch.photo_from_rectified = compose(source.photo_from_plane, plane_from_patch);
    const cv::Size size(width, height);
    resample(source.photo_grey, patch.photo_from_rectified, size).convertTo(patch.grey, CV_32F);
    const double o = source.region.overview_from_photo;
    const Matrix3 overview_from_photo = {o, 0, 0.5 * o - 0.5, 0, o, 0.5 * o - 0.5, 0, 0, 1};
    patch.mask =
        resample(source.region.mask, product(overview_from_photo, patch.photo_from_rectified.matrix), size);
    cv::threshold(patch.mask, patch.mask, 127, 255, cv::THRESH_BINARY);
    return patch;
}

}  // namespace ridgetally
