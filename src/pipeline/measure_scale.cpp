#include "pipeline/measure_swatch.h"
#include "pipeline/reference.h"

namespace ridgetally {

Outcome<ScaleReport> measure_scale(const Photo& photo, const Catalog& catalog, const ScaleOptions& options,
                                   Trace& trace) {
    const auto plane = find_reference(photo, catalog, options, trace);
    if (!plane) return plane.refusal();
    return ScaleReport{photo_facts(photo), scale_result(*plane), scale_warnings(*plane)};
}

}  // namespace ridgetally
