#pragma once

#include <filesystem>
#include <memory>
#include <opencv2/core.hpp>

#include "core/outcome.h"
#include "recogniser/phase_fields.h"

namespace ridgetally {

/// The learned network with its weights checked: a cheap value to copy; copies share the weights and may be
/// used from several threads (one forward run at a time).
class Recogniser {
  public:
    /// Runs the network on a locally normalised tile: CV_32FC1, its sides multiples of 16.
    /// Throws std::invalid_argument for any other picture.
    [[nodiscard]] PhaseFields run(const cv::Mat& tile) const;

  private:
    struct Network;
    explicit Recogniser(std::shared_ptr<Network> network) : network_(std::move(network)) {}
    friend Outcome<Recogniser> load_recogniser(const std::filesystem::path& folder);
    std::shared_ptr<Network> network_;
};

/// Loads the network that `folder`/manifest.json names and compares its SHA-256 with the one given there.
/// Refusals (stage "recogniser", code "no-weights"): a file is missing, damaged or of another version. The
/// program goes on without the recogniser then, with a warning.
[[nodiscard]] Outcome<Recogniser> load_recogniser(const std::filesystem::path& folder);

}  // namespace ridgetally
