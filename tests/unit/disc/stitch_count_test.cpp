#include "disc/stitch_count.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "core/random.h"
#include "disc/whole_count.h"

namespace ridgetally {
namespace {

struct Round {
    int stitches = 45;
    double scatter = 0.1;  ///< of the widths, relative
    double noise = 0.0;    ///< of the phase vectors, against their length of 1
    int columns = 600;
    unsigned long long seed = 1;
};

ClosedPhase phases(const Round& round) {
    Random random(round.seed);
    std::vector<double> edges{0.0};
    for (int i = 0; i < round.stitches; ++i)
        edges.push_back(edges.back() + std::max(0.4, 1.0 + random.normal(0.0, round.scatter)));
    ClosedPhase phase;
    std::size_t stitch = 0;
    for (int x = 0; x < round.columns; ++x) {
        const double at = edges.back() * x / round.columns;
        while (at >= edges[stitch + 1]) ++stitch;
        const double part = (at - edges[stitch]) / (edges[stitch + 1] - edges[stitch]);
        phase.push_back(
            std::polar(1.0, 2.0 * std::numbers::pi * part) +
            std::complex<double>(random.normal(0.0, round.noise), random.normal(0.0, round.noise)));
    }
    return phase;
}

int counted(const ClosedPhase& phase, int least, int most) {
    return most_likely(score_counts(phase, least, most), 1.0).value;
}

TEST(StitchCount, EvenRoundsAreCounted) {
    for (const int stitches : {6, 12, 31, 60, 117})
        EXPECT_EQ(
            counted(phases({stitches, 0.0, 0.0, 20 * stitches, 1}), stitches * 4 / 5, stitches * 6 / 5 + 1),
            stitches);
}

TEST(StitchCount, UnevenRoundsAreCountedWhole) {
    // Hand work: neighbouring stitches differ by a tenth; the round is closed, so none is gained or lost.
    int right = 0;
    for (unsigned long long seed = 1; seed <= 20; ++seed)
        right += counted(phases({45, 0.10, 0.3, 600, seed}), 36, 54) == 45 ? 1 : 0;
    EXPECT_GE(right, 19);
}

TEST(StitchCount, WhereTheRoundIsBlurredNeighboursAreNotExcluded) {
    ClosedPhase phase = phases({45, 0.1, 0.2, 600, 5});
    for (std::size_t i = 100; i < 180; ++i) phase[i] *= 0.02;  // six stitches cannot be seen
    const WholeCount count = most_likely(score_counts(phase, 36, 54), 0.5);
    EXPECT_LE(count.least, 45);
    EXPECT_GE(count.most, 45);
    EXPECT_LT(count.least, count.most);
}

TEST(StitchCount, AMirroredRoundHasAsManyTheOtherWay) {
    // Phases that fall instead of rising agree with no number of stitches above zero.
    ClosedPhase phase = phases({30, 0.05, 0.0, 400, 2});
    const auto forwards = score_counts(phase, 30, 30).front().score;
    for (auto& z : phase) z = std::conj(z);
    EXPECT_LT(score_counts(phase, 30, 30).front().score, 0.3 * forwards);
}

TEST(StitchCount, NothingToCountIsMisuse) {
    EXPECT_THROW((void)score_counts({}, 5, 9), std::invalid_argument);
    EXPECT_THROW((void)score_counts(phases({}), 9, 5), std::invalid_argument);
    EXPECT_THROW((void)most_likely({}, 1.0), std::invalid_argument);
}

TEST(PhaseAlong, TakesPartsOfRows) {
    cv::Mat field(4, 3, CV_32FC2, cv::Scalar(0, 0));
    field.row(1).setTo(cv::Scalar(1, 0));
    field.row(2).setTo(cv::Scalar(0, 1));
    const ClosedPhase half = phase_along(field, 1.5, 2.5);
    ASSERT_EQ(half.size(), 3U);
    EXPECT_NEAR(half[1].real(), 0.5, 1e-9);
    EXPECT_NEAR(half[1].imag(), 0.5, 1e-9);
}

TEST(WholeCount, ClearOddsLeaveOneNumber) {
    const WholeCount count = most_likely({{44, -8.0}, {45, 0.0}, {46, -9.0}}, 1.0);
    EXPECT_EQ(count.value, 45);
    EXPECT_EQ(count.least, 45);
    EXPECT_EQ(count.most, 45);
    EXPECT_GT(count.chance, 0.99);
}

TEST(WholeCount, EvenOddsKeepBoth) {
    const WholeCount count = most_likely({{44, -9.0}, {45, 0.0}, {46, -0.1}}, 1.0);
    EXPECT_EQ(count.least, 45);
    EXPECT_EQ(count.most, 46);
    EXPECT_NEAR(count.chance, 1.0 / (1.0 + std::exp(-0.1)), 1e-3);
}

}  // namespace
}  // namespace ridgetally
