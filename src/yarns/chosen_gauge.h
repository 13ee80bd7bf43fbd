#pragma once

#include <optional>
#include <string>
#include <vector>

#include "advice/derivation.h"
#include "core/outcome.h"
#include "yarns/gauge_by_hook.h"
#include "yarns/yarn.h"

/// Which of a yarn's recorded gauges a plan works with.
namespace ridgetally {

/// What was told of the gauge to take; what was not told is left to the record.
struct GaugeChoice {
    GaugeKind told;
    std::optional<Worked> rather;  ///< where both are there: hats are worked in the round
};

struct ChosenGauge {
    HookGauge gauge;
    std::string source;           ///< "record of yarns, "Moss": 5 mm hook, sc, round, washed, number 3, 4"
    std::vector<Reason> reasons;  ///< what to know about the choice
};

/// The gauge of the kind told. Of several states the washed one is taken, then relaxed, then fresh off the
/// hook, then one not told, because that is the state the piece will be used in; that is said, and so is
/// where no washed one is there. Refusals (stage "record"): no-such-gauge where none is of the kind told, and
/// which-gauge where hook, stitch or way of working remain open; both name what is there.
[[nodiscard]] Outcome<ChosenGauge> choose_gauge(const Yarn& yarn, const std::vector<HookGauge>& gauges,
                                                const GaugeChoice& choice);

/// "number 3, 4".
[[nodiscard]] std::string numbers_words(const std::vector<std::int64_t>& numbers);

/// "5 mm hook, sc, round, washed": what is known of the kind, in the keys of the options.
[[nodiscard]] std::string kind_words(const GaugeKind& kind);

}  // namespace ridgetally
