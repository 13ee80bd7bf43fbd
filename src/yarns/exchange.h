#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "yarns/import.h"
#include "yarns/record.h"

/// The record as files for other programs.
namespace ridgetally {

/// The whole record, reports included, as one JSON document. Imported into an empty record and exported again
/// it gives the same bytes. What was removed is left out.
[[nodiscard]] Outcome<std::string> export_json(const Record& record);

/// The yarns, one a line, as CSV with a header line.
[[nodiscard]] Outcome<std::string> export_yarns_csv(const Record& record);

/// The measurements, one a line, as CSV with a header line. Reports are left out.
[[nodiscard]] Outcome<std::string> export_gauges_csv(const Record& record);

/// What a file of one of these three forms holds; which form it is shows in its first character and, of CSV,
/// in its header line. Columns of a CSV file may come in any order, and all but the names may be missing.
/// `today` (ISO 8601) is the day for yarns and measurements without one. Refusals (stage "record"):
/// bad-document, bad-csv, bad-value.
[[nodiscard]] Outcome<std::vector<IncomingYarn>> read_exchange(std::string_view file,
                                                               const std::string& today);

}  // namespace ridgetally
