#include <gtest/gtest.h>

#include <cmath>

#include "synthetic/crown_scene.h"
#include "synthetic/crown_tubes.h"
#include "synthetic/render.h"
#include "synthetic/stitch_paths.h"

namespace ridgetally::synthetic {
namespace {

Fabric even_crown(int rounds, int increase) {
    Fabric f;
    f.family = StitchFamily::sc;
    f.worked = Worked::round;
    f.unevenness = 0.0;
    f.tail = false;
    f.lean = 0.0;
    f.stitch_pitch_mm = 6.0;
    Crown crown;
    crown.ring_mm = 3.0;
    for (int r = 1; r <= rounds; ++r) crown.rounds.push_back({StitchFamily::sc, increase * r, 6.0});
    f.crown = crown;
    return f;
}

TEST(CrownGrid, RoundsStandOneOutsideTheOther) {
    const CrownGrid grid(even_crown(5, 6));
    EXPECT_NEAR(grid.radius_mm(), 3.0 + 5 * 6.0, 1e-9);
    for (int r = 0; r < 5; ++r) {
        const Vec3 top = grid.at(r, 2, 0.5, 1.0);
        EXPECT_NEAR(std::hypot(top.x, top.y), 3.0 + 6.0 * (r + 1), 1e-9);
    }
}

TEST(CrownGrid, ARoundClosesUponItself) {
    const CrownGrid grid(even_crown(4, 8));
    const Vec3 first = grid.at(3, 0, 0.0, 1.0);
    const Vec3 last = grid.at(3, 31, 1.0, 1.0);
    EXPECT_NEAR(first.x, last.x, 1e-9);
    EXPECT_NEAR(first.y, last.y, 1e-9);
}

TEST(CrownGrid, ASpiralClimbsByOneRoundATurn) {
    Fabric f = even_crown(4, 8);
    f.crown->joining = Joining::spiral;
    const CrownGrid grid(f);
    const Vec3 end = grid.at(1, 15, 1.0, 1.0);
    const Vec3 next = grid.at(2, 0, 0.0, 1.0);
    EXPECT_NEAR(std::hypot(end.x, end.y), std::hypot(next.x, next.y), 1e-6);
}

TEST(CrownTubes, EveryStitchOfEveryRoundIsWorked) {
    Fabric f = even_crown(4, 6);
    const std::size_t each = stitch_strands(StitchFamily::sc, Face::front, LoopRidge::facing, f.shape).size();
    EXPECT_EQ(crown_tubes(f, 0, 0.0).size(), 1 + each * (6 + 12 + 18 + 24));
}

TEST(CrownTruth, IsTheAreaOfTheYarnsOutline) {
    Fabric f = even_crown(5, 6);
    const CrownTruth plain = crown_truth(f);
    // The last round's loops reach over its boundary line (by up to 0.15 rounds in stitch_paths) and are a
    // yarn thick.
    const double radius = CrownGrid(f).radius_mm();
    const double yarn = f.yarn_radius_ratio * f.stitch_pitch_mm;
    EXPECT_GT(plain.diameter_mm, 2.0 * radius);
    EXPECT_LT(plain.diameter_mm, 2.0 * (radius + 0.2 * 6.0 + yarn));
    EXPECT_GE(plain.diameter_max_mm, plain.diameter_min_mm);
    EXPECT_EQ(plain.rounds, 5);
    EXPECT_EQ(plain.stitches, (std::vector<int>{6, 12, 18, 24, 30}));
    // Loose ends are not part of it.
    f.tail = true;
    f.crown->rim_loops = 3;
    EXPECT_DOUBLE_EQ(crown_truth(f).diameter_mm, plain.diameter_mm);
}

TEST(CrownTruth, AnOvalIsLongerOneWay) {
    Fabric f = even_crown(5, 6);
    f.crown->oval = 0.06;
    const CrownTruth truth = crown_truth(f);
    EXPECT_NEAR(truth.diameter_max_mm / truth.diameter_min_mm, 1.03 / 0.97, 0.02);
}

TEST(RandomCrown, SameSeedSameCrownAndAllOfItInTheFrame) {
    Variety whole;
    whole.partial_share = 0.0;
    for (const std::uint64_t seed : {3ULL, 4ULL}) {
        const Shot shot = random_crown(seed, whole);
        EXPECT_EQ(shot.kind, "crown");
        const Truth truth = truth_of(shot.scene);
        EXPECT_DOUBLE_EQ(truth.crowns.front().diameter_mm,
                         truth_of(random_crown(seed, whole).scene).crowns.front().diameter_mm);
        EXPECT_GT(truth.fabric_in_frame.front(), 0.999);
    }
}

}  // namespace
}  // namespace ridgetally::synthetic
