#include "web/page.h"

#include <array>
#include <charconv>
#include <cstdint>
#include <utility>

namespace ridgetally::web {
namespace {

using namespace std::string_view_literals;

constexpr std::array<std::pair<std::string_view, std::string_view>, 9> types = {
    {{".html"sv, "text/html; charset=utf-8"sv},
     {".css"sv, "text/css; charset=utf-8"sv},
     {".js"sv, "text/javascript; charset=utf-8"sv},
     {".mjs"sv, "text/javascript; charset=utf-8"sv},
     {".json"sv, "application/json"sv},
     {".svg"sv, "image/svg+xml"sv},
     {".png"sv, "image/png"sv},
     {".webmanifest"sv, "application/manifest+json"sv},
     {".txt"sv, "text/plain; charset=utf-8"sv}}};

/// FNV-1a, 64 bits (draft-eastlake-fnv): tells versions of a file apart, no more is asked of it.
std::string tag_of(std::span<const unsigned char> bytes) {
    std::uint64_t hash = 0xcbf29ce484222325U;
    for (const unsigned char byte : bytes) hash = (hash ^ byte) * 0x100000001b3U;
    std::array<char, 16> digits{};
    const auto [end, fault] = std::to_chars(digits.data(), digits.data() + digits.size(), hash, 16);
    return "\"" + std::string(digits.data(), fault == std::errc() ? end : digits.data()) + "\"";
}

Route route_of(const PageFile& file) {
    Route route;
    route.method = "GET";
    route.path = file.name == "index.html" ? "/" : "/page/" + std::string(file.name);
    route.answer = [file, tag = tag_of(file.bytes)](const Request& request) {
        Reply reply;
        reply.headers = {{"ETag", tag}, {"Cache-Control", "no-cache"}};
        if (request.header("if-none-match") == tag) {
            reply.status = 304;
            return reply;
        }
        reply.content_type = content_type_of(file.name);
        reply.body.assign(file.bytes.begin(), file.bytes.end());
        return reply;
    };
    return route;
}

}  // namespace

std::string_view content_type_of(std::string_view file_name) {
    for (const auto& [ending, type] : types) {
        if (file_name.ends_with(ending)) return type;
    }
    return "application/octet-stream";
}

std::vector<Route> page_routes(std::span<const PageFile> files) {
    std::vector<Route> routes;
    for (const auto& file : files) routes.push_back(route_of(file));
    return routes;
}

}  // namespace ridgetally::web
