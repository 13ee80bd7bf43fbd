#pragma once

#include <CLI/CLI.hpp>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "catalog/catalog.h"
#include "yarns/chosen_gauge.h"
#include "yarns/record.h"
#include "yarns/response.h"

/// Figures that commands of the calculator take from the record of yarns.
namespace ridgetally {

/// Which yarn, and which of its gauges.
struct RecordedYarnArguments {
    std::optional<std::string> yarn;
    std::string record;               ///< file; empty for the usual one
    std::optional<std::string> hook;  ///< as typed: marks need the catalogue
    GaugeKind told;                   ///< without its hook
};

/// --yarn, --record, --hook, --stitch, --worked and --state, those that the command does not have already;
/// where it has, it hands over what was told.
void add_recorded_yarn_options(CLI::App& command, RecordedYarnArguments& arguments);

/// The yarn told, with its measurements and what was told of the gauge to take.
struct RecordedYarn {
    Yarn yarn;
    std::vector<StoredMeasurement> measurements;  ///< with their reports
    GaugeChoice choice;
};

/// Reads the yarn told; `yarn` must be. Refusals: of open_record, find_yarn and hook_from.
[[nodiscard]] Outcome<RecordedYarn> recorded_yarn(const RecordedYarnArguments& arguments,
                                                  const Catalog& catalog);

/// What the maker's record says of how stitches follow the hook.
class MakersRecord {
  public:
    /// Opens the record and looks for the yarn, where one is told: what is wrong there is refused. Without a
    /// yarn the others are learned from where there is a record; a record that cannot be read is complained
    /// of and left out.
    [[nodiscard]] static Outcome<MakersRecord> open(const RecordedYarnArguments& arguments);

    /// hook_record; nothing, with a complaint, where reading fails.
    [[nodiscard]] HookRecord learned(const SwatchJudged& judged) const;

  private:
    std::shared_ptr<const Record> record_;  ///< none where there is nothing to learn from
    std::optional<std::string> yarn_;
};

}  // namespace ridgetally
