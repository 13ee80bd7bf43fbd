#include "lattice/reading.h"

#include <gtest/gtest.h>

#include <cmath>

#include "lattice/texture.h"
#include "unit/lattice/drawn_fabric.h"

namespace ridgetally {
namespace {

std::vector<Reading> readings(const cv::Mat& picture, const SearchOptions& options) {
    const cv::Mat mask(picture.size(), CV_8U, cv::Scalar(255));
    return search_readings(autocorrelation(texture_channels(picture, mask, {}), mask, 200), options);
}

SearchOptions told(double height_over_width, std::vector<int> rows_per_period) {
    SearchOptions options;
    for (int d = -12; d <= 12; d += 2) options.row_directions_rad.push_back(d / 57.29578);
    options.priors = {{StitchFamily::sc, height_over_width, 0.11, 0.0, std::move(rows_per_period)}};
    return options;
}

TEST(SearchReadings, FindsTheStitchNotItsTwoLegs) {
    const auto found =
        readings(test::draw({.stitch_px = 26.0, .row_px = 23.0, .scatter = 0.06, .noise_grey = 8.0}),
                 told(0.89, {1, 2}));
    ASSERT_FALSE(found.empty());
    EXPECT_NEAR(found[0].stitch_pitch_px, 26.0, 1.0);
    EXPECT_NEAR(found[0].row_pitch_px(), 23.0, 1.0);
}

// Turned work repeats every two rows; the row is half of that.
TEST(SearchReadings, CountsBothFacesOfTurnedWork) {
    const auto found = readings(
        test::draw({.stitch_px = 26.0, .row_px = 23.0, .faces = 2, .scatter = 0.06, .noise_grey = 8.0}),
        told(0.89, {1, 2}));
    ASSERT_FALSE(found.empty());
    EXPECT_NEAR(found[0].row_pitch_px(), 23.0, 1.0);
    EXPECT_EQ(found[0].rows_per_period, 2);
}

// In the round every round starts a little to the side; the perpendicular row pitch stays.
TEST(SearchReadings, LetsRowsShiftSideways) {
    const auto found =
        readings(test::draw({.stitch_px = 26.0, .row_px = 23.0, .shift_per_row = 0.2, .scatter = 0.04}),
                 told(0.89, {1}));
    ASSERT_FALSE(found.empty());
    EXPECT_NEAR(found[0].stitch_pitch_px, 26.0, 1.0);
    EXPECT_NEAR(found[0].row_pitch_px(), 23.0, 1.0);
}

TEST(SearchReadings, KeepsRivals) {
    const auto found = readings(test::draw({.stitch_px = 26.0, .row_px = 23.0}), told(0.89, {1, 2}));
    ASSERT_GT(found.size(), 2U);
    for (std::size_t i = 1; i < found.size(); ++i) EXPECT_LE(found[i].score, found[i - 1].score);
}

TEST(SearchReadings, NoiseHasNoComb) {
    const auto found = readings(test::noise_picture({600, 500}, 20.0, 5), told(0.89, {1}));
    ASSERT_FALSE(found.empty());
    EXPECT_LT(found[0].stitch_score, 0.1);
}

}  // namespace
}  // namespace ridgetally
