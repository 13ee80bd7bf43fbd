#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/outcome.h"
#include "yarns/documents.h"
#include "yarns/measurement.h"

namespace ridgetally {

/// What the maker tells about a piece besides the photo.
struct ToldOfPiece {
    std::string taken;  ///< day, ISO 8601
    std::optional<double> hook_mm;
    std::optional<FabricState> state;
    std::optional<double> mass_g;
};

/// A measurement out of the document that the program gives for a photo ("ridgetally.report/1"): its gauge,
/// size, stitch and photo, with the whole document kept. Refusal: bad-document, for a document of another
/// kind or one that holds a refusal.
[[nodiscard]] Outcome<Measurement> measurement_of_report(const YarnDocument& document,
                                                         const ToldOfPiece& told);

/// What was set by hand in a photo's measurement, as its report says; none where there is no report.
[[nodiscard]] std::vector<std::string> corrected_of(const Measurement& measurement);

}  // namespace ridgetally
