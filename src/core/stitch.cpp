#include "core/stitch.h"

#include <array>

namespace ridgetally {
namespace {

constexpr std::array<std::string_view, stitch_family_count> family_keys = {
    "sc", "sc-blo", "sc-flo", "hdc", "hdc-blo", "dc", "tr", "stockinette"};

}  // namespace

StitchFamily through_both_loops(StitchFamily family) {
    switch (family) {
        case StitchFamily::sc_blo:
        case StitchFamily::sc_flo:
            return StitchFamily::sc;
        case StitchFamily::hdc_blo:
            return StitchFamily::hdc;
        default:
            return family;
    }
}

bool through_one_loop(StitchFamily family) { return through_both_loops(family) != family; }

std::string_view key_of(StitchFamily family) { return family_keys.at(static_cast<std::size_t>(family)); }

std::string_view key_of(Worked worked) { return worked == Worked::flat ? "flat" : "round"; }

std::optional<StitchFamily> stitch_family_from(std::string_view key) {
    for (std::size_t i = 0; i < family_keys.size(); ++i) {
        if (family_keys[i] == key) return static_cast<StitchFamily>(i);
    }
    return std::nullopt;
}

std::optional<Worked> worked_from(std::string_view key) {
    if (key == "flat") return Worked::flat;
    if (key == "round") return Worked::round;
    return std::nullopt;
}

}  // namespace ridgetally
