#include "pipeline/even_fabric.h"

#include <gtest/gtest.h>

#include <cmath>

#include "unit/rectify/made_up_camera.h"

namespace ridgetally {
namespace {

constexpr double height_mm = 2.0;
constexpr double stitch_mm = 4.6;
constexpr double row_mm = 4.1;

struct Scene {
    CameraPose camera;
    ReferencePlane plane;  ///< of a ruler that shows the feet of its marks alone, so its tilt across is loose
    Lattice lattice;       ///< read on the plane the ruler gives
    PhotoPoint middle;
};

/// An even fabric, 100 mm by 100 mm, in blocks of 20 mm; every invented stitch has the same width.
Scene even_scene() {
    testing::CameraPlace place;
    place.anchor_mm = {85.0, 0.0};
    place.anchor_px = {800.0, 300.0};
    place.tilt_across_deg = 12.0;
    Scene scene;
    scene.camera = testing::camera_at(place);
    Random random(77);
    testing::Graduation graduation;
    graduation.mark_length_mm = 0.0;
    scene.plane.reference = testing::ruler_of({testing::photographed(graduation, scene.camera, random)});
    scene.plane.rectification =
        rectify(scene.plane.reference, place.photo_size, testing::focal_of(place)).value();

    const PhotoFromObject truth = photo_from_plane(scene.camera, height_mm);
    const PhotoFromObject used = photo_from_plane_at(scene.plane.rectification, height_mm);
    Lattice& lattice = scene.lattice;
    lattice.px_per_mm = 4.0;
    const Matrix3 object_from_rectified{0.25, 0, 0, 0, 0.25, 0, 0, 0, 1};
    lattice.photo_from_rectified = {product(used.matrix, object_from_rectified)};
    const auto rectified_from_photo = inverse(lattice.photo_from_rectified).value();
    const auto pitch_px = [&](const ObjectPoint& at, double dx, double dy) {
        const auto a = rectified_from_photo(truth(ObjectPoint{at.x - 0.5 * dx, at.y - 0.5 * dy}));
        const auto b = rectified_from_photo(truth(ObjectPoint{at.x + 0.5 * dx, at.y + 0.5 * dy}));
        return std::hypot(b.x - a.x, b.y - a.y);
    };
    for (int i = 0; i < 5; ++i) {
        for (int j = 0; j < 5; ++j) {
            const ObjectPoint at{45.0 + 20.0 * i, 30.0 + 20.0 * j};
            const auto place_px = rectified_from_photo(truth(at));
            lattice.blocks.push_back(
                {BlockPitch::Kind::stitch, place_px, pitch_px(at, stitch_mm, 0.0), 0.01});
            lattice.blocks.push_back({BlockPitch::Kind::row, place_px, pitch_px(at, 0.0, row_mm), 0.01});
        }
    }
    const ObjectPoint middle{85.0, 70.0};
    lattice.stitch_pitch_px.value = pitch_px(middle, stitch_mm, 0.0);
    lattice.row_pitch_px = Measured{pitch_px(middle, 0.0, row_mm), 0.0, {}};
    scene.middle = truth(middle);
    return scene;
}

TEST(EvenFabric, BringsTheReadPitchesNearerToTheTruth) {
    const Scene scene = even_scene();
    Trace trace;
    const auto evened = evened_plane(scene.plane, scene.lattice, height_mm, scene.middle, trace);
    ASSERT_TRUE(evened);
    const double stitch_read = scene.lattice.stitch_pitch_px.value / scene.lattice.px_per_mm;
    const double row_read = scene.lattice.row_pitch_px->value / scene.lattice.px_per_mm;
    EXPECT_LT(std::abs(evened->along_rows * stitch_read - stitch_mm),
              0.5 * std::abs(stitch_read - stitch_mm));
    EXPECT_LT(std::abs(evened->across_rows * row_read - row_mm), 0.5 * std::abs(row_read - row_mm));
    EXPECT_LT(evened->rectification.tilt_std_deg, scene.plane.rectification.tilt_std_deg);
}

TEST(EvenFabric, SaysNothingBesideTwoPointsOrOnUnevenFabric) {
    Scene scene = even_scene();
    Trace trace;
    scene.plane.reference.kind = "two-points";
    EXPECT_FALSE(evened_plane(scene.plane, scene.lattice, height_mm, scene.middle, trace));

    scene.plane.reference.kind = "ruler";
    int block = 0;
    for (auto& pitch : scene.lattice.blocks) pitch.pitch_px *= ++block % 3 == 0 ? 1.25 : 0.9;
    EXPECT_FALSE(evened_plane(scene.plane, scene.lattice, height_mm, scene.middle, trace));
}

TEST(EvenFabric, NeedsSomeBlocks) {
    Scene scene = even_scene();
    Trace trace;
    scene.lattice.blocks.resize(3);
    EXPECT_FALSE(evened_plane(scene.plane, scene.lattice, height_mm, scene.middle, trace));
}

}  // namespace
}  // namespace ridgetally
