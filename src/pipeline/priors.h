#pragma once

#include <optional>
#include <vector>

#include "catalog/catalog.h"
#include "core/stitch.h"
#include "lattice/reading.h"

namespace ridgetally {

/// What the catalogue says about height and width of the told stitch, or of every stitch where none is told.
/// A way of working that is not told leaves both periods open.
[[nodiscard]] std::vector<FamilyPrior> priors_for(const Catalog& catalog, std::optional<StitchFamily> told,
                                                  std::optional<Worked> worked);

}  // namespace ridgetally
