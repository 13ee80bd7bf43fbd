#pragma once

#include <filesystem>
#include <opencv2/core.hpp>

#include "core/outcome.h"
#include "recogniser/learned_network.h"
#include "recogniser/phase_fields.h"

namespace ridgetally {

/// The learned network of the phase fields: a cheap value to copy, as LearnedNetwork.
class Recogniser {
  public:
    /// Runs the network on a locally normalised tile: CV_32FC1, its sides multiples of 16.
    /// Throws std::invalid_argument for any other picture.
    [[nodiscard]] PhaseFields run(const cv::Mat& tile) const;

  private:
    explicit Recogniser(LearnedNetwork network) : network_(std::move(network)) {}
    friend Outcome<Recogniser> load_recogniser(const std::filesystem::path& folder);
    LearnedNetwork network_;
};

/// Loads the network that `folder`/manifest.json names and compares its SHA-256 with the one given there.
/// Refusals (stage "recogniser", code "no-weights"): a file is missing, damaged or of another version. The
/// program goes on without the recogniser then, with a warning.
[[nodiscard]] Outcome<Recogniser> load_recogniser(const std::filesystem::path& folder);

}  // namespace ridgetally
