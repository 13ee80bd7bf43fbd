#include "advice/heads.h"

#include <gtest/gtest.h>

#include "unit/advice/advice_fixture.h"

namespace ridgetally {
namespace {

// WHO Child Growth Standards, L, M, S: at 12 months M = 46.0637 cm (boys) and 44.894 cm (girls); the 3rd
// percentile of the girls is 42.3 cm, the 97th of the boys 48.5 cm.
TEST(Heads, OfAnAgeAreThoseOfTheGrowthStandards) {
    const Head year = head_of_age(12, real_catalog()).value();
    EXPECT_NEAR(year.circumference_mm, 0.5 * (460.637 + 448.94), 1.0);
    EXPECT_NEAR(*year.low_mm, 423, 0.5);
    EXPECT_NEAR(*year.high_mm, 485, 0.5);
    EXPECT_EQ(year.name, "12 months");
    const Head newborn = head_of_age(0, real_catalog()).value();
    EXPECT_NEAR(newborn.circumference_mm, 0.5 * (344.618 + 338.787), 1.0);
    // Four months, by the printed table 41.6 cm (boys) and 40.6 cm (girls), from memory: between three and
    // six.
    EXPECT_NEAR(head_of_age(4, real_catalog())->circumference_mm, 411.0, 5.0);
    EXPECT_EQ(head_of_age(61, real_catalog()).refusal().code, "no-head");
    EXPECT_EQ(head_of_age(-1, real_catalog()).refusal().code, "no-head");
}

TEST(Heads, TradeSizesAreLabelledAsSuch) {
    const Head toddler = head_of_size("toddler", real_catalog()).value();
    EXPECT_NEAR(toddler.circumference_mm, 17 * 25.4, 1e-9);  // 16 to 18 in
    EXPECT_NE(toddler.source.find("trade"), std::string::npos);
    EXPECT_EQ(head_of_size("giant", real_catalog()).refusal().code, "no-head");
}

// 2012 Anthropometric Survey of U.S. Army Personnel: 5, 50 and 95 of 100 men have a head below 548, 574 and
// 601 mm, women below 532, 560 and 597 mm. Heads are a little skewed against the normal distribution: 2 of
// 100 are allowed.
TEST(Heads, AmongAdultsAreThoseOfTheSurvey) {
    const auto men = [](double mm) { return among_people(mm, real_catalog()).men_smaller; };
    const auto women = [](double mm) { return among_people(mm, real_catalog()).women_smaller; };
    EXPECT_NEAR(men(548), 0.05, 0.02);
    EXPECT_NEAR(men(574), 0.50, 0.02);
    EXPECT_NEAR(men(601), 0.95, 0.02);
    EXPECT_NEAR(women(532), 0.05, 0.02);
    EXPECT_NEAR(women(560), 0.50, 0.03);
    EXPECT_NEAR(women(597), 0.95, 0.02);
    EXPECT_FALSE(among_people(574, real_catalog()).average_age_months);
    EXPECT_NEAR(*among_people(455, real_catalog()).average_age_months, 12.0, 0.5);
}

TEST(Heads, CautionsStandWithBabiesAndChildren) {
    const Head adult{560.0, "56 cm", "told", {}, {}};
    const Head baby = head_of_age(6, real_catalog()).value();
    EXPECT_TRUE(cautions_for({adult}, real_catalog()).empty());
    EXPECT_TRUE(is_childs_head(455, real_catalog()));
    EXPECT_FALSE(is_childs_head(540, real_catalog()));
    const auto cautions = cautions_for({adult, baby}, real_catalog());
    std::string all;
    for (const auto& caution : cautions) {
        all += caution.text;
        EXPECT_FALSE(caution.source.empty());
    }
    for (const char* word : {"Buttons", "pom-pom", "cords", "sleeping", "country"})
        EXPECT_NE(all.find(word), std::string::npos) << word;
}

}  // namespace
}  // namespace ridgetally
