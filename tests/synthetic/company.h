#pragma once

#include <optional>
#include <string>

#include "synthetic/scene.h"

namespace ridgetally::synthetic {

/// What may lie with a swatch in a maker's photo and is none of it.
enum class Company {
    none,
    hook_on,      ///< a hook or needle of 3 to 7 mm across the swatch
    hook_beside,  ///< the same along one of its sides, a few millimetres off
    fingers,      ///< two finger tips on a corner
    tail_across,  ///< a crumpled tail of its own yarn over it
    tail_loop     ///< a tail that lies in a loop at a corner
};

/// As named on the command line of render_scene: "hook-on". None for other words.
[[nodiscard]] std::optional<Company> company_from(const std::string& name);

/// Lays it at the scene's first fabric. The same seed gives the same scene.
void add_company(Scene& scene, Company company, std::uint64_t seed);

}  // namespace ridgetally::synthetic
