#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "cli/exit_status.h"
#include "cli/gauge_options.h"
#include "cli/hat_options.h"
#include "cli/hook_options.h"
#include "cli/shared_options.h"
#include "cli/yarn_request.h"
#include "report/hat.h"

/// What hook, hat and yarn-needed were told, and what they answer: shared by the commands and the web API.
namespace ridgetally {

struct HookCommandArguments {
    std::optional<GaugeText> have;
    HookArguments hook;
    SizeUnit units = SizeUnit::cm;
    Form form = Form::text;
};

struct HatArguments {
    GaugeArguments gauge;
    HeadArguments heads;
    int stitches = 0;  ///< of the reverse question; 0: a plan is asked for
    HatRequest request;
    HatOptions output;
    Form form = Form::text;
};

/// Every option but --json.
void add_hook_command_options(CLI::App& command, HookCommandArguments& arguments);
void add_hat_options(CLI::App& command, HatArguments& arguments);
void add_yarn_needed_options(CLI::App& command, YarnNeededArguments& arguments);

/// An answer for programs and for people.
struct CalculatorAnswer {
    Document document;
    std::string text;
};

/// Refusals: those of the advice, of hooks' names and of the record; stage "advice", code "no-gauge" where
/// the hook is to be judged without a gauge.
[[nodiscard]] Outcome<CalculatorAnswer> answer_hook(const HookCommandArguments& arguments,
                                                    const Catalog& catalog);
[[nodiscard]] Outcome<CalculatorAnswer> answer_hat(const HatArguments& arguments, const Catalog& catalog);
[[nodiscard]] Outcome<CalculatorAnswer> answer_yarn_needed(const YarnNeededArguments& arguments,
                                                           const Catalog& catalog);

}  // namespace ridgetally
