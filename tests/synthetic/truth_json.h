#pragma once

#include <nlohmann/json.hpp>

#include "synthetic/random_scene.h"
#include "synthetic/render.h"

namespace ridgetally::synthetic {

/// The cases of one photo: what a command should find in it. One "swatch" case and, where a ruler shows, one
/// "scale" case for a shot of kind "swatch"; one case with "expect": "refusal" for the others.
[[nodiscard]] nlohmann::json cases_of(const std::string& id, const std::string& file, const Shot& shot,
                                      const Truth& truth);

}  // namespace ridgetally::synthetic
