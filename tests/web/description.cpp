#include "web/description.h"

#include <gtest/gtest.h>

#include <fstream>
#include <set>

namespace ridgetally::served {
namespace {

using nlohmann::json;

const json& resolved(const json& node) {
    const auto ref = node.find("$ref");
    if (ref == node.end()) return node;
    return resolved(description().at(json::json_pointer(ref->get<std::string>().substr(1))));
}

bool is_of_type(const json& value, const std::string& type) {
    if (type == "string") return value.is_string();
    if (type == "number") return value.is_number();
    if (type == "integer") return value.is_number_integer();
    if (type == "boolean") return value.is_boolean();
    if (type == "array") return value.is_array();
    if (type == "object") return value.is_object();
    return type == "null" && value.is_null();
}

std::string fault_of_type(const json& value, const json& type) {
    const json types = type.is_array() ? type : json::array({type});
    for (const auto& one : types) {
        if (is_of_type(value, one.get<std::string>())) return "";
    }
    return "is not of type " + type.dump();
}

std::string fault_of_object(const json& value, const json& schema, const std::string& where) {
    for (const auto& key : schema.value("required", json::array())) {
        if (!value.contains(key.get<std::string>())) return where + " lacks " + key.dump();
    }
    const json properties = schema.value("properties", json::object());
    for (const auto& [key, member] : value.items()) {
        const auto known = properties.find(key);
        if (known != properties.end()) {
            if (auto fault = fault_of(member, *known, where + "." + key); !fault.empty()) return fault;
        } else if (schema.value("additionalProperties", true) == false) {
            return where + " has the undescribed key " + key;
        }
    }
    return "";
}

std::string fault_of_array(const json& value, const json& schema, const std::string& where) {
    if (value.size() < schema.value("minItems", std::size_t{0})) return where + " has too few items";
    if (value.size() > schema.value("maxItems", value.size())) return where + " has too many items";
    if (!schema.contains("items")) return "";
    for (std::size_t i = 0; i < value.size(); ++i) {
        if (auto fault = fault_of(value[i], schema["items"], where + "[" + std::to_string(i) + "]");
            !fault.empty())
            return fault;
    }
    return "";
}

/// The described path that this one is an instance of.
const json* described_path(const std::string& path) {
    const json& paths = description().at("paths");
    if (const auto exact = paths.find(path); exact != paths.end()) return &*exact;
    return path.starts_with("/page/") ? &paths.at("/page/{name}") : nullptr;
}

std::string lower(std::string text) {
    for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return text;
}

}  // namespace

json Answer::json() const {
    auto document = json::parse(body, nullptr, false);
    EXPECT_FALSE(document.is_discarded()) << status << " is no JSON: " << body.substr(0, 200);
    return document.is_discarded() ? json::object() : document;
}

std::string Answer::error() const { return json().value("/error/code"_json_pointer, ""); }

std::string Answer::header(const std::string& name) const {
    const auto at = headers.find(name);
    return at == headers.end() ? "" : at->second;
}

const json& description() {
    static const json document =
        json::parse(std::ifstream(std::string(RIDGETALLY_SOURCE_DIR) + "/src/cli/api/openapi.json"));
    return document;
}

std::string fault_of(const json& value, const json& told, const std::string& where) {
    static const std::set<std::string> known = {"type",     "properties",  "required", "additionalProperties",
                                                "items",    "enum",        "const",    "minItems",
                                                "maxItems", "description", "$ref"};
    const json& schema = resolved(told);
    for (const auto& [keyword, ignored] : schema.items()) {
        if (!known.contains(keyword)) return where + ": the checker does not know " + keyword;
    }
    if (schema.contains("const") && value != schema["const"])
        return where + " is not " + schema["const"].dump();
    if (schema.contains("enum")) {
        const json& words = schema["enum"];
        if (std::find(words.begin(), words.end(), value) == words.end())
            return where + " is none of " + words.dump() + " but " + value.dump();
    }
    if (schema.contains("type")) {
        if (const auto fault = fault_of_type(value, schema["type"]); !fault.empty())
            return where + " " + fault;
    }
    if (value.is_object()) return fault_of_object(value, schema, where);
    if (value.is_array()) return fault_of_array(value, schema, where);
    return "";
}

void expect_described(const std::string& method, const std::string& path, const Answer& answer) {
    const json* operations = described_path(path);
    if (operations == nullptr) {
        EXPECT_EQ(answer.status, 404) << path << " is served and not described";
        return;
    }
    const auto operation = operations->find(lower(method));
    if (operation == operations->end()) {
        EXPECT_EQ(answer.status, 405) << method << " " << path << " is served and not described";
        return;
    }
    const json& responses = operation->at("responses");
    const auto response = responses.find(std::to_string(answer.status));
    ASSERT_NE(response, responses.end()) << method << " " << path << ": " << answer.status
                                         << " is not described: " << answer.body.substr(0, 300);
    const json content = resolved(*response).value("content", json::object());
    if (content.empty()) return;
    const auto described = content.find(answer.type);
    ASSERT_NE(described, content.end())
        << method << " " << path << ": " << answer.type << " is not described";
    const json value = answer.type == "application/json" ? answer.json() : json(answer.body);
    EXPECT_EQ(fault_of(value, described->at("schema"), "answer"), "")
        << method << " " << path << " " << answer.status;
}

}  // namespace ridgetally::served
