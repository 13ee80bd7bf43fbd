#pragma once

#include <filesystem>
#include <memory>
#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "core/outcome.h"

namespace ridgetally {

/// Side of the empty tile that a network is tried on when it is loaded.
inline constexpr int trial_side_px = 64;

/// A learned network whose weights were checked: a cheap value to copy; copies share the weights and may be
/// used from several threads, each of which then has memory of its own to run it in.
class LearnedNetwork {
  public:
    /// Runs the network on a locally normalised tile: CV_32FC1, its sides multiples of 16. One blob (1,
    /// channels, rows, columns) a named output. Throws std::invalid_argument for any other picture.
    [[nodiscard]] std::vector<cv::Mat> run(const cv::Mat& tile,
                                           const std::vector<std::string>& outputs) const;

  private:
    class Idle;
    explicit LearnedNetwork(std::shared_ptr<Idle> idle) : idle_(std::move(idle)) {}
    friend Outcome<LearnedNetwork> load_network(const std::filesystem::path& folder, const std::string& key);
    std::shared_ptr<Idle> idle_;
};

/// Loads the file that `folder`/manifest.json names under `key` and compares its SHA-256 with the one given
/// there. Refusals (stage "recogniser", code "no-weights"): a file is missing, damaged or of another version.
[[nodiscard]] Outcome<LearnedNetwork> load_network(const std::filesystem::path& folder,
                                                   const std::string& key);

/// The refusal of weights that cannot be used.
[[nodiscard]] Refusal no_weights(const std::string& why);

/// `count` channels of a blob from `first` on, as one picture.
[[nodiscard]] cv::Mat channels_of(const cv::Mat& blob, int first, int count);

}  // namespace ridgetally
