#include "pipeline/rim_height.h"

#include <gtest/gtest.h>

namespace ridgetally {
namespace {

constexpr FaceHeight on_the_table{0.0, 0.0};

RimHeight rim_of(std::optional<StitchFamily> stitch, const RimStitch& width,
                 const FaceHeight& face = on_the_table) {
    CrownOptions options;
    options.stitch = stitch;
    return rim_above(face, options, {}, width);
}

// Six photoreal renders of another's yarn, whose heights follow from their true diameters: three plain rims
// at 0.64 to 0.84 of the stitch's width, three with a ridge at 1.03 to 1.20.
TEST(RimHeight, HoldsThoseOfPhotorealRenders) {
    constexpr RimStitch width{10.0, 0.0, 0.5};
    const auto holds = [](const RimHeight& rim, double mm) {
        return std::abs(mm - rim.mm) <= 1.96 * rim.std_mm;
    };
    for (const double part : {0.64, 0.82, 0.84}) {
        EXPECT_TRUE(holds(rim_of(StitchFamily::sc, width), 10.0 * part)) << part;
        EXPECT_TRUE(holds(rim_of({}, width), 10.0 * part)) << part;
    }
    for (const double part : {1.03, 1.06, 1.20}) {
        EXPECT_TRUE(holds(rim_of(StitchFamily::sc_blo, width), 10.0 * part)) << part;
        EXPECT_TRUE(holds(rim_of({}, width), 10.0 * part)) << part;
    }
}

TEST(RimHeight, ARidgeStandsHigherAndNotToldLiesBetween) {
    constexpr RimStitch width{8.0, 0.0, 0.5};
    const RimHeight plain = rim_of(StitchFamily::dc, width);
    const RimHeight ridged = rim_of(StitchFamily::hdc_blo, width);
    const RimHeight any = rim_of({}, width);
    EXPECT_LT(plain.mm, any.mm);
    EXPECT_LT(any.mm, ridged.mm);
    EXPECT_GT(any.std_mm, plain.std_mm);
}

// What the recogniser is sure of counts as what is told; a chance of a half has the spread of either (a
// variable that is one with chance p has the variance p (1 - p)).
TEST(RimHeight, GoesByWhatIsSeenWhereNothingIsTold) {
    const RimHeight seen = rim_of({}, {8.0, 0.0, 1.0});
    const RimHeight told = rim_of(StitchFamily::sc_blo, {8.0, 0.0, 0.0});
    EXPECT_NEAR(seen.mm, told.mm, 1e-12);
    EXPECT_NEAR(seen.std_mm, told.std_mm, 1e-12);
    const RimHeight plain = rim_of({}, {8.0, 0.0, 0.0});
    const RimHeight either = rim_of({}, {8.0, 0.0, 0.5});
    EXPECT_NEAR(either.mm, 0.5 * (seen.mm + plain.mm), 1e-12);
    EXPECT_NEAR(either.std_mm, std::hypot(seen.std_mm, 0.5 * (seen.mm - plain.mm)), 1e-12);
}

// Independent parts add as squares (JCGM 100:2008, 5.1.2), heights one from the other.
TEST(RimHeight, IsThatAboveTheFaceWithItsDoubt) {
    constexpr RimStitch width{8.0, 0.0, 0.5};
    const RimHeight table = rim_of(StitchFamily::sc, width);
    const RimHeight face = rim_of(StitchFamily::sc, width, {2.0, 0.5});
    EXPECT_NEAR(face.mm, table.mm - 2.0, 1e-12);
    EXPECT_NEAR(face.std_mm, std::hypot(table.std_mm, 0.5), 1e-12);
}

}  // namespace
}  // namespace ridgetally
