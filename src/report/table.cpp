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

/// A cell as it is printed; worked out once, since a table of stock has tens of thousands.
struct PrintedCell {
    std::string text;
    std::size_t columns = 0;

    explicit PrintedCell(std::string words) : text(std::move(words)), columns(columns_of(text)) {}
};

/// What of a table shares one column.
struct ColumnShape {
    std::size_t width = 0;
    bool numbers = true;
};

std::vector<std::vector<PrintedCell>> printed(const std::vector<std::vector<Cell>>& rows,
                                              std::size_t columns) {
    std::vector<std::vector<PrintedCell>> all(rows.size());
    for (std::size_t r = 0; r < rows.size(); ++r) {
        all[r].reserve(columns);
        for (std::size_t c = 0; c < columns; ++c) all[r].emplace_back(text_of(rows[r].at(c)));
    }
    return all;
}

void append_cell(std::string& line, const PrintedCell& cell, const ColumnShape& shape) {
    const std::size_t blanks = shape.width - cell.columns;
    line += "  ";
    if (shape.numbers) line.append(blanks, ' ');
    line += cell.text;
    if (!shape.numbers) line.append(blanks, ' ');
}

void end_line(std::string& text) {
    text.erase(text.find_last_not_of(' ') + 1);
    text += '\n';
}

}  // namespace

std::string plain_number(double x) {
    std::array<char, 64> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), rounded(x)).ptr;
    return {text.data(), end};
}

std::string columns_text(const std::vector<std::string>& headings,
                         const std::vector<std::vector<Cell>>& rows) {
    const auto cells = printed(rows, headings.size());
    std::vector<ColumnShape> shapes;
    std::string text;
    for (std::size_t c = 0; c < headings.size(); ++c) {
        const PrintedCell heading(headings[c]);
        ColumnShape shape{heading.columns, true};
        for (std::size_t r = 0; r < rows.size(); ++r) {
            shape.width = std::max(shape.width, cells[r][c].columns);
            if (std::holds_alternative<std::string>(rows[r][c])) shape.numbers = false;
        }
        shapes.push_back(shape);
        append_cell(text, heading, shape);
    }
    end_line(text);
    for (const auto& row : cells) {
        for (std::size_t c = 0; c < headings.size(); ++c) append_cell(text, row[c], shapes[c]);
        end_line(text);
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
