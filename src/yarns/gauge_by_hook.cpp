#include "yarns/gauge_by_hook.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace ridgetally {
namespace {

auto order(const GaugeKind& kind) { return std::tie(kind.hook_mm, kind.stitch, kind.worked, kind.state); }

std::optional<Measured> mean(const std::vector<Measured>& parts) {
    if (parts.empty()) return std::nullopt;
    return weighted_mean(parts);
}

/// The measurements [first, last), which are of one kind.
template <typename Iterator>
HookGauge together(Iterator first, Iterator last) {
    std::vector<Measured> stitches;
    std::vector<Measured> rows;
    double mass_sum = 0.0;
    int weighed = 0;
    HookGauge gauge{kind_of(first->measurement), {}, {}, {}, {}};
    for (auto at = first; at != last; ++at) {
        const Measurement& m = at->measurement;
        stitches.push_back(stitches_of(m).value());
        if (const auto of_rows = rows_of(m)) rows.push_back(*of_rows);
        gauge.numbers.push_back(at->number);
        if (const auto mass = mass_per_area_g_m2(m)) {
            mass_sum += *mass;
            ++weighed;
        }
    }
    gauge.stitches_per_10cm = weighted_mean(stitches);
    gauge.rows_per_10cm = mean(rows);
    if (weighed > 0) gauge.mass_per_area_g_m2 = mass_sum / weighed;
    return gauge;
}

/// after / before - 1; relative uncertainties add in quadrature (JCGM 100:2008, clause 5.1.6).
Measured relative_change(const Measured& before, const Measured& after) {
    const double ratio = after.value / before.value;
    return {ratio - 1.0, ratio * std::hypot(before.relative_std(), after.relative_std()), {}};
}

bool differ_in_washing_only(const GaugeKind& unwashed, const GaugeKind& washed) {
    if (!unwashed.state || unwashed.state == FabricState::washed || washed.state != FabricState::washed)
        return false;
    GaugeKind same = unwashed;
    same.state = washed.state;
    return same == washed;
}

}  // namespace

GaugeKind kind_of(const Measurement& m) { return {m.hook_mm, m.stitch, m.worked, m.state}; }

std::vector<HookGauge> gauge_by_hook(const std::vector<StoredMeasurement>& measurements) {
    std::vector<StoredMeasurement> sorted;
    std::copy_if(measurements.begin(), measurements.end(), std::back_inserter(sorted),
                 [](const StoredMeasurement& stored) {
                     return stored.measurement.kind == PieceKind::swatch &&
                            stitches_of(stored.measurement).has_value();
                 });
    const auto kind = [](const StoredMeasurement& stored) { return kind_of(stored.measurement); };
    std::stable_sort(sorted.begin(), sorted.end(),
                     [&](const auto& a, const auto& b) { return order(kind(a)) < order(kind(b)); });
    std::vector<HookGauge> gauges;
    for (auto first = sorted.begin(); first != sorted.end();) {
        const auto last =
            std::find_if(first, sorted.end(), [&](const auto& s) { return kind(s) != kind(*first); });
        gauges.push_back(together(first, last));
        first = last;
    }
    return gauges;
}

std::vector<WashingChange> washing_changes(const std::vector<HookGauge>& gauges) {
    std::vector<WashingChange> changes;
    for (const auto& before : gauges) {
        for (const auto& after : gauges) {
            if (!differ_in_washing_only(before.kind, after.kind)) continue;
            WashingChange change{
                before.kind, relative_change(before.stitches_per_10cm, after.stitches_per_10cm), {}};
            if (before.rows_per_10cm && after.rows_per_10cm)
                change.rows = relative_change(*before.rows_per_10cm, *after.rows_per_10cm);
            changes.push_back(change);
        }
    }
    return changes;
}

}  // namespace ridgetally
