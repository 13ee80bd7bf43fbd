#pragma once

#include <string_view>
#include <vector>

#include "advice/hook_response.h"
#include "yarns/gauge_by_hook.h"
#include "yarns/record.h"

/// What the record says of how stitches follow the hook, as the advice takes it.
namespace ridgetally {

/// Gauges that differ in the hook alone, as points; only kinds that were worked on two hooks or more.
struct ResponseSeries {
    GaugeKind kind;  ///< without its hook
    std::vector<HookResponsePoint> points;
};
[[nodiscard]] std::vector<ResponseSeries> response_series(const std::vector<HookGauge>& gauges);

/// What the record holds in one stitch: the yarn of that name, and every other yarn that was worked on two
/// hooks or more. States and ways of working are taken together. Refusal: no-such-yarn.
[[nodiscard]] Outcome<HookRecord> hook_record(const Record& record, std::string_view yarn,
                                              StitchFamily stitch);

}  // namespace ridgetally
