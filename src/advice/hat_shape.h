#pragma once

#include <optional>

#include "advice/derivation.h"
#include "advice/heads.h"

namespace ridgetally {

/// How much smaller than the head: a share of the head, or a length. Below zero: smaller.
struct Ease {
    std::optional<double> share;
    std::optional<double> length_mm;
};

/// What is told about a hat besides the head; what is not told comes from the facts.
struct HatWish {
    Ease ease;
    std::optional<double>
        height_mm;            ///< from the centre of the crown to the edge, along the fabric, brim included
    double turn_up_mm = 0.0;  ///< of a brim that is folded up, besides the height
};

/// A hat with a flat crown and straight sides.
struct HatShape {
    Head head;
    double ease = 0.0;                       ///< (hat - head) / head
    double circumference_mm = 0.0;           ///< unstretched
    double circumference_low_mm = 0.0;       ///< at the tightest published ease
    double circumference_high_mm = 0.0;      ///< at the loosest
    double crown_diameter_mm = 0.0;          ///< circumference / pi
    double crown_diameter_of_head_mm = 0.0;  ///< head / pi: published rules disagree on which it is
    double height_mm = 0.0;
    double turn_up_mm = 0.0;
    double area_mm2 = 0.0;  ///< of the fabric: crown disc and side
};

/// Throws std::invalid_argument where the hat has no circumference, or a height not above the crown's radius.
[[nodiscard]] HatShape hat_shape(const Head& head, const HatWish& wish, const HatPractice& practice);

/// Whether the hat is high enough to have a side below its crown.
[[nodiscard]] bool is_high_enough(const Head& head, const HatWish& wish, const HatPractice& practice);

/// Every figure of the shape.
[[nodiscard]] Workings shape_workings(const HatShape& shape, const HatWish& wish,
                                      const HatPractice& practice);

}  // namespace ridgetally
