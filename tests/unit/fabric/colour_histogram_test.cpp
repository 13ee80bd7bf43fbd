#include "fabric/colour_histogram.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ridgetally {
namespace {

TEST(ColourHistogram, KnowsHowMuchMoreOftenAColourWasSeen) {
    ColourHistogram histogram;
    histogram.add({60, 128, 128}, 300.0F);
    histogram.add({200, 128, 128}, 100.0F);
    histogram.finish();
    EXPECT_NEAR(histogram.log_density({60, 128, 128}) - histogram.log_density({200, 128, 128}), std::log(3.0),
                0.01);
}

TEST(ColourHistogram, NeighbouringColoursShareAndStrangersAreUnlikelyNotImpossible) {
    ColourHistogram histogram;
    histogram.add({120, 128, 128}, 1000.0F);
    histogram.finish();
    const double seen = histogram.log_density({120, 128, 128});
    const double near = histogram.log_density({120, 128, 139});  // one cell of 256 / 24 levels on
    const double strange = histogram.log_density({250, 20, 20});
    EXPECT_NEAR(seen - near, std::log(2.0), 0.01);  // the kernel is 1/4, 1/2, 1/4
    EXPECT_LT(strange, near - 3.0);
    EXPECT_TRUE(std::isfinite(strange));
}

// Weights count as pixels do: the sum does not matter.
TEST(ColourHistogram, IsADensity) {
    ColourHistogram once;
    ColourHistogram many;
    once.add({80, 90, 100}, 1.0F);
    many.add({80, 90, 100}, 5000.0F);
    once.finish();
    many.finish();
    EXPECT_NEAR(once.log_density({80, 90, 100}), many.log_density({80, 90, 100}), 1e-4);
}

}  // namespace
}  // namespace ridgetally
