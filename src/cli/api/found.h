#pragma once

#include "pipeline/crown_result.h"
#include "pipeline/measure_piece.h"
#include "report/document.h"

namespace ridgetally::api {

/// Where things were found, in pixels of the upright photo: the places from which a maker corrects them by
/// hand. Each is left out where there is none: `ruler_px` (first and last mark read), `outline_px` (of what
/// was measured), `row_px` (ends of the row in the middle).
[[nodiscard]] Document found_document(const SwatchResult& result);
[[nodiscard]] Document found_document(const CrownResult& result);
[[nodiscard]] Document found_document(const PieceResult& result);

}  // namespace ridgetally::api
