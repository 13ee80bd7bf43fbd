#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "synthetic/random_scene.h"
#include "synthetic/render.h"

namespace ridgetally::synthetic {

/// One picture of samples/: a shot put together by hand, and its place in the invented story.
struct Sample {
    std::string name;  ///< of the file, without ending
    Shot shot;
    std::string maker_says;  ///< one line about the swatch
    std::string yarn;        ///< an invented yarn
    double hook_mm = 0.0;    ///< a needle's where it is knitted
};

/// All of them, always the same.
[[nodiscard]] std::vector<Sample> sample_scenes();

/// The truth file beside a sample: the story and the cases.
[[nodiscard]] nlohmann::json sample_truth(const Sample& sample, const Truth& truth);

}  // namespace ridgetally::synthetic
