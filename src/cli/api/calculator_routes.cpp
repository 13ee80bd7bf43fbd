#include "cli/api/calculator_routes.h"

#include <algorithm>
#include <array>
#include <span>

#include "cli/api/json_arguments.h"
#include "cli/api/replies.h"
#include "cli/calculator_commands.h"

namespace ridgetally::api {
namespace {

/// Several lists of words as one.
template <std::size_t... Counts>
constexpr auto joined(const std::array<Word, Counts>&... lists) {
    std::array<Word, (Counts + ...)> all{};
    auto to = all.begin();
    ((to = std::copy(lists.begin(), lists.end(), to)), ...);
    return all;
}

constexpr std::array recorded_words = {Word{"yarn", "--yarn"}, Word{"hook", "--hook"},
                                       Word{"stitch", "--stitch"}, Word{"worked", "--worked"},
                                       Word{"state", "--state"}};

constexpr std::array head_words = {Word{"head", "--head", Shape::texts}, Word{"age", "--age", Shape::texts},
                                   Word{"size", "--size", Shape::texts}, Word{"ease", "--ease"},
                                   Word{"height", "--height"},           Word{"turn_up", "--turn-up"}};

constexpr std::array answer_words = {Word{"units", "--units"}, Word{"why", "--why", Shape::flag}};

constexpr auto hook_words =
    joined(recorded_words, answer_words,
           std::array{Word{"have", "--have"}, Word{"want", "--want"}, Word{"per", "--per"},
                      Word{"hooks", "--hooks"}, Word{"tolerance", "--tolerance"}, Word{"piece", "--piece"},
                      Word{"yarn_weight", "--yarn-weight"}});

constexpr auto hat_words =
    joined(recorded_words, head_words, answer_words,
           std::array{Word{"gauge", "--gauge"}, Word{"per", "--per"}, Word{"multiple", "--multiple"},
                      Word{"increase", "--increase"}, Word{"brim", "--brim"}, Word{"stitches", "--stitches"},
                      Word{"terms", "--terms"}});

constexpr auto yarn_needed_words =
    joined(recorded_words, head_words, answer_words,
           std::array{Word{"swatch_mass", "--swatch-mass"}, Word{"swatch_area", "--swatch-area"},
                      Word{"used", "--used"}, Word{"like", "--like"}, Word{"area", "--area"},
                      Word{"count", "--count"}, Word{"ball", "--ball"}, Word{"stock", "--stock"},
                      Word{"margin", "--margin"}});

/// Where each keeps what it may read from the record.
RecordedYarnArguments& recorded(HookCommandArguments& arguments) { return arguments.hook.recorded; }
RecordedYarnArguments& recorded(HatArguments& arguments) { return arguments.gauge.recorded; }
RecordedYarnArguments& recorded(YarnNeededArguments& arguments) { return arguments.recorded; }

template <typename Arguments>
web::Route route(const Context& context, const std::string& name, std::span<const Word> words,
                 void (*add_options)(CLI::App&, Arguments&),
                 Outcome<CalculatorAnswer> (*answer_with)(const Arguments&, const Catalog&)) {
    const auto answer = [=, &context](const web::Request& request) {
        const auto told = parse_object(request.body);
        if (!told) return refusal_reply(told.refusal());
        Arguments arguments;
        CLI::App command;
        add_options(command, arguments);
        if (const auto refusal = read_options(command, *told, words)) return refusal_reply(*refusal);
        recorded(arguments).record = context.record;
        const auto answered = answer_with(arguments, context.knowledge.catalog);
        if (!answered) return refusal_reply(answered.refusal());
        return json_reply({{"document", answered->document}, {"text", answered->text}});
    };
    return {"POST", "/api/" + name, web::Takes::json, answer};
}

}  // namespace

std::vector<web::Route> calculator_routes(const Context& context) {
    return {route<HookCommandArguments>(context, "hook", hook_words, add_hook_command_options, answer_hook),
            route<HatArguments>(context, "hat", hat_words, add_hat_options, answer_hat),
            route<YarnNeededArguments>(context, "yarn-needed", yarn_needed_words, add_yarn_needed_options,
                                       answer_yarn_needed)};
}

}  // namespace ridgetally::api
