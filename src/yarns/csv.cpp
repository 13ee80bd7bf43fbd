#include "yarns/csv.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "yarns/fault.h"

namespace ridgetally {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// Reads one field after the other.
class Reader {
  public:
    explicit Reader(std::string_view text) : text_(text) {
        if (text_.starts_with(byte_order_mark)) at_ = byte_order_mark.size();
    }

    /// False at the end.
    bool pass_empty_lines() {
        while (end_of_line()) {
        }
        return more();
    }
    /// The next record; the fault, if there is one, stands in fault().
    CsvRow row() {
        CsvRow row{{}, line_};
        do row.fields.push_back(field());
        while (!fault_ && skip(','));
        if (!fault_ && more() && !end_of_line()) fault_ = at_line("text after the closing quote");
        return row;
    }
    [[nodiscard]] const std::optional<Refusal>& fault() const { return fault_; }

    static Refusal bad(std::size_t line, const std::string& why) {
        return {record_stage, "bad-csv", "line " + std::to_string(line) + ": " + why,
                "save the sheet as comma-separated values in UTF-8"};
    }

  private:
    [[nodiscard]] bool more() const { return at_ < text_.size(); }
    [[nodiscard]] Refusal at_line(const std::string& why) const { return bad(line_, why); }
    bool skip(char c) {
        if (!more() || text_[at_] != c) return false;
        ++at_;
        return true;
    }
    bool end_of_line() {
        const std::size_t before = at_;
        skip('\r');
        if (skip('\n')) {
            ++line_;
            return true;
        }
        at_ = before;
        return false;
    }
    std::string field() { return skip('"') ? quoted() : plain(); }
    std::string plain() {
        const std::size_t from = at_;
        at_ = std::min(text_.find_first_of(",\r\n\"", from), text_.size());
        if (more() && text_[at_] == '"') fault_ = at_line("a quote inside a field without quotes");
        if (more() && text_[at_] == '\r' && text_.substr(at_, 2) != "\r\n")
            fault_ = at_line("a carriage return without a line feed");
        return std::string(text_.substr(from, at_ - from));
    }
    std::string quoted() {
        const std::size_t began = line_;
        std::string value;
        for (; more(); ++at_) {
            const char c = text_[at_];
            if (c == '\n') ++line_;
            if (c == '"') {
                ++at_;
                if (!more() || text_[at_] != '"') return value;
            }
            value += c;
        }
        fault_ = bad(began, "a quote that is not closed");
        return value;
    }

    std::string_view text_;
    std::size_t at_ = 0;
    std::size_t line_ = 1;
    std::optional<Refusal> fault_;
};

}  // namespace

Outcome<std::vector<CsvRow>> parse_csv(std::string_view text) {
    Reader reader(text);
    std::vector<CsvRow> rows;
    while (reader.pass_empty_lines()) {
        CsvRow row = reader.row();
        if (reader.fault()) return *reader.fault();
        if (!rows.empty() && row.fields.size() != rows[0].fields.size()) {
            return Reader::bad(row.line, std::to_string(row.fields.size()) +
                                             " fields where the first line has " +
                                             std::to_string(rows[0].fields.size()));
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

std::string csv_line(const std::vector<std::string>& fields) {
    std::string line;
    for (const auto& field : fields) {
        if (!line.empty() || &field != &fields.front()) line += ',';
        const bool lone_and_empty = fields.size() == 1 && field.empty();
        if (!lone_and_empty && field.find_first_of(",\"\r\n") == std::string::npos) {
            line += field;
            continue;
        }
        line += '"';
        for (const char c : field) line += c == '"' ? std::string(2, '"') : std::string(1, c);
        line += '"';
    }
    return line + "\r\n";
}

}  // namespace ridgetally
