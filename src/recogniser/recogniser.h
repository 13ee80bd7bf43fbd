#pragma once

#include <filesystem>
#include <opencv2/core.hpp>

#include "core/outcome.h"
#include "recogniser/learned_network.h"
#include "recogniser/phase_fields.h"

namespace ridgetally {

/// With which of its two networks the recogniser looks. The scout has learned from the other one, takes a
/// third of the time and is right a little less often: it searches, and the other one has the last word.
enum class Sight { scout, full };

/// The learned networks of the phase fields: a cheap value to copy, as LearnedNetwork.
class Recogniser {
  public:
    /// Runs a network on a locally normalised tile: CV_32FC1, its sides multiples of 16.
    /// Throws std::invalid_argument for any other picture.
    [[nodiscard]] PhaseFields run(const cv::Mat& tile, Sight sight = Sight::full) const;

  private:
    Recogniser(LearnedNetwork full, LearnedNetwork scout)
        : full_(std::move(full)), scout_(std::move(scout)) {}
    friend Outcome<Recogniser> load_recogniser(const std::filesystem::path& folder);
    LearnedNetwork full_;
    LearnedNetwork scout_;
};

/// Loads the networks that `folder`/manifest.json names and compares their SHA-256 with those given there.
/// Refusals (stage "recogniser", code "no-weights"): a file is missing, damaged or of another version. The
/// program goes on without the recogniser then, with a warning.
[[nodiscard]] Outcome<Recogniser> load_recogniser(const std::filesystem::path& folder);

}  // namespace ridgetally
