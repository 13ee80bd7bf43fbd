#include "report/table.h"

#include <algorithm>
#include <array>
#include <charconv>

#include "report/figures.h"
#include "report/wrap.h"

namespace ridgetally {
namespace {

std::string text_of(const Cell& cell) {
    if (const auto* text = std::get_if<std::string>(&cell)) return *text;
    if (const auto* number = std::get_if<double>(&cell)) return plain_number(*number);
    return "-";
}

/// What of a table shares one column.
struct ColumnShape {
    std::size_t width = 0;
    bool numbers = true;
};

ColumnShape shape_of(const std::string& heading, const std::vector<std::vector<Cell>>& rows,
                     std::size_t column) {
    ColumnShape shape{columns_of(heading), true};
    for (const auto& row : rows) {
        shape.width = std::max(shape.width, columns_of(text_of(row.at(column))));
        if (std::holds_alternative<std::string>(row[column])) shape.numbers = false;
    }
    return shape;
}

void append_cell(std::string& line, const std::string& text, const ColumnShape& shape) {
    const std::string blanks(shape.width - columns_of(text), ' ');
    line += "  " + (shape.numbers ? blanks + text : text + blanks);
}

std::string finished(std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    return line + "\n";
}

}  // namespace

std::string plain_number(double x) {
    std::array<char, 64> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), rounded(x)).ptr;
    return {text.data(), end};
}

std::string columns_text(const std::vector<std::string>& headings,
                         const std::vector<std::vector<Cell>>& rows) {
    std::vector<ColumnShape> shapes;
    std::string line;
    for (std::size_t c = 0; c < headings.size(); ++c) {
        shapes.push_back(shape_of(headings[c], rows, c));
        append_cell(line, headings[c], shapes.back());
    }
    std::string text = finished(line);
    for (const auto& row : rows) {
        line.clear();
        for (std::size_t c = 0; c < headings.size(); ++c) append_cell(line, text_of(row[c]), shapes[c]);
        text += finished(line);
    }
    return text;
}

std::string tables_text(const std::vector<FactsTable>& tables) {
    std::vector<std::string> sources;
    std::string text;
    for (const auto& table : tables) {
        std::vector<std::string> headings;
        for (const auto& column : table.columns) headings.push_back(column.heading);
        headings.emplace_back("source");
        std::vector<std::vector<Cell>> rows;
        for (const auto& row : table.rows) {
            auto at = std::find(sources.begin(), sources.end(), row.source);
            if (at == sources.end()) at = sources.insert(at, row.source);
            rows.push_back(row.cells);
            rows.back().emplace_back("[" + std::to_string(at - sources.begin() + 1) + "]");
        }
        text += paragraph("", table.title) + columns_text(headings, rows) + "\n";
    }
    text += "Sources:\n";
    for (std::size_t i = 0; i < sources.size(); ++i)
        text += paragraph("  [" + std::to_string(i + 1) + "] ", sources[i]);
    return text;
}

Document tables_document(const std::vector<FactsTable>& tables) {
    Document document;
    for (const auto& table : tables) {
        Document rows = Document::array();
        for (const auto& row : table.rows) {
            Document line;
            for (std::size_t c = 0; c < table.columns.size(); ++c) {
                const std::string& key = table.columns[c].key;
                if (const auto* text = std::get_if<std::string>(&row.cells[c])) line[key] = *text;
                if (const auto* number = std::get_if<double>(&row.cells[c])) line[key] = rounded(*number);
            }
            line["source"] = row.source;
            rows.push_back(line);
        }
        document[table.key] = rows;
    }
    return document;
}

}  // namespace ridgetally
