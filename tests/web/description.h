#pragma once

#include <nlohmann/json.hpp>
#include <string>

/// The OpenAPI description as a judge of answers.
namespace ridgetally::served {

/// What the server answered.
struct Answer {
    int status = 0;
    std::string type;  ///< media type without parameters
    std::string body;
    std::multimap<std::string, std::string> headers;

    [[nodiscard]] nlohmann::json json() const;
    /// The code of an error's answer.
    [[nodiscard]] std::string error() const;
    [[nodiscard]] std::string header(const std::string& name) const;
};

/// Fails the test where openapi.json does not describe this answer of this path and method, or describes it
/// otherwise. `path` without its query.
void expect_described(const std::string& method, const std::string& path, const Answer& answer);

/// Why the value is not what the schema says; empty where it is. The part of JSON Schema (draft 2020-12) that
/// the description uses: any other keyword is a fault as well.
[[nodiscard]] std::string fault_of(const nlohmann::json& value, const nlohmann::json& schema,
                                   const std::string& where);

/// openapi.json of the source tree.
[[nodiscard]] const nlohmann::json& description();

}  // namespace ridgetally::served
