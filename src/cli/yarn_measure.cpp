#include <memory>
#include <optional>

#include "advice/gauge_text.h"
#include "catalog/catalog.h"
#include "cli/advice_values.h"
#include "cli/streams.h"
#include "cli/values.h"
#include "cli/yarn_commands.h"
#include "cli/yarn_values.h"
#include "report/one_line.h"
#include "yarns/gauges.h"

namespace ridgetally {
namespace {

constexpr const char* examples = R"(Examples:
  ridgetally yarn measure "Fennelwick DK, Moss" --gauge 13x16 --hook 5mm --stitch sc --worked round
  ridgetally yarn measure "Fennelwick DK, Moss" --gauge 13+-0.2x16+-0.3/4in --hook "US H-8" --state washed
  ridgetally yarn measure "Fennelwick DK, Moss" --gauge 13x16 --hook 5mm --size 15x15cm --mass 12.4g

Without its plus-or-minus a count is taken as read to the nearest half stitch.)";

/// A gauge counted by hand.
struct MeasureArguments {
    std::string record;
    std::string name;
    std::optional<GaugeText> gauge;
    std::optional<double> span_mm;    ///< of --per
    std::optional<std::string> hook;  ///< as typed: marks need the catalogue
    Measurement measurement;
};

Outcome<Measurement> counted(const MeasureArguments& arguments) {
    Measurement m = arguments.measurement;
    const MadeGauge made = made_gauge(*arguments.gauge, arguments.span_mm.value_or(span_10cm_mm));
    m.stitches_per_10cm = made.stitches_per_100mm.value;
    m.stitches_std = made.stitches_per_100mm.std;
    if (made.rows_per_100mm) {
        m.rows_per_10cm = made.rows_per_100mm->value;
        m.rows_std = made.rows_per_100mm->std;
    }
    if (m.taken.empty()) m.taken = today();
    if (!arguments.hook) return m;
    const auto catalog = load_catalog(models_folder());
    if (!catalog) return catalog.refusal();
    const auto hook = hook_told(*arguments.hook, *catalog);
    if (!hook) return hook.refusal();
    m.hook_mm = *hook;
    return m;
}

ExitStatus run_measure(const MeasureArguments& arguments) {
    const auto measurement = counted(arguments);
    if (!measurement) return tell_refusal(measurement.refusal());
    return with_record(arguments.record, Access::change, [&](const Record& record) -> Outcome<ExitStatus> {
        const auto number = save_measurement(record, arguments.name, *measurement);
        if (!number) return number.refusal();
        return write_output("Saved as number " + std::to_string(*number) + " of \"" +
                            one_line(arguments.name) + "\".\n");
    });
}

void add_measure_options(CLI::App& command, MeasureArguments& arguments) {
    using Text = const std::string&;
    Measurement& m = arguments.measurement;
    const auto add = [&command](const char* name, const char* type, const char* help, auto apply) {
        return command.add_option_function<std::string>(name, apply, help)
            ->type_name(type)
            ->group("Measurement");
    };
    add("--gauge", "GAUGE",
        "What you counted, stitches x rows, as in 13x16 or 13x16/4in; rows may be left away",
        [&arguments](Text text) { arguments.gauge = values::crochet_gauge(text); })
        ->required();
    add("--per", "10cm|4in", "The span it was counted over, where it does not say it itself (default: 10cm)",
        [&arguments](Text text) { arguments.span_mm = values::span_mm(text); });
    add("--hook", "SIZE", "The hook it was worked on, as in 5.5mm or \"US I-9\"",
        [&arguments](Text text) { arguments.hook = text; });
    add("--stitch", "FAMILY", "The stitch, in US terms: sc, sc-blo, sc-flo, hdc, hdc-blo, dc or tr",
        [&m](Text text) { m.stitch = values::stitch(text); });
    add("--worked", "flat|round", "Turned at the end of every row, or in rounds",
        [&m](Text text) { m.worked = values::worked(text); });
    add("--state", "STATE", "off-hook, relaxed or washed",
        [&m](Text text) { m.state = values::fabric_state(text); });
    add("--size", "SIZE", "Width x height of the whole swatch, as in 15x15cm", [&m](Text text) {
        const PieceSize size = values::piece(text);
        if (!size.height_mm) throw CLI::ValidationError("\"" + text + "\": expected width x height");
        m.width_mm = size.width_mm;
        m.height_mm = size.height_mm;
    });
    add("--mass", "MASS", "Mass of the whole swatch, as exactly as your scales say: 12.4g",
        [&m](Text text) { m.mass_g = values::mass_g(text); });
    add("--day", "DAY", "The day it was measured, as in 2026-11-25 (default: today)",
        [&m](Text text) { m.taken = values::day(text); });
    add_record_option(command, arguments.record);
}

}  // namespace

void add_measure_command(CLI::App& yarn, CommandsByName& commands) {
    const auto arguments = std::make_shared<MeasureArguments>();
    auto* command = yarn.add_subcommand("measure", "Save a gauge that you counted by hand, without a photo");
    command->add_option("NAME", arguments->name, "Name of the yarn")->required()->type_name("");
    add_measure_options(*command, *arguments);
    command->footer(examples);
    commands["measure"] = [arguments] { return run_measure(*arguments); };
}

}  // namespace ridgetally
