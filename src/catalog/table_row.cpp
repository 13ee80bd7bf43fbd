#include "catalog/table_row.h"

#include <algorithm>
#include <sstream>

namespace ridgetally {

TableRow::TableRow(const nlohmann::json& object, std::string where)
    : object_(&object), where_(std::move(where)) {
    if (!object.is_object()) throw TableFault(where_ + ": must be an object");
}

void TableRow::fail(const std::string& field, const std::string& why) const {
    throw TableFault(where_ + ", field " + field + ": " + why);
}

bool TableRow::has(const std::string& field) const { return object_->contains(field); }

const nlohmann::json& TableRow::value(const std::string& field) {
    if (!has(field)) fail(field, "is missing");
    asked_.push_back(field);
    return (*object_)[field];
}

std::string TableRow::text(const std::string& field) {
    const auto& v = value(field);
    if (!v.is_string() || v.get<std::string>().empty()) fail(field, "must be a text that is not empty");
    return v.get<std::string>();
}

std::vector<std::string> TableRow::texts(const std::string& field) {
    const auto& list = value(field);
    if (!list.is_array() || list.empty()) fail(field, "must be a list of texts");
    std::vector<std::string> result;
    for (const auto& v : list) {
        if (!v.is_string() || v.get<std::string>().empty()) fail(field, "must be a list of texts");
        result.push_back(v.get<std::string>());
    }
    return result;
}

double TableRow::checked(const nlohmann::json& v, const std::string& field, double low, double high) const {
    if (!v.is_number() || v.get<double>() < low || v.get<double>() > high) {
        std::ostringstream why;
        why << "must be a number from " << low << " to " << high;
        fail(field, why.str());
    }
    return v.get<double>();
}

double TableRow::number(const std::string& field, double low, double high) {
    return checked(value(field), field, low, high);
}

std::vector<double> TableRow::numbers(const std::string& field, double low, double high) {
    const auto& list = value(field);
    if (!list.is_array() || list.size() < 2) fail(field, "must be a list of at least two numbers");
    std::vector<double> result;
    for (const auto& v : list) result.push_back(checked(v, field, low, high));
    return result;
}

int TableRow::whole(const std::string& field, int low, int high) {
    const auto& v = value(field);
    if (!v.is_number_integer() || v.get<int>() < low || v.get<int>() > high)
        fail(field, "must be a whole number from " + std::to_string(low) + " to " + std::to_string(high));
    return v.get<int>();
}

TableRow TableRow::child(const std::string& field) { return {value(field), where_ + ", " + field}; }

std::vector<TableRow> TableRow::children(const std::string& field) {
    const auto& list = value(field);
    if (!list.is_array()) fail(field, "must be a list");
    std::vector<TableRow> rows;
    for (std::size_t i = 0; i < list.size(); ++i)
        rows.emplace_back(list[i], where_ + ", " + field + " row " + std::to_string(i + 1));
    return rows;
}

void TableRow::call(const std::string& name) { where_ += " (" + name + ")"; }

void TableRow::finish() const {
    for (const auto& [field, _] : object_->items())
        if (std::find(asked_.begin(), asked_.end(), field) == asked_.end()) fail(field, "is not known here");
}

}  // namespace ridgetally
