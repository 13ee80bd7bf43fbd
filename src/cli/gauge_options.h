#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "advice/gauge_text.h"
#include "core/outcome.h"
#include "core/stitch.h"

namespace ridgetally {

/// Where a gauge comes from: told, or a document that `ridgetally swatch --json` wrote.
struct GaugeArguments {
    std::optional<GaugeText> gauge;
    std::optional<double> span_mm;  ///< of --per
    std::optional<std::string> measured_file;
    std::optional<StitchFamily> stitch;
};

/// A gauge with what else is known of the piece.
struct ToldGauge {
    MadeGauge gauge;
    std::optional<StitchFamily> stitch;
    std::optional<Measured> width_mm;  ///< of the whole swatch
    std::optional<Measured> height_mm;
};

/// --gauge, --per, --measured, --stitch.
void add_gauge_options(CLI::App& command, GaugeArguments& arguments);

/// The gauge told or read. Refusals: stage "advice", code "no-gauge" where there is none; those of
/// measured_swatch.
[[nodiscard]] Outcome<ToldGauge> gauge_from(const GaugeArguments& arguments);

/// Reads the document of a measured swatch. Refusals: stage "advice", code "no-input" where the file cannot
/// be read and "not-a-report" where it is no such document.
[[nodiscard]] Outcome<ToldGauge> measured_swatch(const std::string& file);

}  // namespace ridgetally
