#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "yarns/measurement.h"

namespace ridgetally {

/// What must be the same for gauges to be taken together.
struct GaugeKind {
    std::optional<double> hook_mm;
    std::optional<StitchFamily> stitch;
    std::optional<Worked> worked;
    std::optional<FabricState> state;

    bool operator==(const GaugeKind&) const = default;
};

[[nodiscard]] GaugeKind kind_of(const Measurement& measurement);

/// The gauge of one yarn on one hook, in one stitch, worked one way and in one state, over all its swatches.
struct HookGauge {
    GaugeKind kind;
    Measured stitches_per_10cm;  ///< weighted mean; the spread between the swatches is in its uncertainty
    std::optional<Measured> rows_per_10cm;
    std::vector<std::int64_t> numbers;         ///< of the measurements
    std::optional<double> mass_per_area_g_m2;  ///< mean of the swatches that were weighed
};

/// Takes the measurements of one yarn together. Sorted by hook, then stitch, worked and state; what was not
/// told comes first. Crowns, pieces and swatches without a gauge are left out.
[[nodiscard]] std::vector<HookGauge> gauge_by_hook(const std::vector<StoredMeasurement>& measurements);

/// What washing did to the gauge: washed over unwashed, less one, of gauges that are otherwise alike.
struct WashingChange {
    GaugeKind unwashed;  ///< its state says whether fresh off the hook or relaxed
    Measured stitches;   ///< relative change of the stitches per 10 cm; below zero: wider after washing
    std::optional<Measured> rows;
};

[[nodiscard]] std::vector<WashingChange> washing_changes(const std::vector<HookGauge>& gauges);

}  // namespace ridgetally
