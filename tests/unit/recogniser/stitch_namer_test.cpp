#include "recogniser/stitch_namer.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

#include "core/stitch.h"
#include "unit/recogniser/drawn_tile.h"

namespace ridgetally::test {
namespace {

StitchNamer shipped_namer() {
    return load_stitch_namer(std::filesystem::path(RIDGETALLY_SOURCE_DIR) / "models/recogniser").value();
}

// What the training framework (PyTorch, weights rounded as in the file) gives for formula_tile(96). The
// allowance is that of float32 sums in another order.
TEST(StitchNamerGolden, AgreesWithTheTrainingFramework) {
    constexpr double allowance = 0.01;
    const cv::Mat kinds = shipped_namer().run(formula_tile(96));
    ASSERT_EQ(kinds.size(), cv::Size(6, 6));
    ASSERT_EQ(kinds.channels(), recognised_family_count + 2);
    struct Sample {
        cv::Point at;
        std::array<double, 11> expected;
    };
    const std::array<Sample, 2> samples = {Sample{{1, 2},
                                                  {-5.1946, -11.1958, -4.1163, -4.7275, -11.513, -8.6573,
                                                   -14.8059, 8.9966, 4.0585, -4.7237, 3.8275}},
                                           Sample{{4, 3},
                                                  {-6.2928, -14.3531, -4.9851, -3.7304, -12.2084, -7.534,
                                                   -15.1968, 6.7658, 4.1378, -6.321, 5.0647}}};
    for (const Sample& s : samples) {
        const auto* logits = kinds.ptr<float>(s.at.y) + s.at.x * 11;
        for (std::size_t k = 0; k < s.expected.size(); ++k)
            EXPECT_NEAR(logits[k], s.expected[k], allowance) << k;
    }
}

TEST(StitchNamerGolden, SameTileSameBytesWhateverRanBefore) {
    const StitchNamer namer = shipped_namer();
    const cv::Mat first = namer.run(formula_tile(64));
    (void)namer.run(formula_tile(160));
    EXPECT_EQ(cv::norm(first, namer.run(formula_tile(64)), cv::NORM_INF), 0.0);
}

TEST(StitchNamer, RefusesOtherShapes) {
    EXPECT_THROW((void)shipped_namer().run(cv::Mat::zeros(60, 60, CV_32FC1)), std::invalid_argument);
    EXPECT_THROW((void)shipped_namer().run(cv::Mat::zeros(64, 64, CV_8UC1)), std::invalid_argument);
}

/// The drawn swatch level and at the network's scale.
KindProbabilities look_at(Drawn what) {
    const DrawnSwatch swatch = drawn_swatch(what, 0.0);
    const double scale = StitchNamer::pitch_px / std::sqrt(swatch.stitch_pitch_px * swatch.row_pitch_px);
    cv::Mat picture;
    cv::Mat mask;
    cv::resize(swatch.bgr, picture, {}, scale, scale, cv::INTER_AREA);
    cv::resize(swatch.mask, mask, picture.size(), 0.0, 0.0, cv::INTER_NEAREST);
    return shipped_namer().look_at(picture, mask);
}

// Pictures of the scene renderer, which shares nothing with that of the training.
TEST(StitchNamer, KnowsDrawnFabrics) {
    const auto likeliest = [](const KindProbabilities& seen) {
        return std::max_element(seen.family.begin(), seen.family.end()) - seen.family.begin();
    };
    EXPECT_EQ(likeliest(look_at(Drawn::stockinette)), static_cast<int>(StitchFamily::stockinette));
    EXPECT_EQ(likeliest(look_at(Drawn::dc_flat)), static_cast<int>(StitchFamily::dc));
    EXPECT_EQ(likeliest(look_at(Drawn::sc_round)), static_cast<int>(StitchFamily::sc));
    EXPECT_GT(look_at(Drawn::sc_round).round, 0.5);
    EXPECT_LT(look_at(Drawn::dc_flat).round, 0.5);
}

TEST(StitchNamer, ProbabilitiesSumToOne) {
    const auto seen = shipped_namer().look_at(cv::Mat(200, 200, CV_8UC1, cv::Scalar(90)), {});
    EXPECT_NEAR(std::accumulate(seen.family.begin(), seen.family.end(), 0.0), 1.0, 1e-6);
    EXPECT_GE(seen.round, 0.0);
    EXPECT_LE(seen.round, 1.0);
}

}  // namespace
}  // namespace ridgetally::test
