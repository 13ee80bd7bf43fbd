#pragma once

#include <CLI/CLI.hpp>
#include <cstdint>
#include <optional>
#include <string>

#include "catalog/catalog.h"
#include "cli/exit_status.h"
#include "report/document.h"
#include "yarns/from_report.h"

namespace ridgetally {

/// Whether and how a measurement goes into the record of yarns.
struct SaveRequest {
    std::optional<std::string> yarn;  ///< none: it does not
    std::string record;               ///< file; empty for the usual one
    std::optional<std::string> hook;  ///< as typed: marks need the catalogue
    ToldOfPiece told;
    std::optional<Measured> mass_g;  ///< as well as the scales say it; its value is told.mass_g
};

/// --save, --hook, --state, --mass, --day, --record. Where the command has use for --hook besides, it takes
/// it from the request.
void add_save_options(CLI::App& command, SaveRequest& request);

/// To be asked before measuring: the request with its hook in mm, if the yarn is there to save to. Refusals:
/// of hook_from and find_yarn. Warnings on hook marks go to standard error.
[[nodiscard]] Outcome<SaveRequest> ready_to_save(SaveRequest request, const Catalog& catalog);

/// Saves what the document says, for the yarn that the request must name, and gives the measurement's number.
/// The document gets the key "saved": the yarn and the number. Refusals: of open_record,
/// measurement_of_report and save_measurement.
[[nodiscard]] Outcome<std::int64_t> save_document(const SaveRequest& request, Document& document);

/// The same where a yarn was named, ok where none was; complains of refusals.
[[nodiscard]] ExitStatus save_report(const SaveRequest& request, Document& document);

/// "Saved as number 12 of "Moss"." with a line end; empty where the document was not saved.
[[nodiscard]] std::string saved_text(const Document& document);

}  // namespace ridgetally
