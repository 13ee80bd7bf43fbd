#include "sample_stages.h"

#include "pipeline/measure_swatch.h"
#include "pipeline/priors.h"
#include "rectify/rectification.h"

namespace ridgetally::bench {
namespace {

ReferencePlane reference_of(const Photo& photo) {
    Trace trace;
    return must(find_reference(photo, knowledge().catalog, {}, trace));
}

SwatchStages read_swatch() {
    SwatchStages stages;
    stages.photo = must(read_photo(sample_path("brimful-moss.jpg")));
    stages.plane = reference_of(stages.photo);
    stages.region = must(fabric_beside(stages.photo, stages.plane.reference, {}));
    stages.source = {stages.photo.grey, stages.region, photo_from_plane_at(stages.plane.rectification, 0.0)};
    stages.options.priors = priors_for(knowledge().catalog, StitchFamily::sc, std::nullopt);
    stages.search = must(search_lattice(stages.source, stages.options));
    SwatchOptions told;
    told.stitch = StitchFamily::sc;
    Trace trace;
    stages.result = must(measure_swatch(stages.photo, knowledge(), told, trace));
    return stages;
}

CrownStages read_crown() {
    CrownStages stages;
    stages.photo = must(read_photo(sample_path("earflap-crown.jpg")));
    stages.plane = reference_of(stages.photo);
    stages.region = must(fabric_beside(stages.photo, stages.plane.reference, {}));
    stages.photo_from_plane = photo_from_plane_at(stages.plane.rectification, 0.0);
    stages.options.keep_out_px.push_back(stages.plane.reference.outline_px);
    stages.outline = must(trace_disc(stages.photo, stages.region, stages.photo_from_plane, stages.options));
    return stages;
}

}  // namespace

std::string sample_path(const std::string& file) {
    return std::string(RIDGETALLY_SOURCE_DIR) + "/samples/" + file;
}

const Knowledge& knowledge() {
    static const Knowledge loaded = must(load_knowledge());
    return loaded;
}

const SwatchStages& swatch_stages() {
    static const SwatchStages stages = read_swatch();
    return stages;
}

const CrownStages& crown_stages() {
    static const CrownStages stages = read_crown();
    return stages;
}

}  // namespace ridgetally::bench
