#pragma once

#include <optional>
#include <vector>

#include "core/geometry.h"
#include "rectify/camera_pose.h"
#include "scale/scale_reference.h"

namespace ridgetally {

/// Where a mark line lies on the object. The first line is x = position, y = 0 and defines the frame.
struct LinePlacement {
    double sign = 1.0;       ///< -1 where its positions run against the first line's
    double offset_mm = 0.0;  ///< x of position 0
    double across_mm = 0.0;  ///< y
    double stretch = 0.0;    ///< relative length error against the first line
    double skew = 0.0;       ///< how far its marks are from square to it, radians
};

/// A tape bent in its own plane: the heading of the graduated line at distance s from the anchor is
/// curvature s + twist s^2, radians. Zero for a straight ruler.
struct Bend {
    double curvature = 0.0;  ///< 1/mm
    double twist = 0.0;      ///< 1/mm^2
};

/// One mark as the photo shows it, with what the model needs of it.
struct SeenMark {
    double position_mm = 0.0;  ///< corrected, along its own line
    PhotoPoint middle_px;      ///< of foot and tip
    PhotoPoint foot_px;
    double step_x_px = 0.0;  ///< tip minus foot
    double step_y_px = 0.0;

    [[nodiscard]] bool has_direction() const { return step_x_px != 0.0 || step_y_px != 0.0; }
};

[[nodiscard]] std::vector<SeenMark> seen_marks(const MarkLine& line, double correction);

/// A point of the object and the unit direction of the mark through it.
struct MarkOnObject {
    ObjectPoint foot;
    double across_x = 0.0;
    double across_y = 1.0;
};

/// A line of marks laid on the object, for a tape bent about `anchor_mm` of the first line.
class LineOnObject {
  public:
    LineOnObject(const LinePlacement& line, const Bend& bend, double anchor_mm);

    /// Foot and direction of the mark at `position_mm` of the line.
    [[nodiscard]] MarkOnObject mark(double position_mm) const;

  private:
    /// The line's direction at a mark.
    struct Heading {
        double sine = 0.0;
        double cosine = 1.0;
        double across_sine = 0.0;  ///< of the heading and the marks' skew
        double across_cosine = 1.0;
    };
    [[nodiscard]] Heading heading(double radians) const;

    LinePlacement line_;
    Bend bend_;
    double anchor_mm_ = 0.0;
    std::optional<Heading> straight_;  ///< where all marks share it
};

/// What is left of a mark after the model, px.
struct MarkResidual {
    double along = 0.0;      ///< of its middle, square to the mark
    double across = 0.0;     ///< of its foot, along the mark
    double direction = 0.0;  ///< of its tip against its foot, square to the mark; 0 without a direction
};
[[nodiscard]] MarkResidual mark_residual(const SeenMark& mark, const MarkOnObject& object,
                                         const PhotoFromObject& photo_from_object);

}  // namespace ridgetally
