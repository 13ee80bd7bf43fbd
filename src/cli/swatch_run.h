#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "cli/exit_status.h"
#include "cli/shared_options.h"
#include "pipeline/measure_swatch.h"

namespace ridgetally {

/// Several photos show one swatch, or each its own.
enum class PhotosAre { together, separate };

/// What `ridgetally swatch` was asked to do.
struct SwatchArguments {
    std::vector<std::string> photos;
    SwatchOptions measure;
    OutputOptions output;
    PhotosAre photos_are = PhotosAre::together;
    std::size_t jobs = 1;  ///< of a batch
};

/// Measures, reports and gives the status the program ends with.
[[nodiscard]] ExitStatus run_swatch(const SwatchArguments& arguments);

}  // namespace ridgetally
