#include "cli/save_option.h"

#include "cli/advice_values.h"
#include "cli/yarn_commands.h"
#include "cli/yarn_values.h"
#include "report/one_line.h"
#include "yarns/gauges.h"
#include "yarns/stock.h"

namespace ridgetally {

void add_save_options(CLI::App& command, SaveRequest& request) {
    using Text = const std::string&;
    const std::string group = "Record";
    auto* save = command.add_option_function<std::string>(
        "--save", [&request](Text name) { request.yarn = name; },
        "Save the measurement in the record of yarns, under the yarn of this name (see: ridgetally yarn "
        "--help)");
    save->type_name("NAME")->group(group);
    command
        .add_option_function<std::string>(
            "--hook", [&request](Text text) { request.hook = text; },
            "The hook it was worked on, as in 5.5mm or \"US I-9\"")
        ->type_name("SIZE")
        ->group(group)
        ->needs(save);
    const auto add = [&](const char* name, const char* type, const char* help, auto apply) {
        command.add_option_function<std::string>(name, apply, help)
            ->type_name(type)
            ->group(group)
            ->needs(save);
    };
    add("--state", "STATE", "off-hook, relaxed or washed",
        [&request](Text text) { request.told.state = values::fabric_state(text); });
    add("--mass", "MASS", "Mass of the whole piece, as exactly as your scales say: 12.4g",
        [&request](Text text) {
            request.mass_g = values::weighed_g(text);
            request.told.mass_g = request.mass_g->value;
        });
    add("--day", "DAY", "The day it was measured, as in 2026-11-25 (default: today)",
        [&request](Text text) { request.told.taken = values::day(text); });
    add("--record", "FILE", "The file of the record (default: RIDGETALLY_RECORD, or in the data folder)",
        [&request](Text text) { request.record = text; });
}

Outcome<SaveRequest> ready_to_save(SaveRequest request, const Catalog& catalog) {
    if (!request.yarn) return request;
    if (request.hook) {
        const auto hook = hook_told(*request.hook, catalog);
        if (!hook) return hook.refusal();
        request.told.hook_mm = *hook;
    }
    const auto record = open_record(request.record, Access::change);
    if (!record) return record.refusal();
    const auto yarn = find_yarn(*record, *request.yarn);
    if (!yarn) return yarn.refusal();
    return request;
}

Outcome<std::int64_t> save_document(const SaveRequest& request, Document& document) {
    ToldOfPiece told = request.told;
    if (told.taken.empty()) told.taken = today();
    const auto record = open_record(request.record, Access::change);
    if (!record) return record.refusal();
    const auto measurement = measurement_of_report(document, told);
    if (!measurement) return measurement.refusal();
    auto number = save_measurement(*record, request.yarn.value(), *measurement);
    if (number) document["saved"] = {{"yarn", *request.yarn}, {"number", *number}};
    return number;
}

ExitStatus save_report(const SaveRequest& request, Document& document) {
    if (!request.yarn) return ExitStatus::ok;
    const auto number = save_document(request, document);
    return number ? ExitStatus::ok : tell_refusal(number.refusal());
}

std::string saved_text(const Document& document) {
    const auto saved = document.find("saved");
    if (saved == document.end()) return {};
    return "\nSaved as number " + std::to_string((*saved)["number"].get<std::int64_t>()) + " of \"" +
           one_line((*saved)["yarn"].get<std::string>()) + "\".\n";
}

}  // namespace ridgetally
