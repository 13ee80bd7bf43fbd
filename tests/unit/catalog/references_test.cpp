#include <gtest/gtest.h>

#include <cmath>

#include "catalog/catalog.h"

namespace ridgetally {
namespace {

Catalog loaded() { return load_catalog(RIDGETALLY_SOURCE_DIR "/models").value(); }

// ISO/IEC 7810: ID-1 is 85.60 mm x 53.98 mm, 0.76 mm thick.
TEST(References, Id1CardIsThatOfTheStandard) {
    const Catalog catalog = loaded();
    const auto* card = find_flat_object(catalog, "id1-card");
    ASSERT_NE(card, nullptr);
    EXPECT_DOUBLE_EQ(card->width_mm.nominal, 85.60);
    EXPECT_DOUBLE_EQ(card->height_mm.nominal, 53.98);
    EXPECT_DOUBLE_EQ(card->thickness_mm.nominal, 0.76);
}

// ISO 216: A4 is 210 mm x 297 mm, sides in the ratio of the square root of 2 to the nearest mm, area of An
// 2^-n square metres; tolerance +-1.5 mm up to 150 mm, +-2 mm above that up to 600 mm.
TEST(References, SheetsFollowIso216) {
    const Catalog catalog = loaded();
    for (const auto& [key, n] : {std::pair{"a4", 4}, {"a5", 5}, {"a6", 6}}) {
        SCOPED_TRACE(key);
        const auto* sheet = find_flat_object(catalog, key);
        ASSERT_NE(sheet, nullptr);
        EXPECT_NEAR(sheet->height_mm.nominal, sheet->width_mm.nominal / std::sqrt(2.0), 1.0);
        EXPECT_NEAR(sheet->width_mm.nominal * sheet->height_mm.nominal * 1e-6, std::exp2(-n),
                    0.01 * std::exp2(-n));
        for (const auto& side : {sheet->width_mm, sheet->height_mm}) {
            const double tolerance = side.nominal <= 150.0 ? 1.5 : 2.0;
            EXPECT_DOUBLE_EQ(side.high - side.nominal, tolerance);
            EXPECT_DOUBLE_EQ(side.nominal - side.low, tolerance);
        }
    }
    EXPECT_DOUBLE_EQ(find_flat_object(catalog, "a4")->width_mm.nominal, 297.0);
    EXPECT_DOUBLE_EQ(find_flat_object(catalog, "a4")->height_mm.nominal, 210.0);
}

// ANSI/ASME Y14.1, size A: 8.5 in x 11 in.
TEST(References, LetterIsEightAndAHalfByElevenInches) {
    const Catalog catalog = loaded();
    const auto* sheet = find_flat_object(catalog, "letter");
    ASSERT_NE(sheet, nullptr);
    EXPECT_NEAR(sheet->width_mm.nominal, 11.0 * 25.4, 1e-9);
    EXPECT_NEAR(sheet->height_mm.nominal, 8.5 * 25.4, 1e-9);
}

// United States Mint, Coin Specifications; Council Regulation (EU) No 729/2014.
TEST(References, CoinsAreThoseOfTheMints) {
    const Catalog catalog = loaded();
    EXPECT_DOUBLE_EQ(find_coin(catalog, "usd-0.25")->diameter_mm.nominal, 24.26);
    EXPECT_DOUBLE_EQ(find_coin(catalog, "usd-0.01")->diameter_mm.nominal, 19.05);
    EXPECT_DOUBLE_EQ(find_coin(catalog, "eur-2")->diameter_mm.nominal, 25.75);
    EXPECT_DOUBLE_EQ(find_coin(catalog, "eur-1")->diameter_mm.nominal, 23.25);
    EXPECT_EQ(find_coin(catalog, "gbp-0.50"), nullptr);  // seven-sided: no diameter
}

// MI-008 (Directive 2014/32/EU, annex X): +-(a + b L) mm, L rounded up to a whole metre, so 10 cm carries the
// limit of 1 m: classes I, II, III 0.2, 0.5, 1.0 mm; c more from an end face: 0.3, 0.7, 1.3 mm.
TEST(References, RuleClassesGiveTheDirectivesLimits) {
    const Catalog catalog = loaded();
    struct Worked {
        const char* key;
        double metre, end, two_metres;
    };
    for (const auto& worked : {Worked{"mi008-1", 0.2, 0.3, 0.3}, Worked{"mi008-2", 0.5, 0.7, 0.7},
                               Worked{"mi008-3", 1.0, 1.3, 1.4}}) {
        SCOPED_TRACE(worked.key);
        const auto* rule = find_rule_class(catalog, worked.key);
        ASSERT_NE(rule, nullptr);
        EXPECT_NEAR(tolerance_between_marks_mm(*rule, 100.0), worked.metre, 1e-9);
        EXPECT_NEAR(tolerance_between_marks_mm(*rule, 1000.0), worked.metre, 1e-9);
        EXPECT_NEAR(tolerance_between_marks_mm(*rule, 1000.1), worked.two_metres, 1e-9);
        EXPECT_NEAR(tolerance_from_end_mm(*rule, 300.0), worked.end, 1e-9);
    }
    const auto* second = find_rule_class(catalog, "mi008-2");
    EXPECT_NEAR(relative_std_between_marks(*second, 100.0) * std::sqrt(3.0), 0.005, 1e-12);
    EXPECT_THROW((void)tolerance_between_marks_mm(*second, 0.0), std::invalid_argument);
}

// JIS B 7516 metal rules, class 1: up to 500 mm 0.15 mm, 1,000 mm 0.20, 1,500 mm 0.25, 2,000 mm 0.30 (from a
// transcription).
TEST(References, MetalRulesFollowJisB7516) {
    const Catalog catalog = loaded();
    const auto* rule = find_rule_class(catalog, "jis-b7516-1");
    ASSERT_NE(rule, nullptr);
    EXPECT_NEAR(tolerance_between_marks_mm(*rule, 300.0), 0.15, 1e-9);
    EXPECT_NEAR(tolerance_between_marks_mm(*rule, 1000.0), 0.20, 1e-9);
    EXPECT_NEAR(tolerance_between_marks_mm(*rule, 1500.0), 0.25, 1e-9);
    EXPECT_NEAR(tolerance_between_marks_mm(*rule, 2000.0), 0.30, 1e-9);
}

// JIS B 7516 (from memory): metal rules of 150, 300 and 600 mm are 0.5, 1.0 and 1.2 mm thick.
TEST(References, SteelRulesAreAsThickAsJisB7516HasThem) {
    const Catalog catalog = loaded();
    const auto* steel = find_ruler_kind(catalog, "steel");
    ASSERT_NE(steel, nullptr);
    EXPECT_DOUBLE_EQ(steel->face_mm.low, 0.5);
    EXPECT_DOUBLE_EQ(steel->face_mm.high, 1.2);
}

// Common practice, no source: a tape is thinner than a steel rule, a steel rule than a plastic one, and wood
// the thickest.
TEST(References, RulersAreThickByWhatTheyAreMadeOf) {
    const Catalog catalog = loaded();
    double before = 0.0;
    for (const char* key : {"tape", "steel", "plastic", "wood"}) {
        const auto* kind = find_ruler_kind(catalog, key);
        ASSERT_NE(kind, nullptr) << key;
        const double middle = 0.5 * (kind->face_mm.low + kind->face_mm.high);
        EXPECT_GT(middle, before) << key;
        before = middle;
    }
}

// JCGM 100:2008, clause 4.3.7: half-width a gives a / sqrt(3).
TEST(References, LimitsAreARectangularDistribution) {
    const Limits limits{100.0, 98.0, 102.0, "made up"};
    EXPECT_NEAR(limits.std(), 2.0 / std::sqrt(3.0), 1e-12);
}

}  // namespace
}  // namespace ridgetally
