#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "core/geometry.h"
#include "core/outcome.h"
#include "fabric/fabric_region.h"
#include "image/photo.h"

namespace ridgetally {

/// What a place of the rim is.
enum class RimPlace {
    edge,    ///< the yarn's edge
    loose,   ///< a stray loop, the tail, something lying over the rim: the edge is taken from its neighbours
    hidden,  ///< outside the frame or under the ruler: the edge is taken from the curve through the rest
};

/// The edge of a round piece on one plane: distance from the centre at evenly spaced angles, clockwise from
/// the plane's x axis.
struct DiscOutline {
    PhotoFromObject photo_from_plane;
    ObjectPoint centre_mm;
    std::vector<double> radius_mm;
    std::vector<RimPlace> places;  ///< as many
    double spread_mm = 0.0;        ///< robust standard deviation of the edge about its running median
    double out_of_round_mm = 0.0;  ///< and about the oval fitted to it
    double px_per_mm = 0.0;        ///< of the photo, at the centre

    [[nodiscard]] double part_of(RimPlace place) const;
    [[nodiscard]] ObjectPoint point(std::size_t i) const;
    /// Diameter of the circle with the same area, on the plane.
    [[nodiscard]] double area_diameter_mm() const;
    /// Distance of the centre from the edge at any angle, linear between the angles given.
    [[nodiscard]] double radius_at(double angle_rad) const;
};

/// The outline without the scallops of its last round, which stand 30 degrees apart at most (twelve
/// stitches): mean squares of the radii over 15 degrees to either side, which leave the area as it is.
[[nodiscard]] DiscOutline evened(const DiscOutline& outline);

/// Middle of the area inside, on the plane.
[[nodiscard]] ObjectPoint middle_of_area(const DiscOutline& outline);

struct DiscOutlineOptions {
    std::vector<std::vector<PhotoPoint>> keep_out_px;  ///< polygons that hide the rim: the ruler
    int angles = 1440;  ///< a quarter of a degree: 0.3 mm of a rim 150 mm across
    /// Less of the rim than this does not fix a diameter to a per cent: an arc of 40 % of a circle, its
    /// sagitta read to 0.3 mm of 35 mm, gives the radius to 1 % (geometry).
    double least_seen_part = 0.4;
};

/// Traces the rim of a round piece. `region` is where the fabric is, good to a few mm. Refuses (stage "disc")
/// with "not-round" where no circle or oval explains the outline, "too-little-rim" where too much is hidden.
[[nodiscard]] Outcome<DiscOutline> trace_disc(const Photo& photo, const FabricRegion& region,
                                              const PhotoFromObject& photo_from_plane,
                                              const DiscOutlineOptions& options);

}  // namespace ridgetally
