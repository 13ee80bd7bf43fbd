#include "rectify/rectify.h"

#include <gtest/gtest.h>

#include <cmath>

#include "unit/rectify/coverage.h"
#include "unit/rectify/made_up_camera.h"

namespace ridgetally {
namespace {

using testing::CameraPlace;
using testing::Graduation;

struct Scene {
    CameraPlace place;
    Graduation graduation;
    ScaleReference reference;
    PhotoFromObject truth;

    [[nodiscard]] Outcome<Rectification> rectified(const RectifyOptions& options = {}) const {
        return rectify(reference, place.photo_size, testing::focal_of(place), options);
    }
};

Scene tilted_scene() {
    Scene scene;
    scene.place.anchor_mm = {85.0, 0.0};
    scene.place.tilt_along_deg = 7.0;
    scene.place.tilt_across_deg = -11.0;
    scene.place.turn_deg = 160.0;
    const CameraPose camera = testing::camera_at(scene.place);
    Random random(3);
    scene.reference = testing::ruler_of({testing::photographed(scene.graduation, camera, random)});
    scene.truth = photo_from_plane(camera, 0.0);
    return scene;
}

double named(const std::vector<Contribution>& parts, const std::string& name) {
    for (const auto& part : parts)
        if (part.name == name) return part.relative_std;
    ADD_FAILURE() << "no part " << name;
    return 0.0;
}

double error_at(const Scene& scene, const Rectification& r, double y_mm) {
    return testing::length_error(r, scene.truth, scene.truth(ObjectPoint{85.0, y_mm}), 1, 0, 0.0);
}

TEST(Rectify, ObjectMillimetresAreThoseOfTheMarks) {
    const Scene scene = tilted_scene();
    const auto r = scene.rectified();
    ASSERT_TRUE(r.ok());
    const auto back = *inverse(r->photo_from_object);
    for (const auto& mark : scene.reference.lines[0].marks) {
        const ObjectPoint p = back(mark.foot_px);
        EXPECT_NEAR(p.x, mark.position_mm, 0.4);
        EXPECT_NEAR(p.y, 0.0, 0.4);
    }
    EXPECT_NEAR(r->reference_middle_mm.x, 85.0, 1e-9);
}

// A fifth of the marks a whole millimetre off, or with tips anywhere.
TEST(Rectify, WrongMarksAreNotFollowed) {
    Scene scene = tilted_scene();
    auto& marks = scene.reference.lines[0].marks;
    for (std::size_t i = 2; i < marks.size(); i += 5) {
        marks[i].position_mm += i % 2 == 0 ? 1.0 : -1.0;
        marks[i].tip_px.x += 15.0;
    }
    const auto r = scene.rectified();
    ASSERT_TRUE(r.ok());
    EXPECT_NEAR(error_at(scene, *r, 0.0), 0.0, 0.001);
    EXPECT_NEAR(error_at(scene, *r, 80.0), 0.0, 0.012);
}

// A tape 0.4 % too long: every millimetre it shows is 1.004 mm.
TEST(Rectify, RulerCorrectionScalesEverything) {
    const Scene scene = tilted_scene();
    const auto plain = scene.rectified();
    const auto corrected = scene.rectified({.ruler_correction = 1.004});
    ASSERT_TRUE(plain.ok() && corrected.ok());
    EXPECT_NEAR(plain->px_per_mm.value / corrected->px_per_mm.value, 1.004, 1e-6);
    EXPECT_NEAR(corrected->camera_distance_mm / plain->camera_distance_mm, 1.004, 1e-6);
}

// A second graduation read in the wrong unit (1/16 in taken for 1.5 mm: 5.8 % off) would tilt the plane.
TEST(Rectify, GraduationThatDoesNotFitIsLeftOut) {
    Scene scene = tilted_scene();
    Random random(5);
    Graduation wrong;
    wrong.spacing_mm = mm_per_inch / 16.0;
    wrong.across_mm = 28.0;
    wrong.mark_length_mm = -4.0;
    auto line = testing::photographed(wrong, testing::camera_at(scene.place), random);
    for (auto& mark : line.marks) mark.position_mm *= 1.5 / wrong.spacing_mm;
    const auto before = scene.rectified();
    scene.reference.lines.push_back(line);
    const auto after = scene.rectified();
    ASSERT_TRUE(before.ok() && after.ok());
    EXPECT_EQ(after->notes.size(), 1U);
    EXPECT_DOUBLE_EQ(after->tilt_deg, before->tilt_deg);
}

// A tape bent to a circle of 1.5 m: its chord of 150 mm is shorter than the tape by s^3 / 24 R^2 = 0.06 mm.
TEST(Rectify, BentTapeIsFollowedAndCostsCertainty) {
    Scene scene = tilted_scene();
    const double radius = 1500.0;
    Random random(8);
    for (auto& mark : scene.reference.lines[0].marks) {
        const double angle = (mark.position_mm - 85.0) / radius;
        const auto seen = [&](double across) {
            const PhotoPoint p = scene.truth(ObjectPoint{85.0 + (radius - across) * std::sin(angle),
                                                         radius - (radius - across) * std::cos(angle)});
            return PhotoPoint{p.x + random.normal(0.0, 0.2), p.y + random.normal(0.0, 0.2)};
        };
        mark.foot_px = seen(0.0);
        mark.tip_px = seen(5.0);
    }
    const auto r = scene.rectified();
    ASSERT_TRUE(r.ok());
    EXPECT_EQ(r->notes.size(), 1U);
    // Half the width of a 20 mm tape over the radius.
    EXPECT_NEAR(named(r->px_per_mm.contributions, "bent tape"), 10.0 / radius, 0.002);
    EXPECT_NEAR(error_at(scene, *r, 0.0), 0.0, 0.002);
    EXPECT_NEAR(r->tilt_deg, tilt_deg(testing::camera_at(scene.place)), 4.0 * r->tilt_std_deg);
}

// Two points tell no tilt: 8 degrees per axis at 80 mm beside them and 400 mm away are 80 sin 8 / 400 = 2.8
// %.
TEST(Rectify, TwoPointsLeaveTheTiltOpen) {
    Scene scene = tilted_scene();
    auto& marks = scene.reference.lines[0].marks;
    marks = {marks.front(), marks.back()};
    for (auto& mark : marks) mark.tip_px = mark.foot_px;
    scene.reference.kind = "two-points";
    const auto r = scene.rectified();
    ASSERT_TRUE(r.ok());
    EXPECT_NEAR(r->tilt_deg, 0.0, 0.1);
    const auto between = scale_budget_at(*r, r->reference_middle_px, 0.0, 0.0, 0.0);
    const PhotoPoint aside = r->photo_from_object(ObjectPoint{85.0, 80.0});
    EXPECT_LT(named(between, "camera tilt"), 0.015);
    EXPECT_NEAR(named(scale_budget_at(*r, aside, 0.0, 0.0, 0.0), "camera tilt"), 0.028, 0.006);
}

// Height of the fabric known to 1 mm at 400 mm: 1 / 400 of every length.
TEST(Rectify, HeightHasItsPart) {
    const Scene scene = tilted_scene();
    const auto r = scene.rectified();
    ASSERT_TRUE(r.ok());
    const auto parts = scale_budget_at(*r, r->reference_middle_px, 3.0, 1.0);
    EXPECT_NEAR(named(parts, "height"), 1.0 / 397.0, 2e-4);
    EXPECT_NEAR(named(scale_budget_at(*r, r->reference_middle_px, 3.0, 0.0), "height"), 0.0, 1e-9);
}

TEST(Rectify, ToleranceOfTheObjectIsPartOfTheScale) {
    Scene scene = tilted_scene();
    scene.reference.object_relative_std = 0.002;
    const auto r = scene.rectified();
    ASSERT_TRUE(r.ok());
    EXPECT_DOUBLE_EQ(named(r->px_per_mm.contributions, "reference object"), 0.002);
    EXPECT_GT(r->px_per_mm.relative_std(), 0.002);
}

TEST(Rectify, RefusesAndThrows) {
    EXPECT_EQ(rectify({}, {1600, 1200}, 1500.0).refusal().code, "no-scale");
    Scene scene = tilted_scene();
    scene.reference.lines[0].marks.resize(1);
    EXPECT_EQ(scene.rectified().refusal().code, "no-scale");
    EXPECT_THROW((void)scene.rectified({.ruler_correction = 0.0}), std::invalid_argument);
    EXPECT_THROW((void)rectify(scene.reference, {0, 0}, 1500.0), std::invalid_argument);
}

TEST(Rectify, SamePhotoSameResult) {
    const Scene scene = tilted_scene();
    const auto a = scene.rectified();
    const auto b = scene.rectified();
    ASSERT_TRUE(a.ok() && b.ok());
    EXPECT_EQ(a->photo_from_object.matrix, b->photo_from_object.matrix);
}

}  // namespace
}  // namespace ridgetally
