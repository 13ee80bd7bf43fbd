#pragma once

#include <optional>
#include <vector>

#include "scale/ruler_line.h"
#include "scale/strip.h"

namespace ridgetally {

/// Finds blobs of ink beyond the short marks (marks themselves left out) without reading them: numerals, and
/// whatever else stands there. Middles in indices of the line, ascending. Empty where there are fewer than
/// twelve marks.
[[nodiscard]] std::vector<double> numeral_places(const Strip& strip, const RulerLine& line);

/// Adds what the numerals say to the marks' evidence: rules carry one a centimetre or one an inch, at the
/// whole marks. `first` and `last` bound the indices that were looked at.
void weigh_numerals(GraduationEvidence& evidence, const std::vector<double>& places, int first, int last);

}  // namespace ridgetally
