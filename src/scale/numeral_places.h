#pragma once

#include <optional>

#include "scale/ruler_line.h"
#include "scale/strip.h"

namespace ridgetally {

/// How far apart the numerals beside a row of marks stand.
struct LabelSpacing {
    double indices = 0.0;  ///< median distance of neighbours, in mark spacings
    int labels = 0;
};

/// Finds blobs of ink beyond the short marks (marks themselves left out) that follow each other evenly,
/// without reading them. None where there are fewer than four or they are uneven: ornaments, fabric, one
/// numeral.
[[nodiscard]] std::optional<LabelSpacing> label_spacing(const Strip& strip, const RulerLine& line);

/// Adds what the numerals say to the marks' evidence: rules carry one a centimetre or one an inch.
void weigh_labels(GraduationEvidence& evidence, const LabelSpacing& labels);

}  // namespace ridgetally
