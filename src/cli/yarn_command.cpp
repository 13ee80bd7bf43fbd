#include <chrono>
#include <ctime>
#include <memory>

#include "catalog/hook_marks.h"
#include "cli/streams.h"
#include "cli/yarn_commands.h"
#include "report/one_line.h"

namespace ridgetally {
namespace {

constexpr const char* examples = R"(Examples:
  ridgetally yarn add "Fennelwick DK, Moss" --weight 3 --ball-mass 50g --ball-length 120m --balls "3 1/2"
  ridgetally swatch swatch.jpg --hook 4.5mm --save "Fennelwick DK, Moss"
  ridgetally yarn measure "Fennelwick DK, Moss" --gauge 14x16 --hook 4.5mm        (counted by hand)
  ridgetally yarn show "Fennelwick DK, Moss"
  ridgetally yarn find --gauge 14x16 --tolerance 5% --need 250m
  ridgetally yarn use "Fennelwick DK, Moss" 40g
  ridgetally yarn COMMAND --help

The record is one file: the one --record names, or the environment variable RIDGETALLY_RECORD,
or ridgetally/record.db in your data folder ($XDG_DATA_HOME or ~/.local/share).

Exit status: 0 done, 2 not done (says why and what to try), 64 wrong use, 65 damaged or foreign
file, 66 no such file, 70 fault of the program, 74 cannot read or write.)";

}  // namespace

void add_record_option(CLI::App& command, std::string& file) {
    command
        .add_option("--record", file,
                    "The file of the record (default: RIDGETALLY_RECORD, or in the data folder)")
        ->type_name("FILE")
        ->group("Record");
}

Outcome<Record> open_record(const std::string& file, Access access) {
    if (!file.empty()) return Record::open(file, access);
    const auto usual = usual_record_file();
    if (!usual) return usual.refusal();
    return Record::open(*usual, access);
}

ExitStatus tell_refusal(const Refusal& refusal) {
    std::string text = "ridgetally: " + one_line(refusal.message) + "\n";
    if (!refusal.hint.empty()) text += "  try: " + one_line(refusal.hint) + "\n";
    write_error(text);
    return status_of(refusal);
}

ExitStatus with_record(const std::string& file, Access access,
                       const std::function<Outcome<ExitStatus>(const Record&)>& work) {
    const auto record = open_record(file, access);
    if (!record) return tell_refusal(record.refusal());
    const auto done = work(*record);
    return done ? *done : tell_refusal(done.refusal());
}

Outcome<double> hook_told(const std::string& text, const Catalog& catalog) {
    const auto hook = hook_from(catalog, text);
    if (!hook) return hook.refusal();
    for (const auto& warning : hook->warnings) complain(warning);
    return hook->mm;
}

std::string today() {
    const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
    std::tm local{};
    ::localtime_r(&now, &local);
    std::string text(11, '\0');
    text.resize(std::strftime(text.data(), text.size(), "%Y-%m-%d", &local));
    return text;
}

Command add_yarn_command(CLI::App& program) {
    auto* yarn =
        program.add_subcommand("yarn", "Keep a record of your yarns and what each gave on which hook");
    yarn->require_subcommand(1);
    yarn->footer(examples);
    const auto commands = std::make_shared<CommandsByName>();
    add_stock_commands(*yarn, *commands);
    add_measure_command(*yarn, *commands);
    add_look_commands(*yarn, *commands);
    add_correction_commands(*yarn, *commands);
    add_file_commands(*yarn, *commands);
    return [yarn, commands] { return commands->at(yarn->get_subcommands().front()->get_name())(); };
}

}  // namespace ridgetally
