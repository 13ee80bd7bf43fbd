#include "scale/graduation.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/random.h"
#include "core/units.h"

namespace ridgetally {
namespace {

/// Lengths of marks by the pattern of their index, with scatter and some lengthened by numerals.
template <typename Length>
std::vector<MarkLength> lengths(int count, const Length& length, double scatter, double spoiled,
                                std::uint64_t seed) {
    Random random(seed);
    std::vector<MarkLength> out;
    for (int k = 3; k < 3 + count; ++k) {
        double l = length(k) * (1.0 + random.normal(0.0, scatter));
        if (random.uniform(0.0, 1.0) < spoiled) l *= random.uniform(1.1, 2.0);
        out.push_back({k, l});
    }
    return out;
}

double metric(int k) { return k % 10 == 0 ? 7.0 : (k % 5 == 0 ? 5.2 : 3.5); }
double half_mm(int k) { return k % 20 == 0 ? 14.0 : (k % 10 == 0 ? 10.0 : (k % 2 == 0 ? 7.0 : 4.6)); }
double sixteenths(int k) {
    return k % 16 == 0 ? 5.6 : (k % 8 == 0 ? 4.5 : (k % 4 == 0 ? 3.5 : (k % 2 == 0 ? 2.6 : 1.8)));
}
double eighths(int k) { return k % 8 == 0 ? 2.8 : (k % 4 == 0 ? 2.2 : (k % 2 == 0 ? 1.7 : 1.2)); }

/// How 20 lists of one rule's lengths are read, each with scatter of its own.
struct Tally {
    int right = 0;  ///< leading clearly, at a mark of the longest class
    int wrong = 0;  ///< another step leading by so much that a ruler would be read so
};

Tally tally(int count, double (*length)(int), LengthUnit unit, double mm, int whole_period) {
    constexpr double clearly = 5.0;
    constexpr double decided = 8.0;  // what ruler_decision asks for
    Tally tally;
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const GraduationEvidence e = weigh_graduations(lengths(count, length, 0.04, 0.05, seed));
        if (e.readings.empty() || !e.divided()) continue;
        const GraduationReading& best = e.readings.front();
        const double lead = e.readings.size() > 1 ? best.log_score - e.readings[1].log_score : best.log_score;
        const bool same = best.unit == unit && std::abs(best.mm_per_index - mm) < 1e-12;
        tally.right += same && lead > clearly && best.whole_index % whole_period == 0 ? 1 : 0;
        tally.wrong += !same && lead >= decided ? 1 : 0;
    }
    return tally;
}

/// Scatter of 4 % may by chance make every other inch mark longer, as on a rule of half the step: one list
/// may be left open, none may be read wrongly.
void expect_read(const Tally& tally) {
    EXPECT_GE(tally.right, 19);
    EXPECT_EQ(tally.wrong, 0);
}

TEST(Graduation, KnowsTheCommonDivisions) {
    expect_read(tally(120, metric, LengthUnit::mm, 1.0, 10));
    expect_read(tally(150, half_mm, LengthUnit::mm, 0.5, 20));
    expect_read(tally(90, sixteenths, LengthUnit::inch, mm_per_inch / 16, 16));
    expect_read(tally(60, eighths, LengthUnit::inch, mm_per_inch / 8, 8));
}

TEST(Graduation, CombsAndFencesAreNoRules) {
    EXPECT_FALSE(weigh_graduations(lengths(
                                       100, [](int) { return 4.0; }, 0.05, 0.05, 3))
                     .divided());
    EXPECT_FALSE(weigh_graduations(lengths(
                                       100, [](int k) { return k % 7 == 0 ? 6.0 : 4.0; }, 0.04, 0.0, 4))
                     .divided());
    EXPECT_FALSE(weigh_graduations(lengths(
                                       100, [](int k) { return k % 2 == 0 ? 6.0 : 4.0; }, 0.04, 0.0, 5))
                     .divided());
    Random random(6);
    EXPECT_FALSE(weigh_graduations(lengths(
                                       100, [&](int) { return random.uniform(2.0, 6.0); }, 0.0, 0.0, 6))
                     .divided());
}

TEST(Graduation, TooLittleSeenDoesNotDecide) {
    // Three eighths each side of an inch mark look like three sixteenths each side of one.
    const auto around_an_inch = [](int k) { return eighths(k - 2); };
    std::vector<MarkLength> few;
    for (int k = 7; k <= 13; ++k) few.push_back({k, around_an_inch(k)});
    EXPECT_FALSE(weigh_graduations(few).divided());
}

TEST(Graduation, EqualFivesAndTensLeaveTwoReadings) {
    const GraduationEvidence e = weigh_graduations(lengths(
        60, [](int k) { return k % 5 == 0 ? 6.0 : 3.5; }, 0.03, 0.0, 9));
    ASSERT_GE(e.readings.size(), 2U);
    // 5 mm marks on a mm rule, or cm marks on one of 2 mm: the second is rare, and stays in the list.
    EXPECT_NEAR(e.readings[0].mm_per_index, 1.0, 1e-12);
    EXPECT_NEAR(e.readings[1].mm_per_index, 2.0, 1e-12);
}

/// By how much a step of `mm` leads all others where marks are divided so, the shortest of that many
/// spacings.
double lead_of(double mm, double (*length)(int), int count, double short_spacings) {
    const auto scaled = [&](int k) { return length(k) / length(1) * short_spacings; };
    const GraduationEvidence e = weigh_graduations(lengths(count, scaled, 0.04, 0.0, 11));
    EXPECT_TRUE(e.divided());
    if (e.readings.size() < 2 || e.readings[0].mm_per_index != mm) return 0.0;
    return e.readings[0].log_score - e.readings[1].log_score;
}

TEST(Graduation, TenthsOfAnInchAreNotTakenForMillimetres) {
    constexpr double decided = 8.0;  // what ruler_decision asks for
    // Marks of a rule that is sold divided into tenths of an inch: the shortest are 2.4 mm long, six inches
    // of them. Read as mm they would be a millimetre long, and the photo would show six centimetres of a
    // rule.
    EXPECT_LT(lead_of(1.0, metric, 61, 0.95), decided);
    EXPECT_LT(lead_of(1.0, metric, 40, 0.95), decided);
    EXPECT_GE(lead_of(1.0, metric, 150, 3.0), decided);
    EXPECT_GE(lead_of(1.0, metric, 60, 3.0), decided);
    // A long tape with short marks would be 70 cm of tenths.
    EXPECT_GE(lead_of(1.0, metric, 275, 1.1), decided);
    // The same of twentieths and half millimetres.
    EXPECT_LT(lead_of(0.5, half_mm, 104, 0.9), decided);
    EXPECT_GE(lead_of(0.5, half_mm, 300, 2.8), decided);
}

}  // namespace
}  // namespace ridgetally
