#include "recogniser/recogniser.h"

#include <string>
#include <utility>

namespace ridgetally {
namespace {

constexpr int field_planes = 5;

cv::Mat logistic(const cv::Mat& logits) {
    cv::Mat e;
    cv::exp(-logits, e);
    cv::Mat probability = 1.0 / (1.0 + e);
    return probability;
}

}  // namespace

PhaseFields Recogniser::run(const cv::Mat& tile, Sight sight) const {
    const auto out = (sight == Sight::scout ? scout_ : full_).run(tile, {"fields", "kinds"});
    PhaseFields fields;
    fields.stitch = channels_of(out[0], 0, 2);
    fields.row = channels_of(out[0], 2, 2);
    fields.fabric = logistic(channels_of(out[0], field_planes - 1, 1));
    fields.kinds = channels_of(out[1], 0, out[1].size[1]);
    return fields;
}

Outcome<Recogniser> load_recogniser(const std::filesystem::path& folder) {
    auto full = load_network(folder, "phase_fields");
    if (!full) return full.refusal();
    auto scout = load_network(folder, "scout");
    if (!scout) return scout.refusal();
    try {
        Recogniser recogniser(std::move(full).value(), std::move(scout).value());
        // The other network has the same layers, and costs more to set up than many a photo needs of it.
        const cv::Mat nothing = cv::Mat::zeros(trial_side_px, trial_side_px, CV_32FC1);
        if (recogniser.run(nothing, Sight::scout).kinds.channels() != recognised_family_count + 2)
            return no_weights("the phase fields have other outputs");
        return recogniser;
    } catch (const cv::Exception& fault) {
        return no_weights("the phase fields cannot be computed: " + fault.err);
    }
}

}  // namespace ridgetally
