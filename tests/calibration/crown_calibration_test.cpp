#include <gtest/gtest.h>

#include "calibration/quantile.h"
#include "calibration/trials.h"

namespace ridgetally::calibration {
namespace {

using blackbox::quantile;

/// A bound of 99 in 100 tells nothing of 60 crowns: one interval in twenty misses, and all of 60 hold by
/// chance once in twenty times.
constexpr int photos = 120;

/// Crowns of every stitch, scheme of increases, ruler, yarn and light, photographed once for all tests.
class CrownCalibration : public testing::Test {
  protected:
    static const std::vector<Trial>& trials() {
        static const std::vector<Trial> taken = trials_of(
            41000, photos, [](std::uint64_t seed) { return crown_trial(seed, blackbox::usual_variety()); });
        return taken;
    }
    static std::vector<Stated> diameters() { return statements(trials(), {"diameter_mm"}); }
};

/// The true diameter lies in the stated 95 % interval in 90 to 99 % of the cases: fewer and the program
/// boasts, more and it hides behind wide margins.
TEST_F(CrownCalibration, TruthLiesInTheStatedInterval) {
    ASSERT_GE(diameters().size(), photos / 2U);
    EXPECT_GE(coverage_95(diameters()), 0.90) << table_of(trials());
    EXPECT_LE(coverage_95(diameters()), 0.99);
}

/// What was asked for before anything was measured, of the middle one and of 19 of 20.
TEST_F(CrownCalibration, DiametersAreAsGoodAsWasAskedFor) {
    EXPECT_GE(static_cast<double>(diameters().size()), 0.95 * photos) << table_of(trials());
    EXPECT_LE(quantile(absolute_errors(diameters()), 0.5), 0.007);
}

TEST_F(CrownCalibration, NineteenOfTwentyAreAsGoodAsWasAskedFor) {
    EXPECT_LE(quantile(absolute_errors(diameters()), 0.95), 0.015) << table_of(trials());
}

}  // namespace
}  // namespace ridgetally::calibration
