#pragma once

#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "scale/coarse_rows.h"
#include "scale/index_model.h"
#include "scale/strip.h"
#include "scale/tenth_rows.h"

namespace ridgetally {

/// The divisions of a coarse scale as they stand in a strip.
struct Divisions {
    RowRange rows;               ///< in which they were measured
    IndexModel model;            ///< u by number of the division
    std::vector<Sample> places;  ///< those that were seen: number and u
    double residual_px = 0.0;    ///< rms of the places against the model
    double contrast = 0.0;       ///< median grey levels across a division's edges: of a line twice its height
    std::string fault;           ///< why they are no scale's; empty where they may be
};

/// How steep the strip is along the row once its fine marks are blurred away, grey levels a photo pixel:
/// lines and steps alike. Fine marks whose beats with the pixels look like divisions leave nothing.
[[nodiscard]] cv::Mat1f edges_of(const Strip& strip, double pitch_px);

/// One row of `edges` near a column, three samples wide; 0 outside.
[[nodiscard]] float edge_strength(const cv::Mat1f& edges, int row, double column);

/// Measures the divisions of a row in a strip along it, beyond its ends as well: in those rows of the strip
/// where they stand most evenly.
[[nodiscard]] Divisions divisions_in(const Strip& strip, const cv::Mat1f& edges, const CoarseRow& row);

/// How much the divisions' edges lean more than the strip's columns do: the lower half of their rows against
/// the upper one. u and du per dw.
[[nodiscard]] std::vector<Sample> lean_of_edges(const Strip& strip, const cv::Mat1f& edges,
                                                const Divisions& d, double pitch_px);

/// Smallest noise of a place believed, px.
inline constexpr double place_floor_px = 0.1;

/// Root mean square of places (number and u) against a model, px.
[[nodiscard]] double residual_of(const std::vector<Sample>& places, const IndexModel& model);

}  // namespace ridgetally
