#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace ridgetally {

/// A fault in a file of facts; the text says where. Caught by the loader, never seen outside it.
struct TableFault : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// One object of a file of facts, reading fields with checks. Every field must be asked for, by `finish`.
class TableRow {
  public:
    TableRow(const nlohmann::json& object, std::string where);

    [[nodiscard]] std::string text(const std::string& field);                ///< not empty
    [[nodiscard]] std::vector<std::string> texts(const std::string& field);  ///< a list that is not empty
    [[nodiscard]] double number(const std::string& field, double low, double high);
    /// A list of at least two such numbers.
    [[nodiscard]] std::vector<double> numbers(const std::string& field, double low, double high);
    [[nodiscard]] int whole(const std::string& field, int low, int high);
    [[nodiscard]] bool has(const std::string& field) const;
    [[nodiscard]] TableRow child(const std::string& field);
    [[nodiscard]] std::vector<TableRow> children(const std::string& field);
    /// Adds the row's name to what faults say.
    void call(const std::string& name);
    /// Fault at a field.
    [[noreturn]] void fail(const std::string& field, const std::string& why) const;
    /// Faults where a field is left that nobody asked for.
    void finish() const;

  private:
    [[nodiscard]] const nlohmann::json& value(const std::string& field);
    [[nodiscard]] double checked(const nlohmann::json& v, const std::string& field, double low,
                                 double high) const;

    const nlohmann::json* object_;
    std::string where_;
    std::vector<std::string> asked_;
};

}  // namespace ridgetally
