#include <algorithm>
#include <memory>
#include <string>

#include "cli/commands.h"
#include "cli/shared_options.h"
#include "cli/streams.h"
#include "report/facts.h"

namespace ridgetally {
namespace {

constexpr const char* examples = R"(Examples:
  ridgetally facts hooks
  ridgetally facts heads --json
  ridgetally facts yarn-weights)";

struct FactsArguments {
    FactsTopic topic = FactsTopic::hooks;
    Form form = Form::text;
};

FactsTopic topic_from(const std::string& text) {
    const auto at = std::find(facts_topic_keys.begin(), facts_topic_keys.end(), text);
    if (at == facts_topic_keys.end())
        throw CLI::ValidationError("\"" + text +
                                   "\": expected hooks, yarn-weights, heads, stitches or references");
    return static_cast<FactsTopic>(at - facts_topic_keys.begin());
}

ExitStatus run_facts(const FactsArguments& arguments) {
    const auto catalog = load_catalog(models_folder());
    if (!catalog) {
        complain(catalog.refusal().message);
        return status_of(catalog.refusal());
    }
    if (arguments.form == Form::json)
        return write_output(json_text(facts_document(*catalog, arguments.topic)));
    return write_output(tables_text(facts_tables(*catalog, arguments.topic)));
}

}  // namespace

Command add_facts_command(CLI::App& program) {
    auto* command =
        program.add_subcommand("facts", "Print the facts the program works with, with their sources");
    const auto arguments = std::make_shared<FactsArguments>();
    command
        ->add_option_function<std::string>(
            "TOPIC", [arguments](const std::string& text) { arguments->topic = topic_from(text); },
            "hooks, yarn-weights, heads, stitches or references")
        ->required()
        ->type_name("");
    add_json_option(*command, arguments->form);
    command->footer(examples);
    return [arguments] { return run_facts(*arguments); };
}

}  // namespace ridgetally
