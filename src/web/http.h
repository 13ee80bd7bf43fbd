#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// Requests and answers of the web server as plain values, apart from the library that reads and writes them.
namespace ridgetally::web {

/// One part of a form ("multipart/form-data", RFC 7578).
struct Part {
    std::string file_name;  ///< as the client named it: a word to show, never a path
    std::string content;
};

struct Request {
    std::string method;
    std::string path;                                 ///< decoded, without the query
    std::map<std::string, std::string> query;         ///< decoded; the first of equal names
    std::multimap<std::string, std::string> headers;  ///< names in lower case
    std::string body;
    std::map<std::string, Part> parts;  ///< of a form, by name
    std::shared_ptr<const void> lease;  ///< keeps the memory for the body reserved while the request lives

    /// The header where it is there exactly once.
    [[nodiscard]] std::optional<std::string> header(std::string_view name) const;
};

using Header = std::pair<std::string, std::string>;

struct Reply {
    int status = 200;
    std::string content_type;
    std::string body;
    std::vector<Header> headers;
};

inline constexpr const char* json_type = "application/json";

/// `{"error": {"code", "message"}}`: what every request that fails is answered with. `code` is a word for
/// programs, `message` one line for people that says nothing about this computer.
[[nodiscard]] Reply error_reply(int status, std::string_view code, std::string_view message);

/// The same for a server that is busy, with Retry-After.
[[nodiscard]] Reply busy_reply(std::string_view message);

/// Where faults of the program are told: never to the client.
using TellFault = std::function<void(const std::string& what)>;

/// Headers that every answer carries: the page may load nothing but its own files and no other site may use,
/// frame or read it (Content Security Policy Level 3, W3C; Fetch standard on Cross-Origin-Resource-Policy).
[[nodiscard]] std::vector<Header> protective_headers();

}  // namespace ridgetally::web
