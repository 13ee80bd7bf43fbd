#pragma once

#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "core/measured.h"
#include "core/stitch.h"
#include "synthetic/random_scene.h"

namespace ridgetally::blackbox {

/// A change of the photo that leaves the millimetres on the table as they were.
struct Change {
    const char* name;
    cv::Mat (*apply)(const cv::Mat&);
};

/// Turned, mirrored, smaller, larger, darker.
[[nodiscard]] const std::vector<Change>& changes();

/// Even work, whole in the frame and seen nearly from above: measured for sure, so that every change can be
/// compared.
[[nodiscard]] synthetic::Variety even_work(StitchFamily family);

/// The shot without lens distortion and without glare.
[[nodiscard]] synthetic::Shot in_good_light(synthetic::Shot shot);

/// Each must lie in the other's stated 95 % interval, widened by its own: two measurements of one thing agree
/// where their difference is below the expanded uncertainty of that difference (JCGM 100:2008, GUM, 5.1.2
/// and 6.2).
void expect_agreement(const Measured& one, const Measured& other, const std::string& what);

}  // namespace ridgetally::blackbox
