#pragma once

#include <opencv2/core.hpp>
#include <optional>
#include <vector>

namespace ridgetally {

/// Where a profile that crosses an outline was sampled from: a point on the expected outline and the unit
/// direction from inside to outside.
struct EdgeProbe {
    cv::Point2d at;
    cv::Point2d outward;
};

struct EdgeOptions {
    double reach_px = 6.0;        ///< how far to either side of the probe the edge is looked for
    double least_contrast = 6.0;  ///< grey levels across the edge; sensor noise of a phone is 2 to 5
};

/// One edge found: its place along the probe's direction from the probe, px, and its contrast.
struct EdgeHit {
    double offset_px = 0.0;
    double contrast = 0.0;
};

/// Edges under the probes, in their order, to a fraction of a pixel; none where no edge is strong enough. All
/// probes of a call share one colour difference between inside and outside, so that an edge of equal
/// brightness but another colour is seen and one that goes the other way is not. `bgr` is CV_8UC3.
[[nodiscard]] std::vector<std::optional<EdgeHit>> find_edges(const cv::Mat& bgr,
                                                             const std::vector<EdgeProbe>& probes,
                                                             const EdgeOptions& options);

/// A straight side found through edge points.
struct SideLine {
    cv::Point2d through;
    cv::Point2d along;       ///< unit
    double support = 0.0;    ///< part of the probes that found an edge on the line
    double spread_px = 0.0;  ///< rms distance of those edges from it
    double contrast = 0.0;   ///< median
};

/// Line through the edges along the segment from a to b; `outward` is the unit direction to the outside,
/// square to the segment. `skip` is the part at each end that is left out (rounded corners). None where fewer
/// than a third of the probes agree.
[[nodiscard]] std::optional<SideLine> find_side(const cv::Mat& bgr, const cv::Point2d& a,
                                                const cv::Point2d& b, const cv::Point2d& outward, double skip,
                                                const EdgeOptions& options);

}  // namespace ridgetally
