#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <map>
#include <string>

#include "catalog/catalog.h"
#include "cli/commands.h"
#include "yarns/record.h"
#include "yarns/search.h"

/// The commands under `ridgetally yarn`: each function adds some of them and what runs them.
namespace ridgetally {

using CommandsByName = std::map<std::string, Command>;

/// add, edit, use.
void add_stock_commands(CLI::App& yarn, CommandsByName& commands);
/// measure.
void add_measure_command(CLI::App& yarn, CommandsByName& commands);
/// correct, remove, undo.
void add_correction_commands(CLI::App& yarn, CommandsByName& commands);
/// list, show, find.
void add_look_commands(CLI::App& yarn, CommandsByName& commands);
/// import, export, labels, check.
void add_file_commands(CLI::App& yarn, CommandsByName& commands);

/// --gauge and what else `yarn find` asks for.
void add_find_options(CLI::App& command, GaugeWanted& wanted);

/// --record, into `file`.
void add_record_option(CLI::App& command, std::string& file);

/// Opens the record of the file told, or the usual one.
[[nodiscard]] Outcome<Record> open_record(const std::string& file, Access access);

/// Says on standard error what was refused and what to try; gives the status the program ends with.
[[nodiscard]] ExitStatus tell_refusal(const Refusal& refusal);

/// Opens the record and runs `work` on it. `work` gives a status, or is itself told of as a refusal.
[[nodiscard]] ExitStatus with_record(const std::string& file, Access access,
                                     const std::function<Outcome<ExitStatus>(const Record&)>& work);

/// The shaft of a hook as the maker named it; warnings on marks go to standard error. Refusals: of hook_from.
[[nodiscard]] Outcome<double> hook_told(const std::string& text, const Catalog& catalog);

/// The day on this computer's calendar, ISO 8601.
[[nodiscard]] std::string today();

}  // namespace ridgetally
