#include "lattice/find_lattice.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/random.h"
#include "unit/lattice/drawn_fabric.h"

namespace ridgetally {
namespace {

/// A picture that the fabric fills, as a photo of 5 px a millimetre.
PatchSource source_of(const cv::Mat& picture) {
    PatchSource source;
    picture.convertTo(source.photo_grey, CV_8U);
    const double w = picture.cols - 1;
    const double h = picture.rows - 1;
    source.region.mask = cv::Mat(source.photo_grey.size(), CV_8U, cv::Scalar(255));
    source.region.outline_px = {{0, 0}, {w, 0}, {w, h}, {0, h}};
    source.photo_from_plane = PhotoFromObject{{5, 0, 0, 0, 5, 0, 0, 0, 1}};
    return source;
}

PatchSource source_of(const test::DrawnFabric& fabric) { return source_of(test::draw(fabric)); }

Outcome<Lattice> find_lattice(const PatchSource& source, const LatticeOptions& options) {
    const auto search = search_lattice(source, options);
    if (!search) return search.refusal();
    return settle_lattice(source, *search, {});
}

LatticeOptions told(RowHint hint, double direction_rad) {
    LatticeOptions options;
    options.row_hint = hint;
    options.row_direction_rad = direction_rad;
    options.priors = {{StitchFamily::sc, 0.89, 0.11, 0.0, {1, 2}}};
    return options;
}

class DrawnSwatches : public testing::TestWithParam<int> {};

// Exact truth by construction: pitch within 1 % and inside twice its own stated interval, whatever size, turn
// and face.
TEST_P(DrawnSwatches, AreReadWithinOnePerCent) {
    Random random(static_cast<std::uint64_t>(GetParam()));
    test::DrawnFabric fabric{.size = {900, 760}};
    fabric.stitch_px = random.uniform(18.0, 45.0);
    fabric.row_px = fabric.stitch_px * random.uniform(0.82, 0.98);
    fabric.turn_rad = random.uniform(-0.15, 0.15);
    fabric.faces = random.whole(1, 2);
    fabric.scatter = 0.05;
    fabric.noise_grey = 6.0;
    fabric.seed = random.next();
    const auto lattice = find_lattice(source_of(fabric), told(RowHint::told, 0.0));
    ASSERT_TRUE(lattice.ok()) << lattice.refusal().message;
    const double stitch_px = lattice->stitch_pitch_px.value / lattice->px_per_mm * 5.0;
    const double row_px = lattice->row_pitch_px->value / lattice->px_per_mm * 5.0;
    EXPECT_NEAR(stitch_px / fabric.stitch_px, 1.0, 0.01);
    EXPECT_NEAR(row_px / fabric.row_px, 1.0, 0.01);
    EXPECT_NEAR(lattice->row_direction_deg, fabric.turn_rad * 57.29578, 1.0);
}

INSTANTIATE_TEST_SUITE_P(Seeds, DrawnSwatches, testing::Range(1, 13));

TEST(FindLattice, TurnsRowsAQuarterWhereOnlyTheSidesAreKnown) {
    const test::DrawnFabric fabric{
        .size = {800, 800}, .stitch_px = 30.0, .row_px = 26.0, .turn_rad = 1.5707963, .scatter = 0.03};
    const auto lattice = find_lattice(source_of(fabric), told(RowHint::modulo_90, 0.05));
    ASSERT_TRUE(lattice.ok()) << lattice.refusal().message;
    EXPECT_NEAR(lattice->stitch_pitch_px.value / lattice->px_per_mm * 5.0, 30.0, 0.4);
    EXPECT_NEAR(std::abs(lattice->row_direction_deg), 90.0, 1.5);
}

TEST(FindLattice, MultipliesToldRepeats) {
    // One drawn V stands for a pattern repeat of 3 stitches by 2 rows.
    const test::DrawnFabric fabric{.size = {900, 760}, .stitch_px = 60.0, .row_px = 36.0, .scatter = 0.02};
    auto options = told(RowHint::told, 0.0);
    options.stitches_per_repeat = 3;
    options.rows_per_repeat = 2;
    const auto lattice = find_lattice(source_of(fabric), options);
    ASSERT_TRUE(lattice.ok()) << lattice.refusal().message;
    EXPECT_NEAR(lattice->stitch_pitch_px.value / lattice->px_per_mm * 5.0, 20.0, 0.2);
    EXPECT_NEAR(lattice->row_pitch_px->value / lattice->px_per_mm * 5.0, 18.0, 0.2);
}

TEST(FindLattice, RefusesNoise) {
    const auto lattice =
        find_lattice(source_of(test::noise_picture({600, 500}, 25.0, 9)), told(RowHint::told, 0.0));
    ASSERT_FALSE(lattice.ok());
    EXPECT_EQ(lattice.refusal().stage, "lattice");
}

}  // namespace
}  // namespace ridgetally
