#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>

#include "pipeline/measure_swatch.h"

namespace ridgetally {
namespace {

SwatchResult photo_of(const char* file, double stitches_per_10cm) {
    SwatchResult result;
    result.photo.file = file;
    result.stitches_per_10cm = {stitches_per_10cm, 0.2, {}};
    return result;
}

bool warns(const SwatchResult& result, const char* code) {
    return std::any_of(result.warnings.begin(), result.warnings.end(),
                       [&](const Warning& w) { return w.code == code; });
}

TEST(Combine, WeighsPhotosThatAgree) {
    const auto both = combine({photo_of("a.jpg", 20.0), photo_of("b.jpg", 20.2)});
    EXPECT_NEAR(both.stitches_per_10cm.value, 20.1, 1e-12);
    EXPECT_EQ(both.photos.size(), 2U);
    EXPECT_FALSE(both.rows_per_10cm);
    EXPECT_FALSE(warns(both, "photos-disagree"));
}

TEST(Combine, WarnsWherePhotosDisagree) {
    const auto both = combine({photo_of("a.jpg", 20.0), photo_of("b.jpg", 23.0)});
    EXPECT_TRUE(warns(both, "photos-disagree"));
    EXPECT_GT(both.stitches_per_10cm.std, 0.2);
}

TEST(Combine, OnePhotoStaysAsItIs) {
    EXPECT_TRUE(combine({photo_of("a.jpg", 20.0)}).photos.empty());
    EXPECT_THROW((void)combine({}), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
