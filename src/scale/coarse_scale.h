#pragma once

#include <optional>
#include <string>
#include <vector>

#include "scale/coarse_line.h"

namespace ridgetally {

/// What came of looking for a coarse scale.
struct CoarseScale {
    std::optional<CoarseLine> line;
    std::vector<std::string> notes;  ///< rows that were rejected and why
};

/// Reads scales whose millimetres are near or below what the photo resolves, so that the ordinary reader
/// finds no comb of marks of different lengths: whole centimetres at even spacing (longer or bolder marks,
/// blocks of alternating tone) that are divided in ten, all of them or the first one alone. Nothing else
/// decides that they are centimetres: rows that are not divided, or not in ten, are left alone.
[[nodiscard]] CoarseScale read_coarse_scale(const GreyPyramid& pyramid);

/// Its marks for the camera: places without directions, since all lean as one smooth row.
[[nodiscard]] MarkLine mark_line(const CoarseLine& coarse);

}  // namespace ridgetally
