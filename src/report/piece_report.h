#pragma once

#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "advice/crown_checks.h"
#include "pipeline/measure_piece.h"
#include "report/document.h"
#include "report/picture.h"
#include "report/text.h"

namespace ridgetally {

/// The document of `ridgetally piece`.
[[nodiscard]] Document piece_document(const PieceResult& result, const std::vector<CrownCheck>& checks,
                                      const DocumentOptions& options = {});

/// The report for people, lines of at most 80 columns, newline at the end.
[[nodiscard]] std::string piece_text(const PieceResult& result, const std::vector<CrownCheck>& checks,
                                     const Catalog& catalog, const TextOptions& options);

/// The photo with the ruler's marks, the outline and the lines along which width and height were taken.
/// Throws std::invalid_argument as annotated_picture does.
[[nodiscard]] cv::Mat piece_picture(const cv::Mat& photo_bgr, const PieceResult& result,
                                    const PictureOptions& options = {});

}  // namespace ridgetally
