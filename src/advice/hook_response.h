#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalog/maker_facts.h"
#include "core/measured.h"

namespace ridgetally {

/// What one yarn gave on one hook.
struct HookResponsePoint {
    double hook_mm = 0.0;
    Measured stitch_width_mm;
};

/// What the maker has recorded, all of one stitch family: earlier swatches of the yarn in question (without
/// the one being judged) and, a list each, those of other yarns.
struct HookRecord {
    std::vector<HookResponsePoint> this_yarn;
    std::vector<std::vector<HookResponsePoint>> other_yarns;
};

/// How the maker's stitch width follows the hook: width = c hook^exponent.
struct HookResponse {
    Measured exponent;
    double repeat_std = 0.0;      ///< relative, between two swatches of one maker on one hook
    std::string source;           ///< what it was learned from, for people
    int hooks_of_this_yarn = 0;   ///< different hooks it was learned from
    int other_yarns = 0;          ///< other yarns it was learned from
    double mean_log_hook = 0.0;   ///< of the points, weighted
    double mean_log_width = 0.0;  ///< of the points, weighted
    double mean_log_width_std = 0.0;
};

/// Learns the response from the swatch being judged and the record. Bayesian straight line through ln(width)
/// over ln(hook) (C. M. Bishop, Pattern Recognition and Machine Learning, 2006, section 3.3): the level is
/// free; the exponent's prior is the published range taken as a 95 % interval. Half of the prior's variance
/// is taken to be between makers, which other yarns of the same maker narrow, half between yarns (not swept).
/// Each point carries its own uncertainty and the maker's repeatability. An exponent outside the published
/// range is moved to its end: a larger hook never makes smaller stitches.
[[nodiscard]] HookResponse learn_response(const HookResponsePoint& now, const HookRecord& record,
                                          const HookPractice& practice);

/// Natural logarithm of the stitch width to expect of a new swatch on a hook.
struct PredictedWidth {
    double mean_log = 0.0;
    double std_log = 0.0;

    [[nodiscard]] Measured width_mm() const;
};
[[nodiscard]] PredictedWidth predict_width(const HookResponse& response, double hook_mm);

}  // namespace ridgetally
