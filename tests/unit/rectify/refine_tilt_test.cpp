#include "rectify/refine_tilt.h"

#include <gtest/gtest.h>

#include <cmath>

#include "unit/rectify/coverage.h"
#include "unit/rectify/made_up_camera.h"

namespace ridgetally {
namespace {

using testing::CameraPlace;
using testing::Coverage;
using testing::Graduation;

constexpr double height_mm = 2.0;

/// A made-up fabric: 4.6 mm stitches, 4.1 mm rows, 12 x 12 places of local pitch over 110 mm, drifting.
std::vector<PitchSample> pitches(const CameraPose& camera, Random& random, double drift, double noise) {
    const auto project = photo_from_plane(camera, height_mm);
    std::vector<PitchSample> samples;
    double slope[2][2];
    for (auto& kind : slope)
        for (auto& s : kind) s = random.normal(0.0, drift) / 110.0;
    for (int i = 0; i < 12; ++i)
        for (int j = 0; j < 12; ++j) {
            const ObjectPoint at{30.0 + 10.0 * i, 25.0 + 10.0 * j};
            for (const auto kind : {PitchKind::stitch, PitchKind::row}) {
                const auto* s = slope[static_cast<std::size_t>(kind)];
                const double pitch =
                    (kind == PitchKind::stitch ? 4.6 : 4.1) *
                    (1.0 + s[0] * (at.x - 85.0) + s[1] * (at.y - 80.0) + random.normal(0.0, noise));
                const double dx = kind == PitchKind::stitch ? pitch : 0.0;
                const double dy = kind == PitchKind::stitch ? 0.0 : pitch;
                const PhotoPoint a = project(ObjectPoint{at.x - dx / 2, at.y - dy / 2});
                const PhotoPoint b = project(ObjectPoint{at.x + dx / 2, at.y + dy / 2});
                samples.push_back({kind, {(a.x + b.x) / 2, (a.y + b.y) / 2}, b.x - a.x, b.y - a.y, noise});
            }
        }
    return samples;
}

struct Findings {
    Coverage before, after;
    double moved = 0.0;
};

Findings photograph(double drift, double mark_length) {
    Random random(5150);
    Findings found;
    for (int i = 0; i < 120; ++i) {
        CameraPlace place;
        place.anchor_mm = {85.0, 0.0};
        place.anchor_px = {800.0, 300.0};
        place.tilt_along_deg = random.normal(0.0, 8.0);
        place.tilt_across_deg = random.normal(0.0, 8.0);
        const CameraPose camera = testing::camera_at(place);
        Graduation g;
        g.mark_length_mm = mark_length;
        const auto reference = testing::ruler_of({testing::photographed(g, camera, random)});
        const auto r = rectify(reference, place.photo_size, testing::focal_of(place));
        EXPECT_TRUE(r.ok());
        const auto refined = refine_tilt(*r, pitches(camera, random, drift, 0.06), height_mm);
        EXPECT_TRUE(refined.ok());
        if (!refined) continue;
        const auto truth = photo_from_plane(camera, height_mm);
        const PhotoPoint at = truth(ObjectPoint{85.0, 80.0});
        const auto count = [&](Coverage& c, const Rectification& rectification) {
            c.count(testing::length_error(rectification, truth, at, 1, 0, height_mm),
                    testing::combined(scale_budget_at(rectification, at, height_mm, 0.0, 0.0)));
        };
        count(found.before, *r);
        count(found.after, refined->rectification);
        EXPECT_LT(refined->chi_square_per_degree, 1.5);
    }
    return found;
}

// With a ruler that shows feet only, the fabric must tell the tilt across; with the drift it is told to
// expect, the stated intervals still hold (120 photos: standard deviation of the share 2 %).
TEST(RefineTilt, EvenFabricTellsTheTilt) {
    const Findings found = photograph(0.02, 0.0);
    EXPECT_LT(found.after.rms(), 0.6 * found.before.rms());
    EXPECT_GE(found.after.part95(), 0.89);
    EXPECT_LE(found.after.part95(), 0.999);
}

// Where the marks know better than the fabric, it must not spoil them.
TEST(RefineTilt, GoodMarksAreKept) {
    const Findings found = photograph(0.02, 6.0);
    EXPECT_LE(found.after.rms(), 1.1 * found.before.rms());
    EXPECT_GE(found.after.part95(), 0.89);
}

TEST(RefineTilt, TooFewSamplesAreRefused) {
    Random random(1);
    const CameraPose camera = testing::camera_at({});
    Graduation g;
    const auto r =
        rectify(testing::ruler_of({testing::photographed(g, camera, random)}), {1600, 1200}, 1500.0);
    ASSERT_TRUE(r.ok());
    auto few = pitches(camera, random, 0.0, 0.05);
    few.resize(4);
    EXPECT_EQ(refine_tilt(*r, few, 0.0).refusal().code, "too-few-pitches");
}

TEST(RefineTilt, SamplesComeFromRectifiedPictures) {
    PhotoFromRectified half;
    half.matrix = {0.5, 0, 100, 0, 0.5, 50, 0, 0, 1};
    const auto sample = pitch_sample(PitchKind::row, {200.0, 300.0}, 0.0, 40.0, 0.05, half);
    EXPECT_NEAR(sample.at_px.x, 200.0, 1e-9);
    EXPECT_NEAR(sample.at_px.y, 200.0, 1e-9);
    EXPECT_NEAR(sample.step_y_px, 20.0, 1e-9);
    EXPECT_NEAR(sample.step_x_px, 0.0, 1e-9);
}

}  // namespace
}  // namespace ridgetally
