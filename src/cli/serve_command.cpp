#include <algorithm>
#include <cmath>
#include <memory>
#include <thread>

#include "cli/api/server.h"
#include "cli/commands.h"
#include "cli/streams.h"
#include "cli/values.h"
#include "core/quantity.h"

namespace ridgetally {
namespace {

constexpr const char* examples = R"(Examples:
  ridgetally serve                       (this computer's browser: open the address that is printed)
  ridgetally serve --lan                 (a phone in the same network: point its camera at the code)
  ridgetally serve --lan --port 8737 --record hats.db
  ridgetally serve --port 0 --jobs 2     (any free port, two photos at a time)

The first line printed is the address. Stop it with Ctrl-C. Nobody without the code gets in with --lan, photos are
forgotten once they are measured, and nothing is sent anywhere else.

Exit status: 0 stopped, 2 no network, 64 wrong use, 70 fault of the program, 74 the port is taken.)";

int port_from(const std::string& text) {
    const auto value = parse_number(text);
    constexpr double highest = 65535.0;
    if (!value || !(*value >= 0.0 && *value <= highest) || *value != std::floor(*value))
        throw CLI::ValidationError("\"" + text +
                                   "\": expected a port from 1 to 65535, or 0 for any free one");
    return static_cast<int>(*value);
}

std::chrono::milliseconds seconds_from(const std::string& text) {
    const auto value = parse_number(text);
    constexpr double longest = 3600.0;
    if (!value || !(*value > 0.0) || *value > longest)
        throw CLI::ValidationError("\"" + text + "\": expected seconds, above 0 and up to 3600");
    return std::chrono::milliseconds(std::max(1L, std::lround(1000.0 * *value)));
}

}  // namespace

Command add_serve_command(CLI::App& program) {
    auto* command =
        program.add_subcommand("serve", "Serve the page for the phone: photo, answer, record, plan");
    const auto settings = std::make_shared<api::ServeSettings>();
    settings->workers.jobs = std::max(1U, std::thread::hardware_concurrency());
    using Text = const std::string&;
    const auto add = [&](const char* name, const char* type, const char* help, auto apply) {
        command->add_option_function<std::string>(name, apply, help)->type_name(type);
    };
    add("--port", "N", "Where to listen; 0: any free port (default: 8737)",
        [settings](Text text) { settings->port = port_from(text); });
    command->add_flag_callback(
        "--lan", [settings] { settings->reach = api::Reach::local_network; },
        "Let in phones of the local network that bring the secret of the printed code (default: this "
        "computer only)");
    add("--record", "FILE", "The file of the record (default: RIDGETALLY_RECORD, or in the data folder)",
        [settings](Text text) { settings->record = text; });
    add("--jobs", "N", "Photos measured at the same time (default: one per core)",
        [settings](Text text) { settings->workers.jobs = values::jobs(text); });
    add("--time-limit", "SECONDS", "Longest time for one photo (default: 60)",
        [settings](Text text) { settings->workers.work = seconds_from(text); });
    command->footer(examples);
    return [settings] { return api::serve(*settings); };
}

}  // namespace ridgetally
