#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "catalog/catalog.h"
#include "core/units.h"

namespace ridgetally {
namespace {

Catalog loaded() { return load_catalog(RIDGETALLY_SOURCE_DIR "/models").value(); }

const HookSize& hook_of(const Catalog& catalog, double mm) {
    return *std::find_if(catalog.hooks.begin(), catalog.hooks.end(),
                         [&](const auto& h) { return h.mm == mm; });
}

// Marks printed in published pattern leaflets: C/2 2.75, D/3 3.25, H/8 5, J/10 6, K/10.5 6.5, L/11 8 mm.
TEST(Hooks, MarksAgreeWithLeaflets) {
    const Catalog catalog = loaded();
    EXPECT_EQ(hook_of(catalog, 2.75).us, "C-2");
    EXPECT_EQ(hook_of(catalog, 3.25).us, "D-3");
    EXPECT_EQ(hook_of(catalog, 5.0).us, "H-8");
    EXPECT_EQ(hook_of(catalog, 6.0).us, "J-10");
    EXPECT_EQ(hook_of(catalog, 6.5).us, "K-10.5");
    EXPECT_EQ(hook_of(catalog, 8.0).us, "L-11");
}

// The letter P is printed on 11, 11.5 and 15 mm (shop charts): no letter is a size.
TEST(Hooks, LettersAreAmbiguous) {
    int with_p = 0;
    for (const auto& hook : loaded().hooks) {
        auto marks = hook.us_also_seen;
        if (hook.us) marks.push_back(*hook.us);
        with_p +=
            std::any_of(marks.begin(), marks.end(), [](const auto& m) { return m.starts_with("P"); }) ? 1 : 0;
    }
    EXPECT_GE(with_p, 3);
}

// Higher steel numbers are thinner; 00 is 3.5 mm, 14 is 0.75 mm (common practice).
TEST(Hooks, SteelNumbersRunFromThickToThin) {
    const Catalog catalog = loaded();
    EXPECT_EQ(catalog.steel_hooks.front().us, "00");
    EXPECT_DOUBLE_EQ(catalog.steel_hooks.front().mm, 3.5);
    EXPECT_DOUBLE_EQ(catalog.steel_hooks.back().mm, 0.75);
}

// Standard Yarn Weight System: category 4 Medium, 11 to 14 single crochet over 4 in with 5.5 to 6.5 mm; 16 to
// 20 knit stitches. A knit gauge is never a crochet gauge: the middle of the crochet range is 0.57 to 0.77 of
// that of the knit one in categories 2 to 5.
TEST(YarnWeights, MediumIsThatOfTheSystem) {
    const Catalog catalog = loaded();
    ASSERT_EQ(catalog.yarn_weights.size(), 8U);
    const auto& medium = catalog.yarn_weights[4];
    EXPECT_EQ(medium.name, "Medium");
    EXPECT_TRUE(medium.crochet_stitches_4in.holds(11) && medium.crochet_stitches_4in.holds(14));
    EXPECT_FALSE(medium.crochet_stitches_4in.holds(15));
    EXPECT_TRUE(medium.hook_mm.holds(5.5) && medium.hook_mm.holds(6.5));
    EXPECT_FALSE(catalog.yarn_weights[7].hook_mm.high.has_value());
    for (int c = 2; c <= 5; ++c) {
        const auto& w = catalog.yarn_weights[static_cast<std::size_t>(c)];
        const double ratio = (*w.crochet_stitches_4in.low + *w.crochet_stitches_4in.high) /
                             (*w.knit_stitches_4in.low + *w.knit_stitches_4in.high);
        EXPECT_GT(ratio, 0.57) << w.name;
        EXPECT_LT(ratio, 0.78) << w.name;
    }
}

// Standard Yarn Weight System (Craft Yarn Council): single crochet over 4 in and hooks in mm, categories 1
// to 7.
TEST(YarnWeights, CrochetRangesAreThoseOfTheSystem) {
    struct Printed {
        int category;
        double stitches_low, stitches_high, hook_low, hook_high;
    };
    const Catalog catalog = loaded();
    for (const auto& p :
         {Printed{1, 21, 32, 2.25, 3.5}, Printed{2, 16, 20, 3.5, 4.5}, Printed{3, 12, 17, 4.5, 5.5},
          Printed{4, 11, 14, 5.5, 6.5}, Printed{5, 8, 11, 6.5, 9}, Printed{6, 6, 9, 9, 16}}) {
        const auto& weight = catalog.yarn_weights.at(static_cast<std::size_t>(p.category));
        EXPECT_EQ(weight.crochet_stitches_4in.low, p.stitches_low) << weight.name;
        EXPECT_EQ(weight.crochet_stitches_4in.high, p.stitches_high) << weight.name;
        EXPECT_EQ(weight.hook_mm.low, p.hook_low) << weight.name;
        EXPECT_EQ(weight.hook_mm.high, p.hook_high) << weight.name;
    }
    EXPECT_EQ(catalog.yarn_weights[7].crochet_stitches_4in.high, 5);
    EXPECT_FALSE(catalog.yarn_weights[7].crochet_stitches_4in.low);
    EXPECT_EQ(catalog.yarn_weights[7].hook_mm.low, 16);
}

// The exponent beside each published series is the least-squares slope of ln(stitch width) over ln(tool).
TEST(HookPractice, ExponentsFollowFromThePublishedSeries) {
    const HookPractice practice = loaded().hook_practice;
    ASSERT_GE(practice.published_responses.size(), 3U);
    for (const auto& series : practice.published_responses) {
        double mean_x = 0.0;
        double mean_y = 0.0;
        const auto n = static_cast<double>(series.tools_mm.size());
        for (std::size_t i = 0; i < series.tools_mm.size(); ++i) {
            mean_x += std::log(series.tools_mm[i]) / n;
            mean_y -= std::log(series.counts[i]) / n;
        }
        double xy = 0.0;
        double xx = 0.0;
        for (std::size_t i = 0; i < series.tools_mm.size(); ++i) {
            const double dx = std::log(series.tools_mm[i]) - mean_x;
            xy += dx * (-std::log(series.counts[i]) - mean_y);
            xx += dx * dx;
        }
        EXPECT_NEAR(series.exponent, xy / xx, 0.02) << series.what;
        EXPECT_GE(series.exponent, practice.response.low);
        EXPECT_LE(series.exponent, practice.response.high);
    }
}

// Heavier yarn, fewer stitches.
TEST(YarnWeights, GaugesFall) {
    const Catalog catalog = loaded();
    for (std::size_t i = 1; i < 8; ++i)
        EXPECT_LT(*catalog.yarn_weights[i].crochet_stitches_4in.high,
                  *catalog.yarn_weights[i - 1].crochet_stitches_4in.high + 1e-9);
}

// WHO Child Growth Standards: boys' median head at birth 34.5 cm, at 12 months 46.1, at 60 months 50.7;
// girls' 33.9, 44.9, 49.9.
TEST(Heads, ChildrenFollowTheWhoStandards) {
    const Catalog catalog = loaded();
    const auto at = [&](int months) {
        return *std::find_if(catalog.child_heads.begin(), catalog.child_heads.end(),
                             [&](const auto& h) { return h.age_months == months; });
    };
    EXPECT_DOUBLE_EQ(at(0).boys.p50_mm, 345);
    EXPECT_DOUBLE_EQ(at(12).boys.p50_mm, 461);
    EXPECT_DOUBLE_EQ(at(60).boys.p50_mm, 507);
    EXPECT_DOUBLE_EQ(at(0).girls.p50_mm, 339);
    EXPECT_DOUBLE_EQ(at(12).girls.p50_mm, 449);
    EXPECT_DOUBLE_EQ(at(60).girls.p50_mm, 499);
    for (std::size_t i = 1; i < catalog.child_heads.size(); ++i)
        EXPECT_GT(catalog.child_heads[i].girls.p50_mm, catalog.child_heads[i - 1].girls.p50_mm);
}

// WHO Child Growth Standards, head circumference for age, L, M and S of the printed table (cm): the value at
// z is M (1 + L S z)^(1/L), L being 1 throughout; the 3rd and 97th percentile lie at z = -+1.88079. The
// catalogue keeps whole millimetres.
TEST(Heads, PercentilesAreThoseOfLMS) {
    struct Lms {
        int months;
        bool boys;
        double m_cm;
        double s;
    };
    const Catalog catalog = loaded();
    for (const auto& [months, boys, m_cm, s] :
         {Lms{0, true, 34.4618, 0.03686}, Lms{0, false, 33.8787, 0.03496}, Lms{12, true, 46.0637, 0.02789},
          Lms{12, false, 44.894, 0.03027}, Lms{60, true, 50.7372, 0.02945},
          Lms{60, false, 49.9225, 0.0285}}) {
        const auto row = std::find_if(catalog.child_heads.begin(), catalog.child_heads.end(),
                                      [&, m = months](const auto& h) { return h.age_months == m; });
        ASSERT_NE(row, catalog.child_heads.end());
        const HeadPercentiles& heads = boys ? row->boys : row->girls;
        const auto at_mm = [m = m_cm, sd = s](double z) { return 10.0 * m * (1.0 + sd * z); };
        EXPECT_NEAR(heads.p3_mm, at_mm(-1.88079), 0.5) << months;
        EXPECT_NEAR(heads.p50_mm, at_mm(0.0), 0.5) << months;
        EXPECT_NEAR(heads.p97_mm, at_mm(1.88079), 0.5) << months;
    }
}

// NATICK/TR-15/007. A normal law with the stated mean and deviation has its 5th and 95th percentile 1.645
// deviations out; heads are a little skewed, so a quarter of a deviation is allowed.
TEST(Heads, AdultPercentilesFitMeanAndDeviation) {
    const Catalog catalog = loaded();
    ASSERT_EQ(catalog.adult_heads.size(), 2U);
    for (const auto& heads : catalog.adult_heads) {
        EXPECT_NEAR(heads.p5_mm, heads.mean_mm - 1.645 * heads.std_mm, 0.25 * heads.std_mm);
        EXPECT_NEAR(heads.p95_mm, heads.mean_mm + 1.645 * heads.std_mm, 0.25 * heads.std_mm);
    }
    EXPECT_LE(catalog.hat_practice.ease.low, catalog.hat_practice.ease.usual);
}

}  // namespace
}  // namespace ridgetally
