#include "scale/index_model.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/random.h"

namespace ridgetally {
namespace {

/// Photo of a straight rule under a camera tilted along it by 20 degrees: u = f X / (D + X sin t), the
/// pinhole formula (Hartley and Zisserman, section 6.1).
double tilted(double x_mm) { return 3000.0 * x_mm * std::cos(0.349) / (400.0 + x_mm * std::sin(0.349)); }

TEST(IndexModel, ProjectiveLineIsExact) {
    std::vector<Sample> samples;
    for (int k = -100; k <= 100; k += 5) samples.push_back({static_cast<double>(k), tilted(k)});
    const IndexModel m = fit_index_model(samples, 1e-4);
    for (const double k : {-97.0, -33.3, 0.0, 51.0, 99.0}) {
        EXPECT_NEAR(m.position(k), tilted(k), 1e-5);
        EXPECT_NEAR(m.index(m.position(k)), k, 1e-6);
    }
    EXPECT_NEAR(m.spacing(20.0), tilted(20.5) - tilted(19.5), 1e-5);
}

TEST(IndexModel, SurvivesOutliersAndForetellsBeyondAGap) {
    Random random(11);
    std::vector<Sample> samples;
    for (int k = 0; k < 80; ++k) {
        const double u = tilted(k) + random.normal(0.0, 0.1);
        samples.push_back({static_cast<double>(k), k % 7 == 3 ? u + random.uniform(-6.0, 6.0) : u});
    }
    const IndexModel m = fit_index_model(samples, 0.02);
    EXPECT_NEAR(m.position(40.0), tilted(40.0), 0.1);
    // Twenty marks beyond the last: still within a tenth of a mark's spacing, so the count stays certain.
    EXPECT_NEAR(m.position(100.0), tilted(100.0), 0.1 * m.spacing(100.0));
}

TEST(IndexModel, BentTapeNeedsItsCubicTerm) {
    const double radius = 900.0;  // an arc of 200 marks of 8 px on a circle of 900 px chord units
    std::vector<Sample> samples;
    for (int k = -40; k <= 40; ++k)
        samples.push_back({static_cast<double>(k), radius * std::sin(8.0 * k / radius)});
    const IndexModel m = fit_index_model(samples, 1e-3);
    for (const double k : {-35.0, -10.0, 25.0})
        EXPECT_NEAR(m.position(k), radius * std::sin(8.0 * k / radius), 0.02);
}

}  // namespace
}  // namespace ridgetally
