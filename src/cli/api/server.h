#pragma once

#include <string>
#include <vector>

#include "cli/api/context.h"
#include "cli/exit_status.h"

/// The web server: the page and the API.
namespace ridgetally::api {

/// Who can connect.
enum class Reach { this_computer, local_network };

struct ServeSettings {
    Reach reach = Reach::this_computer;
    int port = 8737;     ///< unassigned at IANA; 0: any free one
    std::string record;  ///< file; empty for the usual one
    web::WorkerLimits workers;
    web::BodyLimits bodies;
};

/// Everything that is served.
[[nodiscard]] std::vector<web::Route> all_routes(const Context& context);

/// Prints the address, and with the local network a code to scan, and serves until SIGINT or SIGTERM.
[[nodiscard]] ExitStatus serve(const ServeSettings& settings);

}  // namespace ridgetally::api
