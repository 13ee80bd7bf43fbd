#pragma once

#include <opencv2/core.hpp>
#include <optional>
#include <vector>

#include "core/geometry.h"
#include "core/outcome.h"
#include "fabric/ruler_contact.h"
#include "image/photo.h"

namespace ridgetally {

/// Where the fabric is in the photo.
struct FabricRegion {
    cv::Mat mask;                        ///< CV_8UC1, 255 on fabric, of the reduced overview picture
    double overview_from_photo = 1.0;    ///< overview px per photo px
    std::vector<PhotoPoint> outline_px;  ///< polygon around it
    std::optional<double>
        edge_direction_deg;       ///< of a straight side in the photo, modulo 90; none if ragged or round
    std::vector<cv::Mat> others;  ///< masks of further pieces that look like fabric too, largest first
    bool cut_by_frame = false;    ///< a side of the photo cuts it
    RulerContact ruler_contact = RulerContact::apart;
    /// Share of its convex hull that it fills, what the ruler covers left out: 1 for every swatch, crown or
    /// square, less for pieces that touch each other.
    double solidity = 1.0;
};

struct FindFabricOptions {
    std::vector<std::vector<PhotoPoint>> keep_out_px;  ///< polygons that are not fabric: the ruler, a card
    /// Long side of the overview, px: a pixel is 0.6 mm of a scene 300 mm wide.
    int overview_side_px = 480;
    /// Less of the frame than this is not a swatch one could count on.
    double least_frame_part = 0.015;
};

/// The photo's colours at the size that pieces are looked for in.
struct ColourView {
    cv::Mat bgr;                       ///< CV_8UC3, `FindFabricOptions::overview_side_px` on its long side
    double overview_from_photo = 1.0;  ///< overview px per photo px
};

[[nodiscard]] ColourView colour_view(const Photo& photo, const FindFabricOptions& options);

/// The photo as the search for fabric sees it: nothing of it depends on where the ruler lies, so it can be
/// made while the ruler is read.
struct FabricOverview {
    ColourView colours;
    cv::Mat texture_energy;  ///< CV_32FC1, of the same size (texture_energy.h)
};

[[nodiscard]] FabricOverview fabric_overview(const Photo& photo, const FindFabricOptions& options = {});

/// Finds the piece of fabric: the largest part of the photo with dense fine texture, made precise by colour
/// (segment.h). Refuses with code "no-fabric" where nothing in the photo looks like it.
[[nodiscard]] Outcome<FabricRegion> find_fabric(const FabricOverview& overview,
                                                const FindFabricOptions& options);
[[nodiscard]] Outcome<FabricRegion> find_fabric(const Photo& photo, const FindFabricOptions& options);

/// Where stitches were seen. Both are CV_8UC1 of a region's mask's size, 255 where it is so.
struct SeenFabric {
    cv::Mat fabric;
    cv::Mat looked_at;  ///< elsewhere nothing is known
};

/// The largest piece of the region, without tails, that has the colours of what was seen as fabric rather
/// than of what was looked at and is none; where colours cannot be learned, what was seen itself. `colours`
/// is the view that the region was found in. None where nothing worth measuring is left.
[[nodiscard]] std::optional<FabricRegion> redrawn(const FabricRegion& region, const ColourView& colours,
                                                  const SeenFabric& seen);

/// The region inside a polygon given by hand. Refuses with code "area-outside" where it lies outside the
/// photo.
[[nodiscard]] Outcome<FabricRegion> fabric_inside(const Photo& photo, const std::vector<PhotoPoint>& area_px);

}  // namespace ridgetally
