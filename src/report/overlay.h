#pragma once

#include <vector>

#include "pipeline/swatch_result.h"
#include "report/draw/canvas.h"

namespace ridgetally {

/// Every ruler mark that was read, from foot to tip, with numbers in centimetres or inches at whole ones.
/// Where no mark lies on a whole centimetre or inch (graduations without a known zero), numbers count from
/// the first mark.
void draw_marks(Canvas& canvas, const ScaleResult& scale);

/// The edge of the measured fabric.
void draw_outline(Canvas& canvas, const std::vector<PhotoPoint>& outline);

/// The ridges of both families, rows in one colour and stitches in another. The first and last of a family
/// and each fifth (tenth where they stand close) carry the number of stitches or rows up to there, where
/// there is room.
void draw_ridges(Canvas& canvas, const Overlay& overlay);

}  // namespace ridgetally
