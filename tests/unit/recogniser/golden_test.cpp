#include <gtest/gtest.h>

#include <array>
#include <stdexcept>

#include "unit/recogniser/drawn_tile.h"

namespace ridgetally::test {
namespace {

// What the training framework (PyTorch, unfolded weights of the checkpoint) gives. The allowance is that of
// float32 sums in another order through two dozen layers.
constexpr double allowance = 2e-3;

using Kinds = std::array<double, 11>;

struct Sample {
    cv::Point at;
    std::array<double, 5> expected;  ///< cos and sin of the stitch and of the row phase, logit of fabric
};

void expect_fields(const PhaseFields& fields, const Sample& s) {
    const auto stitch = fields.stitch.at<cv::Vec2f>(s.at);
    const auto row = fields.row.at<cv::Vec2f>(s.at);
    EXPECT_NEAR(stitch[0], s.expected[0], allowance);
    EXPECT_NEAR(stitch[1], s.expected[1], allowance);
    EXPECT_NEAR(row[0], s.expected[2], allowance);
    EXPECT_NEAR(row[1], s.expected[3], allowance);
    EXPECT_NEAR(fields.fabric.at<float>(s.at), 1.0 / (1.0 + std::exp(-s.expected[4])), allowance);
}

void expect_kinds(const PhaseFields& fields, const Kinds& kinds) {
    const auto* logits = fields.kinds.ptr<float>(3) + 4 * 11;
    for (std::size_t k = 0; k < kinds.size(); ++k) EXPECT_NEAR(logits[k], kinds[k], 10 * allowance) << k;
}

TEST(PhaseFieldsGolden, AgreesWithTheTrainingFrameworkOnWhatIsNoFabric) {
    const std::array<Sample, 3> formula = {
        Sample{{7, 5}, {0.00349, -0.00407, -0.00187, 0.00016, -2.47449}},
        Sample{{16, 16}, {0.00706, -0.00649, 0.00036, -0.00364, -3.50527}},
        Sample{{29, 20}, {0.00023, -0.00906, -0.00075, -0.00517, -2.28900}}};
    const Kinds formula_kinds = {-1.5528, -6.5302, -2.4475, -0.4388, -5.4737, -1.5505,
                                 -2.2135, 2.2540,  -3.5058, -2.6740, 2.3093};
    const PhaseFields fields = shipped_recogniser().run(formula_tile(64));
    for (const Sample& s : formula) expect_fields(fields, s);
    expect_kinds(fields, formula_kinds);
}

TEST(PhaseFieldsGolden, AgreesWithTheTrainingFrameworkOnVsOverEachOther) {
    const std::array<Sample, 3> chevron = {
        Sample{{7, 5}, {-0.97662, 0.39193, 0.15925, 0.86325, 9.81021}},
        Sample{{16, 16}, {-0.90978, -0.45747, -0.70757, 0.79271, 10.33700}},
        Sample{{29, 20}, {0.32804, 0.92505, -0.34665, -0.80386, 10.19031}}};
    const Kinds chevron_kinds = {0.4017,  -13.4172, -1.3137,  -6.4774, -18.2779, -8.3615,
                                 -7.8794, 10.8483,  -11.8973, -4.9538, 3.7303};
    const PhaseFields fields = shipped_recogniser().run(chevron_tile(64));
    for (const Sample& s : chevron) expect_fields(fields, s);
    expect_kinds(fields, chevron_kinds);
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
