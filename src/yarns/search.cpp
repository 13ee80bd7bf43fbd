#include "yarns/search.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "yarns/fault.h"
#include "yarns/gauge_rows.h"
#include "yarns/sql/rows.h"
#include "yarns/stock.h"

namespace ridgetally {
namespace {

/// One dimension of a piece: its relative error in size, and how it lies within the tolerance.
std::optional<FitOfGauge> fit_of_one(const Measured& gauge, double wanted, double tolerance) {
    // A piece of n stitches is n / gauge wide: size over wanted size = wanted gauge / measured gauge.
    const auto error = [&](double g) { return wanted / g - 1.0; };
    const auto within = [&](double g) { return g > 0.0 && std::abs(error(g)) <= tolerance; };
    const double low = gauge.low95();
    const double high = gauge.high95();
    const double size_error = std::abs(error(gauge.value));
    if (within(low) && within(high)) return FitOfGauge{Fit::sure, size_error};
    if (within(gauge.value)) return FitOfGauge{Fit::likely, size_error};
    const double nearest = std::clamp(wanted, low, high);
    if (within(nearest)) return FitOfGauge{Fit::possible, size_error};
    return std::nullopt;
}

bool kind_is_wanted(const GaugeKind& kind, const GaugeWanted& wanted) {
    return (!wanted.stitch || kind.stitch == wanted.stitch) &&
           (!wanted.worked || kind.worked == wanted.worked) && (!wanted.state || kind.state == wanted.state);
}

/// Numbers of the yarns one of whose gauges may fit. The interval of a weighted mean reaches at most two
/// standard uncertainties of a part, and the spread of the parts once more, beyond the least and the largest
/// of them.
std::vector<std::int64_t> candidates(const sql::Database& database, const GaugeWanted& wanted) {
    const double least = wanted.stitches_per_10cm / (1.0 + wanted.tolerance);
    const double most = wanted.stitches_per_10cm / std::max(1.0 - wanted.tolerance, 1e-9);
    auto rows = database.query(
        "SELECT DISTINCT yarn FROM (SELECT yarn FROM measurement "
        "WHERE removed IS NULL AND kind = 'swatch' AND stitches_per_10cm IS NOT NULL AND (?3 IS NULL OR "
        "stitch = ?3) "
        "GROUP BY yarn, hook_mm, stitch, worked, state "
        "HAVING 2 * min(stitches_per_10cm) - max(stitches_per_10cm) - 2 * max(stitches_std) <= ?2 "
        "AND 2 * max(stitches_per_10cm) - min(stitches_per_10cm) + 2 * max(stitches_std) >= ?1)",
        least, most, wanted.stitch ? std::optional(key_of(*wanted.stitch)) : std::nullopt);
    std::vector<std::int64_t> yarns;
    while (rows.step()) yarns.push_back(rows.whole(0));
    return yarns;
}

std::optional<Yarn> present_yarn(sql::Statement& statement, std::int64_t id, StockChoice stock) {
    statement.reset();
    statement.bind(1, id);
    if (!statement.step()) return std::nullopt;
    Yarn yarn = sql::read_yarn(statement, 1);
    if (stock == StockChoice::present && !in_stock(yarn)) return std::nullopt;
    return yarn;
}

Match judged(const Yarn& yarn, const HookGauge& gauge, const FitOfGauge& fit,
             const std::optional<Need>& need) {
    Match match{yarn, gauge, fit.fit, fit.size_error, Sufficiency::not_asked, std::nullopt};
    if (!need) return match;
    match.balls_needed = balls_for(*need, yarn, gauge);
    match.enough = Sufficiency::unknown;
    if (match.balls_needed && yarn.balls)
        match.enough = *yarn.balls >= *match.balls_needed ? Sufficiency::yes : Sufficiency::no;
    return match;
}

bool better(const Match& a, const Match& b) {
    return std::tie(a.fit, a.size_error, a.yarn.name) < std::tie(b.fit, b.size_error, b.yarn.name);
}

}  // namespace

std::optional<FitOfGauge> fit_of(const HookGauge& gauge, const GaugeWanted& wanted) {
    auto fit = fit_of_one(gauge.stitches_per_10cm, wanted.stitches_per_10cm, wanted.tolerance);
    if (!fit || !wanted.rows_per_10cm || !gauge.rows_per_10cm) return fit;
    const auto rows = fit_of_one(*gauge.rows_per_10cm, *wanted.rows_per_10cm, wanted.tolerance);
    if (!rows) return std::nullopt;
    return FitOfGauge{std::max(fit->fit, rows->fit), std::max(fit->size_error, rows->size_error)};
}

std::optional<double> balls_for(const Need& need, const Yarn& yarn, const HookGauge& gauge) {
    if (const auto* amount = std::get_if<Amount>(&need)) return in_balls(*amount, yarn);
    if (!gauge.mass_per_area_g_m2) return std::nullopt;
    constexpr double cm2_per_m2 = 1e4;
    const double grams = std::get<FabricArea>(need).cm2 / cm2_per_m2 * *gauge.mass_per_area_g_m2;
    return in_balls({grams, AmountUnit::grams}, yarn);
}

Outcome<std::vector<Match>> find_gauge(const Record& record, const GaugeWanted& wanted) {
    return guarded(record.path(), [&]() -> Outcome<std::vector<Match>> {
        const sql::Database& database = record.database();
        const sql::Transaction one_state(database, sql::Purpose::reading);
        auto statement = database.prepare("SELECT * FROM present_yarn WHERE id = ?1");
        std::vector<Match> matches;
        for (const std::int64_t id : candidates(database, wanted)) {
            const auto yarn = present_yarn(statement, id, wanted.stock);
            if (!yarn) continue;
            for (const auto& gauge : gauge_by_hook(read_measurements(database, id, Reports::left))) {
                const auto fit = fit_of(gauge, wanted);
                if (fit && kind_is_wanted(gauge.kind, wanted))
                    matches.push_back(judged(*yarn, gauge, *fit, wanted.need));
            }
        }
        std::stable_sort(matches.begin(), matches.end(), better);
        return matches;
    });
}

}  // namespace ridgetally
