#include "pipeline/ruler_height.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

#include "image/masks.h"
#include "pipeline/trace.h"

namespace ridgetally {
namespace {

cv::Vec3b hsv_of(const cv::Scalar& bgr) {
    cv::Mat pixel(1, 1, CV_8UC3, bgr);
    cv::cvtColor(pixel, pixel, cv::COLOR_BGR2HSV);
    return pixel.at<cv::Vec3b>(0, 0);
}

/// The brightness that half of the marked pixels do not reach.
int middle_brightness(const cv::Mat& bgr, const cv::Mat& mask) {
    std::array<int, 256> counts{};
    int all = 0;
    for (int y = 0; y < bgr.rows; ++y) {
        for (int x = 0; x < bgr.cols; ++x) {
            if (mask.at<uchar>(y, x) == 0) continue;
            const auto& p = bgr.at<cv::Vec3b>(y, x);
            ++counts[std::max({p[0], p[1], p[2]})];
            ++all;
        }
    }
    int level = 0;
    for (int below = counts[0]; 2 * below < all; below += counts[static_cast<std::size_t>(level)]) ++level;
    return level;
}

/// Shorter side of the smallest rectangle around the outline, on the plane of the ruler's face.
double width_mm(const ReferencePlane& plane) {
    const auto face_from_photo = inverse(plane.rectification.photo_from_object);
    if (!face_from_photo) return 0.0;
    std::vector<cv::Point2f> corners;
    for (const PhotoPoint& p : plane.reference.outline_px) {
        const ObjectPoint at = (*face_from_photo)(p);
        corners.emplace_back(static_cast<float>(at.x), static_cast<float>(at.y));
    }
    const cv::Size2f size = cv::minAreaRect(corners).size;
    return std::min(size.width, size.height);
}

RulerLook look_of(const Photo& photo, const ReferencePlane& plane) {
    const auto& outline_px = plane.reference.outline_px;
    const cv::Mat& bgr = photo.colour.bgr;
    const cv::Mat inside = polygon_mask({outline_px}, 1.0 / photo.colour.reduction, bgr.size());
    constexpr int around_px = 10;
    cv::Mat around;
    cv::dilate(inside, around, round_element(around_px));
    around -= inside;
    const auto body = hsv_of(cv::mean(bgr, inside));
    const auto ground = hsv_of(cv::mean(bgr, around));
    return {body[0], body[1], middle_brightness(bgr, inside), ground[0], ground[1], width_mm(plane)};
}

/// Bare wood: hue 7 to 23 half degrees, weaker than dyes. Chosen on development pictures under their lamps.
bool brown(int hue, int saturation) { return hue >= 7 && hue < 24 && saturation > 55 && saturation < 190; }

std::vector<Limits> faces_of(const Photo& photo, const ReferencePlane& plane, const Catalog& catalog,
                             Trace& trace) {
    const ScaleReference& reference = plane.reference;
    std::vector<Limits> faces;
    if (const FlatObject* object = find_flat_object(catalog, reference.kind)) return {object->thickness_mm};
    if (reference.kind == "coin") {
        for (const Coin& coin : catalog.coins) {
            if (coin.thickness_mm) faces.push_back(*coin.thickness_mm);
        }
        if (!faces.empty()) return faces;
    }
    std::vector<std::string> kinds{"steel", "plastic"};
    if (reference.kind == "ruler" && reference.outline_px.size() >= 3) {
        const RulerLook look = look_of(photo, plane);
        kinds = ruler_kinds_like(look);
        std::string note = "ruler: hue " + std::to_string(2 * look.hue) + ", saturation " +
                           std::to_string(look.saturation) + ", brightness " +
                           std::to_string(look.brightness) + ", " + std::to_string(look.width_mm) +
                           " mm wide: may be";
        for (const auto& kind : kinds) note += " " + kind;
        trace.note(note);
    }
    for (const auto& kind : kinds) faces.push_back(find_ruler_kind(catalog, kind)->face_mm);
    return faces;
}

}  // namespace

std::vector<std::string> ruler_kinds_like(const RulerLook& look) {
    // Dressmakers' tapes are of a strong yellow, bare wood of a weaker and redder one; between them lie pale
    // tapes and varnished wood. Bounds chosen on development pictures under their lamps.
    const bool yellow = look.hue >= 22 && look.hue <= 36 && look.saturation > 55;
    const bool strong = look.saturation > (look.hue < 26 ? 150 : 130);
    if (yellow && strong) return {"tape"};
    if (yellow && (look.hue >= 24 || look.saturation > 130)) return {"tape", "wood"};
    if (brown(look.hue, look.saturation)) {
        // Through a clear ruler on a wooden table one sees wood.
        if (brown(look.ground_hue, look.ground_saturation)) return {"wood", "plastic"};
        return {"wood"};
    }
    // Lamps tint steel less than dyes do: four in ten of a channel away from grey.
    constexpr int dyed = 102;
    if (look.saturation > dyed) return {"plastic"};
    // Steel reflects about half of the light (from memory: 55 to 65 of 100, brushed), white plastic and paper
    // 80 to 90, black 4 to 8. Where the photo's whites are not cut off, steel is coded at 190 to 211 of 255
    // (IEC 61966-2-1). Darker than 90, a tenth of the light, it would have to lie in a shadow of its own.
    constexpr int brighter_than_steel = 215;
    constexpr int darker_than_steel = 90;
    if (look.brightness < darker_than_steel) return {"plastic"};
    // Dressmakers' tapes are 15 to 20 mm wide (common practice, no source).
    constexpr double widest_tape_mm = 22.0;
    std::vector<std::string> kinds{"plastic"};
    if (look.brightness <= brighter_than_steel) kinds.emplace_back("steel");
    if (look.width_mm < widest_tape_mm) kinds.emplace_back("tape");
    return kinds;
}

FaceHeight height_of_any(const std::vector<Limits>& faces_mm) {
    if (faces_mm.empty()) throw std::invalid_argument("height_of_any: no thing");
    const double n = static_cast<double>(faces_mm.size());
    double mean = 0.0;
    double square = 0.0;
    for (const Limits& face : faces_mm) {
        const double middle = 0.5 * (face.low + face.high);
        mean += middle / n;
        square += (middle * middle + face.std() * face.std()) / n;
    }
    return {mean, std::sqrt(square - mean * mean)};
}

FaceHeight reference_face_height(const Photo& photo, const ReferencePlane& plane, const Catalog& catalog,
                                 const std::optional<double>& told_mm, Trace& trace) {
    if (told_mm) return {*told_mm, told_thickness_std_mm};
    return height_of_any(faces_of(photo, plane, catalog, trace));
}

}  // namespace ridgetally
