#include "yarns/search.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "yarns/fault.h"
#include "yarns/gauge_rows.h"
#include "yarns/keys.h"
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

/// Two swatches of one maker on one hook differ by some per cent; what differs by more than this from the
/// gauge wanted, beyond the tolerance, is another fabric. Not swept.
constexpr double other_fabric = 0.15;

/// The swatches of a yarn that are of one kind.
struct Candidate {
    std::int64_t yarn = 0;
    std::vector<StoredMeasurement> swatches;
};

/// Reads what finding needs, from the index alone: yarn, then the columns of GaugeKind and of the gauge.
StoredMeasurement read_swatch(const sql::Statement& row) {
    StoredMeasurement stored;
    Measurement& m = stored.measurement;
    const auto real = [&](int column) {
        return row.is_null(column) ? std::nullopt : std::optional(row.real(column));
    };
    m.hook_mm = real(1);
    m.stitch = from_key<StitchFamily>(row.text(2));
    m.worked = from_key<Worked>(row.text(3));
    m.state = from_key<FabricState>(row.text(4));
    m.stitches_per_10cm = real(5);
    m.stitches_std = real(6);
    m.rows_per_10cm = real(7);
    m.rows_std = real(8);
    stored.number = row.whole(9);
    return stored;
}

/// Swatches near the gauge wanted, those of one yarn and kind together.
std::vector<Candidate> candidates(const sql::Database& database, const GaugeWanted& wanted) {
    const double least = wanted.stitches_per_10cm / (1.0 + wanted.tolerance + other_fabric);
    const double most = wanted.stitches_per_10cm / (1.0 - std::min(wanted.tolerance + other_fabric, 0.9));
    const auto key = [](const auto& value) { return value ? std::optional(key_of(*value)) : std::nullopt; };
    auto rows = database.query(
        "SELECT yarn, hook_mm, stitch, worked, state, stitches_per_10cm, stitches_std, rows_per_10cm, "
        "rows_std, "
        "number FROM measurement INDEXED BY measurement_by_kind "
        "WHERE removed IS NULL AND kind = 'swatch' AND stitches_per_10cm BETWEEN ?1 AND ?2 "
        "AND (?3 IS NULL OR stitch = ?3) AND (?4 IS NULL OR worked = ?4) AND (?5 IS NULL OR state = ?5) "
        "ORDER BY yarn, hook_mm, stitch, worked, state",
        least, most, key(wanted.stitch), key(wanted.worked), key(wanted.state));
    std::vector<Candidate> found;
    while (rows.step()) {
        StoredMeasurement stored = read_swatch(rows);
        const std::int64_t yarn = rows.whole(0);
        const bool same = !found.empty() && found.back().yarn == yarn &&
                          kind_of(found.back().swatches.front().measurement) == kind_of(stored.measurement);
        if (!same) found.push_back({yarn, {}});
        found.back().swatches.push_back(std::move(stored));
    }
    return found;
}

/// Those that fit by the swatches near the gauge wanted, the better fit first. All of the record's swatches
/// are read for the best of them only: reading them for every yarn of a large stock takes ten times as long.
std::vector<Candidate> best_first(std::vector<Candidate> all, const GaugeWanted& wanted) {
    std::vector<std::pair<FitOfGauge, std::size_t>> order;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (const auto fit = fit_of(gauge_by_hook(all[i].swatches).front(), wanted))
            order.emplace_back(*fit, i);
    }
    std::stable_sort(order.begin(), order.end(), [](const auto& a, const auto& b) {
        return std::tie(a.first.fit, a.first.size_error) < std::tie(b.first.fit, b.first.size_error);
    });
    std::vector<Candidate> sorted;
    for (const auto& place : order) sorted.push_back(std::move(all[place.second]));
    return sorted;
}

/// The gauge of a kind over all swatches of the yarn, those far from the gauge wanted too.
std::optional<HookGauge> whole_gauge(const sql::Database& database, const Candidate& candidate) {
    const GaugeKind kind = kind_of(candidate.swatches.front().measurement);
    for (auto& gauge : gauge_by_hook(read_measurements(database, candidate.yarn, Reports::left))) {
        if (gauge.kind == kind) return gauge;
    }
    return std::nullopt;
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
        for (const auto& candidate : best_first(candidates(database, wanted), wanted)) {
            if (matches.size() == wanted.most) break;
            const auto yarn = present_yarn(statement, candidate.yarn, wanted.stock);
            if (!yarn) continue;
            const auto gauge = whole_gauge(database, candidate);
            if (!gauge) continue;
            if (const auto fit = fit_of(*gauge, wanted))
                matches.push_back(judged(*yarn, *gauge, *fit, wanted.need));
        }
        std::stable_sort(matches.begin(), matches.end(), better);
        return matches;
    });
}

}  // namespace ridgetally
