#include "advice/stitch_shape.h"

#include <cmath>

namespace ridgetally {

StitchFamily family_of_shape(double height_to_width, const Catalog& catalog) {
    StitchFamily best = StitchFamily::sc;
    double least = INFINITY;
    for (const auto family : {StitchFamily::sc, StitchFamily::hdc, StitchFamily::dc, StitchFamily::tr}) {
        const auto& shape = facts_of(catalog, family).height_to_width;
        const double distance = std::abs(std::log(height_to_width / shape.mean)) / (shape.std / shape.mean);
        if (distance < least) {
            least = distance;
            best = family;
        }
    }
    return best;
}

}  // namespace ridgetally
