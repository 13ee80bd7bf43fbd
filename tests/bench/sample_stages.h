#pragma once

#include <stdexcept>
#include <string>
#include <vector>

#include "disc/disc_outline.h"
#include "fabric/fabric_region.h"
#include "lattice/find_lattice.h"
#include "pipeline/crown_result.h"
#include "pipeline/measure_swatch.h"
#include "pipeline/reference.h"

/// What each stage starts from, made once from the sample photographs by the stages before it.
namespace ridgetally::bench {

/// The value, or an exception that ends the program: a benchmark that measures nothing must not pass.
template <typename T>
T must(Outcome<T> outcome) {
    if (!outcome) throw std::runtime_error(outcome.refusal().message);
    return std::move(outcome).value();
}

/// A file of samples/.
[[nodiscard]] std::string sample_path(const std::string& file);

[[nodiscard]] const Knowledge& knowledge();

/// brimful-moss: single crochet beside a steel ruler, 2 megapixels.
struct SwatchStages {
    Photo photo;
    ReferencePlane plane;
    FabricRegion region;
    PatchSource source;
    LatticeOptions options;
    LatticeSearch search;
    SwatchResult result;
};
[[nodiscard]] const SwatchStages& swatch_stages();

/// earflap-crown: a crown of six rounds.
struct CrownStages {
    Photo photo;
    ReferencePlane plane;
    FabricRegion region;
    PhotoFromObject photo_from_plane;
    DiscOutlineOptions options;
    DiscOutline outline;
};
[[nodiscard]] const CrownStages& crown_stages();

}  // namespace ridgetally::bench
