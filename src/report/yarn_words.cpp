#include "report/yarn_words.h"

#include <array>
#include <cmath>
#include <string_view>
#include <utility>

#include "core/units.h"
#include "report/figures.h"
#include "report/phrases.h"
#include "report/table.h"

namespace ridgetally {
namespace {

constexpr const char* not_told = "not told";

/// Fractions of which Unicode has a character (block Number Forms and Latin-1).
constexpr std::array<std::pair<double, std::string_view>, 9> fractions = {{{1.0 / 8, "\u215B"},
                                                                           {1.0 / 4, "\u00BC"},
                                                                           {1.0 / 3, "\u2153"},
                                                                           {3.0 / 8, "\u215C"},
                                                                           {1.0 / 2, "\u00BD"},
                                                                           {5.0 / 8, "\u215D"},
                                                                           {2.0 / 3, "\u2154"},
                                                                           {3.0 / 4, "\u00BE"},
                                                                           {7.0 / 8, "\u215E"}}};

}  // namespace

std::string counted(std::int64_t count, const std::string& thing) {
    return std::to_string(count) + " " + thing + (count == 1 ? "" : "s");
}

std::string balls_figure(double balls) {
    // A fraction is written only where it is right to the second decimal.
    constexpr double close = 0.005;
    const double whole = std::floor(balls + close);
    if (std::abs(balls - whole) < close) return fixed(whole, 0);
    for (const auto& [value, character] : fractions) {
        if (std::abs(balls - whole - value) < close)
            return (whole > 0.0 ? fixed(whole, 0) : "") + std::string(character);
    }
    return plain_number(std::round(100.0 * balls) / 100.0);
}

std::string left_text(const Yarn& yarn) {
    if (!yarn.balls) return not_told;
    if (*yarn.balls == 0.0) return "none";
    std::string text = balls_figure(*yarn.balls) + (*yarn.balls > 1.0 ? " balls" : " ball");
    if (const auto grams = grams_left(yarn)) text += ", " + fixed(*grams, 0) + " g";
    if (const auto metres = metres_left(yarn)) text += ", " + fixed(*metres, 0) + " m";
    return text;
}

std::string short_left_text(const Yarn& yarn) {
    const auto grams = grams_left(yarn);
    const auto metres = metres_left(yarn);
    if (!grams && !metres) return left_text(yarn);
    return (grams ? fixed(*grams, 0) + " g" : "") + (grams && metres ? ", " : "") +
           (metres ? fixed(*metres, 0) + " m" : "");
}

std::string weight_text(const Yarn& yarn, const Catalog& catalog) {
    if (!yarn.weight_category) return {};
    const auto category = static_cast<std::size_t>(*yarn.weight_category);
    std::string number = std::to_string(*yarn.weight_category);
    if (category >= catalog.yarn_weights.size()) return number;
    return catalog.yarn_weights[category].name + " (" + number + ")";
}

std::string hook_text(const std::optional<double>& hook_mm) {
    return hook_mm ? plain_number(*hook_mm) + " mm" : not_told;
}

std::string stitch_text(const GaugeKind& kind, const Catalog& catalog, Terms terms) {
    std::string text;
    if (kind.stitch) {
        const StitchName& name = stitch_name(catalog, *kind.stitch, terms);
        text = name.abbreviation == no_abbreviation ? name.name : name.abbreviation;
    }
    if (kind.worked) text += (text.empty() ? "" : ", ") + std::string(key_of(*kind.worked));
    return text.empty() ? not_told : text;
}

std::string state_text(const std::optional<FabricState>& state) {
    return state ? std::string(key_of(*state)) : not_told;
}

Measured over_span(const Measured& per_10cm, SizeUnit units) {
    return units == SizeUnit::cm ? per_10cm : per_4in(per_10cm);
}

std::string span_text(SizeUnit units) { return units == SizeUnit::cm ? "10 cm" : "4 in"; }

}  // namespace ridgetally
