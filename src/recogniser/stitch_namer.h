#pragma once

#include <filesystem>
#include <opencv2/core.hpp>

#include "core/outcome.h"
#include "recogniser/group.h"
#include "recogniser/learned_network.h"
#include "recogniser/phase_fields.h"

namespace ridgetally {

/// The learned network that names the stitch once the lattice is known: a cheap value to copy, as
/// LearnedNetwork.
class StitchNamer {
  public:
    /// Root of stitch x row pitch in the pictures it takes, px: the scale it was trained at.
    static constexpr double pitch_px = 24.0;
    /// Side of the largest tile it looks at, px: nine stitches by nine rows. Not swept; larger costs
    /// its square.
    static constexpr int most_side_px = 224;

    /// What the middle of the fabric looks like. `picture` as in unit_grey(), rows level, at pitch_px a
    /// stitch; `mask` (CV_8UC1 of the same size, 255 on fabric) may be empty.
    [[nodiscard]] KindProbabilities look_at(const cv::Mat& picture, const cv::Mat& mask) const;

    /// Logits at a sixteenth of a locally normalised tile: CV_32FC(11), nine families, then flat and round.
    [[nodiscard]] cv::Mat run(const cv::Mat& tile) const;

  private:
    explicit StitchNamer(LearnedNetwork network) : network_(std::move(network)) {}
    friend Outcome<StitchNamer> load_stitch_namer(const std::filesystem::path& folder);
    LearnedNetwork network_;
};

/// Loads the network that `folder`/manifest.json names, as load_recogniser() does.
[[nodiscard]] Outcome<StitchNamer> load_stitch_namer(const std::filesystem::path& folder);

}  // namespace ridgetally
