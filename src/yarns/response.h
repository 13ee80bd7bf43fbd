#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "advice/hook_response.h"
#include "yarns/gauge_by_hook.h"
#include "yarns/record.h"

/// What the record says of how stitches follow the hook, as the advice takes it.
namespace ridgetally {

/// Gauges that differ in the hook alone, as points; only kinds that were worked on two hooks or more.
struct ResponseSeries {
    GaugeKind kind;  ///< without its hook
    HookSeries points;
};
[[nodiscard]] std::vector<ResponseSeries> response_series(const std::vector<HookGauge>& gauges);

/// The swatch that is being judged: what it is like, and what the record may hold of it already.
struct SwatchJudged {
    StitchFamily stitch = StitchFamily::sc;
    std::optional<Worked> worked;
    std::optional<FabricState> state;
    std::vector<std::string> photos_sha256;  ///< measurements of these photos are left out,
    std::vector<std::int64_t> numbers;       ///< and those of these numbers
};

/// Other yarns are read from the one measured last on; thirty fix the maker's own exponent to a fifth of what
/// yarns differ by, and a large record would take a second to read.
inline constexpr int most_other_yarns = 30;

/// What the record holds in the stitch of the swatch: the yarn of that name where there is one, and other
/// yarns that were worked on two hooks or more in one way and state. Refusal: no-such-yarn.
[[nodiscard]] Outcome<HookRecord> hook_record(const Record& record, const std::optional<std::string>& yarn,
                                              const SwatchJudged& judged);

}  // namespace ridgetally
