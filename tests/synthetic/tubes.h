#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "synthetic/camera.h"
#include "synthetic/scene.h"

namespace ridgetally::synthetic {

/// A point of a strand's centre line.
struct TubeNode {
    Vec3 at;
    double radius_mm = 1.0;
    double along_mm = 0.0;  ///< length of yarn so far: the twist runs along it
};

/// Of a tube without twist, fibres and hairs.
inline constexpr int no_yarn = -1;

/// One continuous strand of yarn.
struct Tube {
    std::vector<TubeNode> nodes;
    Colour colour;
    int yarn = 0;  ///< which yarn of the scene, or `no_yarn`
    float shade = 1.0F;
};

/// A stretch between two nodes as the camera sees it, in supersampled pixels.
struct TubeSegment {
    float ax, ay, bx, by;
    float depth_a, depth_b;
    float radius_a, radius_b;  ///< px
    float radius_mm;
    float along_a, along_b;
    float height_a, height_b;  ///< of the centre line above the table, mm
    int tube;
};

/// What a sample of the picture shows.
struct TubeSample {
    float depth;
    float qx, qy;  ///< offset from the centre line over the radius: the normal's part in the picture plane
    float t;       ///< 0..1 along the segment
    int segment;   ///< -1: none
};

/// Visible surface of all tubes within `roi` of the supersampled picture.
struct TubeLayer {
    cv::Rect roi;
    std::vector<TubeSegment> segments;
    std::vector<TubeSample> samples;  ///< row by row

    [[nodiscard]] const TubeSample& at(int x, int y) const {
        return samples[static_cast<std::size_t>(y - roi.y) * static_cast<std::size_t>(roi.width) +
                       static_cast<std::size_t>(x - roi.x)];
    }
};

/// Draws the tubes into a depth buffer: each stretch is a capsule, seen along the line of sight.
[[nodiscard]] TubeLayer draw_tubes(const std::vector<Tube>& tubes, const Projector& projector,
                                   const cv::Size& size, int supersampling);

}  // namespace ridgetally::synthetic
