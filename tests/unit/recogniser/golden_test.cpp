#include <gtest/gtest.h>

#include <array>
#include <stdexcept>

#include "unit/recogniser/drawn_tile.h"

namespace ridgetally::test {
namespace {

// What the training framework (PyTorch, unfolded weights of the checkpoint) gives for formula_tile(64). The
// allowance is that of float32 sums in another order through two dozen layers.
constexpr double allowance = 2e-3;

TEST(PhaseFieldsGolden, AgreesWithTheTrainingFramework) {
    const PhaseFields fields = shipped_recogniser().run(formula_tile(64));
    struct Sample {
        cv::Point at;
        std::array<double, 5> expected;
    };
    const std::array<Sample, 3> samples = {
        Sample{{7, 5}, {-0.0173, 0.02223, 0.04802, 0.00716, 0.41299}},
        Sample{{16, 16}, {-0.00479, 0.00374, -0.00931, 0.00983, -0.84194}},
        Sample{{29, 20}, {-0.00066, -0.00357, 0.00394, 0.00322, -0.87905}}};
    for (const Sample& s : samples) {
        const auto stitch = fields.stitch.at<cv::Vec2f>(s.at);
        const auto row = fields.row.at<cv::Vec2f>(s.at);
        EXPECT_NEAR(stitch[0], s.expected[0], allowance);
        EXPECT_NEAR(stitch[1], s.expected[1], allowance);
        EXPECT_NEAR(row[0], s.expected[2], allowance);
        EXPECT_NEAR(row[1], s.expected[3], allowance);
        EXPECT_NEAR(fields.fabric.at<float>(s.at), 1.0 / (1.0 + std::exp(-s.expected[4])), allowance);
    }
    const std::array<double, 11> kinds = {-0.41251, -6.6115, -5.21587, 0.2211,   -7.79522, 0.65092,
                                          -0.89788, 0.55481, -2.04381, -1.29227, 0.41653};
    const auto* logits = fields.kinds.ptr<float>(3) + 4 * 11;
    for (std::size_t k = 0; k < kinds.size(); ++k) EXPECT_NEAR(logits[k], kinds[k], 10 * allowance) << k;
}

TEST(PhaseFieldsGolden, SizesOfTheMaps) {
    const PhaseFields fields = shipped_recogniser().run(formula_tile(96));
    EXPECT_EQ(fields.stitch.size(), cv::Size(48, 48));
    EXPECT_EQ(fields.row.size(), cv::Size(48, 48));
    EXPECT_EQ(fields.kinds.size(), cv::Size(12, 12));
}

TEST(PhaseFieldsGolden, SameTileSameBytesWhateverRanBefore) {
    const Recogniser recogniser = shipped_recogniser();
    const PhaseFields first = recogniser.run(formula_tile(64));
    (void)recogniser.run(formula_tile(160));
    const PhaseFields again = recogniser.run(formula_tile(64));
    EXPECT_EQ(cv::norm(first.stitch, again.stitch, cv::NORM_INF), 0.0);
    EXPECT_EQ(cv::norm(first.kinds, again.kinds, cv::NORM_INF), 0.0);
}

TEST(PhaseFieldsGolden, RefusesOtherShapes) {
    const Recogniser recogniser = shipped_recogniser();
    EXPECT_THROW((void)recogniser.run(cv::Mat::zeros(64, 40, CV_32FC1)), std::invalid_argument);
    EXPECT_THROW((void)recogniser.run(cv::Mat::zeros(60, 60, CV_32FC1)), std::invalid_argument);
    EXPECT_THROW((void)recogniser.run(cv::Mat::zeros(64, 64, CV_8UC1)), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally::test
