#include <algorithm>
#include <cctype>
#include <memory>
#include <string_view>

#include "catalog/catalog.h"
#include "cli/advice_values.h"
#include "cli/picture_file.h"
#include "cli/shared_options.h"
#include "cli/streams.h"
#include "cli/values.h"
#include "cli/yarn_commands.h"
#include "cli/yarn_files.h"
#include "cli/yarn_values.h"
#include "core/units.h"
#include "report/yarn_document.h"
#include "report/yarn_plot.h"
#include "report/yarn_text.h"
#include "yarns/gauges.h"

namespace ridgetally {
namespace {

constexpr const char* show_examples = R"(Examples:
  ridgetally yarn show "Fennelwick DK, Moss"
  ridgetally yarn show "Fennelwick DK, Moss" --units in --plot moss.svg
  ridgetally yarn show "Fennelwick DK, Moss" --plot moss.png)";

constexpr const char* find_examples = R"(Examples:
  ridgetally yarn find --gauge 14x16
  ridgetally yarn find --gauge 14x16/4in --tolerance 3% --stitch sc --worked round --state washed
  ridgetally yarn find --gauge 14x16 --need 250m
  ridgetally yarn find --gauge 14x16 --need 900cm2     (from the mass of the swatches that were weighed))";

struct LookArguments {
    std::string record;
    std::string name;
    OutputOptions output;
    std::string plot;
    GaugeWanted wanted;
};

void add_text_options(CLI::App& command, LookArguments& arguments) {
    add_json_option(command, arguments.output.form);
    command
        .add_option_function<std::string>(
            "--units",
            [&arguments](const std::string& text) { arguments.output.text.units = values::size_unit(text); },
            "Gauge over 10 cm or over 4 in, sizes in cm or in inches (default: cm)")
        ->type_name("cm|in")
        ->group("Output");
    add_terms_option(command, arguments.output.text.terms);
    add_record_option(command, arguments.record);
}

/// Reads the facts, and the record with `read`, and writes what comes of both.
template <typename Read, typename TextOf, typename DocumentOf>
ExitStatus look(const LookArguments& arguments, Read read, TextOf text_of, DocumentOf document_of) {
    return with_record(arguments.record, Access::look, [&](const Record& record) -> Outcome<ExitStatus> {
        const auto found = read(record);
        if (!found) return found.refusal();
        if (arguments.output.form == Form::json) return write_output(json_text(document_of(*found)));
        const auto catalog = load_catalog(models_folder());
        if (!catalog) return catalog.refusal();
        return write_output(text_of(*found, *catalog));
    });
}

Outcome<YarnView> view_of(const Record& record, const LookArguments& arguments) {
    const auto stored = find_yarn(record, arguments.name);
    if (!stored) return stored.refusal();
    const auto measurements = measurements_of(record, arguments.name, Reports::read);
    if (!measurements) return measurements.refusal();
    return YarnView{stored->yarn, *measurements};
}

ExitStatus write_plot(const LookArguments& arguments) {
    return with_record(arguments.record, Access::look, [&](const Record& record) -> Outcome<ExitStatus> {
        const auto view = view_of(record, arguments);
        if (!view) return view.refusal();
        const auto catalog = load_catalog(models_folder());
        if (!catalog) return catalog.refusal();
        const Drawing plot =
            gauge_plot(view->yarn.name, gauge_by_hook(view->measurements), *catalog, arguments.output.text);
        if (!is_picture_name(arguments.plot))
            return write_text_file(arguments.plot, svg_of(plot), Durability::left_to_system);
        constexpr double px_per_mm = 10.0;  // 1,600 by 1,100 pixels, as large as the annotated photos
        const auto written = write_picture(arguments.plot, picture_of(plot, px_per_mm));
        if (!written) return written.refusal();
        return ExitStatus::ok;
    });
}

ExitStatus run_list(const LookArguments& arguments) {
    return look(arguments, list_yarns, stock_text, stock_document);
}

/// Whether a plot can be written to a file of that name.
bool is_plot_name(const std::string& file) {
    constexpr std::string_view ending = ".svg";
    const bool svg = file.size() > ending.size() &&
                     std::equal(ending.rbegin(), ending.rend(), file.rbegin(), [](char a, char b) {
                         return a == std::tolower(static_cast<unsigned char>(b));
                     });
    return svg || is_picture_name(file);
}

