#pragma once

#include "cli/calculator_commands.h"
#include "cli/deliver.h"
#include "cli/streams.h"

namespace ridgetally {

/// Loads the facts, answers with them and writes what comes of it.
template <typename Arguments>
[[nodiscard]] ExitStatus run_calculator(const char* command, const Arguments& arguments,
                                        Outcome<CalculatorAnswer> (*answer_with)(const Arguments&,
                                                                                 const Catalog&)) {
    const PhotoOfCommand no_photo{command, ""};
    const auto catalog = load_catalog(models_folder());
    if (!catalog) return deliver_refusal(catalog.refusal(), no_photo, arguments.form);
    const auto answer = answer_with(arguments, *catalog);
    if (!answer) return deliver_refusal(answer.refusal(), no_photo, arguments.form);
    return write_output(arguments.form == Form::json ? json_text(answer->document) : answer->text);
}

}  // namespace ridgetally
