#include "web/http.h"

#include <nlohmann/json.hpp>

namespace ridgetally::web {

std::optional<std::string> Request::header(std::string_view name) const {
    const auto [first, last] = headers.equal_range(std::string(name));
    if (first == last || std::next(first) != last) return std::nullopt;
    return first->second;
}

Reply error_reply(int status, std::string_view code, std::string_view message) {
    const nlohmann::ordered_json document = {{"error", {{"code", code}, {"message", message}}}};
    return {
        status, json_type, document.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n", {}};
}

Reply busy_reply(std::string_view message) {
    Reply reply = error_reply(503, "busy", message);
    reply.headers.emplace_back("Retry-After", "10");
    return reply;
}

std::vector<Header> protective_headers() {
    return {{"Content-Security-Policy",
             "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
             "connect-src 'self'; form-action 'none'; frame-ancestors 'none'; base-uri 'none'"},
            {"X-Content-Type-Options", "nosniff"},
            {"Referrer-Policy", "no-referrer"},
            {"Cross-Origin-Opener-Policy", "same-origin"},
            {"Cross-Origin-Resource-Policy", "same-origin"}};
}

}  // namespace ridgetally::web
