#include "web/door.h"

#include <algorithm>

#include "core/lower_case.h"
#include "web/secret.h"

namespace ridgetally::web {
namespace {

bool changes_something(const Request& head) { return head.method != "GET" && head.method != "HEAD"; }

std::optional<Reply> wrong_host(const Request& head, const Door& door) {
    const auto host = head.header("host");
    if (!host) return error_reply(400, "no-host", "the request does not say whom it is for");
    if (door.hosts.contains(lower_case(*host))) return std::nullopt;
    return error_reply(421, "wrong-host",
                       "nothing is served under this name; use the address that was printed");
}

std::optional<Reply> wrong_origin(const Request& head) {
    const Reply refused = error_reply(403, "wrong-origin", "pages of other sites may not use this server");
    if (head.headers.contains("origin")) {
        const auto origin = head.header("origin");
        if (!origin || lower_case(*origin) != "http://" + lower_case(*head.header("host"))) return refused;
    }
    const auto site = head.header("sec-fetch-site");
    // A link or a QR code may lead to the page; nothing else may come from elsewhere.
    if (site && *site != "same-origin" && *site != "none" && (changes_something(head) || head.path != "/"))
        return refused;
    return std::nullopt;
}

Reply no_key() {
    return {
        401,
        "text/html; charset=utf-8",
        "<!DOCTYPE html>\n<html lang=\"en\"><meta charset=\"utf-8\"><title>Ridgetally</title>\n"
        "<p>Open this page with the QR code, or the address, that ridgetally serve has printed.</p></html>\n",
        {}};
}

std::optional<Reply> wrong_key(const Request& head, const Door& door) {
    if (!door.secret) return std::nullopt;
    const auto key = head.query.find("key");
    if (head.path == "/" && key != head.query.end()) {
        if (!same_secret(key->second, *door.secret)) return no_key();
        return Reply{
            303,
            "",
            "",
            {{"Location", "/"},
             {"Set-Cookie", door.cookie + "=" + *door.secret + "; Path=/; HttpOnly; SameSite=Strict"}}};
    }
    const auto cookies = head.header("cookie");
    const auto told = cookies ? cookie_value(*cookies, door.cookie) : std::nullopt;
    if (told && same_secret(*told, *door.secret)) return std::nullopt;
    if (head.path.starts_with("/api/") || changes_something(head))
        return error_reply(401, "no-key",
                           "open the page again with the QR code or the address that was printed");
    return no_key();
}

}  // namespace

std::set<std::string> hosts_for(const std::set<std::string>& addresses, int port) {
    std::set<std::string> hosts;
    constexpr int http_port = 80;
    for (const auto& address : addresses) {
        hosts.insert(lower_case(address) + ":" + std::to_string(port));
        if (port == http_port) hosts.insert(lower_case(address));
    }
    return hosts;
}

std::optional<Reply> turned_away(const Request& head, const Door& door) {
    if (auto refused = wrong_host(head, door)) return refused;
    if (auto refused = wrong_origin(head)) return refused;
    if (auto refused = wrong_key(head, door)) return refused;
    if (changes_something(head) && head.header(write_header) != "1")
        return error_reply(403, "no-header",
                           "requests that change something carry the header X-Ridgetally: 1");
    return std::nullopt;
}

}  // namespace ridgetally::web
