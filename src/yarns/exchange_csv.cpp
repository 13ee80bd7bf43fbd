#include "yarns/exchange_csv.h"

#include <algorithm>
#include <map>
#include <utility>

#include "yarns/cells.h"
#include "yarns/csv.h"
#include "yarns/exchange.h"
#include "yarns/exchange_json.h"
#include "yarns/fault.h"
#include "yarns/fields.h"
#include "yarns/gauge_rows.h"
#include "yarns/sql/rows.h"
#include "yarns/sql/views.h"
#include "yarns/validate.h"

namespace ridgetally {
namespace {

constexpr const char* yarn_column = "yarn";
constexpr const char* number_column = "number";

Refusal bad_csv(const std::string& what, const std::string& hint) {
    return {record_stage, "bad-csv", what, hint};
}

/// The header line of a sheet: which column holds which field.
using Header = std::map<std::string, std::size_t, std::less<>>;

/// Names of the columns of a sheet of yarns, or of measurements.
std::vector<std::string> yarn_columns() {
    std::vector<std::string> names;
    const Yarn yarn;
    visit_yarn(yarn, [&](std::string_view field, const auto&) { names.emplace_back(field); });
    return names;
}
std::vector<std::string> gauge_columns() {
    std::vector<std::string> names = {yarn_column, number_column};
    const Measurement measurement;
    visit_measurement(measurement, [&](std::string_view field, const auto&) { names.emplace_back(field); });
    return names;
}

Outcome<Header> read_header(const std::vector<std::string>& titles) {
    const bool of_gauges = std::find(titles.begin(), titles.end(), yarn_column) != titles.end();
    const auto known = of_gauges ? gauge_columns() : yarn_columns();
    Header header;
    for (std::size_t i = 0; i < titles.size(); ++i) {
        if (titles.size() == 1 && titles[i].find(';') != std::string::npos)
            return bad_csv("the columns are separated by semicolons",
                           "save the sheet with commas between the columns");
        if (std::find(known.begin(), known.end(), titles[i]) == known.end())
            return bad_csv("there is no column \"" + titles[i] + "\"",
                           "the columns are named as in a sheet that this program exports");
        if (!header.emplace(titles[i], i).second)
            return bad_csv("the column \"" + titles[i] + "\" comes twice", "leave one of them");
    }
    if (!of_gauges && !header.contains("name"))
        return bad_csv("the first line names neither a column \"name\" nor \"yarn\"",
                       "the first line names the columns, as in a sheet that this program exports");
    return header;
}

/// Reads the cells of one line into fields; columns that are not there leave their field as it is.
class Line {
  public:
    Line(const Header& header, const CsvRow& row) : header_(header), row_(row) {}
    template <typename T>
    void operator()(std::string_view field, T& value) {
        const std::string* text = cell(field);
        if (text != nullptr && !read_cell(*text, value)) {
            fault_ =
                bad_csv("line " + std::to_string(row_.line) + ": " + std::string(field) + ": \"" + *text +
                            "\" is not what stands there",
                        "numbers have a decimal point, words are as in a sheet that this program exports");
        }
    }
    [[nodiscard]] const std::string* cell(std::string_view field) const {
        const auto column = header_.find(field);
        return column == header_.end() ? nullptr : &row_.fields[column->second];
    }
    [[nodiscard]] Refusal placed(Refusal refusal) const {
        refusal.message = "line " + std::to_string(row_.line) + ": " + refusal.message;
        return refusal;
    }
    [[nodiscard]] const std::optional<Refusal>& fault() const { return fault_; }

