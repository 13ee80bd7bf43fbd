#pragma once

#include <optional>
#include <string>

#include "advice/yarn_needed.h"
#include "cli/hat_options.h"
#include "cli/recorded_yarn.h"
#include "cli/shared_options.h"
#include "report/workings.h"

namespace ridgetally {

/// What was told to `ridgetally yarn-needed`.
struct YarnNeededArguments {
    std::optional<Measured> swatch_mass_g;
    std::optional<double> swatch_area_mm2;
    std::optional<std::string> measured_file;
    std::optional<Measured> used_g;
    std::optional<std::int64_t> like;  ///< number of a weighed piece of the record
    RecordedYarnArguments recorded;
    HeadArguments heads;
    HatWish wish;
    std::optional<double> area_mm2;
    int count = 1;
    YarnRequest request;  ///< what was told of ball, stock and margin
    SizeUnit units = SizeUnit::cm;
    Form form = Form::text;
    Why why = Why::hidden;
};

/// The request with what the document of a swatch, the record of yarns and the planned hats say. What was
/// told goes before the record. Refusals: stage "advice", codes no-area, no-pieces, hat-too-low; those of
/// measured_swatch, recorded_yarn, recorded_use, recorded_mass and heads_from.
[[nodiscard]] Outcome<YarnRequest> yarn_request(const YarnNeededArguments& arguments, const Catalog& catalog);

}  // namespace ridgetally
