#pragma once

#include <string>
#include <variant>
#include <vector>

#include "report/document.h"

namespace ridgetally {

/// Nothing, a text or a number.
using Cell = std::variant<std::monostate, std::string, double>;

struct Column {
    std::string key;      ///< in JSON
    std::string heading;  ///< in text
};

struct SourcedRow {
    std::vector<Cell> cells;  ///< one a column
    std::string source;
};

/// A table of facts, every row with its source.
struct FactsTable {
    std::string key;
    std::string title;
    std::vector<Column> columns;
    std::vector<SourcedRow> rows;
};

/// Cells in columns, two blanks apart; texts to the left, columns of numbers alone to the right. Each line is
/// indented by two and ends without blanks.
[[nodiscard]] std::string columns_text(const std::vector<std::string>& headings,
                                       const std::vector<std::vector<Cell>>& rows);

/// The tables one below the other, sources as numbered notes at the end.
[[nodiscard]] std::string tables_text(const std::vector<FactsTable>& tables);

/// `{key: [{column: value, ..., "source"}]}`; cells without a value are absent.
[[nodiscard]] Document tables_document(const std::vector<FactsTable>& tables);

/// A number as short as six significant digits allow: "4", "5.5", "0.886".
[[nodiscard]] std::string plain_number(double x);

}  // namespace ridgetally
