#include "pipeline/crown_warnings.h"

#include <gtest/gtest.h>

namespace ridgetally {
namespace {

CrownResult from(double distance_mm, double height_std) {
    CrownResult result;
    result.scale.camera_distance_mm = distance_mm;
    result.diameter_mm = {100.0, 100.0 * height_std, {{"height", height_std}}};
    return result;
}

DiscOutline whole_rim() {
    DiscOutline outline;
    outline.places.assign(360, RimPlace::edge);
    return outline;
}

// What is open of a length because of its height falls with the distance (design.md, 4: h / (D - h)): a per
// cent at 20 cm is 0.76 at 26 cm, which 1.96 standard uncertainties make a per cent and a half.
TEST(CrownWarnings, TooNearSaysHowFar) {
    const auto warnings = crown_warnings(whole_rim(), from(200.0, 0.01));
    ASSERT_EQ(warnings.size(), 1U);
    EXPECT_EQ(warnings.front().code, "too-near");
    EXPECT_NE(warnings.front().message.find("from 20 cm"), std::string::npos);
    EXPECT_NE(warnings.front().message.find("30 cm away or more"), std::string::npos);
}

TEST(CrownWarnings, FarEnoughSaysNothing) {
    EXPECT_TRUE(crown_warnings(whole_rim(), from(400.0, 0.005)).empty());
}

// 0.4 of a per cent is 0.78 at 95 of 100, more than half of the per cent and a half asked (normal
// distribution, 1.96 standard deviations).
TEST(CrownWarnings, AFocalLengthThatWasAssumedIsNamedWhereItMatters) {
    CrownResult result = from(400.0, 0.001);
    result.diameter_mm.contributions.push_back({"focal length", 0.004});
    EXPECT_TRUE(crown_warnings(whole_rim(), result).empty());  // the photo told it
    result.scale.focal_source = FocalSource::assumed;
    const auto warnings = crown_warnings(whole_rim(), result);
    ASSERT_EQ(warnings.size(), 1U);
    EXPECT_EQ(warnings.front().code, "focal-length-assumed");
    result.diameter_mm.contributions.back().relative_std = 0.0035;
    EXPECT_TRUE(crown_warnings(whole_rim(), result).empty());
}

}  // namespace
}  // namespace ridgetally
