#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/outcome.h"

namespace ridgetally {

/// One record of a CSV file, with the line it begins in, from 1.
struct CsvRow {
    std::vector<std::string> fields;
    std::size_t line = 0;
};

/// Reads comma-separated values (RFC 4180): fields may be quoted, and then hold commas, line ends and doubled
/// quotes. Beyond it, lines may end in LF alone, and a UTF-8 byte order mark may come first. Every record
/// must have as many fields as the first; lines that are empty altogether are passed over. Refusal (stage
/// "record"): bad-csv, with the line.
[[nodiscard]] Outcome<std::vector<CsvRow>> parse_csv(std::string_view text);

/// One record with its line end, CRLF. Fields are quoted where they must be.
[[nodiscard]] std::string csv_line(const std::vector<std::string>& fields);

}  // namespace ridgetally
