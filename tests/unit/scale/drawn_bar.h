#pragma once

#include "unit/scale/drawn_ruler.h"

namespace ridgetally::drawn {

/// How a scale of whole centimetres is made.
enum class BarMake {
    blocks,      ///< fine lines along one edge, a column of blocks of alternating tone beside them, a frame
    long_lines,  ///< fine lines along one edge, every tenth longer and bolder
    first_only   ///< blocks of alternating tone over long lines; the first division alone has fine lines
};

/// A bar scale drawn by formula: x along it from its first division, y across from the edge of the fine
/// lines.
struct Bar {
    BarMake make = BarMake::blocks;
    int divisions = 10;  ///< blocks, or spaces between long lines
    int fine = 10;       ///< fine lines a division
    double division_mm = 10.0;
    double fine_mm = 5.0;    ///< length of the fine lines
    double long_mm = 7.5;    ///< of the long lines; blocks are as high as what lies beyond the fine ones
    double thick_mm = 0.25;  ///< of the fine lines; others are half as thick again
    double margin_mm = 4.0;  ///< of the body around what is printed
    double body = 40.0;      ///< grey levels
    double ink = 225.0;
    double table = 200.0;
    bool numerals = true;  ///< seven-segment digits from 0 on
};

/// Photo from millimetres on the bar's face.
[[nodiscard]] PhotoFromObject photo_from_bar(const Bar& bar, const View& view);

/// The picture.
[[nodiscard]] Photo photo_of(const Bar& bar, const View& view);

}  // namespace ridgetally::drawn
