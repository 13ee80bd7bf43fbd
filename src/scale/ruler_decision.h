#pragma once

#include <optional>
#include <string>
#include <vector>

#include "scale/ruler_line.h"

namespace ridgetally {

/// A line with the step it was decided to have.
struct DecidedLine {
    const RulerLine* line = nullptr;
    GraduationReading reading;
};

/// What the lines of a photo are, taken together.
struct RulerDecision {
    std::vector<DecidedLine>
        lines;            ///< decided and consistent, most marks first; empty where nothing is decided
    double margin = 0.0;  ///< log-odds of the best line's step against the next best one
    bool divisions_seen = false;  ///< some line repeats like a rule does, decided or not
    std::vector<std::string> notes;
};

/// Chooses a reading for every line so that lengths of marks and the ratio of the lines' spacings (1 mm
/// beside 1/16 inch is 1.5875) agree best; a told unit weighs as much as five clear marks.
[[nodiscard]] RulerDecision decide_graduations(const std::vector<RulerLine>& lines,
                                               std::optional<LengthUnit> told);

/// Whether that scale agrees with every line that is left open between millimetres and tenths of an inch, or
/// their halves, alone: it must be one of both.
[[nodiscard]] bool could_have_scale(const std::vector<RulerLine>& lines, double px_per_mm);

}  // namespace ridgetally
