#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "catalog/catalog.h"
#include "core/outcome.h"
#include "image/photo.h"
#include "scale/scale_reference.h"

namespace ridgetally {

/// A round thing of known diameter.
struct RoundObject {
    Limits diameter_mm;
    double thickness_mm = 0.0;
};

/// What the user laid beside the fabric instead of a ruler.
using FlatReference = std::variant<FlatObject, RoundObject>;

/// "id1-card", "a4", "letter" or another key of the flat objects; "coin:24.26" with a diameter (mm unless a
/// unit is given), or "coin:KEY" with a key of the coins. Refuses with stage "scale" and code
/// "unknown-reference", naming the keys there are.
[[nodiscard]] Outcome<FlatReference> flat_reference_from(std::string_view text, const Catalog& catalog);

/// Finds the object in the photo. A card or sheet comes back as four corner matches, x along its longer side,
/// in mm from its first corner; a coin as a line of two marks a diameter apart along the longer axis of its
/// outline. All of the object must be seen. Refuses with stage "scale" and
///   "reference-not-found"  nothing of that shape with edges all round,
///   "reference-ambiguous"  several things of that shape and different size.
/// Same photo, same result. Throws std::invalid_argument for an empty photo.
[[nodiscard]] Outcome<ScaleReference> find_flat_reference(const Photo& photo, const FlatReference& reference);

}  // namespace ridgetally
