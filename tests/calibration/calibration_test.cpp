#include <gtest/gtest.h>

#include <cmath>

#include "blackbox/measured_shot.h"
#include "calibration/quantile.h"

namespace ridgetally::blackbox {
namespace {

struct Tally {
    int inside = 0;
    int all = 0;
    std::vector<double> errors;

    void add(const std::optional<Deviation>& d) {
        if (!d) return;
        ++all;
        inside += d->inside ? 1 : 0;
        errors.push_back(std::abs(d->relative));
    }
};

/// Over many photos of every stitch, ruler, yarn and light the truth lies in the stated 95 % interval in 90
/// to 99 % of the cases: fewer and the program boasts, more and it hides behind wide margins. The errors
/// themselves are those promised when the stitch is told: median 1 %, 95th percentile 3 %.
TEST(Calibration, TruthLiesInTheStatedInterval) {
    synthetic::Variety variety;
    variety.megapixels = 1.5;
    variety.laid_on_share = 0.0;
    const auto results = trials(40000, 90, variety, Told::stitch);
    Tally tally;
    for (const Trial& t : results) tally.add(t.stitches), tally.add(t.rows);
    ASSERT_GE(tally.all, 150) << table_of(results);  // of 180
    const double share = static_cast<double>(tally.inside) / tally.all;
    EXPECT_GE(share, 0.90) << table_of(results);
    EXPECT_LE(share, 0.99);
    EXPECT_LE(quantile(tally.errors, 0.5), 0.010);
    EXPECT_LE(quantile(tally.errors, 0.95), 0.030) << table_of(results);
}

}  // namespace
}  // namespace ridgetally::blackbox
