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

/// Rows are numbered from 1 on.
constexpr std::int64_t no_yarn = 0;

HookResponsePoint point_of(const HookGauge& gauge) {
    return {*gauge.kind.hook_mm, reciprocal(span_10cm_mm, gauge.stitches_per_10cm)};
}

bool on_several_hooks(const HookSeries& points) {
    std::set<double> hooks;
    for (const auto& point : points) hooks.insert(point.hook_mm);
    return hooks.size() > 1;
}

/// Gauges that differ in the hook alone, together, also those of one hook only.
std::vector<ResponseSeries> by_kind(const std::vector<HookGauge>& gauges) {
    std::vector<ResponseSeries> all;
    for (const auto& gauge : gauges) {
        if (!gauge.kind.hook_mm) continue;
        GaugeKind kind = gauge.kind;
        kind.hook_mm.reset();
        auto series = std::find_if(all.begin(), all.end(), [&](const auto& s) { return s.kind == kind; });
        if (series == all.end()) series = all.insert(series, {kind, {}});
        series->points.push_back(point_of(gauge));
    }
    return all;
}

bool is_the_judged(const StoredMeasurement& stored, const SwatchJudged& judged) {
    const auto& photos = judged.photos_sha256;
    const auto& numbers = judged.numbers;
    const std::string& photo = stored.measurement.photo_sha256;
    return std::find(numbers.begin(), numbers.end(), stored.number) != numbers.end() ||
           (!photo.empty() && std::find(photos.begin(), photos.end(), photo) != photos.end());
}

/// The series of one yarn in the stitch of the swatch judged, without that swatch.
std::vector<ResponseSeries> series_of(const sql::Database& database, std::int64_t yarn,
                                      const SwatchJudged& judged) {
    auto measurements = read_measurements(database, yarn, Reports::left);
    std::erase_if(measurements, [&](const auto& stored) {
        return stored.measurement.stitch != judged.stitch || is_the_judged(stored, judged);
    });
    return by_kind(gauge_by_hook(measurements));
}

/// Numbers of the other yarns that were worked in the stitch on two hooks or more, the one measured last
/// first.
std::vector<std::int64_t> other_yarns(const sql::Database& database, std::int64_t yarn, StitchFamily stitch) {
    auto rows = database.query(
        "SELECT yarn FROM present_measurement WHERE stitch = ?1 AND yarn <> ?2 AND kind = 'swatch' "
        "AND stitches_per_10cm IS NOT NULL GROUP BY yarn HAVING count(DISTINCT hook_mm) > 1 "
        "ORDER BY max(number) DESC LIMIT ?3",
        key_of(stitch), yarn, most_other_yarns);
    std::vector<std::int64_t> yarns;
    while (rows.step()) yarns.push_back(rows.whole(0));
    return yarns;
}

void add_this_yarn(const std::vector<ResponseSeries>& all, const SwatchJudged& judged, HookRecord& record) {
    const GaugeKind alike{std::nullopt, judged.stitch, judged.worked, judged.state};
    for (const auto& series : all) {
        if (series.kind == alike) {
            record.this_yarn = series.points;
        } else if (on_several_hooks(series.points)) {
            record.this_yarn_otherwise.push_back(series.points);
        }
    }
}

/// The series that say something of the growth.
std::vector<HookSeries> telling(const std::vector<ResponseSeries>& all) {
    std::vector<HookSeries> points;
    for (const auto& series : all) {
        if (on_several_hooks(series.points)) points.push_back(series.points);
    }
    return points;
}

}  // namespace

std::vector<ResponseSeries> response_series(const std::vector<HookGauge>& gauges) {
    std::vector<ResponseSeries> all = by_kind(gauges);
    std::erase_if(all, [](const ResponseSeries& series) { return !on_several_hooks(series.points); });
    return all;
}

Outcome<HookRecord> hook_record(const Record& record, const std::optional<std::string>& yarn,
                                const SwatchJudged& judged) {
    return guarded(record.path(), [&]() -> Outcome<HookRecord> {
        const sql::Database& database = record.database();
        const sql::Transaction one_state(database, sql::Purpose::reading);
        HookRecord found;
        std::int64_t this_yarn = no_yarn;
        if (yarn) {
            const auto stored = yarn_named(database, trimmed_name(*yarn));
            if (!stored) return stored.refusal();
            this_yarn = stored->id;
            add_this_yarn(series_of(database, this_yarn, judged), judged, found);
        }
        for (const std::int64_t other : other_yarns(database, this_yarn, judged.stitch)) {
            auto series = telling(series_of(database, other, judged));
            if (!series.empty()) found.other_yarns.push_back(std::move(series));
        }
        return found;
    });
}

}  // namespace ridgetally
