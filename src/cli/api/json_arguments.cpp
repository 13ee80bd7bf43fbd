#include "cli/api/json_arguments.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace ridgetally::api {
namespace {

using nlohmann::json;

/// More corners than a finger drags; a longer list only costs time.
constexpr std::size_t most_points = 1000;

Refusal bad(std::string_view key, const std::string& expected) {
    return {"request", "bad-request", "\"" + std::string(key) + "\": expected " + expected, ""};
}

/// Written out in full, never with an exponent; none for what is no coordinate or figure of a person.
std::optional<std::string> plain(const json& number) {
    if (!number.is_number()) return std::nullopt;
    const double value = number.get<double>();
    constexpr double most = 1e9;
    if (!std::isfinite(value) || std::abs(value) > most) return std::nullopt;
    std::array<char, 400> digits{};
    const auto [end, fault] =
        std::to_chars(digits.data(), digits.data() + digits.size(), value, std::chars_format::fixed);
    if (fault != std::errc()) return std::nullopt;
    return std::string(digits.data(), end);
}

std::optional<std::string> text_of(const json& value) {
    if (value.is_string()) return value.get<std::string>();
    return plain(value);
}

std::optional<std::string> point_of(const json& value) {
    if (!value.is_array() || value.size() != 2) return std::nullopt;
    const auto x = plain(value[0]);
    const auto y = plain(value[1]);
    if (!x || !y) return std::nullopt;
    return *x + "," + *y;
}

Outcome<std::string> points_of(const Word& word, const json& value) {
    if (!value.is_array() || value.size() > most_points)
        return bad(word.key, "a list of points, [[x, y], ...]");
    std::string list;
    for (const auto& one : value) {
        const auto point = point_of(one);
        if (!point) return bad(word.key, "a list of points, [[x, y], ...]");
        list += (list.empty() ? "" : ",") + *point;
    }
    return list;
}

Outcome<std::string> scale_of(const Word& word, const json& value) {
    const char* expected = "{\"from_px\": [x, y], \"to_px\": [x, y], \"length\": \"10cm\"}";
    if (!value.is_object() || value.size() != 3) return bad(word.key, expected);
    const auto from = point_of(value.value("from_px", json()));
    const auto to = point_of(value.value("to_px", json()));
    const auto length = text_of(value.value("length", json()));
    if (!from || !to || !length) return bad(word.key, expected);
    return *from + "," + *to + "," + *length;
}

Outcome<std::string> value_of(const Word& word, const json& value) {
    if (word.shape == Shape::points) return points_of(word, value);
    if (word.shape == Shape::scale) return scale_of(word, value);
    const auto text = text_of(value);
    if (!text) return bad(word.key, "text or a number");
    return *text;
}

bool is_nothing(const json& value) {
    return is_untold(value) || value == false || (value.is_array() && value.empty());
}

Outcome<std::vector<std::string>> arguments_of(const Word& word, const json& value) {
    std::vector<std::string> arguments;
    if (is_nothing(value)) return arguments;
    if (word.shape == Shape::flag) {
        if (value != true) return bad(word.key, "true or false");
        arguments.emplace_back(word.option);
        return arguments;
    }
    const bool several = word.shape == Shape::texts && value.is_array();
    for (const auto& one : several ? value : json::array({value})) {
        const auto text = value_of(word, one);
        if (!text) return text.refusal();
        arguments.push_back(std::string(word.option) + "=" + *text);
    }
    return arguments;
}

/// "--want is required" in the words of a request.
std::string without_dashes(std::string message) {
    for (std::size_t at = 0; (at = message.find("--", at)) != std::string::npos;) message.erase(at, 2);
    return message;
}

}  // namespace

bool is_untold(const json& value) {
    return value.is_null() || (value.is_string() && value.get_ref<const std::string&>().empty());
}

Outcome<std::vector<std::string>> arguments_from(const json& object, std::span<const Word> words) {
    std::vector<std::string> arguments;
    for (const auto& [key, value] : object.items()) {
        const auto word = std::find_if(words.begin(), words.end(),
                                       [&, &name = key](const Word& w) { return w.key == name; });
        if (word == words.end())
            return Refusal{"request", "bad-request", "\"" + key + "\" is not known here", ""};
        const auto more = arguments_of(*word, value);
        if (!more) return more.refusal();
        arguments.insert(arguments.end(), more->begin(), more->end());
    }
    return arguments;
}

std::optional<Refusal> read_options(CLI::App& command, const json& object, std::span<const Word> words) {
    auto arguments = arguments_from(object, words);
    if (!arguments) return arguments.refusal();
    std::vector<std::string> reversed(arguments->rbegin(), arguments->rend());  // as CLI11 takes them
    try {
        command.parse(std::move(reversed));
    } catch (const CLI::ParseError& stop) {
        return Refusal{"request", "bad-request", without_dashes(stop.what()), ""};
    }
    return std::nullopt;
}

Outcome<json> parse_object(std::string_view text) {
    if (text.empty()) return json::object();
    auto object = json::parse(text, nullptr, false);
    if (!object.is_object()) return Refusal{"request", "bad-request", "the request is no JSON object", ""};
    return object;
}

}  // namespace ridgetally::api
