#include "web/router.h"

#include <algorithm>
#include <charconv>

#include "core/lower_case.h"

namespace ridgetally::web {
namespace {

std::optional<std::size_t> announced_bytes(const Request& head) {
    const auto text = head.header("content-length");
    std::size_t bytes = 0;
    if (!text) return std::nullopt;
    const auto [end, fault] = std::from_chars(text->data(), text->data() + text->size(), bytes);
    if (fault != std::errc() || end != text->data() + text->size()) return std::nullopt;
    return bytes;
}

/// The media type without its parameters (RFC 9110, section 8.3), in lower case.
std::string media_type(const Request& head) {
    const std::string type = head.header("content-type").value_or("");
    return lower_case(type.substr(0, type.find_first_of("; \t")));
}

Admission refused(Reply reply) { return {std::move(reply), 0, Takes::nothing, nullptr}; }

}  // namespace

Router::Router(std::vector<Route> routes, Door door, const BodyLimits& limits, TellFault tell)
    : routes_(std::move(routes)),
      door_(std::move(door)),
      limits_(limits),
      budget_(limits.all_bytes),
      tell_(std::move(tell)) {}

const Route* Router::find(const std::string& method, const std::string& path) const {
    const std::string asked = method == "HEAD" ? "GET" : method;
    const auto at = std::find_if(routes_.begin(), routes_.end(), [&](const Route& route) {
        return route.method == asked && route.path == path;
    });
    return at == routes_.end() ? nullptr : &*at;
}

Reply Router::no_route(const std::string& path) const {
    std::string allowed;
    for (const auto& route : routes_) {
        if (route.path == path) allowed += (allowed.empty() ? "" : ", ") + route.method;
    }
    if (allowed.empty()) return error_reply(404, "no-such-page", "there is nothing at this address");
    Reply reply = error_reply(405, "wrong-method", "this address is asked in another way");
    reply.headers.emplace_back("Allow", allowed);
    return reply;
}

Admission Router::admit(const Request& head) const {
    if (auto reply = turned_away(head, door_)) return refused(std::move(*reply));
    const Route* route = find(head.method, head.path);
    if (route == nullptr) return refused(no_route(head.path));
    // Bodies come as they are and with their length: nothing is unpacked, nothing is read without knowing how
    // much.
    if (head.headers.contains("transfer-encoding"))
        return refused(error_reply(411, "no-length", "the request must say how long its body is"));
    if (head.headers.contains("content-encoding"))
        return refused(error_reply(415, "wrong-type", "packed bodies are not read"));
    if (route->takes == Takes::nothing) {
        if (head.headers.contains("content-length") && announced_bytes(head) != 0U)
            return refused(error_reply(413, "too-large", "this request has no body"));
        return {};
    }
    // Without a length there is no body (RFC 9112, section 6.3).
    const bool has_body = head.headers.contains("content-length") || route->takes == Takes::form;
    const auto bytes = has_body ? announced_bytes(head) : 0U;
    if (!bytes) return refused(error_reply(411, "no-length", "the request must say how long its body is"));
    const bool form = route->takes == Takes::form;
    if (*bytes == 0 && !form) return {};
    if (media_type(head) != (form ? "multipart/form-data" : json_type))
        return refused(
            error_reply(415, "wrong-type",
                        form ? "expected a form with a photo (multipart/form-data)" : "expected JSON"));
    if (*bytes > (form ? limits_.form_bytes : limits_.json_bytes))
        return refused(error_reply(413, "too-large",
                                   form ? "the photo's file is too large" : "the request is too large"));
    auto lease = budget_.reserve(*bytes);
    if (!lease) return refused(busy_reply("too many photos are on their way; try again in a moment"));
    return {std::nullopt, *bytes, route->takes, std::move(lease)};
}

Reply Router::answer(Request request) const {
    const Route* route = find(request.method, request.path);
    if (route == nullptr) return no_route(request.path);
    try {
        return route->answer(std::move(request));
    } catch (const std::exception& fault) {
        tell_(fault.what());
        return error_reply(500, "fault", "a fault of the program");
    }
}

}  // namespace ridgetally::web