ExitStatus run_show(const LookArguments& arguments) {
    if (!arguments.plot.empty() && !is_plot_name(arguments.plot)) {
        complain("yarn show: --plot " + arguments.plot + ": the name must end in .svg, .png or .jpg");
        return ExitStatus::usage;
    }
    const auto read = [&](const Record& record) { return view_of(record, arguments); };
    const auto text = [&](const YarnView& view, const Catalog& catalog) {
        return yarn_text(view, catalog, arguments.output.text);
    };
    const ExitStatus shown = look(arguments, read, text, yarn_view_document);
    if (shown != ExitStatus::ok || arguments.plot.empty()) return shown;
    return write_plot(arguments);
}

ExitStatus run_find(const LookArguments& arguments) {
    const auto read = [&](const Record& record) { return find_gauge(record, arguments.wanted); };
    const auto text = [&](const std::vector<Match>& matches, const Catalog& catalog) {
        return matches_text(matches, arguments.wanted, catalog, arguments.output.text);
    };
    return look(arguments, read, text, matches_document);
}

}  // namespace

void add_find_options(CLI::App& command, GaugeWanted& wanted) {
    using Text = const std::string&;
    const auto add = [&command](const char* name, const char* type, const char* help, auto apply) {
        return command.add_option_function<std::string>(name, apply, help)->type_name(type)->group("Wanted");
    };
    add("--gauge", "SxR", "Stitches and rows over 10 cm, or over 4 in as in 14x16/4in; rows may be left away",
        [&wanted](Text text) {
            const auto figures = values::crochet_gauge(text);
            const double to_10cm = span_10cm_mm / figures.span_mm.value_or(span_10cm_mm);
            wanted.stitches_per_10cm = figures.stitches.value * to_10cm;
            if (figures.rows) wanted.rows_per_10cm = figures.rows->value * to_10cm;
        })
        ->required();
    add("--tolerance", "SHARE", "How far the size of the piece may be off (default: 5%)",
        [&wanted](Text text) { wanted.tolerance = values::size_share(text); });
    add("--stitch", "FAMILY", "Only in this stitch, in US terms: sc, sc-blo, hdc, dc, ...",
        [&wanted](Text text) { wanted.stitch = values::stitch(text); });
    add("--worked", "flat|round", "Only worked so",
        [&wanted](Text text) { wanted.worked = values::worked(text); });
    add("--state", "STATE", "Only in this state: off-hook, relaxed or washed",
        [&wanted](Text text) { wanted.state = values::fabric_state(text); });
    add("--need", "AMOUNT", "What the piece takes, as in 250m, 120g, \"2 1/2\" balls, or 900cm2 of fabric",
        [&wanted](Text text) { wanted.need = values::need(text); });
    add("--most", "N", "At most so many matches (default: 20)",
        [&wanted](Text text) { wanted.most = static_cast<std::size_t>(values::count(text)); });
    command
        .add_flag_callback(
            "--all", [&wanted] { wanted.stock = StockChoice::all; }, "Used-up yarns too")
        ->group("Wanted");
}

void add_look_commands(CLI::App& yarn, CommandsByName& commands) {
    const auto listing = std::make_shared<LookArguments>();
    auto* list =
        yarn.add_subcommand("list", "List the yarns, what is left of each and how often it was measured");
    add_json_option(*list, listing->output.form);
    add_record_option(*list, listing->record);
    commands["list"] = [listing] { return run_list(*listing); };

    const auto showing = std::make_shared<LookArguments>();
    auto* show =
        yarn.add_subcommand("show", "Show a yarn: gauge by hook, washed against unwashed, gauge lines");
    show->add_option("NAME", showing->name, "Name of the yarn")->required()->type_name("");
    show->add_option("--plot", showing->plot,
                     "Write gauge over hook as a picture too: FILE.svg or FILE.png (whose letters are "
                     "those of English alone)")
        ->type_name("FILE")
        ->group("Output");
    add_text_options(*show, *showing);
    show->footer(show_examples);
    commands["show"] = [showing] { return run_show(*showing); };

    const auto finding = std::make_shared<LookArguments>();
    auto* find = yarn.add_subcommand(
        "find", "Find the yarns that give a gauge, on which hook, and whether there is enough");
    add_find_options(*find, finding->wanted);
    add_text_options(*find, *finding);
    find->footer(find_examples);
    commands["find"] = [finding] { return run_find(*finding); };
}

}  // namespace ridgetally
