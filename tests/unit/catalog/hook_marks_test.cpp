#include "catalog/hook_marks.h"

#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <vector>

namespace ridgetally {
namespace {

const Catalog& catalog() {
    static const Catalog loaded = load_catalog(RIDGETALLY_SOURCE_DIR "/models").value();
    return loaded;
}

TEST(HookMarks, SizesInMillimetres) {
    const std::vector<std::pair<std::string, double>> told = {
        {"5.5mm", 5.5}, {"5,5 mm", 5.5}, {" 10 mm ", 10.0}, {"5.5", 5.5}, {"15.0mm", 15.0}};
    for (const auto& [text, mm] : told) {
        const auto hook = hook_from(catalog(), text);
        ASSERT_TRUE(hook) << text;
        EXPECT_DOUBLE_EQ(hook->mm, mm) << text;
        EXPECT_TRUE(hook->warnings.empty()) << text;
    }
}

// Marks printed in published pattern leaflets: C/2 2.75, D/3 3.25, H/8 5, 9 5.5, J/10 6, L/11 8, N/15 10 mm.
TEST(HookMarks, UsMarksOfLeaflets) {
    const std::vector<std::pair<std::string, double>> printed = {
        {"US D/3", 3.25}, {"US H-8", 5.0},   {"H/8", 5.0},     {"us h 8", 5.0}, {"US 9", 5.5},  {"J-10", 6.0},
        {"US L-11", 8.0}, {"US N/15", 10.0}, {"US M/13", 9.0}, {"US 7", 4.5},   {"US I-9", 5.5}};
    for (const auto& [text, mm] : printed) {
        const auto hook = hook_from(catalog(), text);
        ASSERT_TRUE(hook) << text << ": " << hook.refusal().message;
        EXPECT_DOUBLE_EQ(hook->mm, mm) << text;
    }
}

// Charts disagree (shop charts, common practice): B is 2.25 or 2 mm, K-10.5 is 6.5 or 7, G is 4 or 4.25, P is
// 10 (as N/P), 11, 11.5 or 15, old UK 4 is 6 mm in most.
TEST(HookMarks, WhereChartsDisagreeThereIsAWarningOrARefusal) {
    for (const std::string text : {"US B-1", "US K-10.5", "US C-2"}) {
        const auto hook = hook_from(catalog(), text);
        ASSERT_TRUE(hook) << text;
        ASSERT_EQ(hook->warnings.size(), 1U) << text;
        EXPECT_NE(hook->warnings[0].find("check the mm"), std::string::npos);
    }
    for (const std::string text : {"US P", "P", "US G", "UK 11"}) {
        const auto hook = hook_from(catalog(), text);
        ASSERT_FALSE(hook) << text;
        EXPECT_EQ(hook.refusal().code, "ambiguous-hook") << text;
    }
}

// "7" is 4.5 mm (US), 1.65 mm (US steel), 4.5 mm (old UK) or 7 mm: a bare number must not be guessed.
TEST(HookMarks, BareNumbersThatAreMarksAreRefused) {
    for (const std::string text : {"7", "5", "8", "10"}) {
        const auto hook = hook_from(catalog(), text);
        ASSERT_FALSE(hook) << text;
        EXPECT_EQ(hook.refusal().code, "ambiguous-hook");
        EXPECT_NE(hook.refusal().hint.find(text + "mm"), std::string::npos);
    }
    EXPECT_DOUBLE_EQ(hook_from(catalog(), "7mm")->mm, 7.0);
    EXPECT_DOUBLE_EQ(hook_from(catalog(), "steel 7")->mm, 1.65);
    EXPECT_DOUBLE_EQ(hook_from(catalog(), "UK 7")->mm, 4.5);
}

TEST(HookMarks, WhatIsNoHookIsRefused) {
    for (const std::string text :
         {"", "mm", "US", "US 99", "UK", "steel 99", "0.1mm", "99mm", "-5mm", "ZZ", "4x5"}) {
        const auto hook = hook_from(catalog(), text);
        ASSERT_FALSE(hook) << text;
        EXPECT_EQ(hook.refusal().code, "unknown-hook") << text;
        EXPECT_FALSE(hook.refusal().hint.empty());
    }
}

TEST(HookMarks, AListIsInMillimetres) {
    const auto hooks = hooks_mm_from(catalog(), "5, 4,4.5,5mm, US H-8");
    ASSERT_TRUE(hooks);
    EXPECT_EQ(*hooks, (std::vector<double>{4.0, 4.5, 5.0}));
    EXPECT_FALSE(hooks_mm_from(catalog(), ""));
    EXPECT_FALSE(hooks_mm_from(catalog(), "4,,5"));
    EXPECT_FALSE(hooks_mm_from(catalog(), "4,x"));
}

TEST(HookMarks, ASizeIsCalledByItsMarks) {
    EXPECT_EQ(marks_of(catalog(), 5.5), "US I-9, UK 5");
    EXPECT_EQ(marks_of(catalog(), 20.0), "");
    EXPECT_EQ(marks_of(catalog(), 5.6), "");
}

}  // namespace
}  // namespace ridgetally
