#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "advice/gauge_text.h"
#include "cli/recorded_yarn.h"
#include "core/outcome.h"
#include "core/stitch.h"

namespace ridgetally {

/// Where a gauge comes from: told, a document that `ridgetally swatch --json` wrote, or the record of yarns.
struct GaugeArguments {
    std::optional<GaugeText> gauge;
    std::optional<double> span_mm;  ///< of --per
    std::optional<std::string> measured_file;
    RecordedYarnArguments recorded;  ///< with the stitch, however the gauge is told
};

/// A gauge with what else is known of the piece.
struct ToldGauge {
    MadeGauge gauge;
    std::optional<StitchFamily> stitch;
    std::optional<Measured> width_mm;  ///< of the whole swatch
    std::optional<Measured> height_mm;
    std::optional<Measured> mass_g;  ///< of the whole swatch
    std::vector<Reason> reasons;     ///< what to know of a gauge of the record
};

/// --gauge, --per, --measured, and the options of add_recorded_yarn_options.
void add_gauge_options(CLI::App& command, GaugeArguments& arguments);

/// The gauge told or read; of the record rather one worked in the round, as hats are. Refusals: stage
/// "advice", code "no-gauge" where there is none; those of measured_swatch, recorded_yarn and choose_gauge.
[[nodiscard]] Outcome<ToldGauge> gauge_from(const GaugeArguments& arguments, const Catalog& catalog);

/// Reads the document of a measured swatch. Refusals: stage "advice", code "no-input" where the file cannot
/// be read and "not-a-report" where it is no such document.
[[nodiscard]] Outcome<ToldGauge> measured_swatch(const std::string& file);

}  // namespace ridgetally
