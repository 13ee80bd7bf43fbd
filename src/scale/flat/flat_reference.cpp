#include "scale/flat/flat_reference.h"

#include <algorithm>
#include <stdexcept>

#include "core/quantity.h"
#include "scale/flat/find_coin.h"
#include "scale/flat/find_sheet.h"

namespace ridgetally {
namespace {

/// Diameters read off a coin's description or with a ruler, where no row of the catalog is named: as far off
/// as the rows of the catalog allow, 0.12 mm either way.
constexpr double typed_diameter_limit_mm = 0.12;
/// Coins of the catalog are 1.3 to 2.5 mm thick.
constexpr double usual_coin_thickness_mm = 1.9;

Refusal unknown(std::string_view text, const Catalog& catalog) {
    std::string keys;
    for (const auto& object : catalog.flat_objects) keys += object.key + ", ";
    return {"scale", "unknown-reference", "there is no reference \"" + std::string(text) + "\"",
            "give one of " + keys + "or coin:DIAMETER in mm"};
}

Outcome<FlatReference> coin_from(std::string_view which, std::string_view text, const Catalog& catalog) {
    if (const Coin* coin = find_coin(catalog, which)) {
        const double thickness = coin->thickness_mm ? coin->thickness_mm->nominal : usual_coin_thickness_mm;
        return FlatReference{RoundObject{coin->diameter_mm, thickness}};
    }
    const auto diameter = parse_length_mm(which);
    // Anything from a shirt button to a saucer.
    if (!diameter || *diameter < 8.0 || *diameter > 200.0) return unknown(text, catalog);
    const Limits limits{*diameter, *diameter - typed_diameter_limit_mm, *diameter + typed_diameter_limit_mm,
                        "diameter given by the user"};
    return FlatReference{RoundObject{limits, usual_coin_thickness_mm}};
}

}  // namespace

Outcome<FlatReference> flat_reference_from(std::string_view text, const Catalog& catalog) {
    constexpr std::string_view coin_prefix = "coin:";
    if (text.substr(0, coin_prefix.size()) == coin_prefix)
        return coin_from(text.substr(coin_prefix.size()), text, catalog);
    if (const FlatObject* object = find_flat_object(catalog, text)) return FlatReference{*object};
    return unknown(text, catalog);
}

Outcome<ScaleReference> find_flat_reference(const Photo& photo, const FlatReference& reference) {
    if (photo.grey.empty()) throw std::invalid_argument("photo without pixels");
    if (const auto* object = std::get_if<FlatObject>(&reference)) return find_sheet(photo, *object);
    return find_coin_in(photo, std::get<RoundObject>(reference));
}

}  // namespace ridgetally
