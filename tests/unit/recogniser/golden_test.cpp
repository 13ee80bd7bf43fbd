#include <gtest/gtest.h>

#include <array>
#include <stdexcept>

#include "unit/recogniser/drawn_tile.h"

namespace ridgetally::test {
namespace {

// What the training framework (PyTorch, weights rounded as in the file) gives: scripts/train/golden.py. The
// allowance is that of float32 sums in another order through two dozen layers.
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

void expect_all(const PhaseFields& fields, const std::array<Sample, 3>& samples, const Kinds& kinds) {
    for (const Sample& s : samples) expect_fields(fields, s);
    expect_kinds(fields, kinds);
}

TEST(PhaseFieldsGolden, AgreesWithTheTrainingFrameworkOnWhatIsNoFabric) {
    const std::array<Sample, 3> samples = {
        Sample{{7, 5}, {-0.00077, -0.00153, -0.00313, -0.00057, -2.37976}},
        Sample{{16, 16}, {0.00686, -0.00189, -0.00044, -0.00609, -3.40642}},
        Sample{{29, 20}, {-0.00387, -0.00511, -0.00050, -0.00676, -2.24041}}};
    const Kinds kinds = {-1.4431, -6.3971, -2.4714, -0.3771, -5.3153, -1.5401,
                         -2.4296, 2.3072,  -3.4690, -2.6728, 2.3144};
    expect_all(shipped_recogniser().run(formula_tile(64)), samples, kinds);
}

TEST(PhaseFieldsGolden, AgreesWithTheTrainingFrameworkOnVsOverEachOther) {
    const std::array<Sample, 3> samples = {
        Sample{{7, 5}, {-0.97985, 0.39605, 0.13654, 0.86355, 9.82505}},
        Sample{{16, 16}, {-0.91865, -0.44582, -0.73537, 0.76884, 10.26172}},
        Sample{{29, 20}, {0.32696, 0.92417, -0.31363, -0.80951, 10.22322}}};
    const Kinds kinds = {0.4296,  -13.5357, -1.3025,  -6.3968, -18.2897, -8.2706,
                         -7.7533, 10.8917,  -11.8100, -4.8549, 3.6805};
    expect_all(shipped_recogniser().run(chevron_tile(64)), samples, kinds);
}

TEST(ScoutGolden, AgreesWithTheTrainingFrameworkOnWhatIsNoFabric) {
    const std::array<Sample, 3> samples = {
        Sample{{7, 5}, {-0.01641, -0.02327, 0.01883, -0.00167, -1.40774}},
        Sample{{16, 16}, {0.01229, -0.00529, 0.00048, -0.00036, -1.83540}},
        Sample{{29, 20}, {-0.00834, 0.00440, 0.00374, -0.01498, -1.23645}}};
    const Kinds kinds = {-0.4658, -5.8112, -2.3151, -1.8955, -6.6154, -3.9725,
                         -3.5377, 2.8916,  -3.9469, -2.1631, 1.8496};
    expect_all(shipped_recogniser().run(formula_tile(64), Sight::scout), samples, kinds);
}

TEST(ScoutGolden, AgreesWithTheTrainingFrameworkOnVsOverEachOther) {
    const std::array<Sample, 3> samples = {Sample{{7, 5}, {-0.92113, 0.58910, -0.26410, 0.84632, 8.15038}},
                                           Sample{{16, 16}, {-0.98520, -0.22540, -0.75840, 0.39466, 5.77065}},
                                           Sample{{29, 20}, {0.39019, 0.91757, 0.07594, -0.81847, 7.04728}}};
    const Kinds kinds = {1.3536,  -10.3014, -0.6634, -4.1384, -14.3037, -8.1523,
                         -7.7136, 7.1635,   -9.1764, -4.3006, 3.6002};
    expect_all(shipped_recogniser().run(chevron_tile(64), Sight::scout), samples, kinds);
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
