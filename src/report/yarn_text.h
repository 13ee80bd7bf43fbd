#pragma once

#include <string>
#include <vector>

#include "catalog/catalog.h"
#include "report/text.h"
#include "yarns/check.h"
#include "yarns/search.h"
#include "yarns/stock.h"

/// The record for people.
namespace ridgetally {

/// One yarn with everything that was measured of it.
struct YarnView {
    Yarn yarn;
    std::vector<StoredMeasurement> measurements;
};

/// The yarns in stock as a table, one a line.
[[nodiscard]] std::string stock_text(const std::vector<StockLine>& stock, const Catalog& catalog);

/// A yarn in full: what it is, what is left, gauge by hook as table and plot, what washing did, gauge lines.
[[nodiscard]] std::string yarn_text(const YarnView& view, const Catalog& catalog, const TextOptions& options);

/// Which yarns give the gauge, on which hook, and whether there is enough.
[[nodiscard]] std::string matches_text(const std::vector<Match>& matches, const GaugeWanted& wanted,
                                       const Catalog& catalog, const TextOptions& options);

/// "sure", "likely", "possible"; "yes", "no", "not known".
[[nodiscard]] std::string_view word_of(Fit fit);
[[nodiscard]] std::string_view word_of(Sufficiency enough);

/// What the check of a record found.
[[nodiscard]] std::string check_text(const RecordCheck& check, const std::string& file);

}  // namespace ridgetally
