#include "cli/yarn_files.h"

#include <filesystem>
#include <memory>
#include <span>
#include <vector>

#include "catalog/catalog.h"
#include "cli/shared_options.h"
#include "cli/streams.h"
#include "cli/values.h"
#include "cli/yarn_commands.h"
#include "cli/yarn_values.h"
#include "image/file_bytes.h"
#include "report/label_sheet.h"
#include "report/one_line.h"
#include "report/yarn_document.h"
#include "report/yarn_words.h"
#include "yarns/check.h"
#include "yarns/exchange.h"
#include "yarns/fault.h"
#include "yarns/gauges.h"

namespace ridgetally {
namespace {

/// What an export holds.
enum class Contents { all_json, yarns_csv, gauges_csv };

struct FileArguments {
    std::string record;
    std::string file;
    OutputOptions output;
    Contents contents = Contents::all_json;
    Existing existing = Existing::refused;
    std::vector<std::string> names;
    SheetSize sheet = a4_sheet;
};

ExitStatus run_export(const FileArguments& arguments) {
    return with_record(arguments.record, Access::look, [&](const Record& record) -> Outcome<ExitStatus> {
        const auto text = arguments.contents == Contents::all_json    ? export_json(record)
                          : arguments.contents == Contents::yarns_csv ? export_yarns_csv(record)
                                                                      : export_gauges_csv(record);
        if (!text) return text.refusal();
        return write_text_file(arguments.file, *text, Durability::synced);
    });
}

std::string summary_text(const ImportSummary& summary) {
    std::string text = "Imported " + counted(summary.yarns_added, "yarn") + " and " +
                       counted(summary.measurements_added, "measurement") + "; " +
                       std::to_string(summary.already_there) + " were there already, " +
                       std::to_string(summary.replaced) + " replaced\n";
    for (const auto& name : summary.kept) text += "  kept as it is: " + one_line(name) + "\n";
    return text;
}

ExitStatus run_import(const FileArguments& arguments) {
    constexpr std::size_t most_bytes = 2'000'000'000;  // some hundred thousand reports
    const auto bytes = read_file(arguments.file, most_bytes);
    if (!bytes) {
        return tell_refusal({record_stage, bytes.refusal().code,
                             arguments.file + ": " + bytes.refusal().message, "check the path"});
    }
    const std::string_view text(reinterpret_cast<const char*>(bytes->data()), bytes->size());
    const auto incoming = read_exchange(text, today());
    if (!incoming) {
        Refusal refusal = incoming.refusal();
        refusal.message = arguments.file + ": " + refusal.message;
        return tell_refusal(refusal);
    }
    return with_record(arguments.record, Access::change, [&](const Record& record) -> Outcome<ExitStatus> {
        const auto summary = import_yarns(record, *incoming, arguments.existing);
        if (!summary) return summary.refusal();
        return write_output(summary_text(*summary));
    });
}

Outcome<std::vector<LabelledSwatch>> labelled(const Record& record, std::vector<std::string> names) {
    if (names.empty()) {
        const auto stock = list_yarns(record);
        if (!stock) return stock.refusal();
        for (const auto& line : *stock) names.push_back(line.yarn.name);
    }
    std::vector<LabelledSwatch> swatches;
    for (const auto& name : names) {
        const auto stored = find_yarn(record, name);
        if (!stored) return stored.refusal();
        const auto measurements = measurements_of(record, name, Reports::left);
        if (!measurements) return measurements.refusal();
        for (const auto& measurement : *measurements) swatches.push_back({stored->yarn, measurement});
    }
    if (swatches.empty()) {
        return Refusal{record_stage, "nothing-measured", "nothing was measured that could be labelled",
                       "save a measurement with: swatch PHOTO --hook 5mm --save NAME"};
    }
    return swatches;
}

/// "labels.svg", "labels-2.svg", ...
std::string sheet_file(const std::string& file, std::size_t index) {
    if (index == 0) return file;
    const std::filesystem::path path(file);
    return (path.parent_path() /
            (path.stem().string() + "-" + std::to_string(index + 1) + path.extension().string()))
        .string();
}

ExitStatus run_labels(const FileArguments& arguments) {
    return with_record(arguments.record, Access::look, [&](const Record& record) -> Outcome<ExitStatus> {
        const auto catalog = load_catalog(models_folder());
        if (!catalog) return catalog.refusal();
        const auto swatches = labelled(record, arguments.names);
        if (!swatches) return swatches.refusal();
        const auto sheets = label_sheets(*swatches, arguments.sheet, *catalog, arguments.output.text);
        std::string told;
        for (std::size_t i = 0; i < sheets.size(); ++i) {
            const std::string file = sheet_file(arguments.file, i);
            auto written = write_text_file(file, sheets[i], Durability::left_to_system);
            if (!written) return written;
            told += "Labels: " + file + "\n";
        }
        return write_output(told);
    });
}

ExitStatus run_check(const FileArguments& arguments) {
    return with_record(arguments.record, Access::look, [&](const Record& record) -> Outcome<ExitStatus> {
        const auto check = check_record(record);
        if (!check) return check.refusal();
        const bool json = arguments.output.form == Form::json;
        const ExitStatus written =
            write_output(json ? json_text(check_document(*check)) : check_text(*check, record.path()));
        return worse_of(written, check->faults.empty() ? ExitStatus::ok : ExitStatus::bad_data);
    });
}

CLI::App& add_command(CLI::App& yarn, const char* name, const char* description, FileArguments& arguments) {
    auto* command = yarn.add_subcommand(name, description);
    add_record_option(*command, arguments.record);
    return *command;
}

void add_labels_options(CLI::App& labels, FileArguments& arguments) {
    labels.add_option("FILE", arguments.file, "The SVG file to write; further sheets get -2, -3, ...")
        ->required()
        ->type_name("");
    labels.add_option("NAME", arguments.names, "Yarns whose swatches get a label (default: all)")
        ->type_name("");
    labels
        .add_option_function<std::string>(
            "--paper", [&arguments](const std::string& text) { arguments.sheet = values::sheet(text); },
            "a4 or letter (default: a4)")
        ->type_name("SHEET")
        ->group("Output");
    labels
        .add_option_function<std::string>(
            "--units",
            [&arguments](const std::string& text) { arguments.output.text.units = values::size_unit(text); },
            "Gauge over 10 cm or over 4 in (default: cm)")
        ->type_name("cm|in")
        ->group("Output");
    add_terms_option(labels, arguments.output.text.terms);
    labels.footer("Example:\n  ridgetally yarn labels labels.svg \"Fennelwick DK, Moss\"");
}

}  // namespace

Outcome<ExitStatus> write_text_file(const std::string& file, const std::string& text, Durability durability) {
    if (file == "-") return write_output(text);
    const auto written = write_file(
        file, std::span(reinterpret_cast<const std::uint8_t*>(text.data()), text.size()), durability);
    if (!written) return written.refusal();
    return ExitStatus::ok;
}

void add_file_commands(CLI::App& yarn, CommandsByName& commands) {
    const auto exporting = std::make_shared<FileArguments>();
    CLI::App& export_command = add_command(
        yarn, "export", "Write the record to a file: all of it as JSON, or a sheet as CSV", *exporting);
    export_command.add_option("FILE", exporting->file, "The file to write; - for standard output")
        ->required()
        ->type_name("");
    auto* of_yarns = export_command.add_flag_callback(
        "--yarns-csv", [exporting] { exporting->contents = Contents::yarns_csv; },
        "The yarns as a sheet (CSV)");
    export_command
        .add_flag_callback(
            "--gauges-csv", [exporting] { exporting->contents = Contents::gauges_csv; },
            "The measurements as a sheet (CSV), without the reports")
        ->excludes(of_yarns);
    export_command.footer(
        "Examples:\n  ridgetally yarn export record.json\n  ridgetally yarn export --yarns-csv yarns.csv");
    commands["export"] = [exporting] { return run_export(*exporting); };

    const auto importing = std::make_shared<FileArguments>();
    CLI::App& import_command =
        add_command(yarn, "import", "Take in a file that was exported, or a sheet of your own", *importing);
    import_command.add_option("FILE", importing->file, "JSON or CSV as export writes them")
        ->required()
        ->type_name("");
    import_command
        .add_option_function<std::string>(
            "--existing",
            [importing](const std::string& text) { importing->existing = values::existing(text); },
            "What happens to yarns and measurements that are there with other values: refused (all or "
            "nothing), kept "
            "or replaced (default: refused)")
        ->type_name("WHAT");
    import_command.footer(
        "Examples:\n  ridgetally yarn import record.json\n  ridgetally yarn import --existing replaced "
        "yarns.csv");
    commands["import"] = [importing] { return run_import(*importing); };

    const auto labelling = std::make_shared<FileArguments>();
    CLI::App& labels =
        add_command(yarn, "labels", "Write labels to pin on swatches, as SVG sheets to print", *labelling);
    add_labels_options(labels, *labelling);
    commands["labels"] = [labelling] { return run_labels(*labelling); };

    const auto checking = std::make_shared<FileArguments>();
    CLI::App& check = add_command(yarn, "check", "Look through the whole record for damage", *checking);
    add_json_option(check, checking->output.form);
    commands["check"] = [checking] { return run_check(*checking); };
}

}  // namespace ridgetally
