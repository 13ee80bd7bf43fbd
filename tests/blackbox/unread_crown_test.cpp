#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>

#include "blackbox/measured_shot.h"
#include "synthetic/crown_scene.h"
#include "synthetic/refusals.h"

namespace ridgetally::blackbox {
namespace {

using synthetic::Shot;

constexpr double megapixels = 0.4;

/// A crown of black yarn on a light table in even light, in the photo of a phone whose picture is noisy and
/// soft: the edge is as clear as ever, most of the stitches are lost.
Shot dark_crown(std::uint64_t seed) {
    synthetic::Variety variety;
    variety.megapixels = megapixels;
    variety.partial_share = 0.0;
    variety.max_tilt_deg = 3.0;  // of which a scale by two points says nothing
    Shot shot = synthetic::random_crown(seed, variety);
    auto& yarn = shot.scene.fabrics.front().yarn;
    yarn.colours = {{14, 14, 14}};
    yarn.heather = 0.02;
    shot.scene.rulers.clear();  // its marks would be lost before the stitches
    shot.scene.table.colour = {228, 230, 232};
    shot.scene.table.contrast = 0.4;
    shot.scene.light.ambient = 1.0;
    shot.scene.sensor.noise = 6.0;
    shot.scene.sensor.blur_px = 2.0;
    return shot;
}

/// A true length across the photo, at the height of the yarn.
TwoPointScale by_hand(const Shot& shot, const synthetic::Truth& truth) {
    const auto& camera = shot.scene.camera;
    const double y = 0.5 * camera.height_px, from = 0.1 * camera.width_px, to = 0.9 * camera.width_px;
    const double mm_per_px = (camera.distance_mm - truth.fabric_lift_mm.front()) / truth.focal_px;
    return {{from, y}, {to, y}, mm_per_px * (to - from)};
}

bool warns(const CrownResult& got, const std::string& code) {
    return std::any_of(got.warnings.begin(), got.warnings.end(),
                       [&](const Warning& warning) { return warning.code == code; });
}

/// Nothing that hangs on counts.
void expect_size_alone(const CrownResult& got) {
    EXPECT_FALSE(got.rounds);
    EXPECT_FALSE(got.last_round_stitches);
    EXPECT_TRUE(got.round_stitches.empty());
    EXPECT_FALSE(got.stitches_per_10cm);
    EXPECT_FALSE(got.rounds_per_10cm);
    EXPECT_TRUE(got.round_diameters.empty());
    EXPECT_TRUE(got.overlay.rounds.empty());
    EXPECT_TRUE(got.overlay.stitches.empty());
}

// Where nothing but the size can be read, that is the answer, with its interval, and a warning says so.
TEST(UnreadCrowns, TheDiameterIsGivenWhereRoundsAreNotRead) {
    int unread = 0;
    for (std::uint64_t seed = 300; seed < 307; ++seed) {
        const Shot shot = dark_crown(seed);
        const Taken photo = taken(shot);
        CrownOptions options;
        options.scale.two_points = by_hand(shot, photo.truth);
        Trace nobody_listens;
        const auto got = measure_crown(photo.photo, knowledge(), options, nobody_listens);
        if (!got) {
            std::cout << seed << ": refused\n";
            EXPECT_EQ(got.refusal().code, "no-stitches") << seed;
            continue;
        }
        EXPECT_EQ(got->rounds.has_value(), !warns(*got, "rounds-unread")) << seed;
        std::cout << seed << ": " << (got->rounds ? "counted" : "size alone") << "\n";
        if (got->rounds) continue;
        ++unread;
        expect_size_alone(*got);
        const double truth_mm = photo.truth.crowns.front().diameter_mm;
        EXPECT_LE(got->diameter_mm.low95(), truth_mm) << seed;
        EXPECT_GE(got->diameter_mm.high95(), truth_mm) << seed;
    }
    EXPECT_GE(unread, 1);
}

class RoundThings : public testing::TestWithParam<std::string> {};

// A plate, a coin, a ball of yarn, a coaster of cloth or cork: round, clearly outlined and no crown.
TEST_P(RoundThings, AreNoCrowns) {
    synthetic::Variety variety;
    variety.megapixels = megapixels;
    for (const std::uint64_t seed : {801ULL, 802ULL}) {
        const Shot shot = synthetic::random_refusal(seed, GetParam(), variety);
        Trace nobody_listens;
        const auto got = measure_crown(taken(shot).photo, knowledge(), {}, nobody_listens);
        EXPECT_FALSE(got) << seed << ": a crown of " << got.value().diameter_mm.value << " mm";
    }
}

INSTANTIATE_TEST_SUITE_P(Photos, RoundThings, testing::ValuesIn(synthetic::round_things()),
                         [](const auto& kind) { return as_test_name(kind.param); });

}  // namespace
}  // namespace ridgetally::blackbox
