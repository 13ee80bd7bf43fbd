#pragma once

#include <string>

#include "image/photo.h"
#include "pipeline/measure_swatch.h"
#include "web/router.h"
#include "web/workers.h"

namespace ridgetally::api {

/// What the routes work with; outlives them.
struct Context {
    const Knowledge& knowledge;
    web::Workers& workers;   ///< photos are measured there
    std::string record;      ///< file; empty for the usual one
    ReadPhotoOptions photo;  ///< limits, stricter than those of the command line
};

}  // namespace ridgetally::api
