#include "pipeline/ruler_height.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace ridgetally {
namespace {

constexpr int any_hue = 100;
constexpr RulerLook steel_like{any_hue, 15, 190, any_hue, 15, 30.0};

bool may_be(const RulerLook& look, const std::string& kind) {
    const auto kinds = ruler_kinds_like(look);
    return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

RulerLook as_bright_as(int brightness) {
    RulerLook look = steel_like;
    look.brightness = brightness;
    return look;
}

// A part R of the light is coded as 255 (1.055 R^(1/2.4) - 0.055) (IEC 61966-2-1). Brushed steel sends back
// 55 to 65 of 100, white plastic 80 to 90, black 4 to 8 (from memory).
int coded(double part) { return static_cast<int>(255.0 * (1.055 * std::pow(part, 1.0 / 2.4) - 0.055)); }

TEST(RulerHeight, SteelIsToldFromWhiteAndBlackByTheLightItSendsBack) {
    for (const double part : {0.55, 0.60, 0.65})
        EXPECT_TRUE(may_be(as_bright_as(coded(part)), "steel")) << part;
    for (const double part : {0.80, 0.90, 0.08, 0.04})
        EXPECT_FALSE(may_be(as_bright_as(coded(part)), "steel")) << part;
}

// White plastic in a photo exposed a stop too short is as bright as steel in a good one: grey is unsure.
TEST(RulerHeight, GreyMayBePlastic) {
    EXPECT_TRUE(may_be(as_bright_as(coded(0.42)), "plastic"));
    EXPECT_TRUE(may_be(as_bright_as(coded(0.42)), "steel"));
}

TEST(RulerHeight, OnlyNarrowOnesMayBeWhiteTapes) {
    RulerLook white = as_bright_as(coded(0.85));
    EXPECT_EQ(ruler_kinds_like(white), std::vector<std::string>{"plastic"});
    white.width_mm = 16.0;
    EXPECT_TRUE(may_be(white, "tape"));
    EXPECT_TRUE(may_be(white, "plastic"));
}

TEST(RulerHeight, WoodOnAWoodenTableMayBeAClearRuler) {
    RulerLook brown = steel_like;
    brown.hue = 15;
    brown.saturation = 100;
    EXPECT_EQ(ruler_kinds_like(brown), std::vector<std::string>{"wood"});
    brown.ground_hue = 15;
    brown.ground_saturation = 100;
    EXPECT_TRUE(may_be(brown, "wood"));
    EXPECT_TRUE(may_be(brown, "plastic"));
}

TEST(RulerHeight, OnlyAStrongYellowIsATapeForSure) {
    RulerLook yellow = steel_like;
    yellow.hue = 28;
    yellow.saturation = 180;
    EXPECT_EQ(ruler_kinds_like(yellow), std::vector<std::string>{"tape"});
    for (const int hue : {24, 25, 30}) {  // pale tapes, varnished wood
        yellow.hue = hue;
        yellow.saturation = 120;
        EXPECT_TRUE(may_be(yellow, "tape")) << hue;
        EXPECT_TRUE(may_be(yellow, "wood")) << hue;
    }
}

TEST(RulerHeight, SomethingIsAlwaysThought) {
    for (int hue = 0; hue < 180; hue += 2)
        for (int level = 0; level < 256; level += 15)
            for (const int brightness : {20, 150, 250})
                EXPECT_FALSE(ruler_kinds_like({hue, level, brightness, 15, 100, 18.0}).empty());
}

// JCGM 100:2008, 4.3.7: evenly likely between limits 2 a apart is a / root of 3. Two such things as likely:
// the mean of their squares less the square of the mean (law of total variance).
TEST(RulerHeight, AMixtureHasTheMomentsOfAMixture) {
    const Limits one{1.0, 0.0, 2.0, "made up"};
    const Limits other{3.0, 2.0, 4.0, "made up"};
    EXPECT_NEAR(height_of_any({one}).mm, 1.0, 1e-12);
    EXPECT_NEAR(height_of_any({one}).std_mm, 1.0 / std::sqrt(3.0), 1e-12);
    // Evenly likely from 0 to 4 as a whole.
    EXPECT_NEAR(height_of_any({one, other}).mm, 2.0, 1e-12);
    EXPECT_NEAR(height_of_any({one, other}).std_mm, 2.0 / std::sqrt(3.0), 1e-12);
    EXPECT_THROW((void)height_of_any({}), std::invalid_argument);
}

TEST(RulerHeight, ToldGoesBeforeSeenAndACardIsAsThickAsItsStandard) {
    const Catalog catalog = load_catalog(RIDGETALLY_SOURCE_DIR "/models").value();
    ReferencePlane plane;
    Trace trace;
    plane.reference.kind = "id1-card";
    EXPECT_NEAR(reference_face_height({}, plane, catalog, 2.5, trace).mm, 2.5, 1e-12);
    // ISO/IEC 7810: 0.76 mm, 0.08 either way.
    const FaceHeight card = reference_face_height({}, plane, catalog, {}, trace);
    EXPECT_NEAR(card.mm, 0.76, 1e-9);
    EXPECT_NEAR(card.std_mm, 0.08 / std::sqrt(3.0), 1e-9);
}

}  // namespace
}  // namespace ridgetally
