#pragma once

#include <optional>
#include <string>

#include "synthetic/company.h"
#include "synthetic/jpeg_file.h"
#include "synthetic/scene.h"

namespace ridgetally::synthetic {

/// What random photos may be like. Every field left out is drawn.
struct Variety {
    std::optional<StitchFamily> family;
    std::optional<Worked> worked;
    std::optional<RulerMake> ruler;
    double megapixels = 2.0;
    double max_tilt_deg = 18.0;
    double partial_share = 0.15;  ///< photos whose frame cuts the swatch
    double laid_on_share = 0.12;  ///< photos with the ruler laid on the swatch, not beside it
    /// How far a ruler laid on the swatch lies from its middle, of where it would lie beside it: 0.62 covers
    /// an edge, 0.1 leaves fabric on both sides.
    double laid_on_reach = 0.62;
    double max_unevenness = 0.13;
    double exif_share = 0.7;  ///< photos with a 35 mm focal length
    Company company = Company::none;
};

/// A photo to be taken: the scene and how the phone saves it.
struct Shot {
    Scene scene;
    JpegOptions jpeg;
    std::string kind;      ///< "swatch", or what makes a refusal: "no-ruler", "woven cloth", ...
    bool partial = false;  ///< the frame cuts the fabric
};

/// A swatch beside a ruler. The same seed and variety give the same shot.
[[nodiscard]] Shot random_swatch(std::uint64_t seed, const Variety& variety);

}  // namespace ridgetally::synthetic