  private:
    const Header& header_;
    const CsvRow& row_;
    std::optional<Refusal> fault_;
};

Outcome<Yarn> yarn_of(const Header& header, const CsvRow& row, Yarn yarn) {
    Line line(header, row);
    visit_yarn(yarn, [&](std::string_view field, auto& value) { line(field, value); });
    if (line.fault()) return *line.fault();
    auto good = checked(std::move(yarn));
    if (!good) return line.placed(good.refusal());
    return good;
}

Outcome<IncomingYarn> incoming_yarn(const Header& header, const CsvRow& row, const std::string& today) {
    const auto make = [header, row, today](const std::optional<Yarn>& before) -> Outcome<Yarn> {
        Yarn yarn = before.value_or(Yarn{});
        if (!before) yarn.added = today;
        Header told = header;
        if (const auto day = told.find("added"); day != told.end() && row.fields[day->second].empty())
            told.erase(day);
        return yarn_of(told, row, std::move(yarn));
    };
    // Tried here, so that a fault is told before anything is changed.
    const auto tried = make(std::nullopt);
    if (!tried) return tried.refusal();
    return IncomingYarn{tried->name, make, {}};
}

Outcome<StoredMeasurement> incoming_measurement(const Header& header, const CsvRow& row,
                                                const std::string& today) {
    StoredMeasurement stored;
    Line line(header, row);
    std::optional<int> number;
    line(number_column, number);
    stored.number = number.value_or(0);
    visit_measurement(stored.measurement, [&](std::string_view field, auto& value) { line(field, value); });
    if (line.fault()) return *line.fault();
    if (stored.measurement.taken.empty()) stored.measurement.taken = today;
    auto good = checked(std::move(stored.measurement));
    if (!good) return line.placed(good.refusal());
    return StoredMeasurement{stored.number, std::move(good).value()};
}

}  // namespace

Outcome<std::string> export_yarns_csv(const Record& record) {
    return guarded(record.path(), [&]() -> Outcome<std::string> {
        std::string csv = csv_line(yarn_columns());
        auto rows = record.database().query("SELECT * FROM present_yarn ORDER BY name");
        while (rows.step()) {
            const Yarn yarn = sql::read_yarn(rows, 1);
            std::vector<std::string> cells;
            visit_yarn(yarn, [&](std::string_view, const auto& value) { cells.push_back(cell_of(value)); });
            csv += csv_line(cells);
        }
        return csv;
    });
}

Outcome<std::string> export_gauges_csv(const Record& record) {
    return guarded(record.path(), [&]() -> Outcome<std::string> {
        std::string csv = csv_line(gauge_columns());
        auto rows = record.database().query(
            "SELECT m.*, y.name FROM present_measurement m JOIN present_yarn y ON y.id = m.yarn "
            "ORDER BY y.name, number");
        while (rows.step()) {
            const Measurement measurement = sql::read_measurement(rows, 2);
            std::vector<std::string> cells = {rows.text(sql::present_measurement_columns), rows.text(0)};
            visit_measurement(measurement,
                              [&](std::string_view, const auto& value) { cells.push_back(cell_of(value)); });
            csv += csv_line(cells);
        }
        return csv;
    });
}

Outcome<std::vector<IncomingYarn>> incoming_from_csv(std::string_view csv, const std::string& today) {
    auto rows = parse_csv(csv);
    if (!rows) return rows.refusal();
    if (rows->empty()) return bad_csv("the file is empty", "the first line names the columns");
    const auto header = read_header(rows->front().fields);
    if (!header) return header.refusal();
    std::vector<IncomingYarn> yarns;
    std::map<std::string, std::size_t> place_of;
    for (std::size_t i = 1; i < rows->size(); ++i) {
        const CsvRow& row = (*rows)[i];
        if (!header->contains(yarn_column)) {
            auto yarn = incoming_yarn(*header, row, today);
            if (!yarn) return yarn.refusal();
            yarns.push_back(std::move(yarn).value());
            continue;
        }
        auto stored = incoming_measurement(*header, row, today);
        if (!stored) return stored.refusal();
        const std::string name = trimmed_name(row.fields[header->at(yarn_column)]);
        const auto [place, is_new] = place_of.emplace(name, yarns.size());
        if (is_new) yarns.push_back({name, {}, {}});
        yarns[place->second].measurements.push_back(std::move(stored).value());
    }
    return yarns;
}

Outcome<std::vector<IncomingYarn>> read_exchange(std::string_view file, const std::string& today) {
    const auto first = file.find_first_not_of(" \t\r\n\xEF\xBB\xBF");
    const bool json = first != std::string_view::npos && file[first] == '{';
    return json ? incoming_from_json(file) : incoming_from_csv(file, today);
}

}  // namespace ridgetally
