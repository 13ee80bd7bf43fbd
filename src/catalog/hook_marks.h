#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "catalog/catalog.h"
#include "core/outcome.h"

namespace ridgetally {

/// A hook as the maker named it, by its shaft.
struct HookChoice {
    double mm = 0.0;
    std::vector<std::string> warnings;  ///< where charts put the same mark on other sizes
};

/// A hook from "5.5mm", "5,5 mm", "7/32 in", "US H-8", "H-8", "H/8", "US J", "UK 5", "steel 7" (US). A mark
/// is looked up in the catalogue: where charts disagree, the council's size is taken with a warning, or,
/// where the council has none, it is refused. A bare number is taken as mm only where no hook mark is that
/// number ("5.5", not "7"). Refusal: stage "catalog", code "unknown-hook" or "ambiguous-hook".
[[nodiscard]] Outcome<HookChoice> hook_from(const Catalog& catalog, std::string_view text);

/// Hooks between commas; bare numbers are mm, as the list says.
[[nodiscard]] Outcome<std::vector<double>> hooks_mm_from(const Catalog& catalog, std::string_view text);

/// "H-8" and old UK marks of a size: "US I-9, UK 5"; empty where there are none.
[[nodiscard]] std::string marks_of(const Catalog& catalog, double mm);

}  // namespace ridgetally
