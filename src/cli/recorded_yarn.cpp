#include "cli/recorded_yarn.h"

#include <memory>
#include <utility>

#include "cli/streams.h"
#include "cli/values.h"
#include "cli/yarn_commands.h"
#include "cli/yarn_values.h"
#include "report/one_line.h"
#include "yarns/gauges.h"
#include "yarns/stock.h"

namespace ridgetally {

void add_recorded_yarn_options(CLI::App& command, RecordedYarnArguments& arguments) {
    using Text = const std::string&;
    const auto add = [&command](const char* name, const char* type, const char* help, auto apply) {
        if (command.get_option_no_throw(name) != nullptr) return;
        command.add_option_function<std::string>(name, apply, help)->type_name(type)->group("Record");
    };
    add("--yarn", "NAME", "The yarn of this name in your record of yarns (see: ridgetally yarn --help)",
        [&arguments](Text text) { arguments.yarn = text; });
    add("--hook", "SIZE", "On this hook, as in 5.5mm or \"US I-9\"",
        [&arguments](Text text) { arguments.hook = text; });
    add("--stitch", "FAMILY", "In this stitch, in US terms: sc, sc-blo, sc-flo, hdc, hdc-blo, dc or tr",
        [&arguments](Text text) { arguments.told.stitch = values::stitch(text); });
    add("--worked", "flat|round", "Turned at the end of every row, or in rounds",
        [&arguments](Text text) { arguments.told.worked = values::worked(text); });
    add("--state", "STATE",
        "off-hook, relaxed or washed (of the record: washed where there is such a swatch)",
        [&arguments](Text text) { arguments.told.state = values::fabric_state(text); });
    add("--record", "FILE", "The file of the record (default: RIDGETALLY_RECORD, or in the data folder)",
        [&arguments](Text text) { arguments.record = text; });
}

Outcome<RecordedYarn> recorded_yarn(const RecordedYarnArguments& arguments, const Catalog& catalog) {
    RecordedYarn found;
    found.choice.told = arguments.told;
    if (arguments.hook) {
        const auto hook = hook_told(*arguments.hook, catalog);
        if (!hook) return hook.refusal();
        found.choice.told.hook_mm = *hook;
    }
    const auto record = open_record(arguments.record, Access::look);
    if (!record) return record.refusal();
    const auto stored = find_yarn(*record, arguments.yarn.value());
    if (!stored) return stored.refusal();
    auto measurements = measurements_of(*record, *arguments.yarn, Reports::read);
    if (!measurements) return measurements.refusal();
    found.yarn = stored->yarn;
    found.measurements = std::move(measurements).value();
    return found;
}

Outcome<MakersRecord> MakersRecord::open(const RecordedYarnArguments& arguments) {
    MakersRecord makers;
    if (!arguments.yarn && arguments.record.empty() && !usual_record_file()) return makers;
    auto record = open_record(arguments.record, Access::look);
    if (!record) {
        if (arguments.yarn) return record.refusal();
        complain("the record of yarns was left out: " + one_line(record.refusal().message));
        return makers;
    }
    if (arguments.yarn) {
        const auto yarn = find_yarn(*record, *arguments.yarn);
        if (!yarn) return yarn.refusal();
    }
    makers.record_ = std::make_shared<const Record>(std::move(record).value());
    makers.yarn_ = arguments.yarn;
    return makers;
}

HookRecord MakersRecord::learned(const SwatchJudged& judged) const {
    if (!record_) return {};
    const auto learned = hook_record(*record_, yarn_, judged);
    if (learned) return *learned;
    complain("the record of yarns was left out: " + one_line(learned.refusal().message));
    return {};
}

}  // namespace ridgetally
