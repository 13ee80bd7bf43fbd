#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalog/catalog.h"
#include "image/photo.h"
#include "pipeline/reference.h"

namespace ridgetally {

/// Height of a reference's face above the table.
struct FaceHeight {
    double mm = 0.0;
    double std_mm = 0.0;
};

/// Of a thickness that the maker read off a ruler's edge.
inline constexpr double told_thickness_std_mm = 0.3;

/// What is seen of a ruler beside its marks. Colours as OpenCV's HSV of 8 bits: hue in half degrees.
struct RulerLook {
    int hue = 0;  ///< of its mean colour, ink included
    int saturation = 0;
    int brightness = 0;  ///< the middle one of its pixels' largest channels
    int ground_hue = 0;  ///< of the mean colour around it
    int ground_saturation = 0;
    double width_mm = 0.0;  ///< across its graduations, where its outline is not cut off
};

/// Keys of `Catalog::ruler_kinds` that a ruler of that look may be; never empty.
[[nodiscard]] std::vector<std::string> ruler_kinds_like(const RulerLook& look);

/// Height of a face that is of one of these things, each as likely and each evenly likely between its limits:
/// mean and standard deviation of the mixture. Throws std::invalid_argument for none.
[[nodiscard]] FaceHeight height_of_any(const std::vector<Limits>& faces_mm);

/// How high the face of the plane's reference lies above the table: as told; a card, a sheet or a coin by its
/// thickness, a ruler by what kind it may be, as the catalogue has them.
[[nodiscard]] FaceHeight reference_face_height(const Photo& photo, const ReferencePlane& plane,
                                               const Catalog& catalog, const std::optional<double>& told_mm,
                                               Trace& trace);

}  // namespace ridgetally
