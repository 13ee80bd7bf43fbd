#pragma once

#include <opencv2/core.hpp>
#include <optional>

#include "catalog/facts.h"
#include "scale/flat/quad.h"

namespace ridgetally {

/// A quadrilateral whose sides were followed in the full photo.
struct FoundSheet {
    Quad quad;
    double support = 0.0;    ///< part of the least seen side that is edge
    double spread_px = 0.0;  ///< rms distance of the edges from straight sides
    double contrast = 0.0;   ///< of the weakest side
    double score = 0.0;      ///< mean support
};

/// Follows the four sides within `reach_px` of where they are thought to be; corners are where they cross.
/// None where a side has no edge.
[[nodiscard]] std::optional<FoundSheet> follow_sides(const cv::Mat& bgr, const Quad& quad,
                                                     const FlatObject& object, double reach_px);

/// Sides of a sheet end at its corners; seams of a table and lines of a cutting mat go on. How many of the
/// eight ends go on as edges, half as strong or more, over a fifth of their side.
[[nodiscard]] int ends_that_go_on(const cv::Mat& bgr, const FoundSheet& sheet);

/// Edges all round, and plain ones; beyond 40 grey levels an edge is as plain as can be.
[[nodiscard]] double quality_of(const FoundSheet& sheet);

/// How large the object is seen: geometric mean of its sides, px.
[[nodiscard]] double size_of(const FoundSheet& sheet);

}  // namespace ridgetally
