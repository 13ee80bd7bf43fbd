#pragma once

#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "scale/scale_reference.h"

namespace ridgetally {

/// Length of one mark, in spacings, beside its index along the row.
struct MarkLength {
    int index = 0;
    double length = 0.0;
};

/// One way to read a row of marks: which marks are the long ones and what a step means.
struct GraduationReading {
    LengthUnit unit = LengthUnit::mm;
    double mm_per_index = 0.0;  ///< 0: strokes that repeat as on no rule
    int whole_index = 0;        ///< index of a mark of the longest class, modulo whole_period
    int whole_period = 1;
    double log_score = 0.0;       ///< log-likelihood with prior, less the penalty for classes
    std::string name;             ///< "mm with 5 and 10", for notes
    double explained = 0.0;       ///< share of the marks whose length is that of their class
    double long_explained = 0.0;  ///< the same among all but the shortest class
};

/// Every reading worth a thought, best first, one a value of mm_per_index.
struct GraduationEvidence {
    std::vector<GraduationReading> readings;
    double flat_score = 0.0;     ///< of "all marks are alike", on the same terms
    int marks = 0;               ///< lengths that took part
    double short_scatter = 0.0;  ///< of the short marks' lengths, as a share of them
    double pitch_px = std::numeric_limits<double>::infinity();  ///< spacing of the marks in the photo

    /// Whether the best reading is that of a rule: it beats "all alike" by far and explains most lengths.
    [[nodiscard]] bool divided() const;
};

/// Of a step of tenths or twentieths of an inch, whose rules are divided as those of another step in mm are:
/// that other step. None of all others.
[[nodiscard]] std::optional<double> metric_twin_mm(double mm_per_index);

/// Weighs how the lengths repeat against the patterns of real rules: metric (10 with 5, half millimetres
/// 20/10/2) and inch (32/16/8/4/2 halves). A mixture of a normal and a flat law per mark, so that a numeral
/// or an ornament that lengthens a mark costs a bounded amount; BIC (Schwarz, Ann. Statist. 6, 1978) for the
/// classes. `pitch_px` is the marks' spacing in the photo: where a millimetre is few pixels, numerals run
/// into the longest marks. Fewer than eight lengths give no reading.
[[nodiscard]] GraduationEvidence weigh_graduations(const std::vector<MarkLength>& lengths,
                                                   double pitch_px = std::numeric_limits<double>::infinity());

}  // namespace ridgetally
