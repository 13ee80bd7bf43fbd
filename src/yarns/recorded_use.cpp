#include "yarns/recorded_use.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "core/trade_units.h"
#include "yarns/cells.h"
#include "yarns/fault.h"
#include "yarns/gauge_rows.h"

namespace ridgetally {
namespace {

/// Decimals of a figure in its shortest form; none where there are more than scales show.
std::optional<int> decimals_of(double figure) {
    constexpr std::size_t most = 3;
    const std::string text = cell_of(std::optional(figure));
    if (text.find('e') != std::string::npos) return std::nullopt;
    const auto point = text.find('.');
    const std::size_t decimals = point == std::string::npos ? 0 : text.size() - point - 1;
    return decimals <= most ? std::optional(static_cast<int>(decimals)) : std::nullopt;
}

/// Ounces to a millionth, so that grams that were worked out from ounces give the figure back.
double in_ounces(double mass_g) { return std::round(mass_g / g_per_ounce * 1e6) / 1e6; }

double half_last_unit_g(double mass_g) {
    constexpr double half = 0.5;
    if (const auto decimals = decimals_of(mass_g)) return half * std::pow(10.0, -*decimals);
    if (const auto decimals = decimals_of(in_ounces(mass_g)))
        return half * std::pow(10.0, -*decimals) * g_per_ounce;
    return half;
}

/// Relative standard uncertainty of a side in the report of the program.
std::optional<double> relative_std(const nlohmann::json& report, const char* side) {
    const auto at = nlohmann::json::json_pointer(std::string("/swatch/") + side);
    const auto number = [&](const char* key) {
        const auto place = at / key;
        return report.contains(place) && report[place].is_number() ? report[place].get<double>() : NAN;
    };
    const double relative = number("std") / number("value");
    return relative >= 0.0 && relative < 1.0 ? std::optional(relative) : std::nullopt;
}

Measured area_of(const Measurement& m) {
    const double area_mm2 = *m.width_mm * *m.height_mm;
    const auto report = nlohmann::json::parse(m.report, nullptr, false);
    if (report.is_object()) {
        const auto width = relative_std(report, "width_mm");
        const auto height = relative_std(report, "height_mm");
        if (width && height) return measured(area_mm2, {{"width", *width}, {"height", *height}});
    }
    return area_by_hand(area_mm2);
}

/// The swatches of these numbers, weighed and measured as one.
WeighedPiece together(const std::vector<StoredMeasurement>& measurements,
                      const std::vector<std::int64_t>& numbers) {
    double mass_g = 0.0;
    double mass_variance = 0.0;
    double area_mm2 = 0.0;
    double area_std = 0.0;
    for (const auto& [number, m] : measurements) {
        if (std::find(numbers.begin(), numbers.end(), number) == numbers.end()) continue;
        const Measured mass = mass_as_recorded(*m.mass_g);
        const Measured area = area_of(m);
        mass_g += mass.value;
        mass_variance += mass.std * mass.std;
        area_mm2 += area.value;
        area_std += area.std;  // rulers and habits of measuring are shared: not independent
    }
    return {measured(mass_g, {{"reading of the scales", std::sqrt(mass_variance) / mass_g}}),
            measured(area_mm2, {{"area of the swatches", area_std / area_mm2}}),
            {}};
}

}  // namespace

Measured mass_as_recorded(double mass_g) {
    // Evenly likely within half the last unit (JCGM 100:2008, 4.3.7).
    return measured(mass_g, {{"reading of the scales", half_last_unit_g(mass_g) / std::sqrt(3.0) / mass_g}});
}

Outcome<RecordedUse> recorded_use(const Yarn& yarn, const std::vector<StoredMeasurement>& measurements,
                                  const GaugeChoice& choice) {
    std::vector<StoredMeasurement> weighed;
    std::copy_if(measurements.begin(), measurements.end(), std::back_inserter(weighed),
                 [](const StoredMeasurement& stored) {
                     return stored.measurement.kind == PieceKind::swatch &&
                            mass_per_area_g_m2(stored.measurement).has_value();
                 });
    if (weighed.empty()) {
        return Refusal{record_stage, "no-weighed-swatch",
                       "the record has no weighed swatch of \"" + yarn.name + "\" whose size is known",
                       "weigh one, and say so with swatch --mass 12.4g --save NAME, or afterwards with yarn "
                       "correct NUMBER --mass 12.4g"};
    }
    const auto chosen = choose_gauge(yarn, gauge_by_hook(weighed), choice);
    if (!chosen && chosen.refusal().code == "no-such-gauge") {
        return Refusal{
            record_stage, "no-weighed-swatch",
            "none of the weighed swatches of \"" + yarn.name + "\" is of the kind asked for",
            "weigh one on that hook, in that stitch and state, and say so with yarn correct NUMBER "
            "--mass 12.4g"};
    }
    if (!chosen) return chosen.refusal();
    RecordedUse use{together(weighed, chosen->gauge.numbers), chosen->reasons};
    use.weighed.source = chosen->source;
    return use;
}

Outcome<Measured> recorded_mass(const Yarn& yarn, const std::vector<StoredMeasurement>& measurements,
                                std::int64_t number) {
    const auto at = std::find_if(measurements.begin(), measurements.end(),
                                 [&](const StoredMeasurement& stored) { return stored.number == number; });
    if (at == measurements.end()) {
        return Refusal{record_stage, "no-such-measurement",
                       "\"" + yarn.name + "\" has no measurement of the number " + std::to_string(number),
                       "look up the numbers with yarn show NAME"};
    }
    if (!at->measurement.mass_g) {
        return Refusal{record_stage, "no-weighed-swatch",
                       "number " + std::to_string(number) + " of the record was not weighed",
                       "weigh it, and say so with yarn correct " + std::to_string(number) + " --mass 85g"};
    }
    return mass_as_recorded(*at->measurement.mass_g);
}

}  // namespace ridgetally
