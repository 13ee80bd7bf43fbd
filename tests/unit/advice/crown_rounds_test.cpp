#include "advice/crown_rounds.h"

#include <gtest/gtest.h>

#include <numbers>

#include "unit/advice/advice_fixture.h"

namespace ridgetally {
namespace {

using Counts = std::vector<int>;

// Published gauges, stitches and rows over one span, and the stitches that a flat disc of that gauge adds
// each round (N = 2 pi h / w): the numbers of the trade, 6 / 8 / 12 / 16, come out of them.
TEST(FlatIncrease, FollowsFromPublishedGauges) {
    struct Printed {
        double stitches, rows, added;
    };
    for (const auto& p :
         {Printed{13, 14, 5.83}, Printed{12, 14, 5.39}, Printed{10, 10, 6.28}, Printed{22, 24, 5.76},
          Printed{12, 15, 5.03}, Printed{13, 10, 8.17}, Printed{14, 12, 7.33}, Printed{13, 9, 9.08},
          Printed{10, 4, 15.71}, Printed{13, 8, 10.21}, Printed{16, 8, 12.57}, Printed{18, 10, 11.31}}) {
        EXPECT_NEAR(flat_increase(exact(100.0 / p.stitches), exact(100.0 / p.rows)).value, p.added, 0.005);
    }
}

// Published round schemes: 6, 12, 18, 24, 30, 36 (a UK magazine; single crochet), 10, 20, 30, 40 (a charity
// hat; double crochet), 8 for half double, 12 for double crochet; a published derivation for a square stitch,
// 2 pi a round: 6, 13, 19.
TEST(RoundCounts, AreThoseOfPublishedSchemes) {
    EXPECT_EQ(round_counts(6, 36), (Counts{6, 12, 18, 24, 30, 36}));
    EXPECT_EQ(round_counts(10, 40), (Counts{10, 20, 30, 40}));
    EXPECT_EQ(round_counts(8, 32), (Counts{8, 16, 24, 32}));
    EXPECT_EQ(round_counts(12, 48), (Counts{12, 24, 36, 48}));
    EXPECT_EQ(round_counts(2.0 * std::numbers::pi, 19), (Counts{6, 13, 19}));
}

TEST(RoundCounts, EndAtTheBody) {
    EXPECT_EQ(round_counts(6, 44), (Counts{6, 12, 18, 24, 30, 36, 42, 44}));
    EXPECT_EQ(round_counts(6, 4), (Counts{4}));
    EXPECT_THROW((void)round_counts(0.5, 10), std::invalid_argument);
    EXPECT_THROW((void)round_counts(6, 0), std::invalid_argument);
}

// Common practice for round 6 of a disc of 6: not "4 plain, increase", whose increases stack up to a hexagon,
// but "2 plain, increase, 2 plain", six times.
TEST(CrownRounds, IncreasesAreStaggeredInEvenRounds) {
    const auto rounds = crown_rounds(round_counts(6, 42), exact(6.0));
    ASSERT_EQ(rounds.size(), 7U);
    EXPECT_TRUE(rounds[0].groups.empty());
    EXPECT_TRUE(rounds[1].groups.empty());  // two in each
    EXPECT_EQ(rounds[1].into_plain, 2);
    const auto& sixth = rounds[5].groups;
    ASSERT_EQ(sixth.size(), 1U);
    EXPECT_EQ(sixth[0].before, 2);
    EXPECT_EQ(sixth[0].after, 2);
    EXPECT_EQ(sixth[0].times, 6);
    const auto& seventh = rounds[6].groups;
    EXPECT_EQ(seventh[0].before, 5);
    EXPECT_EQ(seventh[0].after, 0);
}

// Whatever the gauge: every round uses up all stitches of the round before and gives those it says.
TEST(CrownRounds, EveryRoundAddsUp) {
    for (double added = 3.0; added < 17.0; added += 0.37) {
        for (int body = 20; body < 130; body += 7) {
            const auto counts = round_counts(added, body);
            int before = 0;
            for (const auto& round : crown_rounds(counts, exact(6.0))) {
                int used = 0;
                int made = 0;
                int least = 1000;
                int most = 0;
                for (const auto& group : round.groups) {
                    const int plain = group.before + group.after;
                    used += group.times * (plain + 1);
                    made += group.times * (plain * round.into_plain + round.into_increase);
                    least = std::min(least, plain);
                    most = std::max(most, plain);
                }
                if (round.groups.empty()) {
                    used = before;
                    made = round.number == 1 ? round.stitches : before * round.into_plain;
                } else {
                    EXPECT_LE(most - least, 1);
                }
                EXPECT_EQ(used, before) << added << " " << body << " round " << round.number;
                EXPECT_EQ(made, round.stitches) << added << " " << body << " round " << round.number;
                before = round.stitches;
            }
            EXPECT_EQ(before, body);
        }
    }
}

// A published charity hat: double crochet, 10 a round, 5 in across after round 4, so 0.625 in a round.
TEST(CrownRounds, DiameterIsTwoRowHeightsARound) {
    const auto rounds = crown_rounds(round_counts(10, 40), exact(0.625 * mm_per_inch));
    EXPECT_NEAR(rounds.back().diameter_mm.value, 5.0 * mm_per_inch, 1e-9);
}

}  // namespace
}  // namespace ridgetally
