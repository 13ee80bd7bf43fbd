#pragma once

#include <vector>

#include "report/document.h"
#include "report/yarn_text.h"

/// The record as JSON: documents of the schema "ridgetally.yarns/1".
namespace ridgetally {

/// `{"schema", "yarns": [{"name", ..., "grams_left", "metres_left", "measured"}]}`: every yarn without its
/// measurements.
[[nodiscard]] Document stock_document(const std::vector<StockLine>& stock);

/// One yarn with its measurements, reports included, and `gauge_by_hook`.
[[nodiscard]] Document yarn_view_document(const YarnView& view);

/// `{"schema", "matches": [...]}`, best first.
[[nodiscard]] Document matches_document(const std::vector<Match>& matches);

/// `{"schema", "yarns": 3, "faults": [...], ...}`.
[[nodiscard]] Document check_document(const RecordCheck& check);

}  // namespace ridgetally
