#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "synthetic/crown_tubes.h"
#include "synthetic/fabric_grid.h"
#include "synthetic/scene.h"

namespace ridgetally::synthetic {

/// A stretch of a ruler between two marks, where the photo shows it.
struct RulerSegment {
    cv::Point2d p_px;
    cv::Point2d q_px;
    double mm = 0.0;
    bool inch = false;  ///< whether the edge it lies on is graduated in inches
};

/// What is true of a picture, exactly, by construction. Pixels are of the upright photo.
struct Truth {
    double tilt_deg = 0.0;
    double focal_px = 0.0;
    double camera_distance_mm = 0.0;                           ///< along the axis to the table
    std::vector<FabricTruth> fabrics;                          ///< empty for crowns
    std::vector<CrownTruth> crowns;                            ///< empty for other fabrics
    std::vector<std::vector<cv::Point2d>> fabric_outlines_px;  ///< corners and edge points, around
    std::vector<double> fabric_lift_mm;   ///< mean height of the visible yarn above the table
    std::vector<double> fabric_in_frame;  ///< part of the outline's area inside the frame, 0..1
    std::vector<RulerSegment> segments;   ///< the longest visible uncovered stretch of each edge
    std::vector<double> ruler_face_mm;    ///< height of each ruler's face above the table
};

struct Picture {
    cv::Mat3b bgr;
    Truth truth;
};

/// Draws the scene. The same scene gives the same bytes.
[[nodiscard]] Picture render(const Scene& scene);

/// The geometry alone, without drawing (the lift of the fabric is left out).
[[nodiscard]] Truth truth_of(const Scene& scene);

}  // namespace ridgetally::synthetic
