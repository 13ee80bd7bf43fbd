#include "cli/api/record_routes.h"

#include <array>

#include "cli/api/json_arguments.h"
#include "cli/api/replies.h"
#include "cli/values.h"
#include "cli/yarn_commands.h"
#include "cli/yarn_values.h"
#include "report/yarn_document.h"
#include "report/yarn_plot.h"
#include "yarns/documents.h"
#include "yarns/gauges.h"
#include "yarns/removal.h"
#include "yarns/stock.h"

namespace ridgetally::api {
namespace {

using web::Reply;
using web::Request;
using Work = std::function<Outcome<Reply>(const Record&, const Request&)>;

constexpr std::array find_words = {Word{"gauge", "--gauge"},   Word{"tolerance", "--tolerance"},
                                   Word{"stitch", "--stitch"}, Word{"worked", "--worked"},
                                   Word{"state", "--state"},   Word{"need", "--need"},
                                   Word{"most", "--most"},     Word{"all", "--all", Shape::flag}};

Refusal bad(const std::string& message) { return {"request", "bad-request", message, ""}; }

/// The name in the query; a word that is not there is an empty one, which no yarn has.
std::string name_in(const Request& request) {
    const auto name = request.query.find("name");
    return name == request.query.end() ? "" : name->second;
}

Outcome<YarnDocument> object_in(const Request& request) {
    auto document = parse_document(request.body);
    if (document && !document->is_object()) return bad("the request is no JSON object");
    return document;
}

Outcome<YarnView> view_of(const Record& record, const std::string& name) {
    const auto stored = find_yarn(record, name);
    if (!stored) return stored.refusal();
    const auto measurements = measurements_of(record, name, Reports::read);
    if (!measurements) return measurements.refusal();
    return YarnView{stored->yarn, *measurements};
}

/// One yarn as `yarn show --json` prints it.
Outcome<Reply> show(const Record& record, const std::string& name, int status = 200) {
    const auto view = view_of(record, name);
    if (!view) return view.refusal();
    return json_reply(yarn_view_document(*view), status);
}

Outcome<Reply> list(const Record& record, const Request&) {
    const auto stock = list_yarns(record);
    if (!stock) return stock.refusal();
    return json_reply(stock_document(*stock));
}

Outcome<Reply> add(const Record& record, const Request& request) {
    auto told = object_in(request);
    if (!told) return told.refusal();
    YarnDocument document = std::move(told).value();
    if (!document.contains("added")) document["added"] = today();
    const auto yarn = yarn_from(document);
    if (!yarn) return yarn.refusal();
    if (const auto added = add_yarn(record, *yarn); !added) return added.refusal();
    return show(record, yarn->name, 201);
}

/// What is told changes, null forgets (JSON Merge Patch, RFC 7396).
Outcome<Reply> change(const Record& record, const Request& request) {
    const auto patch = object_in(request);
    if (!patch) return patch.refusal();
    const auto changed = change_yarn(record, name_in(request), [&](const Yarn& yarn) -> Outcome<Yarn> {
        YarnDocument document = yarn_document(yarn);
        document.merge_patch(*patch);
        return yarn_from(document);
    });
    if (!changed) return changed.refusal();
    return show(record, changed->name);
}

Document removal_document(const Removal& removal) {
    Document document = {{"yarn", removal.yarn}};
    if (removal.number) document["number"] = *removal.number;
    return document;
}

Outcome<Reply> remove(const Record& record, const Request& request) {
    const auto removed = remove_yarn(record, name_in(request));
    if (!removed) return removed.refusal();
    return json_reply({{"removed", removal_document(*removed)}});
}

Outcome<Reply> undo(const Record& record, const Request&) {
    const auto back = undo_removal(record);
    if (!back) return back.refusal();
    return json_reply({{"brought_back", removal_document(*back)}});
}

Outcome<Reply> use(const Record& record, const Request& request) {
    constexpr std::array words = {Word{"amount", "--amount"}};
    const auto told = parse_object(request.body);
    if (!told) return told.refusal();
    std::optional<Amount> amount;
    CLI::App command;
    command.add_option_function<std::string>("--amount",
                                             [&](const std::string& text) { amount = values::amount(text); });
    if (const auto refusal = read_options(command, *told, words)) return *refusal;
    if (!amount) return bad("\"amount\": expected what was used, as in \"1 1/2\", \"40g\" or \"95m\"");
    const auto yarn = use_yarn(record, name_in(request), *amount);
    if (!yarn) return yarn.refusal();
    return show(record, yarn->name);
}

Outcome<Reply> find(const Record& record, const Request& request) {
    nlohmann::json told = nlohmann::json::object();
    for (const auto& [key, value] : request.query)
        told[key] = key == "all" ? nlohmann::json(!value.empty()) : nlohmann::json(value);
    GaugeWanted wanted;
    CLI::App command;
    add_find_options(command, wanted);
    if (const auto refusal = read_options(command, told, find_words)) return *refusal;
    const auto matches = find_gauge(record, wanted);
    if (!matches) return matches.refusal();
    return json_reply(matches_document(*matches));
}

Outcome<Reply> plot(const Record& record, const Request& request, const Catalog& catalog) {
    const auto view = view_of(record, name_in(request));
    if (!view) return view.refusal();
    TextOptions options;
    if (const auto units = request.query.find("units"); units != request.query.end())
        options.units = units->second == "in" ? SizeUnit::inch : SizeUnit::cm;
    return Reply{200,
                 "image/svg+xml",
                 svg_of(gauge_plot(view->yarn.name, gauge_by_hook(view->measurements), catalog, options)),
                 {}};
}

/// A route that works on the record, opened for each request: other programs may write to it meanwhile.
web::Route route(const Context& context, const char* method, const std::string& path, Work work) {
    const auto takes = std::string_view(method) == "POST" || std::string_view(method) == "PATCH"
                           ? web::Takes::json
                           : web::Takes::nothing;
    const Access access = std::string_view(method) == "GET" ? Access::look : Access::change;
    return {method, "/api/yarns" + path, takes,
            [&context, access, work = std::move(work)](const Request& request) {
                const auto record = open_record(context.record, access);
                if (!record) return refusal_reply(record.refusal());
                const auto reply = work(*record, request);
                return reply ? *reply : refusal_reply(reply.refusal());
            }};
}

}  // namespace

std::vector<web::Route> record_routes(const Context& context) {
    const auto shown = [](const Record& record, const Request& request) {
        return show(record, name_in(request));
    };
    const auto plotted = [&context](const Record& record, const Request& request) {
        return plot(record, request, context.knowledge.catalog);
    };
    return {route(context, "GET", "", list),
            route(context, "POST", "", add),
            route(context, "GET", "/by-name", shown),
            route(context, "PATCH", "/by-name", change),
            route(context, "DELETE", "/by-name", remove),
            route(context, "POST", "/use", use),
            route(context, "GET", "/find", find),
            route(context, "GET", "/plot.svg", plotted),
            route(context, "POST", "/undo", undo)};
}

}  // namespace ridgetally::api
