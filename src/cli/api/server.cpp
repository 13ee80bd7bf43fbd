#include "cli/api/server.h"

#include <algorithm>
#include <opencv2/core/utility.hpp>
#include <set>

#include "cli/api/calculator_routes.h"
#include "cli/api/choices.h"
#include "cli/api/measure_routes.h"
#include "cli/api/openapi.h"
#include "cli/api/record_routes.h"
#include "cli/api/replies.h"
#include "cli/end_signals.h"
#include "cli/streams.h"
#include "web/addresses.h"
#include "web/page.h"
#include "web/secret.h"
#include "web/transport.h"

namespace ridgetally::api {
namespace {

/// What a photo may be here: phones reach 50 megapixels, and each takes 3 bytes a pixel several times over.
constexpr double most_megapixels = 64.0;

/// A cookie belongs to a name and not to a port: servers on other ports keep theirs.
std::string cookie_name(int port) { return "ridgetally-" + std::to_string(port); }

struct Place {
    std::vector<std::string> addresses;  ///< to be shown, the likeliest first
    std::string listen;                  ///< to listen on
};

std::optional<Place> place_of(Reach reach) {
    if (reach == Reach::this_computer) return Place{{"127.0.0.1"}, "127.0.0.1"};
    auto addresses = web::network_addresses();
    if (addresses.empty()) return std::nullopt;
    return Place{std::move(addresses), "0.0.0.0"};
}

web::Door door_of(const Place& place, const ServeSettings& settings, int port) {
    web::Door door;
    std::set<std::string> names = {"localhost", "127.0.0.1"};
    names.insert(place.addresses.begin(), place.addresses.end());
    door.hosts = web::hosts_for(names, port);
    if (settings.reach == Reach::local_network) door.secret = web::new_secret();
    door.cookie = cookie_name(port);
    return door;
}

/// The address alone on the first line: programs read it.
std::string greeting(const Place& place, const web::Door& door, int port, const web::WebLibrary& library) {
    const auto url = [&](const std::string& address) {
        return "http://" + address + ":" + std::to_string(port) + "/" +
               (door.secret ? "?key=" + *door.secret : "");
    };
    std::string text = url(place.addresses.front()) + "\n";
    if (!door.secret) return text;
    text += "\n" + library.qr_code(url(place.addresses.front())) + "\n";
    text +=
        "Point the phone's camera at the code, or type the address. Who has it can use this page until you "
        "stop it.\n";
    for (std::size_t i = 1; i < place.addresses.size(); ++i)
        text += "Also at " + url(place.addresses[i]) + "\n";
    return text;
}

web::Route health_route() {
    return {"GET", "/health", web::Takes::nothing, [](const web::Request&) {
                return json_reply({{"status", "ok"}});
            }};
}

web::Route choices_route(const Context& context) {
    return {"GET", "/api/choices", web::Takes::nothing,
            [&context](const web::Request&) { return json_reply(choices_document(context)); }};
}

ExitStatus serve_at(const Place& place, const ServeSettings& settings, const Knowledge& knowledge,
                    EndSignals& signals) {
    const web::WebLibrary* library = web::load_web_library();
    if (library == nullptr) {
        complain("libridgetally_web.so is missing beside the program; build or install it again");
        return ExitStatus::internal;
    }
    const auto transport = library->make_transport({});
    const auto port = transport->bind(place.listen, settings.port);
    if (!port) {
        complain("port " + std::to_string(settings.port) + " cannot be had; name another one with --port");
        return ExitStatus::io;
    }
    const web::TellFault tell = [](const std::string& what) { complain("fault of the program: " + what); };
    web::Workers workers(settings.workers, tell);
    if (settings.workers.jobs > 1) cv::setNumThreads(1);  // the photos keep the cores busy
    Context context{knowledge, workers, settings.record, {}};
    context.photo.max_megapixels = most_megapixels;
    context.photo.max_file_bytes = settings.bodies.form_bytes;
    const web::Door door = door_of(place, settings, *port);
    const web::Router router(all_routes(context), door, settings.bodies, tell);
    if (const auto written = write_output(greeting(place, door, *port, *library)); written != ExitStatus::ok)
        return written;
    signals.call([&](int /*signal*/) {
        workers.stop();
        transport->stop();
    });
    transport->serve(router);
    workers.finish();  // a photo that took too long may still be in work
    return ExitStatus::ok;
}

}  // namespace

std::vector<web::Route> all_routes(const Context& context) {
    auto routes = web::page_routes(web::page_files());
    routes.push_back(health_route());
    routes.push_back(choices_route(context));
    for (auto& route : web::page_routes(description_files())) {
        route.path = "/openapi.json";
        routes.push_back(std::move(route));
    }
    for (const auto& more : {measure_routes(context), record_routes(context), calculator_routes(context)})
        routes.insert(routes.end(), more.begin(), more.end());
    return routes;
}

ExitStatus serve(const ServeSettings& settings) {
    EndSignals signals;
    const auto knowledge = load_knowledge();
    if (!knowledge) {
        complain(knowledge.refusal().message);
        return status_of(knowledge.refusal());
    }
    const auto place = place_of(settings.reach);
    if (!place) {
        complain("this computer is in no network; without --lan the page is there for this computer alone");
        return ExitStatus::refused;
    }
    return serve_at(*place, settings, *knowledge, signals);
}

}  // namespace ridgetally::api
