#include <gtest/gtest.h>

#include "scale/flat/flat_reference.h"
#include "unit/scale_flat/drawn_photo.h"

namespace ridgetally {
namespace {

using testing::CameraPlace;

Catalog catalog() { return load_catalog(RIDGETALLY_SOURCE_DIR "/models").value(); }

FlatReference named(const std::string& text) { return flat_reference_from(text, catalog()).value(); }

/// A made-up member's card: a coloured face with a band and a portrait box, 85.60 mm x 53.98 mm
/// (ISO/IEC 7810, ID-1), beside a fabric patch on planks.
cv::Vec3d table_with_card(const ObjectPoint& p) {
    if (testing::in_card(p, 85.60, 53.98, 3.18)) {
        if (testing::in_box(p, 6, 12, 20, 26)) return {190, 200, 210};
        if (testing::in_box(p, 0, 42, 85.6, 8)) return {40, 40, 40};
        return {150, 90, 40};
    }
    if (testing::in_box(p, -20, 75, 120, 90)) return testing::fabric(p);
    return testing::wood(p);
}

CameraPlace above_card() {
    CameraPlace place;
    place.anchor_mm = {42.8, 75.0};
    place.distance_mm = 330.0;
    return place;
}

struct View {
    double tilt_along, tilt_across, turn;
};

class CardFromAnyAngle : public ::testing::TestWithParam<View> {};

TEST_P(CardFromAnyAngle, ScaleIsWithinThreeTenthsOfAPercent) {
    CameraPlace place = above_card();
    place.tilt_along_deg = GetParam().tilt_along;
    place.tilt_across_deg = GetParam().tilt_across;
    place.turn_deg = GetParam().turn;
    const CameraPose camera = testing::camera_at(place);
    const Photo photo = testing::drawn(table_with_card, camera, place.photo_size, 2.0, 7);
    const auto reference = find_flat_reference(photo, named("id1-card"));
    ASSERT_TRUE(reference.ok()) << reference.refusal().message;
    ASSERT_EQ(reference->matches.size(), 4U);
    const auto truth = *inverse(photo_from_plane(camera, 0.0));
    // Corners are those of the card, in one of its two orientations: distances between them are its sides.
    for (std::size_t i = 0; i < 4; ++i) {
        const auto a = truth(reference->matches[i].photo_px);
        const auto b = truth(reference->matches[(i + 1) % 4].photo_px);
        const double side = i % 2 == 0 ? 85.60 : 53.98;
        EXPECT_NEAR(std::hypot(a.x - b.x, a.y - b.y) / side, 1.0, 0.003);
    }
    const auto flat = rectify(*reference, place.photo_size, testing::focal_of(place));
    ASSERT_TRUE(flat.ok());
    EXPECT_NEAR(flat->tilt_deg, tilt_deg(camera), 3.0 * flat->tilt_std_deg);
}

INSTANTIATE_TEST_SUITE_P(Views, CardFromAnyAngle,
                         ::testing::Values(View{0, 0, 0}, View{8, -5, 20}, View{-12, 10, 75},
                                           View{3, 15, -130}, View{0, 18, 180}));

TEST(FindSheet, WorksWithoutKnownFocalLengthAndReportsItsOutline) {
    const CameraPlace place = above_card();
    const Photo photo = testing::drawn(table_with_card, testing::camera_at(place), place.photo_size, 3.0, 11);
    ASSERT_FALSE(photo.focal_length_35mm);
    const auto reference = find_flat_reference(photo, named("id1-card"));
    ASSERT_TRUE(reference.ok());
    EXPECT_EQ(reference->kind, "id1-card");
    EXPECT_GE(reference->outline_px.size(), 4U);
    // ISO/IEC 7810's limits alone are worth 0.08 % of the width.
    EXPECT_GT(reference->object_relative_std, 0.0005);
    EXPECT_LT(reference->object_relative_std, 0.003);
}

// ISO 216: A4 is 297 mm x 210 mm. White paper on planks, with typed lines on it.
TEST(FindSheet, A4OnPlanks) {
    CameraPlace place;
    place.anchor_mm = {148.5, 140.0};
    place.distance_mm = 520.0;
    place.tilt_across_deg = 9.0;
    place.turn_deg = 8.0;
    const auto table = [](const ObjectPoint& p) -> cv::Vec3d {
        if (!testing::in_box(p, 0, 0, 297, 210)) return testing::wood(p);
        const bool ink =
            testing::in_box(p, 25, 25, 220, 150) && std::fmod(p.y, 9.0) < 2.0 && std::fmod(p.x, 4.0) < 2.6;
        return ink ? cv::Vec3d(60, 60, 60) : cv::Vec3d(232, 236, 238);
    };
    const CameraPose camera = testing::camera_at(place);
    const Photo photo = testing::drawn(table, camera, place.photo_size, 2.0, 5);
    const auto reference = find_flat_reference(photo, named("a4"));
    ASSERT_TRUE(reference.ok()) << reference.refusal().message;
    const auto truth = *inverse(photo_from_plane(camera, 0.0));
    const auto a = truth(reference->matches[0].photo_px);
    const auto b = truth(reference->matches[1].photo_px);
    EXPECT_NEAR(std::hypot(a.x - b.x, a.y - b.y), 297.0, 0.6);
    // +-2 mm on 297 and 210 mm, evenly likely: 0.39 and 0.55 %.
    EXPECT_NEAR(reference->object_relative_std, 0.0048, 0.0008);
}

std::string refusal_code(const testing::TableTop& table, const std::string& wanted) {
    const CameraPlace place = above_card();
    const Photo photo = testing::drawn(table, testing::camera_at(place), place.photo_size, 2.0, 3);
    const auto outcome = find_flat_reference(photo, named(wanted));
    return outcome ? "found" : outcome.refusal().code;
}

TEST(FindSheet, NothingThereIsRefused) {
    EXPECT_EQ(refusal_code(testing::wood, "id1-card"), "reference-not-found");
    EXPECT_EQ(refusal_code(testing::fabric, "id1-card"), "reference-not-found");
}

// A square box is no card, and a card no sheet of paper: 1.586 against 1.414.
TEST(FindSheet, OtherShapesAreRefused) {
    const auto box = [](const ObjectPoint& p) -> cv::Vec3d {
        return testing::in_box(p, 0, 0, 70, 70) ? cv::Vec3d(200, 60, 60) : testing::wood(p);
    };
    EXPECT_EQ(refusal_code(box, "id1-card"), "reference-not-found");
    EXPECT_EQ(refusal_code(table_with_card, "a4"), "reference-not-found");
}

// Half of it under the fabric.
TEST(FindSheet, CoveredCardIsRefused) {
    const auto covered = [](const ObjectPoint& p) -> cv::Vec3d {
        return testing::in_box(p, -30, 25, 150, 140) ? testing::fabric(p) : table_with_card(p);
    };
    EXPECT_EQ(refusal_code(covered, "id1-card"), "reference-not-found");
}

// Two rectangles of a card's shape, one a third larger: nobody knows which is the card.
TEST(FindSheet, TwoSizesOfOneShapeAreAmbiguous) {
    const auto two = [](const ObjectPoint& p) -> cv::Vec3d {
        const ObjectPoint q{(p.x + 35.0) / 1.33, (p.y - 75.0) / 1.33};
        if (testing::in_card(q, 85.60, 53.98, 3.18)) return {60, 140, 60};
        return testing::in_card(p, 85.60, 53.98, 3.18) ? cv::Vec3d(150, 90, 40) : testing::wood(p);
    };
    EXPECT_EQ(refusal_code(two, "id1-card"), "reference-ambiguous");
}

TEST(FlatReference, TextsAreRead) {
    EXPECT_TRUE(std::holds_alternative<FlatObject>(named("letter")));
    EXPECT_DOUBLE_EQ(std::get<RoundObject>(named("coin:24.26")).diameter_mm.nominal, 24.26);
    EXPECT_DOUBLE_EQ(std::get<RoundObject>(named("coin:eur-2")).diameter_mm.nominal, 25.75);
    EXPECT_DOUBLE_EQ(std::get<RoundObject>(named("coin:1 in")).diameter_mm.nominal, 25.4);
    for (const char* bad : {"", "card", "coin:", "coin:big", "coin:-3", "coin:5000"})
        EXPECT_EQ(flat_reference_from(bad, catalog()).refusal().code, "unknown-reference") << bad;
    EXPECT_THROW((void)find_flat_reference(Photo{}, named("a4")), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
