#pragma once

#include <optional>
#include <set>
#include <string>

#include "web/http.h"

namespace ridgetally::web {

/// Who is let in.
struct Door {
    std::set<std::string> hosts;  ///< "192.168.1.7:8737": what the Host header may say, in lower case
    std::optional<std::string>
        secret;          ///< that every request must bring; none: nobody but this computer can connect
    std::string cookie;  ///< name of the cookie that carries it
};

/// Header that a page of another site cannot send along without being asked first (Fetch standard,
/// CORS-preflight); every request that changes something, and every upload, must carry it.
inline constexpr const char* write_header = "x-ridgetally";

/// "localhost:8737" and the like for each address.
[[nodiscard]] std::set<std::string> hosts_for(const std::set<std::string>& addresses, int port);

/// The answer to a request that is not let in, judged by its head before any body is read; none where it is.
///   400 no-host, 421 wrong-host   another name leads here (DNS rebinding)
///   403 wrong-origin              a page of another site asks (Origin, RFC 6454; Sec-Fetch-Site, Fetch
///   Metadata) 401 no-key                    neither key nor cookie, or a wrong one 403 no-header a change
///   without write_header
/// `GET /?key=SECRET` is answered with the cookie and 303 to "/".
[[nodiscard]] std::optional<Reply> turned_away(const Request& head, const Door& door);

}  // namespace ridgetally::web
