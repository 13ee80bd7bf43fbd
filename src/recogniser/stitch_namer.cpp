#include "recogniser/stitch_namer.h"

#include <algorithm>
#include <utility>

#include "recogniser/tile.h"

namespace ridgetally {
namespace {

/// Softens the probabilities: fitted to the stitches of 132 pictures of the scene renderer of tests/synthetic
/// (seeds 810000 to 812013), which no network was trained on. On the training renderer's own pictures 1.05
/// would do.
constexpr double temperature = 2.2;

}  // namespace

cv::Mat StitchNamer::run(const cv::Mat& tile) const {
    const auto out = network_.run(tile, {"kinds"});
    return channels_of(out[0], 0, out[0].size[1]);
}

KindProbabilities StitchNamer::look_at(const cv::Mat& picture, const cv::Mat& mask) const {
    TileFrame frame;
    frame.centre_px = {0.5 * (picture.cols - 1), 0.5 * (picture.rows - 1)};
    const int longer = (std::max(picture.cols, picture.rows) + 15) / 16 * 16;
    frame.side_px = std::clamp(longer, 64, most_side_px);
    const Tile tile = cut_tile(unit_grey(picture), mask, frame);
    return kinds_of(run(tile.picture), tile.seen, temperature);
}

Outcome<StitchNamer> load_stitch_namer(const std::filesystem::path& folder) {
    auto network = load_network(folder, "stitch_families");
    if (!network) return network.refusal();
    try {
        StitchNamer namer(std::move(network).value());
        const cv::Mat kinds = namer.run(cv::Mat::zeros(trial_side_px, trial_side_px, CV_32FC1));
        if (kinds.channels() != recognised_family_count + 2)
            return no_weights("the stitch families have other outputs");
        return namer;
    } catch (const cv::Exception& fault) {
        return no_weights("the stitch families cannot be computed: " + fault.err);
    }
}

}  // namespace ridgetally
