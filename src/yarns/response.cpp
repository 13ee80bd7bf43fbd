#include "yarns/response.h"

#include <algorithm>
#include <set>

#include "core/units.h"
#include "yarns/fault.h"
#include "yarns/gauge_rows.h"
#include "yarns/keys.h"
#include "yarns/names.h"
#include "yarns/validate.h"

namespace ridgetally {
namespace {

HookResponsePoint point_of(const HookGauge& gauge) {
    return {*gauge.kind.hook_mm, reciprocal(span_10cm_mm, gauge.stitches_per_10cm)};
}

bool on_several_hooks(const std::vector<HookResponsePoint>& points) {
    std::set<double> hooks;
    for (const auto& point : points) hooks.insert(point.hook_mm);
    return hooks.size() > 1;
}

std::vector<HookResponsePoint> points_in(const std::vector<StoredMeasurement>& measurements,
                                         StitchFamily stitch) {
    std::vector<HookResponsePoint> points;
    for (const auto& gauge : gauge_by_hook(measurements)) {
        if (gauge.kind.hook_mm && gauge.kind.stitch == stitch) points.push_back(point_of(gauge));
    }
    return points;
}

/// Numbers of the other yarns that were worked in the stitch on two hooks or more.
std::vector<std::int64_t> other_yarns(const sql::Database& database, std::int64_t yarn, StitchFamily stitch) {
    auto rows = database.query(
        "SELECT yarn FROM present_measurement WHERE stitch = ?1 AND yarn <> ?2 AND kind = 'swatch' "
        "AND stitches_per_10cm IS NOT NULL GROUP BY yarn HAVING count(DISTINCT hook_mm) > 1 ORDER BY yarn",
        key_of(stitch), yarn);
    std::vector<std::int64_t> yarns;
    while (rows.step()) yarns.push_back(rows.whole(0));
    return yarns;
}

}  // namespace

std::vector<ResponseSeries> response_series(const std::vector<HookGauge>& gauges) {
    std::vector<ResponseSeries> all;
    for (const auto& gauge : gauges) {
        if (!gauge.kind.hook_mm) continue;
        GaugeKind kind = gauge.kind;
        kind.hook_mm.reset();
        auto series = std::find_if(all.begin(), all.end(), [&](const auto& s) { return s.kind == kind; });
        if (series == all.end()) series = all.insert(series, {kind, {}});
        series->points.push_back(point_of(gauge));
    }
    std::erase_if(all, [](const ResponseSeries& series) { return !on_several_hooks(series.points); });
    return all;
}

Outcome<HookRecord> hook_record(const Record& record, std::string_view yarn, StitchFamily stitch) {
    return guarded(record.path(), [&]() -> Outcome<HookRecord> {
        const sql::Database& database = record.database();
        const sql::Transaction one_state(database, sql::Purpose::reading);
        const auto stored = yarn_named(database, trimmed_name(yarn));
        if (!stored) return stored.refusal();
        HookRecord found;
        found.this_yarn = points_in(read_measurements(database, stored->id, Reports::left), stitch);
        for (const std::int64_t other : other_yarns(database, stored->id, stitch))
            found.other_yarns.push_back(points_in(read_measurements(database, other, Reports::left), stitch));
        return found;
    });
}

}  // namespace ridgetally
