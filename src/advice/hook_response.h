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

/// Swatches that differ in the hook alone: one yarn, one way of working, one state of the fabric.
using HookSeries = std::vector<HookResponsePoint>;

/// What the maker has recorded, all of one stitch family and without the swatch being judged. Washed fabric
/// and work in rounds have another gauge on the same hook: each series tells how width grows with the hook,
/// but only swatches like the one being judged tell how wide a stitch is.
struct HookRecord {
    HookSeries this_yarn;                         ///< worked and treated as the swatch being judged
    std::vector<HookSeries> this_yarn_otherwise;  ///< worked or treated in another way
    std::vector<std::vector<HookSeries>> other_yarns;
};

/// How the maker's stitch width follows the hook: width = c hook^exponent.
struct HookResponse {
    Measured exponent;
    double repeat_std = 0.0;      ///< relative, between two swatches of one maker on one hook
    std::string source;           ///< what it was learned from, for people
    int hooks_of_this_yarn = 0;   ///< different hooks it was learned from; 0 where from none but the prior
    int other_yarns = 0;          ///< other yarns it was learned from
    double mean_log_hook = 0.0;   ///< of the points, weighted
    double mean_log_width = 0.0;  ///< of the points, weighted
    double mean_log_width_std = 0.0;
};

/// Learns the response from the swatch being judged and the record. Bayesian straight line through ln(width)
/// over ln(hook) (C. M. Bishop, Pattern Recognition and Machine Learning, 2006, section 3.3): the level is
/// free and each series has its own (common slope within groups, as in an analysis of covariance); the
/// exponent's prior is the published range taken as a 95 % interval. Half of the prior's variance
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
