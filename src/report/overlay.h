#pragma once

#include <vector>

#include "pipeline/swatch_result.h"
#include "report/draw/canvas.h"

namespace ridgetally {

/// Every ruler mark that was read, from foot to tip. Centimetres or inches are numbered from the first whole
/// one seen: what the ruler itself prints there is not read.
void draw_marks(Canvas& canvas, const ScaleResult& scale);

/// The edge of the measured fabric.
void draw_outline(Canvas& canvas, const std::vector<PhotoPoint>& outline);

/// The ridges of both families, rows in one colour and stitches in another. The first and last of a family
/// and each fifth (tenth where they stand close) carry the number of stitches or rows up to there, where
/// there is room.
void draw_ridges(Canvas& canvas, const Overlay& overlay);

}  // namespace ridgetally
