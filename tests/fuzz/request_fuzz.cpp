#include <array>
#include <string>
#include <vector>

#include "cli/api/json_arguments.h"
#include "fuzz_target.h"
#include "web/router.h"
#include "web/secret.h"

namespace {

using namespace ridgetally;
using namespace ridgetally::web;

constexpr const char* secret = "AAAAAAAAAAAAAAAAAAAAAAAAAAA";

/// Lines, parted by LF; the last one holds whatever is left.
std::vector<std::string> lines_of(std::string_view text, std::size_t most) {
    std::vector<std::string> lines;
    while (lines.size() + 1 < most) {
        const auto end = text.find('\n');
        if (end == std::string_view::npos) break;
        lines.emplace_back(text.substr(0, end));
        text.remove_prefix(end + 1);
    }
    lines.emplace_back(text);
    lines.resize(most);
    return lines;
}

/// A head as a stranger may send it: whoever is let in has named the host and brought the secret.
void knock(const std::vector<std::string>& lines) {
    Request head;
    head.method = lines[0];
    head.path = lines[1];
    if (!lines[2].empty()) head.query.emplace("key", lines[2]);
    const std::array names = {"host", "cookie", "origin", "content-type", "content-length"};
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (!lines[3 + i].empty()) head.headers.emplace(names[i], lines[3 + i]);
    }
    head.headers.emplace(write_header, "1");
    const Door door{{"localhost:8737"}, secret, "ridgetally"};
    const BodyLimits limits{.json_bytes = 1000, .form_bytes = 2000, .all_bytes = 3000};
    const Router router({{"POST", "/api/hat", Takes::json, [](const Request&) { return Reply{}; }},
                         {"POST", "/api/measure/swatch", Takes::form, [](const Request&) { return Reply{}; }},
                         {"GET", "/", Takes::nothing, [](const Request&) { return Reply{}; }}},
                        door, limits, [](const std::string&) {});
    const Admission admission = router.admit(head);
    if (admission.reply) {
        fuzz::require(admission.reply->status >= 300 && admission.reply->status < 600);
        return;
    }
    const auto cookie = cookie_value(lines[4], door.cookie);
    fuzz::require(lines[3].size() == door.hosts.begin()->size() && cookie && *cookie == secret);
    fuzz::require(admission.body_bytes <= limits.form_bytes);
}

/// JSON as the `request` part of a form: arguments of the words that are known, or a refusal.
void read_json(std::string_view text) {
    constexpr std::array words = {api::Word{"want", "--want"},
                                  api::Word{"save", "--save"},
                                  api::Word{"head", "--head", api::Shape::texts},
                                  api::Word{"area_px", "--area", api::Shape::points},
                                  api::Word{"scale", "--scale", api::Shape::scale},
                                  api::Word{"explain", "--explain", api::Shape::flag}};
    const auto object = api::parse_object(text);
    if (!object) return;
    const auto arguments = api::arguments_from(*object, words);
    if (!arguments) {
        fuzz::require(arguments.refusal().code == "bad-request");
        return;
    }
    // Whatever was told, each argument begins with one of the options that are known.
    for (const auto& argument : *arguments) {
        const auto name = argument.substr(0, argument.find('='));
        bool known = false;
        for (const auto& word : words) known = known || word.option == name;
        fuzz::require(known);
    }
}

}  // namespace

/// A request's head as values (eight lines: method, path, key, host, cookie, origin, type, length), then
/// JSON.
int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto lines = lines_of(fuzz::text_of({data, size}), 9);
    knock(lines);
    read_json(lines[8]);
    return 0;
}
