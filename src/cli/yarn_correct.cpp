#include <memory>
#include <optional>
#include <vector>

#include "cli/streams.h"
#include "cli/values.h"
#include "cli/yarn_commands.h"
#include "cli/yarn_values.h"
#include "report/one_line.h"
#include "yarns/gauges.h"
#include "yarns/removal.h"

namespace ridgetally {
namespace {

struct CorrectArguments {
    std::string record;
    std::int64_t number = 0;
    std::optional<std::string> hook;  ///< as typed: marks need the catalogue
    std::vector<std::function<void(Measurement&)>> changes;
};

ExitStatus run_correct(const CorrectArguments& arguments) {
    if (arguments.changes.empty() && !arguments.hook) {
        complain("yarn correct: nothing to change was told (see ridgetally yarn correct --help)");
        return ExitStatus::usage;
    }
    std::optional<double> hook_mm;
    if (arguments.hook) {
        const auto catalog = load_catalog(models_folder());
        if (!catalog) return tell_refusal(catalog.refusal());
        const auto hook = hook_told(*arguments.hook, *catalog);
        if (!hook) return tell_refusal(hook.refusal());
        hook_mm = *hook;
    }
    return with_record(arguments.record, Access::change, [&](const Record& record) -> Outcome<ExitStatus> {
        const auto changed =
            change_measurement(record, arguments.number, [&](Measurement m) -> Outcome<Measurement> {
                for (const auto& change : arguments.changes) change(m);
                if (hook_mm) m.hook_mm = hook_mm;
                return m;
            });
        if (!changed) return changed.refusal();
        return write_output("Corrected number " + std::to_string(arguments.number) + "\n");
    });
}

void add_correct_options(CLI::App& command, CorrectArguments& arguments) {
    using Text = const std::string&;
    // Each option reads its value while the arguments are read, so that a wrong one is told as wrong use.
    const auto add = [&](const char* name, const char* type, const char* help, auto read, auto field) {
        command
            .add_option_function<std::string>(
                name,
                [&arguments, read, field](Text text) {
                    const auto value = read(text);
                    arguments.changes.push_back([value, field](Measurement& m) { m.*field = value; });
                },
                help)
            ->type_name(type)
            ->group("Measurement");
    };
    command
        .add_option_function<std::string>(
            "--hook", [&arguments](Text text) { arguments.hook = text; },
            "The hook it was worked on, as in 5.5mm or \"US I-9\"")
        ->type_name("SIZE")
        ->group("Measurement");
    add("--stitch", "FAMILY", "The stitch, in US terms: sc, sc-blo, hdc, dc, ...", values::stitch,
        &Measurement::stitch);
    add("--worked", "flat|round", "Turned, or in rounds", values::worked, &Measurement::worked);
    add("--state", "STATE", "off-hook, relaxed or washed", values::fabric_state, &Measurement::state);
    add("--mass", "MASS", "Mass of the piece, as in 12g", values::mass_g, &Measurement::mass_g);
    add("--day", "DAY", "The day it was measured, as in 2026-11-25", values::day, &Measurement::taken);
    add_record_option(command, arguments.record);
}

struct RemoveArguments {
    std::string record;
    std::string name;
    std::optional<std::int64_t> number;
};

std::string named(const Removal& removal) {
    const std::string yarn = "\"" + one_line(removal.yarn) + "\"";
    return removal.number ? "number " + std::to_string(*removal.number) + " of " + yarn : yarn;
}

ExitStatus run_remove(const RemoveArguments& arguments) {
    if (arguments.name.empty() != arguments.number.has_value()) {
        complain("yarn remove: give the NAME of a yarn, or --number of one measurement");
        return ExitStatus::usage;
    }
    return with_record(arguments.record, Access::change, [&](const Record& record) -> Outcome<ExitStatus> {
        const auto removed = arguments.number ? remove_measurement(record, *arguments.number)
                                              : remove_yarn(record, arguments.name);
        if (!removed) return removed.refusal();
        return write_output("Removed " + named(*removed) + "; bring it back with: ridgetally yarn undo\n");
    });
}

ExitStatus run_undo(const std::string& file) {
    return with_record(file, Access::change, [](const Record& record) -> Outcome<ExitStatus> {
        const auto back = undo_removal(record);
        if (!back) return back.refusal();
        return write_output("Brought back " + named(*back) + "\n");
    });
}

}  // namespace

void add_correction_commands(CLI::App& yarn, CommandsByName& commands) {
    const auto correcting = std::make_shared<CorrectArguments>();
    auto* correct = yarn.add_subcommand("correct", "Correct what was told of a measurement");
    correct
        ->add_option_function<std::string>(
            "NUMBER", [correcting](const std::string& text) { correcting->number = values::number(text); },
            "Number of the measurement")
        ->required()
        ->type_name("");
    add_correct_options(*correct, *correcting);
    correct->footer("Example:\n  ridgetally yarn correct 12 --hook 5mm --state washed --mass 14g");
    commands["correct"] = [correcting] { return run_correct(*correcting); };

    const auto removing = std::make_shared<RemoveArguments>();
    auto* remove = yarn.add_subcommand("remove", "Take a yarn, or one measurement, out of the record");
    remove->add_option("NAME", removing->name, "Name of the yarn")->type_name("");
    remove
        ->add_option_function<std::string>(
            "--number", [removing](const std::string& text) { removing->number = values::number(text); },
            "Only the measurement of this number")
        ->type_name("N");
    add_record_option(*remove, removing->record);
    remove->footer(
        "Examples:\n  ridgetally yarn remove \"Oddmere Four, Cream\"\n  ridgetally yarn remove --number 12");
    commands["remove"] = [removing] { return run_remove(*removing); };

    const auto file = std::make_shared<std::string>();
    auto* undo =
        yarn.add_subcommand("undo", "Bring back what was removed last; again, what was removed before that");
    add_record_option(*undo, *file);
    commands["undo"] = [file] { return run_undo(*file); };
}

}  // namespace ridgetally
