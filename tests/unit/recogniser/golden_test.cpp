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
        Sample{{7, 5}, {-0.01583, -0.00729, -0.00008, 0.02593, -1.23104}},
        Sample{{16, 16}, {0.00983, -0.01188, -0.00507, -0.00469, -0.88895}},
        Sample{{29, 20}, {0.04798, -0.01502, 0.00464, -0.01191, -0.33693}}};
    for (const Sample& s : samples) {
        const auto stitch = fields.stitch.at<cv::Vec2f>(s.at);
        const auto row = fields.row.at<cv::Vec2f>(s.at);
        EXPECT_NEAR(stitch[0], s.expected[0], allowance);
        EXPECT_NEAR(stitch[1], s.expected[1], allowance);
        EXPECT_NEAR(row[0], s.expected[2], allowance);
        EXPECT_NEAR(row[1], s.expected[3], allowance);
        EXPECT_NEAR(fields.fabric.at<float>(s.at), 1.0 / (1.0 + std::exp(-s.expected[4])), allowance);
    }
    const std::array<double, 11> kinds = {-1.0002,  -7.02165, -2.35655, 0.20106, -5.69679, -2.89264,
                                          -3.58217, 2.65227,  -2.8708,  -3.2183, 2.92007};
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
